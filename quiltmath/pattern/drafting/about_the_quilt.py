"""What a line that was not understood may say of the quilt and its blocks, as a proposal."""

from __future__ import annotations

import re
from dataclasses import replace

from . import naming
from .at_hand import two_seams
from .characters import plain
from .doubtful import NOT_UNDERSTOOD
from .figures import Measure, in_digits, measure
from .in_passing import in_passing
from .model import SOMETHING_ELSE, Choice, Entry, Question, Words
from .page import Page
from .stated import WIDEST_SEAM

LEAST_QUILT, LEAST_BLOCK, MOST_BLOCK = 12, 2, 30  # inches
LAST_OF_TITLE = 8
"""Lines: so far down a page begins with what it is about."""
_FIGURE = re.compile(r"(?<![\w./])\d")
_COUNTED = re.compile(
    r"(?<![\w./-])(\d{1,3})\s+(?:[\d /]+-?(?:inch|in|\")\s+)?(?:[a-z-]+\s+){0,2}?blocks\b"
    r"|\bmakes?\s+(\d{1,3})\b(?!\s*(?:\"|in\b|[./x]|\d))"
)
_SEWN = re.compile(r"\b(?:seams?|sew\w*|stitch\w*|press\w*)\b")
LEAST_TO_MOST_WIDE = range(36, 61)
"""Inches: no quilting fabric is narrower or wider."""
_WIDE = re.compile(r"\b(?:fabrics?|usable|useable|wof|wide|width|selv)")
BATTING = r"\b(?:batting|wadding)\b"
_OF_THE_TOP = re.compile(r"\bmeasure|\bquilt\b|\btop\b|\bsides?\b")
_WITH_BORDERS = re.compile(r"\bwith\s[^.;]*\bborders?\b")
_SO_FAR = re.compile(
    r"\b(?:cent(?:er|re)|body|top\s+(?:(?:so|thus)\s+far|(?:up\s+)?to\s+here|now)|(?:before|without)\s+(?:the\s+|any\s+)?borders?)"
    r"\W+(?:[a-z]+\W+){0,2}$"
)
"""What stands before the size of a quilt that has no borders yet."""
_LINING = re.compile(rf"{BATTING}|\bbacking\b|\bborders?\b|\blong\b|\blengths?\b")
_INCHES_OF = re.compile(r"\s*in\s+of\b")
_OF_WHAT = re.compile(r"\b(?:quilts?|blocks?|batting|wadding|backing|borders?|fabrics?|sizes?|finish\w*)\b")
_CUTS = re.compile(r"\bcut\b")
_YARDAGE = re.compile(r"(?P<name>[^\d:;]+?)[\s.:,-]+(?P<yards>\d[\d /-]*)\s*(?:yards?|yds?)\b\.?", re.IGNORECASE)
_BY_A_LINE = re.compile(
    r"\b(?:sew|stitch)(?:\s+(?:a|at|exactly))?(?P<scant>\s+scant)?\s+(?:(?P<quarter>quarter[\s-]+inch)|(?=\d))"
)
_EACH_SIDE = re.compile(r"\b(?:each|both|either)\s+(?:side|of)")
QUARTER = measure("1/4 in", 0)
_IN_BLOCKS = re.compile(r"\bblocks?\b")


_ALL_IN_CENTIMETRES = re.compile(
    r"\b(?:measurements|measures|sizes|figures|dimensions|lengths|numbers)\s+(?:(?:here|below|are|given|stated|printed)\s+)*"
    r"in\s+(?:cms?|centimet(?:re|er)s)\b"
)


def measures_in_centimetres(page: Page) -> bool:
    """Whether a page says that its figures are centimetres, and so need no unit.

    >>> measures_in_centimetres(Page("All sizes in cm.")), measures_in_centimetres(Page("Sizes in inches, 5 cm here."))
    (True, False)
    """
    return _ALL_IN_CENTIMETRES.search(page.plain) is not None


