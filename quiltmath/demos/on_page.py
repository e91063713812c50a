"""The widgets of apps and questions as a browser shows them: native controls with names, values in a quilter's words,
and results that a screen reader announces; on_page.js draws them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget
import traitlets

ASIDE = "quiltmath-aside"  # an app whose controls and words stand beside its picture where a page for a class is wide


class OnPage(anywidget.AnyWidget):
    """A widget drawn by on_page.js; `kind` says which of those there."""

    _esm = Path(__file__).with_suffix(".js")
    _css = Path(__file__).with_suffix(".css")
    kind = traitlets.Unicode().tag(sync=True)


class Live(OnPage):
    """Controls, picture and sentence of an app. The page sets `asked` (what was moved or typed) and `room` (width and
    height for the picture in px, and how many times their size its words are shown); the app answers with `shown`. What
    may be asked for next the page has drawn ahead, by messages: the values and the room it wants drawn, answered with
    these and the picture."""

    kind = traitlets.Unicode("app").tag(sync=True)
    title = traitlets.Unicode().tag(sync=True)
    controls: traitlets.List[Any] = traitlets.List().tag(sync=True)
    shown = traitlets.Dict().tag(sync=True)
    asked = traitlets.Dict().tag(sync=True, echo_update=False)
    room: traitlets.List[Any] = traitlets.List().tag(sync=True, echo_update=False)


class Question(OnPage):
    """A question and its reply in words; the page sets `given`, and `hands`, how many of a class were for an answer."""

    words = traitlets.Unicode().tag(sync=True)
    reply = traitlets.Unicode().tag(sync=True)
    given = traitlets.Dict().tag(sync=True, echo_update=False)
    hands = traitlets.Unicode().tag(sync=True, echo_update=False)
    hands_label = traitlets.Unicode().tag(sync=True)
    hands_example = traitlets.Unicode().tag(sync=True)


class Asked(Question):
    """A question with a box or choices."""

    kind = traitlets.Unicode("question").tag(sync=True)
    choices: traitlets.List[Any] = traitlets.List().tag(sync=True)
    label = traitlets.Unicode().tag(sync=True)
    example = traitlets.Unicode().tag(sync=True)


class AskedPoints(Question):
    """A question that is answered by marking points on a picture: each with its name and its spot in px of the `size`;
    `truth` says what becomes of each once there is an answer."""

    kind = traitlets.Unicode("points").tag(sync=True)
    markup = traitlets.Unicode().tag(sync=True)
    size: traitlets.List[Any] = traitlets.List().tag(sync=True)
    points: traitlets.List[Any] = traitlets.List().tag(sync=True)
    truth = traitlets.Dict().tag(sync=True)


class Lines(OnPage):
    """Lines of cells as text, and a box for each cell of one more, of which the first `usual` are mostly filled; what
    an empty one stands for is shown in it, `unless` it is filled. The page sets `text` and `given` (the cells of a
    line, and its `turn`); the app has `answered` that turn, with what is `wrong` `at` that "line" or at the "text", or
    with nothing."""

    kind = traitlets.Unicode("lines").tag(sync=True)
    cells: traitlets.List[Any] = traitlets.List().tag(sync=True)
    unless: traitlets.List[Any] = traitlets.List().tag(sync=True)
    usual = traitlets.Int().tag(sync=True)
    text = traitlets.Unicode().tag(sync=True)
    given = traitlets.Dict().tag(sync=True, echo_update=False)
    answered = traitlets.Dict().tag(sync=True)


class Limit(OnPage):
    """How much the boxes of a form take: `most` signs. More is not put in, and `words` say so there, {} in them the
    number of signs: a text of megabytes would end the connection to the kernel without a word."""

    kind = traitlets.Unicode("limit").tag(sync=True)
    most = traitlets.Int().tag(sync=True)
    words = traitlets.Unicode().tag(sync=True)


class File(OnPage):
    """A button to choose a file of at most `most` bytes, of the kinds in `accept`; what it holds comes as a message
    with its name. A larger one is not sent, and `words` say so there, {} in them the number of bytes."""

    kind = traitlets.Unicode("file").tag(sync=True)
    label = traitlets.Unicode().tag(sync=True)
    accept = traitlets.Unicode().tag(sync=True)
    most = traitlets.Int().tag(sync=True)
    words = traitlets.Unicode().tag(sync=True)


class InSight(OnPage):
    """Nothing to see: it brings the form into sight, and in it the question that it stands in, when it is told to."""

    kind = traitlets.Unicode("insight").tag(sync=True)

    def bring(self) -> None:
        """Bring them into sight."""
        self.send({})


class Status(OnPage):
    """A place for results, HTML, which a screen reader announces when they change."""

    kind = traitlets.Unicode("status").tag(sync=True)
    value = traitlets.Unicode().tag(sync=True)
