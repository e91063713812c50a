"""What one sentence is read as: by a rule, from each of several prints, or as the several pieces that it tells of."""

from __future__ import annotations

from dataclasses import replace

from . import brackets, from_above, groups, keyed_pieces, naming, of_each, prose, stated, strips_above, subcut
from .chunks import FIGURES, MEASURES, NAMED, Chunk, all_of, chunked, count, opened, place_of
from .kept import Kept
from .logs import Logs
from .model import Choice, Context, Entry, Question, Reading
from .page import Page
from .rules import OF_CUTTING, OF_LINES_ABOVE, OF_SEWING, OF_THE_WHOLE, first
from .strips_give import sides_of
from .vocabulary import HANDLED, trade_name


class Sentence:
    """Reads a sentence of one page; what holds from line to line is its `context`, what was read is in `read`."""

    def __init__(self, page: Page) -> None:
        self.page, self.context = page, Context()
        self.read = Kept()
        self.noun = ""
        self.noun_of_all = ""
        """What the head of the section says that all is which is cut below it."""
        self.counted = 0
        """How many of each piece a line above told to be cut; 0 where none did."""
        self.logs: Logs | None = None
        """The logs of which the lines below say how long each is."""
        self.log_strips: dict[str, Entry] | None = None
        """{fabric: its strips, which are told to be cut into logs}; None where nothing says that they are."""
        self.keyed: dict[str, list[Chunk]] = {}
        """{the letter of a piece: its size}, as a key above the cutting list tells it."""
        self.unkeyed: dict[str, Question] = {}
        """{the letter of a piece of the key that nothing has counted yet: what is asked about its line}."""
        self.shared: list[Chunk] = []
        """A size and a noun that stand above lines which only count pieces."""

    def _state(self):
        """What is known and kept so far, apart from what comes of trying a line."""
        return self.context.copied(), self.read.copied()

    def _chunks(self, start, end):
        chunks = keyed_pieces.lettered(chunked(self.page.plain, start, end), self.page)
        while chunks and chunks[0].kind in ("ref", "punct"):
            if chunks[0].kind == "ref":
                self.read.understood.append(self.page.words(chunks[0].start, chunks[0].end))
            chunks = chunks[1:]
        if chunks and self.page.said(chunks[0]) == "plus" and count(chunks[1:2], "count"):
            chunks = chunks[1:]  # "... plus 20 squares 2 in"
        while chunks and chunks[-1].kind == "punct":
            chunks = chunks[:-1]
        return brackets.behind_a_need(chunks, self.page)

    def _reading(self, chunks):
        """What a sentence is read as by the first rule that takes all its figures; None where none does."""
        of_key = keyed_pieces.counted(chunks, self.keyed, self.page)
        if of_key is not None:
            self.unkeyed.pop(of_key[0], None)
            chunks = of_key[1]
        chunks = brackets.without_handling(brackets.set_off(_all_in_brackets(chunks), self.page), self.page)
        chunks = _to_blocks(_to_a_place(_cut_first(_of_more_strips(chunks, self.page))))
        of_sets = count(chunks, "strip_set") and count(chunks, "of_each")  # "Cut four squares from each panel"
        chunks = chunks if of_sets else self._of_each_fabric(chunks)
        each = None if of_sets else self._of_each_print(chunks) or self._of_ready_strips(chunks)
        if each is not None:
            return each
        for rule in OF_LINES_ABOVE:
            more = rule(chunks, self.read, self.context, self.page)
            if more is not None:
                return more
        trimmed = strips_above.trimmed(chunks, self.context, self.page)
        if trimmed is not None:
            return trimmed
        if self.context.strips and strips_above.stay_whole(chunks, self.page):
            return strips_above.left_whole(chunks, self.context, self.page)
        of_strips = count(opened(chunks), "strip_set", "end_to_end", "strips")
        if self.context.strip_set is not None:
            of_strips += count(opened(chunks), "set")
        if prose.is_prose(chunks, self.page) and not of_strips:
            return self._first(OF_SEWING, chunks)
        each_trimmed = subcut.each_trimmed(chunks, self.context, self.page)
        if each_trimmed is not None:
            return each_trimmed
        if prose.said(chunks, self.page) & HANDLED and not count(chunks, "strip_set"):
            return self._first((stated.seam,), chunks)
        if prose.sets_aside(chunks):
            return None
        chunks = self._of_shared_size(chunks)
        if self.noun and not count(opened(chunks), "squares", "rectangles", "strips", "pieces", "triangles", "strip"):
            chunks = [*chunks, Chunk(self.noun, chunks[-1].end, chunks[-1].end)]
        read = self._first((*OF_THE_WHOLE, *OF_CUTTING), chunks)
        return read and _of_one_place(read, opened(chunks))

    def _of_shared_size(self, chunks):
        """The chunks of a line that counts pieces, with the size that stands above it, or of a size with its count."""
        if self.counted and not count(opened(chunks), "count") and count(opened(chunks), *MEASURES) == 1:
            return [Chunk("count", chunks[0].start, chunks[0].start, self.counted), *chunks]
        bare = all(one.kind in ("count", "word", "punct", "and", "label", "from", "note") for one in chunks)
        if not self.shared or not bare or count(chunks, "count") != 1:
            return chunks
        end = chunks[-1].end
        return [*chunks, *(one._replace(start=end, end=end) for one in self.shared)]

    def _of_each_fabric(self, chunks):
        """The chunks without the "from each" or "each" of their pieces, where a head names several fabrics: each of
        these is cut as it says."""
        if len(self.context.fabrics) < 2 or self.context.per_print or len(chunks) < 2:
            return chunks
        if chunks[-1].kind == "note" and _counts_strips_of_each(chunks[-1].value):
            chunks = chunks[:-1]
        if chunks[-1].kind == "note" and count(chunks[-1].value, "triangles") and count(chunks[:-1], "each", "of_each"):
            inside = [
                one for one in chunks[-1].value if one.kind not in ("each", "of_each")
            ]  # "(20 triangles of each)"
            chunks = [*chunks[:-1], chunks[-1]._replace(value=inside)]
        if chunks[-1].kind in ("each", "of_each"):
            return chunks[:-1]
        at = place_of(chunks, "each", "of_each")
        before, behind = chunks[at - 1].kind, [one.kind for one in chunks[at + 1 :]]
        of_noun = before in groups.NOUNS or chunks[at].kind == "of_each"  # "16 of each, 4 1/2 in squares"
        behind = behind[1:] if behind[0] == "punct" and of_noun else behind
        of_pieces = at and before in ("count", *groups.NOUNS) and behind[:1] and behind[0] in (*MEASURES, *groups.NOUNS)
        return [*chunks[:at], *chunks[at + 1 :]] if of_pieces else chunks

    def _first(self, rules, chunks):
        return first(rules, chunks, self.context, self.page)

    def _in_parts(self, chunks):
        """What a sentence of several pieces is read as in the one way in which each of its parts is read, and nothing
        of it asked; None where there is none, or more than one."""
        noted = subcut.in_a_bracket(chunks) if chunks else []
        if noted:
            read = self._in_parts(chunks[:-1])
            return read and subcut.beside_several(read, noted, self.context, self.page)
        before, found = self._state(), []
        for groups_ in groups.ways(chunks, self.context, self.page):
            read = self._of_groups(groups_)
            if read is not None and read not in [one for one, _ in found]:
                found.append((read, self._state()))
            self.context, self.read = before
            before = self._state()
        if len(found) != 1:
            return None
        read, state = found[0]
        if self._told_last(read, chunks):
            read = _of_one_border(read)
            if read is None:
                return None
        self.context, self.read = state
        read = _of_one_letter(read, chunks)
        return _with_the_border(_of_one_place(read, opened(chunks)), opened(chunks))

    def _told_last(self, read, chunks):
        """Whether a bracket or a comma behind several pieces parts from these a fabric or a cut that may be that of the
        last alone, or of them all."""
        at = max((place for place, one in enumerate(chunks) if one.kind in (*MEASURES, *groups.NOUNS)), default=0)
        behind = chunks[at + 1 :]
        parted = behind and (behind[-1].kind == "note" or self.page.said(behind[0]) == ",")
        last_size = max((place for place, one in enumerate(chunks) if one.kind in MEASURES), default=0)
        parted = parted or any(self.page.said(one) in (":", "-") for one in chunks[last_size:])
        if not parted or len(read.entries) < 2:
            return False
        one, last = (entry.data for entry in read.entries[-2:])
        squares = isinstance(one.get("size"), str) and "triangles" not in last
        keys = ("fabric", *(["cut"] if squares else []))
        return any(key in last and key not in one for key in keys)

    def _of_ready_strips(self, chunks):
        """What is cut from strips that are named by their width: those right above, or ready ones where none of it are
        cut on the page; None where that is not read, or the pieces are not as wide."""
        found = strips_above.of_ready_strips(chunks, self.page)
        if found is None:
            return None
        rest, width, named, strips = found
        here = self.context
        if not named and {one.data["strip"] for one in here.strips} == {width}:
            return self._reading([Chunk("into", chunks[0].start, rest[0].start), *rest])
        if any(one.data.get("strip") == width for one in self.read.entries):
            return None
        self.context = replace(here, fabrics=(naming.known(named, here.known) or named,) if named else here.fabrics)
        read = self._reading(rest) or self._in_parts(rest)
        self.context = here
        if read is None or read.questions or not all(width in sides_of(one) for one in read.entries):
            return None
        words = self.page.over(chunks)
        if strips:
            first, *others = (replace(one, words=words) for one in read.entries)
            return replace(read, entries=(first.but(strips=strips, strip_width=width), *others))
        told = self.page.words(chunks[0].start, rest[0].start).text
        return replace(read, entries=tuple(replace(one.noted(told), words=words) for one in read.entries))

    def _of_each_print(self, chunks):
        """What is cut from each of so many prints; None where it is not read."""
        here, each = self.context, of_each.of_prints(chunks, self.page)
        if each is None or here.per_print or here.times > 1:
            return None
        if not each.name and not here.fabrics and chunks[-1].kind == "of_each":  # "from each", of what is not said
            return None
        fabrics = (naming.known(each.name, here.known) or each.name,) if each.name else here.fabrics
        self.context = replace(here, per_print=True, prints=each.prints, fabrics=fabrics)
        read = self._reading(each.pieces) or self._in_parts(each.pieces)
        self.context = here
        if read is None or read.questions:
            return None
        words = self.page.over(chunks)
        cut = tuple(replace(one, words=words) for one in read.entries)
        if each.prints is None:
            return replace(read, entries=cut, questions=(Question(words, "from how many prints is this cut?"),))
        piece = trade_name(each.name.casefold())
        prints = {"prints": each.prints, **({"piece": piece} if piece else {})}
        return replace(read, entries=(*cut, *(Entry("fabric", prints, words, one) for one in fabrics)))

    def _along_the_selvage(self, chunks):
        """What the several pieces of a sentence are read as that begins or ends with how they lie: "from the length of
        the fabric"; asked where that may be said of the last alone."""
        at = place_of(chunks, "lengthwise")
        before, behind = chunks[:at], chunks[at + 1 :]
        if count(chunks, "lengthwise", "wof") > 1 or count(chunks, "size") < 2:
            return None
        first = chunks[at].kind == "lengthwise" and {one.kind for one in before} <= {"cut", "punct", "article"}
        if first:  # "Cut lengthwise: 2 … and 2 …"
            read = self._in_parts([*before, *behind])
            return read and replace(read, entries=tuple(map(from_above.along_the_selvage, read.entries)))
        if not at or count(before, "size") < 2:
            return None
        if behind and behind[0].kind != "from":  # "down the length of the floral fabric"
            return None
        last = next(one for one in reversed(before) if one.kind != "word")
        of = last.kind == "from" or bool(behind)
        whole = [*(before[: before.index(last)] if last.kind == "from" else before), *behind]
        read = self._reading(whole) or self._in_parts(whole)
        if read is None or read.questions or len(read.entries) < 2:
            return None
        along = tuple(map(from_above.along_the_selvage, read.entries))
        if of:
            return replace(read, entries=along)
        words = self.page.over(chunks)
        choices = (Choice("all of them", along), Choice("the last alone", (*read.entries[:-1], along[-1])))
        return Reading(questions=(Question(words, "which of these are cut lengthwise?", choices),))

    def _of_groups(self, parts):
        """What all the groups of a sentence are read as; None where one of them is not."""
        found = Reading()
        for one in parts:
            here = self.context
            self.context = groups.context_of(one, here)
            read = self._reading(one.chunks)
            self.context = replace(self.context, fabrics=here.fabrics)
            if read is None or read.questions or not read.entries:
                return None
            words = self.page.words(min([one.start, *(strips.words.start for strips, _ in read.instead)]), one.end)
            entries = (replace(entry, words=words) for entry in read.entries)
            instead = (*found.instead, *(one for one in read.instead if one not in found.instead))
            found = Reading((*found.entries, *entries), (), (*found.remarks, *read.remarks), instead)
        found = replace(found, entries=_measured_alike(found.entries))
        return None if groups.may_be_sub_cut(found.entries) else found


