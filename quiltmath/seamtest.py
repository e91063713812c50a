"""What a strip test says: of the seam, apart from the strips, and of the quilt that is sewn like it.

Strips are sewn side by side, pressed and measured twice: all of them together, and one in the middle between its seams.
The total is all strips less two allowances a seam; the centre is one strip less its two allowances. Two measures, two
unknowns: how wide the strips really are (the ruler's part) and how much each allowance really takes (the needle's part,
the fold of the pressed seam included).

    >>> test = from_strips(strip="1 1/2", count=3, total="3 3/8", centre="15/16")
    >>> test.cut, test.taken, test.ruler, test.needle
    (Fraction(3, 2), Fraction(9, 32), Fraction(0, 1), Fraction(1, 32))
    >>> print(test.advice)
    Each allowance takes 9/32 in, 1/32 in too much: sew with a narrower seam. The strips are 1 1/2 in wide, as they \
should be.
    >>> grown(test.needle, seams=47)
    Fraction(47, 16)
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt
from numbers import Integral

from . import lengths
from .lengths import Length
from .usual import SEAM

MOST = 10_000
"""No row has more strips or seams than this."""


@dataclass(frozen=True)
class SeamTest:
    """A strip test, read: lengths in inches, exact Fractions of what was measured.

    `cut` is how wide the strips really are and `taken` what one allowance really takes; where no `centre` was measured,
    the strips count as cut right. `reading` is the step the measures were read to.
    """

    strip: Fraction
    count: int
    seam: Fraction
    total: Fraction
    centre: Fraction | None
    reading: Fraction
    cut: Fraction
    taken: Fraction

    @property
    def needle(self) -> Fraction:
        """How much too much each allowance takes (less than 0: too little)."""
        return self.taken - self.seam

    @property
    def ruler(self) -> Fraction:
        """How much too wide the strips are (less than 0: too narrow)."""
        return self.cut - self.strip

    @property
    def seams(self) -> int:
        """How many seams join the strips."""
        return self.count - 1

    @property
    def taken_within(self) -> Fraction:
        """How far `taken` may be off, because each measure may be off by half the step it was read to.

        The centre counts as often as there are strips, so a test wants a fine ruler.

        >>> from_strips("1 1/2", 3, "3 3/8", "15/16", reading="1/16").taken_within
        Fraction(1, 16)
        """
        half = self.reading / 2
        return half / (2 * self.seams) if self.centre is None else half * (1 + self.count) / 2

    @property
    def cut_within(self) -> Fraction:
        """How far `cut` may be off, for the same reason; 0 where the strips count as cut right."""
        return Fraction(0) if self.centre is None else self.reading / 2 * self.count

    @property
    def right(self) -> bool:
        """Whether each measure is what it should be, to half the step it was read to."""
        should = expected(self.strip, self.count, seam=self.seam)
        off = [self.total - should.total] + ([] if self.centre is None else [self.centre - should.centre])
        return all(abs(one) <= self.reading / 2 for one in off)

    @property
    def advice(self) -> str:
        """What to do, in words: the seam first, then the strips."""
        return f"{_of_the_seam(self)} {_of_the_strips(self)}"

    @property
    def sentence(self) -> str:
        """The advice, and how sure it is."""
        return f"{self.advice} {self.certainty}"

    @property
    def certainty(self) -> str:
        """How well the measures tell, in words.

        >>> print(from_strips("1 1/2", 3, "3 3/8", "15/16").certainty)
        Read to the nearest 1/32 in, what an allowance takes is known to 1/32 in, the strips' width to 3/64 in.
        """
        said = (
            f"Read to the nearest {lengths.text(self.reading, mark='in')}, what an allowance takes is known to "
            f"{lengths.text(self.taken_within, mark='in')}"
        )
        if self.centre is None:
            return said + ", if the strips were cut right; measure the centre strip to be sure of that."
        return said + f", the strips' width to {lengths.text(self.cut_within, mark='in')}."

    def row(self, patches: int, finished: Length | None = None) -> tuple[Fraction, Fraction]:
        """How wide a row of so many patches comes out, sewn and cut like the test, and how wide it should: (is,
        should).

        The patches should finish `finished` wide (what the strips should finish at, unless given); both widths are raw,
        from outer edge to outer edge.

        >>> [lengths.text(width) for width in from_strips("1 1/2", 3, "3 3/8", "15/16").row(28)]
        ['26 13/16', '28 1/2']
        """
        patches = _number(patches, "patches", least=1)
        finished = self.strip - 2 * self.seam if finished is None else lengths.parse(finished, name="finished", above=0)
        should = patches * finished + 2 * self.seam
        return should + patches * self.ruler - grown(self.needle, patches - 1), should


def from_strips(
    strip: Length = "1 1/2",
    count: int = 3,
    total: Length | None = None,
    centre: Length | None = None,
    *,
    seam: Length = SEAM,
    reading: Length = "1/32",
) -> SeamTest:
    """Read a strip test: `count` strips cut `strip` wide, sewn; the measured `total` and, if it was, `centre`.

    With both, the width of the strips (total − (count − 1) × centre) and what an allowance takes ((total − count ×
    centre) / 2) come apart. With the total alone all of the error counts as the seam's.

    >>> from_strips(strip="1 1/2", count=10, total="10 1/8").needle
    Fraction(1, 48)
    >>> from_strips(strip="1 1/2", count=3, total="3 1/2", centre="1 1/4")
    Traceback (most recent call last):
    ValueError: a centre strip shows at most a third of the total here, about 1.1667 in; got 1 1/4 in: measure both \
