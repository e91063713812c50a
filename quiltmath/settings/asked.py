"""A plan asked for in words, as one types them: the kind of plan, and its options as name=value."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from inspect import Parameter, signature
from typing import TYPE_CHECKING, Any

from .. import blocks, lengths
from . import arguments, fitting, medallions, wishes
from .borders import Round, border

if TYPE_CHECKING:
    from .fitting import NearLayout
    from .medallions import Medallion
    from .plan import Plan

KINDS: dict[str, Callable[..., Any]] = {
    "on-point": wishes.on_point,
    "straight": wishes.straight,
    "medallion": medallions.medallion,
    "fit": fitting.fit,
}
EXAMPLES = {
    "on-point": "across=5 down=6 block=9 sashing=2",
    "straight": 'across=4 down=5 block="nine-patch 9" around=yes sashing=2',
    "medallion": "centre=12 rounds=triangles,2,triangles",
    "fit": "width=60 height=80 blocks=6..12",
}
USUAL_BLOCKS = {"in": "6..12", "cm": "15..30", "mm": "150..300"}  # what a fit tries where it is not told
STEPS = {"in": "1", "cm": "1", "mm": "10"}
HOLDS = {
    "across": "how many blocks along the top",
    "down": "how many blocks along the side",
    "block": "the block: its finished size, or a name and a size, as in 'nine-patch 9', or a grid, as in 'A B | B A 6'",
    "centre": "the block in the middle, as for block",
    "sashing": "finished width of the strips between the blocks",
    "cornerstones": "yes or no: squares where the sashing crosses",
    "edge": "half or whole: the edge runs through the outer cornerstones, or past them",
    "around": "yes or no: sashing outside the outer blocks too",
    "alternate": "what lies between the blocks: plain, or another block",
    "frame": "finished width of strips round every block",
    "edges": "the setting triangles: plain, framed, built, 'built, bias outside', or half blocks",
    "floating": "how far the blocks float inside the edge",
    "borders": "finished widths from the inside out, as in 2,5: each may say mitred, top first, and its fabric",
    "rounds": "from the middle out: triangles, or a border as for borders",
    "seam": "the seam allowance",
    "unit": "in, cm or mm: what a bare number is",
    "fabrics": "names of fabrics, as in setting:navy,A:cream",
    "width": "the finished width you wish for",
    "height": "the finished height you wish for",
    "blocks": "the block sizes to try: 6,9,12 or 6..12",
    "styles": "on point, straight, or both",
    "sashings": "finished widths of sashing to try",
    "bed": "a bed instead of width and height",
    "drop": "how far the quilt hangs down from the mattress",
    "at_least": "yes or no: leave out what is smaller than you wish",
    "best": "how many layouts to list",
}
YES, NO = ("yes", "true", "1"), ("no", "false", "0")


def options(kind: str) -> dict[str, str]:
    """{name: what it says} of every option that a kind of plan takes.

    >>> list(options("medallion"))
    ['centre', 'rounds', 'seam', 'unit', 'fabrics']
    >>> options("crazy")
    Traceback (most recent call last):
    ValueError: a plan is one of on-point, straight, medallion, fit; got 'crazy': write for example on-point across=5 \
down=6 block=9 sashing=2
    """
    return {name: HOLDS[name] for name in signature(KINDS[_kind(kind)]).parameters}


def asked(kind: str, values: Mapping[str, str]) -> Plan | Medallion | list[NearLayout]:
    """The plan that these words ask for; of a fit the layouts, best first.

    >>> asked("on-point", {"across": "5", "down": "6", "block": "nine-patch 9", "edges": "built"}).blocks
    50
    >>> asked("straight", {"across": "4", "down": "5", "blok": "9"})
    Traceback (most recent call last):
    ValueError: straight takes across, down, block, sashing, cornerstones, around, alternate, frame, borders, seam, \
