"""How lines of printed cutting lists are read: what each should yield, and what a draft makes of it.

`wordings.txt` has wordings that printed patterns use, `hands.txt` lists in many hands, `short_heads.txt` what stands
right above pieces; all other lists have lines that the grammar was first run on when it stood, as the head of each
tells. The outcome of a line is exact, asked (a question in place of what could have been read), missed (neither read
nor asked) or wrong (read as what it does not say).
"""

import re
from pathlib import Path
from typing import NamedTuple

from quiltmath.pattern.drafting.page import Page
from quiltmath.pattern.drafting.reader import Reader

LISTS = (
    "wordings", "hands", "unseen", "fresh", "sentences", "strangers", "printed", "heads", "hands_again", "voices",
    "ordinary", "leaflets", "magazines", "newcomers", "eight_hands", "two_desks", "third_desk", "counter",
    "short_heads", "leaflet_shelf", "kits_and_shops", "publications", "proportions", "typical"
)  # fmt: skip
OUTCOMES = ("exact", "asked", "missed", "wrong")
BREAK = "⏎"


class Line(NamedTuple):
    """A line of a page, or several, and what it should yield: entries as texts, and whether something is asked."""

    page: str
    entries: frozenset
    asks: bool


def lines(name):
    """The lines of one list."""
    for row in (Path(__file__).parent / f"{name}.txt").read_text("utf-8").splitlines():
        if row.strip() and not row.startswith("#"):
            page, _, wanted = row.partition("  =>")
            parts = [part.strip() for part in wanted.split(" + ") if part.strip()]
            yield Line(page.replace(BREAK, "\n"), frozenset(map(plain, parts)) - {"?"}, "?" in parts)


def plain(entry):
    """An expected entry in the order in which `found` writes it."""
    head, colon, values = entry.partition(":")
    return f"{head}: {'; '.join(sorted(value.strip() for value in values.split(';')))}" if colon else entry


def drafted(page):
    """The entries of a page as texts, and whether it is asked about."""
    read = Reader(Page(page)).all()
    return [found(entry) for entry in read.entries], bool(read.questions)


def found(entry):
    """An entry as a text: its table, a printed name, and its values."""
    values = {key: written(value) for key, value in entry.data.items()}
    if entry.table == "cut" and entry.role:
        values["role"] = entry.role
    name = f" {entry.name}" if entry.name else ""
    return f"{entry.table}{name}: {'; '.join(sorted(f'{key}={value}' for key, value in values.items()))}"


def written(value):
    """A value as the lists write it."""
    return " x ".join(value) if isinstance(value, list) else re.sub("True", "true", str(value))


def outcome(line):
    """What comes of a line, and what was read of it."""
    entries, asked = drafted(line.page)
    if set(entries) - line.entries or len(entries) != len(set(entries)):
        return "wrong", entries
    if set(entries) == line.entries and asked == line.asks:
        return "exact", entries
    return ("asked" if asked else "missed"), entries
