"""Edges: allowance that was never there, points that will be cut off, bias on the outside, triangles cut the wrong
way."""

from math import sqrt

import numpy as np

from ...making.at_the_edge import edge_length
from ...making.bill import ways_to_cut
from ...making.needs import unit_needs
from ...making.pieces import meant_finished
from ...making.rounding import ROUNDED_UP, added
from ...making.slants import slants_taken, to_cut, way_to_cut
from ...pattern.cut import PIECES
from ...pattern.names import CORNER, SIDE, all_in, called, centre, edge_names, final, step_giving
from ...sewing import CannotSew
from ...shapes import NEAR, line_through
from ..finding import ByNotebook, ByProof
from ..outside import beyond_the_edge, outside_triangles, set_askew
from .bias import parts_on_bias, ways_faced
from .check import SLACK, Check, path_of, ruler, some
from .exchanged import setting_triangles_exchanged
from .slanting import cut_slanting, slant_in_words

SHORT_BIAS = 2.0  # inches: less bias than this is an ear or a corner


PROOFS = {
    "half-square": "half_square",
    "half-rectangle": "half_rectangle",
    "triangle in a square": "triangle_in_square",
    "quarter-square": "quarter_square",
    "flying geese": "flying_geese",
    "square in a square": "square_in_square",
}


