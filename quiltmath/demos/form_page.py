"""The panel of a printed page: what was understood beside the words it came from, and its questions one by one."""

from collections.abc import Callable
from functools import partial
from html import escape

import ipywidgets as widgets

from ..draw import svg
from ..draw.written import unbroken
from ..pattern.drafting import Choice, Draft, Entry
from ..pattern.drafting.page import LONGEST
from ..pattern.drafting.page_files import LARGEST
from . import form_choices
from . import form_fields as fields
from .form_lines import Turns, button
from .form_words import sentence
from .on_page import File, InSight, Limit
from .pasted import Page

MOST_SHOWN = 300  # lines of what was understood; a long pattern has a hundred
LONGEST_WORDS = 160  # signs of a page that are quoted
TOO_LONG = (
    f"This would be {{}} signs; a pattern has at most {LONGEST:,}: paste the pages with the cutting list alone. "
    "Nothing is put in."
)
TOO_LARGE = (
    f"This file has {{}} bytes; one that is loaded here has at most {LARGEST:,}: load the pages with the cutting list "
    "alone. Nothing is sent."
)


ROWS, SET = "Rows of one block", "Blocks across and down"
SUCH_AS = {ROWS: "A B A / B A B / A B A; with :90 behind a name it is turned", SET: "4 x 5, or 4 x 5 on point"}


