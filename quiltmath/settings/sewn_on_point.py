"""The top of a quilt on point, sewn: rows level on the table, joined, corners last, turned by 45 degrees,
squared up."""

from dataclasses import dataclass, replace

from .. import sewing, shapes
from . import edge_triangles, frames

HAIR = 1e-9  # inches: less than this is no overhang


@dataclass(frozen=True)
class Band:
    """Level rows sewn together, and where their lower and upper left finished corners lie (inches, as in
    `diagonal`)."""

    panel: sewing.Panel
    lower: float
    upper: float


def top(plan, cut="exact"):
    """The sewn top as it hangs, its raw edge one seam outside the finished one."""
    shop = Workshop(plan, cut)
    panel = shop.joined(shop.bands()).panel
    panel = shop.with_corners(panel)
    return shop.squared_up(panel.turn(45))


class Workshop:
    """The pieces of one plan cut for sewing, and the ways they are joined."""

    def __init__(self, plan, cut):
        self.plan, self.cut, self.seam = plan, cut, float(plan.seam)
        self.runs, self.ended, self.sides = {}, {}, {}
        self.oversize = plan.edges == "plain" and (cut != "exact" or bool(plan.floating))
        self.leg = float(plan.leg)
        if self.oversize and plan.side_triangles:
            self.leg = edge_triangles.finished_leg(plan, "side triangle", cut)
        self.parts = self._parts()

    def _parts(self):
        """One panel for each part that rows are made of."""
        plan = self.plan
        parts = {"block": frames.framed(plan, plan.block)}
        if plan.alternate is not plan.block:
            parts["alternate block"] = frames.framed(plan, plan.alternate)
        if plan.sashing:
            width, length = plan.line("sash").value
            parts["sash"] = sewing.patch(size=(width, length), fabric=plan.fabric("sashing"), part="sash")
            parts["level sash"] = replace(parts["sash"]).turn(-90)
        if plan.cornerstones:
            side = plan.line("cornerstone").value[0]
            parts["cornerstone"] = sewing.patch(
                size=(side, side), fabric=plan.fabric("cornerstone"), part="cornerstone"
            )
        if plan.cornerstone_triangles:
            parts["cornerstone triangle"] = edge_triangles.twice_cut(plan, "cornerstone triangle")
        if plan.triangle_tips:
            parts["triangle tip"] = edge_triangles.twice_cut(plan, "triangle tip", self.cut)
        return parts

    def bands(self):
        """Every row with its triangles, lowest first, sewn to its sashing where that must come before
        them."""
        rows = list(self.plan.diagonal_rows)
        found, taken = [], set()
        for place, row in enumerate(rows):
            if row.kind == "blocks" and row.sashing:
                other = place - 1 if row.sashing == "above" else place + 1
                taken.update((place, other))
                found.append((min(place, other), self.block_band(row, rows[other])))
        for place, row in enumerate(rows):
            if place not in taken:
                found.append((place, self.sashing_band(row) if row.kind == "sashing" else self.block_band(row)))
        return [band for _, band in sorted(found, key=lambda pair: pair[0])][::-1]

    def sashing_band(self, row):
        """A sashing row with its ends."""
        if row.pieces[0].part == "sashing strip":
            band = self._strip(row)
            if not row.tip:
                return band
            return self._ended(band, self.parts["triangle tip"], row.tip, "top", self._tip_leg(), row.height)
        pieces = [self.parts["level sash" if piece.part == "sash" else piece.part] for piece in row.pieces]
        if row.tip:
            return self._level(row, pieces, {row.tip: ("top", self.parts["triangle tip"])}, self._tip_leg())
        ends = {"left": row.left, "right": row.right} if row.ends else {}
        ends = {end: (form, self.parts["cornerstone triangle"]) for end, form in ends.items() if form}
        return self._level(row, pieces, ends, float(row.height))

    def _tip_leg(self):
        return edge_triangles.finished_leg(self.plan, "triangle tip", self.cut)

    def block_band(self, row, sashing=None):
        """A row of blocks with its triangles, sewn before them to the sashing row that belongs to it."""
        pieces = [self.parts[piece.part] for piece in row.pieces]
        ends = {end: (form, self._side(end, form)) for end, form in (("left", row.left), ("right", row.right)) if form}
        if sashing is None:
            return self._level(row, pieces, ends, self.leg)
        first = {end: ends.pop(end) for end in [row.tip] if end}
        band, strip = self._level(row, pieces, first, self.leg, short=True), self.sashing_band(sashing)
        band = self.stacked(band, strip) if row.sashing == "above" else self.stacked(strip, band)
        for end, (form, triangle) in ends.items():
            band = self._ended(band, triangle, end, form, self.leg, row.height + sashing.height)
        return band

    def _side(self, end, form):
        """The side triangle for this end; the same panel every time."""
        if (end, form) not in self.sides:
            self.sides[end, form] = self.plan.edge_triangles.side(end, form, self.cut)
        return self.sides[end, form]

    def _level(self, row, pieces, ends, leg, short=False):
        """A row, its end triangles sewn to its first and last piece before all are sewn together.

        `ends` maps "left" and "right" to (form, triangle). Equal ends are sewn once.
        """
        pieces = list(pieces)
        for end, (form, triangle) in ends.items():
            place = 0 if end == "left" else -1
            key = id(pieces[place]), end, form, short
            if key not in self.ended:
                sewn = self._with_triangle(pieces[place], triangle, end, form, row.height, short)
                self.ended[key] = pieces[place], sewn  # the piece is kept, so that its id stays its own
            pieces[place] = self.ended[key][1]
        panel = sewing.in_a_row(pieces, seam=self.seam, sewn=self.runs)
        form = ends["left"][0] if "left" in ends else ""
        return Band(panel, *_corners(float(row.x), form, leg, float(row.height)))

    def _strip(self, row):
        """One long strip of sashing, its ends slanting where the edge of the quilt crosses them."""
        height = float(row.height)
        left, right = float(row.x), float(row.end)
        out = {"bottom": (height, 0.0), "top": (0.0, height), "": (0.0, 0.0)}
        lower, upper = zip(out[row.left], out[row.right])
        finished = [
            (left - lower[0], 0.0),
            (right + lower[1], 0.0),
            (right + upper[1], height),
            (left - upper[0], height),
        ]
        panel = sewing.patch(
            corners=shapes.moved_out(finished, self.seam),
            fabric=self.plan.fabric("sashing"),
            part="sashing strip",
            grain=0,
        )
        return Band(panel.laid_down(), finished[0][0], finished[3][0])

    def _ended(self, band, triangle, end, form, leg, height):
        """The band with a triangle at one end."""
        panel = self._with_triangle(band.panel, triangle, end, form, height)
        if end == "right":
            return Band(panel, band.lower, band.upper)
        return Band(panel, *_corners(band.lower, form, leg, float(height)))

    def _with_triangle(self, panel, triangle, end, form, height, short=False):
        """The panel with a triangle at one end, its right angle at the bottom or top, trimmed level if too
        long."""
        faces = "upper left" if (end == "left") == (form == "bottom") else "upper right"
        panel = panel.sew(triangle, end, faces, self.seam, "start" if form == "bottom" else "end")
        if not (short or self.oversize):
            return panel
        tall, whole = float(height) + 2 * self.seam, panel.size[1]
        return (panel.trim(top=tall) if form == "bottom" else panel.trim(bottom=whole - tall)).laid_down()

    def stacked(self, lower, upper):
        """Two bands sewn together, the second above the first."""
        along = upper.lower - lower.upper
        panel = lower.panel.sew(upper.panel, "top", "bottom", self.seam, "start" if abs(along) < HAIR else along)
        return Band(panel, lower.lower, upper.upper)

    def joined(self, bands):
        """All bands sewn together, neighbours two by two."""
        while len(bands) > 1:
            pairs = [self.stacked(*bands[i : i + 2]) for i in range(0, len(bands) - 1, 2)]
            bands = pairs + bands[len(pairs) * 2 :]
        return bands[0]

    def with_corners(self, panel):
        """The joined rows with the four corner triangles; whatever was cut large and stands in their way is
        cut level."""
        rows = self.plan.diagonal_rows
        blocks = [row for row in rows if row.kind == "blocks"]
        wide = float(max(row.end for row in blocks) - min(row.x for row in blocks)) + 2 * self.seam
        tall = float(rows[0].y + rows[0].height - rows[-1].y) + 2 * self.seam
        for faces in ("left", "right", "top", "bottom"):
            if self.oversize and faces in ("left", "top"):
                panel = _level_ends(panel, *((wide, 0) if faces == "left" else (tall, 1)))
            align = self._before_corner(faces) if self.oversize else "centre"
            panel = panel.sew(self.plan.edge_triangles.corner(faces, self.cut), faces, "top", self.seam, align)
        return panel

    def _before_corner(self, faces):
        """How far in from the start of the edge a corner triangle starts, whose middle belongs at the block's
        middle."""
        beyond_block = edge_triangles.finished_long(self.plan, "corner triangle", self.cut) - float(
            self.plan.corner_side
        )
        spare, plan = beyond_block / 2, self.plan
        if plan.sashing and not plan.whole:  # beside it lies a cornerstone or strip cut to its exact size
            return -spare
        lone = {
            "left": plan.across == 1,
            "right": plan.down == 1,
            "bottom": plan.across == 1,
            "top": plan.down == 1,
        }
        if lone[faces]:  # beside it lies another corner, not a side triangle
            return -spare if faces in ("left", "right") else 0.0
        return self.leg - float(plan.leg) - spare

    def squared_up(self, panel):
        """The turned top, trimmed one seam outside its finished edge where triangles were cut to the
        ruler."""
        if self.cut == "exact" or not self.oversize:
            return panel
        plan = self.plan
        corner, side, tip = (self._spare(part) for part in ("corner triangle", "side triangle", "triangle tip"))
        left = right = max(corner, side if plan.down > 1 else 0.0)
        bottom = top = max(corner, side if plan.across > 1 else 0.0)
        if plan.across > plan.down:
            bottom = max(bottom, tip)
        else:
            right = max(right, tip)
        width, height = panel.size
        return panel.trim(left=left, right=width - right, bottom=bottom, top=height - top, seam=self.seam).laid_down()

    def _spare(self, part):
        """How far past its exact place a triangle cut to the ruler reaches at the edge of the quilt."""
        line = next((line for line in self.plan.edge_lines() if line.part == part), None)
        return (float(line.size[0]) - line.value[0]) / 2 if line else 0.0


def _corners(x, form, leg, height):
    """Where a row's lower and upper left finished corners lie, with a triangle of this leg to the left of
    x."""
    return {"": (x, x), "bottom": (x - leg, x - leg + height), "top": (x - leg + height, x - leg)}[form]


def _level_ends(panel, length, axis):
    """The panel cut level where it stands out, alike at both ends, past this length across (0) or up (1)."""
    out = (panel.size[axis] - length) / 2
    if out <= HAIR:
        return panel
    low, high = (("left", "right"), ("bottom", "top"))[axis]
    return panel.trim(**{low: out, high: panel.size[axis] - out}).laid_down()
