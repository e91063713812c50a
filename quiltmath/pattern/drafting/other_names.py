"""What a shopping list calls a fabric besides its name, in a bracket, behind "for" or beside the length: "Background
(pale grey)", "Gold for the star points". The cutting list may head its pieces with either."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from . import naming
from .chunks import chunked
from .fillers import FILLERS
from .model import Context, Entry, Reading
from .page import Page

_OF_A_NAME = ("word", "role", "squares", "triangles", "rectangles", "strips", "blocks", "unit", "article")
_NO_NAMES = FILLERS | {"approx", "assorted", "different", "minimum", "scraps", "total", "various"}


def keep(read: Reading, context: Context, page: Page) -> Reading:
    """What was read, with the other names of each fabric that it buys kept in mind; a name that two fabrics have is
    that of none.

    >>> page, here = Page("1 yd gold (star points)"), Context()
    >>> bought = Entry("fabric", {"bought": "1 yd"}, page.words(0, 23), "gold")
    >>> keep(Reading((bought,)), here, page).entries[0].remarks
    ('called star points too',)
    >>> here.other_names[frozenset({"star", "point"})]
    'gold'
    """
    return replace(read, entries=tuple(_noted(one, context, page) for one in read.entries))


def _noted(entry: Entry, context: Context, page: Page) -> Entry:
    if entry.table != "fabric" or not {"bought", "pieces"} & entry.data.keys():
        return entry
    own = naming.place_or_key(entry.name)
    context.other_names[own] = entry.name
    for said in _told(entry, page):
        key = naming.place_or_key(said)
        named = [naming.place_or_key(one) for one in context.known]  # those of a line that buys several
        if not key or key <= _NO_NAMES or key == own or key in named:
            continue
        other = context.other_names.setdefault(key, entry.name)
        if other != entry.name and key != naming.place_or_key(other):
            context.other_names[key] = ""
        elif not key <= naming.key(entry.name):
            entry = entry.noted(f"called {said} too")
    return entry


def _told(entry: Entry, page: Page) -> Iterator[str]:
    """The words of a line that stand together, between its figures and signs."""
    run: list[int] = []
    chunks = chunked(page.plain, entry.words.start, entry.words.end)
    for one in [*(inner for chunk in chunks for inner in _within(chunk)), None]:
        if one is not None and one.kind in _OF_A_NAME:
            run += [one.start, one.end]
        elif run:
            yield " ".join(page.text[run[0] : run[-1]].split())
            run = []


def _within(chunk):
    """A chunk, or those of a bracket between two signs that part them from the others."""
    inside = [inner for one in chunk.value for inner in _within(one)] if chunk.kind == "note" else [chunk]
    sign = chunk._replace(kind="punct", value=None)
    return [sign, *inside, sign] if chunk.kind == "note" else inside


def of_its_place(read: Reading, context: Context) -> Reading:
    """What was read, pieces that name no fabric of the one that the shopping list tells to be for their place."""

    def placed(one):
        cut = context.section != "sewing" and one.table in ("cut", "binding")
        named = cut and not {"fabric", "part"} & one.data.keys()
        place = naming.border_of(one.role or one.table) if named else ""
        bought = context.other_names.get(naming.place_or_key(place), "") if place else ""
        return one.but(fabric=bought) if bought else one

    return replace(read, entries=tuple(map(placed, read.entries)))
