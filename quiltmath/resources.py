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
LONGEST_SHOWN = 120
SHARED = "QUILTMATH_SHARED"  # set in the environment while others than the owner of this computer use it
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


def same(one: str | Path, other: str | Path) -> bool:
    """Whether two names are those of one file that is there, through links too.

    >>> same(__file__, PACKAGE / "resources.py"), same(__file__, "no such file")
    (True, False)
    """
    try:
        return os.path.samefile(one, other)
    except (OSError, ValueError):
        return False


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


class CannotSave(ValueError):
    """A file that has no place to go; the message says why and what to do instead."""


def save_as_named(path: str | Path, content: bytes, force: bool = False) -> Path:
    """Save bytes where a reader asked for it; refused, in words for that reader, with `CannotSave`.

    >>> with tempfile.TemporaryDirectory() as empty:
    ...     save_as_named(Path(empty) / "sheet.toml", b"title = 'x'").name
    'sheet.toml'
    >>> save_as_named("/", b"")
    Traceback (most recent call last):
    quiltmath.resources.CannotSave: / is a folder: name a file in it
    """
    path = Path(path)
    if path.is_dir():
        raise CannotSave(f"{shown(path)} is a folder: name a file in it")
    try:
        save(path, content, over=force)
    except AlreadyThere:
        raise CannotSave(
            f"{shown(path)} is there already: add --force to write over it, or choose another name"
        ) from None
    except OSError as problem:
        raise CannotSave(
            f"{shown(path)} cannot be written ({problem.strerror or problem}): choose a folder of your own"
        ) from None
    return path


def shown(path: str | Path) -> str:
    """A path as a message names it: no control characters, no more than 120 signs."""
    text = "".join(char if char.isprintable() else "?" for char in str(path))
    return text if len(text) <= LONGEST_SHOWN else f"{text[: LONGEST_SHOWN - 1]}…"


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
