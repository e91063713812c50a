"""What only the drawings of a page show, asked with proposals that follow from its numbers."""

from __future__ import annotations

import re
from collections.abc import Callable, Container, Iterable, Sequence
from fractions import Fraction
from itertools import chain, islice

from .at_hand import items, used_up
from .at_hand import sides as sides_of
from .bordering import borders
from .borders_of_strips import borders_of_strips
from .bought_as import bought_as
from .cut_apart import cut_in_four
from .figures import measure
from .in_passing import NOTHING, in_passing
from .model import LENGTHS, SOMETHING_ELSE, Choice, Entry, Question, Words
from .parts import roles
from .pieced_blocks import blocks
from .said_of_sewn import disagreeing
from .set_in_rows import settings
from .strips_of_sets import strip_sets
from .triangles import GIVES
from .unit_kinds import units
from .unproposed import unproposed
from .way_to_piece import FAR
from .which_fabric import which_fabric

_IN_INCHES = re.compile(r"[\"\u201c\u201d\u2033']|in\b|ins\b|inch", re.IGNORECASE)
MOST_ACROSS, MOST_SETTINGS = 60, 5
LEAST_USED = Fraction(1, 2)  # of the squares in a pack
MOST_LINES, MOST_PROPOSED = 200, 20  # of a longer list, and of more units, nobody could choose


def proposals(
    entries: list[Entry],
    page: str = "",
    settled: Container[tuple[str, Words]] = (),
    told_of: Sequence[Words] = (),
    waits: bool = False,
) -> list[Question]:
    """The questions whose answers the numbers of a draft suggest, but for those `settled`: what units are made, then of
    what blocks are pieced, then how these are set, then of the borders, for each follows from the one before it.
    `page` is the text of the page, `told_of` are its sentences of sewing. Where it `waits` for answers that single
    lines propose, what nothing can be proposed for, and of which fabric lines are that name none, is not asked yet."""
    told = in_passing(page)
    few = sum(one.table == "cut" for one in entries) <= MOST_LINES
    stages: Sequence[Callable[[list[Entry]], Iterable[Question]]] = (
        lambda entries: which_fabric(entries, page) if not waits else (),
        lambda entries: _units_made(entries, page, told),
        lambda entries: blocks(entries, told, page),
        lambda entries: cut_in_four(entries, told),
        lambda entries: settings(entries, told),
        lambda entries: chain(borders(entries), borders_of_strips(entries, told)),
        lambda entries: unproposed(entries, len(told_of)) if told_of and not waits else (),
        lambda entries: disagreeing(told_of, entries),
    )
    for stage in stages if few else (_of_lines,):
        asked = [one for one in islice(stage(entries), MOST_PROPOSED) if (one.text, one.words) not in settled]
        if asked:
            return asked
    return []


def _of_lines(entries):
    """What single lines leave open, and how a quilt on point is set, which its triangles tell."""
    return chain(_lengths(entries), _units(entries), _on_point(entries))


def _units_made(entries, page, told):
    of_units = [*units(entries, page)]
    changes = (one for asked in of_units for choice in asked.choices for one in choice.changes)
    taken = {one.data.get("fabric") for one in changes if one.table == "cut"}
    as_bought = (one for one in _as_bought(entries, told) if one.choices[0].changes[0].data["fabric"] not in taken)
    of_lines = chain(_lengths(entries), _units(entries), bought_as(entries), as_bought)
    return chain(of_lines, strip_sets(entries), of_units, _on_point(entries, told))


def _lengths(entries):
    """How long strips along the selvage are of which that is not printed: as long as the fabric that is bought."""
    for one in entries:
        if one.table != "cut" or "lengthwise" not in one.data or {"size", "length"} & {*one.data}:
            continue
        bought = next((other for other in entries if other.path == ("fabric", one.data.get("fabric", ""))), None)
        long = bought.data.get("bought") if bought else None
        choices = (Choice(f"{long}, all that is bought", (one.but(length=long),)),) if long else ()
        yield Question(one.words, "how long are these strips, along the selvage?", choices)


