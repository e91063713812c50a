"""A strip test, read: what each allowance takes, how wide the strips are, and what that comes to over many seams."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt
from numbers import Integral

from .. import lengths
from ..lengths import Length
from ..usual import EASED, SEAM

MOST = 10_000
"""No row has more strips or seams than this."""

MOVED = "1/64"
"""Needle and guide are moved by no finer step than this, in inches (common practice)."""

STRIP_OFF, SEAM_OFF = Fraction(1, 2), Fraction(3, 8)
"""Inches: who reads strips or allowances further off than this has measured something else (common practice)."""

ALONE = "The total alone cannot tell the needle from the ruler."


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
    def found(self) -> str:
        """What the test says of needle and ruler, and how sure that is.

        >>> print(from_strips("1 1/2", 3, "3 1/4", "7/8").found)
        Each allowance takes 5/16 in, 1/16 in too much, give or take 1/32 in. The strips are 1 1/2 in wide, as they \
should be, give or take 3/64 in.
        >>> print(from_strips("1 1/2", 3, "3 7/16").found)
        If the strips are 1 1/2 in wide, each allowance takes 17/64 in, 1/64 in too much, give or take less than \
1/64 in. The total alone cannot tell the needle from the ruler.
        """
        sure = f", give or take {give_or_take(self.taken_within)}"
        if self.centre is None:
            return f"If {_as_cut(self)}, {_lower(_taking(self))}{sure}. {ALONE}"
        return f"{_taking(self)}{sure}. {_being(self)}, give or take {give_or_take(self.cut_within)}."

    @property
    def advice(self) -> str:
        """What to do, in words: the seam first, then the strips."""
        return f"{_of_the_seam(self)} {_of_the_strips(self)}"

    @property
    def sentence(self) -> str:
        """The advice, and how sure it is."""
        return f"{self.advice} {self.certainty}"

    @property
    def tells(self) -> bool:
        """Whether the allowance is further off than the readings may be: only then is a needle moved. Of a total alone
        it is said only if the strips were cut right."""
        return abs(self.needle) > self.taken_within

    @property
    def change(self) -> str:
        """What to change, machine first, then ruler, by how much and which way, where the test can tell (common
        practice).

        >>> print(from_strips("1 1/2", 3, "3 1/4", "7/8").change)
        Move the needle 1/16 in to the right, towards the raw edges, or the guide 1/16 in to the left, towards the \
needle. Then sew the test again.
        >>> print(from_strips("1 1/2", 3, "3 15/32", "31/32").change)
        Before you move anything, read to a finer step, or sew ten strips and measure the total alone: the error is no \
more than the reading may be off (1/32 in).
        >>> print(from_strips("1 1/2", 3, "3 1/2").change)
        First see whether the strips are 1 1/2 in wide, by one not yet sewn or by the centre of three. If they are, \
change nothing at the machine.
        """
        return " ".join(self.changes)

    @property
    def changes(self) -> tuple[str, ...]:
        """The same apart: what to change at the machine, and what at the ruler, where there is anything."""
        if self.centre is None:
            first = f"First see whether {_as_cut(self)}, by one not yet sewn or by the centre of three."
            return (f"{first} If they are, {_lower(self._moved)}",)
        if abs(self.ruler) <= self.cut_within:
            return (self._moved,)
        return self._moved, "Before you cut more, look again how the ruler lies on the fabric."

    @property
    def _moved(self) -> str:
        if not self.needle:
            return "Change nothing at the machine."
        off = near(abs(self.needle))
        exact = f"{off} too {'much' if self.needle > 0 else 'little'}"
        if not self.tells:
            finer = "read to a finer step" + (
                "" if self.centre is None else ", or sew ten strips and measure the total alone"
            )
            within = give_or_take(self.taken_within)
            return f"Before you move anything, {finer}: the error is no more than the reading may be off ({within})."
        if not lengths.ruler(abs(self.needle), MOVED, "nearest"):
            return f"Change nothing at the machine: {exact} is less than a needle can be moved by."
        ways = "right, towards the raw edges,", "left, towards the needle"
        if self.needle < 0:
            ways = "left, away from the raw edges,", "right, away from the needle"
        return f"Move the needle {off} to the {ways[0]} or the guide {off} to the {ways[1]}. Then sew the test again."

    @property
    def certainty(self) -> str:
        """How well the measures tell, in words.

        >>> print(from_strips("1 1/2", 3, "3 3/8", "15/16").certainty)
        Read to the nearest 1/32 in, what an allowance takes is known to 1/32 in, the strips' width to 3/64 in.
        """
        said = (
            f"Read to the nearest {lengths.text(self.reading, mark='in')}, what an allowance takes is known to "
            f"{give_or_take(self.taken_within)}"
        )
        if self.centre is None:
            return said + ", if the strips were cut right; measure the centre strip to be sure of that."
        return said + f", the strips' width to {give_or_take(self.cut_within)}."

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
    ValueError: a centre strip shows at most a third of the total here, 1 11/64 in; got 1 1/4 in: measure both \
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
        most = lengths.measured(total / count, step="1/64", mark="in")
        raise ValueError(
            f"a centre strip shows at most {share} of the total here, {most}; got {lengths.text(centre, mark='in')}: "
            "measure both again, the centre from seam to seam"
        )
    return SeamTest(
        strip, count, seam, total, centre, reading, total - (count - 1) * centre, (total - count * centre) / 2
    )


def plausible(test: SeamTest) -> SeamTest:
    """The test itself, where its readings can be meant; refused where one must have been read or typed wrong.

    >>> plausible(from_strips(total="3 3/8", centre="15/16")).needle
    Fraction(1, 32)
    >>> plausible(from_strips(total=30, centre=1))
    Traceback (most recent call last):
    ValueError: strips cut 1 1/2 in come out between 1 and 2 in wide; got a total of 30 in and a centre of 1 in, which \
