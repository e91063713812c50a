"""Every fault that can be planted in a sound sheet, each at several strengths; harmful by the arithmetic of
`planted.Figures`."""

from collections import Counter
from copy import deepcopy
from fractions import Fraction
from itertools import combinations
from math import ceil, floor, sqrt

from .planted import EASED, ROOT, ROUNDED, TOTAL_ROUNDED, Figures, Planted, words_of

SIZES = frozenset({"cut-size", "edges-differ"})
FOLLOWS = frozenset({"finished-size", "lost-points", "bias-outside", "edges-differ", "strip-short", "border-length"})


def faults(data):
    """Every fault planted in this sheet, as `Planted`s."""
    figures = Figures(data)
    for plant in (
        whole_pieces,
        edge_triangles,
        inner_triangles,
        units,
        strip_sets,
        sashes,
        trims,
        orders,
        long_sashes,
        borders,
        long_borders,
        frames,
        counts,
        printed_strips,
        border_lengths,
        shopping_list,
        fabric_in_pieces,
        forgotten_parts,
        rows,
        drawn_rows,
        ready_made,
        pieced_borders,
        wrong_triangles,
        slants,
        strips_of_shapes,
        halved_blocks,
        trimmed_to_the_points,
        sliced,
        printed_sizes,
        layouts,
        not_stated,
        cloth,
        binding,
        linings,
        prints,
        order,
        other_sizes,
    ):
        yield from plant(figures)


def with_value(data, path, value):
    """The tables with one value changed, or taken out where it is None."""
    data = deepcopy(data)
    place = data
    for key in path[:-1]:
        place = place.setdefault(key, {}) if isinstance(place, dict) else place[key]
    if value is None:
        place.pop(path[-1], None)
    else:
        place[path[-1]] = value
    return data


def with_cut(data, part, **changes):
    """The tables with some values of one line of the cutting list changed."""
    data = deepcopy(data)
    line = next(cut for cut in data["cut"] if cut["part"] == part)
    line.update(changes)
    return {**data, "cut": [{key: value for key, value in cut.items() if value is not None} for cut in data["cut"]]}


def with_binding(data, fabric, binding):
    """The tables with this binding, cut from a fabric of its own that is bought as the others are."""
    name = "binding cloth"
    return {
        **data,
        "fabric": {**data.get("fabric", {}), name: {"bought": "3 yd", **fabric}},
        "binding": {"fabric": name, **binding},
    }


def with_plenty(data):
    """The tables with more cloth bought than any fault takes."""
    data = deepcopy(data)
    for fabric in data.get("fabric", {}).values():
        if "bought" in fabric:
            fabric["bought"] = "20 yd"
        if "pieces" in fabric:
            fabric["pieces"] = 300
    for size in data.get("other_size", []):
        size.get("bought", {}).update(dict.fromkeys(size.get("bought", {}), "20 yd"))
    return data


def recounted(data):
    """The tables with every count set to what the quilt takes, and plenty of cloth."""
    figures, data = Figures(data), with_plenty(data)
    needed = figures.needed()
    for cut in data["cut"]:
        if cut["part"] in needed:
            cut["count"] = max(1, ceil(needed[cut["part"]] / figures.gives(cut["part"])))
            cut.pop("triangles", None), cut.pop("strips", None), cut.pop("strip_width", None)
    for key in ("block", "unit"):
        for made in data.get(key, {}).values():
            made.pop("count", None)
    for strips in data.get("strip_set", {}).values():
        strips.pop("sets", None), strips.pop("pieces", None)
    return data


def resized(figures, part, by, which=(True, True)):
    """The tables with a part cut larger by so many inches, in width, height or both, and cloth enough for it."""
    cut = figures.cuts[part]
    data = with_plenty(figures.data)
    if "strip" in cut:
        return with_cut(data, part, strip=figures.text(figures.inches(cut["strip"]) + by))
    size = [
        figures.text(Fraction(side).limit_denominator(10**6) + by * turn)
        for side, turn in zip(figures.size(cut["size"]), which)
    ]
    return with_cut(data, part, size=size)


def in_rows(figures):
    """The parts that lie in the rows of blocks as whole pieces."""
    words = [
        word.partition(":")[0]
        for block in figures.data.get("block", {}).values()
        for row in block.get("rows", [])
        for word in (row.split() if isinstance(row, str) else row)
    ]
    whole = [part for part, cut in figures.cuts.items() if cut.get("cut", "whole") == "whole" and "shape" not in cut]
    return [part for part in whole if part in words]


# -- sizes -------------------------------------------------------------------------------------------------------------


def whole_pieces(figures):
    """A whole piece of a block cut a step or two too small or too large, in one direction where it is no square."""
    for part in in_rows(figures):
        square = figures.cut_size(part)[0] == figures.cut_size(part)[1]
        for by in (-figures.step, figures.step, -2 * figures.step, 2 * figures.step):
            for which in [(True, True)] if square else [(True, False), (False, True)]:
                if abs(by) > EASED:
                    yield Planted(
                        "piece of a block off",
                        said(by),
                        resized(figures, part, by, which),
                        SIZES,
                        FOLLOWS,
                        parts=frozenset({part}),
                    )
    setting = figures.setting
    for name in sorted({name for name, _ in figures.blocks_set()} & set(figures.cuts)):
        alone = (
            "alternate" not in setting
            and not figures.drawn
            and "sashing" not in setting
            and "finished" not in figures.cuts[name]
        )
        others = {figures.edge(key).get("part") for key in ("sides", "corners")} | {
            setting.get("sashing", {}).get("part")
        }
        unsaid = (
            others if "finished" not in figures.cuts[name] else set()
        )  # nothing printed says which of them is right
        for by in () if alone else (-figures.step, figures.step):
            yield Planted(
                "plain block off",
                said(by),
                resized(figures, name, by),
                SIZES,
                FOLLOWS,
                parts=frozenset({name} | unsaid),
            )


def edge_triangles(figures):
    """Squares for side or corner triangles cut too small, where that is less than rounding explains."""
    for key in ("sides", "corners") if figures.on_point else ():
        part = figures.edge(key).get("part")
        if part is None:
            continue
        printed, exact = figures.cut_size(part)[0], figures.edge_square(key)
        for by in (-figures.step, -2 * figures.step, -4 * figures.step):
            if exact - (printed + float(by)) > ROUNDED:
                yield Planted(
                    "edge triangle too small",
                    said(by),
                    resized(figures, part, by),
                    frozenset({"cut-size"}),
                    parts=frozenset({part}),
                    right=exact,
                )
        without = exact - figures.seam * (2 + (2 if key == "sides" else 1) * ROOT)
        yield Planted(
            "edge triangle without its seam",
            "all of it",
            with_cut(figures.data, part, size=figures.text(Fraction(ceil(without * 8), 8))),
            frozenset({"cut-size"}),
            right=exact,
        )
        if key == "sides":
            wrong = without + float(figures.seam) * (2 + ROOT)
            if exact - wrong > ROUNDED:
                yield Planted(
                    "7/8 added to a long side",
                    "3/8 in",
                    with_cut(figures.data, part, size=figures.text(Fraction(floor(wrong * 16), 16))),
                    frozenset({"cut-size"}),
                    right=exact,
                )