def _as_bought(entries, told):
    """Precut squares that nothing is cut from, where the quilt has rows of them: they are sewn as they are bought."""
    setting = next(
        (one.data for one in entries if one.table == "setting" and {"across", "down"} <= one.data.keys()), {}
    )
    cut = {one.data.get("fabric") for one in entries if one.table == "cut"}
    for one in entries:
        piece = one.data.get("piece", "") if one.table == "fabric" and one.name not in cut else ""
        if not isinstance(piece, str) or not piece.endswith(" square"):
            continue
        size = piece.removesuffix(" square").removesuffix(" in")
        for across, down in [(setting["across"], setting["down"])] if setting else told.rows:
            if not LEAST_USED * one.data.get("pieces", 0) <= across * down <= one.data.get("pieces", 0):
                continue
            squares = Entry("cut", {"fabric": one.name, "size": size, "count": across * down}, one.words, "square")
            rows = () if setting else (Entry("setting", {"across": across, "down": down}, one.words),)
            asks = f"are {across * down} of the {piece}s sewn in as they are bought, {across} across and {down} down?"
            yield Question(
                one.words, asks, (Choice(f"{across * down} squares {size}", (squares, *rows)), SOMETHING_ELSE)
            )


def _units(entries):
    """Whether figures without a unit are centimetres, on a page that has some: they are taken for inches."""
    if not any(text.endswith("cm") for one in entries for text in _tell_the_unit(one)):
        return
    changed = [other for one in entries if (other := in_centimetres(one)) is not one]
    if changed:
        metric = Choice("centimetres", tuple(changed))
        yield Question(changed[0].words, "are these centimetres, or inches?", (metric, Choice("inches")))


def in_centimetres(entry: Entry) -> Entry:
    """The entry, its figures that have no unit in centimetres."""
    bare = {key for key in LENGTHS & {*entry.data} if all(text[-1].isdigit() for text in _flat(entry.data[key]))}
    if not bare or _IN_INCHES.search(entry.words.text):
        return entry
    return entry.but(**{key: _with_unit(entry.data[key]) for key in bare})


def _tell_the_unit(entry):
    """The lengths that a page has in the unit it is cut in: those of its pieces, its seam, its finished sizes."""
    keys = ("size", "strip", "seam", "finished") if entry.table == "cut" else ("seam", "finished")
    return [text for key in keys for text in _flat(entry.data.get(key, "0"))]


def _flat(size):
    return size if isinstance(size, list) else [size]


def _with_unit(size):
    return [f"{text} cm" for text in size] if isinstance(size, list) else f"{size} cm"


def _triangles(lines):
    """How many triangles these lines give; None where that is not known."""
    counts = [
        one.data.get("triangles") or one.data.get("count", 0) * GIVES.get(one.data.get("cut", ""), 0) for one in lines
    ]
    return sum(counts) if lines and all(counts) else None


