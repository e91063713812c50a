"""Trials that take their time: one after the other, shown as they come, with progress, never in the kernel's way."""

import asyncio
import time

import ipywidgets as widgets

from .shown import live, said
from .still import Still

PATIENCE = 2.0  # seconds before progress is shown
BREATH = 0.01  # seconds between two trials in which the kernel hears what else is asked of it
WIDTH, HEIGHT, LABEL, CHOICE = 860, 520, "19em", "36em"


class Trials(widgets.VBox):
    """Choices, a button, and the picture of all trials so far; a new choice begins anew, and Stop keeps what there is.

    `trial(*chosen, number)` gives one result, `drawn(*chosen, results)` their picture and sentence; `first` trials are
    made at once, `most` at the press of the button.
    """

    def __init__(self, words, choices, trial, drawn, most, first=1, values=None):
        self.trial, self.drawn, self.most, self.first = trial, drawn, most, first
        self.results, self.task = [], None
        self.boxes = {label: self._box(label, options, values or {}) for label, options in choices.items()}
        self.go = widgets.Button(description=words, layout=widgets.Layout(width="auto"))
        self.stop = widgets.Button(description="Stop", disabled=True, layout=widgets.Layout(width="6em"))
        self.progress = widgets.IntProgress(
            max=most, description="", layout=widgets.Layout(width="20em", visibility="hidden")
        )
        self.picture = widgets.HTML(layout=widgets.Layout(min_height=f"{HEIGHT}px", overflow="auto"))
        self.status = widgets.HTML()
        self.go.on_click(lambda _: self.start())
        self.stop.on_click(lambda _: self.end())
        super().__init__(
            [*self.boxes.values(), widgets.HBox([self.go, self.stop, self.progress]), self.picture, self.status]
        )
        self.begin()

    @property
    def chosen(self):
        """What is chosen now, in the order of the boxes."""
        return [box.value for box in self.boxes.values()]

    def begin(self):
        """Forget all results, and make the first ones."""
        self.end()
        self.results = []
        for _ in range(self.first):
            self._one()
        self._show()

    def start(self):
        """Make the trials that are left, in the kernel's own loop where it has one."""
        self.end()
        if len(self.results) >= self.most:
            self.results = []
        try:
            self.task = asyncio.get_running_loop().create_task(self.run())
        except RuntimeError:  # no loop: nothing else waits
            asyncio.run(self.run())

    def end(self):
        """Make no further trial; what there is stays."""
        if self.task is not None:
            self.task.cancel()
        self.task = None
        self._resting()

    async def run(self):
        """Make one trial after the other, with a breath after each, and show them as they come."""
        self.go.disabled, self.stop.disabled, began = True, False, time.monotonic()
        try:
            while len(self.results) < self.most:
                self._one()
                self.progress.value = len(self.results)
                if time.monotonic() - began > PATIENCE:
                    self.progress.layout.visibility = "visible"
                self._show(f"{len(self.results)} of {self.most}. ")
                await asyncio.sleep(BREATH)
            self._show()
        except Exception as error:
            fault = str(error) if isinstance(error, ValueError) else f"a fault, {type(error).__name__}: {error}"
            self.status.value = said(f"Stopped at trial {len(self.results) + 1}: {fault}", refused=True)
            raise
        finally:
            self._resting()

    def _resting(self):
        self.go.disabled, self.stop.disabled = False, True
        self.progress.layout.visibility = "hidden"

    def _one(self):
        self.results.append(self.trial(*self.chosen, len(self.results)))

    def _show(self, before=""):
        picture, sentence = self.drawn(*self.chosen, self.results)
        self.picture.value = live(picture, WIDTH, HEIGHT, self)
        self.status.value = said(before + sentence)

    def _box(self, label, options, values):
        box = widgets.Dropdown(
            options=options,
            value=values.get(label, options[0]),
            description=label,
            style={"description_width": LABEL},
            layout=widgets.Layout(width=CHOICE),
        )
        box.observe(lambda _: self.begin(), "value")
        return box

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and beside it a still of what there is, for readers without a kernel."""
        still, alt = Still(*self.drawn(*self.chosen, self.results), WIDTH, HEIGHT)._repr_mimebundle_()
        return {**super()._repr_mimebundle_(**kwargs), **still}, alt
