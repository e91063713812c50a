"""Where the kit's own files lie: inside the package once installed, beside it in a checkout."""

import os
import tempfile
from contextlib import suppress
from pathlib import Path

try:
    import fcntl
except ImportError:  # a system that lets nobody take away a file that is open
    fcntl = None  # type: ignore[assignment]

PACKAGE = Path(__file__).parent
DRAFT = ".quiltmath-"  # begins the name of a file that is being written


def folder(name: str) -> Path:
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
        f"this copy of quiltmath carries no folder {name!r}; install it again from the wheel or the checkout"
    )


class AlreadyThere(FileExistsError):
    """A file that would be written over; nothing was written."""


def save(path: str | Path, content: bytes, over: bool = False) -> None:
    """Write bytes to a file, whole or not at all, in a folder that is made where it is missing; over another file only
    by `over`.

    >>> with tempfile.TemporaryDirectory() as empty:
    ...     save(Path(empty) / "sheet.toml", b"title = 'x'")
    ...     save(Path(empty) / "sheet.toml", b"")
    Traceback (most recent call last):
    quiltmath.resources.AlreadyThere: sheet.toml is there already; give another name, or say that it may be written over
    """
    path = Path(os.path.realpath(path)) if over else Path(path)  # a link stays one: what it stands for is written
    path.parent.mkdir(parents=True, exist_ok=True)
    if not over:
        _refuse(path)
    _sweep(path.parent)
    with tempfile.NamedTemporaryFile(
        dir=path.parent, prefix=DRAFT, suffix=f"{path.suffix}.part", delete=False
    ) as draft:
        try:
            _held(draft)
            draft.write(content)
            draft.flush()
            # only its owner may read a temporary file; a new file has other rights
            os.chmod(draft.name, 0o666 & ~_mask())
            if fcntl is None:
                draft.close()  # such a system moves no open file
            _move(draft.name, path, over)
        finally:
            draft.close()
            Path(draft.name).unlink(missing_ok=True)


def _held(draft):
    """Whether this file is ours alone; it is until it is closed, or whoever opened it has ended, however that was."""
    try:
        if fcntl is not None:
            fcntl.flock(draft, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _sweep(place):
    """Take away the unfinished files that a run left here that was ended by force."""
    for left in place.glob(f"{DRAFT}*.part"):
        with suppress(OSError), left.open("rb") as scrap:
            if fcntl is None:
                scrap.close()
            if _held(scrap):
                left.unlink()


def _refuse(path):
    if os.path.lexists(path):
        raise AlreadyThere(f"{path.name} is there already; give another name, or say that it may be written over")


def _mask():
    """The rights that new files do not get here."""
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _move(draft, path, over):
    """Move the finished file to its place; without `over` not over one that came to be there meanwhile."""
    if over:
        os.replace(draft, path)
        return
    try:
        os.link(draft, path)  # unlike a move, refuses to write over a file
    except FileExistsError:
        _refuse(path)
        raise
    except OSError:  # a drive that knows no second names
        _refuse(path)
        os.replace(draft, path)
