"""Other sizes of a pattern: the sheet with what is printed for another size in place of its own."""

from itertools import count

from .. import making, pattern
from ..making import bill_of_materials, patches
from ..making.bill import cuts_needed
from ..pattern.fields import ENOUGH
from ..pattern.names import DRAWN, all_in, final, is_binding
from ..pattern.setting import SHORT
from ..pattern.writing import inches_written


def in_size(sheet, size):
    """The sheet with what another size of it says in place of its own.

    What the other size does not give is not one of its faults: a count is taken as enough, a printed figure as not
    printed.
    """
    changed = _without_other_pieces(sheet, pattern.changed(sheet, *_changes(sheet, size)), size)
    making.refuse_other_strips(changed)
    making.refuse_too_many(sheet, patches(changed), "it")
    return pattern.changed(changed, *_taken_as_enough(changed, size))


def _changes(sheet, size):
    """The changes to the sheet that what its other size says makes, as (path, value) each."""
    yield ("other_size",), None
    yield ("seam",), f"{sheet.sewing_seam} in"
    yield from _set_in(sheet, size)
    yield ("finished",), None if size.finished is None else _written(size.finished)
    yield from _cut_in(sheet, size)
    yield from _made_in(sheet, size)
    for name in sheet.fabric:
        yield from _keys(("fabric", name), _bought_in(name, size))
    for number, border in enumerate(sheet.border if size.border is None else []):  # lengths are the first size's
        lengths = [key for key in ("sides_length", "top_length") if getattr(border, key) is not None]
        yield from _keys(("border", number), dict.fromkeys(lengths))
    yield from (((key,), _lining_in(sheet, key, size)) for key in ("backing", "batting"))
    if sheet.binding is not None:
        yield from _binding_in(sheet, size)


def _keys(path, values):
    """The changes that give keys of the table at a path these values."""
    return (((*path, key), value) for key, value in values.items())


def _cut_in(sheet, size):
    """The changes to the cutting list: to its lines, and the lines that the other size has of its own."""
    own = {cut.part for cut in size.cut}
    for number, cut in enumerate(sheet.cut):
        if cut.part not in own:
            yield from _keys(("cut", number), _line_in(cut, size))
    places, more = {cut.part: number for number, cut in enumerate(sheet.cut)}, count(len(sheet.cut))
    for cut in size.cut:
        place = places[cut.part] if cut.part in places else next(more)
        yield ("cut", place), pattern.as_data(cut, sheet.units)


def _made_in(sheet, size):
    """The changes to units, blocks and strip sets: those of its own that the other size has, and keys of the rest."""
    for name, block in size.block.items():
        yield ("block", name), pattern.as_data(block, sheet.units)
        yield from _keys(("block", name), _own_in(name, size))
    for kind in ("strip_set", "unit", "block"):
        for name in getattr(sheet, kind).keys() - size.block.keys():
            yield from _keys((kind, name), _thing_in(sheet, kind, name, size))


def _taken_as_enough(changed, size):
    """The changes with which every line of which the other size gives no count cuts as many as it takes."""
    own, needed = {cut.part for cut in size.cut}, bill_of_materials(changed)
    for number, cut in enumerate(changed.cut):
        if cut.part not in size.counts and cut.part not in own:
            yield from _keys(("cut", number), _enough(changed, cut, needed))


def _set_in(sheet, size):
    """The changes to the setting, its sashing and its borders."""
    if size.drawn:
        yield from ((("setting", key), None) for key in (*SHORT, *DRAWN))
    lying = [key for key in ("across", "down") if getattr(size, key)]
    yield from ((("setting", key), getattr(size, key)) for key in lying)
    data = pattern.as_data(size, sheet.units)
    yield from ((("setting", key), data[key]) for key in DRAWN if key in data)
    if size.strip is not None:
        yield ("setting", "sashing", "strip"), list(size.strip)
    if size.border is not None:
        yield ("border",), data.get("border") or None


def _without_other_pieces(sheet, changed, size):
    """The sheet of another size without what that size neither uses nor prints a count of, and the first one uses."""
    if not (size.drawn or size.border is not None or size.strip is not None or size.block):
        return changed
    gone = (all_in(sheet, final(sheet)) - all_in(changed, final(changed))) - size.counts.keys()
    lines = [(("cut", number), None) for number, cut in enumerate(changed.cut) if cut.part in gone]
    made = [((kind, name), None) for kind in ("strip_set", "unit", "block") for name in getattr(changed, kind)]
    return pattern.changed(changed, *reversed(lines), *(one for one in made if one[0][1] in gone)) if gone else changed


