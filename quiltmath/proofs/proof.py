"""What a proof is: a derivation told on symbols, on exact numbers or on floats, and asked for each of them."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cached_property, lru_cache
from math import isfinite
from typing import TYPE_CHECKING, Any, NamedTuple

from quiltmath import lengths
from quiltmath.lengths import Length
from quiltmath.proofs import printing
from quiltmath.proofs.quantity import Quantity, check, listed
from quiltmath.proofs.sources import sources
from quiltmath.proofs.story import Exact, Floats, Pictures, Result, Sketch, Story
from quiltmath.proofs.writing import tidy, written
from quiltmath.root2 import OutsideField, Root2
from quiltmath.usual import RULER as STEP
from quiltmath.usual import SEAM_IN as SEAM

if TYPE_CHECKING:
    import sympy

    from quiltmath.proofs.derivation import Derivation, Step

THUMB = {"in": ("1/8", "up"), "cm": ("0.5 cm", "nearest"), "mm": ("0.5 cm", "nearest")}
"""How the trade rounds the seam's share: inch tables up to an eighth, metric tables to the nearest half
centimetre.

Metric tables thereby come out short where the share lies just above a half centimetre (2.5 cm for 2.5607 cm).
"""


class RuleOfThumb(NamedTuple):
    """What the trade does for one measure: a formula, and a share of the seam, in the asked unit, added to it."""

    formula: sympy.Expr
    share: Fraction


KEPT = 256  # tellings a proof remembers: a slider's range, and every part of a quilt


def proof(
    title: str, answer: str | None = None, rules: Mapping[str, Callable] | None = None, **quantities: dict[str, Any]
) -> Callable[[Callable], Proof]:
    """Make a `Proof` of a derivation `tell(story, *quantities)`; it is told when first asked, never on
    import.

    `answer` names the measure that is meant when none is named (else the first one told). `rules` gives the
    trade's own rule for a measure, as a function of the same quantities, where the trade does not just round
    the seam's share.
    """

    def made(tell: Callable) -> Proof:
        names = list(inspect.signature(tell).parameters)[1:]
        takes = [Quantity(name, **quantities[name]) for name in names if name != "seam"]
        if "seam" in names:
            limits = tuple((q.seams, q.name) for q in takes if q.seams)
            takes.append(Quantity("seam", "the seam allowance", zero=True, limits=limits, given=False))
        return Proof(tell.__name__, title, " ".join((tell.__doc__ or "").split()), tuple(takes), tell, answer, rules)

    return made


class Proof:
    """A cut size with its reason: derived from the finished shape whenever it is asked.

    Every method takes the quantities by name, as numbers or text in `unit` ("in", "cm" or "mm"); the seam is
    1/4 in (0.75 cm) unless given. A proof with several results takes the name of one of its `measures` first.
    Sizes (`number`, `cut`, `value`) come from numbers alone; SymPy is loaded for the derivation in symbols.
    """

    def __init__(
        self,
        name: str,
        title: str,
        question: str,
        quantities: tuple[Quantity, ...],
        tell: Callable,
        answer: str | None = None,
        rules: Mapping[str, Callable] | None = None,
    ) -> None:
        self.name, self.title, self.question, self.quantities = name, title, question, quantities
        self.names = tuple(q.name for q in quantities)
        self._tell, self._answer, self._rules = tell, answer, dict(rules or {})
        self._on_floats = lru_cache(KEPT)(self._tell_on_floats)
        self._on_numbers = lru_cache(KEPT)(self._tell_on_numbers)
        self.__doc__ = f"{title}. {question}"

    def __repr__(self) -> str:
        asked = ", ".join(f"{q.name}=…" for q in self.quantities if q.given)
        return f"<proof {self.name}({asked}): {self.title}>"

    # -- sizes, from numbers alone

    def number(self, measure: str | None = None, /, *, unit: str = "in", **quantities: Length) -> Root2:
        """A measure as an exact number a + b√2, in `unit`, without SymPy.

        >>> from quiltmath import proofs
        >>> print(proofs.side_triangle.number(block=9), "and", proofs.side_triangle.number(block=Root2(root=9)))
        1/2 + 19√2/2 and 37/2 + √2/2
        >>> proofs.equilateral.number(finished=3)
        Traceback (most recent call last):
        quiltmath.root2.OutsideField: equilateral has no size a + b√2 here: the square root of 3 is not a + b√2 with \
