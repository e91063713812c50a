"""Trials that take their time: one after the other, shown as they come, with progress, never in the kernel's way."""

import asyncio
import time

import ipywidgets as widgets

from .chosen import Chosen
from .downloads import BUTTON, TEXT
from .on_page import ASIDE
from .still import Still

PATIENCE = 2.0  # seconds before progress is shown
BREATH = 0.01  # seconds between two trials in which the kernel hears what else is asked of it
WIDTH, HEIGHT = 860, 520


class Trials(widgets.VBox):
    """A button, choices, and the picture of all trials so far; a new choice begins anew, and Stop keeps what there is.

    `trial(*chosen, number)` gives one result, `drawn(*chosen, results)` their picture and sentence; `first` trials are
    made at once, `most` at the press of the button.
    """

    def __init__(self, words, choices, trial, drawn, most, first=1):
        self.trial, self.drawn, self.most, self.first = trial, drawn, most, first
        self.results, self.task = [], None
        self.live = Chosen(words, choices, (WIDTH, HEIGHT), self.begin)
        self.go = widgets.Button(description=words, style=TEXT, layout=BUTTON)
        self.stop = widgets.Button(description="Stop", disabled=True, style=TEXT, layout=BUTTON)
        self.progress = widgets.IntProgress(max=most, layout=widgets.Layout(width="20em", visibility="hidden"))
        self.go.on_click(lambda _: self.start())
        self.stop.on_click(lambda _: self.end())
        row = widgets.HBox([self.go, self.stop, self.progress], layout=widgets.Layout(flex_flow="row wrap"))
        row.add_class("quiltmath-form")
        super().__init__([row, self.live])
        self.add_class(ASIDE)
        self.begin()

    @property
    def chosen(self):
        """What is chosen now, in the order of the choices."""
        return list(self.live.now.values())

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
            self.live.refuse(f"Stopped at trial {len(self.results) + 1}: {fault}")
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
        self.live.draw(picture, before + sentence)

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and beside it a still of what there is, for readers without a kernel."""
        still, alt = Still(*self.drawn(*self.chosen, self.results), WIDTH, HEIGHT)._repr_mimebundle_()
        return {**super()._repr_mimebundle_(**kwargs), **still}, alt
