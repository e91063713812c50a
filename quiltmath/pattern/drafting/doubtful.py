"""What is asked about a line that no rule reads."""

from __future__ import annotations

import re
from dataclasses import replace

from .chunks import Chunk, count, opened
from .model import SOMETHING_ELSE, Choice, Context, Question, Words
from .page import Page

NOT_UNDERSTOOD = "what does this line say?"
_PURPOSE = re.compile(r"(?P<pieces>\W*\d.*?)[\s,(-]+for\b[^\d]*", re.IGNORECASE | re.DOTALL)
_COUNTED = re.compile(r"\((?P<count>\d+)\) (?P<size>.+)")


def question(chunks: list[Chunk], words: Words, context: Context, page: Page) -> Question:
    """The question about the words of a line; where a figure has lost its blank, with the line as it may be meant."""
    doubts = [one for one in chunks if one.kind == "doubt"]
    if not doubts:
        return Question(words, NOT_UNDERSTOOD, tuple(_without_purpose(words, context)))
    readings = dict.fromkeys(reading for one in doubts for side in one.value.sides for reading in side.readings)
    also = f": is {' or '.join(map(_said, readings))} meant?" if readings else ""
    return Question(words, f"{doubts[0].value.doubt}{also}", tuple(_proposals(doubts, words, context, page)))


def _said(reading):
    """A reading as a person says it: "6 1/2", or "1 of 6 1/2" where its first number is a count."""
    counted = _COUNTED.fullmatch(reading)
    return f"{counted['count']} of {counted['size']}" if counted else reading


def of_the_line(chunks: list[Chunk], context: Context, page: Page) -> Question | None:
    """The question about a line of several sentences whose one figure is doubtful, where all of it can be read with the
    figure that is meant."""
    flat = opened(chunks)
    if not count(flat, "doubt"):
        return None
    asked = question(flat, page.over(chunks), context, page)
    return asked if asked.choices else None


def _without_purpose(words, context):
    """Pieces that are told with a place in the quilt that nobody knows, without it: "6 squares 9 1/2 in for plain
    squares"."""
    match = _PURPOSE.fullmatch(words.text)
    if match is None or not context.fabrics:
        return
    kept = _read(match["pieces"], context)
    if len(kept.entries) == 1 and not kept.questions and "cut" == kept.entries[0].table:
        yield Choice(match["pieces"].strip(" ,-"), tuple(replace(one, words=words) for one in kept.entries))
        yield SOMETHING_ELSE


def _read(text, context):
    """What a text alone says, as it would where it stands."""
    from .reader import Reader

    reader = Reader(Page(text))
    reader.context = replace(context.copied(), strip_set=None, last=(), strips=())  # which have places on their page
    return reader.all()


def _proposals(doubts, words, context, page):
    """The line as it reads with each of the figures that its doubtful figure may be."""
    sides = [side for one in doubts for side in one.value.sides if side.doubt]
    if len({len(side.readings) for side in sides}) != 1:
        return
    for place, reading in enumerate(sides[0].readings):
        written, at = "", words.start
        for side in sides:
            written += page.text[at : side.start] + side.readings[place]
            at = side.figure_end
        kept = _read(written + page.text[at : words.end], context)
        if kept.entries and not kept.questions:
            yield Choice(_said(reading), tuple(replace(one, words=words) for one in kept.entries))
