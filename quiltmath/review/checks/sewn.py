"""What comes of sewing: whether edges to be joined are equally long, and the finished size."""

from dataclasses import replace
from fractions import Fraction

from ... import lengths
from ...making.meant_setting import comes_to_printed, with_edge
from ...making.sewn import path_of
from ...pattern.names import SETTING, all_in, called, final, unused
from ...usual import PRINTED_ROUND
from .. import cloth
from ..agreement import agreements, met_exactly, told_at_once
from ..finding import ByNotebook, ByProof
from .blaming import Blaming
from .check import SLACK, Check, blamed, is_little, ruler, some
from .drawn_otherwise import told_otherwise

RULER_STEPS = {"in": Fraction(1, 8), "cm": lengths.parse("1/2 cm")}
"""By what whole steps the cut sizes of a sheet of these units differ (inches; common practice)."""


class EdgesDiffer(Blaming):
    """Two edges to be joined differ by more than 1/16 in, or cannot be joined at all."""

    name, title = "edges-differ", "Two edges to be joined are not equally long"
    repair, why = "find the part with the wrong size before joining", ByNotebook("07-sashing-frames-borders")
    question = "Two edges that are sewn together do not match ({printed}). Which part is printed in the wrong size?"
    only_designer = True
    picture = "misfit"

    def causes(self, reading):
        if reading.off:
            yield from told_otherwise(self, reading)

    def findings(self, reading, earlier):
        made = reading.made
        if reading.other_seam is not None:
            return  # with the seam that is meant they are looked at anew
        explained, trimmed = set(blamed(earlier)), _apart_before_trimming(made, reading.sheet)
        for finding in self._of_culprits(reading):
            if not finding.parts or not finding.parts <= explained:  # else told already, by what is surer
                explained |= finding.parts
                yield finding
        for name in made.joined:
            panel = made.panel(name)
            if panel is None or all_in(made.sheet, name) & explained:
                continue
            off = [seam for seam in panel.sewn_seams() if abs(seam.difference) > SLACK]
            if _trimmed_off(made, name):
                trimmed |= {round(seam.difference, 6) for seam in off}
            off = [seam for seam in off if round(seam.difference, 6) not in trimmed]
            if off:
                explained |= all_in(made.sheet, name)
                yield self._apart(made, name, off)
        for trouble in made.troubles if made.top is None else ():
            if not all_in(made.sheet, trouble.name) & explained:
                yield self._cannot_be_sewn(made, trouble)
        if made.top is not None and made.bound is None and not explained:
            yield self._uneven(made)
        elif made.bound is not None and any(cut.shape for cut in made.sheet.cut):
            yield from self._slanting(made)

    def _of_culprits(self, reading):
        """What edges that differ tell of a printed number, where no finished size that is printed tells it."""
        for found in told_at_once(reading.culprits, reading.measures.values):
            for finding in self.blamed(reading, found) if not found.printed else ():
                name = _panel_at(reading.made.sheet, found.place)
                yield replace(finding, panel=name, spots=_where_apart(reading.made, name))

    def _apart(self, made, name, off):
        """Edges of different length in a panel, of which no number tells the cause."""
        of, worst = ruler(made), max(off, key=lambda seam: abs(seam.difference))
        return self.finding(
            made,
            path_of(made.sheet, name),
            f"{some(len(off), 'seam')} in {name!r} would join edges of different length; the "
            f"worst differ by {of.said(abs(worst.difference))}. Easing takes up {of.said(SLACK)} at most: check "
            "the sizes of the parts that meet there before you sew.",
            f"{of.said(abs(worst.difference))} apart",
            "equal edges",
            panel=name,
            spots=_where_apart(made, name),
            parts=frozenset(all_in(made.sheet, name)),
        )

    def _cannot_be_sewn(self, made, trouble):
        """A panel that cannot be sewn, and why."""
        return self.finding(
            made,
            trouble.path,
            f"{called(trouble.name)!r} cannot be sewn as printed: {trouble.message}.",
            "as printed",
            "edges that meet",
            panel=trouble.name,
        )

    def _uneven(self, made):
        """A top whose outer edge is not straight."""
        return self.finding(
            made,
            ["setting"],
            "The outer edge of the quilt is not straight: in some places its fabric does not reach "
            "as far as in others. Check the pieces that lie along the edge, and the triangles first.",
            "an uneven edge",
            "a straight edge all round",
            panel=final(made.sheet),
        )

    def _slanting(self, made):
        """A quilt of rows whose slanting ends are its outside."""
        of = ruler(made)
        width, height = made.bound.size
        if width * height - made.bound.area > SLACK * (width + height):
            yield self.finding(
                made,
                ["setting"],
                f"The sides of the quilt slant: of the {of.sizes((width, height))} that it measures, corners are "
                "missing. Trim the rows straight (trim_to), or end them with half triangles; or is it meant so?",
                "slanting sides",
                "a rectangle",
                level="ask",
                panel=final(made.sheet),
            )


