"""What a setting, its sashing and the borders round it must agree in."""

from __future__ import annotations

from ...making.measures import is_long_strip
from ...pattern.fields import Item
from ...pattern.names import DRAWN
from ...usual import PRINTED_ROUND
from ..finding import ByNotebook
from .agreed import Agreement, line_of, paths
from .figures import total
from .of_blocks import unlevel

SASHING = ByNotebook("07-sashing-frames-borders")
NEARLY_SQUARE = 7 / 8  # of its longer side: a block that is shorter is meant to be no square


def set_blocks(measures, of):
    """The blocks of a setting against the main one, each that differs from it once; or row by row."""
    setting, main = measures.sheet.setting, measures.finished(measures.made.block)
    if setting.loose:
        yield from _rows_of_their_own(measures)
        return
    if main is None:
        return
    raw = of.sizes([side.value + 2 * measures.seam for side in main[:2]])
    for path, item in _other_blocks(measures):
        other, plain = measures.lying(item), measures.sheet.part(item.name) is not None
        where = f" in {_row_in_words(path)}" if setting.drawn else ""
        for side in (0, 1) if other is not None else ():
            yield Agreement(
                other.side(side).minus(main.side(side)),
                path,
                f"to fit{where} beside blocks of {raw}, as they are before they are joined",
                subject=(*measures.line(item.name), "size") if plain else (),
                printed=plain,
                aims=dict.fromkeys(paths(main.side(side)), f"to fit{where} beside {item.name!r}"),
            )


def _row_in_words(path):
    """A row of a setting, by its path: "row 2", "column 2", "row 2 of those between"."""
    _, key, number = path
    return f"{'column' if key == 'columns' else 'row'} {number + 1}{' of those between' * (key == 'between')}"


def _other_blocks(measures):
    """(path of its first place, item) of each block of a setting that is not the main one."""
    setting = measures.sheet.setting
    if setting.alternate is not None:
        yield ("setting", "alternate"), Item(name=setting.alternate)
    seen = {measures.made.block}
    for key in DRAWN:
        for number, row in enumerate(getattr(setting, key) or ()):
            for item in row:
                if item.name not in seen:
                    seen.add(item.name)
                    yield ("setting", key, number), item


def _rows_of_their_own(measures):
    """Rows (or columns) of a setting: each equally thick in itself, and as long as the first is."""
    setting = measures.sheet.setting
    key = "rows" if setting.columns is None else "columns"
    if measures.lines is None:
        return
    told = [number for number, row in enumerate(setting.lines) if not is_long_strip(measures.sheet, row)]
    first = total(part.width for part in measures.lines[0])
    for number, row in zip(told, measures.lines):
        path, items = ("setting", key, number), setting.lines[number]
        for item, off in zip(_different(items), unlevel([items], [row])):
            yield Agreement(
                off,
                path,
                f"to stand in {_row_in_words(path)} beside {items[0].name!r}",
                aims=dict.fromkeys(paths(row[0].height), f"to stand in {_row_in_words(path)} beside {item.name!r}"),
                printed=False,
            )
        if number != told[0]:
            aim = f"so that {_row_in_words(path)} is as long as {key[:-1]} {told[0] + 1}"
            off = total(part.width for part in row).minus(first)
            yield Agreement(off, ("setting", key), aim, printed=False)


def _different(items):
    """The places of a row that differ from its first, each kind once."""
    return list({(item.name, item.turn): item for item in items}.values())[1:]


def _strip(measures, name):
    """The finished width and length of a sash, whole or pieced, or the two sides of a cornerstone; None where printed
    numbers do not tell."""
    cut, raw = measures.sheet.part(name), measures.raw(name)
    if cut is None:
        found = measures.finished(name)
        sides = () if found is None else found[:2]
    else:
        sides = tuple(side.minus(2 * measures.seam) for side in raw) if cut.cut == "whole" and raw[0].shares else ()
    return sorted(sides, key=lambda side: side.value) or None


def _subject(side):
    """The path of the number that a side follows from, where it is one."""
    return line_of(side) if len(side.shares) == 1 else ()


def sashes(measures, of):
    """Sashes against the side of the block they lie along, cornerstones against the width of the sashes."""
    sashing, cell = measures.sheet.setting.sashing, measures.cell
    sash = _strip(measures, sashing.part) if sashing is not None else None
    if sash is None:
        return
    wide, long = sash
    if cell is not None:
        aim = f"to fit beside blocks that finish {of.said(cell.value)}"
        aims = dict.fromkeys(paths(cell), f"to fit sashes {of.said(long.value + 2 * measures.seam)} long")
        yield Agreement(long.minus(cell), ("setting", "sashing"), aim, SASHING, subject=_subject(long), aims=aims)
    stone = _strip(measures, sashing.cornerstone) if sashing.cornerstone else None
    if stone is not None:
        sizes = of.sizes([one.value + 2 * measures.seam for one in stone])
        aims = dict.fromkeys(paths(wide), f"to fit between cornerstones of {sizes}")
        aim = f"to fit where sashes {of.said(wide.value + 2 * measures.seam)} wide cross"
        for side in stone:
            off = side.minus(wide)
            yield Agreement(off, ("setting", "sashing"), aim, SASHING, aims=aims, subject=_subject(side))
    wide = wide.plus(2 * measures.seam)
    for name in sashing.strip or ():
        strip = measures.raw(name)
        if strip is not None:
            across = min((side for side in strip if side.shares), key=lambda side: side.value)
            yield Agreement(across.minus(wide), ("setting", "sashing"), "beside the long strips", evidence=True)
    if sashing.strip and len(sashing.strip) == 1 and measures.sheet.setting.style == "straight" and measures.inside:
        strip = measures.raw(sashing.strip[0])
        if strip is not None and strip[0].shares:
            long = max(strip, key=lambda side: side.value)
            off = long.minus(measures.inside[0].width).minus(2 * measures.seam)
            yield Agreement(off, ("setting", "sashing"), evidence=True)


def quilt_size(measures, of):
    """The printed size of the quilt against its blocks, sashing and borders, and its blocks as squares: evidence of
    which of those is wrong."""
    block = measures.finished(measures.made.block)
    if block is not None and not measures.sheet.setting.loose and not _oblong(measures, block):
        yield Agreement(block.width.minus(block.height), ("setting", "block"), evidence=True)
    printed, quilt = measures.sheet.finished, measures.quilt
    if printed is None or quilt is None:
        return
    if _apart(printed[::-1], quilt) < _apart(printed, quilt):
        printed = printed[::-1]
    for meant, side in zip(measures.figures(("finished",), printed), quilt[:2]):
        yield Agreement(
            side.minus(meant),
            ("finished",),
            f"to give a quilt of {of.sizes(measures.sheet.finished)}",
            less=PRINTED_ROUND,
            more=PRINTED_ROUND,
            evidence=True,
        )


def _oblong(measures, finished):
    """Whether the main block is printed as no square, or is so far from one that no error of a piece tells it."""
    block = measures.sheet.block.get(measures.made.block)
    if block is not None and block.finished is not None:
        return block.finished[0] != block.finished[1]
    short, long = sorted(side.value for side in finished[:2])
    return short < NEARLY_SQUARE * long


def _apart(pair, quilt):
    return max(abs(float(side) - other.value) for side, other in zip(pair, quilt))
