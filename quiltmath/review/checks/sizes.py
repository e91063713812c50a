"""Sizes: whether what is cut gives what is printed, fits what it is sewn to, and makes a quilt of the size promised."""

from math import sqrt

from ...making.needs import unit_needs, unit_proof
from ...making.rounding import ROUNDING, needed_square
from ...pattern.names import all_in, uses
from ..finding import ByNotebook, ByProof
from .check import SLACK, Check, path_of, ruler
from .diagnosis import culprit, culprit_at_the_edge, laid
from .outside import block_width, outside_triangles

LARGE = 1 / 8  # inches: a triangle cut larger than this over its exact size is meant to be trimmed


class CutSize(Check):
    """A printed cut size cannot give its finished size."""

    name, title = "cut-size", "A cut size cannot give its finished size"
    repair, why = "cut the size given below", ByProof("half_square")
    after = ()
    question = (
        "Part {parts}: the pattern says {printed}, we work out {needed}. Is the printed size a slip, "
        "or is it sewn in another way?"
    )
    cut_otherwise = True
    picture = "piece"

    def findings(self, reading, earlier):
        made = reading.made
        blamed = {part for finding in earlier for part in finding.parts if finding.check == "wrong-triangles"}
        for look in (
            self._printed,
            self._outside,
            self._units,
            self._rows,
            self._alternate,
            self._sashing,
            self._border_corners,
            self._trimmed,
        ):
            for finding in look(made, blamed):
                blamed |= finding.parts
                yield finding

    def _printed(self, made, blamed):
        """Parts that print both their cut and their finished size."""
        of = ruler(made)
        for cut in made.sheet.cut:
            if cut.finished is None or cut.size is None or cut.part in blamed:
                continue
            exact = [needed_square(cut.cut, float(side), made.seam) for side in cut.finished]
            short = max(need - float(have) for need, have in zip(exact, cut.size))
            over = max(float(have) - need for need, have in zip(exact, cut.size))
            if short > ROUNDING or (cut.cut == "whole" and over > SLACK and not _trimmed_later(made.sheet, cut.part)):
                yield self._size(made, cut, exact, f"to finish {of.sizes(cut.finished)}")

    def _outside(self, made, blamed):
        """Triangles cut from plain cloth that lie at the outside of the quilt, or of a round."""
        for triangle in outside_triangles(made):
            cut, exact = triangle.cut, triangle.exact
            if exact is None or cut.cut != triangle.way or cut.part in blamed:
                continue
            width, height = map(float, made.sheet.cut_size(cut))
            if exact - min(width, height) > ROUNDING or abs(width - height) > SLACK:
                yield self._size(made, cut, (exact, exact), triangle.aim, why=ByProof(triangle.words.proof))

    def _units(self, made, blamed):
        """Parts of units that print their finished size, or the size they are trimmed to."""
        for name, unit in made.sheet.unit.items():
            finished = unit.finished or unit.trim_to and [side - 2 * made.sheet.sewing_seam for side in unit.trim_to]
            if finished and min(finished) > 0:
                yield from self._unit(made, name, finished, blamed)

    def _unit(self, made, name, finished, blamed):
        """Parts of one unit that cannot give it this finished size."""
        of = ruler(made)
        unit = made.sheet.unit[name]
        for part, exact in unit_needs(made, unit, finished).items():
            cut = made.sheet.part(part)
            if cut is None or part in blamed:
                continue
            off = [float(have) - need for have, need in zip(made.sheet.cut_size(cut), exact)]
            whole_piece = (
                cut.cut == "whole" and unit.kind not in ("half-square", "quarter-square") and exact[0] != exact[1]
            )
            too_large = max(off) > (SLACK if whole_piece else LARGE) and unit.trim_to is None
            if min(off) < -ROUNDING or too_large:
                blamed = blamed | {part}
                yield self._size(
                    made,
                    cut,
                    exact,
                    f"for {unit.kind} units that finish {of.sizes(finished)}",
                    why=ByProof(unit_proof(made.sheet, unit)),
                )

    def _rows(self, made, blamed):
        """Rows of blocks and of built edge triangles that do not add up."""
        for path, label, rows, blame in _rows_with_culprits(made):
            if blame is None or blamed & _sized_by(made.sheet, {item.name for row in rows for item in row}):
                continue  # the part already blamed may be the reason
            cut, unit = made.sheet.part(blame.name), made.sheet.unit.get(blame.name)
            found = () if unit is None else list(self._unit_in_rows(made, blame, blamed))
            if cut is not None:
                found = [self._blamed(made, cut, blame, label)]
            if blame.name in made.sheet.strip_set:
                found = [self._sub_cut(made, blame, label)]
            found = found or [self._no_one_part(made, path, label, rows)]
            for finding in found:
                blamed |= finding.parts
                yield finding

    def _sub_cut(self, made, blame, label):
        """A strip set whose pieces are cut too wide or too narrow."""
        of = ruler(made)
        have = made.sheet.strip_set[blame.name].sub_cut
        need = of.said(float(have) - blame.width)
        return self.finding(
            made,
            ["strip_set", blame.name, "sub_cut"],
            f"Pieces {of.said(have)} wide are cut from the strip sets of "
            f"{blame.name!r}: so that the rows of {label} add up they must be {need}.",
            of.said(have),
            need,
            parts=frozenset([blame.name]),
            fix=((("strip_set", blame.name, "sub_cut"), need),),
        )

    def _unit_in_rows(self, made, blame, blamed):
        """A unit to blame, said of the parts it is made of."""
        wanted = [
            side - 2 * made.seam - by for side, by in zip(made.panel(blame.name).size, (blame.width, blame.height))
        ]
        yield from self._unit(made, blame.name, wanted, blamed)

    def _no_one_part(self, made, path, label, rows):
        """Rows that do not add up, and no single part explains it."""
        of = ruler(made)
        placed = [[laid(made, item) for item in row] for row in rows]
        totals = " and ".join(dict.fromkeys(of.said(sum(part.width for part in row)) for row in placed))
        block = made.sheet.block.get(path[1])
        aim = "one shape" if block is None else f"{of.sizes(block.finished)}"
        return self.finding(
            made,
            path,
            f"The rows of {label} sew to {totals}, their parts up to "
            f"{of.said(max(part.height for row in placed for part in row))} high; finished they should come to {aim}. "
            "Check the sizes of its parts, and that none is left out or turned.",
            totals,
            aim,
            why=ByProof("grid"),
            parts=frozenset(part.name for row in placed for part in row),
            panel=path[1] if path[0] == "block" else "",
        )

    def _alternate(self, made, blamed):
        """The alternate block against the main one."""
        of = ruler(made)
        setting = made.sheet.setting
        if setting.alternate is None or blamed & {setting.alternate, *all_in(made.sheet, setting.block)}:
            return
        cut, main = made.sheet.part(setting.alternate), made.panel(setting.block)
        if cut is None or main is None:
            return
        if max(abs(float(have) - want) for have, want in zip(made.sheet.cut_size(cut), main.size)) > SLACK:
            yield self._size(made, cut, main.size, f"beside blocks of {of.sizes(main.size)}, before they are joined")

    def _sashing(self, made, blamed):
        """Sashes against the side of the block they lie along, cornerstones against the width of the sashes."""
        of = ruler(made)
        sashing, block = made.sheet.setting.sashing, block_width(made)
        if sashing is None or block is None:
            return
        cut = made.sheet.part(sashing.part)
        if cut is not None and cut.size is not None and cut.part not in blamed:
            wide, long = sorted(map(float, cut.size))
            need = block + 2 * made.seam
            if abs(long - need) > SLACK:
                exact = (wide, need) if cut.size[0] <= cut.size[1] else (need, wide)
                yield self._size(
                    made,
                    cut,
                    exact,
                    f"beside blocks that finish {of.said(block)}",
                    why=ByNotebook("07-sashing-frames-borders"),
                )
        stone = made.sheet.part(sashing.cornerstone) if sashing.cornerstone else None
        squares = stone is not None and stone.cut == "whole" and stone.size is not None
        if squares and cut is not None and stone.part not in blamed:
            width = float(min(made.sheet.cut_size(cut)))
            if max(abs(float(side) - width) for side in stone.size) > SLACK:
                yield self._size(
                    made,
                    stone,
                    (width, width),
                    f"where sashes {of.said(width)} wide cross",
                    why=ByNotebook("07-sashing-frames-borders"),
                )

    def _border_corners(self, made, blamed):
        """Corner squares of a border against its strips."""
        of = ruler(made)
        for border in made.sheet.border:
            stone, strips = (
                made.sheet.part(border.corner or ""),
                [made.sheet.part(name) for name in (border.sides, border.top)],
            )
            if stone is None or stone.size is None or stone.part in blamed or None in strips:
                continue
            want = [float(min(made.sheet.cut_size(cut))) for cut in strips]
            if max(abs(float(have) - width) for have, width in zip(stone.size, want)) > SLACK:
                yield self._size(
                    made,
                    stone,
                    want,
                    f"where border strips {of.said(want[0])} wide meet",
                    why=ByNotebook("07-sashing-frames-borders"),
                )

    def _trimmed(self, made, blamed):
        """Units that must be trimmed to a size they do not reach, or to a size that is not the one they need."""
        of = ruler(made)
        for kind, name, block in [("block", n, b) for n, b in made.sheet.block.items()] + [
            ("unit", n, u) for n, u in made.sheet.unit.items()
        ]:
            if block.trim_to is None:
                continue
            need = [float(side) + 2 * made.seam for side in block.finished or ()]
            if need and max(abs(float(trim) - want) for trim, want in zip(block.trim_to, need)) > SLACK:
                yield self.finding(
                    made,
                    [kind, name, "trim_to"],
                    f"{name!r} is trimmed to {of.sizes(block.trim_to)}, but to "
                    f"finish {of.sizes(block.finished)} it must be {of.sizes(need)} with its seams.",
                    of.sizes(block.trim_to),
                    of.sizes(need),
                    parts=frozenset([name]),
                    fix=(((kind, name, "trim_to"), of.typed(need, of.said)),),
                )
                continue
            panel = made.panel(name) if all_in(made.sheet, name).isdisjoint(blamed) else None
            if panel is not None and max(float(trim) - have for trim, have in zip(block.trim_to, panel.size)) > SLACK:
                parts = uses(made.sheet, name)
                yield self.finding(
                    made,
                    [kind, name],
                    f"{name!r} sews to {of.sizes(panel.size)}, too small to trim to "
                    f"{of.sizes(block.trim_to)}. Cut its parts ({', '.join(parts)}) larger.",
                    of.sizes(panel.size),
                    of.sizes(block.trim_to),
                    parts=frozenset([name, *parts]),
                )

    def _blamed(self, made, cut, blame, label):
        """The finding on a part whose own error explains why rows do not add up."""
        off = [by * (sqrt(2) if cut.cut == "twice" else 1) for by in (blame.width, blame.height)]
        needed = [float(side) - by for side, by in zip(made.sheet.cut_size(cut), off)]
        return self._size(made, cut, needed, f"so that the rows of {label} add up")

    def _size(self, made, cut, exact, aim, **more):
        """The finding on one line of the cutting list and the exact size (inches) it needs."""
        of = ruler(made)
        whole, size = cut.cut == "whole", made.sheet.cut_size(cut)
        if cut.strip is not None:
            exact, size = (exact[1], exact[1]), (cut.strip, cut.strip)
        needed = of.sizes(exact, lambda inches: of.up(inches, whole))
        manner = "" if whole else f", cut {cut.cut} on the diagonal"
        short = float(exact[0]) > float(size[0]) or float(exact[1]) > float(size[1])
        proof = {"whole": "patch", "once": "half_square", "twice": "quarter_square"}[cut.cut]
        more.setdefault("why", ByProof(proof))
        more.setdefault("fix", _new_size(made, cut, exact, whole))
        exactly = "" if whole else f" (exactly {of.exactly(exact[0])})"
        return self.finding(
            made,
            [*path_of(made.sheet, cut.part), "size" if cut.strip is None else "strip"],
            f"{cut.part!r} is cut {of.sizes(size)}{manner}, too {'small' if short else 'large'}: {aim} it needs "
            f"{needed}{exactly}. Cut {needed} instead.",
            of.sizes(size),
            needed,
            parts=frozenset([cut.part]),
            **more,
        )


