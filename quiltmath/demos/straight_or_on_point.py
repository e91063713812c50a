"""Straight or on point: the same blocks in both settings, and what becomes of them when a number changes."""

from dataclasses import replace
from fractions import Fraction
from math import ceil

from .. import blocks, lengths, settings
from ..draw import Lines, beside, fabric_roles, inches, plan_picture
from .controls import Length, Whole
from .cutting_tables import cut_table, rows_table
from .demo import Demo, Shown
from .lesson import Lesson
from .nine_patch import NINE_PATCH
from .questions import Question
from .reckoning import Reckoned, Reckoning
from .still import Still
from .table import Table
from .told import InTurn, Told
from .typed import Typed

MARKED = "navy in the gaps, marked"
GAP = blocks.read("B A B | A B A | B A B", size=9, name="gap block", fabrics={"A": "cream", "B": MARKED})
ROLES = {**fabric_roles(("cream", "navy", "setting")), MARKED: "tomato"}
FOOT = 12  # inches between the lines of the mat
MOST_SEAMS = 1500  # patches: with more, seam lines are finer than the picture and only slow the slider
TRIED, BEST = ("6", "12"), 6  # inches: the blocks tried for a wished size, by the inch; how many layouts are told
PUZZLE = (7, 8, 9)  # blocks across and down, finished block of the puzzle's invented quilt


def model(block, across, down):
    """The same blocks set straight and on point, side by side, at the scale of the largest blocks."""
    straight, pointed = _plans(block, across, down)
    words = (
        f"Straight: {straight.blocks} blocks, {_size(straight)} in. On point: {_blocks(pointed)}, "
        f"{pointed.side_triangles} side triangles, {pointed.corner_triangles} corner triangles, {_size(pointed)} in."
        f"{_marked(pointed)}"
    )
    seams = straight.patches + pointed.patches <= MOST_SEAMS
    pictures = [
        _on_the_mat(plan, title, block, seams) for plan, title in ((straight, "Straight"), (pointed, "On point"))
    ]
    return Shown(beside(pictures, alt=words), words)


def first_model(block):
    """Only the quilt on point, three blocks by four, whatever the block."""
    plan = _pointed(block, 3, 4)
    diagonal = inches(plan.size[0] / 3)
    words = (
        f"A {lengths.text(block)} in block is about {diagonal} in wide on its point; "
        f"3 by 4 of them make {_size(plan)} in, with {_blocks(plan)}.{_marked(plan)}"
    )
    return Shown(_on_the_mat(plan, "", block), words)


def _on_the_mat(plan, title, block, seams=True):
    """A plan on a mat as large as the largest blocks would need: the scale stays while the block changes."""
    most = [side * float(BLOCK.high / block) for side in plan.size]
    across, up = (ceil(side / FOOT) * FOOT for side in most)
    lines = [[(x, 0), (x, up)] for x in range(0, across + 1, FOOT)]
    lines += [[(0, y), (across, y)] for y in range(0, up + 1, FOOT)]
    quilt = plan_picture(plan, title, ROLES, seams=seams)
    return replace(quilt, layers=(Lines(lines, "faint", f"a mat with a line every {FOOT} in"), *quilt.layers))


def _blocks(plan):
    """How many blocks a plan on point takes, and where they stand."""
    gaps = plan.alternate_blocks
    return f"{plan.blocks} blocks ({plan.main_blocks} in rows and columns, {gaps} in the gaps)"


def _marked(plan):
    """What the colour of the blocks in the gaps means, as a sentence to follow; nothing where there are none."""
    return " The colour of those in the gaps only marks them: sew all alike." if plan.alternate_blocks else ""


BLOCK = Length("block", "Finished block", "3", "12", "1/2", "9")
DEMO = Demo(
    "Straight or on point",
    model,
    (BLOCK, Whole("across", "Blocks across", 1, 12, 4), Whole("down", "Blocks down", 1, 12, 5)),
    height=560,
)
FIRST = Demo("A block on its point", first_model, (BLOCK,), height=600)


def all_at_once(block=6):
    """Two to five blocks across, straight and on point, on one scale: a Still.

    >>> all_at_once().sentence
    'On point every quilt is about 1.414 times as wide as the same number of blocks set straight.'
    """
    pairs = [_plans(Fraction(block), across, across + 1) for across in (2, 3, 4, 5)]
    share = pairs[0][1].size[0] / pairs[0][0].size[0]
    words = f"On point every quilt is about {share:.3f} times as wide as the same number of blocks set straight."
    rows = zip(
        *(
            (
                plan_picture(straight, f"{straight.across} by {straight.down},\nstraight", ROLES, measured=False),
                plan_picture(pointed, f"{pointed.across} by {pointed.down},\non point", ROLES, measured=False),
            )
            for straight, pointed in pairs
        )
    )
    alt = (
        words
        + " "
        + " ".join(
            f"{straight.across} by {straight.down}: {_size(straight)} in against {_size(pointed)} in."
            for straight, pointed in pairs
        )
    )
    return Still(beside([picture for row in rows for picture in row], columns=len(pairs), alt=alt), words)


def side_by_side(across=3, down=4, block=9):
    """Size, blocks, cloth and triangles of both settings: a Table."""
    compared = settings.side_by_side(across=across, down=down, block=NINE_PATCH.resized(block))
    head = "compared", *(column.name for column in compared.columns)
    return Table(head, tuple(compared.rows()), f"{_named(across, down, block)}, in three quilts")


def cutting_list(across=4, down=5, block=9):
    """The plan on point: its rows in sewing order, each with the way it is pressed, and what to cut."""
    plan, which = _same_blocks(block, across, down), _named(across, down, block)
    return InTurn(
        rows_table(plan, f"A quilt on point, {which}: its rows"),
        Told(plan.layout.pressing),
        cut_table(plan.cutting_list(), "What to cut for it"),
    )