class FinishedSize(Check):
    """The printed size against the sewn size."""

    name, title = "finished-size", "The quilt comes out another size than printed"
    repair, why = "plan with the size given below", ByProof("on_point")
    after = ("cut-size", "edges-differ", "wrong-triangles")
    question = "Which size is the finished quilt: {printed} as printed, or {needed}, which its parts come to?"

    def findings(self, reading, earlier):
        made = reading.made
        of = ruler(made)
        printed, sewn = made.sheet.finished, made.finished
        if printed is None or sewn is None:
            return
        ways = [[float(a) - b for a, b in zip(pair, sewn)] for pair in (printed, printed[::-1])]
        off = ways[1] if is_little(ways[1], sewn) else ways[0]  # height first, where that is about what is sewn
        if max(map(abs, off)) <= PRINTED_ROUND:
            yield from self._of_one_piece(reading, off)
            return
        smaller = max(off, key=abs) > 0
        spare = unused(made.sheet)
        if spare and min(off) >= -SLACK and not is_little(off, sewn):
            yield self._to_be_completed(made, spare)
            return
        outgrown = cloth.outgrown(made.sheet, printed, sewn)
        little, forgot = is_little(off, sewn), _without_seams(reading, off)
        if little and not outgrown and any(one.check == "no-allowance" for one in earlier):
            return  # the missing seam allowance, told already
        if outgrown:
            then = f"The {' and the '.join(outgrown)} printed will not do for that: buy and cut for the real size"
        elif forgot:
            then = f"{_as_it_finishes(of, made.sheet, forgot)} Plan with the size it comes to"
        elif little:
            then = "Nothing else that is printed depends on it: plan with the size it comes to"
        else:
            then = "Buy binding, backing and batting for the real size"
        yield self.finding(
            made,
            ["finished"],
            f"The pattern promises {of.sizes(printed)}; sewn as printed the quilt finishes "
            f"{of.sizes(sewn)}, {'smaller' if smaller else 'larger'} by {of.said(max(map(abs, off)))}. {then}, "
            f"or ask which figure is wrong.{_with_the_other_edge(made)}",
            of.sizes(printed),
            of.sizes(sewn),
            level="stop" if outgrown or not little else "ask" if forgot else "note",
            fix=tuple(_with_seams(made.sheet, of, forgot)) or ((("finished",), of.typed(sewn, of.said)),),
            why=ByProof("on_point")
            if made.sheet.setting.style == "on point"
            else ByNotebook("03-straight-or-on-point"),
        )

    def _to_be_completed(self, made, spare):
        """A quilt smaller than it is printed where pieces are cut that nothing uses: they are what is missing."""
        of, printed = ruler(made), made.sheet.finished
        return self.finding(
            made,
            ["finished"],
            f"The pattern promises {of.sizes(printed)}; what this sheet sews comes to {of.sizes(made.finished)}, and "
            f"{' and '.join(map(repr, spare))} {'is' if len(spare) == 1 else 'are'} cut and not sewn in: sashing, a "
            "border or other blocks are missing in the sheet. The size is judged when these are said.",
            of.sizes(printed),
            of.sizes(made.finished),
            level="ask",
            why=ByNotebook("03-straight-or-on-point"),
        )

    def _of_one_piece(self, reading, off):
        """A size that misses the printed one by no more than is rounded, and by just what the seams of one piece, or
        border, would be, or what another size of it would."""
        short = max(off)
        if short > SLACK and min(map(abs, off)) <= SLACK / 2:  # on both sides it is the outer seams that are counted in
            forgot = _without_seams(reading, off)
            if forgot:
                yield self._one_piece_unseamed(reading, short, forgot)
                return
        if max(map(abs, off)) > SLACK:
            yield from self._one_piece_otherwise(reading, off)

    def _one_piece_unseamed(self, reading, short, forgot):
        """A quilt that is smaller by the seams of one piece, or border."""
        made = reading.made
        of, printed, unit = ruler(made), made.sheet.finished, lengths.parse(1, unit=made.sheet.units)
        whole = short < unit and all(side % unit == 0 for side in printed)
        rounded = f", as it would be where sizes are rounded to the whole {'inch' if unit == 1 else 'centimetre'}"
        return self.finding(
            made,
            ["finished"],
            f"The pattern promises {of.sizes(printed)}; sewn as printed the quilt finishes {of.sizes(made.finished)}, "
            f"smaller by {of.said(short)}{rounded * whole}. {_as_it_finishes(of, made.sheet, forgot)} "
            f"{'Look at the drawing, or ask' if whole else 'Ask which is meant'}.",
            of.sizes(printed),
            of.sizes(made.finished),
            level="note" if whole else "ask",
            fix=() if whole else tuple(_with_seams(made.sheet, of, forgot)),
        )

    def _one_piece_otherwise(self, reading, off):
        """A quilt that would be exactly as printed with another size of one piece, or border: where its printed size is
        not this one rounded, or more is printed that agrees with that."""
        made, sheet = reading.made, reading.sheet
        of, step = ruler(made), float(RULER_STEPS[sheet.units])
        found = _met_exactly(reading, step)
        borne_out = max((one.borne_out for one in found), default=0)
        likeliest = [one.sizes for one in found if one.borne_out == borne_out]
        if len(likeliest) != 1 or not borne_out and _may_be_rounded(sheet, off, made.seam):
            return
        sizes = likeliest[0]
        yield self.finding(
            made,
            ["finished"],
            f"The pattern promises {of.sizes(sheet.finished)}; sewn as printed the quilt finishes "
            f"{of.sizes(made.finished)}, {'smaller' if max(off, key=abs) > 0 else 'larger'} by "
            f"{of.said(max(map(abs, off)))}. With {_sizes_in_words(of, sheet, sizes)} it would be just as printed"
            f"{', and more that is printed agrees with that' * (borne_out > 0)}. Ask which is meant.",
            of.sizes(sheet.finished),
            of.sizes(made.finished),
            level="ask",
            fix=tuple(_with_seams(sheet, of, [sizes])),
            parts=frozenset(sheet.cut[figure.path[1]].part for figure in sizes),
        )


