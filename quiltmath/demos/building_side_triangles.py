"""Building side triangles: rows of squares, each ended by an end triangle, in place of half a block."""

from dataclasses import replace
from fractions import Fraction

from .. import blocks, lengths
from ..draw import Lines, Picture, beside, inches
from ..draw.panels import fabric_layers
from . import side_triangles_drawn as drawn
from .controls import Choice, Length, Whole
from .cutting_tables import cut_table
from .demo import Demo, Shown
from .halves import BETWEEN, DIAGONAL, SEAM, block
from .halves_drawn import FABRICS, ON
from .lesson import Lesson
from .questions import Question
from .side_triangles import HALF, ONCE, TWICE, end_square, pieces, triangle, untrimmed
from .still import Still
from .table import Table

EDGES = {TWICE: "built", ONCE: "built, bias outside", HALF: "half blocks"}
CHECKERS = "checkers"
GENEROUS = Fraction(1, 2)  # inches: how much larger a beginner cuts (common practice)
PUZZLE = 6  # squares along a side of its block
QUILT = (5, 7)  # blocks across and down of the invented quilt


def model(n, square, way):
    """What is cut, the triangle as it is sewn or cut, and a close-up of a point at its edge."""
    made = triangle(n, square, way)
    if way == HALF:
        raw, title, done = made, "The half", "Its long raw edge is"
        cut = drawn.block_with_cut(n, square)
    else:
        raw, title = untrimmed(n, square, way), "Sewn"
        cut = drawn.laid_out(n, square, way)
        done = (
            f"Sewn, its long raw edge is {inches(raw.long_edge.length)} in, and {drawn.trimmed_words(raw)}. "
            "Ready to sew in, that edge is"
        )
    sewn, near = drawn.with_close_up(raw, drawn.ready(raw, title, measured=True), n, square)
    words = f"{way[0].upper()}{way[1:]}: {drawn.cut_words(n, square, way)}. {done} {drawn.edge_words(made)}."
    if way == HALF:
        words += f" {_blunt_words(made, triangle(n, square))}"
    if made.waste:
        words += f" The other half, {made.waste:.0f} square inches of sewn fabric, has lost its points: waste."
    return Shown(beside([cut, sewn, near], alt=words), words)


def _blunt_words(half, built):
    """Why the long raw edge of the half is shorter than that of the triangle built, and that both are sewn in alike."""
    sharp = built.long_edge.length
    return (
        f"Built from squares it would be {inches(sharp)} in: built tips are sharp, the half's are blunt, each "
        f"{inches((sharp - half.long_edge.length) / 2)} in shorter. The seams take the difference; sewn in, either "
        f"edge is {inches(half.panel.bind().size[0])} in."
    )


def first_model(n):
    """The same triangle twice, its end triangles cut once and cut twice."""
    made = {"cut once": triangle(n, Fraction(2), ONCE), "cut twice": triangle(n, Fraction(2), TWICE)}
    words = (
        f"{n} rows of 2 in squares. "
        + " ".join(f"End triangles {name}: the long side lies {ON[one.long_edge.grain]}." for name, one in made.items())
        + f" Either way {drawn.points_words(made['cut twice'])}."
    )
    return Shown(beside([drawn.ready(one, f"End triangles\n{name}") for name, one in made.items()], alt=words), words)


N = Whole("n", "Squares along a side", 2, 8, 4)
WAY = Choice("way", "The side triangle is", (TWICE, ONCE, HALF), TWICE)
SQUARE = Length("square", "Finished square", "1", "3", "1/4", "2")
DEMO = Demo("Building side triangles", model, (N, SQUARE, WAY), height=460)
FIRST = Demo("Cut once or cut twice", first_model, (N,), height=380)


def step_by_step(n=4, square=2):
    """From the cut pieces to the finished triangle, in six pictures: a Still."""
    square = Fraction(square)
    made = triangle(n, square)
    raw, finished = untrimmed(n, square), made.panel.bind()
    pictures = [
        drawn.laid_out(n, square, TWICE, "1. Lay out"),
        drawn.rows_apart(n, square, "2. Sew the rows\nand press"),
        drawn.ready(raw, "3. Sew row to row"),
        drawn.under_the_ruler(raw, n, square, "4. Trim: the ruler's\nline on the points"),
        drawn.ready(made, "5. Trimmed"),
        Picture(
            [*fabric_layers(finished, FABRICS), Lines(finished.seams, "seam")], drawn.points_words(made), "6. Sewn in"
        ),
    ]
    words = (
        f"{drawn.cut_words(n, square, TWICE)}; {n} rows, {drawn.PRESSED}. "
        f"Sewn, {drawn.trimmed_words(raw)}. Trimmed, {drawn.points_words(made)}; sewn in, the long side is "
        f"{inches(finished.size[0])} in."
    )
    return Still(beside(pictures, columns=3, alt=words), words)


