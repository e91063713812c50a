"""An on-point top sewn in its diagonal rows, from panels that are what they are: nothing is assumed to fit.

Edge triangles come lying with their right angle at the lower left. Rows are counted from the lower right corner of the
quilt; on the table they lie level, and the top is turned by 45 degrees when it is done.
"""
import numpy as np

from ..sewing import in_a_row


def sewn_top(across, down, block, alternate, side, corner, seam):
    """The top of `across` by `down` blocks on point (and the alternate ones between), corners last, as it lies on a wall."""
    sewn = {}
    sides = {turn: side.turn(turn) for turn in (0, 90, 180, 270)} if side is not None else {}
    rows = [_row(number, across, down, block, alternate, sides, seam, sewn) for number in range(1 - across, down)]
    width = block.edge("bottom", seam).finished_length
    top, begins = rows[0]
    for number, (row, row_begins) in zip(range(2 - across, down), rows[1:]):
        top, begins = _nested(top, begins, row, row_begins, width if number <= 0 else -width, seam)
    for faces in ("left", "right", "top", "bottom"):
        top = top.sew(corner, faces, "upper right", seam, "centre")
    return top.turn(45)


def _row(number, across, down, block, alternate, sides, seam, sewn):
    """One diagonal row: a side triangle or nothing, blocks, a side triangle or nothing; and where its first block begins.

    Row 0 starts at the quilt's lower left corner; a place (x, y) counts half diagonals from there, so both numbers are odd
    for the main blocks and even for the alternate ones.
    """
    x = max(0, -2 * number)
    blocks = []
    while x + 1 < 2 * across and x + 1 + 2 * number < 2 * down:
        x += 1
        blocks.append(block if x % 2 else alternate)
    row, begins = in_a_row(blocks, seam=seam, sewn=sewn), seam
    if number != 0:
        start = sides[180 if number < 0 else 90]
        begins = start.edge("right", seam).limit - seam
        row = start.sew(row, "right", "left", seam, "end" if number < 0 else "start")
    if number != down - across:
        end = sides[270 if number < down - across else 0]
        row = row.sew(end, "right", "left", seam, "end" if number < down - across else "start")
    return row, begins


def _nested(top, top_begins, row, row_begins, step, seam):
    """A row sewn above the top by nesting the seam at the first block of one into the seam one block along in the other.

    The row's first block begins `step` to the left of the first block of the row below it. Returns the top and where the
    new row's first block begins in it.
    """
    mine, theirs = top.edge("top", seam).breaks, row.edge("bottom", seam).breaks
    i = int(np.argmin(np.abs(mine - top_begins - max(0.0, -step))))
    j = int(np.argmin(np.abs(theirs - row_begins - max(0.0, step))))
    left = mine[i] - theirs[j]
    return top.sew(row, "top", "bottom", seam, (i, j)), left + row_begins - min(0.0, left)
