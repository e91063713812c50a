"""A question on the page: its words, a box or a choice, a button, and the reply in words."""

import ipywidgets as widgets

from .on_page import Asked


class Asking(widgets.VBox):
    """One Question; each new answer gets its Reply, and the first one uncovers what `reveal` holds."""

    def __init__(self, question, reveal=None):
        self.question, self.reveal, self.given = question, reveal, []
        self.asked = Asked(
            words=question.words,
            choices=list(question.choices),
            label="Your answer (in)" if question.unit else "Your answer",
            example="for example 3 7/8" if question.unit else "a number",
        )
        self.asked.observe(lambda change: self.answer(change["new"]["text"]), "given")
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
        self.asked.reply = reply.words

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and the question itself with its choices for readers without a kernel."""
        choices = "".join(f"\n  ○ {one}" for one in self.question.choices)
        return {**super()._repr_mimebundle_(**kwargs), "text/plain": self.question.words + choices}
