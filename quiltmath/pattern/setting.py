"""How the blocks of a quilt are set: so many across and down, or each drawn in its row or column."""

from collections import Counter
from fractions import Fraction
from itertools import chain
from typing import Annotated, Literal

from pydantic import model_validator

from .fields import Across, AtKey, AtOdds, Distance, Item, Name, Names, Rows, Table, spelt
from .parts import EdgePiece

SHORT = ("across", "down", "block", "alternate")
"""The keys that say all rows at once."""


class Sashing(Table):
    """Strips between the blocks: `part`, cut as [width, length]; `cornerstone` the squares where they cross.

    Without cornerstones the strips between rows are long `strip` parts: one for all rows, or one for each length, the
    shortest first. `around`: also round the outside (straight settings). `edge`, on point: the quilt's edge runs
    through the cornerstones' centres ("half") or outside them ("whole"); `edge_cornerstone` names triangles for the
    halved ones, which else are whole squares that the edge cuts through.
    """

    part: Name
    cornerstone: Name | None = None
    strip: Names | None = None
    around: bool = True
    edge: Literal["half", "whole"] = "half"
    edge_cornerstone: Name | None = None

    @model_validator(mode="after")
    def _crossings(self):
        if (self.cornerstone is None) == (self.strip is None):
            raise ValueError(
                "sashing crosses either in cornerstones or in one long strip between rows: name cornerstone or strip"
            )
        if self.edge_cornerstone is not None and (self.cornerstone is None or self.edge == "whole"):
            raise ValueError(
                'the quilt\'s edge halves cornerstones only where there are some and edge = "half": take '
                "edge_cornerstone out"
            )
        return self


