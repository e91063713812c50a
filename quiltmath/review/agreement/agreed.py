"""Numbers that must agree, and by how much they may differ."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..finding import ByProof, Why
from .figures import Sum
from .measures import SLACK


@dataclass(frozen=True)
class Agreement:
    """Numbers that agree: `off` is what there is too much, in inches; from -`less` to `more` of that is nothing.

    `path` is where the sheet tells it, `aim` what its numbers are for, in words for the one that does not fit, and
    `aims` the same for others: {path of the number: words}. `subject` is the path of the number that follows from the
    others, where one does, and `why` shows the reason. `printed`: some of its numbers are finished sizes, or sizes to
    trim to; else edges are held against edges. `evidence`: too little to blame anybody by itself, but it tells which of
    several numbers is the wrong one.
    """

    off: Sum
    path: tuple
    aim: str = ""
    why: Why = field(default_factory=lambda: ByProof("patch"))
    less: float = SLACK
    more: float = SLACK
    aims: dict[tuple, str] = field(default_factory=dict)
    subject: tuple = ()
    printed: bool = True
    evidence: bool = False

    def holds(self, off: float | None = None) -> bool:
        """Whether its numbers agree, or would if so much were too much."""
        off = self.off.value if off is None else off
        return -self.less - 1e-9 <= off <= self.more + 1e-9

    def aim_of(self, path: tuple) -> str:
        """What the number at this path is for."""
        return self.aims.get(path, self.aim)


def paths(numbers: Sum) -> set[tuple]:
    """The paths of the printed numbers of a sum."""
    return {figure.path for figure in numbers.shares}


def line_of(raw: Sum) -> tuple:
    """The path of the one number that a raw side is."""
    return next(iter(raw.shares)).path
