"""In what two sheets differ, value by value."""

from __future__ import annotations

from difflib import SequenceMatcher
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence


class Difference(NamedTuple):
    """One value that differs: its path of keys and list numbers in the first sheet, what it was (None: it was not
    there) and what it is now (None: it is gone). The path of one more table of a list is that of the table it comes
    before."""

    path: tuple[str | int, ...]
    old: Any
    new: Any


def differences(old: Any, new: Any, path: tuple = ()) -> Iterator[Difference]:
    """Every `Difference` of two sheets as plain tables (see `as_data`), in the order of the first.

    >>> list(differences({"cut": [{"part": "A", "count": 1}]}, {"cut": [{"part": "A", "count": 2}, {"part": "B"}]}))
    [Difference(path=('cut', 0, 'count'), old=1, new=2), Difference(path=('cut', 1), old=None, new={'part': 'B'})]
    """
    if old == new:
        return
    if isinstance(old, dict) and isinstance(new, dict):
        for key in [*old, *(key for key in new if key not in old)]:
            yield from differences(old.get(key), new.get(key), (*path, key))
    elif _tables(old) and _tables(new):
        yield from _of_lists(old, new, path)
    else:
        yield Difference(path, old, new)


def aligned(old: Sequence, new: Sequence) -> Iterator[tuple[int, int | None, int | None]]:
    """Two lists side by side: (place in the old one, number of the old item or None, of the new item or None) each."""
    for how, i, i_end, j, j_end in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        both = i_end - i if how == "equal" else min(i_end - i, j_end - j)
        yield from ((i + more, i + more, j + more) for more in range(both))
        yield from ((gone, gone, None) for gone in range(i + both, i_end))
        yield from ((i_end, None, come) for come in range(j + both, j_end))


def _tables(value):
    return isinstance(value, list) and bool(value) and all(isinstance(one, dict) for one in value)


def _of_lists(old, new, path):
    """The differences of two lists of tables, of which those with the same name belong together."""
    names = [[str(one.get("part") or one.get("name") or "") for one in tables] for tables in (old, new)]
    for place, was, now in aligned(*names):
        same = was is not None and now is not None and names[0][was] == names[1][now]
        if same:
            yield from differences(old[was], new[now], (*path, was))
            continue
        if was is not None:
            yield Difference((*path, was), old[was], None)
        if now is not None:
            yield Difference((*path, place + (was is not None)), None, new[now])
