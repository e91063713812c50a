"""A printed page as it was pasted or loaded: its text, how its questions were answered, and what the form has of it."""

import os
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple

from .. import pattern
from ..pattern.drafting import Choice, Draft, Question
from . import form_fields as fields

MOST_KEPT = 4  # pages with their answers
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
            drafted = drafted.answered(asked, _choice(drafted, asked, answer[2]))
        return _Answered(drafted, tuple(answers))


_kept: dict[Page, _Answered] = {}  # a page is drafted again for every answer: only the last is new to it


@lru_cache(maxsize=2)  # one page is drafted for each of its answers, and a long one takes seconds
def _drafted(text, name):
    return pattern.draft(text, name)


def _key(question):
    return question.text, question.words.text


def _choice(drafted, question, label):
    """The answer of this label: one that is proposed, or rows as they were typed."""
    proposed = next((one for one in question.choices if one.label == label), None)
    if proposed is not None or question.draws is None or not label:
        return proposed
    try:
        return drafted.typed(question, label)
    except ValueError:  # what it names is on the page no more
        return None


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
