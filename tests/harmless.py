"""Changes to a sound sheet that do no harm: the review may say no more than a note."""

from copy import deepcopy
from fractions import Fraction
from math import ceil, floor

from quiltmath import lengths

from .faults import (
    KEYS,
    border_needs,
    in_rows,
    resized,
    short_of_narrow_fabric,
    stands_upright,
    with_binding,
    with_cut,
    with_plenty,
    with_value,
    without_widths,
)
from .planted import ROOT, ROUNDED, Figures, Planted, words_of


def harmless(data):
    """Every harmless change of this sheet, as `Planted`s."""
    figures = Figures(data)
    yield Planted("as it is", "", data)
    for change in (
        larger_triangles,
        other_roundings,
        more_cloth,
        other_printed_sizes,
        spare_pieces,
        longer_strips,
        figures_left_out,
        renamed,
        shuffled,
        rows_otherwise,
        lengths_otherwise,
        sizes_turned,
        pieces_turned,
        oversize_units,
        floats_unsaid,
        seam_unsaid,
        seam_scant,
        width_unsaid,
        size_little_off,
        just_enough_cloth,
        generous_linings,
        linings_by_length,
        binding_enough,
        upright_prints,
        measured_first,
    ):
        for strength, changed in change(figures):
            yield Planted(change.__name__.replace("_", " "), strength, changed)


def plain_edges(figures):
    """("sides" or "corners", the part) of every plain edge triangle."""
    return [
        (key, figures.edge(key)["part"])
        for key in ("sides", "corners")
        if figures.on_point and "part" in figures.edge(key)
    ]


def larger_triangles(figures):
    """Edge triangles cut large, to be trimmed; frame strips, which reach past the long edge of theirs, with them."""
    for by in (Fraction(1, 8), Fraction(1, 2), Fraction(1), Fraction(2)):
        data = with_plenty(figures.data)
        for key, part in plain_edges(figures):
            data = resized(Figures(data), part, by)
            for strip in figures.edge(key).get("frame", []):
                wide, high = figures.cut_size(strip)
                data = resized(Figures(data), strip, 2 * by, (wide > high, wide <= high))
        if plain_edges(figures):
            yield f"+{by} in", data


def other_roundings(figures):
    """Edge squares by another rule of the trade, wherever it falls no more below the exact size than rounding
    explains."""
    units, seam = figures.units, figures.seam
    sides, corners = (
        (Fraction(5, 4), Fraction(7, 8)) if units == "in" else (lengths.parse("3.5 cm"), lengths.parse("2.5 cm"))
    )
    if abs(seam - float(lengths.parse("1/4" if units == "in" else "0.75 cm"))) > 1e-6:
        return
    step = Fraction(1, 8) if units == "in" else lengths.parse("0.5 cm")
    rules = {
        "trade up": (sides, corners, ROOT, step, "up"),
        "trade nearest": (sides, corners, ROOT, step, "nearest"),
        "1.414 up": (sides, corners, 1.414, step, "up"),
        "1.41 up": (sides, corners, 1.41, step, "up"),
        "trade up to two steps": (sides, corners, ROOT, 2 * step, "up"),
        "exact up to a sixteenth": (seam * (2 + 2 * ROOT), seam * (2 + ROOT), ROOT, Fraction(1, 16), "up"),
    }
    for name, (side, corner, root, step, rounding) in rules.items():
        data, sound = with_plenty(figures.data), bool(plain_edges(figures))
        for key, part in plain_edges(figures):
            least = figures.edge_square(key)
            without = least - seam * (2 + 2 * ROOT if key == "sides" else 2 + ROOT)
            by_rule = without / ROOT * root + float(side) if key == "sides" else without * ROOT / root + float(corner)
            square = lengths.ruler(by_rule, step=step, rounding=rounding)
            sound = sound and least - float(square) <= ROUNDED
            data = with_cut(data, part, size=figures.text(square))
        if sound:
            yield name, data


def more_cloth(figures):
    """More cloth than is printed."""
    if figures.data.get("fabric"):
        yield "20 yd", with_plenty(figures.data)


