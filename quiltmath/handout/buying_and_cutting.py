"""What to buy for a quilt, and what to cut of each fabric, in the order of cutting."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from .. import lengths, yardage
from ..draw import Lines, Picture, Shapes, beside
from ..making.shaped import per_strip
from ..making.slants import in_words, slants_taken
from ..pattern.fields import ENOUGH
from ..pattern.names import is_binding
from ..review import cloth, taken
from .boxes import heading, listed, step, subheading, table, words
from .numbered import numbered, numbers
from .supplied import BINDING

if TYPE_CHECKING:
    from fractions import Fraction

    from ..draw.typeset import Box
    from ..pattern.cut import Cut
    from ..review.reading import Reading
    from .paper import Paper

WOF = "WOF"  # the width of fabric
HEADS = ("No.", "Piece", "Cut", "Size", "Finishes", "Then")
COLUMNS = (0.06, 0.27, 0.07, 0.21, 0.16, 0.23)
JOINED = {"diagonal": "join them on the diagonal", "straight": "join them straight"}
THEN = {"whole": "", "shaped": "", "once": "cut once on the diagonal", "twice": "cut twice on the diagonals"}
BETWEEN_MARKS = (
    "A size with a decimal point lies between two marks of the ruler: cut a hair under the next sixteenth, all pieces "
    "alike."
)
WAYS = {
    "once": "Cut once on the diagonal, a square gives two triangles; their short edges are on the straight grain.",
    "twice": "Cut twice on the diagonals, a square gives four triangles; their long edge is on the straight grain.",
    "left": "Slanting left: stand the rectangle upright, right side up; cut from its upper left to its lower right.",
    "shaped": "Shapes from strips: lay the template, or the ruler's line of that angle, on the strip, tip up and tip "
    "down by turns, so that each cut is a side of two pieces.",
    "right": "Slanting right: from its upper right to its lower left. These triangles cannot be turned over.",
}
TOOLS = (  # common practice, no source
    "Besides: thread, pins, an iron, a rotary cutter with mat and ruler (a square ruler to trim with), a marking "
    "pencil that washes out."
)
WASTE = (
    "Strips run across the width of fabric (WOF), from selvage to selvage. Square up the end first and cut the "
    "strips in this order: what is large comes before what is small."
)


def materials(reading: Reading, paper: Paper) -> list[Box]:
    """What to buy: fabrics, backing, batting."""
    heads, columns = ("Material", "Buy", "Usable width", "For"), (0.24, 0.22, 0.14, 0.4)
    return [heading(paper, "Materials"), *table(paper, heads, to_buy(reading), columns), *words(paper, TOOLS)]


def to_buy(reading: Reading) -> list[tuple[str, str, str, str]]:
    """What to buy, as (material, length or size, usable width, what it is for); "-" where there is none."""
    return [*_fabrics(reading), *_linings(reading)]


def _fabrics(reading):
    sheet = reading.sheet
    for name, fabric in sheet.fabric.items():
        parts = [numbered(sheet, cut.part) for cut in sheet.cut if cut.fabric == name]
        if sheet.binding is not None and sheet.binding.fabric == name and name != BINDING:
            parts.append("binding")
        directional = ["its print has a direction"] if fabric.directional else []
        yield (
            f"Fabric: {name}",
            bought(reading, name) or "-",
            "-" if fabric.piece is not None or fabric.scraps else exactly(reading, sheet.usable_width(name)),
            "; ".join([", ".join(parts) or BINDING, *directional]),
        )


def bought(reading: Reading, name: str) -> str:
    """How a fabric is bought, in words: "1 1/2 yd", "6 fat quarters", "13 prints, 1/8 yd each"; "" where nothing is
    said."""
    fabric, of = reading.sheet.fabric[name], reading.ruler
    how = "scraps" if fabric.scraps else ""
    if fabric.bought is not None:
        how = of.cloth(fabric.bought)
    elif fabric.piece is not None:
        how = of.pieces(fabric.each, fabric.piece)
    if fabric.prints is None:
        return how
    return f"{fabric.prints} prints" + (f", {how}{'' if fabric.scraps else ' each'}" if how else "")


def _linings(reading):
    sheet, said = reading.sheet, reading.ruler
    if sheet.backing is not None:
        back = sheet.backing
        size = f"at least {said.sizes(back.size)}" if back.size is not None else ""
        panels = f"{back.panels} panel{'s' * (back.panels != 1)}" if back.panels else ""
        yield (
            f"Backing{f': {back.fabric}' if back.fabric else ''}",
            said.cloth(back.bought) if back.bought is not None else "-",
            exactly(reading, back.usable_width) if back.usable_width is not None else "-",
            ", ".join(one for one in (size, panels) if one),
        )
    if sheet.batting is not None and sheet.batting.size is not None:
        yield "Batting", said.sizes(sheet.batting.size), "-", _package(reading)


def _package(reading):
    """The package of batting that covers the quilt, in words; nothing where that is not known."""
    size = reading.made.finished
    found = None if size is None else yardage.batting(*size, over=yardage.LEAST_OVER)
    return "" if found is None or found.package is None else f"a package called {found.package} covers it"


def cutting(reading: Reading, paper: Paper) -> Iterator[Box]:
    """What to cut of each fabric: its pieces, and the strips they come from in the order of cutting."""
    yield heading(paper, "Cutting")
    yield from words(paper, WASTE, stays=True)
    if any("." in sized(reading, cut) for cut in reading.sheet.cut) and reading.sheet.units == "in":
        yield from words(paper, BETWEEN_MARKS, stays=True)
    ways = _ways(reading.sheet)
    if ways:
        said = [WAYS[way] for way in WAYS if way in ways]
        if ways == {"shaped"}:
            yield from words(paper, " ".join(said), stays=True)
        else:
            squares = _squares(ways)
            rows = -(-len(squares.pictures) // squares.columns)
            yield step(paper, "Triangles", said, squares, 0.42, 96.0 * rows)
    for fabric in reading.sheet.fabric:
        cuts = [cut for cut in reading.sheet.cut if cut.fabric == fabric and not is_binding(reading.sheet, cut)]
        rows = [*(_line(reading, cut) for cut in cuts), *_binding(reading, fabric)]
        if not rows:
            continue
        how = bought(reading, fabric)
        yield subheading(paper, f"From fabric {fabric}" + (f" ({how})" if how else ""))
        yield from table(paper, HEADS, rows, COLUMNS)
        yield from listed(paper, strips_in_order(reading, fabric), 9.5)


def _ways(sheet):
    """The ways in which pieces are cut on the diagonal: squares once or twice, rectangles to the left or right."""
    found = set()
    for cut in sheet.cut:
        if cut.shape is not None:
            found.add("shaped")
        elif not cut.halved_rectangle:
            found |= {cut.cut} - {"whole"}
        else:
            found |= {"left", "right"} if cut.slant in (None, "both") else {cut.slant}
    return found


def _squares(ways):
    """Squares, and rectangles that slant, with the lines they are cut on."""
    cuts = {
        "once": [[(0, 0), (1, 1)]],
        "twice": [[(0, 0), (1, 1)], [(0, 1), (1, 0)]],
        "left": [[(0, 1), (0.5, 0)]],
        "right": [[(0, 0), (0.5, 1)]],
    }
    said = {"left": "slanting left", "right": "slanting right"}
    pictures = [_cut_up(way, cuts[way], said.get(way, f"cut {way}")) for way in cuts if way in ways]
    return beside(pictures, 2 if len(pictures) > 2 else None)  # there is no room for the words of three in a row


def _cut_up(way, lines, said):
    wide, shape = (0.5, "rectangle") if way in ("left", "right") else (1, "square")
    outline = Shapes([[(0, 0), (wide, 0), (wide, 1), (0, 1)]], "paper")
    return Picture([outline, Lines(lines, "cut line")], f"A {shape} {said}.", caption=said)


def _line(reading, cut: Cut):
    """A line of the cutting list."""
    sheet, size = reading.sheet, sized(reading, cut)
    needed, gives = reading.made.bill[cut.part], cut.gives
    count = cloth.strips_taken(reading.made, sheet, cut) if cut.open else cut.count
    then = THEN[cut.cut]
    if cut.shape is not None:
        then = f"{cut.shape}s, tip up and tip down by turns"
    if cut.diagonal:
        spare = f", {gives - needed} spare" if gives > needed else ""
        slanting = in_words(cut, slants_taken(sheet, reading.made.bill).get(cut.part, {}))
        then += f"{', ' * bool(slanting)}{slanting}: {gives} triangles{spare}"
    need = reading.made.needs.get(cut.part)
    if need is not None and need.note and not then:
        then = need.note
    if cut.part in _measured(sheet):
        then = "cut to length later, to the measured top"
    if sheet.binding is not None and sheet.binding.part == cut.part:
        then = "; ".join([*filter(None, [then]), "for the binding too" if then or needed else "for the binding"])
    if cut.per_print is not None:
        then = "; ".join([f"{cut.per_print} from each print", *filter(None, [then])])
    if cut.lengthwise:
        then = "; ".join(["along the selvage", *filter(None, [then])])
    finishes = "" if cut.finished is None else by(reading, cut.finished)
    return numbers(sheet)[cut.part], cut.part, str(count), size, finishes, then


def _across(reading, fabric):
    """How long a strip across a fabric is, in words: the width of fabric, or that of the piece it is bought in."""
    if reading.sheet.fabric_piece(fabric) is None:
        return WOF
    return exactly(reading, reading.sheet.usable_width(fabric))


def _measured(sheet):
    """The strips of borders, which are cut once the top is measured."""
    return {name for border in sheet.border for name in (border.sides, border.top) if name is not None}


def sized(reading: Reading, cut: Cut) -> str:
    """A cut size as it is printed, exactly: "3 1/2 in", "2 1/2 x 14 in", or the strip width of what goes across the
    fabric."""
    if cut.strip is not None and cut.length is None:
        return f"{exactly(reading, cut.strip)} x {_across(reading, cut.fabric)}"
    if cut.shape is not None and cut.strip_width is not None:
        return f"from strips {exactly(reading, cut.strip_width)}"
    return by(reading, reading.sheet.cut_size(cut))


def seam_of(reading: Reading) -> str:
    """The seam of a sheet, exactly, with its unit."""
    return exactly(reading, reading.sheet.sewing_seam)


def exactly(reading: Reading, length: Fraction) -> str:
    """A length of the cutting list with its unit: as the ruler shows it, or as a decimal where it shows none."""
    units = reading.sheet.units
    return lengths.text(length, units, mark="in" if units == "in" else "").removeprefix("about ")


def by(reading: Reading, size: Sequence[Fraction]) -> str:
    """A size, exactly: one length for a square, else width x height."""
    width, height = (exactly(reading, side) for side in size)
    return width if width == height else f"{width.removesuffix(reading.sheet.units).strip()} x {height}"


def _binding(reading, fabric):
    """The line of the binding, in the cutting of its fabric."""
    binding = reading.sheet.binding
    if binding is not None and binding.fabric == fabric and binding.part is None:
        way = " on the bias" if binding.style == "bias" else ""
        yield (
            "",
            f"binding strips{way}",
            str(binding.count or taken.binding_strips(reading.made, reading.sheet) or ENOUGH),
            f"{exactly(reading, binding.strip)} x {_across(reading, fabric)}",
            "",
            JOINED[binding.join or "diagonal"],
        )


def strips_in_order(reading: Reading, fabric: str) -> Iterable[str]:
    """The strips of one fabric in the order of cutting, and what each is sub-cut into, in words; none where they cannot
    be planned."""
    if reading.sheet.fabric[fabric].scraps:
        return []
    if reading.sheet.fabric_piece(fabric) is not None:
        return _piece_by_piece(reading, fabric)
    laid = reading.plan(fabric).laid
    each = "From each print: " if reading.sheet.prints(fabric) > 1 else ""
    return [] if laid is None else [each + _strip(reading, strip) for strip in laid.strips]


def _piece_by_piece(reading, fabric):
    """What is cut from each piece of fabric, in words."""
    plan, listed, first = reading.in_pieces(fabric).laid, reading.sheet.fabric[fabric], 1
    for count, places in () if plan is None else plan.alike:
        gives = Counter((place.piece.part, place.width, place.height) for place in places)
        cut = _listed(
            _shapes(reading.sheet, part, many, max(size))
            or f"{many} of {_named(reading.sheet, part)} ({by(reading, size)})"
            for (part, *size), many in gives.items()
        )
        last = first + count - 1
        which, each = (f"No. {first}", "") if count == 1 else (f"No. {first} to {last}", ", each")
        said = reading.ruler.pieces(listed.each, listed.piece)
        of = f"The {said.removeprefix('1 ')}" if listed.each == 1 else f"{which} of the {said}{each}"
        yield f"{of}{' of each print' * (listed.prints is not None)}: cut {cut}."
        first = last + 1


def _shapes(sheet, part, many, length):
    """How many shapes so many strips of this length give, in words; "" for any other part."""
    cut = sheet.part(part)
    each = 0 if cut is None or cut.shape is None else per_strip(sheet, cut, float(length))
    return f"{many * each} of {_named(sheet, part)} ({cut.shape}s)" if each else ""


def _strip(reading, strip):
    sheet, several = reading.sheet, strip.count > 1
    cut = f"Cut {strip.count} strip{'s' * several} {exactly(reading, strip.height)} x {WOF}"
    if strip.joined:
        joined = ", ".join(f"{one.pieces} of {_named(sheet, one.piece.part)}" for one in strip.cuts)
        return f"{cut}; join {'them end to end' if several else 'it'} for {joined}."
    if all(one.across == _width(sheet, one) for one in strip.cuts):
        return f"{cut} for {_listed(_named(sheet, one.piece.part) for one in strip.cuts)}."
    gives = [
        _shapes(sheet, one.piece.part, one.pieces, one.across)
        or f"{one.pieces} of {_named(sheet, one.piece.part)} ({_piece(reading, one)}{_stacked(strip, one)})"
        for one in strip.cuts
    ]
    return f"{cut}; sub-cut {'each' if several else 'it'} into {_listed(gives)}."


def _stacked(strip, cut):
    """How many pieces of a strip lie above each other, in words; nothing for one."""
    above = min(strip.height // cut.along, cut.pieces)
    return f", {above} above each other" if above > 1 else ""


def _piece(reading, cut):
    """The size of a piece of a strip; of a border strip the width alone, for its length is measured later."""
    if cut.piece.part in _measured(reading.sheet):
        return f"{exactly(reading, min(cut.across, cut.along))} wide, cut to length later"
    return by(reading, (cut.across, cut.along))


def _width(sheet, cut):
    part = sheet.part(cut.piece.part)
    return sheet.usable_width(part.fabric if part is not None else sheet.binding.fabric)


def _named(sheet, part):
    number = numbers(sheet).get(part)
    return part if number is None else f"no. {number}"


def _listed(items: Iterable[str]) -> str:
    *first, last = items
    return f"{'; '.join(first)}; and {last}" if first else last
