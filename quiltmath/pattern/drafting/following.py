"""What a line says more of the lines before it: that they are cut on the diagonal, what they come to, that they are
done again with other fabrics."""

from __future__ import annotations

import re
from dataclasses import replace

from . import heads, naming
from .chunks import FIGURES, FILL, Chunk, all_of, count, opened
from .counted import is_part
from .figures import IN_WORDS, number
from .kept import Kept
from .model import Choice, Context, Question, Reading, Words
from .page import Page
from .strips import placed
from .triangles import GIVES
from .vocabulary import COLOURS

OF_TOTALS = frozenset({
    "count", "total", "make", "need", "left_over", "squares", "rectangles", "pieces", "triangles", "strips", "unit",
    "for", "and", "aside", "set"
})  # fmt: skip
SAID_OF_TOTALS = {
    "this", "these", "you", "will", "be", "there", "it", "should", "of", "each", "which", "that"
}  # fmt: skip
_SAME_AS = re.compile(
    r"\W*(?:cut\s+)?(?:(?:the\s+)?(?:exact(?:ly)?\s+)?same(?:\s+(?:pieces|number|cuts?))?\s+as|as|like)\s+(?:for\s+)?"
    r"(?:the\s+)?(?P<name>[^\W\d_][^:;.\d]*?(?:\s\d{1,2})?)\W*"
)
"""What another fabric is cut into, told by its name: "Red: the same as yellow"."""
_REPEAT = re.compile(
    r"\W*(?:repeat|(?:cut|do)\s+the\s+same|(?:the\s+)?same|ditto)\s+(?:this\s+|these\s+|the\s+same\s+)?(?:cuts?\s+|steps?\s+|cutting\s+)?(?:for"
    r"|with|using|from|in|of)\s+(?P<names>.+?)\W*$"
)
OF_DIAGONALS = FILL | {"once", "twice", "count", "triangles", "unit", "squares", "into", "make", "total", "each"}
_SAME_FROM = re.compile(
    r"\W*(?:from|of)\s+(?:the\s+)?(?P<names>[^:;.\d]+?)\W+cut\s+(?:exactly\s+)?(?:the\s+same|as\s+(?:many|above))(?:\s+pieces)?\W*"
)
_OF_OTHERS = ("blocks", "rows", "unit", "squares", "rectangles", "triangles", "segments", "strip_set", "caution")
_OF_SOME = re.compile(r"\b(?:rest|remain\w*|left|some|to\s+(?:the|each|both)|between|onto|around)\b")
"""What is said of other pieces than the strips before it, or of these when they are sewn on."""
_NO_FABRIC = re.compile(r"\b(?:block|unit|row|side|corner|all|other|each)")


def cut_on_the_diagonal(cut: str, words: Words, kept: Kept, context: Context) -> None:
    """ "Cut each in half diagonally" behind a line of squares."""
    last = context.last
    squares = [
        one
        for one in kept.entries
        if (one in last or (one in context.below and words.line != last[-1].words.line))
        and isinstance(one.data.get("size"), str)
        and "cut" not in one.data
    ]
    alike = len({one.data["size"] for one in squares}) == 1 and not naming.is_of_fabric(words.text)
    told = naming.key(words.text) & COLOURS
    other = told and squares and not told & naming.key(squares[0].data.get("fabric", ""))
    if len(squares) == 1 and squares[0] in last and not other or alike and all(one in last for one in squares):
        changed = tuple(one.noted(words.text, cut=cut) for one in squares)
        for before, after in zip(squares, changed):
            kept.put(before, after)
        context.last = changed
    elif not squares and len(last) == 1 and last[0].data.get("cut") == cut:
        kept.remarks.append(words)
    else:
        choices = tuple(
            Choice(f"{one.data.get('count')} squares {one.data['size']}", (one.but(cut=cut),)) for one in squares
        )
        kept.questions.append(Question(words, "which squares are cut on the diagonal here?", choices))