class PagePanel(widgets.VBox):
    """The box a page is pasted into, what was understood of it, and the question that is to be answered next.

    `take` is called with the tables of each new draft, and what it changes.
    """

    def __init__(
        self, take: Callable[[Draft, Draft | None], None], load: Callable[[str, bytes], None], turns: Turns
    ) -> None:
        self.page: Page | None = None
        self.drafted: Draft | None = None
        self._take, self._load, self._turns = take, load, turns
        self.box = widgets.Textarea(
            placeholder="Paste the printed page here: title, fabric, cutting list, order of work.",
            description="The printed page",
            rows=4,
            continuous_update=False,
            layout=widgets.Layout(width="100%"),
        ).add_class("qm-field")
        self.reader = button("Read it", turns(lambda _: self.read()))
        self.reader.button_style = "primary"
        self.files = File(label="Load a page or sheet", accept=".txt,.pdf,.toml", most=LARGEST, words=TOO_LARGE)
        self.files.on_msg(lambda _, content, buffers: self._chosen(content, buffers))
        self.told, self.asked, self.understood = widgets.HTML(), widgets.HTML(), widgets.HTML()
        self.answers = widgets.HBox().add_class("qm-answers")
        self.own = widgets.Text(
            description="In other words", continuous_update=False, layout=widgets.Layout(width="100%")
        )
        self.own.add_class("qm-field")
        self.rows = widgets.Textarea(description=ROWS, rows=3, continuous_update=False).add_class("qm-field")
        self.sight, self.refused = InSight(), widgets.HTML()
        asking = [self.sight, self.asked, self.answers, self.own, self.rows, self.refused, self._own_buttons()]
        self.question = widgets.VBox(asking).add_class("qm-question")
        self.question.layout.display = "none"
        super().__init__(
            [
                self.told,
                self.question,  # above the page: its pictures are in sight beside the verdict on a small screen
                self.box,
                Limit(most=LONGEST, words=TOO_LONG),
                widgets.HBox([self.reader, self.files]).add_class("qm-bar"),
                self.understood,
            ]
        )
        self.add_class("qm-page")
        self.add_class("qm-section")

    def read(self) -> None:
        """Read what is pasted; what cannot be read changes nothing and is told."""
        if not self.box.value.strip():
            self.tell("Paste the text of a page first, or load a file.")
            return
        self.drafted = None
        self._show(Page(self.box.value))

    def take(self, text: str) -> None:
        """Put the text of a loaded page into the box and read it, unless it is too long for a pattern."""
        if len(text) > LONGEST:
            self.tell(TOO_LONG.format(f"{len(text):,}"))
            return
        self.box.value = text
        self.read()

    def restore(self, page: Page | None) -> None:
        """Show a page that was read before, without filling the form from it again; or none, with what was pasted."""
        if page is None:
            self.clear(self.box.value)
        else:
            self._show(page, fill=False)

    def tell(self, words: str) -> None:
        """Say this above the box."""
        self.told.value = f'<p role="status">{escape(words)}</p>'

    def clear(self, text: str = "") -> None:
        """No page that was read; this text in the box."""
        self.page = self.drafted = None
        self.box.value = text
        self.told.value = self.understood.value = ""
        self.question.layout.display = "none"

    @property
    def asks(self) -> bool:
        """Whether a question of the page is still open."""
        return self.drafted is not None and bool(self.drafted.questions)

    def unjudged(self) -> str:
        """What of the page no verdict is about: open questions, lines with figures left aside; "" for none."""
        if self.page is None or self.drafted is None:
            return ""
        aside = "; ".join(one[:LONGEST_WORDS] for one in self.page.left_aside())
        told = [f"{_some(len(self.drafted.questions), 'question')} of the page still open"] if self.asks else []
        told += [f"left aside: {aside}"] if aside else []
        return f"Not judged: {', and '.join(told)}." if told else ""

    def answer(self, choice: Choice | None) -> None:
        """Answer the question that is shown, or leave it aside."""
        if self.page is not None and self.drafted is not None and self.drafted.questions:
            self._show(self.page.answered(self.drafted.questions[0], choice))

    def _answered(self, question, choice, _=None):
        """Take a click on an answer, unless its question has been answered since."""
        if self.drafted is not None and question in self.drafted.questions:
            self._show(self.page.answered(question, choice))

    def say_again(self) -> None:
        """Read the words the question is about as they are typed now."""
        words = self.own.value.strip()
        if words and self.page is not None and self.drafted is not None and self.drafted.questions:
            self._show(self.page.corrected(self.drafted.questions[0], words))

    def draw(self) -> None:
        """Answer the question that is shown by what is typed for it; what cannot be read is told, and stays."""
        question = self.drafted.questions[0] if self.drafted is not None and self.drafted.questions else None
        if question is None or self.page is None or self.drafted is None or question.draws is None:
            return
        try:
            choice = self.drafted.typed(question, self.rows.value)
        except ValueError as problem:
            self.refused.value = f'<p role="status">{escape(sentence(problem))}</p>'
        else:
            self._show(self.page.answered(question, choice))

    def _show(self, page, fill=True):
        before = self.drafted
        try:
            drafted = page.draft()
        except ValueError as problem:
            self.tell(sentence(problem))
            return
        self.page, self.drafted = page, drafted
        if self.box.value != page.text:
            self.box.value = page.text
        asked = drafted.questions
        self.tell(
            f"Understood: {_some(len(drafted.entries), 'line')}. "
            + (f"{_some(len(asked), 'question')} left." if asked else "Nothing left to ask of this page.")
        )
        self.understood.value = understood(drafted)
        self._ask(asked[0] if asked else None, len(asked))
        if fill:
            self._take(drafted, before)
            self.sight.bring()

    def _ask(self, question, left):
        self.question.layout.display = "none" if question is None else None
        if question is None:
            return
        about = f"The page, line {question.words.line}: “{question.words.text[:LONGEST_WORDS]}”"
        if question.draws is not None:
            named = "; ".join(self.drafted.names_to_type(question))
            about = f"Such as {SUCH_AS[_box(question)]}.{f' There are: {named}.' if named else ''}"
        self.asked.value = (
            f'<p role="status"><strong>Question, {left} left:</strong> {escape(sentence(question.text))}</p>'
            f"<p>{escape(about)}</p>"
        )
        self._put_boxes(question)
        self.answers.children = [self._offered(question, *one) for one in enumerate(question.choices, 1)]
        nothing = any(not choice.changes for choice in question.choices)  # one that leaves it aside is there already
        self.leave.layout.display = "none" if nothing else None
        self.own.value = "" if question.choices else question.words.text

    def _put_boxes(self, question):
        """Show the box that this question takes: for the words of the page, or for rows that are typed."""
        draws = question.draws is not None
        for box in (self.own, self.reader_of_words):
            box.layout.display = "none" if draws else None
        for box in (self.rows, self.drawer):
            box.layout.display = None if draws else "none"
        self.rows.value = self.refused.value = ""
        self.rows.description = _box(question) if draws else ROWS

    def _offered(self, question, number, choice):
        """The button of an answer, below a picture of what it would make where there is one."""
        picture = form_choices.picture(self.drafted, choice)
        words = form_choices.label(choice, number, picture is not None)
        clicked = button(words, self._turns(partial(self._answered, question, choice)))
        if picture is None:
            return clicked
        drawn = widgets.HTML(svg(picture, *form_choices.SIZE, key=False, ids=f"answer-{self.model_id[:8]}-{number}-"))
        return widgets.VBox([drawn, clicked]).add_class("qm-answer")

    def _own_buttons(self):
        self.leave = button("Leave it aside", self._turns(lambda _: self.answer(None)))
        self.reader_of_words = button("Read these words", self._turns(lambda _: self.say_again()))
        self.drawer = button("Sew it so", self._turns(lambda _: self.draw()))
        return widgets.HBox([self.reader_of_words, self.drawer, self.leave]).add_class("qm-bar")

    def _chosen(self, content, buffers):
        """Take a file that was chosen in the browser."""
        self._turns(lambda _: self._load(str(content.get("name", "page")), bytes(buffers[0])))(None)