def generous(n=4, square=2, spare=GENEROUS):
    """The triangle from end triangles cut to the ruler's eighth and cut generously, before and after the trim: a
    Still."""
    square, found = Fraction(square), []
    for more, title in ((Fraction(0), "to the next eighth"), (lengths.parse(spare), "generous")):
        raw = untrimmed(n, square, spare=more)
        size = lengths.text(lengths.ruler(end_square(square)) + more)
        picture = drawn.ready(raw, f"{size} in squares,\n{title}").with_layers(drawn.trim_line(raw))
        found.append((replace(picture, caption=f"{drawn.depth(raw.deep)} beyond the points"), size, raw))
    made = triangle(n, square)
    trimmed = replace(drawn.ready(made, "Both,\ntrimmed"), caption=f"{drawn.depth(made.deep)} beyond the points")
    words = (
        " ".join(f"From squares of {size} in: {drawn.trimmed_words(raw)}." for _, size, raw in found)
        + f" Trimmed, both are the same: {drawn.points_words(made)}."
    )
    return Still(beside([*(picture for picture, *_ in found), trimmed], alt=words), words)


def all_at_once(square=2):
    """Two to five squares along a side, in all three ways, on one scale: a Still.

    >>> all_at_once().sentence
    'Every point is kept in all of them; only the first row keeps the outside on the straight grain, and \
only the last throws fabric away.'
    """
    counts, square = (2, 3, 4, 5), Fraction(square)
    made = [
        (way, title, [triangle(n, square, way) for n in counts])
        for way, title in ((TWICE, "cut twice"), (ONCE, "cut once"), (HALF, "half a block,\n1/4 in past"))
    ]
    words = _rows_compared([row for *_, row in made])
    alt = (
        words
        + " "
        + " ".join(f"{n} × {n}, {way}: {drawn.read_off(one)}." for way, _, row in made for n, one in zip(counts, row))
    )
    pictures = [drawn.ready(one, f"{n} × {n},\n{title}") for _, title, row in made for n, one in zip(counts, row)]
    return Still(beside(pictures, columns=len(counts), alt=alt), words, height=620)


def in_the_quilt(across=2, down=3, n=4, square=2):
    """A quilt on point with plain side triangles, and one whose side triangles are built: a Still."""
    from ..draw import plan_picture

    titles = {"plain": "Plain triangles", "built": "Built triangles"}
    plans = {edges: _quilt(across, down, n, square, edges) for edges in titles}
    roles = {**FABRICS, "setting": "white"}
    built = plans["built"]
    words = (
        f"With {built.side_triangles} side and {built.corner_triangles} corner triangles built from "
        "squares the pattern runs on to the edge of the quilt."
    )
    pictures = [plan_picture(plan, titles[edges], roles) for edges, plan in plans.items()]
    return Still(beside(pictures, alt=words + " " + " ".join(one.alt for one in pictures)), words)


def what_it_costs(across=4, down=5, n=4, square=2):
    """The three ways for one quilt, side by side: a Table."""
    rows = []
    for way, edges in EDGES.items():
        plan = _quilt(across, down, n, square, edges)
        patches = sum(line.count for line in plan.cutting_list()) - plan.blocks * n * n
        waste = _waste(plan, n, lengths.parse(square)) if way == HALF else 0.0
        bias = f"{inches(plan.bias_outside())} in"
        rows.append((way, str(patches), str(plan.cut_blocks), bias, f"{waste:.0f} sq in"))
    head = "its edge", "patches to cut", "whole blocks sewn for it", "bias on the outside", "fabric thrown away"
    return Table(head, tuple(rows), _named(across, down, n, square))


def cutting_list(across=4, down=5, n=4, square=2):
    """What to cut for the built edge of a quilt, besides its blocks: a Table."""
    plan = _quilt(across, down, n, square, "built")
    block = plan.made.panel(CHECKERS)
    lines = [replace(line, count=line.count - plan.blocks * block.count(line.part)) for line in plan.cutting_list()]
    return cut_table(lines, f"{_named(across, down, n, square)}: its built edge")


def _named(across, down, n, square):
    """Which quilt it is."""
    finished = lengths.text(lengths.parse(square))
    return f"A quilt on point, {across} by {down} blocks of {n} × {n} squares, each {finished} in"


def on_paper(across=4, down=5, n=4, square=2):
    """The quilt with a built edge to take away: its pattern, cutting diagrams, templates, cutting list, and the
    chart."""
    from .handed_out import chart_file, handed_out

    return handed_out(_quilt(across, down, n, square, "built"), [chart_file()])


