"""What a sheet says of fabric, strips and binding in one table, and no other table bears out: it would be left out of
account in silence."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from .fields import MOST_PIECES
from .names import first_few
from .spelling import key

if TYPE_CHECKING:
    from .sheet import Sheet

Trouble = tuple[list[str | int], str]


def no_use_of_fabric(sheet: Sheet) -> Iterator[Trouble]:
    """Each thing of that kind, as (path in the sheet, message)."""
    yield from _prints(sheet)
    yield from _strip_sets(sheet)
    yield from _borders(sheet)
    yield from _binding(sheet)
    yield from _other_sizes(sheet)


def _prints(sheet):
    told = {cut.fabric for cut in sheet.cut if cut.per_print is not None}
    for number, cut in enumerate(sheet.cut):
        path: list[str | int] = ["cut", number, "per_print"]
        if cut.per_print is None:
            continue
        listed = sheet.fabric.get(cut.fabric)
        if listed is None or listed.prints is None:
            yield (
                path,
                (
                    f"nothing says how many prints {cut.fabric!r} has: write prints = 13, or how many there are, in "
                    f"[fabric.{key(cut.fabric)}], or count in place of per_print"
                ),
            )
        elif cut.count > MOST_PIECES:
            yield (
                path,
                (
                    f"{cut.per_print:,} from each of {listed.prints:,} prints are {cut.count:,} pieces; at most "
                    f"{MOST_PIECES:,} are counted: check both numbers"
                ),
            )
    for name, fabric in sheet.fabric.items():
        if fabric.prints is not None and fabric.bought is None and fabric.piece is None and name not in told:
            yield (
                ["fabric", name, "prints"],
                (
                    "nothing is counted of each print: say how much is bought of each (bought, or pieces and piece) "
                    "or how many pieces are cut from each (per_print in [[cut]]), or take prints out"
                ),
            )


def _strip_sets(sheet):
    for name, one in sheet.strip_set.items():
        first = sheet.strip_set.get(one.of) if one.of is not None else one
        if first is None or first.of is not None:
            yield (
                ["strip_set", name, "of"],
                (
                    f"{one.of!r} is {'no strip set' if first is None else 'itself cut from the sets of another'}: "
                    "name the [strip_set] whose strips these are"
                ),
            )
        elif one.opened_above is not None and one.strips.count(one.opened_above) != 1:
            there = "more than one strip" if one.opened_above in one.strips else "no strip"
            yield (
                ["strip_set", name, "opened_above"],
                (
                    f"{one.opened_above!r} is {there} of {one.of!r}: name the strip that lies at the top where the "
                    "tube is opened, one that it has once"
                ),
            )


def _borders(sheet):
    for number, border in enumerate(sheet.border):
        for where in ("sides", "top"):
            part, length = getattr(border, where), getattr(border, f"{where}_length")
            cut = sheet.part(part) if part is not None else None
            if length is not None and (cut is not None and cut.size is not None or part in sheet.block):
                yield (
                    ["border", number, f"{where}_length"],
                    (
                        f"{part!r} has a length of its own, by which it is judged; only strips that are joined and cut "
                        f"to length have another: take {where}_length out"
                    ),
                )


def _binding(sheet):
    if sheet.binding is None or sheet.binding.part is None:
        return
    cut = sheet.part(sheet.binding.part)
    if cut is None or cut.strip is None:
        strips = first_few(repr(one.part) for one in sheet.cut if one.strip is not None)
        yield (
            ["binding", "part"],
            (
                f"the binding is cut from strips, and {sheet.binding.part!r} is "
                f"{'no part' if cut is None else 'no strip'} of the cutting list; "
                + (f"its strips are {strips}" if strips else "write fabric, strip and count in place of part")
            ),
        )


def _other_sizes(sheet):
    binding = sheet.binding
    for number, size in enumerate(sheet.other_size):
        if size.binding is not None and binding is not None and (binding.part is not None or binding.open):
            yield (
                ["other_size", number, "binding"],
                (
                    f"the strips of the binding are counted as part {binding.part!r}: write counts in place of binding"
                    if binding.part is not None
                    else 'the binding is cut in "enough" strips, in every size: take this out'
                ),
            )
        for name in size.pieces:
            if sheet.fabric[name].piece is None:
                yield (
                    ["other_size", number, "pieces", name],
                    (f"{name!r} is not bought in pieces: write bought, or say in its [fabric] of which size they are"),
                )
        for name in size.bought:
            if sheet.fabric[name].piece is not None:
                yield (
                    ["other_size", number, "bought", name],
                    (f"{name!r} is bought in pieces: write how many under pieces"),
                )
