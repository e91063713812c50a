"""Of which fabric a line of the cutting list is that names none, where others are told."""

from __future__ import annotations

from collections.abc import Iterator

from .from_above import MOST_FABRICS, of_no_fabric
from .model import Choice, Entry, Question, Reading


def which_fabric(entries: list[Entry]) -> Iterator[Question]:
    """The question from which fabric each such line is cut; of several below one another the first alone, with the
    proposal that all of them are of one. It is first the fabric that nothing is cut from yet, where there is one, then
    that of the line above.

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
    idle = [name for name in bought if name not in {one.data["fabric"] for one in cut}]
    before = [one.data["fabric"] for one in cut if one.words.start < bare[0].words.start]
    names = [*dict.fromkeys([*(idle if len(idle) == 1 else ()), *before[-1:], *idle, *bought])][:MOST_FABRICS]
    said = ", ".join(map(_shortly, bare))
    choices = tuple(Choice(name, tuple(one.but(fabric=name) for one in bare)) for name in names)
    yield Question(bare[0].words, f"from which fabric are these cut: {said}?", choices)


def _shortly(entry: Entry) -> str:
    """A line by its number and size: "2 of 3 1/2 x 24 1/2"."""
    size = entry.data.get("size", entry.data.get("strip", ""))
    return f"{entry.data.get('count', 'some')} of {' x '.join(size) if isinstance(size, list) else size}"
