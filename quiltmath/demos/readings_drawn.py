"""Strip tests drawn: the strips as they were sewn, and how far needle and ruler are off, with how sure that is."""

from fractions import Fraction

from .. import lengths, sewing
from ..draw import Lines, Marks, Measure, Picture, Words, inches
from ..draw.panels import fabric_layers

STRIPS = ("navy", "gold")
ROLES = {"navy": "blue", "gold": "yellow"}
HIGH = Fraction(5, 4)  # inches of the strips that are drawn
REACH, PITCH = 2.0, 0.42  # inches of the picture: to either side of 0, and from line to line
LARGER = (32, 16, 8, 4)  # times
FINE = "1/64"


def sewn(cut, taken, count):
    """So many strips cut and sewn like that: a Panel."""
    strips = [sewing.patch(size=(cut, HIGH), fabric=fabric, part="strip") for fabric in STRIPS]
    return sewing.in_a_row([strips[number % 2] for number in range(count)], seam=taken)


def strips_drawn(cut, taken, count, title):
    """Sewn strips with their total and, where there is one between two seams, their centre: a Picture."""
    panel = sewn(cut, taken, count)
    total, centre = panel.size[0], float(cut - 2 * taken)
    layers = [*fabric_layers(panel, ROLES), Lines(panel.seams, "seam")]
    layers.append(Measure((0, 0), (total, 0), f"{fine(total)} in", away=-14))
    if count > 2:
        start = float(cut - taken)
        high = float(HIGH)
        layers.append(Measure((start, high), (start + centre, high), f"{fine(centre)} in", away=14))
    said = f"{title}: {count} strips, {fine(total)} in in all, {fine(centre)} in from seam to seam."
    return Picture(layers, said, title)


def fine(value):
    """A length as a seam test tells it, to the nearest 1/64 in."""
    return inches(value, FINE)


def off_drawn(named):
    """How far off the allowance and the strip of each of these named strip tests are, a line each, with how far the
    reading may be off: two Pictures of one scale, so many times larger than life as their captions say."""
    times = _times([test for _, test in named])
    needles = [(name, test.needle, test.taken_within) for name, test in named]
    rulers = [(name, test.ruler, test.cut_within) for name, test in named]
    return [
        _lines_drawn(needles, times, "What an allowance\ntakes", ("too little", "too much")),
        _lines_drawn(rulers, times, "How wide the\nstrips are", ("too narrow", "too wide")),
    ]


def _times(tests):
    """How many times larger errors are drawn, so that all of them are in the picture."""
    most = max(max(abs(test.needle) + test.taken_within, abs(test.ruler) + test.cut_within) for test in tests)
    return next((times for times in LARGER if most * times <= REACH), 1)


def _lines_drawn(rows, times, title, sides):
    """One of the two pictures: a line for each (name, how far off, give or take)."""
    low = -PITCH * (len(rows) - 0.4)
    ticks = [
        (Fraction(side * step, 2) * Fraction(REACH) / times)
        for step in (0, 1, 2)
        for side in ((1, -1) if step else (1,))
    ]
    most = max(REACH, *(float(abs(off) + within) * times for _, off, within in rows))
    layers = [
        Lines([[(float(tick) * times, 0.25), (float(tick) * times, low)] for tick in ticks if tick], "faint"),
        Lines([[(0, 0.25), (0, low)]], "guide", "as it should be"),
        *(Words((float(tick) * times, low), _tick(tick), side="below") for tick in ticks),
        Words((-0.12, 0.25), sides[0], anchor="end", side="above"),
        Words((0.12, 0.25), sides[1], anchor="start", side="above"),
        Lines(
            [_bar(number, off, within, times) for number, (_, off, within) in enumerate(rows)],
            "outline",
            "give or take",
        ),
    ]
    told = [abs(off) > within for _, off, within in rows]
    spots = [(float(off) * times, -PITCH * number) for number, (_, off, _) in enumerate(rows)]
    for role, label, wanted in (
        ("kept point", "right, as far as the reading tells", False),
        ("lost point", "off", True),
    ):
        mine = [spot for spot, one in zip(spots, told) if one is wanted]
        if mine:
            layers.append(Marks(mine, role, label))
    if len(rows) > 1:
        layers += [
            Words((-most - 0.1, -PITCH * number), name, anchor="end") for number, (name, _, _) in enumerate(rows)
        ]
    said = "; ".join(f"{name}: {_said(off, within, sides)}" for name, off, within in rows)
    return Picture(layers, f"{' '.join(title.split())}: {said}.", title, f"errors {times} times larger")


def _bar(number, off, within, times):
    """The line from the least to the most that a measure may be, with its ends, at the line of this number."""
    y, low, high = -PITCH * number, float(off - within) * times, float(off + within) * times
    end = PITCH / 5
    return [(low, y - end), (low, y + end), (low, y), (high, y), (high, y + end), (high, y - end)]


def _tick(value):
    return "0" if not value else f"{'−' if value < 0 else '+'}{lengths.text(abs(value))}"


def _said(off, within, sides):
    exact = "as it should be" if not off else f"{fine(abs(off))} in {sides[off > 0]}"
    return f"{exact}, give or take {fine(within)} in"
