"""Printed pages, as text and as the bytes of files: drafted, asked about, completed, put into the form."""

import random
import re
import tempfile
import tomllib
from io import BytesIO
from pathlib import Path

from hypothesis import strategies as st
from pypdf import PdfReader, PdfWriter

from quiltmath import pattern, review
from quiltmath.demos import form_page, form_values, pasted
from quiltmath.pattern import drafting
from quiltmath.pattern.drafting.command import told

from .. import drafting as lines_of
from ..guide import FERRY
from ..sheets import typed
from ..test_drafting import PAGE, pdf
from .expected import Wrong, lines_that_print, message
from .jobs import next_job

NAME = "page.txt"
LINES = [line.page for name in lines_of.LISTS for line in lines_of.lines(name)]
PAGES = [FERRY, PAGE]
MOST_ANSWERS = 5
FIGURES = [
    "0",
    "1",
    "7",
    "12",
    "400",
    "31/2",
    "3 1/2",
    "3-1/2",
    "1/0",
    "½",
    "٣",
    "1e9",
    "1.5.2",
    "9" * 30,
    "-4",
    "1,000",
]
SIGNS = [
    *"\t()x×\"“”'′:;,.•–-&+@#/\\",
    "\n\n",
    "\r\n",
    "\u00ad",
    "\u200b",
    "\x1b[1m",
    "\x00",
    "ß",
    "e\u0301",
    "\ufeff",
    " " * 40,
]
WORDS = [
    "each",
    "of",
    "or",
    "extra",
    "from",
    "strips",
    "squares",
    "WOF",
    "binding",
    "border",
    "cut",
    "twice",
    "sub-cut",
    "yd",
    "cm",
]
HEADS = [
    "Cutting",
    "From navy, cut:",
    "Inner border",
    "Block A (make 12)",
    "Fabric requirements",
    "Assembly",
    "Binding",
    "Backing",
]


@st.composite
def pages(draw):
    """The text of a page: printed lines, whole pages, spoilt in some places, in narrow lines or in columns."""
    chance = random.Random(draw(st.integers(0, 2**32)))
    lines = chance.choice(PAGES).split("\n") if chance.random() < 0.3 else []
    lines += [chance.choice(HEADS if chance.random() < 0.15 else LINES) for _ in range(chance.randint(0, 25))]
    if chance.random() < 0.3:
        chance.shuffle(lines)
    lines = [_spoilt(line, chance) if chance.random() < 0.3 else line for line in lines]
    shape = chance.random()
    if shape < 0.15:
        lines = [line.ljust(chance.choice([36, 48, 60])) + other for line, other in zip(lines, reversed(lines))]
    elif shape < 0.3:
        lines = [part for line in lines for part in re.findall(r".{1,34}(?:\s|$)|.{34}", line)]
    text = chance.choice(["\n"] * 8 + ["\r\n", " "]).join(lines)
    return (text + "\n") * (chance.choice([20, 90]) if chance.random() < 0.01 else 1)


def _spoilt(line, chance):
    """A line with a figure or a word another, or signs lost, doubled, put in."""
    how = chance.randrange(5)
    at = chance.randrange(len(line) + 1)
    if how == 0:
        return re.sub(r"\d[\d /.-]*", lambda found: chance.choice([found[0], chance.choice(FIGURES)]), line)
    if how == 1:
        return f"{line[:at]}{chance.choice(SIGNS)}{line[at:]}"
    if how == 2:
        return line[:at] + line[at + chance.randint(1, 3) :]
    if how == 3:
        words = line.split(" ")
        chance.shuffle(words)
        return " ".join(words)
    return f"{line[:at]} {chance.choice(WORDS)} {line[at:]}"


def drafted(text):
    """A page's text drafted, its questions answered, completed and reviewed; the form has the same of it."""
    try:
        page = pasted.Page(text, NAME)
        draft = page.draft()
    except drafting.Unreadable as problem:
        return message(problem, NAME)
    chance = random.Random(text)
    _is_told(draft)
    for _ in range(MOST_ANSWERS):
        if not draft.questions:
            break
        next_job()
        asked = draft.questions[0]
        page = page.answered(asked, chance.choice([None, *asked.choices]))
        draft = page.draft()
        if asked in draft.questions:
            raise Wrong(f"asked again: {asked.text}")
        _is_told(draft)
    next_job()
    return _completed(pasted.filled(draft), chance)


