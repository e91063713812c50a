"""Sashing, frames and borders: how large they make a quilt, how many pieces they take, how long their strips
are cut."""

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from .. import blocks, lengths
from ..draw import Lines, Picture, Shapes, beside, close_up
from ..draw.panels import fabric_layers, outlines
from ..draw.plans import plan_picture
from .controls import Choice, Length, Whole
from .demo import Demo, Shown, Still
from .questions import Question

BLOCK = Fraction(6)
SEAM = blocks.SEAM
ROLES = {
    "cream": "white",
    "navy": "blue",
    "sashing": "yellow",
    "cornerstone": "black",
    "setting": "purple",
    "frame": "yellow",
    "first border": "yellow",
    "second border": "orange",
    "third border": "purple",
}
CLOTHS = ("first border", "second border", "third border")
EDGES = {"centre": "Edge through the\ncornerstones' centres", "whole": "Whole cornerstones\nat the edge"}
WITH, WITHOUT = "with cornerstones", "in strips, without cornerstones"
SIDES, ENDS, MITRED = "butted, side strips first", "butted, end strips first", "mitred"
FRAMED = (Fraction(3, 2), Fraction(6))  # finished frame and block of the invented quilt in the guess


def model(stones, sash, across):
    """Blocks on point with sashing round every one, in both edge conventions, on one scale."""
    plans = {edge: _sashed(across, across + 1, sash, stones, edge) for edge in EDGES}
    said = {"centre": "Edge through the centres", "whole": "Whole at the edge"}
    words = (
        f"{across} by {across + 1} blocks of {lengths.text(BLOCK)} in, sashing {lengths.text(sash)} in, "
        f"{stones}. "
        + " ".join(
            f"{said[edge]}: {_size(plan)} in, {_counts(plan)}; {_triangles(plan)}." for edge, plan in plans.items()
        )
    )
    return Shown(beside([_drawn(plan) for plan in plans.values()], alt=words), words)


def first_model(sash):
    """Two by two blocks with cornerstones, in both edge conventions."""
    plans = {edge: _sashed(2, 2, sash, WITH, edge) for edge in EDGES}
    narrow, wide = (plan.size[0] for plan in plans.values())
    words = (
        f"Sashing {lengths.text(sash)} in: {_about(narrow)} in wide with the edge through the centres "
        f"of the cornerstones, {_about(wide)} in with them whole: {_about(wide - narrow)} in more."
    )
    return Shown(beside([_drawn(plan) for plan in plans.values()], alt=words), words)


def frames_model(frame, short):
    """Two framed side triangles and the block between them, with strips cut too short by so much."""
    plan, tried = _framed(frame), _trial(frame, short)
    first, second = _strips(plan)
    words = (
        f"Frame {lengths.text(frame)} in round blocks of {lengths.text(BLOCK)} in. Strips of "
        f"{_up(first)} and {_up(second)} in reach past the 45-degree trim"
    )
    shorter = f"; cut {lengths.text(short)} in shorter they "
    if not short:
        words += ": the frame is whole."
    elif not _missing(tried):
        words += f"{shorter}lack seam allowance at their tips, but the frame still shows whole."
    else:
        words += f"{shorter}end {lengths.text(_missing(tried))} in before the edge of the quilt."
    return Shown(beside(_edge_pictures(frame, short, words), alt=words), words)


def borders_model(corners, count, width):
    """A quilt top with so many borders, each as wide, butted or mitred."""
    plan = _bordered(corners, count, width)
    strips = " ".join(f"{name.capitalize()}: {text}." for name, text in _border_strips(plan.border_lines()))
    words = (
        f"A top of {_both(plan.top_size)} in, {count} border{'s' * (count > 1)} of "
        f"{lengths.text(width)} in, {corners}: {_size(plan)} in. {strips}"
    )
    return Shown(plan_picture(plan, "", ROLES, alt=words), words)