whole numbers or fractions; use floats, or SymPy: write equilateral.value(…) or equilateral.exact(…)
        """
        found = self._in_field(measure, self._asked(quantities, unit)).formula
        return found if isinstance(found, Root2) else Root2(found)

    def cut(
        self,
        measure: str | None = None,
        /,
        *,
        step: Length | None = None,
        rounding: str = "up",
        unit: str = "in",
        **quantities: Length,
    ) -> Fraction:
        """A measure on the ruler, as a Fraction in `unit`: exact, then `rounding` ("up" unless given) to the
        `step`.

        The step is 1/8 in (1 mm in metric) unless given. SymPy is loaded only where the exact size is no a + b√2.
        """
        asked = self._asked(quantities, unit)
        try:
            found = self._in_field(measure, asked)
            size = found.formula
        except OutsideField:
            found = self._measure(measure)
            size = self._by_formula(found, asked)
        if found.kind not in ("cut", "length"):
            raise ValueError(
                f"only a length is cut along a ruler; {found.name!r} of {self.name} is a "
                f"{found.kind}; write {self.name}.exact({found.name!r}, …)"
            )
        inches = lengths.INCHES[unit]
        return lengths.ruler(size * inches, step or STEP[unit], rounding) / inches

    def value(self, measure: str | None = None, /, **quantities: Length) -> float:
        """A measure as a float, quickly, without SymPy: for sliders. Bare numbers, all in one unit.

        It is told on floats and lies within a few units of the last place of the exact number.

        >>> from quiltmath import proofs
        >>> round(proofs.side_triangle.value(block=9), 9)
        13.935028843
        """
        return float(self._one_of(self._on_floats(*self._floats(quantities)), measure).formula)

    def pictures(self, **quantities: Length) -> tuple[Sketch, ...]:
        """The pictures of the steps at these values, as data (floats, inches)."""
        story = Pictures()
        self._tell(story, *self._floats(quantities))
        return tuple(story.pictures)

    # -- the derivation, in symbols

    @cached_property
    def symbols(self) -> dict[str, sympy.Symbol]:
        """The SymPy symbol of each quantity."""
        import sympy

        return {
            q.name: sympy.Symbol(q.name, positive=True, integer=True if q.kind == "count" else None)
            for q in self.quantities
        }

    @cached_property
    def _told(self) -> Derivation:
        from quiltmath.proofs.derivation import Derivation

        story = Derivation()
        self._tell(story, *self.symbols.values())
        return story

    @property
    def steps(self) -> tuple[Step, ...]:
        """The derivation as a tuple of steps, each with words and equations."""
        return tuple(self._told.steps)

    @property
    def measures(self) -> dict[str, Result]:
        """The results by name; the first is the one meant when none is named."""
        told = self._told.measures
        main = self._answer or next(iter(told))
        return {main: told[main], **told}

    def kind(self, measure: str | None = None) -> str:
        """The kind of a measure: "cut", a length to cut; "length", one that results; "count"; "number"."""
        return self._measure(measure).kind

    @property
    def formula(self) -> sympy.Expr:
        """The first measure as a SymPy formula in the quantities' plain symbols."""
        return self.formulas[next(iter(self.measures))]

    @property
    def formulas(self) -> dict[str, sympy.Expr]:
        """Every measure's SymPy formula, by name."""
        import sympy

        plain = {symbol: sympy.Symbol(name) for name, symbol in self.symbols.items()}
        return {name: measure.formula.xreplace(plain) for name, measure in self.measures.items()}

    @property
    def equation(self) -> str:
        """The first measure as a line of text, such as `square = finished + (2 + √2) × seam`."""
        name, formula = next(iter(self.formulas.items()))
        return f"{name} = {written(formula)}"

    def exact(self, measure: str | None = None, /, *, unit: str = "in", **quantities: Length) -> sympy.Expr:
        """A measure as an exact SymPy number, in `unit`."""
        asked = self._asked(quantities, unit)
        try:
            return self._in_field(measure, asked).formula.exact()
        except OutsideField:
            return self._by_formula(self._measure(measure), asked)

    def trade(self, measure: str | None = None, /, *, unit: str = "in", **quantities: Length) -> sympy.Expr | None:
        """What the trade's rule of thumb gives, as an exact SymPy number in `unit`; None where it has no
        rule.

        Where the seam adds the same to every size, the trade rounds that share and leaves the rest alone
        (`THUMB`).
        """
        asked = self._asked(quantities, unit)
        rule = self._rule(measure, unit, asked.get("seam"))
        return None if rule is None else tidy(rule.formula.xreplace(self._in_symbols(asked)) + rule.share)

    def thumb(self, measure: str | None = None, /, *, unit: str = "in", seam: Length | None = None) -> str | None:
        """The trade's rule of thumb as text, such as `finished + 7/8`; None where it has no rule."""
        rule = self._rule(measure, unit, SEAM[unit] if seam is None else seam)
        if rule is None:
            return None
        parts = [written(rule.formula)] if rule.formula != 0 else []
        figure = lengths.text(rule.share * lengths.INCHES[unit], unit).removesuffix(f" {unit}")
        return " + ".join(parts + [figure] if rule.share else parts)

    def _rule(self, measure: str | None, unit: str, seam: object) -> RuleOfThumb | None:
        """The trade's own formula where it has one, else the formula without seam and the seam's share, rounded; None
        where that share is not the same for every size."""
        found = self._measure(measure)
        if found.name in self._rules:
            return RuleOfThumb(self._rules[found.name](*self.symbols.values()), Fraction(0))
        symbol = self.symbols.get("seam")
        bare = found.formula.subs(symbol, 0) if symbol else found.formula
        share = tidy(found.formula - bare)
        if found.kind != "cut" or share.free_symbols != {symbol}:
            return None
        (step, rounding), inches = THUMB[unit], lengths.INCHES[unit]
        exact = share.xreplace(self._in_symbols({"seam": self.quantities[-1].read(seam, unit)}))
        return RuleOfThumb(bare, lengths.ruler(exact * inches, step, rounding) / inches)

    # -- as text

    def printed(
        self,
        values: Mapping[str, Length] | None = None,
        /,
        *,
        step: Length | None = None,
        unit: str | None = None,
        **quantities: Length,
    ) -> str:
        """The derivation as text: steps, formulas and, where values are given, the numbers and the rule of thumb."""
        return printing.printed(self, {**(values or {}), **quantities}, step, unit)

    def numbers(
        self,
        values: Mapping[str, Length] | None = None,
        /,
        *,
        step: Length | None = None,
        unit: str | None = None,
        **quantities: Length,
    ) -> str:
        """Only the results at these values, as text: exact, on the ruler, and beside the trade's rule."""
        return printing.numbers(self, {**(values or {}), **quantities}, step, unit)

    def __str__(self) -> str:
        return self.printed()

    @property
    def source(self) -> tuple[tuple[str, str], ...]:
        """Where its figures are printed: (title, address) of each published table or example it is compared
        with."""
        return sources(self.name)

    @property
    def sources_named(self) -> str:
        """Those sources as text, the first of them by title and address.

        >>> from quiltmath import proofs
        >>> proofs.half_square.sources_named.splitlines()[0]
        'Source: derived here from the finished shape; compared in the tests with figures printed in'
        """
        return printing.sources_named(self)

    # -- telling

    def _tell_on_floats(self, *sizes: float) -> dict[str, Result]:
        """Every measure on floats."""
        return self._heard(Floats(), sizes)

    def _tell_on_numbers(self, *sizes: Root2) -> tuple[dict[str, Result], OutsideField | None]:
        """Every measure on exact numbers, up to the one that is none, and what that one is, if there is one."""
        story = Exact()
        try:
            return self._heard(story, sizes), None
        except OutsideField as reason:
            return story.measures, reason

    def _heard(self, story: Story, sizes: tuple) -> dict[str, Result]:
        self._tell(story, *sizes)
        return story.measures

    def _in_field(self, measure: str | None, asked: Mapping[str, Any]) -> Result:
        """A measure told on exact numbers, refused with OutsideField where it is no a + b√2."""
        for name, number in asked.items():
            if not isinstance(number, (int, Root2)):
                raise OutsideField(
                    self._no_number(
                        f"{name} is {number!s:.60}, not a + b√2 with whole numbers or fractions; use floats, or SymPy"
                    )
                )
        told, reason = self._on_numbers(
            *(number if isinstance(number, Root2) else Root2(number) for number in asked.values())
        )
        wanted = measure or self._answer
        if reason is not None and (wanted not in told if wanted else not told):
            raise OutsideField(self._no_number(reason)) from None
        return self._one_of(told, measure)

    def _no_number(self, reason: object) -> str:
        return f"{self.name} has no size a + b√2 here: {reason}: write {self.name}.value(…) or {self.name}.exact(…)"

    def _measure(self, name: str | None) -> Result:
        return self._one_of(self._told.measures, name)

    def _one_of(self, told: dict[str, Result], name: str | None) -> Result:
        if name is None:
            return told[self._answer or next(iter(told))]
        if name not in told:
            main = self._answer or next(iter(told))
            raise ValueError(
                f"{self.name} measures {listed(dict.fromkeys([main, *told]))}; got {name!r}; name one of these first"
            )
        return told[name]

    def _by_formula(self, found: Result, asked: Mapping[str, Any]) -> sympy.Expr:
        return tidy(found.formula.xreplace(self._in_symbols(asked)))

    def _in_symbols(self, asked: Mapping[str, Any]) -> dict[sympy.Symbol, sympy.Expr]:
        import sympy

        return {self.symbols[name]: sympy.sympify(number) for name, number in asked.items()}

    # -- reading what is asked

    def _known(self, given: Mapping[str, Any]) -> None:
        """Refuse a name that is none of its quantities, and a quantity that is missing."""
        for name in given:
            if name not in self.names:
                raise ValueError(
                    f"{self.name} takes {listed(self.names)}; got {name!r}; leave it out or name one of these"
                )
        for q in self.quantities:
            if q.given and given.get(q.name) is None:
                raise ValueError(
                    f"{self.name} needs {q.name} ({q.words}; {q.permitted}); nothing was given; "
                    f"write {self.name}.exact({q.name}=…)"
                )

    def _asked(self, given: Mapping[str, Any], unit: str) -> dict[str, Any]:
        """The quantities by name, exact (see `Quantity.read`), all checked against their ranges."""
        if unit not in SEAM:
            raise ValueError(f"a proof is asked in {listed(SEAM)}; got {unit!r}; write for example unit='cm'")
        self._known(given)
        asked = {
            q.name: q.read(given.get(q.name, SEAM[unit] if q.name == "seam" else None), unit) for q in self.quantities
        }
        check(self.quantities, asked)
        return asked

    def _floats(self, given: Mapping[str, Any]) -> list[float]:
        """The quantities as floats (counts as ints) in order, checked against their ranges."""
        self._known(given)
        asked: dict[str, float] = {}
        for q in self.quantities:
            number = given.get(q.name, 0.25 if q.name == "seam" else None)
            plain = type(number) is int or (type(number) is float and q.kind != "count" and isfinite(number))
            if not plain:
                number = q.read(number)
            asked[q.name] = int(number) if q.kind == "count" else float(number)
        check(self.quantities, asked)
        return list(asked.values())
