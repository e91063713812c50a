"""The heads of a page that say from which fabric the lines below them are cut, or what these are for."""

from __future__ import annotations

import re

from . import heads_of_each, naming, sets
from .bare_heads import ALONG, FOLLOWING, LENGTHWISE, PLACE, SCRAPS, Head, alone, names_before_each
from .chunks import FIGURES, MEASURES, NAMED, chunked, count, opened
from .figures import IN_WORDS, number
from .listed import all_numbered, names
from .model import Context
from .strips_above import REST
from .vocabulary import SOMEBODY, phrase, trade_name

_EACH = r"(?:each|every|both)(?:\s+(?:one\s+)?of)?(?:\s+the|\s+your)?"
_SETS_OF = r"[a-z0-9-]+(?:\s+(?!matching|identical)[a-z]+)?"
_LEFT = (
    r"remaining\s+|(?:rest|remainder)\s+of\s+(?:the\s+)?|left-?overs?\s+(?:of\s+(?:the\s+)?)?"
    r"|what\s+(?:(?:is|was)\s+left|remains?)\s+(?:over\s+)?(?:of|from)\s+(?:the\s+)?"
)
_SCRAPS_OF = r"(?:scraps|remnants|left-?overs)\s+of\s+"
_ALONG_OF = r"length(?:wise)?(?:\s+(?:of\s+)?grain)?\s+of\s+(?:the\s+|your\s+)?"
_LENGTH_OF = r"[\d/ ]+\s(?:yards?|yds?|met(?:er|re)s?|m)\s+of\s+(?:the\s+|your\s+)?"
_THE_PIECES = r"(?:(?:the\s+following|these)\s+(?:strips\s+)?)?(?:(?:pieces|patches)\s+)?"
_HEAD = re.compile(
    rf"""\W*(?:(?:now|next|then)\s+)?(?:(?P<is_for>for\s+(?:the\s+)?)?(?!(?:{_SCRAPS_OF})?(?:{IN_WORDS})\s[^:;,]*[:;,]\s*from\s+each)(?P<purpose>[^,:;.!?\d]{{3,40}}?)[,:!?]\s*(?=(?:cut\s+(?:lengthwise\s+)?)?(?:from|of\b|out\b|using)))?(?:
      (?:(?:{_SCRAPS_OF})?(?P<counted>(?:\d{{1,3}}|[a-z]+)\s+[^:;.,\d]{{3,40}}?)\s*[:;,-]+\s*)?
      from\s+(?P<each3>each|every\s+one)\s*(?:,?\s*(?:you\s+)?cut\b\s*[:,-]*|[:-]+|,\s*(?=\(?\d|(?:{IN_WORDS})\b))
    | (?:cut(?:ting)?\s+)?{_THE_PIECES}
      (?:from|out\s+of|of(?=\s+(?:the|both))|using|(?P<for>for)|along)\s+
      (?:(?P<each>{_EACH}),?\s+)? (?:the\s+|your\s+)?
      (?P<along>{_ALONG_OF})? (?P<left>{_LEFT})? (?:{_LENGTH_OF})?
      (?P<name>[^:;.]*?) \s*(?:[,:;-]+\s*|\s) (?:(?:then|also)\s+)*
      (?:go\s+ahead\s+and\s+|{SOMEBODY})?
      (?:(?:fussy[\s-]+)?cut|(?:chopp|slic|snipp)ed
        |(?(for)(?!)|(?:(?:first\s+)?take|you\s+(?:will\s+)?need)))\b
      (?:\s+(?P<sets>{_SETS_OF})\s+(?:matching\s+|identical\s+)?sets?\s+(?:of\b)?)?
      (?:\s+{FOLLOWING})? (?P<along4>\s+(?:{LENGTHWISE})(?=\W*$))? \s*[:,-]*
    | (?:cut(?:ting)?\s+(?P<along3>lengthwise\s+)?)?{_THE_PIECES}
      (?:(?:from|using|along)\s+|(?=each\s+of\s+\d+\s)) (?:(?P<each2>{_EACH})\s+)? (?:the\s+|your\s+)?
      (?P<along2>{_ALONG_OF})? (?P<left2>{_LEFT})?
      (?P<name2>[^:;.]*?)(?P<along5>,?\s+(?:cut(?:ting)?\s+)?{LENGTHWISE}(?=\s*:))?\s*(?::|$|,\s*(?=\(?\d))
    )""",
    re.VERBOSE,
)
_NAMED = re.compile(
    r"\W*(?P<name>(?:fabric|print|colou?r)\s+\#?\w{1,2}\s*(?:-{1,2}|,)\s*[^\W\d_][^:;.\d]{1,40}?(?=\s*:|\s+-)"
    r"|[^\W_][^:]{1,59}?)\s*(?::|\s-{1,2}\s|--|\s+-\s*cut\b)\s*(?:cut\b\s*:?)?"
)
_UNIT = re.compile(r"\W*(?P<unit>[a-z][a-z -]{1,40}?)\s*(?::|\s-{1,2}\s)\s*(?:cut\s+)?(?=\(?\d|[a-z])")
"""What pieces are sewn to, before them: "Flying geese: 12 rectangles 2 x 4 in"."""
_KEYED = re.compile(r"\W*(?:fabrics?|colou?rs?)\s*:\s*(?P<name>[^\W\d_][^:;.\d]{1,40}?)\s*:?\s*")
"""A form that is filled in: "Fabric: navy"."""
_OF_A_KEY = re.compile(
    r"\W*(?:fabric\s+)?(?P<letter>[a-z]\d?|\d{1,2})\s*(?:=|(?<=fabric [a-z\d])\s*(?::|\s-))\s*"
    r"(?P<name>[^\W\d_][^:;.,\d=]{1,40})\.?"
)
"""A letter and the fabric that it stands for: "A = ivory", "Fabric A: ivory"; several in a row head nothing."""
_CUTTING = re.compile(
    r"\W*cutting\s+(?:of\s+)?(?:the\s+|your\s+)?(?P<name>[a-z][a-z -]{2,30}?)\s*[.:]\s+(?=\(?\d|[a-z-]+\s)"
)
"""A head that says what is cut in the sentences behind it: "Cutting the ivory. Eight strips ..."."""
_DITTO = re.compile(r"\s*(?:\"|''|ditto\b|do\.)[\s:,-]+(?=\(?\d)")
_SETS = re.compile(
    rf"\W*cut\s+(?P<sets>{_SETS_OF})\s+(?:matching\s+|identical\s+)?sets?\b(?:\s+of\b(?:\s+(?:{FOLLOWING}))?)?"
    r"(?:\s+from\s+(?:the\s+)?(?P<name>[^:;.]*?))?\s*:"
)
_DOTTED = re.compile(r"\W*(?P<name>[^\W\d_][^.:\d]{1,40}?)\s*\.{3,}\s*(?=\(?\d)")
"""The name of a fabric, dots that lead to its pieces behind it."""
_TO_MAKE = re.compile(r"\W*to\s+make\s+(?:the\s+|your\s+)?")
_THEY = re.compile(
    r"\W*(?:(?:all|one|two|each|both|some)\s+of\s+)?(?:these|those|this|that|them|it|which|each|the\s+rest|(?:the\s+)?others?)\W*"
)
_BOUGHT_FOR = re.compile(r"(?:binding|sashing|(?:inner |outer |middle )?border)\s+fabric\s*")
_REST = re.compile(rf"(?:{REST})\s*")


