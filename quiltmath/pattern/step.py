"""An explicit step of making, where a pattern does something unusual."""

from fractions import Fraction
from typing import Literal

from pydantic import Field, model_validator

from .fields import Distance, EdgeName, Name, Names, Place, Table, Turn


class StepTable(Table):
    """One explicit step: exactly one of cut, turn, sew or trim, and the names of what it `gives`.

    `cut` a panel `from` one point `to` another (gives the piece on the left of that walk, then the right one); `turn` a
    panel `by` degrees anticlockwise; `sew` two panels by their `edges`, aligned at start, end or centre; `trim` a
    panel, taking off the lengths named left, right, top and bottom.
    """

    cut: Name | None = None
    from_: Place | None = Field(None, alias="from")
    to: Place | None = None
    turn: Name | None = None
    by: Turn | None = None
    sew: tuple[Name, Name] | None = None
    edges: tuple[EdgeName, EdgeName] | None = None
    align: Literal["start", "end", "centre"] = "start"
    trim: Name | None = None
    left: Distance = Fraction(0)
    right: Distance = Fraction(0)
    top: Distance = Fraction(0)
    bottom: Distance = Fraction(0)
    gives: Names

    @model_validator(mode="after")
    def _one_thing(self):
        done = [verb for verb in ("cut", "turn", "sew", "trim") if getattr(self, verb) is not None]
        if len(done) != 1:
            raise ValueError(f"a step does one of cut, turn, sew, trim; this one says {', '.join(done) or 'none'}")
        needs = {"cut": ("from_", "to"), "turn": ("by",), "sew": ("edges",), "trim": ()}[done[0]]
        for need in needs:
            if getattr(self, need) is None:
                raise ValueError(f'a step that says {done[0]} also says "{need.rstrip("_")}"')
        pieces = 2 if done[0] == "cut" else 1
        if len(self.gives) != pieces:
            raise ValueError(
                f"a step that says {done[0]} gives {pieces} named panel{'s' * (pieces > 1)}; got {len(self.gives)}"
            )
        return self

    @property
    def uses(self) -> list[str]:
        """The names of the panels this step takes."""
        return [name for name in (self.cut, self.turn, self.trim) if name] + list(self.sew or ())
