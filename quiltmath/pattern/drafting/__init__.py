"""From the text of a printed page to the draft of a sheet, by a grammar that takes every figure or asks.

    drafted = pattern.draft(pattern.page_text("page.pdf"))
    drafted.entries, drafted.questions, drafted.text()

`page_files.py` reads files, `characters.py` brings the page to one spelling, sign for sign (`numbered_fabrics.py` the
fabrics that are called by numbers, `decimal_commas.py` the commas that are decimal points), `page.py` finds its lines,
`furniture.py` the page numbers and feet between them; `figures.py`, `vocabulary.py` and `chunks.py` part a line into
chunks; `brackets.py` finds what is a remark or a check, `groups.py` the pieces that one sentence tells of; the rules in
`pieces.py`, `triangles.py`, `of_each.py`, `strips.py`, `subcut.py` and `strips_above.py` (by `strips_give.py` and
`share_of_strips.py`), `beside_others.py`, `sets.py`, `buying.py`, `bought_by_number.py`, `precuts.py` and `stated.py`
(`widths.py` for that of the fabric, `which_way.py` for how it is cut, `laid_out.py` for how blocks are set,
`units_in_columns.py` for units and their columns at once; several in one sentence in `together.py`; `counted.py` for
counts told in a roundabout way) each read one kind of line, and only where no figure of it is left over; `in_turn.py`
finds what is cut first and second, `heads.py` (with `listed.py` for several names, `heads_of_each.py` for what is cut
from each piece or print, `other_names.py` for what the shopping list calls a fabric besides, `sections.py` for what is
bought, cut or sewn) what holds for the lines below one, `following.py` and `borders.py` (with `measured.py` for the way
that a quilt is measured, `which_border.py` for the border that is meant, `lengths_in_columns.py` for the lengths of
several, `borders_pieced.py` for those that strips are pieced to) what a line says of those before it, `name_to_buy.py`
what a fabric is called that is bought, `bought_for.py` for which place, `unit_bought.py` in which unit; `tables.py`,
`rows.py` and `counts_by_fabric.py` read the rows of a table by its head; `reader.py` goes through the page line by
line, `in_cells.py` through a line in columns, `clauses.py` through one with its head, `sentences.py` through its
sentences (`ends_of_sentences.py` parts them), `sentence.py` through one, `unfigured.py` through one without figures;
`footnotes.py` knows the pieces that bear the mark of a line below them, `captions.py` the words below a drawing,
`signs_explained.py` the signs that a page explains, `keyed_pieces.py` the pieces whose sizes stand in a key;
`strips_that_bind.py` finds the strips that a page binds with, `sets_in_words.py` those that a sentence names in their
order, `named_sets.py` knows what is cut of strip sets by their names, `sewn_pieces.py` the sentences of sewing that
only name pieces, `logs.py` and `lists_of_logs.py` the lists of logs, `kinds_of_blocks.py` the blocks that are counted
above all lists; `accounted.py` asks about each word that is found in nothing that was read and is none of the fillers,
`said_of_all.py` about what changes every piece; `columns_of_sizes.py` parts the sizes of a page, `about_the_quilt.py`
proposes what a line that no rule reads may say of the whole; `at_odds.py` asks about what no sheet can say together;
`asking.py` asks what only the drawings show: of which fabric lines are that name none (`which_fabric.py`), which units
are made of what is `at_hand.py` (`unit_kinds.py`, `snowballs.py`, `three_fabrics.py`, `strips_of_sets.py`), how blocks
are pieced (`pieced_blocks.py`, by the rows that a page tells, `rows_in_words.py`, and the ways of `piecing.py` and
`in_rounds.py`, each a `way_to_piece.py`, first as `small_blocks.py`), cut apart (`cut_apart.py`) and set
(`set_in_rows.py`, `in_columns.py`, by what `layouts.py` knows of them), which borders lie round them (`bordering.py`),
and last what the page says that units, blocks and the top measure otherwise (`said_of_sewn.py`); what nothing is
proposed for (`unproposed.py`) is typed by whoever answers (`by_hand.py`); the running prose tells which proposal is the
likeliest (`in_passing.py`). `titles.py` finds what the pattern is called, `drafted.py` takes the answers, `written.py`
writes the sheet.
"""

from .drafted import Draft, draft
from .model import Choice, Entry, Question, Words
from .page import Unreadable
from .page_files import page_text

__all__ = ["Choice", "Draft", "Entry", "Question", "Unreadable", "Words", "draft", "page_text"]
