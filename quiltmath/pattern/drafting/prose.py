"""Sentences that tell of sewing, and number words that count no pieces."""

from __future__ import annotations

import re
from itertools import pairwise

from .chunks import FIGURES, MEASURES, NAMED, Chunk, all_of, chunked, count, only_told, opened, place_of
from .figures import LEAST_SIZE
from .model import Words
from .page import Page
from .vocabulary import COLOURS, FUNCTION_WORDS, HANDLED, OF_FABRIC, PROSE

TELLS = PROSE - {"alternate", "alternating", "label", "keep", "leave", "trim", "trimmed", "sewn", "using"}
"""What a sentence begins with that says nothing more of the pieces before it."""


def is_prose(chunks: list[Chunk], page: Page) -> bool:
    """Whether a sentence tells what is done with the pieces, by the verb that it begins with."""
    begins = page.plain[chunks[0].start : chunks[0].end] if chunks else ""
    of_a_pack = begins == "layer" and len(chunks) > 1 and page.said(chunks[1]) == "of"  # "Layer of 42 10 in squares"
    if of_a_pack:
        return False
    if count(chunks, "sew") or begins in PROSE or said(chunks[:3], page) & PROSE:
        return True
    told = " ".join(page.said(one) for one in chunks if one.kind != "note" or one.value)
    return bool(_DRAWS.search(told) or _HANDLES.search(told))


_DRAWS = re.compile(r"\b(?:draw|mark|pencil|rule)\b[^.;]*\b(?:lines?|diagonals?|diagonally)\b")
"""A diagonal that is drawn is none that is cut: "On the back of each square draw a line from corner to corner"."""


_TAKEN_UP = "|".join(sorted(HANDLED - {"lay", "turn"}))
_HANDLES = re.compile(rf"\b(?:you(?:'ll|\s+will)?|we(?:'ll)?|i(?:'ll)?)\s+(?:then\s+|now\s+)?(?:{_TAKEN_UP})\b")
"""What somebody does with pieces: "you'll pair a print with a white"."""
NOT_TO_CUT = re.compile(r"(?:\bplease\s+)?\b(?:do\s+not|don't|never)\s+(?:yet\s+)?(?:sub-?\s?|cross-?)?cut\b")
_OF_CARE = re.compile(r"\b(?:blades?|self-healing|fingers?|rotary\s+cutters?)\b|\b(?:cutting|your|the)\s+mat\b")
"""What a word of caution speaks of: "Always cut away from your fingers"."""
_OF_SOMEBODY = re.compile(
    r"\b(?:i|my|mine|me|she|he|hers?|his|friends?|we|our|there\s+(?:is|are|will\s+be|was|were))\b"
)
_OWNS = re.compile(r"\b(?:bought|still|have|had|has|left|there|mine|hers|his|friends?|stash)\b")
"""What tells of fabric that is there already."""
_BUYS = re.compile(
    r"(?:so\s+)?(?:(?:i|we|you|one)(?:'d|'ll|\s+will|\s+would|\s+should)?\s+(?:only\s+|just\s+|also\s+|be\s+)*"
    r"(?:need|want|get|buy|use|used|using|take|require|suggest(?:\s+(?:buying|getting))?|(?:go|went)\s+with|grab|like)|(?:go\s+)?(?:grab|get|buy|bring|pick\s+up))\s+"
    r"(?:yourself\s+)?"
)
_IS_SO = re.compile(r"\b(?:measures?|should|will|was|were|came|comes|goes|is|are|has|had)\b")
_OF_A_BLOCK = re.compile(
    r"(?:the|your|this|each|every|it|all|they|an?)\b[a-z\s-]*?\b(?:is|should|will|measures?)\b(?:\s+(?:be|now|measure))*:?\s*\d"
)
_OF_A_ROW = re.compile(
    r"(?:row|column|block|unit|border|round)s?\s+\d+\s+(?:should\s+|will\s+|now\s+)*(?:be|measures?)\b"
)
_OF_A_TOOL = re.compile(r"°|\bdegrees?\b|\b(?:oven|needle|thread|presser|ruler|stitch length)\b")
_THAN = re.compile(r"\b(?:longer|wider|larger|bigger|smaller|shorter)\s+than\b")
_SO_MANY, _NO_MORE = r"(?:\d{1,2}|[a-z]+)", r"\W*$"
_MAKES_SETS = re.compile(
    r"\b(?:one|a|each|every)\s+(?:[a-z]+\s+){0,2}strips?\s+(?:will\s+)?(?:makes?|gives?|yields?)\s+(?:\d+|[a-z]+)\s+(?:whole\s+|full\s+)?sets?\b"
    r"|\b(?:one|a|each|every)\s+strip\s+(?:will\s+)?(?:makes?|gives?|yields?)\b[^.;]*\b(?:of|for)\s+(?:one|a|each)\s+block\b"
    rf"|\W*(?:about\s+)?{_SO_MANY}\s+(?:can|will|may|could)\s+be\s+(?:cut|had)\s+(?:from|out\s+of)\s+(?:each|every|one)\b{_NO_MORE}"
    rf"|\W*(?:you\s+(?:can\s+|will\s+|should\s+)?|(?:each|every|one)\s+(?:strip\s+)?(?:set\s+)?(?:will\s+)?)(?:cut|get|gives?|yields?)\s+(?:you\s+)?(?:about\s+)?{_SO_MANY}"
    rf"(?:\s+or\s+so)?(?:\s+(?:from|out\s+of)\s+(?:each|every|one)(?:\s+(?:strip\s+)?set)?)?{_NO_MORE}"
)
"""How far a strip goes: "One strip makes a set of logs"."""
_MADE = ("unit", "segments", "blocks", "rows")


