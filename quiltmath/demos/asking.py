"""A question on the page: its words, a box or a choice, a button, and the reply in words."""

import ipywidgets as widgets

from .on_page import Asked
from .questions import EXAMPLES


class Asking(widgets.VBox):
    """A question with a box or a choice; it replies in words, and shows `reveal` once it is answered. For a choice a
    class may have its show of hands kept beside the truth."""

    def __init__(self, question, reveal=None):
        self.question, self.reveal, self.given, self.said = question, reveal, [], ""
        self.asked = Asked(
            words=question.words,
            choices=list(question.choices),
            label=f"Your answer ({question.unit})" if question.unit else "Your answer",
            example=f"for example {EXAMPLES[question.unit]}",
        )
        self.asked.observe(lambda change: self.answer(change["new"]["text"]), "given")
        self.hands = self._hands()
        super().__init__([self.hands, self.asked] if question.choices else [self.asked])

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
        if not self.given:
            self.asked.reply = self.said
            return
        self.asked.reply = f"{self.said} {self._tallied()}".strip()

    def _tallied(self):
        """The show of hands in words; nothing where none was typed."""
        if not self.hands.value.strip():
            return ""
        try:
            return self.question.tally(self.hands.value)
        except ValueError as error:
            return f"Not counted: {error}."

    def _hands(self):
        """A box for a class: how many hands there were for each choice, in order."""
        box = widgets.Text(
            description="Hands up, for each choice in order",
            continuous_update=False,
            layout=widgets.Layout(width="36em", max_width="100%"),
            style={"description_width": "17em"},
            placeholder=", ".join("0" for _ in self.question.choices),
        )
        box.observe(self._reply, "value")
        return box

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and the question itself with its choices for readers without a kernel."""
        choices = "".join(f"\n  ○ {one}" for one in self.question.choices)
        return {**super()._repr_mimebundle_(**kwargs), "text/plain": self.question.words + choices}
