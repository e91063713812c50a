"""Printed counts and sizes of settings, borders, sashing and beds, each beside what the kit's plans give."""

import csv
from math import ceil

import pytest
import sympy

from quiltmath import blocks, lengths, proofs, resources, settings

ROWS = 73  # rows of data/published/settings.csv: topics c (counts on point), h (borders, sashing), i (beds)


def rows():
    with open(resources.folder("data") / "published" / "settings.csv", newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def mitred(side, width):
    """The least length of a mitred strip, from the cutting list of a plan with that side."""
    line = settings.straight(1, 1, side, borders=[settings.border(width, ends="mitred")]).line("border 1 side strip")
    assert line.exact[1] == proofs.mitred_strip.exact("strip", side=side, width=width)
    return line.exact[1]


def across(wish, one):
    """How many blocks of a one-block plan fill this width: whole ones and a fraction."""
    return (wish - one.width) / sympy.Rational(one.pitch) + 1


def strips(plan, usable):
    """How many strips of this usable width hold all sashes and, in strips of their own, all cornerstones."""
    needed = 0
    for part in ("sash", "cornerstone"):
        line = plan.line(part)
        needed += ceil(line.squares / (usable // line.size[-1]))
    return needed


def mattress(name):
    """A mattress as the tables print it."""
    return " x ".join(lengths.text(side) for side in settings.mattresses()[name])


NAMES = {
    "on_point": settings.on_point,
    "straight": settings.straight,
    "bed": settings.bed,
    "blocks": blocks,
    "Rational": sympy.Rational,
    "ceiling": sympy.ceiling,
    "mitred": mitred,
    "across": across,
    "strips": strips,
    "mattress": mattress,
}


def ours(row):
    """What the kit says, rounded as the source rounds."""
    found = eval(row["ask"], {"__builtins__": {}}, NAMES)
    if isinstance(found, str):
        return found
    if row["rounding"]:
        direction, step = row["rounding"].split()
        return lengths.ruler(found, step, direction)
    return sympy.nsimplify(found) if isinstance(found, float) else sympy.sympify(found)


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['topic']}: {row['input']}")
def test_a_printed_figure_agrees_or_says_why_not(row):
    printed = row["printed"] if row["ask"].startswith("mattress") else sympy.Rational(lengths.parse(row["printed"]))
    agrees = ours(row) == printed
    assert agrees == (not row["reason"]), (
        f"{row['input']}: printed {row['printed']}, here {ours(row)}; {row['source_title']}, {row['source_address']}"
    )


def test_every_row_names_its_source_and_none_is_dropped():
    assert len(rows()) == ROWS
    assert all(row["source_title"] and row["source_address"].startswith("http") for row in rows())
    assert sum(bool(row["reason"]) for row in rows()) == 21
