"""What is bought: fabric, binding, backing, batting, counted as a careful cutter would."""

from itertools import combinations, groupby

from ... import yardage
from ...usual import OVER, SEAM
from .. import cloth
from ..finding import ByNotebook, ByProof
from .bought_in_pieces import short_in_pieces
from .check import SLACK, Check, blamed, path_of, some
from .cut_as_printed import in_strips, runs_out
from .spare import enough_but_for_spare, for_spare_alone
from .widths import by_width, how_wide, short_of

SEAMS_OF_BINDING = 4  # a strip folded round an edge: one seam, on over the edge, down the back, and one turned under


class FabricShort(Check):
    """Less fabric bought than the cutting list takes."""

    name, title = "fabric-short", "The fabric will not do"
    repair, why = "buy the length given below", ByNotebook("08-fabric-to-buy")
    question = "{printed} of {parts} is printed, and its pieces take {needed}. How was it worked out?"
    by_seam = False
    more_will_do = True

    def findings(self, reading, earlier):
        for name, fabric in reading.sheet.fabric.items():
            if fabric.piece is not None:
                yield from short_in_pieces(self, reading, name)
            if fabric.bought is None:
                continue
            plans = []
            for sheet in reading.sheet.at_each_width(name):
                plans.append((sheet, reading.plan(name, fabric.bought, sheet)))
                if plans[-1][1].does(fabric.bought):
                    break  # of wider fabric it takes no more
            if plans[0][1].does(fabric.bought):
                asked = [*runs_out(self, reading, name)]
                yield from asked or self._enough(reading, name, plans)
            elif not plans[-1][1].does(fabric.bought) and (spare := enough_but_for_spare(reading, name, earlier)):
                yield from for_spare_alone(self, reading, name, spare)
            else:
                yield from self._short(reading, name, plans)

    def _enough(self, reading, name, plans):
        """A length that will do; a note where nothing of it is left, however wide the fabric is."""
        of, bought, made = reading.ruler, reading.sheet.fabric[name].bought, reading.made
        asked = plans[0][1]
        if not asked.pieces or asked.many or bought - asked.length >= yardage.STRAIGHTENED:
            return
        for sheet in reading.sheet.at_each_width(name):
            left = bought - reading.plan(name, sheet=sheet).length
            if left >= yardage.STRAIGHTENED:
                return
        yield self.finding(
            made,
            ["fabric", name, "bought"],
            f"{of.cloth(bought)} of {_each(reading, name)} suffices to the last inch: cut in strips its pieces take "
            f"{of.said(bought - left)}, and {f'only {of.said(left)}' if left > SLACK else 'nothing'} is left to "
            "straighten the ends, for shrinkage or for a piece cut wrong. Buy a little more.",
            of.cloth(bought),
            of.to_buy(bought + yardage.STRAIGHTENED),
            level="note",
        )

    def _short(self, reading, name, plans):
        """A length that will not do, or not of fabric of every width that may be meant."""
        of, bought, made = reading.ruler, reading.sheet.fabric[name].bought, reading.made
        (narrowest, _), (widest, plan) = plans[0], plans[-1]
        if plan.refused:
            yield self.finding(made, ["fabric", name], f"{name!r}: {plan.refused}.", level="ask")
            return
        whole = reading.plan(name, sheet=narrowest)
        whole = reading.plan(name, sheet=widest) if whole.refused else whole
        have, need = of.cloth(bought), of.to_buy(max(whole.length, in_strips(reading, name)))
        told = {"printed": have, "needed": need, "fix": ((("fabric", name, "bought"), need),)}
        path = ["fabric", name, "bought"]
        wide = f"{'even of' if len(plans) > 1 else 'of'} fabric {of.said(widest.usable_width(name))} wide"
        if plan.does(bought):
            cases = [(sheet.usable_width(name), _lacks(of, one, bought)) for sheet, one in plans]
            yield self.finding(
                made,
                path,
                f"The pattern does not say how wide {name!r} must be, and it decides: {have} is {by_width(of, cases)}. "
                f"Ask, or buy {need}, which will do for fabric {of.said(narrowest.usable_width(name))} wide.",
                level="ask",
                asks=how_wide(repr(name)),
                **told,
            )
        elif bought < plan.at_least:
            yield self.finding(
                made,
                path,
                f"{have} of {_each(reading, name)} will not do: its pieces take at least {of.said(plan.at_least)} "
                f"{wide}, cut as well as can be, and {of.said(bought)} are bought. Buy {need}.",
                **told,
            )
        else:
            yield self.finding(
                made,
                path,
                f"{have} of {_each(reading, name)} is tight: cut in strips its pieces take {of.said(whole.length)} and "
                f"{of.said(bought)} are bought. It may just do with great care; buy {need} to be safe.",
                level="ask",
                **told,
            )