SASH = Length("sash", "Finished sashing", "1", "3", "1/8", "1 1/2")
DEMO = Demo(
    "Sashing on point",
    model,
    (SASH, Whole("across", "Blocks across", 2, 8, 3), Choice("stones", "Sashing", (WITH, WITHOUT), WITH)),
    height=600,
)
FIRST = Demo("Where the edge runs", first_model, (SASH,), height=480)
FRAMES = Demo(
    "Strips that end at 45 degrees",
    frames_model,
    (
        Length("short", "Strips cut shorter by", "0", "2", "1/8", "0"),
        Length("frame", "Finished frame", "1/2", "3", "1/4", FRAMED[0]),
    ),
    height=420,
)
BORDERS = Demo(
    "Borders",
    borders_model,
    (
        Choice("corners", "The corners are", (SIDES, ENDS, MITRED), SIDES),
        Length("width", "Finished border", "1", "6", "1/4", "3"),
        Whole("count", "Borders", 1, 3, 2),
    ),
    height=560,
)
app, first_look, frames, borders = DEMO.app, FIRST.app, FRAMES.app, BORDERS.app


def straight_sashing(across=3, down=4, sash="1 1/2"):
    """Straight blocks with sashing in strips, with cornerstones, and all round, on one scale: a Still."""
    from .. import settings

    ways = {"Strips": {"cornerstones": False}, "Cornerstones": {}, "All round": {"all_round": True}}
    plans = {name: settings.straight(across, down, _nine(), sashing=sash, **way) for name, way in ways.items()}
    pictures = [
        plan_picture(plan, name, ROLES, caption=_counts(plan).replace(", ", ",\n")) for name, plan in plans.items()
    ]
    words = f"{across} by {down} blocks of {lengths.text(BLOCK)} in, sashing {sash} in. " + " ".join(
        f"{name}: {_size(plan)} in, {_counts(plan)}." for name, plan in plans.items()
    )
    return Still(beside(pictures, alt=words), words)


def all_at_once(across=2, down=2):
    """Sashing of 1, 2 and 3 in, in both edge conventions, on one scale: a Still."""
    sashes = tuple(map(Fraction, (1, 2, 3)))
    plans = {edge: [_sashed(across, down, sash, WITH, edge) for sash in sashes] for edge in EDGES}
    more = [wide.size[0] - narrow.size[0] for narrow, wide in zip(*plans.values())]
    words = (
        f"Whole cornerstones make the quilt {', '.join(map(_about, more))} in wider with sashing of "
        f"{', '.join(map(lengths.text, sashes))} in: one cornerstone's diagonal, however many blocks."
    )
    titles = {"centre": "through centres", "whole": "whole"}
    pictures = [
        plan_picture(
            plan,
            f"{lengths.text(sash)} in,\n{titles[edge]}",
            ROLES,
            measured=False,
            caption=f"{_about(plan.size[0])} in wide",
        )
        for edge, row in plans.items()
        for sash, plan in zip(sashes, row)
    ]
    return Still(beside(pictures, columns=len(sashes), alt=words), words, height=720)


def frames_at_once(frame="1 1/2"):
    """The middle of the edge of a framed quilt, its strips cut shorter and shorter, on one scale: a Still."""
    frame, shorts = lengths.parse(frame), [Fraction(k, 2) for k in range(5)]
    missing = {lengths.text(short): _missing(_trial(frame, short)) for short in shorts}
    words = (
        "Strips cut shorter leave a gap at the edge: "
        + ", ".join(f"{short} in shorter, {lengths.text(lost)} in missing" for short, lost in missing.items())
        + "."
    )
    pictures = [
        replace(
            _edge_pictures(frame, Fraction(short), words)[1],
            caption=f"{lengths.text(lost)} in missing" if lost else "nothing missing",
            title=f"{lengths.text(short)} in\nshorter" if short else "as long\nas needed",
        )
        for short, lost in zip(shorts, missing.values())
    ]
    return Still(beside(pictures, alt=words), words)


def borders_at_once(width=4):
    """Two borders butted with the side strips first, with the end strips first, and mitred: a Still."""
    width = lengths.parse(width)
    plans = {corners: _bordered(corners, 2, width) for corners in (SIDES, ENDS, MITRED)}
    strips = {
        corners: "; ".join(f"{name}, {text}" for name, text in _border_strips(plan.border_lines()))
        for corners, plan in plans.items()
    }
    words = "The finished size is the same; the strips are not. " + " ".join(
        f"{corners.capitalize()}: {text}." for corners, text in strips.items()
    )
    pictures = [plan_picture(plan, corners.replace(", ", ",\n"), ROLES) for corners, plan in plans.items()]
    return Still(beside(pictures, alt=words), words)


