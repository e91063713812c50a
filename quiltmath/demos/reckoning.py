"""A table that follows what is typed and chosen, and in a sentence what it comes to."""

from dataclasses import dataclass
from typing import Any, NamedTuple

from ..draw.fitted import Place
from ..draw.written import unbroken
from .app import App
from .demo import Controlled, Drawn
from .table import Table


class Reckoned(NamedTuple):
    """What a reckoning shows: a Table, and what it comes to in words."""

    table: Table
    sentence: str


@dataclass(frozen=True)
class Reckoning(Controlled):
    """Figures for what a quilter types; `model(**values)` returns a Reckoned, and refuses with a ValueError in words.

    >>> from quiltmath.demos.typed import Typed
    >>> def halves(side):
    ...     return Reckoned(Table(("whole", "half"), ((f"{side} in", f"{side / 2} in"),)), f"Half is {side / 2} in.")
    >>> halving = Reckoning("Halves", halves, (Typed("side", "Side", "1", "9", "3"),))
    >>> halving(side="5").sentence
    'Half is 5/2 in.'
    """

    place = Place(860, 620)

    def live(self, ids: str = "", place: Place | None = None, **values: Any) -> Drawn:
        """What the page shows for these values."""
        table, sentence = self.model(**values)
        return Drawn(table.html(), sentence, None, [])

    def app(self, **given: Any) -> Any:
        """Boxes, table and sentence, to be the last line of a cell; opens on the given values."""
        return ReckoningApp(self, self.values(**given))


class ReckoningApp(App):
    """Controls, table and sentence of one Reckoning; it keeps the last good table, and the boxes as they were typed."""

    REFUSED = "Not worked out"

    def _taken_away(self):
        return []

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and beside it the table it opens on, for readers without a kernel."""
        table, sentence = self.demo.model(**self.now)
        text = unbroken(f"{table.text()}\n{sentence}")
        return {**super(App, self)._repr_mimebundle_(**kwargs), "text/html": table.html(), "text/plain": text}