def head(page, start: int, end: int, context: Context) -> Head | None:
    """The head that a line begins with, or is.

    >>> from .page import Page
    >>> page = Page("From each of 6 assorted blues, cut:")
    >>> head(page, 0, len(page.text), Context())[:4]
    (('assorted blues',), 35, 6, True)
    """
    dotted = _DOTTED.match(page.plain, start, end)
    bought = naming.known(dotted["name"], context.known) if dotted and context.section == "cutting" else None
    if dotted and bought:
        place = naming.named(dotted["name"], dotted["name"])
        of_place = place == "binding" or place.endswith("border")
        return Head((bought,), dotted.end(), role=place if of_place else "", strong=True)
    match = _SETS.match(page.plain, start, end)
    if match and _times(match["sets"]):
        named = names(page, *match.span("name"), context) if match["name"] else context.fabrics
        return Head(named, match.end(), times=_times(match["sets"]), strong=True) if named is not None else None
    each_one = heads_of_each.of_piece(page, start, end, context) or heads_of_each.of_print(page, start, end, context)
    if each_one:
        return each_one
    match = _HEAD.match(page.plain, start, end)
    if match:
        found = _spoken(page, match, context)
        purpose = naming.named(match["purpose"], match["purpose"]) if match["purpose"] else ""
        purpose = "corner" if purpose == "corner piece" else purpose  # of what, its pieces tell
        if found and purpose not in ("", "?") and found.fabrics:
            return found._replace(role=purpose)
        cries = match["purpose"] and page.plain[match.end("purpose")] in "!?"  # "Ready? From the gold cut"
        if found and (match["is_for"] or not match["purpose"] or cries):
            return found if not match["purpose"] else found._replace(rest=match.end())
    said = page.plain[start:end].rstrip(" :")
    along = ALONG.search(said)
    if along and not count(chunked(said[: along.start()]), *FIGURES):  # longer than any name
        return alone(page, start, start + len(said), end, end, context)
    match = _NAMED.match(page.plain, start, end)
    bare = match is not None and not count(chunked(page.plain, match.end(), end), *FIGURES)
    whole = alone(page, start, end, end, end, context) if bare else None
    if whole and whole.fabrics and (whole.role or whole.lengthwise):  # "Cream - setting triangles"
        return whole
    known = _before_a_gap(page, start, end, context) or _known_first(page, start, end, context)
    known = known or _ditto(page, start, end, context)
    if known:
        return known
    match = _OF_A_KEY.fullmatch(page.plain, start, end)
    if match and naming.is_of_fabric(match["name"]):
        name = page.text[slice(*match.span("name"))].strip()
        context.lettered[match["letter"]] = name
        context.known += [] if name in context.known else [name]
        lines = page.plain[:start].rstrip("\n").rpartition("\n")[2], page.plain[end:].lstrip("\n").partition("\n")[0]
        return Head(() if "=" in match[0] or any(map(_OF_A_KEY.fullmatch, lines)) else (name,), end)
    match = _CUTTING.match(page.plain, start, end)
    if match and (cutting := _of_cutting(match, context)):
        return cutting
    match = _UNIT.match(page.plain, start, end)
    if match and _names_a_unit(match, page, end):
        return Head(context.fabrics, match.end(), of_line=True)
    match = _KEYED.fullmatch(page.plain, start, end)
    if match and (named := names(page, *match.span("name"), context)):
        return Head(named, end)
    match = _NAMED.match(page.plain, start, end)
    if match:
        rest = (match.end(), end)
        kinds = {one.kind for one in chunked(page.plain, *rest)}
        found = alone(page, *match.span("name"), match.end(), end, context)
        if found and found.role and kinds <= {"word", "punct"} and naming.is_of_fabric(page.plain[slice(*rest)]):
            named = names(page, *rest, context)
            return found._replace(fabrics=named, rest=end) if named else found  # "Border 1 - navy"
        return found
    to_make = _TO_MAKE.match(page.plain, start, end)
    if to_make:
        found = alone(page, to_make.end(), end, end, end, context)
        return found if found and found.role else None
    return alone(page, start, end, end, end, context) if end - start < 60 else None


