"""What stands in a line or below a head, sentence by sentence: read, asked, or kept as it is."""

from __future__ import annotations

import re
from dataclasses import replace

from . import (
    bare_heads,
    doubtful,
    following,
    for_each_block,
    from_above,
    groups,
    heads,
    logs,
    many_at_once,
    naming,
    other_names,
    prose,
    sewn_pieces,
    strips_above,
)
from .chunks import FIGURES, MEASURES, NAMED, chunked, count, opened
from .ends_of_sentences import SENTENCE_ENDS
from .figures import number
from .lists_of_logs import ListsOfLogs
from .model import Question, Reading
from .triangles import DIAGONAL

_REMARK = re.compile(r"\n\s*\((?P<told>[A-Z][^()]*)[.!]\)\s*$")
"""A sentence in a bracket on lines of its own."""
_LETTER = re.compile(r"\W*[a-z]")
_ARROW = re.compile(r"\s*(?:→|-{1,2}>|=>)")
_AGAIN = re.compile(r"\W*(?:then\s+)?(?:repeat|do\s+(?:the\s+same|likewise)|(?:the\s+)?same\b|ditto|likewise)")
_COUNTS_BELOW = re.compile(
    r"\W*(?P<strips>from\s+(?:each|every)\s+strip\W+)?cut\s+\(?(?P<count>\d+|[a-z]+)\)?\s+(?:of\s+)?each"
    r"(?:\s+(?:of\s+)?(?:these|the\s+following)(?:\s+(?:sizes|pieces))?)?\s*:\s*"
)
"""How many of each piece below are cut, in all or from each strip: "Cut 20 of each:"."""
_OF_IT = re.compile(r"\b(?:of|from)\s+(?:it|that|this|the\s+same(?:\s+(?:fabric|one))?)\s*[.,;)]?$", re.IGNORECASE)
"""What names the fabric of a line by a word that stands for another."""
_ALSO = re.compile(r"\W*(?:cut\s+also|also,?\s+cut|cut\s+besides)\b(?=[^.;]*\bfrom\b)")
"""What begins to tell of pieces that are for no place named before: "Cut also four 6 1/2 in squares from the red"."""
_OF_LINING = re.compile(r"\W*(?:cut|divide|split|trim)\s+(?:the\s+|your\s+)?(?:backing|batting|wadding|lining)\b")
"""What is cut of these is sewn again in the same sentence."""