def inner_triangles(figures):
    """Halved cornerstones, tips of side triangles, triangles of a round: cut too small, or cut in another way."""
    kinds = [("round triangle", part, exact) for part, exact in figures.round_squares().items()]
    stone, tip = figures.setting.get("sashing", {}).get("edge_cornerstone"), figures.edge("sides").get("tip")
    kinds += [("halved cornerstone", stone, figures.sash_end_square())] if stone else []
    kinds += [("tip of a side triangle", tip, figures.sash_end_square())] if tip else []
    for kind, part, exact in kinds:
        for by in (-figures.step, -2 * figures.step, -4 * figures.step):
            if exact - (figures.cut_size(part)[0] + float(by)) > ROUNDED:
                yield Planted(
                    f"{kind} too small",
                    said(by),
                    resized(figures, part, by),
                    frozenset({"cut-size"}),
                    FOLLOWS,
                    parts=frozenset({part}),
                )
        for other in sorted({"whole", "once", "twice"} - {figures.cuts[part]["cut"]}):
            yield Planted(
                f"{kind} cut {other}",
                "in the same size",
                recounted(with_cut(figures.data, part, cut=other)),
                frozenset({"wrong-triangles"}),
                FOLLOWS | {"cut-size"},
                parts=frozenset({part}),
            )


def unit_squares(figures, unit):
    """{part: the exact size (width, height) for the unit's printed finished size}, by the formulas of the trade's exact
    forms."""
    seam, one, other = figures.seam, unit["parts"][0], unit["parts"][-1]
    width, height = figures.size(unit["finished"])
    half, quarter = seam * (2 + ROOT), seam * (2 + 2 * ROOT)
    whole = figures.cuts[one].get("cut", "whole") == "whole"
    if unit["kind"] == "triangle in a square":
        slope = sqrt(width**2 / 4 + height**2)
        base = width + seam * (width + 2 * slope) / height
        middle = base, height + seam + seam * 2 * slope / width
        side = base / 2 + seam, height + seam + seam * (slope + height) / (width / 2)
        return {part: side for part in unit["parts"][1:]} | {one: middle}
    if unit["kind"] == "half-rectangle":  # a sharp tip takes the seam times the cotangent of half its angle
        long = sqrt(width**2 + height**2)
        size = width + seam * (1 + (long + width) / height), height + seam * (1 + (long + height) / width)
        upright = (figures.cut_size(part)[0] < figures.cut_size(part)[1] for part in (one, other))
        return {part: size if stands else size[::-1] for part, stands in zip((one, other), upright)}
    if unit["kind"] == "half-square":
        return {one: (width + half,) * 2, other: (width + half,) * 2}
    if unit["kind"] == "quarter-square":
        single = {one: (width + half,) * 2} if len(unit["parts"]) == 3 else {}
        return dict.fromkeys(unit["parts"], (width + quarter,) * 2) | single
    if unit["kind"] == "flying geese" and whole and figures.cut_size(one)[0] != figures.cut_size(one)[1]:
        return {one: (width + 2 * seam, height + 2 * seam), other: (height + 2 * seam,) * 2}
    if unit["kind"] == "flying geese":
        return {one: (width + quarter,) * 2, other: (height + half,) * 2}
    if unit["kind"] == "square in a square":
        return {one: (width / ROOT + 2 * seam,) * 2, other: (width / 2 + half,) * 2}
    return {one: (width + 2 * seam, height + 2 * seam)}


def units(figures):
    """Parts of units cut too small, or too large where nothing is trimmed."""
    for unit in figures.data.get("unit", {}).values():
        for part, exact in unit_squares(figures, unit).items() if unit.get("at_a_time", 2) in (1, 2, 4) else ():
            for by in (-figures.step, figures.step, -2 * figures.step, 2 * figures.step):
                off = figures.cut_size(part)[0] + float(by) - exact[0]
                long = unit["kind"] == "triangle in a square" and part != unit["parts"][0]
                trimmed = "trim_to" in unit or unit["kind"] == "half-rectangle" or long
                if off < -ROUNDED - 0.01 or (off > 1 / 8 + 0.01 and not trimmed):
                    yield Planted(
                        "part of a unit off",
                        said(by),
                        resized(figures, part, by),
                        SIZES,
                        FOLLOWS,
                        parts=frozenset({part}),
                    )
    for kind in ("unit", "block"):
        for name, made in figures.data.get(kind, {}).items():
            if "trim_to" in made:
                yield Planted(
                    "trimmed size without seams",
                    "1/2 in",
                    with_value(figures.data, [kind, name, "trim_to"], made["finished"]),
                    frozenset({"cut-size"}),
                    FOLLOWS,
                )
    if any("cut" in cut for cut in figures.data["cut"]) or figures.data.get("block"):
        yield Planted(
            "another seam printed",
            "1/8 in",
            with_value(
                figures.data, ["seam"], figures.text(Fraction(figures.seam).limit_denominator(10**4) + figures.step)
            ),
            SIZES | {"finished-size"},
            FOLLOWS | {"piece-count"},
        )


def strip_sets(figures):
    """Strips of a strip set, or its sub-cuts, off in width."""
    for name, strips in figures.data.get("strip_set", {}).items():
        for by in (-figures.step, figures.step):
            for part in dict.fromkeys(strips["strips"]):
                yield Planted(
                    "strip of a strip set off",
                    said(by),
                    resized(figures, part, by),
                    SIZES,
                    FOLLOWS,
                    parts=frozenset({part, name}),
                )
            longer = figures.text(figures.inches(strips["sub_cut"]) + by)
            yield Planted(
                "sub-cut off",
                said(by),
                with_value(recounted(figures.data), ["strip_set", name, "sub_cut"], longer),
                SIZES,
                FOLLOWS | {"piece-count"},
            )


