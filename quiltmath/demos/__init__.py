"""The lessons that notebooks call, one line a cell; each is a plain function with controls round it, and its questions.

To make an app, write a module here that holds

* `model(**values)`: a pure function from the controls' values to `Shown(picture, sentence)`; it refuses what
  cannot be drawn with a ValueError whose words a quilter understands;
* `DEMO = Demo(title, model, controls)`: with one to three of `Whole`, `Length` and `Choice`; `FIRST`, if a first look
  at one control helps;
* `questions()`: a dict of named `Question`s (or `PointQuestion`s, answered on a picture), "guess" first, their answers
  and known mistakes computed from the library;
* `lesson = Lesson(DEMO, questions, first=FIRST)`.

A notebook's cells say `from quiltmath.demos.NAME import lesson` and then `lesson.guess()`, `lesson.first_look()`,
`lesson.app()` or `lesson.ask("QUESTION")`; stills and texts of one lesson only are functions of its module, such as
`all_at_once()`. Figures for what a quilter types herself are a `Reckoning`, whose `model(**values)` gives a table and a
sentence.

`DEMO(n=4)` is the model without widgets, `DEMO.still(n=4)` a PNG with alt text, `DEMO.app()` the app,
`DEMO.cases()` its corner values: `tests/test_demos.py` runs them all, for every module found here, and judges
every question's own answer and mistakes. The controls' values arrive parsed (lengths as Fraction inches). A
picture that moves keeps its fabrics' roles: pass `fabrics=` to `draw.panel_picture`. Where a control moves one
thing in a picture, give that picture a `draw.Handle`. Lengths in a sentence are written as the picture's are,
by `draw.inches`. `explain(proof, **values)` tells a proof. `python -m tests.bench redraw quiltmath.demos.NAME`
measures an app's redraw in a browser.
"""

from importlib import import_module
from pkgutil import iter_modules

from .controls import Choice, Length, Whole
from .demo import Demo, Shown
from .explained import explain
from .lesson import Lesson
from .point_questions import PointQuestion
from .questions import Question, Reply
from .still import Still

__all__ = [
    "Choice",
    "Demo",
    "Length",
    "Lesson",
    "PointQuestion",
    "Question",
    "Reply",
    "Shown",
    "Still",
    "Whole",
    "every_demo",
    "every_lesson",
    "every_question",
    "explain",
]


def every_demo() -> dict[str, Demo]:
    """Every Demo of every module here, by name: {"a_block_cut_in_half.DEMO": Demo(...), ...}."""
    return {
        f"{name}.{each}": demo
        for name, module in _modules().items()
        for each, demo in vars(module).items()
        if isinstance(demo, Demo)
    }


def every_lesson() -> dict[str, Lesson]:
    """Every Lesson by its module's name: {"a_block_cut_in_half": Lesson(...), ...}."""
    return {name: module.lesson for name, module in _modules().items() if hasattr(module, "lesson")}


def every_question() -> dict[str, Question | PointQuestion]:
    """Every Question of every lesson, by name: {"a_block_cut_in_half.guess": Question(...), ...}."""
    return {
        f"{name}.{each}": question
        for name, lesson in every_lesson().items()
        for each, question in lesson.questions().items()
    }


def _modules():
    return {name: import_module(f"{__name__}.{name}") for name in _names()}


def _names():
    return sorted(module.name for module in iter_modules(__path__))


def __getattr__(name):
    if name in _names():
        return import_module(f"{__name__}.{name}")
    raise AttributeError(f"quiltmath.demos has no app called {name!r}")
