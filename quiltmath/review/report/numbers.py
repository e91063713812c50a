"""Every number a pattern prints, with the one worked out here beside it, and whether the two agree."""

from typing import NamedTuple

from ... import lengths
from ...making.bill import cuts_needed, sets_needed
from ...making.rounding import finished_rectangle, finished_size
from ...pattern.fields import ENOUGH
from .. import cloth
from ..checks.border_lengths import edges_of
from ..checks.check import SLACK, some
from ..checks.forgotten import line_of
from ..checks.printed_strips import StripsPrinted
from ..finding import LEVELS
from ..reviewing import Review

AGREES, NEAR, DIFFERS, MISSING, TAKEN = "agrees", "nearly", "differs", "not printed", "as printed"
SIGNS = {AGREES: "=", NEAR: "≈", DIFFERS: "≠", MISSING: "?", TAKEN: "·"}
MEANING = {
    AGREES: "both come to the same",
    NEAR: "a difference that does no harm by itself",
    DIFFERS: "see what was found",
    MISSING: "the pattern should say",
    TAKEN: "nothing to hold it against",
}
ROUNDED_UP = 1 / 8 + 1e-6  # inches: as much as rounding to the ruler's eighth adds or takes


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


def numbers(review: Review) -> list[tuple[str, list[Number]]]:
    """Every printed number of a reviewed sheet: a list of (group, [Number]), groups in the order of a
    pattern.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> for number in numbers(review(pattern.read_text(EXAMPLE)))[-1][1]:
    ...     print(number.what, number[2:])
    A: size ('3 1/2 in', 'finishes 3 in', 'as printed', '')
    A: how many ('16', '16', 'agrees', '')
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
            ("Fabric to buy", self.fabrics()),
        ]

    # -- lengths in words ---------------------------------------------------------------------------

    def length(self, inches):
        """An exact length: as it is printed, else in the sheet's unit."""
        return self.sheet.quoted(inches) or lengths.text(inches, unit=self.units, mark="in")

    def apart(self, have, want, less="smaller", more="larger", within=SLACK):
        """By how much one size differs from another where it differs most, in words; nothing where that is no more
        than disappears in sewing, or than `within` inches."""
        off = max((float(a) - float(b) for a, b in zip(have, want)), key=abs)
        return "" if abs(off) <= within else f"{self.ruler.said(abs(off))} {less if off < 0 else more}"

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
            Number("seam", "", "none", f"{seam} taken", MISSING)
            if sheet.seam is None
            else Number("seam", "", seam, seam, TAKEN)
        ]
        ours = "cannot be sewn as printed" if sewn is None else f"sewn as printed {self.ruler.sizes(sewn)}"
        printed = sheet.finished
        if printed is None:
            rows.append(Number("finished quilt", "", "none", ours, MISSING))
        elif sewn is None:
            rows.append(Number("finished quilt", "", self.printed(printed), ours, DIFFERS))
        else:
            turned = min(printed, printed[::-1], key=lambda pair: max(abs(float(a) - b) for a, b in zip(pair, sewn)))
            apart = self.apart(sewn, turned, within=ROUNDED_UP)
            mark = DIFFERS if self.found("finished") else NEAR if apart else AGREES
            rows.append(Number("finished quilt", "", self.printed(printed), ours, mark, apart))
        return rows

    def fabrics(self):
        """Each fabric: the length bought, and the width it was reckoned with."""
        rows = []
        for name, fabric in self.sheet.fabric.items():
            width = self.length(self.sheet.usable_width(name))
            if fabric.bought is not None:
                rows.append(self._bought(name, fabric))
                if not fabric.usable_width:
                    rows.append(Number(name, "usable width", "none", f"{width} taken", MISSING))
            if fabric.piece is not None:
                rows.append(self._in_pieces(name, fabric))
            if fabric.usable_width and fabric.piece is None:
                rows.append(Number(name, "usable width", width, width, TAKEN))
        return rows

    def _in_pieces(self, name, fabric):
        prints = self.sheet.prints(name)
        each = f", of each of {prints} prints" if prints > 1 else ""
        what, printed = (name, "to buy"), self.ruler.pieces(fabric.each, fabric.piece) + each
        taken, found = self.review.reading.in_pieces(name), self.found("fabric", name, "pieces")
        if taken.refused or not taken.pieces:
            none = "larger than a piece of fabric" if taken.refused else "nothing cut from it"
            return Number(*what, printed, none, DIFFERS if self.found("fabric", name) else TAKEN)
        size = self.ruler.sizes(self.sheet.fabric_piece(name)[::-1])
        ours = f"{taken.enough} of {size} will do{each}"
        short = counted(fabric.each, taken.enough) if found else ""
        return Number(*what, printed, ours, DIFFERS if found else AGREES, short)

    def _bought(self, name, fabric):
        prints = self.sheet.prints(name)
        each = f", of each of {prints} prints" if prints > 1 else ""
        what, printed = (name, "to buy"), self.ruler.cloth(fabric.bought) + each
        plan, found = self.review.reading.plan(name), self.found("fabric", name, "bought")
        mark = DIFFERS if found or self.found("fabric", name) else TAKEN
        if plan.refused:
            return Number(*what, printed, "a piece is wider than the fabric", mark)
        if not plan.pieces or plan.many:
            none = "too many pieces to plan" if plan.pieces else "nothing cut from it"
            return Number(*what, printed, found.needed if found else none, mark)
        ours = f"{self.ruler.to_buy(plan.length)} will do ({self.ruler.said(plan.length)})"
        short = f"{self.ruler.said(plan.length - fabric.bought)} short" if found else ""
        return Number(*what, printed, ours, DIFFERS if found else AGREES, short)

    def cuts(self):
        """The cutting list: size, count, and what else each line prints, and what it forgets."""
        lines = [number for place, cut in enumerate(self.sheet.cut) for number in self._cut(("cut", place), cut)]
        lost = [(one.name, line_of(self.ruler, one) or str(one.wanted)) for one in self.made.forgotten]
        return lines + [Number(name, "how many", "none", needed, DIFFERS) for name, needed in lost]

    def _cut(self, path, cut):
        name = cut.part + (f", cut {cut.cut}" if cut.diagonal else f", {cut.shape}" if cut.shape else "")
        yield self._cut_size(path, cut, name)
        if cut.finished is not None and cut.shape is None:
            short = self.found(*path, "size")
            comes_to = self._comes_to(cut)
            wrong = short is not None and short.found_by.cut_otherwise
            yield Number(
                name,
                "finished size",
                self.printed(cut.finished),
                f"comes to {self.ruler.sizes(comes_to)}",
                DIFFERS if wrong else AGREES,
                self.apart(comes_to, cut.finished) if wrong else "",
            )
        yield self._cut_count(path, cut, name)
        yield from self._strips(path, cut, name)
        if cut.triangles is not None:
            same = cut.triangles == cut.gives
            yield Number(
                name,
                "triangles",
                str(cut.triangles),
                f"{some(cut.count, cut.cut_from)} give{'s' * (cut.count == 1)} {cut.gives}",
                AGREES if same else DIFFERS,
                "" if same else counted(cut.triangles, cut.gives),
            )
        wrong = self.found(*path, "cut") or self.found(*path, "slant")
        if wrong is not None:
            yield Number(cut.part, "how it is cut", wrong.printed, wrong.needed, DIFFERS)

    def _comes_to(self, cut):
        """The finished size that a printed cut size stands for, in the order in which the finished one is printed."""
        if not cut.halved_rectangle:
            return [
                finished_size(cut.cut, float(side), self.made.seam, self.units) for side in self.sheet.cut_size(cut)
            ]
        size = tuple(map(float, self.sheet.cut_size(cut)))
        legs = finished_rectangle(size, self.made.seam, self.units)
        return legs if (legs[0] < legs[1]) == (cut.finished[0] < cut.finished[1]) else legs[::-1]

    def _cut_size(self, path, cut, name):
        strip, whole = cut.strip is not None, cut.cut == "whole"
        if cut.shape is not None and cut.strip_width is not None:
            width, found = self.length(cut.strip_width), self.found(*path, "strip_width")
            return Number(name, "strip width", width, found.needed if found else width, DIFFERS if found else TAKEN)
        what = name, "strip width" if strip else "size"
        printed = self.length(cut.strip) if strip else self.printed(cut.size)
        found = self.found(*path, "strip" if strip else "size")
        need = self.review.reading.needed.get(cut.part)
        if need is None:
            have = [float(side) - 2 * self.made.seam for side in self.sheet.cut_size(cut)]
            ours = found.needed if found else self.finishes(have[1:] * 2 if strip else have) if whole else printed
            return Number(*what, printed, ours, DIFFERS if found else TAKEN)
        lies = self.made.sheet.part(cut.part)
        turned = lies is not None and lies.size != cut.size  # typed the other way round, and taken as it fits
        size, have = (need.size, self.sheet.cut_size(cut)) if not strip else ((need.size[1],) * 2, (cut.strip,) * 2)
        size = size[::-1] if turned else size
        told = [self.needed(exact, whole, None if found else printed) for exact, printed in zip(size, have)]
        ours = self.ruler.sizes(told, str)
        rounded = [float(exact) for exact in size] if whole else [float(self._up(exact)) for exact in size]
        apart = self.apart(have, rounded, "too small" if found else "smaller", "too large" if found else "larger")
        larger = max(float(a) - float(b) for a, b in zip(have, size)) > (0 if whole else ROUNDED_UP)
        mark = DIFFERS if found else NEAR if apart and larger and not need.least else AGREES
        return Number(*what, printed, f"at least {ours}" if need.least else ours, mark, apart if mark != AGREES else "")

    def _up(self, inches):
        """A needed length as the ruler shows it, inches."""
        return lengths.parse(self.ruler.up(inches))

    def finishes(self, size):
        """The finished size a cut size comes to."""
        return f"finishes {self.ruler.sizes(size)}"

    def _cut_count(self, path, cut, name):
        found = self.found(*path, "count" if cut.per_print is None else "per_print")
        needed, each = self.review.reading.counts[cut.part], cut.each
        if cut.open:
            ours = some(cloth.strips_taken(self.made, self.sheet, cut), "strip")
            return Number(name, "how many", ENOUGH, ours, AGREES)
        enough, spare = cuts_needed(self.made.sheet, cut, self.made.bill) if each > 1 else needed, ""
        if cut.strip is not None and not needed:
            ours = self._joined(cut) or "as many as the binding takes"
        else:
            ours = str(needed) if each == 1 else f"{some(needed, 'triangle')}: {some(enough, cut.cut_from)}"
            spare = counted(cut.count, enough) if found else ""
            found = found if spare else None  # what was found is then said of another number of this line
        each_print = "" if cut.per_print is None else f" ({cut.per_print} from each print)"
        return Number(name, "how many", f"{cut.count}{each_print}", ours, DIFFERS if found else AGREES, spare)

    def _strips(self, path, cut, name):
        """The printed strips that pieces are sub-cut from."""
        wanted = -(-self.review.reading.counts[cut.part] // cut.each)
        printed = StripsPrinted.of(self.made, cut, wanted)
        if printed is None:
            return
        found, wide = self.found(*path, "strips"), self.found(*path, "strip_width")
        ours = f"{printed.strips * printed.each[0].gives} of them, {printed.wanted} needed"
        apart = counted(printed.strips, printed.needed) if found else ""
        yield Number(name, "strips", str(cut.strips), ours, DIFFERS if found else AGREES, apart)
        if cut.strip_width is not None and cut.shape is None:
            width = self.length(cut.strip_width)
            yield Number(name, "strip width", width, wide.needed if wide else width, DIFFERS if wide else AGREES)

    def _joined(self, cut):
        """How many strips the borders take that are joined from them; nothing where no border is."""
        strips = (
            [strip for strip in self.made.border_strips if strip.part == cut.part] if self.made.top is not None else []
        )
        if not strips:
            return ""
        edges = cloth.border_edges(strips)
        joined = cloth.joined(self.sheet, cut, edges)
        enough = "strips too short to join" if joined is None else str(joined.enough)
        return f"{enough} for {self.ruler.said(sum(edges))} of border"

    def made_things(self):
        """Units, strip sets and blocks: sizes and counts."""
        rows = []
        for kind, things in (("unit", self.sheet.unit), ("block", self.sheet.block)):
            for name, thing in things.items():
                rows += self._made(kind, name, thing)
        for name, strip_set in self.sheet.strip_set.items():
            width = float(strip_set.sub_cut) - 2 * self.made.seam
            found = self.found("strip_set", name, "sub_cut")
            ours, mark = (found.needed, DIFFERS) if found else (self.finishes([width] * 2), TAKEN)
            rows.append(Number(name, "sub-cut", self.length(strip_set.sub_cut), ours, mark))
            counts = self.review.reading.counts
            for key, ours in (("sets", sets_needed(self.sheet, name, counts)), ("pieces", counts[name])):
                if getattr(strip_set, key) is not None:
                    rows.append(_count(name, key, getattr(strip_set, key), ours))
        return rows

    def _made(self, kind, name, thing):
        panel = self.made.panel(name)
        if thing.finished is not None:
            what = name, "finished size", self.printed(thing.finished)
            if panel is None:
                yield Number(*what, "cannot be sewn as printed", DIFFERS)
            else:
                sewn = [float(side) - 2 * self.made.seam for side in thing.trim_to or panel.size]
                apart = self.apart(sewn, thing.finished)
                yield Number(*what, f"sews to {self.ruler.sizes(sewn)}", DIFFERS if apart else AGREES, apart)
        if kind == "block" and thing.size is not None:
            found = self.found(kind, name, "size")
            ours, mark = (self.printed(thing.size), TAKEN) if found is None else (found.needed, DIFFERS)
            yield Number(name, "measures", self.printed(thing.size), ours, mark)
        if thing.trim_to is not None:
            need = thing.finished and [side + 2 * self.sheet.sewing_seam for side in thing.finished]
            found = self.found(kind, name, "trim_to")
            yield Number(
                name,
                "trim to",
                self.printed(thing.trim_to),
                self.printed(need or thing.trim_to),
                DIFFERS if found else AGREES if need else TAKEN,
                self.apart(thing.trim_to, need, "too small", "too large") if found and need else "",
            )
        if thing.count is not None:
            yield _count(name, "how many", thing.count, self.review.reading.counts[name])

    def round_it(self):
        """The lengths of borders, binding, backing and batting."""
        return [*self._border_lengths(), *self._binding(), *self._lining("backing"), *self._lining("batting")]

    def _border_lengths(self):
        for strip in self.made.border_strips if self.made.top is not None else ():
            key = f"{strip.where}_length"
            printed, found = getattr(self.sheet.border[strip.border], key), self.found("border", strip.border, key)
            if printed is not None:
                name = f"border {strip.border + 1}, {edges_of(strip)}"
                apart = self.apart((strip.length,) * 2, (printed,) * 2) if found else ""
                ours = self.ruler.up(strip.length)
                yield Number(name, "length", self.length(printed), ours, DIFFERS if found else AGREES, apart)

    def _binding(self):
        binding, size = self.sheet.binding, self.made.finished
        if binding is None:
            return
        strip, narrow = self.length(binding.strip), self.found("binding", "strip")
        ours, mark = (strip, TAKEN) if narrow is None else (narrow.needed, DIFFERS)
        yield Number("binding", "strip width", strip, ours, mark)
        count = str(binding.count or ENOUGH)
        if size is None:
            yield Number("binding", "strips", count, "the quilt cannot be sewn", TAKEN)
            return
        around = cloth.ring(self.sheet, size)
        if binding.length is not None:
            found = self.found("binding", "length")
            ours = f"at least {self.ruler.up(around.closes)}, {self.ruler.said(around.around)} round"
            yield Number("binding", "length", self.length(binding.length), ours, DIFFERS if found else AGREES)
            return
        if cloth.serves_twice(self.sheet):
            yield Number("binding", "strips", f"with {binding.part}", f"{self.ruler.said(around.around)} round", TAKEN)
            return
        strips = "strips too wide to join" if around.enough is None else some(around.enough, "strip")
        wrong = self.found("binding", "count") is not None
        yield Number(
            "binding",
            "strips",
            count,
            f"{strips}, {self.ruler.said(around.around)} round",
            DIFFERS if wrong or around.enough is None else AGREES,
            counted(binding.count, around.enough) if wrong and around.enough else "",
        )

    def _lining(self, thing):
        lining, quilt = getattr(self.sheet, thing), self.made.finished
        if lining is None or (lining.size is None and lining.bought is None):
            return
        said = [] if lining.size is None else [self.printed(lining.size)]
        if lining.bought is not None:
            said.append(
                self.ruler.cloth(lining.bought) + (f" in {some(lining.panels, 'panel')}" if lining.panels else "")
            )
        printed = ", from ".join(said)
        if quilt is None:
            yield Number(thing, "", printed, "the quilt cannot be sewn", TAKEN)
            return
        found, needed = self.found(thing), cloth.lining_needed(quilt, self.made.sheet.units)
        narrowest, *_ = cloth.linings(self.sheet, lining, quilt)
        lying = min(narrowest.size, narrowest.size[::-1], key=lambda pair: _short(pair, needed))
        apart = self.apart(lying, needed) if found else ""
        ours = f"at least {self.ruler.sizes(needed)}"
        yield Number(thing, "", printed, ours, DIFFERS if found else AGREES, apart)


def _short(have, need):
    """By how much a size is short where it is shortest, inches."""
    return max(float(b) - float(a) for a, b in zip(have, need))


def _count(name, figure, printed, ours):
    """A printed count held to the one the quilt takes."""
    same = printed == ours
    return Number(name, figure, str(printed), str(ours), AGREES if same else DIFFERS, counted(printed, ours))


def counted(have: int, needed: int) -> str:
    """By how many one count differs from another, in words; nothing where it does not.

    >>> counted(4, 5), counted(7, 5), counted(5, 5)
    ('1 short', '2 too many', '')
    """
    return "" if have == needed else f"{needed - have} short" if have < needed else f"{have - needed} too many"