def squared_up(across=4, down=5, block=9):
    """What to square the blocks up to before they are set, and how the top is trimmed once it is sewn: a Told."""
    plan = _same_blocks(block, across, down)
    side, seam = plan.block.size + 2 * plan.seam, lengths.text(plan.seam)
    beyond, grown = _beyond_the_points(plan)
    width, height = (inches(size + 2 * float(plan.seam)) for size in plan.size)
    trimmed = (
        f"lay the ruler's {seam} in line on the points, along every side, and trim what is beyond its edge"
        if grown
        else f"that is {seam} in already"
    )
    square = lengths.text(plan.line("side triangle").size[0])
    return Told(
        f"Each block is squared up to {lengths.text(side)} in before it is set: lay the ruler's "
        f"{lengths.text(side / 2)} in lines on its middle, trim two sides, turn it and trim the other two.",
        f"Cut to the ruler's eighth, the side triangles of {square} in squares "
        f"reach {beyond} in beyond the points: {trimmed}.",
        f"The trimmed top of {_named(across, down, block)} measures {width} by {height} in, raw edge to raw edge, "
        "through its middle.",
    )


def _beyond_the_points(plan):
    """How far side triangles reach beyond the points as they are cut, in words, and whether that is to be trimmed."""
    line = plan.line("side triangle")
    beyond = float(plan.seam) + (float(line.size[0]) - line.value[0]) / 2
    said = inches(beyond, "1/32")
    return said, said != lengths.text(plan.seam)


def on_paper(across=4, down=5, block=9):
    """The plan on point to take away: its pattern, cutting diagrams, templates, cutting list, and the chart."""
    from .handed_out import chart_file, handed_out

    plan = _same_blocks(block, across, down)
    return handed_out(plan, [chart_file()])


def nearest_reckoned(width, height):
    """The layouts nearest to a wished size, the nearest first: a Reckoned."""
    found = settings.fit(width=width, height=height, blocks=settings.sizes(*TRIED), best=BEST)
    wished = f"{inches(width)} by {inches(height)} in"
    rows = tuple((one.layout, one.told_size, one.why) for one in found)
    table = Table(("layout", "finished size", "how near it comes"), rows, f"The size you wish: {wished}")
    return Reckoned(table, f"Nearest to {wished}: {found[0]}.")


NEAREST = Reckoning(
    "Which blocks make this size",
    nearest_reckoned,
    (
        Typed("width", "Wished width, finished", "3", "130", "60"),
        Typed("height", "Wished height, finished", "3", "130", "80"),
    ),
)


def nearest(**given):
    """The layouts nearest to a wished size, to be the last line of a cell: boxes and their table."""
    return NEAREST.app(**given)


def questions():
    """The guess before the reveal, and the puzzles after it."""
    across, down, block = PUZZLE
    plan = settings.on_point(across=across, down=down, block=block)
    straight = settings.straight(across=across, down=down, block=block)
    percents = ("the same size", "about a tenth wider", "about two fifths wider", "twice as wide")
    more = plan.size[0] / straight.size[0] - 1
    return {
        "guess": Question(
            "The same blocks, as many across and down, are set on point instead of straight. The quilt becomes …",
            next(words for words, share in zip(percents, (0, 0.1, 0.4, 1)) if abs(more - share) < 0.05),
            choices=percents,
            hint="How wide is a square that stands on its corner?",
            mistakes=(
                ("the same size", "The blocks are the same, but each now lies across the quilt by its diagonal."),
                ("twice as wide", "A diagonal is longer than a side, but not by a whole side."),
            ),
            why="Each block lies across the quilt by its diagonal.",
        ),
        "blocks": Question(
            f"A quilt on point has {across} blocks across and {down} down. How many blocks does it take, "
            "with those in the gaps?",
            plan.blocks,
            hint="In every gap among four blocks stands another.",
            mistakes=(
                (across * down, "That counts the rows and columns and forgets the blocks in the gaps between them."),
                (
                    across * down + across * down,
                    "There are fewer gaps than blocks: one fewer across and one fewer down.",
                ),
                (plan.alternate_blocks, "Those are the ones in the gaps; the rows and columns come to them."),
            ),
            why=f"{plan.main_blocks} in rows and columns, {plan.alternate_blocks} in the gaps.",
        ),
        "triangles": Question(
            "How many side triangles does the same quilt take?",
            plan.side_triangles,
            hint="Between two blocks at an edge there is one triangle.",
            mistakes=(
                (
                    2 * (across + down),
                    "That is one for every block at the edge: between them there is one fewer on each side.",
                ),
                (plan.side_triangles // 2, "Those are two of its sides. It has four."),
            ),
            why="One fewer than blocks on each of the four sides.",
        ),
    }


lesson = Lesson(DEMO, questions, first=FIRST)


def _plans(block, across, down):
    straight = settings.straight(across=across, down=down, block=NINE_PATCH.resized(block))
    return straight, _pointed(block, across, down)


def _pointed(block, across, down):
    """The quilt on point whose blocks in the gaps have the same patches in another colour."""
    nine, gap = (one.resized(block) for one in (NINE_PATCH, GAP))
    return settings.on_point(across=across, down=down, block=nine, alternate=gap)


def _same_blocks(block, across, down):
    """The quilt on point to be sewn: one block all over."""
    return settings.on_point(across=across, down=down, block=NINE_PATCH.resized(block))


def _named(across, down, block):
    """Which quilt it is."""
    return f"{across} by {down} blocks of {lengths.text(block)} in"


def _size(plan):
    """Finished width by height, as the picture measures them."""
    return " by ".join(map(inches, plan.size))
