"""The review of a sheet: what every check finds on it and on its other sizes, and the verdict that follows."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

from .. import lengths
from ..making import Made
from ..making.cover import cover
from ..pattern.other_size import OtherSize
from ..pattern.sheet import Sheet
from ..sewing import Panel
from .finding import LEVELS, Finding
from .reading import Reading

if TYPE_CHECKING:
    from .correction import Correction


@dataclass(frozen=True)
class Review:
    """One reading of a sheet and all that was found on it, gravest first."""

    reading: Reading
    findings: tuple[Finding, ...] = ()

    @property
    def sheet(self) -> Sheet:
        """The sheet that was read."""
        return self.reading.sheet

    @property
    def made(self) -> Made:
        """The sheet's cloth."""
        return self.reading.made

    @cached_property
    def verdict(self) -> str:
        """ "stop" (do not cut), "ask" (settle something first) or "go"; notes alone are a go."""
        levels = {finding.level for finding in self.findings}
        return "stop" if "stop" in levels else "ask" if "ask" in levels else "go"

    @property
    def open(self) -> tuple[Finding, ...]:
        """The findings that stand against cutting: all but notes."""
        return tuple(finding for finding in self.findings if finding.level != "note")

    @property
    def questions(self) -> tuple[str, ...]:
        """What to ask the designer, gravest first and nothing twice; notes ask nothing.

        >>> from quiltmath import pattern
        >>> from quiltmath.pattern.sheet import EXAMPLE
        >>> review(pattern.read_text(EXAMPLE)).questions[0]
        'What is the finished size of the quilt? The pattern does not say.'
        """
        return tuple(dict.fromkeys(finding.question for finding in self.open))

    @cached_property
    def other_sizes(self) -> tuple[tuple[OtherSize, Review], ...]:
        """The other sizes of the pattern, each with its own review."""
        return tuple((size, reviewed(other)) for size, other in self.reading.other_sizes)

    @cached_property
    def cover(self) -> Panel | None:
        """The finished quilt as its designer means it, or None where the sheet does not tell: sizes known to be wrong
        are corrected."""
        if any(finding.only_designer and finding.level == "stop" for finding in self.findings):
            return None
        return cover(self.reading.meant.made)

    @cached_property
    def correction(self) -> Correction:
        """The sheet corrected; see `corrected`."""
        from .correction import correct

        return correct(self)

    def as_dict(self) -> dict[str, Any]:
        """The whole review as plain data, the pattern's `units` ("in" or "cm") in it.

        `finished` is the size the quilt sews to, text in those units without their name, to the nearest 1/16 in or
        1 mm, or null where it cannot be sewn. In a finding `printed`, `needed` and `message` are sentences or figures
        for a reader; each length in them has its unit, and what is printed is quoted as it is printed.

        >>> from quiltmath import pattern
        >>> from quiltmath.pattern.sheet import EXAMPLE
        >>> found = review(pattern.read_text(EXAMPLE)).as_dict()
        >>> found["units"], found["finished"]
        ('in', {'width': '12', 'height': '12'})
        """
        size = self.made.finished or (None, None)
        width, height = (side if side is None else self._measured(side) for side in size)
        return {
            "pattern": self.sheet.title,
            "verdict": self.verdict,
            "units": self.sheet.units,
            "finished": {"width": width, "height": height},
            "findings": [finding.as_dict() for finding in self.findings],
        }

    def _measured(self, side):
        """A side of the quilt in the sheet's units, without their name."""
        return lengths.measured(float(side), self.sheet.units).removesuffix(f" {self.sheet.units}")


def review(sheet: Sheet) -> Review:
    """Everything there is to say about a sheet before it is cut, gravest first.

    A check is left out for what an earlier one has already explained (see `checks.Check.after`). What is found in
    another size of the pattern, and not already in the first, is said with that size's name. Refused with
    `pattern.Unreadable` where a sheet needs too many patches or its rows do not match.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> review(pattern.read_text(EXAMPLE)).verdict
    'ask'
    """
    return reviewed(Reading(sheet))


def reviewed(reading: Reading) -> Review:
    """The review of a sheet that has been read: the findings gravest first, causes before their consequences."""
    findings = list(reading.findings)
    known = {_said_of(finding) for finding in findings}
    for number, (size, other) in enumerate(reading.other_sizes):
        place = reading.sheet.place(["other_size", number])
        new = {_said_of(one): one for one in other.findings if _said_of(one) not in known}
        findings += [_in_size(size.name, place, one) for one in new.values()]
        known |= new.keys()
    return Review(reading, tuple(sorted(findings, key=lambda finding: LEVELS.index(finding.level))))


def _said_of(finding):
    """What a finding says, wherever in a pattern's sizes: only one that says the very same may be left out. A cut size
    that is wrong in one is the same fault in all, for whatever it does not fit."""
    same = (finding.printed, finding.needed) if finding.found_by.cut_otherwise and finding.fix else finding.message
    return finding.check, finding.level, finding.parts, same


def _in_size(name, place, finding):
    """A finding on another size; it points at that size's table."""
    return replace(finding, size=name, where=place, message=f"In size {name}: {finding.message}", fix=())
