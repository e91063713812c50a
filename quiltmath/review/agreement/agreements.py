"""All that printed numbers must agree in: one look for each way in which one of them follows from others."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import inf, sqrt
from typing import Any

from ...making.at_the_edge import HALVED, TIP
from ...making.measures import is_long_strip
from ...making.needs import unit_needs, unit_proof
from ...making.rounding import ROUNDING, added, needed_rectangle, triangle_between
from ...making.sewn import trimmed_later
from ...pattern.fields import Item
from ...pattern.names import CORNER, DRAWN, SETTING, SIDE, all_in, uses
from ...usual import PRINTED_ROUND
from ..finding import ByNotebook, ByProof, Why
from ..outside import outside_triangles
from .figures import Sum, mean, total
from .measures import SLACK, Finished, Measures

STEP = 1 / 8  # inches: so much larger a finished size is taken, to see how its cut sizes grow
LARGE = 1 / 8  # inches: a triangle cut larger than this over its exact size is meant to be trimmed
SASHING = ByNotebook("07-sashing-frames-borders")


@dataclass(frozen=True)
class Agreement:
    """Numbers that agree: `off` is what there is too much, in inches; from -`less` to `more` of that is nothing.

    `path` is where the sheet tells it, `aim` what its numbers are for, in words for the one that does not fit, and
    `aims` the same for others: {path of the number: words}. `subject` is the path of the number that follows from the
    others, where one does, and `why` shows the reason. `printed`: some of its numbers are finished sizes, or sizes to
    trim to; else edges are held against edges. `evidence`: too little to blame anybody by itself, but it tells which of
    several numbers is the wrong one.
    """

    off: Sum
    path: tuple
    aim: str = ""
    why: Why = field(default_factory=lambda: ByProof("patch"))
    less: float = SLACK
    more: float = SLACK
    aims: dict[tuple, str] = field(default_factory=dict)
    subject: tuple = ()
    printed: bool = True
    evidence: bool = False

    def holds(self, off: float | None = None) -> bool:
        """Whether its numbers agree, or would if so much were too much."""
        off = self.off.value if off is None else off
        return -self.less - 1e-9 <= off <= self.more + 1e-9

    def aim_of(self, path: tuple) -> str:
        """What the number at this path is for."""
        return self.aims.get(path, self.aim)


def agreements(measures: Measures, of: Any) -> list[Agreement]:
    """Everything in which the printed numbers of a sheet must agree; `of` is the `Ruler` that says lengths.

    >>> from quiltmath import making, pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review.ruler import Ruler
    >>> sheet = pattern.read_text(EXAMPLE.replace("[block.four]", '[block.four]\\nfinished = "7"'))
    >>> found = agreements(Measures(making.make(sheet)), Ruler())
    >>> [one.off.value for one in found if not one.holds()]
    [-1.0, -1.0, -1.0]
    """
    of_parts, of_rows = (_printed, _outside, _units), (_blocks, _built, _steps, _trims)
    looks = (*of_parts, *of_rows, _set_blocks, _sashing, _border_corners, _border_lengths, _quilt)
    return [one for look in looks for one in look(measures, of)]


# -- one part ----------------------------------------------------------------------------------------------------------


def _printed(measures, of):
    """Parts that print both their cut and their finished size."""
    made = measures.made
    for cut in made.sheet.cut:
        if cut.finished is None or cut.size is None or cut.shape is not None:
            continue
        if cut.halved_rectangle:
            yield from _halved(measures, of, cut)
            continue
        later = _trimmed_later(made.sheet, cut.part)
        path, extra = measures.line(cut.part), added(cut.cut, made.seam)
        finished = measures.figures((*path, "finished"), cut.finished)
        for raw, meant in zip(measures.raw(cut.part), finished):
            yield Agreement(
                raw.minus(meant).minus(extra),
                path,
                f"to finish {of.sizes(cut.finished)}",
                ByProof({"whole": "patch", "once": "half_square", "twice": "quarter_square"}[cut.cut]),
                less=ROUNDING,
                more=SLACK if cut.cut == "whole" and not later else inf,
            )


def _halved(measures, of, cut):
    """A rectangle cut once that prints its finished legs as well."""
    path = measures.line(cut.part)
    finished = measures.figures((*path, "finished"), cut.finished)
    if (cut.finished[0] < cut.finished[1]) != (cut.size[0] < cut.size[1]):
        finished = finished[::-1]
    legs = [leg.value for leg in finished]
    for raw, needed in zip(measures.raw(cut.part), _growing_with(finished, _rectangle_for(measures, legs))):
        yield Agreement(
            raw.minus(needed),
            path,
            f"to finish {of.sizes(cut.finished)}",
            ByProof("half_rectangle"),
            less=ROUNDING,
            more=inf if _trimmed_later(measures.sheet, cut.part) else LARGE,
        )


def _rectangle_for(measures, legs):
    """A function of two finished legs: the exact rectangle, at these legs and beside them."""
    return lambda wide, high: needed_rectangle((legs[0] + wide, legs[1] + high), measures.seam)


def _growing_with(finished, needed):
    """The sides of what `needed` gives, as sums that grow with the two finished sides."""
    here, wider, higher = needed(0, 0), needed(STEP, 0), needed(0, STEP)
    for side, exact in enumerate(here):
        by_width, by_height = ((more[side] - exact) / STEP for more in (wider, higher))
        growing = finished[0].times(by_width).plus(finished[1].times(by_height))
        yield Sum(exact, growing.shares)


def _outside(measures, of):
    """Triangles cut from plain fabric that lie at the outside of the quilt, or of a round."""
    for triangle in outside_triangles(measures.made):
        cut, exact = triangle.cut, triangle.exact
        if exact is None or cut.cut != triangle.way or cut.size is None:
            continue
        needed = Sum(exact, _growing(measures, triangle).shares)
        across, up = measures.raw(cut.part)
        path = measures.line(cut.part)
        about = {
            "path": path,
            "aim": triangle.aim,
            "why": ByProof(triangle.words.proof),
            "subject": (*path, "size"),
            "aims": dict.fromkeys(_paths(needed), f"to fit the {triangle.words.what} {cut.part!r}"),
        }
        for side in (across, up):
            yield Agreement(side.minus(needed), **about, less=ROUNDING, more=inf)
        yield Agreement(across.minus(up), **about)


def _growing(measures, triangle):
    """How the square of a triangle at the outside grows with the block, the sashing and the frame it lies beside."""
    setting, where = measures.sheet.setting, triangle.where
    cell, sash = measures.cell, measures.sash
    if where in (HALVED, TIP):
        return Sum() if sash is None else sash.times(sqrt(2))
    piece = {SIDE: setting.sides, CORNER: setting.corners}.get(where)
    if piece is None or cell is None or sash is None:
        return Sum()
    leg = cell
    if setting.sashing is not None and setting.sashing.edge == "whole":
        leg = leg.plus(sash, 1 if where == SIDE else 2)
    for name in piece.frame or ():
        width = measures.strip_width(name)
        off = 1.0 if where == SIDE else sqrt(2) if len(piece.frame) == 2 else 2.0
        leg = leg if width is None else leg.plus(width, -off)
    square = leg.times(sqrt(2) if where == SIDE else 1 / sqrt(2))
    return square.plus(measures.figure(("setting", "floating"), setting.floating), 2.0)


def _units(measures, of):
    """Parts of units that print their finished size, or the size they are trimmed to."""
    for name, unit in measures.sheet.unit.items():
        if unit.trim_to is None and unit.finished is None:
            continue
        key = "finished" if unit.finished is not None else "trim_to"
        seams = 0.0 if unit.finished is not None else 2 * measures.seam
        printed = measures.figures(("unit", name, key), getattr(unit, key))
        yield from unit_agreements(measures, of, name, [side.minus(seams) for side in printed])


def unit_agreements(measures: Measures, of: Any, name: str, finished: list[Sum]) -> Iterator[Agreement]:
    """What the parts of one unit must agree in so that it finishes so wide and high."""
    made, unit = measures.made, measures.sheet.unit[name]
    size = [side.value for side in finished]
    if min(size) <= 0:
        return
    here = unit_needs(made, unit, size)
    wider, higher = (unit_needs(made, unit, (size[0] + by, size[1] + STEP - by)) for by in (STEP, 0))
    for part, exact in here.items():
        cut, raw = made.sheet.part(part), measures.raw(part)
        if cut is None or raw is None or part not in wider or part not in higher:
            continue
        if not cut_as_it_must(unit, part, cut):
            continue  # cut the wrong way, which is told
        blunt = tip_to_spare(measures, size) if cut.shape == "triangle" else 0.0
        stiff = cut.cut == "whole" and unit.kind not in ("half-square", "quarter-square") and exact[0] != exact[1]
        for side, need in enumerate(exact):
            by_width, by_height = ((more[part][side] - need) / STEP for more in (wider, higher))
            growing = finished[0].times(by_width).plus(finished[1].times(by_height))
            if not raw[side].shares:
                continue
            yield Agreement(
                raw[side].minus(Sum(need, growing.shares)),
                ("unit", name),
                f"for {unit.kind} units that finish {of.sizes(size)}",
                ByProof(unit_proof(made.sheet, unit)),
                less=ROUNDING + blunt * side,
                more=inf if unit.trim_to is not None else SLACK if stiff else LARGE,
                subject=_line_of(raw[side]),
            )


def cut_as_it_must(unit, part, cut):
    """Whether a piece of a unit with long triangles is cut as such units take it; others may start from squares."""
    if unit.kind == "triangle in a square" and part == unit.parts[0]:
        return cut.shape == "triangle"
    return unit.kind not in ("half-rectangle", "triangle in a square") or cut.cut == "once"


def tip_to_spare(measures, size):
    """How much of the height of a triangle in a square unit of this finished size is an ear: its tip may be blunt."""
    _, up, strip = triangle_between(*size, measures.seam)
    return up - strip


def _line_of(raw):
    """The path of the one number that a raw side is."""
    return next(iter(raw.shares)).path


# -- rows --------------------------------------------------------------------------------------------------------------


def _blocks(measures, of):
    """The rows of each block: equally high in themselves, and as long as one another, or as the block is printed."""
    blocks = measures.sheet.block
    sized = [all_in(measures.sheet, name) for name, block in blocks.items() if block.finished is not None]
    for name, block in blocks.items():
        rows = measures.rows(block.rows)
        if not rows:
            continue
        path, aim = ("block", name, "rows"), f"so that the rows of {name!r} fit together"
        held = block.finished is not None
        widths, height = [measures.across(row) for row in rows], total(map(_height, rows))
        lean = [row[0].slant + row[-1].slant for row in rows]
        trimmed_straight = block.trim_to is not None and any(lean)
        printed = held or trimmed_straight or any(name in inside for inside in sized)
        about = path, aim, ByProof("grid")
        level = [Agreement(off, *about, printed=printed) for off in _level(block.rows, rows)]
        if block.trim_to is not None:
            trim = measures.finished(name)
            aim = f"so that {name!r} can be trimmed to {of.sizes(block.trim_to)}"
            for width, out in zip(widths, lean):  # where the ends slant, a piece may be left out as well
                off = width.minus(trim.width).minus(out)
                yield Agreement(off, path, aim, ByProof("grid"), more=inf, evidence=out > 0)
            yield Agreement(height.minus(trim.height), path, aim, ByProof("grid"), more=inf)
            yield from level if any(lean) else ()
            continue
        if held:
            width, high = measures.figures(("block", name, "finished"), block.finished)
            off = [each.minus(width) for each, out in zip(widths, lean) if not out] + [height.minus(high)]
        else:
            off = [each.minus(widths[0]) for each in widths[1:] if not any(lean)]
        yield from level
        yield from (Agreement(each, *about, printed=printed) for each in off)


def _height(row):
    """The height of a row: of its parts on average, since they should be equally high."""
    return mean(part.height for part in row)


def _level(items, rows):
    """The differences in height within each row, each kind of place once."""
    for row, placed in zip(items, rows):
        places = dict(zip(((item.name, item.turn) for item in row), placed))
        first, *others = places.values()
        yield from (part.height.minus(first.height) for part in others)


def _built(measures, of):
    """The rows of built edge triangles, from the tip down: each is as long as the rows so far are high, for each of one
    or two slopes."""
    for key, slopes in (("sides", 1), ("corners", 2)):
        piece = getattr(measures.sheet.setting, key)
        for where in ("rows", "left", "bottom", "right") if piece is not None and piece.how == "built" else ():
            items = getattr(piece, where) or []
            rows = measures.rows(items)
            if (
                not rows
                or slopes == 2
                and any(row[0].triangle and not _on_long_side(at) for at, row in zip(items, rows))
            ):
                continue
            rows = [_ends_trimmed(row) for row in rows]
            aim = f"so that the rows of the built {key[:-1]} triangle fit together"
            about = ("setting", key, where), aim, ByProof("grid")
            so_far = Sum()
            for row in rows:
                so_far = so_far.plus(_height(row))
                yield Agreement(total(part.width for part in row).minus(so_far.times(slopes)), *about)
            yield from (Agreement(off, *about) for off in _level(items, rows))


def _on_long_side(items):
    """Whether a row is more than one triangle, or that one lies on its long side: another stands on no row."""
    return len(items) > 1 or items[0].turn % 90 != 0


def _ends_trimmed(row: list[Finished]) -> list[Finished]:
    """A row whose triangles, which are trimmed, are at most as high as its other parts."""
    high = max((part.height for part in row if not part.triangle), key=lambda side: side.value, default=None)
    if high is None:
        return row

    def trimmed(side):
        return high if side.value > high.value else side

    return [Finished(trimmed(part.width), trimmed(part.height), True) if part.triangle else part for part in row]


def _steps(measures, of):
    """Edges that explicit steps join, unless what they give is trimmed later, or they sew borders to the top."""
    later = trimmed_later(measures.sheet)
    for number, step in enumerate(measures.sheet.step):
        loose = step.sew is None or step.gives[0] in later or SETTING in all_in(measures.sheet, step.sew[0])
        joined = None if loose else measures.joined(step)
        if joined is None:
            continue
        (one, other), upright = joined
        off = one.height.minus(other.height) if upright else one.width.minus(other.width)
        yield Agreement(off, ("step", number), f"so that step {number + 1} joins equal edges", printed=False)


def _trims(measures, of):
    """Units and blocks that print both their finished size and the size they are trimmed to, or come in."""
    for kind in ("block", "unit"):
        for name, made in getattr(measures.sheet, kind).items():
            key = "size" if kind == "block" and made.ready_made else "trim_to"
            if getattr(made, key) is None or made.finished is None:
                continue
            trims = measures.figures((kind, name, key), getattr(made, key))
            for trim, want in zip(trims, measures.figures((kind, name, "finished"), made.finished)):
                off = trim.minus(want).minus(2 * measures.seam)
                path = (kind, name, key)
                yield Agreement(off, path, f"to finish {of.sizes(made.finished)}", subject=path)


# -- the setting -------------------------------------------------------------------------------------------------------


def _set_blocks(measures, of):
    """The blocks of a setting against the main one, each that differs from it once; or row by row."""
    setting, main = measures.sheet.setting, measures.finished(measures.made.block)
    if setting.loose:
        yield from _rows_of_their_own(measures)
        return
    if main is None:
        return
    raw = of.sizes([side.value + 2 * measures.seam for side in main[:2]])
    for path, item in _other_blocks(measures):
        other, plain = measures.lying(item), measures.sheet.part(item.name) is not None
        where = f" in {_row_in_words(path)}" if setting.drawn else ""
        for side in (0, 1) if other is not None else ():
            yield Agreement(
                other.side(side).minus(main.side(side)),
                path,
                f"to fit{where} beside blocks of {raw}, as they are before they are joined",
                subject=(*measures.line(item.name), "size") if plain else (),
                printed=plain,
                aims=dict.fromkeys(_paths(main.side(side)), f"to fit{where} beside {item.name!r}"),
            )


def _row_in_words(path):
    """A row of a setting, by its path: "row 2", "column 2", "row 2 of those between"."""
    _, key, number = path
    return f"{'column' if key == 'columns' else 'row'} {number + 1}{' of those between' * (key == 'between')}"


def _other_blocks(measures):
    """(path of its first place, item) of each block of a setting that is not the main one."""
    setting = measures.sheet.setting
    if setting.alternate is not None:
        yield ("setting", "alternate"), Item(name=setting.alternate)
    seen = {measures.made.block}
    for key in DRAWN:
        for number, row in enumerate(getattr(setting, key) or ()):
            for item in row:
                if item.name not in seen:
                    seen.add(item.name)
                    yield ("setting", key, number), item


def _rows_of_their_own(measures):
    """Rows (or columns) of a setting: each equally thick in itself, and as long as the first is."""
    setting = measures.sheet.setting
    key = "rows" if setting.columns is None else "columns"
    if measures.lines is None:
        return
    told = [number for number, row in enumerate(setting.lines) if not is_long_strip(measures.sheet, row)]
    first = total(part.width for part in measures.lines[0])
    for number, row in zip(told, measures.lines):
        path, items = ("setting", key, number), setting.lines[number]
        for item, off in zip(_different(items), _level([items], [row])):
            yield Agreement(
                off,
                path,
                f"to stand in {_row_in_words(path)} beside {items[0].name!r}",
                aims=dict.fromkeys(_paths(row[0].height), f"to stand in {_row_in_words(path)} beside {item.name!r}"),
                printed=False,
            )
        if number != told[0]:
            aim = f"so that {_row_in_words(path)} is as long as {key[:-1]} {told[0] + 1}"
            off = total(part.width for part in row).minus(first)
            yield Agreement(off, ("setting", key), aim, printed=False)


def _different(items):
    """The places of a row that differ from its first, each kind once."""
    return list({(item.name, item.turn): item for item in items}.values())[1:]


def _sashing(measures, of):
    """Sashes against the side of the block they lie along, cornerstones against the width of the sashes."""
    sashing, cell = measures.sheet.setting.sashing, measures.cell
    raw = measures.raw(sashing.part) if sashing is not None else None
    if sashing is None or raw is None or not raw[0].shares:
        return
    wide, long = sorted(raw, key=lambda side: side.value)
    if cell is not None:
        aim = f"to fit beside blocks that finish {of.said(cell.value)}"
        off = long.minus(cell).minus(2 * measures.seam)
        aims = dict.fromkeys(_paths(cell), f"to fit sashes {of.said(long.value)} long")
        yield Agreement(off, ("setting", "sashing"), aim, SASHING, subject=_line_of(long), aims=aims)
    stone = measures.raw(sashing.cornerstone) if sashing.cornerstone else None
    if stone is not None and measures.sheet.part(sashing.cornerstone).cut == "whole" and stone[0].shares:
        aims = {
            (
                *measures.line(sashing.part),
                "size",
            ): f"to fit between cornerstones of {of.sizes([one.value for one in stone])}"
        }
        aim = f"to fit where sashes {of.said(wide.value)} wide cross"
        for side in stone:
            yield Agreement(side.minus(wide), ("setting", "sashing"), aim, SASHING, aims=aims, subject=_line_of(side))
    for name in sashing.strip or ():
        strip = measures.raw(name)
        if strip is not None:
            across = min((side for side in strip if side.shares), key=lambda side: side.value)
            yield Agreement(across.minus(wide), ("setting", "sashing"), "beside the long strips", evidence=True)
    if sashing.strip and len(sashing.strip) == 1 and measures.sheet.setting.style == "straight" and measures.inside:
        strip = measures.raw(sashing.strip[0])
        if strip is not None and strip[0].shares:
            long = max(strip, key=lambda side: side.value)
            off = long.minus(measures.inside[0].width).minus(2 * measures.seam)
            yield Agreement(off, ("setting", "sashing"), evidence=True)


def _border_corners(measures, of):
    """Corner squares of a border against its strips."""
    for number, border in enumerate(measures.sheet.border):
        stone = _raw_of(measures, border.corner) if border.corner else None
        strips = [measures.strip_width(name) for name in (border.sides, border.top)]
        if stone is None or None in strips or not stone[0].shares:
            continue
        plain = measures.sheet.part(border.corner) is not None
        wide = strips[0].value + 2 * measures.seam
        for side, strip in zip(stone, strips):
            yield Agreement(
                side.minus(strip).minus(2 * measures.seam),
                ("border", number),
                f"to fit where border strips {of.said(wide)} wide meet",
                SASHING,
                subject=_line_of(side) if plain else (),
                aims=dict.fromkeys(
                    _paths(strip), f"to fit beside corner squares of {of.sizes([one.value for one in stone])}"
                ),
            )


def _raw_of(measures, name):
    """The (width, height) of a part as it is cut, or of what is sewn with its seam allowances; None where it is not
    known."""
    found = None if measures.sheet.part(name) is not None else measures.finished(name)
    return measures.raw(name) if found is None else tuple(side.plus(Sum(2 * measures.seam)) for side in found[:2])


def _paths(sum_):
    return {figure.path for figure in sum_.shares}


def _quilt(measures, of):
    """The printed size of the quilt against its blocks, sashing and borders, and its blocks as squares: evidence of
    which of those is wrong."""
    block = measures.finished(measures.made.block)
    if block is not None and not measures.sheet.setting.loose:
        yield Agreement(block.width.minus(block.height), ("setting", "block"), evidence=True)
    printed, quilt = measures.sheet.finished, measures.quilt
    if printed is None or quilt is None:
        return
    if _apart(printed[::-1], quilt) < _apart(printed, quilt):
        printed = printed[::-1]
    for meant, side in zip(measures.figures(("finished",), printed), quilt[:2]):
        yield Agreement(
            side.minus(meant),
            ("finished",),
            f"to give a quilt of {of.sizes(measures.sheet.finished)}",
            less=PRINTED_ROUND,
            more=PRINTED_ROUND,
            evidence=True,
        )


def _border_lengths(measures, of):
    """Borders that are printed to length, or cut to a printed one from joined strips, against what they go round:
    evidence too, for they may be cut longer."""
    for number, (border, inside) in enumerate(zip(measures.sheet.border, measures.inside)):
        if border.triangles is not None or border.ends == "mitred":
            continue
        sides, top = (measures.strip_width(name) for name in (border.sides, border.top))
        around = {"sides": inside.height, "top": inside.width}
        if sides is not None and top is not None and not border.corner:
            second, wide = ("top", sides) if border.first == "sides" else ("sides", top)
            around[second] = around[second].plus(wide, border.on(border.first))
        if sides is not None and top is not None and None not in (border.sides, border.top):
            yield Agreement(sides.minus(top), ("border",), evidence=True)
        named = {getattr(border, where): around[where] for where in around}
        for name, edge in named.items():
            raw = None if name is None else measures.raw(name)
            pieced = None if name is None or raw is not None else measures.finished(name)
            if pieced is not None:
                long = max(pieced[:2], key=lambda side: side.value)
                yield Agreement(long.minus(edge), ("border",), evidence=True)
            if raw is not None and raw[0].shares:
                long = max(raw, key=lambda side: side.value)
                yield Agreement(long.minus(edge).minus(2 * measures.seam), ("border",), evidence=True)
        for where, edge in around.items():
            key = f"{where}_length"
            if getattr(border, key) is not None:
                long = measures.figure(("border", number, key), getattr(border, key))
                yield Agreement(long.minus(edge).minus(2 * measures.seam), ("border",), evidence=True)


def _apart(pair, quilt):
    return max(abs(float(side) - other.value) for side, other in zip(pair, quilt))


def _trimmed_later(sheet, part):
    """Whether the part goes into a unit or block that is trimmed after sewing."""
    return any(
        made.trim_to is not None and part in uses(sheet, name)
        for kind in (sheet.unit, sheet.block)
        for name, made in kind.items()
    )