def _each(reading, name):
    """A fabric, or each print of a group of them, in words."""
    return f"each print of {name!r}" if reading.sheet.prints(name) > 1 else repr(name)


def _lacks(of, plan, bought):
    """What a bought length lacks for a plan, in words; "" for nothing."""
    if plan.refused:
        return "too narrow for a piece"
    if bought >= plan.length:
        return ""
    return f"{of.said(plan.at_least - bought)} short" if bought < plan.at_least else "tight"


class BindingShort(Check):
    """Too few binding strips for the way round the quilt, or strips that cannot be a binding."""

    name, title = "binding-short", "The binding does not reach round"
    repair, why = "cut as many strips as given below", ByProof("binding")
    after = ("finished-size",)
    more_will_do = True
    question = "The binding is printed as {printed}, and the quilt takes {needed}. Which is meant?"

    def findings(self, reading, earlier):
        made, of = reading.made, reading.ruler
        printed, size = made.sheet.binding, quilt_to_cover(made, earlier)
        if printed is None:
            return
        least = SEAMS_OF_BINDING * min(made.sheet.sewing_seam, SEAM)
        if printed.strip < least:
            yield self.finding(
                made,
                ["binding", "strip"],
                f"A binding strip {of.said(printed.strip)} wide cannot go round an edge: even folded once it takes "
                f"{SEAMS_OF_BINDING} seams, {of.said(least)}, and folded double 2 to 2 1/2 in is usual (common "
                "practice). Perhaps that is the width of the finished binding: ask how wide to cut the strips.",
                of.said(printed.strip),
                f"at least {of.said(least)}",
                asks=f"How wide are the binding strips cut? {of.said(printed.strip)}, as printed, cannot be folded "
                "round an edge.",
            )
        elif size is not None and printed.length is not None:
            yield from self._whole_length(made, of, cloth.ring(made.sheet, size))
        elif size is not None and not printed.open and not cloth.serves_twice(made.sheet):
            yield from self._count(made, of, cloth.rings(made.sheet, size))

    def _whole_length(self, made, of, ring):
        """How long the binding is in all, against the way round."""
        if not ring.short:
            return
        have, need = of.said(ring.have), of.up(ring.closes)
        yield self.finding(
            made,
            ["binding", "length"],
            f"{have} of binding do not reach: {_around(of, ring)}. Join {need}.",
            have,
            need,
            fix=((("binding", "length"), need),),
        )

    def _count(self, made, of, rings):
        """How many strips there are, against how many it takes."""
        printed, best = made.sheet.binding, max(rings, key=lambda ring: (-ring.lacks, ring.have))
        if best.enough is None:
            yield self.finding(
                made,
                ["binding", "strip"],
                f"The binding strips are {of.said(printed.strip)} wide, and {of.said(best.each)} of fabric is "
                "too short to join such strips at all. Check their width.",
                of.said(printed.strip),
                "narrower strips",
            )
            return
        have, enough = some(printed.count, "strip"), max(ring.enough or 0 for ring in rings)
        around, path = _around(of, best), ["binding", "count"]
        if printed.part is not None:
            path = [*path_of(made.sheet, printed.part), "count"]
        told = {"printed": have, "needed": some(enough, "strip"), "fix": ((tuple(path), enough),)}
        if best.short:
            by_join = f"joined {JOINED[best.join]}" if printed.join is None else "joined"
            each = f"{have} of {of.said(best.each)}, {by_join},"
            if len({ring.width for ring in rings}) > 1:
                each = f"{have}, even of fabric {of.said(best.width)} wide and {by_join},"
            yield self.finding(
                made,
                path,
                f"{each} give {of.said(best.have)} of binding; {around}. Cut {some(enough, 'strip')}.",
                **told,
            )
        elif any(ring.short for ring in rings):
            unsaid, asks = _unsaid(rings)
            yield self.finding(
                made,
                path,
                f"The pattern does not say {unsaid}, and it decides: {have} of binding are {_in_each_case(of, rings)}; "
                f"{around}. Ask, or cut {some(enough, 'strip')}.",
                level="ask",
                asks=asks,
                **told,
            )