def _box(question):
    """What the box is called into which the answer to a question is typed."""
    return ROWS if question.draws.table == "block" else SET


def understood(draft: Draft) -> str:
    """What was understood, each beside the words it came from, as an HTML table; and what was left aside."""
    rows = "".join(
        f"<tr><td>{escape(entry.words.text[:LONGEST_WORDS])}</td><td>{unbroken(escape(said(entry)))}</td></tr>"
        for entry in sorted(draft.entries, key=lambda one: one.words.start)[:MOST_SHOWN]
    )
    aside = "; ".join(words.text[:LONGEST_WORDS] for words in draft.remarks[:MOST_SHOWN])
    left = f"<p>Not used: {escape(aside)}</p>" if aside else ""
    heads = "<tr><th>The page</th><th>Understood as</th></tr>"
    return f'<div class="qm-read" tabindex="0"><table>{heads}{rows}</table>{left}</div>'


def said(entry: Entry) -> str:
    """One entry of a draft in the words of the form.

    >>> from quiltmath import pattern
    >>> said(pattern.draft("From navy, cut:\\n12 squares 3 1/2 in").entries[0])
    'Cutting list: A, fabric navy, size 3 1/2, how many 12'
    """
    group = fields.BY_KEY.get("" if entry.table == "sheet" else entry.table)
    labels = {"usable_width": "usable width"} | {
        field.key: field.label.lower() for field in (group.fields if group else ())
    }
    values = [f"{labels.get(key, key.replace('_', ' '))} {_plain(value)}" for key, value in entry.data.items()]
    words = ", ".join([*([entry.name] if entry.name and entry.table != "sheet" else []), *values, *entry.remarks])
    return f"{group.title if group else entry.table.replace('_', ' ').capitalize()}: {words}"


def _plain(value):
    if isinstance(value, dict):
        return ", ".join(f"{key.replace('_', ' ')} {_plain(one)}" for key, one in value.items())
    if isinstance(value, (list, tuple)):
        flat = [_plain(one) for one in value]
        return (" x " if all(one[:1].isdigit() for one in flat) else ", ").join(flat)
    return str(value)


def _some(number, thing):
    return f"{number} {thing}{'' if number == 1 else 's'}"