def _of_one_border(read):
    """What a line reads, all strips of one border of the fabric that is told behind the last: a border is of one; None
    where they are of none, or the last are cut in another way."""
    border = {(naming.border_of(one.role), str(one.data.get("size", ""))[:8].partition(",")[0]) for one in read.entries}
    last = read.entries[-1]
    if len(border) > 1 or not naming.border_of(last.role).endswith("border") or "cut" in last.data:
        return None
    entries = tuple(one.but(fabric=last.data.get("fabric")) for one in read.entries)
    return replace(read, entries=entries)


def _of_one_letter(read, chunks):
    """What a line reads, the letter that it begins with that of all its pieces, where these are of one size and only
    their fabrics differ: "A: 3 in square: 12 navy, 24 red"."""
    one_size = count(opened(chunks), *MEASURES) == count(opened(chunks), "label") == 1
    if not one_size or chunks[0].kind != "label" or not read.entries:
        return read
    entries = (one if one.name else replace(one, name=read.entries[0].name) for one in read.entries)
    return replace(read, entries=tuple(entries))


def _counts_strips_of_each(inside):
    """Whether a bracket only says how many strips of each fabric are cut: "(two strips of each color)"."""
    kinds = [one.kind for one in inside if one.kind not in ("word", "punct")]
    return kinds in (["count", "strips", "of_each"], ["count", "strips", "each"])