def cutting_list(across=2, down=3, sash="1 1/2", edge="whole"):
    """A sashed plan on point in words: its rows in sewing order, the steps, and what to cut."""
    plan = _sashed(across, down, lengths.parse(sash), WITH, edge)
    return "\n".join([*map(str, plan.rows()), "", *plan.steps(), "", *map(str, plan.cutting_list())])


def strips_for(width="44 3/8", height="53 1/4", borders=("2", "5"), corners=SIDES):
    """The border strips for a sewn top of this measured size, raw edge to raw edge, as text."""
    lines = _lines_for(lengths.parse(width), lengths.parse(height), borders, corners)
    head = f"Borders of {', '.join(borders)} in, {corners}, for a top that measures {width} by {height} in:"
    return "\n".join([head, *(f"  {name}: {text}" for name, text in _border_strips(lines))])


def questions():
    """The guesses before the reveals, and the puzzles after them."""
    from .. import proofs

    return {
        "guess": _edge_guess(),
        "reach": _frame_guess(),
        "stones": _stones(),
        "frame": _frame_puzzle(proofs),
        "butted": _butted(),
        "mitre": _mitre(proofs),
    }


def ask(name, reveal=None):
    """The question of that name as a widget; see `questions`."""
    return questions()[name].ask(reveal)


def guess():
    """The guess, which uncovers the first look once an answer is given."""
    return ask("guess", reveal=first_look())


def guess_frames():
    """The guess about short strips, which uncovers the frames once an answer is given."""
    frame, block = FRAMED
    first, _ = _strips(_framed(frame))
    short = lengths.ruler(Fraction(first) - block - 2 * SEAM)
    return ask("reach", reveal=frames(frame=frame, short=short))


def _edge_guess(sash=Fraction(2)):
    narrow, wide = (_sashed(3, 4, sash, WITH, edge).size[0] for edge in EDGES)
    one, answer, two = (f"{_about(width)} in" for width in (sash, wide - narrow, 2 * sash))
    return Question(
        f"Blocks on point have sashing {one} wide round them, with cornerstones. One quilt lets its edge run "
        "through the centres of the outer cornerstones, another keeps those whole. How much wider is that?",
        answer,
        choices=("not at all", one, answer, two),
        hint="On each side half a cornerstone is added. It stands on its point.",
        mistakes=(
            ("not at all", "The half cornerstones at the edge become whole: that takes room."),
            (one, "That is half a sash on each side; but the cornerstones stand on their points."),
            (two, "That is a whole sash on each side; only half a cornerstone is added there."),
        ),
        why="Half a cornerstone's diagonal on each side makes one diagonal in all.",
    )


def _frame_guess():
    frame, block = FRAMED
    first, _ = _strips(_framed(frame))
    missing = _missing(_trial(frame, Fraction(first) - block - 2 * SEAM))
    amounts = (Fraction(0), frame / 2, frame, 2 * frame)
    choices = {amount: f"{lengths.text(amount)} in" if amount else "nothing" for amount in amounts}
    return Question(
        f"Every block of {lengths.text(block)} in has a frame {lengths.text(frame)} in wide, and the frame "
        "goes on along the short sides of the side triangles. A pattern cuts those strips as long as the "
        "sides they are sewn to, and two seams. The ends are then trimmed at 45 degrees along the edge of "
        "the quilt. How much of the frame is missing there?",
        choices[missing],
        choices=tuple(choices.values()),
        hint="The inner side of the strip ends at the triangle's tip. Where does its outer side end?",
        mistakes=(
            ("nothing", "The trim runs on past the triangle's tip, and the strip must run on with it."),
            (choices[frame / 2], "The trim lies at 45 degrees: as far along as the strip is wide."),
            (choices[2 * frame], "That would be a slant at both ends; the other end is square."),
        ),
        why="At 45 degrees the outer side runs on as far as the strip is wide, and all of that is missing.",
    )


