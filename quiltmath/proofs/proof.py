"""What a proof is: a derivation told once, kept, and asked for exact sizes, cut sizes and quick floats."""

import inspect
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import isfinite

import sympy as sp

from quiltmath import lengths
from quiltmath.proofs.story import Story
from quiltmath.proofs.writing import tidy, written

SEAM = {"in": Fraction(1, 4), "cm": Fraction(3, 4), "mm": Fraction(15, 2)}
"""The seam where none is given, in each unit: the trade's 1/4 in, and its 0.75 cm in metric patterns."""

STEP = {"in": "1/8", "cm": "1 mm", "mm": "1 mm"}
"""The ruler's step where none is given."""

THUMB = {"in": ("1/8", "up"), "cm": ("0.5 cm", "nearest"), "mm": ("0.5 cm", "nearest")}
"""How the trade rounds the seam's share: inch tables up to an eighth, metric tables to the nearest half
centimetre.

Metric tables thereby come out short where the share lies just above a half centimetre (2.5 cm for 2.5607 cm).
"""

MOST = 1000  # the largest count a proof takes: more pieces than any quilt has in a row


@dataclass(frozen=True)
class Quantity:
    """One quantity a proof takes: its name, what it is, its kind ("length" or "count") and its permitted
    range.

    `limits` are (parts, other) pairs: `parts` of it fit into another quantity. `seams` is how many seams must
    fit in it.
    """

    name: str
    words: str
    kind: str = "length"
    zero: bool = False
    limits: tuple = ()
    seams: int = 0
    given: bool = True

    @property
    def permitted(self):
        """The permitted range in words.

        >>> Quantity("corner", "the corner's leg", limits=((2, "finished"),)).permitted
        'more than 0 and at most 1/2 of finished'
        """
        if self.kind == "count":
            return f"a whole number from 1 to {MOST}"
        low = "0 or more" if self.zero else "more than 0"
        return " and ".join(
            [low, *(f"at most {f'1/{parts} of ' if parts != 1 else ''}{other}" for parts, other in self.limits)]
        )


def length(words, seams=2, zero=False, within=()):
    """A quantity that is a length; `seams` of the proof's seams must fit into it (0: no such limit)."""
    return {"words": words, "seams": seams, "zero": zero, "limits": tuple(within)}


def count(words):
    """A quantity that is a whole number of pieces."""
    return {"words": words, "kind": "count"}


def proof(title, answer=None, rules=(), **quantities):
    """Make a `Proof` of a derivation `tell(story, *quantities)`; it is told when first asked, never on
    import.

    `answer` names the measure that is meant when none is named (else the first one told). `rules` gives the
    trade's own rule for a measure, as a function of the same quantities, where the trade does not just round
    the seam's share.
    """

    def made(tell):
        names = list(inspect.signature(tell).parameters)[1:]
        takes = [Quantity(name, **quantities[name]) for name in names if name != "seam"]
        if "seam" in names:
            limits = tuple((q.seams, q.name) for q in takes if q.seams)
            takes.append(Quantity("seam", "the seam allowance", zero=True, limits=limits, given=False))
        return Proof(tell.__name__, title, " ".join(tell.__doc__.split()), tuple(takes), tell, answer, rules)

    return made


