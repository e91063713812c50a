"""What a check is: everything that belongs to one, its questions, reasons and kind of picture too."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import sqrt
from typing import TYPE_CHECKING, Any

from ...usual import EASED, PRINTED_ROUND
from ..finding import ByNotebook, Finding, Why
from ..ruler import Ruler

if TYPE_CHECKING:
    from ...making import Made
    from ...pattern.cut import Cut
    from ...pattern.sheet import Sheet
    from ..reading import Reading

SLACK = float(EASED)  # inches: what disappears in sewing
SMALL_SHARE, SMALL = 0.03, 1.0  # of the size, or inches: a quilt so much larger or smaller serves as well
MOST_NAMED = 3  # parts: a question names no more


class Check:
    """One thing to look at before cutting; a subclass gives what differs from the following, and `findings`.

    `name` is what commands print and faulty sheets are named after, `title` says what was found and `repair` what to
    do, in a few words each; `why` shows the reason. `level` is how grave its findings are unless they say otherwise.
    `after` names checks: where one of them has found a `stop`, this one's findings would only be its consequences, and
    it stays silent. `question` is what to ask the designer, with {parts}, {printed} and {needed} of the finding;
    `only_designer` says that nobody else can answer, so that nothing is corrected, unless a finding knows how.
    `cut_otherwise` says that the parts of its stops must be cut in another size, so that what is sewn from them is not
    to be judged yet; `as_meant` that it looks at the quilt with the sizes known to be wrong corrected; `by_seam` that
    its findings rest on the seam: where none is printed and none can be found, they are questions; `more_will_do` that
    more of the same, bought or cut, is all that it asks for; `missing` that what its findings need is a figure that is
    not printed. `picture` is the kind of picture that shows its findings,
    a key of `report.pictures.KINDS`, or "" for none.
    """

    name = title = repair = ""
    why: Why = ByNotebook("09-check-a-pattern")
    level = "stop"
    after: tuple[str, ...] = ()
    question = "The pattern says {printed}; we work out {needed}. Which is meant?"
    only_designer = False
    cut_otherwise = False
    as_meant = True
    by_seam = True
    more_will_do = False
    missing = False
    picture = ""

    def look(self, reading: Reading, earlier: tuple[Finding, ...]) -> tuple[Finding, ...]:
        """The findings of this check on one sheet, unless an `earlier` finding explains them."""
        if any(finding.check in self.after and finding.level == "stop" for finding in earlier):
            return ()
        return self._as_sure_as_the_seam(reading, self.findings(reading, earlier))

    def look_for_causes(self, reading: Reading) -> tuple[Finding, ...]:
        """What `causes` finds on one sheet."""
        return self._as_sure_as_the_seam(reading, self.causes(reading))

    def _as_sure_as_the_seam(self, reading, found):
        """Findings, those that rest on a seam in doubt as questions."""
        seam = reading.found_seam
        in_doubt = self.by_seam and seam is not None and seam.in_doubt
        return tuple(replace(one, level="ask", fix=()) if in_doubt and one.level == "stop" else one for one in found)

    def findings(self, reading: Reading, earlier: tuple[Finding, ...]) -> Iterator[Finding]:
        """Yield a `Finding` for each thing found."""
        raise TypeError(
            f"{type(self).__name__} does not say what it finds: write its method findings(reading, earlier)"
        )

    def causes(self, reading: Reading) -> Iterator[Finding]:
        """Yield what is wrong with a sheet as it is typed, so that all else is judged with it mended; as a rule
        nothing."""
        yield from ()

    def finding(
        self,
        made: Made,
        path: Iterable,
        message: str,
        printed: str = "",
        needed: str = "",
        level: str | None = None,
        why: Why | None = None,
        parts: frozenset = frozenset(),
        panel: str = "",
        spots: tuple = (),
        fix: tuple = (),
        meant: tuple = (),
        asks: str = "",
    ) -> Finding:
        """A finding of this check at a path of the sheet."""
        sheet: Any = made.sheet
        return Finding(
            found_by=self,
            level=level or self.level,
            path=tuple(path),
            where=sheet.place(list(path)),
            printed=printed,
            needed=needed,
            message=message,
            why=self.why if why is None else why,
            parts=parts,
            panel=panel,
            spots=spots,
            fix=fix,
            meant=meant,
            asks=asks,
        )

    def ask(self, finding: Finding) -> str:
        """The question that one of its findings puts to the designer."""
        names = sorted(finding.parts) or ([finding.path[1]] if finding.path[:1] == ("fabric",) else ["the quilt"])
        more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
        parts = ", ".join(f"“{name}”" for name in names[:MOST_NAMED]) + more
        question = finding.asks or self.question.format(printed=finding.printed, needed=finding.needed, parts=parts)
        return f"In size {finding.size}: {question}" if finding.size else question


def blamed(earlier: Iterable[Finding]) -> frozenset:
    """The parts that earlier findings say must be cut otherwise: what is sewn from them is not to be judged yet."""
    return frozenset(
        part
        for finding in earlier
        if finding.found_by.cut_otherwise and finding.level == "stop"
        for part in finding.parts
    )


def ruler(made: Made) -> Ruler:
    """The `Ruler` in whose words a sheet's findings are said."""
    sheet: Any = made.sheet
    return Ruler.of(sheet)


def path_of(sheet: Sheet, part: str) -> list:
    """The path of the cutting-list line that cuts this part."""
    return ["cut", [cut.part for cut in sheet.cut].index(part)]


def how_many(sheet: Sheet, cut: Cut) -> tuple[tuple, int]:
    """The path of the number that says how many of a line are cut, and how many prints it is said of each of."""
    path = path_of(sheet, cut.part)
    return ((*path, "count"), 1) if cut.per_print is None else ((*path, "per_print"), sheet.prints(cut.fabric))


def is_little(off: Iterable[float], sewn: Iterable[float]) -> bool:
    """Whether a quilt misses its printed size (inches) by so little that it is a matter of rounding or squaring up."""
    return all(abs(by) <= max(SMALL, SMALL_SHARE * side) for by, side in zip(off, sewn))


def quilt_follows(made: Made, name: str, needed: Iterable[float]) -> bool:
    """Whether the printed size of the quilt, missed by more than a little, is worked out from a printed size of this
    block that what is cut for it does not give, but only so much (inches)."""
    sheet: Any = made.sheet
    sewn, pitch = made.finished, sqrt(2) if sheet.setting.style == "on point" else 1.0
    if name != made.block or sheet.finished is None or sewn is None:
        return False
    apart = [float(a) - b for a, b in zip(sheet.block[name].finished, needed)]
    grown = [side + count * pitch * by for side, count, by in zip(sewn, sheet.setting.size, apart)]
    follows = all(abs(float(a) - b) <= PRINTED_ROUND for a, b in zip(sheet.finished, grown))
    return follows and not is_little([float(a) - b for a, b in zip(sheet.finished, sewn)], sewn)


def some(number: int, thing: str, things: str | None = None) -> str:
    """A count with its noun.

    >>> some(1, "point"), some(12, "point"), some(2, "patch", "patches")
    ('1 point', '12 points', '2 patches')
    """
    return f"{number} {thing if number == 1 else things or thing + 's'}"
