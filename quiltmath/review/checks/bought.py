"""What is bought: cloth, binding, backing, batting, counted as a careful cutter would."""

from fractions import Fraction
from math import ceil

from ... import yardage
from ...pattern.names import is_binding
from .check import Check, blamed, ruler, some

LEAST_EXTRA = Fraction(2)  # inches over the perimeter: the least that printed binding rules add (they add 2 to 24)
LEAST_OVER = Fraction(
    4
)  # inches over the quilt, both sides together: the least that printed backing rules add (4 to 12)
MOST_TO_PLAN = 20_000  # pieces of one cloth: more are compared by area alone


class FabricShort(Check):
    """Less cloth bought than the cutting list takes."""

    name, title = "fabric-short", "The cloth will not do"
    repair, why = "buy the length given", "09-read-before-you-cut"

    def findings(self, made, earlier):
        of = ruler(made)
        sheet = made.sheet
        for name, fabric in sheet.fabric.items():
            pieces = _pieces(sheet, name, fabric)
            if fabric.bought is None or not pieces:
                continue
            if sum(piece.count for piece in pieces) > MOST_TO_PLAN:
                least = plan = sum(piece.count * piece.width * piece.height for piece in pieces) / sheet.usable_width(
                    name
                )
            else:
                try:
                    found = yardage.length_needed(pieces, usable_width=sheet.usable_width(name))
                except yardage.DoesNotFit as refused:
                    yield self.finding(made, ["fabric", name], f"{name!r}: {refused}.", level="ask")
                    continue
                least, plan = found.at_least, found.length
            if fabric.bought >= plan:
                continue
            have, need = of.cloth(fabric.bought), of.to_buy(plan)
            if fabric.bought < least:
                yield self.finding(
                    made,
                    ["fabric", name, "bought"],
                    f"{have} of {name!r} will not do: its pieces take at least "
                    f"{of.said(least)} of cloth {of.said(sheet.usable_width(name))} wide, cut as well as can be, and "
                    f"{of.said(fabric.bought)} are bought. Buy {need}.",
                    have,
                    need,
                    fix=((("fabric", name, "bought"), need),),
                )
            else:
                yield self.finding(
                    made,
                    ["fabric", name, "bought"],
                    f"{have} of {name!r} is tight: cut in strips its pieces take {of.said(plan)} and "
                    f"{of.said(fabric.bought)} are bought. It may just do with great care; buy {need} to be safe.",
                    have,
                    need,
                    level="ask",
                    fix=((("fabric", name, "bought"), need),),
                )


class BindingShort(Check):
    """Too few binding strips for the way round the quilt."""

    name, title = "binding-short", "The binding does not reach round"
    repair, why = "cut the strips given", "binding"
    after = ("finished-size",)

    def findings(self, made, earlier):
        of = ruler(made)
        sheet, binding, size = made.sheet, made.sheet.binding, _quilt(made, earlier)
        if binding is None or size is None:
            return
        round_it = 2 * sum(size)
        width = float(sheet.usable_width(binding.fabric))
        if binding.style == "bias":
            width *= 2**0.5
        strip = float(binding.strip)
        lost = strip if binding.join == "diagonal" else 2 * made.seam
        have = binding.count * width - binding.count * lost
        needed = round_it + float(LEAST_EXTRA)
        if have >= needed:
            return
        if width <= lost:
            yield self.finding(
                made,
                ["binding", "strip"],
                f"The binding strips are {of.said(strip)} wide, and {of.said(width)} of cloth is "
                "too short to join such strips at all. Check their width.",
                of.said(strip),
                "narrower strips",
            )
            return
        enough = ceil(needed / (width - lost))
        yield self.finding(
            made,
            ["binding", "count"],
            f"{some(binding.count, 'strip')} of {of.said(width)}, joined, give {of.said(have)} of binding; "
            f"the quilt is {of.said(round_it)} round and a binding needs at least {of.said(LEAST_EXTRA)} more to close. Cut {enough} "
            "strips.",
            some(binding.count, "strip"),
            some(enough, "strip"),
            fix=((("binding", "count"), enough),),
        )


class _Larger(Check):
    """Something that must be larger than the quilt all round."""

    thing = ""

    def _size(self, made, lining, quilt):
        """Its printed (width, height), or None."""
        return lining.size

    def findings(self, made, earlier):
        of = ruler(made)
        lining, quilt = getattr(made.sheet, self.thing), _quilt(made, earlier)
        if lining is None or quilt is None:
            return
        size = self._size(made, lining, quilt)
        if size is None:
            return
        if not any(
            all(float(have) >= side + float(LEAST_OVER) - 1 / 16 for have, side in zip(way, quilt))
            for way in (size, size[::-1])
        ):
            needed = tuple(side + float(LEAST_OVER) for side in quilt)
            yield self.finding(
                made,
                [self.thing],
                f"The {self.thing} of {of.sizes(size)} is too small for a quilt of {of.sizes(quilt)}: it must be "
                f"larger all round, at least {of.sizes(needed)}, and more if it goes to a frame.",
                of.sizes(size),
                of.sizes(needed),
                fix=tuple(
                    ((self.thing, key), value)
                    for key, value in (("size", of.typed(needed)), ("bought", None), ("panels", None))
                ),
            )


class BackingSmall(_Larger):
    """A backing that is not larger than the quilt all round."""

    name, title, thing = "backing-small", "The backing is too small", "backing"
    repair, why = "buy enough for the size given", "09-read-before-you-cut"
    after = ("finished-size",)

    def _size(self, made, lining, quilt):
        """The printed size, or what the bought length gives in its panels, sewn side by side."""
        if lining.size is not None or lining.bought is None:
            return lining.size
        width = lining.usable_width or made.sheet.usable_width(lining.fabric or "")
        most = None
        for panels in [lining.panels] if lining.panels else range(1, 7):
            size = panels * width - 2 * (panels - 1) * made.sheet.sewing_seam, lining.bought / panels
            if most is None or _fits_better(size, most, quilt):
                most = size
        return most


class BattingSmall(_Larger):
    """A batting that is not larger than the quilt all round."""

    name, title, thing = "batting-small", "The batting is too small", "batting"
    repair, why = "buy the size given or larger", "09-read-before-you-cut"
    after = ("finished-size",)


def _quilt(made, earlier):
    """(width, height) in inches of the quilt that something is bought for: as it sews, or as printed where parts must be cut
    otherwise than they are; None where that is not known."""
    printed = made.sheet.finished
    if printed is not None and blamed(earlier):
        return tuple(map(float, printed))
    return made.finished


def _fits_better(size, other, quilt):
    """Whether one size leaves more room round the quilt than another, whichever way round."""

    def room(pair):
        return max(min(float(have) - side for have, side in zip(way, quilt)) for way in (pair, pair[::-1]))

    return room(size) > room(other)


def _pieces(sheet, name, fabric):
    """All that is cut from one cloth, as `yardage.Piece`s."""
    pieces = [
        yardage.Piece(*sheet.cut_size(cut), cut.count, cut.part, any_way=not fabric.directional)
        for cut in sheet.cut
        if cut.fabric == name
    ]
    binding = sheet.binding
    if (
        binding is not None
        and binding.fabric == name
        and binding.style == "straight"
        and not any(is_binding(sheet, cut) for cut in sheet.cut)
    ):
        pieces.append(yardage.Piece(sheet.usable_width(name), binding.strip, binding.count, "binding"))
    return pieces