class Proof:
    """A cut size with its reason: derived from the finished shape by SymPy, once, when first asked.

    Every method takes the quantities by name, as numbers or text in `unit` ("in", "cm" or "mm"); the seam is
    1/4 in (0.75 cm) unless given. A proof with several results takes the name of one of its `measures` first.
    """

    def __init__(self, name, title, question, quantities, tell, answer=None, rules=()):
        self.name, self.title, self.question, self.quantities = name, title, question, quantities
        self._tell, self._answer, self._rules, self._quick = tell, answer, dict(rules), {}
        self.__doc__ = f"{title}. {question}"

    def __repr__(self):
        asked = ", ".join(f"{q.name}=…" for q in self.quantities if q.given)
        return f"<proof {self.name}({asked}): {self.title}>"

    @cached_property
    def symbols(self):
        """The SymPy symbol of each quantity."""
        return {
            q.name: sp.Symbol(q.name, positive=True, integer=True if q.kind == "count" else None)
            for q in self.quantities
        }

    @cached_property
    def _told(self):
        story = Story(symbolic=True)
        self._tell(story, *self.symbols.values())
        return story

    @property
    def steps(self):
        """The derivation as a tuple of steps, each with words and equations."""
        return tuple(self._told.steps)

    @property
    def measures(self):
        """The results by name; the first is the one meant when none is named."""
        told = self._told.measures
        main = self._answer or next(iter(told))
        return {main: told[main], **told}

    def kind(self, measure=None):
        """The kind of a measure: "cut", a length to cut; "length", one that results; "count"; "number"."""
        return self._measure(measure).kind

    @property
    def formula(self):
        """The first measure as a SymPy formula in the quantities' plain symbols."""
        return self.formulas[next(iter(self.measures))]

    @property
    def formulas(self):
        """Every measure's SymPy formula, by name."""
        plain = {symbol: sp.Symbol(name) for name, symbol in self.symbols.items()}
        return {name: measure.formula.xreplace(plain) for name, measure in self.measures.items()}

    @property
    def equation(self):
        """The first measure as a line of text, such as `square = finished + (2 + √2) × seam`."""
        name, formula = next(iter(self.formulas.items()))
        return f"{name} = {written(formula)}"

    def exact(self, measure=None, /, *, unit="in", **quantities):
        """A measure as an exact SymPy number, in `unit`."""
        return tidy(self._measure(measure).formula.xreplace(self._asked(quantities, unit)))

    def cut(self, measure=None, /, *, step=None, rounding="up", unit="in", **quantities):
        """A measure on the ruler, as a Fraction in `unit`: exact, then `rounding` ("up" unless given) to the
        `step`.

        The step is 1/8 in (1 mm in metric) unless given.
        """
        found, size = self._measure(measure), self.exact(measure, unit=unit, **quantities)
        if found.kind not in ("cut", "length"):
            raise ValueError(
                f"only a length is cut along a ruler; {found.name!r} of {self.name} is a "
                f"{found.kind}; write {self.name}.exact({found.name!r}, …)"
            )
        inches = lengths.INCHES[unit]
        return lengths.ruler(size * rational(inches), step or STEP[unit], rounding) / inches

    def value(self, measure=None, /, **quantities):
        """A measure as a float, quickly (a few microseconds): for sliders. Bare numbers, all in one unit."""
        quick = self._quick.get(measure)
        if quick is None:
            formula = self._measure(measure).formula
            quick = self._quick[measure] = sp.lambdify(list(self.symbols.values()), formula, "math")
        return float(quick(*self._floats(quantities)))

    def pictures(self, **quantities):
        """The pictures of the steps at these values, as data (floats, inches)."""
        story = Story(symbolic=False)
        self._tell(story, *self._floats(quantities))
        return tuple(story.pictures)

    def trade(self, measure=None, /, *, unit="in", **quantities):
        """What the trade's rule of thumb gives, as an exact SymPy number in `unit`; None where it has no
        rule.

        Where the seam adds the same to every size, the trade rounds that share and leaves the rest alone
        (`THUMB`).
        """
        asked = self._asked(quantities, unit)
        rule = self._rule(measure, unit, asked.get(self.symbols.get("seam")))
        return None if rule is None else tidy(rule[0].xreplace(asked) + rational(rule[1]))

    def thumb(self, measure=None, /, *, unit="in", seam=None):
        """The trade's rule of thumb as text, such as `finished + 7/8`; None where it has no rule."""
        rule = self._rule(measure, unit, SEAM[unit] if seam is None else seam)
        if rule is None:
            return None
        formula, share = rule
        parts = [written(formula)] if formula != 0 else []
        figure = lengths.text(share * lengths.INCHES[unit], unit).removesuffix(f" {unit}")
        return " + ".join(parts + [figure] if share else parts)

    def _rule(self, measure, unit, given):
        """The trade's rule: its own formula and 0, or the formula without seam and the seam's share,
        rounded."""
        found = self._measure(measure)
        if found.name in self._rules:
            return self._rules[found.name](*self.symbols.values()), Fraction(0)
        seam = self.symbols.get("seam")
        bare = found.formula.subs(seam, 0) if seam else found.formula
        share = tidy(found.formula - bare)
        if found.kind != "cut" or share.free_symbols != {seam}:
            return None
        step, rounding = THUMB[unit]
        size, inches = _number(self.quantities[-1], given, unit), lengths.INCHES[unit]
        return bare, lengths.ruler(share.xreplace({seam: size}) * rational(inches), step, rounding) / inches

    def printed(self, values=None, /, *, step=None, unit=None, **quantities):
        """The derivation as text: steps, formulas and, where values are given, the numbers and the trade's
        rule."""
        from quiltmath.proofs.printing import printed

        return printed(self, {**(values or {}), **quantities}, step, unit)

    def numbers(self, values=None, /, *, step=None, unit=None, **quantities):
        """Only the results at these values, as text: exact, on the ruler, and beside the trade's rule."""
        from quiltmath.proofs.printing import numbers

        return numbers(self, {**(values or {}), **quantities}, step, unit)

    def __str__(self):
        return self.printed()

    @property
    def source(self):
        """Where its figures are printed: (title, address) of each published table or example it is compared
        with."""
        from quiltmath.proofs.sources import sources

        return sources(self.name)

    def _measure(self, name):
        told = self._told.measures
        if name is None:
            return told[self._answer or next(iter(told))]
        if name not in told:
            raise ValueError(f"{self.name} measures {_listed(self.measures)}; got {name!r}; name one of these first")
        return told[name]

    def _names(self, given):
        for name in given:
            if name not in self.symbols:
                raise ValueError(
                    f"{self.name} takes {_listed(self.symbols)}; got {name!r}; leave it out or name one of these"
                )
        for q in self.quantities:
            if q.given and given.get(q.name) is None:
                raise ValueError(
                    f"{self.name} needs {q.name} ({q.words}; {q.permitted}); nothing was given; "
                    f"write {self.name}.exact({q.name}=…)"
                )

    def _asked(self, given, unit):
        """The quantities as {symbol: exact SymPy number}, all checked against their ranges."""
        if unit not in SEAM:
            raise ValueError(f"a proof is asked in {_listed(SEAM)}; got {unit!r}; write for example unit='cm'")
        self._names(given)
        asked = {
            q.name: _number(q, given.get(q.name, SEAM[unit] if q.name == "seam" else None), unit)
            for q in self.quantities
        }
        self._check(asked)
        return {self.symbols[name]: number for name, number in asked.items()}

    def _floats(self, given):
        """The quantities as floats (counts as ints) in order, checked against their ranges."""
        self._names(given)
        asked = {}
        for q in self.quantities:
            number = given.get(q.name, 0.25 if q.name == "seam" else None)
            plain = type(number) is int or type(number) is float and q.kind != "count" and isfinite(number)
            if not plain:
                number = _number(q, number, "in")
            asked[q.name] = int(number) if q.kind == "count" else float(number)
        self._check(asked)
        return list(asked.values())

    def _check(self, asked):
        for q in self.quantities:
            number = asked[q.name]
            if not ((1 <= number <= MOST) if q.kind == "count" else number >= 0 if q.zero else number > 0):
                self._refuse(q, asked)
        for q in self.quantities:
            if not all(asked[q.name] * parts <= asked[other] for parts, other in q.limits):
                self._refuse(q, asked)

    def _refuse(self, q, asked):
        number = asked[q.name]
        raise ValueError(
            f"{q.name} ({q.words}) must be {q.permitted}; got "
            f"{number if q.kind == 'count' else lengths.text(number)}; {_remedy(q, asked)}"
        )


