"""How much fabric to buy: strips and sub-cuts, backing, batting, binding.

    >>> from quiltmath import yardage
    >>> plan = yardage.length_needed([yardage.Piece("3 1/2", "3 1/2", 144, "A", any_way=True)], usable_width=42)
    >>> plan.length, plan.yards, plan.at_least                      # inches, yards as bought, inches
    (Fraction(42, 1), Fraction(5, 4), Fraction(42, 1))
    >>> strip, = plan.strips
    >>> strip.count, strip.height, strip.cuts[0].pieces, strip.cuts[0].piece.part
    (12, Fraction(7, 2), 12, 'A')

Two lengths tell what to say of bought fabric: `plan.length` or more will do, and here is how; less than `plan.at_least`
never will, however it is cut; between the two it may. A piece that fits no way raises `DoesNotFit` (a ValueError).

    >>> yardage.holds([yardage.Piece(5, 5, 12)], width=22, length=18).answer             # "yes", "no" or "perhaps"
    'yes'
    >>> quarters = yardage.on_pieces([yardage.Piece(5, 5, 60)], width=21, length=18)       # fat quarters
    >>> quarters.count, quarters.at_least
    (5, 5)
    >>> ring = yardage.binding(60, 72, strip="2 1/2", usable_width=42, join="diagonal", extra=10)
    >>> ring.strips, ring.length, ring.at_least
    (7, Fraction(35, 2), Fraction(110, 7))
    >>> back = yardage.backing(60, 72, over=8, usable_width=42)
    >>> back.panels, back.seams, back.length, back.yards
    (2, 'across', Fraction(136, 1), Fraction(31, 8))
    >>> yardage.batting(60, 72, over=8).package, yardage.squares("2 1/2", usable_width=44, length="1 yd")
    ('twin', 238)
    >>> yardage.length_to_buy(119, percent=4)                # inches, with 1 in to straighten, of fabric that shrinks
    Fraction(125, 1)
    >>> yardage.yards(41)                                              # inches to yards as bought
    Fraction(5, 4)
"""

from .arguments import DoesNotFit, Piece, yards
from .bindings import BindingPlan, bias_fabric, bias_strips, binding, binding_length, binding_strips, strip_length
from .constants import (
    BACKING_SEAM,
    EXTRA,
    FAT_QUARTER,
    LEAST_EXTRA,
    LEAST_OVER,
    OVER,
    SEAM,
    STRAIGHTENED,
    USABLE_WIDTH,
)
from .counting import across, squares, strips
from .cutting import Sufficiency, holds, length_needed
from .joining import joined_length, lost_in_join, strips_to_join
from .layers import (
    Backing,
    Batting,
    Package,
    backing,
    backing_size,
    batting,
    best_panels,
    covers,
    least_size,
    packages,
    room_round,
)
from .on_pieces import PiecesPlan, on_pieces
from .plan import CrosswiseStrip, CuttingPlan, LaidPiece, SubCut
from .washing import length_to_buy, on_the_tape, washed

__all__ = [
    "BACKING_SEAM",
    "EXTRA",
    "FAT_QUARTER",
    "LEAST_EXTRA",
    "LEAST_OVER",
    "OVER",
    "SEAM",
    "STRAIGHTENED",
    "USABLE_WIDTH",
    "Backing",
    "Batting",
    "BindingPlan",
    "CrosswiseStrip",
    "CuttingPlan",
    "DoesNotFit",
    "LaidPiece",
    "Package",
    "Piece",
    "PiecesPlan",
    "SubCut",
    "Sufficiency",
    "across",
    "backing",
    "backing_size",
    "batting",
    "best_panels",
    "bias_fabric",
    "bias_strips",
    "binding",
    "binding_length",
    "binding_strips",
    "covers",
    "holds",
    "joined_length",
    "least_size",
    "length_needed",
    "length_to_buy",
    "lost_in_join",
    "on_pieces",
    "on_the_tape",
    "packages",
    "room_round",
    "squares",
    "strip_length",
    "strips",
    "strips_to_join",
    "washed",
    "yards",
]
