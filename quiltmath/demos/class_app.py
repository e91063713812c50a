"""The class sheet on the page: a box for each measure, the lines as they are pasted, their picture; and elsewhere on
the page, what each is to do."""

from html import escape

import ipywidgets as widgets

from .. import lengths, seamtest
from ..draw.written import unbroken
from ..handout.seam_page import COUNT, STRIP
from ..seamtest.classes import LENGTHS
from .chosen import Chosen
from .controls import Choice
from .downloads import Downloads, picture_files
from .on_page import ASIDE, Lines
from .still import Still

CELLS = {  # the columns of a line and the labels of their boxes; mostly the first ones are filled
    "name": "Name",
    "total": f"{LENGTHS['total'].capitalize()} (in)",
    "centre": f"{LENGTHS['centre'].capitalize()} (in)",
    "strip": f"{LENGTHS['strip'].capitalize()} (in)",
    "strips": "Strips",
}
UNLESS = {"strip": lengths.text(STRIP), "strips": str(COUNT)}  # what an empty box stands for
USUAL = 3
TITLE, WIDTH, HEIGHT = "The class sheet", 860, 620
FRAME, LINE = 140, 22  # px of the picture at its words' own size: round its lines, and for a line
IN_FULL = "What was found, reading by reading"


class WhoDoesWhat(widgets.HTML):
    """Who of a class is to do what, and folded below it what was found of each; it needs no kernel to be read."""

    def tell(self, to_do, found):
        """Show these Tables."""
        self.to_do = to_do
        self.value = f"{to_do.html()}<details><summary>{escape(IN_FULL)}</summary>{found.html()}</details>"

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and its table for readers without a kernel."""
        return {**super()._repr_mimebundle_(**kwargs), **self.to_do._repr_mimebundle_()}


class ClassApp(widgets.VBox):
    """Readings typed one by one or pasted, how finely they were read, what they come to, and their picture; `told` says
    beside it what each is to do. What cannot be read leaves the last good picture and what was told of it. The first
    reading that is typed takes the place of the example.

    `drawn(sheet, reading)` gives a Shown, `tables(sheet, reading)` two Tables: who does what, and what was found of
    each; `not_read(sheet)` says what is wrong with single lines.
    """

    def __init__(self, sheet, steps, step, drawn, tables, not_read):
        self.drawn, self.tables, self.not_read, self.example = drawn, tables, not_read, sheet
        unless = [UNLESS.get(cell, "") for cell in CELLS]
        self.lines = Lines(cells=list(CELLS.values()), unless=unless, usual=USUAL, text=sheet)
        self.told = WhoDoesWhat()
        self.told.add_class("quiltmath-to-do")
        fineness = Choice("reading", "Read to the nearest, in inches", steps, step)
        self.live = Chosen(TITLE, (fineness,), (WIDTH, HEIGHT), self.refresh)
        self.downloads = Downloads(picture_files(TITLE, lambda: self.good.picture, WIDTH, HEIGHT))
        self.lines.observe(lambda change: self.add(**dict(zip(CELLS, change["new"]["cells"]))), "given")
        self.lines.observe(lambda _: self.read_again(), "text")
        super().__init__([self.lines, self.live, self.downloads])
        self.add_class(ASIDE)
        self.refresh()

    @property
    def sheet(self):
        """The lines as they are now."""
        return self.lines.text

    def add(self, **cells):
        """Take one more reading, the `CELLS` of its line, or say at its boxes why not."""
        before, reading = "" if self.sheet == self.example else self.sheet, self.live.now["reading"]
        try:
            alone = seamtest.class_sheet(seamtest.with_reading("", **cells), reading=reading)
            if alone.refused:
                raise ValueError(alone.refused[0].words)
            longer = seamtest.with_reading(before, **cells)
            seamtest.class_sheet(longer, reading=reading)
        except ValueError as error:
            self._answer(f"Not added: {error}.", "line")
            return
        self.lines.text = longer

    def _answer(self, wrong="", at=""):
        """Say what is wrong with the next line, or with the text of all lines, or that nothing is."""
        self.lines.answered = {"turn": self.lines.given.get("turn", 0), "wrong": unbroken(wrong), "at": at}

    def read_again(self):
        """Read the lines that were pasted or corrected, and say at them which cannot be read; what was said of the
        reading typed before them is past."""
        if self.refresh():
            wrong = self.not_read(self.sheet)
            self._answer(wrong, "text" if wrong else "")

    def refresh(self):
        """Read the lines as they are now, or say at them why none can be read; whether one can."""
        typed = self.sheet, self.live.now["reading"]
        try:
            self.good = self.drawn(*typed)
        except ValueError as error:
            self._answer(f"Not read: {error}.", "text")
            return False
        to_do, found = self.tables(*typed)
        self.told.tell(to_do, found)
        self.live.draw(*self.good, least=FRAME + LINE * len(found.rows))
        return True

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and beside it a still of what it opens on, for readers without a kernel."""
        still, alt = Still(*self.good, WIDTH, HEIGHT)._repr_mimebundle_()
        return {**super()._repr_mimebundle_(**kwargs), **still}, alt
