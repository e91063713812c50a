"""A pattern corrected: the same design with numbers and an order of work that pass the review, and a list of what
changed.

What a finding knows how to fix is fixed as it says, pieces first and the fabric to buy last; what needs another plan
(blocks cut for the edge, a top sliced and turned, a top trimmed to its points) is planned anew. What only the designer
can know is left and said, and so is what no change tried here puts right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from .. import pattern
from ..making import patches
from ..pattern.cut import PIECES
from ..pattern.differences import differences
from ..pattern.names import all_in
from ..pattern.sheet import Sheet
from ..settings.replanned import planned_anew
from .changed import changes
from .finding import Change, Finding
from .other_sizes import in_sheet
from .reviewing import Review, review, reviewed
from .writing import printable

ROUNDS = 12  # fixing one thing may show the next: counts after a new plan, cloth after new counts
ONE_BY_ONE = 6  # rounds more, in which the gravest is fixed alone
MOST_SEWN = 60_000  # patches, in all rounds together: of a larger quilt the fewer are sewn
LEAST_ROUNDS = 2
LINED = ("binding", "backing", "batting")
BOUGHT = ("fabric", "bought", "pieces")  # the last two are those of another size


@dataclass(frozen=True)
class Correction:
    """A corrected sheet with the review it was given last, the `Change`s that made it, and the sheet as printed."""

    review: Review
    changes: tuple[Change, ...]
    printed: Sheet

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

    @property
    def nothing(self) -> str:
        """Why there are no changes, in words."""
        return "Nothing could be changed." if self.missing else "Nothing had to be changed."

    def text(self) -> str:
        """The text of the printed sheet with the corrections in it, each beside what was there, headed by what was
        changed and what is missing.

        It has been read again and reviewed: its review is `review`, or else it is refused with `pattern.Unreadable`.
        """
        return self._text

    @cached_property
    def _text(self):
        lines = ["Corrected by a review before cutting. Changed:", *(f"- {change}" for change in self.changes)]
        if not self.changes:
            lines = [f"Reviewed before cutting. {self.nothing}"]
        if self.missing:
            lines += ["Still to be asked:", *(f"- {thing}" for thing in self.missing)]
        text = pattern.edited(self.printed, self.sheet, "\n".join(map(printable, lines)))
        again = reviewed(self.review.reading.of(pattern.read_text(text, self.sheet.title)))
        if again.verdict != self.review.verdict:
            raise pattern.Unreadable(
                f"{self.printed.place([])}: read again, the corrected sheet is not the one that was reviewed; correct "
                "it by hand, by what the review says"
            )
        return text


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


class _Fix(NamedTuple):
    """What one finding asks to be changed, (path, new value) each; and whether that only takes spare pieces away."""

    finding: Finding
    edits: tuple
    spare: bool

    @property
    def turn(self):
        """When it comes: pieces first, then what goes round and behind them, then the fabric for all of it."""
        paths = [path[2:] if path[0] == "other_size" else path for path, _ in self.edits]
        if any(path[0] in BOUGHT and path[0] not in LINED for path in paths):
            return 2
        return 1 if any(path[0] in LINED for path in paths) else 0


class _State(NamedTuple):
    """How far a correction has come: the review of its sheet, the checks that asked for each change by its path, and
    what was planned anew, (paths, `Change`s)."""

    found: Review
    asked: dict[tuple, tuple[str, ...]]
    planned: tuple[tuple[tuple, ...], tuple[Change, ...]] = ((), ())

    @property
    def grave(self):
        """How much stands against it: (stops, asks)."""
        levels = [finding.level for finding in self.found.findings]
        return levels.count("stop"), levels.count("ask")


def correct(found: Review) -> Correction:
    """The correction of a reviewed sheet; each new sheet is reviewed once, and the last review is the one it tells of.

    Changes that leave as much against the sheet as there was before are not kept. Where all fixes together do not put
    it right, they are tried one after another, the gravest first.
    """
    best = start = _State(found, {})
    if not found.open and not _fixes(found):
        return Correction(found, (), found.sheet)
    left = max(LEAST_ROUNDS, MOST_SEWN // (patches(found.sheet) * (1 + len(found.sheet.other_size))))
    for most, some in ((ROUNDS, lambda fixes: fixes), (ONE_BY_ONE, lambda fixes: fixes[:1])):
        rounds, left = min(most, left), max(0, left - most)
        for state in _steps(start, rounds, some):
            if state.grave < best.grave or state.grave == best.grave == (0, 0):
                best = state
        if all(finding.only_designer and finding.level == "ask" for finding in best.found.open):
            break
    return Correction(best.found, tuple(_told(found.sheet, best)), found.sheet)


def _steps(state: _State, rounds: int, some: Callable) -> Iterator[_State]:
    """The sheets that a correction comes to, one after another; `some` picks from the fixes that are at hand."""
    tried: set[tuple] = set()
    for _ in range(rounds):
        stepped = _planned_anew(state) or _fixed(state, some, tried)
        if stepped is None:
            return
        state = stepped
        yield state


def _planned_anew(state):
    """The sheet planned anew where its order of work is the fault; None where it is not."""
    found = state.found
    planned = planned_anew(found.sheet, {finding.check for finding in found.open})
    if planned is None:
        return None
    edits, told = planned
    try:
        again = reviewed(found.reading.changed(*edits))
    except pattern.Unreadable:
        return None
    tuples = tuple(Change(*one, "planned") for one in told)
    paths, before = state.planned
    asked = state.asked | {path: told[0].checks for path, _ in edits}
    return _State(again, asked, (paths + tuple(path for path, _ in edits), before + tuples))


def _fixed(state, some, tried):
    """The sheet with some of the plain fixes of its findings that were not tried before; None where there are none."""
    fixes = [fix for fix in _fixes(state.found) if not all((path, str(value)) in tried for path, value in fix.edits)]
    turn = min((fix.turn for fix in fixes), default=0)
    chosen = []
    for fix in some([fix for fix in fixes if fix.turn == turn]):
        if not any(path == other for one in chosen for other, _ in one.edits for path, _ in fix.edits):
            chosen.append(fix)
            tried.update((path, str(value)) for path, value in fix.edits)
    return _with(state, chosen) if chosen else None


def _with(state, fixes):
    """The sheet with these fixes, or where they do not go together with as many as do, in their order; as it was where
    none does."""
    asked = dict(state.asked)
    for fix in fixes:
        for path, _ in fix.edits:
            asked[path] = tuple(dict.fromkeys((*asked.get(path, ()), fix.finding.check)))
    try:
        changed = state.found.reading.changed(*(edit for fix in fixes for edit in fix.edits))
        return state._replace(found=reviewed(changed), asked=asked)
    except pattern.Unreadable:
        half = len(fixes) // 2
        return state if not half else _with(_with(state, fixes[:half]), fixes[half:])


def _fixes(found):
    """What the findings of a review know to change, gravest first, as `_Fix`es; notes only once nothing else is open,
    spare pieces only where nothing else explains them, and never those that a note speaks of: they do no harm."""
    data = pattern.as_data(found.sheet)
    fixes, unfixed = [], []
    for finding, fix in _asked_for(found):
        edits = tuple((path, value) for path, value in _with_triangles(found.sheet, fix) if _at(data, path) != value)
        if finding.only_designer or not edits:
            unfixed.append(finding)
        elif finding.level != "note" or not found.open:
            fixes.append(_Fix(finding, edits, all(_lowers(_at(data, path), value) for path, value in edits)))
    unsure = _parts_of(found.sheet, [one for one in unfixed if one.level == "stop" and not one.size])
    fixes = [fix for fix in fixes if fix.finding.check != "piece-count" or unsure.isdisjoint(fix.finding.parts)]
    needed = [fix for fix in fixes if not fix.spare]
    explained = needed or any(one.level != "note" and not one.only_designer for one in unfixed)
    return needed if explained else [fix for fix in fixes if fix.finding.level != "note"]


def _asked_for(found):
    """Each finding of a review with the changes to the sheet that it asks for; of other sizes only what is not found
    in the first."""
    own = [finding for finding in found.findings if not finding.size]
    yield from ((finding, finding.fix or _turned(found.sheet, finding.path)) for finding in own)
    known = {(finding.check, finding.parts) for finding in own}
    for number, (_, other) in enumerate(found.other_sizes):
        for finding in other.findings:
            if (finding.check, finding.parts) not in known:
                yield finding, tuple(in_sheet(found.sheet, number, other.reading.sheet, finding.fix))


def _parts_of(sheet, stops):
    """All that goes into what these stops speak of: how many there are to be is not known before they are settled."""
    return {name for one in stops for part in one.parts for name in all_in(sheet, part)}


def _turned(sheet, path):
    """Triangles that are cut the wrong way, and of which nothing printed tells the right size, cut the other way: what
    size they must be is found then as that of any other part."""
    if path[:1] != ("cut",) or path[-1] != "cut":
        return ()
    return ((path, "twice" if sheet.cut[path[1]].cut == "once" else "once"),)


def _lowers(old, new):
    """Whether a change only makes a count smaller."""
    return isinstance(old, int) and isinstance(new, int) and new < old


def _with_triangles(sheet, fix):
    """A fix that says how many triangles come of a part, where the pattern prints that and the fix takes it out."""
    values = dict(fix)
    for path, value in fix:
        if path[0] == "cut" and path[-1] == "triangles" and value is None:
            line = sheet.cut[path[1]]
            count = values.get((*path[:-1], "count"), line.count)
            value = line.triangles and count * PIECES[values.get((*path[:-1], "cut"), line.cut)]
        yield path, value


def _at(data, path):
    for key in path:
        try:
            data = data[key]
        except (KeyError, IndexError, TypeError):
            return None
    return data


def _told(sheet, state):
    """All that differs from the printed sheet, in words; what was planned anew is told as a whole, save for its
    pieces."""
    paths, planned = state.planned
    whole = [path for path in paths if path[0] != "cut"]
    found = differences(pattern.as_data(sheet), pattern.as_data(state.found.sheet))
    rest = [one for one in found if not any(one.path[: len(path)] == path for path in whole)]
    return [*planned, *changes(sheet, state.found.sheet, rest, state.asked)]