would make them 28 in: measure both again, the total across all 3 strips, the centre from seam to seam
    """
    read = f"a total of {lengths.text(test.total, mark='in')}"
    again = f"measure the total again, across all {test.count} strips"
    if test.centre is not None:
        read += f" and a centre of {lengths.text(test.centre, mark='in')}"
        again = f"measure both again, the total across all {test.count} strips, the centre from seam to seam"
    if abs(test.ruler) > STRIP_OFF:
        rule = (
            f"strips cut {lengths.text(test.strip, mark='in')} come out between "
            f"{lengths.text(max(test.strip - STRIP_OFF, Fraction(0)))} and "
            f"{lengths.text(test.strip + STRIP_OFF, mark='in')} wide"
        )
        raise ValueError(f"{rule}; got {read}, which would make them {lengths.text(test.cut, mark='in')}: {again}")
    if abs(test.needle) > SEAM_OFF:
        most = lengths.text(test.seam + SEAM_OFF, mark="in")
        raise ValueError(
            f"an allowance takes at most {most}; got {read}, which would make it "
            f"{lengths.text(test.taken, mark='in')}: {again}"
        )
    return test


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


def seams_that_fit(error: Length, eased: Length = EASED) -> int | None:
    """Over how many seams a row that was sewn `error` off still fits an edge that was cut as it should be, for edges
    that differ by up to `eased` inches are eased together; None where it always does.

    >>> seams_that_fit("1/64"), seams_that_fit("-1/32"), seams_that_fit("1/16"), seams_that_fit(0)
    (2, 1, 0, None)
    """
    a_seam = abs(grown(error, 1))
    return None if a_seam == 0 else int(lengths.parse(eased, name="what is eased", least=0) // a_seam)


def give_or_take(error: Fraction) -> str:
    """How far off a measure may be as text: on the ruler, or less than the next step that a needle is moved by.

    What is told to be off by as much as that step is then further off than the measure may be.

    >>> give_or_take(Fraction(1, 32)), give_or_take(Fraction(3, 128)), give_or_take(Fraction(1, 256))
    ('1/32 in', 'less than 1/32 in', 'less than 1/64 in')
    """
    up = lengths.ruler(error, MOVED, "up")
    return ("" if up == error else "less than ") + lengths.text(up, mark="in")


def near(value: Fraction) -> str:
    """A length of 0 or more that was reckoned from measures as text: to the nearest step that a needle is moved by,
    with "about" where that is not exact.

    >>> near(Fraction(9, 32)), near(Fraction(1, 48)), near(Fraction(1, 256)), near(Fraction(0))
    ('9/32 in', 'about 1/64 in', 'less than 1/64 in', '0 in')
    """
    on = lengths.ruler(value, MOVED, "nearest")
    if value and not on:
        return give_or_take(value)
    return ("" if on == value else "about ") + lengths.text(on, mark="in")


def _lower(sentence):
    return sentence[:1].lower() + sentence[1:]


def _as_cut(test):
    return f"the strips are {lengths.text(test.strip, mark='in')} wide"


def _taking(test):
    takes = f"Each allowance takes {near(test.taken)}"
    if test.needle == 0:
        return f"{takes}, as it should"
    return f"{takes}, {near(abs(test.needle))} too {'much' if test.needle > 0 else 'little'}"


def _of_the_seam(test):
    cure = "" if test.needle == 0 else f": sew with a {'narrower' if test.needle > 0 else 'wider'} seam"
    return f"{_taking(test)}{cure}."


def _being(test):
    wide = f"The strips are {near(test.cut)} wide"
    if test.ruler == 0:
        return f"{wide}, as they should be"
    return f"{wide}, {near(abs(test.ruler))} too {'wide' if test.ruler > 0 else 'narrow'}"


def _of_the_strips(test):
    if test.centre is None:
        return "The strips count as cut right: measure the centre strip too, to tell."
    cure = "" if test.ruler == 0 else ": look again how the ruler lies on the fabric"
    return f"{_being(test)}{cure}."


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
