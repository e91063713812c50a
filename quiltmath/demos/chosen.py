"""Choices with a picture below them, as an app's are on the page, whose owner says when to draw and what."""

from ..draw.fitted import Place
from ..draw.written import unbroken
from .app import described
from .demo import Shown, drawn
from .on_page import Live


class Chosen(Live):
    """Choices, picture and sentence; `chosen()` is called when another is chosen. The page says what room it has, and
    what was drawn last is laid out for it; a refusal leaves the last good picture."""

    def __init__(self, title, choices, size, chosen):
        super().__init__(title=title, controls=[described(choice) for choice in choices])
        self.now = {choice.name: choice.value for choice in choices}
        self.last, self.place, self.choices, self.chosen = None, Place(*size), choices, chosen
        self.least = 0
        self.observe(lambda change: self._asked(change["new"]), "asked")
        self.observe(lambda change: self._fit(change["new"]), "room")

    def draw(self, picture, sentence, least=0):
        """Show this Picture or Board and sentence; it is given `least` px of height at least, at its words' own size,
        however low the window."""
        self.last, self.least = Shown(picture, unbroken(sentence)), least
        self._show()

    def refuse(self, words):
        """Say at the first choice why nothing else is drawn."""
        self._show(words)

    def _asked(self, asked):
        self.now[asked["name"]] = asked["text"]
        self.chosen()

    def _fit(self, room):
        self.place = Place(*room)
        self._show(*self.shown.get("wrong", {}).values())

    def _show(self, wrong=""):
        if self.last is None:
            return
        least = self.least * self.place.words
        place = self.place if least <= self.place.height else Place(self.place.width, least, self.place.words)
        self.shown = {
            **drawn(self.last, place, f"q{self.model_id[:12]}-")._asdict(),
            "quick": False,
            "values": {name: {"text": value} for name, value in self.now.items()},
            "wrong": {self.choices[0].name: unbroken(wrong)} if wrong else {},
            "by": self.asked.get("by", ""),
            "turn": self.asked.get("turn", 0),
        }
