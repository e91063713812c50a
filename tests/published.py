"""Printed figures against the kit: what each row of data/published/figures.csv asks, and how the answer
compares."""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import sympy as sp

from quiltmath import lengths, proofs
from quiltmath.proofs.sources import rows
from quiltmath.usual import SEAM_IN as SEAM

ROOT_TWO = {"1.414": sp.Rational(1414, 1000), "1.41": sp.Rational(141, 100)}
BASES = ("exact", "trade", *ROOT_TWO)


@dataclass(frozen=True)
class Compared:
    """One row: the figure as printed and the kit's, and "agrees", "agrees after rounding" or "differs"."""

    row: dict
    printed: Fraction
    exact: object
    rounded: Fraction | None

    @property
    def verdict(self):
        if self.rounded != self.printed:
            return "differs"
        return "agrees after rounding" if self.row["rounding"] else "agrees"

    @property
    def short(self):
        """A size to cut that agrees by the source's rounding and yet is smaller than the exact one."""
        kinds = {
            proof.kind(measure or None)
            for proof in proofs.every()
            for measure in re.findall(rf"\b{proof.name}\((?:'([^']*)')?", self.row["ask"])
        }
        return (
            self.verdict != "differs"
            and self.row["unit"] in ("in", "cm")
            and kinds == {"cut"}
            and bool(self.printed < self.exact)
        )

    def __str__(self):
        row, by = self.row, f" ({self.row['rounding']})" if self.row["rounding"] else ""
        return (
            f"{row['input']}: printed {row['printed']}, here {sp.N(self.exact, 8)}{by}; "
            f"{row['source_title']}, {row['source_address']}"
        )


def compared(row):
    """A row of the published figures, compared."""
    return Compared(row, lengths.parse(row["printed"]), answer(row["ask"]), rounded(row["ask"], row["rounding"]))


@cache
def all_compared():
    """Every row, compared, in the order of the data."""
    return tuple(compared(row) for row in rows())


def answer(ask, basis="exact"):
    """What the kit says to a question such as `half_square(finished=3)`: an exact number, or the trade's."""
    number = sp.sympify(eval(ask, {"__builtins__": {}}, _names(basis)))
    return number.subs(sp.sqrt(2), ROOT_TWO[basis]) if basis in ROOT_TWO else number


def rounded(ask, rounding):
    """The answer after a named rounding such as "exact up 1/8"; "" is none, and None an answer no figure can
    equal."""
    basis, *how = rounding.split() or ["exact"]
    if basis not in BASES or len(how) not in (0, 2):
        raise ValueError(f"a rounding is a basis ({', '.join(BASES)}), a direction and a step; got {rounding!r}")
    number = answer(ask, basis)
    if how:
        return lengths.ruler(number, how[1], how[0])
    return Fraction(number.p, number.q) if number.is_Rational else None


def _names(basis):
    return {
        **{proof.name: _asking(proof, basis) for proof in proofs.every()},
        "SEAM": sp.sympify(SEAM["in"]),
        "Rational": sp.Rational,
        "sqrt": sp.sqrt,
        "cm": lambda inches: sp.sympify(inches) / lengths.INCHES["cm"],
    }


def _asking(proof, basis):
    def ask(measure=None, /, **quantities):
        rule = None if basis == "exact" else proof.trade(measure, **quantities)
        return proof.exact(measure, **quantities) if rule is None else rule

    return ask
