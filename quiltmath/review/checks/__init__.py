"""The checks, in the order in which causes come before their consequences.

All that belongs to a check stands in its class (see `check.Check`); to add one, write the class and put it in `CHECKS`.
"""

from .bias import BiasOutside
from .bought import BackingSmall, BattingSmall, BindingShort, FabricShort
from .check import Check
from .counts import PieceCount
from .edges import LostPoints, NoAllowance, WrongTriangles
from .order import OrderOfWork
from .prints import PrintTurned
from .sewn import EdgesDiffer, FinishedSize
from .sizes import CutSize
from .stated import NotStated
from .strips import BorderLength, StripShort

CHECKS: tuple[Check, ...] = (
    NotStated(),
    WrongTriangles(),
    CutSize(),
    StripShort(),
    PieceCount(),
    EdgesDiffer(),
    NoAllowance(),
    LostPoints(),
    BiasOutside(),
    BorderLength(),
    FinishedSize(),
    PrintTurned(),
    OrderOfWork(),
    FabricShort(),
    BindingShort(),
    BackingSmall(),
    BattingSmall(),
)

__all__ = ["CHECKS", "Check"]
