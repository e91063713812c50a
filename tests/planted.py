"""Faults that are planted in sound sheets, and changes that do no harm. Whether a change harms is worked out here, by
plain arithmetic on the sheet's own figures, and never asked of the kit."""

from collections import Counter
from fractions import Fraction
from math import ceil, floor, sqrt
from typing import NamedTuple

from quiltmath import lengths

ROOT = sqrt(2)
EASED = 1 / 16  # inches: two edges that differ by less are eased together (common practice, no source)
ROUNDED = (
    0.05  # inches: printed edge triangles are rounded, to the nearest eighth too, which falls short by up to 0.04 in
)
TOTAL_ROUNDED = 33 / 64  # inches: printed quilt sizes are rounded to the inch, or leave the outer seam in


class Planted(NamedTuple):
    """A changed sheet: what was done, how strongly, its tables, the checks of which one must speak (at this level), and
    those that may speak as well, of what follows; `parts` are those that may be blamed. `most` is the gravest that
    anything may be said: what rests on something that is not printed is never a stop. `right` is the exact length
    (inches) that belongs in place of what was changed, where the sound sheet has a generous one.

    A harmless change has no checks: the review must not say more than a note, but for those that may speak as well.
    """

    kind: str
    strength: str
    data: dict
    checks: frozenset = frozenset()
    also: frozenset = frozenset()
    level: str = "stop"
    parts: frozenset = frozenset()
    most: str = "stop"
    right: float | None = None


# -- reading figures off the tables ------------------------------------------------------------------------------------


