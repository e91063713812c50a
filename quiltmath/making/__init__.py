"""From a pattern sheet to sewn cloth: which pieces are cut, in which order they are joined, and what comes of it.

    made = making.make(pattern.read("data/patterns/sound/lap-quilt.toml"))
    made.top, made.finished, made.troubles

Everything is sewn from the *printed* cut sizes, so what is wrong in the pattern is wrong in the cloth.
"""

from .workshop import MOST_PATCHES, ConstructionError, Made, TooLarge, frame_lengths, make, refuse_too_many, unframed

__all__ = [
    "MOST_PATCHES",
    "ConstructionError",
    "Made",
    "TooLarge",
    "frame_lengths",
    "make",
    "refuse_too_many",
    "unframed",
]