class Setting(Table):
    """How the blocks are set, straight or on point.

    Either so many `across` and `down` of a `block`, and perhaps an `alternate` one by turns with it; or each of them
    drawn: `rows` from the top (on point the level rows, and `between` the rows that lie between those), or the
    `columns` of a straight setting from the left, each from the top down.
    """

    style: Annotated[Literal["straight", "on point"], *spelt({"straight": (), "on point": ("on-point",)})]
    across: Across | None = None
    down: Across | None = None
    block: Name | None = None
    alternate: Name | None = None
    rows: Rows | None = None
    between: Rows | None = None
    columns: Rows | None = None
    sashing: Sashing | None = None
    sides: EdgePiece | None = None
    corners: EdgePiece | None = None
    floating: Distance = Fraction(0)

    @model_validator(mode="after")
    def _said_one_way(self):
        if self.rows is not None and self.columns is not None:
            raise AtOdds("columns", "the blocks are drawn in rows or in columns, not in both: take one of them out")
        if self.drawn:
            drawn = "rows" if self.rows is not None else "columns"
            self.refuse(SHORT, f"{drawn} draw every block of the setting, so nothing else says how many or which")
        else:
            for key in SHORT[:3]:
                if getattr(self, key) is None:
                    raise AtKey(
                        key,
                        "this is missing; a setting says across, down and block, or draws each block in its place, as "
                        'in rows = ["A B A", "B A B"]',
                    )
        return self

    @model_validator(mode="after")
    def _rows_fit_style(self):
        if self.columns is not None and self.style == "on point":
            raise AtKey("columns", "a quilt on point is drawn in its level rows: write rows, and between them between")
        if self.between is not None and (self.style == "straight" or self.rows is None):
            raise AtKey(
                "between",
                "only a setting on point that is drawn in rows has blocks between them: take between out, or "
                + ('write style = "on point"' if self.style == "straight" else "write rows for the level ones"),
            )
        for key, row, items in self._each_row():
            for item in items:
                if item.turn % 90:
                    raise AtKey(
                        f"{key}.{row}",
                        f"blocks are set turned by quarters, 90, 180 or 270; got {item.name}:{item.turn:g} in row "
                        f"{row + 1}",
                    )
        if self.style == "on point" or self.sashing is not None:
            self._equal_rows()
        return self

    def _each_row(self):
        """(its key, its number, its items) of each row or column that is drawn."""
        for key in ("rows", "columns", "between"):
            yield from ((key, number, items) for number, items in enumerate(getattr(self, key) or ()))

    def _equal_rows(self):
        """Refuse rows that do not make a grid: on point they nest, and sashing runs through from edge to edge."""
        for key, row, items in self._each_row():
            first = (self.rows or self.columns or [])[0]
            wanted = len(first) - (key == "between")
            if len(items) != wanted:
                what, why = key.removesuffix("s"), f"as many as the first {key.removesuffix('s')}"
                if key == "between":
                    what, why = "row between", "one fewer than the level rows beside it"
                rest = "" if self.style == "on point" else "; without sashing the rows may differ: draw it in them"
                raise AtKey(
                    f"{key}.{row}",
                    f"{what} {row + 1} names {_some(len(items))}, and there must be {wanted}, {why}: write one name "
                    f"for each{rest}",
                )
        if self.style == "on point" and self.rows is not None and len(self.rows[0]) > 1 and len(self.rows) > 1:
            wanted, shape = len(self.rows) - 1, f"{len(self.rows[0]) - 1} name{'s' * (len(self.rows[0]) > 2)} each"
            if len(self.between or ()) != wanted:
                raise AtKey(
                    "between" if self.between is not None else "rows",
                    f"between {len(self.rows)} level rows lie {wanted} more, of {shape}; got "
                    f"{len(self.between or ())}: write them as between = [...], from the top",
                )
        elif self.between is not None:
            raise AtKey("between", "nothing lies between blocks in a single row or column: take between out")

    @model_validator(mode="after")
    def _edges_fit_style(self):
        if self.style == "straight" and (self.sides or self.corners or self.floating):
            raise ValueError(
                "a straight setting has no side or corner triangles and nothing floats: take them out, or write "
                'style = "on point"'
            )
        if self.style == "straight" and self.sashing is not None and self.sashing.edge_cornerstone is not None:
            raise ValueError(
                f"the edge of a straight setting halves no cornerstones; got edge_cornerstone = "
                f'{self.sashing.edge_cornerstone!r}: take it out, or write style = "on point"'
            )
        if self.sashing is not None:
            key, of = ("edge", "on point") if self.style == "straight" else ("around", "straight")
            if key in self.sashing.model_fields_set:
                raise AtKey(
                    f"sashing.{key}", f"{key} is said of a setting that is {of}; this one is {self.style}: take it out"
                )
        if self.sides is not None and self.sides.frame is not None and len(self.sides.frame) != 2:
            raise ValueError(
                f"a side triangle is framed on both of its short edges; got {len(self.sides.frame)} frame strip: "
                "name two"
            )
        missing = [
            f"[setting.{key}]"
            for key in ("sides", "corners")
            if getattr(self, key) is None and (key == "corners" or sum(self.size) > 2)
        ]
        if self.style == "on point" and missing:
            raise ValueError(
                f"an on-point setting needs {' and '.join(missing)}: say how its setting triangles come about"
            )
        return self

    @model_validator(mode="after")
    def _tips_at_whole_edges(self):
        if self.corners is not None and self.corners.tip is not None:
            raise ValueError(
                f"corner triangles have no tips of their own; got tip = {self.corners.tip!r}: write it in "
                "[setting.sides]"
            )
        whole = self.sashing is not None and self.sashing.edge == "whole"
        if self.sides is not None and self.sides.tip is not None and not whole:
            raise ValueError(
                "side triangles have tips of their own only where sashing runs outside the blocks; got tip = "
                f'{self.sides.tip!r}: take it out, or write edge = "whole" in [setting.sashing]'
            )
        return self

    @model_validator(mode="after")
    def _cut_block_named(self):
        for key in ("sides", "corners"):
            piece = getattr(self, key)
            if self.drawn and piece is not None and piece.how == "cut blocks" and piece.block is None:
                raise AtKey(f"{key}.how", "which of the blocks is cut for the edge? Name it: block = ...")
        return self

    @property
    def drawn(self) -> bool:
        """Whether every block is drawn, in rows or columns."""
        return self.rows is not None or self.columns is not None

    @property
    def loose(self) -> bool:
        """Whether its rows (or columns) are each what they are: drawn, straight, and without sashing that would hold
        them to one grid."""
        return self.drawn and self.style == "straight" and self.sashing is None

    @property
    def lines(self) -> list[list[Item]]:
        """The rows as they are drawn, the columns of a setting drawn in columns, and then the rows between; none where
        it is not drawn."""
        return [items for _, _, items in self._each_row()]

    @property
    def size(self) -> tuple[int, int]:
        """How many blocks lie (across, down); of rows of their own, as many as the longest has."""
        if self.rows is not None:
            return max(map(len, self.rows)), len(self.rows)
        if self.columns is not None:
            return len(self.columns), max(map(len, self.columns))
        return self.across or 0, self.down or 0

    @property
    def blocks(self) -> Counter[str]:
        """{name: how many of it are set}, in the order in which they are named first.

        >>> from quiltmath.pattern.setting import Setting
        >>> Setting(style="straight", rows=["A B:90 A", "B A"]).blocks
        Counter({'A': 3, 'B': 2})
        >>> Setting(style="straight", across=3, down=3, block="A", alternate="B").blocks
        Counter({'A': 5, 'B': 4})
        """
        if self.drawn:
            return Counter(item.name for item in chain.from_iterable(self.lines))
        across, down = self.size
        on_point = self.style == "on point"
        main = across * down if on_point else (across * down + 1) // 2
        found = Counter({self.block or "": main})
        other = (across - 1) * (down - 1) if on_point else across * down // 2
        if other:
            found[self.alternate or self.block or ""] += other
        return found


def _some(count):
    return f"{count} block{'s' * (count != 1)}"
