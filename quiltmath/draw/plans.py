"""Pictures of planned quilts: the finished top, its blocks defined once and placed many times."""

from typing import Any

from .picture import Layer, Measure, Picture, Repeat, Shapes
from .roles import fabric_roles
from .written import inches


def plan_picture(
    plan: Any,
    title: str = "",
    fabrics: dict[str, str] | None = None,
    measured: bool = True,
    seams: bool = True,
    caption: str = "",
    alt: str = "",
) -> Picture:
    """A Picture of the finished top of a plan from `quiltmath.settings`, quick enough for a slider.

    `fabrics` fixes which fabric gets which role (see `fabric_roles`), `measured` adds width and height to the
    nearest 1/16 in.

    >>> from quiltmath import settings
    >>> plan_picture(settings.on_point(across=5, down=6, block=9)).alt
    'Quilt top of 63 5/8 by 76 3/8 in: 72 patches (plain 50, setting 22).'
    """
    placed = plan.placed()
    counts: dict[str, int] = {}
    for thing in placed:
        for fabric, _ in thing.patches:
            counts[fabric] = counts.get(fabric, 0) + len(thing.places)
    roles = fabric_roles(sorted(counts)) if fabrics is None else fabrics
    missing = sorted(set(counts) - set(roles))
    if missing:
        raise ValueError(f"each fabric of a plan needs a role; {', '.join(missing)} got none: add it to fabrics=")
    layers: list[Layer] = [Repeat(_layers(thing, roles, seams), thing.places) for thing in placed if len(thing.places)]
    width, height = plan.size
    size = [inches(side) for side in (width, height)]
    if measured:
        layers += [
            Measure((0, 0), (width, 0), f"{size[0]} in"),
            Measure((0, height), (0, 0), f"{size[1]} in"),
        ]
    patches = ", ".join(f"{fabric} {count}" for fabric, count in sorted(counts.items()))
    total = sum(counts.values())
    words = f"Quilt top of {size[0]} by {size[1]} in: {total} patch{'es' * (total != 1)} ({patches})."
    return Picture(layers, alt or words, title, caption)


def _layers(thing, roles, seams):
    """One Shapes for each fabric of a placed thing, each patch with its outline where seams are shown."""
    fabrics = dict.fromkeys(fabric for fabric, _ in thing.patches)
    return tuple(
        Shapes(
            [corners for one, corners in thing.patches if one == fabric], roles[fabric], fabric, "seam" if seams else ""
        )
        for fabric in fabrics
    )
