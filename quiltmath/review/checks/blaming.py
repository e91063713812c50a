"""What is said of a printed number that does not agree with the others."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from ...making import shaped
from ...making.meant import TRIMMED_ALIKE
from ...making.needs import unit_needs
from ...making.pieces import meant_size
from ..agreement import ALIKE_IN, Culprit, Figure, Miscounted, Sum, Unexplained, culprits
from ..agreement.agreements import unit_agreements
from ..agreement.measures import LARGE
from ..finding import ByProof
from .check import Check, quilt_follows, ruler
from .exchanged import have_each_others_size, in_each_others_place, sizes_exchanged, triangles_of_size
from .printed_strips import from_strips, strips_as_wide
from .rows_miscounted import row_miscounted

if TYPE_CHECKING:
    from collections.abc import Iterable

MOST_LISTED = 6  # names in one sentence
PROOFS = {"whole": "patch", "once": "half_square", "twice": "quarter_square"}


class Blaming(Check):
    """A check that says which printed number is wrong; see `agreement`."""

    cut_otherwise, as_meant = True, False

    def blamed(self, reading, found):
        """The findings on what the search for a culprit found: one, or one for each number that is wrong."""
        made = reading.made
        if isinstance(found, Miscounted):
            return [row_miscounted(self, made, found)]
        if isinstance(found, Unexplained):
            return [self._unexplained(made, found)]
        return self._blamed(made, reading.measures, found)

    def _blamed(self, made, measures, culprit):
        """The finding on the number (or the two that stand in each other's place) with which everything agrees."""
        paths = sorted((path for path in culprit.correction.paths if path[0] != "border"), key=str)  # judged as lengths
        cuts = [made.sheet.cut[path[1]] for path in paths if path[0] == "cut"]
        if culprit.correction.exchanged:
            exchanged = self._sizes_exchanged if have_each_others_size(made, *cuts) else self._exchanged
            return [exchanged(made, culprit, *cuts)]
        if culprit.correction.unseamed:
            return [self._unseamed(made, measures, culprit, paths)]
        if len(cuts) == len(paths) > 1 and culprit.place[0] in ALIKE_IN:
            needed = [_needed(measures, path, culprit) for path in paths]
            printed = [[value for _, value in _sides(measures, path)] for path in paths]
            ways = [cut.cut for cut in cuts]
            if all(each == each[:1] * len(paths) for each in (needed, printed, ways)):
                return [self._size(made, measures, paths, needed[0], culprit)]
        if len(paths) == len(cuts) == 1 and (other := triangles_of_size(made, *cuts)) is not None:
            return [self._sizes_exchanged(made, culprit, *cuts, other)]
        return [finding for path in paths for finding in self._wrong(made, measures, path, culprit)]

    def _wrong(self, made, measures, path, culprit):
        """The findings on the value at one path."""
        needed = _needed(measures, path, culprit)
        if path[0] == "block" and made.sheet.block[path[1]].ready_made:
            return [self._ready_made(made, measures, path, needed, culprit)]
        if path[0] == "cut" and path[-1] != "finished":
            return [self._size(made, measures, [path], needed, culprit)]
        if path[-1] == "finished":
            return [self._finished(made, path, needed, culprit)]
        if path[0] == "unit" and len(path) == 2:
            return list(self._parts_of_unit(made, measures, path[1], needed)) or [
                self._to_be_trimmed(made, measures, path[1], needed, culprit)
                if made.sheet.unit[path[1]].kind in TRIMMED_ALIKE
                else self._unexplained(made, culprit)
            ]
        return [self._number(made, measures, path, needed, culprit)]

    def _size(self, made, measures, paths, exact, culprit):
        """The finding on a line of the cutting list, or on several that are alike, and the exact size (inches) it
        needs."""
        of, path, first = ruler(made), paths[0], culprit.settles[0]
        cuts = [made.sheet.cut[path[1]] for path in paths]
        cut, size = cuts[0], [value for _, value in _sides(measures, path)]
        whole, parts = cut.cut == "whole", frozenset(one.part for one in cuts)
        if not whole and first.why == "grid":  # rows are added up from what a printed size stands for
            exact = [side - have + meant for side, have, meant in zip(exact, size, meant_size(made, cut))]
        printed, needed = _told(of, size), _told(of, exact, lambda inches: of.up(inches, whole))
        if _lies_turned(size, exact):
            return self._on_its_side(made, path, cut, printed, needed)
        manner = f", {cut.cut} on the diagonal" if cut.diagonal else ""
        fixes = [
            ((path, _typed(of, exact, whole)), *strips_as_wide(made, one, path, size, exact))
            for path, one in zip(paths, cuts)
        ]
        across = " wide" if len(size) == 1 else ""
        unrounded = _told(of, exact, of.exactly)
        exactly = "" if whole or unrounded == needed else f" (exactly {unrounded})"
        exactly += from_strips(cuts, fixes)
        return self.finding(
            made,
            path,
            f"{some_of(parts)} {'are' if len(cuts) > 1 else 'is'} cut {printed}{across}{manner}, "
            f"{_off(size, exact, bool(across))}: cut {needed}{across}{exactly}, {_aim(culprit, path)}."
            f"{_or_else(made, measures, culprit)}",
            printed,
            needed,
            why=ByProof(_proof(cut)) if first.why == "grid" else first.why,
            parts=parts,
            fix=tuple(chain.from_iterable(fixes)),
        )

    def _unseamed(self, made, measures, culprit, paths):
        """Several pieces that are printed as they finish."""
        of, by = ruler(made), culprit.correction.by
        parts = frozenset(made.sheet.cut[path[1]].part for path in paths)
        have = measures.values[next(iter(by))]
        printed, needed = of.said(have), of.up(have + 2 * made.seam, whole=True)
        sizes = [_needed(measures, path, culprit) for path in paths]
        return self.finding(
            made,
            paths[0],
            f"{some_of(parts)} are cut {printed}, as they should finish: their seams are forgotten. Cut them "
            f"{needed} there, {_aim(culprit, paths[0])}.",
            printed,
            needed,
            why=culprit.settles[0].why,
            parts=parts,
            fix=tuple((path, _typed(of, size, True)) for path, size in zip(paths, sizes)),
        )

    def _on_its_side(self, made, path, cut, printed, needed):
        """A piece that fits once it is turned by a quarter: it is cut right."""
        return self.finding(
            made,
            path,
            f"{cut.part!r} is typed {printed}, and where it is sewn it lies {needed}: it is taken so.",
            printed,
            needed,
            level="note",
            why=ByProof("grid"),
            parts=frozenset([cut.part]),
            fix=((path, _typed(ruler(made), tuple(map(float, cut.size[::-1])), True)),),
        )

    def _exchanged(self, made, culprit, *cuts):
        """Two pieces that stand in each other's place."""
        of = ruler(made)
        (one, its), (other, others) = ((cut.part, of.sizes(made.sheet.cut_size(cut))) for cut in cuts)
        return self.finding(
            made,
            culprit.place,
            f"{one!r} ({its}) and {other!r} ({others}) stand in each other's place: sew {other!r} where {one!r} is "
            f"told, and {one!r} where {other!r} is, {_aim(culprit, _size_of(made, cuts[0]))}. Or ask whether their "
            "sizes are exchanged.",
            f"{one!r} {its}, {other!r} {others}",
            f"{one!r} {others}, {other!r} {its}",
            why=ByProof("grid"),
            parts=frozenset([one, other]),
            fix=in_each_others_place(made.sheet, one, other),
            asks=f"“{one}” is {its} and “{other}” {others}, and each fits only in the other's place. Is their order "
            "wrong, or are their sizes exchanged?",
        )

    def _sizes_exchanged(self, made, culprit, *cuts):
        """Two lines of the cutting list that have each other's size."""
        of = ruler(made)
        (one, its), (other, others) = ((cut.part, of.sizes(made.sheet.cut_size(cut))) for cut in cuts)
        return self.finding(
            made,
            _size_of(made, cuts[0]),
            f"{one!r} ({its}) and {other!r} ({others}) have each other's size: cut {one!r} {others} and {other!r} "
            f"{its}, {_aim(culprit, _size_of(made, cuts[0]))}.",
            f"{one!r} {its}, {other!r} {others}",
            f"{one!r} {others}, {other!r} {its}",
            why=culprit.settles[0].why,
            parts=frozenset([one, other]),
            fix=sizes_exchanged(of, made.sheet, *cuts),
            asks=f"“{one}” is {its} and “{other}” {others}: are their sizes exchanged?",
        )

    def _finished(self, made, path, needed, culprit):
        """A finished size that what is cut for it does not give."""
        of = ruler(made)
        name = made.sheet.cut[path[1]].part if path[0] == "cut" else path[1]
        table = made.sheet.cut[path[1]] if path[0] == "cut" else getattr(made.sheet, path[0])[name]
        needed = [of.as_printed(side) for side in needed]
        printed, right = of.sizes(table.finished), of.sizes(needed)
        large = path[0] == "unit" and _cut_large(made, name, needed)
        trimmed = f", trimmed to {of.sizes([side + 2 * made.seam for side in needed])}" if large else ""
        level = "note" if any(one.path[:2] != path[:2] for one in culprit.settles) and not large else "ask"
        advice = "The other sizes agree with that: ask whether the finished size is a typo"
        if all(abs(float(a) - b - 2 * made.seam) < 1e-6 for a, b in zip(table.finished, needed)):
            advice = f"{printed} is what it measures with its seam allowances: ask whether that is meant"
        fix = [(path, of.typed(needed, of.said))]
        if path[0] == "block" and quilt_follows(made, name, needed):
            level, quilt = "stop", of.sizes(made.finished)
            trimmed = f", and the quilt then to {quilt} and not to {of.sizes(made.sheet.finished)}"
            advice = "Ask which block is meant, or buy binding, backing and batting for the real size"
            fix.append((("finished",), of.typed(made.finished, of.said)))
        return self.finding(
            made,
            path,
            f"{name!r} is printed to finish {printed}, but what is cut for it comes to {right}{trimmed}. {advice}.",
            printed,
            right,
            level=level,
            why=culprit.settles[0].why,
            parts=frozenset([name]),
            fix=tuple(fix),
        )

    def _ready_made(self, made, measures, path, needed, culprit):
        """A block that comes ready made in a size that does not fit."""
        of, name, have = ruler(made), path[1], [value for _, value in _sides(measures, path)]
        more = 0.0 if path[-1] == "size" else 2 * made.seam
        raw, right = (of.sizes([side + more for side in pair]) for pair in (have, needed))
        small = any(want > side + 1e-6 for side, want in zip(have, needed))
        cure = "sew strips round it, and trim it to that" if small else "trim it evenly, if its points allow it"
        return self.finding(
            made,
            path,
            f"The ready-made block {name!r} measures {raw}, {_off(have, needed)}: it must measure {right}, "
            f"{_aim(culprit, path)}. Measure it again; if it is so, {cure}.{_or_else(made, measures, culprit)}",
            raw,
            right,
            why=culprit.settles[0].why,
            parts=frozenset([name]),
            asks=f"The ready-made block “{name}” measures {raw}, and its place takes {right}. Which is meant?",
        )

    def _parts_of_unit(self, made, measures, name, needed):
        """A unit that prints no size and does not fit, said of the parts it is made of."""
        of = ruler(made)
        held = unit_agreements(measures, of, name, [Sum(side) for side in needed])
        for found in culprits(list(held), measures.values, step=of.step):
            if isinstance(found, Culprit):
                yield from self._blamed(made, measures, found)

    def _to_be_trimmed(self, made, measures, name, needed, culprit):
        """A unit whose squares are cut larger than they need be, and that nothing says is trimmed."""
        of, have = ruler(made), [measures.finished(name).side(side).value for side in (0, 1)]
        sewn, right = (of.sizes([side + 2 * made.seam for side in sides]) for sides in (have, needed))
        cut = _told(of, unit_needs(made, made.sheet.unit[name], needed)[made.sheet.unit[name].parts[0]], of.up)
        return self.finding(
            made,
            ["unit", name],
            f"The units {name!r} come out {sewn}, and only {right} fits, {_aim(culprit, ('unit', name))}: the pattern "
            f"does not say that they are trimmed. Trim each to {right} before it is sewn on, or cut its squares {cut}.",
            sewn,
            right,
            level="ask",
            why=ByProof(PROOFS["once" if made.sheet.unit[name].kind == "half-square" else "twice"]),
            parts=frozenset([name]),
            fix=((("unit", name, "trim_to"), of.typed([side + 2 * made.seam for side in needed], of.said)),),
            asks=f"The units “{name}” come out {sewn}: are they trimmed to {right}?",
        )

    def _number(self, made, measures, path, needed, culprit):
        """Any other number: a sub-cut, a size to trim to, a float, what a step trims off."""
        of = ruler(made)
        have = [value for _, value in _sides(measures, path)]
        printed, right = (_told(of, sides) for sides in (have, needed))
        right = right if max(needed) > 1e-6 else "nothing"
        off = _off(have, needed, path[-1] == "sub_cut")
        step = f"Step {path[1] + 1} trims off " if path[0] == "step" else "Trimmed off is "
        says = {
            "sub_cut": f"The sub-cut of {path[1]!r} is {printed}, {off}: cut its strip sets every {right}",
            "trim_to": f"{path[1]!r} is trimmed to {printed}, {off}: trim it to {right}",
            "floating": f"The blocks float {printed} inside the edge, {off}: it must be {right}",
        }.get(path[-1], f"{step}{printed}, {off}: trim off {right}")
        return self.finding(
            made,
            path,
            f"{says}, {_aim(culprit, path)}.{_or_else(made, measures, culprit)}",
            printed,
            right,
            why=culprit.settles[0].why,
            parts=frozenset([path[1]]) if path[0] in ("strip_set", "unit", "block") else frozenset(),
            fix=((path, of.typed(needed, of.said) if len(needed) > 1 else right),),
        )

    def _unexplained(self, made, found):
        """Numbers that do not agree, and no single one explains it."""
        of, first = ruler(made), found.settles[0]
        path = first.path
        parts = _parts_at(made, found.settles)
        apart = of.said(max(abs(one.off.value) for one in found.settles))
        names = some_of(parts or {str(path[:2][-1])})
        return self.finding(
            made,
            path,
            f"The sizes of {names} do not agree: they are up to {apart} off, and no single one of them explains it. "
            f"Check them all, and that no piece is left out or turned, {first.aim}.",
            f"{apart} apart",
            "sizes that agree",
            why=first.why,
            parts=parts,
            panel=path[1] if path[0] == "block" else "",
            asks=f"The sizes of {names} are up to {apart} off from what fits together. Which of them is a typo?",
        )


def _proof(cut):
    """The name of the proof that says how large the pieces of a line are cut."""
    return shaped.PROOFS[cut.shape] if cut.shape else "half_rectangle" if cut.halved_rectangle else PROOFS[cut.cut]


def _off(have, need, wide=False):
    """How a size (inches, one side or both) differs from the one needed, in words; `wide`: one side is a width.

    >>> _off([2], [2.5], wide=True), _off([2, 12.5], [2, 12]), _off([3, 3], [2.5, 2.5]), _off([2, 3], [3, 2])
    ('too narrow', 'too long', 'too large', 'the wrong size')
    """
    short, long = ([side for side in range(len(have)) if way * (need[side] - have[side]) > 1e-6] for way in (1, -1))
    if short and long:
        return "the wrong size"
    off = short + long
    if not wide and (len(off) != 1 or have[0] == have[-1]):
        return f"too {'small' if short else 'large'}"
    if have[off[0]] == min(have):
        return f"too {'narrow' if short else 'wide'}"
    return f"too {'short' if short else 'long'}"


def _sides(measures, path):
    """(Figure, printed inches) of each side of the value at a path."""
    figures = (Figure(path, 0), Figure(path, 1))
    return [(figure, measures.values[figure]) for figure in figures if figure in measures.values]


def _needed(measures, path, culprit):
    """Each side of the value at a path, to a millionth of an inch, as a culprit corrects it."""
    return [round(value - culprit.correction.by.get(figure, 0.0), 6) for figure, value in _sides(measures, path)]


def _aim(culprit, path):
    """What the number at this path is for: the first thing it settles, and what else bears it out."""
    first, *more = sorted(culprit.settles, key=lambda one: path[-1] == "trim_to" and one.path == path[:-1])
    aim = first.aim_of(path)
    proof = next((one.aim_of(path) for one in more if one.evidence and one.aim not in ("", aim)), "")
    return " and ".join(filter(None, (aim, proof)))


def _or_else(made, measures, culprit):
    """The other corrections that would settle as much, in words."""
    words = []
    for other in culprit.others[:2]:
        path = min(other.paths, key=str)
        if path[0] == "cut" and len(other.paths) == 1:
            sizes = [value - other.by.get(figure, 0.0) for figure, value in _sides(measures, path)]
            words.append(f"{made.sheet.cut[path[1]].part!r} {_told(ruler(made), sizes)}")
    return f" Or else cut {' or '.join(words)}: ask which is meant." if words else ""


def _parts_at(made, settles):
    """The names of all pieces and units whose numbers stand in these agreements."""
    paths = {figure.path for one in settles for figure in one.off.shares}
    named = [path for path in paths if path[0] in ("cut", "unit", "strip_set")]
    return frozenset(made.sheet.cut[path[1]].part if path[0] == "cut" else path[1] for path in named)


def some_of(parts: Iterable[str]) -> str:
    """A few of these names, and how many more there are."""
    names = sorted(parts)
    words = [*map(repr, names[:MOST_LISTED])]
    more = len(names) - MOST_LISTED
    words += [f"{more} more"] if more > 0 else []
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _cut_large(made, name, finished):
    """Whether the squares of a unit are cut so large for this finished size (inches) that it must be trimmed."""
    unit = made.sheet.unit[name]
    needs = unit_needs(made, unit, finished) if unit.trim_to is None and unit.kind in TRIMMED_ALIKE else {}
    return any(float(made.sheet.part(part).size[0]) - needs[part][0] > LARGE for part in needs if made.sheet.part(part))


def _size_of(made, cut):
    """The path of the size of a line of the cutting list."""
    return "cut", made.sheet.cut.index(cut), "size"


def _told(of, sides, say=None):
    """One length, or both sides of a size, in words."""
    return of.sizes(sides, say) if len(sides) > 1 else (say or of.said)(sides[0])


def _typed(of, sides, whole):
    """One length, or both sides of a size, up to the ruler and as a sheet has them typed."""
    pair = sides if len(sides) > 1 else (sides[0], sides[0])
    return of.typed(pair, lambda inches: of.up(inches, whole))


def _lies_turned(size, exact):
    """Whether the sides of a piece are those it needs, the other way round."""
    return len(size) > 1 and size[0] != size[1] and all(abs(a - b) < 1e-6 for a, b in zip(exact, size[::-1]))
