"""What is asked about a line that no rule reads."""

from __future__ import annotations

import re
from dataclasses import replace

from .chunks import Chunk, count, opened
from .model import Choice, Context, Question, Words
from .page import Page

NOT_UNDERSTOOD = "what does this line say?"
_COUNTED = re.compile(r"\((?P<count>\d+)\) (?P<size>.+)")


def question(chunks: list[Chunk], words: Words, context: Context, page: Page) -> Question:
    """The question about the words of a line; where a figure has lost its blank, with the line as it may be meant."""
    doubts = [one for one in chunks if one.kind == "doubt"]
    if not doubts:
        return Question(words, NOT_UNDERSTOOD)
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
    asked = question(flat, page.words(chunks[0].start, chunks[-1].end), context, page)
    return asked if asked.choices else None


def _proposals(doubts, words, context, page):
    """The line as it reads with each of the figures that its doubtful figure may be."""
    from .reader import Reader

    sides = [side for one in doubts for side in one.value.sides if side.doubt]
    if len({len(side.readings) for side in sides}) != 1:
        return
    for place, reading in enumerate(sides[0].readings):
        written, at = "", words.start
        for side in sides:
            written += page.text[at : side.start] + side.readings[place]
            at = side.figure_end
        reader = Reader(Page(written + page.text[at : words.end]))
        reader.context = replace(context.copied(), strip_set=None, last=())
        kept = reader.all()
        if kept.entries and not kept.questions:
            yield Choice(_said(reading), tuple(replace(one, words=words) for one in kept.entries))