def _number(q, given, unit):
    """One given value as an exact SymPy number in `unit`."""
    if q.kind == "count":
        try:
            number = Fraction(str(given))
        except (ValueError, ZeroDivisionError):
            number = Fraction(1, 2)
        if number.denominator != 1 or isinstance(given, bool):
            raise ValueError(
                f"{q.name} ({q.words}) must be {q.permitted}; got {str(given)[:40]!r}; write for example {q.name}=5"
            )
        return sp.Integer(number.numerator)
    if isinstance(given, sp.Expr) and given.is_number and given.is_real and given.is_finite:
        return given if not given.has(sp.Float) else sp.Rational(str(given))
    try:
        inches = lengths.parse(given, unit)
    except ValueError as lesson:
        raise ValueError(f"{q.name} ({q.words}) must be {q.permitted}; {lesson}") from None
    return rational(inches / lengths.INCHES[unit])


def rational(number):
    """A Fraction as a SymPy number; SymPy numbers pass.

    >>> rational(Fraction(7, 8))
    7/8
    """
    return number if isinstance(number, sp.Expr) else sp.Rational(number.numerator, number.denominator)


def _remedy(q, asked):
    """What to write instead: a value inside the range."""
    if q.kind == "count":
        return f"write for example {q.name}=5"
    most = min((asked[other] / parts for parts, other in q.limits), default=0)
    if most > 0 and asked[q.name] > most:
        return f"write {q.name}={lengths.text(lengths.ruler(most, '1/64', 'down'))!r} or less"
    return f"write for example {q.name}={'1/4' if q.zero else '3 1/2'!r}"


def _listed(names):
    names = list(names)
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