def other_printed_sizes(figures):
    """The finished size printed to the eighth, quarter, half or whole inch, as a decimal, by 1.414, or height first."""
    width, height = figures.finished()
    for step in (Fraction(1, 8), Fraction(1, 4), Fraction(1, 2), Fraction(1)):
        yield (
            f"to {step} in",
            with_value(
                figures.data,
                ["finished"],
                [figures.text(lengths.ruler(side, step=step, rounding="nearest")) for side in (width, height)],
            ),
        )
    yield "as decimals", with_value(figures.data, ["finished"], [f"{side:.2f} in" for side in (width, height)])
    yield "height first", with_value(figures.data, ["finished"], [f"{side:.3f} in" for side in (height, width)])
    yield (
        "with its outer seam",
        with_value(figures.data, ["finished"], [f"{side + 0.5:.2f} in" for side in (width, height)]),
    )
    if figures.on_point and not figures.data.get("border"):
        yield (
            "by 1.414",
            with_value(figures.data, ["finished"], [f"{side / ROOT * 1.414:.2f} in" for side in (width, height)]),
        )


def spare_pieces(figures):
    """One more of every part than is needed."""
    data = with_plenty(figures.data)
    for part in figures.cuts:
        data = with_cut(data, part, count=figures.cuts[part]["count"] + 1, triangles=None)
    yield "one each", data


def longer_strips(figures):
    """Borders cut a little longer, and mitred ones, frames and strips that are trimmed at 45 degrees much longer."""
    butted = {
        border[key]
        for border in figures.data.get("border", [])
        for key in KEYS
        if key in border and border.get("ends") != "mitred"
    }
    parts = {part for part, _ in border_needs(figures) if "strip" not in figures.cuts[part]}
    parts |= {part for key in ("sides", "corners") for part in figures.edge(key).get("frame", [])}
    strips = figures.setting.get("sashing", {}).get("strip", [])
    parts |= set(strips) if isinstance(strips, list) else set()
    for by in (Fraction(1, 2), Fraction(2), Fraction(12)) if parts else ():
        data = with_plenty(figures.data)
        for part in parts if by < 3 else parts - butted:
            wide, high = figures.cut_size(part)
            data = resized(Figures(data), part, by, (wide > high, wide <= high))
        yield f"+{by} in", data


def figures_left_out(figures):
    """Finished sizes of parts and blocks, printed counts of triangles, blocks and strip sets, or all cloth, not
    printed."""
    data = deepcopy(figures.data)
    for cut in data["cut"]:
        cut.pop("finished", None), cut.pop("triangles", None)
    yield "of parts", data
    data = deepcopy(figures.data)
    for kind in ("block", "unit"):
        for made in data.get(kind, {}).values():
            if "trim_to" not in made:
                made.pop("finished", None)
            made.pop("count", None)
    yield "of blocks", data
    data = deepcopy(figures.data)
    for fabric in data.get("fabric", {}).values():
        for key in ("bought", "pieces", "piece"):
            fabric.pop(key, None)
    yield "of cloth", data


def _names(data):
    """Every name in the tables."""
    made = [name for kind in ("block", "unit", "strip_set") for name in data.get(kind, {})]
    return [cut["part"] for cut in data["cut"]] + made


def renamed(figures):
    """All parts, blocks, units and cloths called otherwise."""
    names = {name: f"Nº {number}" for number, name in enumerate(_names(figures.data))}
    names |= {name: f"cloth {number}" for number, name in enumerate(figures.data.get("fabric", {}))}

    def new(value, key=""):
        if isinstance(value, dict):
            named = key in ("fabric", "block", "unit", "strip_set", "counts", "sizes", "bought")
            return {
                names.get(name, name) if named else name: new(one, "" if named else name) for name, one in value.items()
            }
        if isinstance(value, list):
            if key in ("rows", "between", "columns"):
                return [
                    [_new_word(word, names) for word in (row.split() if isinstance(row, str) else row)] for row in value
                ]
            return [new(one, key) for one in value]
        return (
            names.get(value, value)
            if isinstance(value, str) and key not in ("title", "size", "finished", "how", "kind")
            else value
        )

    yield "all", new(figures.data)


def _new_word(word, names):
    name, colon, turn = word.partition(":")
    return names.get(name, name) + colon + turn


def shuffled(figures):
    """The cutting list the other way round, and by cloth."""
    yield "backwards", {**figures.data, "cut": figures.data["cut"][::-1]}
    yield (
        "by cloth",
        {**figures.data, "cut": sorted(figures.data["cut"], key=lambda cut: (cut["fabric"], -cut["count"]))},
    )