def _around(of, ring):
    """Why a binding must be so long, in words."""
    return (
        f"the quilt is {of.said(ring.around)} round and a binding needs at least {of.said(yardage.LEAST_EXTRA)} more "
        "to close"
    )


JOINED = {"straight": "with straight seams", "diagonal": "on the diagonal"}


def _unsaid(rings):
    """What decides and is not printed, in words, and the question that settles it."""
    pairs = list(combinations(rings, 2))
    by_join = any(one.width == other.width and one.short != other.short for one, other in pairs)
    by_width = any(one.join == other.join and one.short != other.short for one, other in pairs)
    if not by_join:
        return "how wide the fabric of the binding must be", how_wide("the binding")
    asks = "How are the strips of the binding joined, on the diagonal or with straight seams? It decides"
    if not by_width:
        return "how the strips of the binding are joined", f"{asks}."
    return (
        "how wide the fabric of the binding must be, nor how its strips are joined",
        f"{asks}, together with the usable width of the fabric, which is not printed either.",
    )


def _in_each_case(of, rings):
    """Where binding strips are enough and where they are short, by the width of their fabric and by their joins."""
    cases = []
    for width, alike in groupby(rings, key=lambda ring: ring.width):
        lacks = {ring.join: ring.lacks for ring in alike}
        if len(set(lacks.values())) == 1:
            cases.append((width, short_of(*set(lacks.values()), "strip")))
        else:
            each = (f"{short_of(lack, 'strip') or 'enough'} if joined {JOINED[join]}" for join, lack in lacks.items())
            cases.append((width, " but ".join(each)))
    return by_width(of, cases) if len(cases) > 1 else cases[0][1]


