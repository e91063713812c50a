"""Strips of a border that stand on the cutting list, and below an order of sewing the lengths that are pieced of them:
"Cut and piece red 2 x 40 in strips to make: 2 - 2 x 60 1/2 in inner border strips, 2 - 2 x 51 1/2 in …"."""

from __future__ import annotations

from collections.abc import Sequence

from .doubtful import NOT_UNDERSTOOD
from .model import Choice, Entry, Question


def lengths_pieced(entries: list[Entry], questions: Sequence[Question]) -> tuple[list[Entry], list[Question]]:
    """The entries without such lengths, and the questions with one for each border: which of two are its sides, first
    those that the page has first. The line above them, which only says that they are pieced, is asked about no more.

    >>> from . import draft
    >>> page = 'Cutting\\nRed: 6 strips 2" x WOF for inner border\\n\\nSewing\\nCut and piece red 2" strips to make:\\n'
    >>> page += '2 - 2" x 60 1/2" inner border strips\\n2 - 2" x 51 1/2" inner border strips'
    >>> [(one.text, [choice.label for choice in one.choices]) for one in draft(page).questions]
    [('which of these lengths are the sides of the inner border?', ['sides 60 1/2, top and bottom 51 1/2', \
'sides 51 1/2, top and bottom 60 1/2'])]
    """
    asked = list(questions)
    for strips in [one for one in entries if one.role.endswith("border") and "strip" in one.data]:
        pair = [one for one in entries if _is_length_of(strips, one)]
        if "length" in strips.data or len(pair) != 2:
            continue
        first, second = (_length(one, strips.data["strip"]) for one in pair)
        words, entries = pair[0].words, [one for one in entries if one not in pair]
        choices = tuple(
            Choice(
                f"sides {sides}, top and bottom {top}",
                (Entry("border", {"sides_length": sides, "top_length": top}, words, strips.role),),
            )
            for sides, top in ((first, second), (second, first))
        )
        asked = [one for one in asked if not (one.text == NOT_UNDERSTOOD and one.words.line == words.line - 1)]
        asked.append(Question(words, f"which of these lengths are the sides of the {strips.role}?", choices))
    return entries, asked


def _is_length_of(strips: Entry, piece: Entry) -> bool:
    """Whether two pieces of a size, told behind the strips of a border and of no fabric, are as wide as these."""
    size = piece.data.get("size")
    if piece.table != "cut" or piece.role != strips.role or "fabric" in piece.data or piece.data.get("count") != 2:
        return False
    return isinstance(size, list) and strips.data["strip"] in size and piece.words.start > strips.words.end


def _length(piece: Entry, width: str) -> str:
    one, other = piece.data["size"]
    return other if one == width else one
