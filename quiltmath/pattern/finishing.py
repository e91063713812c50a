"""What goes round a quilt and under it, as a sheet tells of it: binding, backing, batting."""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from .fields import OPEN, UNTYPED, Bought, CountOrEnough, Length, Name, Size, Table


class Binding(Table):
    """The binding: strips `strip` high, `count` of them, from `fabric`, straight or bias; `join` says whether they are
    joined on the diagonal or straight, where that is printed.

    In place of the count its whole `length` may be printed, or "enough". Where one line of the cutting list cuts its
    strips together with others, `part` names that line.
    """

    part: Name | None = None
    fabric: Name = UNTYPED
    strip: Length = UNTYPED
    count: CountOrEnough = UNTYPED
    length: Length | None = None
    style: Literal["straight", "bias"] = "straight"
    join: Literal["diagonal", "straight"] | None = None

    @model_validator(mode="after")
    def _cut_in_one_way(self):
        if self.part is not None:
            keys = ["fabric", "strip", "count", "length", "style"]
            self.refuse(keys, f"the binding is cut as part {self.part!r}, whose line says it")
            return self
        self.need("fabric", "strip")
        if self.length is None:
            self.need("count")
        else:
            self.refuse(["count"], "a binding is counted in strips or by its whole length, not both")
        return self

    @property
    def filled_in(self) -> frozenset[str]:
        of_part = () if self.part is None else ("fabric", "strip")
        return frozenset(("count", *of_part) if self.count is None or self.length is not None or of_part else ())

    @property
    def open(self) -> bool:
        """Whether it is cut in as many strips as it takes, and its length is not printed either."""
        return self.count == OPEN and self.length is None and self.part is None


class Batting(Table):
    """The batting: its printed `size`, or a length `bought` of batting so wide (`usable_width`), or both."""

    size: Size | None = None
    fabric: Name | None = None
    bought: Bought | None = None
    usable_width: Length | None = None

    @model_validator(mode="after")
    def _off_a_roll(self):
        if self.bought is not None and self.usable_width is None:
            raise ValueError(
                "batting that is bought by length is as wide as its roll, 80 to 120 in: write usable_width too"
            )
        return self

    @property
    def panels(self) -> None:
        """None: a batting is one piece off its roll, a backing may be sewn from several."""
        return None


class Backing(Table):
    """The backing: its printed `size`, or the fabric `bought`, so wide, to be sewn from `panels` lengths of it, or
    both."""

    size: Size | None = None
    fabric: Name | None = None
    bought: Bought | None = None
    usable_width: Length | None = None
    panels: Annotated[int, Field(strict=True, ge=1, le=12)] | None = None

    @model_validator(mode="after")
    def _panels_of_something(self):
        if self.panels is not None and self.bought is None:
            raise ValueError(
                f"the {self.panels} panels of a backing are cut from a length that is bought: write bought too, or "
                "take panels out"
            )
        return self


Lining = Backing | Batting
