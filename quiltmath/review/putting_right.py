"""A pattern put right: the same design with numbers and an order of work that pass the review, and a list of what changed.

What a finding knows how to mend is mended as it says; what needs another plan (blocks cut for the edge, a top sliced and
turned, a top trimmed to its points) is drawn anew. What only the designer can know is left and said.
"""

from dataclasses import dataclass
from math import sqrt

from .. import lengths, pattern, proofs
from ..pattern.names import CORNER, EDGES, SIDE, called
from .finding import said
from .reading import review

ROUNDS = 12  # mending one thing may show the next: counts after a new plan, cloth after new counts


@dataclass(frozen=True)
class PutRight:
    """A mended sheet, what was changed, and what is still missing because nobody but the designer can say it."""

    sheet: object
    changes: tuple
    missing: tuple

    @property
    def passes(self):
        """Whether the mended sheet passes the review."""
        return review(self.sheet).verdict == "go"

    def text(self):
        """The mended sheet as TOML, headed by what was changed and what is missing."""
        lines = [
            "Put right by a review before cutting. Changed:",
            *(f"- {change}" for change in self.changes or ["nothing"]),
        ]
        if self.missing:
            lines += ["Still to be asked:", *(f"- {thing}" for thing in self.missing)]
        return pattern.text(self.sheet, "\n".join(lines))


def put_right(sheet):
    """The sheet mended as far as that can be done honestly, as a `PutRight`.

    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> few = pattern.read_text(EXAMPLE.replace("count = 16", 'count = 12') + '[binding]\\nfabric="navy"\\nstrip=2.5\\ncount=1\\n')
    >>> put_right(few).changes[0]
    "piece-count: part 'A', count 12 becomes 16"
    """
    changes, tried = [], set()
    for _ in range(ROUNDS):
        found = review(sheet)
        if (
            not changes
            and all(finding.check == "piece-count" for finding in found.findings if finding.level == "note")
            and not _open(found)
        ):
            break  # spare pieces do no harm
        step = _new_plan(sheet, found) or _mended(sheet, found, tried)
        if step is None:
            break
        sheet, told = step
        changes += told
    missing = [f"{finding.check}: {finding.message}" for finding in _open(review(sheet))]
    return PutRight(sheet, tuple(changes), tuple(missing))


def _open(found):
    return [finding for finding in found.findings if finding.level != "note"]


def _mended(sheet, found, tried):
    """The sheet with every plain mend of its findings applied, and what was changed; None where nothing new can be done."""
    wanted, told = {}, []
    for finding in found.findings:
        if finding.level == "note" and _open(found):
            continue  # what else is mended may settle it
        for path, value in finding.fix:
            old = _value_at(sheet, path)
            if path not in wanted and (path, str(value)) not in tried and old != value:
                wanted[path] = value
                tried.add((path, str(value)))
                told += _told(finding.check, _named(sheet, path), old, value)
    if not wanted:
        return None
    return pattern.changed(sheet, *wanted.items()), told


def _told(check, name, old, value):
    """What a change does, in words; nothing where it only takes away what no longer holds."""
    if isinstance(value, list):
        return [f"{check}: {name}, added: {line}" for line in value if line not in (old or ())]
    return [] if value is None else [f"{check}: {name} {'' if old is None else f'{old} '}becomes {value}"]


def _value_at(sheet, path):
    place = pattern.as_data(sheet)
    for key in path:
        try:
            place = place[key]
        except (KeyError, IndexError, TypeError):
            return None
    return place


def _named(sheet, path):
    """What a path means to a reader of the sheet."""
    if path[0] == "cut":
        return f"part {sheet.cut[path[1]].part!r}, {path[2]}"
    return ", ".join(str(key) for key in path)


def _new_plan(sheet, found):
    """The sheet planned anew where its order of work is the fault, and what was changed; None where that is not so."""
    checks = {finding.check for finding in _open(found)}
    if checks & {"no-allowance", "bias-outside"} and any(step.cut for step in sheet.step):
        return _on_point_from_the_start(sheet)
    if checks & {"no-allowance", "bias-outside"}:
        return _built_edges(sheet)
    if "lost-points" in checks:
        return _without_trimming(sheet)
    return None


def _without_trimming(sheet):
    """The sheet without explicit trimming that cuts off the points."""
    steps = [number for number, step in enumerate(sheet.step) if step.trim is not None]
    if not steps or steps[-1] != len(sheet.step) - 1:
        return None
    last = sheet.step[-1]
    kept = pattern.as_data(sheet)["step"][:-1]
    mended = pattern.changed(sheet, (("step",), kept or None))
    return mended, [
        f"lost-points: {last.trim!r} is no longer trimmed to its points; squaring up leaves a seam beyond them"
    ]


def squares(sheet, name):
    """The names of the parts of a block made of n x n equal whole squares, row by row, or None for any other block."""
    block = sheet.block.get(name)
    if block is None or any(len(row) != len(block.rows) or any(item.turn for item in row) for row in block.rows):
        return None
    names = [[item.name for item in row] for row in block.rows]
    cuts = [sheet.part(part) for row in names for part in row]
    if any(cut is None or cut.cut != "whole" or cut.size is None for cut in cuts):
        return None
    sizes = {cut.size for cut in cuts}
    return names if len(sizes) == 1 and len(set(next(iter(sizes)))) == 1 else None