class Figures:
    """The figures of a sound sheet, read off its tables."""

    def __init__(self, data):
        self.data, self.units = data, data.get("units", "in")
        self.seam = float(self.inches(data.get("seam", "1/4")))
        self.setting = data["setting"]
        self.cuts = {cut["part"]: cut for cut in data["cut"]}
        self.on_point = self.setting["style"] == "on point"

    def inches(self, written):
        return lengths.parse(written, unit=self.units)

    def size(self, written):
        """(width, height) in inches of a printed size."""
        if isinstance(written, str) and "x" in written:
            written = written.split("x")
        pair = written if isinstance(written, list) else [written, written]
        return [float(self.inches(side)) for side in pair]

    def cut_size(self, part):
        cut = self.cuts[part]
        if "strip" in cut:
            return [self.width(cut["fabric"]), float(self.inches(cut["strip"]))]
        if "strip_width" in cut and "shape" in cut:
            high = float(self.inches(cut["strip_width"]))
            half = (high - 3 * self.seam) / sqrt(3) + self.seam * (1 + sqrt(3))  # its raw base, seams and all
            return [2 * half - high / sqrt(3) if cut["shape"].startswith("half") else 2 * high / sqrt(3), high]
        return self.size(cut["size"])

    def width(self, fabric):
        return float(self.inches(self.data.get("fabric", {}).get(fabric, {}).get("usable_width", "40 in")))

    def text(self, inches):
        """A length as this sheet would print it, exactly."""
        if self.units == "cm":
            return f"{round(float(inches) * 2.54, 6):g}"
        whole, part = divmod(Fraction(inches).limit_denominator(1 << 20), 1)
        return f"{whole} {part} in" if part else f"{whole} in"

    @property
    def step(self):
        """The ruler's step of the sheet's units, in inches."""
        return Fraction(1, 8) if self.units == "in" else Fraction(50, 127) / 2

    @property
    def drawn(self):
        """The rows of a setting that draws its blocks, each a list of words; of one in columns those."""
        return [words_of(row) for row in self.setting.get("rows") or self.setting.get("columns") or []]

    @property
    def loose(self):
        """Whether its rows are each what they are, held to no grid."""
        return bool(self.drawn) and not self.on_point and "sashing" not in self.setting

    @property
    def main(self):
        """The name of a block that is set: of those that are drawn the first."""
        return self.setting["block"] if "block" in self.setting else self.drawn[0][0].partition(":")[0]

    @property
    def across_down(self):
        """How many blocks lie across and down."""
        if not self.drawn:
            return self.setting["across"], self.setting["down"]
        size = max(map(len, self.drawn)), len(self.drawn)
        return size[::-1] if "columns" in self.setting else size

    def blocks_set(self):
        """[(name, how many of it)] of the blocks that are set."""
        setting, (across, down) = self.setting, self.across_down
        if self.drawn:
            rows = [*self.drawn, *map(words_of, setting.get("between", []))]
            found = Counter(word.partition(":")[0] for row in rows for word in row)
            if self.loose:  # strips across the width of fabric are measured
                found = {name: count for name, count in found.items() if "strip" not in self.cuts.get(name, {})}
            return list(found.items())
        if self.on_point:
            counts = across * down, (across - 1) * (down - 1)
        else:
            counts = ceil(across * down / 2), across * down // 2
        return list(zip((setting["block"], setting.get("alternate", setting["block"])), counts))

    def finishes(self, word):
        """The finished (width, height) of a block or plain piece as it is drawn, turned or not."""
        name, _, turn = word.partition(":")
        made = self.data.get("block", {}).get(name) or self.data.get("unit", {}).get(name) or {}
        if "finished" in made:
            size = self.size(made["finished"])
        else:
            size = [side - 2 * self.seam for side in (self.size(made["size"]) if made else self.cut_size(name))]
        return size[::-1] if turn and float(turn) % 180 else size

    def is_long(self, row):
        """Whether a row is one strip joined from widths of fabric."""
        return len(row) == 1 and "strip" in self.cuts.get(row[0], {})

    def loose_size(self):
        """The finished (width, height) of rows, or columns, that are each what they are."""
        upright = "columns" in self.setting
        long = next(sum(self.finishes(word)[upright] for word in row) for row in self.drawn if not self.is_long(row))
        thick = sum(self.finishes(row[0])[1 if self.is_long(row) else not upright] for row in self.drawn)
        return (thick, long) if upright else (long, thick)

    def finished_inside(self):
        """The finished (width, height) of the quilt inside its borders."""
        return Figures({**self.data, "border": []}).finished()

    def pieced(self, name):
        """The finished (length, width) of a border strip that is a block of one row."""
        (row,) = self.data["block"][name]["rows"]
        sizes = [self.finishes(word) for word in words_of(row)]
        return sum(width for width, _ in sizes), sizes[0][1]

    def border_width(self, border, key):
        """How wide the strips of a border finish on one pair of edges; 0 where it has none."""
        if key not in border:
            return 0.0
        if border[key] in self.cuts:
            return min(self.cut_size(border[key])) - 2 * self.seam
        return self.pieced(border[key])[1]

    @property
    def block(self):
        """The finished side of the set block, in inches."""
        name = self.main
        made = self.data.get("block", {}).get(name) or self.data.get("unit", {}).get(name)
        if made is not None:
            return self.size(made["finished"])[0]
        return self.cut_size(name)[0] - 2 * self.seam

    def edge(self, key):
        """What the sheet says of "sides" or "corners"."""
        return self.setting.get(key, {})

    @property
    def sash(self):
        sashing = self.setting.get("sashing")
        return 0.0 if sashing is None else min(self.cut_size(sashing["part"])) - 2 * self.seam

    def edge_square(self, key):
        """The exact square of a plain side or corner triangle: b√2 + s(2 + 2√2), or b/√2 + s(2 + √2), b the leg or long
        side."""
        frames = [min(self.cut_size(part)) - 2 * self.seam for part in self.edge(key).get("frame", [])]
        frame = sum(frames)
        whole = self.setting.get("sashing", {}).get("edge") == "whole"
        floating = 2 * float(self.inches(self.setting.get("floating", 0)))
        if key == "sides":
            return (self.block + whole * self.sash - frame) * ROOT + self.seam * (2 + 2 * ROOT) + floating
        off = 2 * frame if len(frames) == 1 else ROOT * frame  # one strip lies along the long side, two on the legs
        return (self.block + 2 * whole * self.sash - off) / ROOT + self.seam * (2 + ROOT) + floating

    def sash_end_square(self):
        """The exact square of a halved cornerstone or a side triangle's tip: w√2 + s(2 + 2√2), w the finished sash."""
        return self.sash * ROOT + self.seam * (2 + 2 * ROOT)

    def round_squares(self):
        """{part: exact square} of the triangles that set what lies inside on point: b/√2 + s(2 + √2), b its side."""
        return {
            border["triangles"]: self._inside(number)[0] / ROOT + self.seam * (2 + ROOT)
            for number, border in enumerate(self.data.get("border", []))
            if "triangles" in border
        }

    def _inside(self, number):
        """The finished (width, height) of the quilt inside this border."""
        return Figures({**self.data, "border": self.data["border"][:number]}).finished()

    def made(self):
        """Everything made of other things: {name: (Counter of ingredients, how many one going gives)}."""
        made = {}
        for name, block in self.data.get("block", {}).items():
            made[name] = Counter(word.partition(":")[0] for row in block.get("rows", []) for word in words_of(row)), 1
        for name, unit in self.data.get("unit", {}).items():
            made[name] = self._unit(unit)
        for name, strips in self.data.get("strip_set", {}).items():
            width = min(self.width(self.cuts[part]["fabric"]) for part in strips["strips"])
            made[name] = Counter(strips["strips"]), floor(width / float(self.inches(strips["sub_cut"])) + 1e-9)
        (across, down), top = self.across_down, Counter()
        edges = [("sides", 2 * (across + down - 2), 2), ("corners", 4, 4)] if self.on_point else []
        for name, count in self.blocks_set():
            top[name] += count
        for key, count, halves in edges:
            piece = self.edge(key)
            if piece.get("how") == "cut blocks":
                top[piece.get("block", self.main)] += count if "past" in piece else ceil(count / halves)
            for part in piece.get("frame", []) + ([piece["part"]] if "part" in piece else []):
                top[part] += count
            if "tip" in piece:
                top[piece["tip"]] += max(0, abs(across - down) - 1)
            for row in piece.get("rows", []):
                for word in words_of(row):
                    top[word.partition(":")[0]] += count
        for part, count in self._sashing(across, down):
            top[part] += count
        for border in self.data.get("border", []):
            if "triangles" in border:
                top[border["triangles"]] += 4
                continue
            for part in (border[key] for key in ("sides", "top") if key in border):
                top[part] += 0 if "strip" in self.cuts.get(part, {}) else 2
            if "corner" in border:
                top[border["corner"]] += 4
        made["the top"] = top, 1
        return made

    def _unit(self, unit):
        if unit["kind"] == "quarter-square" and len(unit["parts"]) > 2:
            return Counter(unit["parts"]), 1
        one, other = unit["parts"][0], unit["parts"][-1]
        whole = self.cuts[one].get("cut", "whole") == "whole"
        if unit["kind"] == "flying geese":
            square = self.cut_size(one)[0] == self.cut_size(one)[1]
            goes = unit.get("at_a_time", 4 if square else 1) if whole else 1
            return Counter({one: 1, other: 4 if goes == 4 else 2}), goes
        if unit["kind"] == "triangle in a square":
            return Counter([*unit["parts"], unit["parts"][-1]][:3]), 1
        if unit["kind"] == "half-rectangle":
            return Counter(unit["parts"]), 1
        if unit["kind"] in ("half-square", "quarter-square"):
            each = 1 if whole or unit["kind"] == "half-square" else 2
            return Counter({one: each, other: each}), unit.get("at_a_time", 2) if whole else 1
        return Counter({one: 1, other: len(unit.get("corners", range(4)))}), 1

    def _sashing(self, across, down):
        sashing = self.setting.get("sashing")
        if sashing is None:
            return []
        if self.on_point:
            if "strip" in sashing:
                return [(sashing["part"], 2 * across * down), *Counter(self.strip_of_row().values()).items()]
            sashes, stones = 4 * across * down, 2 * across * down + across + down
            if "edge_cornerstone" not in sashing:
                return [(sashing["part"], sashes), (sashing["cornerstone"], stones)]
            halved = 2 * (across + down)
            return [
                (sashing["part"], sashes),
                (sashing["cornerstone"], stones - halved),
                (sashing["edge_cornerstone"], halved),
            ]
        out = 1 if sashing.get("around", True) else -1
        if "strip" in sashing:
            return [(sashing["part"], down * (across + out)), (sashing["strip"], down + out)]
        return [
            (sashing["part"], down * (across + out) + across * (down + out)),
            (sashing["cornerstone"], (across + out) * (down + out)),
        ]

    def strip_of_row(self):
        """{number of the sashing row: its strip} on point, where strips are cut to the lengths of the rows.

        From each of two corners the rows pass 1, 3, 5 … blocks; those between, where the quilt is not square, twice as
        many as the shorter side has.
        """
        names, (short, long) = self.setting["sashing"]["strip"], sorted(self.across_down)
        if isinstance(names, str):
            return {}
        passed = [min(2 * row + 1, 2 * short, 2 * (short + long - row) - 1) for row in range(short + long)]
        return {row: names[sorted(set(passed)).index(blocks)] for row, blocks in enumerate(passed)}

    def needed(self):
        """How many pieces of each part the quilt takes; strips measured at the top left out."""
        made = self.made()

        def demand(name):
            if name == "the top":
                return 1
            return sum(goes[name] * ceil(demand(user) / batch) for user, (goes, batch) in made.items() if goes[name])

        return {part: demand(part) for part in self.cuts if any(goes[part] for goes, _ in made.values())}

    def gives(self, part):
        """Pieces from each one cut of a part: 1, 2 or 4."""
        return {"whole": 1, "once": 2, "twice": 4}[self.cuts[part].get("cut", "whole")]

    def finished(self):
        """The finished width and height of the quilt, worked out from its blocks, sashes and borders, in inches."""
        (across, down), pitch = self.across_down, 0.0 if self.loose else self.block + self.sash
        if self.loose:
            width, height = self.loose_size()
        elif self.on_point:
            more = ROOT * self.sash if self.setting.get("sashing", {}).get("edge") == "whole" else 0.0
            more += 2 * float(self.inches(self.setting.get("floating", 0)))
            width, height = across * pitch * ROOT + more, down * pitch * ROOT + more
        else:
            around = self.setting.get("sashing", {}).get("around", True)
            width, height = (count * pitch + self.sash * (1 if around else -1) for count in (across, down))
        for border in self.data.get("border", []):
            if "triangles" in border:
                width, height = width * ROOT, height * ROOT
                continue
            width += 2 * self.border_width(border, "sides")
            height += 2 * self.border_width(border, "top")
        return width, height

    # -- cloth ---------------------------------------------------------------------------------------------------------

    def pieces_of(self, fabric):
        """[(width, height, count)] of all that is cut from one cloth."""
        listed = [(*self.on_fabric(part), cut["count"]) for part, cut in self.cuts.items() if cut["fabric"] == fabric]
        binding = self.data.get("binding")
        if binding and binding["fabric"] == fabric:
            slant = ROOT if self.on_the_bias(fabric) else 1.0  # at 45 degrees strips lie so much further apart
            listed.append((self.width(fabric), float(self.inches(binding["strip"])) * slant, binding["count"]))
        return listed

    def on_fabric(self, part):
        """(width, height) that a piece takes of its fabric: of a triangle from a strip half its base, tip by tip."""
        width, height = self.cut_size(part)
        return (width / 2, height) if "shape" in self.cuts[part] else (width, height)

    def on_the_bias(self, fabric):
        """Whether binding is cut from this cloth on the bias."""
        binding = self.data.get("binding", {})
        return binding.get("fabric") == fabric and binding.get("style") == "bias"

    def least_cloth(self, fabric):
        """Inches of cloth that no cutter gets under: the area of the pieces over the width."""
        return sum(width * height * count for width, height, count in self.pieces_of(fabric)) / self.width(fabric)

    def plain_cloth(self, fabric):
        """Inches of cloth for which anybody can cut it: each line of the list from its own strips; None if a piece is
        too long."""
        wide = self.width(fabric)
        total = wide if self.on_the_bias(fabric) else 0.0  # the corners before the first strip and after the last
        shapes = [self.on_fabric(part) for part, cut in self.cuts.items() if "shape" in cut]
        for width, height, count in self.pieces_of(fabric):
            each = floor(wide / width) - ((width, height) in shapes)  # the first one's tip stands out before the others
            ways = [height * ceil(count / each)] if width <= wide else []
            turned = height <= wide and (width, height) not in shapes
            ways += [width * ceil(count / floor(wide / height))] if turned and "strip" not in self.data else []
            if not ways:
                return None
            total += min(ways)
        return total


def words_of(row):
    return row.split() if isinstance(row, str) else row
