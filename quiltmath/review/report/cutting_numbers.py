"""The numbers of a cutting list: the size and count of each line, what else it prints, and what the list forgets."""

from ... import lengths
from ...making.bill import cuts_needed
from ...making.rounding import finished_rectangle, finished_size
from ...pattern.fields import ENOUGH
from .. import cloth
from ..checks.check import some
from ..checks.forgotten import line_of
from ..checks.printed_strips import StripsPrinted
from .number import AGREES, DIFFERS, NEAR, TAKEN, Number, counted, marked

ROUNDED_UP = 1 / 8 + 1e-6  # inches: as much as rounding to the ruler's eighth adds or takes


def cutting_numbers(told):
    """The numbers of every line of the cutting list, as a list of `Number`."""
    lines = [number for place, cut in enumerate(told.sheet.cut) for number in _line(told, ("cut", place), cut)]
    lost = [(one.name, line_of(told.ruler, one) or str(one.wanted)) for one in told.made.forgotten]
    return lines + [Number(name, "how many", "none", needed, DIFFERS) for name, needed in lost]


def _line(told, path, cut):
    """The numbers of one line of the cutting list."""
    name = cut.part + (f", cut {cut.cut}" if cut.diagonal else f", {cut.shape}" if cut.shape else "")
    yield _cut_size(told, path, cut, name)
    if cut.finished is not None and cut.shape is None:
        yield _finished(told, path, cut, name)
    yield _count(told, path, cut, name)
    yield from _strips(told, path, cut, name)
    if cut.triangles is not None:
        yield _triangles(cut, name)
    wrong = told.found(*path, "cut") or told.found(*path, "slant")
    if wrong is not None:
        yield Number(cut.part, "how it is cut", wrong.printed, wrong.needed, DIFFERS)


def _cut_size(told, path, cut, name):
    """The size a line cuts, or the width of its strip, held to what its part needs where that is known."""
    if cut.shape is not None and cut.strip_width is not None:
        width, found = told.length(cut.strip_width), told.found(*path, "strip_width")
        return Number(name, "strip width", width, found.needed if found else width, marked(found, TAKEN))
    if cut.strip is not None:
        what, found = (name, "strip width", told.length(cut.strip)), told.found(*path, "strip")
    else:
        what, found = (name, "size", told.size(cut.size)), told.found(*path, "size")
    need = told.reading.needed.get(cut.part)
    if need is not None:
        return _held_to(told, what, cut, need, found)
    printed = what[-1]
    ours = found.needed if found else _finishes(told, cut) if cut.cut == "whole" else printed
    return Number(*what, ours, marked(found, TAKEN))


def _finishes(told, cut):
    """What the whole pieces of a line finish."""
    width, height = (float(side) - 2 * told.made.seam for side in told.sheet.cut_size(cut))
    return told.finishes((height, height) if cut.strip is not None else (width, height))


def _held_to(told, what, cut, need, found):
    """A printed cut size beside the one its part needs, exactly and on the ruler."""
    whole, (have, exact) = cut.cut == "whole", _sides(told, cut, need)
    ours = told.ruler.sizes([told.needed(b, whole, None if found else a) for a, b in zip(have, exact)], str)
    on_ruler = exact if whole else [lengths.parse(told.ruler.up(side)) for side in exact]
    apart = told.apart(have, on_ruler, *(("too small", "too large") if found else ("smaller", "larger")))
    larger = max(float(a) - float(b) for a, b in zip(have, exact)) > (0 if whole else ROUNDED_UP)
    mark = marked(found, NEAR if apart and larger and not need.least else AGREES)
    return Number(*what, f"at least {ours}" if need.least else ours, mark, "" if mark == AGREES else apart)


def _sides(told, cut, need):
    """The printed sides of a line and the needed ones (inches), each beside its own; those of a strip are its width."""
    if cut.strip is not None:
        return (cut.strip,) * 2, (need.size[1],) * 2
    as_it_lies = told.made.sheet.part(cut.part)
    turned = as_it_lies is not None and as_it_lies.size != cut.size  # typed the other way round, and taken as it fits
    return told.sheet.cut_size(cut), need.size[::-1] if turned else need.size


def _finished(told, path, cut, name):
    """The printed finished size of a line beside the one that its cut size stands for."""
    found, comes_to = told.found(*path, "size"), _comes_to(told, cut)
    wrong = found is not None and found.found_by.cut_otherwise
    return Number(
        name,
        "finished size",
        told.size(cut.finished),
        f"comes to {told.ruler.sizes(comes_to)}",
        marked(wrong),
        told.apart(comes_to, cut.finished) if wrong else "",
    )


def _comes_to(told, cut):
    """The finished size that a printed cut size stands for, in the order in which the finished one is printed."""
    size, seam, units = [float(side) for side in told.sheet.cut_size(cut)], told.made.seam, told.sheet.units
    if not cut.halved_rectangle:
        return [finished_size(cut.cut, side, seam, units) for side in size]
    legs = finished_rectangle(tuple(size), seam, units)
    return legs if (legs[0] < legs[1]) == (cut.finished[0] < cut.finished[1]) else legs[::-1]


def _count(told, path, cut, name):
    """How many a line cuts, beside how many the quilt takes."""
    if cut.open:
        return Number(name, "how many", ENOUGH, some(cloth.strips_taken(told.made, told.sheet, cut), "strip"), AGREES)
    found = told.found(*path, "count" if cut.per_print is None else "per_print")
    each_print = "" if cut.per_print is None else f" ({cut.per_print} from each print)"
    what, needed = (name, "how many", f"{cut.count}{each_print}"), told.reading.counts[cut.part]
    if cut.strip is not None and not needed:
        return Number(*what, _joined(told, cut) or "as many as the binding takes", marked(found))
    enough = cuts_needed(told.made.sheet, cut, told.made.bill) if cut.each > 1 else needed
    ours = str(needed) if cut.each == 1 else f"{some(needed, 'triangle')}: {some(enough, cut.cut_from)}"
    apart = counted(cut.count, enough) if found else ""
    return Number(*what, ours, marked(apart), apart)  # what is found of an equal count is of another number of the line


def _joined(told, cut):
    """How many strips the borders take that are joined from them; nothing where no border is."""
    made = told.made
    strips = [strip for strip in made.border_strips if strip.part == cut.part] if made.top is not None else []
    if not strips:
        return ""
    edges = cloth.border_edges(strips)
    joined = cloth.joined(told.sheet, cut, edges)
    enough = "strips too short to join" if joined is None else str(joined.enough)
    return f"{enough} for {told.ruler.said(sum(edges))} of border"


def _strips(told, path, cut, name):
    """The printed strips that pieces are sub-cut from."""
    printed = StripsPrinted.of(told.made, cut, -(-told.reading.counts[cut.part] // cut.each))
    if printed is None:
        return
    found, wide = told.found(*path, "strips"), told.found(*path, "strip_width")
    ours = f"{printed.strips * printed.each[0].gives} of them, {printed.wanted} needed"
    apart = counted(printed.strips, printed.needed) if found else ""
    yield Number(name, "strips", str(cut.strips), ours, marked(found), apart)
    if cut.strip_width is not None and cut.shape is None:
        width = told.length(cut.strip_width)
        yield Number(name, "strip width", width, wide.needed if wide else width, marked(wide))


def _triangles(cut, name):
    """The printed number of triangles beside the one that the squares give."""
    gives = f"{some(cut.count, cut.cut_from)} give{'s' * (cut.count == 1)} {cut.gives}"
    apart = counted(cut.triangles, cut.gives)
    return Number(name, "triangles", str(cut.triangles), gives, marked(apart), apart)
