"""What is said of a printed number that does not agree with the others."""

from __future__ import annotations

from ..agreement import Culprit, Figure, Miscounted, Sum, Unexplained, culprits
from ..agreement.agreements import unit_agreements
from ..finding import ByProof
from .check import Check, ruler

MOST_LISTED = 6  # names in one sentence
PROOFS = {"whole": "patch", "once": "half_square", "twice": "quarter_square"}


class Blaming(Check):
    """A check that says which printed number is wrong; see `agreement`."""

    cut_otherwise, as_meant = True, False

    def blamed(self, reading, found):
        """The findings on what the search for a culprit found: one, or one for each number that is wrong."""
        made = reading.made
        if isinstance(found, Miscounted):
            return [self._miscounted(made, found)]
        if isinstance(found, Unexplained):
            return [self._unexplained(made, found)]
        return self._blamed(made, reading.measures, found)

    def _miscounted(self, made, found):
        """A row with a part too few or too many."""
        of, name = ruler(made), found.path[1]
        rows = [[_word(item) for item in row] for row in made.sheet.block[name].rows]
        if found.mended is not None:
            rows[found.row] = [_word(item) for item in found.mended]
        what = f"one {found.part!r} {'is left out' if found.lacks else 'is too many'}"
        return self.finding(
            made,
            found.path,
            f"Row {found.row + 1} of {name!r} comes to {of.said(found.comes_to)} and should come to "
            f"{of.said(found.should)}: {what}. Compare it with the drawing.",
            of.said(found.comes_to),
            of.said(found.should),
            why=ByProof("grid"),
            parts=frozenset([name, found.part]),
            panel=name,
            fix=() if found.mended is None else ((found.path, rows),),
        )

    def _blamed(self, made, measures, culprit):
        """The finding on the number (or the two that stand in each other's place) with which everything agrees."""
        paths = sorted(culprit.correction.paths, key=str)
        if culprit.correction.exchanged:
            return [self._exchanged(made, culprit, paths)]
        return [finding for path in paths for finding in self._wrong(made, measures, path, culprit)]

    def _wrong(self, made, measures, path, culprit):
        """The findings on the value at one path."""
        by = culprit.correction.by
        needed = [value - by.get(figure, 0.0) for figure, value in _sides(measures, path)]
        if path[0] == "cut" and path[-1] != "finished":
            return [self._size(made, measures, path, needed, culprit)]
        if path[-1] == "finished":
            return [self._finished(made, path, needed, culprit)]
        if path[0] == "unit" and len(path) == 2:
            return list(self._parts_of_unit(made, measures, path[1], needed)) or [self._unexplained(made, culprit)]
        return [self._number(made, measures, path, needed, culprit)]

    def _size(self, made, measures, path, exact, culprit):
        """The finding on one line of the cutting list and the exact size (inches) it needs."""
        of, cut, first = ruler(made), made.sheet.cut[path[1]], culprit.settles[0]
        whole, size = cut.cut == "whole", [value for _, value in _sides(measures, path)]
        needed = of.sizes(exact, lambda inches: of.up(inches, whole)) if len(exact) > 1 else of.up(exact[0], whole)
        printed = of.sizes(size) if len(size) > 1 else of.said(size[0])
        manner = "" if whole else f", cut {cut.cut} on the diagonal"
        exactly = "" if whole else f" (exactly {of.exactly(exact[0])})"
        short = any(need > have for need, have in zip(exact, size))
        return self.finding(
            made,
            path,
            f"{cut.part!r} is cut {printed}{manner}, too {'small' if short else 'large'}: {_aim(culprit, path)} it "
            f"needs {needed}{exactly}. Cut {needed} instead{_or_else(made, measures, culprit)}.",
            printed,
            needed,
            why=ByProof(PROOFS[cut.cut]) if first.why == "grid" else first.why,
            parts=frozenset([cut.part]),
            fix=((path, of.up(exact[0], whole) if len(exact) == 1 else _typed(of, exact, whole)),),
        )

    def _exchanged(self, made, culprit, paths):
        """Two pieces that stand in each other's place."""
        of, cuts = ruler(made), [made.sheet.cut[path[1]] for path in paths]
        (one, its), (other, others) = ((cut.part, of.sizes(made.sheet.cut_size(cut))) for cut in cuts)
        return self.finding(
            made,
            culprit.place,
            f"{one!r} ({its}) and {other!r} ({others}) stand in each other's place: "
            f"{_aim(culprit, paths[0])}, {one!r} must be {others} and {other!r} {its}. Sew each where the other is "
            "told.",
            f"{one} {its}, {other} {others}",
            f"{one} {others}, {other} {its}",
            why=ByProof("grid"),
            parts=frozenset([one, other]),
            fix=_in_each_others_place(made.sheet, one, other),
        )

    def _finished(self, made, path, needed, culprit):
        """A finished size that what is cut for it does not give."""
        of = ruler(made)
        name = made.sheet.cut[path[1]].part if path[0] == "cut" else path[1]
        table = made.sheet.cut[path[1]] if path[0] == "cut" else getattr(made.sheet, path[0])[name]
        printed, right = of.sizes(table.finished), of.sizes(needed)
        return self.finding(
            made,
            path,
            f"{name!r} is printed to finish {printed}, but what is cut for it comes to {right}. Everything else agrees "
            "with that: ask whether the finished size is a typo.",
            printed,
            right,
            level="note" if any(one.path[:2] != path[:2] for one in culprit.settles) else "ask",
            why=culprit.settles[0].why,
            parts=frozenset([name]),
            fix=((path, of.typed(needed, of.said)),),
        )

    def _parts_of_unit(self, made, measures, name, needed):
        """A unit that prints no size and does not fit, said of the parts it is made of."""
        held = unit_agreements(measures, ruler(made), name, [Sum(side) for side in needed])
        for found in culprits(list(held), measures.values):
            if isinstance(found, Culprit):
                yield from self._blamed(made, measures, found)

    def _number(self, made, measures, path, needed, culprit):
        """Any other number: a sub-cut, a size to trim to, a float, what a step trims off."""
        of = ruler(made)
        have = [value for _, value in _sides(measures, path)]
        printed, right = (of.sizes(pair) if len(pair) > 1 else of.said(pair[0]) for pair in (have, needed))
        right = right if max(needed) > 0 else "nothing"
        says = {
            "sub_cut": f"Pieces {printed} wide are cut from the strip sets of {path[1]!r}",
            "trim_to": f"{path[1]!r} is trimmed to {printed}",
            "floating": f"The blocks float {printed} inside the edge",
        }.get(path[-1], f"Step {path[1] + 1 if path[0] == 'step' else ''} trims off {printed}")
        return self.finding(
            made,
            path,
            f"{says}: {_aim(culprit, path)} it must be {right}{_or_else(made, measures, culprit)}.",
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
        block = made.sheet.block.get(path[1]) if path[0] == "block" else None
        parts = _parts_at(made, found.settles)
        apart = of.said(max(abs(one.off.value) for one in found.settles))
        aim = "what agrees" if block is None or block.finished is None else of.sizes(block.finished)
        return self.finding(
            made,
            path,
            f"The printed sizes do not agree {first.aim}: they miss it by up to {apart}, and no single one of them "
            f"explains it. Check the sizes of {_some_of(parts)}, and that no piece is left out or turned.",
            f"{apart} apart",
            aim,
            why=first.why,
            parts=parts,
            panel=path[1] if path[0] == "block" else "",
        )


def _sides(measures, path):
    """(Figure, printed inches) of each side of the value at a path."""
    figures = (Figure(path, 0), Figure(path, 1))
    return [(figure, measures.values[figure]) for figure in figures if figure in measures.values]


def _aim(culprit, path):
    """What the number at this path is for: the first thing it settles, and what else bears it out."""
    first, *more = culprit.settles
    aim = first.aim_of(path)
    proof = next((one.aim_of(path) for one in more if one.evidence and one.aim not in ("", aim)), "")
    return f"{aim} and {proof}" if proof else aim


def _or_else(made, measures, culprit):
    """The other corrections that would settle as much, in words."""
    words = []
    for other in culprit.others[:2]:
        path = min(other.paths, key=str)
        if path[0] == "cut" and len(other.paths) == 1:
            sizes = [value - other.by.get(figure, 0.0) for figure, value in _sides(measures, path)]
            of = ruler(made)
            words.append(f"{made.sheet.cut[path[1]].part!r} {of.sizes(sizes) if len(sizes) > 1 else of.said(sizes[0])}")
    return f", or else cut {' or '.join(words)}: ask which is meant" if words else ""


def _parts_at(made, settles):
    """The names of all pieces and units whose numbers stand in these agreements."""
    paths = {figure.path for one in settles for figure in one.off.shares}
    named = [path for path in paths if path[0] in ("cut", "unit", "strip_set")]
    return frozenset(made.sheet.cut[path[1]].part if path[0] == "cut" else path[1] for path in named)


def _some_of(parts):
    """A few of these names, and how many more there are."""
    names = sorted(parts)
    more = f" and {len(names) - MOST_LISTED} more" if len(names) > MOST_LISTED else ""
    return ", ".join(map(repr, names[:MOST_LISTED])) + more


def _word(item, swapped=None):
    """One place of a row as a sheet has it typed."""
    name = (swapped or {}).get(item.name, item.name)
    return name + (f":{item.turn:g}" if item.turn else "")


def _typed(of, exact, whole):
    return of.typed(exact, lambda inches: of.up(inches, whole))


def _in_each_others_place(sheet, one, other):
    """The changes that put one part where the other is told, in rows and in steps."""
    swapped = {one: other, other: one}
    changes = []
    for name, block in sheet.block.items():
        rows = [[_word(item, swapped) for item in row] for row in block.rows]
        if any(item.name in swapped for row in block.rows for item in row):
            changes.append((("block", name, "rows"), rows))
    for number, step in enumerate(sheet.step):
        if step.sew is not None and swapped.keys() & set(step.sew):
            changes.append((("step", number, "sew"), [swapped.get(name, name) for name in step.sew]))
    return tuple(changes)
