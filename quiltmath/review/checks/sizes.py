"""Sizes: whether what is cut gives what is printed, and fits what it is sewn to."""

from __future__ import annotations

from collections import defaultdict

from ...making.at_the_edge import ROUND
from ...making.meant import OVERSIZE
from ...making.needs import without_room
from ...making.rounding import ROUNDED_UP, added, finished_size
from ...pattern.names import all_in, uses
from ...usual import PRINTED_ROUND, TRIMMED
from ..agreement import told_at_once
from ..agreement.agreements import is_trimmed_later
from ..finding import ByProof
from ..outside import outside_triangles
from .blaming import PROOFS, Blaming, some_of
from .check import SLACK, path_of, ruler
from .exchanged import GENEROUS


class CutSize(Blaming):
    """A printed cut size cannot give its finished size."""

    name, title = "cut-size", "A cut size cannot give its finished size"
    repair, why = "cut the size given below", ByProof("half_square")
    question = (
        "{parts}: the pattern says {printed}, we work out {needed}. Is the printed size a typo, "
        "or is it sewn in another way?"
    )
    picture = "piece"

    def findings(self, reading, earlier):
        if reading.other_seam is not None:
            yield self._seam(reading)
            return
        blamed = set()
        for found in told_at_once(reading.culprits, reading.measures.values):
            for finding in self.blamed(reading, found) if found.printed else ():
                blamed |= finding.parts
                yield finding
        yield from self._without_room(reading.made, blamed)
        yield from self._too_small_to_trim(reading.made, blamed)
        for finding in self._rounds_cut_large(reading, blamed):
            blamed |= finding.parts
            yield finding
        yield from self._far_larger(reading.made, blamed)
        yield from self._finishing_larger(reading.made, blamed)

    def _seam(self, reading):
        """A printed seam with which sizes do not agree that all do with another one."""
        of, sheet, found = reading.ruler, reading.sheet, reading.other_seam
        printed, meant = of.exactly(sheet.seam), of.exactly(found.seam)
        return self.finding(
            reading.made,
            ["seam"],
            f"The pattern prints seams of {printed}, but the cut and finished sizes that it prints agree with {meant}, "
            f"all of them. Sew with {meant}, and ask whether the printed seam is a typo.",
            printed,
            meant,
            fix=((("seam",), meant),),
        )

    def _without_room(self, made, blamed):
        """Units whose printed finished size leaves no room for their seams: no triangles are cut for that."""
        of = ruler(made)
        for name in without_room(made):
            table, panel = made.sheet.unit[name], made.panel(name)
            sewn = None if panel is None else [side - 2 * made.seam for side in panel.size]
            if sewn is None or not all_in(made.sheet, name).isdisjoint(blamed):
                continue
            printed, comes_to = of.sizes(table.finished), of.sizes(sewn)
            yield self.finding(
                made,
                ["unit", name, "finished"],
                f"{name!r} is printed to finish {printed}, which leaves no room for its seams; what is cut for it "
                f"comes to {comes_to}. Ask whether the finished size is a typo.",
                printed,
                comes_to,
                level="ask",
                parts=frozenset([name]),
                fix=((("unit", name, "finished"), of.typed(sewn, of.said)),),
            )

    def _too_small_to_trim(self, made, blamed):
        """Units and blocks that sew to less than they are to be trimmed to, where their numbers alone do not tell."""
        of = ruler(made)
        for kind in ("block", "unit"):
            for name, block in getattr(made.sheet, kind).items():
                if block.trim_to is None or not all_in(made.sheet, name).isdisjoint(blamed):
                    continue
                panel = made.panel(name)
                if panel is not None and _is_sloping(made, block, panel):
                    yield self.finding(
                        made,
                        [kind, name, "trim_to"],
                        f"{name!r} cannot be trimmed to {of.sizes(block.trim_to)}: its rows end in slanting sides, "
                        "which do not reach so far all the way up. Put one piece more into each, or trim it narrower.",
                        of.sizes(block.trim_to),
                        "rows that reach",
                        panel=name,
                        parts=frozenset([name]),
                    )
                elif panel is not None and max(float(t) - have for t, have in zip(block.trim_to, panel.size)) > SLACK:
                    parts = uses(made.sheet, name)
                    yield self.finding(
                        made,
                        [kind, name],
                        f"{name!r} sews to {of.sizes(panel.size)}, too small to be trimmed to "
                        f"{of.sizes(block.trim_to)}. Cut its parts ({', '.join(map(repr, parts))}) larger.",
                        of.sizes(panel.size),
                        of.sizes(block.trim_to),
                        parts=frozenset([name, *parts]),
                    )

    def _rounds_cut_large(self, reading, blamed):
        """Rounds of triangles that are cut large, where the quilt comes to its printed size only once they are trimmed
        to what the next one takes."""
        made, of = reading.made, reading.ruler
        large = [
            one
            for one in outside_triangles(made)
            if one.where == ROUND and one.exact is not None and one.cut.cut == one.way and one.cut.size is not None
            if float(min(one.cut.size)) - one.exact > ROUNDED_UP and one.cut.part not in blamed
        ]
        changes = [(((*path_of(made.sheet, one.cut.part), "size")), of.up(one.exact)) for one in large]
        if not large or _comes_out(made) or not _comes_out(reading.changed(*changes).made):
            return
        for triangle, change in zip(large, changes):
            cut, over = triangle.cut, float(min(triangle.cut.size)) - triangle.exact
            square = (triangle.exact - added("once", made.seam)) * 2 + 2 * made.seam  # with the round, raw
            yield self.finding(
                made,
                change[0],
                f"{cut.part!r} is cut {of.sizes(cut.size)}, {of.said(over)} larger than it must be {triangle.aim}. The "
                f"quilt comes to its printed size if what these triangles give is trimmed to {of.said(square)} square "
                f"before the next round. Trim it so, or cut {of.up(triangle.exact)}.",
                of.sizes(cut.size),
                of.up(triangle.exact),
                level="stop" if made.top is None else "note" if over <= GENEROUS else "ask",
                why=ByProof(triangle.words.proof),
                parts=frozenset([cut.part]),
                fix=(change,),
            )

    def _far_larger(self, made, blamed):
        """Triangles at the outside that are cut so large that perhaps another size is meant."""
        of = ruler(made)
        for triangle in outside_triangles(made):
            cut = triangle.cut
            if triangle.exact is None or cut.cut != triangle.way or cut.size is None or cut.part in blamed:
                continue
            over = float(min(cut.size)) - triangle.exact
            if over > TRIMMED:
                yield self.finding(
                    made,
                    [*path_of(made.sheet, cut.part), "size"],
                    f"{cut.part!r} is cut {of.sizes(cut.size)}, {of.said(over)} larger than it must be "
                    f"{triangle.aim}: {of.up(triangle.exact)} would do. What is too much is trimmed off; if fabric is "
                    "short, ask whether another size is meant.",
                    of.sizes(cut.size),
                    of.up(triangle.exact),
                    level="note",
                    why=ByProof(triangle.words.proof),
                    parts=frozenset([cut.part]),
                )

    def _finishing_larger(self, made, blamed):
        """Triangles whose printed finished size is far smaller than what is cut for them gives, trimmed or not."""
        of, outside, alike = ruler(made), {one.cut.part for one in outside_triangles(made)}, defaultdict(list)
        for number, cut in enumerate(made.sheet.cut):
            if cut.finished is None or not cut.diagonal or cut.halved_rectangle or cut.part in blamed:
                continue
            comes_to = tuple(finished_size(cut.cut, float(side), made.seam, made.sheet.units) for side in cut.size)
            over = min(comes_to) - float(max(cut.finished))
            to_trim = cut.part in outside or is_trimmed_later(made.sheet, cut.part)
            if over > (GENEROUS if to_trim else 2 * OVERSIZE):
                alike[cut.cut, cut.size, cut.finished, comes_to].append(number)
        for (way, size, finished, comes_to), numbers in alike.items():
            parts = frozenset(made.sheet.cut[number].part for number in numbers)
            paths = [("cut", number, "finished") for number in numbers]
            printed, right = of.sizes(finished), of.sizes(comes_to)
            yield self.finding(
                made,
                paths[0],
                f"{some_of(parts)} {'is' if len(numbers) == 1 else 'are'} printed to finish {printed}, but squares of "
                f"{of.sizes(size)} cut {way} on the diagonal come to {right}. Ask whether one of the two figures is a "
                "typo, or whether the triangles are trimmed.",
                printed,
                right,
                level="ask",
                why=ByProof(PROOFS[way]),
                parts=parts,
                fix=tuple((path, of.typed(comes_to, of.said)) for path in paths),
            )


def _comes_out(made):
    """Whether a quilt can be sewn, and comes to its printed size."""
    printed = made.sheet.finished
    return (
        made.top is not None
        and None not in (printed, made.finished)
        and all(abs(float(one) - other) <= PRINTED_ROUND for one, other in zip(printed, made.finished))
    )


def _is_sloping(made, block, panel):
    """Whether a block of pieces cut at an angle is trimmed to a size whose corners its slanting ends do not fill."""
    cuts = [made.sheet.part(item.name) for row in getattr(block, "rows", ()) for item in row]
    width, height = panel.size
    return any(cut is not None and cut.shape for cut in cuts) and width * height - panel.area > float(SLACK) * height