def _stones(across=3, down=4):
    centre, whole = (_sashed(across, down, Fraction(2), WITH, edge) for edge in EDGES)
    return Question(
        f"{across} by {down} blocks on point, sashing round every block, whole cornerstones at the edge. How "
        "many cornerstones?",
        whole.cornerstones,
        hint="Each row has one more than it has blocks, at their left and right points. And each column?",
        mistakes=(
            (centre.cornerstones, "Those are the ones inside; the edge has one for each block along it."),
            ((across + 1) * (down + 1), "That is the count for blocks set straight, with sashing all round."),
            (whole.sashes, "Those are the sashes."),
            (
                centre.cornerstones + 2 * centre.cornerstone_triangles,
                "That counts those on the edge twice: the edge cuts each, and it is one cornerstone.",
            ),
        ),
        why=f"{centre.cornerstones} inside and {centre.cornerstone_triangles} along the edge.",
    )


def _frame_puzzle(proofs, leg=Fraction(8), width=Fraction(2)):
    seams = float(proofs.frame_end.exact(leg=leg, width=width) - leg - width)
    return Question(
        f"A strip that finishes {lengths.text(width)} in wide is sewn to the {lengths.text(leg)} in short "
        "side of a side triangle. One end is square, the other is trimmed at 45 degrees. How long do you cut "
        "it, to the next eighth?",
        proofs.frame_end.cut(leg=leg, width=width),
        unit="in",
        close="1/16",
        hint="Draw the finished strip, move its four sides out by a seam, read its longer side.",
        mistakes=(
            (leg + 2 * SEAM, "The strip must run on past the triangle, as far as it is wide."),
            (leg + width, "The seams are missing."),
            (
                leg + width + 2 * SEAM,
                "Two seams suit square ends. The frame would just show whole, without seam at its tip.",
            ),
            (proofs.frame_both_ends.cut(leg=leg, width=width), "That strip is slanted at both ends."),
        ),
        why=f"Side, width and {seams:.4f} for the seams, up to the next eighth.",
    )


def _butted(width=Fraction(81, 2), height=Fraction(121, 2), border=Fraction(5)):
    side, end = (line.size[1] for line in _lines_for(width, height, (border,), SIDES))
    return Question(
        f"A sewn top measures {lengths.text(width)} by {lengths.text(height)} in, raw edge to raw edge. A "
        f"border that finishes {lengths.text(border)} in is butted on, its side strips first. How long are "
        "the two strips for the top and the bottom cut?",
        end,
        unit="in",
        hint="Sew the side strips on first, in your mind, and measure again.",
        mistakes=(
            (width, "That is the top alone; by then the side strips have made it wider."),
            (width + border, "There is a side strip on both sides."),
            (width + 2 * (border + 2 * SEAM), "The cut strips are that wide; seams take the rest."),
            (side, "Those are the side strips."),
        ),
        why="The top and two finished borders.",
    )


def _mitre(proofs, side=Fraction(40), width=Fraction(5)):
    seams = float(proofs.mitred_strip.exact(side=side, width=width) - side - 2 * width)
    return Question(
        f"The side of a quilt finishes {lengths.text(side)} in. A border that finishes {lengths.text(width)} "
        "in is to have mitred corners. How long is its strip cut, at the least, to the next eighth?",
        proofs.mitred_strip.cut(side=side, width=width),
        unit="in",
        close="1/8",
        hint="Both ends are slanted. How far does the outer side run on past the quilt?",
        mistakes=(
            (side + 2 * SEAM, "That is a butted strip: a mitre needs a border's width at each end."),
            (side + width + 2 * SEAM, "There is a mitre at both ends."),
            (
                side + 2 * width + 2 * SEAM,
                "That reaches the corner of the quilt; the sharp tips of the seam allowance need more.",
            ),
            (
                proofs.mitred_strip.trade("strip", side=side, width=width, seam=SEAM),
                "That is a handy rule, with inches to spare. What is the least?",
            ),
        ),
        why=f"Side, two widths and {seams:.4f} for the seams, up to the next eighth; cut more to handle it.",
    )


@lru_cache(maxsize=1)
def _nine():
    return blocks.read("B A B | A B A | B A B", size=BLOCK, name="nine-patch", fabrics={"A": "cream", "B": "navy"})


@lru_cache(maxsize=1)
def _first_plan():
    from .. import settings

    return settings.on_point(across=2, down=2, block=_nine(), sashing=1)


