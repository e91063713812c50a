"""Signs of a cutting chart that its page explains: "/ = cut diagonally once"."""

from __future__ import annotations

import re

from .chunks import chunked

_LEGEND = re.compile(r"^[^\S\n]*(?P<sign>[/\\x#+@*])[^\S\n]*=[^\S\n]*(?P<told>[^\n.;]+)", re.MULTILINE)
_KNOWN = {"once": "◩", "twice": "⊠"}
"""The signs that every chart has for this."""


def explained(plain: str) -> str:
    """The plain page, each sign that it explains, alone behind a size, as the one that is known for the same.

    >>> explained('b  navy  2 7/8" sq /\\n/ = cut diagonally once').splitlines()[0]
    'b  navy  2 7/8" sq ◩'
    """
    for legend in [*_LEGEND.finditer(plain)]:
        if known := _meant(legend):
            alone = re.compile(rf"(?<=[^\S\n]){re.escape(legend['sign'])}(?=\s{{2,}}|\s*$|\s*[|\t])", re.MULTILINE)
            plain = alone.sub(known, plain)
    return plain


def explains(plain: str, start: int, end: int) -> int:
    """Where the words end with which a line explains a sign; 0 where it explains none."""
    legend = _LEGEND.match(plain, start, end)
    return legend.end() if legend and _meant(legend) else 0


def _meant(legend):
    """The sign that is known for what a page says of its own; "" for none."""
    kinds = {one.kind for one in chunked(legend["told"])}
    known = [sign for kind, sign in _KNOWN.items() if kind in kinds]
    return known[0] if len(known) == 1 else ""
