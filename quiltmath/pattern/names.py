"""What each name of a sheet is made from: names that nothing makes, and things made from themselves, are found here."""

from collections import Counter
from difflib import get_close_matches

OF_THE_SETTING = " of the setting"  # keeps the plain words free: patterns call their parts "side triangle"
SETTING, QUILT = "setting", "quilt"
SIDE, CORNER = (f"{kind} triangle{OF_THE_SETTING}" for kind in ("side", "corner"))
EDGES = ("top", "left", "bottom", "right")
MADE_BY_SETTING = (SETTING, QUILT, SIDE, CORNER, *(f"{where} {kind}" for kind in (SIDE, CORNER) for where in EDGES[1:]))


def ingredients(sheet, name):
    """The names one going of this panel is made from, each as often as it is needed; empty for a part cut from cloth.

    One going gives `batch` panels: two half-square units from a pair of squares, say, or many pieces from one strip set.
    """
    if name in sheet.block:
        return Counter(item.name for row in sheet.block[name].rows for item in row)
    if name in sheet.unit:
        return _of_unit(sheet, sheet.unit[name])
    if name in sheet.strip_set:
        return Counter(sheet.strip_set[name].strips)
    step = step_giving(sheet, name)
    if step is not None:
        return Counter(step.uses)
    if name == SETTING:
        return _of_setting(sheet)
    if name == QUILT:
        return Counter([centre(sheet)]) + _of_borders(sheet)
    piece = edge_piece(sheet, name)
    return Counter() if piece is None else _of_edge_piece(piece, sheet.setting, where_of(name))