def _measured_alike(entries):
    """The pieces of a sentence, strips as long as the fabric is wide taken for pieces of that length beside others of
    their width: "2 strips 2 x 52 in and 2 strips 2 x 40 in"."""
    widths = {one.data["size"][0] for one in entries if isinstance(one.data.get("size"), list)}
    return tuple(from_above.of_its_length(one) if one.data.get("strip") in widths else one for one in entries)


def _all_in_brackets(chunks):
    """The chunks, the one bracket opened that holds all of the figures: "Red (12 squares, 3 in)"."""
    notes = [one for one in chunks if one.kind == "note" and count(one.value, *FIGURES)]
    whole = len(notes) == 1 and count(notes[0].value, "count") and count(notes[0].value, *MEASURES)
    return opened(chunks) if whole and not count(chunks, *FIGURES, *NAMED) else chunks


_WHO_CUTS = ("which", "that", "you", "we", "i")


def _of_more_strips(chunks, page):
    """The chunks without the "more" of strips that the same sentence cuts up: "12 more strips 3 in, cut into 124 …",
    and without who does: "which you subcut into …"."""
    chunks = [
        one
        for at, one in enumerate(chunks)
        if not (count(chunks[at + 1 : at + 3], "into") and page.said(one) in _WHO_CUTS)
    ]
    at = place_of(chunks, "strips", otherwise=len(chunks))
    more = (
        1 < at < len(chunks) and page.said(chunks[at - 1]) in ("more", "additional") and chunks[at - 2].kind == "count"
    )
    return [*chunks[: at - 1], *chunks[at:]] if more and count(chunks[at:], "into") else chunks