def for_a_place(flat: list[Chunk], words: Words, kept: Kept, context: Context, page: Page) -> bool:
    """ "Join for straight-grain binding" behind strips: their place in the quilt, where none is told yet; asked where
    the page has a binding already."""
    strips, places = context.strips, naming.roles(flat, page.plain)
    near = bool(strips) and page.lines_between(strips[-1].words.end, words.start) < 2
    if not near or len(places) != 1 or any(one.role or one not in kept.entries for one in strips):
        return False
    place = naming.border_of(places[0])
    tells = flat[0].kind in ("sew", "end_to_end", "pieced", "pieces", "strips", "aside", "set", "for", "role")
    said = re.findall(r"[a-z]+", words.text.casefold())
    at_last = {*said} & {"these", "they", "them", "use", "fold"} and re.search(rf"\bfor\b.*{said[-1]}", " ".join(said))
    tells |= bool(at_last) and count(flat[-3:], "role") > 0
    if not tells or place not in ("binding", "sashing") and not place.endswith("border"):
        return False
    others = [one for one in all_of(flat, *_OF_OTHERS) if page.said(one) != "half"]
    if others or _OF_SOME.search(words.text.casefold()):
        return False
    after = tuple(placed(one, place) for one in strips)
    if place == "binding" and (len(after) > 1 or any(one.table == "binding" for one in kept.entries)):
        kept.questions.append(Question(words, "is this the binding, or more of it?"))
        return True
    for before, one in zip(strips, after):
        kept.put(before, one)
    kept.instructions.append(words)
    context.last, context.strips = after, tuple(one for one in after if one.table == "cut")
    return True


def labelled(name: str, words: Words, kept: Kept, context: Context) -> None:
    """ "Label these A" behind a line of pieces."""
    (before,) = context.last
    more = () if words.text.strip("()").casefold() == name else (words.text,)
    after = replace(before, name=name.upper(), remarks=(*before.remarks, *more))
    kept.put(before, after)
    kept.understood.append(words)
    context.last = (after,)