def _of_cutting(match, context):
    """The head that says of which of the known fabrics, or for which place, all is cut that stands behind it."""
    known, place = naming.known(match["name"], context.known), naming.named(match["name"], match["name"])
    if known is None and not place:
        return None
    role = place if place in ("binding", "sashing") or place.endswith("border") else ""
    return Head((known,) if known else (), match.end(), role=role)


def _names_a_unit(match, page, end):
    """Whether a line names a unit before the pieces that this is sewn of."""
    unit, behind = ({one.kind for one in chunked(page.plain, *at)} for at in (match.span("unit"), (match.end(), end)))
    pieces = "count" in behind and behind & {*MEASURES} and behind & {*NAMED}
    return unit == {"unit"} and bool(pieces) and not behind & {"make", "finished"}


def _spoken(page, match, context):
    """A head that is said as "From … cut"."""
    if match["each3"] and not match["counted"]:
        pieces = context.pieces.get(context.fabrics[0]) if len(context.fabrics) == 1 else None
        found = Head(
            context.fabrics,
            match.end(),
            per_print=pieces is None and len(context.fabrics) < 2,
            times=pieces or 1,
            strong=True,
        )
        return found if context.fabrics else None
    name = next(one for one in ("counted", "name", "name2") if match[one] is not None)
    start, stop = match.span(name)
    along = any(match[one] for one in ("along", "along2", "along3", "along4", "along5"))
    each = match["each"] or match["each2"] or match["each3"]
    left = match["left"] or match["left2"] or ""
    if _REST.fullmatch(left + page.plain[start:stop]):  # of the fabric above; what is cut on this line has its rule
        no_more = not page.plain[match.end() :].partition("\n")[0].strip()
        holds = no_more and context.fabrics and not context.per_print
        return Head(context.fabrics, match.end(), remaining=True, strong=True) if holds else None
    if along and page.plain[start:stop] in ("fabric", "grain"):
        return Head(context.fabrics, match.end(), strong=True, lengthwise=True)
    if each and each.startswith("both") and len(names(page, start, stop, context) or ()) != 2:
        return None
    grouped = _grouped(page, start, stop, context) if each else None
    if grouped:
        return grouped._replace(rest=match.end())
    if of_number := all_numbered(page.plain[start:stop], context):
        return Head(of_number, match.end(), strong=True)
    prints = number(page.plain, start, stop)
    if prints is None and match["counted"]:
        return None
    if (
        prints is not None and prints.value == 1 and not each and "fat" not in page.plain[start:stop]
    ):  # "from one blue print"
        start, prints = prints.end, None
    if prints is not None:
        if not prints.whole or prints.doubt:
            return None
        start = prints.end
    sets = _times(match["sets"])
    if match["sets"] and not sets:
        return None
    said = chunked(page.plain, start, stop)
    kinds = {chunk.kind for chunk in said}
    if match["for"] and "count" in kinds and kinds & {*MEASURES}:  # "For the corners, 2 squares 9 in are cut once"
        return None
    along |= any(one.kind == "lengthwise" for chunk in said if chunk.kind == "note" for one in chunk.value)
    if match["for"] and (
        "caution" in kinds or (phrase(page.plain, match.start("for"), stop) or "")[0:1] == ("other_size",)
    ):
        return None
    of_blocks = prints is None or prints.value > 1 and "blocks" in kinds  # "for 12 blocks" tells what is cut in all
    if match["for"] and not each and of_blocks and kinds & {"blocks", "rows", "unit"} and not kinds & FIGURES:
        return Head(context.fabrics, match.end(), of_line=True)
    if kinds & {"lengthwise", "wof", "blocks", "rows", "unit", "strip_set"}:
        return None
    if page.plain[start:stop].strip() in ("same", "same fabric", "same print"):
        return Head(context.fabrics, match.end(), strong=True) if context.fabrics else None
    if left and "role" in kinds:
        return None
    if "role" in kinds and kinds <= {"role", "article", "and", "punct", "strips", "squares", "triangles"}:
        said = page.plain[start:stop]
        role, bought = naming.named(said, said), [one for one in context.known if one.casefold() == said.strip()]
        return Head(tuple(bought) or context.fabrics, match.end(), role=role, strong=True) if role else None
    if _BOUGHT_FOR.fullmatch(page.plain, start, stop) and (fabrics := names(page, start, stop, context)):
        role = naming.named(page.plain[start:stop])
        return Head(fabrics, match.end(), role=role, strong=True, lengthwise=along)
    of_strips = each and context.strips and "strips" in kinds and "precut" not in kinds  # of those told before
    if kinds & {"fat_quarter", "precut", "strips"} and not of_strips:
        counted = int(prints.value) if prints else None
        found = _of_pieces(page, start, stop, context, bool(each), counted)
        if found or each and {"fat_quarter", "word"} <= kinds:
            return found and found._replace(rest=match.end())
    if (
        {"for", "role"} <= kinds
        and prints is None
        and naming.is_of_fabric(page.plain[start:stop].partition(" for ")[0])
    ):
        of_place = alone(page, start, stop, match.end(), stop, context)  # "From the black print for binding, cut:"
        if of_place and of_place.fabrics and of_place.role:
            return of_place._replace(strong=True, remaining=bool(left), lengthwise=along)
    of_purpose = next((one for one in said if one.kind == "for"), None)
    if of_purpose and prints is None and naming.is_of_fabric(page.plain[start : of_purpose.start]):
        stop = of_purpose.start  # "From the cream for the background:"
    if "strips" in kinds or match["for"] and "label" in kinds or _THEY.fullmatch(page.plain[start:stop]):
        return None
    fabrics = names(page, start, stop, context)
    if (
        match["for"]
        and not each
        and not all(name in context.known or naming.is_of_fabric(name) for name in fabrics or ("",))
    ):
        place = PLACE.fullmatch(page.plain, start, stop)
        if place:
            return Head(context.fabrics, match.end(), role=str(place.lastgroup), of_line=True)
        said = chunked(page.plain, start, stop)
        purpose = _place(said, page)
        return Head(context.fabrics, match.end(), role=purpose, strong=bool(purpose), of_line=not purpose)
    if not fabrics:
        role = _place(said, page)
        if (
            each
            and re.match(r"\s*(?:prints?|fabrics?|colou?rs?|sets?)?\s*$", page.plain[start:stop])
            and context.fabrics
        ):
            fabrics = context.fabrics
        elif role:
            return Head(context.fabrics, match.end(), role=role, strong=True)
        else:
            return None
    if prints is not None and not each:
        return None
    told = page.plain[stop : match.end()].strip()
    if not told and not all(name in context.known or naming.is_of_fabric(name) for name in fabrics):
        return None  # a line of words that begins with "from"
    if each and len(fabrics) > 1 and (prints is None or prints.value == len(fabrics)):  # of each as many
        prints = each = None
    scraps = bool(SCRAPS.search(page.plain, start, stop))
    counted = int(prints.value) if prints else None
    found = Head(fabrics, match.end(), counted, bool(each), sets or 1, "", bool(left), scraps, True)
    return found._replace(lengthwise=along)


