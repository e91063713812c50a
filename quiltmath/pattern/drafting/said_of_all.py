"""What a page says of all its pieces in a sentence of none of them: that seams are still to be added, that all are cut
double, that they are those of one size of the quilt among several."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .columns_of_sizes import ALONE, NAMES
from .kept import Kept
from .model import Question
from .page import Page

LONGEST = 500
"""Signs: no sentence that says so is on a longer line."""
_WITHOUT_SEAMS = re.compile(
    r"n[o']t\s+(?:yet\s+)?(?:includ|allow|contain)\w*[^.;\n]*\bseams?\b|\bwithout\s+(?:(?:any|the|a)\s+)?seam\s+allowances?"
    r"|\bno\s+(?:seam\s+)?allowances?\b[^.;\n]*\bseams?\b|\b(?:sizes?|measure\w*|dimensions|figures|pieces)\b[^.;\n]*\bwithout\s+seams\b"
    r"|\ballow\s+(?:extra\s+)?for\s+(?:the\s+)?seams\b|^\W*add\s+(?:the\s+)?seams\b|\bseams\s+(?:must|should|have\s+to)\s+be\s+added\b"
    r"|\bexclud\w+\s+(?:of\s+)?(?:the\s+)?seam|\bno\s+seam\s+allowances?\s+(?:is|are|has|have|included|added|given)\b"
    r"|\badd(?:ing)?\s+(?:(?:a|an|the|your)\s+)?(?:[\d./ ]*\d\s*(?:\"|in\w*|cm|mm)?\s*)?seam\s*allowances?"
    r"|\bseam\s*allowances?\s+(?:(?:is|are|must|has|have)\s+)?(?:not\s+(?:includ|add|allow)\w+|excluded|extra|(?:to\s+)?be\s+added)"
    r"|\b(?:sizes|measurements|dimensions)\b[^.;\n]*\bare\s+(?:all\s+)?finished\b|\bfinished\s+(?:sizes|measurements)\s+are\s+given"
)
"""That the sizes of a page are no sizes to cut by."""
_CHANGES_ALL = re.compile(
    r"(?=[^.]*\b(?:cut|doubl\w*|multipl\w*|halve)\b|revers|mirror)(?=[^.]*\b(?:diagonal|lengthwise|selv|revers|mirror|doubl|bias|fold|half"
    r"|halve|twice|multipl))[^.]*\b(?:squares|strips|pieces|rectangles|triangles|quantities|amounts|numbers|counts|thickness)\b"
)
"""What changes all that is cut, in a sentence of no piece."""
_OF_A_SIZE = re.compile(
    rf"\W*(?:\d{{1,2}}[.)]\s+)?(?:for\s+(?:the\s+|an?\s+)?)?(?P<size>(?:{ALONE})(?:[\s-]+(?:size|sized|quilt|version))*"
    rf"|(?:{NAMES}|larger|smaller)[\s-]+(?:size|sized|quilt|version))\s*(?:\([^()]*\))?[\s:,.-]*(?:cut\W*)?"
)
"""The head of what is cut for one of several sizes of a quilt."""
_RUN_IN = re.compile(
    rf"(?=\W*(?:for\s+)?(?:{ALONE})\b){_OF_A_SIZE.pattern}(?<=[.:-])\s*(?=(?:please\s+)?cut\b|\(?\d)(?!.*\b(?:{ALONE})\b)"
)
"""The same before what is cut, on its line."""


def questions(page: Page, lines: list[tuple[int, int]], kept: Kept) -> Iterator[Question]:
    """What has to be asked of all that a page cuts.

    >>> page = Page("Sizes do not include seam allowances.")
    >>> [one.text for one in questions(page, page.lines, Kept())]
    ['is a seam allowance to be added to the sizes of this page?']
    """
    asked = {one.words.line for one in kept.questions}
    for start, end in lines:
        words = page.words(start, end)
        if end - start < LONGEST and words.line not in asked and _WITHOUT_SEAMS.search(page.plain, start, end):
            yield Question(words, "is a seam allowance to be added to the sizes of this page?")
    yield from _of_sizes(page, lines, kept)
    for words in kept.remarks:
        if len(words.text) < LONGEST and words.line not in asked and _CHANGES_ALL.match(words.text.casefold()):
            yield Question(words, "this changes what is cut: how?")


_FRIENDLY = re.compile(r"\W*[^,;:|*\n]*?[\s-]friendly\b[^,;:|*()\d\n]*")


def is_friendly(page: Page, start: int, end: int) -> re.Match[str] | None:
    """What a line begins with that only says what precuts its quilt may be sewn from; None where it does not.

    >>> page = Page('A 10-inch-square friendly throw, 60 x 70 in')
    >>> is_friendly(page, 0, len(page.text))[0]
    'a 10-inch-square friendly throw'
    """
    return _FRIENDLY.match(page.plain, start, end)


def heads_a_size(page: Page, start: int, end: int) -> re.Match[str] | None:
    """The head of one of several sizes of a quilt that a line is or begins with; None where it has none."""
    return _OF_A_SIZE.fullmatch(page.plain, start, end) or _RUN_IN.match(page.plain, start, end)


def _of_sizes(page, lines, kept):
    """Which of several sizes of a quilt is meant, where pieces stand below the heads of more than one."""
    heads = [match for line in lines if (match := heads_a_size(page, *line))]
    cut = [one.words.start for one in kept.entries if one.table in ("cut", "binding")]
    ends = [*(match.start() for match in heads[1:]), len(page.plain)]
    told = [match for match, end in zip(heads, ends) if any(match.end() <= start < end for start in cut)]
    names = dict.fromkeys(" ".join(match["size"].split()) for match in told)
    if len(names) > 1:
        asks = f"this page cuts for {' and for '.join(names)}: which of them is drafted?"
        yield Question(page.words(*told[1].span()), asks)
