"""What the pattern prints, or forgets to print: figures it should state, and counts of pieces."""

from ...making import batch, bill_of_materials, pieces_needed
from ...pattern.names import is_binding
from ..finding import ByNotebook
from .check import Check, path_of, ruler, some


class NotStated(Check):
    """Figures a pattern should print and does not."""

    name, title = "not-stated", "A figure is missing"
    level, why = "ask", ByNotebook("09-check-a-pattern")
    repair = "ask the designer, or work it out before buying cloth"
    question = "What is {needed}? The pattern does not say."
    only_designer = missing = True

    def findings(self, reading, earlier):
        made = reading.made
        sheet, of = made.sheet, ruler(made)
        if sheet.seam is None:
            yield self.finding(
                made,
                ["title"],
                "The pattern does not say which seam it is sewn with; this review took "
                f"{of.said(sheet.sewing_seam)}. "
                "Every cut size depends on it: ask before you cut.",
                "no seam",
                "the seam allowance",
            )
        if sheet.finished is None:
            yield self.finding(
                made,
                ["title"],
                "The pattern prints no finished size, so nobody can check that its parts add "
                "up. Ask for it, or compare the size sewn here with the cover.",
                "no finished size",
                "width and height of the finished quilt",
            )
        widthless = [name for name, fabric in sheet.fabric.items() if fabric.bought and not fabric.usable_width]
        if widthless:
            yield self.finding(
                made,
                ["fabric", widthless[0]],
                "The pattern says how much cloth to buy but not how wide it "
                f"must be ({', '.join(widthless)}). Usable width runs from {of.said(40)} to {of.said(44)} between "
                "bolts: ask which one was meant.",
                "no usable width",
                "the usable width of the cloth",
            )


class PieceCount(Check):
    """Too few or too many pieces of a part."""

    name, title = "piece-count", "Too few or too many pieces"
    repair, why = "cut as many as the layout takes", ByNotebook("03-straight-or-on-point")
    question = "How many of {parts} should there be: {printed} as printed, or {needed}?"

    def findings(self, reading, earlier):
        made = reading.made
        sheet = made.sheet
        wrong_way = {part for finding in earlier if finding.check == "wrong-triangles" for part in finding.parts}
        counts = pieces_needed(sheet)
        sashing = sheet.setting.sashing
        measured = {name for border in sheet.border for name in (border.sides, border.top)}
        measured |= set(sashing.strip or ()) if sashing is not None else set()
        for cut in sheet.cut:
            needed = counts[cut.part]
            if cut.part in wrong_way or (cut.strip is not None and (cut.part in measured or is_binding(sheet, cut))):
                continue
            gives, path = cut.gives, [*path_of(sheet, cut.part), "count"]
            each = gives // cut.count
            enough = -(-needed // each)
            fix = ((tuple(path), enough), ((*path[:-1], "triangles"), None)) if enough else ()
            pieces = "strips" if cut.strip is not None else "pieces" if each == 1 else "triangles"
            shape = "" if each == 1 else f" ({some(cut.count, 'square')} cut {cut.cut} give {gives})"
            if cut.triangles is not None and cut.triangles != gives:
                yield self.finding(
                    made,
                    path,
                    f"{some(cut.count, 'square')} cut {cut.cut} give {gives} triangles of {cut.part!r}, not the "
                    f"{cut.triangles} printed. The quilt takes {needed}: cut {some(enough, 'square')}.",
                    f"{cut.triangles} triangles",
                    f"{gives} triangles",
                    level="stop" if gives < needed else "note",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
            elif gives < needed:
                if _cut_for_printed_sets(sheet, cut):
                    continue  # too few strip sets are printed: said of them
                yield self.finding(
                    made,
                    path,
                    f"The pattern cuts {gives} {pieces} of {cut.part!r}{shape}, but the quilt takes {needed}: "
                    f"{needed - gives} short{_from_each_set(made, cut.part)}. Cut {enough} instead of {cut.count}.",
                    f"{cut.count}",
                    f"{enough}",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
            elif needed == 0:
                yield self.finding(
                    made,
                    path,
                    f"{cut.part!r} is cut but nothing in this sheet uses it: a block, the setting or a "
                    "step may be missing.",
                    f"{cut.count}",
                    "0",
                    level="note",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
            elif cut.count > enough:
                extra, few = gives - needed, max(4 if each == 1 else 1, enough // 4)
                yield self.finding(
                    made,
                    path,
                    f"The pattern cuts {gives} {pieces} of {cut.part!r}{shape}; the quilt takes {needed}, so "
                    f"{extra} will be left over. {enough} would do; if cloth is short, "
                    "ask whether the spare ones are meant.",
                    f"{cut.count}",
                    f"{enough}",
                    level="note" if cut.count - enough <= few else "ask",
                    parts=frozenset([cut.part]),
                    fix=fix,
                )
        yield from self._made(made, wrong_way)

    def _made(self, made, wrong_way):
        """Units, blocks and pieces of strip sets whose printed count is not the one the quilt takes."""
        sheet, needed = made.sheet, bill_of_materials(made.sheet)
        things = [("unit", name, "count", unit.count, needed[name]) for name, unit in sheet.unit.items()]
        things += [("block", name, "count", block.count, needed[name]) for name, block in sheet.block.items()]
        for name, strip_set in sheet.strip_set.items():
            things.append(("strip_set", name, "pieces", strip_set.pieces, needed[name]))
            things.append(("strip_set", name, "sets", strip_set.sets, -(-needed[name] // batch(sheet, name))))
        for kind, name, key, printed, enough in things:
            if printed is not None and enough and printed != enough and name not in wrong_way:
                short = printed < enough
                what = {"sets": "strip sets for ", "pieces": "pieces of "}.get(key, "")
                why = _from_each_set(made, name) if key == "sets" else ""
                yield self.finding(
                    made,
                    [kind, name, key],
                    f"The pattern makes {printed} {what}{name!r}, but the quilt takes {enough}{why}. "
                    + (f"Make {enough - printed} more." if short else f"{printed - enough} will be left over."),
                    str(printed),
                    str(enough),
                    level="stop" if short else "note",
                    parts=frozenset([name]),
                    fix=(((kind, name, key), enough),),
                )


def _cut_for_printed_sets(sheet, cut):
    """Whether a part is cut for strip sets alone, and in the number that the printed strip sets take."""
    uses = [(one.sets, one.strips.count(cut.part)) for one in sheet.strip_set.values() if cut.part in one.strips]
    return bool(uses) and all(sets for sets, _ in uses) and cut.count >= sum(sets * times for sets, times in uses)


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
