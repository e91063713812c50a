"""A demonstration as data: its controls, and one plain function from their values to a picture and a
sentence."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product
from typing import Any, NamedTuple

from ..draw.fitted import Place
from ..draw.svg_writer import page_svg
from .controls import Choice, Length, Whole
from .still import Still


class Shown(NamedTuple):
    """What a demonstration shows: a Picture or Board, and the result in words."""

    picture: Any
    sentence: str


class Drawn(NamedTuple):
    """What a page shows of it: SVG that takes the width of its place, the result in words, the width and height of
    the SVG in its own px, and there the handles: each with the name of its control and the spot of every stop."""

    markup: str
    sentence: str
    size: tuple[float, float] | None
    handles: list[tuple[str, list[list[float]]]]


def drawn(shown: Shown, place: Place, ids: str = "") -> Drawn:
    """What a page with that room shows of this."""
    page = place.page(shown.picture)
    handles = [
        (handle.control, cell.px(handle.spots).round(2).tolist())
        for cell in page.cells
        if (handle := cell.picture.handle) is not None
    ]
    return Drawn(page_svg(page, ids, scaled=True), shown.sentence, (page.width, page.height), handles)


@dataclass(frozen=True)
class Controlled:
    """What controls set: `model(**values)` is given the value of each, and refuses with a ValueError in words."""

    title: str
    model: Callable[..., Any]
    controls: tuple[Any, ...]

    def values(self, **given: Any) -> dict[str, Any]:
        """The value of every control: what is given, read as if it were typed, and the rest as the app
        opens."""
        names = [control.name for control in self.controls]
        unknown = sorted(set(given) - set(names))
        if unknown:
            raise ValueError(f"{self.title} is set by {', '.join(names)}; got {', '.join(unknown)}: use these names")
        return {
            control.name: control.read(given[control.name]) if control.name in given else control.value
            for control in self.controls
        }

    def __call__(self, **given: Any) -> Any:
        """What the model makes of these values, without any widget."""
        return self.model(**self.values(**given))

    def cases(self) -> list[dict[str, Any]]:
        """Every combination of the controls' corner values."""
        names = [control.name for control in self.controls]
        return [dict(zip(names, row)) for row in product(*(control.corners for control in self.controls))]


@dataclass(frozen=True)
class Demo(Controlled):
    """A demonstration; `model(**values)` returns a Shown, and refuses with a ValueError in words.

    >>> from quiltmath.demos.controls import Whole
    >>> from quiltmath.draw import Picture, Shapes
    >>> def squares(n):
    ...     row = Shapes([[(i, 0), (i + 1, 0), (i + 1, 1), (i, 1)] for i in range(n)], "white")
    ...     return Shown(Picture([row], alt=f"A row of {n} squares."), f"{n} squares are {n} in long.")
    >>> demo = Demo("Squares in a row", squares, (Whole("n", "Squares", 1, 9, 3),))
    >>> demo(n="4").sentence
    '4 squares are 4 in long.'
    >>> demo.cases()
    [{'n': 1}, {'n': 3}, {'n': 9}]
    >>> demo(m=4)
    Traceback (most recent call last):
    ValueError: Squares in a row is set by n; got m: use these names
    """

    model: Callable[..., Shown]
    controls: tuple[Whole | Length | Choice, ...]
    width: int = 860
    height: int = 620
    aside: bool = False  # on a wide page for a class, its picture stands beside its controls and words

    def live(self, ids: str = "", place: Place | None = None, **values: Any) -> Drawn:
        """What the app shows for these values."""
        return drawn(self.model(**values), place or self.place, ids)

    @property
    def place(self) -> Place:
        """The place of its picture until a page says what room it has."""
        return Place(self.width, self.height)

    def still(self, **given: Any) -> Still:
        """The same as a picture that needs no running kernel: a Still."""
        shown = self(**given)
        return Still(shown.picture, shown.sentence, self.width, self.height)

    def app(self, **given: Any) -> Any:
        """The app itself, to be the last line of a cell; opens on the given values."""
        from .app import App
        from .on_page import ASIDE

        app = App(self, self.values(**given))
        return app.add_class(ASIDE) if self.aside else app