def _cut_first(chunks):
    """The chunks, an "and cut" behind no strips as the verb that it is: "take the red and cut 12 squares"."""
    at = place_of(chunks, "into")
    what = next((one.kind for one in chunks[2:] if one.kind != "word"), "")
    if not at and count(chunks[:2], "into", "count") == 2 and what == "strips":  # "Crosscut 8 light strips 3 in into"
        return [chunks[0]._replace(kind="cut"), *chunks[1:]]
    if (
        not at
        or count(chunks[:at], *FIGURES, "cut", "strips", "strip_set", "make", "sew")
        or not count(chunks[:at], "word")
    ):
        return chunks
    return [*chunks[:at], chunks[at]._replace(kind="cut"), *chunks[at + 1 :]]


def _to_a_place(chunks):
    """The chunks, an arrow behind strips that leads to no figure taken for "for": "5 strips 2 in x WOF → sashing"."""
    at = place_of(chunks, "into")
    behind = chunks[at + 1 :]
    if not at or not count(behind, "role") or count(behind, *FIGURES, *NAMED, "cut", "note", "once", "twice"):
        return chunks
    return [*chunks[:at], chunks[at]._replace(kind="for"), *behind]


def _to_blocks(chunks):
    """The chunks, a comma between pieces and the blocks of a place that they are taken for "for": "35 squares 6 1/2 in,
    alternate blocks"."""
    tail = [one.kind for one in chunks[-4:]]
    if len(tail) < 4 or tail[0] not in groups.NOUNS or tail[1:] != ["punct", "role", "blocks"]:
        return chunks
    return [*chunks[:-3], chunks[-3]._replace(kind="for"), *chunks[-2:]]


