"""A question on the page: its words, a box or a choice, a button, and the reply in words."""

import ipywidgets as widgets

from ..draw import lay_out
from ..draw.svg_writer import page_svg
from ..draw.written import unbroken
from .on_page import Asked, AskedPoints
from .questions import EXAMPLES
from .still import Still

NOT_COUNTED = "Not counted"
WAITING = "quiltmath-waiting"  # what is said below of the picture to come is not shown before it


class Asking(widgets.VBox):
    """A question with a box or a choice; it replies in words, and shows `reveal` once it is answered. For a choice a
    class may have its show of hands kept beside the truth."""

    TO_CHECK = "The hands are noted. Choose the answer of the room too, and check it; then they are counted."

    def __init__(self, question, reveal=None):
        self.question, self.reveal, self.given, self.said = question, reveal, [], ""
        self.asked = self._on_page()
        self.asked.observe(self._reply, "hands")
        super().__init__([self.asked])
        if reveal is not None:
            self.add_class(WAITING)

    def _on_page(self):
        question = self.question
        asked = Asked(
            words=unbroken(question.words),
            choices=list(question.choices),
            label=f"Your answer ({question.unit})" if question.unit else "Your answer",
            example=f"for example {EXAMPLES[question.unit]}",
            hands_label="A class: hands up for each choice, in order",
            hands_example=", ".join("0" for _ in question.choices),
        )
        asked.observe(lambda change: self.answer(change["new"]["text"]), "given")
        return asked

    def answer(self, text):
        """Judge what was typed or chosen."""
        if not text and self.question.choices:
            self.said = "Choose an answer first."
            self._reply()
            return
        self._judge(text)

    def _judge(self, given):
        if given not in self.given:
            self.given.append(given)
        reply = self.question.judge(given, tries=len(self.given))
        if reply.kind == "unread":
            self.given.remove(given)
        elif self.reveal is not None and self.reveal not in self.children:
            self.children = [*self.children, self.reveal]
            self.remove_class(WAITING)
        self.said = reply.words
        self._reply()

    def _reply(self, _=None):
        """Say what was answered, and beside it the show of hands; before an answer only what is missing."""
        tallied = self._tallied()
        if tallied and not self.given and not tallied.startswith(NOT_COUNTED):
            tallied = self.TO_CHECK
        self.asked.reply = unbroken(f"{self.said} {tallied}".strip())

    def _tallied(self):
        """The show of hands in words; nothing where none was typed."""
        if not self.asked.hands.strip():
            return ""
        try:
            return self.question.tally(self.asked.hands)
        except ValueError as error:
            return f"{NOT_COUNTED}: {error}."

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and the question itself with its choices for readers without a kernel."""
        choices = "".join(f"\n  ○ {one}" for one in self.question.choices)
        return {**super()._repr_mimebundle_(**kwargs), "text/plain": self.question.words + choices}


class AskingPoints(Asking):
    """A question whose points are marked on its picture; what becomes of them is not on the page before an answer."""

    WIDTH = 430  # px
    TO_CHECK = "The hands are noted. Mark the points that the room names too, and check them; then they are counted."
    none_meant = False

    def _on_page(self):
        page = lay_out(self.question.picture, self.WIDTH, key=False)
        spots = page.cells[0].px([spot for _, spot in self.question.points]).round(2).tolist()
        asked = AskedPoints(
            words=unbroken(self.question.words),
            markup=page_svg(page, scaled=True),
            size=[page.width, page.height],
            points=list(zip(self.question.choices, spots)),
            hands_label="A class: hands up, all right of how many",
            hands_example="7 of 20",
        )
        asked.observe(lambda change: self.answer(change["new"]["marked"]), "given")
        return asked

    def answer(self, marked):
        """Judge the points that were marked, in any order; that none is lost must be meant."""
        if not marked and not self.given and not self.none_meant:
            self.none_meant = True
            self.said = "Nothing is marked yet. Mark points first; or check once more, if you think none is lost."
            self._reply()
            return
        self._judge(tuple(sorted(marked)))
        self.asked.truth = self.question.truth

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and the question with its picture for readers without a kernel."""
        still = Still(self.question.picture, self.question.words, self.WIDTH)
        data, about = still._repr_mimebundle_()
        return {**super()._repr_mimebundle_(**kwargs), **data}, about
