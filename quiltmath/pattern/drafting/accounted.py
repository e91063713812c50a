"""What a page says of how pieces are cut, held against what was made of it: what nothing took up is asked about."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from . import columns_of_sizes, naming
from .brackets import set_off
from .chunks import FIGURES, MEASURES, Chunk, chunked, count
from .fillers import FILLERS
from .kept import Kept
from .model import Choice, Context, Entry, Question, Words
from .names_in_doubt import made_of_two, names_nothing
from .page import Page
from .triangles import DIAGONAL, GIVES
from .vocabulary import COLOURS, OF_FABRIC, PARTS

_CUT = ("cut", "binding")
_PIECES = {*_CUT, "fabric"}
LONGEST_HEAD = 5
"""Chunks: a longer line without figures heads nothing."""
FARTHEST = 40
"""Entries: no sentence says more of one that stands farther above it."""
_COLOURS = (COLOURS | OF_FABRIC) - {"fabric", "color", "colour"}
_WHOLE = re.compile(r"\s+(?:of\s+(?:them|these|those)\s+)?(?:whole|uncut)\b")
"""What strips stay that nothing is cut from: "keep 4 whole"."""
_CHANGES = re.compile(
    r"(?:mirror|revers|fold|pair|half\b|halv|quarter|third|doubl|bias|twice|once|except|minus)\w*", re.IGNORECASE
)
"""What changes how many pieces are cut, or their shape."""
_OF_PIECES = re.compile(r"half|pair|third|mirror|revers|fold")
"""Of these, what no cut on the diagonal says."""
_COUNTED = {"another", "matching", "plus", "rest"}
"""Cautions that a rule reads before it counts."""
_OF_EACH = {"per_print", "prints", "cut", "strips", "pieces"}
"""The keys that hold what is said of each."""
_SAYS_CUT = (
    r"\W*(?:(?:now|next|then)\s+)?(?:cut(?:ting)?\s+)?(?:from|out\s+of|using|along)\b.*"
    r"|[^:]*\b(?:fabric|print|solid)s?\b[^:]*\bcut\W*|(?!.*\b(?:fold|bias)\b)"
    r"[^:.\d]*\bfrom\b[^:.]*:\W*|.*\bcut(?:\s+[a-z ]{2,30})?:\W*"
)
_HEAD = re.compile(_SAYS_CUT, re.DOTALL)
_OR_NAMES = re.compile(rf"{_SAYS_CUT}|[^:.]*:\s*", re.DOTALL)
_SOMEBODY_CUTS = re.compile(r"one\s+(?:should|must|may|might|can|could|will|would)\b")
"""Where "one" is no number."""
_MADE_OF_THEM = re.compile(r"\b(?:into|cut\s+(?:for|as))\s+$")
_OF_THE_NEXT = re.compile(r"\band,\s+(?:cut\s+|each\s+)*$")
"""What parts a cut from the pieces before it: "6 squares 4 in and, cut once diagonally, 5 squares 3 7/8 in"."""
_OF_WHAT_IS_CUT = ("into", "strips", "blocks", "unit", "sew")


_JOINED = re.compile(r"cut from (?P<count>\d+) strips (?P<width>.+), joined")
"""What pieces are noted to be cut from (`strips.joined_piece`)."""


class _Said(NamedTuple):
    """A chunk of a line and what it says; whether it stands in a bracket, which a rule has held against the line; of
    which kind the chunk behind it is; whether it tells what pieces are for, behind "for" or "to" or before a colon."""

    chunk: Chunk
    text: str
    noted: bool
    behind: str
    purpose: bool


def heads_what_is_cut(page: Page, start: int, end: int) -> bool:
    """Whether a line without a size is made as the heads are that say from what the lines below it are cut.

    >>> page = Page("From the pile by the door, cut:")
    >>> heads_what_is_cut(page, 0, len(page.text))
    True
    """
    chunks = chunked(page.plain, start, end)
    return bool(_HEAD.fullmatch(page.plain, start, end)) and not count(chunks, *MEASURES, *_OF_WHAT_IS_CUT)


def ask_what_is_lost(page: Page, lines: list[tuple[int, int]], kept: Kept, context: Context) -> None:
    """Ask about each line of which a word that changes what is cut is found in nothing that was made of it; what was
    read of it is the answer that is proposed. `context` has what else the page calls its fabrics."""
    made, gone = _Made(page, lines, kept, context), set()
    for line in lines:
        if columns_of_sizes.heads_the_only_one(page, *line):
            continue
        lost: dict[Words, list[str]] = {}
        read: dict[Words, list[Entry]] = {}
        for said in _said(page, *line):
            heard = made.hearing(said, line)
            if heard is None or any(id(one) in gone for one in heard):
                continue
            nameless = next(filter(None, map(names_nothing, heard)), "")
            if not nameless and made.is_heard(said, heard, line):
                continue
            if not count(chunked(page.plain, line[0], said.chunk.start), *FIGURES):  # it is said of all that follows
                heard = [*heard, *(one for one in made.over(line) if one.table in _CUT and one not in heard)]
            of_one = {one.words for one in heard} == {heard[0].words} and _covers(heard[0].words, said)
            words = heard[0].words if of_one else page.words(*line)
            lost.setdefault(words, []).append(nameless or said.text)
            read[words] = [*read.get(words, []), *(one for one in heard if one not in read.get(words, []))]
        for words, texts in lost.items():
            whole = {id(one) for one in read[words]} | {id(one) for one in made.over(line) if one.words == words}
            cut = tuple(one for one in kept.entries if id(one) in whole and one.table in _CUT)
            taken = (*cut, *(one for one in read[words] if one.table == "fabric" and names_nothing(one)))
            gone |= {id(one) for one in taken}
            kept.understood += [one.words for one in cut if one.words != words]
            told = " and ".join(f'"{" ".join(text.split())}"' for text in dict.fromkeys(texts))
            choices = (Choice("nothing, as it is read", taken),)
            kept.questions.append(Question(words, f"what does {told} change here?", choices))
    kept.entries = [one for one in kept.entries if id(one) not in gone]


def _said(page, start, end) -> Iterator[_Said]:
    """The chunks of a line, those of its brackets among them."""
    chunks = chunked(page.plain, start, end)
    notes = [one for one in set_off(chunks, page) if one.kind == "note"]
    at = next(
        (place for place, one in enumerate(chunks) if one.kind not in ("word", "label", "ref", "role", "rows")), 0
    )
    purpose = bool(at) and page.said(chunks[at]) in (":", "-")  # "Roof: 2 squares 3 in"
    for one, behind in zip(chunks, [*chunks[1:], None]):
        first = page.said(one)
        opens = one.kind in ("for", "make") or first in ("to", "-") or first.startswith("for each")
        purpose = opens or purpose and one.kind not in FIGURES and first not in (*".;:",)
        for part in _flat([one]):
            noted = any(note.start <= part.start < note.end for note in notes)
            yield _Said(part, page.said(part), noted, behind.kind if behind else "", purpose)


def _flat(chunks):
    for one in chunks:
        yield from _flat(one.value) if one.kind == "note" else (one,)


def _covers(words, said):
    return words.start <= said.chunk.start < words.end


_LAST_FIGURE = re.compile(r"\d[\d /]*$")


class _Made:
    """What was made of a page, found by the places of its words."""

    def __init__(self, page, lines, kept, context):
        self.page, self.lettered = page, context.lettered
        self.other_names: dict[str, str] = {}
        """{a fabric: all that the shopping list calls it besides}."""
        for key, fabric in context.other_names.items():
            self.other_names[fabric] = " ".join((self.other_names.get(fabric, ""), *sorted(key)))
        bought = (one for one in kept.entries if one.table == "fabric" and isinstance(one.data.get("piece"), str))
        self.pieces = {one.name: one.data["piece"].partition(" in ")[0] for one in bought}
        """{a fabric: how large the pieces are in which it is bought}."""
        bought = (one.words.text.casefold() for one in kept.entries if one.table == "fabric" and "bought" in one.data)
        self.listed = re.sub(r"(?<=\w)/(?=\w)", " ", "\n".join(bought))
        """What the shopping list says of fabrics, a name of two colours with a blank in between: "rust/olive"."""
        self.fabrics = {word for one in kept.entries if one.table == "fabric" for word in naming.key(one.name)}
        self.prints = {one.name: one.data["prints"] for one in kept.entries if "prints" in one.data}
        self.starts = sorted(start for start, _ in lines)
        self.entries = self._by_line((one.words, one) for one in kept.entries)
        doubts = (head for head, _ in kept.below_doubts)
        self.asked = self._by_line((one, one) for one in (*(asked.words for asked in kept.questions), *doubts))
        self.heads = self._by_line((one, one) for one in kept.understood)
        self.remarks = self._by_line((one, one) for one in kept.remarks)
        self.told = self._by_line((one, one) for one in kept.instructions)
        self.cut = sorted((one for one in kept.entries if one.table in _CUT), key=lambda one: one.words.start)
        self.questions = sorted(one.words.start for one in kept.questions)
        self.strips: Counter[tuple[str, str]] = Counter()
        for one in self.cut:
            self.strips[_strip_width(one), one.data.get("fabric", "")] += one.data.get("strips", 0)

    def _by_line(self, found):
        """{where a line starts: what stands on it}."""
        by_line: dict[int, list] = {}
        for words, one in found:
            first = max(bisect_right(self.starts, words.start) - 1, 0)
            for start in self.starts[first : bisect_left(self.starts, words.end)]:
                by_line.setdefault(start, []).append(one)
        return by_line

    def over(self, line):
        """The entries on a line."""
        return self.entries.get(line[0], [])

    def hearing(self, said, line):
        """The entries in which these words must be found; None where they are asked about, or tell of sewing."""
        page, at = self.page, said.chunk.start
        made = said.chunk.kind in ("triangles", "unit") and _MADE_OF_THEM.search(page.plain, line[0], at)
        besides = [*self.asked.get(line[0], []), *([] if made else self.told.get(line[0], []))]
        if any(_covers(one, said) for one in besides):
            return None
        if said.chunk.kind in ("word", "other_size") and said.text not in _COLOURS and self._is_of_head(said, line):
            return None
        of_the_next = said.chunk.kind in DIAGONAL and _OF_THE_NEXT.search(page.plain, line[0], at)
        of_line = bool(of_the_next) or said.chunk.kind == "role"
        of_line |= all(at < one.words.start for one in self.over(line))  # it heads the line
        over = [one for one in self.over(line) if of_line or _covers(one.words, said)]
        if over:
            return over if {one.table for one in over} <= _PIECES else None
        diagonal = said.chunk.kind in (*DIAGONAL, "triangles") or _CHANGES.match(said.text)
        changes = said.chunk.kind in ("other_size", "caution", "bias") and said.text != "both"
        changes |= said.text.startswith("template")
        of_head = changes or said.chunk.kind in ("lengthwise", "of_each", "role") or said.text in _COLOURS
        chunks = chunked(page.plain, *line)
        is_head = _OR_NAMES.fullmatch(page.plain, *line) or self.heads.get(line[0]) and count(chunks, "role") > 1
        short = len(chunks) <= LONGEST_HEAD and not count(chunks, *FIGURES) and not page.words(*line).text.endswith(".")
        below_another = bool(page.plain[: line[0]].strip())  # the first line is the title
        is_head = is_head or changes and short and below_another
        is_head = is_head or said.chunk.kind == "lengthwise" and not count(chunks, *FIGURES)
        if of_head and is_head and not count(chunks, *MEASURES):
            of_several = said.chunk.kind == "role" and count(chunks, "role") > 1  # each of its own lines
            return self._below(at, FARTHEST if of_several else 1)
        if not diagonal or said.chunk.kind == "role":  # "third border"
            return None
        place = bisect_left(self.cut, at, key=lambda one: one.words.start)
        before, text = self.cut[max(place - FARTHEST, 0) : place], page.words(*line).text
        told = [one for one in before if any(remark and remark in text for remark in one.remarks)]
        return told or before[-1:] or None

    def _is_of_head(self, said, line):
        """Whether these words are of a head that was understood, before all that was made of the line, or of a remark
        that is kept."""
        first = min((one.words.start for one in self.over(line)), default=0)
        return any(_covers(one, said) and one.end <= first for one in self.heads.get(line[0], [])) or (
            said.chunk.kind == "word"
            and not _CHANGES.match(said.text)
            and any(_covers(one, said) for one in self.remarks.get(line[0], []))
        )

    def _below(self, at, lines):
        """The entries of the lines right below a head, or of one behind it; None where that is asked about."""
        place = bisect_left(self.cut, at, key=lambda one: one.words.start)
        if place == len(self.cut):
            return None
        first = self.cut[place].words
        if self.page.lines_apart(at, first.start) > 1:
            return None
        if bisect_left(self.questions, at) < bisect_right(self.questions, first.start):
            return None
        found, last = [], first
        for one in self.cut[place : place + FARTHEST]:
            if self.page.lines_apart(first.start, one.words.start) >= lines or (
                self.page.lines_apart(last.start, one.words.start) > 1
            ):
                break
            found.append(one)
            last = one.words
        return found

    def is_heard(self, said, heard, line):
        """Whether these words are found in what was made of them."""
        chunk, text, plain = said.chunk, said.text, self.page.plain
        keys, remarks = {key for one in heard for key in one.data}, self._remarks(said, heard, line)
        names = (f"{fabric} {self.other_names.get(fabric, '')}" for one in heard if (fabric := one.data.get("fabric")))
        named = " ".join((*names, *(f"{one.name} {one.role}" for one in heard))).casefold()
        if {one.table for one in heard} == {"fabric"} and (
            chunk.kind != "word" or said.noted or all(naming.is_numbered(one.name) for one in heard)
        ):
            return True
        if text in ("different", "various") and "prints" in keys or text in ("other", "others") and "strips" in keys:
            return True
        if chunk.kind == "count" and any(
            plain.endswith(one.data.get("fabric", "-").casefold(), 0, chunk.end) for one in heard
        ):  # "Dark 3"
            return True
        figure = _LAST_FIGURE.search(text)
        if figure and any(one.data.get("bought", "").startswith(f"{figure[0]} ") for one in heard):
            return True  # how much is bought, under its head
        if chunk.kind in DIAGONAL:
            of_the_next = _OF_THE_NEXT.search(plain, line[0], chunk.start)
            return not of_the_next and any(one.data.get("cut") == chunk.kind for one in heard)
        if chunk.kind == "role":
            return said.noted or text in named or any(_is_in(text, one) for one in heard)
        if chunk.kind == "label":
            of_fabric = self.lettered.get(chunk.value, "").casefold()
            taken = said.purpose or said.noted or str(chunk.value) in named.split() or of_fabric and of_fabric in named
            return "template" not in text and bool(taken)
        if chunk.kind == "unit":
            return "cut" in keys or not _MADE_OF_THEM.search(plain, line[0], chunk.start)
        if chunk.kind == "triangles":
            return "cut" in keys or "triangle" in named or said.noted
        if chunk.kind == "lengthwise":
            return chunk.kind in keys or not any(map(_has_two_sides, heard))
        if text.startswith("bias"):
            return "style" in keys
        if text.startswith("doubl") and {one.table for one in heard} == {"binding"}:  # as every binding is folded
            return True
        if text in _COLOURS:
            if said.purpose and (
                text == "background" or {one.table for one in heard} == {"fabric"}
            ):  # "tan for background"
                return True
            if any(made_of_two(one, text, f"{plain[slice(*line)]}\n{self.listed}") for one in heard):
                return False
            names = [one.data.get("fabric", "") for one in heard]  # "Fabric 2 (rust)", "background (white)"
            bought = (" ".join(one.remarks) + one.words.text for one in heard if one.table == "fabric")
            if said.noted and any(f"({text})" in one.casefold() for one in bought) and text not in self.fabrics:
                return True  # of a fabric that is bought and cut in one row: "Centres (rust)  3/8 yd  3 strips …"
            numbered = any(naming.is_numbered(one) or naming.key(one) & {*OF_FABRIC, "background"} for one in names)
            if any(map(naming.is_numbered, names)) and said.chunk.start < heard[0].words.start:  # "Fabric 2, rust: ..."
                return True
            shown = said.noted and (numbered or text not in COLOURS)  # "stripe running the long way"
            return shown or text in named or text in remarks.casefold()
        if said.noted and re.match(r"mirror|revers|fold$", text):
            return text in named
        if said.noted or any(sign in plain[slice(*line)] for sign in ("\t", " | ")):
            return (
                True  # a rule has held the brackets against their line, and the cells against the head of their column
            )
        if _CHANGES.match(text) and chunk.kind in ("word", "caution"):
            in_half = text == "half" and plain[: chunk.start].endswith("in ")
            cut = "cut" in keys and (in_half or not _OF_PIECES.match(text))
            return text in named or bool(cut or text in remarks or remarks and text.startswith("quarter"))
        if chunk.kind == "word":
            words = {*re.findall(r"[^\W_]+", text)} - FILLERS - PARTS - {*re.findall(r"[^\W_]+", named)}
            return said.purpose or text in FILLERS or all(map(naming.is_thing, words)) or text in remarks.casefold()
        if chunk.kind == "other_size" or chunk.kind in ("caution", "left_over") and not said.noted:
            taken = text in _COUNTED or text == "both" and len({one.data.get("fabric") for one in heard}) == 2
            taken |= chunk.kind == "left_over" and bool(remarks)
            return taken or text in named or text in remarks
        return self._is_counted(said, heard, keys, remarks, line)

    def _is_counted(self, said, heard, keys, remarks, line):
        """Whether a figure, or a word that multiplies it, is found in what was made of it; of other words nothing is
        asked."""
        chunk = said.chunk
        if chunk.kind == "enough":
            return "length" in keys or any(one.data.get("count") == "enough" for one in heard)
        if chunk.kind in ("each", "of_each"):
            several = sum(one.table == "cut" for one in self.over(line)) > 1
            told = [one.value for one in chunked(self.page.plain, *line) if one.kind == "count"]  # "Cut 20 of each:"
            as_many = bool(told) and all(one.data.get("count") in told for one in heard)
            several |= len({one.data.get("fabric") for one in heard}) > 1  # "Moss and fern, from each:"
            return several or as_many or said.behind in MEASURES or bool(keys & _OF_EACH or remarks)
        if chunk.kind == "count":
            if any(one.name == f"log {chunk.value}" for one in heard):  # "No. 4"
                return True
            if chunk.start < heard[0].words.start:  # "For 12 blocks cut ...", "You need 8 roofs: ...", "(1) Cut ..."
                before = self.page.plain[line[0] : chunk.start].strip()
                begins = said.text[0] == "(" and not before or chunk.value == 1 and before.endswith("from")
                numbers = {number for one in heard for number in re.findall(r"\d+", one.data.get("fabric", ""))}
                return (
                    begins
                    or said.text in numbers
                    or chunk.value in [self.prints.get(one.data.get("fabric")) for one in heard]
                    or before.endswith("need")
                    or _WHOLE.match(self.page.plain, chunk.end) is not None
                    and any("strip" in one.data and one.data.get("count") == chunk.value for one in self.cut)
                    or _SOMEBODY_CUTS.match(self.page.plain, chunk.start) is not None
                    or said.behind in ("blocks", "set", "rows", "unit")
                )
            return chunk.value in self._counts(heard) or str(chunk.value) in re.findall(r"\d+", remarks)
        if chunk.kind in MEASURES:
            values = [value for one in heard for value in one.data.values()]
            texts = {text for value in values for text in (value if isinstance(value, list) else [str(value)])}
            texts |= {self.pieces[fabric] for one in heard if (fabric := one.data.get("fabric")) in self.pieces}
            texts |= {f"{text} cm" for text in texts}  # "12 x 8 cm" is 12 of them
            first, *_ = told = chunk.value.texts
            return (first in texts and "strips" in keys) or all(one in texts or one in remarks for one in told)
        return True

    def _remarks(self, said, heard, line):
        """What entries say besides, but for what is these words themselves."""
        whole = self.page.words(*line).text
        return " ".join(
            remark for one in heard for remark in one.remarks if _covers(one.words, said) or remark not in whole
        )

    def _counts(self, entries):
        """The counts that these entries hold, in all and with the strips that others are cut from; what a square gives
        that is cut."""
        found = {value for one in entries for value in one.data.values() if isinstance(value, int)}
        found |= {GIVES[one.data["cut"]] for one in entries if "cut" in one.data}
        whole = [one for one in entries if one.table != "fabric" and isinstance(one.data.get("count"), int)]
        cut_up = {
            one.data["count"] * ("strip" in one.data) + self.strips[_strip_width(one), one.data.get("fabric", "")]
            for one in whole
        }
        joined = ((one, told) for one in whole for told in map(_JOINED.fullmatch, one.remarks) if told)
        cut_up |= {int(told["count"]) + self.strips[told["width"], one.data.get("fabric", "")] for one, told in joined}
        of_each_strip = {
            one.data["count"] // one.data["strips"]
            for one in whole
            if one.data.get("strips") and one.data["count"] % one.data["strips"] == 0
        }
        return found | cut_up | of_each_strip | {sum(one.data["count"] for one in whole)}


def _is_in(role, entry):
    """Whether an entry is for the place in the quilt that these words name."""
    place = f"{entry.role} {entry.table}".replace("border corner", "border corner cornerstone")
    setting = role.endswith(("setting", "edge")) and bool({"triangle", "sashing"} & {*place.split()})
    of_both = {"sashing", "cornerstone"}  # which stand below one head
    of_sashing = naming.named(role) in of_both and any(one in place for one in of_both)
    return setting or of_sashing or {*naming.named(role).split()} <= {*place.split()}


def _strip_width(entry):
    """The strip width of strips, or of those that pieces are cut from."""
    return entry.data.get("strip", entry.data.get("strip_width", ""))


def _has_two_sides(entry):
    return "strip" in entry.data or isinstance(entry.data.get("size"), list)
