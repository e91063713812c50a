"""The app of a demonstration: a labelled number box and a slider for each control, the picture, the result in
words."""

from html import escape

import ipywidgets as widgets

from .downloads import Downloads, picture_files
from .still import Still

LABEL, BOX, CHOICE, SLIDER = "19em", "27em", "46em", "20em"


class App(widgets.VBox):
    """Controls, picture and status line of one Demo, in that order, and its picture to take away; it keeps the last
    good picture.

    A slider has no name that a screen reader could say, so each stands beside a labelled box, linked to it.
    What cannot be read or drawn is said in words in the status line, and nothing is swallowed.
    """

    def __init__(self, demo, values):
        self.demo, self.now = demo, dict(values)
        self.boxes, self.sliders, self._linking = {}, {}, False
        self.picture = widgets.HTML(layout=widgets.Layout(min_height=f"{demo.height}px", overflow="auto"))
        self.status = widgets.HTML()
        rows = [self._row(control) for control in demo.controls]
        self.downloads = Downloads(
            picture_files(demo.title, lambda: demo.model(**self.now).picture, demo.width, demo.height)
        )
        super().__init__([*rows, self.picture, self.status, self.downloads])
        self.refresh()

    def refresh(self):
        """Draw the picture for the values that hold now, or say why it cannot be drawn."""
        try:
            markup, sentence = self.demo.live(ids=f"q{self.model_id[:12]}-", **self.now)
        except ValueError as error:
            self.refuse(error)
        except Exception as error:
            self.refuse(f"this app has a fault, whatever was typed: {type(error).__name__}: {error}")
            raise
        else:
            self.picture.value = markup
            self.status.value = f'<p role="status" style="font-size:16px;line-height:1.5">{escape(sentence)}</p>'

    def refuse(self, error):
        """Say in the status line what is wrong; the last good picture stays."""
        words = escape(f"Not drawn: {error}")
        self.status.value = f'<p role="alert" style="font-size:16px;line-height:1.5"><strong>{words}</strong></p>'

    def _row(self, control):
        style = {"description_width": LABEL}
        if control.slider is None:
            box = widgets.Dropdown(
                options=control.options,
                value=self.now[control.name],
                description=control.caption,
                style=style,
                layout=widgets.Layout(width=CHOICE),
            )
        else:
            box = widgets.Text(
                control.text(self.now[control.name]),
                description=control.caption,
                style=style,
                continuous_update=False,
                layout=widgets.Layout(width=BOX),
            )
        box.observe(lambda change: self._typed(control, change["new"]), "value")
        self.boxes[control.name] = box
        if control.slider is None:
            return widgets.HBox([box])
        low, high, step = control.slider
        kind = widgets.IntSlider if isinstance(step, int) else widgets.FloatSlider
        slider = kind(
            min=low,
            max=high,
            step=step,
            value=self.now[control.name],
            readout=False,
            layout=widgets.Layout(width=SLIDER),
        )
        slider.observe(lambda change: self._slid(control, change["new"]), "value")
        self.sliders[control.name] = slider
        return widgets.HBox([box, slider])

    def _typed(self, control, text):
        if self._linking:
            return
        try:
            value = control.read(text)
        except ValueError as error:
            self.refuse(error)
            return
        self._take(control, value)

    def _slid(self, control, position):
        if not self._linking:
            self._take(control, control.from_slider(position))

    def _take(self, control, value):
        """Hold this value, redraw once, and let box and slider both say so."""
        self.now[control.name] = value
        self.refresh()
        self._linking = True
        try:
            self.boxes[control.name].value = control.text(value)
            if control.name in self.sliders:
                kind = int if isinstance(control.slider[2], int) else float
                self.sliders[control.name].value = kind(value)
        finally:
            self._linking = False

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and beside it a still of what it opens on, for readers without a kernel."""
        shown = self.demo.model(**self.now)
        still, alt = Still(shown.picture, shown.sentence, self.demo.width, self.demo.height)._repr_mimebundle_()
        return {**super()._repr_mimebundle_(**kwargs), **still}, alt
