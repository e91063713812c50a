"""The kinds of cases: how each is drawn, and what trying it must come to."""

import contextlib
import io
import tempfile
from pathlib import Path

from hypothesis import strategies as st

from quiltmath import lengths, pattern, proofs
from quiltmath.__main__ import main

from . import of_pages, of_sheets
from .expected import Wrong, message


def from_a_file(raw):
    """A file of these bytes, read as a sheet."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / of_sheets.NAME
        path.write_bytes(raw)
        try:
            pattern.read(path)
        except pattern.Unreadable as problem:
            return message(problem, str(path))
    return "read"


# -- lengths, proofs

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


KINDS = {
    "schema": (of_sheets.by_schema(), of_sheets.reviewed),
    "keys": (of_sheets.with_keys_drawn(), of_sheets.reviewed),
    "bent": (of_sheets.bent(), of_sheets.reviewed),
    "numbers": (of_sheets.with_other_numbers(), of_sheets.reviewed),
    "corrected": (of_sheets.with_other_numbers() | of_sheets.with_keys_drawn(), of_sheets.corrected),
    "printed": (of_sheets.with_other_numbers(), of_sheets.handed_out),
    "commands": (of_sheets.commands(), of_sheets.commanded),
    "letters": (of_sheets.with_letters_lost(), of_sheets.reviewed),
    "form": (of_sheets.renamed() | of_sheets.with_keys_drawn(), of_sheets.form),
    "text": (st.text(max_size=400), of_sheets.reviewed),
    "bytes": (st.binary(max_size=600), from_a_file),
    "pages": (of_pages.pages(), of_pages.drafted),
    "files": (of_pages.files(), of_pages.from_a_file),
    "lengths": (st.lists(st.sampled_from(SIGNS), max_size=9).map("".join) | st.text(max_size=30), length),
    "why": (questions(), asked),
}
"""{kind: (strategy of its cases, what one is tried by)}."""
