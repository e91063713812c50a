"""A sheet planned anew where its order of work is the fault: edges built, tops set on point from the start, points left
on."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from .. import lengths, pattern
from ..making.need import Need, triangle
from ..pattern.names import called
from ..pattern.sheet import Sheet
from ..root2 import Root2
from . import built


class Replanned(NamedTuple):
    """One thing done another way: the checks that asked for it, what it is (ending in a verb), how it was, how it is
    now."""

    checks: tuple[str, ...]
    what: str
    old: str
    new: str


def planned_anew(sheet: Sheet, checks: set[str]) -> tuple[tuple, list[Replanned]] | None:
    """The changes to a sheet, (path, value) each, that plan it anew where these checks say that its order of work is
    the fault, and what each is in words; None where they do not say so or no plan is known."""
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
    change = Replanned(
        ("lost-points",),
        f"the quilt top ({last.trim!r}) is",
        "trimmed to its points",
        "squared up, which leaves a seam beyond them",
    )
    return ((("step",), kept or None),), [change]


def squares(sheet: Sheet, name: str) -> list[list[str]] | None:
    """The names of the parts of a block made of n x n equal whole squares, row by row, or None for any other block."""
    block = sheet.block.get(name)
    if block is None or any(len(row) != len(block.rows) or any(item.turn for item in row) for row in block.rows):
        return None
    names = [[item.name for item in row] for row in block.rows]
    cuts = [sheet.part(part) for row in names for part in row]
    sizes = {cut.size if cut is not None and cut.cut == "whole" else None for cut in cuts}
    size = sizes.pop() if len(sizes) == 1 else None
    return names if size is not None and size[0] == size[1] else None


def _on_point_from_the_start(sheet):
    """A straight top, twice as long as wide, that was sliced and turned: the same picture set on point from the start.

    The square on point has its corners where blocks of the straight top meet, so the block to set is the one found half
    a block along and half a block up.
    """
    setting, names = sheet.setting, squares(sheet, sheet.setting.block or "")
    short, long = sorted(setting.size)
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
    unit = sheet.part(names[0][0]).size[0] - 2 * sheet.sewing_seam
    side = lengths.text(lengths.ruler(Root2(root=short * unit * len(names)), "1/8", "nearest"))
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
    change = Replanned(
        ("no-allowance", "bias-outside"),
        f"the {long} x {short} top is",
        "sliced and turned",
        f"set on point from the start, {short} x {short} blocks with side and corner triangles; it finishes {side} in",
    )
    return edits, [change]


def _built_edges(sheet):
    """Edge triangles cut from whole blocks: the same picture, built from squares and end triangles."""
    data, anew = pattern.as_data(sheet), []
    for key, kind in built.KINDS.items():
        piece = getattr(sheet.setting, key)
        if piece is None or piece.how != "cut blocks":
            continue
        names = squares(sheet, piece.block or sheet.setting.block or "")
        if names is None:
            return None
        data["setting"][key] = built.edge_piece(names, kind)
        _cut_ends(sheet, data, names, built.parts_of(data["setting"][key]))
        anew.append(f"the {called(kind)}s")
    if not anew:
        return None
    told = Replanned(
        ("no-allowance",),
        f"{' and '.join(anew)} are",
        "cut from whole blocks",
        "built from the block's own squares and end triangles, each with its seam allowance",
    )
    return ((("setting",), data["setting"]), (("cut",), data["cut"])), [told]


def _cut_ends(sheet, data, names, parts):
    """Add the end triangles of built rows to the cutting list: cut twice for a row's end, once for the tip."""
    listed, unit = {cut["part"] for cut in data["cut"]}, sheet.part(names[0][0]).size[0] - 2 * sheet.sewing_seam
    for end in built.ends(names):
        if end.part in listed or end.part not in parts:
            continue
        way, long = ("once", Root2(root=unit * Fraction(1, 2))) if end.tip else ("twice", Root2(root=unit))
        need = Need(
            end.part, sheet.part(end.square).fabric, 1, way, triangle(way, long), sheet.sewing_seam, sheet.units
        )
        size = lengths.text(need.size[0], unit=sheet.units)
        data["cut"].append({"part": end.part, "fabric": need.fabric, "size": size, "count": 1, "cut": way})
