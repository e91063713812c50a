"""What is said of a row in which parts are left out, or stand too often."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from ...pattern.names import SETTING
from ..finding import ByProof
from .check import ruler
from .exchanged import as_typed

if TYPE_CHECKING:
    from ...making import Made
    from ..agreement import Miscounted
    from ..finding import Finding
    from .check import Check


def row_miscounted(check: Check, made: Made, found: Miscounted) -> Finding:
    """The finding on a row, or on a column of a pieced border, with one part too few or too many, or with several."""
    of, setting = ruler(made), found.path[0] == "setting"
    name, one = SETTING if setting else found.path[1], len(found.parts) == 1
    row = "" if found.row is None else f"{'Column' if found.path[-1] == 'columns' else 'Row'} {found.row + 1} of "
    off = f"comes to {of.said(found.comes_to)} and should come to {of.said(found.should)}"
    is_off = f"{'is' if one else 'are'} {'left out' if found.lacks else 'too many'}"
    add = f"Add {'it' if one else 'them'} where the drawing shows {'it' if one else 'them'}"
    cure = add if found.lacks else f"Take out the {'one' if one else 'ones'} that the drawing does not show"
    return check.finding(
        made,
        found.path,
        f"{row}{'the setting' if setting else repr(name)} {off}: {_counted(found.parts, repr)} {is_off}. {cure}.",
        of.said(found.comes_to),
        of.said(found.should),
        why=ByProof("grid"),
        parts=frozenset(found.parts) | (frozenset() if setting else {name}),
        panel=name,
        fix=() if found.mended is None else ((found.path, [[*map(as_typed, line)] for line in found.mended]),),
        asks=f"{row}{'the setting' if setting else f'“{name}”'} {off}: is it right that "
        f"{_counted(found.parts, '“{}”'.format)} {is_off}?",
    )


def _counted(parts, quoted):
    """How many of each of these names, in words.

    >>> _counted(["A"], repr), _counted(["A", "B", "A"], repr)
    ("one 'A'", "2 of 'A' and one 'B'")
    """
    counts = Counter(parts).items()
    return " and ".join(f"one {quoted(part)}" if count == 1 else f"{count} of {quoted(part)}" for part, count in counts)
