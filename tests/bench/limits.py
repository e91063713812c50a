"""The largest sheets that are accepted: `python -m tests.bench limits [SHEET …]`.

Each in a process of its own: seconds of CPU for the review, the report (as HTML, its pictures and lengths to buy
included) and the correction, and the most memory, in MB and in bytes for each patch over an empty sheet's.
"""

import json
import resource
import subprocess
import sys
import time

from quiltmath import making, pattern, review
from quiltmath.review.report import as_html
from quiltmath.review.report.contents import contents
from quiltmath.usual import MOST_HANDLED, MOST_LINES, MOST_PATCHES, MOST_SEAMS

TOP = 'title = "As large as it may be"\nseam = "1/4"\n[fabric.navy]\nbought = "9 yd"\nusable_width = 42\n'


def cut(part, width, height, count, how="whole"):
    """One line of a cutting list, navy."""
    size = f'["{width}", "{height}"]'
    return f'[[cut]]\npart = "{part}"\nfabric = "navy"\nsize = {size}\ncount = {count}\ncut = "{how}"\n'


def setting(block, across, down, style="straight", more=""):
    """A setting of so many blocks."""
    return f'[setting]\nstyle = "{style}"\nblock = "{block}"\nacross = {across}\ndown = {down}\n{more}'


EDGES = '[setting.sides]\npart = "side"\n[setting.corners]\npart = "corner"\n'
FOUR = cut("A", 1.5, 1.5, 99_999) + cut("B", 1.5, 1.5, 99_999) + '[block.b]\nrows = ["A B", "B A"]\n'


def geese():
    """Blocks of ten flying geese."""
    unit = '[unit.g]\nkind = "flying geese"\nparts = ["goose", "sky"]\nfinished = ["2", "1"]\n'
    rows = '[block.b]\nrows = ["g g", "g g", "g g", "g g", "g g"]\n'
    across = int((MOST_PATCHES / 30) ** 0.5)
    parts = cut("goose", 3.25, 3.25, 99_999, "twice") + cut("sky", 1.875, 1.875, 99_999, "once")
    return TOP + parts + unit + rows + setting("b", across, across)


def on_point(style=EDGES):
    """Four-patches on point."""
    across = int((MOST_PATCHES / 8) ** 0.5) - 1
    triangles = cut("side", 4.25, 4.25, 999, "twice") + cut("corner", 2.375, 2.375, 2, "once")
    return TOP + triangles + FOUR + setting("b", across, across, "on point", style)


def halved():
    """Four-patches on point whose edge is cut from whole blocks: a fault that is planned anew."""
    return on_point('[setting.sides]\nhow = "cut blocks"\n[setting.corners]\nhow = "cut blocks"\n')


def sashed():
    """Four-patches on point with sashing and cornerstones."""
    across = int((MOST_PATCHES / 14) ** 0.5) - 1
    sashing = '[setting.sashing]\npart = "sash"\ncornerstone = "stone"\n' + EDGES
    parts = cut("sash", 1, 2.5, 99_999) + cut("stone", 1, 1, 99_999)
    triangles = cut("side", 5, 5, 999, "twice") + cut("corner", 4, 4, 2, "once")
    return TOP + parts + triangles + FOUR + setting("b", across, across, "on point", sashing)


def mitred():
    """Forty mitred borders round four-patches."""
    across = int((MOST_HANDLED / 4 / 43) ** 0.5) - 1
    borders = '[[border]]\nsides = "s"\ntop = "s"\nends = "mitred"\n' * 40
    strip = '[[cut]]\npart = "s"\nfabric = "navy"\nstrip = "1"\ncount = 999\n'
    return TOP + strip + FOUR + setting("b", across, across) + borders


def picture():
    """A picture told square by square, no two rows alike."""
    across = int(MOST_SEAMS**0.5)
    rows = ", ".join(f'"{" ".join("AB"[(r * c // 7 + r) % 2] for c in range(across))}"' for r in range(1, across + 1))
    parts = cut("A", 1.5, 1.5, 9_999) + cut("B", 1.5, 1.5, 9_999)
    return TOP + parts + f"[block.b]\nrows = [{rows}]\n" + setting("b", 1, 1)


