"""One spelling for every sign of a page: the same number of characters before and after, so that what is read of the
plain page can be shown on the page itself."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from .decimal_commas import with_points
from .vocabulary import COLOURS, OF_FABRIC

_SIGNS = {
    **dict.fromkeys("‐‑‒–—―−﹣－", "-"),
    **dict.fromkeys("“”„‟″＂ʺ˝", '"'),
    **dict.fromkeys("‘’‚‛′＇ʹ`´", "'"),
    **dict.fromkeys("×✕✖╳Ⅹ⨯", "x"),
    **dict.fromkeys("⁄∕／", "/"),
    **dict.fromkeys("•◦▪▫●○■□◆◇►▶✓✔☐❑·∙‣⁃*", " "),
    **dict.fromkeys("↓↳↪⇒⇨⇾➔➙➛➜➝➞➟➠➡➢➣➤➥➨➩➪➭➮➯➱➲➳➵➸➺➻➼➽➾⟶⟹⟾⤷", "→"),
    **dict.fromkeys("\u00ad\u200b\u200c\u200d\u2060\ufeff", " "),
    "\r": " ",
    "\f": "\n",
    "\v": "\n",
    "\u2028": "\n",
    "\u2029": "\n",
    "\u0085": "\n",
}
_TABLE = str.maketrans(_SIGNS)


_LEADERS = re.compile(r"(?<=[ \t])\.(?:[ \t]+\.)+(?=[ \t\d])")
_MID_LINE = re.compile(r"(?<=[^\s•·∙~][ \t])([ \t]*)[•·∙~](?=[ \t]+[^\s•·∙~])")
"""A dot, or a wave, that stands between two things of one line, and not before it."""
_SHOUTED_HEAD = re.compile(r"(?<=\n)([^\S\n]*[A-Z]{4,}(?: [A-Z]{2,})*)[^\S\n](?=[^\S\n]+[a-z])")


_OF_A_COLOUR = re.compile(
    r"(?:^|[\n,;:.|]|\b(?:yds?|yards?|m)\b\.?)[^\S\n]*(?P<base>[^\W\d_][\w -]{2,30}?)[^\S\n]*"
    r"(?P<open>\()(?P<colour>[^\W\d_][^()\d\n]{2,24})(?P<close>\))"
)


def named_by_colours(page: str) -> str:
    """The page without the brackets that part fabrics of one name by their colour, which is of the name then.

    >>> named_by_colours("Calico (blue), 1/2 yd\\nCalico (green), 1 yd\\nSolid (white), 2 yd")
    'Calico  blue , 1/2 yd\\nCalico  green , 1 yd\\nSolid (white), 2 yd'
    """
    colours: dict[str, set[str]] = {}
    found = [one for one in _OF_A_COLOUR.finditer(page) if {*one["colour"].casefold().split()} & COLOURS]
    found = [one for one in found if one["base"].casefold().split()[-1] in OF_FABRIC]
    for one in found:
        colours.setdefault(one["base"].casefold(), set()).add(one["colour"].casefold())
    for one in found:
        if len(colours[one["base"].casefold()]) > 1:
            page = f"{page[: one.start('open')]} {one['colour']} {page[one.end('close') :]}"
    return page


def parted_by_gaps(page: str) -> str:
    """The page with the signs in its gaps that say what these part: dots with blanks between them that lead from a name
    to its figure, without the blanks; dots between two things as bars; a head in capitals below the first line, which a
    gap alone parts from what begins behind it, with a colon.

    >>> parted_by_gaps("linen . . . 1 yd"), parted_by_gaps("Lark\\nBORDER   sew the strips end to end")
    ('linen ..... 1 yd', 'Lark\\nBORDER:  sew the strips end to end')
    >>> parted_by_gaps('• Lap quilt • 59" x 70" • 20 blocks')
    '• Lap quilt | 59" x 70" | 20 blocks'
    >>> parted_by_gaps("FENCE POSTS   a shop sample")  # a title
    'FENCE POSTS   a shop sample'
    """
    led = _LEADERS.sub(lambda match: "." * len(match[0]), _MID_LINE.sub(r"\1|", page))
    return _SHOUTED_HEAD.sub(r"\1:", led)


@lru_cache(maxsize=8)  # one page is drafted again for many an answer
def plain(page: str) -> str:
    """The page in small letters, with one sign for each kind of dash, quote, blank, cross and decimal, every one in its
    place.

    >>> plain("18 – 3½” × WOF")
    '18 - 3½" x wof'
    >>> len(plain("İstanbul")) == len("İstanbul")
    True
    """
    return with_points("".join(map(_small, page.translate(_TABLE))))


@lru_cache(maxsize=1024)
def _small(char):
    small = char.lower()
    if len(small) != 1:
        return char
    if small not in "\n\t " and unicodedata.category(small) in ("Zs", "Cc", "Cf"):
        return " "
    return small
