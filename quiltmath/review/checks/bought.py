"""What is bought: cloth, binding, backing, batting, counted as a careful cutter would."""

from ... import yardage
from .. import cloth
from ..finding import ByNotebook, ByProof
from .check import Check, blamed, ruler, some

LITTLE = "1/16"  # inches: a lining short by no more is not blamed; printed sizes are rounded


class FabricShort(Check):
    """Less cloth bought than the cutting list takes."""

    name, title = "fabric-short", "The cloth will not do"
    repair, why = "buy the length given below", ByNotebook("09-check-a-pattern")
    question = "{printed} of {parts} is printed, and its pieces take {needed}. How was it worked out?"

    def findings(self, reading, earlier):
        made = reading.made
        of = ruler(made)
        sheet = made.sheet
        for name, fabric in sheet.fabric.items():
            if fabric.bought is None:
                continue
            plan = reading.plan(name, fabric.bought)
            if plan.refused:
                yield self.finding(made, ["fabric", name], f"{name!r}: {plan.refused}.", level="ask")
            if fabric.bought >= plan.length:
                continue
            plan = reading.plan(name)
            have, need = of.cloth(fabric.bought), of.to_buy(plan.length)
            if fabric.bought < plan.at_least:
                yield self.finding(
                    made,
                    ["fabric", name, "bought"],
                    f"{have} of {name!r} will not do: its pieces take at least "
                    f"{of.said(plan.at_least)} of cloth {of.said(sheet.usable_width(name))} wide, cut as well as can "
                    f"be, and {of.said(fabric.bought)} are bought. Buy {need}.",
                    have,
                    need,
                    fix=((("fabric", name, "bought"), need),),
                )
            else:
                yield self.finding(
                    made,
                    ["fabric", name, "bought"],
                    f"{have} of {name!r} is tight: cut in strips its pieces take {of.said(plan.length)} and "
                    f"{of.said(fabric.bought)} are bought. It may just do with great care; buy {need} to be safe.",
                    have,
                    need,
                    level="ask",
                    fix=((("fabric", name, "bought"), need),),
                )


class BindingShort(Check):
    """Too few binding strips for the way round the quilt."""

    name, title = "binding-short", "The binding does not reach round"
    repair, why = "cut as many strips as given below", ByProof("binding")
    after = ("finished-size",)
    question = "The binding is printed as {printed}, and the quilt takes {needed}. Which is meant?"

    def findings(self, reading, earlier):
        made = reading.made
        of, printed, size = ruler(made), made.sheet.binding, _quilt(made, earlier)
        if printed is None or size is None:
            return
        binding = cloth.ring(made.sheet, size)
        if not binding.short:
            return
        if binding.enough is None:
            yield self.finding(
                made,
                ["binding", "strip"],
                f"The binding strips are {of.said(printed.strip)} wide, and {of.said(binding.each)} of cloth is "
                "too short to join such strips at all. Check their width.",
                of.said(printed.strip),
                "narrower strips",
            )
            return
        have, needed = some(printed.count, "strip"), some(binding.enough, "strip")
        yield self.finding(
            made,
            ["binding", "count"],
            f"{have} of {of.said(binding.each)}, joined, give {of.said(binding.have)} of binding; the quilt is "
            f"{of.said(binding.around)} round and a binding needs at least {of.said(yardage.LEAST_EXTRA)} more to "
            f"close. Cut {binding.enough} strips.",
            have,
            needed,
            fix=((("binding", "count"), binding.enough),),
        )


class _Larger(Check):
    """Something that must be larger than the quilt all round."""

    thing = ""

    def _size(self, made, lining, quilt):
        """Its printed (width, height), or None."""
        return lining.size

    def findings(self, reading, earlier):
        made = reading.made
        of = ruler(made)
        lining, quilt = getattr(made.sheet, self.thing), _quilt(made, earlier)
        if lining is None or quilt is None:
            return
        size = self._size(made, lining, quilt)
        if size is None:
            return
        needed = cloth.lining_needed(quilt)
        if not yardage.covers(size, needed, missing=LITTLE):
            yield self.finding(
                made,
                [self.thing],
                f"The {self.thing} of {of.sizes(size)} is too small for a quilt of {of.sizes(quilt)}: it must be "
                f"larger all round, at least {of.sizes(needed)}, and more if it goes to a frame.",
                of.sizes(size),
                of.sizes(needed),
                fix=self._fix(made, lining, quilt, needed),
            )

    def _fix(self, made, lining, quilt, needed):
        """The change to the sheet that makes it large enough."""
        return (((self.thing, "size"), ruler(made).typed(needed)),)


class BackingSmall(_Larger):
    """A backing that is not larger than the quilt all round."""

    name, title, thing = "backing-small", "The backing is too small", "backing"
    repair, why = "buy enough for the size given below", ByNotebook("09-check-a-pattern")
    after = ("finished-size",)
    question = "The backing is printed as {printed}. Should it not be at least {needed}?"

    def _size(self, made, lining, quilt):
        """The printed size, or what the bought length gives in its panels, sewn side by side."""
        return cloth.backing_given(made.sheet, lining, quilt)

    def _fix(self, made, lining, quilt, needed):
        """What to buy, where that is printed, in so many panels; a printed size as well."""
        size = () if lining.size is None else super()._fix(made, lining, quilt, needed)
        buy = None if lining.bought is None else cloth.backing_to_buy(made.sheet, lining, quilt)
        if buy is None:
            return size
        bought = ruler(made).to_buy(buy.length)
        return (*size, ((self.thing, "bought"), bought), ((self.thing, "panels"), buy.panels))


class BattingSmall(_Larger):
    """A batting that is not larger than the quilt all round."""

    name, title, thing = "batting-small", "The batting is too small", "batting"
    repair, why = "buy the size given below, or larger", ByNotebook("09-check-a-pattern")
    after = ("finished-size",)
    question = "The batting is printed as {printed}. Should it not be at least {needed}?"


def _quilt(made, earlier):
    """(width, height) in inches of the quilt that something is bought for: as it sews, or as printed where parts must
    be cut otherwise than they are; None where that is not known."""
    printed = made.sheet.finished
    if printed is not None and blamed(earlier):
        return tuple(map(float, printed))
    return made.finished