class WrongTriangles(Check):
    """Side triangles cut once where twice keeps the outside on grain, or corner triangles the other way."""

    name, title = "wrong-triangles", "Triangles are cut the wrong way"
    repair = "cut the triangles the way that is given below, from pieces of the sizes given"
    question = (
        "Triangles {parts}: the pattern says {printed}. Should they not be {needed}, "
        "so that the outside lies on the straight grain?"
    )
    cut_otherwise, as_meant = True, False
    picture = "grain"

    def findings(self, reading, earlier):
        made = reading.made
        looked = (self._in_units, self._slanting, self._outside, self._built_at_the_edge)
        for finding in (finding for look in looked for finding in look(made)):
            if all(map(reading.sheet.part, finding.parts)):  # a line that is forgotten is not cut wrongly
                yield finding

    def _in_units(self, made):
        """Triangles of units that lie the other way in the square they are cut from."""
        of = ruler(made)
        told = set()
        for name, unit in made.sheet.unit.items():
            needs = {} if unit.finished is None else unit_needs(made, unit, unit.finished)
            long = unit.kind in ("half-rectangle", "triangle in a square")
            kept = () if long else ("whole",)  # others may start from whole squares
            for part, way in zip(unit.parts, ways_to_cut(unit)):
                cut = made.sheet.part(part)
                if cut is None or cut.cut in (*kept, way) or way in ("whole", "") or part in told:
                    continue
                told.add(part)
                size = of.typed(needs[part], of.up) if part in needs else None
                path, pieces = tuple(path_of(made.sheet, part)), -(-made.bill[part] // PIECES[way])
                shape = "triangle" if way == "shaped" else "rectangle" if long else "square"
                how = "from a strip" if way == "shaped" else way
                take = f"{some(pieces, shape)}{'' if size is None else f' of {of.sizes(needs[part], of.up)}'} cut {how}"
                yield self.finding(
                    made,
                    [*path, "cut"],
                    f"{part!r} is cut {cut.cut}{' on the diagonal' if cut.diagonal else ''}, but {unit.kind} "
                    f"units such as {name!r} need {take}: otherwise the triangles do not fit"
                    f"{'' if cut.cut == 'whole' else ', and the outside of the unit lies on stretchy bias'}.",
                    f"cut {cut.cut}",
                    f"cut {how}",
                    why=ByProof(PROOFS[unit.kind]),
                    parts=frozenset([part]),
                    panel=name,
                    fix=_turned_cut(path, way, size, pieces),
                )

    def _slanting(self, made):
        """Long triangles that slant the other way than the units they are sewn to."""
        taken = slants_taken(made.sheet, made.bill)
        for cut in made.sheet.cut:
            wrong = slant_in_words(cut, taken[cut.part]) if cut.part in taken else None
            if wrong is not None:
                path, needed = tuple(path_of(made.sheet, cut.part)), way_to_cut(taken[cut.part])
                yield self.finding(
                    made,
                    [*path, "slant"],
                    wrong,
                    cut_slanting(cut.slant),
                    cut_slanting(needed),
                    why=ByProof("half_rectangle"),
                    parts=frozenset([cut.part]),
                    fix=(((*path, "slant"), needed), *_count_both(made, cut, path, taken[cut.part], needed)),
                    asks=f"The rectangles “{cut.part}” are cut {cut_slanting(cut.slant)}. Which way are they meant?",
                )

    def _outside(self, made):
        """Triangles cut from plain fabric that lie at the outside of the quilt, or of a round."""
        of = ruler(made)
        if (pair := setting_triangles_exchanged(made)) is not None:
            yield self._exchanged(made, *pair)
            return
        for _, cut, way, squares, exact, words, _, panel in outside_triangles(made):
            if cut.cut == way:
                continue
            path, size = tuple(path_of(made.sheet, cut.part)), None if exact is None else of.up(exact)
            take = f"{some(squares, 'square')}{'' if size is None else f' of {size}'}"
            wrong = (
                "are cut as whole squares, and triangles belong there"
                if not cut.diagonal
                else f"are cut {cut.cut} from their squares, so their {words.edges} on the outside of the {words.of} "
                "will lie on stretchy bias"
            )
            yield self.finding(
                made,
                [*path, "cut"],
                f"The {words.what} {cut.part!r} {wrong}. Cut {take} {way} on the diagonal instead: then the "
                "outside lies on the straight grain.",
                f"cut {cut.cut}",
                f"cut {way}",
                why=ByProof(words.proof),
                parts=frozenset([cut.part]),
                panel=panel,
                fix=() if size is None else _turned_cut(path, way, size, squares),
            )

    def _exchanged(self, made, side, corner):
        """Side triangles named where the corner triangles belong, and those where these do."""
        of, (one, other) = ruler(made), (side.cut, corner.cut)
        return self.finding(
            made,
            ["setting", "sides", "part"],
            f"{one.part!r} ({of.sizes(one.size)}, cut {one.cut}) and {other.part!r} ({of.sizes(other.size)}, cut "
            f"{other.cut}) stand in each other's place: {other.part!r} fits at the sides, and {one.part!r} at the "
            "corners. Take them so, and the outside lies on the straight grain.",
            f"{one.part!r} at the sides",
            f"{other.part!r} at the sides",
            why=ByProof(side.words.proof),
            parts=frozenset([one.part, other.part]),
            fix=((("setting", "sides", "part"), other.part), (("setting", "corners", "part"), one.part)),
        )

    def _built_at_the_edge(self, made):
        """Built side and corner triangles of an on-point setting."""
        setting = made.sheet.setting
        told = set()
        for kind, piece in ((SIDE, setting.sides), (CORNER, setting.corners)):
            for name in edge_names(made.sheet, kind) if piece is not None and piece.how == "built" else ():
                for finding in self._built(made, kind, name):
                    if not finding.parts <= told:
                        told |= finding.parts
                        yield finding

    def _built(self, made, kind, name):
        """Built triangles whose outer pieces were cut so that the outside lies on the bias."""
        of = ruler(made)
        panel = made.panel(name)
        if panel is None:
            return
        outer = {"upper right"} if kind == SIDE else {"left", "bottom"}
        for part, length in parts_on_bias(panel, outer).items():
            cut = made.sheet.part(part)
            if cut is not None and cut.diagonal and length > SHORT_BIAS:
                other = "twice" if cut.cut == "once" else "once"
                square, squares = _cut_otherwise(made, cut, other)
                size, path = of.up(square), tuple(path_of(made.sheet, part))
                yield self.finding(
                    made,
                    [*path, "cut"],
                    f"The end triangles {part!r} are cut {cut.cut}, which puts {of.said(length)} of bias on the "
                    f"outside of each built {called(kind)}. Cut {some(squares, 'square')} of {size} {other} on the "
                    "diagonal instead: then the outside lies on the straight grain.",
                    f"cut {cut.cut}",
                    f"cut {other}",
                    why=ByNotebook("06-building-side-triangles"),
                    parts=frozenset([part]),
                    panel=name,
                    fix=_turned_cut(path, other, size, squares),
                )


def _turned_cut(path, way, size, squares):
    """The changes to a line of the cutting list that cut so many pieces the other way; `size` None: of their size."""
    sized = () if size is None else (((*path, "size"), size),)
    how = (((*path, "cut"), None), ((*path, "shape"), "triangle")) if way == "shaped" else (((*path, "cut"), way),)
    return (*how, *sized, ((*path, "count"), squares), ((*path, "triangles"), None))


def _count_both(made, cut, path, taken, way):
    """The change to a line of rectangles that takes more of them once they are cut this way; none where it does not."""
    count = to_cut(cut.model_copy(update={"slant": way}), made.bill[cut.part], taken)
    return (((*path, "count"), count), ((*path, "triangles"), None)) if count > cut.count else ()


def _cut_otherwise(made, cut, way):
    """The exact square (inches) of which triangles as large are cut the other `way`, and how many it takes."""
    leg = meant_finished(made, cut)[0]
    finished = leg * sqrt(2) if way == "twice" else leg / sqrt(2)
    return finished + added(way, made.seam), -(-made.bill[cut.part] // PIECES[way])


class NoAllowance(Check):
    """An edge that will be sewn was cut on its finished line."""

    name, title = "no-allowance", "An edge is cut where its seam should run"
    repair, why = "build the piece, or cut a seam's width past the line", ByNotebook("04-a-block-cut-in-half")
    question = "Sewn patches are {printed}. Where is the seam allowance on that edge?"
    picture = "lost points"

    def findings(self, reading, earlier):
        made = reading.made
        of = ruler(made)
        sheet = made.sheet
        for name, key in ((SIDE, "sides"), (CORNER, "corners")):
            piece = getattr(sheet.setting, key)
            panel = made.panel(name) if piece is not None and piece.how == "cut blocks" else None
            if panel is None or _lacking(made, name, panel) <= SLACK:
                continue
            on_edge = [j for j in panel.junctions(made.seam) if j.lost_by > SLACK]
            taken = (
                f" {some(len(on_edge), 'seam intersection')} on each of them will go into the seam." if on_edge else ""
            )
            line = "from corner to corner" if piece.past == 0 else f"{of.said(piece.past)} past their diagonal"
            yield self.finding(
                made,
                ["setting", key, "how"],
                f"The {called(name)}s are whole blocks cut {line}. The cut runs on the "
                f"line where the seam must be, so no allowance is left on that edge.{taken} Build the triangles from "
                "squares and end triangles that have their seam allowance, or cut "
                f"{of.said(made.seam)} past the line and use one half of each block.",
                f"cut {of.said(piece.past)} past the diagonal",
                f"{of.said(made.seam)} past it, or built triangles",
                panel=name,
                spots=tuple(j.point for j in on_edge),
            )
        yield from self._sliced(made)

    def _sliced(self, made):
        """Explicit cuts through sewn patches that leave seam intersections nearer their raw edges than a seam."""
        of = ruler(made)
        near, cut_again = {}, {step.cut for step in made.sheet.step}
        for number, step in enumerate(made.sheet.step):
            for name in step.gives if step.cut is not None and _used_again(made.sheet, step.gives) else ():
                panel = None if name in cut_again else made.panel(name)  # its pieces have its edges
                shallow = [] if panel is None else [j for j in panel.junctions(made.seam) if j.lost_by > SLACK]
                if shallow:
                    near[name] = (number, shallow)
        if near:
            name, (number, points) = max(near.items(), key=lambda pair: len(pair[1][1]))
            total = sum(len(shallow) for _, shallow in near.values())
            yield self.finding(
                made,
                ["step", min(number for number, _ in near.values())],
                f"Sewn patches are cut along the line where the next seam must run ({', '.join(map(repr, near))}): "
                f"{some(total, 'seam intersection')} lie{'s' * (total == 1)} on or beside the new raw edges, with no "
                f"allowance left. {_unsliced(made.sheet)}",
                "cut on the finished line",
                f"{of.said(made.seam)} beyond it",
                why=ByNotebook("05-bias-on-the-outside"),
                panel=name,
                spots=tuple(junction.point for junction in points),
            )


class LostPoints(Check):
    """Seams that meet nearer an outer raw edge than one seam."""

    name, title = "lost-points", "Points will be cut off"
    repair, why = "give every outer edge its seam allowance beyond the points", ByNotebook("04-a-block-cut-in-half")
    after = ("cut-size", "wrong-triangles", "edges-differ")
    question = "Are the points along the edge meant to be cut off? If not, where is their seam allowance?"
    picture = "lost points"

    def findings(self, reading, earlier):
        made = reading.made
        of = ruler(made)
        top, lost = made.top, _lost(made)
        surplus = _cut_to_size(made) if lost else []
        if surplus and not _lost(reading.changed(*surplus).made):
            return  # they lie in what is trimmed off of triangles that are cut large
        near = [one for one in lost if _is_near_an_edge(top, one[0], made.seam)]
        swallowed = [one for one in lost if one not in near]
        if not near and not swallowed:
            return
        deepest = max(by for _, by in near + swallowed)
        sides = _sides_with(top, [point for point, _ in near], made.seam)
        places = [f"{some(len(near), 'point')} on {some(sides, 'outer edge')}"] if near else []
        places += [f"{some(len(swallowed), 'point')} in seams inside the quilt"] if swallowed else []
        yield self.finding(
            made,
            ["setting"],
            f"{' and '.join(places)} will be cut off, the worst by {of.said(deepest)}: seams meet there less than "
            f"{of.said(made.seam)} from the raw edge. {_points_kept(made, of, made.seam - deepest)}",
            f"{of.said(max(0.0, made.seam - deepest))} beyond",
            f"{of.said(made.seam)} beyond every point",
            why=_shown_by(made.sheet),
            spots=tuple(point for point, _ in near + swallowed),
        )


def _lost(made):
    """The points of a top that are cut off, each with by how much; not those that lie beyond its edge on purpose."""
    beyond = beyond_the_edge(made)
    lost = [] if made.top is None or set_askew(made) else made.top.lost_points(made.seam)
    return [(at, by) for at, by in lost if by > SLACK and abs(by - beyond) > SLACK / 4]


def _cut_to_size(made):
    """The changes that cut the triangles at the outside no larger than they must be, of those that are."""
    of = ruler(made)
    return [
        ((*path_of(made.sheet, one.cut.part), "size"), of.up(one.exact))
        for one in outside_triangles(made)
        if one.exact is not None
        and one.cut.cut == one.way
        and one.cut.size is not None
        and min(one.cut.size) - one.exact > ROUNDED_UP
    ]


def _points_kept(made, of, left):
    """How the points are kept, by what cuts them off; so much (inches) is left beyond the worst of them."""
    sheet, beyond = made.sheet, of.said(made.seam + float(made.sheet.setting.floating))
    if _trimmed_at_the_end(sheet):
        level = f"only {of.said(left)}" if left > SLACK else "level with them"
        return f"Trim the top {beyond} beyond the points, not {level}."
    if any(piece is not None and piece.how == "cut blocks" for piece in (sheet.setting.sides, sheet.setting.corners)):
        return "Build the setting triangles from squares and end triangles that have their seam allowance."
    if any(step.cut is not None for step in sheet.step):
        return _unsliced(sheet)
    return (
        f"Every edge needs its {of.said(made.seam)} beyond the points: check the sizes of the pieces that meet there."
    )


def _shown_by(sheet):
    """What shows why points are cut off, where it is not that blocks are cut in half."""
    if _trimmed_at_the_end(sheet):
        return ByProof("side_triangle")
    return ByNotebook("05-bias-on-the-outside") if any(step.cut is not None for step in sheet.step) else None


def _unsliced(sheet):
    """How to come by the same quilt without slicing what is sewn."""
    turned = " (set the blocks on point)" if sheet.setting.style == "straight" else ""
    return f"Plan the pieces with their seams from the start{turned} instead of slicing what is sewn."


def _trimmed_at_the_end(sheet):
    """Whether the last thing done to the top inside its borders is to trim it."""
    step = step_giving(sheet, centre(sheet))
    return step is not None and step.trim is not None


def _sides_with(top, points, seam):
    """How many outer edges have one of the points nearer than a seam."""
    near = []
    for edge in top.raw_edges():
        normal, limit = line_through(edge.start, edge.end)
        if any(-seam - NEAR < x * normal[0] + y * normal[1] - limit <= NEAR for x, y in points):
            near.append(edge)
    return ways_faced(near)


def _lacking(made, kind, panel):
    """How much (inches) the edge that a setting triangle is sewn by falls short, once sewn, of what the block beside it
    asks.

    A side triangle is sewn by a leg, a corner triangle by its long side; where its outer edge was cut on its finished
    line, the seam there takes what that edge lacks.
    """
    needed = edge_length(made, kind)
    try:
        have = panel.edge("left" if kind == SIDE else "upper right", made.seam).finished_length
    except CannotSew:
        return 0.0  # no such edge; why not is said elsewhere
    return 0.0 if needed is None else needed - have


def _is_near_an_edge(top, point, seam):
    """Whether a raw edge runs within a seam of a point."""
    lines = top.raw_lines
    return bool((np.abs(lines.normals @ np.array(point) - lines.limits) <= seam + NEAR).any())


def _used_again(sheet, names):
    """Whether any of these panels goes on into the quilt."""
    return not all_in(sheet, final(sheet)).isdisjoint(names)
