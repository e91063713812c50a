"""Diagonal-set quilt mathematics: cut sizes with their reasons, sewn cloth, and a review before anyone cuts.

    >>> from quiltmath import lengths, sewing
    >>> lengths.text(lengths.parse("3.875"))
    '3 7/8'

`import quiltmath` itself is light: each module below loads when it is first used.
"""

from importlib import import_module

__version__ = "0.1.0"

MODULES = (
    "blocks",
    "demos",
    "draw",
    "lengths",
    "making",
    "pattern",
    "proofs",
    "review",
    "root2",
    "seamtest",
    "settings",
    "sewing",
    "shapes",
    "usual",
    "yardage",
)


def __getattr__(name):
    if name in MODULES:
        return import_module(f"{__name__}.{name}")
    raise AttributeError(f"quiltmath has no part called {name!r}; it has {', '.join(MODULES)}")


def __dir__():
    return sorted([*globals(), *MODULES])
