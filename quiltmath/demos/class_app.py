"""The class sheet on the page: a box for each measure, the lines as they are pasted, their picture, what each is to
do."""

import ipywidgets as widgets

from .. import lengths, seamtest
from ..draw.written import unbroken
from ..handout.seam_page import COUNT, STRIP
from ..seamtest.classes import LENGTHS
from .chosen import Chosen
from .controls import Choice
from .downloads import Downloads, picture_files
from .on_page import Lines
from .still import Still

CELLS = {  # the columns of a line and the labels of their boxes; mostly the first ones are filled
    "name": "Name",
    "total": f"{LENGTHS['total'].capitalize()} (in)",
    "centre": f"{LENGTHS['centre'].capitalize()} (in)",
    "strip": f"{LENGTHS['strip'].capitalize()} ({lengths.text(STRIP)} in)",
    "strips": f"Strips ({COUNT})",
}
USUAL = 3
TITLE, WIDTH, HEIGHT = "The class sheet", 860, 620


class ClassApp(widgets.VBox):
    """Readings typed one by one or pasted, how finely they were read, what they come to, picture and table; what cannot
    be read leaves the last good picture and table. The first reading that is typed takes the place of the example.

    `drawn(sheet, reading)` gives a Shown, `table(sheet, reading)` a Table.
    """

    def __init__(self, sheet, steps, step, drawn, table):
        self.drawn, self.table, self.example = drawn, table, sheet
        self.lines, self.told = Lines(cells=list(CELLS.values()), usual=USUAL, text=sheet), widgets.HTML()
        fineness = Choice("reading", "Read to the nearest, in inches", steps, step)
        self.live = Chosen(TITLE, (fineness,), (WIDTH, HEIGHT), self.refresh)
        self.downloads = Downloads(picture_files(TITLE, lambda: self.good.picture, WIDTH, HEIGHT))
        self.lines.observe(lambda change: self.add(**dict(zip(CELLS, change["new"]["cells"]))), "given")
        self.lines.observe(lambda _: self.read_again(), "text")
        super().__init__([self.lines, self.live, self.told, self.downloads])
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
        """Read the lines that were pasted or corrected; what was said of the reading typed before them is past."""
        self._answer()
        self.refresh()

    def refresh(self):
        """Read the lines as they are now, or say at them why none can be read."""
        typed = self.sheet, self.live.now["reading"]
        try:
            self.good = self.drawn(*typed)
        except ValueError as error:
            self._answer(f"Not read: {error}.", "text")
            return
        self.told.value = self.table(*typed).html()
        self.live.draw(*self.good)

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and beside it a still of what it opens on, for readers without a kernel."""
        still, alt = Still(*self.good, WIDTH, HEIGHT)._repr_mimebundle_()
        text = f"{still['text/plain']}\n{self.table(self.sheet, self.live.now['reading']).text()}"
        return {**super()._repr_mimebundle_(**kwargs), **still, "text/plain": text}, alt
