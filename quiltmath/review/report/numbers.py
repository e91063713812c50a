"""Every number a pattern prints, with the one worked out here beside it, and whether the two agree."""

from typing import NamedTuple

from ... import lengths
from ...making import batch
from ...making.rounding import finished_size
from ...usual import PRINTED_ROUND
from .. import cloth
from ..checks.check import SLACK, some
from ..checks.forgotten import line_of
from ..finding import LEVELS
from ..reviewing import Review

AGREES, DIFFERS, MISSING, TAKEN = "agrees", "differs", "not printed", "as printed"
SIGNS = {AGREES: "=", DIFFERS: "≠", MISSING: "?", TAKEN: "·"}
MEANING = {
    AGREES: "both come to the same",
    DIFFERS: "see what was found",
    MISSING: "the pattern should say",
    TAKEN: "nothing to hold it against",
}


class Number(NamedTuple):
    """One printed number: what it says, as printed, as worked out here, and one of the four marks above."""

    what: str
    printed: str
    ours: str
    mark: str


def numbers(review: Review) -> list[tuple[str, list[Number]]]:
    """Every printed number of a reviewed sheet: a list of (group, [Number]), groups in the order of a
    pattern.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> for number in numbers(review(pattern.read_text(EXAMPLE)))[-1][1]:
    ...     print(number)
    Number(what='A: size', printed='3 1/2 in', ours='finishes 3 in', mark='as printed')
    Number(what='A: how many', printed='16', ours='16', mark='agrees')
    """
    groups = _Rows(review).groups()
    known = {number for _, rows in groups for number in rows}
    found = [(title, rows) for title, rows in groups if rows]
    for size, other in review.other_sizes:
        rows = [number for _, rows in _Rows(other).groups() for number in rows if number not in known]
        found.append((f"In size {size.name}", rows))
    return found


