"""A stretch of a page as chunks, each of one kind: a count, a length, a noun, a verb, a word that only describes."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from itertools import takewhile
from typing import Any, NamedTuple

from . import figures
from .figures import Measure, measure
from .vocabulary import COLOURS, FUNCTION_WORDS, NUMBERED, OF_FABRIC, PARTS, may_be_done, phrase

FIGURES = frozenset({"count", "length", "size", "strip", "yards", "doubt"})
"""The kinds that hold a figure: none of them may be left over."""

NAMED = frozenset({"squares", "rectangles", "triangles", "pieces", "strips", "blocks", "unit"})
"""The kinds that say what a piece is."""

REMARKS = frozenset({
    "word", "article", "and", "punct", "unit", "squares", "label", "note", "ref", "seam_allowance", "includes",
    "strip_set", "segments", "pieced", "for"
})  # fmt: skip
"""The kinds of a bracket that says nothing of a count or a size."""

MOST_OF_A_NAME = 4
"""Words: the names of fabrics in a list are shorter."""
_SEVERAL = "'s"
DEEPEST = 5
"""Brackets in brackets: no page has more."""

MEASURES = ("length", "size", "strip")
FILL = frozenset({
    "word", "punct", "article", "and", "role", "label", "note", "for", "cut", "unfinished", "need", "from", "way",
    "ref", "aside", "includes", "pieced"
})  # fmt: skip
"""The kinds that change neither a count nor a size."""

_WORD = re.compile(r"[^\W\d_]+(?:['-][^\W\d_]+)*'?s?(?:-\n[^\W\d_]+)?")
_LABEL = re.compile(
    r"(?!x\d)(?:(?:(?:pattern\s+)?piece|patch|template|part|shape)\s+)?\#?\s*[\"']?(?P<name>[a-z]{1,2}\d{0,2}|\d{1,2}[a-z])[\"']?\s*$"
)
_LABELLED = re.compile(
    r"(?:(?:(?:pattern\s+)?piece|patch|template|part|shape)\s+(?P<named>[a-z]\d{0,2}|\d{1,2}[a-z]?)(?![a-z\d/.\"])"
    r"|(?:label|mark|call)(?:l?ed|l?ing)?\s+(?:(?:these|those|them|this|it|each|all|both)\s+)?(?:as\s+)?"
    r"[\"']?(?P<behind>[a-z]\d?)[\"']?(?=\s*(?:$|[.,;:)\]]))"
    r"|(?P<letter>[a-wyz]\d{1,2})(?![a-z\d/\"])"
    r"|(?:(?<=\d )|(?<=\d\) )|(?<=\d - ))(?P<counted>[a-wyz])(?=\s+(?:square|rectangle|triangle|patch|strip|-\s))"
    r"|(?:(?<=[\")] )|(?<=square ))(?P<lettered>[b-wyz](?=\s+(?:(?:sashing|border|setting)\s+)?"
    r"(?:square|rectangle|triangle|patch|strip|cornerstone))"
    r"|a(?=\s+(?:(?:sashing|border|setting)\s+)?(?:square|rectangle|triangle|patche|strip|cornerstone)s\b))"
    r"|(?<=[-|=] )(?P<between>[a-z])(?= +-|\s*$))"
)
_LETTER = re.compile(
    r"[a-z](?: \d{1,3} (?!in|ya?r?ds?|[cm]m|x|by|fat|patch|piece)[a-z]"
    r"| ?[:=)]|\.\s| ?\((?=[a-z])|\t| {2,}| ?-{1,2} | [/|] )"
)
"""A letter that names a piece, "a" and "x" too: "A 16 light squares", "X: 4 squares"."""
_NO_LABELS = {
    "a", "an", "as", "at", "bg", "by", "cm", "dk", "do", "ea", "if", "in", "is", "it", "lt", "md", "mm", "my",
    "no", "of", "oh", "ok", "on", "or", "pc", "sa", "so", "sq", "to", "up", "us", "we", "x", "yd"
}  # fmt: skip
"""Words of one or two letters before a sign that name no piece."""
_FIRST_LABEL = re.compile(
    r"(?!x\d)[\"']?(?P<name>[a-z]{1,2}\d{0,2}|\#\d{1,2})[\"']?\s*(?:[:=)]|[.-]\s|--(?=\(?\d)|\t|\s{2,}|\s\||\s/\s|\.?$|(?<=[a-wyz])\s(?=[\d(]))"
)
_OF_A_PIECE = rf"(?<=[a-z] )(?:{NUMBERED})\s+[a-z]\s+\d+\s+(?:square|rectangle|triangle|piece|patch|strip)"
"""A kind of fabric and the letter of the pieces that are counted behind it: "(Cream) print C 24 squares"."""
_NO_FABRIC = (
    r"squares?|rect\w*|strips?|pieces?|pcs|patch\w*|tri\w*|blocks?|units?|by|inch(?:es)?"
    r"|yds?|yards?|met\w+|wide|long|wof|from"
)
"""What is counted, or measured, by a number behind "fabric"."""
_NAMED_FABRIC = re.compile(
    rf"(?:fabric|fab\.?)\s+\#?\d{{1,2}}(?=\s+(?!(?:{_NO_FABRIC})\b)[a-z]{{3}})"
    rf"|(?!{_OF_A_PIECE})(?:fabrics?|colou?rs|{NUMBERED})\s+\#?(?:\d{{1,2}}(?![.,]\d)(?=\s*(?:[:,;()]|\.(?!\d)|-(?!inch|\d)|$|cut\b|for\b|and\b|&)"
    rf"|(?:\t|[ ]{{2,}})\(?\d)"
    rf"|\d{{1,2}}(?=\s+(?:{'|'.join(sorted(COLOURS))})(?:\s+[a-z]+)?\s*(?:$|[:(]|-{{1,2}}\s))|[a-z](?![a-z\d]))"
)
_NUMBERED_COLOUR = re.compile(
    rf"(?:{'|'.join(sorted(COLOURS))})\s+\#?\d{{1,2}}(?=\s*(?::|\(|-{{1,2}}\s+(?!\d[\d /]*\")))"
)
"""A line that begins with one of several fabrics of a colour: "Light 2: ..."."""
_LETTERED = re.compile(r"(?P<name>[^\W\d_]{3,})\s+[a-z](?=\s*:|\s+-{1,2}\s)")
"""A line that begins with a fabric and its letter, in whichever language: "Stoff A: ..."."""
_SHAPED = ("squares", "strips", "wof", "strip", "yards", "fat_quarter")
"""The kinds that say what is cut of a fabric whose name may be that of a shape too."""
_THINGS = {
    "brick", "circle", "circles", "diamond", "diamonds", "heart", "hearts", "hexagon", "lace", "leaf", "leaves", "oval",
    "paper", "petal", "petals", "ribbon", "stem", "stems"
}  # fmt: skip
"""What a print shows or a colour is called after, which is a shape elsewhere."""
_ORDINAL = re.compile(r"\d(?:st|nd|rd|th)")
_TURNED = re.compile(r"fold|pair|mirror|revers|quarter|halv|doubl|slic|divid|split|piec|join|trim|sewn|layer")
"""What is done with pieces, of which no fabric is called."""
_PICTURES = ("So", "Sm")
"""Categories of signs that may picture a cut or a relation: one that no list knows is not passed over."""
_NO_PICTURES = "®™©°←→"
_DECADE = re.compile(r"1[89]\d0'?s\b")
"""What prints are called by the years they are from: "1930s prints"."""
_ARROW = re.compile(r"→|-{1,2}>|=>|>(?=\s+\(?\d)")
_MARK = re.compile(r"(?:\d{1,2}[.)](?=\s)(?!\s*\d+\s*/)|-{1,2}(?=\s)|→|-{1,2}>|=>)\s*")


class Chunk(NamedTuple):
    """What stands from `start` to `end` of the page, and of which kind it is; `value` is a figure, a measure, the name
    of a label or the chunks of a bracket."""

    kind: str
    start: int
    end: int
    value: Any = None


def chunked(text: str, start: int = 0, end: int | None = None) -> list[Chunk]:
    """The chunks of a plain page from one place to another.

    >>> [chunk.kind for chunk in chunked('(18) 3 1/2" navy squares')]
    ['count', 'length', 'word', 'squares']
    """
    return [*_chunks(text, start, len(text) if end is None else end)]


@lru_cache(maxsize=4096)  # each rule and each head looks at the same line, and the lines of a page are many
def _chunks(text: str, start: int, end: int) -> tuple[Chunk, ...]:
    found: list[Chunk] = []
    at = start
    while at < end and (text[at].isspace() or (_is_picture(text[at]) and not phrase(text, at, end))):
        at += 1  # pictures before a line are its bullets
    first = _MARK.match(text, at, end)
    if first:
        at = first.end()
    label = _FIRST_LABEL.match(text, at, end)
    if label and len(label["name"]) > 1 and phrase(text, *label.span("name")):  # "fq:"
        label = None
    if label and (label["name"] not in _NO_LABELS or _LETTER.match(text, at, end)):
        found.append(Chunk("label", label.start("name"), label.end("name"), label["name"]))
        at = label.end("name") + (text[label.end("name") : label.end("name") + 1] in tuple("\"'.)"))
    numbered = _NUMBERED_COLOUR.match(text, at, end) or _LETTERED.match(text, at, end)
    if numbered and numbered.re is _LETTERED and (phrase(text, at, end) or numbered["name"] in PARTS | FUNCTION_WORDS):
        numbered = None
    if numbered:
        found.append(Chunk("word", at, numbered.end()))
        at = numbered.end()
    while at < end:
        if text[at].isspace():
            at += 1
            continue
        chunk, at = _next(text, at, end)
        found += chunk
    return tuple(_as_names(text, _with_labels(text, _said_once(_in_one_unit(found)))))


def _with_labels(text, found):
    """The chunks, a letter alone taken for the name of a piece where it is counted, "28 of A", "28 A 2 1/2 in",
    "28 A's", stands in quotation marks, or before or behind a fabric that a count follows: "Cream C 24 squares"."""
    lettered: list[Chunk] = []
    for at, (one, behind) in enumerate(zip(found, [*found[1:], None])):
        said, before = text[one.start : one.end], lettered[-1] if lettered else None
        letter = one.kind in ("word", "article") and said not in ("i", "x") and (len(said) == 1 or said[1:] == _SEVERAL)
        if letter and _is_counted(text, found, at):
            lettered.append(one._replace(kind="label", value=said[0]))
            continue
        if said == "a" and one.kind == "article" and _is_told_once(text, found, at):
            lettered.append(one._replace(kind="label", value=said))
            continue
        alone = letter and len(said) == 1 and before
        counted = alone and text[before.start : before.end] == "of" and lettered[-2:-1] and lettered[-2].kind == "count"
        ends = behind is None or behind.kind not in ("word", *NAMED)
        if counted and ends:
            lettered[-1:] = [Chunk("label", before.start, one.end, said)]
            continue
        quoted = alone and text[one.start - 1] in "\"'" and text[one.end : one.end + 1] == text[one.start - 1]
        of_fabric = alone and text[before.start : before.end].split()[-1] in COLOURS | OF_FABRIC
        if quoted or of_fabric and behind is not None and behind.kind == "count":
            one = one._replace(kind="label", value=said)
        lettered.append(one)
    return lettered


def _is_told_once(text, found, at):
    """Whether "A" before a size is no article, for what is so large is counted behind it: "A 3 in square: 12 navy"."""
    behind = [*takewhile(lambda one: text[one.start] not in ".;", found[at + 1 :])]
    begins = not at or text[found[at - 1].start] == ":"
    sized = bool(behind) and behind[0].kind in MEASURES and sum(one.kind in MEASURES for one in behind) == 1
    return begins and sized and any(one.kind == "count" for one in behind)


def _is_counted(text, found, at):
    """Whether a letter stands between a count and a size, or is counted in the plural, or begins a line before a fabric
    that a count follows, or stands before a count in brackets."""
    alone = found[at].end == found[at].start + 1 and (not at or found[at - 1].kind in ("punct", "cut", "and"))
    if alone and found[at + 1 :] and found[at + 1].kind == "count" and text[found[at + 1].start] == "(":
        return True
    if at and found[at - 1].kind == "count":
        behind = found[at + 1].kind if at + 1 < len(found) else ""
        return text[found[at].start + 1 :].startswith(_SEVERAL) or behind in MEASURES
    words = [*takewhile(lambda one: one.kind == "word", found[1:])] if not at and len(found) > 2 else []
    named = {text[one.start : one.end] for one in words} & (COLOURS | OF_FABRIC)
    return (
        bool(named)
        and len(words) < MOST_OF_A_NAME
        and found[len(words) + 1 :][:1] != []
        and (found[len(words) + 1].kind == "count")
    )


def _said_once(found):
    """The chunks, a count that is said twice at once ("twelve (12)") said once."""
    pairs = zip([None, *found], found)
    return [
        one
        for before, one in pairs
        if not (before and before.kind == one.kind == "count" and before.value == one.value)
    ]


def _as_names(text, found):
    """The chunks, a shape or a verb taken for the word that it is in a name: "brick red", "green leaf: 6 strips",
    "Crooked lane block"."""
    said = [text[one.start : one.end] for one in found]
    shaped = any(one.kind in _SHAPED for one in found)
    names = []
    for at, one in enumerate(found):
        behind, before = said[at + 1] if at + 1 < len(found) else "", said[at - 1] if at else ""
        thing = one.kind in ("caution", "rectangles") and said[at] in _THINGS
        named = thing and (behind in COLOURS | OF_FABRIC or before in COLOURS and behind == ":" and shaped)
        numbered = one.kind == "ref" and _ORDINAL.fullmatch(said[at]) and behind in COLOURS | OF_FABRIC
        rest = [other for other in found[at:] if other.kind not in ("word", "unit", "caution")]
        of_block = rest and rest[0].kind == "blocks"
        last = said[found.index(rest[0]) - 1] if rest else ""
        of_head = bool(rest) and text[rest[0].start] == ":" and last in COLOURS | OF_FABRIC
        done = one.kind == "caution" and not at and only_told(said[at])
        names.append(one._replace(kind="word") if named or numbered or done and (of_block or of_head) else one)
    return names


def only_told(word: str) -> bool:
    """Whether a word that ends as a verb does in the past tells of nothing that is done with pieces: "raided"."""
    return may_be_done(word) and not _TURNED.match(word)


def _in_one_unit(found):
    """The chunks, the lengths of a list in centimetres read with the unit behind its last: "5,5, 7,5 and 9,5 cm"."""
    unit, changed = "", []
    for one in reversed(found):
        if one.kind == "length" and len(one.value.sides) == 1:
            unit = one.value.sides[0].unit
        elif (
            one.kind == "doubt"
            and unit in figures.METRIC
            and [side.doubt for side in one.value.sides] == [figures.COMMA]
        ):
            side = one.value.sides[0]._replace(unit=unit, doubt="")
            one = Chunk("length", one.start, one.end, one.value._replace(sides=(side,)))
        elif one.kind not in ("punct", "and"):
            unit = ""
        changed.append(one)
    return changed[::-1]


def _next(text, at, end):
    """The chunks that begin at this place, and where to go on."""
    if text[at] in "([{":
        close = _closing(text, at, end)
        if close is not None:
            return [_bracket(text, at, close)], close + 1
    known = phrase(text, at, end)
    if known and known[0] == "ref":
        return [Chunk("ref", at, known[1])], known[1]
    named = _LABELLED.match(text, at, end) if at == 0 or not text[at - 1].isalnum() else None
    if named:
        name = next(filter(None, named.groups()))
        return [Chunk("label", at, named.end(), name)], named.end()
    fabric = _NAMED_FABRIC.match(text, at, end)
    if fabric:
        return [Chunk("word", at, fabric.end())], fabric.end()
    for kind, words in (("wof", figures.WIDTH_OF_FABRIC), ("lengthwise", figures.LENGTH_OF_FABRIC)):
        if at == 0 or not text[at - 1].isalnum():
            match = words.match(text, at, end)
            if match:
                return [Chunk(kind, at, match.end())], match.end()
    if known:
        return [Chunk(known[0], at, known[1])], known[1]
    decade = _DECADE.match(text, at, end)
    if decade and not text[at - 1 : at].isalnum():
        return [Chunk("word", at, decade.end())], decade.end()
    size = measure(text, at, end) if not (at and text[at - 1].isalpha() and not text[at].isdigit()) else None
    if size:
        return measured(size), size.end
    word = _WORD.match(text, at, end)
    if word:
        kind = "caution" if may_be_done(word[0]) else "word"
        return [Chunk(kind, at, word.end())], word.end()
    arrow = _ARROW.match(text, at, end)
    if arrow:
        return [Chunk("into", at, arrow.end())], arrow.end()
    kind = "caution" if _is_picture(text[at]) else "punct"
    return [Chunk(kind, at, at + 1)], at + 1


def _is_picture(char):
    return not char.isascii() and char not in _NO_PICTURES and unicodedata.category(char) in _PICTURES


def _closing(text, at, end):
    depth = 0
    for place in range(at, end):
        depth += (text[place] in "([{") - (text[place] in ")]}")
        if depth == 0:
            return place
        if depth > DEEPEST:
            return None
    return None


def measured(size: Measure) -> list[Chunk]:
    """The chunks of a measure; a bare whole number alone is a count, and so is one before two lengths."""
    first = size.sides[0]
    bare = first.whole and not first.unit and not first.along
    if size.doubt:
        return [Chunk("doubt", size.start, size.end, size)]
    if len(size.sides) == 1 and not size.across:
        if first.unit == "m" and first.along.startswith("w"):  # a width is none to buy
            first = first._replace(value=first.value * 100, unit="cm")
            size = size._replace(sides=(first._replace(doubt="" if first.doubt == figures.COMMA else first.doubt),))
        kind = "yards" if first.unit in ("yd", "m") else "count" if bare else "length"
        return [Chunk(kind, size.start, size.end, int(first.value) if kind == "count" else size)]
    if len(size.sides) == 2 and first.unit == "m" and size.sides[1].along.startswith("w"):  # so much, so wide
        wide = Measure(size.sides[1].start, size.end, size.sides[1:])
        return [Chunk("yards", first.start, first.end, Measure(first.start, first.end, (first,))), *measured(wide)]
    if size.sides[-1].unit == "m" and len(size.sides) == 2 and all(side.unit in ("", "m") for side in size.sides):
        return [Chunk("size", size.start, size.end, size)]
    if any(side.unit == "m" for side in size.sides):
        return [Chunk("doubt", size.start, size.end, size)]
    if bare and len(size.sides) == (2 if size.across else 3):
        rest = Measure(size.sides[1].start, size.end, size.sides[1:], size.across)
        return [Chunk("count", first.start, first.end, int(first.value)), *measured(rest)]
    last = size.sides[-1]
    if len(size.sides) == 3 and not size.across and last.whole and not (last.unit or last.along) and not first.whole:
        rest = Measure(size.start, size.sides[1].end, size.sides[:2])  # so wide, so long, so many
        return [*measured(rest), Chunk("count", last.start, last.end, int(last.value))]
    if len(size.sides) == 3 or (size.across and len(size.sides) == 2):
        return [Chunk("doubt", size.start, size.end, size)]
    if size.across:
        return [Chunk("strip", size.start, size.end, size)]
    return [Chunk("size", size.start, size.end, size)]


def _bracket(text, at, close):
    """A bracket as one chunk: a count, a label, or a note that holds its own chunks."""
    inside = chunked(text, at + 1, close)
    counts = [chunk for chunk in inside if chunk.kind != "cut"]
    if [chunk.kind for chunk in counts] == ["count"]:
        return Chunk("count", at, close + 1, counts[0].value)
    label = _LABEL.match(text[at + 1 : close])
    if [chunk.kind for chunk in inside] == ["label"]:
        return inside[0]._replace(start=at, end=close + 1)
    if label and label["name"] not in ("x", "in", "cm") and not count(inside, "yards"):
        return Chunk("label", at, close + 1, label["name"])
    return Chunk("note", at, close + 1, inside)


def opened(chunks: list[Chunk]) -> list[Chunk]:
    """The chunks with those of their brackets in between, where more than words stand in these.

    >>> [chunk.kind for chunk in opened(chunked('8 squares (navy) 3" (cut once diagonally)'))]
    ['count', 'squares', 'note', 'length', 'punct', 'cut', 'once', 'punct']
    """
    found: list[Chunk] = []
    for chunk in chunks:
        inside: list[Chunk] = chunk.value if chunk.kind == "note" else []
        kinds = {one.kind for one in inside}
        if kinds <= REMARKS:
            found.append(chunk)
            continue
        found.append(Chunk("punct", chunk.start, chunk.start + 1))
        named = () if kinds & FIGURES else NAMED  # they name no piece besides
        found += [one._replace(kind="punct") if one.kind in named else one for one in opened(inside)]
        found.append(Chunk("punct", chunk.end - 1, chunk.end))
    return found


def count(chunks: list[Chunk], *kinds: str) -> int:
    """How many of the chunks are of these kinds."""
    return sum(chunk.kind in kinds for chunk in chunks)


def all_of(chunks: list[Chunk], *kinds: str) -> list[Chunk]:
    """The chunks of these kinds."""
    return [chunk for chunk in chunks if chunk.kind in kinds]


def place_of(chunks: list[Chunk], *kinds: str, otherwise: int = 0) -> int:
    """Where the first chunk of these kinds stands in a list; `otherwise` where none does."""
    return next((place for place, one in enumerate(chunks) if one.kind in kinds), otherwise)


def bag(chunks: list[Chunk], *, one: tuple[tuple[str, ...], ...] = (), some: tuple[str, ...] = ()) -> bool:
    """Whether the chunks are exactly one of each of these kinds, and else nothing but `some` and what fills.

    Each entry of `one` is a tuple of kinds, of which one stands there once.
    """
    named = {kind for kinds in one for kind in kinds}
    return all(count(chunks, *kinds) == 1 for kinds in one) and all(
        chunk.kind in named or chunk.kind in some or chunk.kind in FILL for chunk in chunks
    )
