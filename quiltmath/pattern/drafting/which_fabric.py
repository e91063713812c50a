"""Of which fabric a line of the cutting list is that names none, where others are told."""

from __future__ import annotations

import re
from collections.abc import Iterator

from . import naming, sections
from .from_above import MOST_FABRICS, of_no_fabric
from .model import Choice, Entry, Question, Reading

MOST_OF_A_HEAD = 4
"""Words: the name of a fabric, or of a place in the quilt, that heads lines of a cutting list has no more."""
_HEAD = re.compile(r"[^\W\d_][^\d.;!?]{2,}", re.DOTALL)
_OF_SEWING = re.compile(r"\b(?:assembl|construct|finishing|piecing|sewing|making|joining|instruction|direction|layout)")
"""What heads a section of sewing, and is no name of a fabric."""


def which_fabric(entries: list[Entry], page: str = "") -> Iterator[Question]:
    """The question from which fabric each such line is cut; of several below one another, none of a fabric that is told
    between them, the first alone, with the proposal that all of them are of one. The head above it in the text of the
    `page` tells which that is: first what is bought under a name with the same words, then what nothing is cut from
    yet, then, where all else is cut under heads of its own, a fabric that is called as the head is. Without a head it
    is first the one fabric that nothing is cut from yet, then that of the line above.

    >>> from . import draft
    >>> entries = list(draft('Red: 1 yard\\nBlue: 1 yard\\nRed: 9 squares 3"').entries)
    >>> bare = Entry("cut", {"size": "4", "count": 8}, entries[-1].words, "B")
    >>> [(asked.text, [choice.label for choice in asked.choices]) for asked in which_fabric([*entries, bare])]
    [('from which fabric are these cut: 8 of 4?', ['Blue', 'Red'])]
    """
    bought = [one.name for one in entries if one.table == "fabric"]
    bare = of_no_fabric(Reading(tuple(entries)))
    if not bare or not bought:
        return
    cut = [one for one in entries if one.data.get("fabric")]
    told_next = [one.words.start for one in cut if one.table == "cut" and one.words.start > bare[0].words.start]
    bare = [one for one in bare if one.words.start < min(told_next, default=bare[-1].words.end)]
    idle = [name for name in bought if name not in {one.data["fabric"] for one in cut}]
    before = [one for one in cut if one.words.start < bare[0].words.start][-1:]
    head = _head_above(bare[0], before[0] if before else None, page)
    meant = [name for name in bought if head and naming.key(name) & naming.key(head)]
    above = [one.data["fabric"] for one in before]
    first = [*meant, *idle, *([] if idle else [head])] if head else [*(idle if len(idle) == 1 else ()), *above, *idle]
    names = [*dict.fromkeys([*first, *above, *bought])][:MOST_FABRICS]
    said = ", ".join(map(_shortly, bare))
    choices = tuple(Choice(name, tuple(one.but(fabric=name) for one in bare)) for name in names)
    yield Question(bare[0].words, f"from which fabric are these cut: {said}?", choices)


def _head_above(bare: Entry, before: Entry | None, page: str) -> str:
    """The words that stand alone above a line as a head does, below the last line of a fabric; nothing where none do.

    >>> from .model import Words
    >>> _head_above(Entry("cut", {}, Words(2, 7, 10, "8")), None, "Petals\\n8 squares")
    'Petals'
    """
    lines = page.split("\n")[before.words.line if before else 0 : bare.words.line - 1]
    for line in reversed(lines):
        said = line.strip(" \t:-*•")
        if not _HEAD.fullmatch(said) or sections.section(said.casefold()) in ("buying", "cutting"):
            continue
        if sections.section(said.casefold()) == "sewing" and _OF_SEWING.search(said.casefold()):
            return ""
        return said if len(said.split()) <= MOST_OF_A_HEAD else ""
    return ""


def _shortly(entry: Entry) -> str:
    """A line by its number and size: "2 of 3 1/2 x 24 1/2"."""
    size = entry.data.get("size", entry.data.get("strip", ""))
    return f"{entry.data.get('count', 'some')} of {' x '.join(size) if isinstance(size, list) else size}"
