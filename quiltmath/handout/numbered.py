"""What each thing of a sheet is called on all pages of its handout: pieces by numbers, what is sewn of them by letters
and numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..pattern.names import called

if TYPE_CHECKING:
    from ..pattern import Sheet

MADE = {"strip_set": "S", "unit": "U", "block": "B"}


def numbers(sheet: Sheet) -> dict[str, str]:
    """{name: its number} of every part, in the order of the cutting list, and of strip sets, units and blocks.

    >>> from quiltmath import settings
    >>> numbers(settings.on_point(across=5, down=6, block=9).sheet())
    {'block': '1', 'side triangle': '2', 'corner triangle': '3'}
    """
    found = {cut.part: str(number) for number, cut in enumerate(sheet.cut, 1)}
    for kind, letter in MADE.items():
        found |= {name: f"{letter}{number}" for number, name in enumerate(getattr(sheet, kind), 1)}
    return found


def numbered(sheet: Sheet, name: str) -> str:
    """A name in a sentence, its number behind it: "side triangle (2)"; one that has none alone."""
    number = numbers(sheet).get(name)
    return called(name) if number is None else f"{name} ({number})"


def titled(sheet: Sheet, name: str) -> str:
    """A name in a heading, its number before it: "2 side triangle"."""
    number = numbers(sheet).get(name)
    return called(name) if number is None else f"{number} {name}"