def _new_size(made, cut, exact, whole):
    """The change to the sheet that gives this part its exact size, up to the ruler."""
    of, path = ruler(made), path_of(made.sheet, cut.part)
    if cut.strip is not None:
        return (((*path, "strip"), of.up(exact[1], whole)),)
    return (((*path, "size"), of.typed(exact, lambda inches: of.up(inches, whole))),)


def _rows_with_culprits(made):
    """Every list of rows that can be held to a size: (path, label, rows from the top, the part to `Blame` or None)."""
    sheet = made.sheet
    for name, block in sheet.block.items():
        placed = [[laid(made, item) for item in row] for row in block.rows]
        if block.trim_to is None and block.finished is not None and all(map(all, placed)):
            width, height = map(float, block.finished)
            yield ["block", name, "rows"], repr(name), block.rows, culprit(placed, [width] * len(placed), height)
    for key in ("sides", "corners"):
        piece = getattr(sheet.setting, key)
        for where in ("rows", "left", "bottom", "right") if piece is not None and piece.how == "built" else ():
            rows = getattr(piece, where) or []
            placed = [[laid(made, item) for item in row] for row in rows]
            if rows and all(map(all, placed)):
                yield (
                    ["setting", key, where],
                    f"the built {key[:-1]} triangle",
                    rows,
                    culprit_at_the_edge(placed, 2 if key == "corners" else 1),
                )


def _sized_by(sheet, names):
    """These names and all that goes into them, save where a block or unit is held to the finished size it prints."""
    held = {name for kind in (sheet.block, sheet.unit) for name, made in kind.items() if made.finished is not None}
    return names.union(*(all_in(sheet, name) for name in names - held))


def _trimmed_later(sheet, part):
    """Whether the part goes into a unit or block that is trimmed after sewing."""
    return any(
        made.trim_to is not None and part in uses(sheet, name)
        for kind in (sheet.unit, sheet.block)
        for name, made in kind.items()
    )