def _on_point_from_the_start(sheet):
    """A straight top, twice as long as wide, that was sliced and turned: the same picture set on point from the start.

    The square on point has its corners where blocks of the straight top meet, so the block to set is the one found half a
    block along and half a block up.
    """
    setting, names = sheet.setting, squares(sheet, sheet.setting.block)
    short, long = sorted((setting.across, setting.down))
    if (
        setting.style != "straight"
        or setting.sashing
        or setting.alternate
        or names is None
        or len(names) % 2
        or long != 2 * short
    ):
        return None
    half = len(names) // 2
    rolled = [row[half:] + row[:half] for row in names[half:] + names[:half]]
    unit = float(sheet.part(names[0][0]).size[0]) - 2 * float(sheet.sewing_seam)
    side = said(short * unit * len(names) * sqrt(2), "1/8")
    mended = pattern.changed(
        sheet,
        (("step",), None),
        (("block", setting.block, "rows"), rolled),
        (("block", setting.block, "count"), None),
        (("finished",), side),
        (
            ("setting",),
            {
                "style": "on point",
                "across": short,
                "down": short,
                "block": setting.block,
                "sides": {"how": "cut blocks"},
                "corners": {"how": "cut blocks"},
            },
        ),
    )
    return mended, [
        (
            f"no-allowance, bias-outside: the {long} x {short} top is no longer sliced and turned but set on point from the "
            f"start, {short} x {short} blocks with side and corner triangles; it finishes {side} in"
        )
    ]


def _built_edges(sheet):
    """Edge triangles cut from whole blocks: the same picture, built from squares and edge triangles."""
    data, told = pattern.as_data(sheet), []
    for name, key in ((SIDE, "sides"), (CORNER, "corners")):
        piece = getattr(sheet.setting, key)
        if piece is None or piece.how != "cut blocks":
            continue
        names = squares(sheet, piece.block or sheet.setting.block)
        if names is None:
            return None
        make, first = (side_rows, 0) if name == SIDE else (corner_rows, 1)
        rows = {where: make(turned(names, first + around)) for around, where in enumerate(EDGES)}
        own = {where: own for where, own in rows.items() if where != "top" and own != rows["top"]}
        data["setting"][key] = {"how": "built", "rows": rows["top"], **own}
        _cut_edges(sheet, data, [row for those in rows.values() for row in those], names[0][0])
        told.append(
            f"no-allowance: the {called(name)}s are no longer cut from whole blocks but built from the block's own squares and edge "
            "triangles that own their quarter inch, the outside on straight grain"
        )
    if not told:
        return None
    return pattern.changed(sheet, (("setting",), data["setting"]), (("cut",), data["cut"])), told


def turned(names, quarters):
    """A block of squares turned clockwise by so many quarter turns.

    >>> turned([["A", "B"], ["C", "D"]], 1)
    [['C', 'A'], ['D', 'B']]
    """
    for _ in range(quarters % 4):
        names = [list(row) for row in zip(*names[::-1])]
    return names


def side_rows(names):
    """The rows of a built side triangle that shows the lower left half of a block of squares.

    >>> side_rows([["A", "B"], ["B", "A"]])
    [['edge A'], ['B', 'edge A']]
    """
    return [row[:number] + [f"edge {row[number]}"] for number, row in enumerate(names)]


def corner_rows(names):
    """The rows of a built corner triangle, from its tip to its long edge, that shows the left quarter of a block of squares.

    >>> corner_rows([["A", "B"], ["B", "A"]])
    [['edge A:90', 'edge B']]
    """
    size, rows = len(names), []
    for column in range((size - 1) // 2, -1, -1):
        cells = [names[row][column] for row in range(column, size - column)]
        rows.append(
            [f"tip {cells[0]}:225"] if len(cells) == 1 else [f"edge {cells[0]}:90", *cells[1:-1], f"edge {cells[-1]}"]
        )
    return rows


def _cut_edges(sheet, data, rows, square):
    """Add the edge triangles that rows name to the cutting list: cut twice for a row's end, once for the tip."""
    seam, unit = float(sheet.sewing_seam), float(sheet.part(square).size[0]) - 2 * float(sheet.sewing_seam)
    listed = {cut["part"] for cut in data["cut"]}
    for word in [word for row in rows for word in row]:
        part = word.partition(":")[0]
        kind, _, of = part.partition(" ")
        if kind not in ("edge", "tip") or part in listed or sheet.part(of) is None:
            continue
        exact = (
            proofs.quarter_square.value(finished=unit * sqrt(2), seam=seam)
            if kind == "edge"
            else proofs.half_square.value(finished=unit / sqrt(2), seam=seam)
        )
        size = lengths.text(lengths.ruler(exact, step="1/8" if sheet.units == "in" else "1 mm"), unit=sheet.units)
        data["cut"].append(
            {
                "part": part,
                "fabric": sheet.part(of).fabric,
                "size": size,
                "count": 1,
                "cut": "twice" if kind == "edge" else "once",
            }
        )
        listed.add(part)
