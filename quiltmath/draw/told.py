"""Pictures of a proof: each step's shapes side by side, the seam's share in its own role, measures outside
the shape."""

from typing import Any

from .picture import Board, Measure, Picture, Shapes, beside
from .written import whole_words

_ROLES = {
    "finished": ("paper", "finished shape"),
    "block": ("paper", "finished block"),
    "cloth": ("sky", "fabric"),
    "cut": ("added cloth", "seam allowance"),
}
_LOST = {"finished": ("lost cloth", "lost in the seam"), "cut": ("paper", "")}


def proof_pictures(proof: Any, **values: Any) -> Board:
    """The steps of a `proofs.Proof` at these values, as a Board of small multiples.

    Where the cut shape is smaller than the finished one, what lies between them is drawn as lost.

    >>> from quiltmath import proofs
    >>> proof_pictures(proofs.half_square, finished=3).alt
    'Half-square triangle with finished = 3, in 2 pictures: Draw the finished shape; Move each sewn side out \
by one seam (square 3.8536).'
    """
    steps = proof.pictures(**values)
    if not steps:
        raise ValueError(f"the proof {proof.name} has no pictures: print its steps instead")
    given = ", ".join(f"{name} = {value}" for name, value in values.items())
    told = "; ".join(
        step.title + (f" ({', '.join(text for *_, text in step.measures)})" if step.measures else "") for step in steps
    )
    pictures = [_step(step) for step in steps]
    return beside(
        pictures,
        columns=min(2, len(pictures)),
        alt=f"{proof.title} with {given}, in {len(steps)} picture{'s'[: len(steps) > 1]}: {told}.",
    )


def _step(step):
    areas = {name: abs(_area(corners)) for name, corners in step.polygons}
    lost = "cut" in areas and areas["cut"] < areas.get("finished", 0)
    roles = {**_ROLES, **_LOST} if lost else _ROLES
    layers = [
        Shapes([corners], *roles[name])
        for name, corners in sorted(step.polygons, key=lambda pair: -abs(_area(pair[1])))
    ]
    points = [corner for _, corners in step.polygons for corner in corners]
    middle = tuple(sum(axis) / len(points) for axis in zip(*points))
    layers += [_outside(start, end, f"{text} in", middle) for start, end, text in step.measures]
    return Picture(layers, f"{step.title}.", title=_wrapped(step.title))


def _outside(start, end, text, middle):
    """A dimension line on the side of its edge that faces away from the middle of the shape."""
    (x0, y0), (x1, y1), (x, y) = start, end, middle
    left = (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)
    return Measure(start, end, text, away=-26 if left > 0 else 26)


def _area(corners):
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], corners[0]])) / 2


def _wrapped(text, width=20):
    lines = [""]
    for word in whole_words(text):
        if lines[-1] and len(lines[-1]) + len(word) >= width:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return "\n".join(lines)