def _met_exactly(reading, step):
    """The cut sizes each of which alone would give the quilt its printed size, by `met_exactly`."""
    quilt = reading.measures.quilt
    if quilt is None:
        return []
    held, together = agreements(reading.measures, reading.ruler), _cut_together(reading.sheet, quilt)
    return list(met_exactly(held, reading.measures.values, together, step))


def _may_be_rounded(sheet, off, seam):
    """Whether a printed size that is `off` (inches) may be that of the quilt rounded as coarsely as it is printed, or
    with its outer seams."""
    unit = lengths.parse(1, unit=sheet.units)
    steps = [unit, unit / 2, unit / 4 if sheet.units == "in" else unit / 10]
    coarse = next((float(step) for step in steps if all(side % step == 0 for side in sheet.finished)), 0.0)
    return max(map(abs, off)) < coarse - 1e-6 or all(abs(by - 2 * seam) <= SLACK / 2 for by in off)


def _without_seams(reading, off):
    """{number: what it would be with its seams (inches)} of each piece, or border, with whose seams the quilt would be
    as large as it is printed, which it is too small by `off`; as a list."""
    seams, quilt, found = 2 * reading.made.seam, reading.measures.quilt, []
    for figures in [] if quilt is None else _cut_together(reading.sheet, quilt):
        more = [sum(seams * side.shares.get(figure, 0.0) for figure in figures) for side in quilt[:2]]
        if max(more) > SLACK and all(abs(by - grown) <= SLACK / 2 for by, grown in zip(off, more)):
            found.append({figure: reading.measures.values[figure] + seams for figure in figures})
    return found


