"""Every number a pattern prints, with the one worked out here beside it, and whether the two agree."""

from ...making.bill import sets_needed
from ..reviewing import Review
from .cutting_numbers import ROUNDED_UP, cutting_numbers
from .finishing_numbers import finishing_numbers
from .number import AGREES, DIFFERS, MISSING, NEAR, TAKEN, Number, Told, counted, held, marked


def numbers(review: Review) -> list[tuple[str, list[Number]]]:
    """Every printed number of a reviewed sheet: a list of (group, [Number]), groups in the order of a
    pattern.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> from quiltmath.review import review
    >>> for number in numbers(review(pattern.read_text(EXAMPLE)))[-1][1]:
    ...     print(number.what, number[2:])
    A: size ('3 1/2 in', 'finishes 3 in', 'as printed', '')
    A: how many ('16', '16', 'agrees', '')
    """
    groups = _groups(Told(review))
    known = {number for _, rows in groups for number in rows}
    found = [(title, rows) for title, rows in groups if rows]
    for size, other in review.other_sizes:
        rows = [number for _, rows in _groups(Told(other)) for number in rows if number not in known]
        found.append((f"In size {size.name}", rows))
    return found


def _groups(told):
    """(title, numbers) of each group, empty ones too."""
    return [
        ("The quilt", [_seam(told), _finished_quilt(told), *_another_layout(told)]),
        ("Cutting list", cutting_numbers(told)),
        ("Units and blocks", _units_and_blocks(told)),
        ("Binding, backing, batting", finishing_numbers(told)),
        ("Fabric to buy", _fabrics(told)),
    ]


# -- the quilt -----------------------------------------------------------------------------------------------------


def _seam(told):
    seam = told.length(told.sheet.sewing_seam)
    if told.sheet.seam is None:
        return Number("seam", "", "none", f"{seam} taken", MISSING)
    return Number("seam", "", seam, seam, TAKEN)


def _finished_quilt(told):
    printed, sewn = told.sheet.finished, told.made.finished
    ours = "cannot be sewn as printed" if sewn is None else f"sewn as printed {told.ruler.sizes(sewn)}"
    if printed is None:
        return Number("finished quilt", "", "none", ours, MISSING)
    if sewn is None:
        return Number("finished quilt", "", told.size(printed), ours, DIFFERS)
    lying = min(printed, printed[::-1], key=lambda pair: max(abs(float(a) - b) for a, b in zip(pair, sewn)))
    apart = told.apart(sewn, lying, within=ROUNDED_UP)
    mark = marked(told.found("finished"), NEAR if apart else AGREES)
    return Number("finished quilt", "", told.size(printed), ours, mark, apart)


def _another_layout(told):
    """How the quilt is set, where all that is counted is for another layout."""
    for place in (("across",), ("down",), ("sashing", "around")):
        found = told.found("setting", *place)
        if found is not None:
            yield Number("setting", "", found.printed, found.needed, DIFFERS)


# -- units and blocks ----------------------------------------------------------------------------------------------


def _units_and_blocks(told):
    """Units, blocks and strip sets: sizes and counts."""
    things = [("unit", *one) for one in told.sheet.unit.items()] + [("block", *one) for one in told.sheet.block.items()]
    rows = [number for thing in things for number in _unit_or_block(told, *thing)]
    return rows + [number for one in told.sheet.strip_set.items() for number in _strip_set(told, *one)]


def _unit_or_block(told, kind, name, thing):
    """What a unit or block prints: its finished size, what it measures ready made, what it is trimmed to, how many."""
    if thing.finished is not None:
        yield _finished(told, name, thing)
    if kind == "block" and thing.size is not None:
        printed, found = told.size(thing.size), told.found(kind, name, "size")
        yield Number(name, "measures", printed, found.needed if found else printed, marked(found, TAKEN))
    if thing.trim_to is not None:
        yield _trimmed(told, kind, name, thing)
    if thing.count is not None:
        yield held(name, "how many", thing.count, told.reading.counts[name])


