"""Fabrics that the cutting list calls otherwise than the shopping list: which of those that are bought is meant."""

from __future__ import annotations

from collections.abc import Iterator

from . import naming
from .model import SOMETHING_ELSE, Choice, Entry, Question

FROM_FABRIC = ("cut", "binding")


def bought_as(entries: list[Entry]) -> Iterator[Question]:
    """The questions whether what is bought and not cut is the fabric that is cut and not bought, or the binding's.

    >>> from . import draft
    >>> page = 'Red 1 yard\\nBinding 1/2 yard\\nRed: cut 9 squares 3"\\nRed: cut 5 strips 2 1/2" x WOF for binding'
    >>> for asked in draft(page).questions:
    ...     print(asked.text, [choice.label for choice in asked.choices])
    is the binding cut from what is bought as 'Binding', or from 'Red'? ["from 'Binding'", "from 'Red'"]
    """
    bought = {one.name: one for one in entries if one.table == "fabric" and {"bought", "piece"} & one.data.keys()}
    cut = {one.data["fabric"]: one for one in entries if one.table in FROM_FABRIC and one.data.get("fabric")}
    keys = {naming.key(name) for name in cut}
    uncut = {name: naming.key(name) for name in bought if naming.key(name) not in keys}
    listed = {naming.key(name) for name in bought}
    for fabric, last in cut.items():
        key = naming.key(fabric)
        alike = [name for name, words in uncut.items() if key and (key < words or words and words < key)]
        if not key and fabric not in bought:  # "plain" of "Plain squares"
            alike = [name for name in uncut if {*fabric.casefold().split()} < {*name.casefold().split()}]
        if key not in listed and len(alike) == 1 and sum(naming.key(name) < uncut[alike[0]] for name in cut) <= 1:
            changes = (one.but(fabric=alike[0]) for one in entries if one.data.get("fabric") == fabric)
            asks = f"is {fabric!r} of the cutting list what is bought as {alike[0]!r}?"
            yield Question(last.words, asks, (Choice("yes", tuple(changes)), SOMETHING_ELSE))
    for one in entries:
        for name in uncut if one.table == "binding" else ():
            if name.casefold() in ("binding", "binding fabric") and one.data.get("fabric"):
                asks = f"is the binding cut from what is bought as {name!r}, or from {one.data['fabric']!r}?"
                choices = (Choice(f"from {name!r}", (one.but(fabric=name),)), Choice(f"from {one.data['fabric']!r}"))
                yield Question(one.words, asks, choices)
