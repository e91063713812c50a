"""The class sheet on the page: lines to type or paste into, their picture, and what each is to do."""

import ipywidgets as widgets

from .downloads import Downloads, picture_files
from .shown import live, said
from .still import Still

WIDTH, HEIGHT, LABEL, WIDE = 860, 620, "19em", "46em"
LINES = 12


class ClassApp(widgets.VBox):
    """Readings, how finely they were read, what they come to, picture and table; what cannot be read leaves the last
    good picture and table.

    `drawn(sheet, reading)` gives a Shown, `table(sheet, reading)` a Table.
    """

    def __init__(self, sheet, steps, step, drawn, table):
        self.drawn, self.table = drawn, table
        wide, style = widgets.Layout(width=WIDE), {"description_width": LABEL}
        self.sheet = widgets.Textarea(
            sheet,
            description="A line each: name, total, centre",
            rows=LINES,
            continuous_update=False,
            layout=wide,
            style=style,
        )
        self.reading = widgets.Dropdown(
            options=steps, value=step, description="Read to the nearest, in inches", layout=wide, style=style
        )
        self.status, self.picture, self.told = widgets.HTML(), widgets.HTML(), widgets.HTML()
        self.downloads = Downloads(picture_files("The class sheet", lambda: self.good.picture, WIDTH, HEIGHT))
        for box in (self.sheet, self.reading):
            box.observe(lambda _: self.refresh(), "value")
        super().__init__([self.sheet, self.reading, self.status, self.picture, self.told, self.downloads])
        self.refresh()

    def refresh(self):
        """Read the lines as they are now, or say why none can be read."""
        typed = self.sheet.value, self.reading.value
        try:
            self.good = self.drawn(*typed)
        except ValueError as error:
            self.status.value = said(f"Not read: {error}", refused=True)
            return
        self.status.value, self.told.value = said(self.good.sentence), self.table(*typed).html()
        self.picture.value = live(self.good.picture, WIDTH, HEIGHT, self)

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and beside it a still of what it opens on, for readers without a kernel."""
        still, alt = Still(*self.good, WIDTH, HEIGHT)._repr_mimebundle_()
        text = f"{still['text/plain']}\n{self.table(self.sheet.value, self.reading.value).text()}"
        return {**super()._repr_mimebundle_(**kwargs), **still, "text/plain": text}, alt
