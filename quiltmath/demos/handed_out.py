"""The handout of a plan or a sheet as files to take away: its pattern, cutting diagrams, templates, cutting list."""

from .. import making, review
from ..handout import PARTS, handout
from ..handout.cutting_csv import cutting_csv
from .downloads import TO_PRINT, Downloads, File, file_name

LABELS = {"pattern": "Pattern", "cutting": "Cutting diagrams", "templates": "Templates"}


def handout_files(title, sheet):
    """A File for each part of a sheet's handout, and one for its cutting list as CSV; `sheet()` gives the sheet as it
    is when one of them is made.

    >>> from quiltmath import settings
    >>> [file.name for file in handout_files("Lap quilt", settings.straight(4, 5, 9).sheet)][::3]
    ['lap-quilt-pattern.pdf', 'lap-quilt-cutting-list.csv']
    """
    parts = [part for part in PARTS if part.of_sheet]
    files = [
        File(
            f"{LABELS[part.name]} as PDF",
            file_name(f"{title} {part.name}", "pdf"),
            lambda name=part.name: handout(review.review(sheet()), [name]).pdf(),
        )
        for part in parts
    ]
    listed = File(
        "Cutting list as CSV",
        file_name(f"{title} cutting list", "csv"),
        lambda: cutting_csv(making.make(sheet()).needs.values()).encode("utf-8-sig"),
    )
    return (*files, listed)


def handed_out(plan, more=()):
    """The buttons of a plan's handout, and `more` files beside them, to be the last line of a cell."""
    return Downloads((*handout_files(plan.title, plan.sheet), *more), f"{plan.title}:")


def chart_file():
    """The chart for the wall, a File."""
    return File("Chart as PDF", "quiltmath-chart.pdf", lambda: handout(None, ["charts"]).pdf())


def chart():
    """The button of the chart for the wall, to be the last line of a cell."""
    return Downloads([chart_file()], TO_PRINT)