def _cut_together(sheet, quilt):
    """The cut sizes that a quilt grows with: those of the strips of one border, and of sashing, together, others each
    alone."""
    figures = {figure for side in quilt[:2] for figure in side.shares if figure.path[0] == "cut"}
    cuts = sorted(figure for figure in figures if figure.path[1] < len(sheet.cut))  # forgotten lines are not printed
    parts = {figure: sheet.cut[figure.path[1]].part for figure in cuts}
    strips, sashing = [(border.sides, border.top) for border in sheet.border], sheet.setting.sashing
    strips += [] if sashing is None else [(sashing.part, *(sashing.strip or ()))]
    alike = [[figure for figure in cuts if parts[figure] in names] for names in strips]
    several = {figure for figures in alike for figure in figures}
    return [*([figure] for figure in cuts if figure not in several), *filter(None, alike)]


def _as_it_finishes(of, sheet, meant):
    """What is said of pieces that are perhaps printed as they finish."""
    said = " or ".join(_sizes_in_words(of, sheet, piece) for piece in meant)
    return f"With {said} it would be as printed: perhaps the seams are forgotten there."


def _sizes_in_words(of, sheet, sizes):
    """Pieces and how wide they would be."""
    said = [f"{sheet.cut[figure.path[1]].part!r} {of.said(side)}" for figure, side in sizes.items()]
    return f"{' and '.join(said)} wide"


def _with_seams(sheet, of, meant):
    """The changes to the sheet that cut a piece with its seams; none where it is open which is meant."""
    for figure, side in meant[0].items() if len(meant) == 1 else ():
        pair = [side if place == figure.side else one for place, one in enumerate(sheet.cut[figure.path[1]].size or ())]
        yield figure.path, of.typed(pair) if pair else of.up(side)


def _with_the_other_edge(made):
    """That the printed size is the one with the edge outside the cornerstones, or through them, where it is."""
    sashing = made.sheet.setting.sashing
    if made.sheet.setting.style == "straight" or sashing is None or sashing.cornerstone is None:
        return ""
    edge = "half" if sashing.edge == "whole" else "whole"
    if not comes_to_printed(with_edge(made.sheet, edge)):
        return ""
    return (
        f" With {'halved' if edge == 'half' else 'whole'} cornerstones at the edge it would come to the printed size: "
        "look which the drawing shows."
    )


def _panel_at(sheet, path):
    """The name of the panel whose sewing is told at a path."""
    if path[0] == "step":
        return sheet.step[path[1]].gives[0]
    return path[1] if path[0] == "block" else SETTING


def _trimmed_off(made, name):
    """Whether a later step trims what is sewn to a whole rectangle, so that no uneven edge is left of it."""
    for step in made.sheet.step:
        panel = made.panel(step.gives[0]) if step.trim is not None and name in all_in(made.sheet, step.trim) else None
        if panel is not None and abs(panel.area - panel.size[0] * panel.size[1]) < SLACK**2:
            return True
    return False


def _apart_before_trimming(made, typed):
    """By how much edges differ in units and blocks that are trimmed themselves, for they lie inside others as well: as
    the sheet has it typed, or since all their parts are cut large alike."""
    kinds = (made.sheet.unit, typed.unit), (made.sheet.block, typed.block)
    trimmed = [
        made.panel(name)
        for meant, printed in kinds
        for name, one in meant.items()
        if one.trim_to is not None and (printed[name].trim_to is not None or one.kind != "square in a square")
    ]
    return {round(seam.difference, 6) for panel in trimmed if panel is not None for seam in panel.sewn_seams()}


def _where_apart(made, name):
    """The middle of the seam in a panel whose two edges differ most; none where nothing of that name is sewn here."""
    panel = made.panel(name) if name in made.joined else None
    seams = [] if panel is None else panel.sewn_seams()
    worst = max(seams, key=lambda seam: abs(seam.difference), default=None)
    return () if worst is None else (tuple((a + b) / 2 for a, b in zip(worst.start, worst.end)),)