def sizes():
    """A cutting list of as many lines as it may have, all of other sizes that may be turned, in a few sizes."""
    lines = "".join(
        cut(f"p{i}", f"{1 + 7 * i % 19} {i % 8}/8", f"{2 + 5 * i % 23} {i // 8 % 8}/8", 1 + i % 6) for i in range(490)
    )
    more = "".join(f'[[other_size]]\nname = "{n}"\nacross = {n + 2}\n' for n in range(MOST_LINES // 491 - 1))
    return TOP + lines + cut("A", 2, 2, 1) + setting("A", 1, 1) + more


def faults():
    """A hundred blocks, each with a square cut too small and pieces left out."""
    parts, blocks = "", ""
    for i in range(100):
        parts += cut(f"l{i}", 3.5, 3.5, 1) + cut(f"d{i}", 3.375, 3.375, 3)
        blocks += f'[block.c{i}]\nfinished = 6\nrows = ["l{i} d{i}", "d{i} l{i}"]\n'
    rows = ", ".join(f'"{" ".join(f"c{10 * r + c}" for c in range(10))}"' for r in range(10))
    return TOP + parts + blocks + f"[block.b]\nrows = [{rows}]\n" + setting("b", 1, 1)


def steps():
    """As many steps as there may be, each sewn to the one before."""
    told = "".join(
        f'[[step]]\nsew = ["{f"s{n - 1}" if n else "A"}", "A"]\nedges = ["right", "left"]\ngives = "s{n}"\n'
        for n in range(480)
    )
    return TOP + cut("A", 2, 2, 481) + cut("B", 2, 2, 1) + setting("B", 1, 1) + told


def comments():
    """As many lines that nothing is made of, under comments that fill the file."""
    comment = "# " + "x" * 1_700 + "\n"
    lines = "".join(comment + cut(f"p{i}", 3, f"{1 + i // 8} {i % 8}/8", 2) for i in range(490))
    return TOP + lines + cut("A", 2, 2, 1) + setting("A", 1, 1)


def empty():
    """One patch, which the others are held against."""
    return TOP + cut("A", 2, 2, 1) + setting("A", 1, 1)


SHEETS = (empty, geese, on_point, halved, sashed, mitred, picture, sizes, faults, steps, comments)


def measured(name):
    """One sheet reviewed, corrected and reported in this process, as plain data."""
    text = next(sheet for sheet in SHEETS if sheet.__name__ == name)()
    seconds, at = [], time.process_time()
    found = review.review(pattern.read_text(text, f"{name}.toml"))
    for work in (lambda: None, lambda: review.corrected(found), lambda: as_html.html(contents(found), name)):
        work()
        seconds.append(time.process_time() - at)
        at = time.process_time()
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {"patches": making.patches(found.sheet), "verdict": found.verdict, "seconds": seconds, "megabytes": memory}


def main(arguments):
    if arguments[:1] == ["--measured"]:
        print(json.dumps(measured(arguments[1])))
        return 0
    print(f"{'sheet':10} {'patches':>8} {'review':>7} {'correct':>8} {'report':>7} {'MB':>6} {'bytes a patch':>14}")
    bare = 0.0
    for sheet in SHEETS if not arguments else [each for each in SHEETS if each.__name__ in arguments]:
        command = [sys.executable, "-m", "tests.bench", "limits", "--measured", sheet.__name__]
        told = json.loads(subprocess.run(command, capture_output=True, check=True, text=True).stdout)
        bare = bare or told["megabytes"]
        each = 2**20 * (told["megabytes"] - bare) / told["patches"]
        reviewing, correcting, reporting = told["seconds"]
        print(
            f"{sheet.__name__:10} {told['patches']:>8,} {reviewing:>6.1f}s {correcting:>7.1f}s {reporting:>6.1f}s "
            f"{told['megabytes']:>6.0f} {each:>14,.0f}",
            flush=True,
        )
    print("seconds of CPU")
    return 0
