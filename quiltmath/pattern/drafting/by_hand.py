"""What whoever answers draws where the numbers of a page propose nothing: the rows of a block, from what is at hand, or
how many blocks stand across and down."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

from ..names import first_few
from .at_hand import Item, as_printed, items
from .layouts import kinds
from .model import Choice, Entry, Question
from .pieced_blocks import shortly
from .small_blocks import written

_SET = re.compile(
    r"\W*(?P<across>\d{1,2})\s*(?:x|×|by|across(?:\s*(?:,|and|by))*)\s*(?P<down>\d{1,2})(?:\s*down)?\W*(?P<point>on\s+point)?\W*",
    re.IGNORECASE,
)


LONGEST = 2_000
"""Signs: the rows of one block are shorter."""


def names_to_draw(entries: list[Entry]) -> list[str]:
    """What the rows of a block may name, each with its fabric, how many there are and how large they finish.

    >>> from . import draft
    >>> names_to_draw([*draft('Navy: 60 squares 3 1/2"').entries])
    ['A (Navy, 60 of 3 x 3)']
    """
    return [f"{shortly(one.name)} ({_told(one)})" for one in items(entries)]


def _told(item: Item) -> str:
    size = f"{item.left} of {as_printed(item.width)} x {as_printed(item.height)}"
    return f"{item.fabric}, {size}" if item.fabric else size


def drawn(question: Question, text: str, entries: list[Entry]) -> Choice:
    """The answer that somebody types: rows from the top, parted by slashes or line ends, of names that may be turned
    ("HST:90"); or "4 across, 5 down". Refused with a ValueError that says what was not understood.

    >>> from . import draft
    >>> page = draft('Finished 40" x 41"\\nNavy: 20 squares 3"\\nCream: 16 squares 3"\\nSew the rows.')
    >>> asked = page.questions[-1]
    >>> made = drawn(asked, "a b a / b a b / a b a", [*page.entries])
    >>> made.label, made.changes[0].data
    ('A B A / B A B / A B A', {'rows': ['A B A', 'B A B', 'A B A'], 'count': 4})
    >>> drawn(asked, "A C / C A", [*page.entries])
    Traceback (most recent call last):
    ValueError: nothing here is called C: there are A (Navy, 20 of 2 1/2 x 2 1/2), B (Cream, 16 of 2 1/2 x 2 1/2)
    """
    if question.draws is None:
        raise ValueError(f"this is answered by one of its choices: {question.text}")
    if len(text) > LONGEST:
        raise ValueError(f"the rows of one block have at most {LONGEST:,} signs; got {len(text):,}")
    return _rows(question.draws, text, entries) if question.draws.table == "block" else _set(question, text, entries)


def _rows(block: Entry, text: str, entries: list[Entry]) -> Choice:
    """A block with the rows that are typed, and how many of it the pieces make where nobody says it."""
    at_hand = items(entries)
    called = {name.casefold(): one.name for one in at_hand for name in (one.name, shortly(one.name))}
    item = "|".join(re.escape(name) for name in sorted(called, key=len, reverse=True))
    one = re.compile(rf"({item})(?::(\d+))?(?=[\s,]|$)") if item else None
    rows = [[*_items(line.casefold(), one, called, entries)] for line in re.split(r"[/\n]", text) if line.strip()]
    if not rows:
        raise ValueError("type the rows of one block, from the top, such as A B A / B A B / A B A")
    taken = Counter(word.partition(":")[0] for row in rows for word in row)
    whole = Counter(
        one.left // taken[one.name] for one in at_hand if taken[one.name] and not one.left % taken[one.name]
    )
    number = block.data.get("count") or next((times for times, _ in whole.most_common(1)), None)
    label = " / ".join((", " if any(" " in word for word in row) else " ").join(row) for row in rows)
    return Choice(label, (block.but(rows=written(rows), count=number),))


def _items(line, one, called, entries):
    """The names of one typed row, as the draft has them."""
    at = 0
    while rest := line[at:].lstrip(" ,\t"):
        at = len(line) - len(rest)
        found = one.match(line, at) if one else None
        if found is None:
            word = re.split(r"[\s,]", rest)[0]
            raise ValueError(f"nothing here is called {word.upper()}: there are {first_few(names_to_draw(entries))}")
        yield f"{called[found[1]]}:{found[2]}" if found[2] else called[found[1]]
        at = found.end()


def _set(question, text, entries):
    """A setting of as many blocks across and down as are typed, straight or on point."""
    told, made = _SET.fullmatch(text), kinds(entries)
    if told is None or not int(told["across"]) * int(told["down"]):
        raise ValueError('type how many blocks stand across and down, such as 4 x 5, or "4 x 5 on point"')
    across, down = int(told["across"]), int(told["down"])
    style = "on point" if told["point"] else question.draws.data.get("style", "straight")
    of_one = {"block": made[0].name} if len(made) == 1 else {}
    setting = replace(question.draws, data={**of_one, **question.draws.data, "style": style})
    label = f"{across} x {down}{' on point' if style == 'on point' else ''}"
    return Choice(label, (setting.but(across=across, down=down),))
