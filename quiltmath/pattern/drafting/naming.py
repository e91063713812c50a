"""Which fabric and which place in the quilt the words of a line speak of."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache

from .chunks import FIGURES, Chunk, chunked
from .fillers import DEAR, EMPTY, HEADS, OF_SHAPE, SAID, TOLD
from .model import Context
from .vocabulary import (
    CALLED_AFTER,
    COLOURS,
    FUNCTION_WORDS,
    NUMBERED,
    OF_FABRIC,
    PRINTS,
    PROSE,
    ROLES,
)

_SHADES = {"dark", "deep", "light", "pale", "soft"}
"""What may stand before the name of a thing that a colour is called after."""
_RELATIVE = {"which", "that"}
_OTHERS = {"another", "other", "second", "third", "different"}
"""Words that part a fabric from one of the same name."""
OF_SASHING = "sashing and cornerstones"
"""What a head says of lines of which each is for one of these."""
_ON_ITSELF = "on itself"
"""Of a print in its own colour, which is told from that colour plain: "white on white" beside "white"."""
_KINDS = {"plain"}
"""Words that name no fabric alone."""
_KINDS_ALONE = frozenset(_KINDS)
_PLAIN_ONES = re.compile(r"(?:the\s+)?plain(?:\s+(?:squares|blocks|pieces|ones|fabric))?")
"""The fabric that is bought for what is not pieced, by this alone: "2 yd sage for the plain squares", "Plain: ..."."""
_NUMBERED = re.compile(rf"(?:fabric|{NUMBERED})\s+\#?(\w{{1,2}})\b")
_PLURAL = re.compile(r"(?<=[a-z]{2})s$")
_BESIDE_BORDER = re.compile(
    r"\bfor (?:the )?(?:(?P<side>sides)|(?P<top>top(?: and |/)bottom|top|bottom)|(?P<corner>corners))\b"
)
"""The other strips of a border: "for the sides, two 4 x 56 in"."""
_BORDERS = ("inner", "middle", "outer", "first", "second", "third", "fourth", "final", "narrow", "wide")
EITHER = " or "
"""Between the borders of which a head names both."""
_TWO_BORDERS = re.compile(
    r"\b(?:inner|inside|middle|first|second|third|1st|2nd|3rd)\s*(?:borders?\s*)?(?:and|&|,|/)\s*(?:the\s+)?"
    r"(?:outer|outside|middle|second|third|fourth|2nd|3rd|4th)\b|\bborders?\s+1\s*(?:and|&|,|/|-)\s*2\b"
)
"""Of each of two borders something else is told: "inner and outer borders"."""
_SAME = {
    **dict.fromkeys(("center", "centre"), "middle"),
    **dict.fromkeys(("final", "outside"), "outer"),
    "inside": "inner",
    **dict.fromkeys(("skinny", "thin"), "narrow"),
    "big": "wide",
    "1": "first",
    "2": "second",
    "3": "third",
    "4": "fourth",
}


_SHORT = {**dict.fromkeys(("bg", "bkg", "bkgd", "bkgrd", "backgr"), "background"), "geese": "goose"}
"""What pages shorten in the names of fabrics, and one of several that has no "s"."""


@lru_cache(maxsize=1024)  # each head is held against the names of all fabrics
def key(name: str) -> frozenset[str]:
    """The words of a fabric's name that tell it from others.

    >>> key("the Remaining Blues") == key("blue fabric")
    True
    """
    words = [_SHORT.get(word, word) for word in re.findall(r"[^\W_]+", name.casefold())]
    printed = {_ON_ITSELF} if re.search(r"\b([a-z]+)[\s-]+on[\s-]+\1\b", name.casefold()) else set()
    return frozenset(_PLURAL.sub("", word) for word in words if word not in EMPTY | _KINDS) | printed


def known(name: str, names: list[str]) -> str | None:
    """The one of the names that is meant, in whatever words; None where none is, or more than one could be.

    >>> known("blues", ["navy print", "assorted blues"]), known("print", ["navy print", "rose print"])
    ('assorted blues', None)
    """
    asked = key(name)
    if not asked:  # "Plain", where one is called that
        return next((one for one in names if one.casefold() == name.casefold().strip()), None)
    same = [one for one in names if key(one) == asked]
    if not same and asked & _OTHERS:
        return None
    near = [one for one in names if asked < key(one) or key(one) and key(one) < asked]
    near = [one for one in near if _ON_ITSELF not in asked - key(one)]
    found = same or near
    return found[0] if len(found) == 1 else None


def by_letter(name: str, context: Context) -> str:
    """The fabric that the shopping list gave this letter or number: "Fabric A"; any other name as it is."""
    numbered = _NUMBERED.fullmatch(name.casefold().strip())
    return context.lettered.get(numbered[1] if numbered else name.casefold().strip(), name)


def as_listed(name: str, context: Context) -> str:
    """The fabric that the shopping list calls so, by its letter or besides its name; any other name as it is."""
    lettered = by_letter(name, context)
    if lettered != name or context.section in ("buying", "sewing"):
        return lettered
    return context.other_names.get(place_or_key(name)) or name


def place_or_key(name: str) -> frozenset[str]:
    """The words of a name that tell it from others; of a place in the quilt its one spelling.

    >>> place_or_key("sashing strips") == place_or_key("Sashing"), place_or_key("Star points") == key("star point")
    (True, True)
    """
    said = name.casefold()
    if _PLAIN_ONES.fullmatch(said.strip()):
        return _KINDS_ALONE
    kinds = [one.kind for one in chunked(said) if one.kind != "article"]
    place = named(said, said) if "role" in kinds and {*kinds} <= {"role", "strips", "pieces"} else ""
    return frozenset({place}) if place else key(name)


def described(chunks: list[Chunk], page, of_several: bool = False) -> str:
    """The words of a line that describe its fabric, as they are printed: those before "for" that mean nothing else.
    One `of_several` may be called "plain" alone.

    >>> from .chunks import chunked
    >>> from .page import Page
    >>> page = Page('18 squares 3" Navy print for stars')
    >>> described(chunked(page.plain), page)
    'Navy print'
    """
    runs: list[tuple[bool, list[str]]] = [(False, [])]
    purpose = counted = False
    for place, (chunk, behind) in enumerate(zip(chunks, [*chunks[1:], None])):
        if chunk.kind == "role" and behind and page.said(behind) in {"fabric", *PRINTS}:
            return " ".join((*runs[-1][1], page.text[chunk.start : behind.end]))  # "the blue border fabric"
        counted = counted or chunk.kind in FIGURES
        if chunk.kind == "for" and counted:
            runs.append((True, _behind_purpose(chunks[place:], page)))
            break
        purpose = chunk.kind == "for" or purpose and not counted and chunk.kind != "cut"
        if purpose:  # as far as the verb or the figures: "for the stars cut 12 red squares"
            continue
        word = page.text[chunk.start : chunk.end].strip("'")
        if counted and word.casefold() in _RELATIVE:  # "which are the star points"
            purpose = True
            continue
        heads = chunk.kind in ("from", "article") or word.casefold() in HEADS
        if heads or chunk.kind != "word":
            runs.append((heads, []))
        elif len(word) > 1 and word.casefold() not in EMPTY | TOLD | PROSE | FUNCTION_WORDS | SAID:
            runs[-1][1].append(" ".join(word.split()))
    # Words behind "the" or "from" are the fabric before all others; of the others, things that are sewn are none.
    of_fabric = [words for _, words in runs if is_of_fabric(" ".join(words))]
    words = [word for run in of_fabric or (words for _, words in runs) for word in run]
    while len(words) > 1 and words[0].casefold() in DEAR and (counted or words[0].islower()):
        words = words[1:]
    return "" if {word.casefold() for word in words} <= _KINDS and not of_several else " ".join(words)


def _behind_purpose(chunks, page):
    """The words of a fabric that end a line behind what its pieces are for: "for binding - navy print"."""
    at = max((place for place, one in enumerate(chunks) if one.kind == "punct" and page.said(one) in "-,:;"), default=0)
    named = [one for one in chunks[at + 1 :] if one.kind == "word" and page.said(one) not in HEADS]
    words = [" ".join(page.text[one.start : one.end].split()) for one in named]
    alone = at and {one.kind for one in chunks[at + 1 :]} <= {"word", "punct"} and len(words) <= 4
    return words if alone and is_of_fabric(" ".join(words)) else []


def is_thing(word: str) -> bool:
    """Whether a word names things that are sewn: "doors", "houses".

    >>> is_thing("doors"), is_thing("blues")
    (True, False)
    """
    return word.islower() and word.endswith("s") and not key(word) & (COLOURS | OF_FABRIC)


def fabrics(chunks: list[Chunk], context: Context, page) -> tuple[tuple[str, ...], bool]:
    """The fabrics of a line, and whether its words gainsay the head above it."""
    said = told(chunks, page)
    said = by_letter(said, context) if context.fabrics else as_listed(said, context)
    lettered = _of_this_letter(said, chunks, context)
    if lettered:
        return (lettered,), False
    if not said:
        behind = "" if context.fabrics else _from_behind(chunks, page) or context.lettered.get(_letter(chunks), "")
        return ((behind,) if behind else context.fabrics), False
    other = known(said, context.known)
    if not context.fabrics:
        one = other or (said if is_of_fabric(said) and len(said.split()) <= 5 else _from_behind(chunks, page))
        return ((one.removesuffix(" fabric"),) if one else ()), False
    colours = {word for word in key(said) if word in COLOURS or word in CALLED_AFTER and is_of_fabric(said)}
    heads = frozenset().union(*map(key, context.fabrics))
    if len(context.fabrics) > 1 and other in context.fabrics:
        return (other,), False
    numbered = _NUMBERED.findall(said.casefold())
    of_them = other in context.fabrics or named(said) in [context.purposes.get(one) for one in context.fabrics]
    of_a_place = said.endswith(" fabric") and not of_them and not key(said) <= heads
    if colours - heads or (numbered and not {*numbered} <= heads) or of_a_place:
        return context.fabrics, True
    if other and other not in context.fabrics and key(other) <= key(said):
        return context.fabrics, True
    return context.fabrics, False


def _of_this_letter(said, chunks, context):
    """The fabric that the page has named with the letter of a line: "Cream print C"; nothing where it has not."""
    asked = key(f"{said} {_letter(chunks)}")
    return next((one for one in context.known if said and _letter(chunks) and key(one) == asked), "")


def _letter(chunks):
    return next((one.value for one in chunks if one.kind == "label"), "")


def label(chunks: list[Chunk], fabrics: tuple[str, ...], context: Context) -> str:
    """The letter that names the part of a line; none where it is that of its fabric on the shopping list."""
    letter = _letter(chunks)
    of_fabric = len(fabrics) == 1 and letter in key(fabrics[0])  # "Cream print C"
    listed = fabrics and (context.lettered.get(letter),) == fabrics and not context.fabrics
    return "" if of_fabric or listed else letter.upper()


def told(chunks: list[Chunk], page) -> str:
    """The words that a line has for its fabric, in a bracket where nowhere else."""
    return described(chunks, page) or in_bracket(chunks, page)


def unknown(chunks: list[Chunk], page, of_several: bool = False) -> str:
    """The words of a line that may name a fabric, where nothing says so: "12 fern squares"."""
    said = described(chunks, page, of_several)
    return "" if {word.casefold() for word in said.split()} <= OF_SHAPE else said


def in_bracket(chunks: list[Chunk], page) -> str:
    """The fabric that a bracket of nothing but words names."""
    notes = [one.value for one in chunks if one.kind == "note" and {inner.kind for inner in one.value} == {"word"}]
    named = [said for said in (described(note, page) for note in notes) if is_of_fabric(said)]
    return named[0] if len(named) == 1 else ""


def _from_behind(chunks, page):
    """The words that end a line behind "from", "of" or "in", which name a fabric though no list knows it."""
    words: list[Chunk] = []
    if [one.kind for one in chunks[-2:-1]] == ["punct"] and chunks[-1].kind in ("length", "size"):
        chunks = chunks[:-1]  # "squares of the spotty fabric, each 4 in"
    for one in reversed(chunks):
        said = page.said(one)
        if words and (one.kind == "from" or said in ("of", "in")):
            return unknown(words[::-1], page, one.kind == "from") if len(words) <= 3 else ""
        if one.kind != "word" and not (one.kind in ("punct", "note") and not words):
            return ""
        words += [one] if one.kind == "word" else []
    return ""


def is_numbered(said: str) -> bool:
    """Whether a fabric is called by its number or letter: "Fabric 2"."""
    return bool(_NUMBERED.fullmatch(said.casefold()))


def is_plain(said: str) -> bool:
    """Whether a name is that of one kind among others: "plain"."""
    return said.casefold() in _KINDS


def is_of_fabric(said: str) -> bool:
    """Whether words that no head and no shopping list has named can be a fabric: a colour or a kind is among them."""
    words = {_SHORT.get(word, word) for word in re.findall(r"[^\W\d_]+", said.casefold())}
    if words & CALLED_AFTER and words <= CALLED_AFTER | _SHADES:
        return True
    return bool((words | {_PLURAL.sub("", word) for word in words}) & (COLOURS | OF_FABRIC))


def is_only_of_fabric(said: str) -> bool:
    """Whether each word of a name is a colour or says the kind of a fabric, so that it is the name of nothing else."""
    words = {_SHORT.get(word, _PLURAL.sub("", word)) for word in re.findall(r"[^\W\d_]+", said.casefold())}
    return is_numbered(said) or words <= COLOURS | OF_FABRIC | CALLED_AFTER | _SHADES | _KINDS


def role(chunks: list[Chunk], context: Context, plain: str) -> str:
    """Where a piece belongs, in one spelling: "inner border side", "side triangle", "setting square", or nothing.

    >>> from .chunks import chunked
    >>> line = 'cut 2 strips 4 1/2" x 50 1/2" for side borders'
    >>> role(chunked(line), Context(), line)
    'border side'
    """
    words = _words(chunks, plain)
    found = set(roles(chunks, plain))
    if EITHER in context.role:
        if found <= {"border", "border side", "border top"}:
            return "?"
        context = replace(context, role="")
    borders = [one for one in found if "border" in one]
    if len(found) == 2 and borders and found & {"corner square", "cornerstone"}:
        return f"{borders[0].removesuffix(' corner')} corner"
    if found == {"sashing", "cornerstone"}:
        return "cornerstone"
    border = context.role
    if border in ("", "corner") and context.last and chunks:
        of_line = "\n" not in plain[context.last[-1].words.end : chunks[0].start]
        border = context.last[-1].role if of_line else ""
    corners = found or {_of_a_place(context.role, words)}
    counts = [one.value for one in chunks if one.kind == "count"]
    of_one_border = counts == [4] or context.role == "border" and not any(number % 4 for number in counts)
    if "cornerstone" in corners and counts and not of_one_border:  # those of the sashing
        border = ""
    if corners & {"corner square", "cornerstone"} and "border" in border and not borders:
        found = {f"{border_of(border.removesuffix(' corner'))} corner"}
    if len(found) > 1:
        borders = [one for one in found if "border" in one]
        several = len({one.partition(" ")[0] for one in borders} - {"border"}) > 1
        found = {max(borders, key=len)} if len(borders) == len(found) and not several else {"?"}
    unnamed = found <= {"border", "border side", "border top", "border corner"}  # of which border, the head says
    if unnamed and "border" in context.role and not context.role.endswith(" corner"):
        border = border_of(context.role)
        place = named(border, words)
        return context.role if place == border else place
    beside = _BESIDE_BORDER.search(words) if context.last and "border" in context.last[-1].role else None
    if beside and beside["corner"]:  # on the line of the border
        return f"{border_of(border.removesuffix(' corner'))} corner" if "border" in border else context.role
    place = found.pop() if found else context.role or (str(beside.lastgroup) if beside else "")
    return _of_a_place(place, words)


def border_of(role: str) -> str:
    """The border that a piece belongs to, without its place in that: "inner border" for "inner border side"."""
    return role.removesuffix(" side").removesuffix(" top")


def _words(chunks, plain):
    """What these chunks say, and no others that stand between them."""
    return " ".join(plain[one.start : one.end] for one in chunks)


def _of_a_place(role, words):
    """Where pieces belong that stand below "Sides", "Top and bottom" or "Corners" alone: triangles, or a border."""
    on_diagonal = re.search(r"diagonal|triangle|corner to corner|[⊠◩◪]", words)
    if role == "side":
        return "side triangle" if on_diagonal else "" if "square" in words else "border side"
    if role == "corner":
        return "corner triangle" if on_diagonal else "corner square"
    if role == OF_SASHING:
        return "cornerstone" if "square" in words else "sashing"
    quartered = re.search(r"twice|quarter|both|⊠", words)
    if role == "setting triangle":
        return "corner triangle" if re.search(r"once|half|halves|◩", words) and not quartered else "side triangle"
    if role == "setting piece":
        return f"{'side' if quartered else 'corner'} triangle" if on_diagonal else "setting square"
    return "border top" if role == "top" else role


def roles(chunks: list[Chunk], plain: str) -> list[str]:
    """The places in the quilt that a line names, in one spelling, each once."""
    said = [" ".join(plain[chunk.start : chunk.end].split()) for chunk in chunks if chunk.kind == "role"]
    words = _words(chunks, plain)
    found = [place for one in said for place in each_border(one) or [named(one, words)]]
    return [one for one in dict.fromkeys(found) if one]


def each_border(said: str) -> list[str]:
    """The borders that these words name, where they are two.

    >>> each_border("inner and outer borders"), each_border("inner border")
    (['inner border', 'outer border'], [])
    """
    if not _TWO_BORDERS.search(said):
        return []
    return [named(f"{one} border") for one in re.findall(r"[a-z]+|\d", said) if _SAME.get(one, one) in _BORDERS]


def named(said: str, words: str = "") -> str:
    """One spelling for the words of a role."""
    if "border" in said:
        if _TWO_BORDERS.search(said):
            return "?"
        order = [_SAME.get(one, one) for one in re.findall(r"[a-z]+|\d", said)]
        place = next((one for one in _BORDERS if one in order), "")  # "narrow inner border" is the inner one
        left_and_right = re.search(r"\bleft\b|\bright\b", said) or re.search(r"\bleft\W+(?:and\W+)?right\b", words)
        side = "side" if left_and_right or re.search(r"\bsides?\b", said + " " + words) else ""
        if re.search(r"\bshort(?:er)?\s+(?:sides|ends)\b", words) and not re.search(r"\blong(?:er)?\s+sides\b", words):
            return " ".join(filter(None, (place, "border top")))
        if re.search(r"\bcorners?\b", words):
            return " ".join(filter(None, (place, "border corner")))
        top = "top" if re.search(r"\btops?\b|\bbottoms?\b|\bupper\b|\blower\b", said + " " + words) else ""
        return " ".join(filter(None, (place, "border", side if not top else "" if side else top)))
    if re.match(r"(?:back|reverse)\b", said):  # "reverse of the quilt"
        return "backing"
    if re.fullmatch(r"(?:cotton\s+)?batt?s?", said):
        return "batting"
    for word, meant in ROLES.items():
        if word in said:
            of_squares = meant == "sashing" and re.search(rf"\b{word}\w* squares?\b", words)
            return "cornerstone" if of_squares else meant
    if said.startswith("setting") and re.search(r"\bsetting strips?\b", words):  # as old pages call it
        return "sashing"
    both = re.search(r"squares? (?:and|&) triangles?|triangles? (?:and|&) squares?", words)
    noun = (
        "piece"
        if both
        else "triangle"
        if "triangle" in words
        else "square"
        if re.search(r"squares?|blocks?", words)
        else "piece"
    )
    if said.startswith("alternat"):
        return "setting square"
    if said.startswith(("side", "edge")):
        return "side triangle" if noun == "triangle" else "setting square"
    if said.startswith("corner"):
        return f"corner {noun}"
    return f"setting {noun}" if said.startswith("setting") else ""
