"""What the command `draft` prints and saves."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from ... import resources
from .drafted import Draft, draft
from .model import Choice, Question
from .page import LONGEST, Unreadable
from .page_files import page_text
from .written import counted

DRAFTED, UNREADABLE = 0, 2


def draft_command(pages: Sequence[str], save: str, force: bool = False, ask: bool = False) -> int:
    """Draft one sheet from the pages of a pattern, print what has to be asked, or `ask` it at once, one question after
    another, and save it; gives the exit code."""
    try:
        if Path(save).suffix.lower() != ".toml":
            raise Unreadable(
                f"a sheet is a .toml file; got {resources.shown(save)}: write for example --save sheet.toml"
            )
        if any(resources.same(save, page) for page in pages):
            raise Unreadable(f"{resources.shown(save)} is one of the pages: give the sheet another name")
        text = "\n\n".join(page_text(page) for page in pages)
        drafted = draft(text[: LONGEST + 1], ", ".join(resources.shown(Path(page).name) for page in pages))
        drafted = answered(drafted) if ask else drafted
        place = resources.save_as_named(save, drafted.text().encode("utf-8", "replace"), force)
    except ValueError as problem:
        print(f"quiltmath: {_printable(str(problem))}", file=sys.stderr)
        return UNREADABLE
    print(told(drafted, str(place)))
    return DRAFTED


def answered(drafted: Draft) -> Draft:
    """A draft with its questions put one at a time, and answered by the numbers that are typed, or, where nothing is
    proposed, by rows; what is left empty is left aside, and where the typing ends the rest stays to be asked."""
    while drafted.questions:
        question = drafted.questions[0]
        what = "answer" if question.draws else "number of the answer"
        print("\n".join(["", *_put(drafted, question), f"Type the {what}, or nothing to leave it aside:"]))
        line = sys.stdin.readline()
        if not line:
            break
        try:
            drafted = drafted.answered(question, _choice(drafted, question, line.strip()))
        except ValueError as problem:
            print(_printable(f"{str(problem)[:1].upper()}{str(problem)[1:]}."))
    return drafted


def _choice(drafted: Draft, question: Question, typed: str) -> Choice | None:
    """The answer that is typed; none where nothing is."""
    if not typed:
        return None
    if typed.isdecimal() and 1 <= int(typed) <= len(question.choices):
        return question.choices[int(typed) - 1]
    if question.draws is None:
        raise ValueError(f"there is no answer {typed[:20]!r}")
    return drafted.typed(question, typed)


def _put(drafted: Draft, question: Question) -> list[str]:
    """A question as it is put: its words, those of the page, and its answers by number, or what may be named in it."""
    lines = [f"{question.text[:1].upper()}{question.text[1:]}"]
    if question.draws is None:
        lines += [f"   line {question.words.line}: {question.words.text}"]
    lines += [f"   {number}. {choice.label}" for number, choice in enumerate(question.choices, 1)]
    lines += [f"   - {name}" for name in drafted.names_to_type(question)]
    return [_printable(line) for line in lines]


def told(drafted: Draft, place: str) -> str:
    """A draft in words: how much was understood, each question with the words it is about, what is still to be said."""
    cut = sum(one.table in ("cut", "strip_set", "binding") for one in drafted.entries)
    kept = len(drafted.instructions) + len(drafted.remarks)
    head = (
        f"{place}: {counted(cut, 'line')} of the cutting list, {counted(len(drafted.questions), 'question')}, "
        f"{counted(kept, 'other line')} of the page kept as {'it is' if kept == 1 else 'they are'}."
    )
    lines = [head]
    for number, one in enumerate(drafted.questions, 1):
        lines += ["", f"{number}. {one.text[:1].upper()}{one.text[1:]}", f"   line {one.words.line}: {one.words.text}"]
        lines += [f"   - {choice.label}" for choice in one.choices]
    if drafted.missing:
        lines += ["", "Still to be said:", *(f"- {one}" for one in drafted.missing)]
    return _printable("\n".join(lines))


def _printable(words):
    return "".join(char if char.isprintable() or char == "\n" else "?" for char in words)