class _Larger(Check):
    """Something that must be larger than the quilt all round."""

    thing = ""
    why = ByNotebook("08-fabric-to-buy")
    after = ("finished-size",)
    more_will_do = True

    def findings(self, reading, earlier):
        made, of = reading.made, reading.ruler
        lining, quilt = getattr(made.sheet, self.thing), quilt_to_cover(made, earlier)
        given = cloth.linings(made.sheet, lining, quilt) if lining is not None and quilt is not None else []
        if not given:
            return
        narrowest, widest = given[0], given[-1]
        if not narrowest.scant:
            yield from self._not_as_printed(made, of, lining, widest)
            return
        needed = cloth.lining_needed(quilt, made.sheet.units)
        told = {"needed": of.sizes(needed), "fix": self._enlarged(made.sheet, of, lining, quilt, needed)}
        advice = self._advice(made.sheet, of, lining, quilt, needed)
        if (narrowest.small, narrowest.scant) != (widest.small, widest.scant):
            cases = [(one.width, self._in_words(of, one)) for one in given]
            yield self.finding(
                made,
                [self.thing],
                f"The pattern does not say how wide the fabric of the {self.thing} must be, and it decides: "
                f"{of.cloth(lining.bought)} is {by_width(of, cases)}; {practice(of)}. Ask, or {advice}.",
                of.sizes(narrowest.size),
                level="ask",
                asks=how_wide(f"the {self.thing}"),
                **told,
            )
            return
        called = self._called(of, lining, widest, " at the most" if len(given) > 1 else "")
        if widest.small:
            raw = [float(side) + 2 * made.seam for side in quilt]
            said = (
                f"{called} is too small for a quilt of {of.sizes(quilt)}, whose top is {of.sizes(raw)} with its "
                f"seams: it must be larger all round: {practice(of)}. {advice[0].upper()}{advice[1:]}."
            )
        else:
            said = (
                f"{called} leaves {of.said(widest.room)} over on each side of a quilt of {of.sizes(quilt)}; "
                f"{practice(of)}. Ask how it is to be quilted, or {advice}."
            )
        level = "stop" if widest.small else "ask"
        yield self.finding(made, [self.thing], said, of.sizes(widest.size), level=level, **told)

    def _called(self, of, lining, given, at_most=""):
        """What it is, and how large."""
        if lining.bought is None or given.size == lining.size:
            return f"The {self.thing} of {of.sizes(given.size)}"
        fabric = " of fabric" if self.thing == "backing" else ""
        panels = f" in {some(lining.panels, 'panel')}" if lining.panels else ""
        printed = f" and not the {of.sizes(lining.size)} printed" if lining.size is not None else ""
        bought = f"{of.cloth(lining.bought)}{fabric}{panels}"
        return f"The {self.thing} from {bought}, {of.sizes(given.size)}{at_most}{printed},"

    def _in_words(self, of, given):
        """What is lacking of one, in words; "" for nothing."""
        if given.small:
            return "too small"
        return f"{of.said(given.room)} over on each side" if given.scant else ""

    def _not_as_printed(self, made, of, lining, given):
        """A note where the bought length gives less than the printed size, and still enough."""
        if lining.size is not None and lining.bought is not None and given.size != lining.size:
            yield self.finding(
                made,
                [self.thing, "bought"],
                f"{self._called(of, lining, given)} is still large enough: {of.said(given.room)} over on each side.",
                of.sizes(lining.size),
                of.sizes(given.size),
                level="note",
            )

    def _advice(self, sheet, of, lining, quilt, needed):
        """What to buy or cut instead."""
        enough = f"at least {of.sizes(needed)}"
        buy = cloth.backing_to_buy(sheet, lining, quilt) if self._by_length(lining) else None
        if buy is None:
            return f"buy or cut {enough}"
        return f"buy more: {of.to_buy(buy[1])} in {some(buy[0], 'panel')} gives {enough}"

    def _enlarged(self, sheet, of, lining, quilt, needed):
        """The changes to the sheet that make it large enough."""
        size = (((self.thing, "size"), of.typed(needed)),)
        buy = cloth.backing_to_buy(sheet, lining, quilt) if self._by_length(lining) else None
        if buy is not None:
            more = ((self.thing, "bought"), of.to_buy(buy[1])), ((self.thing, "panels"), buy[0])
            return (*more, *size) if lining.size is not None else more
        gone = [key for key in ("bought", "panels") if getattr(lining, key, None) is not None]
        return (*size, *(((self.thing, key), None) for key in gone))

    def _by_length(self, lining):
        return self.thing == "backing" and lining.bought is not None


def practice(of):
    """How much larger than a quilt its backing and batting are, in words."""
    hoop, frame = (of.said(over / 2) for over in OVER[of.units])
    return f"{hoop} is the least for a hoop, {frame} for a longarm frame (common practice)"


class BackingSmall(_Larger):
    """A backing that is not larger than the quilt all round."""

    name, title, thing = "backing-small", "The backing is too small", "backing"
    repair = "buy or cut as much as given below"
    question = "The backing is printed as {printed}. Should it not be at least {needed}?"


class BattingSmall(_Larger):
    """A batting that is not larger than the quilt all round."""

    name, title, thing = "batting-small", "The batting is too small", "batting"
    repair = "buy or cut the size given below, or larger"
    question = "The batting is printed as {printed}. Should it not be at least {needed}?"


def quilt_to_cover(made, earlier):
    """(width, height) in inches of the quilt that something is bought for: as it sews, or as printed where parts must
    be cut otherwise than they are; None where that is not known."""
    printed = made.sheet.finished
    if printed is not None and blamed(earlier):
        return tuple(map(float, printed))
    return made.finished
