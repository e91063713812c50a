"""For which place in the quilt a fabric is bought: "Binding: 5/8 yd", "1/2 yd indigo for binding"."""

from __future__ import annotations

import re
from dataclasses import replace

from . import naming
from .chunks import chunked, count, opened
from .model import Context, Entry, Reading


def purpose(bought: Entry, page) -> str:
    """The one place in the quilt that a fabric is bought for; nothing where it is bought for more."""
    chunks = opened(chunked(page.plain, bought.words.start, bought.words.end))
    role = naming.role(chunks, Context(), page.plain)
    said = bought.words.text.casefold()
    more = role == "?" or count(chunks, "includes", "and") or re.search(r"includ|block|\([^()]*,", said)
    named = role.endswith("border") or not naming.key(bought.name) - naming.key(role)  # "binding print" may be any
    return role if (named or re.search(r"\bfor\b|\(", said)) and not more else ""


def under_its_place(read: Reading, bought: list[Entry], page) -> Reading:
    """What is bought once more of a fabric, for a place of its own, as the fabric of that place: "1/2 yd indigo for
    binding" below "3/4 yd indigo"."""
    names = {one.name for one in bought if one.table == "fabric" and "bought" in one.data}

    def named(one):
        again = one.table == "fabric" and "bought" in one.data and one.name in names
        place = purpose(one, page) if again else ""
        return replace(one.noted(f"printed as {one.name}"), name=place.capitalize()) if place else one

    return replace(read, entries=tuple(map(named, read.entries)))
