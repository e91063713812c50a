"""Another size of the same pattern, as a sheet tells of it."""

from typing import Annotated

from pydantic import Field, model_validator

from .border import Border
from .cut import Cut
from .fields import Across, AtKey, Bought, Count, Name, Names, Rows, Size, Table
from .finishing import Backing, Batting
from .parts import BlockTable


class OtherSize(Table):
    """Another size of the same pattern: what differs, by name; the rest is as in the sheet.

    `counts` gives the number of pieces, units or blocks, `sizes` cut sizes of parts (for a unit or block the size it is
    trimmed to), `bought` the cloth bought, `pieces` the number of pieces bought, `sets` the number of strip sets,
    `binding` that of binding strips. `rows` (with `between`) or `columns` draw its blocks, `strip` names its long
    sashing strips, `border` says all its borders (none where the list is empty), and `cut` and `block` what this size
    alone cuts and makes, or makes otherwise. A count, a binding or a lining that is not given here is not judged in
    this size.
    """

    name: Name
    across: Across | None = None
    down: Across | None = None
    rows: Rows | None = None
    between: Rows | None = None
    columns: Rows | None = None
    strip: Names | None = None
    border: Annotated[list[Border], Field(max_length=40)] | None = None
    cut: Annotated[list[Cut], Field(max_length=500)] = []
    block: dict[Name, BlockTable] = {}
    sets: dict[Name, Count] = {}
    finished: Size | None = None
    counts: dict[Name, Count] = {}
    sizes: dict[Name, Size] = {}
    bought: dict[Name, Bought] = {}
    pieces: dict[Name, Count] = {}
    binding: Count | None = None
    backing: Backing | None = None
    batting: Batting | None = None

    @model_validator(mode="after")
    def _set_one_way(self):
        drawn = [key for key in ("rows", "columns") if getattr(self, key) is not None]
        if drawn:
            self.refuse(["across", "down"], f"{drawn[0]} draw every block of this size")
        if len(drawn) > 1:
            raise AtKey("columns", "the blocks are drawn in rows or in columns, not in both: take one of them out")
        return self

    @property
    def drawn(self) -> bool:
        """Whether it draws its blocks in rows or columns of its own."""
        return self.rows is not None or self.columns is not None
