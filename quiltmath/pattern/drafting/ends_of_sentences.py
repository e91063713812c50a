"""Where the sentences of a printed line end: not behind a word that is printed short, and before what tells of other
pieces."""

from __future__ import annotations

import re

from .vocabulary import SOMEBODY

_SHORT = (
    "in", "ins", "yd", "yds", "sq", "sqs", "sqrs", "pc", "pcs", "rect", "rects", "doz", "dz", "ea", "diag", "approx",
    "abt", "bl", "bls", "fin", "incl", "str", "tri", "unf", "bkg", "selv", "asst", "min", "blk", "blks"
)  # fmt: skip
"""Words that are printed short, with a point."""
_NOT_SHORT = "".join(rf"(?<!\b{word})" for word in _SHORT)
_SEWN_ON = r"(?:sew|add|attach|join|stitch|pin)\b[^.;\d]*\b(?:sides?|top|bottom|upper|lower|ends)\b"
"""Where strips of a border go belongs to the words before that cut them."""
_OF_ANOTHER = r"(?:strips?|remain[a-z]*|rest|same|length[a-z]*|left[a-z-]*|others?|above|first|second|third)"
"""What stands for a fabric that is told already, or for strips of it."""
SENTENCE_ENDS = re.compile(
    rf"(?<=[a-z\")\d]){_NOT_SHORT}(?!(?<=\bno)\.\s+\d)\.\s+(?=[a-z(\d])|(?<=[a-z\")\d])[!?]\s+|;\s*(?!{_SEWN_ON})"
    r"|\.\s+(?=[a-z]+(?:\s[a-z]+){0,3}(?::|\s-)\s*\(?\d)"  # "Light: 1 yd. Medium: 3/4 yd."
    r"|(?<=\d\s(?:yds|mtr))\.\s+(?=[a-z][a-z\s,'&-]{2,40}?[\s:]\(?\d[\d /.]*\s*(?:y(?:ar)?ds?|m)\b)"
    r"|(?<=\d\s(?:yd|in))\.\s+(?=[a-z][a-z\s,'&-]{2,40}?[\s:]\(?\d[\d /.]*\s*(?:y(?:ar)?ds?|m)\b)"
    r"|(?<=\d\sin)\.\s+(?=(?:cut|from|sew|join|make|trim|block|seam|that|this|these|you|there|the)\b)"
    r"|(?<=\d\sin)\.\s+(?=[a-z]+\s+(?:are|finish)\s+\d)"  # "It is 59 x 71 in. Stars are 9 in finished"
    r"|(?<=[a-z]\.\))\s+(?=[a-z])"
    r"|,?\s+and\s+(?=an?\s+(?:piece\s+of\s+)?(?:batt|batting|wadding)\s+\d)"
    r"|(?<=blocks),?\s+(?=(?:are\s+)?set\s+\w+\s+(?:by|x)\s)"
    r"|(?<=squares),?\s+and\s+(?=(?:\d+|[a-z]+)\s+strips?\b[^.;]*\b(?:sub|cross)[\s-]?cut\b)"  # cut up too
    r"|,?\s+and\s+(?=all\s+seams?\b)|\s\|\s|,\s*(?=(?:which|that|this)\s+(?:gives?|makes?|yields?)\b)"
    r"|(?<=[a-z\")])(?:,?\s+(?:(?:and|then)\s+)+|,\s*(?=(?:sew|join|stitch)\s+(?:them\s+|these\s+)?together\b))"
    r"(?=(?:sew|join|stitch|draw|mark|set(?!\s+(?:[a-f1-6]|one|two|three)\s+into\b)|put|keep|reserve|save|trim(?=\s+the\s+(?:rest|others?|remaining)))\b"
    r"(?![^.;]*\b(?:sides?|top|bottom|upper|lower)\b))"  # where pieces of a border go names them
    r"|(?<=\d\s(?:whole|aside|uncut))(?:,?\s+(?:and|then)\s+|,\s*)(?=(?:sub-?|cross-?)?cut\b)"  # "keep 4 whole, cut 6"
    r"|(?<=[a-z\")\d]),?\s+(?=then,?\s+for\s+(?:each|every)\b[^.;]{0,40}\bcut\b)"
    r"|(?<=[a-z\")]),\s*(?=(?!cut\b)[a-z]+(?:\s[a-z]+)?:\s*\(?\d)"
    r"|(?<=[a-z\")]),?\s+and,?\s+(?=(?:from|out\s+of)\s+what\s+(?:is|was|'s)\s+left\b[^.;\d]{0,40}\d)"
    rf"|(?<=[a-z\")]),?\s+(?:(?:and|then)\s+)+(?=from\s+(?:the|your)\s+"
    rf"(?!{_OF_ANOTHER}\b)[a-z][a-z -]{{1,30}}?,?\s+(?:{SOMEBODY})?cut\b)"
)