def _is_told(draft):
    """A draft as a sheet's text, in words, and beside its page: all of it can be read."""
    tomllib.loads(draft.text())
    lines_that_print(told(draft, "new.toml"))
    form_page.understood(draft)
    try:
        draft.sheet()
    except pattern.Unreadable as problem:
        message(problem, NAME)


def _completed(data, chance):
    """The tables of a draft with what only drawings show: in the form and in a sheet they come to the same."""
    parts = [cut["part"] for cut in data.get("cut", ())] or ["A"]
    data.setdefault("title", "Untitled")
    for cut in data.get("cut", ()):
        cut.setdefault("fabric", next(iter(data.get("fabric", ())), "linen"))
    for block in data.get("block", {}).values():
        block.setdefault("rows", [[chance.choice(parts) for _ in range(2)] for _ in range(2)])
    for border in data.get("border", ()):
        if not border:
            border |= dict.fromkeys(("sides", "top"), chance.choice(parts))
    setting = {"style": "straight", "across": 2, "down": 3, "block": next(iter(data.get("block", parts)))}
    data["setting"] = setting | data.get("setting", {})
    sheet, in_form = (
        _read(lambda: pattern.read_text(typed(data), NAME), NAME),
        _read(lambda: form_values.read(*form_values.filled_from(data)), "the form"),
    )
    if (sheet and sheet.model_dump()) != (in_form and in_form.model_dump()):
        raise Wrong(f"as a sheet {sheet!r}, in the form {in_form!r}")
    return "refused" if sheet is None else review.review(sheet).verdict


def _read(read, place):
    """A sheet; None where it is refused."""
    try:
        return read()
    except pattern.Unreadable as problem:
        message(problem, place)
        return None


# -- files


@st.composite
def files(draw):
    """The bytes of a file that may be a page: PDF, text in some encoding, spoilt or whole."""
    chance = random.Random(draw(st.integers(0, 2**32)))
    lines = [_spoilt(chance.choice(LINES), chance) for _ in range(chance.randint(1, 12))]
    if chance.random() < 0.4:
        raw = "\n".join(lines).encode(chance.choice(["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252"]), "replace")
    else:
        raw = _pdf([re.sub(r"[^ -~]|[()\\]", "", line) for line in lines], chance)
    raw = bytearray(raw)
    for _ in range(chance.choice([0, 0, 1, 3, 10])):
        at = chance.randrange(len(raw) + 1)
        way = chance.randrange(5)
        if way == 0:
            raw[at : at + chance.randint(1, 60)] = b""
        elif way == 1:
            raw[at:at] = chance.randbytes(chance.randint(1, 8))
        elif way == 2:
            raw[at:at] = raw[chance.randrange(len(raw) + 1) :][: chance.randint(1, 200)]
        elif way == 3:
            raw = bytearray(
                re.sub(
                    rb"\d+", lambda found: chance.choice([found[0]] * 9 + [b"0", b"7", b"-1", b"9" * 12]), bytes(raw)
                )
            )
        else:
            raw[at:at] = chance.choice(
                [b"%PDF-1.4\n", b"endobj", b"stream\n", b"<<", b">>", b"[", b"/Kids", b"\xff\xfe", b"\x00"]
            )
    return bytes(raw)


def _pdf(lines, chance):
    """The bytes of a PDF with these lines, in one of the ways in which programs write them."""
    raw = pdf(*lines, password="" if chance.random() < 0.1 else None)
    if chance.random() < 0.5:
        writer = PdfWriter()
        for page in [*PdfReader(BytesIO(pdf(*lines))).pages] * chance.randint(1, 3):
            writer.add_page(page).compress_content_streams()
        file = BytesIO()
        writer.write(file)
        raw = file.getvalue()
    return raw


def from_a_file(raw):
    """The bytes of a file, read as a page and drafted, by the command and by the form."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / NAME
        path.write_bytes(raw)
        try:
            text = pattern.page_text(path)
        except drafting.Unreadable as problem:
            return message(problem, str(path))
    if pasted.text_of(NAME, raw) != text:
        raise Wrong("the form reads another text")
    try:
        draft = pattern.draft(text, NAME)
    except drafting.Unreadable as problem:
        return message(problem, NAME)
    _is_told(draft)
    return "drafted"
