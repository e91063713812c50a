"""Fabric that is bought in pieces of a size: too few of them, counted as a careful cutter would."""

from __future__ import annotations

from .widths import by_width


def short_in_pieces(check, reading, name):
    """A number of pieces that will not do, or of which nobody can say that it will."""
    of, made, fabric = reading.ruler, reading.made, reading.sheet.fabric[name]
    have, prints = fabric.each, reading.sheet.prints(name)
    sizes = [(sheet.fabric_piece(name), reading.in_pieces(name, sheet)) for sheet in reading.sheet.at_each_width(name)]
    (_, narrowest), (largest, widest) = sizes[0], sizes[-1]
    if narrowest.does(have):
        return
    path = ["fabric", name, "pieces"]
    if widest.refused:
        yield check.finding(made, path[:-1], f"{name!r}: {widest.refused}.", level="ask")
        return
    enough = (widest if narrowest.refused else narrowest).enough
    each = f" of each of the {prints} prints" if prints > 1 else ""
    printed, needed = of.pieces(have, fabric.piece), of.pieces(enough, fabric.piece)
    told = {"printed": printed, "needed": needed, "fix": ((tuple(path), enough),)}
    bought = f"{printed}{each}{' of' if not each else ','} {name!r}"
    if widest.does(have):
        cases = [(size[0], _lacks(taken, have)) for size, taken in sizes]
        yield check.finding(
            made,
            path,
            f"The pattern does not say how large a piece of {name!r} is, and it decides: {printed}{each} "
            f"{'is' if have == 1 else 'are'}, by the width of one, {by_width(of, cases)}. Ask, or buy {needed}{each}.",
            level="ask",
            asks=f"How large is each piece of {name!r}? The pattern does not say, and it decides.",
            **told,
        )
    elif have < widest.at_least:
        size = of.sizes(largest)
        yield check.finding(
            made,
            path,
            f"{bought} will not do: what is cut from them takes at least {widest.at_least} pieces of {size}, cut as "
            f"well as can be, and {have} {'is' if have == 1 else 'are'} bought. Buy {needed}{each}.",
            **told,
        )
    else:
        yield check.finding(
            made,
            path,
            f"{bought} are tight: cut from edge to edge what they must give takes {enough}. It may just do with great "
            f"care; buy {needed}{each} to be safe.",
            level="ask",
            **told,
        )


def _lacks(taken, have):
    """What is lacking of pieces of one size, in words; "" for nothing."""
    if taken.refused:
        return "too small for what is cut"
    if taken.does(have):
        return ""
    return f"{taken.at_least - have} short" if have < taken.at_least else "tight"
