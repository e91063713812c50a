"""Words of a cutting list that only say which way the fabric is cut below them: "from the length first:", "and across
the width of what remains,"."""

from __future__ import annotations

import re

ALONG, ACROSS = "along", "across"
_FIRST = r"\W*(?:(?:and|then|next|first|now)\W+)*(?:cut\W+)?"
_OF = (
    r"(?:\s+of\s+(?:(?:the|this|that|your|what)\s+)*(?:fabric|cloth|piece|grain|rest|remainder|remains"
    r"|remaining\s+(?:fabric|cloth|piece)|is\s+left(?:\s+over)?|it))?"
)
_LAST = r"(?:\W+(?:first|cut|next|now|then))*\W*"
_TOLD = re.compile(
    rf"{_FIRST}(?:(?P<along>(?:from|off)\s+an?\s+\d[\d /.]*\s*(?:\"|-?in(?:ch(?:es)?)?\b\.?|cm\b)[\s-]*(?:length|piece)"
    r"|(?:along|down|on|from)\s+(?:all\s+)?the\s+length)"
    rf"|(?P<across>(?:across|from|on)\s+the\s+width)){_OF}{_LAST}"
)


def told(text: str) -> str:
    """ALONG or ACROSS, as words say; nothing where they say anything else.

    >>> told('from a 76" length,'), told("and across the width of what remains,"), told("across the table")
    ('along', 'across', '')
    """
    match = _TOLD.fullmatch(text)
    return match.lastgroup or "" if match else ""