again, the centre from seam to seam
    """
    strip = lengths.parse(strip, name="a strip", above=0)
    seam = _seam(seam, strip)
    reading = lengths.parse(reading, name="the step of a reading", above=0)
    count = _number(count, "strips", least=2)
    if total is None:
        raise ValueError(
            f'a strip test needs the measured total; nothing was given: write for example total="'
            f'{lengths.text(expected(strip, count, seam=seam).total)}"'
        )
    total = lengths.parse(total, name="the total", above=0)
    if centre is None:
        cut, taken = strip, (count * strip - total) / (2 * (count - 1))
        if not 0 <= 2 * taken < strip:
            raise ValueError(
                f"{count} strips of {lengths.text(strip, mark='in')} sewn are between "
                f"{lengths.text(strip)} and {lengths.text(count * strip, mark='in')} wide; got "
                f"{lengths.text(total, mark='in')}: measure again, and check the number of strips"
            )
        return SeamTest(strip, count, seam, total, None, reading, cut, taken)
    centre = lengths.parse(centre, name="the centre", above=0)
    if count == 2:
        raise ValueError(
            "two strips have none in the centre, between two seams; got a centre of "
            f"{lengths.text(centre, mark='in')}: sew three, or leave the centre out"
        )
    if count * centre > total:
        share = "a third" if count == 3 else f"1/{count}"
        raise ValueError(
            f"a centre strip shows at most {share} of the total here, {lengths.text(total / count, mark='in')};"
            f" got {lengths.text(centre, mark='in')}: measure both again, the centre from seam to seam"
        )
    return SeamTest(
        strip, count, seam, total, centre, reading, total - (count - 1) * centre, (total - count * centre) / 2
    )


@dataclass(frozen=True)
class Expected:
    """What strips measure when cut and sewn right: all together and one in the centre, in inches."""

    total: Fraction
    centre: Fraction


def expected(strip: Length = "1 1/2", count: int = 3, *, seam: Length = SEAM) -> Expected:
    """What `count` strips of this width measure when each allowance takes exactly `seam`: an `Expected`.

    >>> expected("1 1/2", 3), expected("1 1/2", 10).total
    (Expected(total=Fraction(7, 2), centre=Fraction(1, 1)), Fraction(21, 2))
    """
    strip = lengths.parse(strip, name="a strip", above=0)
    seam, count = _seam(seam, strip), _number(count, "strips", least=2)
    return Expected(count * strip - grown(seam, count - 1), strip - 2 * seam)


def grown(error: Length, seams: int) -> Fraction:
    """How much a row loses over so many seams when every allowance takes `error` too much: twice that a seam, in
    inches.

    Less than 0 is gained. It makes no difference how the error came about, as long as it is the same each time.

    >>> grown("1/16", 27), grown("-1/32", 8)
    (Fraction(27, 8), Fraction(-1, 2))
    """
    return 2 * lengths.parse(error, name="an error") * _number(seams, "seams", least=0)


def scattered(error: Length, seams: int) -> float:
    """How much a row is off over so many seams when each seam's allowances vary by `error` for themselves (float,
    inches).

    The root of the mean square: chance errors partly cancel, so they grow with the root of the number of seams. Both
    allowances of a seam lie under one line of stitches and vary together.

    >>> round(scattered("1/16", 27), 3), float(grown("1/16", 27))
    (0.65, 3.375)
    """
    return 2 * float(lengths.parse(error, name="an error")) * sqrt(_number(seams, "seams", least=0))


def _of_the_seam(test):
    takes = f"Each allowance takes {lengths.text(test.taken, mark='in')}"
    if test.needle == 0:
        return f"{takes}, as it should."
    much = lengths.text(abs(test.needle), mark="in")
    if test.needle > 0:
        return f"{takes}, {much} too much: sew with a narrower seam."
    return f"{takes}, {much} too little: sew with a wider seam."


def _of_the_strips(test):
    if test.centre is None:
        return "The strips count as cut right: measure the centre strip too, to tell."
    wide = f"The strips are {lengths.text(test.cut, mark='in')} wide"
    if test.ruler == 0:
        return f"{wide}, as they should be."
    much = lengths.text(abs(test.ruler), mark="in")
    return f"{wide}, {much} too {'wide' if test.ruler > 0 else 'narrow'}: look again how the ruler lies on the fabric."


def _seam(value, strip):
    seam = lengths.parse(value, name="a seam", least=0)
    if 2 * seam >= strip:
        raise ValueError(
            f"two allowances leave something of a strip of {lengths.text(strip, mark='in')}; got a seam of "
            f"{lengths.text(seam, mark='in')}: the usual seam is 1/4 in"
        )
    return seam


def _number(value, name, least):
    if isinstance(value, bool) or not isinstance(value, Integral) or not least <= value <= MOST:
        raise ValueError(
            f"{name} are a whole number from {least} to {MOST:,}; got {repr(value)[:40]}: write for example "
            f"{max(least, 3)}"
        )
    return int(value)