def rows_otherwise(figures):
    """Rows as lists, as tables, and turned by a whole circle."""
    for strength, written in (("lists", lambda word: word), ("tables", _as_table)):
        data = deepcopy(figures.data)
        rows = [(block, "rows") for block in data.get("block", {}).values()]
        for table, key in [*rows, *((data["setting"], key) for key in ("rows", "between", "columns"))]:
            if key in table:
                table[key] = [[written(word) for word in words_of(row)] for row in table[key]]
        yield strength, data


def _as_table(word):
    name, _, turn = word.partition(":")
    return {"name": name, "turn": float(turn or 0)}


def lengths_otherwise(figures):
    """Sizes in decimals of an inch and in millimetres, exactly."""
    for strength, written in (
        ("decimals", lambda inches: f"{float(inches):.6f}".rstrip("0").rstrip(".") + " in"),
        ("millimetres", lambda inches: f"{float(inches) * 25.4:.6f}".rstrip("0").rstrip(".") + " mm"),
    ):
        data = deepcopy(figures.data)
        for cut in data["cut"]:
            for key in ("size", "strip", "finished"):
                if key in cut:
                    sizes = cut[key] if isinstance(cut[key], list) else [cut[key]]
                    sizes = [written(figures.inches(size)) for size in sizes]
                    cut[key] = sizes if len(sizes) > 1 else sizes[0]
        yield strength, data


def sizes_turned(figures):
    """Sashes and borders printed length first, or last."""
    parts = {part for part, _ in border_needs(figures)} | {figures.setting.get("sashing", {}).get("part")} - {None}
    data = with_plenty(figures.data)
    for part in parts:
        if "size" in figures.cuts[part]:
            data = with_cut(
                data, part, size=[figures.text(figures.inches(side)) for side in figures.cuts[part]["size"][::-1]]
            )
    if parts:
        yield "both", data


def pieces_turned(figures):
    """A piece of a block printed height first, where its rows fit in one way only."""
    for part in in_rows(figures):
        if figures.cut_size(part)[0] != figures.cut_size(part)[1]:
            size = [figures.text(figures.inches(side)) for side in figures.cuts[part]["size"][::-1]]
            yield part, with_cut(figures.data, part, size=size)


def oversize_units(figures):
    """Half- and quarter-squares and half-rectangles that are all cut larger by an eighth or a quarter inch, to be
    trimmed."""
    units = [
        unit
        for unit in figures.data.get("unit", {}).values()
        if unit["kind"] in ("half-square", "half-rectangle", "quarter-square")
    ]
    for by in (Fraction(1, 8), Fraction(1, 4)):
        data = with_plenty(figures.data)
        for part in {part for unit in units if "finished" in unit for part in unit["parts"]}:
            data = resized(Figures(data), part, by)
        if units:
            yield f"+{by} in", data


def floats_unsaid(figures):
    """Blocks that float inside the edge by triangles, borders and printed size, and nothing says so."""
    setting = figures.setting
    plain = len(plain_edges(figures)) == ("sides" in setting) + ("corners" in setting)
    framed = any("frame" in figures.edge(key) for key in ("sides", "corners"))
    halved = "sashing" in setting and setting["sashing"].get("edge", "half") == "half"
    if not figures.on_point or not plain or framed or halved or "floating" in setting or "finished" not in figures.data:
        return
    for floating in (Fraction(1, 2), Fraction(1), Fraction(2)):
        data = with_plenty({key: value for key, value in figures.data.items() if key not in BOUGHT_FOR_A_SIZE})
        tip = figures.edge("sides").get("tip")
        for part in [part for _, part in plain_edges(figures)] + ([tip] if tip else []):
            data = resized(Figures(data), part, 2 * floating)
        for part in {part for part, _ in border_needs(figures) if "size" in figures.cuts[part]}:
            wide, high = figures.cut_size(part)
            data = resized(Figures(data), part, 2 * floating, (wide > high, wide <= high))
        for part in {part for part, _ in border_needs(figures) if "strip" in figures.cuts[part]}:
            data = with_cut(data, part, count=figures.cuts[part]["count"] + 2)
        size = [figures.text(Fraction(round((side + 2 * float(floating)) * 8), 8)) for side in figures.finished()]
        yield f"{floating} in", with_value(data, ["finished"], size)