unit, fabrics; got 'blok': did you mean 'block'?
    """
    kind = _kind(kind)
    known = signature(KINDS[kind]).parameters
    for name in values:
        if name not in known:
            near = get_close_matches(name, known, 1)
            hint = f"did you mean {near[0]!r}?" if near else f"write for example {EXAMPLES[kind]}"
            raise ValueError(f"{kind} takes {', '.join(known)}; got {name[:40]!r}: {hint}")
    missing = [name for name, one in known.items() if one.default is Parameter.empty and name not in values]
    if missing:
        raise ValueError(f"{kind} needs {' and '.join(missing)} too: write for example {EXAMPLES[kind]}")
    unit = arguments.unit(values.get("unit", "in"))
    fabrics = _fabrics(values.get("fabrics", ""))
    if kind == "fit":
        values = {"blocks": USUAL_BLOCKS[unit], **values}
    read = _Reader(unit, fabrics)
    found = KINDS[kind](**{name: read.value(kind, name, text) for name, text in values.items()})
    if kind != "fit":
        _refuse_unused(fabrics, found)
    return found


def _kind(kind):
    """The kind of a plan, however its words are joined."""
    name = re.sub("[ _]", "-", kind.strip().lower())
    if name not in KINDS:
        raise ValueError(
            f"a plan is one of {', '.join(KINDS)}; got {kind[:40]!r}: write for example on-point {EXAMPLES['on-point']}"
        )
    return name


def _fabrics(text):
    """Names of fabrics by what they are for."""
    found = {}
    for item in _listed(text):
        role, colon, name = (part.strip() for part in item.partition(":"))
        if not (role and colon and name):
            raise ValueError(
                f"a fabric is named by what it is for, as in fabrics=setting:navy,sashing:cream; got {item[:40]!r}"
            )
        found[role] = name
    return found


def _refuse_unused(fabrics, plan):
    """Refuse a fabric for something that the plan does not have: a slip of the pen."""
    cut = {cut.fabric for cut in plan.sheet().cut}
    for role, name in fabrics.items():
        if name not in cut:
            raise ValueError(
                f"nothing in this plan is {role[:40]!r}, so nothing is cut from {name[:40]!r}; it is cut from "
                f"{', '.join(sorted(cut))}: name one of these, setting, sashing, cornerstone, frame, alternate, or a "
                "letter of the block"
            )


def _listed(text):
    """The items of a list parted by commas."""
    return [item.strip() for item in text.split(",") if item.strip()]


class _Reader:
    """How the values of one plan are read: in its unit, with its fabrics."""

    def __init__(self, unit, fabrics):
        self.unit, self.fabrics = unit, fabrics

    def value(self, kind, name, text):
        """One option's value as the plan takes it."""
        if name in ("across", "down", "best"):
            return int(text) if re.fullmatch(r"[0-9]{1,9}", text.strip()) else text
        if name in ("cornerstones", "around", "at_least"):
            return self.yes(name, text)
        if name in ("block", "centre"):
            return self.block(text)
        if name == "alternate":
            return "plain" if text.strip() == "plain" else self.block(text)
        if name == "blocks":
            return self.sizes(text)
        if name in ("borders", "rounds") and kind != "fit":
            return [one if one == medallions.TRIANGLES else self.border(one) for one in _listed(text)]
        if name in ("styles", "sashings", "borders"):
            return _listed(text)
        return self.fabrics if name == "fabrics" else text.strip()

    def yes(self, name, text):
        """A yes or no."""
        word = text.strip().lower()
        if word not in YES + NO:
            raise ValueError(f"{name} is yes or no; got {text[:40]!r}")
        return word in YES

    def block(self, text):
        """A block: its size alone, or a name or a grid and its size."""
        words = text.split()
        for place in range(len(words)):
            try:
                size = lengths.parse(" ".join(words[place:]), self.unit)
            except ValueError:
                continue
            called = " ".join(words[:place])
            if not called:
                return text
            if "|" in called:
                return blocks.read(called, size=size, fabrics=self.fabrics)
            return blocks.named(called.replace(" ", "-"), size, self.fabrics)
        if words and text.strip() in blocks.names():
            return blocks.named(text.strip(), fabrics=self.fabrics)
        return text

    def sizes(self, text):
        """Sizes one by one, or from one to another."""
        low, dots, high = text.partition("..")
        if not dots:
            return _listed(text)
        return [size / lengths.INCHES[self.unit] for size in fitting.sizes(low, high, STEPS[self.unit], self.unit)]

    def border(self, text) -> Round:
        """A border: its finished width, how its corners meet, which pair goes on first, its fabric."""
        match = re.match(r"\s*([0-9][^A-Za-z]*(?:in|cm|mm|yd)?)\b\s*(.*)", text)
        if match is None:
            raise ValueError(f"a border begins with its finished width, as in 2 or 2 mitred navy; got {text[:40]!r}")
        rest, ends, first = match[2], "butted", "sides"
        if way := re.search(r"\b(mitred|butted)\b", rest):
            ends, rest = way[1], rest.replace(way[0], "")
        if pair := re.search(r"\b(top|sides) first\b", rest):
            first, rest = pair[1], rest.replace(pair[0], "")
        return border(match[1], ends, " ".join(rest.split()) or None, first, self.unit)
