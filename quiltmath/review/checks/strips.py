"""Long strips: borders, frames and mitres that must reach, and the order in which a maker is told to work."""

import re
from collections import defaultdict

from ... import lengths, making
from ...making.needs import sash_lengths
from ...pattern.names import CORNER, SIDE, all_in, called, centre, edge_piece
from .. import cloth
from ..finding import ByNotebook, ByProof
from .check import SLACK, Check, blamed, path_of, ruler, some


class StripShort(Check):
    """A frame, sashing or mitred border that ends before its row, its 45-degree trim or its mitre."""

    name, title = "strip-short", "A strip ends too soon"
    repair, why = "cut the strip as long as given below, and trim after sewing", ByProof("frame_end")
    question = "Strip {parts}: {printed} is printed, and the place it is sewn to takes {needed}. Which is meant?"

    def findings(self, reading, earlier):
        made = reading.made
        for name in (SIDE, CORNER):
            piece = edge_piece(made.sheet, name)
            if piece is not None and piece.frame is not None and not all_in(made.sheet, name) & blamed(earlier):
                yield from self._frames(made, name, piece)
        if made.top is None or all_in(made.sheet, centre(made.sheet)) & blamed(earlier):
            return
        longest = {}
        for strip in made.border_strips:
            key = strip.border, strip.part
            longest[key] = max(strip.length, longest.get(key, 0.0))
        for (number, part), length in longest.items():
            cut = made.sheet.part(part)
            if made.sheet.border[number].ends == "mitred" and cut is not None and cut.size is not None:
                where = f"the mitre of border {number + 1}"
                yield from self._short(made, cut, length, where, ByProof("mitred_strip"))
        yield from self._sashes(made)

    def _sashes(self, made):
        """The long strips of sashing between rows."""
        straight = made.sheet.setting.style == "straight"
        where = "the end of its row" if straight else "the 45-degree trim of its row"
        why = ByNotebook("07-sashing-frames-borders")
        for part, raw in sash_lengths(made).items():
            cut = made.sheet.part(part)
            if cut is not None and cut.size is not None:
                yield from self._short(made, cut, max(raw), where, why)
            elif cut is not None:
                yield from too_few(self, made, cut, sum(raw), "long sashing strips", why)

    def _frames(self, made, name, piece):
        """Frame strips on an edge triangle."""
        triangle = made.unframed(name)
        if triangle is None or made.panel(name) is None:
            return
        for (part, _), needed in making.frame_lengths(made, triangle, piece.frame).items():
            cut = made.sheet.part(part)
            if cut is not None and cut.size is not None:
                yield from self._short(
                    made, cut, needed, f"its 45-degree trim on the {called(name)}", ByProof("frame_end")
                )

    def _short(self, made, cut, needed, where, why):
        of = ruler(made)
        have = float(max(cut.size))
        if needed - have > SLACK:
            yield self.finding(
                made,
                [*path_of(made.sheet, cut.part), "size"],
                f"{cut.part!r} is cut {of.said(have)} long and ends before {where}: it "
                f"needs {of.up(needed)}. Cut it {of.up(needed)} or longer, and trim after sewing.",
                of.said(have),
                of.up(needed),
                why=why,
                parts=frozenset([cut.part]),
                fix=_longer(made.sheet, cut, needed),
            )


class BorderLength(Check):
    """Borders that are shorter than the edge they are sewn to."""

    name, title = "border-length", "A border is shorter than its edge"
    repair, why = "measure the top, then cut the borders", ByNotebook("07-sashing-frames-borders")
    after = ("cut-size", "edges-differ", "wrong-triangles")
    question = "Border {parts}: {printed} is printed, and its edge takes {needed}. Which is meant?"

    def findings(self, reading, earlier):
        made = reading.made
        of = ruler(made)
        if made.top is None:
            return
        total = defaultdict(float)
        for strip in made.border_strips:
            cut = made.sheet.part(strip.part)
            if cut is None:
                yield from self._pieced(made, strip)
            elif cut.strip is not None:
                total[cut.part] += 2 * strip.length
            elif made.sheet.border[strip.border].ends == "butted":
                have = max(map(float, cut.size))
                if strip.length - have > SLACK:
                    edges = "left and right" if strip.where == "sides" else "top and bottom"
                    yield self.finding(
                        made,
                        [*path_of(made.sheet, cut.part), "size"],
                        f"Border {strip.border + 1}, {edges}: {cut.part!r} is cut "
                        f"{of.said(have)} long, but the edge it is sewn to measures {of.said(strip.length)}. Cut "
                        f"borders after measuring the made top; cut these {of.up(strip.length)}.",
                        of.said(have),
                        of.up(strip.length),
                        parts=frozenset([cut.part]),
                        fix=_longer(made.sheet, cut, strip.length),
                    )
        for part, needed in total.items():
            yield from too_few(self, made, made.sheet.part(part), needed, "borders")

    def _pieced(self, made, strip):
        """A border sewn from pieces, which cannot be cut to measure."""
        of = ruler(made)
        have = max(made.panel(strip.part).size)
        if made.sheet.border[strip.border].ends == "butted" and abs(have - strip.length) > SLACK:
            edges = "left and right" if strip.where == "sides" else "top and bottom"
            yield self.finding(
                made,
                ["border", strip.border],
                f"Border {strip.border + 1}, {edges}: {strip.part!r} sews to {of.said(have)}, but the "
                f"edge it is sewn to measures {of.said(strip.length)}. Check how many pieces it takes and their size, "
                "or put a plain border between that makes up the difference.",
                of.said(have),
                of.said(strip.length),
                parts=frozenset([strip.part]),
            )


