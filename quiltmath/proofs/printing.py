"""A proof as text, the way a lesson reads."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from quiltmath import lengths
from quiltmath.lengths import Length
from quiltmath.proofs.writing import written
from quiltmath.root2 import Root2
from quiltmath.usual import RULER as STEP
from quiltmath.usual import SEAM_IN as SEAM

if TYPE_CHECKING:
    import sympy

    from quiltmath.proofs.proof import Proof

WIDE = 100
SHOWN = 3  # sources named below a proof; the rest are in the data


def printed(proof: Proof, values: Mapping[str, Length], step: Length | None = None, unit: str | None = None) -> str:
    """The derivation of a proof as text; with values also the numbers, the ruler's figure and the rule of thumb.

    `values` are the quantities as `Proof.exact` takes them (none of them, or all but the seam).
    """
    lines = [proof.title, "=" * len(proof.title), *_wrapped(proof.question), ""]
    for number, told in enumerate(proof.steps, 1):
        lines += [*_wrapped(told.words, f"{number}. "), *(line for sides in told.sides for line in _equation(sides))]
    lines.append("")
    lines += [numbers(proof, values, step, unit)] if values else _invitation(proof)
    return "\n".join(lines)


def figure(number: Fraction | Root2 | sympy.Expr, unit: str = "in") -> str:
    """An exact number as a person reads it: 3 7/8 in, or 3.8536 in for what no ruler shows.

    >>> import sympy
    >>> figure(sympy.Rational(31, 8)), figure(sympy.sqrt(2), "cm")
    ('3 7/8 in', 'about 1.4142 cm')
    """
    return lengths.text(number * lengths.INCHES[unit], unit, mark="in" if unit == "in" else "")


def _given(proof, values, unit):
    """The quantities as given, the seam among them."""
    seam = {"seam": SEAM[unit]} if "seam" in proof.names else {}
    asked = {**values, **seam, **values}
    return ", ".join(f"{name} = {written_number(value)}" for name, value in asked.items())


def written_number(value: Length) -> str:
    """A given value as it is written back: text as it is, a SymPy number as a formula, else on a ruler."""
    if isinstance(value, str) or hasattr(value, "free_symbols"):
        return written(value)
    return lengths.text(value)


def unit_of(values: Mapping[str, Length]) -> str:
    """The unit of an answer to these values: centimetres where one of them is written in cm or mm.

    >>> unit_of({"finished": "10 cm"}), unit_of({"finished": "3 7/8", "seam": 0.25})
    ('cm', 'in')
    """
    return "cm" if any(str(value).rstrip().endswith(("cm", "mm")) for value in values.values()) else "in"


def numbers(proof: Proof, values: Mapping[str, Length], step: Length | None = None, unit: str | None = None) -> str:
    """The results of a proof at these values, as text: exact, on the ruler, and beside the trade's rule."""
    unit, lines = unit or unit_of(values), []
    for measure in proof.measures.values():
        exact = proof.exact(measure.name, unit=unit, **values)
        lines += _equation(dict.fromkeys([measure.name, written(measure.formula), written(exact)]), "  ")
        lines += _ruled(proof, measure, exact, values, step, unit)
        lines += _trade(proof, measure, exact, values, unit)
    return "\n".join([f"With {_given(proof, values, unit)}:", *lines])


def _ruled(proof, measure, exact, values, step, unit):
    """The exact number as a person reads it, and on the ruler if it is cut."""
    if measure.kind in ("count", "number"):
        return [] if exact.is_Integer else [f"      that is {lengths.text(exact)}"]
    size = f"      that is {figure(exact, unit)}"
    if measure.kind == "length":
        return [size]
    cut = proof.cut(measure.name, step=step, unit=unit, **values)
    return [f"{size}; up to the ruler's next {step or STEP[unit]}: {figure(cut, unit)}"]


def _trade(proof, measure, exact, values, unit):
    """The trade's rule of thumb and how far it lies off, where it does."""
    trade = proof.trade(measure.name, unit=unit, **values)
    if trade is None or trade == exact:
        return []
    gap = trade - exact
    rule = proof.thumb(measure.name, unit=unit, seam=values.get("seam"))
    side = "more than" if gap > 0 else "short of"
    off = f"{figure(abs(gap), unit)} {side} the exact size"
    return [f"      rule of thumb: {rule} = {figure(trade, unit)}: {off}"]


def _invitation(proof):
    """What to give for numbers, and the trade's rules."""
    rules = ((name, proof.thumb(name)) for name in proof.measures)
    return [
        "Give" if "seam" not in proof.names else "Give (the seam is 1/4 in unless given)",
        *(f"  {q.name}: {q.words}; {q.permitted}" for q in proof.quantities),
        *(f"  rule of thumb for {name}: {rule}" for name, rule in rules if rule),
    ]


def sources_named(proof: Proof) -> str:
    """Where figures are printed that a proof is compared with, as text."""
    found, here = proof.source, "Source: derived here from the finished shape; "
    if not found:
        return f"{here}no printed figure to compare it with was found."
    more = len(found) - SHOWN
    return "\n".join(
        [
            f"{here}compared in the tests with figures printed in",
            *(f"  {title} ({address})" for title, address in found[:SHOWN]),
            *([f"  and {more} more in data/published/figures.csv"] if more > 0 else []),
        ]
    )


def _equation(sides, indent="      "):
    """Equal sides on one line, or each on its own where they are long."""
    first, *rest = sides
    line = indent + " = ".join([first, *rest])
    return [line] if len(line) <= WIDE else [f"{indent}{first}", *(f"{indent}    = {side}" for side in rest)]


def _wrapped(words, first=""):
    return textwrap.wrap(words, WIDE, initial_indent=first, subsequent_indent=" " * len(first))
