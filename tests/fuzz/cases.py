"""The kinds of cases: how each is drawn, and what trying it must come to."""

import contextlib
import io
import json
import random
import string
import tempfile
from pathlib import Path

from hypothesis import strategies as st

from quiltmath import lengths, pattern, proofs, review
from quiltmath.__main__ import main
from quiltmath.demos import form_values
from quiltmath.review.report import as_html
from quiltmath.review.report.contents import contents
from quiltmath.review.writing import text as in_words

from ..sheets import demo, paths, typed
from ..strategies import from_schema
from ..test_pattern_hostile import bent_sheets

NAME = "case.toml"
LONGEST_MESSAGE = 1000
ODD_NAMES = ("dark red", "A/B", "a, b", "four ", "T:90", "-", "ß", "x" * 40, "setting", "0", "'", "#", "=")
SCHEMA = pattern.json_schema()


class Wrong(AssertionError):
    """A case that came to what it must not."""


def message(problem, place=NAME):
    """What a refusal says, which is one line for a person that names the place."""
    said = str(problem)
    if not said.startswith(place) or not said.isprintable() or len(said) > LONGEST_MESSAGE:
        raise Wrong(f"no message of one line that begins with {place!r}: {said[:LONGEST_MESSAGE]!r}")
    return "refused"


def reviewed(text):
    """A sheet's text, reviewed and told in words and as plain data; or refused."""
    try:
        found = review.review(pattern.read_text(text, NAME))
    except pattern.Unreadable as problem:
        return message(problem)
    words = in_words(found)
    if any(not line.isprintable() for line in words.split("\n")):
        raise Wrong(f"words that do not print: {words[:LONGEST_MESSAGE]!r}")
    json.dumps(found.as_dict(), allow_nan=False)
    return found.verdict


def corrected(text):
    """A sheet's text, reviewed, corrected and reported; what is written is read again."""
    try:
        found = review.review(pattern.read_text(text, NAME))
    except pattern.Unreadable as problem:
        return message(problem)
    as_html.html(contents(found), "case")
    pattern.read_text(review.corrected(found).text(), "corrected.toml")
    return found.verdict


# -- sheets


@st.composite
def by_schema(draw):
    """A sound sheet, some of whose tables are drawn anew as the published schema allows."""
    data = demo(draw(st.sampled_from(paths("sound"))))
    names = [*data.get("fabric", ()), *data.get("block", ()), *data.get("unit", ())]
    names += [cut["part"] for cut in data["cut"]] + ["A", "setting"]
    for key in draw(st.lists(st.sampled_from(sorted(SCHEMA["properties"])), min_size=1, max_size=3, unique=True)):
        data[key] = draw(from_schema(SCHEMA["properties"][key], SCHEMA["$defs"], tuple(dict.fromkeys(names))))
    return typed(data)


@st.composite
def with_other_numbers(draw):
    """A sheet, sound or faulty, with some of its numbers and sizes others, and some words of its rows exchanged."""
    data = demo(draw(st.sampled_from([*paths("sound"), *paths("faulty")])))
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
    text = list(draw(st.sampled_from([*paths("sound"), *paths("faulty")])).read_text("utf-8"))
    chance = random.Random(draw(st.integers(0, 2**32)))
    for _ in range(chance.randint(1, 8)):
        at = chance.randrange(len(text))
        text[at] = chance.choice(["", "", text[at] * 2, chance.choice(string.printable)])
    return "".join(text)