def tells(chunks: list[Chunk], page: Page) -> bool:
    """Whether a sentence with figures tells what is done with pieces, or of something else, and cuts none of a size
    itself."""
    flat = opened(chunks)
    if not count(flat, "count", "yards") and _THAN.search(page.plain[chunks[0].start : chunks[-1].end]):
        return True
    first = flat[: place_of(flat, "sew")]
    bought = count(flat[: place_of(flat, "sew", "cut", "into")], "yards")
    if bought or first and first[0].kind == "finished" and count(first, *MEASURES):
        return False  # "Finished size: 60 x 72 in, bigger if you add a border"
    if _REPEATS.match(page.plain, chunks[0].start):
        return False
    if count(flat, "cut", "into") and count(flat, "count") and said(chunks, page) & {"trace", "template"}:
        return False  # of a shape that stands nowhere
    cuts = (
        (count(flat, "cut", "into") or flat[0].kind == "count")
        and count(flat, *MEASURES)
        and count(flat, *NAMED, "count")
    )
    return not cuts and (is_prose(chunks, page) or _cuts_nothing(flat, page))


_REPEATS = re.compile(r"repeat\s+(?:with|for|from|using)\s+(?:the\s+)?[a-z][a-z ]+:\s*\(?\d")
"""A line that counts the pieces of one more fabric: "Repeat with the navy: 16 rectangles 2 x 4 in"."""


def counts_blocks(flat: list[Chunk]) -> bool:
    """Whether a sentence says how many blocks there are: "twelve star blocks"."""
    kinds = [one.kind for one in flat if one.kind not in ("word", "article")]
    of_one = [one.value == 1 for one in flat if one.kind not in ("word", "article")]  # "one block at a time"
    return any(pair == ("count", "blocks") and not one for pair, one in zip(pairwise(kinds), of_one))


