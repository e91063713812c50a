"""What nothing can be proposed for: the blocks and the setting that the numbers of a page allow no way to make."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from .layouts import drawn, finished_size, only
from .model import Entry, Question

LEAST_TOLD = 3
"""Sentences of sewing: a page that has so many tells of a whole quilt."""


def unproposed(entries: list[Entry], sentences: int = 0) -> Iterator[Question]:
    """The question that says so, of a page that tells of a whole quilt, in words or by so many `sentences` of sewing:
    whoever answers types its rows.

    >>> from . import draft
    >>> page = 'Finished 40" x 41"\\nNavy: 7 squares 3"\\nCream: 11 rectangles 2" x 4 1/4"'
    >>> [asked.text[:25] for asked in unproposed([*draft(page).entries])]
    ['how is the quilt pieced? ']
    """
    cut = [one for one in entries if one.table == "cut"]
    told = [one for one in entries if one.table == "block" and "rows" not in one.data]
    setting = only(entries, "setting")
    set_so_far = setting.data if setting else {}
    pieced = [one for one in cut if "size" in one.data and "border" not in one.role]
    told_whole = sentences >= LEAST_TOLD and len(pieced) > 1
    whole = told or set_so_far or finished_size(entries) or told_whole
    if not cut or not whole or drawn(entries) or {"style", "across", "down", "block"} <= set_so_far.keys():
        return
    if told or not any(one.table == "block" for one in entries):
        number = told[0].data.get("count") if told else None
        of = f"are the {number} blocks" if number else "is the quilt"
        words = told[0].words if told else cut[-1].words
        why = "The numbers of the cutting list do not tell"
        block = told[0] if told else Entry("block", {}, words, "block")
        yield Question(words, f"how {of} pieced? {why}: type its rows, from the top", draws=block)
        return
    words = setting.words if setting else cut[-1].words
    why = "The number of the blocks does not tell"
    draws = replace(setting, words=words) if setting else Entry("setting", {}, words)
    yield Question(words, f"how is the quilt set? {why}: type how many stand across and down", draws=draws)