class _Rows:
    """The rows of one reviewed sheet, and how its lengths are written."""

    def __init__(self, review):
        self.review, self.made, self.sheet = review, review.made, review.sheet
        self.units, self.ruler = self.sheet.units, review.reading.ruler

    def groups(self):
        """(title, rows) of each group, empty ones too."""
        return [
            ("The quilt", self.quilt()),
            ("Cutting list", self.cuts()),
            ("Units and blocks", self.made_things()),
            ("Binding, backing, batting", self.round_it()),
            ("Cloth to buy", self.cloths()),
        ]

    # -- lengths in words ---------------------------------------------------------------------------

    def length(self, inches):
        """An exact length in the sheet's unit."""
        return lengths.text(inches, unit=self.units, mark="in")

    def needed(self, inches, whole, printed=None):
        """A needed length up to the ruler, and exactly where the ruler does not show it; exactly alone beside
        a printed one that is rounded down from it."""
        rounded, exact = self.ruler.up(inches, whole), self.ruler.exactly(round(float(inches), 9))
        if rounded == exact:
            return rounded
        if printed is not None and printed < inches:
            return f"exactly {exact}"
        return f"{rounded} (exactly {exact.removesuffix(self.units).strip()})"

    def printed(self, pair):
        """A printed size."""
        return self.ruler.sizes(pair, self.length)

    # -- what the review says -----------------------------------------------------------------------

    def found(self, *path):
        """The gravest finding on this place of the sheet, or None."""
        here = [finding for finding in self.review.findings if finding.path == path and not finding.size]
        return min(here, key=lambda finding: LEVELS.index(finding.level), default=None)

    # -- the groups ---------------------------------------------------------------------------------

    def quilt(self):
        """The seam and the finished size."""
        sheet, sewn = self.sheet, self.made.finished
        seam = self.length(sheet.sewing_seam)
        rows = [
            Number("seam", "none", f"{seam} taken", MISSING)
            if sheet.seam is None
            else Number("seam", seam, seam, TAKEN)
        ]
        ours = "cannot be sewn as printed" if sewn is None else f"sewn as printed {self.ruler.sizes(sewn)}"
        if sheet.finished is None:
            rows.append(Number("finished quilt", "none", ours, MISSING))
        else:
            rows.append(Number("finished quilt", self.printed(sheet.finished), ours, self._finished_mark(sewn)))
        return rows

    def _finished_mark(self, sewn):
        if sewn is None:
            return DIFFERS
        printed = self.sheet.finished
        off = min(max(abs(float(a) - b) for a, b in zip(pair, sewn)) for pair in (printed, printed[::-1]))
        return DIFFERS if off > PRINTED_ROUND else AGREES

    def cloths(self):
        """Each cloth: the length bought, and the width it was reckoned with."""
        rows = []
        for name, fabric in self.sheet.fabric.items():
            width = self.length(self.sheet.usable_width(name))
            if fabric.bought is not None:
                rows.append(self._bought(name, fabric))
                if not fabric.usable_width:
                    rows.append(Number(f"{name}: usable width", "none", f"{width} taken", MISSING))
            if fabric.usable_width:
                rows.append(Number(f"{name}: usable width", width, width, TAKEN))
        return rows

    def _bought(self, name, fabric):
        what, printed = f"{name}: to buy", self.ruler.cloth(fabric.bought)
        plan, found = self.review.reading.plan(name), self.found("fabric", name, "bought")
        mark = DIFFERS if found else TAKEN
        if plan.refused:
            return Number(what, printed, "a piece is wider than the cloth", mark)
        if not plan.pieces or plan.many:
            none = "too many pieces to plan" if plan.pieces else "nothing cut from it"
            return Number(what, printed, found.needed if found else none, mark)
        ours = f"{self.ruler.to_buy(plan.length)} will do ({self.ruler.said(plan.length)})"
        return Number(what, printed, ours, DIFFERS if found else AGREES)

    def cuts(self):
        """The cutting list: size, count, and what else each line prints, and what it forgets."""
        lines = [number for place, cut in enumerate(self.sheet.cut) for number in self._cut(("cut", place), cut)]
        lost = [(one.name, line_of(self.ruler, one) or str(one.wanted)) for one in self.made.forgotten]
        return lines + [Number(f"{name}: how many", "none", needed, DIFFERS) for name, needed in lost]

    def _cut(self, path, cut):
        name = cut.part + ("" if cut.cut == "whole" else f", cut {cut.cut}")
        yield self._cut_size(path, cut, name)
        if cut.finished is not None:
            short = self.found(*path, "size")
            comes_to = [
                finished_size(cut.cut, float(side), self.made.seam, self.units) for side in self.sheet.cut_size(cut)
            ]
            yield Number(
                f"{name}: finished size",
                self.printed(cut.finished),
                f"comes to {self.ruler.sizes(comes_to)}",
                DIFFERS if short is not None and short.found_by.cut_otherwise else AGREES,
            )
        yield self._cut_count(path, cut, name)
        if cut.triangles is not None:
            yield Number(
                f"{name}: triangles",
                str(cut.triangles),
                f"{cut.count} squares give {cut.gives}",
                AGREES if cut.triangles == cut.gives else DIFFERS,
            )
        wrong = self.found(*path, "cut")
        if wrong is not None:
            yield Number(f"{cut.part}: how it is cut", wrong.printed, wrong.needed, DIFFERS)

    def _cut_size(self, path, cut, name):
        strip, whole = cut.strip is not None, cut.cut == "whole"
        what = f"{name}: {'height of the strip' if strip else 'size'}"
        printed = self.length(cut.strip) if strip else self.printed(cut.size)
        found = self.found(*path, "strip" if strip else "size")
        need = self.review.reading.needed.get(cut.part)
        if need is None:
            have = [float(side) - 2 * self.made.seam for side in self.sheet.cut_size(cut)]
            ours = found.needed if found else self.finishes(have[1:] * 2 if strip else have) if whole else "taken"
            return Number(what, printed, ours, DIFFERS if found else TAKEN)
        size, have = (need.size, self.sheet.cut_size(cut)) if not strip else ((need.size[1],) * 2, (cut.strip,) * 2)
        told = [self.needed(exact, whole, None if found else printed) for exact, printed in zip(size, have)]
        ours = self.ruler.sizes(told, str)
        return Number(what, printed, f"at least {ours}" if need.least else ours, DIFFERS if found else AGREES)

    def finishes(self, size):
        """The finished size a cut size comes to."""
        return f"finishes {self.ruler.sizes(size)}"

    def _cut_count(self, path, cut, name):
        found = self.found(*path, "count")
        needed, each = self.review.reading.counts[cut.part], cut.gives // cut.count
        if cut.strip is not None and not needed:
            ours = self._joined(cut) or "as many as the binding takes"
        elif each == 1:
            ours = str(needed)
        else:
            ours = f"{some(needed, 'triangle')}: {some(-(-needed // each), 'square')}"
        if found and found.level == "note" and needed:
            ours += f" ({cut.gives - needed} spare)"
        return Number(f"{name}: how many", str(cut.count), ours, DIFFERS if found else AGREES)

    def _joined(self, cut):
        """How many strips the borders take that are joined from them; nothing where no border is."""
        strips = (
            [strip for strip in self.made.border_strips if strip.part == cut.part] if self.made.top is not None else []
        )
        if not strips:
            return ""
        length = 2 * sum(strip.length for strip in strips)
        joined = cloth.joined(self.sheet, cut, length)
        enough = "strips too short to join" if joined is None else str(joined.enough)
        return f"{enough} for {self.ruler.said(length)} of border"

    def made_things(self):
        """Units, strip sets and blocks: sizes and counts."""
        rows = []
        for kind, things in (("unit", self.sheet.unit), ("block", self.sheet.block)):
            for name, thing in things.items():
                rows += self._made(kind, name, thing)
        for name, strip_set in self.sheet.strip_set.items():
            rows.append(
                Number(
                    f"{name}: cut across at",
                    self.length(strip_set.sub_cut),
                    self.finishes([float(strip_set.sub_cut) - 2 * self.made.seam] * 2),
                    TAKEN,
                )
            )
            pieces = self.review.reading.counts[name]
            for key, ours in (("sets", -(-pieces // batch(self.sheet, name))), ("pieces", pieces)):
                printed = getattr(strip_set, key)
                if printed is not None:
                    rows.append(
                        Number(f"{name}: {key}", str(printed), str(ours), AGREES if printed == ours else DIFFERS)
                    )
        return rows

    def _made(self, kind, name, thing):
        panel = self.made.panel(name)
        if thing.finished is not None:
            if panel is None:
                yield Number(
                    f"{name}: finished size",
                    self.printed(thing.finished),
                    "cannot be sewn as printed",
                    DIFFERS,
                )
            else:
                raw = thing.trim_to or panel.size
                sewn = [float(side) - 2 * self.made.seam for side in raw]
                off = max(abs(float(side) - have) for side, have in zip(thing.finished, sewn))
                yield Number(
                    f"{name}: finished size",
                    self.printed(thing.finished),
                    f"sews to {self.ruler.sizes(sewn)}",
                    DIFFERS if off > SLACK else AGREES,
                )
        if thing.trim_to is not None:
            need = thing.finished and [side + 2 * self.sheet.sewing_seam for side in thing.finished]
            found = self.found(kind, name, "trim_to")
            yield Number(
                f"{name}: trim to",
                self.printed(thing.trim_to),
                self.printed(need or thing.trim_to),
                DIFFERS if found else AGREES if need else TAKEN,
            )
        if thing.count is not None:
            ours = self.review.reading.counts[name]
            yield Number(f"{name}: how many", str(thing.count), str(ours), AGREES if thing.count == ours else DIFFERS)

    def round_it(self):
        """Binding, backing and batting."""
        return [*self._binding(), *self._lining("backing"), *self._lining("batting")]

    def _binding(self):
        binding, size = self.sheet.binding, self.made.finished
        if binding is None:
            return
        strip, narrow = self.length(binding.strip), self.found("binding", "strip")
        ours, mark = (strip, TAKEN) if narrow is None else (narrow.needed, DIFFERS)
        yield Number("binding: height of the strips", strip, ours, mark)
        if size is None:
            yield Number("binding: strips", str(binding.count), "the quilt cannot be sewn", TAKEN)
            return
        around = cloth.ring(self.sheet, size)
        strips = "strips too wide to join" if around.enough is None else some(around.enough, "strip")
        yield Number(
            "binding: strips",
            str(binding.count),
            f"{strips}, {self.ruler.said(around.around)} round",
            DIFFERS if self.found("binding", "count") or around.enough is None else AGREES,
        )

    def _lining(self, thing):
        lining, quilt = getattr(self.sheet, thing), self.made.finished
        if lining is None or (lining.size is None and lining.bought is None):
            return
        printed = (
            self.printed(lining.size)
            if lining.size is not None
            else self.ruler.cloth(lining.bought) + (f" in {some(lining.panels, 'panel')}" if lining.panels else "")
        )
        ours = (
            "the quilt cannot be sewn" if quilt is None else f"at least {self.ruler.sizes(cloth.lining_needed(quilt))}"
        )
        yield Number(thing, printed, ours, TAKEN if quilt is None else DIFFERS if self.found(thing) else AGREES)
