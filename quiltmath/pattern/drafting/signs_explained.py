"""What a page explains of its own spelling: signs of a cutting chart, "/ = cut diagonally once", and short names of
fabrics, "BG = background"."""

from __future__ import annotations

import re

from . import naming
from .chunks import chunked

_LEGEND = re.compile(r"^[^\S\n]*(?P<sign>[/\\x#+@*])[^\S\n]*=[^\S\n]*(?P<told>[^\n.;]+)", re.MULTILINE)
_KNOWN = {"once": "◩", "twice": "⊠"}
"""The signs that every chart has for this."""
_SHORT_FOR = re.compile(r"\b(?P<short>[A-Z]{2,3})\s*=\s*(?P<name>[a-z][a-z ]{2,30}?)(?=\s*(?:[.,;\n]|$))")
"""What a page says its capitals stand for."""


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


def short_names(text: str, plain: str) -> dict[str, str]:
    """{the short name of a fabric: its whole name}, as a page explains it; what is short for another thing of the trade
    is none.

    >>> said = "BG = background, HST = half square triangle"
    >>> short_names(said, said.casefold())
    {'bg': 'background'}
    """
    told = ((match["short"].casefold(), match) for match in _SHORT_FOR.finditer(text))
    return {
        short: match["name"]
        for short, match in told
        if all(one.kind == "word" for one in chunked(plain, *match.span("name")))
        if naming.is_of_fabric(match["name"])
    }


_LETTER_FOR = re.compile(
    r"(?<![\w=])(?P<letter>[a-z])\s*=\s*(?P<name>[a-z][a-z -]{2,30}?)(?=\s*(?:[.,;()\n]|\band\b|$))"
)
_SIDE_BY_SIDE = re.compile(r"\W*[a-z](?:\s*\([^()]*\))?(?:\s*[-,/+]\s*[a-z](?:\s*\([^()]*\))?)+\W*")
_WIDTH_BEHIND = re.compile(r"(?P<name>[^\W\d_][a-z ]*?)\s*\((?P<width>\d[\d /]*(?:in|\"|cm))(?:\s*wide)?\)")


def strips_by_name(said: str, plain: str) -> str:
    """The strips of a set that are named one after the other, by the fabrics for which the page says that their letters
    stand, and their widths before them.

    >>> strips_by_name('d - m (4 1/2") - d', "d = dark green, m = mint.")
    'dark green - 4 1/2" mint - dark green'
    """
    letters = {match["letter"]: match["name"] for match in _LETTER_FOR.finditer(plain)}
    if _SIDE_BY_SIDE.fullmatch(said) and {*re.findall(r"\b[a-z]\b", said)} <= letters.keys():
        said = re.sub(r"\b[a-z]\b", lambda match: letters[match[0]], said)
    return _WIDTH_BEHIND.sub(r"\g<width> \g<name>", said)