def _on_point(entries, told=NOTHING):
    """A setting on point, as many across and down as the side triangles and the squares between the blocks need."""
    sides, corners = roles(entries, "side triangle"), roles(entries, "corner triangle")
    if sides and not corners:  # "for the four corners"
        corners = [one for one in _unnamed(entries, "once") if _triangles([one]) == 4]
    if told.on_point and not sides and not corners:
        sides, corners = (
            _unnamed(entries, "twice"),
            [one for one in _unnamed(entries, "once") if _triangles([one]) == 4],
        )
        cut = sorted((one for how in GIVES for one in _unnamed(entries, how)), key=_side_of, reverse=True)
        if not (sides and corners) and len(cut) == 2 and _side_of(cut[0]) > _side_of(cut[1]):  # cut the wrong way
            sides, corners = cut[:1], cut[1:]
    if not sides or not corners or any("sides" in one.data for one in entries if one.table == "setting"):
        return
    between, blocks = roles(entries, "setting square"), [one for one in entries if one.table == "block"]
    number = _triangles(sides)
    if number is None or _triangles(corners) != 4:
        return
    squares = sum(one.data.get("count", 0) for one in between) or None
    made = blocks[0].data.get("count") if len(blocks) == 1 else None
    known = next((one for one in entries if one.table == "setting"), None)
    with_triangles = [
        (across, down)
        for across in range(1, MOST_ACROSS)
        for down in range(1, MOST_ACROSS)
        if 0 <= number - _sides_of((across, down)) < GIVES["twice"]  # left over of the last square
        and (known is None or (known.data["across"], known.data["down"]) == (across, down))
    ]
    fits = [
        (across, down)
        for across, down in with_triangles
        if (squares is None or squares == (across - 1) * (down - 1))
        and (made is None or squares is not None or made - across * down in (0, (across - 1) * (down - 1)))
    ]
    if not fits:  # the number of the squares may be misprinted
        fits = [fit for fit in with_triangles if squares and fit[0] * fit[1] == made]
    if not fits:  # or that of the triangles, in rows that the page tells of
        rows = told.rows if known is None else [(known.data["across"], known.data["down"])]
        fits = [fit for fit in rows if 0 <= _sides_of(fit) - number <= number * FAR and made in (None, fit[0] * fit[1])]
        fits = [fit for fit in fits if squares in (None, (fit[0] - 1) * (fit[1] - 1))]
    if squares is not None:  # with as many blocks as are made, where some setting has them
        fits = [fit for fit in fits if fit[0] * fit[1] == made] or fits
    plain = {one.left for one in items(entries) if one.square}
    if not {*told.rows} & {*fits}:  # rows that the page tells of, for which there are too few triangles
        fits = [*_short_of_triangles(told.rows, number, {*plain, squares}), *fits]
    fits.sort(
        key=lambda fit: (
            fit not in told.rows,
            (fit[0] - 1) * (fit[1] - 1) not in plain,
            abs(fit[0] / fit[1] - _proportion(entries)),
        )
    )
    words = corners[-1].words
    said = f"{f'{squares} setting squares, ' if squares else ''}{number} side and 4 corner triangles"
    if squares is None and made is None and known is None:  # the triangles alone: those that leave none over
        fits = [fit for fit in fits if _sides_of(fit) == number or fit in told.rows]
    if not fits:
        setting = _setting(1, 1, between, blocks, sides, corners, words)
        yield Question(words, f"{said}: on point? How many blocks stand across and down?", draws=setting)
        return
    choices = tuple(
        Choice(
            f"on point, {across} across and {down} down",
            (_setting(across, down, between, blocks, sides, corners, words),),
        )
        for across, down in fits[:MOST_SETTINGS]
    )
    yield Question(words, f"{said}: {' or '.join(choice.label for choice in choices[:2])}?", (*choices, SOMETHING_ELSE))


def _short_of_triangles(rows, number, between):
    """The rows of a setting on point for which these side triangles are a few too few, where the squares between the
    blocks are as many as they take."""
    return [
        fit for fit in rows if 0 < _sides_of(fit) - number <= number * FAR and (fit[0] - 1) * (fit[1] - 1) in between
    ]


def _sides_of(fit):
    """How many side triangles a setting on point of so many across and down takes."""
    return 2 * (sum(fit) - 2)


def _unnamed(entries, cut):
    """Squares cut once or twice that no line says the place of, and no unit takes."""
    used = used_up(entries)
    return [one for one in roles(entries, "") if one.data.get("cut") == cut and not used[one.name]]


def _side_of(entry):
    """The side of a square that is cut, in inches."""
    size = sides_of(entry.data.get("size"))
    return size[0] if size else Fraction(0)


def _proportion(entries):
    """The width of the finished quilt to its height, as it is printed; that of a square where it is not."""
    size = next((one.data["finished"] for one in entries if one.table == "sheet" and "finished" in one.data), "1")
    sides = [read.sides[0].inches for text in size if (read := measure(text, 0))] if isinstance(size, list) else []
    return float(sides[0] / sides[1]) if len(sides) == 2 else 1.0


def _setting(across, down, between, blocks, sides, corners, words):
    data = {"style": "on point", "across": across, "down": down}
    if len(blocks) == 1:
        data["block"] = blocks[0].name
    if len(between) == 1:
        data["alternate"] = between[0].name
    for key, lines in (("sides", sides), ("corners", corners)):
        if len(lines) == 1:
            data[key] = {"how": "plain", "part": lines[0].name}
    return Entry("setting", data, words)
