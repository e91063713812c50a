"""The checks, in the order in which causes come before their consequences.

To add one: write a `Check` in the module it belongs to, put it in `CHECKS`, give it an ok, a bad and a skip test, and a
sheet in `data/patterns/faulty/` named after it.
"""
from .check import Check
from .edges import BiasOutside, LostPoints, NoAllowance, WrongTriangles
from .sizes import CutSize, EdgesDiffer, FinishedSize
from .stated import NotStated, PieceCount

CHECKS = (NotStated(), WrongTriangles(), CutSize(), PieceCount(), EdgesDiffer(), NoAllowance(), LostPoints(), BiasOutside(),
          FinishedSize())

__all__ = ["CHECKS", "Check"]
