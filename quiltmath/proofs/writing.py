"""Formulas as a person writes them: `finished + (2 + √2) × seam`.

SymPy is imported where a formula is worked on, so that whoever only wants numbers never waits for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import sympy

FIRST, LAST = ("x", "y"), ("seam",)


def tidy(expression: Any) -> sympy.Expr:
    """A formula multiplied out, without roots under a line; exact.

    >>> import sympy as sp
    >>> block = sp.Symbol("block", positive=True)
    >>> tidy((block + sp.sqrt(2) * block) / (1 + sp.sqrt(2)))
    block
    """
    import sympy as sp

    expression = sp.sympify(expression)
    if expression.is_number:
        return sp.expand(sp.radsimp(expression))
    seam = next((symbol for symbol in expression.free_symbols if symbol.name == "seam"), None)
    if seam is None:
        return _multiplied_out(expression)
    bare = expression.subs(seam, 0)
    share = _multiplied_out((expression - bare) / seam)
    return _multiplied_out(bare) + (share * seam).expand()


def _multiplied_out(expression):
    import sympy as sp

    return sp.expand(sp.radsimp(sp.simplify(expression)))


def written(expression: Any) -> str:
    """A SymPy formula as one line of text; a text passes through.

    >>> import sympy as sp
    >>> finished, seam = sp.symbols("finished seam", positive=True)
    >>> written(finished + (2 + sp.sqrt(2)) * seam), written(sp.sqrt(2) / 4 + sp.Rational(7, 2))
    ('finished + (2 + √2) × seam', '7/2 + √2/4')
    >>> written(finished / sp.sqrt(2) - 2 * seam), written(finished**2 / seam)
    ('finished / √2 − 2 × seam', 'finished² / seam')
    """
    if isinstance(expression, str):
        return expression
    import sympy as sp

    terms = sorted(_gathered(sp.sympify(expression)).items(), key=lambda term: _place(term[0]))
    pieces = [_term(number, rest) for rest, number in terms if number != 0]
    line = "".join((" − " if minus else " + ") + body for minus, body in pieces) or " + 0"
    return ("−" if line.startswith(" − ") else "") + line[3:]


def _gathered(expression):
    """The formula as {what the symbols make: its number in front}."""
    found = {}
    for term in expression.args if expression.is_Add else (expression,):
        letters = term.free_symbols
        number, rest = term.as_independent(*letters, as_Add=False) if letters else (term, 1)
        found[rest] = found.get(rest, 0) + number
    return found


def _place(rest):
    """Coordinates first, then the sizes, then the seam, then bare numbers."""
    names = sorted(symbol.name for symbol in rest.free_symbols) if rest != 1 else []
    if not names:
        return (3, 0, names)
    rank = 0 if names[0] in FIRST else 2 if any(name in LAST for name in names) else 1
    return (rank, -rest.as_poly().total_degree() if rest.is_polynomial() else 0, names)


def _term(number, rest):
    """Whether a term is taken away, and its body."""
    if rest == 1:
        if number.is_Add:
            return False, _sum(number)
        return bool(number < 0), _single(abs(number))
    if number.is_Add:
        minus = number < 0 and all(part < 0 for part in number.args)
        return minus, f"({_sum(-number if minus else number)}) × {_product(rest)}"
    size = abs(number)
    whole, root = _root(size)
    if root != 1 and whole.q == root:
        front = f"{whole.p} × " if whole.p != 1 else ""
        return bool(number < 0), front + _product(rest, f"√{root}")
    if whole.p == 1 and root == 1 and whole.q != 1:
        return bool(number < 0), _product(rest, str(whole.q))
    front = "" if size == 1 else f"{_single(size)} × "
    return bool(number < 0), front + _product(rest)


def _sum(number):
    """A sum of bare numbers, the rational one first."""
    parts = sorted(number.args, key=lambda part: (bool(part < 0), not part.is_Rational, _root(abs(part))[1]))
    line = "".join((" − " if part < 0 else " + ") + _single(abs(part)) for part in parts)
    return ("−" if line.startswith(" − ") else "") + line[3:]


def _root(size):
    """A positive number as (rational, n) for rational × √n; n is 1 for a plain number."""
    rational, surd = size.as_coeff_Mul()
    return rational, (surd**2 if surd.is_Pow else surd)


def _single(size):
    """One positive number without symbols: 7/2, √2/4, 2√3."""
    rational, root = _root(size)
    if root == 1:
        tenths = rational.q % 5 == 0 and 10000 % rational.q == 0
        return f"{float(rational):g}" if tenths else str(rational)
    if not getattr(root, "is_Integer", False):
        return str(size)
    front = "" if rational.p == 1 else str(rational.p)
    return f"{front}√{root}" + (f"/{rational.q}" if rational.q != 1 else "")


def _product(rest, *divisors):
    """Symbols multiplied and divided: across × down, finished² / width, √(up² + wide²)."""
    over, under = [], list(divisors)
    for factor in sorted(rest.args if rest.is_Mul else (rest,), key=lambda f: _place(f)[2]):
        base, power = factor.as_base_exp()
        (under if power.is_negative else over).append(_power(base, abs(power)))
    top = " × ".join(over) or "1"
    if not under:
        return top
    return f"{top} / {under[0]}" if len(under) == 1 else f"{top} / ({' × '.join(under)})"


def _power(base, power):
    if base.func.__name__ == "ceiling":
        return f"(up to a whole number: {written(base.args[0])})"
    if not (base.is_Symbol or base.is_Add or base.is_Mul):
        return str(base)
    if power.is_even and written(base).startswith("−"):
        base = -base
    inside = base.name if base.is_Symbol else f"({written(base)})"
    if 2 * power == 1:
        return f"√{inside}"
    return inside if power == 1 else f"{inside}{'²' if power == 2 else f'^{written(power)}'}"
