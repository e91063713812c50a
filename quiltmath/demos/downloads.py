"""Files to take away from a notebook: a button for each, and a link to save what it made."""

from base64 import b64encode
from collections.abc import Callable
from html import escape
from typing import NamedTuple

import ipywidgets as widgets

from .on_page import Status

KINDS = {
    "svg": "image/svg+xml",
    "png": "image/png",
    "pdf": "application/pdf",
    "csv": "text/csv",
}
TO_PRINT = "To print:"
TEXT = {"font_size": "16px"}
BUTTON = {"width": "auto", "height": "36px", "max_width": "24em"}


class File(NamedTuple):
    """A file that can be made: what the button says, the name it is saved under, and a function that gives its bytes.

    What cannot be made is refused by that function with a ValueError, whose words are shown.
    """

    label: str
    name: str
    make: Callable[[], bytes]


class Downloads(widgets.VBox):
    """A row of buttons, framed so that none is taken for an answer to what stands above it; each makes its file anew
    when it is pressed and then shows the link that saves it."""

    def __init__(self, files, words="Take away:"):
        self.files, self.words = tuple(files), words
        self.buttons = {file.label: self._button(file) for file in self.files}
        self.link = Status()
        row = widgets.HBox(
            [widgets.Label(words, style=TEXT), *self.buttons.values()], layout=widgets.Layout(flex_flow="row wrap")
        )
        super().__init__([row, self.link])
        self.add_class("quiltmath-form").add_class("quiltmath-downloads")

    def make(self, file):
        """Make this file, and show its link or why there is none."""
        self._say("Making it …")
        try:
            content = file.make()
        except ValueError as error:
            self._say(escape(f"{file.name} was not made: {error}"), "alert")
        except Exception as error:
            fault = f"This button has a fault, whatever was chosen: {type(error).__name__}: {error}"
            self._say(escape(fault), "alert")
            raise
        else:
            self._say(f"{link(file.name, content)} ({max(1, round(len(content) / 1000)):,} kB)")

    def _button(self, file):
        button = widgets.Button(description=file.label, tooltip=f"Make {file.name}", style=TEXT, layout=BUTTON)
        button.on_click(lambda _: self.make(file))
        return button

    def _say(self, html, role="note"):
        self.link.value = f'<p role="{role}">{html}</p>'

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and what it offers for readers without a kernel."""
        words = f"{self.words} {', '.join(file.label for file in self.files)}"
        return {**super()._repr_mimebundle_(**kwargs), "text/plain": words}


def link(name, content):
    """The link, as HTML, that saves these bytes under that name.

    >>> link("a.csv", b"A,4")
    '<a download="a.csv" href="data:text/csv;base64,QSw0">Save a.csv</a>'
    """
    kind, shown = KINDS[name.rpartition(".")[2]], escape(name, quote=True)
    return f'<a download="{shown}" href="data:{kind};base64,{b64encode(content).decode()}">Save {shown}</a>'


def file_name(title, ending):
    """A file name made of a title.

    >>> file_name("Straight, or on point?", "svg")
    'straight-or-on-point.svg'
    """
    words = "".join(char if char.isalnum() else " " for char in str(title).lower()).split()
    return f"{'-'.join(words)[:60] or 'quiltmath'}.{ending}"


def picture_files(title, drawn, width, height):
    """The files of a live picture; `drawn()` gives the Picture or Board as it is shown now."""
    from ..draw import png, svg

    return (
        File("Picture as SVG", file_name(title, "svg"), lambda: svg(drawn(), width, height).encode()),
        File("Picture as PNG", file_name(title, "png"), lambda: png(drawn(), width, height)),
    )
