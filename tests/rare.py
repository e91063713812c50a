"""Sound sheets that say what neither the demo sheets nor the guide say, so that every key is said somewhere."""

import tomllib

from . import guide
from .sheets import BORDERED, FOLDER, changed, demo


def sheets():
    """Yield each as (name, plain tables)."""
    yield "finished-otherwise", finished_otherwise()
    yield "built-all-round", built_all_round()
    yield "halved-blocks", halved_blocks()
    yield "columns-otherwise", columns_otherwise()
    yield "strips-otherwise", strips_otherwise()
    yield "rows-otherwise", rows_otherwise()
    yield "trimmed-pairs", trimmed_pairs()


def finished_otherwise():
    """The top border sewn on first, blocks trimmed, batting by the yard, a backing of a listed fabric, a
    print with an up and a down, a note; a size with another border."""
    sheet = tomllib.loads(
        changed(
            BORDERED, ('["6 1/2", "30 1/2"]', '["6 1/2", "42 1/2"]'), ('["6 1/2", "36 1/2"]', '["24 1/2", "6 1/2"]')
        )
    )
    sheet["note"] = "Bought at the fair."
    sheet["fabric"]["navy"]["directional"] = True
    sheet["fabric"]["cream"]["bought"] = "4 yd"
    sheet["block"]["four"]["trim_to"] = "6 1/2"
    sheet["border"][0]["first"] = "top"
    sheet["binding"]["join"] = "diagonal"
    sheet["backing"] |= {"fabric": "cream", "bought": "2 3/4 yd"}
    sheet["batting"] = {"fabric": "wool", "bought": "1 3/8 yd", "usable_width": "90"}
    sheet["other_size"] = [
        {
            "name": "square",
            "across": 5,
            "finished": ["42", "42"],
            "counts": {"A": 50, "B": 50, "long": 2, "short": 2},
            "sizes": {"short": ["30 1/2", "6 1/2"]},
            "backing": {"size": ["50", "50"]},
            "batting": {"size": ["50", "50"]},
        }
    ]
    return sheet


def built_all_round():
    """Side triangles built of other rows at each edge."""
    sheet = demo(FOLDER / "sound" / "built-triangles.toml")
    rows = sheet["setting"]["sides"]["rows"]
    one_more, one_fewer = ["T", "A T", *rows[2:]], [*rows[:2], "B B T", rows[3]]
    sheet["setting"]["sides"] |= {"left": one_more, "bottom": [*rows[:2], "A A T", rows[3]], "right": one_fewer}
    for cut in sheet["cut"][:2]:
        cut["count"] += {"A": 2, "B": -2}[cut["part"]]
    return sheet


def halved_blocks():
    """Blocks of another kind cut past their diagonals for the edge, and a border that holds the bias."""
    sheet = tomllib.loads(guide.walk())
    sheet["block"]["plain"] = {"rows": ["E"]}
    sheet["setting"] |= {key: {"how": "cut blocks", "block": "plain", "past": "1/4"} for key in ("sides", "corners")}
    sheet["cut"] = [cut for cut in sheet["cut"] if cut["part"] not in ("F", "G")]
    next(cut for cut in sheet["cut"] if cut["part"] == "E")["count"] = 6 + 10 + 4
    sheet["fabric"]["cream"]["bought"] = "2 1/2 yd"
    return sheet


def columns_otherwise():
    """A size in columns, with blocks of its own, strip sets and fabric in pieces."""
    return tomllib.loads(
        """
title = "Ladders"
seam = "1/4"
finished = ["18", "12"]
[fabric.oak]
pieces = 1
piece = "fat quarter"
[fabric.milk]
pieces = 1
piece = ["18", "21"]
[[cut]]
part = "oak strip"
fabric = "oak"
strip = "3 1/2"
count = 2
[[cut]]
part = "milk strip"
fabric = "milk"
strip = "3 1/2"
count = 2
[strip_set.rung]
strips = ["oak strip", "milk strip"]
sub_cut = "3 1/2"
sets = 2
pieces = 12
[block.ladder]
rows = ["rung rung:180"]
finished = "6"
count = 6
[setting]
style = "straight"
across = 3
down = 2
block = "ladder"
[[other_size]]
name = "long"
columns = ["ladder broad ladder", "broad ladder broad"]
finished = ["12", "18"]
counts = { rung = 12, ladder = 3, broad = 3 }
sets = { rung = 2 }
pieces = { oak = 1, milk = 1 }
[other_size.block.broad]
rows = ["rung:90", "rung:270"]
"""
    )


def strips_otherwise():
    """A size that has long sashing strips of its own."""
    sheet = demo(FOLDER / "sound" / "lattice-by-lengths.toml")
    sheet["other_size"] = [
        {
            "name": "small",
            "across": 1,
            "down": 2,
            "strip": ["short strip", "middle strip"],
            "finished": ["12 3/4", "25 1/2"],
            "counts": {"short strip": 2, "middle strip": 1, "sash": 4, "side": 1, "corner": 2},
        }
    ]
    return sheet


def rows_otherwise():
    """A size whose blocks are drawn in rows on point."""
    sheet = tomllib.loads(guide.walk())
    sheet["other_size"] = [
        {
            "name": "small",
            "rows": ["star E", "E star"],
            "between": ["star:90"],
            "border": [],
            "finished": ["25 1/2", "25 1/2"],
            "counts": {"star": 3, "E": 2, "F": 1, "G": 2},
        }
    ]
    return sheet


def trimmed_pairs():
    """Pairs that are sewn and trimmed on all sides before they stand in a block."""
    return tomllib.loads(
        """
title = "Trimmed pairs"
seam = "1/4"
finished = ["15", "20"]
[fabric.oak]
bought = "1/2 yd"
usable_width = "42"
[fabric.milk]
bought = "1/2 yd"
usable_width = "42"
[[cut]]
part = "A"
fabric = "oak"
size = "3 1/2"
count = 24
[[cut]]
part = "B"
fabric = "milk"
size = "3 1/2"
count = 24
[[step]]
sew = ["A", "B"]
edges = ["right", "left"]
align = "end"
gives = "pair"
[[step]]
trim = "pair"
left = "1/2"
right = "1/2"
top = "1/4"
bottom = "1/4"
gives = "slim"
[block.two]
rows = ["slim", "slim:180"]
finished = "5"
count = 12
[setting]
style = "straight"
across = 3
down = 4
block = "two"
"""
    )
