"""The apps that notebooks call, one line a cell; each is a plain function with controls round it.

To make an app, write a module here that holds

* `model(**values)`: a pure function from the controls' values to `Shown(picture, sentence)`; it refuses what
  cannot be drawn with a ValueError whose words a quilter understands;
* `DEMO = Demo(title, model, controls)`: with one to three of `Whole`, `Length` and `Choice`;
* `questions()`: a dict of named `Question`s, their answers and known mistakes computed from the library;
* the functions a notebook calls, such as `app = DEMO.app`.

`DEMO(n=4)` is the model without widgets, `DEMO.still(n=4)` a PNG with alt text, `DEMO.app()` the app,
`DEMO.cases()` its corner values: `tests/test_demos.py` runs them all, for every module found here, and judges
every question's own answer and mistakes. The controls' values arrive parsed (lengths as Fraction inches). A
picture that moves keeps its fabrics' roles: pass `fabrics=` to `draw.panel_picture`. `explain(proof,
**values)` tells a proof. `python -m tests.bench redraw quiltmath.demos.NAME` measures an app's redraw in a
browser.
"""

from importlib import import_module
from pkgutil import iter_modules

from .controls import Choice, Length, Whole
from .demo import Demo, Shown, Still
from .explained import explain
from .questions import Question, Reply

__all__ = [
    "Choice",
    "Demo",
    "Length",
    "Question",
    "Reply",
    "Shown",
    "Still",
    "Whole",
    "every_demo",
    "every_question",
    "explain",
]


def every_demo():
    """Every Demo of every module here, by name: {"down_the_middle.DEMO": Demo(...), ...}."""
    return {
        f"{name}.{each}": demo
        for name, module in _modules().items()
        for each, demo in vars(module).items()
        if isinstance(demo, Demo)
    }


def every_question():
    """Every Question of every module here, by name: {"down_the_middle.guess": Question(...), ...}."""
    return {
        f"{name}.{each}": question
        for name, module in _modules().items()
        if hasattr(module, "questions")
        for each, question in module.questions().items()
    }


def _modules():
    return {name: import_module(f"{__name__}.{name}") for name in _names()}


def _names():
    return sorted(module.name for module in iter_modules(__path__))


def __getattr__(name):
    if name in _names():
        return import_module(f"{__name__}.{name}")
    raise AttributeError(f"quiltmath.demos has no app called {name!r}")