_THIS_LENGTH = re.compile(r"\b(?:this|that|the\s+same)\s+(?:length|measurement|size)\b")
"""What is cut as long as the sentence before it says."""
_LINING = re.compile(
    r"\b(?:backing|lining|batting|wadding)\b|\bback\b(?!\s+(?:of|side|to|again)\b)"
    r"|\b(?:lengths|pieces)\b[^.;]*\b(?:joined|sewn|seamed)\s+side\s+by\s+side\b"
)
"""What a sentence of sewing names that joins lengths of backing, or cuts these and the batting to size."""


_IN_LENGTHS = re.compile(r"\b(?:two|three|2|3)\s+(?:equal\s+)?lengths\b")


def sets_aside(chunks: list[Chunk]) -> bool:
    """Whether a sentence begins with setting aside pieces of a size: they may be cut here, or before."""
    first = chunks[0].kind if count(chunks, *MEASURES) else ""
    return first == "aside" or first == "set" and count(chunks, "aside") > 0


def speaks_of_somebody(chunks: list[Chunk], page: Page) -> bool:
    """Whether a sentence is about what somebody has, made or cut.

    >>> from .chunks import chunked
    >>> page = Page("I bought 2 yards")
    >>> speaks_of_somebody(chunked(page.plain), page)
    True
    """
    return bool(_OF_SOMEBODY.search(_outside_brackets(chunks, page)))


_OF_A_KIT = re.compile(
    r"\W*(?:(?:your|the|this|each|every)\s+(?:kit|packet|pack|box)\s+(?:holds|contains|includes|has|comes\s+with)\W*"
    r"|(?:included|includes)(?:\s+in\s+(?:the|your|this|each)\s+(?:kit|packet|pack|box))?\s*:\s*)(?=\S)"
)


