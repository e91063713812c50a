"""The pictures of the form: the quilt with the spots of its findings marked, and a block as it is typed."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from .. import making, review
from ..draw import Lines, Marks, Picture, Shapes, Words, fabric_roles, panel_picture
from ..making.bill import ingredients
from ..pattern import Sheet
from ..review.finding import Finding
from ..review.report.pictures import fabrics_drawn
from . import form_fields as fields
from .form_fields import Typed
from .form_rows import rows_typed
from .form_values import names_offered

MOST_MARKED = 5  # findings: more numbers in one picture are not found again
ROUND = np.linspace(0, 2 * np.pi, 17)[:-1]  # the corners of what looks like a circle
DISC = 0.035  # of the quilt's longer side: the radius of the ring round a number


class Drawn(NamedTuple):
    """A picture, and what it shows in a few words."""

    picture: Picture
    words: str


def quilt(found: review.Review, told: Sequence[Finding]) -> Drawn | None:
    """The quilt as it would come out, with what each finding is about outlined and numbered as they are `told`; where
    it cannot be sewn, as it is meant; None where nobody can tell."""
    for made, words in (
        (found.made, "As it would come out."),
        (found.reading.meant.made, "As it is meant, for as printed its edges do not meet."),
    ):
        top = made.bound if made.bound is not None else made.top
        if top is not None:
            fabrics = fabrics_drawn(found.made.sheet, made.sheet)
            on_bias = any(one.found_by.picture in ("bias", "grain") for one in told)
            shown = ("seams", "lost points", *(["edges"] if on_bias else []))
            plain = panel_picture(top, show=shown, fabrics=fabrics, name="The quilt")
            marks = _marks(top, made, told)
            return Drawn(plain.with_layers(*marks), words + (" Numbers mark the findings." if marks else ""))
    return None


def _marks(panel, made, told):
    """Outlines of what findings are about, and the number of each at one spot of it."""
    layers, free = [], []
    for number, finding in enumerate(told[:MOST_MARKED], 1):
        outlines, spots = _about(panel, made, finding)
        if len(outlines):
            layers.append(Lines([[*one, one[0]] for one in outlines], "found"))
        if len(spots):
            layers.append(Marks(spots, "lost point"))
        places = [one.mean(axis=0) for one in outlines] or list(spots)
        if places:
            radius = DISC * max(panel.size)
            free.append(_free(places, free, radius))
            (left, low), (right, high) = panel.box
            free[-1] = np.clip(free[-1], (left + radius, low + radius), (right - radius, high - radius))
            ring = free[-1] + radius * np.column_stack([np.cos(ROUND), np.sin(ROUND)])
            layers += [Shapes([ring], "paper"), Words(tuple(free[-1]), str(number), bold=True)]
    return layers


def _free(places, taken, radius):
    """The first of these places that no other number lies on."""
    for place in places:
        if all(np.hypot(*(place - other)) > 2 * radius for other in taken):
            return place
    return places[0]


def _about(panel, made, finding):
    """The outlines of the patches a finding is about, and its spots, where they lie on this panel."""
    parts = patches_of(made.sheet, finding.parts)
    mine = np.array([cut.part in parts for cut in panel.cuts], dtype=bool)
    # what lies all over the quilt is not outlined: its number would tell no more than the quilt does
    outlines = panel.corners[mine] if mine.any() and not mine.all() else panel.corners[:0]
    on_top = not finding.panel and made.top is not None and made.bound is not None
    shift = (np.array(panel.size) - made.top.size) / 2 if on_top else 0
    spots = np.array(finding.spots, float).reshape(-1, 2) + shift if not finding.panel else np.empty((0, 2))
    return outlines, spots


def patches_of(sheet: Sheet, names: frozenset[str]) -> set[str]:
    """The parts that are cut for these parts, units and blocks.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> patches_of(pattern.read_text(EXAMPLE), frozenset(["four"]))
    {'A'}
    """
    cut, found, waiting = {one.part for one in sheet.cut}, set[str](), list(names)
    seen = set(waiting)
    while waiting:
        name = waiting.pop()
        inside = ingredients(sheet, name)
        if name in cut:
            found.add(name)
        waiting += [one for one in inside if one not in seen]
        seen.update(inside)
    return found


def block(name: str, rows: str, form: Typed, made: making.Made | None) -> Picture | None:
    """A block: as it is sewn where that is known, else its rows as they are typed, each piece in its fabric's colour;
    None where nothing is typed."""
    panel = made.panel(name) if made is not None and name in made.sheet.block else None
    if panel is not None and made is not None:
        return panel_picture(panel, show=("seams",), fabrics=fabrics_drawn(made.sheet), name=name)
    typed = [_names(row) for row in rows_typed(rows, names_offered(form, "part"))] if rows.strip() else []
    if not any(typed):
        return None
    return _as_typed(name or "The block", [row for row in typed if row], form)


def _names(row):
    """The names in a row as it was read."""
    items = row.split() if isinstance(row, str) else row
    return [str(item["name"] if isinstance(item, dict) else item).partition(":")[0] for item in items]


def _as_typed(name, rows, form):
    """Rows of names as boxes of one height, each named."""
    fabric = {line["part"].strip(): line["fabric"].strip() for line in form["cut"] if line["fabric"].strip()}
    roles = fabric_roles(sorted(set(fabric.values())))
    across = max(map(len, rows))
    patches: dict[str, list] = {}
    words: list[Words] = []
    for down, row in enumerate(rows):
        wide, high = across / len(row), len(rows) - down
        for place, piece in enumerate(row):
            left, right = place * wide, (place + 1) * wide
            corners = [(left, high - 1), (right, high - 1), (right, high), (left, high)]
            patches.setdefault(fabric.get(piece, ""), []).append(corners)
            if fabric.get(piece) is None:
                words.append(Words(((left + right) / 2, high - 0.5), piece[:8]))
    layers = [Shapes(shapes, roles.get(of, "paper"), of, outline="seam") for of, shapes in sorted(patches.items())]
    alt = f"{name}, {len(rows)} rows: {'; '.join(' '.join(row) for row in rows)}."
    return Picture([*layers, *words], alt)


def blocks(form: Typed, made: making.Made | None) -> list[Picture | None]:
    """A picture for each line of blocks in a form."""
    return [block(line["name"].strip(), line["rows"], form, made) for line in form[fields.BY_KEY["block"].key]]
