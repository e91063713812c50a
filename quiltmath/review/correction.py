"""A pattern corrected: the same design with numbers and an order of work that pass the review, and a list of what
changed.

What a finding knows how to fix is fixed as it says; what needs another plan (blocks cut for the edge, a top sliced and
turned, a top trimmed to its points) is planned anew. What only the designer can know is left and said.
"""

from __future__ import annotations

from dataclasses import dataclass

from .. import pattern
from ..pattern.sheet import Sheet
from ..settings.replanned import planned_anew
from .finding import Change
from .reviewing import Review, review, reviewed

ROUNDS = 12  # fixing one thing may show the next: counts after a new plan, cloth after new counts


@dataclass(frozen=True)
class Correction:
    """A corrected sheet with the review it was given last, and the `Change`s that made it."""

    review: Review
    changes: tuple[Change, ...]

    @property
    def sheet(self) -> Sheet:
        """The corrected sheet."""
        return self.review.sheet

    @property
    def passes(self) -> bool:
        """Whether the corrected sheet passes the review."""
        return self.review.verdict == "go"

    @property
    def missing(self) -> tuple[str, ...]:
        """What is still open, in words: nobody but the designer can say it, or nothing here can correct it."""
        return tuple(f"{finding.check}: {finding.message}" for finding in self.review.open)

    def text(self) -> str:
        """The corrected sheet as TOML, headed by what was changed and what is missing."""
        lines = [
            "Corrected by a review before cutting. Changed:",
            *(f"- {change}" for change in self.changes or ["nothing"]),
        ]
        if self.missing:
            lines += ["Still to be asked:", *(f"- {thing}" for thing in self.missing)]
        return pattern.text(self.sheet, "\n".join(lines))


def corrected(found: Review | Sheet) -> Correction:
    """A reviewed sheet (or a sheet, which is then reviewed) corrected as far as that can be done honestly.

    A sheet that needs nothing comes back as it is.

    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> binding = '[binding]\\nfabric="navy"\\nstrip=2.5\\ncount=1\\n'
    >>> few = pattern.read_text(EXAMPLE.replace("count = 16", "count = 12") + binding)
    >>> print(corrected(few).changes[0])
    piece-count: part 'A', count 12 becomes 16
    """
    return (found if isinstance(found, Review) else review(found)).correction


def correct(found: Review) -> Correction:
    """The correction of a reviewed sheet; each new sheet is reviewed once, and the last review is the one it tells of.

    Where what one finding fixes and what another fixes do not go together in one sheet, it ends at the sheet before.
    """
    changes: list[Change] = []
    tried: set[tuple] = set()
    if not found.open and all(finding.check == "piece-count" for finding in found.findings):
        return Correction(found, ())  # spare pieces do no harm
    for _ in range(ROUNDS):
        edits, told = _planned_anew(found) or _fixed(found, tried)
        if not edits:
            break
        try:
            found = reviewed(found.reading.changed(*edits))
        except pattern.Unreadable:
            break
        changes += told
    return Correction(found, tuple(changes))


def _planned_anew(found):
    """Another plan where the order of work is the fault, as (path, value) each, and the `Change`s; None where it is
    not."""
    planned = planned_anew(found.sheet, {finding.check for finding in found.open})
    return planned and (planned[0], [Change(*one, "planned") for one in planned[1]])


def _fixed(found, tried):
    """Every plain fix of the findings, (path, value) each, that is new and was not `tried` before, and the
    `Change`s."""
    sheet, data = found.sheet, pattern.as_data(found.sheet)
    edits, told = {}, []
    for finding in found.findings:
        if finding.only_designer or (finding.level == "note" and found.open):
            continue  # what else is fixed may settle a note
        for path, value in finding.fix:
            old = _value_at(data, path)
            if path not in edits and (path, str(value)) not in tried and old != value:
                edits[path] = value
                tried.add((path, str(value)))
                told += _told(finding.check, _named(sheet, path), old, value, tuple(path))
    return tuple(edits.items()), told


def _told(check, what, old, value, path):
    """The changes that a new value makes; none where it only takes away what no longer holds."""
    if isinstance(value, list):
        return [Change((check,), what, None, line, "added") for line in value if line not in (old or ())]
    return [] if value is None else [Change((check,), what, old, value, path=path)]


def _value_at(data, path):
    for key in path:
        try:
            data = data[key]
        except (KeyError, IndexError, TypeError):
            return None
    return data


def _named(sheet, path):
    """What a path means to a reader of the sheet."""
    if path[0] == "cut":
        return f"part {sheet.cut[path[1]].part!r}, {path[2]}"
    return ", ".join(str(key) for key in path)
