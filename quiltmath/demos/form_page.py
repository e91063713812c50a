"""A printed page, pasted or loaded: what was understood beside the words it came from, and its questions one by one."""

import os
from collections.abc import Callable
from functools import lru_cache, partial
from html import escape
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple

import ipywidgets as widgets

from .. import pattern
from ..draw import svg
from ..draw.written import unbroken
from ..pattern.drafting import Choice, Draft, Entry, Question
from ..pattern.drafting.page import LARGEST, LONGEST
from . import form_choices
from . import form_fields as fields
from .form_lines import Turns, button
from .form_words import sentence
from .on_page import File, InSight, Limit

MOST_SHOWN = 300  # lines of what was understood; a long pattern has a hundred
LONGEST_WORDS = 160  # signs of a page that are quoted
MOST_KEPT = 4  # pages with their answers
TOO_LONG = (
    f"This would be {{}} signs; a pattern has at most {LONGEST:,}: paste the pages with the cutting list alone. "
    "Nothing is put in."
)
TOO_LARGE = (
    f"This file has {{}} bytes; one that is loaded here has at most {LARGEST:,}: load the pages with the cutting list "
    "alone. Nothing is sent."
)
Answer = tuple[str, str, str]  # a question, the words it is about, the choice; no choice: left aside


class Page(NamedTuple):
    """A page as it was pasted, corrected by what was typed since, and how its questions were answered."""

    text: str
    name: str = "the page"
    answers: tuple[Answer, ...] = ()

    def draft(self) -> Draft:
        """What is understood of it, its answered questions answered; refused with a ValueError in words.

        >>> page = Page("From navy, cut:\\n12 squares 3 1/2 in\\n5 - 7/8 in squares")
        >>> asked = page.draft().questions[0]
        >>> len(page.answered(asked).draft().questions)
        0
        >>> twice = Page(page.text + "\\n5 - 7/8 in squares")
        >>> asked = twice.draft().questions
        >>> len(asked), len(twice.answered(asked[0]).answered(asked[1]).draft().questions)
        (2, 0)
        """
        found = _kept.get(self)
        if found is None:
            before = _kept.get(self._replace(answers=self.answers[:-1])) or _Answered(
                _drafted(self.text, self.name), self.answers[:-1]
            )
            found = before.taking(self.answers[-1:])
            while len(_kept) >= MOST_KEPT:
                del _kept[next(iter(_kept))]
            _kept[self] = found
        return found.draft

    def answered(self, question: Question, choice: Choice | None = None) -> "Page":
        """The page with one more question answered, or left aside."""
        return self._replace(answers=(*self.answers, (*_key(question), choice.label if choice else "")))

    def left_aside(self) -> list[str]:
        """The lines with figures that were left aside: nothing of them is in the sheet.

        >>> page = Page("From navy, cut:\\n12 squares 3 1/2 in\\n5 - 7/8 in squares")
        >>> page.answered(page.draft().questions[0]).left_aside()
        ['5 - 7/8 in squares']
        """
        words = (words for _, words, choice in self.answers if not choice)
        return [one for one in dict.fromkeys(words) if any(sign.isdigit() for sign in one)]

    def corrected(self, question: Question, words: str) -> "Page":
        """The page with other words in place of those a question is about.

        >>> page = Page("From navy, cut:\\n12 squares 3 1/2 in\\n5 - 7/8 in squares")
        >>> page.corrected(page.draft().questions[0], "6 squares 5 7/8 in").draft().entries[-1].data["count"]
        6
        """
        start, end = question.words.start, question.words.end
        return self._replace(text=self.text[:start] + words + self.text[end:])


class _Answered(NamedTuple):
    """A draft whose questions are answered, and the answers to what it does not ask, or not yet."""

    draft: Draft
    left: tuple[Answer, ...]

    def taking(self, more: tuple[Answer, ...]) -> "_Answered":
        """The draft with these answers too, each as soon as its question is asked."""
        drafted, answers = self.draft, [*self.left, *more]
        while (found := _next(answers, drafted.questions)) is not None:
            answer, asked = found
            answers.remove(answer)
            drafted = drafted.answered(asked, next((one for one in asked.choices if one.label == answer[2]), None))
        return _Answered(drafted, tuple(answers))


_kept: dict[Page, _Answered] = {}  # a page is drafted again for every answer: only the last is new to it


@lru_cache(maxsize=2)  # one page is drafted for each of its answers, and a long one takes seconds
def _drafted(text, name):
    return pattern.draft(text, name)


