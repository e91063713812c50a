"""In what two sheets differ, value by value."""

from __future__ import annotations

from collections import Counter
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
    """Two lists side by side: (place in the old one, number of the old item or None, of the new item or None) each.

    Where as many come as go, and others, each takes the place of one. Of two items that change places the later one
    stays, for an order of work is mended by moving a line down.

    >>> list(aligned("ab", "ba")), list(aligned("ab", "ac"))
    ([(0, 0, None), (1, 1, 0), (2, None, 1)], [(0, 0, 0), (1, 1, 1)])
    """
    if len(old) == len(new) and Counter(old) != Counter(new):
        return ((number, number, number) for number in range(len(old)))
    return _matched(old, new)


def _matched(old, new):
    """Two lists side by side, what they share in its order."""
    backwards = SequenceMatcher(None, old[::-1], new[::-1], autojunk=False).get_opcodes()
    for how, i_end, i, j_end, j in reversed(backwards):
        (i, i_end), (j, j_end) = (len(old) - i, len(old) - i_end), (len(new) - j, len(new) - j_end)
        both = i_end - i if how == "equal" else min(i_end - i, j_end - j)
        yield from ((i + more, i + more, j + more) for more in range(both))
        yield from ((gone, gone, None) for gone in range(i + both, i_end))
        yield from ((i_end, None, come) for come in range(j + both, j_end))


def _tables(value):
    return isinstance(value, list) and bool(value) and all(isinstance(one, dict) for one in value)


def _of_lists(old, new, path):
    """The differences of two lists of tables, of which those with the same name belong together."""
    names = [[str(one.get("part") or one.get("name") or "") for one in tables] for tables in (old, new)]
    for place, was, now in _matched(*names):
        same = was is not None and now is not None and names[0][was] == names[1][now]
        if same:
            yield from differences(old[was], new[now], (*path, was))
            continue
        if was is not None:
            yield Difference((*path, was), old[was], None)
        if now is not None:
            yield Difference((*path, place + (was is not None)), None, new[now])