def too_few(check, made, cut, needed, what, why=None):
    """Too few strips across the cloth for what is joined from them to a length (inches) in all."""
    of, strips = ruler(made), cloth.joined(made, cut, needed)
    if strips is not None and cut.count < strips.enough:
        path = (*path_of(made.sheet, cut.part), "count")
        yield check.finding(
            made,
            path,
            f"The {what} cut from {cut.part!r} measure {of.said(needed)} in all, but {some(cut.count, 'strip')} of "
            f"{of.said(made.sheet.cut_size(cut)[0])} give {of.said(strips.have)} once joined. "
            f"Cut {strips.enough} strips.",
            some(cut.count, "strip"),
            some(strips.enough, "strip"),
            why=why,
            parts=frozenset([cut.part]),
            fix=((path, strips.enough),),
        )


class PrintTurned(Check):
    """A directional print set on point."""

    name, title = "print-turned", "A directional print will lie askew"
    level, why = "ask", ByNotebook("03-straight-or-on-point")
    repair = "cut those patches on the diagonal of the cloth, or choose a print without direction"
    question = "A print with a direction will lie askew in this setting. Is that meant?"
    only_designer = True

    def findings(self, reading, earlier):
        made = reading.made
        directional = {name for name, fabric in made.sheet.fabric.items() if fabric.directional}
        if not directional or made.top is None:
            return
        turned = defaultdict(int)
        for cut, grain in zip(made.top.cuts, made.top.grains):
            if cut.fabric in directional and 20 < grain % 90 < 70:
                turned[cut.fabric] += 1
        for fabric, count in turned.items():
            yield self.finding(
                made,
                ["fabric", fabric],
                f"{fabric!r} has a direction, and {some(count, 'patch', 'patches')} of it will lie turned by "
                "45 degrees in the quilt. Ask whether that is meant; if not, choose a print without direction.",
                "directional print",
                "a print without direction, or a straight setting",
            )


class OrderOfWork(Check):
    """Steps told in an order that spoils the work, where the pattern's instructions are in the sheet."""

    name, title = "order-of-work", "The work is told in the wrong order"
    level, why = "note", ByNotebook("05-bias-on-the-outside")
    repair = "stay-stitch before a bias cut; measure the top before cutting borders"
    question = "The instructions, {printed}: should {needed} not come first?"

    def findings(self, reading, earlier):
        made = reading.made
        told = [line.lower() for line in made.sheet.instructions]
        if not told:
            return
        bias_cut = _first(told, r"\b(cut|slice)\b.*\b(45|diagonal|bias)")
        stay = _first(told, r"stay.?stitch")
        slices = any(step.cut is not None for step in made.sheet.step) or any(
            piece is not None and piece.how == "cut blocks"
            for piece in (made.sheet.setting.sides, made.sheet.setting.corners)
        )
        if slices and bias_cut is not None and (stay is None or stay > bias_cut):
            yield self.finding(
                made,
                ["instructions"],
                "Sewn cloth is cut on the bias before it is stay-stitched. Stitch an eighth of an "
                "inch inside the line first, then cut, so that the edge cannot stretch.",
                f"step {bias_cut + 1}",
                "stay-stitching before it",
                fix=_told_before(made.sheet, bias_cut, STAY_STITCH),
            )
        cut_border = _first(told, r"\bcut\b.*\bborder", BY_WIDTH)
        measure = _first(told, r"\bmeasure\b")
        if made.sheet.border and cut_border is not None and (measure is None or measure > cut_border):
            yield self.finding(
                made,
                ["instructions"],
                "Borders are cut before the top is measured. Measure the made top through its "
                "middle first and cut the borders to that.",
                f"step {cut_border + 1}",
                "measuring before it",
                why=ByNotebook("07-sashing-frames-borders"),
                fix=_told_before(made.sheet, cut_border, MEASURE),
            )


def _longer(sheet, cut, needed):
    """The change to the sheet that makes this strip as long as needed, up to the ruler."""
    width, height = cut.size
    long = lengths.text(lengths.ruler(needed), unit=sheet.units)
    short = lengths.text(min(width, height), unit=sheet.units)
    return (((*path_of(sheet, cut.part), "size"), f"{short} x {long}" if width <= height else f"{long} x {short}"),)


BY_WIDTH = (
    r"\b(width|wof|selvage|selvedge|across|except|not|later|after)\b"  # strips to be cut to length later, or a warning
)


STAY_STITCH = "Stay-stitch an eighth of an inch inside each line that will be cut on the bias."
MEASURE = "Measure the made top through its middle, both ways."


def _told_before(sheet, number, line):
    """The change to the sheet that puts one more instruction before that one."""
    told = list(sheet.instructions)
    return ((("instructions",), [*told[:number], line, *told[number:]]),)


def _first(lines, pattern, unless=None):
    """The number of the first line in which one pattern is found and the other is not, or None."""
    return next(
        (
            number
            for number, line in enumerate(lines)
            if re.search(pattern, line[:500]) and not (unless and re.search(unless, line[:500]))
        ),
        None,
    )
