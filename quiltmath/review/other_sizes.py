"""Other sizes of a pattern: the sheet with what is printed for another size in place of its own."""

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
    changes = [(("other_size",), None), (("seam",), f"{sheet.sewing_seam} in")]
    changes += _set_in(sheet, size)
    changes.append((("finished",), None if size.finished is None else _written(size.finished)))
    own = {cut.part for cut in size.cut}
    for number, cut in enumerate(sheet.cut):
        if cut.part not in own:
            changes += [(("cut", number, key), value) for key, value in _cut_in(cut, size).items()]
    places = {cut.part: number for number, cut in enumerate(sheet.cut)}
    more = iter(range(len(sheet.cut), len(sheet.cut) + len(own)))
    for cut in size.cut:
        place = places[cut.part] if cut.part in places else next(more)
        changes.append((("cut", place), pattern.as_data(cut, sheet.units)))
    for name, block in size.block.items():
        changes.append((("block", name), pattern.as_data(block, sheet.units)))
        changes += [(("block", name, key), value) for key, value in _own_in(name, size).items()]
    for kind in ("strip_set", "unit", "block"):
        for name in getattr(sheet, kind).keys() - size.block.keys():
            changes += [((kind, name, key), value) for key, value in _made_in(sheet, kind, name, size).items()]
    for name in sheet.fabric:
        changes += [(("fabric", name, key), value) for key, value in _bought_in(name, size).items()]
    for number, border in enumerate(sheet.border if size.border is None else []):  # lengths are the first size's
        lengths = [key for key in ("sides_length", "top_length") if getattr(border, key) is not None]
        changes += [(("border", number, key), None) for key in lengths]
    changes += [((key,), _lining_in(sheet, key, size)) for key in ("backing", "batting")]
    if sheet.binding is not None:
        changes += _binding_in(sheet.binding, size)
        judged = size.binding or (sheet.binding.part or "") in size.counts or sheet.binding.open
        lines = [number for number, cut in enumerate(sheet.cut) if not judged and is_binding(sheet, cut)]
        changes += [(("cut", number), None) for number in reversed(lines)]
    changed = _without_other_pieces(sheet, pattern.changed(sheet, *changes), size)
    making.refuse_other_strips(changed)
    making.refuse_too_many(sheet, patches(changed), "it")
    needed = bill_of_materials(changed)
    enough = [
        (("cut", number, key), value)
        for number, cut in enumerate(changed.cut)
        if cut.part not in size.counts and cut.part not in own
        for key, value in _enough(changed, cut, needed)
    ]
    return pattern.changed(changed, *enough)


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
    where, size = ("other_size", number), sheet.other_size[number]
    for path, value in fix:
        kind, *rest = path
        if kind == "cut" and len(rest) == 2 and rest[1] in ("count", "size", "strip"):
            part, key = there.cut[rest[0]].part, "counts" if rest[1] == "count" else "sizes"
            own = next((place for place, cut in enumerate(size.cut) if cut.part == part), None)
            if own is not None:
                yield (*where, "cut", own, rest[1]), value
            elif part in getattr(size, key):
                yield (*where, key, part), value
        elif kind in ("unit", "block", "strip_set") and rest[0] in size.counts and rest[1] in ("count", "pieces"):
            yield (*where, "counts", rest[0]), value
        elif kind in ("unit", "block", "strip_set") and rest[0] in size.sizes and rest[1] in ("trim_to", "sub_cut"):
            yield (*where, "sizes", rest[0]), value
        elif kind == "strip_set" and rest[0] in size.sets and rest[1] == "sets":
            yield (*where, "sets", rest[0]), value
        elif kind == "setting" and len(rest) == 1 and rest[0] in DRAWN and getattr(size, rest[0]) is not None:
            yield (*where, *rest), value
        elif kind == "fabric" and rest[1:] in (["bought"], ["pieces"]):
            yield (*where, rest[1], rest[0]), value
        elif kind == "binding" and rest == ["count"]:
            yield (*where, "binding"), value
        elif kind in ("finished", "backing", "batting"):
            yield (*where, *path), value


def _cut_in(cut, size):
    """The keys of a line of the cutting list that are others in another size."""
    keys = {"strips": None, "per_print": None, **({"strip_width": None} if cut.shape is None else {})}
    if cut.per_print is not None:
        keys["count"] = cut.count
    if cut.part in size.counts:
        keys |= {"count": size.counts[cut.part], "triangles": None}
    if cut.part in size.sizes:
        pair = size.sizes[cut.part]
        keys |= {
            "finished": None,
            **_sized(cut, pair),
        }
    return keys


def _sized(cut, pair):
    """The key that says how large the pieces of a line are cut, so large."""
    if cut.strip is None and (cut.shape is None or cut.strip_width is None):
        return {"size": _written(pair)}
    return {"strip" if cut.strip is not None else "strip_width": inches_written(pair[1])}


def _enough(sheet, cut, needed):
    """The keys of a line that is cut in as many as its size takes."""
    yield "count", ENOUGH if cut.strip is not None else cuts_needed(sheet, cut, needed) or cut.count
    yield "triangles", None


def _bought_in(name, size):
    """How much of a fabric is bought in another size; what that does not say is not counted in it, as of scraps."""
    if name in size.bought:
        return {"bought": inches_written(size.bought[name])}
    if name in size.pieces:
        return {"pieces": size.pieces[name]}
    return {**dict.fromkeys(("bought", "pieces", "piece", "prints")), "scraps": True}


def _binding_in(binding, size):
    """The binding of another size: as many strips as that says; "enough" are enough in every size."""
    if size.binding:
        return [(("binding", "length"), None), (("binding", "count"), size.binding)]
    if binding.open or binding.part in size.counts:
        return []
    return [(("binding",), None)]


def _made_in(sheet, kind, name, size):
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
    """The backing or batting of another size, of the same cloth as the first; None where it is not given."""
    first, other = getattr(sheet, key), getattr(size, key)
    if other is None:
        return None
    cloth = (
        {}
        if first is None
        else pattern.as_data(first.model_copy(update={"size": None, "bought": None, "panels": None}), sheet.units)
    )
    return cloth | pattern.as_data(other, sheet.units)


def _written(pair):
    return " x ".join(map(inches_written, pair))
