"""Long strips: borders, frames and mitres that must reach."""

from collections import defaultdict

from ... import lengths, making
from ...making.needs import long_strip_lengths
from ...making.steps import border_in_step
from ...pattern.names import CORNER, SIDE, all_in, called, centre, edge_piece
from ...usual import RULER, TRIMMED
from .. import cloth
from ..finding import ByNotebook, ByProof
from .border_lengths import cut_to_length, edges_of, lines_exchanged, lines_in_each_others_place
from .check import SLACK, Check, blamed, how_many, path_of, ruler, some
from .order import first_line
from .widths import by_width, how_wide, level_of, short_of

TRIMMED_TO_FIT = r"\bmeasur|\btrim\w*\b.*\b(borders?|strips?|ends?|excess|to fit)\b|\b(borders?|strips?)\b.*\btrim"

MIN_SPACER = 0.5  # inches: a narrower border between is no strip that anybody sews


class StripShort(Check):
    """A frame, sashing or mitred border that ends before its row, its 45-degree trim or its mitre."""

    name, title = "strip-short", "A strip ends too soon"
    repair, why = "cut the strip as long as given below, and trim after sewing", ByProof("frame_end")
    question = "{parts}: the pattern says {printed}, and the place it is sewn to takes {needed}. Which is meant?"

    def findings(self, reading, earlier):
        made = reading.made
        for name in (SIDE, CORNER):
            piece = edge_piece(made.sheet, name)
            if piece is not None and piece.frame is not None and not all_in(made.sheet, name) & blamed(earlier):
                yield from self._frames(made, name, piece)
        if made.top is None or all_in(made.sheet, centre(made.sheet)) & blamed(earlier):
            return
        longest, exchanged = {}, lines_exchanged(made, "mitred")
        yield from (lines_in_each_others_place(self, made, *pair) for pair in exchanged.values())
        for strip in made.border_strips:
            key = strip.border, strip.part
            if strip.border in exchanged:
                continue
            longest[key] = max(strip.length, longest.get(key, 0.0))
        for (number, part), length in longest.items():
            cut = made.sheet.part(part)
            if made.sheet.border[number].ends == "mitred" and cut is not None and cut.size is not None:
                where = f"the mitre of border {number + 1}"
                yield from self._short(made, cut, length, where, ByProof("mitred_strip"))
        yield from self._sashes(made)

    def _sashes(self, made):
        """The long strips of sashing between rows, and those that are rows of their own."""
        straight = made.sheet.setting.style == "straight"
        where = "the end of its row" if straight else "the 45-degree trim of its row"
        why = ByNotebook("07-sashing-frames-borders")
        what = "long strips between the rows" if made.sheet.setting.loose else "long sashing strips"
        for part, raw in long_strip_lengths(made).items():
            cut = made.sheet.part(part)
            if cut is not None and cut.size is not None:
                yield from self._short(made, cut, max(raw), where, why)
            elif cut is not None:
                yield from too_few(self, made, cut, list(raw), what, why)

    def _frames(self, made, name, piece):
        """Frame strips on a setting triangle."""
        triangle = made.unframed(name)
        if triangle is None or made.panel(name) is None:
            return
        for (part, _), needed in making.frame_lengths(made, triangle, piece.frame).items():
            cut = made.sheet.part(part)
            if cut is not None and cut.size is not None:
                yield from self._short(
                    made, cut, needed, f"its 45-degree trim on the {called(name)}", ByProof("frame_end")
                )

    def _short(self, made, cut, needed, where, why):
        of = ruler(made)
        have = float(max(cut.size))
        if needed - have > SLACK:
            yield self.finding(
                made,
                [*path_of(made.sheet, cut.part), "size"],
                f"{cut.part!r} is cut {of.said(have)} long and ends before {where}. Cut it {of.up(needed)} or longer, "
                "and trim it after sewing.",
                of.said(have),
                of.up(needed),
                why=why,
                parts=frozenset([cut.part]),
                fix=_longer(made.sheet, cut, needed),
            )


