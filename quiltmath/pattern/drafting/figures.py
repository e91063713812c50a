"""The figures of a page: whole numbers in digits and words, lengths, sizes of two lengths, and what is no figure but a
doubt, for it has two readings."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import NamedTuple

from ... import lengths

LEAST_SIZE = Fraction(3, 4)
"""Inches: a piece that is smaller is asked about (common practice: a seam on both sides leaves nothing to hold)."""

_GLYPHS = "".join(
    char for char in map(chr, range(0xBC, 0x218B)) if unicodedata.decomposition(char).startswith("<fraction>")
)
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
_NUMBER = re.compile(
    rf"""
    (?P<whole>\d+) (?: \s+ (?:(?:and|&)\s+)? | - )? (?P<glyph>[{_GLYPHS}])
  | (?P<glyph_alone>[{_GLYPHS}])
  | (?P<raised_whole>\d+)? [\s-]? (?P<raised>[⁰¹²³⁴-⁹]+) / (?P<under>[₀-₉]+)
  | (?P<mixed>\d+) (?: \s+ (?:(?:and|&) \s+)? | - | \. ) (?P<top>\d+) \s*/\s* (?P<bottom>\d+)
  | (?P<numerator>\d+) \s*/\s* (?P<denominator>\d+)
  | (?P<decimal>\d+\.\d+|(?<![.…])\.\d+)
  | (?P<comma>\d+,\d+)
  | (?P<count>\d+)
    """,
    re.VERBOSE,
)
_ONES = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
_TEENS = ["ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_VALUES = {
    **{word: number for number, word in enumerate(_ONES, 1)},
    **{word: number for number, word in enumerate(_TEENS, 10)},
    **{word: 10 * number for number, word in enumerate(_TENS, 2)},
    "fourty": 40,
}
IN_WORDS = "|".join(sorted([*_VALUES], key=len, reverse=True))
"""The number words that need no other."""
_HUNDREDS = (
    rf"(?:(?:a|one|two|three|four|five)\s+)?hundred(?:(?:\s+and)?\s+(?:{IN_WORDS})(?:[\s-]+(?:{'|'.join(_ONES)}))?)?"
)
_IN_WORDS = re.compile(
    rf"(?:{_HUNDREDS}|(?:(?:a|one|two|three|four)\s+)?dozen|(?:{'|'.join(_TENS)}|fourty)[\s-]+(?:{'|'.join(_ONES)})"
    rf"|{IN_WORDS})\b"
)
_WORD_ALONE = re.compile(rf"(?<![\w-]){_IN_WORDS.pattern}(?!-)")
_PARTS = {
    "half": Fraction(1, 2),
    "quarter": Fraction(1, 4),
    "quarters": Fraction(1, 4),
    "eighth": Fraction(1, 8),
    "eighths": Fraction(1, 8),
}
_AND_A_PART = re.compile(rf"\s+and\s+(?:(?P<top>a|an|[1-7]|{'|'.join(_ONES)})[\s-]+)?(?P<part>{'|'.join(_PARTS)})\b")
_OF_A_UNIT = re.compile(
    rf"(?:(?P<top>a|an|[1-7]|{'|'.join(_ONES)})[\s-]+)?(?P<part>{'|'.join(_PARTS)})(?:\s+of)?(?:\s+an?)?[\s-]+"
    r"(?:(?P<yd>yards?)|(?P<in>inch(?:es)?))\b"
)
"""A part of a yard or of an inch in words: "half a yard", "three-eighths of an inch"."""
_DOZEN = re.compile(r"\s*(?:doz(?:en)?\b\.?|dz\b\.?)")
_SPELLED_UNIT = re.compile(r"\s*-?\s*(?:(?P<in>inch(?:es)?)|(?P<yd>yards?)|(?P<m>met(?:re|er)s?))\b")
_AFTER_IN = (
    r'(?=\s*(?:$|[.,;:)(x"-]|by\b|wide|long|square|sq\b|strip|rectangle|piece|from\b|finish|unfinish|border|binding|block|cut\b'
    r"|inner|outer|seam|wof|usable|for\b|of\b|bias|sash|corner|setting|side|triangle|patch|panel|oblong|segment))"
)
_UNIT = re.compile(
    rf"""\s*-?\s*(?:
      (?P<inch>"|''|in\.(?!\w)|(?<=[\d{_GLYPHS}])ins?\b|ins?\b{_AFTER_IN}|inch(?:es)?\b\.?)
    | (?P<yd>yards?\b|yds?\b\.?)
    | (?P<cm>cms?\b\.?|centimet(?:re|er)s?\b)
    | (?P<mm>mms?\b|millimet(?:re|er)s?\b)
    | (?P<m>m\b|met(?:re|er)s?\b|mtrs?\b)
    | (?P<feet>ft\b\.?|feet\b|foot\b|'))""",
    re.VERBOSE,
)
_ALONG = re.compile(
    r"\s*-?\s*(?P<along>wide|width|long|length|high|tall|deep|in\s+(?:width|length)|w(?=[\s,x\d.;]|$)|h(?=[\s,x\d.;]|$)"
    r"|l(?=[\s,x\d.;]|$))(?!\w)"
)
_W_BY_L = re.compile(r"\s*[wlh]\s*x\s*\d[\d /.]*[wlh]\b")
_STRIPS = re.compile(r"\bstrips?,?\s$")
"""What a bare whole number stands behind that is "wide": "7 strips 2 wide"."""
_BY = re.compile(
    r"\s*(?:x|by)\s*(?=[\d.]|["
    + _GLYPHS
    + rf"]|[⁰-⁹¹²³]|(?:{IN_WORDS})\b|wof\b|w\.o\.f|lof\b|(?:the\s+)?(?:full\s+)?(?:fabric\s+)?width|full\b|sel)"
)
_SELVAGE = r"selv[ae]d?ge"
WIDTH_OF_FABRIC = re.compile(
    rf"""(?:over\s+)?(?:the\s+)?(?:(?:full|whole|entire)\s+)?(?:
      wof\b (?:\s*\(\s*(?:the\s+)?width\s+of\s+(?:the\s+)?fabric\s*\))?
    | w\.\s?o\.\s?f\b\.?
    | width\s+of\s+(?:the\s+|your\s+)?fabric\b (?:\s*\(\s*wof\s*\))?
    | fabric\s+width\b | full[\s-]width(?=\s+strips?\b) | cross(?:wise|grain)(?=\s+strips?\b)
    | {_SELVAGE}[\s-]+to[\s-]+{_SELVAGE}\b
    | (?:(?<=full\s) | (?<=whole\s) | (?<=entire\s) | (?<=the\s))width\b | width\b (?=\s*(?:$|[.,;)]|strips?\b)) )""",
    re.VERBOSE,
)
LENGTH_OF_FABRIC = re.compile(r"lof\b|length\s+of\s+(?:the\s+)?(?:fabric|cloth)\b")


MOST = 10_000
"""No page counts more pieces, nor measures more inches."""
DENOMINATORS = (2, 3, 4, 5, 6, 8, 10, 16, 32, 64)
METRIC = ("cm", "mm", "m")
COMMA = "is this a decimal, or two numbers, or thousands?"


class Figure(NamedTuple):
    """A number on the page from `start` to `end`: its value, the unit behind it ("" for none), whether it can be a
    count, and what is doubtful about it ("" where nothing is)."""

    start: int
    end: int
    value: Fraction
    unit: str = ""
    whole: bool = False
    doubt: str = ""
    readings: tuple[str, ...] = ()
    along: str = ""
    figure_end: int = 0
    """Where its digits end, before the unit."""

    @property
    def inches(self) -> Fraction:
        """Its length in inches; a bare number is in inches too."""
        return self.value * lengths.INCHES[self.unit or "in"]

    @property
    def text(self) -> str:
        """The length as a sheet has it: inches bare, another unit with its name; as it stands where it is too long.

        >>> number("9,8 cm wide", 0).text, number('3.1/2" squares', 0).text
        ('9.8 cm', '3 1/2')
        """
        unit = "" if self.unit == "in" else self.unit
        if self.inches <= MOST and not (written := lengths.text(self.inches, unit=unit or "in")).startswith("about"):
            return written
        return f"{self.value} {unit}".rstrip()


def number(text: str, at: int, end: int | None = None) -> Figure | None:
    """The figure that begins at this place of a plain page, with its unit; None where none does.

    >>> number('3-1/2" squares', 0).inches, number("twenty-four navy", 0).value
    (Fraction(7, 2), Fraction(24, 1))
    >>> number('21/2" strips', 0).readings
    ('2 1/2',)
    """
    end = len(text) if end is None else end
    match = _NUMBER.match(text, at, end)
    if match is None and (part := _OF_A_UNIT.match(text, at, end)) and not _are_several(part):
        return Figure(at, part.end(), _part(part), str(part.lastgroup), figure_end=part.end("part"))
    if match is None:
        spelled = _IN_WORDS.match(text, at, end)
        if spelled is None:
            return None
        value, stop = Fraction(in_words(spelled[0])), spelled.end()
        part = _AND_A_PART.match(text, stop, end)
        if part:
            value, stop = value + _part(part), part.end()
        behind = _SPELLED_UNIT.match(text, stop, end)
        if behind or part:
            unit = str(behind.lastgroup) if behind else ""
            return Figure(at, behind.end() if behind else stop, value, unit, figure_end=stop)
        return Figure(at, spelled.end(), value, whole=True)
    value, whole, doubt, readings = _value(match)
    stop, unit = match.end(), ""
    dozen, part = (one.match(text, stop, end) if whole else None for one in (_DOZEN, _AND_A_PART))
    if dozen:
        value, stop = 12 * value, dozen.end()
    elif part and part["top"]:  # "3 and a half", not "3 and half of the rest"
        value, stop, whole = value + _part(part), part.end(), False
    behind = _UNIT.match(text, stop, end)
    if behind and not (behind["m"] and doubt):
        unit, stop = str(behind.lastgroup).replace("inch", "in"), behind.end()
    if unit == "feet":
        unit, doubt = "in", "feet are not read: how many inches is this?"
    if value * lengths.INCHES[unit or "in"] > MOST or (value == 0 and not doubt):
        doubt = "is this number right?"
    if match["comma"] and unit not in METRIC and not doubt:
        doubt = COMMA
    return Figure(at, stop, value, unit, whole and not unit, doubt, readings, figure_end=match.end())


def _are_several(match):
    """Whether so many lengths of a part of a yard may be told: "two half yards"."""
    return match["top"] not in (None, "a", "an", "one", "1") and not match["part"].endswith("s") and match[0][-1] == "s"


def _part(match):
    """The part of a mixed number in words: "and a half", "and 3 quarters"."""
    top = match["top"] or "a"
    return (int(top) if top.isdigit() else _VALUES.get(top, 1)) * _PARTS[match["part"]]


def _value(match):
    """The number of a match, whether it is a whole one, what is doubtful about it, and what it may have been."""
    found = match.groupdict()
    if found["glyph"]:
        return int(found["whole"]) + _glyph(found["glyph"]), False, "", ()
    if found["glyph_alone"]:
        return _glyph(found["glyph_alone"]), False, "", ()
    if found["raised"]:
        top, bottom = (found[key].translate(_RAISED) for key in ("raised", "under"))
        return _mixed(found["raised_whole"] or "", top, bottom)
    if found["mixed"]:
        return _mixed(found["mixed"], found["top"], found["bottom"])
    if found["numerator"]:
        return _mixed("", found["numerator"], found["denominator"])
    if found["decimal"]:
        return Fraction(found["decimal"]), False, "", ()
    if found["comma"]:
        return Fraction(found["comma"].replace(",", ".")), False, "", ()
    return Fraction(int(found["count"])), True, "", ()


def _glyph(char):
    return Fraction(unicodedata.numeric(char)).limit_denominator(100)


def _mixed(whole, top, bottom):
    """A mixed number; one whose fraction is 1 or more has lost a blank, or is another thing."""
    if int(bottom) == 0:
        return Fraction(0), False, "a fraction has a number above 0 under its line", ()
    value = int(whole or 0) + Fraction(int(top), int(bottom))
    if int(bottom) not in DENOMINATORS:
        return value, False, f"is {top}/{bottom} a fraction?", ()
    if int(top) < int(bottom):
        return value, False, "", ()
    lost = lengths.blank_lost(top, bottom)
    readings = tuple(f"({whole}) {one}" if whole else one for one in lost)
    return value, False, "a blank may be lost here", readings


def in_words(words: str) -> int:
    """A number in words.

    >>> in_words("twenty-four"), in_words("a dozen"), in_words("one hundred and eight"), in_words("two dozen")
    (24, 12, 108, 24)
    """
    total = 0
    for word in re.split(r"[\s-]+", words):
        if word in _VALUES:
            total += _VALUES[word]
        elif word in ("hundred", "dozen"):
            total = (total or 1) * (100 if word == "hundred" else 12)
    return total


def in_digits(text: str) -> str:
    """A text with its number words in digits.

    >>> in_digits("make thirty-two blocks, four rows of eight")
    'make 32 blocks, 4 rows of 8'
    """
    return _WORD_ALONE.sub(lambda match: str(in_words(match[0])), text)


class Measure(NamedTuple):
    """What a cut is measured by: one length, or two, or one by the width ("wof") or length ("lof") of fabric."""

    start: int
    end: int
    sides: tuple[Figure, ...]
    across: str = ""

    @property
    def doubt(self) -> str:
        """What is doubtful about it, or nothing."""
        return next((side.doubt for side in self.sides if side.doubt), "")

    @property
    def texts(self) -> list[str]:
        """Its lengths as a sheet has them, width first; a unit that only the last has belongs to all."""
        sides = self.with_units()
        if len(sides) == 2 and sides[0].along[:1] in ("l", "h", "t") and sides[1].along[:1] == "w":
            sides = sides[::-1]
        return [side.text for side in sides]

    @property
    def size(self) -> str | list[str]:
        """What a sheet has as the size of what measures so: one length of a square, else both."""
        texts = self.texts
        return texts[0] if len(set(texts)) == 1 else texts

    def with_units(self) -> tuple[Figure, ...]:
        """Its sides, those without a unit with that of the last one that has one."""
        unit = next((side.unit for side in reversed(self.sides) if side.unit), "")
        return tuple(side._replace(unit=side.unit or unit) for side in self.sides)


def measure(text: str, at: int, end: int | None = None) -> Measure | None:
    """The length or size that begins at this place, as far as "x" and "by" lead.

    >>> measure('2x36-1/2" strips', 0).texts, measure('3" x wof', 0).across
    (['2', '36 1/2'], 'wof')
    """
    end = len(text) if end is None else end
    first = number(text, at, end)
    if first is None:
        return None
    sides, stop = [_along(first, text, end)], first.end
    stop = sides[0].end
    while by := _BY.match(text, _behind_conversion(text, stop, end, sides[-1]), end):
        if wof := WIDTH_OF_FABRIC.match(text, by.end(), end):
            return Measure(at, wof.end(), tuple(sides), "wof")
        if lof := LENGTH_OF_FABRIC.match(text, by.end(), end):
            return Measure(at, lof.end(), tuple(sides), "lof")
        more = number(text, by.end(), end)
        if more is None or len(sides) == 3:
            break
        sides.append(_along(more, text, end, bool(sides[-1].along)))
        stop = sides[-1].end
    if len(sides) == 1 and (other := _other_side(sides[0], text, stop, end)):
        sides, stop = [*sides, other], other.end
    return Measure(at, stop, _decimal_commas(sides))


def _other_side(first, text, stop, end):
    """The length of what is "3 in wide and 72 in long"; None where no second length is told so."""
    between = _ALSO.match(text, stop, end) if first.along[:1] in ("", "w", "l", "h") and first.unit else None
    second = number(text, between.end(), end) if between else None
    second = _along(second, text, end) if second else None
    if not second or not second.along or second.along[:1] == first.along[:1]:
        return None
    return second if first.along or second.along.startswith("l") else None


def _behind_conversion(text, stop, end, side):
    """Where to go on behind a bracket that says a side of a size in another unit: `6.5 cm (2 1/2 in) x …`."""
    bracket = _BRACKET.match(text, stop, end)
    other = number(text, bracket.start("inside"), bracket.end("inside")) if bracket else None
    if not other or not other.unit or other.unit == side.unit or other.end != bracket.end("inside"):
        return stop
    near = abs(other.inches - side.inches) <= max(Fraction(1, 5), side.inches / 20)
    return bracket.end() if near else stop


_ALSO = re.compile(r"\s*(?:,\s*each|,|and|&|,\s*and)\s*(?=\d)")
_BRACKET = re.compile(r"\s*\((?P<inside>[^()]*)\)(?=\s*(?:x|by)\b)")


def _decimal_commas(sides):
    """The sides of a size; a comma in one is a decimal where the unit behind the last is metric."""
    if sides[-1].unit not in METRIC:
        return tuple(sides)
    return tuple(side._replace(doubt="") if side.doubt == COMMA else side for side in sides)


def _along(figure, text, end, told=False):
    """The figure with the word behind it that says along which side it is measured; a bare whole number has one where
    that of the side before it was `told`, the side behind it has one too ("64 w x 76 l"), or it is one of strips."""
    sized = figure.unit or not figure.whole or told or _W_BY_L.match(text, figure.end, end)
    sized = sized or _STRIPS.search(text, 0, figure.start)
    behind = _ALONG.match(text, figure.end, end) if sized else None
    return figure._replace(end=behind.end(), along=behind["along"].replace("in ", "")) if behind else figure


def long_side(text: str) -> tuple[Fraction, str, bool]:
    """A length of a sheet in inches, its unit, and whether it is a whole number of that."""
    read = measure(text, 0)
    assert read is not None
    side = read.sides[0]
    unit = "cm" if side.unit in ("cm", "mm") else "in"
    return side.inches, unit, (side.inches / lengths.INCHES[unit]).denominator == 1
