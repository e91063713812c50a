"""What each name of a sheet is made from: names that nothing makes, and things made from themselves, are found here."""
from collections import Counter
from difflib import get_close_matches

SETTING, SIDE, CORNER = "setting", "side triangle", "corner triangle"
MADE_BY_SETTING = (SETTING, SIDE, CORNER)


def ingredients(sheet, name):
    """The names a panel of this name is made from, each as often as it is needed; empty for a part cut from cloth."""
    if name in sheet.block:
        return Counter(item.name for row in sheet.block[name].rows for item in row)
    step = step_giving(sheet, name)
    if step is not None:
        return Counter(step.uses)
    if name == SETTING:
        return _of_setting(sheet.setting)
    if name in (SIDE, CORNER):
        piece = sheet.setting.sides if name == SIDE else sheet.setting.corners
        return _of_edge_piece(piece, sheet.setting)
    return Counter()


def _of_setting(setting):
    main, other = block_counts(setting)
    wanted = Counter({setting.block: main})
    if other:
        wanted[setting.alternate or setting.block] += other
    if setting.style == "on point":
        wanted[SIDE] = 2 * (setting.across + setting.down - 2)
        wanted[CORNER] = 4
    return +wanted


def block_counts(setting):
    """How many places of a setting the main block takes, and how many the alternate block (or the main one again)."""
    across, down = setting.across, setting.down
    if setting.style == "on point":
        return across * down, (across - 1) * (down - 1)
    return (across * down + 1) // 2, across * down // 2


def _of_edge_piece(piece, setting):
    if piece.how == "plain":
        return Counter([piece.part])
    if piece.how == "built":
        return Counter(item.name for row in piece.rows for item in row)
    return Counter([piece.block or setting.block])


def step_giving(sheet, name):
    """The explicit step that gives a panel of this name, or None."""
    return next((step for step in sheet.step if name in step.gives), None)


def final(sheet):
    """The name of the panel that is the quilt top: what the last step gives, or else the setting."""
    return sheet.step[-1].gives[-1] if sheet.step else SETTING


def first_trouble(sheet):
    """The first name that nothing makes, or thing made from itself, as (path in the sheet, message); else None."""
    known = {cut.part for cut in sheet.cut} | set(sheet.block) | {n for step in sheet.step for n in step.gives}
    for clash in MADE_BY_SETTING:
        if clash in known:
            return [], f"{clash!r} is what the setting itself makes: give the part, block or step another name"
    known |= set(MADE_BY_SETTING if sheet.setting.style == "on point" else [SETTING])
    for path, name in _mentions(sheet):
        if name not in known:
            near = get_close_matches(name, known, 1)
            hint = f"; did you mean {near[0]!r}?" if near else ""
            return path, (f"{name!r} is never cut or made{hint} (add a [[cut]] line, a [block] or a step that gives it)")
    loop = _loop(sheet, [cut.part for cut in sheet.cut])
    if loop:
        return ["step"] if sheet.step else ["block"], (
            f"{loop[0]!r} would be made from itself ({' from '.join(map(repr, loop))}): start it from parts that are cut")
    return None


def _mentions(sheet):
    """Every use of a name, as (path, name)."""
    for name, block in sheet.block.items():
        yield from ((["block", name, "rows"], item.name) for row in block.rows for item in row)
    setting = sheet.setting
    yield ["setting", "block"], setting.block
    if setting.alternate:
        yield ["setting", "alternate"], setting.alternate
    for key in ("sides", "corners"):
        piece = getattr(setting, key)
        if piece is not None:
            for name in _of_edge_piece(piece, setting):
                yield ["setting", key], name
    for number, step in enumerate(sheet.step):
        yield from ((["step", number], name) for name in step.uses)


def _loop(sheet, parts):
    """A chain of names in which the last is made from the first, or None."""
    finished = set(parts)
    for start in [*sheet.block, *(name for step in sheet.step for name in step.gives)]:
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
                return [*trail[trail.index(following):], following]
            elif following not in finished:
                stack.append((following, iter(ingredients(sheet, following))))
                trail.append(following)
                on_trail.add(following)
    return None


def pieces_needed(sheet):
    """How many pieces of each part the whole quilt takes, as a Counter of part names."""
    wanted = Counter({final(sheet): 1})
    for names in _from_the_top(sheet):
        times = -(-max(wanted[name] for name in names) // _pieces_from_one(sheet, names[0]))
        for ingredient, each in ingredients(sheet, names[0]).items():
            wanted[ingredient] += times * each
    return Counter({cut.part: wanted[cut.part] for cut in sheet.cut})


def _pieces_from_one(sheet, name):
    """How many edge triangles one whole block gives when blocks are cut for the edge."""
    piece = {SIDE: sheet.setting.sides, CORNER: sheet.setting.corners}.get(name)
    if piece is None or piece.how != "cut blocks":
        return 1
    return (2 if name == SIDE else 4) if piece.past == 0 else 1


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
