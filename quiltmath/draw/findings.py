"""The picture of one finding of a review: the cloth it is about, and an enlarged detail of the first spot it
names."""

from typing import Any

from .panels import finished_layers, panel_picture
from .picture import Drawn, Marks, beside, close_up

LARGEST = 12  # times: a detail is at most this much larger


def finding_picture(made: Any, finding: Any, fabrics: dict[str, str] | None = None) -> Drawn | None:
    """A Picture or Board of the panel a finding is about, its spots marked; None where it names no cloth.

    `made` is the sheet's cloth (`making.make`), `finding` one of `review(...).findings`.

    >>> from quiltmath import making, pattern, review
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> found = review.review(pattern.read_text(EXAMPLE))
    >>> finding_picture(found.made, found.findings[0]) is None       # "not stated" is about the sheet itself
    True
    """
    name = finding.panel or ("quilt top" if len(finding.spots) else "")
    panel = made.panel(finding.panel) if finding.panel else made.top if name else None
    if panel is None:
        return None
    seam = float(made.seam)
    whole = panel_picture(
        panel,
        name.capitalize(),
        ("seams", "edges"),
        fabrics,
        seam,
        name.capitalize(),
        caption=finding.check.replace("-", " "),
    )
    if not len(finding.spots):
        return whole
    marks = Marks(finding.spots, "lost point", "point lost" if finding.check == "lost-points" else "where")
    spot, reach = finding.spots[0], max(4 * seam, 0.5)
    times = max(2, min(LARGEST, int(max(panel.size) / (2.5 * reach))))
    framed, _ = close_up(whole, spot, reach, times)
    _, near = close_up(whole.with_layers(*finished_layers(panel, seam), marks), spot, reach, times)
    count = "1 spot" if len(finding.spots) == 1 else f"{len(finding.spots)} spots"
    alt = f"{whole.alt} {finding.check}: {count} marked, one of them enlarged {times} times."
    return beside([framed.with_layers(marks), near], alt=alt)