def _place(chunks, page):
    """The one place in the quilt that the words of a head name; the first of several."""
    flat = opened(chunks)
    place = naming.role(flat, Context(), page.plain)
    return place if place != "?" else next(iter(naming.roles(flat, page.plain)), "")


def _of_pieces(page, start, stop, context, each, prints):
    """The head that names pieces as they are bought: "From each dark fat eighth", "From each of 12 fat quarters", "From
    the precut strips"."""
    said, words = chunked(page.plain, start, stop), " ".join(page.text[start:stop].split())
    kinds = {one.kind for one in said}
    if each and {"fat_quarter", "word"} <= kinds:
        return _each_piece_of(page, said, context, prints, stop)
    if each and kinds <= {"fat_quarter", "punct", "pieces", "strips", "precut"}:
        if len(context.pieces) == 1 and prints in (None, sum(context.pieces.values())):
            ((name, number_of),) = context.pieces.items()
            return Head((name,), stop, times=number_of, strong=True)
        unnamed = context.pieces or not prints or not kinds & {"fat_quarter", "precut"}
        piece = trade_name(page.plain[start:stop].strip()) or ""
        return Head(() if unnamed else (words,), stop, prints, True, strong=True, piece=piece)
    if each and prints and kinds <= {"word", "strips", "precut", "punct"} and {"word", "strips"} <= kinds:
        named = naming.described([one for one in said if one.kind == "word"], page)
        return Head((naming.known(named, context.known) or named,), stop, prints, True, strong=True)
    of_precuts = "precut" in kinds and kinds <= {"precut", "strips", "squares", "punct"}
    return Head((words,), stop, strong=True) if of_precuts else None


