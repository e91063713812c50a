"""Pictures as data: described once, in inches of cloth, then drawn for print or for the live view.

    >>> from quiltmath.draw import Lines, Measure, Picture, Shapes, beside, svg
    >>> square = [(0, 0), (3, 0), (3, 3), (0, 3)]
    >>> plain = Picture(
    ...     [Shapes([square], "blue", label="navy"), Measure((0, 0), (3, 0), "3 in")],
    ...     alt="A navy square of 3 in.", title="Finished")
    >>> svg(beside([plain, plain]), width=700).startswith("<svg")            # the live view: one string
    True

A picture is layers from back to front: Shapes (filled polygons), Lines, Marks (points lost or kept), Words,
Measure (dimension lines), Repeat (a block defined once, placed many times), CloseUp. Each has a role from
`draw.roles.ROLES`; a label puts it in the key. `beside` sets pictures side by side at one scale (small
multiples: give columns=, or let `roomiest` choose); `close_up` enlarges one spot in a picture of its own,
`with_close_up` in the same. Draw with `svg` (fast; also to save), `png` or `figure` (matplotlib), or `lay_out` +
`printed.paint` into axes of your own; `scale=96` is true size. Models become pictures with `panel_picture`
(`draw.panels` has its layers one by one), `plan_picture`, `finding_picture` and `proof_pictures`, in the colours of
`fabric_roles`; `inches` writes a length as all of them do. A `Handle` says where a pointer moves one of an app's
controls. All functions are pure; matplotlib loads only when it is needed.
"""

from importlib import import_module

from .page import lay_out, roomiest
from .picture import (
    Board,
    CloseUp,
    Handle,
    Lines,
    Marks,
    Measure,
    Picture,
    Repeat,
    Shapes,
    Words,
    beside,
    close_up,
    turned,
    with_close_up,
)
from .roles import FABRICS, ROLES, fabric_roles, role
from .svg_writer import svg
from .written import inches

_LATER = {
    "figure": "printed",
    "paint": "printed",
    "png": "printed",
    "panel_picture": "panels",
    "plan_picture": "plans",
    "finding_picture": "findings",
    "proof_pictures": "told",
}
__all__ = [
    "FABRICS",
    "ROLES",
    "Board",
    "CloseUp",
    "Handle",
    "Lines",
    "Marks",
    "Measure",
    "Picture",
    "Repeat",
    "Shapes",
    "Words",
    "beside",
    "close_up",
    "fabric_roles",
    "figure",
    "finding_picture",
    "inches",
    "lay_out",
    "paint",
    "panel_picture",
    "plan_picture",
    "png",
    "proof_pictures",
    "role",
    "roomiest",
    "svg",
    "turned",
    "with_close_up",
]


def __getattr__(name):
    if name in _LATER:
        return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
    raise AttributeError(f"quiltmath.draw has no part called {name!r}; it has {', '.join(__all__)}")