def with_proposal(question: Question, entries: list[Entry]) -> Question:
    """A question about words that hold the size of the quilt, the number or the size of its blocks, with the proposal
    to take these: "47 x 56", "A lap quilt, 56 in square", "Block size 10 in finished, 16 blocks".

    >>> from . import draft
    >>> asked = draft('Sunny Side\\nthrow, 40" x 56", 24 blocks of 8"\\nRed: cut 24 squares 2 1/2"').questions[0]
    >>> [choice.label for choice in asked.choices]
    ['the quilt finishes 40 x 56; 24 blocks that finish 8', 'something else']
    """
    if question.choices or question.text != NOT_UNDERSTOOD:
        return question
    text = in_digits(plain(question.words.text))
    sizes = [*sizes_in(text)]
    found = [
        *_of_quilt(text, sizes, question.words, entries),
        *_of_blocks(text, sizes, question.words, entries),
        *_of_rows(text, question.words, entries),
        *_of_fabric(text, sizes, question.words, entries),
        *_of_yardage(question.words, entries),
    ]
    if not found:
        return question
    label = "; ".join(said for said, _ in found)
    changes = tuple(entry for _, entry in found)
    return replace(question, choices=(Choice(label, changes), SOMETHING_ELSE))


def unread_above(told: list[Words], entries: list[Entry]) -> list[Words]:
    """What was taken for running prose above the cutting list, and holds a size or a length: nothing is sewn there.

    >>> from . import draft
    >>> draft('Chain\\nIrish chain, 54" x 66"\\nRed: 9 squares 3"').questions[0].words.text
    'Irish chain, 54" x 66"'
    """
    cut = [one.words.start for one in entries if one.table == "cut"]
    sewn = [one.start for one in told if _SEWN.search(one.text.casefold()) and one.line > LAST_OF_TITLE]
    first = min(cut + sewn) if cut else 0
    above = (one for one in told if one.start < first and not _SEWN.search(one.text.casefold()))
    return [one for one in above if any(read.sides[-1].unit for read in sizes_in(in_digits(plain(one.text))))]


def only_repeats(question: Question, entries: list[Entry]) -> bool:
    """Whether a question is about a sentence above all lists that says no more than what the draft knows: "Stars, nine
    inches each, float on cream", "One 10 in square makes one block".

    >>> from . import draft
    >>> page = 'Stars\\nStars, {} inches each, float on cream.\\nFabric\\nRed 1 yd\\nRed: cut 9 squares 9 1/2"'
    >>> [len(draft(page.format(side)).questions) for side in ("nine", "eight")]
    [0, 1]
    """
    if question.choices or question.text != NOT_UNDERSTOOD:
        return False
    ways = {one.data["cut"] for one in entries if one.table == "cut" and "cut" in one.data}
    if _OF_BOTH_DIAGONALS.fullmatch(plain(question.words.text)) and ways == {"twice"}:
        return True
    lists = [one.words.start for one in entries if one.table in _LISTED]
    text = in_digits(plain(question.words.text))
    told = plain(_NUMBER_OF_PATTERN.sub(lambda code: " " * len(code[0]), question.words.text))
    if not lists or question.words.start > min(lists) or _OF_A_LIST.search(text):
        return False
    known = {*_lengths_of(entries)}
    agree = all(side.inches in known for one in sizes_in(text) for side in one.with_units())
    for one in reversed([*sizes_in(told)]):
        told = told[: one.start] + told[one.end :]
    return agree and not re.search(r"\d", told)