def _grouped(page, start, stop, context):
    """The head "From each of 4 reds and 4 blues": several fabrics, of so many prints each."""
    fabrics, prints = [], []
    for part in re.split(r",|\band\b|&|\+", page.text[start:stop]):
        part = part.strip()
        counted = number(part.casefold(), 0) if part else None
        if part and (counted is None or not counted.whole or counted.doubt):
            return None
        name = " ".join(part[counted.end :].split()) if counted else ""
        if counted and (not name or re.search(r"\d", name)):
            return None
        if counted:
            fabrics.append(naming.known(name, context.known) or name)
            prints.append(int(counted.value))
    if len(fabrics) < 2:
        return None
    return Head(tuple(fabrics), stop, per_print=True, strong=True, of_prints=tuple(prints))


def _each_piece_of(page, said, context, prints, rest):
    """The head "From each dark fat eighth": as often as that fabric is bought in pieces, where that is known."""
    named = naming.described([one for one in said if one.kind == "word"], page)
    fabric = naming.known(named, context.known) or named
    if not fabric:
        return None
    if fabric in context.pieces and prints in (None, context.pieces[fabric]):
        return Head((fabric,), rest, times=context.pieces[fabric], strong=True)
    bought = next(one for one in said if one.kind == "fat_quarter")
    piece = trade_name(page.said(bought)) if prints else ""
    return Head((fabric,), rest, prints, True, strong=True, piece=piece or "")


