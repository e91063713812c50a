"""Another plan where the order of work is the fault: edges built, tops set on point from the start, points left on."""

from __future__ import annotations

from math import sqrt

from .. import lengths, pattern, proofs
from ..pattern.names import CORNER, EDGES, SIDE, called
from ..pattern.sheet import Sheet
from .finding import Change
from .ruler import said


def planned_anew(sheet: Sheet, checks: set[str]) -> tuple[tuple, list[Change]] | None:
    """The changes to a sheet, (path, value) each, that plan it anew where these checks say that its order of work is the
    fault, and the `Change`s in words; None where they do not say so or no plan is known."""
    if checks & {"no-allowance", "bias-outside"} and any(step.cut for step in sheet.step):
        return _on_point_from_the_start(sheet)
    if checks & {"no-allowance", "bias-outside"}:
        return _built_edges(sheet)
    if "lost-points" in checks:
        return _without_trimming(sheet)
    return None


def _without_trimming(sheet):
    """The sheet without explicit trimming that cuts off the points."""
    steps = [number for number, step in enumerate(sheet.step) if step.trim is not None]
    if not steps or steps[-1] != len(sheet.step) - 1:
        return None
    last = sheet.step[-1]
    kept = pattern.as_data(sheet)["step"][:-1]
    change = Change(
        ("lost-points",),
        f"{last.trim!r} is",
        "trimmed to its points",
        "squared up, which leaves a seam beyond them",
        "planned",
    )
    return ((("step",), kept or None),), [change]


def squares(sheet, name):
    """The names of the parts of a block made of n x n equal whole squares, row by row, or None for any other block."""
    block = sheet.block.get(name)
    if block is None or any(len(row) != len(block.rows) or any(item.turn for item in row) for row in block.rows):
        return None
    names = [[item.name for item in row] for row in block.rows]
    cuts = [sheet.part(part) for row in names for part in row]
    if any(cut is None or cut.cut != "whole" or cut.size is None for cut in cuts):
        return None
    sizes = {cut.size for cut in cuts}
    return names if len(sizes) == 1 and len(set(next(iter(sizes)))) == 1 else None


def _on_point_from_the_start(sheet):
    """A straight top, twice as long as wide, that was sliced and turned: the same picture set on point from the start.

    The square on point has its corners where blocks of the straight top meet, so the block to set is the one found half a
    block along and half a block up.
    """
    setting, names = sheet.setting, squares(sheet, sheet.setting.block)
    short, long = sorted((setting.across, setting.down))
    if (
        setting.style != "straight"
        or setting.sashing
        or setting.alternate
        or names is None
        or len(names) % 2
        or long != 2 * short
    ):
        return None
    half = len(names) // 2
    rolled = [row[half:] + row[:half] for row in names[half:] + names[:half]]
    unit = float(sheet.part(names[0][0]).size[0]) - 2 * float(sheet.sewing_seam)
    side = said(short * unit * len(names) * sqrt(2), "1/8")
    edits = (
        (("step",), None),
        (("block", setting.block, "rows"), rolled),
        (("block", setting.block, "count"), None),
        (("finished",), side),
        (
            ("setting",),
            {
                "style": "on point",
                "across": short,
                "down": short,
                "block": setting.block,
                "sides": {"how": "cut blocks"},
                "corners": {"how": "cut blocks"},
            },
        ),
    )
    change = Change(
        ("no-allowance", "bias-outside"),
        f"the {long} x {short} top is",
        "sliced and turned",
        f"set on point from the start, {short} x {short} blocks with side and corner triangles; it finishes {side} in",
        "planned",
    )
    return edits, [change]


def _built_edges(sheet):
    """Edge triangles cut from whole blocks: the same picture, built from squares and edge triangles."""
    data, told = pattern.as_data(sheet), []
    for name, key in ((SIDE, "sides"), (CORNER, "corners")):
        piece = getattr(sheet.setting, key)
        if piece is None or piece.how != "cut blocks":
            continue
        names = squares(sheet, piece.block or sheet.setting.block)
        if names is None:
            return None
        make, first = (side_rows, 0) if name == SIDE else (corner_rows, 1)
        rows = {where: make(turned(names, first + around)) for around, where in enumerate(EDGES)}
        own = {where: own for where, own in rows.items() if where != "top" and own != rows["top"]}
        data["setting"][key] = {"how": "built", "rows": rows["top"], **own}
        _cut_edges(sheet, data, [row for those in rows.values() for row in those], names[0][0])
        told.append(
            Change(
                ("no-allowance",),
                f"the {called(name)}s are",
                "cut from whole blocks",
                "built from the block's own squares and edge triangles that own their quarter inch, the outside on "
                "straight grain",
                "planned",
            )
        )
    if not told:
        return None
    return ((("setting",), data["setting"]), (("cut",), data["cut"])), told


def turned(names, quarters):
    """A block of squares turned clockwise by so many quarter turns.

    >>> turned([["A", "B"], ["C", "D"]], 1)
    [['C', 'A'], ['D', 'B']]
    """
    for _ in range(quarters % 4):
        names = [list(row) for row in zip(*names[::-1])]
    return names


def side_rows(names):
    """The rows of a built side triangle that shows the lower left half of a block of squares.

    >>> side_rows([["A", "B"], ["B", "A"]])
    [['edge A'], ['B', 'edge A']]
    """
    return [row[:number] + [f"edge {row[number]}"] for number, row in enumerate(names)]


def corner_rows(names):
    """The rows of a built corner triangle, from its tip to its long edge, that shows the left quarter of a block of squares.

    >>> corner_rows([["A", "B"], ["B", "A"]])
    [['edge A:90', 'edge B']]
    """
    size, rows = len(names), []
    for column in range((size - 1) // 2, -1, -1):
        cells = [names[row][column] for row in range(column, size - column)]
        rows.append(
            [f"tip {cells[0]}:225"] if len(cells) == 1 else [f"edge {cells[0]}:90", *cells[1:-1], f"edge {cells[-1]}"]
        )
    return rows


def _cut_edges(sheet, data, rows, square):
    """Add the edge triangles that rows name to the cutting list: cut twice for a row's end, once for the tip."""
    seam, unit = float(sheet.sewing_seam), float(sheet.part(square).size[0]) - 2 * float(sheet.sewing_seam)
    listed = {cut["part"] for cut in data["cut"]}
    for word in [word for row in rows for word in row]:
        part = word.partition(":")[0]
        kind, _, of = part.partition(" ")
        if kind not in ("edge", "tip") or part in listed or sheet.part(of) is None:
            continue
        exact = (
            proofs.quarter_square.value(finished=unit * sqrt(2), seam=seam)
            if kind == "edge"
            else proofs.half_square.value(finished=unit / sqrt(2), seam=seam)
        )
        size = lengths.text(lengths.ruler(exact, step="1/8" if sheet.units == "in" else "1 mm"), unit=sheet.units)
        data["cut"].append(
            {
                "part": part,
                "fabric": sheet.part(of).fabric,
                "size": size,
                "count": 1,
                "cut": "twice" if kind == "edge" else "once",
            }
        )
        listed.add(part)