def batch(sheet, name):
    """How many panels of this name one going of its `ingredients` gives."""
    if name in sheet.unit:
        unit = sheet.unit[name]
        return at_a_time(sheet, unit) if _sewn_first(sheet, unit) else 1
    if name in sheet.strip_set:
        strip_set = sheet.strip_set[name]
        width = min(sheet.usable_width(sheet.part(strip).fabric) for strip in strip_set.strips if sheet.part(strip))
        return max(1, int(width // strip_set.sub_cut))
    piece = edge_piece(sheet, name)
    if piece is not None and piece.how == "cut blocks" and piece.past == 0:
        return 2 if name.endswith(SIDE) else 4
    return 1


def edge_piece(sheet, name):
    """What the sheet says of a side or a corner triangle; None for other names and in straight settings."""
    if name not in MADE_BY_SETTING:
        return None
    return sheet.setting.sides if name.endswith(SIDE) else sheet.setting.corners if name.endswith(CORNER) else None


def called(name):
    """What a name is called in a sentence.

    >>> called(SIDE), called("side")
    ('side triangle', 'side')
    """
    return name.removesuffix(OF_THE_SETTING)


def where_of(name):
    """The edge an edge triangle's name speaks of; "top" where it names none."""
    return next((where for where in EDGES if name.startswith(where + " ")), "top")


def edge_name(sheet, kind, where):
    """The name of the side or corner triangle at one edge: its own where it is built otherwise than the one at the top."""
    piece = edge_piece(sheet, kind)
    return f"{where} {kind}" if where != "top" and piece is not None and getattr(piece, where) else kind


def edge_names(sheet, kind):
    """The names of all the different side or corner triangles of a sheet."""
    return list(dict.fromkeys(edge_name(sheet, kind, where) for where in EDGES)) if edge_piece(sheet, kind) else []


def at_a_time(sheet, unit):
    """How many units come from one going where whole squares are sewn first and cut then."""
    if unit.at_a_time is not None:
        return unit.at_a_time
    if unit.kind == "flying geese":
        goose = sheet.part(unit.parts[0])
        return 4 if goose is not None and sheet.cut_size(goose)[0] == sheet.cut_size(goose)[1] else 1
    return 2


def _sewn_first(sheet, unit):
    """Whether the unit starts from whole squares rather than from triangles."""
    first = sheet.part(unit.parts[0])
    return unit.kind in ("half-square", "quarter-square", "flying geese") and first is not None and first.cut == "whole"


def _of_unit(sheet, unit):
    one, other = unit.parts
    if unit.kind == "half-square" or (unit.kind == "quarter-square" and _sewn_first(sheet, unit)):
        return Counter([one, other])
    if unit.kind == "quarter-square":
        return Counter([one, one, other, other])
    if unit.kind == "flying geese":
        return Counter([one] + [other] * (4 if batch_of_geese(sheet, unit) == 4 else 2))
    return Counter([one] + [other] * 4)


def batch_of_geese(sheet, unit):
    """1, or 4 where flying geese are made four at a time from one large and four small squares."""
    return at_a_time(sheet, unit) if _sewn_first(sheet, unit) else 1


def _of_setting(sheet):
    setting = sheet.setting
    main, other = block_counts(setting)
    wanted = Counter({setting.block: main})
    if other:
        wanted[setting.alternate or setting.block] += other
    if setting.style == "on point":
        for where in EDGES:
            wanted[edge_name(sheet, SIDE, where)] += (
                setting.across if where in ("top", "bottom") else setting.down
            ) - 1
            wanted[edge_name(sheet, CORNER, where)] += 1
    if setting.sashing is not None:
        wanted += _of_sashing(setting)
    return _cut_to_length(sheet, wanted)


def _of_sashing(setting):
    """Sashes, cornerstones and long strips of a setting."""
    across, down, sashing = setting.across, setting.down, setting.sashing
    if setting.style == "on point":
        if sashing.cornerstone:
            return Counter({sashing.part: 4 * across * down, sashing.cornerstone: 2 * across * down + across + down})
        return Counter(
            {sashing.part: 2 * across * down, sashing.strip: across + down}
        )  # half of them lie in the strips
    out = 1 if sashing.around else -1
    wanted = Counter({sashing.part: down * (across + out)})
    if sashing.cornerstone:
        wanted[sashing.part] += across * (down + out)
        wanted[sashing.cornerstone] += (across + out) * (down + out)
    else:
        wanted[sashing.strip] += down + out
    return wanted


def _of_borders(sheet):
    wanted = Counter()
    for border in sheet.border:
        wanted.update(
            [border.sides, border.sides, border.top, border.top] + [border.corner] * (4 if border.corner else 0)
        )
    return _cut_to_length(sheet, wanted)


def _cut_to_length(sheet, wanted):
    """Without strips across the width: borders and sashing are joined from those, as long as the top measures."""
    return Counter(
        {
            name: count
            for name, count in wanted.items()
            if count and (sheet.part(name) is None or sheet.part(name).strip is None)
        }
    )


def block_counts(setting):
    """How many places of a setting the main block takes, and how many the alternate block (or the main one again)."""
    across, down = setting.across, setting.down
    if setting.style == "on point":
        return across * down, (across - 1) * (down - 1)
    return (across * down + 1) // 2, across * down // 2


def _of_edge_piece(piece, setting, where="top"):
    frame = Counter(piece.frame or ())
    if piece.how == "plain":
        return Counter([piece.part]) + frame
    if piece.how == "built":
        return Counter(item.name for row in piece.rows_at(where) for item in row) + frame
    return Counter([piece.block or setting.block]) + frame


def step_giving(sheet, name):
    """The explicit step that gives a panel of this name, or None."""
    return next((step for step in sheet.step if name in step.gives), None)


def centre(sheet):
    """The name of the panel inside the borders: what the last step gives that is not sewn into the setting, or else the setting."""
    inside = all_in(sheet, SETTING) if sheet.step else ()
    return next((step.gives[-1] for step in reversed(sheet.step) if not inside & set(step.gives)), SETTING)


def all_in(sheet, name):
    """All names that go into a panel, itself included."""
    seen, waiting = set(), [name]
    while waiting:
        name = waiting.pop()
        if name not in seen:
            seen.add(name)
            waiting += ingredients(sheet, name)
    return seen


def final(sheet):
    """The name of the panel that is the whole quilt top."""
    return QUILT if sheet.border else centre(sheet)


def is_binding(sheet, cut):
    """Whether a line of the cutting list cuts the binding strips, and nothing else is made of them."""
    binding = sheet.binding
    return (
        binding is not None
        and (binding.fabric, binding.strip) == (cut.fabric, cut.strip)
        and all(name != cut.part for path, name in _mentions(sheet) if path[0] != "other_size")
    )


def first_trouble(sheet):
    """The first name that nothing makes or two things have, or thing made from itself, as (path in the sheet, message); else None."""
    trouble = _given_twice(sheet) or _unlisted_cloth(sheet)
    if trouble:
        return trouble
    known = {name for _, name in _given(sheet)}
    known |= set(MADE_BY_SETTING) - {QUILT} if sheet.setting.style == "on point" else {SETTING}
    for path, name in _mentions(sheet):
        if name not in known:
            near = _nearest(name, known)
            hint = f"; did you mean {near!r}?" if near else ""
            if name.rstrip(",;") in known:
                hint = "; the names of a row are parted by blanks alone"
            if name.partition(":")[0] in known:
                return path, (
                    f"{name!r} is turned here, but only what stands in a row can be: make a [block] of it, with "
                    f'rows = [["{name}"]], and write its name here'
                )
            return path, (
                f"{name!r} is never cut or made{hint} (add a [[cut]] line, a [block] or a step that gives it)"
            )
    loop = _loop(sheet, [cut.part for cut in sheet.cut])
    if loop:
        return ["step"] if loop[0] not in sheet.block and loop[0] not in sheet.unit else ["block", loop[0], "rows"], (
            f"{loop[0]!r} would be made from itself ({' from '.join(map(repr, loop))}): start it from parts that are cut"
        )
    return None


def _nearest(name, known, like=0.6):
    """The known name that this one may be a slip of: one that differs in its capitals alone, or is spelt almost like it."""
    same = sorted(one for one in known if one.casefold() == name.casefold())
    return next(iter(same or get_close_matches(name, known, 1, like)), None)


def _given(sheet):
    """Every name that something is given, as (path, name)."""
    yield from ((["cut", number, "part"], cut.part) for number, cut in enumerate(sheet.cut))
    for kind in ("strip_set", "unit", "block"):
        yield from (([kind, name], name) for name in getattr(sheet, kind))
    yield from ((["step", number, "gives"], name) for number, step in enumerate(sheet.step) for name in step.gives)


def _given_twice(sheet):
    """A name that two things have, or that belongs to the setting, as (path, message); else None."""
    given = set()
    for path, name in _given(sheet):
        if name in MADE_BY_SETTING:
            return path, f"{name!r} is what the setting itself makes: give your part, block or step another name"
        if name in given:
            return path, f"two parts, units, blocks or steps are called {name!r}: give each a name of its own"
        given.add(name)
    return None


def _unlisted_cloth(sheet):
    """A cloth that is cut but stands in no [fabric], as (path, message); else None.

    Binding and backing may be of a cloth the pattern does not list, but not of one that is spelt almost like it.
    """
    if not sheet.fabric:
        return None
    listed = ", ".join(sheet.fabric)
    for number, cut in enumerate(sheet.cut):
        if cut.fabric not in sheet.fabric:
            return ["cut", number, "fabric"], (
                f"part {cut.part!r} is cut from {cut.fabric!r}, which is no [fabric]; the sheet has {listed}"
            )
    for number, size in enumerate(sheet.other_size):
        for name in size.bought.keys() - sheet.fabric.keys():
            return ["other_size", number, "bought"], (
                f"size {size.name!r} buys {name!r}, which is no [fabric]; the sheet has {listed}"
            )
    for key in ("binding", "backing"):
        fabric = getattr(getattr(sheet, key), "fabric", None)
        near = _nearest(fabric, sheet.fabric, 0.75) if fabric and fabric not in sheet.fabric else None
        if near:
            return [key, "fabric"], f"the {key} is cut from {fabric!r}, which is no [fabric]; did you mean {near!r}?"
    return None


def _mentions(sheet):
    """Every use of a name, as (path, name)."""
    for name, block in sheet.block.items():
        yield from ((["block", name, "rows"], item.name) for row in block.rows for item in row)
    for name, unit in sheet.unit.items():
        yield from ((["unit", name, "parts"], part) for part in unit.parts)
    for name, strip_set in sheet.strip_set.items():
        yield from ((["strip_set", name, "strips"], part) for part in strip_set.strips)
    for number, border in enumerate(sheet.border):
        yield from ((["border", number], name) for name in (border.sides, border.top, border.corner) if name)
    setting = sheet.setting
    if setting.sashing is not None:
        yield from (
            (["setting", "sashing"], name)
            for name in (setting.sashing.part, setting.sashing.cornerstone, setting.sashing.strip)
            if name
        )
    yield ["setting", "block"], setting.block
    if setting.alternate:
        yield ["setting", "alternate"], setting.alternate
    for key in ("sides", "corners"):
        piece = getattr(setting, key)
        if piece is not None:
            for where in EDGES:
                yield from ((["setting", key], name) for name in _of_edge_piece(piece, setting, where))
    for number, step in enumerate(sheet.step):
        yield from ((["step", number], name) for name in step.uses)
    for number, size in enumerate(sheet.other_size):
        yield from ((["other_size", number, key], name) for key in ("counts", "sizes") for name in getattr(size, key))


def _loop(sheet, parts):
    """A chain of names in which the last is made from the first, or None."""
    finished = set(parts)
    steps = (name for step in sheet.step for name in step.gives)
    for start in [*sheet.block, *sheet.unit, *sheet.strip_set, *steps, SETTING, QUILT]:
        trail, stack = [], [(start, iter(ingredients(sheet, start)))]
        on_trail = {start}
        trail.append(start)
        while stack:
            name, rest = stack[-1]
            following = next(rest, None)
            if following is None:
                stack.pop()
                trail.pop()
                on_trail.discard(name)
                finished.add(name)
            elif following in on_trail:
                return [*trail[trail.index(following) :], following]
            elif following not in finished:
                stack.append((following, iter(ingredients(sheet, following))))
                trail.append(following)
                on_trail.add(following)
    return None


def pieces_needed(sheet):
    """How many pieces of each part the whole quilt takes, as a Counter of part names."""
    wanted = bill_of_materials(sheet)
    return Counter({cut.part: wanted[cut.part] for cut in sheet.cut})


def bill_of_materials(sheet):
    """How many of each named thing the whole quilt takes: parts, units, blocks, edge triangles."""
    wanted = Counter({final(sheet): 1})
    for names in _from_the_top(sheet):
        times = -(-max(wanted[name] for name in names) // batch(sheet, names[0]))
        for ingredient, each in ingredients(sheet, names[0]).items():
            wanted[ingredient] += times * each
    return wanted


SHOWN_IN = {"half-square": 2, "quarter-square": 4, "flying geese": 3, "square in a square": 5, "snowball": 5}


def patches(sheet):
    """How many patches the quilt shows, counted as if none were trimmed away."""
    shown = Counter()
    for names in reversed(_from_the_top(sheet)):
        parts = sum((shown[name] or 1) * count for name, count in ingredients(sheet, names[0]).items())
        for name in names:
            shown[name] = SHOWN_IN[sheet.unit[name].kind] if name in sheet.unit else parts
    return shown[final(sheet)]


def _from_the_top(sheet):
    """What is made, each thing before its ingredients, as tuples of names: the pieces of one cut come together."""
    done, seen = [], set()

    def together(name):
        step = step_giving(sheet, name)
        return tuple(step.gives) if step is not None else (name,)

    stack = [(together(final(sheet)), iter(ingredients(sheet, final(sheet))))]
    while stack:
        names, rest = stack[-1]
        following = next(rest, None)
        if following is None:
            done.append(names)
            stack.pop()
        elif together(following) not in seen:
            seen.add(together(following))
            stack.append((together(following), iter(ingredients(sheet, following))))
    return done[::-1]
