"""Files that people hand in: their bytes, or one sentence on why there are none."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from ..resources import shown


class Kind(NamedTuple):
    """A kind of file: what one is called, which to name in place of a folder, how many bytes one has at most, and what
    to do with one that has more."""

    called: str
    one: str
    most: int
    cure: str


def contents(path: str | Path, kind: Kind, refused: type[ValueError] = ValueError) -> bytes:
    """The bytes of a file of this kind; what cannot be opened, or is too long, is `refused` in words.

    >>> contents("no-such-file.txt", Kind("a page", "one page", 10, "is it the right file?"))
    Traceback (most recent call last):
    ValueError: no-such-file.txt: there is no such file; check its name and folder
    """
    path, name = Path(path), shown(path)
    try:
        raw, size = _read(path, kind.most)
    except IsADirectoryError:
        raise refused(f"{name}: this is a folder; name {kind.one}") from None
    except FileNotFoundError:
        raise refused(f"{name}: there is no such file; check its name and folder") from None
    except (OSError, ValueError) as problem:
        said = getattr(problem, "strerror", None) or problem
        raise refused(f"{name}: the file cannot be opened ({said})") from None
    if len(raw) > kind.most:
        more = f"{size:,}" if size > kind.most else "more"
        raise refused(f"{name}: {kind.called} has at most {kind.most:,} bytes; this file has {more}: {kind.cure}")
    return raw


def _read(path, most):
    """Up to one byte more than so many of a file, and its size, where it tells one."""
    if path.is_dir():  # Windows says of one only that it may not be opened
        raise IsADirectoryError
    with path.open("rb") as file:
        return file.read(most + 1), path.stat().st_size  # a device or a pipe tells no size and may never end
