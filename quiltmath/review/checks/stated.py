"""What a pattern should state and does not."""

from ...making.slants import slants_taken, way_to_cut
from ...usual import SEAMS
from ..finding import ByNotebook, ByProof
from ..outside import unsaid_float
from .check import Check
from .forgotten import by_two_names, unlisted_fabrics
from .slanting import unsaid_slant


class NotStated(Check):
    """Figures a pattern should print and does not."""

    name, title = "not-stated", "A figure is missing"
    level, why = "ask", ByNotebook("09-check-a-pattern")
    repair = "ask the designer, or work it out before buying fabric"
    question = "What is {needed}? The pattern does not say."
    only_designer = missing = True
    as_meant = by_seam = False

    def findings(self, reading, earlier):
        made, of = reading.made, reading.ruler
        if reading.found_seam is not None:
            said, in_doubt = _found(reading.found_seam, of, made.sheet.units)
            yield self.finding(
                made, ["title"], said, "no seam", "the seam allowance", level="ask" if in_doubt else "note"
            )
        if made.sheet.finished is None:
            yield self.finding(
                made,
                ["title"],
                "The pattern prints no finished size, so nobody can check that its parts add "
                "up. Ask for it, or compare the size worked out here with the one on the cover.",
                "no finished size",
                "the finished size of the quilt",
            )
        if made.floats:
            yield unsaid_float(self, made)
        yield from self._slants(made)
        yield from self._not_bought(reading)
        yield from self._setting(made, reading.sheet.setting)

    def _slants(self, made):
        """Rectangles of which nothing says which way they are cut, though their units slant."""
        taken = slants_taken(made.sheet, made.bill)
        for number, cut in enumerate(made.sheet.cut):
            said = unsaid_slant(cut, taken[cut.part]) if cut.part in taken else None
            if said is not None:
                yield self.finding(
                    made,
                    ["cut", number],
                    said,
                    "no slant",
                    "which way the rectangles are cut",
                    why=ByProof("half_rectangle"),
                    parts=frozenset([cut.part]),
                    fix=((("cut", number, "slant"), way_to_cut(taken[cut.part])),),
                    asks=f"Which way are the rectangles “{cut.part}” cut, from the upper left or from the upper right?",
                )

    def _not_bought(self, reading):
        """Fabrics of which nothing is bought, where the pattern says of others how much."""
        of, fabrics = reading.ruler, reading.sheet.fabric
        unsaid = [name for name, one in fabrics.items() if one.bought is None and one.piece is None and not one.scraps]
        if len(unsaid) == len(fabrics):
            return
        unsaid += unlisted_fabrics(reading.sheet)
        same = by_two_names(reading.sheet)
        for name in unsaid:
            plan = reading.plan(name)
            if not plan.pieces:
                continue
            takes, buy, alike = "", of.to_buy(plan.length), same is not None and name == same[0]
            if not plan.refused:
                wide = of.said(reading.sheet.usable_width(name))
                takes = f"; its pieces take {of.said(plan.length)} of fabric {wide} wide. Ask, or buy {buy}"
            yield self.finding(
                reading.made,
                ["fabric", name],
                f"The pattern says how much of other fabrics to buy, and not how much of {name!r}{takes}."
                + (f" Nothing is cut from {same[1]!r}, which is bought: is it the same fabric?" if alike else ""),
                f"no {name!r} to buy",
                buy,
                parts=frozenset([name]),
                fix=() if plan.refused or alike else ((("fabric", name, "bought"), buy),),
                asks=f"Are “{name}”, which is cut, and “{same[1]}”, which is bought, the same fabric?"
                if alike
                else f"How much of “{name}” is to be bought? The pattern does not say.",
            )

    def _setting(self, made, typed):
        """What a setting leaves unsaid and the pattern's other figures say."""
        meant = made.sheet.setting
        if meant.alternate != typed.alternate:
            yield self.finding(
                made,
                ["setting"],
                f"The sheet does not say what lies between the blocks. {meant.alternate!r} is as large as they are, "
                "nothing uses it, and with it there the other counts are right: it is taken for the alternate block. "
                "Look whether the drawing shows that.",
                "no alternate block",
                repr(meant.alternate),
                level="note",
                fix=((("setting", "alternate"), meant.alternate),),
            )
        if meant.sashing is not None and meant.sashing.edge != typed.sashing.edge:
            yield self.finding(
                made,
                ["setting", "sashing"],
                "The sheet does not say where the edge of the quilt runs. Its printed size and its triangles are those "
                "of whole cornerstones at the edge, and so it is judged. Look whether the drawing shows them.",
                "no edge",
                "whole cornerstones at the edge",
                level="note",
                why=ByProof("sashed_on_point"),
                fix=((("setting", "sashing", "edge"), meant.sashing.edge),),
            )


def _found(seam, of, units):
    """How the seam was found that is not printed, in words, and whether it is in doubt."""
    took = f"this review took {of.exactly(seam.seam)}"
    if seam.in_doubt:
        fits = [of.exactly(one) for one in dict.fromkeys((seam.seam, *seam.rivals))]
        why = (
            f"its sizes fit seams of {' and of '.join(fits)} equally well"
            if seam.rivals
            else f"no seam that is usual (such as {of.exactly(SEAMS[units][0])}) fits its sizes"
        )
        return f"The pattern prints no seam, and {why}; {took}. Every cut size depends on it: ask before you cut.", True
    if not seam.told:
        usual = "as nearly every pattern does (common practice)"
        return f"The pattern prints no seam, and no size in it tells which; {took}, {usual}.", False
    sizes = "the" if seam.agree == seam.told else "most of the"
    return f"The pattern prints no seam; {took}: {sizes} cut and finished sizes it prints agree with it.", False
