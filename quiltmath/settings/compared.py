"""The same blocks set straight and on point, side by side: size, pieces, cloth, bias, cost."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import prod
from typing import TYPE_CHECKING

from .. import lengths, yardage
from ..usual import SHOP, TO_BUY
from . import fitting, wishes
from .arguments import told_size

if TYPE_CHECKING:
    from typing import Any

    from ..blocks import Block
    from ..lengths import Length
    from .plan import Plan


@dataclass(frozen=True, eq=False)
class Column:
    """One plan of a comparison: the cloth it takes, cut to the ruler, and its cost where a price was given.

    `cloth` and `finished` are square inches, `bought` and `at_least` inches of length: what to buy, each fabric planned
    by itself in strips of the usable width and up to the next step in which it is sold, and what never will do,
    however it is cut.
    """

    name: str
    plan: Plan
    usable: Fraction
    price: float | None = None

    @property
    def cloth(self) -> float:
        """Square inches of all squares and strips cut, spare triangles included."""
        return sum(
            line.squares * prod(map(float, line.size * (3 - len(line.size)))) for line in self.plan.cutting_list()
        )

    @property
    def finished(self) -> float:
        """Square inches of the finished top."""
        return prod(self.plan.size)

    @cached_property
    def plans(self) -> dict[str, yardage.CuttingPlan]:
        """How each fabric is cut, by its name."""
        pieces: dict[str, list[yardage.Piece]] = {}
        for line in self.plan.cutting_list():
            width, height = line.size * (3 - len(line.size))
            pieces.setdefault(line.fabric, []).append(
                yardage.Piece(width, height, line.squares, line.part, any_way=True)
            )
        return {fabric: yardage.length_needed(each, self.usable) for fabric, each in pieces.items()}

    @property
    def bought(self) -> Fraction:
        """What to buy, each fabric up to the next eighth of a yard, or tenth of a metre."""
        step = TO_BUY[self.plan.unit]
        return sum((lengths.ruler(plan.length, step, "up") for plan in self.plans.values()), Fraction(0))

    @property
    def at_least(self) -> float:
        """What no cutter gets under."""
        return float(sum(plan.at_least for plan in self.plans.values()))

    @property
    def cost(self) -> float | None:
        """What that costs, or None where no price was given."""
        return None if self.price is None else float(self.bought / lengths.INCHES[self._shop]) * float(self.price)

    @property
    def _shop(self):
        """The unit in which fabric is sold there."""
        return SHOP[self.plan.unit]

    @property
    def triangles(self) -> int:
        """How many triangles it has along its edge."""
        return self.plan.side_triangles + self.plan.corner_triangles

    def rows(self) -> list[tuple[str, str]]:
        """The figures as (what, value in words)."""
        one = float(lengths.INCHES[self._shop])
        square = "sq yd" if self._shop == "yd" else "m²"
        found = [
            ("blocks", f"{self.plan.across} x {self.plan.down}: {self.plan.blocks}"),
            ("finished size", told_size(self.plan.size, self.plan.unit)),
            ("patches", f"{self.plan.patches:,}"),
            ("setting triangles", str(self.triangles)),
            ("fabric cut", f"{self.cloth / one**2:.2f} {square}"),
            ("of it in the top", f"{100 * self.finished / self.cloth:.0f} %"),
            ("fabric to buy", lengths.text(self.bought, unit=self._shop)),
            ("never less than", f"{self.at_least / one:.2f} {self._shop}"),
        ]
        return found + ([("cost", f"{self.cost:.2f}")] if self.cost is not None else [])


@dataclass(frozen=True, eq=False)
class Comparison:
    """Plans beside each other: `columns`, and `rows()` with one line for each figure."""

    columns: tuple

    def rows(self) -> list[tuple[str, ...]]:
        """(what, value in each column …), one for each figure."""
        return [(cells[0][0], *(value for _, value in cells)) for cells in zip(*(one.rows() for one in self.columns))]

    def __str__(self):
        table = [("", *(one.name for one in self.columns)), *self.rows()]
        wide = [max(len(row[place]) for row in table) for place in range(len(table[0]))]
        return "\n".join("  ".join(cell.ljust(width) for cell, width in zip(row, wide)).rstrip() for row in table)


def side_by_side(
    across: int,
    down: int,
    block: Block | Length,
    sashing: Length = 0,
    usable: Length = "40",
    price: float | None = None,
    **both: Any,
) -> Comparison:
    """The same blocks set straight, on point, and straight again as near the size of the one on point as may
    be.

    `usable` is the usable width of fabric, `price` that of a yard in any money (of a metre where `unit` is metric);
    `both` goes to both plans (alternate, frame, borders, seam, unit, fabrics).

    >>> print(side_by_side(4, 5, 9))
                       straight    on point                    straight, as large
    blocks             4 x 5: 20   4 x 5: 32                   6 x 7: 42
    finished size      36 x 45 in  about 50 15/16 x 63 5/8 in  54 x 63 in
    patches            20          50                          42
    setting triangles  0           18                          0
    fabric cut         1.39 sq yd  2.91 sq yd                  2.92 sq yd
    of it in the top   90 %        86 %                        90 %
    fabric to buy      1 3/8 yd    3 yd                        3 yd
    never less than    1.32 yd     2.89 yd                     2.90 yd
    """
    wide = lengths.parse(usable, both.get("unit", "in"), name="usable", above=0)
    level = wishes.straight(across, down, block, sashing, **both)
    turned = wishes.on_point(across, down, block, sashing, **both)
    width, height = map(float, turned.top_size)
    like = fitting.fit(width, height, [level.cell], ["straight"], [level.sashing], best=1)[0]
    large = level.what_if(across=like.across, down=like.down)
    columns = (("straight", level), ("on point", turned), ("straight, as large", large))
    return Comparison(tuple(Column(name, plan, wide, price) for name, plan in columns))
