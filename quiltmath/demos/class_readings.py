"""The readings of a class: ten strip tests typed or pasted, and shown together."""

from collections import deque

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
    words = " ".join([read.sentence, *_together(read)])
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
    """The class sheet as a widget, to be the last line of a cell."""
    from .class_app import ClassApp

    _opened.append(ClassApp(sheet, STEPS, reading, drawn, _tables, not_read))
    return _opened[-1]


def to_do():
    """What each of the class is to do, by the class sheet that was opened last, as a widget that follows it, to be the
    last line of another cell."""
    return (_opened[-1] if _opened else app()).told


_opened: deque = deque(maxlen=1)


def who_does_what(sheet=SHEET, reading=STEPS[1]):
    """What is to be done, machine first, then ruler, then measure, and by whom of a class: a Table.

    >>> print(who_does_what("Ana, 3 1/2, 1\\nBo, 3 5/16, 15/16\\nCleo, 3 1/2, 1").text())
    Ana, Bo, Cleo
        to do: Change nothing at the machine.
    Bo
        to do: Before you cut more, look again how the ruler lies on the fabric.
    """
    read = _read(sheet, reading)
    of_each = [(one.name, [*one.test.changes, ""]) for one in read.readings]
    alike = {}
    for where in (0, 1):
        for name, changes in of_each:
            alike.setdefault(changes[where], []).append(name)
    rows = [(", ".join(names), change) for change, names in alike.items() if change]
    return Table(
        ("who", "to do"), (*rows, *((one.name, f"{one.words[:1].upper()}{one.words[1:]}.") for one in read.refused))
    )


def what_to_change(sheet=SHEET, reading=STEPS[1]):
    """What each of a class moves, and where it could not be read, what to measure again: a Table."""
    read = _read(sheet, reading)
    rows = [(one.number, one.name, one.test.found, one.test.change) for one in read.readings]
    rows += [(one.number, one.name, "could not be read", f"{one.words}.") for one in read.refused]
    return Table(("who", "found", "to do"), tuple(row[1:] for row in sorted(rows)))


def not_read(sheet):
    """What is wrong with the lines of a class sheet that cannot be read, in words; nothing where there is none.

    >>> not_read("Ana, 3 1/2, 1\\nJo, 3 1/2, 1, 1, 1 1/2")
    "Not read: reading 2, Jo: strips are counted in whole numbers; got '1 1/2': count them, for example 3."
    """
    return " ".join(f"Not read: {one.said}." for one in _read(sheet).refused)


def _tables(sheet, reading):
    return who_does_what(sheet, reading), what_to_change(sheet, reading)


def _together(read):
    """What the class comes to in the middle, in words; one reading alone has no middle."""
    middle = read.middle
    if len(read.readings) > 1:
        too = f"{seamtest.near(abs(middle))} too {'much' if middle > 0 else 'little'}"
        yield f"In the middle an allowance of the class takes {too if middle else 'what it should'}."
