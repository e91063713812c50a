"""A lesson: what a notebook tells with one demonstration, and calls one line a cell."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from .demo import Demo
from .point_questions import PointQuestion
from .questions import Question


@dataclass(frozen=True)
class Lesson:
    """A demonstration with its questions; what the guess uncovers is the first look, or else the app.

    `questions()` gives the named questions, worked out once, when one is asked; "guess" is the guess. `first` is a Demo
    with one control; `uncovered()` makes another widget for the guess to uncover.

    >>> from quiltmath.demos.controls import Whole
    >>> from quiltmath.demos.demo import Shown
    >>> from quiltmath.draw import Picture, Shapes
    >>> def strip(n):
    ...     return Shown(Picture([Shapes([[(0, 0), (n, 0), (n, 1), (0, 1)]], "blue")], alt=f"{n} in."), f"{n} in long.")
    >>> def questions():
    ...     return {"guess": Question("How long are 3 squares of 1 in?", 3, unit="in")}
    >>> lesson = Lesson(Demo("A strip", strip, (Whole("n", "Squares", 1, 9, 3),)), questions)
    >>> lesson.question("guess").judge("3").kind
    'exact'
    >>> lesson.ask("length")
    Traceback (most recent call last):
    ValueError: A strip asks: guess; got 'length': use one of these names
    >>> lesson.first_look()
    Traceback (most recent call last):
    ValueError: A strip has no first look; call app()
    """

    demo: Demo
    questions: Callable[[], dict[str, Question | PointQuestion]]
    first: Demo | None = None
    uncovered: Callable[[], Any] | None = None

    def __post_init__(self) -> None:
        object.__setattr__(self, "questions", cache(self.questions))

    def app(self, **given: Any) -> Any:
        """The app, to be the last line of a cell; opens on the given values."""
        return self.demo.app(**given)

    def first_look(self, **given: Any) -> Any:
        """The app of the first look."""
        if self.first is None:
            raise ValueError(f"{self.demo.title} has no first look; call app()")
        return self.first.app(**given)

    def question(self, name: str) -> Question | PointQuestion:
        """The question of that name."""
        known = self.questions()
        if name not in known:
            raise ValueError(f"{self.demo.title} asks: {', '.join(known)}; got {name!r}: use one of these names")
        return known[name]

    def ask(self, name: str, reveal: Any = None) -> Any:
        """The question of that name as a widget; `reveal` (an app) appears once it is answered."""
        return self.question(name).ask(reveal)

    def guess(self) -> Any:
        """The guess as a widget; an answer uncovers what it is about."""
        uncovered = self.uncovered or (self.app if self.first is None else self.first_look)
        return self.ask("guess", uncovered())