def sashes(figures):
    """Sashes of the wrong length, cornerstones that are not as wide as the sashes."""
    sashing = figures.setting.get("sashing")
    if sashing is None:
        return
    wide, _long = sorted(figures.cut_size(sashing["part"]))
    upright = figures.cut_size(sashing["part"])[0] == wide
    for by in (-figures.step, figures.step, -2 * figures.step):
        yield Planted(
            "sash of the wrong length",
            said(by),
            resized(figures, sashing["part"], by, (not upright, upright)),
            SIZES,
            FOLLOWS,
            parts=frozenset({sashing["part"]}),
        )
        if abs(by) > EASED and ("cornerstone" in sashing or "finished" in figures.data):
            several = sum(figures.across_down) > 4  # else the size is off by rounding
            yield from [sash_too_wide(figures, by * 2)] if several and "cornerstone" in sashing else []
        if "cornerstone" in sashing:
            yield Planted(
                "cornerstone off",
                said(by),
                resized(figures, sashing["cornerstone"], by),
                SIZES,
                FOLLOWS,
                parts=frozenset({sashing["cornerstone"]}),
            )


def sash_too_wide(figures, by):
    """All sashes cut too wide or too narrow: the cornerstones and the size of the quilt tell that it is not theirs."""
    part = figures.setting["sashing"]["part"]
    upright = figures.cut_size(part)[0] == min(figures.cut_size(part))
    wrong = resized(figures, part, by, (upright, not upright))
    return Planted("sash of the wrong width", said(by), wrong, SIZES, FOLLOWS, parts=frozenset({part}))


def trims(figures):
    """Units and blocks trimmed to a size that does not fit their place."""
    for kind in ("unit", "block"):
        for name, made in figures.data.get(kind, {}).items():
            for by in (-2 * figures.step, 2 * figures.step) if "trim_to" in made else ():
                size = [
                    figures.text(Fraction(side).limit_denominator(10**6) + by) for side in figures.size(made["trim_to"])
                ]
                wrong = with_value(with_plenty(figures.data), [kind, name, "trim_to"], size)
                yield Planted("trimmed to a wrong size", said(by), wrong, SIZES, FOLLOWS, parts=frozenset({name}))


def orders(figures):
    """Two pieces of a block, cut to different lengths and used once each, sewn in each other's place."""
    blocks = figures.data.get("block", {})
    words = {name: [words_of(row) for row in block.get("rows", [])] for name, block in blocks.items()}
    used = Counter(word for rows in words.values() for row in rows for word in row)
    once = [part for part in in_rows(figures) if used[part] == 1]
    for one, other in combinations(once, 2):
        (width, height), (wide, high) = figures.cut_size(one), figures.cut_size(other)
        if abs(width - wide) + abs(height - high) > 0.5 and (width == wide or height == high):
            data = deepcopy(figures.data)
            swapped = {one: other, other: one}
            for name, rows in words.items():
                data["block"][name] |= (
                    {"rows": [[swapped.get(word, word) for word in row] for row in rows]} if rows else {}
                )
            yield Planted("two pieces in each other's place", "1", data, SIZES, FOLLOWS, parts=frozenset({one, other}))


# -- strips ------------------------------------------------------------------------------------------------------------


