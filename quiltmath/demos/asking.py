"""A question on the page: its words, a box or a choice, a button, and the reply in words."""

from html import escape

import ipywidgets as widgets

from .questions import EXAMPLES


class Asking(widgets.VBox):
    """One Question; each new answer gets its Reply, and the first one uncovers what `reveal` holds."""

    def __init__(self, question, reveal=None):
        self.question, self.reveal, self.given = question, reveal, []
        words = widgets.HTML(f'<p style="font-size:16px;line-height:1.5">{escape(question.words)}</p>')
        self.box = self._box()
        self.button = widgets.Button(description="Check my answer", layout=widgets.Layout(width="11em"))
        self.reply = widgets.HTML()
        self.button.on_click(lambda _: self.check())
        self.box.observe(lambda _: self.check(), "value")
        self.hands = self._hands()
        hands = [self.hands] if question.choices else []
        super().__init__([words, *hands, widgets.HBox([self.box, self.button]), self.reply])

    def check(self):
        """Judge what the box holds now."""
        answer = self.box.value
        if answer == "" and self.question.choices:
            self._say("Choose an answer first.")
            return
        if answer not in self.given:
            self.given.append(answer)
        reply = self.question.judge(answer, tries=len(self.given))
        if reply.kind == "unread":
            self.given.remove(answer)
        elif self.reveal is not None and self.reveal not in self.children:
            self.children = [*self.children, self.reveal]
        self._say(reply.words)

    def _say(self, words):
        self.reply.value = (
            f'<p role="status" style="font-size:16px;line-height:1.5"><strong>{escape(words)}</strong></p>'
            f"{self._tallied()}"
        )

    def _tallied(self):
        """The show of hands as HTML, kept beside the reply; nothing where none was typed."""
        if not self.hands.value.strip() or not self.given:
            return ""
        try:
            said = self.question.tally(self.hands.value)
        except ValueError as error:
            said = f"Not counted: {error}."
        return f'<p style="font-size:16px;line-height:1.5">{escape(said)}</p>'

    def _hands(self):
        """A box for a class: how many hands there were for each choice, in order."""
        box = widgets.Text(
            description="Hands up, for each choice in order",
            continuous_update=False,
            layout=widgets.Layout(width="36em"),
            style={"description_width": "17em"},
            placeholder=", ".join("0" for _ in self.question.choices),
        )
        box.observe(lambda _: self.check() if self.given else None, "value")
        return box

    def _box(self):
        wide, style = widgets.Layout(width="28em"), {"description_width": "9em"}
        if self.question.choices:
            return widgets.Dropdown(
                options=[("choose …", ""), *((one, one) for one in self.question.choices)],
                value="",
                description="Your answer",
                layout=wide,
                style=style,
            )
        label = f"Your answer ({self.question.unit})" if self.question.unit else "Your answer"
        return widgets.Text(
            description=label,
            continuous_update=False,
            layout=wide,
            style={"description_width": "11em"} if self.question.unit else style,
            placeholder=f"for example {EXAMPLES[self.question.unit]}",
        )

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and the question itself for readers without a kernel."""
        return {**super()._repr_mimebundle_(**kwargs), "text/plain": self.question.words}
