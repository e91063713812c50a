"""Why each cut size is what it is: proofs derived from the finished shape.

One principle gives them all: draw the finished shape, move each side that will be sewn out by one seam, read
the size off the ruler. No size is typed in anywhere; each proof runs that principle on numbers when asked for a size,
and on SymPy's symbols when asked why.

    >>> from quiltmath import proofs
    >>> proofs.half_square.exact(finished=3)
    sqrt(2)/4 + 7/2
    >>> proofs.half_square.cut(finished=3), str(proofs.half_square.number(finished=3))
    (Fraction(31, 8), '7/2 + √2/4')
    >>> proofs.half_square.cut(finished="10 cm", seam="0.75 cm", step="1 mm")        # in inches
    Fraction(630, 127)
    >>> proofs.half_square.cut(finished=10, unit="cm"), proofs.half_square.trade(finished=10, unit="cm")
    (Fraction(63, 5), 25/2)
    >>> proofs.find("side triangle").thumb()
    '√2 × block + 1 1/4'
"""

import difflib
from typing import TYPE_CHECKING

from quiltmath.proofs import bias, frames, layouts, strips, triangles, units
from quiltmath.proofs.proof import Proof

ROOMS = (triangles, units, strips, frames, bias, layouts)
_PROOFS = {found.name: found for room in ROOMS for found in vars(room).values() if isinstance(found, Proof)}
globals().update(_PROOFS)

if TYPE_CHECKING:

    def __getattr__(name: str) -> Proof: ...


def every() -> tuple[Proof, ...]:
    """Every proof, as a tuple, in the order of a lesson.

    >>> [found.name for found in every()][:3]
    ['half_square', 'quarter_square', 'side_triangle']
    """
    return tuple(_PROOFS.values())


def find(name: str) -> Proof:
    """The proof of this name; spaces, hyphens and capitals do not matter.

    >>> find("Half-square").name
    'half_square'
    >>> find("half sqare")
    Traceback (most recent call last):
    ValueError: no proof is called 'half sqare'; the nearest are half_square, \
half_squares_two, half_squares_four; proofs.every() lists every one
    """
    key = "_".join(str(name)[:60].lower().replace("-", " ").replace("_", " ").split())
    if key in _PROOFS:
        return _PROOFS[key]
    near = difflib.get_close_matches(key, _PROOFS, cutoff=0.3) or list(_PROOFS)[:3]
    raise ValueError(
        f"no proof is called {str(name)[:60]!r}; the nearest are {', '.join(near)}; proofs.every() lists every one"
    )