def long_sashes(figures):
    """Long sashing strips too few, or cut too short. On point the rows of sashes hold 2ab sashes and 2ab + a + b
    cornerstones."""
    setting, seam = figures.setting, figures.seam
    part = setting.get("sashing", {}).get("strip")
    if part is None:
        return
    if isinstance(part, list):
        yield from strips_by_length(figures)
        return
    (across, down), block, sash = figures.across_down, figures.block, figures.sash
    if figures.on_point:
        total = 2 * across * down * block + (2 * across * down + across + down) * sash + (across + down) * 2 * seam
        longest = 2 * min(across, down) * (block + sash)
    else:
        longest = figures.finished()[0] + 2 * seam
        total = longest * (down + (1 if setting["sashing"].get("around", True) else -1))
    wide = figures.cut_size(part)[0]
    few = ceil((total - EASED - 2 * seam) / (wide - 2 * seam)) - 1
    for count in sorted({few, few // 2} - {0}) if "strip" in figures.cuts[part] else ():
        yield Planted(
            "long sashing strips too few",
            f"{few + 1 - count}",
            with_cut(figures.data, part, count=count),
            frozenset({"strip-short"}),
        )
    if "strip" not in figures.cuts[part]:
        upright = figures.cut_size(part)[1] == max(figures.cut_size(part))
        for by in (figures.step, 8 * figures.step):
            shorter = Fraction(floor((longest - float(by)) * 64), 64) - Fraction(
                max(figures.cut_size(part))
            ).limit_denominator(10**6)
            yield Planted(
                "long sashing strip short",
                said(-by),
                resized(figures, part, shorter, (not upright, upright)),
                frozenset({"strip-short"}),
            )


def strips_by_length(figures):
    """A long sashing strip on point shorter than what it passes, blocks and sashes, or the names backwards."""
    sashing, pitch = figures.setting["sashing"], figures.block + figures.sash
    blocks = {name: row for row, name in figures.strip_of_row().items()}
    short, rows = min(figures.across_down), sum(figures.across_down)
    for part, row in blocks.items():
        passed = min(2 * row + 1, 2 * short, 2 * (rows - row) - 1)
        least = passed * pitch - figures.sash  # its shorter edge, its slanting ends and seams left aside
        upright = figures.cut_size(part)[1] == max(figures.cut_size(part))
        for less in (0, 8 * figures.step):
            shorter = Fraction(floor((least - float(less)) * 64), 64) - Fraction(max(figures.cut_size(part)))
            yield Planted(
                "long sashing strip short",
                said(shorter),
                resized(figures, part, shorter, (not upright, upright)),
                frozenset({"strip-short"}),
                parts=frozenset({part}),
            )
    if len(sashing["strip"]) > 1:
        yield Planted(
            "long sashing strips the longest first",
            "all of it",
            with_value(figures.data, ["setting", "sashing", "strip"], sashing["strip"][::-1]),
            frozenset({"strip-short"}),
            frozenset({"piece-count", "edges-differ", "finished-size"}),
        )


def border_needs(figures):
    """[(part, raw length needed)] of every border, the edges measured as they finish."""
    width, height = Figures({**figures.data, "border": []}).finished()
    needs = []
    for border in figures.data.get("border", []):
        if "triangles" in border:
            width, height = width * ROOT, height * ROOT
            continue
        side, top = (figures.border_width(border, key) for key in KEYS)
        if border.get("ends") == "mitred":
            more = figures.seam * (2 + 2 * ROOT)
            around = height + 2 * side + more, width + 2 * top + more
        elif border.get("corner"):
            around = height + 2 * figures.seam, width + 2 * figures.seam
        elif border.get("first", "sides") == "sides":
            around = height + 2 * figures.seam, width + 2 * side + 2 * figures.seam
        else:
            around = height + 2 * top + 2 * figures.seam, width + 2 * figures.seam
        needs += [(border[key], need) for key, need in zip(KEYS, around) if border.get(key) in figures.cuts]
        width, height = width + 2 * side, height + 2 * top
    return needs


def borders(figures):
    """Borders cut short, or one strip too few."""
    needs, total = border_needs(figures), {}
    checks = frozenset({"border-length", "strip-short"})
    for part, need in needs:
        cut = figures.cuts[part]
        if "strip" in cut:
            total[part] = total.get(part, 0.0) + 2 * need
            continue
        long = max(figures.cut_size(part))
        upright = figures.cut_size(part)[1] == long
        for by in (figures.step, 2 * figures.step, 8 * figures.step):
            shorter = Fraction(floor((need - float(by)) * 64), 64) - Fraction(long).limit_denominator(10**6)
            yield Planted(
                "border cut short", said(-by), resized(figures, part, shorter, (not upright, upright)), checks
            )
    for part, need in total.items():
        strip = figures.cut_size(part)[0]
        few = floor((need - 2 * EASED - 2 * figures.seam) / (strip - 2 * figures.seam))
        for count in sorted({few, few - 1} - {0}):
            if count * strip - (count - 1) * 2 * figures.seam < need - EASED:
                yield Planted(
                    "border strips too few", f"{few + 1 - count}", with_cut(figures.data, part, count=count), checks
                )


def long_borders(figures):
    """Butted borders cut so much longer than their edge that nobody trims that by the way: at least 3 in."""
    longest = {}
    for part, need in border_needs(figures):
        longest[part] = max(need, longest.get(part, 0.0))
    mitred = {
        border.get(key) for border in figures.data.get("border", []) if border.get("ends") == "mitred" for key in KEYS
    }
    for part, need in longest.items():
        cut = figures.cuts[part]
        if "strip" in cut or part in mitred or figures.data.get("instructions"):
            continue
        upright, long = figures.cut_size(part)[1] == max(figures.cut_size(part)), max(figures.cut_size(part))
        for by in (Fraction(13, 4), Fraction(8)):
            longer = Fraction(need + float(by) - long).limit_denominator(64)
            if abs(long + float(longer) - figures.width(cut["fabric"])) > 2 * EASED:
                yield Planted(
                    "border cut too long",
                    said(by),
                    resized(figures, part, longer, (not upright, upright)),
                    frozenset({"border-length"}),
                    level="ask",
                    parts=frozenset({part}),
                )


KEYS = ("sides", "top")


def frames(figures):
    """Frame strips that end before their 45-degree trim."""
    needs = []
    for key in ("sides", "corners"):
        piece = figures.edge(key).get("frame", [])
        widths = [min(figures.cut_size(part)) - 2 * figures.seam for part in piece]
        if len(piece) == 1:
            needs.append((piece[0], figures.block + figures.seam * (2 + 2 * ROOT)))
        elif piece:
            leg, more = figures.block - sum(widths), figures.seam * (2 + ROOT)
            needs += zip(piece, (leg + widths[0] + more, leg + sum(widths) + more))
    for part, need in needs:
        upright = figures.cut_size(part)[1] == max(figures.cut_size(part))
        for by in (figures.step, 2 * figures.step, 8 * figures.step):
            shorter = Fraction(floor((need - float(by)) * 64), 64) - Fraction(
                max(figures.cut_size(part))
            ).limit_denominator(10**6)
            yield Planted(
                "frame strip short",
                said(-by),
                resized(figures, part, shorter, (not upright, upright)),
                frozenset({"strip-short"}),
            )


# -- counts and rows ---------------------------------------------------------------------------------------------------


def counts(figures):
    """Pieces, squares or strips one too few, half too few, or far too many; printed triangles that the squares do not
    give."""
    for part, needed in figures.needed().items():
        count, each = figures.cuts[part]["count"], figures.gives(part)
        for fewer in sorted({1, count // 2} - {0, count}):
            if (count - fewer) * each < needed:
                yield Planted(
                    "too few pieces",
                    str(fewer),
                    with_cut(figures.data, part, count=count - fewer, triangles=None),
                    frozenset({"piece-count"}),
                )
        many = ceil(needed / each) * 2 + 8
        yield Planted(
            "far too many pieces",
            str(many - count),
            with_plenty(with_cut(figures.data, part, count=many, triangles=None)),
            frozenset({"piece-count"}),
            level="ask",
        )
        if "triangles" in figures.cuts[part] and needed > 2 * figures.cuts[part]["count"]:
            yield Planted(
                "triangles misprinted",
                "half",
                with_cut(figures.data, part, triangles=2 * count),
                frozenset({"piece-count"}),
                level="note",
            )
    for kind, names in (("block", figures.data.get("block", {})), ("unit", figures.data.get("unit", {}))):
        for name, made in names.items():
            if made.get("count", 1) > 1:
                yield Planted(
                    "blocks misprinted",
                    "1",
                    with_value(figures.data, [kind, name, "count"], made["count"] - 1),
                    frozenset({"piece-count"}),
                )


def forgotten_parts(figures):
    """A line left out of the cutting list, the one that cuts some part."""
    for part in figures.cuts if len(figures.cuts) > 1 else ():
        data = deepcopy(figures.data)
        data["cut"] = [cut for cut in data["cut"] if cut["part"] != part]
        for size in data.get("other_size", []):
            for key in ("counts", "sizes"):
                size.get(key, {}).pop(part, None)
        yield Planted("part forgotten", "all of it", data, frozenset({"piece-count"}), parts=frozenset({part}))


def rows(figures):
    """A part left out of a row, or one put in twice."""
    for name, block in figures.data.get("block", {}).items():
        if "rows" not in block:
            continue
        first = block["rows"][0]
        words = first.split() if isinstance(first, str) else first
        for what, row in (("part left out of a row", words[:-1]), ("part too many in a row", [*words, words[-1]])):
            if row and (len(block["rows"]) > 1 or "finished" in block):
                yield Planted(
                    what,
                    "1",
                    with_value(figures.data, ["block", name, "rows"], [row, *block["rows"][1:]]),
                    SIZES,
                    FOLLOWS | {"piece-count"},
                )


def drawn_rows(figures):
    """A block left out of a row of the setting, or put in twice; another in its place, for which pieces are missing;
    long strips too few for the rows they are."""
    key = "columns" if "columns" in figures.setting else "rows"
    for number, row in enumerate(figures.drawn):
        for what, words in (("block left out of a row", row[:-1]), ("block too many in a row", [*row, row[-1]])):
            if figures.loose and len(row) > 1:
                rows = [*figures.drawn[:number], words, *figures.drawn[number + 1 :]]
                wrong = with_value(figures.data, ["setting", key], rows)
                yield Planted(what, "1", wrong, SIZES, FOLLOWS | {"piece-count"})
    words = list(dict.fromkeys(word for row in figures.drawn for word in row))
    for other in words[1:3] if figures.on_point else ():
        rows = [[other if word == words[0] else word for word in row] for row in figures.drawn]
        wrong = with_value(figures.data, ["setting", key], rows)
        there = Figures(wrong)
        if any(there.needed().get(part, 0) > cut["count"] * figures.gives(part) for part, cut in figures.cuts.items()):
            yield Planted("another block in a row", other, wrong, frozenset({"piece-count"}))
    lengths = Counter(row[0] for row in figures.drawn if figures.is_long(row))
    for part, rows in lengths.items():
        total = rows * (figures.finished_inside()["columns" in figures.setting] + 2 * figures.seam)
        few = ceil((total - EASED - 2 * figures.seam) / (figures.cut_size(part)[0] - 2 * figures.seam)) - 1
        if few:
            wrong = with_cut(figures.data, part, count=few)
            yield Planted("long strips too few", "1", wrong, frozenset({"strip-short"}))


def ready_made(figures):
    """A block that comes ready made in another size than its place has."""
    for name, block in figures.data.get("block", {}).items():
        for by in (-2 * figures.step, 2 * figures.step) if "ready_made" in block else ():
            size = figures.text(Fraction(figures.size(block["size"])[0]).limit_denominator(10**6) + by)
            wrong = with_value(figures.data, ["block", name, "size"], size)
            yield Planted("ready-made block off", said(by), wrong, SIZES, FOLLOWS, parts=frozenset({name}))


def pieced_borders(figures):
    """A pieced border one piece short, or without the plain one that makes it fit."""
    borders = figures.data.get("border", [])
    for number, border in enumerate(borders):
        for name in sorted({border.get(key) for key in KEYS} & figures.data.get("block", {}).keys()):
            row = words_of(figures.data["block"][name]["rows"][0])
            also = frozenset({"piece-count", "finished-size"})
            wrong = with_value(figures.data, ["block", name, "rows"], [row[:-1]])
            checks = frozenset({"border-length", "cut-size"})
            yield Planted("pieced border a piece short", "1", wrong, checks, also)
            if number:
                wrong = with_value(figures.data, ["border"], [*borders[: number - 1], *borders[number:]])
                yield Planted("no plain border before a pieced one", "1", wrong, frozenset({"border-length"}), also)


# -- the edge ----------------------------------------------------------------------------------------------------------


def wrong_triangles(figures):
    """Side triangles cut once, corner triangles cut twice, from squares that would fit and from the printed ones."""
    checks = frozenset({"wrong-triangles"})
    for key, way, other in (("sides", "twice", "once"), ("corners", "once", "twice")) if figures.on_point else ():
        piece = figures.edge(key)
        built = [
            word.partition(":")[0]
            for row in piece.get("rows", [])
            for word in (row.split() if isinstance(row, str) else row)
        ]
        for part in [piece["part"]] if "part" in piece else dict.fromkeys(built):
            cut = figures.cuts[part]
            if cut.get("cut") != way:
                continue
            square = figures.cut_size(part)[0]
            long = (
                square - figures.seam * (2 + 2 * ROOT)
                if way == "twice"
                else (square - figures.seam * (2 + ROOT)) * ROOT
            )
            fits = long / ROOT + figures.seam * (2 + ROOT) if other == "once" else long + figures.seam * (2 + 2 * ROOT)
            count = cut["count"] * 2 if other == "once" else ceil(cut["count"] / 2)
            fitting = with_cut(
                figures.data,
                part,
                cut=other,
                count=count,
                triangles=None,
                size=figures.text(Fraction(ceil(fits * 8), 8)),
            )
            yield Planted(f"{key} cut {other}", "in their own size", with_plenty(fitting), checks)
            if "part" in piece:
                yield Planted(
                    f"{key} cut {other}",
                    "in the same size",
                    with_plenty(with_cut(figures.data, part, cut=other, triangles=None)),
                    checks,
                    FOLLOWS,
                )


def slants(figures):
    """Rectangles that are all cut the same way, or the other way, or nobody says which; and cut like whole pieces, half
    an inch larger than they finish."""
    for part, cut in figures.cuts.items():
        if "slant" not in cut or "shape" in cut:
            continue
        for way in ("left", "right"):
            if way == cut["slant"]:
                continue
            yield Planted(
                "all rectangles cut one way" if cut["slant"] == "both" else "rectangles cut the other way",
                way,
                with_cut(figures.data, part, slant=way),
                frozenset({"wrong-triangles"}),
                parts=frozenset({part}),
            )
        unsaid = with_cut(figures.data, part, slant=None)
        yield Planted("slant not said", "left out", unsaid, frozenset({"not-stated"}), level="ask", most="ask")
        for unit in figures.data["unit"].values():
            if part in unit["parts"] and "finished" in unit:
                wide, high = figures.size(unit["finished"])
                if unit["kind"] == "triangle in a square":
                    wide /= 2
                small = [figures.text(Fraction(side + 2 * figures.seam)) for side in (wide, high)]
                yield Planted(
                    "rectangles without their points",
                    "1/2 in added",
                    with_cut(figures.data, part, size=small),
                    SIZES,
                    FOLLOWS,
                    parts=frozenset({part}),
                )
                break


def strips_of_shapes(figures):
    """Strips that shapes of a row are cut from, off by two steps or four; half triangles that slant the other way."""
    for part, cut in figures.cuts.items():
        if "shape" not in cut or "strip_width" not in cut:
            continue
        for by in (-2 * figures.step, 2 * figures.step, -4 * figures.step):
            yield Planted(
                "strip of shapes off",
                said(by),
                with_cut(
                    with_plenty(figures.data), part, strip_width=figures.text(figures.inches(cut["strip_width"]) + by)
                ),
                SIZES,
                FOLLOWS | {"piece-count"},
                parts=frozenset({part}),
            )
        if "slant" in cut:
            other = {"left": "right", "right": "left"}[cut["slant"]]
            yield Planted(
                "half triangles the other way",
                other,
                with_cut(figures.data, part, slant=other),
                frozenset({"edges-differ"}),
                FOLLOWS,
            )


def halved_blocks(figures):
    """Blocks cut in half for the edge, on the diagonal and a seam past it."""
    setting = figures.setting
    awkward = (
        figures.drawn
        or setting.get("floating")
        or setting.get("sashing", {}).get("edge")
        or "frame" in figures.edge("sides")
    )
    if not figures.on_point or awkward or sum(figures.across_down) == 2:
        return
    for keys, strength in ((("sides", "corners"), "sides and corners"), (("sides",), "sides")):
        data = deepcopy(figures.data)
        for key in keys:
            data["setting"][key] = {"how": "cut blocks"}
        yield Planted(
            "blocks cut in half for the edge",
            strength,
            recounted(only_used(data)),
            frozenset({"no-allowance"}),
            FOLLOWS,
        )
    data["setting"]["sides"] = {
        "how": "cut blocks",
        "past": figures.text(Fraction(figures.seam).limit_denominator(10**4)),
    }
    yield Planted(
        "blocks cut a seam past the diagonal",
        "sides",
        recounted(only_used(data)),
        frozenset({"bias-outside"}),
        level="note" if figures.data.get("border") else "ask",  # a border of straight grain holds it
    )


def only_used(data):
    """The tables of one size, without the lines of the cutting list that nothing uses any more."""
    data.pop("other_size", None)
    needed = Figures(data).needed()
    data["cut"] = [cut for cut in data["cut"] if needed.get(cut["part"]) or "strip" in cut]
    return data


def trimmed_to_the_points(figures):
    """An on-point top trimmed level with its points, or half way to them."""
    floating = float(figures.inches(figures.setting.get("floating", 0)))
    for share in (Fraction(1), Fraction(1, 2)):
        off = Fraction(figures.seam).limit_denominator(10**4) * share
        if figures.on_point and float(off) - floating > EASED:
            step = {
                "trim": "setting",
                "gives": "trimmed top",
                **dict.fromkeys(("left", "right", "top", "bottom"), figures.text(off)),
            }
            yield Planted(
                "top trimmed to its points",
                said(-off),
                with_value(figures.data, ["step"], [step]),
                frozenset({"lost-points"}),
                FOLLOWS,
            )


def sliced(figures):
    """A sewn top cut from corner to corner and sewn together again."""
    if figures.data.get("border") or figures.on_point or figures.loose:
        return
    (width, height), seam, (across, down) = figures.finished(), figures.seam, figures.across_down
    width, height, pitch = width + 2 * seam, height + 2 * seam, figures.block + figures.sash
    near = [
        abs((x * pitch + seam) * height - (y * pitch + seam) * width) / sqrt(width**2 + height**2)
        for x in range(1, across)
        for y in range(1, down)
    ]
    if min(near, default=1.0) < seam - EASED:
        steps = [
            {"cut": "setting", "from": "lower left", "to": "upper right", "gives": ["upper half", "lower half"]},
            {"sew": ["upper half", "lower half"], "edges": ["long", "long"], "gives": "whole again"},
        ]
        yield Planted(
            "sewn top sliced",
            "corner to corner",
            with_value(figures.data, ["step"], steps),
            frozenset({"no-allowance"}),
            FOLLOWS,
        )


# -- printed figures ---------------------------------------------------------------------------------------------------


def printed_sizes(figures):
    """The printed finished size wrong: by some inches, added up straight, without its borders."""
    width, height = figures.finished()
    away = frozenset({"finished-size"})

    def printed(*sides):
        return with_value(figures.data, ["finished"], [figures.text(Fraction(round(side * 8), 8)) for side in sides])

    def grade(by, *sides):
        """A little of the size that nothing depends on is a note: 3 in 100, or an inch."""
        little = all(abs(by) <= max(1, 0.03 * (side + by)) - 1 / 8 for side in sides)
        if not little and all(abs(by) <= max(1, 0.03 * (side + by)) + 1 / 8 for side in sides):
            return None  # too near to say
        return "note" if little else "stop"

    for by in (2, -2, 5):
        for what, sides, off in (
            ("finished size", (width + by, height + by), (width, height)),
            ("one side", (width, height + by), (height,)),
        ):
            level = grade(by, *off)
            if level is not None:
                yield Planted(f"{what} misprinted", f"{by} in", printed(*sides), away, level=level, most=level)
    fits = {"size": [figures.text(Fraction(floor((side - 1) * 8), 8)) for side in (width, height)]}
    if min(width, height) > 8:
        data = {**printed(width - 2, height - 2), "backing": fits}
        yield Planted("size misprinted and the backing for it", "2 in", data, away, frozenset({"backing-small"}))
    if figures.on_point:
        across, down = (count * figures.block for count in figures.across_down)
        yield Planted("size on point added up straight", "all of it", printed(across, down), away)
    if figures.data.get("border"):
        yield Planted(
            "size without its borders", "all of it", printed(*Figures({**figures.data, "border": []}).finished()), away
        )


def layouts(figures):
    """A row more or fewer than all that is counted, and sashing told on the other side of the edge."""
    setting, said = figures.setting, frozenset({"piece-count"})
    if "finished" not in figures.data:
        return
    by_length = isinstance(setting.get("sashing", {}).get("strip"), list)  # those tell how many rows there are
    counted = "across" in setting and min(figures.across_down) > 1 and not by_length and "step" not in figures.data
    for key in ("across", "down") if counted else ():
        for by in (1, -1):
            data = with_value(figures.data, ["setting", key], setting[key] + by)
            yield Planted("a row more or fewer", f"{by} {key}", data, said, level="ask", most="ask")
    if "sashing" in setting and not figures.on_point:
        around = not setting["sashing"].get("around", True)
        data = with_value(figures.data, ["setting", "sashing", "around"], around)
        yield Planted("sashing round the outside or not", "all of it", data, said, level="ask", most="ask")


def not_stated(figures):
    """A finished size that is not printed; a usable width that is not, where it decides."""
    if "finished" in figures.data:
        yield Planted(
            "no finished printed",
            "all of it",
            with_value(figures.data, ["finished"], None),
            frozenset({"not-stated"}),
            level="ask",
        )
    data = without_widths(with_plenty(figures.data))
    if short_of_narrow_fabric(Figures(data)):
        yield Planted(
            "no usable width printed, and it decides",
            "all of it",
            data,
            frozenset({"border-length", "piece-count", "binding-short"}),
            level="ask",
            most="ask",
        )


def without_widths(data):
    """The tables with no usable width printed anywhere."""
    data = deepcopy(data)
    for table in [*data.get("fabric", {}).values(), data.get("backing", {})]:
        table.pop("usable_width", None)
    return data


def short_of_narrow_fabric(figures):
    """Whether there are too few strips of fabric 40 in wide: of a strip set, a border or the binding."""
    if any(figures.cuts[part]["count"] * figures.gives(part) < need for part, need in figures.needed().items()):
        return True
    totals = {}
    for part, need in border_needs(figures):
        if "strip" in figures.cuts[part]:
            totals[part] = totals.get(part, 0.0) + 2 * need
    for part, total in totals.items():
        count = figures.cuts[part]["count"]
        if count * 40 - (count - 1) * 2 * figures.seam < total - EASED:
            return True
    binding = figures.data.get("binding")
    if binding is None or binding["fabric"] in figures.cuts:
        return False
    long = 40 * (ROOT if binding.get("style") == "bias" else 1)
    lost = 2 * figures.seam if binding.get("join") == "straight" else float(figures.inches(binding["strip"]))
    return binding["count"] * (long - lost) < 2 * sum(figures.finished()) + 2


def other_sizes(figures):
    """Another size of the pattern with a square too few, the size of a third quilt, or cloth for half of it."""
    for number, size in enumerate(figures.data.get("other_size", [])):
        path = ["other_size", number]
        setting = {**figures.setting, **{key: size[key] for key in ("across", "down") if key in size}}
        counted = {
            cut["part"]: {**cut, "count": size.get("counts", {}).get(cut["part"], cut["count"])}
            for cut in figures.data["cut"]
        }
        there = Figures({**figures.data, "setting": setting, "cut": list(counted.values())})
        for part, needed in there.needed().items():
            fewer = counted[part]["count"] - 1
            if part in size.get("counts", {}) and 0 < fewer * there.gives(part) < needed:
                yield Planted(
                    "too few pieces in another size",
                    "1",
                    with_value(figures.data, [*path, "counts", part], fewer),
                    frozenset({"piece-count"}),
                )
        if "finished" in size:
            wrong = [there.text(Fraction(round((side + 3) * 8), 8)) for side in there.finished()]
            yield Planted(
                "another size misprinted",
                "3 in",
                with_value(figures.data, [*path, "finished"], wrong),
                frozenset({"finished-size"}),
            )
        for fabric in size.get("bought", {}):
            half = floor(there.least_cloth(fabric) / 9)
            if half:
                yield Planted(
                    "cloth short in another size",
                    "half",
                    with_value(figures.data, [*path, "bought", fabric], f"{half * 4.5} in"),
                    frozenset({"fabric-short"}),
                )


# -- what is bought ----------------------------------------------------------------------------------------------------


def cloth(figures):
    """Less cloth than its pieces have area, by an eighth of a yard or more."""
    for name, fabric in figures.data.get("fabric", {}).items():
        least = figures.least_cloth(name)
        for eighths, strength in ((ceil(least / 4.5) - 1, "an eighth of a yard"), (floor(least / 9), "half")):
            if "bought" in fabric and eighths > 0 and eighths * 4.5 < least:
                yield Planted(
                    "cloth short",
                    strength,
                    with_value(
                        figures.data,
                        ["fabric", name, "bought"],
                        f"{eighths}/8 yd" if eighths < 8 else f"{eighths // 8} {eighths % 8}/8 yd",
                    ),
                    frozenset({"fabric-short"}),
                )


def printed_strips(figures):
    """Printed strips that do not give the pieces they are sub-cut into: too few, or too narrow."""
    needed = figures.needed()
    for part, cut in figures.cuts.items():
        if "strips" not in cut or "strip_width" not in cut:
            continue
        wide, size = float(figures.inches(cut["strip_width"])), figures.cut_size(part)
        along = next(other for side, other in (size, size[::-1]) if abs(side - wide) < EASED)
        along = along / 2 if "shape" in cut else along
        few = ceil(needed[part] / figures.gives(part) / floor(figures.width(cut["fabric"]) / along)) - 1
        for strips in {few, few // 2} - {0}:
            data = with_cut(figures.data, part, strips=strips)
            yield Planted("too few strips", str(cut["strips"] - strips), data, frozenset({"piece-count"}))
        for less in (Fraction(1, 4), Fraction(1)) if "shape" not in cut else ():
            narrow = figures.text(Fraction(round((wide - float(less)) * 8), 8))
            data = with_cut(figures.data, part, strip_width=narrow)
            yield Planted("strips too narrow", str(less), data, frozenset({"piece-count"}))


def border_lengths(figures):
    """Borders cut from joined strips to a printed length that is not that of their edge."""
    for number, border in enumerate(figures.data.get("border", ())):
        for key in ("sides_length", "top_length"):
            if key in border:
                for by in (Fraction(-1, 2), Fraction(-6), Fraction(4)):
                    length = Fraction(round(float(figures.inches(border[key])) * 8), 8) + by
                    yield Planted(
                        "border length",
                        f"{'+' * (by > 0)}{by}",
                        with_value(figures.data, ["border", number, key], figures.text(length)),
                        frozenset({"border-length"}),
                        level="ask" if by > 0 else "stop",  # what is too long may be trimmed
                    )
        if _exchange_told(figures, border):
            exchanged = {**border, "sides_length": border["top_length"], "top_length": border["sides_length"]}
            data = with_value(figures.data, ["border", number], exchanged)
            yield Planted("border lengths exchanged", "1", data, frozenset({"border-length"}))


def _exchange_told(figures, border):
    """Whether the two printed lengths of a border differ, and do not fit with top and bottom sewn on first either."""
    if not {"sides_length", "top_length"} <= border.keys():
        return False
    apart = float(figures.inches(border["top_length"]) - figures.inches(border["sides_length"]))
    return abs(apart) > 1 / 8 and abs(apart - 2 * figures.border_width(border, "sides")) > 1 / 8


def shopping_list(figures):
    """A fabric of which the pattern does not say how much, and one that it buys for nothing."""
    told = {name for name, fabric in figures.data.get("fabric", {}).items() if {"bought", "piece"} & fabric.keys()}
    printed = {cut["fabric"] for cut in figures.data["cut"] if "per_print" in cut}
    cut_from = {cut["fabric"] for cut in figures.data["cut"]} - printed
    for name in sorted(told & cut_from)[:1] if len(told) > 1 else ():
        silent = {"usable_width": figures.data["fabric"][name].get("usable_width", "42 in")}
        data = with_value(figures.data, ["fabric", name], silent)
        for size in data.get("other_size", ()):
            for key in ("bought", "pieces"):
                size.get(key, {}).pop(name, None)
        yield Planted("fabric not bought", name, data, frozenset({"not-stated"}), level="ask")
    if told:
        data = with_value(figures.data, ["fabric", "spare fabric"], {"bought": "1 yd", "usable_width": "42 in"})
        yield Planted("fabric bought for nothing", "1 yd", data, frozenset({"piece-count"}), level="ask")


def fabric_in_pieces(figures):
    """Fewer fat quarters than the pieces cover by their area alone, however wide their fabric is."""
    for name, fabric in figures.data.get("fabric", {}).items():
        if fabric.get("piece") == "fat quarter":
            area = sum(wide * high * count for wide, high, count in figures.pieces_of(name))
            least = ceil(area / (18 * 22))
            for pieces in {least - 1, least // 2} - {0}:
                yield Planted(
                    "fat quarters short",
                    str(least - pieces),
                    with_value(figures.data, ["fabric", name, "pieces"], pieces),
                    frozenset({"fabric-short"}),
                )


def binding(figures):
    """Binding strips that do not reach round the quilt."""
    width, height = figures.finished()
    strip, wide = 2.25, 42.0
    few = ceil(2 * (width + height) / (wide - strip)) - 1
    for count in {few, few - 1} - {0, -1}:
        yield Planted(
            "binding short",
            f"{few + 1 - count} strips",
            with_binding(
                figures.data, {"usable_width": "42 in"}, {"strip": "2 1/4 in", "count": count, "join": "diagonal"}
            ),
            frozenset({"binding-short"}),
        )
    some = ceil((2 * (width + height) + 2) / (44 - 2 * figures.seam))
    if some * (40 - strip) < 2 * (width + height) + 1:
        yield Planted(
            "binding short of narrow fabric",
            "not printed",
            with_binding(figures.data, {}, {"strip": "2 1/4 in", "count": some}),
            frozenset({"binding-short"}),
            level="ask",
            most="ask",
        )
    enough = ceil((2 * (width + height) + 12) / (40 - strip))
    for narrow in ("7/8 in", "1/2 in", "1/8 in"):
        table = {"fabric": "binding cloth", "strip": narrow, "count": enough}
        yield Planted("binding too narrow", narrow, {**figures.data, "binding": table}, frozenset({"binding-short"}))
    for name, fabric in figures.data.get("fabric", {}).items():
        if "bought" in fabric:
            table = {"fabric": name, "strip": "2 1/2 in", "count": enough, "style": "bias"}
            plain = {key: value for key, value in figures.data.items() if key != "binding"}
            least = Figures(plain).least_cloth(name)
            data = with_value({**plain, "binding": table}, ["fabric", name, "bought"], f"{ceil(least) + 1} in")
            yield Planted("bias binding forgotten in the fabric", "all of it", data, frozenset({"fabric-short"}))


def linings(figures):
    """A backing or batting no larger than the quilt, or little larger; one whose bought length gives less than is
    printed."""
    size = figures.finished()
    for thing in ("backing", "batting"):
        for by in (0, -10):
            yield Planted(
                f"{thing} small",
                f"{by} in over",
                {**figures.data, thing: {"size": lining_size(figures, by)}},
                frozenset({f"{thing}-small"}),
            )
        for by in (3, 2, 1):
            yield Planted(
                f"{thing} scant",
                f"{by} in over",
                {**figures.data, thing: {"size": lining_size(figures, by)}},
                frozenset({f"{thing}-small"}),
                level="ask",
                most="ask",
            )
    less = f"{floor(min(size)) - 1} in"
    wide = f"{ceil(min(size)) + 8} in"
    for thing, more in (("backing", {"panels": 1}), ("batting", {})):
        data = {"size": lining_size(figures, 8), "bought": less, "usable_width": wide, **more}
        yield Planted(f"{thing} of too little", "1 in", {**figures.data, thing: data}, frozenset({f"{thing}-small"}))


def lining_size(figures, by):
    """A size so much larger than the quilt, in all, as a sheet has it typed."""
    return [figures.text(Fraction(floor((side + by) * 8), 8)) for side in figures.finished()]


def prints(figures):
    """A directional print that will lie at 45 degrees, or on its side."""
    for name in figures.data.get("fabric", {}):
        askew = turned_in_quilt(figures, name)
        if askew or on_its_side(figures, name):
            yield Planted(
                "directional print on point" if askew else "directional print on its side",
                "all of it",
                with_value(with_plenty(figures.data), ["fabric", name, "directional"], True),
                frozenset({"print-turned"}),
                level="ask",
            )


def on_its_side(figures, fabric):
    """Whether some pieces of this cloth plainly lie turned by a quarter: sashes round a block, joined border strips,
    triangles at the sides of a quilt on point and in its corners."""
    setting, turned = figures.setting, any("triangles" in border for border in figures.data.get("border", []))
    parts = [border[key] for border in figures.data.get("border", []) for key in KEYS if key in border]
    parts = [part for part in parts if "strip" in figures.cuts.get(part, {})]
    if not figures.on_point and "cornerstone" in setting.get("sashing", {}):
        parts.append(setting["sashing"]["part"])
    if figures.on_point and not turned:
        parts += [figures.edge(key)["part"] for key in ("sides", "corners") if "part" in figures.edge(key)]
    return any(figures.cuts[part]["fabric"] == fabric for part in parts)


def stands_upright(figures, fabric):
    """Whether all that is cut from this cloth are whole squares, none of them in a unit or on point."""
    in_units = {part for unit in figures.data.get("unit", {}).values() for part in unit["parts"]}
    return not turned_in_quilt(figures, fabric) and all(
        cut.get("cut", "whole") == "whole"
        and "size" in cut
        and len(set(figures.size(cut["size"]))) == 1
        and part not in in_units
        for part, cut in figures.cuts.items()
        if cut["fabric"] == fabric
    )


def turned_in_quilt(figures, fabric):
    """Whether a piece of this cloth lies at 45 degrees: whole pieces on point, and the middle of a square in a square
    set straight."""
    middles = {
        unit["parts"][0] for unit in figures.data.get("unit", {}).values() if unit["kind"] == "square in a square"
    }
    upright = {figures.edge(key).get("part") for key in ("sides", "corners")}
    borders = figures.data.get("border", [])
    turned = next((number for number, border in enumerate(borders) if "triangles" in border), None)
    upright |= {
        border[key]
        for border in borders[0 if turned is None else turned :]
        for key in ("sides", "top", "corner", "triangles")
        if key in border
    }
    on_point = figures.on_point != (turned is not None)
    for key in ("sides", "corners"):
        upright |= {
            word.partition(":")[0]
            for row in figures.edge(key).get("rows", [])
            for word in (row.split() if isinstance(row, str) else row)
            if figures.cuts[word.partition(":")[0]].get("cut") == "twice"
        }
    for part, cut in figures.cuts.items():
        if cut["fabric"] == fabric and part not in upright and on_point != (part in middles):
            return True
    return False


def order(figures):
    """Borders cut before the top is measured."""
    if figures.data.get("border"):
        yield Planted(
            "borders cut first",
            "all of it",
            with_value(
                figures.data,
                ["instructions"],
                [
                    "Cut the border strips to length as listed.",
                    "Sew the rows together.",
                    "Measure the top through its middle.",
                ],
            ),
            frozenset({"order-of-work"}),
            level="note",
        )


def said(inches):
    """A change in words."""
    return f"{'+' if inches > 0 else ''}{float(inches):.3g} in"


assert TOTAL_ROUNDED < 1  # what `printed_sizes` plants is more than any printed rounding