def in_sheet(sheet, number, there, fix):
    """The changes to the sheet that change the sheet `there`, that of its other size of this number, so: (path, value)
    each.

    A part of which that other size does not say how it differs is left out: it is the same in all sizes.
    """
    size = sheet.other_size[number]
    for path, value in fix:
        own = _own_path(size, there, path)
        if own is not None:
            yield ("other_size", number, *own), value


def _own_path(size, there, path):
    """Where another size says what stands at a path of its sheet `there`; None where it says nothing of it."""
    match path:
        case ("cut", place, ("count" | "size" | "strip") as key):
            return _own_line(size, there.cut[place].part, key)
        case ("unit" | "block" | "strip_set", name, "count" | "pieces") if name in size.counts:
            return "counts", name
        case ("unit" | "block" | "strip_set", name, "trim_to" | "sub_cut") if name in size.sizes:
            return "sizes", name
        case ("strip_set", name, "sets") if name in size.sets:
            return "sets", name
        case ("setting", key) if key in DRAWN and getattr(size, key) is not None:
            return (key,)
        case ("fabric", name, ("bought" | "pieces") as key):
            return key, name
        case ("binding", "count"):
            return ("binding",)
        case ("finished" | "backing" | "batting", *_):
            return path
    return None


def _own_line(size, part, key):
    """Where another size says this of a part: in a line of its own, or by its name."""
    line = next((place for place, cut in enumerate(size.cut) if cut.part == part), None)
    if line is not None:
        return "cut", line, key
    told = "counts" if key == "count" else "sizes"
    return (told, part) if part in getattr(size, told) else None


def _line_in(cut, size):
    """The keys of a line of the cutting list that are others in another size."""
    keys = {"strips": None, "per_print": None, **({"strip_width": None} if cut.shape is None else {})}
    if cut.per_print is not None:
        keys["count"] = cut.count
    if cut.part in size.counts:
        keys |= {"count": size.counts[cut.part], "triangles": None}
    if cut.part in size.sizes:
        keys |= {"finished": None, **_sized(cut, size.sizes[cut.part])}
    return keys


def _sized(cut, pair):
    """The key that says how large the pieces of a line are cut, so large."""
    if cut.strip is None and (cut.shape is None or cut.strip_width is None):
        return {"size": _written(pair)}
    return {"strip" if cut.strip is not None else "strip_width": inches_written(pair[1])}


def _enough(sheet, cut, needed):
    """The keys of a line that is cut in as many as its size takes."""
    cuts = ENOUGH if cut.strip is not None else cuts_needed(sheet, cut, needed) or cut.count
    return {"count": cuts, "triangles": None}


def _bought_in(name, size):
    """How much of a fabric is bought in another size; what that does not say is not counted in it, as of scraps."""
    if name in size.bought:
        return {"bought": inches_written(size.bought[name])}
    if name in size.pieces:
        return {"pieces": size.pieces[name]}
    return {**dict.fromkeys(("bought", "pieces", "piece", "prints")), "scraps": True}


def _binding_in(sheet, size):
    """The changes to the binding: as many strips as the other size says, "enough" in every size; where it says nothing
    of it, it is not judged, nor are the lines it is cut by."""
    binding = sheet.binding
    if size.binding:
        yield ("binding", "length"), None
        yield ("binding", "count"), size.binding
    elif not binding.open and binding.part not in size.counts:
        yield ("binding",), None
        lines = [number for number, cut in enumerate(sheet.cut) if is_binding(sheet, cut)]
        yield from ((("cut", number), None) for number in reversed(lines))


def _thing_in(sheet, kind, name, size):
    """The keys of a unit, block or strip set that are others in another size."""
    keys = (
        {"sets": size.sets.get(name), "pieces": size.counts.get(name)}
        if kind == "strip_set"
        else {"count": size.counts.get(name)}
    )
    if not all_in(sheet, name).isdisjoint(size.sizes) and kind != "strip_set":
        keys["finished"] = None
    if name in size.sizes:
        pair = size.sizes[name]
        keys |= {"sub_cut": inches_written(pair[0])} if kind == "strip_set" else {"trim_to": _written(pair)}
    return keys


def _own_in(name, size):
    """What another size says of a block of its own beside that."""
    counted = {"count": size.counts[name]} if name in size.counts else {}
    return counted | ({"trim_to": _written(size.sizes[name])} if name in size.sizes else {})


def _lining_in(sheet, key, size):
    """The backing or batting of another size, of the same fabric as the first; None where it is not given."""
    first, other = getattr(sheet, key), getattr(size, key)
    if other is None:
        return None
    bare = None if first is None else first.model_copy(update={"size": None, "bought": None, "panels": None})
    return ({} if bare is None else pattern.as_data(bare, sheet.units)) | pattern.as_data(other, sheet.units)


def _written(pair):
    return " x ".join(map(inches_written, pair))
