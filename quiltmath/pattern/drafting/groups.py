"""The pieces that one sentence tells of, each with what is said of it and what is said once for all of them:

    12 red squares 5", 6 blue 4 1/2"         each piece has all of its own
    3 1/2" squares: ten navy, six cream      the size and the noun are said once, before
    10 navy and 6 cream squares 3 1/2"       or behind
    2 each 4 7/8" squares of red and green   the count too
    a strip each 2", 3" and 4" wide          the count and the noun
    8 squares 3", 4 squares 5" from the red  the fabric

`ways` are those in which a sentence may be parted; it is read where all of one, and of no other, is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, pairwise

from . import listed, naming
from .brackets import without_conversions, without_remarks
from .chunks import FIGURES, MEASURES, Chunk, all_of, count, opened, place_of
from .fillers import HEADS
from .listed import LETTERED
from .model import Context, Entry
from .triangles import DIAGONAL
from .vocabulary import COLOURS, HUES, OF_FABRIC

NOUNS = ("squares", "rectangles", "pieces", "strips")
OF_SIZE = (*NOUNS, *MEASURES, "wof", *DIAGONAL)
"""The kinds that may be said once for several pieces."""
MOST = 40
"""No sentence tells of more."""
_PARTS = (",", ";", "/", ".", "|")
_BEFORE_A_COUNT = ("word", "cut", "article", "from", "note", "label", "punct", "for", "role")
_LINKING = ("from", "for", "includes", "make", "sew")
_LINKS = {
    "=", "as", "after", "around", "become", "before", "but", "by", "containing", "in", "leaving", "match", "of", "onto",
    "replace", "than", "to", "totalling", "which", "with"
}  # fmt: skip
_OF_ANOTHER = ("make", "total", "need", "aside", "includes", "left_over")


@dataclass(frozen=True)
class Group:
    """The chunks that say one kind of piece, where they stand on the page, and its fabric where only that tells it from
    the others."""

    chunks: list[Chunk]
    start: int
    end: int
    fabric: str = ""


def ways(chunks: list[Chunk], context: Context, page) -> Iterator[list[Group]]:
    """The ways in which a sentence can be parted into pieces, every chunk of it in one of them."""
    chunks = without_conversions(without_remarks(chunks, page))
    if _told_again(chunks) or _of_others(chunks, page):
        return
    flat = _in_full(_opened(chunks), page)
    each = _as_many_of_each(flat, context, page)
    if each:
        yield from _under_head([each], context)
        return
    bought = [place for place, one in enumerate(chunks) if one.kind in (*MEASURES, "yards")]
    if 1 < len(bought) <= MOST and count(chunks, "yards") and not count(chunks, "count"):
        parts = _parted(chunks, bought, page)
        yield _groups(parts, parts)
        return
    for starts in (_at_counts(flat), [place for place, one in enumerate(flat) if one.kind in MEASURES]):
        for_so_many = bool(starts and starts[0]) and flat[starts[0] - 1].kind == "for"  # "for 2 quilts: 4 strips"
        if for_so_many or not 1 < len(starts) <= MOST or any(_linked(flat[:start], page) for start in starts[1:]):
            continue
        words_first = bool(naming.described(flat[: starts[0]], page))
        for first in (words_first, not words_first):  # as the sentence begins, or else the other way round
            groups = _completed(_parted(flat, starts, page, first), context, page)
            if groups:
                groups[0] = replace(groups[0], start=chunks[0].start)  # with what is only needed before it
                yield from _under_head([groups], context)
                break


def _opened(chunks):
    """The chunks with those of their brackets, but for brackets that only tell a total: "(36 total)"."""
    of_total = ({one.kind for one in chunk.value} == {"count", "total"} for chunk in chunks if chunk.kind == "note")
    totals = dict(zip((chunk.start for chunk in chunks if chunk.kind == "note"), of_total))
    return [one for chunk in chunks for one in ([chunk] if totals.get(chunk.start) else opened([chunk]))]


def _told_again(chunks):
    """Whether a bracket tells of pieces behind others outside it: of these, or of more, that is not said."""
    inside = [one.value for one in chunks if one.kind == "note"]
    outside = count(chunks, "count", "article") and count(chunks, *MEASURES)
    return bool(outside) and any(count(one, "count") and count(one, *MEASURES) for one in inside)


def _linked(before, page):
    """Whether the words before a piece say what it has to do with those before it: it is cut from them, or they are for
    it."""
    while before[-1].kind in ("cut", "article", "label"):
        before = before[:-1]
    return before[-1].kind in _LINKING or page.said(before[-1]) in _LINKS


def _of_others(chunks, page):
    """Whether pieces stand in a sentence that are only cut into the others behind them."""
    at = next((place for place, one in enumerate(chunks) if page.said(one) == "into"), 0)
    return count(chunks[:at], *MEASURES) > 0 and count(chunks[at:], *MEASURES) > 0


def _under_head(ways, context):
    """Those of the ways whose fabrics do not gainsay the head above them."""
    above = context.fabrics
    for groups in ways:
        named = {naming.known(one.fabric, context.known) or one.fabric for one in groups if one.fabric}
        if not above or all(one in above or naming.known(one, [*above]) for one in named):
            yield groups


def _in_full(flat, page):
    """The chunks, "the same size" as the size before it, "another 32" as so many where these are of another fabric, and
    "ones" with the noun and the place that it stands for."""
    found: list[Chunk] = []
    for one, behind in zip(flat, [*flat[1:], None]):
        size = next((other for other in reversed(found) if other.kind in MEASURES), None)
        if one.kind == "same_size" and size:
            one = size._replace(start=one.start, end=one.end)
        elif one.kind == "size" and _counts_squares(one, flat):  # "4 x 6 1/2 in squares"
            first, *rest = one.value.sides
            found.append(Chunk("count", first.start, first.end, int(first.value)))
            whole = one.value._replace(start=rest[0].start, sides=tuple(rest))
            one = Chunk("length", whole.start, whole.end, whole)
        elif page.said(one) == "ones":
            found += [other for other in found if other.kind in (*NOUNS, "role")][:2]
            one = one._replace(kind="punct")
        elif page.said(one) == "another" and behind and behind.kind == "count":
            last = max((place for place, other in enumerate(found) if other.kind in FIGURES), default=0)
            one = one._replace(kind="article") if naming.described(found[last:], page) else one
        elif page.said(one) == "plus" and behind and _adds_pieces(behind, found, flat):
            one = one._replace(kind="and")
        found.append(one)
    return found


def _adds_pieces(behind, found, flat):
    """Whether a "plus" stands before other pieces of a size: "6 squares 4 in plus 3 rectangles 2 x 4 in"."""
    others = [other for other in flat if other.start > behind.start]
    return behind.kind == "count" and count(others, *MEASURES) and count(found, *MEASURES)


def _counts_squares(size, flat):
    """Whether the first number of a size counts the squares that stand behind it."""
    first, *rest = size.value.sides
    behind = [one.kind for one in flat if one.start > size.start and one.kind in (*FIGURES, *NOUNS)]
    return behind[:1] == ["squares"] and len(rest) == 1 and first.whole and not first.unit and bool(rest[0].unit)


def _at_counts(flat):
    """Where counts stand that begin a piece, not those of its triangles or of what is left of it."""
    found: list[int] = []
    for place, one in enumerate(flat):
        before = next((other for other in reversed(flat[:place]) if other.kind not in ("punct", "word")), None)
        noun = next((other.kind for other in flat[place + 1 :] if other.kind not in ("punct", "word", "role")), "")
        given = noun in ("triangles", "unit", "total") and bool(found) and count(flat[found[-1] : place], *DIAGONAL)
        counts = one.kind == "count" or one.kind == "article" and noun in (*NOUNS, *MEASURES)
        if counts and not given and not (before and before.kind in _OF_ANOTHER and found):
            found.append(place)
    return found


def _parted(flat, starts, page, words_first=True):
    """The chunks parted before each of these places: at the last sign that parts, else before or behind the words that
    stand there."""
    bounds = [0]
    for before, start in pairwise(starts):
        place = start
        while place > before + 1 and flat[place - 1].kind in _BEFORE_A_COUNT and not _parts(flat[place - 1], page):
            place -= 1
        if not (place > before + 1 and _parts(flat[place - 1], page)) and not words_first:
            place = start - (flat[start - 1].kind == "label")
        bounds.append(place)
    return [flat[one:other] for one, other in zip(bounds, [*bounds[1:], len(flat)])]


def _parts(chunk, page):
    return chunk.kind == "and" or chunk.kind == "punct" and page.said(chunk) in _PARTS


def _completed(parts, context, page):
    """The groups of these parts, each with what another says for all; None where that is not one and the same."""
    measured = [place for place, part in enumerate(parts) if count(part, *MEASURES)]
    if any(count(part, *MEASURES) > 1 for part in parts) or not measured:
        return None
    first, last = measured[0], measured[-1]
    if len(measured) == len(parts):
        return _with_counts(parts, context, page)
    if len(measured) != last + 1 - first or first == last and 0 < first < len(parts) - 1:
        return None
    # What has no size is of that of the part right behind, or right before.
    ahead = _of_one_size(parts[: first + 1], parts[first], context, page) if first else []
    behind = _of_one_size(parts[last:], parts[last], context, page) if last + 1 < len(parts) else []
    if ahead is None or behind is None:
        return None
    between = parts[first + bool(ahead) : last + (not behind)]
    return [*ahead, *_groups(between, between), *behind]


def _with_counts(parts, context, page):
    """The groups of parts that all have their own size: with a count told for each, a noun or a fabric told behind."""
    first, *rest = parts
    if count(first, "count", "article") == 1 and not any(count(part, "count", "article") for part in rest):
        at = next(place for place, one in enumerate(first) if one.kind in MEASURES)
        if not count(first[:at], "each"):
            return None
        shared = [one for one in first if one.kind in ("count", "article", *NOUNS)]
        first, tail = [one for one in first if one.kind != "each"], _from_behind(parts[-1])
        behind = tail if not any(naming.described(part, page) for part in parts[:-1]) else []
        whole = [[*first, *behind], *([*shared, *part, *behind] for part in rest[:-1]), [*shared, *rest[-1]]]
        return _groups(whole, parts)
    if any(not count(part, "count", "article") for part in parts) or _may_all_be_cut(parts, page):
        return None
    *before, last = parts
    behind = []
    if count(last, "length") and not any(count(part, "size", *NOUNS, *DIAGONAL) for part in before):
        behind += all_of(last, "squares", "strips")  # "12 3 in and 6 4 in squares"
    ahead, name = _ahead(first, context, page)
    if not any(count(part, *NOUNS) for part in rest):  # "strips: 3 at 2 in and 2 at 4 in"
        behind += ahead
    if name:
        return _groups([first, *([*part, *behind] for part in rest)], parts, _carried(name, parts, page))
    named, *others = (naming.described(part, page) for part in parts)
    if (
        not context.fabrics and is_fabric(named, context) and not any(others)
    ):  # "12 red squares 5 in and 6 squares 4 in"
        return _groups([[*part, *behind] for part in parts], parts, [named] * len(parts))
    tail = _from_behind(last)
    if tail and not any(naming.described(part, page) for part in before):
        behind += tail
    whole = [*last, *(one for one in behind if one in ahead)]
    return _groups([*([*part, *behind] for part in before), whole], parts)


def _ahead(part, context, page):
    """The noun and the fabric that stand before the count of a part."""
    at = place_of(part, "count")
    name = naming.told(part[:at], page)  # "Borders (brown), 2 at 5 x 72 in, 2 at ..."
    return all_of(part[:at], "squares", "strips"), name if is_fabric(name, context) else ""


def _carried(name, parts, page):
    """The fabric of each part, that of the part before where it names none: "navy 12 squares 3 in, 6 squares 4 in"."""
    for part in parts:
        name = naming.told(part, page) or name
        yield name


def _may_all_be_cut(parts, page):
    """Whether the cut on the diagonal that ends a sentence may be that of the squares before its last ones too."""
    *before, last = parts
    if not count(last, *DIAGONAL) or any(count(part, *DIAGONAL) for part in before):
        return False
    sizes = [{*one.value.texts} for part in parts for one in all_of(part, *MEASURES)]
    every = {page.said(one) for one in last if one.kind == "word"} & {"all", "both"}
    return bool(every) or sizes[-1] in sizes[:-1]


def _from_behind(part):
    """The words "from the pale blue" that end a part, behind its figures."""
    last = max(place for place, one in enumerate(part) if one.kind in FIGURES)
    at = next((place for place, one in enumerate(part) if place > last and one.kind == "from"), None)
    return part[at:] if at is not None else []


def _of_one_size(parts, holder, context, page):
    """The groups of parts of which one says the size of all; each must say of which fabric it is."""
    start, end = parts[0][0].start, parts[-1][-1].end
    shared: list[Chunk] = []
    nouns = [one for part in parts for one in all_of(part, *NOUNS)]
    for one in [*nouns, *holder]:  # `strips: 40 light, 40 dark, each 2 x 6`
        if one.kind in OF_SIZE and (one.kind in MEASURES or not count(shared, one.kind)):
            shared.append(one)
    if len({one.kind for one in nouns}) > 1 or any(count(part, *DIAGONAL) for part in parts if part is not holder):
        return None
    if not count(holder, "count"):  # `3 1/2" squares: ten navy, six cream`: the first part holds the size alone
        parts = [part for part in parts if part is not holder]
    names = [_name(part, page) for part in parts]
    counts = [all_of(part, "count") for part in parts]
    if any(len(one) != 1 for one in counts):
        return None
    numbers = [one.value for (one,) in counts]
    in_all = holder is parts[0] and len(parts) > 2 and sum(numbers[1:]) == numbers[0]
    if in_all and names[0] and not is_fabric(names[0], context):
        return None
    if in_all and not names[0]:  # "12 squares 5 in: 6 dark, 6 light"
        parts, names, counts = parts[1:], names[1:], counts[1:]
    of_fabric = [is_fabric(one, context) or naming.is_plain(one) for one in names]
    if not all(names) or len(set(names)) < len(names) or not any(of_fabric):
        return None
    each = [one for one, behind in pairwise(holder) if one.kind == "each" and behind.kind in MEASURES]
    left_out = (*OF_SIZE, "word", "note", "from")
    told = [[one for one in part if one.kind not in left_out and one not in each] for part in parts]
    return [Group([*part, *shared], start, end, name) for part, name in zip(told, names)]


def _name(part, page):
    """The words of a part that tell it from the others of its size, those of a bracket where it has no other."""
    inside = [one for note in all_of(part, "note") for one in note.value]
    return naming.described(part, page, True) or naming.described(inside, page, True)


def _groups(completed, parts, names=()):
    spans = [[one for one in part if one.kind not in ("punct", "and")] or part for part in parts]
    return [
        Group(chunks, span[0].start, span[-1].end, name)
        for chunks, span, name in zip(completed, spans, list(names) or [""] * len(parts))
    ]


def _as_many_of_each(flat, context, page):
    """As many pieces of each of several fabrics: "Cut 3 each 4 7/8 in squares from red and green"."""
    flat = _without_their_cut(flat)
    counts, size = all_of(flat, "count"), [one for one in flat if one.kind in OF_SIZE]
    names, lettered = list(parted_names(flat, page)), LETTERED.search(page.plain, flat[0].start, flat[-1].end)
    if lettered:  # "from each of Fabrics A and B"
        names = list(listed.names(page, *lettered.span(), context) or ())
        flat = [one for one in flat if one.kind != "label" or one.end <= lettered.start()]
    if count(flat, "each", "of_each") != 1 or count(size, *MEASURES) != 1 or len(names) < 2 or not counts:
        return None
    if not all(is_fabric(one, context) for one in names):
        return None
    if any(page.said(one) == "/" for one in flat) and not all(naming.known(one, context.known) for one in names):
        return None  # "red/blue" may be one print
    in_all = [one.value for one in counts[:-1]] == [counts[-1].value * len(names)]  # "12 squares, 4 each of …"
    if len(counts) != 1 and not (in_all and all_of(flat, "each", "of_each")[0].start > counts[-1].start):
        return None
    rest = [
        one for one in flat if one.kind not in ("each", "of_each", "word", "and", "from", "note", "count", *OF_SIZE)
    ]
    span = flat[0].start, flat[-1].end
    return [Group([*rest, counts[-1], *size], *span, name) for name in names]


def _without_their_cut(flat):
    """The chunks without the words that take pieces up to cut them on the diagonal: "then cut each square in half"."""
    at = next((place for place, one in enumerate(flat) if one.kind in DIAGONAL), 0)
    start = at
    while start and flat[start - 1].kind in ("each", "squares", "word"):
        start -= 1
    taken_up = start and flat[start - 1].kind in ("cut", "into") and count(flat[start:at], "each")
    return [*flat[: start - 1], *flat[at:]] if taken_up else flat


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
    return (
        bool(naming.known(name, context.known))
        or naming.is_numbered(name)
        or bool(naming.key(name) & (COLOURS | OF_FABRIC))
    )


def of_two_fabrics(chunks: list[Chunk], context: Context, page) -> bool:
    """Whether one count is told for two fabrics, so that it may be that of each, or of both: "6 in red and blue",
    "red 6 squares 3 in blue"."""
    named = [one for one in chunks if one.kind == "word" and is_fabric(page.text[one.start : one.end], context)]
    for one, other in pairwise(named):
        between = [chunk for chunk in chunks if one.end <= chunk.start < other.start]
        between = [chunk for chunk in between if page.said(chunk) not in HEADS]
        if count(between, *FIGURES):
            if all(page.said(name) in HUES for name in (one, other)):
                return True
            continue
        signs = {page.said(chunk) if chunk.kind == "punct" else chunk.kind for chunk in between}
        behind = next((chunk for chunk in chunks if chunk.start >= other.end), None)
        one_print = behind and behind.kind == "word" and page.said(behind) in OF_FABRIC
        if signs and signs <= {"and", "/"} and not one_print:
            return True
    return False


def context_of(group: Group, context: Context) -> Context:
    """The context in which a group is read."""
    if not group.fabric:
        return context
    return replace(context, fabrics=(naming.known(group.fabric, context.known) or group.fabric,))


def may_be_sub_cut(entries: tuple[Entry, ...]) -> bool:
    """Whether pieces may be cut from the strips that stand before them, as wide as these and of their fabric, and
    nothing says so."""
    return any(
        strip.data.get("strip") in (one.data["size"] if isinstance(one.data["size"], list) else [one.data["size"]])
        and len({strip.data.get("fabric"), one.data.get("fabric")} - {None}) < 2
        for strip, one in combinations(entries, 2)
        if "size" in one.data
    )
