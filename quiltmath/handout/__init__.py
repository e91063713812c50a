"""Pages to hand over: a pattern, its cutting diagrams, templates, charts and worksheets, as one PDF for the printer.

    from quiltmath import handout, pattern, review
    found = review.review(pattern.read("lap-quilt.toml"))
    handout.handout(found, only=["pattern"], paper="A4").save("lap-quilt.pdf")

Each part is a module of its own that gives pages (`PARTS` names them all); `paper.py` holds the paper and what stands
on every page.
"""

from .paper import PAPERS, Pages, Paper, paper
from .parts import PARTS, Part, handout
from .refused import CannotHandOver

__all__ = ["PAPERS", "PARTS", "CannotHandOver", "Pages", "Paper", "Part", "handout", "paper"]
