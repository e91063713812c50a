"""Sheets: drawn by the schema, bent, with other numbers, letters lost; reviewed, corrected, printed, put into forms."""

import contextlib
import io
import json
import random
import string
import tempfile
from copy import deepcopy
from pathlib import Path

from hypothesis import strategies as st

from quiltmath import handout, pattern, review
from quiltmath.__main__ import main
from quiltmath.demos import form_values
from quiltmath.review.report import as_html
from quiltmath.review.report.contents import contents
from quiltmath.review.writing import text as in_words

from .. import guide, rare, sheets
from ..schema import DEFS, MODELS, SCHEMA, tables
from ..sheets import typed
from ..strategies import from_schema
from ..test_pattern_hostile import bent_sheets
from .expected import Wrong, lines_that_print, message
from .jobs import next_job

NAME = "case.toml"
ODD_NAMES = ("dark red", "A/B", "a, b", "four ", "T:90", "-", "ß", "x" * 40, "setting", "0", "'", "#", "=")
SOUND = [
    *(sheets.demo(path) for path in sheets.paths("sound")),
    *(data for _, data, _ in guide.sheets()),
    *(data for _, data in rare.sheets()),
]
FAULTY = [sheets.demo(path) for path in sheets.paths("faulty")]


def sound():
    """A sound sheet as plain tables that may be changed; every key there is stands in one of them."""
    return st.sampled_from(range(len(SOUND))).map(lambda number: deepcopy(SOUND[number]))


def sound_or_faulty():
    """A sheet as plain tables that may be changed."""
    return sound() | st.sampled_from(range(len(FAULTY))).map(lambda number: deepcopy(FAULTY[number]))


def names_of(data):
    """What may be named in a sheet."""
    names = [*data.get("fabric", ()), *data.get("block", ()), *data.get("unit", ()), *data.get("strip_set", ())]
    return tuple(dict.fromkeys([*names, *(cut["part"] for cut in data["cut"]), "A", "setting"]))


# -- how they are drawn


@st.composite
def by_schema(draw):
    """A sound sheet, some of whose tables are drawn anew as the published schema allows."""
    data = draw(sound())
    names = names_of(data)
    for key in draw(st.lists(st.sampled_from(sorted(SCHEMA["properties"])), min_size=1, max_size=3, unique=True)):
        data[key] = draw(from_schema(SCHEMA["properties"][key], DEFS, names))
    return typed(data)


@st.composite
def with_keys_drawn(draw):
    """A sound sheet in whose tables some keys, there or not, are drawn as the published schema allows."""
    data = draw(sound())
    names = names_of(data)
    places = [(table, key, one) for model, table in tables(data) for key, one in MODELS[model]["properties"].items()]
    rare_ones = [place for place in places if place[1] not in place[0]]
    for table, key, one in draw(st.lists(st.sampled_from(places) | st.sampled_from(rare_ones), min_size=1, max_size=3)):
        table[key] = draw(from_schema(one, DEFS, names))
    return typed(data)


@st.composite
def with_other_numbers(draw):
    """A sheet, sound or faulty, with some of its numbers and sizes others, and some words of its rows exchanged."""
    data = draw(sound_or_faulty())
    leaves = list(_leaves(data))
    for place, key in draw(st.lists(st.sampled_from(leaves), min_size=1, max_size=5)):
        value = place[key]
        if isinstance(value, bool):
            place[key] = not value
        elif isinstance(value, (int, float)):
            place[key] = draw(st.sampled_from([1, 2, value + 1, value - 1, 2 * value, 7, 20, 60, 400]))
        elif len(value.split()) > 1 and not value[:1].isdigit():
            place[key] = " ".join(draw(st.permutations(value.split())))
        elif value[:1].isdigit():
            place[key] = draw(st.sampled_from(SIZES))
    return typed(data)


SIZES = ("1/8", "1/4", "1", "2 1/2", "3 7/8", "5.5", "9 3/4", "12 1/2", "18 1/4", "40", "100", "600", "2 yd", "30 cm")


def _leaves(value):
    """Where the plain values of tables stand, as (table or list, key)."""
    for key, one in value.items() if isinstance(value, dict) else enumerate(value):
        if isinstance(one, (dict, list)):
            yield from _leaves(one)
        elif key not in ("title", "note", "instructions"):
            yield value, key


@st.composite
def with_letters_lost(draw):
    """The text of a sheet, sound or faulty, with some of its letters lost, doubled or others."""
    files = [path.read_text("utf-8") for path in (*sheets.paths("sound"), *sheets.paths("faulty"))]
    text = list(draw(st.sampled_from([*files, *map(typed, SOUND)])))
    chance = random.Random(draw(st.integers(0, 2**32)))
    for _ in range(chance.randint(1, 8)):
        at = chance.randrange(len(text))
        text[at] = chance.choice(["", "", text[at] * 2, chance.choice(string.printable)])
    return "".join(text)


@st.composite
def renamed(draw):
    """A sound sheet in which some names are others, as people type them."""
    sheet = draw(sound())
    for cut in draw(st.lists(st.sampled_from(sheet["cut"]), min_size=1, max_size=3)):
        old, new = cut["part"], draw(st.sampled_from(ODD_NAMES) | st.text(min_size=1, max_size=6))
        sheet = _everywhere(sheet, old, new)
    return typed(sheet)