def _known_first(page, start, end, context):
    """A line that begins with the name of a known fabric, before its letter or its count: "Cream  C  24 squares"."""
    chunks = chunked(page.plain, start, end)
    words = []
    for one in chunks:
        if one.kind != "word":
            break
        words.append(one)
    behind = chunks[len(words)] if 0 < len(words) < min(len(chunks), 6) else None
    if behind is None or sets.STRIP_TO_STRIP.match(page.plain, start, end):
        return None
    listed = _NAMED.match(page.plain, start, end) if page.said(behind) in (*",/+&", "and") else None
    if (
        listed and len(names_before_each(page, *listed.span("name"), context) or ()) > 1
    ):  # "Red, blue and green: from each …"
        return None
    letter = re.match(r"\s*[a-z]\d?\s+(?=[\d(])", page.plain[words[-1].start : end]) if len(words) > 1 else None
    whole = page.text[words[0].start : behind.end if behind.kind == "label" else words[-1].end]
    if any(naming.key(one) == naming.key(whole) for one in context.known) and len(chunks) > len(words) + 1:
        known, rest = naming.known(whole, context.known), behind.end if behind.kind == "label" else behind.start
        return Head((naming.as_listed(known, context),), rest) if known else None
    if letter and len(page.said(words[-1])) == 1:
        behind, words = words[-1], words[:-1]
    elif behind.kind not in ("count", "label", "article"):
        return None
    name = page.text[words[0].start : words[-1].end]
    known = naming.known(name, context.known)
    if known is None or naming.key(known) != naming.key(name):
        return None
    return Head((naming.as_listed(known, context),), behind.start)


_BEFORE_A_GAP = re.compile(r"\W*(?P<name>[a-z][a-z -]*?),\s*(?P<purpose>[a-z][a-z -]*?)[^\S\n]{2,}(?=\(?\d)")
"""A fabric, and behind a comma what its pieces are for, before the gap of a row: "Flowers, centre  2 strips"."""


def _before_a_gap(page, start, end, context):
    """A row that begins with a known fabric and what its pieces are for."""
    match = _BEFORE_A_GAP.match(page.plain, start, end) if context.section == "cutting" else None
    if match is None or len(match["name"].split()) > 4 or len(match["purpose"].split()) > 3:
        return None
    known = naming.known(f"{match['name']} {match['purpose']}", context.known)
    known = known or _bought_for(match["name"], match["purpose"], page, context)
    role = naming.named(match["purpose"], match["purpose"])
    role = role if role in ("binding", "sashing", "cornerstone") or role.endswith("border") else ""
    return Head((naming.as_listed(known, context),), match.end(), role=role, strong=bool(role)) if known else None


def _bought_for(said, purpose, page, context):
    """The known fabric that words name; of several the one in whose line of the page its purpose stands too."""
    near = [one for one in context.known if naming.key(said) <= naming.key(one)]
    lines = [line for line in page.plain.splitlines() if re.search(rf"\b{re.escape(purpose)}\b", line)]
    told = [one for one in near if any(one.casefold() in line for line in lines)]
    return near[0] if len(near) == 1 else told[0] if len(told) == 1 else None


def _ditto(page, start, end, context):
    """A line that begins with a ditto mark: its fabric is that of the line before."""
    mark = _DITTO.match(page.plain, start, end)
    fabric = context.last[-1].data.get("fabric") if mark and context.last else None
    return Head((fabric,), mark.end(), of_line=True) if fabric else None


def _times(words):
    """The number of sets in a head, or nothing."""
    found = number(words, 0) if words else None
    return int(found.value) if found and found.whole and found.end == len(words) else None