def behind_a_kit(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks behind the words that they are of a kit: "Your kit holds 10 fat quarters", "Included: 40 squares"."""
    told = _OF_A_KIT.match(page.plain, chunks[0].start, chunks[-1].end) if chunks else None
    behind = [one for one in chunks if told and one.start >= told.end()]
    of_fabric = count(behind, "pieces") and not count(behind, "precut", "fat_quarter", "squares", "strips", "cut")
    if of_fabric:  # "Your kit contains 12 pieces of batik 10 x 21 in", which nobody has to cut
        behind = [one._replace(kind="precut") if one.kind == "pieces" else one for one in behind]
    return behind or chunks


def without_somebody(chunks: list[Chunk], page: Page) -> list[Chunk]:
    """The chunks of a sentence about what is bought, without who buys it: "You'll want 2 yards", "So I used 1 yd"."""
    if not chunks or _OWNS.search(_outside_brackets(chunks, page)):
        return chunks
    told = _BUYS.match(page.plain, chunks[0].start)
    until = place_of(chunks, "yards")
    why = next((at for at, one in enumerate(chunks) if at > until and page.said(one) in ("to", "in")), len(chunks))
    if count(opened(chunks[why:]), *FIGURES, "fat_quarter", "precut", "pack"):  # more is bought there
        why = len(chunks)
    behind = [one for one in chunks[:why] if told and one.start >= told.end()]
    return (
        behind if count(behind[:1], "yards") or count(behind[:2], "yards") and behind[0].kind == "caution" else chunks
    )


def _outside_brackets(chunks, page):
    """What a sentence says, without what stands in its brackets."""
    return " ".join(page.said(one) for one in chunks if one.kind != "note")


_OF_THE = re.compile(r"\b(?:the|these|those|your)\s+(?:[a-z-]+\s+)?$")


def _of_pieces_told(flat, page):
    """Whether every measure of a sentence is of pieces that were told before: "Sew the 24 1/2 in strips on"."""
    measures = all_of(flat, *MEASURES)
    if count(flat, "count") > count(flat, "make"):  # "six of the 5 in squares" may be some of them
        return False
    return bool(measures) and all(_OF_THE.search(page.plain[flat[0].start : one.start]) for one in measures)


def _cuts_nothing(flat, page):
    """Whether a sentence neither cuts pieces nor counts some of a size: "There will be about 4 in left of every strip",
    "You should now have 48 units 3 1/2 in square", "My youngest turned 7"."""
    text = page.plain[flat[0].start : flat[-1].end] if flat else ""
    summed = _SUM.match(text)
    if summed and int(summed["one"]) * int(summed["other"]) == int(summed["sum"]):
        return True
    if NOT_TO_CUT.match(text) or divides(text) or _OF_A_ROW.match(text) and count(flat, "count") < 2:
        return True
    if _MAKES_SETS.search(text) and not count(flat, "cut", "into"):
        return True
    if text.startswith("use ") and not re.search(r"\d", text):
        return True
    if _of_pieces_told(flat, page) and not count(flat, "cut", "into", "yards", "doubt"):
        return True
    about = _OF_SOMEBODY.search(_outside_brackets(flat, page))
    if about and not count(flat, "count", "from", "yards", *NAMED):
        return True
    if count(flat, "cut", "into", "from", "enough"):
        return False
    if _makes_units(flat) or count(flat, "left_over") and not count(flat, *MEASURES, "yards", "aside", "doubt"):
        return True
    if count(flat, "need") and count(flat, *_MADE) and (count(flat, "unit") or re.search(r"\bhave\b", text)):
        return not count(flat, "yards", "squares", "rectangles", "strips") or re.search(r"\bhave\b", text) is not None
    if count(flat, "count") and count(flat, *MEASURES, "yards"):
        return False
    buys = count(flat, "yards") and not _OWNS.search(text)
    if about and not buys and not (count(flat, "count") and count(flat, *NAMED)):
        return True
    if _OF_A_TOOL.search(text) and not count(flat, *MEASURES, *NAMED):
        return True
    if not count(flat, "count", "yards") and _OF_A_BLOCK.match(text):
        return True
    return not count(flat, "count", "yards", "squares", "rectangles", "strips") and bool(_IS_SO.search(text))


_SUM = re.compile(r"\W*(?P<one>\d+)\s*(?:x|times)\s*(?P<other>\d+)\s+(?:is|=|makes?|comes\s+to)\s+(?P<sum>\d+)\b")
"""What somebody reckons: "48 x 9 is 432 little squares"."""
_COMES_OUT = re.compile(
    r"\W*(?:the|these|those|all|your)\b[a-z\s]*?\b(?:will\s+|can\s+|may\s+|should\s+)?(?:come|be\s+cut|fit)\s+"
    r"(?:out\s+of|from|in(?:to)?|beside)\s+(?:what(?:'s|\s+is)|the\s+(?:rest|remainder|piece|strip))\b"
)
"""From where pieces are cut that are told besides."""


def only_comes_out(flat: list[Chunk], words: Words) -> bool:
    """Whether a sentence says from what is left pieces are cut, and counts none: "The little squares will come out of
    what's left beside the last 12 1/2 in square"."""
    return bool(_COMES_OUT.match(words.text.casefold().replace("\u2019", "'"))) and not count(flat, "count", "into")


_DIVIDES = re.compile(
    r"\W*(?:divide|split|think\s+of|look\s+at)\s+(?:the|your)\s+(?:layout|quilt|top|blocks|setting)\b[^.;\d]*?"
    r"\b(?:quarters|halves|half|quadrants|sections|parts)\b"
)


def divides(text: str) -> bool:
    """Whether a sentence parts the quilt, and what it counts stands in each part: "Divide the layout into quarters, 3
    blocks across and 4 down"."""
    return bool(_DIVIDES.match(text))


def _makes_units(flat):
    """Whether a sentence only measures the units that it makes: "Each large square gives 4 geese 3 1/2 x 6 1/2 in"."""
    units, measures = all_of(flat, "unit"), all_of(flat, *MEASURES)
    if (
        not count(flat, "make")
        or not units
        or count(flat, "yards", "cut", "into", "from", "finished", "unfinished")
        or count(flat, "count") > 1
    ):
        return False
    behind = [one for one in flat if one.start > units[0].start]
    return all(one in behind for one in measures) and not count(behind, "squares", "rectangles", "strips")


def measures_one(flat: list[Chunk], page: Page) -> bool:
    """Whether a sentence says how large something is, and counts nothing: "A row is 8 in wide and 56 in long"."""
    text = page.plain[flat[0].start : flat[-1].end]
    return not count(flat, "count", "yards", "cut", "into", "role") and bool(_OF_A_BLOCK.match(text))


def cuts_lining(chunks: list[Chunk], role: str, page: Page) -> bool:
    """Whether a sentence below a head of sewing cuts or joins backing and batting."""
    flat = opened(chunks)
    of_lining = role in ("backing", "batting") or _LINING.search(page.plain[chunks[0].start : chunks[-1].end])
    if of_lining and _IN_LENGTHS.search(page.plain[chunks[0].start : chunks[-1].end]):
        return True
    if of_lining and count(flat, "cut", "into", "strips", "pieces", "make"):
        return not count(flat, "squares", "rectangles", "yards") or count(flat, "cut", "into") > 0
    return False


def tells_of_sewing(chunks: list[Chunk], page: Page) -> bool:
    """Whether a sentence below a head of sewing cuts no pieces of the top: it counts what is made."""
    flat = opened(chunks)
    if _THIS_LENGTH.search(page.plain[chunks[0].start : chunks[-1].end]) and not count(flat, *MEASURES):
        return True
    made = count(flat, "make", "need") and not count(flat, "from")
    sizes = [side.inches for one in all_of(chunks, *MEASURES) for side in one.value.with_units()]  # of no bracket
    measured = any(side >= LEAST_SIZE for side in sizes) and count(flat, "count") and not made
    return not count(flat, "cut", "into", "yards", "doubt") and not measured


def said(chunks: list[Chunk], page: Page) -> set[str]:
    """The words of a line that are of no other kind."""
    return {page.said(one) for one in chunks if one.kind == "word"}


def uses(flat: list[Chunk], page: Page) -> bool:
    """Whether a sentence takes pieces up: "Use the same method with one 7 in square"."""
    return count(flat, "sew") > 0 or bool(said(flat, page) & {"use", "method"})


def makes_sets(words: Words) -> bool:
    """Whether a sentence says how far a strip goes, and no more: "Each strip gives the logs of one block"."""
    return bool(_MAKES_SETS.search(words.text.casefold()))


def only_made(flat: list[Chunk]) -> bool:
    """Whether a sentence only says how many are made: "Make 48", "Each set makes four"."""
    kinds = {one.kind for one in flat} - {"punct", "article", "total", "each", "set"}
    return kinds == {"make", "count"} and count(flat, "count") == 1


_A_LENGTH = re.compile(
    r"\b(?:an?|half|halves|quarters?|eighths?|couple|few|several|some|one|two|three|four|five|six)[\s-]+"
    r"(?:(?:of|an?|half|quarter)[\s-]+)*(?:yards?|met(?:re|er)s?)\b"
)


def tells_a_length(words: Words) -> bool:
    """Whether words without a figure tell how much of a fabric is bought: "a yard and a half", "three half-yards"."""
    return bool(_A_LENGTH.search(words.text.casefold()))


_CHATTER = ("word", "article", "punct", "count", "aside", "make")
"""The kinds of a clause that may say nothing of pieces."""


def before_chatter(page: Page, start: int, end: int) -> tuple[int, int] | None:
    """Where a line ends, and what begins behind its comma or dash, in words of running prose that say nothing of
    pieces; None where it says nothing besides.

    >>> page = Page("12 red squares 3 in, so it's quick")
    >>> before_chatter(page, 0, len(page.text))
    (19, 21)
    """
    for comma in re.compile(r"(?:,|\s-)\s+(?=\w)").finditer(page.plain, start + 1, end):
        behind = chunked(page.plain, comma.end(), end)
        open_ = page.plain.count("(", start, comma.start()) > page.plain.count(")", start, comma.start())
        if not open_ and _chatters(behind, page):
            return comma.span()
    return None


_HANDLED_WELL = re.compile(
    r"(?:all\s+|please\s+)?(?P<already>already\s+)?(?:pre-?)?(?:sewn|joined|pressed|ironed|starched|washed|made\s+up|labell?ed|bagged"
    r"|sorted|stacked|ready|done|cut(?=\s+(?:already|beforehand|in\s+advance|at\s+home|if\s)))"
    r"(?:\s+(?:together|in\s+half|up|end\s+to\s+end|already|ready|well|first|flat|beforehand|in\s+advance|at\s+home"
    r"|and\s+(?:pressed|folded|ironed|labell?ed|rolled)))*"
    r"(?P<when>,?\s+(?:if|when|so|please|for\s+class|to\s+save|to\s+go)\b[^,;.\d]*)?\W*"
)


def is_of_handling(page: Page, chunks: list[Chunk]) -> bool:
    """Whether a clause only says how somebody would have pieces handled: "already joined if you have time"."""
    told = _HANDLED_WELL.fullmatch(page.plain, chunks[0].start, chunks[-1].end) if chunks else None
    return bool(told and (told["already"] or told["when"]))


def is_of_care(chunks: list[Chunk], page: Page) -> bool:
    """Whether a sentence without figures says how to cut safely, and names no pieces: "Always cut on the mat"."""
    return bool(chunks and _OF_CARE.search(page.plain[chunks[0].start : chunks[-1].end])) and not count(chunks, *NAMED)


def _chatters(chunks, page):
    """Whether a clause tells of nothing that is cut, or bought, and has a word that only running prose has, or says
    how well pieces are handled."""
    if is_of_handling(page, chunks):
        return True
    if chunks and page.said(chunks[0]) in ("i", "we"):  # "I just raided my scrap bin"
        chunks = [one for one in chunks if not (one.kind == "caution" and only_told(page.said(one)))]
    words = {page.said(one) for one in chunks if one.kind == "word"}
    told = any(one.kind not in _CHATTER for one in chunks) or re.search(
        r"\d", page.words(chunks[0].start, chunks[-1].end).text
    )
    return not told and not words & (COLOURS | OF_FABRIC) and any(one in FUNCTION_WORDS or "'" in one for one in words)


def makes_of_a_size(flat: list[Chunk], page: Page) -> bool:
    """Whether a sentence counts what is made and says how large each is: "Make 17, 8 in square", "Nine stars, 12 1/2 in
    with the raw edges"."""
    kinds = [one.kind for one in flat if one.kind not in ("punct", "total")]
    if [one for one in kinds if one != "word"] == ["count", "length", "unfinished"]:
        return True
    square = [page.said(one) for one in all_of(flat, "squares")]
    if square in ([], ["square"]) and kinds in (
        ["count", "segments", "length", "squares"],
        ["count", "segments", "size"],
    ):
        return True
    return kinds in (["make", "count", "length", "squares"], ["make", "count", "size"]) and square in ([], ["square"])


def only_measures(flat: list[Chunk], page: Page) -> bool:
    """Whether a sentence says no more than how large something is by now: "16 1/2 in square"."""
    kinds = [one.kind for one in flat if one.kind not in ("punct", "article")]
    return kinds == ["length", "squares"] and [page.said(one) for one in all_of(flat, "squares")] == ["square"]


def counts_in_words(flat: list[Chunk], words: Words) -> bool:
    """Whether the figures of a sentence are number words that count nothing that is cut or made: "a small one"."""
    counted = (*NAMED, "cut", "into", "make", "set", "rows", "of_each", "each", "fat_quarter", "pack", "times")
    return not re.search(r"\d", words.text) and not count(flat, *(FIGURES - {"count"}), *counted)
