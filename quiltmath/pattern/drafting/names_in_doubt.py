"""Names that were read and may be none: of nothing that is a fabric, or of two fabrics at once."""

from __future__ import annotations

import re

from .model import Entry
from .vocabulary import FUNCTION_WORDS, HUES, PROSE

_NAMES_NOTHING = re.compile(
    r"\b(?:remain(?:s|der|ing)?|same|rest|left-?overs?|length|grain|follows|fussy|for|of|from|this|these|each|all|both"
    r"|together|what(?:ever)?|which|half|cut|bias|fold|strip[\s-]*sets?|templates?|ruler|paper|interfacing|fusible|batting|wadding|vinyl)\b",
    re.IGNORECASE,
)
"""A name that holds such a word is none of a fabric."""


def names_nothing(entry: Entry) -> str:
    """What an entry calls its fabric, where that names none."""
    name = entry.data.get("fabric", entry.name if entry.table == "fabric" else "")
    torn = name.count("(") != name.count(")")  # by the end of a cell
    of_prose = {*name.casefold().split()} & (FUNCTION_WORDS | PROSE)
    return name if torn or of_prose or _NAMES_NOTHING.search(name) else ""


def made_of_two(entry: Entry, colour: str, line: str) -> bool:
    """Whether words that stand apart were taken for one name of two colours, this among them."""
    name = entry.data.get("fabric", "").casefold()
    return (
        len(HUES & {*name.split()}) > 1
        and colour in name
        and name not in " ".join(re.sub(r"\band\b|&", "", line.replace("\n", " | ")).split())
    )
