"""The checks, in the order in which causes come before their consequences.

To add one: write a `Check` in the module it belongs to, put it in `CHECKS`, give it an ok, a bad and a skip test, and a
sheet in `data/patterns/faulty/` named after it.
"""

from .bought import BackingSmall, BattingSmall, BindingShort, FabricShort
from .check import Check
from .edges import BiasOutside, LostPoints, NoAllowance, WrongTriangles
from .sizes import CutSize, EdgesDiffer, FinishedSize
from .stated import NotStated, PieceCount
from .strips import BorderLength, OrderOfWork, PrintTurned, StripShort

CHECKS = (
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
