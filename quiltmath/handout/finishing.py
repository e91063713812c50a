"""What is done once the top is made: borders, measured first; backing, batting and quilting; the binding."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from .. import lengths, yardage
from ..draw import Picture, Shapes, Words
from ..making.placed import placed, polygons
from ..review import cloth, taken
from ..review.checks.check import some
from .boxes import heading, listed, step
from .buying_and_cutting import exactly
from .numbered import numbered

if TYPE_CHECKING:
    from ..draw.picture import Layer
    from ..draw.typeset import Box
    from ..pattern.border import Border
    from ..review.reading import Reading
    from .drawn import Look
    from .paper import Paper

MEASURE = (
    "Measure the top before you cut a border: through its middle, never along its edge. Cut both strips of a pair to "
    "that one measure, pin them at middle and ends, and ease the top in: so the quilt stays square."
)
MITRE = (
    "Sew all four strips on, centred, each seam beginning and ending one seam from the corner. Fold the top at 45 "
    "degrees through a corner, lay the two strips on each other, sew from the inner corner outwards, trim, press; so "
    "at each corner."
)
BIND = (
    "Fold the binding in half lengthwise, wrong sides together, and press. Lay its raw edges on those of the quilt's "
    "right side; sew it on with the quilt's seam, from the middle of one side, mitring each corner (stop one seam "
    "before it, fold the strip up and down again). Join the ends, fold it over to the back and sew it down."
)  # common practice, no source
LAYERS = (
    "Press the top and the backing. Lay the backing wrong side up, the batting on it, the top right side up, all "
    "smooth; pin or baste from the middle outwards, quilt from the middle outwards, then trim batting and backing "
    "level with the top."
)  # common practice, no source
ACROSS = {"sides": "left and right", "top": "top and bottom"}
THROUGH = {"sides": "from top to bottom", "top": "from side to side"}


def borders(reading: Reading, paper: Paper, look: Look) -> Iterator[Box]:
    """The boxes of the borders, nothing where there are none."""
    sheet = reading.sheet
    if not sheet.border:
        return
    yield heading(paper, "Borders")
    said = [MEASURE] if any(border.triangles is None for border in sheet.border) else []
    for number, border in enumerate(sheet.border, 1):
        said += [f"Border {number}. {line}" for line in _border(reading, number - 1, border)]
    if reading.made.top is not None:
        said.append(f"The top now measures {reading.ruler.sizes(reading.made.top.size)} with its seam allowance.")
    yield step(paper, "Measured first, then cut, then sewn on", said, borders_picture(reading, look), 0.38, 300.0)


def _border(reading: Reading, number: int, border: Border) -> Iterator[str]:
    """What is done for one border, in words."""
    sheet, said = reading.sheet, reading.ruler
    if border.triangles is not None:
        yield (
            f"Sew a {numbered(sheet, border.triangles)} to two opposite sides, each by its long edge, centred; press "
            "outwards; then to the other two sides. Trim the edges straight, one seam outside the points."
        )
        return
    strips = [strip for strip in reading.made.border_strips if strip.border == number]
    if border.ends == "mitred":
        found = " and ".join(
            f"two of {numbered(sheet, strip.part)} for {ACROSS[strip.where]}, about {said.up(strip.length)} long"
            for strip in strips
        )
        yield f"Its corners are mitred: cut {found} (the measure of the top and the length the mitres take)."
        yield MITRE
        return
    for order, strip in zip(("First", "Then"), strips):
        where = ACROSS[strip.where] if len(strip.edges) == 2 else f"on the {strip.edges[0]} edge alone"
        two, both = ("two of ", "them") if len(strip.edges) == 2 else ("", "it")
        take = (
            f"take {two}{numbered(sheet, strip.part)}, pieced"
            if sheet.part(strip.part) is None
            else (f"cut {two}{numbered(sheet, strip.part)} to that")
        )
        corner = (
            f"; sew a {numbered(sheet, border.corner)} to each end of both" if border.corner and order == "Then" else ""
        )
        inside = " before the first pair goes on" if corner else ""
        begins = f"{order}, {where}" if len(strips) > 1 else where.capitalize()
        yield (
            f"{begins}: measure the top {THROUGH[strip.where]}{inside} (it should be about {said.said(strip.length)}), "
            f"{take}{corner}. Sew {both} on and press towards the border."
        )


def borders_picture(reading: Reading, look: Look) -> Picture | None:
    """The quilt with its borders, the strips numbered in the order they are sewn on; None where it is not known how its
    pieces lie."""
    made = reading.made
    if not made.adds_up or made.lies is None or made.sheet.step:
        return None
    found: dict[str, list[np.ndarray]] = {}
    spots: dict[int, list[np.ndarray]] = {}
    rounds = [
        f"{'round' if border.triangles else 'border'} {number}" for number, border in enumerate(made.sheet.border, 1)
    ]
    counted = dict.fromkeys(rounds, 0)
    for thing in placed(made):
        lying = list(polygons([thing]))
        for _, fabric, corners in lying:
            found.setdefault(fabric, []).append(corners)
        if thing.part in counted:
            number, strips = rounds.index(thing.part), [corners for *_, corners in lying]
            if made.sheet.border[number].triangles is None:  # one strip, of however many patches
                strips = [np.concatenate(strips)]
            for strip in strips:
                order = _order(made.sheet.border, number, counted[thing.part])
                spots.setdefault(order, []).append(_label(strip, number))
                counted[thing.part] += 1
    layers: list[Layer] = [Shapes(shapes, look.fabrics[fabric], fabric, "seam") for fabric, shapes in found.items()]
    layers += [Words(tuple(spot), str(order), bold=True) for order, them in sorted(spots.items()) for spot in them]
    return Picture(
        layers,
        f"The borders in the order they are sewn on, {len(spots)} pairs or rounds.",
        caption="sewn on in this order",
    )


def _label(corners, number):
    """Where the number of a strip stands: in its middle, or beside it, so that those of two borders never meet."""
    middle, long = corners.mean(axis=0), np.ptp(corners, axis=0)
    along = np.array((1.0, 0.0)) if long[0] > long[1] else np.array((0.0, 1.0))
    return middle + along * max(long) * 0.12 * ((number + 1) // 2) * (-1) ** number


def _order(borders, number, piece):
    """When a strip of a border goes on, counted from 1 over all borders; corner squares go on with the second pair."""
    before = sum(1 if border.triangles or border.ends == "mitred" else len(border.pairs) for border in borders[:number])
    border = borders[number]
    if border.triangles or border.ends == "mitred":
        return before + 1
    pieces = range(border.on("sides")) if border.first == "sides" or border.corner else range(border.on("sides"), 4)
    return before + (1 if piece in pieces else len(border.pairs))


def layers(reading: Reading, paper: Paper) -> Iterator[Box]:
    """The boxes of backing, batting and binding."""
    yield heading(paper, "Backing, batting, binding")
    said = [*_backing(reading), *_batting(reading), LAYERS, *_bound(reading)]
    if reading.made.finished is not None:
        said[-1] += f" Finished, the quilt measures {reading.ruler.sizes(reading.made.finished)}."
    yield from listed(paper, said, numbered=True)


def _backing(reading):
    back, said, size = reading.sheet.backing, reading.ruler, reading.made.finished
    if back is None or size is None:
        return
    if back.bought is not None:
        width = back.usable_width or reading.sheet.usable_width(back.fabric or "")
        count = back.panels or yardage.best_panels(back.bought, *map(_eighth, size), width)
        across, along = yardage.backing_size(back.bought, count, width)
        needed = cloth.lining_needed(size, reading.sheet.units)
        way = "down" if across >= needed[0] and along >= needed[1] else "across"
        least = f" It must be at least {said.sizes(needed, said.up)}, larger than the top all round."
        if count > 1:
            yield (
                f"Backing: cut the {said.cloth(back.bought)} across into {count} panels of "
                f"{said.said(_down(along))}. Cut off the selvages, sew the panels side by side along their length "
                f"with a {said.said(yardage.BACKING_SEAM)} seam, press it open: about {said.said(across)} by "
                f"{said.said(_down(along))}. Its seams run {way} the quilt.{least}"
            )
        else:
            yield f"Backing: one piece of {said.said(across)} by {said.said(_down(along))}, selvages cut off.{least}"
    elif back.size is not None:
        yield f"Backing: {said.sizes(back.size)}, joined from panels where the fabric is narrower."


def _eighth(length):
    return lengths.ruler(length, "1/8", "up")


def _down(length):
    return lengths.ruler(length, "1/8", "down")


def _batting(reading):
    padding, said = reading.sheet.batting, reading.ruler
    if padding is not None and padding.size is not None:
        yield f"Batting: a piece of {said.sizes(padding.size)}."


def _bound(reading):
    binding, said, size = reading.sheet.binding, reading.ruler, reading.made.finished
    if binding is None:
        return
    way = "on the bias" if binding.style == "bias" else "across the width of fabric"
    join = "on the diagonal, trim and press the seams open" if binding.join != "straight" else "end to end, seams open"
    ring = cloth.ring(reading.sheet, size) if size is not None else None
    twice = cloth.serves_twice(reading.sheet)
    count = None if twice else binding.count or taken.binding_strips(reading.made, reading.sheet) or None
    enough = "" if ring is None else f" The quilt is {said.said(ring.around)} round."
    if ring is not None and (binding.length is not None or binding.count and not twice):
        enough = f" They give about {said.said(ring.have)}; the quilt is {said.said(ring.around)} round."
    strips = (
        f"{'enough strips' if count is None else some(count, 'strip')} {exactly(reading, binding.strip)} wide {way}"
    )
    if twice:
        strips = f"what the borders leave of the strips {numbered(reading.sheet, binding.part)}"
        yield f"Binding: take {strips}, and join them {join}.{enough}"
        yield BIND
        return
    yield f"Binding: cut {strips} and join them {join}.{enough}"
    yield BIND
