"""The readings of a class: ten strip tests typed or pasted, and shown together."""

from .. import seamtest
from ..draw import beside
from .demo import Shown
from .quarter_inch import STEPS
from .readings_drawn import off_drawn
from .table import Table

SHEET = """\
name, total, centre
Ana, 3 1/2, 1
Bo, 3 5/16, 15/16
Cleo, 3 3/8, 31/32
Dov, 3 1/4, 7/8
Ebba, 3 9/16, 1 1/32
Fritz, 3 7/16, 31/32
Gia, 3 1/2, 1 1/16
Hal, 3 3/8,
Ida, 3 5/8, 1 1/16
Jo, 3 1/2, 1 1/2"""
"""An invented class; Hal has measured no centre, and Jo hers from raw edge to raw edge."""


def drawn(sheet=SHEET, reading=STEPS[1]):
    """How far off each needle and each ruler of the class is, on one scale: a Shown."""
    read = _read(sheet, reading)
    said = (f"{one.said[:1].upper()}{one.said[1:]}." for one in read.refused)
    words = " ".join([read.sentence, *_together(read), *said])
    pictures = off_drawn([(one.name, one.test) for one in read.readings])
    alt = " ".join([words, *(picture.alt for picture in pictures)])
    return Shown(beside(pictures, alt=alt), words)


def _read(text, reading=STEPS[1]):
    """The class sheet; refused where no line of it can be read."""
    read = seamtest.class_sheet(text, reading=reading)
    if not read.readings:
        raise ValueError(f"no line of the sheet can be read; {read.refused[0].said}")
    return read


def app(sheet=SHEET, reading=STEPS[1]):
    """The class sheet as a widget, with what each of the class is to do, to be the last line of a cell."""
    from .class_app import ClassApp

    return ClassApp(sheet, STEPS, reading, drawn, what_to_change)


def what_to_change(sheet=SHEET, reading=STEPS[1]):
    """What each of a class moves, and where it could not be read, what to measure again: a Table."""
    read = _read(sheet, reading)
    rows = [(one.number, one.name, one.test.found, one.test.change) for one in read.readings]
    rows += [(one.number, one.name, "could not be read", f"{one.words}.") for one in read.refused]
    return Table(("who", "found", "to do"), tuple(row[1:] for row in sorted(rows)))


def _together(read):
    """What the class comes to in the middle, in words; one reading alone has no middle."""
    middle = read.middle
    if len(read.readings) > 1:
        too = f"{seamtest.near(abs(middle))} too {'much' if middle > 0 else 'little'}"
        yield f"In the middle an allowance of the class takes {too if middle else 'what it should'}."