@lru_cache(maxsize=64)
def _sashed(across, down, sash, stones, edge):
    return _first_plan().what_if(across=across, down=down, sashing=sash, edge=edge, cornerstones=stones == WITH)


@lru_cache(maxsize=64)
def _drawn(plan):
    return plan_picture(plan, EDGES[plan.edge], ROLES)


def _framed(frame):
    from .. import settings

    return settings.on_point(across=2, down=2, block=_nine(), frame=frame, edges="framed")


@lru_cache(maxsize=256)
def _trial(frame, short):
    from .. import settings

    return settings.trial(_framed(frame), short)


def _bordered(corners, count, width):
    from .. import settings

    return settings.straight(
        across=3,
        down=5,
        block=_nine(),
        alternate="plain",
        fabrics={"alternate": "cream"},
        borders=[_border(width, corners, cloth) for cloth in CLOTHS[:count]],
    )


def _border(width, corners, fabric=None):
    from .. import settings

    return settings.border(width, mitred=corners == MITRED, fabric=fabric, first="ends" if corners == ENDS else "sides")


def _lines_for(width, height, given, corners):
    """The border lines of a cutting list for a sewn top measured raw edge to raw edge."""
    from ..root2 import root2
    from ..settings import borders as rounds

    plan = _first_plan()
    finished = tuple(root2(side - 2 * plan.seam) for side in (width, height))
    return rounds.lines(plan, finished, [_border(one, corners) for one in given])


def _border_strips(lines):
    """Each border's name, and its strips in words."""
    for side, end in zip(lines[::2], lines[1::2]):
        name = side.part.removesuffix(" side strip")
        cut = [" × ".join(_up(value) for value in line.value) for line in (side, end)]
        yield name, f"{side.count} side strips {cut[0]} in, {end.count} end strips {cut[1]} in"


def _strips(plan):
    """How long the two strips of a framed side triangle are cut, exactly, as floats."""
    return [plan.line(f"frame end strip, {which}").value[1] for which in ("first", "second")]


def _missing(tried):
    """How much of a strip is missing, to the nearest 1/16 in."""
    return lengths.ruler(tried.missing, "1/16", "nearest")


def _edge_pictures(frame, short, words):
    """The cloth as it was sewn, laid on the outline it was to have; a close-up of its middle."""
    wanted, found = _trial(frame, Fraction(0)).panel, _trial(frame, short).panel
    shift = [(one - other) / (2 - up) for up, (one, other) in enumerate(zip(wanted.size, found.size))]
    panel = found.moved(shift=shift)
    edge = [(0, float(_framed(frame).seam)), (wanted.size[0], float(_framed(frame).seam))]
    layers = [
        Shapes([outlines(wanted)[0]], "lost cloth", "cloth that is missing"),
        *fabric_layers(panel, ROLES),
        Lines(panel.seams, "seam"),
        Lines([[*loop, loop[0]] for loop in outlines(panel)], "raw edge", "raw edge"),
        Lines([edge], "finished line", "where the quilt's edge is to be"),
    ]
    whole = Picture(layers[not short :], words, "Two side triangles\nand the block between them")
    return close_up(whole, (wanted.size[0] / 2, 1.9), 2.5, 2)


def _counts(plan):
    """How many pieces the sashing takes, in words."""
    parts = (
        (plan.sashes, "sash", "sashes"),
        (plan.sashing_strips, "long strip", "long strips"),
        (plan.cornerstones, "cornerstone", "cornerstones"),
        (plan.cornerstone_triangles, "half cornerstone", "half cornerstones"),
    )
    return ", ".join(f"{count} {one if count == 1 else many}" for count, one, many in parts if count)


def _triangles(plan):
    """The squares the edge triangles are cut from, in words."""
    side, corner = (_up(plan.line(part).value[0]) for part in ("side triangle", "corner triangle"))
    return f"side triangles from squares of {side} in, corners from {corner} in"


def _size(plan):
    return _both(plan.size)


def _both(size):
    return " by ".join(map(_about, size))


def _about(value):
    return lengths.text(lengths.ruler(float(value), "1/16", "nearest"))


def _up(value):
    return lengths.text(lengths.ruler(value))