def questions():
    """The guess before the reveal, and the puzzles after it."""
    from .. import proofs

    across, down = QUILT
    straight = [
        name
        for way, name in ((ONCE, "cut once"), (TWICE, "cut twice"))
        if triangle(4, Fraction(2), way).long_edge.grain == "straight"
    ]
    made, side = triangle(PUZZLE, Fraction(2)).panel, Fraction(5, 2)
    squares = made.count("square")
    halved = _quilt(across, down, 4, 2, "half blocks")
    seams = proofs.side_triangle.exact(block=side) - proofs.diagonal.exact(finished=side)
    return {
        "guess": Question(
            "Each row of a built side triangle ends in a small triangle, whose long side becomes the outside "
            "of the quilt. The small triangles come from squares. How must those be cut, so that the outside "
            "does not stretch?",
            straight[0] if len(straight) == 1 else "either way",
            choices=("cut once", "cut twice", "either way"),
            hint="An edge along a thread does not stretch. Which edges of the square lie along a thread?",
            mistakes=(
                ("cut once", "Cut once, the long side is the cut itself, at 45 degrees to both threads."),
                ("either way", "The shape is the same, the thread in it is not."),
            ),
            why="Then the long side is a side of the square, and those lie along a thread.",
        ),
        "squares": Question(
            f"A block of {PUZZLE} × {PUZZLE} squares. How many whole squares has a side triangle built for it?",
            squares,
            hint="Each row has one square fewer, and the last has none.",
            mistakes=(
                (squares + PUZZLE, "That counts the squares on the diagonal as whole: here they are triangles."),
                (2 * squares, "Those are both halves of the block; a side triangle is one."),
                (Fraction(PUZZLE**2, 2), "That is half the area: the squares on the diagonal are not whole here."),
            ),
            why=f"{' + '.join(str(len(row) - 1) for row in pieces(PUZZLE, Fraction(2))[:-1])}, and "
            f"{made.count('end triangle')} end triangles.",
        ),
        "cut": Question(
            f"The squares of a block finish {lengths.text(side)} in. From what size of square do you cut its "
            "end triangles, four from each, to the next eighth on the ruler?",
            proofs.side_triangle.cut(block=side),
            unit="in",
            close="1/8",
            exact=proofs.side_triangle.value(block=side),
            hint="What lies on the outside of the quilt is the diagonal of a finished square. Add to that.",
            mistakes=(
                (
                    proofs.half_square.cut(finished=side),
                    "That square is for triangles cut once, two from each: their outside is bias.",
                ),
                (
                    proofs.quarter_square.trade(finished=side),
                    "That is 1 1/4 added to the short side; it belongs to the long one, the diagonal.",
                ),
                (
                    lengths.ruler(proofs.half_square.trade(finished=proofs.diagonal.exact(finished=side))),
                    "That is 7/8 added to the long side; 7/8 goes with the short side, for triangles cut once.",
                ),
                (side + 2 * SEAM, "That is the square itself with its seams; a triangle needs more."),
            ),
            why=f"Its diagonal and {float(seams):.4f} in for the seams, up to the next eighth.",
        ),
        "blocks": Question(
            f"A quilt on point of {across} × {down} blocks takes {halved.side_triangles} side and "
            f"{halved.corner_triangles} corner triangles. All are cut from blocks, 1/4 in past the "
            "diagonals, and none may lose a point. How many blocks are sewn for that?",
            halved.cut_blocks,
            hint="The cut leaves 1/4 in on one side only. What becomes of the other?",
            mistakes=(
                (
                    halved.side_triangles // 2 + halved.corner_triangles // 4,
                    "That uses both halves and all quarters; only one of each block has its seam.",
                ),
                (
                    halved.side_triangles + halved.corner_triangles // 4,
                    "A block gives one good half, and likewise only one good quarter.",
                ),
                (halved.side_triangles, "The corners take their blocks too."),
            ),
            why="One block for each triangle; the rest of it is thrown away.",
        ),
    }


lesson = Lesson(DEMO, questions, first=FIRST)


def _quilt(across, down, n, square, edges):
    from .. import settings

    letters = [" ".join("AB"[(i + j) % 2] for i in range(n)) for j in range(n)]
    checkers = blocks.read(
        " | ".join(letters), size=n * lengths.parse(square), name=CHECKERS, fabrics={"A": DIAGONAL, "B": BETWEEN}
    )
    return settings.on_point(across=across, down=down, block=checkers, edges=edges)


def _waste(plan, n, square):
    """The square inches of sewn blocks that are left over from a plan's good halves and quarters."""
    half = triangle(n, square, HALF)
    middle, high = half.panel.size[0] / 2 + float(SEAM), half.panel.size[1]
    quarter, _ = half.panel.cut((middle, 0), (middle, high))
    return plan.side_triangles * half.waste + plan.corner_triangles * (block(n, square).area - quarter.area)


def _rows_compared(made):
    """What is alike in the rows of small multiples and what is not, read off their triangles."""
    every = all(one.kept == len(one.points) for row in made for one in row)
    straight = [all(one.long_edge.grain == "straight" for one in row) for row in made]
    waste = [any(one.waste for one in row) for row in made]
    kept = "Every point is kept in all of them" if every else "Not every point is kept"
    named = "first", "second", "last"
    return (
        f"{kept}; only the {named[straight.index(True)]} row keeps the outside on the straight grain, "
        f"and only the {named[waste.index(True)]} throws fabric away."
    )
