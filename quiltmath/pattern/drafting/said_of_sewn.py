"""What a page says of how large blocks, units and the top are when they are sewn, held against what the draft makes of
them: what agrees says nothing new, what does not is asked about."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from ...usual import RULER
from .about_the_quilt import sizes_in
from .at_hand import as_printed, sides, size_of, two_seams, unit_size
from .bordering import Size, outward
from .characters import plain
from .figures import in_digits
from .model import SOMETHING_ELSE, Choice, Entry, Question, Words
from .unit_kinds import NAMES

_TOP = re.compile(r"\b(?:quilt\s+top|quilt|top|cent(?:er|re)|middle)\b")
_BLOCK = re.compile(r"\bblocks?\b")
_IS = re.compile(
    r"\b(?:measures?|measuring|is|are|be|finish(?:es)?|comes?\s+out)\b(?:\s+(?:about|now|still|close\s+to))?\s*$"
)
_PART = re.compile(
    r"\b(?:rows?|columns?|half|halves|quarters?|pairs?|segments?|sets?|strips?|sash\w*|corners?|each\s+side|if|cut|trim\w*"
    r"|sections?|square|squares|rectangles?|borders?|patch(?:es)?|log|logs)\b"
)
"""Of a part of what is named nothing is known."""
OFF_POINT = Fraction(1, 4)
"""Inches: by so much the top of a quilt on point may be printed otherwise than it is computed."""


def disagreeing(told: Iterable[Words], entries: list[Entry]) -> Iterator[Question]:
    """The questions about sentences that say another size of blocks, units or the top than these are sewn to.

    >>> from . import draft
    >>> drafted = draft('Red: 12 squares 3 1/2"\\nUnits\\nEach half-square unit is 3 1/4" square.')
    >>> unit = Entry("unit", {"kind": "half-square", "trim_to": "3 1/2"}, drafted.entries[0].words, "unit")
    >>> [one.text for one in disagreeing(drafted.instructions, [unit])]
    ['the page says that a unit measures 3 1/4, and as it stands here it measures 3: is that right?']
    """
    for words in told:
        text = in_digits(plain(words.text))
        yield from _of_no_piece(text, words, entries)
        for said in sizes_in(text):
            about = _about(text[: said.start]) if said.sides[-1].unit else ""
            first, *_, last = (said.with_units() * 2)[:2]
            size = (first.inches, last.inches)
            what, known, off = _known(about, entries)
            if known and not any(_alike(size, one, off) for one in known):
                sewn = _written(min(known, key=lambda one: abs(one[0] + one[1] - size[0] - size[1])))
                asks = (
                    f"the page says that {what} measures {_written(size)}, and as it stands here it measures {sewn}: "
                )
                yield Question(words, f"{asks}is that right?", (Choice(f"yes, {sewn}"), SOMETHING_ELSE))


_OF_A_PIECE = re.compile(r"\b(?:an?|one|the|each|every|another)\s+(?:[a-z-]+\s+){0,3}$")
_PIECES = re.compile(r"\W*(?:in(?:ch(?:es)?)?\b\W*)?(?P<words>(?:[a-z-]+\s+){0,2})(?P<noun>squares?|rectangles?)\b")
_NO_PIECES = re.compile(
    r"\b(?:units?|blocks?|trim\w*|cut\w*|hsts?|patch\w*|ruler|backing|batting|wadding|back)\b|[\s-]triangle"
)


def _of_no_piece(text: str, words: Words, entries: list[Entry]) -> Iterator[Question]:
    """The question about a sentence of sewing that names squares or rectangles of a size that nothing is cut or sewn
    to."""
    if _NO_PIECES.search(text):
        return
    known = [*_all_sizes(entries)]
    largest = max(
        (side for one in entries if one.table == "cut" for side in sides(one.data.get("size")) or ()), default=0
    )
    for said in sizes_in(text):
        noun = _PIECES.match(text, said.end)
        if (
            not said.sides[-1].unit
            or noun is None
            or noun["noun"] == "square"
            and not _OF_A_PIECE.search(text[: said.start])
        ):
            continue
        first, *_, last = (said.with_units() * 2)[:2]
        size = (first.inches, last.inches)
        measured = _IS.search(text[: said.start]) or max(size) > largest
        if not measured and not any(_alike(size, one, Fraction(0)) for one in known):
            asks = f"no piece on this page is cut {_written(size)}: is another meant here, or is one missing?"
            yield Question(words, asks, (Choice("another piece is meant"), SOMETHING_ELSE))


def _all_sizes(entries: list[Entry]) -> Iterator[Size]:
    """The sizes of all that is cut or sewn, as they are cut and with seams."""
    taken = two_seams(entries)
    for one in entries:
        if one.table == "cut":
            if size := sides(one.data.get("size")):
                yield size
            continue
        made = unit_size(one, entries) if one.table == "unit" else size_of(one.name, entries)
        if made:
            yield made[0] + taken, made[1] + taken
            yield made


def _about(before: str) -> str:
    """The words before a size that say what measures so; nothing where they do not."""
    last = re.split(r"[.;:,(]\s", before)[-1]
    units = "|".join(NAMES.values())
    if _IS.search(last) and not _PART.search(re.sub(rf"\b(?:{units})", "", last)):
        return last
    behind = re.search(rf"\b(?:{units})[,(\s]*$", before)  # "You have four flying geese, 3 1/2 x 6 1/2 in"
    return behind[0] if behind and not re.search(r"\bcut|\btrim", before) else ""


def _known(about: str, entries: list[Entry]) -> tuple[str, Sequence[Size], Fraction]:
    """What the words before a size are about, the sizes it has, finished and with seams, and how far one may be off."""
    taken, step = two_seams(entries), Fraction(RULER["in"])
    for kind, words in NAMES.items():
        if re.search(rf"\b(?:{words})\b", about):
            units = [one for one in entries if one.table == "unit" and one.data.get("kind") == kind]
            return "a unit", _with_seams((unit_size(one, entries) for one in units), taken), step
    names = [one.name for one in entries if one.table == "block" and "rows" in one.data]
    called = "|".join(re.escape(name.split()[-1].removesuffix("s")) for name in names if name.isascii() and name)
    if (_BLOCK.search(about) or called and re.search(rf"\b(?:{called}|star)s?\b", about)) and not _TOP.search(about):
        return "the block", _with_seams((size_of(name, entries) for name in names), taken), step
    if _TOP.search(about) and not _BLOCK.search(about):
        on_point = any(one.table == "setting" and one.data.get("style") == "on point" for one in entries)
        tops, borders = [*outward(entries)], sum(one.table == "border" for one in entries)
        whole = tops if len(tops) == borders + 1 else []  # of a pieced border it is not known how wide it is
        return "the top", _with_seams(whole, taken), OFF_POINT if on_point else step
    return "", [], step


def _with_seams(sizes: Iterable[Size | None], taken: Fraction) -> list[Size]:
    return [(one[0] + more, one[1] + more) for one in sizes if one for more in (Fraction(0), taken)]


def _alike(size: Size, other: Size, off: Fraction) -> bool:
    """Whether two sizes are the same, one way or the other."""
    return any(abs(size[0] - one) <= off and abs(size[1] - two) <= off for one, two in (other, other[::-1]))


def _written(size: Size) -> str:
    wide, high = map(as_printed, size)
    return wide if wide == high else f"{wide} x {high}"