def _placed(entry, place, border):
    """A piece in its place, where that is told apart from others of its border."""
    return entry if place == border else replace(entry, role=place)


def _of_one_place(read, chunks):
    """What a line reads, its place in the quilt told once for all of its pieces: "(2) 2 x 60 in and (2) 2 x 64 in
    borders"; that of no border only where their noun is told once too."""
    if not read.entries:
        return read
    roles = all_of(chunks, "role")
    measures = all_of(chunks, *MEASURES)
    if len(roles) != 1 or not measures or roles[0].start < measures[-1].end:
        return read
    role = read.entries[-1].role
    border = naming.border_of(role)
    if role.endswith("corner") and count(chunks, *groups.NOUNS) > 1:  # "12 squares … and 4 squares … for the corners"
        return read
    if border != role and "border" in role:  # "for top and bottom … and … for sides of the outer border"
        places = [one.role or naming.named(border, one.words.text.casefold()) for one in read.entries]
        return replace(read, entries=tuple(map(_placed, read.entries, places, [border] * len(places))))
    if "border" not in role and count(chunks, *groups.NOUNS) != 1:
        return read
    if count([one for one in chunks if one.start < measures[-1].start], "for"):  # others are for another
        return read
    if (
        len(read.entries) < 2
        or role.endswith((" side", " top"))
        or any(one.role and one.role != role for one in read.entries)
    ):
        return read
    long = any(isinstance(one.data.get("size"), list) or "strip" in one.data for one in read.entries)
    of_border = "border" in role and long
    squares = [one for one in read.entries if isinstance(one.data.get("size"), str)] if of_border else []
    return replace(read, entries=tuple(one if one in squares else replace(one, role=role) for one in read.entries))


def _with_the_border(read, chunks):
    """What a line reads, long pieces beside those of a border, or behind those of the sashing, and as wide as these for
    it too, and cut as they lie: "2 at 4 x 50 in and 2 at 4 x 60 in for the border", "borders: 2 at …, 2 at …"."""
    first = place_of(chunks, *FIGURES, otherwise=len(chunks))
    leads = count(chunks[:first], "role") > 0
    entries, places = [*read.entries], [*range(len(read.entries) - 1, 0, -1)]
    pairs = [(at - 1, at) for at in places] + [(at, at - 1) for at in reversed(places) if leads]
    for bare, border in pairs:
        other, one = entries[bare], entries[border]
        sizes = other.data.get("size"), one.data.get("size")
        alike = all(isinstance(size, list) for size in sizes) and sizes[0][0] == sizes[1][0]
        of_all = one.role.endswith("border") or one.role == "sashing" and border < bare
        if alike and of_all and not other.role:
            along = other.data.get("lengthwise") or one.data.get("lengthwise")
            entries[bare] = replace(other.but(lengthwise=along), role=one.role)
    return replace(read, entries=tuple(entries))