_OF_BOTH_DIAGONALS = re.compile(
    r"\W*(?:all\s+)?triangles\s+are\s+(?:all\s+)?cut\s+from\s+squares\s+(?:that\s+are\s+)?(?:cut|divided)\s+"
    r"(?:twice\s+(?:on|along)\s+the\s+diagonals?|(?:on|along)\s+both\s+diagonals|diagonally\s+twice)"
    r"(?:,?\s*(?:four|4)\s+(?:triangles\s+)?(?:to|from)\s+(?:the|a|each)\s+(?:square|one))?\W*"
)
"""How all triangles of a page are cut."""
_NUMBER_OF_PATTERN = re.compile(
    r"(?<![\w-])(?!(?:HST|QST|WOF|LOF|FQ|FG|QTY)S?\b)[A-Z]{2,5}[-\u2013#]\d{2,5}(?![\w\"/.-])"
)
"""The number under which a shop has a pattern: "ABC-014"."""
_LISTED = ("cut", "fabric", "backing", "batting", "binding")
_OF_A_LIST = re.compile(r"\bcut\b|\byards?\b|\byds?\b|\bmet(?:re|er)s?\b|\bquarters?\b|:\s*$")


def _lengths_of(entries):
    """The lengths of all that is bought and cut, finished and with seams."""
    taken = two_seams(entries)
    for one in entries:
        for key in ("size", "piece", "finished", "trim_to", "strip"):
            value = one.data.get(key, ())
            for text in [value] if isinstance(value, str) else value:
                read = measure(text, 0)
                if read is not None:
                    side = read.sides[0].inches
                    yield from (side, side - taken, side + taken)


def seam_by_lines(page: Page) -> Entry | None:
    """The seam of a page that says how far from a drawn line it is sewn, on each side; None where it does not, or not
    always as far.

    >>> seam_by_lines(Page('Draw a line. Sew 1/4" on each side of it.')).data
    {'seam': '1/4'}
    """
    found = {}
    for match in _BY_A_LINE.finditer(page.plain):
        read = measure(page.plain, match.end()) if not match["quarter"] else QUARTER
        end = match.end() if match["quarter"] or read is None else read.end
        behind = re.split(r"[.;]\s", page.plain[end:])[0]
        if read is not None and read.sides[-1].inches <= WIDEST_SEAM and _EACH_SIDE.search(behind):
            scant = "scant " if match["scant"] else ""
            found[scant + read.texts[0]] = page.words(match.start(), end)
    if len(found) != 1:
        return None
    ((seam, words),) = found.items()
    return Entry("sheet", {"seam": seam}, words, "seam")


def sizes_in(text):
    """The lengths and sizes of a text; bare numbers are none."""
    at = 0
    while match := _FIGURE.search(text, at):
        read = measure(text, match.start())
        at = max(read.end if read else 0, match.end())
        if read is None or read.across or read.doubt:
            continue
        if read.sides[-1].unit or len(read.sides) == 2 or _INCHES_OF.match(text, read.end):
            yield read


def _of_rows(text, words, entries):
    """How the blocks are set, where no other line says so: "twenty blocks, four across and five down"."""
    rows = in_passing(text).rows
    if len(rows) == 1 and not any(one.table == "setting" for one in entries):
        ((across, down),) = rows
        yield f"{across} across and {down} down", Entry("setting", {"across": across, "down": down}, words)


def _of_quilt(text, sizes, words, entries):
    """The finished size of the quilt, where the line is about it, or stands where a page begins; further down it is
    that of the top so far, where another line tells the one of the quilt."""
    if any("finished" in one.data for one in entries if one.table == "sheet"):
        return
    large = [
        one for one in sizes if min(side.inches for side in one.with_units()) >= LEAST_QUILT and _two_sides(one, text)
    ]
    about = (
        "quilt" in text
        or words.line <= LAST_OF_TITLE
        or _WITH_BORDERS.search(text)
        or not re.sub(r"[\W\d]|inch(?:es)?|cm|in\b|by|x", "", text)
        and not any(one.table == "cut" and one.words.start < words.start for one in entries)  # of what is sewn so far
    )
    if (
        about
        and len(large) == 1
        and not re.search(r"\b(?:cut|strips?|batting|backing|block|borders?)\b", _near(large[0], text))
        and not _SO_FAR.search(text[: large[0].start])
    ):
        size = (large[0].texts * 2)[:2]
        yield f"the quilt finishes {' x '.join(size)}", Entry("sheet", {"finished": size}, words, "finished")