def _everywhere(value, old, new):
    """Plain tables with one name for another, in rows too, which become lists, and as the key of a table."""
    if isinstance(value, dict):
        return {new if key == old else key: _everywhere(one, old, new) for key, one in value.items()}
    if isinstance(value, list):
        return [_everywhere(one, old, new) for one in value]
    if not isinstance(value, str):
        return value
    if value == old:
        return new
    words = value.split()
    return [new if word == old else word for word in words] if old in words and len(words) > 1 else value


def bent():
    """The text of a sound sheet with some of its values replaced, left out or doubled."""
    return bent_sheets(sound()).map(typed)


# -- how they are tried


def reviewed(text):
    """A sheet's text, reviewed and told in words and as plain data; or refused."""
    try:
        found = review.review(pattern.read_text(text, NAME))
    except pattern.Unreadable as problem:
        return message(problem, NAME)
    lines_that_print(in_words(found))
    json.dumps(found.as_dict(), allow_nan=False)
    return found.verdict


def corrected(text):
    """A sheet's text, reviewed, corrected and reported; what is written is read again."""
    try:
        found = review.review(pattern.read_text(text, NAME))
    except pattern.Unreadable as problem:
        return message(problem, NAME)
    next_job()
    as_html.html(contents(found), "case")
    next_job()
    pattern.read_text(review.corrected(found).text(), "corrected.toml")
    return found.verdict


def handed_out(text):
    """A sheet's text as pages to hand over, templates too, or one message on why there are none."""
    try:
        found = review.review(pattern.read_text(text, NAME))
    except pattern.Unreadable as problem:
        return message(problem, NAME)
    next_job()
    if found.verdict != "go":
        review.corrected(found)  # kept: of what does not go the correction is handed over
        next_job()
    try:
        pages = handout.handout(found, ["pattern", "cutting", "templates"])
    except handout.CannotHandOver as problem:
        return message(problem, "")
    next_job()
    if not pages.pdf().startswith(b"%PDF"):
        raise Wrong("no PDF")
    return "handed out"


def form(text):
    """A form filled from a sheet, read and saved: the same sheet again."""
    try:
        sheet = pattern.read_text(text, NAME)
    except pattern.Unreadable as problem:
        return message(problem, NAME)
    values, aside = form_values.filled_from(sheet)
    again = form_values.read(values, aside)
    saved = pattern.read_text(pattern.text(again), NAME)
    if not _said(again) == _said(sheet) == _said(saved):
        raise Wrong("the form gives another sheet than it was filled from")
    return "kept"


def _said(sheet):
    """What a sheet says, tables with nothing in them left out."""
    said = sheet.model_dump()
    nothing = {
        key
        for key, one in said.items()
        if all(value is None for value in (one.values() if isinstance(one, dict) else [one]))
    }
    return {key: one for key, one in said.items() if key not in nothing}


# -- commands

OPTIONS = (
    ["--fix", "mended.toml"],
    ["--fix", "mended.toml", "--force"],
    ["--fix", NAME],
    ["--save", "report.html"],
    ["--save", "report.html", "--teacher"],
    ["--handout", "pages.pdf"],
    ["--json"],
    ["--force"],
)


@st.composite
def commands(draw):
    """A sheet's text, and what `quiltmath review` is asked to do with it."""
    some = st.lists(st.sampled_from(OPTIONS), min_size=1, max_size=3, unique_by=lambda option: option[0])
    sheet = draw(with_other_numbers() | with_keys_drawn() | with_letters_lost())
    return sheet, [word for option in draw(some) for word in option]


def commanded(case):
    """A command's exit code, and messages of one line each; what it wrote is whole, what it read is as it was."""
    text, options = case
    out, err = io.StringIO(), io.StringIO()
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        Path(NAME).write_text(text, "utf-8")
        Path("before.toml").write_text(text, "utf-8")
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = main(["review", NAME, *options])
        if Path(NAME).read_bytes() != Path("before.toml").read_bytes():
            raise Wrong("the sheet itself was written over")
        for line in filter(None, lines_that_print(err.getvalue()).split("\n")):
            if "--json" not in options:  # else what is told goes there too
                message(line, "quiltmath: ")
        _are_whole({path.name for path in Path().iterdir()} - {NAME, "before.toml"})
    if code not in (0, 1, 2) or (code == 2) != ("quiltmath: " in err.getvalue()):
        raise Wrong(f"exit code {code}, and on standard error {err.getvalue()[:300]!r}")
    lines_that_print(out.getvalue())
    return ("go", "ask or stop", "refused")[code]


def _are_whole(names):
    known = {"mended.toml": b"", "report.html": b"</html>", "pages.pdf": b"%%EOF"}
    if names - known.keys():
        raise Wrong(f"left behind: {names - known.keys()}")
    for name in names:
        if not Path(name).read_bytes().rstrip().endswith(known[name]):
            raise Wrong(f"{name} is not whole")
    if "mended.toml" in names:
        pattern.read("mended.toml")