class BorderLength(Check):
    """Borders that are shorter than the edge they are sewn to, or so much longer that nobody trims that by the way."""

    name, title = "border-length", "A border is not as long as its edge"
    repair, why = "measure the top, then cut the borders", ByNotebook("07-sashing-frames-borders")
    after = ("cut-size", "edges-differ", "wrong-triangles")
    question = "{parts}: the pattern says {printed}, and the edge it is sewn to takes {needed}. Which is meant?"

    def findings(self, reading, earlier):
        made = reading.made
        if made.top is None:
            return
        joined, longest, short, pieced = defaultdict(list), {}, defaultdict(list), defaultdict(list)
        exchanged = lines_exchanged(made, "butted")
        yield from (lines_in_each_others_place(self, made, *pair) for pair in exchanged.values())
        forgotten = {found.line.part for found in made.forgotten if found.line is not None}  # nobody printed their size
        for strip in made.border_strips:
            cut = made.sheet.part(strip.part)
            if strip.border in exchanged or strip.part in forgotten:
                continue
            if cut is None:
                pieced[strip.border].append(strip)
            elif cut.strip is not None:
                joined[cut.part].append(strip)
            elif made.sheet.border[strip.border].ends == "butted":
                have = max(map(float, cut.size))
                longest[cut.part] = max(longest.get(cut.part, (0.0, "")), (strip.length, _edges(strip)))
                if strip.length - have > SLACK:
                    short[strip.border, cut.part, round(strip.length, 6)].append(strip)
        for strips in pieced.values():
            yield from self._pieced(made, strips)
        for strips in short.values():
            yield self._too_short(made, strips)
        for part, strips in joined.items():
            yield from self._joined(made, made.sheet.part(part), strips)
        yield from cut_to_length(self, made)
        for number, step in enumerate(made.sheet.step):
            strip = border_in_step(made, step)
            if strip is not None:
                longest[strip.part] = max(longest.get(strip.part, (0.0, "")), (strip.wanted, f"Step {number + 1}"))
        for part, (length, where) in longest.items():
            yield from self._too_long(made, made.sheet.part(part), length, where)

    def _joined(self, made, cut, strips):
        """Strips that are joined end to end; those of a length of their own, one for each edge, may be cut longer."""
        longest, needed = max(strips, key=lambda strip: strip.length), cloth.border_edges(strips)
        if not _one_for_each_edge(made.sheet, cut, strips) or longest.length - float(cut.length) <= SLACK:
            yield from too_few(self, made, cut, needed, "borders")
            return
        enough = cloth.joined(made.sheet, cut, needed)
        if enough is None or enough.lacks:
            beside = [strip for strip in strips if strip.border == longest.border]
            yield self._too_short(made, [strip for strip in beside if longest.length - strip.length <= SLACK])
        elif cut.lengthwise:
            yield self._joined_lengthwise(made, cut, longest)

    def _joined_lengthwise(self, made, cut, strip):
        """Strips along the selvage, which are cut so in order not to be joined, that end before their edge."""
        of = ruler(made)
        have, needed = of.said(cut.length), of.up(strip.length)
        return self.finding(
            made,
            [*path_of(made.sheet, cut.part), "length"],
            f"{_edges(strip)}: {cut.part!r} is cut lengthwise, {have} long, and the edge it is sewn to measures "
            f"{of.said(strip.length)}: it reaches only if strips are joined. Ask whether that is meant; if not, cut "
            f"them {needed} long.",
            have,
            needed,
            level="ask",
            parts=frozenset([cut.part]),
            fix=_longer(made.sheet, cut, strip.length),
        )

    def _too_short(self, made, strips):
        """One or both pairs of strips of a border that are cut alike, and end before their equal edges."""
        of, cut, length = ruler(made), made.sheet.part(strips[0].part), strips[0].length
        have, key = of.said(max(map(float, made.sheet.cut_size(cut)))), "length" if cut.size is None else "size"
        mitred = ", with its mitres," if made.sheet.border[strips[0].border].ends == "mitred" else ""
        where = _edges(*strips)
        return self.finding(
            made,
            [*path_of(made.sheet, cut.part), key],
            f"{where}: {cut.part!r} is cut {have} long, but the edge it is sewn to{mitred} measures {of.said(length)}. "
            f"Cut borders after measuring the quilt top; these must be {of.up(length)}.",
            have,
            of.up(length),
            parts=frozenset([cut.part]),
            fix=_longer(made.sheet, cut, length),
        )

    def _too_long(self, made, cut, length, where):
        """A strip so long that it is not meant to be trimmed: where instructions measure or trim, any may be, and one
        as long as the fabric is wide always is."""
        of, have = ruler(made), max(map(float, cut.size))
        told = [line.lower() for line in made.sheet.instructions]
        as_wide = abs(have - float(made.sheet.usable_width(cut.fabric))) <= SLACK
        if have - length < float(TRIMMED) - SLACK or as_wide or first_line(told, TRIMMED_TO_FIT) is not None:
            return
        yield self.finding(
            made,
            [*path_of(made.sheet, cut.part), "size"],
            f"{where}: {cut.part!r} is cut {of.said(have)} long, and the edge it is sewn to measures "
            f"{of.said(length)}: {of.said(have - length)} more. Sewn on as it is, it makes a wavy edge. "
            "Ask whether it is meant to be trimmed; if not, measure the quilt top through its middle and cut it to "
            f"that ({of.up(length)} here).",
            of.said(have),
            of.up(length),
            level="ask",
            parts=frozenset([cut.part]),
            fix=_longer(made.sheet, cut, length),
        )

    def _pieced(self, made, strips):
        """The strips of a border that are sewn from pieces, which cannot be cut to measure: all pairs of it at once."""
        of, number = ruler(made), strips[0].border
        have = {strip.where: max(made.panel(strip.part).size) for strip in strips}
        off = [strip for strip in strips if abs(have[strip.where] - strip.length) > SLACK]
        if not off or made.sheet.border[number].ends != "butted":
            return
        alike = defaultdict(list)
        for strip in off:
            alike[strip.part, of.said(have[strip.where]), of.said(strip.length)].append(strip)
        said = [
            f"{_edges(*pairs)}: {part!r} sews to {long}, but the edge it is sewn to measures {edge}."
            for (part, long, edge), pairs in alike.items()
        ]
        said.append(_spacer(made, of, {strip.where: have[strip.where] - strip.length for strip in strips}))
        yield self.finding(
            made,
            ["border", number],
            " ".join(said),
            " and ".join(long for _, long, _ in alike),
            " and ".join(edge for _, _, edge in alike),
            parts=frozenset(strip.part for strip in off),
        )