def _finished(told, name, thing):
    """The printed finished size of a unit or block beside the one it sews to."""
    what, panel = (name, "finished size", told.size(thing.finished)), told.made.panel(name)
    if panel is None:
        return Number(*what, "cannot be sewn as printed", DIFFERS)
    sewn = [float(side) - 2 * told.made.seam for side in thing.trim_to or panel.size]
    apart = told.apart(sewn, thing.finished)
    return Number(*what, f"sews to {told.ruler.sizes(sewn)}", marked(apart), apart)


def _trimmed(told, kind, name, thing):
    """What a unit or block is trimmed to, held to its finished size where that is printed."""
    what, found = (name, "trim to", told.size(thing.trim_to)), told.found(kind, name, "trim_to")
    if thing.finished is None:
        return Number(*what, told.size(thing.trim_to), marked(found, TAKEN))
    need = [side + 2 * told.sheet.sewing_seam for side in thing.finished]
    apart = told.apart(thing.trim_to, need, "too small", "too large") if found else ""
    return Number(*what, told.size(need), marked(found), apart)


def _strip_set(told, name, strip_set):
    """The sub-cut of a strip set, how many sets are sewn, and how many pieces are cut from them."""
    width, found = float(strip_set.sub_cut) - 2 * told.made.seam, told.found("strip_set", name, "sub_cut")
    ours = found.needed if found else told.finishes((width, width))
    yield Number(name, "sub-cut", told.length(strip_set.sub_cut), ours, marked(found, TAKEN))
    counts = told.reading.counts
    if strip_set.sets is not None:
        yield held(name, "sets", strip_set.sets, sets_needed(told.sheet, name, counts))
    if strip_set.pieces is not None:
        yield held(name, "pieces", strip_set.pieces, counts[name])


# -- fabric --------------------------------------------------------------------------------------------------------


def _fabrics(told):
    """Each fabric: what is bought, and the width it was reckoned with."""
    return [number for name, fabric in told.sheet.fabric.items() for number in _fabric(told, name, fabric)]


def _fabric(told, name, fabric):
    width = told.length(told.sheet.usable_width(name))
    if fabric.bought is not None:
        yield _by_length(told, name, fabric)
        if not fabric.usable_width:
            yield Number(name, "usable width", "none", f"{width} taken", MISSING)
    if fabric.piece is not None:
        yield _in_pieces(told, name, fabric)
    elif fabric.usable_width:
        yield Number(name, "usable width", width, width, TAKEN)


def _by_length(told, name, fabric):
    """The length of a fabric that is bought, beside one that will do."""
    each = _of_each_print(told, name)
    what = name, "to buy", told.ruler.cloth(fabric.bought) + each
    plan, found = told.reading.plan(name), told.found("fabric", name, "bought")
    mark = marked(found or told.found("fabric", name), TAKEN)
    if plan.refused:
        return Number(*what, "a piece is wider than the fabric", mark)
    if not plan.pieces or plan.many:
        none = "too many pieces to plan" if plan.pieces else "nothing cut from it"
        return Number(*what, found.needed if found else none, mark)
    ours = f"{told.ruler.to_buy(plan.length)} will do ({told.ruler.said(plan.length)})"
    short = f"{told.ruler.said(plan.length - fabric.bought)} short" if found else ""
    return Number(*what, ours, marked(found), short)


def _in_pieces(told, name, fabric):
    """How many pieces of a fabric are bought, beside how many will do."""
    each = _of_each_print(told, name)
    what = name, "to buy", told.ruler.pieces(fabric.each, fabric.piece) + each
    taken, found = told.reading.in_pieces(name), told.found("fabric", name, "pieces")
    if taken.refused or not taken.pieces:
        none = "larger than a piece of fabric" if taken.refused else "nothing cut from it"
        return Number(*what, none, marked(told.found("fabric", name), TAKEN))
    size = told.ruler.sizes(told.sheet.fabric_piece(name)[::-1])
    short = counted(fabric.each, taken.enough) if found else ""
    return Number(*what, f"{taken.enough} of {size} will do{each}", marked(found), short)


def _of_each_print(told, name):
    """Of how many prints each this much is bought, for a fabric that is a group of prints; else nothing."""
    prints = told.sheet.prints(name)
    return f", of each of {prints} prints" if prints > 1 else ""
