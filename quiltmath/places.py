"""Where the kit's own files lie: inside the package once installed, beside it in a checkout."""
import os
import tempfile
from pathlib import Path

PACKAGE = Path(__file__).parent


def folder(name):
    """The folder `name` ("data" or "notebooks") that came with this copy of the kit, as a Path.

    >>> folder("data").is_dir()
    True
    >>> folder("attic")
    Traceback (most recent call last):
    FileNotFoundError: this copy of quiltmath carries no folder 'attic'; install it again from the wheel or the checkout
    """
    for home in (PACKAGE, PACKAGE.parent):
        if (home / name).is_dir():
            return home / name
    raise FileNotFoundError(
        f"this copy of quiltmath carries no folder {name!r}; install it again from the wheel or the checkout")


class AlreadyThere(FileExistsError):
    """A file that would be written over; nothing was written."""


def save(path, content, over=False):
    """Write bytes to a file all at once: a reader never finds it half written, and it is never written over unless told to.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as empty:
    ...     save(Path(empty) / "sheet.toml", b"title = 'x'")
    ...     save(Path(empty) / "sheet.toml", b"")
    Traceback (most recent call last):
    quiltmath.places.AlreadyThere: sheet.toml is there already; give another name, or say that it may be written over
    """
    path = Path(path)
    if path.exists() and not over:
        raise AlreadyThere(f"{path.name} is there already; give another name, or say that it may be written over")
    with tempfile.NamedTemporaryFile(dir=path.parent, prefix=f".{path.name}.", delete=False) as draft:
        draft.write(content)
    try:
        os.chmod(draft.name, 0o644)
        os.replace(draft.name, path)
    except OSError:
        os.unlink(draft.name)
        raise