def _key(question):
    return question.text, question.words.text


def _next(answers, questions):
    """The first of the answers whose question is asked, and the question."""
    return next(((one, asked) for one in answers for asked in questions if _key(asked) == one[:2]), None)


def filled(draft: Draft) -> dict[str, Any]:
    """The tables a draft makes, with a name for its block where it has none: the name is ours, its rows are asked."""
    data = draft.data()
    setting = data.setdefault("setting", {})
    drawn = {"block", "rows", "columns"} & setting.keys()
    if not data.get("block") and not drawn:
        data["block"] = {"block": {}}
    if not drawn and len(data.get("block", {})) == 1:
        setting["block"] = next(iter(data["block"]))
    return data


def moved_names(before: Draft, after: Draft) -> dict[str, str]:
    """The names of pieces that are others after a line of the page was read anew, {before: after}; letters are given in
    the order of the page."""

    def named(draft):
        pieces = [one for one in draft.entries if one.table == "cut"]
        words = [one.words.text for one in pieces]
        return {(text, words[:at].count(text)): one.name for at, (text, one) in enumerate(zip(words, pieces))}

    old, new = named(before), named(after)
    return {name: new[place] for place, name in old.items() if place in new and new[place] != name}


def merged(before: fields.Typed, after: fields.Typed, now: fields.Typed) -> fields.Typed:
    """A form as it stands `now`, with what changed from one filling to another: what a person typed meanwhile stays.

    >>> before, after, now = fields.empty(), fields.empty(), fields.empty()
    >>> now["setting"][0]["across"], after["setting"][0] = "5", after["setting"][0] | {"across": "4", "down": "6"}
    >>> line = merged(before, after, now)["setting"][0]
    >>> line["across"], line["down"]
    ('5', '6')
    """
    return {group.key: _merged(group, *(form[group.key] for form in (before, after, now))) for group in fields.GROUPS}


def _merged(group, before, after, now):
    first = group.fields[0].key

    def called(lines):
        names = [line[first].strip() if group.many else "" for line in lines]
        return {(name, names[:at].count(name)): line for at, (name, line) in enumerate(zip(names, lines))}

    old, new, mine = called(before), called(after), called(now)
    usual = fields.blank(group)
    lines = []
    for name, will in new.items():
        was, line = old.get(name, usual), mine.get(name)
        if line is None:
            lines += [will] if name not in old else []  # else it was taken out by hand
        elif group.many and _at_odds(was, will, line):
            lines += [line, will | {first: f"{will[first]} (page)"}]
        else:
            lines.append({key: will[key] if value == was[key] else value for key, value in line.items()})
    lines += [line for name, line in mine.items() if name not in new and line != old.get(name)]
    return [line for line in lines if fields.says(group, line)] or [usual]


def _at_odds(was, will, mine):
    """Whether a field of a line was changed in two ways: by the page and by hand."""
    return any(will[key] != was[key] != value != will[key] for key, value in mine.items())


def text_of(name: str, content: bytes) -> str:
    """The text of a loaded page, text or PDF; refused with a ValueError in words."""
    with TemporaryDirectory() as place:
        path = Path(place) / (Path(name).name or "page")
        path.write_bytes(content)
        try:
            return pattern.page_text(path)
        except ValueError as problem:
            raise ValueError(str(problem).replace(f"{place}{os.sep}", "")) from None


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
        self.sight = InSight()
        asking = [self.sight, self.asked, self.answers, self.own, self._own_buttons()]
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
        self.asked.value = (
            f'<p role="status"><strong>Question, {left} left:</strong> {escape(sentence(question.text))}</p>'
            f"<p>The page, line {question.words.line}: “{escape(question.words.text[:LONGEST_WORDS])}”</p>"
        )
        self.answers.children = [self._offered(question, *one) for one in enumerate(question.choices, 1)]
        nothing = any(not choice.changes for choice in question.choices)  # one that leaves it aside is there already
        self.leave.layout.display = "none" if nothing else None
        self.own.value = "" if question.choices else question.words.text

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
        return widgets.HBox(
            [
                button("Read these words", self._turns(lambda _: self.say_again())),
                self.leave,
            ]
        ).add_class("qm-bar")

    def _chosen(self, content, buffers):
        """Take a file that was chosen in the browser."""
        self._turns(lambda _: self._load(str(content.get("name", "page")), bytes(buffers[0])))(None)


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