def from_a_file(raw):
    """A file of these bytes, read as a sheet."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / NAME
        path.write_bytes(raw)
        try:
            pattern.read(path)
        except pattern.Unreadable as problem:
            return message(problem, str(path))
    return "read"


# -- lengths, proofs, forms

SIGNS = [
    *"0123456789",
    *"   //..--,+_eExX'\"½¾⅞⅓×″′",
    "in",
    "cm",
    "mm",
    "yd",
    "m",
    "ft",
    "inf",
    "nan",
    "1/4",
    "\t",
    "\n",
    "٣",
    "−",
]


def length(text):
    """A length read, and written again."""
    try:
        inches = lengths.parse(text)
    except ValueError as problem:
        return message(problem, "")
    if lengths.parse(lengths.text(inches).removeprefix("about ")) != inches and not lengths.text(inches).startswith(
        "about"
    ):
        raise Wrong(f"{text!r} is read as {inches} and written as {lengths.text(inches)}")
    return "read"


@st.composite
def questions(draw):
    """What may be asked of `quiltmath why`."""
    proof = draw(st.sampled_from(proofs.every()))
    given = [f"{name}={draw(st.text(SIGNS_OF_A_VALUE, max_size=9) | VALUES)}" for name in draw(_quantities(proof))]
    return [draw(st.sampled_from([proof.name] * 9 + [proof.name[:-1], proof.name.upper()])), *given]


SIGNS_OF_A_VALUE = "0123456789/.- e"
VALUES = st.sampled_from(["3", "12", "1/4", "0", "-1", "3 7/8", "1e9", "9.8 cm", "in", "cm", "", "1e-9", "=", "40 1/2"])


def _quantities(proof):
    known = [quantity.name for quantity in proof.quantities]
    return st.lists(st.sampled_from([*known, *known, "seam", "unit", "step", "colour"]), max_size=len(known) + 2)


def asked(arguments):
    """A derivation printed, or one line on why not."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            code = main(["why", *arguments])
        except SystemExit as left:
            code = left.code
    said = err.getvalue()
    if (code == 0) != bool(out.getvalue()) or code not in (0, 1, 2):
        raise Wrong(f"exit code {code}, {len(out.getvalue())} characters on standard output and {said[:200]!r}")
    return "told" if code == 0 else message(said.strip().split("\n")[-1], "")


@st.composite
def renamed(draw):
    """A sound sheet in which some names are others, as people type them."""
    sheet = demo(draw(st.sampled_from(paths("sound"))))
    for cut in draw(st.lists(st.sampled_from(sheet["cut"]), min_size=1, max_size=3)):
        old, new = cut["part"], draw(st.sampled_from(ODD_NAMES) | st.text(min_size=1, max_size=6))
        sheet = _everywhere(sheet, old, new)
    return typed(sheet)


def _everywhere(value, old, new):
    """Plain tables with one name for another, in rows too, which become lists."""
    if isinstance(value, dict):
        return {key: _everywhere(one, old, new) for key, one in value.items()}
    if isinstance(value, list):
        return [_everywhere(one, old, new) for one in value]
    if not isinstance(value, str):
        return value
    if value == old:
        return new
    words = value.split()
    return [new if word == old else word for word in words] if old in words and len(words) > 1 else value


def form(text):
    """A form filled from a sheet, read and saved: the same sheet again."""
    try:
        sheet = pattern.read_text(text, NAME)
    except pattern.Unreadable as problem:
        return message(problem)
    values, aside = form_values.filled_from(sheet)
    again = form_values.read(values, aside)
    saved = pattern.read_text(pattern.text(again), NAME)
    if not again.model_dump() == sheet.model_dump() == saved.model_dump():
        raise Wrong("the form gives another sheet than it was filled from")
    return "kept"


KINDS = {
    "schema": (by_schema(), reviewed),
    "bent": (bent_sheets().map(typed), reviewed),
    "numbers": (with_other_numbers(), reviewed),
    "corrected": (with_other_numbers(), corrected),
    "letters": (with_letters_lost(), reviewed),
    "text": (st.text(max_size=400), reviewed),
    "bytes": (st.binary(max_size=600), from_a_file),
    "lengths": (st.lists(st.sampled_from(SIGNS), max_size=9).map("".join) | st.text(max_size=30), length),
    "why": (questions(), asked),
    "form": (renamed(), form),
}
"""{kind: (strategy of its cases, what one is tried by)}."""
