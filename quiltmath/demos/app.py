"""The app of a demonstration: a labelled box and a slider for each control, the picture, the result in words."""

from copy import copy
from time import thread_time

import ipywidgets as widgets

from ..draw.fitted import Place
from .controls import Choice
from .demo import Drawn
from .downloads import Downloads, picture_files
from .on_page import Live
from .still import Still

QUICK = 0.1  # s of work: a picture that takes more is not drawn ahead, for what is asked for meanwhile must wait


class App(widgets.VBox):
    """Controls, picture and sentence of one Demo, in that order, and its picture to take away; it keeps the last good
    picture, and what was typed as it was typed.

    What cannot be read or drawn is said in words below the box it came from, and nothing is swallowed.
    """

    REFUSED = "Not drawn"

    def __init__(self, demo, values):
        self.demo, self.now = demo, dict(values)
        self.controls = {control.name: control for control in demo.controls}
        self.typed = {name: control.text(self.now[name]) for name, control in self.controls.items()}
        self.wrong, self.drawn, self.quick, self.place = {}, Drawn("", "", None, []), False, demo.place
        self.live = Live(title=demo.title, controls=[described(control) for control in demo.controls])
        super().__init__([self.live, *self._taken_away()])
        self.refresh(next(iter(self.controls)))
        self.live.observe(lambda change: self._asked(change["new"]), "asked")
        self.live.observe(lambda change: self._fit(change["new"]), "room")
        self.live.on_msg(lambda _, wanted, __: self.live.send({"wanted": wanted, **self.ahead(**wanted)}))

    def type(self, name, text):
        """Take what was typed or chosen for a control."""
        control = self.controls[name]
        self.typed[name] = str(text)
        try:
            value = control.read(text)
        except ValueError as error:
            self.wrong[name] = str(error)
            self._show()
        else:
            self._take(name, value)

    def slide(self, name, stop):
        """Move a control's slider to one of its stops, counted from 0."""
        control = self.controls[name]
        value = control.stops[stop]
        self.typed[name] = control.text(value)
        self._take(name, value)

    def refresh(self, moved):
        """Draw the picture for the values that hold now, or say at the control that was moved why not."""
        try:
            self.drawn = self._draw(self.place, self.now)
        except ValueError as error:
            self.wrong[moved] = f"{self.controls[moved].label}: {self.typed[moved]} is {self.REFUSED.lower()}; {error}"
        except Exception as error:
            self.wrong[moved] = f"This app has a fault, whatever was typed: {type(error).__name__}: {error}"
            raise
        else:
            self.wrong = {name: words for name, words in self.wrong.items() if self._unread(name)}
        finally:
            self._show()

    def ahead(self, values, room):
        """What the page will be shown when it asks for these values, typed, in the room that it has; nothing where it
        has another room by now, or where they are refused: that is said to whoever asks for them.

        Nothing is changed by it, and a picture beside it on the page keeps its arrangement.
        """
        if room != self.live.room:
            return {}
        try:
            read = {name: control.read(values[name]) for name, control in self.controls.items()}
            drawn = self._draw(copy(self.place), read)
        except ValueError:
            return {}
        return {**drawn._asdict(), "quick": self.quick}

    def _taken_away(self):
        """What stands below: its picture, to take away."""
        demo = self.demo
        return [Downloads(picture_files(demo.title, lambda: demo.model(**self.now).picture, demo.width, demo.height))]

    def _draw(self, place, values):
        """The Drawn of these values, and whether it was quick to draw."""
        begun = thread_time()
        drawn = self.demo.live(f"q{self.live.model_id[:12]}-", place, **values)
        self.quick = thread_time() - begun < QUICK
        return drawn

    def _take(self, name, value):
        self.now[name] = value
        self.wrong.pop(name, None)
        self.refresh(name)

    def _unread(self, name):
        """Whether the box holds something that is no value."""
        try:
            self.controls[name].read(self.typed[name])
        except ValueError:
            return True
        return False

    def _asked(self, asked):
        if "stop" in asked:
            self.slide(asked["name"], asked["stop"])
        else:
            self.type(asked["name"], asked["text"])

    def _fit(self, room):
        self.place = Place(*room)
        self.refresh(next(iter(self.controls)))

    def _show(self):
        self.live.shown = {
            **self.drawn._asdict(),
            "quick": self.quick,
            "values": {name: self._set(control) for name, control in self.controls.items()},
            "wrong": dict(self.wrong),
            "by": self.live.asked.get("by", ""),
            "turn": self.live.asked.get("turn", 0),
        }

    def _set(self, control):
        """How the page shows a control: what stands in its box, the nearest stop of its slider, how that is said."""
        typed, value = self.typed[control.name], self.now[control.name]
        if not control.slider:
            return {"text": typed}
        nearest = min(range(len(control.stops)), key=lambda stop: abs(control.stops[stop] - value))
        return {"text": typed, "stop": nearest, "spoken": control.spoken(value)}

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and beside it a still of what it opens on, for readers without a kernel."""
        shown = self.demo.model(**self.now)
        still, alt = Still(shown.picture, shown.sentence, self.demo.width, self.demo.height)._repr_mimebundle_()
        return {**super()._repr_mimebundle_(**kwargs), **still}, alt


def described(control):
    """A control as the page needs it: its label, what it allows, the stops of its slider as they are typed and said."""
    told = {"name": control.name, "label": control.label, "range": control.range}
    if not control.slider:
        return {**told, "options": list(control.options)} if isinstance(control, Choice) else told
    stops = [{"text": control.text(value), "spoken": control.spoken(value)} for value in control.stops]
    return {**told, "stops": stops}
