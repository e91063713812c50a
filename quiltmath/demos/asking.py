"""A question on the page: its words, a box or a choice, a button, and the reply in words."""

import ipywidgets as widgets

from .on_page import Asked
from .questions import EXAMPLES
from .shown import unbroken


class Asking(widgets.VBox):
    """A question with a box or a choice; it replies in words, and shows `reveal` once it is answered. For a choice a
    class may have its show of hands kept beside the truth."""

    def __init__(self, question, reveal=None):
        self.question, self.reveal, self.given, self.said = question, reveal, [], ""
        self.asked = Asked(
            words=unbroken(question.words),
            choices=list(question.choices),
            label=f"Your answer ({question.unit})" if question.unit else "Your answer",
            example=f"for example {EXAMPLES[question.unit]}",
        )
        self.asked.observe(lambda change: self.answer(change["new"]["text"]), "given")
        self.asked.observe(self._reply, "hands")
        super().__init__([self.asked])

    def answer(self, text):
        """Judge what was typed or chosen."""
        if not text and self.question.choices:
            self.asked.reply = "Choose an answer first."
            return
        if text not in self.given:
            self.given.append(text)
        reply = self.question.judge(text, tries=len(self.given))
        if reply.kind == "unread":
            self.given.remove(text)
        elif self.reveal is not None and self.reveal not in self.children:
            self.children = [*self.children, self.reveal]
        self.said = reply.words
        self._reply()

    def _reply(self, _=None):
        """Say what was answered, and beside it the show of hands, which gives nothing away before."""
        tallied = self._tallied() if self.given else ""
        self.asked.reply = unbroken(f"{self.said} {tallied}".strip())

    def _tallied(self):
        """The show of hands in words; nothing where none was typed."""
        if not self.asked.hands.strip():
            return ""
        try:
            return self.question.tally(self.asked.hands)
        except ValueError as error:
            return f"Not counted: {error}."

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and the question itself with its choices for readers without a kernel."""
        choices = "".join(f"\n  ○ {one}" for one in self.question.choices)
        return {**super()._repr_mimebundle_(**kwargs), "text/plain": self.question.words + choices}
