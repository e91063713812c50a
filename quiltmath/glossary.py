"""The words of the trade as this kit uses them: each once, in one sentence, and the words it does not use for it."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import fill
from typing import NamedTuple

WIDTH = 96


class Term(NamedTuple):
    """A term, what it means, other names that people have for it, and words that the kit's texts do not use for it."""

    name: str
    meaning: str
    also: tuple[str, ...] = ()
    instead_of: tuple[str, ...] = ()


TERMS = (
    Term(
        "backing", "The fabric on the underside of a quilt, larger than the top all round until the quilting is done."
    ),
    Term("batting", "The soft layer between top and backing.", also=("wadding",)),
    Term("bias", "The direction across the threads, at 45 degrees to them, in which fabric stretches most."),
    Term("binding", "The strip that is folded over the raw edge of a finished quilt and closes it."),
    Term("block", "A unit of the design, mostly square, of which a quilt top has many."),
    Term(
        "border",
        "A strip sewn to the edge of the top; side borders left and right, top and bottom borders above and below.",
    ),
    Term(
        "corner triangle",
        "The setting triangle at a corner of a quilt on point, cut once so that its legs follow the thread.",
    ),
    Term("cornerstone", "The square where two sashes cross."),
    Term("dog ear", "The tip of a triangle that stands out past a seam and is trimmed off."),
    Term("end triangle", "The small triangle that ends a row of a built side or corner triangle."),
    Term("fabric", "What a quilt is cut and sewn from.", instead_of=("cloth", "material")),
    Term("fat quarter", "A quarter of a yard cut 18 in by half the width of fabric."),
    Term("finished size", "The size between the seams, once all round is sewn."),
    Term("flying geese", "A unit of one large triangle between two small ones, twice as wide as high."),
    Term("grain", "The direction of the threads: lengthwise along the selvage, crosswise from selvage to selvage."),
    Term(
        "half-square triangle",
        "One of the two triangles of a square cut once on the diagonal, and the square unit of two of them.",
        also=("HST",),
        instead_of=("half square triangle",),
    ),
    Term("medallion", "A quilt that grows from one block in the middle by rounds of triangles and borders."),
    Term(
        "method",
        "A way of making something, of which there may be several that are right.",
        instead_of=("custom", "customs"),
    ),
    Term("mitred", "Of a corner: its two strips meet in one seam at 45 degrees.", instead_of=("mitered",)),
    Term("on point", "Standing on a corner: a setting in which the blocks are turned by 45 degrees."),
    Term(
        "quarter-square triangle",
        "One of the four triangles of a square cut twice on the diagonal, and the square unit of four of them.",
        also=("QST", "hourglass"),
        instead_of=("quarter square triangle",),
    ),
    Term(
        "rounded up to 1/8 in",
        "Taken to the next eighth of an inch on the ruler, since a piece can be trimmed but not lengthened.",
    ),
    Term("rule of thumb", "A figure quilters know by heart, near the exact one.", instead_of=("the trade says",)),
    Term("sashing", "Strips between the blocks; each one is a sash."),
    Term("scant quarter inch", "A seam a thread narrower than 1/4 in, so that what the fold takes is made up for."),
    Term("seam allowance", "The fabric between a seam and the raw edge, 1/4 in unless something else is said."),
    Term(
        "seam intersection",
        "The spot where two seams or more meet.",
        instead_of=("meeting of seams", "meetings of seams"),
    ),
    Term("setting", "How the blocks are joined: straight, in rows, or on point, in diagonal rows."),
    Term(
        "setting triangle",
        "A triangle that fills the edge of a quilt on point: a side triangle or a corner triangle.",
        instead_of=("edge triangle", "edge triangles"),
    ),
    Term(
        "side triangle",
        "The setting triangle along a side of a quilt on point, cut twice so that its long side follows the thread.",
    ),
    Term("squared up", "Of a top: trimmed to straight sides and square corners, a seam outside the points."),
    Term("starch", "What stiffens fabric before it is cut, so that bias edges hold."),
    Term("stay-stitching", "A line of stitches just inside a bias edge, sewn to keep it from stretching."),
    Term("strip set", "Strips sewn side by side and then cut across."),
    Term(
        "strip width",
        "The narrow measure of a strip, as it is cut.",
        instead_of=("strip height", "height of the strip"),
    ),
    Term(
        "sub-cut",
        "The cut across a strip or a strip set, and the width of the pieces it gives.",
    ),
    Term("trimmed", "Cut down to a printed size after sewing."),
    Term("typo", "A figure that was printed wrong.", instead_of=("slip of the pen",)),
    Term("unit", "A small sewn part of a block, such as a half-square triangle."),
    Term("usable width", "What is left of the width of fabric without its selvages, mostly 40 to 44 in."),
    Term("width of fabric", "From selvage to selvage: strips are cut across it.", also=("WOF",)),
)
"""The terms in the order of the alphabet. What they mean is common usage, without a source."""


def term(name: str) -> Term:
    """The term of this name, or one that is called so too.

    >>> term("wof").name, term("wadding").name
    ('width of fabric', 'batting')
    >>> term("hemline")
    Traceback (most recent call last):
    ValueError: the glossary has no 'hemline'; it has backing, batting, bias, ...
    """
    wanted = str(name).casefold().strip()
    for one in TERMS:
        if wanted in [each.casefold() for each in (one.name, *one.also)]:
            return one
    raise ValueError(f"the glossary has no {str(name)[:40]!r}; it has {', '.join(one.name for one in TERMS)}")


def text(names: Iterable[str] | None = None) -> str:
    """The glossary, or these terms of it, a paragraph each.

    >>> print(text(["HST"]))
    half-square triangle (HST): One of the two triangles of a square cut once on the diagonal, and
        the square unit of two of them.
    """
    terms = TERMS if names is None else [term(name) for name in names]
    return "\n".join(fill(_line(one), WIDTH, subsequent_indent="    ") for one in terms)


def _line(one):
    also = f" ({', '.join(one.also)})" if one.also else ""
    return f"{one.name}{also}: {one.meaning}"
