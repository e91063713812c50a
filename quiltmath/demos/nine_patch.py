"""The invented block of the lessons on settings, sashing, frames and borders."""

from .. import blocks

NINE_PATCH = blocks.read("B A B | A B A | B A B", size=9, name="nine-patch", fabrics={"A": "cream", "B": "navy"})
