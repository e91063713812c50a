"""The printed counts of pieces, units, blocks and strip sets, held against what the quilt takes."""

from typing import NamedTuple

from ...making import batch, bill_of_materials, pieces_needed
from ...making.bill import sets_needed, sewn_first
from ...making.measures import long_strips
from ...making.needs import unit_proof
from ...making.slants import slants_taken, to_cut
from ...pattern.names import all_in, is_binding, sashing_parts, unused
from ...yardage import STRAIGHTENED
from ..finding import ByNotebook, ByProof
from .check import Check, how_many, ruler, some
from .forgotten import added, by_two_names, idle_fabrics, is_piece, line_of, needed, place_of, to_ask
from .laid_out import other_layout
from .printed_strips import StripsPrinted
from .slanting import said_both
from .widths import by_width, how_wide, level_of, short_of


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
        made = reading.made
        sheet = made.sheet
        wrong_way = {part for finding in earlier if finding.check == "wrong-triangles" for part in finding.parts}
        usual, widths = _widths_that_decide(sheet)
        at_widths = [pieces_needed(one) for one in widths]
        counts, binding = at_widths[0], sheet.binding
        slants = slants_taken(sheet, made.bill)
        straightened = _straightened(sheet)
        with_room = counts if straightened is sheet else pieces_needed(straightened)
        by_their_width = [_ByWidth(*one) for one in _sets_by_width(sheet, usual, widths)]
        sashing = sheet.setting.sashing
        measured = {name for border in sheet.border for name in (border.sides, border.top)}
        measured |= {*long_strips(sheet), *(sashing.strip or () if sashing is not None else ())}
        for cut in sheet.cut:
            needed = counts[cut.part]
            if cut.part in wrong_way or (cut.strip is not None and (cut.part in measured or is_binding(sheet, cut))):
                continue
            if cut.open:
                continue
            gives, each, (path, prints) = cut.gives, cut.each, how_many(sheet, cut)
            cuts, enough = cut.count // prints, -(-to_cut(cut, needed, slants.get(cut.part, {})) // prints)
            fix = ((path, enough), ((*path[:-1], "triangles"), None)) if enough else ()
            by_print = " from each print" if prints > 1 else ""
            printed_strips = StripsPrinted.of(made, cut, -(-needed // each))
            if printed_strips is not None and gives < needed and printed_strips.few:
                fix += ((printed_strips.path, printed_strips.needed),)  # worked out from the wrong count
            piece = "strip" if cut.strip is not None else "piece" if each == 1 else "triangle"
            squares = f"{some(cut.count, cut.cut_from)} cut {cut.cut} give{'s' * (cut.count == 1)} {gives}"
            shape = "" if each == 1 else f" ({squares})"
            take = (str(enough) if each == 1 else some(enough, cut.cut_from)) + by_print
            if cut.triangles is not None and cut.triangles != gives:
                yield self.finding(
                    made,
                    path,
                    f"{squares} triangles of {cut.part!r}, not the {cut.triangles} printed. The quilt takes "
                    f"{needed}: cut {take}.",
                    f"{cut.triangles} triangles",
                    f"{gives} triangles",
                    level="stop" if gives < needed else "note",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
            elif gives < needed:
                if _cut_for_printed_sets(sheet, cut):
                    continue  # too few strip sets are printed: said of them
                cases = [(width, short_of(taken[cut.part] - gives, piece)) for width, taken in zip(usual, at_widths)]
                if level_of(cases) == "ask":
                    have = some(gives, piece)
                    by_their_width.append(_ByWidth(path, cut.part, have, cuts, enough, cases))
                    continue
                yield self.finding(
                    made,
                    path,
                    f"The pattern cuts {some(gives, piece)} of {cut.part!r}{shape}, but the quilt takes {needed}: "
                    f"{needed - gives} short{_from_each_set(made, cut.part)}."
                    f"{printed_strips.spared if printed_strips is not None else ''} Cut {take} instead "
                    f"of {cuts}{_or_of_more_prints(cut, needed, prints)}.",
                    f"{cuts}{by_print}",
                    f"{enough}{by_print}",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
            elif cuts < enough:
                yield self.finding(
                    made,
                    path,
                    f"{squares} triangles of {cut.part!r}, but not as many as are needed of each slant: "
                    f"{said_both(slants[cut.part])}",
                    f"{cuts}{by_print}",
                    f"{enough}{by_print}",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
            elif binding is not None and binding.part == cut.part:
                continue  # the rest is the binding's
            elif needed == 0:
                yield self.finding(
                    made,
                    path,
                    f"{cut.part!r} is cut but nothing in this sheet uses it: a block, the setting or a "
                    "step may be missing.",
                    f"{cuts}{by_print}",
                    "0",
                    level="note",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
            elif cuts > enough and gives > with_room[cut.part] and not _cut_for_printed_sets(sheet, cut, exactly=True):
                extra, few = gives - needed, max(4 if each == 1 else 1, enough // 4)
                yield self.finding(
                    made,
                    path,
                    f"The pattern cuts {some(gives, piece)} of {cut.part!r}{shape}; the quilt takes {needed}, so "
                    f"{extra} will be left over. {take} would do: if fabric "
                    f"is short, ask whether the spare {'one is' if extra == 1 else 'ones are'} meant.",
                    f"{cuts}{by_print}",
                    f"{enough}{by_print}",
                    level="note" if cuts - enough <= few else "ask",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
            if printed_strips is not None and gives >= needed > 0:
                yield from printed_strips.findings(self)
        if by_their_width:
            yield self._by_width(made, by_their_width)
        yield from self._made(made, wrong_way, {one.name for one in by_their_width})
        yield from self._unused(made)
        yield from self._uncut(made)
        yield from self._forgotten(made)

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
        sheet, needed = made.sheet, bill_of_materials(made.sheet)
        things = [("unit", name, "count", unit.count, needed[name]) for name, unit in sheet.unit.items()]
        things += [("block", name, "count", block.count, needed[name]) for name, block in sheet.block.items()]
        for name, strip_set in sheet.strip_set.items():
            things.append(("strip_set", name, "pieces", strip_set.pieces, needed[name]))
            things.append(("strip_set", name, "sets", strip_set.sets, _sets(sheet, name)))
        straightened = _straightened(sheet)
        for kind, name, key, printed, enough in things:
            if key == "sets" and (name in asked or enough < (printed or 0) <= _sets(straightened, name)):
                continue
            if printed is not None and enough and printed != enough and name not in wrong_way:
                short, few = printed < enough, key != "sets" or printed - enough <= max(4, enough // 4)
                what = f"{some(printed, kind)} {name!r}"
                if kind == "strip_set":
                    what = f"{some(printed, 'strip set' if key == 'sets' else 'piece')} of {name!r}"
                why = _from_each_set(made, name) if key == "sets" else ""
                ready = kind == "block" and _is_ready(sheet, name)
                is_there = f"There {'is' if printed == 1 else 'are'}" if ready else "The pattern makes"
                more = f"{'Get' if ready else 'Make'} {enough - printed} more."
                yield self.finding(
                    made,
                    [kind, name, key],
                    f"{is_there} {what}, but the quilt takes {enough}{why}. "
                    + (more if short else f"{printed - enough} will be left over."),
                    str(printed),
                    str(enough),
                    level="stop" if short else "note" if few else "ask",
                    parts=frozenset([name]),
                    fix=(((kind, name, key), enough),),
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


def _widths_that_decide(sheet):
    """The usable widths that strip sets may have, and the sheet read with each; itself where all are printed, or none
    is."""
    cuts = [cut for one in sheet.strip_set.values() for cut in map(sheet.part, one.strips) if cut is not None]
    open_ = [cut.fabric for cut in cuts if cut.length is None and not sheet.printed_width(cut.fabric)]
    if not open_:
        return (sheet.usable_width(""),), (sheet,)
    sheets = sheet.at_each_width(open_[0])
    return tuple(one.usable_width(open_[0]) for one in sheets), sheets


def _straightened(sheet):
    """The sheet with its fabrics so much narrower as strip sets lose where their ends are straightened; itself where it
    has none."""
    if not sheet.strip_set:
        return sheet
    fabrics = {
        name: fabric.model_copy(update={"usable_width": sheet.usable_width(name) - STRAIGHTENED})
        for name, fabric in sheet.fabric.items()
        if fabric.piece is None
    }
    return sheet.model_copy(update={"fabric": {**sheet.fabric, **fabrics}})


class _ByWidth(NamedTuple):
    """Strips or strip sets that are enough of fabric of some usual widths: their path, name, how many are printed, in
    words and in figures, how many are enough of the narrowest, and the cases."""

    path: list
    name: str
    have: str
    printed: int
    enough: int
    cases: list


def _sets_by_width(sheet, usual, widths):
    """What `_ByWidth` holds of strip sets whose printed number is enough at some widths only."""
    for name, one in sheet.strip_set.items():
        if one.sets is not None:
            cases = [(width, short_of(_sets(each, name) - one.sets, "set")) for width, each in zip(usual, widths)]
            if level_of(cases) == "ask":
                have = some(one.sets, "strip set")
                yield ["strip_set", name, "sets"], name, have, one.sets, _sets(sheet, name), cases


def _or_of_more_prints(cut, needed, prints):
    """Of how many prints the printed number would do to a piece, in words; nothing where it would not."""
    more, rest = divmod(needed, cut.count // prints * cut.each)
    return "" if cut.per_print is None or rest else f", or from {more} prints instead of {prints}"


def _sets(sheet, name):
    """How many strip sets of this name the quilt takes."""
    return sets_needed(sheet, name, bill_of_materials(sheet))


def _cut_for_printed_sets(sheet, cut, exactly=False):
    """Whether a part is cut for strip sets alone, and in the number that the printed strip sets take, or more."""
    sets = [one for one in sheet.strip_set.values() if cut.part in one.strips and one.of is None]
    if not sets or not all(one.sets for one in sets):
        return False
    taken = sum(one.sets * one.strips.count(cut.part) for one in sets)
    return cut.count == taken if exactly else cut.count >= taken


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