class Sentences(ListsOfLogs):
    """Reads the sentences of one page, one after the other."""

    def _sentences(self, start, end):
        """What follows a head, sentence by sentence where it does not read as a whole."""
        chunks = self._chunks(start, end)
        if not chunks or self._is_of_logs(start, end, chunks) or self._is_of_strips_of_logs(start, end, chunks):
            return
        if self._is_of_uncounted_strips(start, end):
            words = self.page.words(start, end)
            self.read.questions.append(Question(words, "how many of these are cut from the strips above, in all?"))
            return
        parts = self._parted(start, end)
        whole = self._in_parts(chunks) if self._only_counts(parts[1:]) else None
        if whole is None and self._goes_together(parts):
            whole = self._reading(chunks)
        if whole is not None:
            self._take(whole)
            return
        meant = doubtful.of_the_line(chunks, self.context, self.page)
        if meant is not None:
            self.read.questions.append(meant)
            self.context.last = ()
            return
        above, asked = self.context.above, len(self.read.questions)
        outside, kept = None, len(self.read.entries)
        for part, behind in zip(parts, [*parts[1:], None]):
            if (begins := for_each_block.begun(*part, self.context, self.page)) is not None:
                self.context.each_block_of_head = self.page.words(part[0], begins)
                self.read.understood.append(self.context.each_block_of_head)
                self._sentences(begins, part[1])
                continue
            if part is not parts[0] and _ALSO.match(self.page.plain, *part):
                self.context.role = ""
            here = self.context.role, self.context.fabrics
            if behind and self._heads_the_next(part, behind):
                outside = outside or (here if self.context.role else None)
                continue
            if part is not parts[0] and len(self.read.questions) > asked and not self.context.fabrics:
                named = naming.described(self._chunks(*parts[0]), self.page)  # which the rest may be cut from too
                self.context.above = above or ((named,) if naming.is_of_fabric(named) else ())
            head = heads.head(self.page, *part, self.context) if part is not parts[0] else None
            in_a_cell = head and head.fabrics and self.page.plain[head.rest : part[1] + 3].strip() == "|"
            if part is not parts[0] and self._only_buys_one(part):
                self._clause(*part)
                continue
            from_another = head and head.strong and head.fabrics and not head.role and head.rest < part[1]
            named = head.fabrics if from_another else ()
            from_another = named and all(one in self.context.known or naming.is_of_fabric(one) for one in named)
            if head and (in_a_cell or from_another or self._is_set_off(part[0], head)):
                self._clause(*part)
            else:
                before = self.context.fabrics
                if part is not parts[0] and not before and not naming.told(self._chunks(*part), self.page):
                    self.context.fabrics = self._leads(chunks)
                self._sentence(*part)
                self.context.fabrics = self.context.fabrics and before
        self.context.above = above if not self.context.fabrics else self.context.above
        self._of_the_last_fabric(self.read.entries[kept:])
        if outside:  # a place that heads its line holds for no other
            self.context.role, self.context.fabrics = outside

    def _of_the_last_fabric(self, cut):
        """Let strips of one border be of the fabric that ends their line: "Top: 2 strips, sides: 2 strips, navy"."""
        borders = {naming.border_of(one.role) for one in cut}
        fabrics = [one.data.get("fabric") for one in cut]
        if len(borders) != 1 or not borders.pop().endswith("border") or not fabrics[-1] or any(fabrics[:-1]):
            return
        for one in cut[:-1]:
            self.read.put(one, one.but(fabric=fabrics[-1]))

    def _heads_the_next(self, part, behind):
        """Take a sentence that is no more than the name of a fabric, or of a place in the quilt and perhaps its fabric,
        for the head of the pieces behind it: "Borders, green. 2 pcs. 5 x 70 in"."""
        chunks, pieces = self._chunks(*part), opened(self._chunks(*behind))
        if self.context.section in ("buying", "sewing") or count(opened(chunks), *FIGURES):
            return False
        if not count(pieces, "count") or not count(pieces, *MEASURES):
            return False
        found = bare_heads.alone(self.page, *part, part[1], part[1], self.context)
        told = found and all(one in self.context.known or naming.is_of_fabric(one) for one in found.fabrics)
        if found is None or not (found.role or found.fabrics and told):
            return False
        self._apply(found)
        self.read.understood.append(self.page.words(*part))
        return True

    def _leads(self, chunks):
        """The fabric that a line begins with, of which it counts pieces: "Navy 24 squares 3 in; 12 rectangles …"."""
        at = next((place for place, one in enumerate(chunks) if one.kind != "word"), 0)
        fabrics = {one.data.get("fabric") for one in self.context.last}
        named = naming.described(chunks[:at], self.page)
        led = at and chunks[at].kind == "count" and naming.is_of_fabric(named) and len(fabrics) == 1
        return tuple(filter(None, fabrics)) if led else ()

    def _is_of_uncounted_strips(self, start, end):
        """Whether an arrow leads from strips whose number in all is not told, as from each of several prints."""
        here = self.context
        arrow = _ARROW.match(self.page.plain, start, end)
        return bool(arrow) and not here.strips and any("strip" in one.data for one in here.last)

    def _parted(self, start, end):
        """Where the sentences of a line begin and end."""
        plain, parts, at = self.page.plain, [], start
        remark = _REMARK.search(self.page.text, start, end)
        if remark and remark.start() > start:
            return [*self._parted(start, remark.start()), remark.span("told")]
        for match in SENTENCE_ENDS.finditer(plain, start, end):
            if _LETTER.fullmatch(plain, at, match.start()):  # "A. Navy, 16 squares 3 in"
                continue
            of_lining = _OF_LINING.match(plain, at) and count(chunked(plain, match.end(), end)[:1], "sew")
            if plain[at : match.start()].count("(") == plain[at : match.start()].count(")") and not of_lining:
                parts.append((at, match.start()))
                at = match.end()
        if not parts and (said := prose.before_chatter(self.page, start, end)):
            return [(start, said[0]), (said[1], end)]
        return [*parts, (at, end)]

    def _only_counts(self, parts):
        """Whether these sentences only count what the one before them measures: "2 in strips: 3 red; 4 white"."""
        kinds = [{one.kind for one in self._chunks(*part)} for part in parts]
        return bool(kinds) and all("count" in one and one <= {"count", "word", "punct"} for one in kinds)

    def _goes_together(self, parts):
        """Whether the sentences of a line may be one, with a point too many: none of them tells of anything else."""
        firsts = (next(iter(self._chunks(*part)), None) for part in parts[1:])
        handled = any(one and self.page.said(one) in prose.TELLS for one in firsts)
        in_cells = " | " in self.page.plain[parts[0][0] : parts[-1][1]]
        if any(self._heads_others(*part) for part in parts[1:]):
            return False
        if not in_cells and any(self._stands_alone(self._chunks(*part)) for part in parts[1:]):
            return False
        if len(parts) > 1 and not in_cells and not all(self._tells_of_pieces(self._chunks(*part)) for part in parts):
            return False
        return not handled and not any(_AGAIN.match(self.page.plain, *part) for part in parts[1:])

    def _heads_others(self, start, end):
        """Whether a sentence behind others begins with the name of another fabric that is known, and a colon."""
        found, here = heads.head(self.page, start, end, self.context), self.context
        named = found is not None and bool(found.fabrics) and {*found.fabrics} <= {*here.known} - {*here.fabrics}
        return named and self._is_set_off(start, found)

    def _is_set_off(self, start, head):
        """Whether a colon or a dash ends the head that a sentence begins with, or stands behind it."""
        ended = re.search(r"[:-]\s*(?:cut\s*)?$", self.page.plain[start : head.rest])
        return bool(ended) or self.page.plain.startswith(":", head.rest)

    def _stands_alone(self, chunks):
        """Whether a sentence behind others begins with the letter of a piece, and counts and measures this itself."""
        flat = opened(chunks)
        return count(flat[:1], "label") and count(flat, "count") and count(flat, *MEASURES)

    def _tells_of_pieces(self, chunks):
        """Whether a sentence holds what a piece may lack: a figure, a noun, a place, how it is cut, its fabric."""
        told = (*FIGURES, *NAMED, *DIAGONAL, "role", "into", "from", "wof", "lengthwise", "bias", "label")
        flat = opened(chunks)
        cut_up = count(flat, "cut") and count(flat, "caution")
        return bool(count(flat, *told) or cut_up) or naming.is_of_fabric(naming.told(chunks, self.page))

    def _sentence(self, start, end):
        chunks = self._chunks(start, end)
        words = self.page.words(start, end)
        if not chunks:
            if words.text:
                self.read.understood.append(words)
            return
        again = following.repeated(start, end, self.read, self.context, self.page)
        if again is not None:
            self._take(again, keep=True)
            return
        if many_at_once.parts(chunks, words, self.context, self.read, self.page):
            self.read.instructions.append(words)
            return
        if self._counts_what_is_below(start, end, words) or self._is_of_all_logs(start, end, words):
            return
        flat = opened(chunks)
        figures = count(flat, *FIGURES) or any(one.kind == "note" and count(one.value, *FIGURES) for one in chunks)
        introduces = sewn_pieces.introduces(flat, words, self.context, self.read, self.page)
        if not figures or prose.counts_in_words(flat, words) or introduces:
            self._without_figures(chunks, words)
            return
        sewing = self.context.section == "sewing"
        if sewing and (prose.measures_one(flat, self.page) or prose.cuts_lining(chunks, self.context.role, self.page)):
            self.read.instructions.append(words)
            self.context.last = ()
            return
        if sewn_pieces.only_orders_cuts(flat, self.context, self.page):
            self.read.instructions.append(words)
            return
        if count(flat, *MEASURES):
            self.shared = []
        if self._heads_counts(flat, words):
            self.shared = [one for one in flat if one.kind not in ("punct", "cut")]
            self.read.understood.append(words)
            return
        read = self._along_the_selvage(chunks) or self._reading(chunks) or self._in_parts(chunks)
        sewn = sewn_pieces.only_names_what_is_cut(flat, self.context, self.read, self.page)
        if (
            read is not None and sewn and sewn_pieces.holds_pieces(read) and not read.instead
        ):  # "Yellow 3 1/2 in square in the center"
            read = None
        if read is not None:
            self._take(read)
            self.read.understood.append(words)  # what is said once for several pieces stands in the words of none
        elif chunks[0].kind == "into" and (strips := self._strips_before()):  # neither is read without the other
            for one in strips:
                self.read.put(one)
            words = self.page.words(strips[0].words.start, end)
            self._take(Reading(questions=(doubtful.question(flat, words, self.context, self.page),)))
        elif (
            (prose.tells(chunks, self.page) and not self._behind_a_cut(words))
            or (prose.uses(flat, self.page) and sewn_pieces.is_of_what_is_cut(flat, self.context, self.read))
            or (prose.only_made(flat) and (sewing or self._follows_an_instruction(words)))
            or prose.makes_of_a_size(flat, self.page)
            or prose.makes_sets(words)
            or prose.only_comes_out(flat, words)
            or (prose.only_measures(flat, self.page) and self._follows_an_instruction(words))
            or (sewing and prose.tells_of_sewing(chunks, self.page))
            or sewn_pieces.only_measures_what_is_sewn(flat, self.context, self.read)
            or sewn
        ):
            self.read.instructions.append(words)
            self.context.last = ()
            if count(chunks, "sew"):  # what is cut next is cut from what is sewn
                self.context.strips = ()
        else:
            self.read.questions.append(doubtful.question(flat, words, self.context, self.page))
            self.context.last = ()

    def _strips_before(self):
        """The strips last told, those that are cut from each of several prints too."""
        here = self.context
        return here.strips or tuple(one for one in here.last if "strip" in one.data)

    def _counts_what_is_below(self, start, end, words):
        """Whether a sentence counts each of the pieces below it, of which only the sizes stand there."""
        match = _COUNTS_BELOW.fullmatch(self.page.plain, start, end)
        found = number(match["count"], 0) if match else None
        if found is None or not found.whole:
            return False
        strips = self.context.strips[0].data["count"] if match["strips"] and self.context.strips else 1
        if match["strips"] and (not self.context.strips or not isinstance(strips, int)):
            return False
        if count(self._on_the_line_below(words), "count"):
            self.read.questions.append(Question(words, "this changes what stands below it: how?"))
            return True
        self.counted, self.context.wants_pieces = int(found.value) * strips, bool(self.context.strips)
        self.read.understood.append(words)
        return True

    def _heads_counts(self, chunks, words):
        """Whether a line says no more than a size, of pieces that the line below it counts."""
        measured = all(one.kind in (*MEASURES, *groups.NOUNS, "wof", "punct", "cut") for one in chunks)
        if not measured or count(chunks, *MEASURES) != 1 or not count(chunks, *groups.NOUNS):
            return False
        below = self._on_the_line_below(words)
        return count(below, "count") == 1 and not count(below, *MEASURES, "yards", *NAMED)

    def _on_the_line_below(self, words):
        """The chunks of the line below these words."""
        below = re.compile(r"[^\n]*\n\s*(?P<line>[^\n]*)").match(self.page.plain, words.end)
        return opened(chunked(self.page.plain, *below.span("line"))) if below else []

    def _behind_a_cut(self, words):
        """Whether a sentence stands on the line of pieces that are cut: what it counts may be these."""
        last = self.context.last
        return bool(last) and self.page.lines_between(last[-1].words.end, words.start) == 0

    def _follows_an_instruction(self, words):
        """Whether the sentence before, on the same line or the line before, was kept as an instruction."""
        return bool(self.read.instructions) and not self.page.plain[self.read.instructions[-1].end : words.start].strip(
            " .;\n"
        )

    def _without_its_strips(self, entry):
        """A piece of each block, without the strips that are only the way to it."""
        cut = entry.table == "cut" and "size" in entry.data and not entry.role
        return logs.without_strips(entry, logs.OF_ONE_BLOCK, self.read, self.page)[0] if cut else entry

    def _take(self, read, keep=False):
        """Keep what was read."""
        read = other_names.of_its_place(other_names.keep(read, self.context, self.page), self.context)
        if self.context.each_block:
            read = for_each_block.in_all(read, self.read, self.context.blocks)
        if self.context.each_block_of_head:
            read = replace(read, entries=tuple(map(self._without_its_strips, read.entries)))
        read = from_above.for_its_purpose(read, self.read, self.context)
        if self.context.lengthwise:
            read = replace(read, entries=tuple(map(from_above.along_the_selvage, read.entries)))
        if self.context.above or any(_OF_IT.search(one.words.text) for one in read.entries):
            read = from_above.of_which_fabric(read, self.context)
        read = from_above.with_its_strips(read)
        cut = tuple(one for one in read.entries if one.table in ("cut", "strip_set"))
        if cut and self.context.section == "buying":
            self.context.section = "cutting"  # below what is cut nothing is bought
        if cut:
            self.context.bought = 0
        for before, left in read.instead:
            self.read.put(before, *([left] if left else []))
            self.read.understood.append(before.words)
        read = strips_above.behind_pieces(read, self.page)
        read = strips_above.or_besides(read, self.read, self.context, self.page)
        cut = tuple(one for one in read.entries if one.table in ("cut", "strip_set")) or cut
        for entry in read.entries:
            self.read.add(entry)
        strips_above.remember(read, self.read, self.context)
        self.read.questions.extend(read.questions)
        self.read.remarks.extend(read.remarks)
        if any(one.of_fabric for one in read.questions):
            self.context.fabrics = ()  # what comes below may be cut from either
        self.context.below += (*cut, *(one for one in read.entries if one.table == "binding"))
        if self.context.of_block:
            of_one = [one for one in cut if not for_each_block.is_of_all(one) and not (one.role and one.table == "cut")]
            self.read.below_blocks += [(*self.context.of_block, one.words) for one in of_one]
        if self.context.doubtful:
            bare = from_above.of_no_fabric(read)
            self.read.below_doubts += [(self.context.doubtful, one.words) for one in bare]
        if cut and not keep:
            self.context.last = cut
        elif read.questions:
            self.context.last = ()