def cut_to_triangles(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """Squares of the line before that are cut on the diagonal, with the triangles they give: "Cut squares in half
    diagonally to make 4 corner triangles"."""
    flat = opened([one for one in chunks if not _tells_how_many_are_used(one, chunks)])
    diagonal, counts, last = all_of(flat, "once", "twice"), all_of(flat, "count"), context.last
    if len(counts) != 1 or len(last) != 1 or any(one.kind not in OF_DIAGONALS for one in flat):
        return None
    words, entry = page.over(chunks), last[0]
    ways = [*{one.kind for one in diagonal}] or _ways(flat, counts[0].value, entry)
    if len(ways) != 1:
        return None
    (cut,) = ways
    square = isinstance(entry.data.get("size"), str) and "cut" not in entry.data
    if not square or page.lines_between(entry.words.end, words.start) > count(flat[:1], "cut", "into"):
        return None
    if is_part(chunks, page):
        return Reading(questions=(Question(words, "how many of these squares stay whole?"),))
    told, gives = counts[0].value, entry.data.get("count", 0) * GIVES[cut]
    if not diagonal and told == GIVES[cut]:  # of each square
        told = gives
    if told != gives:
        printed = Choice(f"{told} as printed, to be checked", (entry.but(cut=cut, triangles=told),))
        right = Choice(f"{gives} triangles", (entry.but(cut=cut),))
        asked = f"these squares give {gives} triangles, not {told}: which is right?"
        return Reading(questions=(Question(words, asked, (right, printed)),))
    role = naming.role(flat, context, page.plain)
    if role == "setting triangle":
        role = "side triangle" if cut == "twice" else ""
    letter = next((one.value.upper() for one in flat if one.kind == "label"), "")
    changed = replace(entry.but(cut=cut, triangles=told), role=entry.role or role, name=entry.name or letter)
    kept.put(entry, changed)
    context.last = (changed,)
    kept.understood.append(words)
    return Reading()


def _tells_how_many_are_used(chunk, chunks):
    """Whether a bracket only says how many of the triangles before it are used, or are not: "(10 are used)"."""
    inside = chunk.value if chunk.kind == "note" else []
    told = [one.value for one in chunks if one.kind == "count"]
    used = [one.value for one in all_of(inside, "count")]
    only = {one.kind for one in inside} <= {"count", "word", "need", "punct", "triangles", "left_over"}
    return only and len(used) == len(told) == 1 and used[0] <= told[0]


def _ways(flat, told, entry):
    """How squares are cut of which so many triangles are told, in all or of each: once, twice, or either."""
    if not count(flat, "triangles") or not count(flat, "cut", "into"):
        return []
    squares = {1} if count(flat, "each", "of_each") else {1, entry.data.get("count", 0)}
    return [cut for cut, gives in GIVES.items() if told in {gives * number for number in squares}]


def cut_by_size(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """Squares below the present head that are cut on the diagonal and named by their size: "Cut the 2 7/8 in squares in
    half diagonally"."""
    flat = opened(chunks)
    diagonal, sizes = all_of(flat, "once", "twice"), all_of(flat, "length")
    told = len(diagonal) == 1 and len(sizes) == 1 and count(flat, "squares") and flat[0].kind in ("cut", "into")
    if not told or any(one.kind not in OF_DIAGONALS | {"length"} or one.kind == "count" for one in flat):
        return None
    (size,) = sizes[0].value.texts
    squares = [one for one in kept.entries if one in context.below and one.data.get("size") == size]
    if len(squares) != 1 or "cut" in squares[0].data:
        return None
    words = page.over(chunks)
    changed = squares[0].noted(words.text, cut=diagonal[0].kind)
    kept.put(squares[0], changed)
    context.last, context.below = (changed,), tuple(changed if one is squares[0] else one for one in context.below)
    kept.understood.append(words)
    return Reading()


def total(chunks: list[Chunk], kept: Kept, context: Context, page: Page) -> Reading | None:
    """What is said of the line before, to check it: "This gives 80 in all"."""
    flat = [one for one in opened(chunks) if one.kind not in ("punct", "article", "note")]
    aside = next((place for place, one in enumerate(flat) if page.said(one) == "if"), len(flat))
    flat = flat if count(flat[aside:], *FIGURES) else flat[:aside]
    said = {page.said(one) for one in flat if one.kind == "word"}
    kinds = {one.kind for one in flat} - {"word"}
    counts = all_of(flat, "count")
    sums_up = bool(kinds & {"total", "make"}) or {"that", "is"} <= said
    if not counts or not (sums_up or kinds & {"need", "left_over", "aside"}) or context.strip_set is not None:
        return None
    if not kinds <= OF_TOTALS or not (sums_up or kinds & {"aside", "left_over"} or said <= SAID_OF_TOTALS):
        return None
    last = context.last
    words = page.over(chunks)
    of_strips = context.strips and {"aside", "strips"} <= kinds  # how many stay whole
    if not last or last[-1].table != "cut" or of_strips:
        return None
    if len(counts) > 1:
        come = [_comes_to(one, kept) for one in (context.below if len(last) < len(counts) else last)]
        return Reading((), (), (words,)) if come[-len(counts) :] == [one.value for one in counts] else None
    below = page.lines_between(last[-1].words.end, words.start)
    if below > 1 or (below and "unit" in kinds):  # units are made of more than the line before
        return None
    entry, number = last[-1], counts[0].value
    if kinds & {"aside", "left_over"}:
        counted = sum(_made(one) for one in last if "size" in one.data)
        return Reading((), (), (words,)) if number <= counted else None
    used = "cut" in entry.data and re.search(r"\b(?:use|need)", words.text.casefold())  # the others are spare
    if _comes_to(entry, kept) == number or used and number <= _made(entry):
        return Reading((), (), (words,))
    gives = {"once": 2, "twice": 4}.get(entry.data.get("cut", ""), 1)
    if "per_print" in entry.data and _prints(entry, kept) is None and number % entry.data["per_print"] == 0:
        per = entry.data["per_print"]
        changed = entry.noted(f"{per} from each of {number // per}", per_print=None, count=number)
        kept.put(entry, changed)
        context.last = (changed,)
        kept.questions[:] = [one for one in kept.questions if one.words != entry.words]
        return Reading((), (), (words,))
    if len(last) == 1 and gives > 1 and number == gives * entry.data.get("count", 0):
        changed = entry.but(triangles=number)
        kept.put(entry, changed)
        context.last = (changed,)
        return Reading((), (), (words,))
    if sum(one.data.get("count", 0) for one in last) == number:
        return Reading((), (), (words,))
    before = entry.data.get("count")
    choices = (
        (Choice(f"{before}"), Choice(f"{number}", (entry.but(count=number),))) if len(last) == 1 and before else ()
    )
    return Reading(questions=(Question(words, "the line before comes to another number: which is right?", choices),))


def _made(entry):
    """How many pieces or triangles a line cuts, at least."""
    return entry.data.get("count", entry.data.get("per_print", 0)) * GIVES.get(entry.data.get("cut", ""), 1)


def _prints(entry, kept):
    """From how many prints a line is cut, where the page has said so."""
    name = entry.data.get("fabric", "")
    return next(
        (one.data["prints"] for one in kept.entries if one.path == ("fabric", name) and "prints" in one.data), None
    )


def _comes_to(entry, kept):
    """How many pieces a line cuts in all; None where that is not known."""
    if "per_print" in entry.data:
        return entry.data["per_print"] * (_prints(entry, kept) or 0) or None
    number = entry.data.get("count")
    return number if isinstance(number, int) and "cut" not in entry.data else None


_BARE = {"fabric", "size", "count", "cut"}
_AS_FOR = re.compile(
    r"\W*(?P<new>[a-z][a-z -]{1,30}?)\s*[,-]?\s+(?:(?:(?:is|are)\s+)?cut\s+)?(?:(?:the\s+)?same\s+)?as\s+"
    r"(?:for\s+)?(?:the\s+)?(?P<name>[a-z][a-z -]{1,30}?)\W*"
)
"""A fabric that is cut as another is: "Navy as for cream"."""


def _again(told, fabric, words):
    """These pieces once more, of another fabric."""
    return Reading(tuple(replace(one.but(fabric=fabric), words=words, remarks=(words.text,)) for one in told))


_SO_MANY = re.compile(
    rf"\W*(?:(?:of|from)\s+(?:the\s+)?)?(?P<name>[a-z][a-z -]{{1,30}}?),?\s+(?:cut\s+)?"
    rf"\(?(?P<count>\d{{1,3}}|{IN_WORDS})\)?"
    r"\s+(?:of\s+)?the\s+same\W*"
)
"""Another number of the pieces before, of another fabric: "of white, fifteen the same"."""


def _so_many(match, context, page, words):
    named, counted = page.text[slice(*match.span("name"))].strip(), number(match["count"], 0)
    fabric = naming.known(named, context.known) or (named if naming.is_of_fabric(named) else "")
    last = context.last[0] if len(context.last) == 1 else None
    bare = last is not None and last.table == "cut" and {"size", "count"} <= last.data.keys() <= _BARE
    if last is None or not (bare and fabric and counted) or last.data.get("fabric") in ("", fabric):
        return None
    other = last.but(fabric=fabric, count=int(counted.value))
    return Reading((replace(other, name="", words=words, remarks=(words.text,)),))


def repeated(start: int, end: int, kept: Kept, context: Context, page: Page) -> Reading | None:
    """ "Repeat for the medium and the dark": the lines before, for these fabrics too."""
    alike = _SAME_AS.fullmatch(page.plain, start, end) if len(context.fabrics) == 1 else None
    if alike and (other := naming.known(page.text[slice(*alike.span("name"))], context.known)):
        told = [one for one in kept.entries if one.table == "cut" and one.data.get("fabric") == other]
        return _again(told, context.fabrics[0], page.words(start, end))
    of_two = _AS_FOR.fullmatch(page.plain, start, end)
    if of_two and (other := naming.known(page.text[slice(*of_two.span("name"))].strip(), context.known)):
        new = page.text[slice(*of_two.span("new"))].strip()
        told = [one for one in kept.entries if one.table == "cut" and one.data.get("fabric") == other]
        new = naming.known(new, context.known) or (new if naming.is_of_fabric(new) else "")
        return _again(told, new, page.words(start, end)) if told and new and new != other else None
    if so_many := _SO_MANY.fullmatch(page.plain, start, end):
        return _so_many(so_many, context, page, page.words(start, end))
    match = _REPEAT.match(page.plain, start, end) or _SAME_FROM.fullmatch(page.plain, start, end)
    if match is None:
        return None
    first, stop = match.span("names")
    words = page.words(start, end)
    names = heads.names(page, first, stop, context)
    last = [one for one in context.last if one.table in ("cut", "strip_set")]
    if names is None or not last or any(naming.named(name.casefold()) for name in names):
        return None
    of_one = len({one.data.get("fabric") for one in last}) == 1
    if not of_one or _NO_FABRIC.search(page.plain, first, stop):
        return Reading(questions=(Question(words, "what is done again here, and with which fabric?"),))
    again = (replace(one.but(fabric=name), words=words, remarks=(words.text,)) for name in names for one in last)
    return Reading(tuple(again))
