"""Whether a plan is the sheet it is written as: what the review says of it, its needs, its cloth, its text.

`python -m tests.plans` writes, reviews and sews every kind of plan of tests/test_settings_drawn.py in twenty sizes, and
prints what differs and a count.
"""

import sys
from collections import defaultdict
from itertools import cycle, product

from quiltmath import pattern, review, settings
from quiltmath.making.placed import polygons
from quiltmath.shapes import area

EXACT = 1e-9  # inches: float noise of a few hundred seams
SHARE = 1e-6  # of the whole quilt: by how much the area of one fabric may differ
ON_PURPOSE = {  # what the review may say of edges whose outside is bias on purpose
    "half blocks": {"bias-outside"},
    "built, bias outside": {"bias-outside", "wrong-triangles"},
}
GRIDS = list(product(range(1, 6), range(1, 5)))
BLOCKS = ("6", "7 1/2", "6 1/3", "10 cm", "8.37")  # finished sizes, on the ruler and off it


def differences(plan, sheet=None):
    """What is not as it should be, in words, as a list; empty for a plan whose sheet (or this one) says what the plan
    says."""
    sheet = sheet or plan.sheet()
    found = review.review(sheet)
    return [
        *_in_review(plan, found),
        *_in_needs(plan, found.made),
        *_in_cloth(plan),
        *_in_text(sheet),
    ]


def _in_review(plan, found):
    """Findings other than those of bias put outside on purpose, and a verdict that is not go without any."""
    allowed = ON_PURPOSE.get(plan.edges, set())
    wrong = [finding for finding in found.findings if finding.check not in allowed]
    said = [f"the review says {finding.check} ({finding.level}): {finding.message}" for finding in wrong]
    if not found.findings and found.verdict != "go":
        said.append(f"the review has no finding and yet says {found.verdict}")
    if allowed and not plan.borders and not found.findings:
        said.append("the review has nothing to say of bias on the outside")
    return said


def _in_needs(plan, made):
    """Lines of the cutting list beside what the review says each part needs, and beside what the sheet prints."""
    lines = plan.cutting_list()
    needed, printed = list(made.needs.values()), made.sheet.cut
    parts = [[line.part for line in each] for each in (lines, needed, printed)]
    if not parts[0] == parts[1] == parts[2]:
        return [f"the parts differ: planned {parts[0]}, needed {parts[1]}, printed {parts[2]}"]
    return [
        f"{line.part}: {what}: planned {here}, found {there}"
        for line, need, cut in zip(lines, needed, printed)
        for what, here, there in (
            ("pieces", line.count, need.count),
            ("squares or strips", line.squares, cut.count),
            ("how they are cut", line.cut, cut.cut),
            ("fabric", line.fabric, cut.fabric),
            ("size needed", (line.text, line.value), (need.text, need.value)),
            ("size printed", _to_print(line), cut.size),
        )
        if here != there
    ]


def _to_print(line):
    """The (width, height) a sheet is to print: exact for a whole piece of a rational size, else up to the ruler's next
    step."""
    numbers = [line.number(side) for side in range(len(line.sides))]
    exact = [number.plain if line.cut == "whole" and not number.root else None for number in numbers]
    sides = tuple(size if one is None else one for one, size in zip(exact, line.size))
    return (sides * 2)[:2]


def _in_cloth(plan):
    """The size of the sewn top, its pieces, and how much each fabric shows beside the finished drawing."""
    panel, said = plan.panel(), []
    seam = float(plan.seam)
    off = [mine - side - 2 * seam for mine, side in zip(panel.size, plan.size)]
    if max(map(abs, off)) > EXACT:
        return [f"the sewn top is off by {off[0]:.6f} in width and {off[1]:.6f} in height"]
    if plan.edges != "half blocks":
        for line in plan.cutting_list():
            if panel.count(line.part) != line.count:
                said.append(f"{line.part}: {line.count} are cut, {panel.count(line.part)} are in the top")
    sewn = _shown((patch.fabric, patch.polygon) for patch in panel.bind(seam).patches)
    drawn = _shown((fabric, corners) for _, fabric, corners in polygons(plan.placed()))
    whole = plan.size[0] * plan.size[1]
    for fabric in sorted({*sewn, *drawn}):
        if abs(sewn[fabric] - drawn[fabric]) > SHARE * whole:
            said.append(f"{fabric}: {sewn[fabric]:.4f} sq in are sewn, {drawn[fabric]:.4f} sq in are drawn")
    return said


def _shown(patches):
    """The area of each fabric, in square inches."""
    found = defaultdict(float)
    for fabric, corners in patches:
        found[fabric] += abs(float(area(corners)))
    return found


def _in_text(sheet):
    """The sheet written, read and written again."""
    text = pattern.text(sheet)
    again = pattern.read_text(text)
    said = [] if pattern.text(again) == text else ["read and written again, the text is another"]
    if again.model_dump() != sheet.model_dump():
        mine, theirs = sheet.model_dump(), again.model_dump()
        keys = [key for key in mine if mine[key] != theirs[key]]
        said.append(f"read again, the sheet is another in {', '.join(keys)}")
    return said


def every_kind():
    """(what it is, how it is made) for every kind of plan in twenty sizes each."""
    from .test_settings_drawn import NINE, ON_POINT, SIXTEEN, STRAIGHT

    tables = (("on point", settings.on_point, NINE, ON_POINT), ("straight", settings.straight, SIXTEEN, STRAIGHT))
    for style, make, block, kinds in tables:
        for kind, asked in kinds.items():
            for (across, down), size in zip(GRIDS, cycle(BLOCKS)):
                asking = {**asked, "across": across, "down": down, "block": block.resized(size)}
                if isinstance(asked.get("alternate"), type(block)):
                    asking["alternate"] = asked["alternate"].resized(size)
                yield f"{style}, {kind}: {across} x {down} of {size}", lambda make=make, asking=asking: make(**asking)


def main():
    """Check every kind of plan; 1 if any is not the sheet it is written as."""
    count, wrong = 0, 0
    for name, make in every_kind():
        count += 1
        try:
            said = differences(make())
        except Exception as problem:  # noqa: BLE001  # one kind that cannot be made must not hide the others
            said = [f"{type(problem).__name__}: {problem}"]
        wrong += bool(said)
        for words in said:
            print(f"{name}: {words}")
    print(f"{count} plans, {wrong} of them not as their sheets say")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
