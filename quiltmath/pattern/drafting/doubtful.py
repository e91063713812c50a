"""What is asked about a line that no rule reads."""

from __future__ import annotations

import re
from dataclasses import replace

from .chunks import Chunk
from .model import Choice, Context, Question, Words
from .page import Page

NOT_UNDERSTOOD = "what does this line say?"
_MIXED = re.compile(r"\d+ \d+/\d+")


def question(chunks: list[Chunk], words: Words, context: Context, page: Page) -> Question:
    """The question about the words of a line; where a figure has lost its blank, with the line as it may be meant."""
    doubts = [one for one in chunks if one.kind == "doubt"]
    if not doubts:
        return Question(words, NOT_UNDERSTOOD)
    readings = [reading for one in doubts for side in one.value.sides for reading in side.readings]
    also = f": is {' or '.join(readings)} meant?" if readings else ""
    return Question(words, f"{doubts[0].value.doubt}{also}", tuple(_proposals(doubts, words, context, page)))


def _proposals(doubts, words, context, page):
    """The line as it reads with each of the figures that its one doubtful figure may be."""
    from .reader import Reader

    sides = [side for one in doubts for side in one.value.sides if side.doubt]
    if len(sides) != 1:
        return
    (side,) = sides
    for reading in filter(_MIXED.fullmatch, side.readings):
        written = page.text[words.start : side.start] + reading + page.text[side.figure_end : words.end]
        reader = Reader(Page(written))
        reader.context = replace(context.copied(), strip_set=None, last=())
        kept = reader.all()
        if kept.entries and not kept.questions:
            yield Choice(reading, tuple(replace(one, words=words) for one in kept.entries))
