"""The rules that each read one kind of line, in the order in which they are tried."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from . import (
    beside_others,
    borders,
    bought_by_number,
    buying,
    following,
    for_each_block,
    kinds_of_blocks,
    laid_out,
    long_sashing,
    named_sets,
    of_each,
    pieces,
    precuts,
    prose,
    sets,
    sets_in_words,
    stated,
    strips,
    strips_above,
    strips_that_bind,
    subcut,
    together,
    units_in_columns,
    widths,
)
from .brackets import without_conversions, without_purpose, without_remarks
from .chunks import Chunk
from .model import Context, Reading
from .page import Page

Rule = Callable[[list[Chunk], Context, Page], Reading | None]

OF_THE_WHOLE: tuple[Rule, ...] = (
    stated.seam,
    widths.width,
    laid_out.told,
    kinds_of_blocks.alike,
    units_in_columns.told,
    precuts.called_by_its_pieces,
    stated.finished,
    together.several,
    kinds_of_blocks.told,
    precuts.in_sentences,
    buying.lining,
    bought_by_number.as_much_of_each,
    buying.by_length,
    precuts.several,
    precuts.packs,
    precuts.as_pieces,
)
OF_CUTTING: tuple[Rule, ...] = (
    strips.whole_binding,
    strips.open_count,
    strips.joined,
    sets.made_and_cut,
    sets.cut_as_needed,
    sets.cut_across,
    beside_others.told,
    strips_above.of_strips_above,
    strips_above.of_the_rest,
    strips_above.left_whole,
    subcut.strips_counted,
    subcut.strips_behind,
    subcut.sub_cut,
    sets.begun,
    sets.made,
    of_each.pieces_of_each,
    of_each.of_letters,
    strips.strip,
    pieces.piece,
    laid_out.layout,
    stated.blocks,
    stated.units,
)
OF_LINES_ABOVE = (
    named_sets.told,
    sets_in_words.told,
    following.cut_to_triangles,
    following.cut_by_size,
    following.total,
    strips_that_bind.told,
    borders.lengths,
    long_sashing.lengths,
    widths.of_pieces,
)
"""What says more of the lines above; these rules are given what was kept of them."""
OF_SEWING: tuple[Rule, ...] = (laid_out.layout, stated.seam)


def first(rules: Iterable[Rule], chunks: list[Chunk], context: Context, page: Page) -> Reading | None:
    """What the first of the rules reads that takes every figure of these chunks; None where none does."""
    chunks = for_each_block.without_scope(prose.behind_a_kit(chunks, page), page)
    chunks = without_purpose(without_conversions(without_remarks(chunks, page)), page, bool(context.fabrics))
    return next((read for rule in rules if (read := rule(chunks, context, page)) is not None), None) if chunks else None
