"""One printed number beside the one worked out here, and the words both are told in."""

from typing import NamedTuple

from ... import lengths
from ..checks.check import SLACK
from ..finding import LEVELS

AGREES, NEAR, DIFFERS, MISSING, TAKEN = "agrees", "nearly", "differs", "not printed", "as printed"
SIGNS = {AGREES: "=", NEAR: "≈", DIFFERS: "≠", MISSING: "?", TAKEN: "·"}
MEANING = {
    AGREES: "both come to the same",
    NEAR: "a difference that does no harm by itself",
    DIFFERS: "see what was found",
    MISSING: "the pattern should say",
    TAKEN: "nothing to hold it against",
}


class Number(NamedTuple):
    """One printed number: of which thing it is, what it says, as printed, as worked out here, one of the marks above,
    and by how much the two differ."""

    thing: str
    figure: str
    printed: str
    ours: str
    mark: str
    apart: str = ""

    @property
    def what(self) -> str:
        """The number's name in a table."""
        return f"{self.thing}: {self.figure}" if self.figure else self.thing

    @property
    def sign(self) -> str:
        """The mark as a sign, with the difference or a word beside it."""
        return f"{SIGNS[self.mark]} {self.apart or self.mark}"


class Told:
    """One reviewed sheet: what was found at each of its places, and its lengths in words."""

    def __init__(self, review):
        self.review, self.made, self.sheet, self.reading = review, review.made, review.sheet, review.reading
        self.ruler = review.reading.ruler

    def found(self, *path):
        """The gravest finding on this place of the sheet, or None."""
        here = [finding for finding in self.review.findings if finding.path == path and not finding.size]
        return min(here, key=lambda finding: LEVELS.index(finding.level), default=None)

    def length(self, inches):
        """An exact length: as it is printed, else in the sheet's unit."""
        return self.sheet.quoted(inches) or lengths.text(inches, unit=self.sheet.units, mark="in")

    def size(self, pair):
        """A printed size."""
        return self.ruler.sizes(pair, self.length)

    def finishes(self, pair):
        """The finished size that a cut size comes to."""
        return f"finishes {self.ruler.sizes(pair)}"

    def needed(self, inches, whole, printed=None):
        """A needed length up to the ruler, and exactly where the ruler does not show it; exactly alone beside
        a printed one that is rounded down from it."""
        rounded, exact = self.ruler.up(inches, whole), self.ruler.exactly(round(float(inches), 9))
        if rounded == exact:
            return rounded
        if printed is not None and printed < inches:
            return f"exactly {exact}"
        return f"{rounded} (exactly {exact.removesuffix(self.sheet.units).strip()})"

    def apart(self, have, want, less="smaller", more="larger", within=SLACK):
        """By how much one size differs from another where it differs most, in words; nothing where that is no more
        than disappears in sewing, or than `within` inches."""
        off = max((float(a) - float(b) for a, b in zip(have, want)), key=abs)
        return "" if abs(off) <= within else f"{self.ruler.said(abs(off))} {less if off < 0 else more}"


def marked(found, otherwise=AGREES):
    """The mark of a number on which something was found, or nothing."""
    return DIFFERS if found else otherwise


def held(name, figure, printed, ours):
    """A printed count held to the one the quilt takes."""
    return Number(name, figure, str(printed), str(ours), marked(printed != ours), counted(printed, ours))


def counted(have: int, needed: int) -> str:
    """By how many one count differs from another, in words; nothing where it does not.

    >>> counted(4, 5), counted(7, 5), counted(5, 5)
    ('1 short', '2 too many', '')
    """
    return "" if have == needed else f"{needed - have} short" if have < needed else f"{have - needed} too many"
