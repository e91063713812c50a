"""Strip tests drawn: the strips as they were sewn, and how far needle and ruler are off, with how sure that is."""

from fractions import Fraction
from typing import NamedTuple

from .. import lengths, sewing
from ..draw import Lines, Marks, Measure, Picture, Words, inches
from ..draw.panels import fabric_layers
from ..seamtest import give_or_take, near

STRIPS = ("navy", "gold")
ROLES = {"navy": "blue", "gold": "yellow"}
HIGH = Fraction(5, 4)  # inches of the strips that are drawn
REACH, PITCH = 2.0, 0.42  # inches of the picture: to either side of 0, and from line to line
CROWDED = 16  # lines: with more of them the picture is so narrow that its figures would touch
LARGER = (32, 16, 8, 4, 2)  # times
FINE = "1/64"
ALONE = ", if the strips are right"  # what is said of an allowance where the total alone was measured


def sewn(cut, taken, count):
    """So many strips cut and sewn like that: a Panel."""
    strips = [sewing.patch(size=(cut, HIGH), fabric=fabric, part="strip") for fabric in STRIPS]
    return sewing.in_a_row([strips[number % 2] for number in range(count)], seam=taken)


def strips_drawn(cut, taken, count, title):
    """Sewn strips with their total and, where there is one between two seams, their centre: a Picture."""
    panel = sewn(cut, taken, count)
    total, centre = panel.size[0], float(cut - 2 * taken)
    layers = [*fabric_layers(panel, ROLES), Lines(panel.seams, "seam")]
    said_total, said_centre = (
        lengths.text(one, mark="in") for one in (count * cut - 2 * (count - 1) * taken, cut - 2 * taken)
    )
    layers.append(Measure((0, 0), (total, 0), said_total, away=-14))
    if count > 2:
        start = float(cut - taken)
        high = float(HIGH)
        layers.append(Measure((start, high), (start + centre, high), said_centre, away=14))
    said = f"{title}: {count} strips, {said_total} in all, {said_centre} from seam to seam."
    return Picture(layers, said, title)


def fine(value):
    """A length as a seam test tells it, to the nearest 1/64 in."""
    return inches(value, FINE)


class Off(NamedTuple):
    """Whose measure it is, how far off it is, give or take how much, whether it was measured at all, and what it holds
    under."""

    name: str
    by: Fraction
    within: Fraction
    measured: bool = True
    only: str = ""

    @property
    def told(self):
        """Whether it is further off than the reading may be."""
        return abs(self.by) > self.within


def off_drawn(named):
    """How far off the allowance and the strip of each of these named strip tests are, a line each, with how far the
    reading may be off: two Pictures of one scale, so many times larger than life as their captions say."""
    needles = [
        Off(name, test.needle, test.taken_within, only="" if test.centre is not None else ALONE) for name, test in named
    ]
    rulers = [Off(name, test.ruler, test.cut_within, test.centre is not None) for name, test in named]
    times = times_larger(abs(one.by) + one.within for one in (*needles, *rulers))
    return [
        _lines_drawn(needles, times, "What an allowance takes", ("too little", "too much")),
        _lines_drawn(rulers, times, "How wide the strips are", ("too narrow", "too wide")),
    ]


def times_larger(errors):
    """How many times larger these errors (inches, either way) are drawn, so that all of them are in the picture."""
    most = max(map(abs, errors))
    return next((times for times in LARGER if most * times <= REACH), 1)


def _lines_drawn(rows, times, title, sides):
    """One of the two pictures: a line for each of the rows."""
    layers = [*frame(len(rows), times, sides), *_marked(rows, times)]
    most = max(REACH, *(float(abs(one.by) + one.within) * times for one in rows))
    layers += [Words((-most - 0.1, -PITCH * number), one.name, anchor="end") for number, one in enumerate(rows)]
    said = "; ".join(f"{one.name}: {_said(one, sides)}" for one in rows)
    return Picture(layers, f"{title}: {said}.", title, f"errors {times} times larger")


def frame(count, times, sides, pitch=PITCH):
    """The line of no error, a few to each side of it with what they stand for, and what the sides mean, for so many
    lines, each so far below the one before."""
    low, high = -pitch * (count - 0.4), 0.25
    yield Lines([[(side, high), (side, low)] for side in (-REACH, -REACH / 2, REACH / 2, REACH)], "faint")
    yield Lines([[(0, high), (0, low)]], "guide", "as it should be")
    ticks = (-REACH, -REACH / 2, 0, REACH / 2, REACH)
    for tick in ticks if count <= CROWDED else ticks[::2]:
        yield Words((tick, low), _tick(Fraction(tick) / times), side="below")
    for side, anchor, words in zip((-0.12, 0.12), ("end", "start"), sides):
        yield Words((side, high), words, anchor=anchor, side="above")


def _marked(rows, times):
    """The bars of all rows that were measured, and their marks."""
    measured = [(number, one) for number, one in enumerate(rows) if one.measured]
    if measured:
        yield Lines([_bar(number, one, times) for number, one in measured], "outline", "give or take")
    for told, role, label in (
        (False, "kept point", "right, as far as the reading tells"),
        (True, "lost point", "off"),
    ):
        mine = [(float(one.by) * times, -PITCH * number) for number, one in measured if one.told is told]
        if mine:
            yield Marks(mine, role, label)
    for number, one in enumerate(rows):
        if not one.measured:
            yield Words((0.12, -PITCH * number), "taken as right", anchor="start")


def _bar(number, one, times):
    """The line from the least to the most that a measure may be, with its ends, at the line of this number."""
    y, low, high = -PITCH * number, float(one.by - one.within) * times, float(one.by + one.within) * times
    end = PITCH / 5
    return [(low, y - end), (low, y + end), (low, y), (high, y), (high, y + end), (high, y - end)]


def _tick(value):
    return "0" if not value else f"{'−' if value < 0 else '+'}{lengths.text(abs(value))}"


def _said(one, sides):
    if not one.measured:
        return "not measured, taken as right"
    exact = f"{near(abs(one.by))} {sides[one.by > 0]}" if one.by else "as it should be"
    return f"{exact}{one.only}, give or take {give_or_take(one.within)}"
