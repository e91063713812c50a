"""The printed counts of pieces, units, blocks and strip sets, held against what the quilt takes."""

from typing import NamedTuple

from ...making import batch, bill_of_materials, pieces_needed
from ...making.bill import sewn_first
from ...making.measures import long_strips
from ...making.needs import unit_proof
from ...making.slants import slants_taken
from ...pattern.names import all_in, is_binding, sashing_parts, unused
from ..finding import ByNotebook, ByProof
from .check import Check, ruler, some
from .counted_line import CountedLine
from .drawn_otherwise import told_otherwise
from .forgotten import added, by_two_names, idle_fabrics, is_piece, line_of, needed, place_of, to_ask
from .laid_out import other_layout
from .sets_by_width import sets_by_width, sets_taken, straightened, strips_by_width, widths_that_decide
from .slanting import said_both
from .widths import by_width, how_wide

FEW = 4
"""Pieces: so many may be cut that nothing uses; of more a step may be missing."""


class PieceCount(Check):
    """Too few or too many pieces of a part."""

    name, title = "piece-count", "Too few or too many pieces"
    repair, why = "cut as many as the layout takes", ByNotebook("03-straight-or-on-point")
    by_seam = False
    question = "How many of {parts} should there be: {printed} as printed, or {needed}?"

    def finding(self, made, path, *said, why=None, parts=frozenset(), **more):
        """A finding on one part, unit or block, whose reason shows how many of that the quilt takes."""
        for name in parts if why is None else ():
            why = _counted_by(made.sheet, name)
        return super().finding(made, path, *said, why=why, parts=parts, **more)

    def causes(self, reading):
        found = other_layout(reading.sheet.model_copy(update={"setting": reading.made.sheet.setting}))
        if found is None:
            if not reading.off:
                yield from told_otherwise(self, reading)
            return
        sized = "" if reading.sheet.finished is None else "the printed size of the quilt and "
        yield self.finding(
            reading.made,
            found.changes[0][0],
            f"The quilt is set with {found.told}, but {sized}{found.counted} are those of {found.meant}. Look at "
            "the drawing, and ask which of the two is meant, before you cut.",
            found.told,
            found.meant,
            level="ask",
            fix=found.changes,
            asks=f"How is the quilt set: with {found.told}, as it says, or with {found.meant}, as it is counted?",
        )

    def findings(self, reading, earlier):
        made, sheet = reading.made, reading.made.sheet
        wrong_way = {part for finding in earlier if finding.check == "wrong-triangles" for part in finding.parts}
        usual, widths = widths_that_decide(sheet)
        at_widths = [pieces_needed(one) for one in widths]
        with_room = pieces_needed(straightened(sheet)) if sheet.strip_set else at_widths[0]
        by_their_width = [*sets_by_width(sheet, usual, widths)]
        for line in _lines(made, at_widths[0], wrong_way):
            by_its_width = strips_by_width(line, usual, [needed[line.cut.part] for needed in at_widths])
            if by_its_width is not None:
                by_their_width.append(by_its_width)
            else:
                yield from self._line(made, line, with_room[line.cut.part])
        if by_their_width:
            yield self._by_width(made, by_their_width)
        yield from self._made(made, wrong_way, {one.name for one in by_their_width})
        yield from self._unused(made)
        yield from self._uncut(made)
        yield from self._forgotten(made)

    def _line(self, made, line, with_room):
        """What is wrong with the count of one line of the cutting list, and with the strips that it prints; `with_room`
        are the pieces needed where the ends of strip sets are straightened."""
        if line.other_triangles:
            yield self._other_triangles(made, line)
        elif line.gives < line.needed:
            if not line.for_printed_sets():  # else too few strip sets are printed: said of them
                yield self._too_few(made, line)
        elif line.cuts < line.enough:
            yield self._too_few_of_a_slant(made, line)
        elif made.sheet.binding is not None and made.sheet.binding.part == line.cut.part:
            return  # the rest is the binding's
        elif line.needed == 0:
            yield self._for_nothing(made, line)
        elif line.cuts > line.enough and line.gives > with_room and not line.for_printed_sets(exactly=True):
            yield self._too_many(made, line)
        if line.strips is not None and line.gives >= line.needed > 0:
            yield from line.strips.findings(self)

    def _other_triangles(self, made, line):
        """Another number of triangles is printed than the squares give."""
        return self._counted(
            made,
            line,
            f"{line.squares} triangles of {line.cut.part!r}, not the {line.cut.triangles} printed. The quilt takes "
            f"{line.needed}: cut {line.to_take}.",
            f"{line.cut.triangles} triangles",
            f"{line.gives} triangles",
            "stop" if line.gives < line.needed else "note",
        )

    def _too_few(self, made, line):
        """Fewer pieces are cut than the quilt takes."""
        spared = line.strips.spared if line.strips is not None else ""
        return self._counted(
            made,
            line,
            f"The pattern cuts {line.of_pieces}, but the quilt takes {line.needed}: {line.needed - line.gives} short"
            f"{_from_each_set(made, line.cut.part)}.{spared} Cut {line.to_take} instead of {line.cuts}"
            f"{line.of_more_prints}.",
        )

    def _too_few_of_a_slant(self, made, line):
        """Enough long triangles, and too few that slant one of the two ways."""
        return self._counted(
            made,
            line,
            f"{line.squares} triangles of {line.cut.part!r}, but not as many as are needed of each slant: "
            f"{said_both(line.slants)}",
        )

    def _for_nothing(self, made, line):
        """Pieces are cut that nothing uses."""
        return self._counted(
            made,
            line,
            f"{line.cut.part!r} is cut but nothing in this sheet uses it: a block, the setting or a step may be "
            "missing.",
            needed="0",
            level="note" if line.cuts <= FEW or made.forgotten else "ask",  # may be what is forgotten: said there
        )

    def _too_many(self, made, line):
        """More pieces are cut than the quilt takes: a note where they are few."""
        extra, few = line.gives - line.needed, max(FEW if line.cut.each == 1 else 1, line.enough // 4)
        spare = "one is" if extra == 1 else "ones are"
        return self._counted(
            made,
            line,
            f"The pattern cuts {line.of_pieces}; the quilt takes {line.needed}, so {extra} will be left over. "
            f"{line.to_take} would do: if fabric is short, ask whether the spare {spare} meant.",
            level="note" if line.cuts - line.enough <= few else "ask",
        )

    def _counted(self, made, line, message, printed=None, needed=None, level=None):
        """A finding on the count of one line: what is cut, and what would be enough, unless said otherwise."""
        return self.finding(
            made,
            line.path,
            message,
            printed or f"{line.cuts}{line.each_print}",
            needed or f"{line.enough}{line.each_print}",
            level=level,
            parts=frozenset([line.cut.part]),
            fix=line.fix,
        )

    def _forgotten(self, made):
        """What the cutting list forgets, with the line that would cut it where its size follows."""
        of, sheet, spare = ruler(made), made.sheet, unused(made.sheet)
        place = len(sheet.cut) - sum(one.line is not None for one in made.forgotten)  # the end of the printed list
        for one in made.forgotten:
            line, need, fix = line_of(of, one), made.needs.get(one.name), added(sheet, one, place)
            place += bool(fix)
            same = f" {spare[0]!r} is cut and nothing uses it: is that the same piece?" if len(spare) == 1 else ""
            proof = need.why if need is not None else "patch"
            yield self.finding(
                made,
                one.path,
                f"{one.name!r} is {place_of(one.path)}, but nothing {'cuts' if is_piece(one) else 'cuts or makes'} it: "
                f"{needed(one, line)}. {to_ask(one)}{same}",
                "none",
                f"{one.wanted}{f' ({line})' if line else ''}",
                why=ByProof(proof) if line else None,
                parts=frozenset([one.name]),
                fix=fix,
            )

    def _by_width(self, made, found):
        """Strips and strip sets that are enough only of wider fabric: one question, since one answer settles it."""
        of, narrowest = ruler(made), found[0].cases[0][0]
        each = "; ".join(
            f"{one.have} of {one.name!r} {'is' if one.printed == 1 else 'are'} {by_width(of, one.cases)}"
            for one in found
        )
        return self.finding(
            made,
            found[0].path,
            "The pattern does not say how wide its fabric must be, and that decides how many pieces a strip set gives: "
            f"{each}. Ask, or make as many as it takes for fabric {of.said(narrowest)} wide: "
            f"{', '.join(f'{one.enough} of {one.name!r}' for one in found)}.",
            ", ".join(str(one.printed) for one in found),
            ", ".join(str(one.enough) for one in found),
            level="ask",
            parts=frozenset(one.name for one in found),
            fix=tuple((tuple(one.path), one.enough) for one in found),
            asks=how_wide("the strip sets"),
        )

    def _made(self, made, wrong_way, asked):
        """Units, blocks and pieces of strip sets whose printed count is not the one the quilt takes."""
        straight = straightened(made.sheet)
        for one in _counts_of_made(made.sheet):
            if one.key == "sets" and (one.name in asked or one.spare_by_straightening(straight)):
                continue
            if one.printed is not None and one.enough and one.printed != one.enough and one.name not in wrong_way:
                yield self._miscounted(made, one)

    def _miscounted(self, made, one):
        """The finding on a printed count of units, blocks, strip sets or their pieces."""
        short, over = one.enough - one.printed, one.printed - one.enough
        few = one.key != "sets" or over <= max(4, one.enough // 4)
        ready = one.kind == "block" and _is_ready(made.sheet, one.name)
        is_there = f"There {'is' if one.printed == 1 else 'are'}" if ready else "The pattern makes"
        why = _from_each_set(made, one.name) if one.key == "sets" else ""
        then = f"{'Get' if ready else 'Make'} {short} more." if short > 0 else f"{over} will be left over."
        path = (one.kind, one.name, one.key)
        return self.finding(
            made,
            path,
            f"{is_there} {one.words}, but the quilt takes {one.enough}{why}. {then}",
            str(one.printed),
            str(one.enough),
            level="stop" if short > 0 else "note" if few else "ask",
            parts=frozenset([one.name]),
            fix=((path, one.enough),),
        )

    def _unused(self, made):
        """Units, blocks and strip sets that are made and go nowhere; what they are made of is not said once more."""
        sheet, needed = made.sheet, bill_of_materials(made.sheet)
        spare = [
            (kind, name) for kind in ("block", "unit", "strip_set") for name in getattr(sheet, kind) if not needed[name]
        ]
        inside = {part for _, name in spare for part in all_in(sheet, name) - {name}}
        for kind, name in spare:
            if name not in inside:
                yield self.finding(
                    made,
                    [kind, name],
                    f"The {kind.replace('_', ' ')} {name!r} is {'there' if _is_ready(sheet, name) else 'made'}, but "
                    "nothing in this sheet uses it: a block, the setting or a step may be missing, or name another.",
                    str(getattr(getattr(sheet, kind)[name], "count", None) or ""),
                    "0",
                    level="note",
                    parts=frozenset([name]),
                )

    def _uncut(self, made):
        """Fabrics that are bought, and nothing is cut from them."""
        for name in idle_fabrics(made.sheet) if by_two_names(made.sheet) is None else ():  # that is told of the other
            yield self.finding(
                made,
                ["fabric", name],
                f"{name!r} is bought, and nothing in this sheet is cut from it: a line of the cutting list may be "
                "missing, or name another fabric. Ask what is to be cut from it.",
                f"{name!r} is bought",
                "something that is cut from it",
                level="ask",
                asks=f"What is to be cut from “{name}”? It is bought, and nothing in the cutting list names it.",
            )


def _is_ready(sheet, name):
    """Whether a block of this name comes ready made."""
    return name in sheet.block and sheet.block[name].ready_made


class _Count(NamedTuple):
    """A printed count of units, blocks, strip sets or pieces of one: the kind and name of the thing, the key that says
    the count, what it says or None, and how many the quilt takes."""

    kind: str
    name: str
    key: str
    printed: int | None
    enough: int

    @property
    def words(self) -> str:
        """The printed count in words."""
        if self.kind != "strip_set":
            return f"{some(self.printed or 0, self.kind)} {self.name!r}"
        return f"{some(self.printed or 0, 'strip set' if self.key == 'sets' else 'piece')} of {self.name!r}"

    def spare_by_straightening(self, straight) -> bool:
        """Whether so many more strip sets are printed as straightening the ends of strips may take."""
        return self.enough < (self.printed or 0) <= sets_taken(straight, self.name)


def _counts_of_made(sheet):
    """Every count of units, blocks and strip sets that a sheet may print."""
    needed = bill_of_materials(sheet)
    for kind in ("unit", "block"):
        for name, thing in getattr(sheet, kind).items():
            yield _Count(kind, name, "count", thing.count, needed[name])
    for name, strip_set in sheet.strip_set.items():
        yield _Count("strip_set", name, "pieces", strip_set.pieces, needed[name])
        yield _Count("strip_set", name, "sets", strip_set.sets, sets_taken(sheet, name))


def _lines(made, counts, wrong_way):
    """The lines of the cutting list that are held to a count: all but what is open, cut the wrong way, or measured by
    its length."""
    sheet, sashing = made.sheet, made.sheet.setting.sashing
    measured = {name for border in sheet.border for name in (border.sides, border.top)}
    measured |= {*long_strips(sheet), *(sashing.strip or () if sashing is not None else ())}
    slants = slants_taken(sheet, made.bill)
    for cut in sheet.cut:
        by_length = cut.strip is not None and (cut.part in measured or is_binding(sheet, cut))
        if not (by_length or cut.open or cut.part in wrong_way):
            yield CountedLine(made, cut, counts[cut.part], slants.get(cut.part, {}))


def _counted_by(sheet, name):
    """What shows how many of a thing a quilt takes: its strip set, its units sewn from whole squares, its sashing, its
    setting on point; None for blocks in level rows."""
    setting = sheet.setting
    if any(name == other or name in one.strips for other, one in sheet.strip_set.items()):
        return ByProof("strip_set")
    units = [unit for unit in sheet.unit.values() if name in unit.parts and sewn_first(sheet, unit)]
    if units:
        return ByProof(unit_proof(sheet, units[0]))
    if setting.sashing is not None and (name in sashing_parts(setting) or setting.style == "on point"):
        return ByProof("sashed_on_point") if setting.style == "on point" else ByNotebook("07-sashing-frames-borders")
    return ByProof("on_point") if setting.style == "on point" else None


def _from_each_set(made, name):
    """How many pieces one strip set gives, in words, for a strip set or a strip that goes into one; nothing for the
    rest."""
    of, sheet = ruler(made), made.sheet
    said = [
        f"one strip set of {other!r} gives {some(batch(sheet, other), 'piece')} {of.said(one.sub_cut)} wide"
        for other, one in sheet.strip_set.items()
        if name == other or name in one.strips
    ]
    return f" ({'; '.join(said)})" if said else ""
