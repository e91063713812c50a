"""How much cloth to buy: strips and sub-cuts, backing, batting, binding.

    >>> from quiltmath import cloth
    >>> plan = cloth.length_needed([cloth.Piece("3 1/2", "3 1/2", 144, "A", any_way=True)], usable_width=42)
    >>> plan.length, plan.yards, plan.at_least
    (Fraction(42, 1), Fraction(5, 4), Fraction(42, 1))
"""
from .asked import USABLE_WIDTH, Piece
from .cutting import Cut, Plan, Strip, length_needed

__all__ = ["USABLE_WIDTH", "Cut", "Piece", "Plan", "Strip", "length_needed"]
