"""One line for several fabrics: one size, and a count of each, or as many of each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from . import naming
from .chunks import FIGURES, MEASURES, Chunk, all_of, count, opened
from .model import Context, Reading
from .pieces import NOUNS, piece
from .strips import strip
from .vocabulary import COLOURS, OF_FABRIC

OF_SIZE = (*NOUNS, *MEASURES, "strips", "wof", "once", "twice")
BETWEEN = (*OF_SIZE, "count", "word", "punct", "and", "cut", "article", "label", "note", "from")


def counts_of_each(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """One size, and a count of each of several fabrics: `3 1/2" squares: ten navy, twenty-four cream`, or
    `10 navy and 24 cream squares 3 1/2"`, or `12 squares 5" (6 dark, 6 light)`."""
    plain = _parted_in_bracket(chunks) or opened(chunks)
    counts = all_of(plain, "count")
    size = _of_size(plain)
    if len(counts) < 2 or len(all_of(size, *MEASURES)) != 1 or not all(one.kind in BETWEEN for one in plain):
        return None
    at = [plain.index(one) for one in counts]
    told = [one for one in plain if one.kind in OF_SIZE and (one.kind not in NOUNS or count(plain, one.kind) == 1)]
    before = all(plain.index(one) < at[0] for one in told)
    named = list(_named(plain, at, before, page))
    if not (before or all(plain.index(one) > at[-1] for one in told)) or not all(named):
        return None
    return _each(zip(counts, named), size, chunks, context, page)


def _of_size(chunks):
    """What says the size, the noun and the cut of a line, each said once."""
    found: list[Chunk] = []
    for one in chunks:
        if one.kind in OF_SIZE and (one.kind in MEASURES or not count(found, one.kind)):
            found.append(one)
    return found


def _named(plain, at, before, page):
    """What stands behind each count, as far as the next, or the size."""
    for place, stop in zip(at, [*at[1:], len(plain)]):
        behind = [one for one in plain[place + 1 : stop] if before or one.kind not in OF_SIZE]
        yield naming.described(behind, page)


def _parted_in_bracket(chunks):
    """The chunks without their count, where a bracket parts it: "12 squares (6 dark, 6 light)"."""
    notes = [one for one in chunks if one.kind == "note" and count(one.value, "count") > 1]
    counts = all_of(chunks, "count")
    if len(notes) != 1 or len(counts) != 1 or count(notes[0].value, "for", "set", "total", "role"):
        return None
    inside = notes[0].value
    if sum(one.value for one in all_of(inside, "count")) != counts[0].value or count(inside, *MEASURES):
        return None
    return [one for one in chunks if one not in (counts[0], notes[0])] + inside


def _each(counted, size, chunks, context, page):
    """The reading of a line once for each (count, fabric); None where one of them is no fabric, or cannot be read."""
    words, found = page.words(chunks[0].start, chunks[-1].end), []
    for number, said in counted:
        fabric = naming.known(said, context.known) or said
        here, line = replace(context, fabrics=(fabric,)), [number, *size]
        read = strip(line, here, page) if count(size, "strips", "wof", "strip") else piece(line, here, page)
        if read is None or read.questions or not read.entries:
            return None
        found += [replace(entry, words=words) for entry in read.entries]
    return Reading(tuple(found))


def as_many_of_each(chunks: list[Chunk], context: Context, page) -> Reading | None:
    """As many pieces of each of several fabrics: "Cut 3 each 4 7/8 in squares from red and green"."""
    plain = opened(chunks)
    each, counts = all_of(plain, "each"), all_of(plain, "count")
    size = _of_size(plain)
    if len(each) != 1 or len(counts) != 1 or len(all_of(size, *MEASURES)) != 1:
        return None
    if not all(one.kind in (*BETWEEN, "each") for one in plain):
        return None
    names = list(parted_names(plain, page))
    if len(names) < 2 or not all(is_fabric(one, context) for one in names):
        return None
    return _each([(counts[0], one) for one in names], size, chunks, context, page)


def parted_names(chunks: list[Chunk], page) -> Iterator[str]:
    """The names that stand between "and" and commas."""
    part: list[Chunk] = []
    for one in [*chunks, None]:
        if one is not None and one.kind not in ("and", "punct", "for", *FIGURES):
            part.append(one)
            continue
        said = naming.described(part, page)
        if said:
            yield said
        part = []
        if one is not None and one.kind == "for":
            return


def is_fabric(name: str, context: Context) -> bool:
    """Whether these words name a fabric of the page, or say the colour or the kind of one."""
    return bool(naming.known(name, context.known)) or bool(naming.key(name) & (COLOURS | OF_FABRIC))