def _near(one, text):
    """The words about a figure: those before it where they say what it is of, else those behind it, as far as the next
    sign or figure."""
    before = re.split(r"[,;()]|\d\S*", text[: one.start])[-1]
    after = re.split(r"[,;()]|\d", text[one.end :])[0]
    return before if _OF_WHAT.search(before) else f"{before} {after}"


def _two_sides(one: Measure, text: str) -> bool:
    """Whether it is a size of two sides, or of a square."""
    return len(one.sides) == 2 or len(one.sides) == 1 and bool(re.match(r"\W*square", text[one.end :]))


def _of_fabric(text, sizes, words, entries):
    """How wide the fabric is, and how large the batting, where no other line says so."""
    told = {key for one in entries for key in ("usable_width",) if key in one.data} | {one.table for one in entries}
    for one in sorted(sizes, key=lambda one: one.with_units()[0].inches):  # of two widths the usable one
        near = _near(one, text)
        wide = len(one.sides) == 1 and one.sides[0].inches in LEAST_TO_MOST_WIDE
        wide = wide and not _OF_THE_TOP.search(text) and (_WIDE.search(text) or not re.search(r"[a-z]{3}", text))
        if wide and not _LINING.search(near) and "usable_width" not in told:
            told.add("usable_width")
            yield f"fabric {one.texts[0]} wide", Entry("sheet", {"usable_width": one.texts[0]}, words, "usable_width")
        elif re.search(BATTING, near) and len(one.sides) == 2 and "batting" not in told:
            yield f"batting {' x '.join(one.texts)}", Entry("batting", {"size": one.texts}, words)


def _of_yardage(words, entries):
    """How much is bought of a fabric that is cut, and that no other line tells: "Light logs cream 1 1/2 yards"."""
    match = _YARDAGE.fullmatch(words.text.strip())
    bought = {naming.key(one.name) for one in entries if one.table == "fabric"}
    cut = {one.data["fabric"]: naming.key(one.data["fabric"]) for one in entries if one.data.get("fabric")}
    named = naming.key(match["name"]) if match else frozenset()
    found = [name for name, key in cut.items() if key and key <= named and key not in bought]
    read = measure(f"{match['yards']} in", 0) if match else None
    if len(found) == 1 and read is not None and not read.doubt:
        much = f"{read.texts[0]} yd"
        yield f"{much} of {found[0]}", Entry("fabric", {"bought": much}, words, found[0])


def _of_blocks(text, sizes, words, entries):
    """How many blocks there are and what they finish, where no other line says so."""
    told = [one for one in entries if one.table == "block"]
    if not _IN_BLOCKS.search(text) or len(told) > 1 or _CUTS.search(text):
        return
    known = told[0].data if told else {}
    counts = {int(match[1] or match[2]) for match in _COUNTED.finditer(text)}
    sides = {
        one.texts[0]
        for one in sizes
        if len({*one.texts}) == 1
        and LEAST_BLOCK <= one.with_units()[0].inches <= MOST_BLOCK
        and "block" in _near(one, text)
    }
    data = {"count": counts.pop()} if len(counts) == 1 and "count" not in known else {}
    as_finished = "finish" in text and "unfinish" not in text or words.line <= LAST_OF_TITLE
    if len(sides) == 1 and not {"finished", "trim_to"} & known.keys() and as_finished:
        data["finished"] = sides.pop()
    if data:
        said = [
            f"{data['count']} blocks" if "count" in data else "",
            f"finish {data['finished']}" if "finished" in data else "",
        ]
        label = " that ".join(filter(None, said))
        entry = told[0].but(**data) if told else Entry("block", data, words, "block")
        yield (label if "count" in data else f"the blocks {label}"), entry
