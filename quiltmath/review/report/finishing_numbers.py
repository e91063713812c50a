"""The numbers of what goes round and behind a top: the lengths of borders, binding, backing and batting."""

from ...pattern.fields import ENOUGH
from .. import cloth
from ..checks.border_lengths import edges_of
from ..checks.check import some
from .number import TAKEN, Number, counted, marked


def finishing_numbers(told):
    """The lengths of borders, binding, backing and batting, as a list of `Number`."""
    return [*_border_lengths(told), *_binding(told), *_lining(told, "backing"), *_lining(told, "batting")]


def _border_lengths(told):
    """The printed lengths of border strips."""
    for strip in told.made.border_strips if told.made.top is not None else ():
        key = f"{strip.where}_length"
        printed, found = getattr(told.sheet.border[strip.border], key), told.found("border", strip.border, key)
        if printed is not None:
            name = f"border {strip.border + 1}, {edges_of(strip)}"
            apart = told.apart((strip.length,) * 2, (printed,) * 2) if found else ""
            yield Number(name, "length", told.length(printed), told.ruler.up(strip.length), marked(found), apart)


def _binding(told):
    """The width of binding strips, and their length or count."""
    binding, size = told.sheet.binding, told.made.finished
    if binding is None:
        return
    strip, narrow = told.length(binding.strip), told.found("binding", "strip")
    yield Number("binding", "strip width", strip, narrow.needed if narrow else strip, marked(narrow, TAKEN))
    if size is None:
        yield Number("binding", "strips", str(binding.count or ENOUGH), "the quilt cannot be sewn", TAKEN)
    else:
        yield _round_the_quilt(told, binding, cloth.ring(told.sheet, size))


def _round_the_quilt(told, binding, ring):
    """The printed length or count of a binding beside what goes round the quilt."""
    around = f"{told.ruler.said(ring.around)} round"
    if binding.length is not None:
        ours, found = f"at least {told.ruler.up(ring.closes)}, {around}", told.found("binding", "length")
        return Number("binding", "length", told.length(binding.length), ours, marked(found))
    if cloth.serves_twice(told.sheet):
        return Number("binding", "strips", f"with {binding.part}", around, TAKEN)
    count = str(binding.count or ENOUGH)
    if ring.enough is None:
        return Number("binding", "strips", count, f"strips too wide to join, {around}", marked(True))
    found = told.found("binding", "count")
    apart = counted(binding.count, ring.enough) if found and ring.enough else ""
    return Number("binding", "strips", count, f"{some(ring.enough, 'strip')}, {around}", marked(found), apart)


def _lining(told, thing):
    """The printed size of a backing or batting, or what is bought for it, beside what the quilt takes."""
    lining, quilt = getattr(told.sheet, thing), told.made.finished
    if lining is None or (lining.size is None and lining.bought is None):
        return
    said = [] if lining.size is None else [told.size(lining.size)]
    if lining.bought is not None:
        said.append(told.ruler.cloth(lining.bought) + (f" in {some(lining.panels, 'panel')}" if lining.panels else ""))
    printed = ", from ".join(said)
    if quilt is None:
        yield Number(thing, "", printed, "the quilt cannot be sewn", TAKEN)
        return
    found, needed = told.found(thing), cloth.lining_needed(quilt, told.made.sheet.units)
    narrowest, *_ = cloth.linings(told.sheet, lining, quilt)
    lying = min(narrowest.size, narrowest.size[::-1], key=lambda pair: _short(pair, needed))
    ours, apart = f"at least {told.ruler.sizes(needed)}", told.apart(lying, needed) if found else ""
    yield Number(thing, "", printed, ours, marked(found), apart)


def _short(have, need):
    """By how much a size is short where it is shortest, inches."""
    return max(float(b) - float(a) for a, b in zip(have, need))