def _one_for_each_edge(sheet, cut, strips):
    """Whether strips of a length of their own are as many as the edges that they are sewn to, and could be cut as long
    as these."""
    lengthwise, longest = cut.lengthwise, max(strip.length for strip in strips)
    if cut.length is None or not (lengthwise or longest <= sheet.usable_width(cut.fabric)):
        return False
    return cut.count == len(cloth.border_edges(strips)) or cut.open and lengthwise


def _all_edges(strips):
    """The edges of two pairs of strips, in words."""
    edges = [edge for strip in strips for edge in strip.edges]
    return "on all four sides" if len(edges) == 4 else f"{', '.join(edges[:-1])} and {edges[-1]}"


def _spacer(made, of, over):
    """What makes a pieced border fit that is `over` its edges by so many inches, by the pair it lies on: a plain border
    between, of such a width that the edges become as long; it is told where there is room for it."""
    wide = {pair: over[other] / 2 for pair, other in (("sides", "top"), ("top", "sides")) if other in over}
    wide = {pair: width for pair, width in wide.items() if abs(width) > SLACK / 2}
    if min(wide.values()) < MIN_SPACER:
        return (
            "Check how many pieces it takes and their size: it must be as long as its edge, or longer, with a plain "
            "border between that makes up the difference."
        )
    places = {"sides": "left and right", "top": "top and bottom"}
    told = " and ".join(
        f"{of.said(width)} wide {places[pair]} (cut {of.said(width + 2 * made.seam)})" for pair, width in wide.items()
    )
    return (
        f"A plain border between makes up the difference if it finishes {told}; or check how many pieces it takes and "
        "their size."
    )


def _edges(*strips):
    """Which edges of which border one or both pairs of strips are for."""
    return f"Border {strips[0].border + 1}, {edges_of(strips[0]) if len(strips) == 1 else _all_edges(strips)}"


def too_few(check, made, cut, needed, what, why=None):
    """Too few strips across the fabric for what is joined from them to these lengths (inches)."""
    of, (path, per_print) = ruler(made), how_many(made.sheet, cut)
    sheets = [made.sheet] if cut.length is not None else made.sheet.at_each_width(cut.fabric)
    beside = [cloth.strips_for_binding(made, sheet, cut) for sheet in sheets]
    joined = [cloth.joined(sheet, cut, needed, more) for sheet, more in zip(sheets, beside)]
    if None in joined or cut.open:
        return
    narrowest, widest = joined[0], joined[-1]
    cases = [(strips.width, short_of(strips.lacks, "strip")) for strips in joined]
    level, have, enough = level_of(cases), some(cut.count, "strip"), some(narrowest.enough, "strip")
    measure = f"The {what} cut from {cut.part!r} measure {of.said(sum(needed))} in all"
    rest = have
    if beside[-1]:
        measure += f", the binding takes {some(beside[-1], 'strip')} more"
        rest = f"the other {max(0, cut.count - beside[-1])} of {have}"
    told = {"why": why, "parts": frozenset([cut.part]), "fix": ((path, -(-narrowest.enough // per_print)),)}
    if level == "stop":
        yield check.finding(
            made,
            path,
            f"{measure}, but {rest} of {of.said(widest.width)} give {of.said(widest.have)} once joined. Cut {enough}.",
            have,
            enough,
            **told,
        )
    elif level == "ask":
        yield check.finding(
            made,
            path,
            f"{measure}, and the pattern does not say how wide their fabric must be: {have}, joined, are "
            f"{by_width(of, cases)}. Ask, or cut {enough}.",
            have,
            enough,
            level="ask",
            asks=how_wide(repr(cut.fabric)),
            **told,
        )


def _longer(sheet, cut, needed):
    """The change to the sheet that makes this strip as long as needed, up to the ruler."""
    long = lengths.text(lengths.ruler(needed, step=RULER[sheet.units]), unit=sheet.units)
    if cut.size is None:
        return (((*path_of(sheet, cut.part), "length"), long),)
    width, height = cut.size
    short = lengths.text(min(width, height), unit=sheet.units)
    return (((*path_of(sheet, cut.part), "size"), f"{short} x {long}" if width <= height else f"{long} x {short}"),)