BOUGHT_FOR_A_SIZE = ("binding", "backing", "batting", "other_size")


def generous_linings(figures):
    """Backing and batting with four, eight and twelve inches to spare, the batting the other way round."""
    width, height = figures.finished()
    for by in (4, 8, 12):
        size = [f"{ceil((side + by) * 8) / 8} in" for side in (width, height)]
        yield f"{by} in over", {**figures.data, "backing": {"size": size}, "batting": {"size": size[::-1]}}


def seam_unsaid(figures):
    """No seam printed: the printed sizes tell it, or it is the one that everybody takes."""
    yield "all of it", with_value(figures.data, ["seam"], None)
    data = with_value(figures.data, ["seam"], None)
    for cut in data["cut"]:
        cut.pop("finished", None)
    yield "nor finished sizes of parts", data


def seam_scant(figures):
    """A scant quarter inch, which gives the sizes of a quarter inch."""
    if figures.units == "in" and figures.seam == 1 / 4:
        yield "1/4", with_value(figures.data, ["seam"], "scant 1/4 in")
        yield "in words", with_value(figures.data, ["seam"], "a scant quarter inch")


def width_unsaid(figures):
    """No usable width printed, where fabric of the narrowest that is usual will do."""
    data = without_widths(with_plenty(figures.data))
    if not short_of_narrow_fabric(Figures(data)):
        yield "all of it", data
        if "binding" in data:
            yield "nor joins", with_value(data, ["binding", "join"], None)


def size_little_off(figures):
    """The printed size off by 2 in 100, or by nearly an inch, where nothing is bought for it; by as much as seams that
    are forgotten would make it, it has another reason."""
    data = {key: value for key, value in figures.data.items() if key not in ("binding", "backing", "batting")}
    for strength, share, inches in (("2 in 100", 1.02, 0), ("7/8 in", 1, -7 / 8)):
        more = [Fraction(round((side * share + inches) * 8), 8) - Fraction(side) for side in figures.finished()]
        if any(by % Fraction(2 * figures.seam) for by in more):
            size = [figures.text(Fraction(side) + by) for side, by in zip(figures.finished(), more)]
            yield strength, with_value(data, ["finished"], size)


def just_enough_cloth(figures):
    """No more fabric than it takes to cut each line of the list from strips of its own."""
    data, enough = deepcopy(figures.data), False
    for name, fabric in data.get("fabric", {}).items():
        plain = figures.plain_cloth(name) if "bought" in fabric else None
        if plain:
            fabric["bought"], enough = f"{ceil(plain * 8) / 8} in", True
    if enough:
        yield "to the last inch", data


def linings_by_length(figures):
    """Backing and batting bought by length, with and without their size."""
    width, height = figures.finished()
    size = [f"{ceil((side + 8) * 8) / 8} in" for side in (width, height)]
    roll = {"bought": f"{ceil(height) + 8} in", "usable_width": f"{ceil(width) + 8} in"}
    for strength, more in (("alone", {}), ("beside the size", {"size": size})):
        yield strength, {**figures.data, "backing": {**roll, "panels": 1, **more}, "batting": {**roll, **more}}


def binding_enough(figures):
    """Binding strips for the way round and a good bit more, straight and on the bias."""
    width, height = figures.finished()
    for extra in (6, 12, 24):
        count = ceil((2 * (width + height) + extra) / (42 - 2.25))
        yield (
            f"{extra} in over",
            with_binding(figures.data, {"usable_width": "42 in"}, {"strip": "2 1/4 in", "count": count}),
        )


def upright_prints(figures):
    """A directional print in a cloth of which nothing lies turned."""
    for name in figures.data.get("fabric", {}):
        if stands_upright(figures, name):
            yield "one cloth", with_value(with_plenty(figures.data), ["fabric", name, "directional"], True)


def measured_first(figures):
    """Instructions in a good order."""
    yield (
        "borders",
        with_value(
            figures.data,
            ["instructions"],
            [
                "Cut all pieces as listed, except the borders.",
                "Sew the blocks and join the rows.",
                "Measure the top through its middle and cut the borders to that.",
                "Sew them on, press, quilt and bind.",
            ],
        ),
    )


assert floor(ROUNDED * 8) == 0  # rounding explains less than a step of the ruler
