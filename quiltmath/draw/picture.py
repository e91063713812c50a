"""A picture described as data: layers in inches of cloth (y upwards), each with a role; nothing is drawn
here."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from math import cos, radians, sin
from typing import Any, TypeAlias

import numpy as np

from .roles import TEXT, Role, role

Points: TypeAlias = Sequence[Any] | np.ndarray  # n × 2 inches: pairs, or an array


def turned(points: Points, degrees: float = 0.0, at: Points = (0.0, 0.0)) -> np.ndarray:
    """The n × 2 points turned anticlockwise about (0, 0), then moved by `at`.

    >>> turned([(1, 0)], 90, at=(5, 0)).round(6).tolist()
    [[5.0, 1.0]]
    """
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return np.asarray(points, float) @ np.array([[c, s], [-s, c]]) + np.asarray(at, float)


def _gather(rows, least, what):
    if isinstance(rows, np.ndarray) and rows.ndim == 3:
        counts, points = (rows.shape[1],) * len(rows), rows.reshape(-1, 2).astype(float)
    else:
        rows = [np.asarray(row, float).reshape(-1, 2) for row in rows]
        counts = tuple(len(row) for row in rows)
        points = np.concatenate(rows) if rows else np.empty((0, 2))
    if counts and min(counts) < least:
        raise ValueError(f"{what} needs {least} points or more; got {min(counts)}: leave empty ones out")
    if not np.isfinite(points).all():
        raise ValueError(f"{what} needs finite inches; got {points[~np.isfinite(points).all(1)][0]}: check the sizes")
    return points, counts


@dataclass(frozen=True, eq=False)
class Shapes:
    """Filled polygons of one role, each n × 2 inches; `label` names them in the key below the picture, `outline` the
    role of the line round each, where it is not the role's own.

    >>> Shapes([[(0, 0), (3, 0), (0, 3)]], "blue", label="navy").counts
    (3,)
    """

    polygons: Sequence[Points] | np.ndarray
    role: str
    label: str = ""
    outline: str = ""
    points: np.ndarray = field(init=False, repr=False)
    counts: tuple[int, ...] = field(init=False, repr=False)

    def __post_init__(self):
        role(self.role)
        points, counts = _gather(self.polygons, 3, "a polygon")
        object.__setattr__(self, "points", points)
        object.__setattr__(self, "counts", counts)

    @property
    def kind(self) -> Role:
        """How they are drawn."""
        own = role(self.role)
        if not self.outline:
            return own
        line = role(self.outline)
        return replace(own, line=line.line, width=line.width, dash=line.dash)


@dataclass(frozen=True, eq=False)
class Lines:
    """Open lines of one role through two points or more, in inches."""

    paths: Sequence[Points] | np.ndarray
    role: str
    label: str = ""
    points: np.ndarray = field(init=False, repr=False)
    counts: tuple[int, ...] = field(init=False, repr=False)

    def __post_init__(self):
        role(self.role)
        points, counts = _gather(self.paths, 2, "a line")
        object.__setattr__(self, "points", points)
        object.__setattr__(self, "counts", counts)

    @property
    def kind(self) -> Role:
        """How they are drawn."""
        return role(self.role)


@dataclass(frozen=True, eq=False)
class Marks:
    """Signs of one size on the page, whatever the scale: "lost point" is a cross, "kept point" a ring."""

    points: Points
    role: str
    label: str = ""

    def __post_init__(self):
        if not role(self.role).mark:
            raise ValueError(f"marks are 'lost point' or 'kept point'; got {self.role!r}: draw it as Lines")
        object.__setattr__(self, "points", _gather([self.points], 0, "a mark")[0])


@dataclass(frozen=True)
class Words:
    """Text at a spot, of one size on the page; `anchor` says which end and `side` which side sits on the
    spot.

    >>> Words((0, 0), "A", size=9)
    Traceback (most recent call last):
    ValueError: text in a picture is 12 pt or more, so that the back of a class can read it; got 9
    """

    at: Points
    text: str
    anchor: str = "middle"
    side: str = "middle"
    size: float = 12
    colour: str = "black"
    bold: bool = False

    def __post_init__(self):
        if self.size < 12:
            raise ValueError(
                f"text in a picture is 12 pt or more, so that the back of a class can read it; got {self.size}"
            )
        for value, allowed in (
            (self.anchor, ("start", "middle", "end")),
            (self.side, ("above", "middle", "below")),
            (self.colour, tuple(TEXT)),
        ):
            if value not in allowed:
                raise ValueError(f"words are placed and coloured by {', '.join(allowed)}; got {value!r}")


@dataclass(frozen=True)
class Measure:
    """A dimension line beside start → end with its text; `away` px to its left (negative: to its right).

    >>> Measure((0, 0), (3, 0), "3 in").away
    -22
    """

    start: Points
    end: Points
    text: str
    away: float = -22
    colour: str = "black"


@dataclass(frozen=True, eq=False)
class Repeat:
    """Shapes and lines defined once and placed many times: `places` holds (x, y, degrees) rows.

    >>> block = Repeat([Shapes([[(0, 0), (1, 0), (1, 1), (0, 1)]], "blue")], [(0, 0, 0), (2, 0, 90)])
    >>> len(block.expanded()[0].polygons)
    2
    """

    layers: "Sequence[Shapes | Lines]"
    places: Points

    def __post_init__(self):
        others = {type(layer).__name__ for layer in self.layers} - {"Shapes", "Lines"}
        if others:
            raise ValueError(f"a repeated block is made of Shapes and Lines; got {', '.join(sorted(others))}")
        object.__setattr__(self, "layers", tuple(self.layers))
        object.__setattr__(self, "places", np.asarray(self.places, float).reshape(-1, 3))

    def expanded(self) -> "tuple[Shapes | Lines, ...]":
        """The same layers with every copy written out."""
        places = np.asarray(self.places)
        c, s = np.cos(np.radians(places[:, 2])), np.sin(np.radians(places[:, 2]))
        turns = np.stack([np.stack([c, s], 1), np.stack([-s, c], 1)], 1)

        def copies(layer):
            points = (layer.points @ turns + places[:, None, :2]).reshape(-1, 2)
            rows = np.split(points, np.cumsum(layer.counts * len(places))[:-1])
            named = {"polygons": rows} if isinstance(layer, Shapes) else {"paths": rows}
            return replace(layer, **named)

        return tuple(copies(layer) for layer in self.layers)


@dataclass(frozen=True, eq=False)
class CloseUp:
    """A square window on other layers: what lies within `reach` inches of `centre`, `times` larger, its middle `at` a
    place of the picture."""

    layers: "Sequence[Layer]"
    centre: Points
    reach: float
    times: float
    at: Points = (0.0, 0.0)

    def __post_init__(self):
        if not (self.reach > 0 and self.times > 0):
            raise ValueError(f"a close-up needs a reach and times above 0; got reach {self.reach}, times {self.times}")
        if any(type(layer) is CloseUp for layer in self.layers):
            raise ValueError("a close-up of a close-up cannot be drawn: take one close-up with larger times=")

    @property
    def corners(self) -> np.ndarray:
        """The corners of the window in the picture, from the lower left one round."""
        return _square(self.at, self.reach * self.times)

    def seen(self, points: Points) -> np.ndarray:
        """Where these points of the layers are seen in the picture."""
        return (np.asarray(points, float) - self.centre) * self.times + np.asarray(self.at, float)


@dataclass(frozen=True, eq=False)
class Handle:
    """Where a pointer can take hold of what a control moves: `spots` in inches, one for each stop of its slider.

    >>> Handle("past", [(4, 3), (4, 2.75)]).spots.tolist()
    [[4.0, 3.0], [4.0, 2.75]]
    >>> Handle("past", [(4, 3)])
    Traceback (most recent call last):
    ValueError: a handle needs 2 points or more; got 1: leave empty ones out
    """

    control: str
    spots: Points

    def __post_init__(self):
        object.__setattr__(self, "spots", _gather([self.spots], 2, "a handle")[0])


@dataclass(frozen=True, eq=False)
class Picture:
    """Layers from back to front, and one sentence with the numbers for whoever cannot see it.

    `room` are corners that must fit on the page as well: where they stay, the scale stays while a slider moves. An app
    shows the `handle`, and nothing else does.

    >>> Picture([Shapes([[(0, 0), (3, 0), (0, 3)]], "blue")], alt="")
    Traceback (most recent call last):
    ValueError: a picture needs alt text: one sentence that says what it shows, with its numbers; got ''
    """

    layers: "Sequence[Layer]"
    alt: str
    title: str = ""
    caption: str = ""
    room: Points = ()
    handle: Handle | None = None

    def __post_init__(self):
        if not self.alt.strip():
            raise ValueError(
                f"a picture needs alt text: one sentence that says what it shows, with its numbers; got {self.alt!r}"
            )
        kinds = (Shapes, Lines, Marks, Words, Measure, Repeat, CloseUp)
        others = {type(layer).__name__ for layer in self.layers if not isinstance(layer, kinds)}
        if others:
            raise ValueError(
                f"a picture is made of {', '.join(kind.__name__ for kind in kinds)}; got {', '.join(sorted(others))}"
            )
        object.__setattr__(self, "layers", tuple(self.layers))

    def with_layers(self, *more: "Layer") -> "Picture":
        """The same picture with more layers on top."""
        return replace(self, layers=(*self.layers, *more))


@dataclass(frozen=True, eq=False)
class Board:
    """Several pictures side by side at one scale, `columns` to a row; made by `beside`."""

    pictures: tuple[Picture, ...]
    alt: str
    columns: int
    title: str = ""


Layer: TypeAlias = Shapes | Lines | Marks | Words | Measure | Repeat | CloseUp
Drawn: TypeAlias = Picture | Board


def _square(middle, half):
    return np.asarray(middle, float) + np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * half


def beside(pictures: Iterable[Picture], columns: int | None = None, alt: str = "", title: str = "") -> Board:
    """Pictures side by side at one scale; more than a row of them is a table of small multiples.

    >>> one = Picture([Shapes([[(0, 0), (3, 0), (0, 3)]], "blue")], alt="A triangle of 3 in.")
    >>> beside([one, one], title="Twins").alt
    'Twins: A triangle of 3 in. A triangle of 3 in.'
    """
    pictures = tuple(pictures)
    if not pictures:
        raise ValueError("side by side needs one picture or more; got none")
    words = alt or (f"{title}: " if title else "") + " ".join(picture.alt for picture in pictures)
    return Board(pictures, words, columns or len(pictures), title)


def close_up(picture: Picture, at: Points, reach: float, times: float, letter: str = "A") -> tuple[Picture, Picture]:
    """The picture with a lettered frame round one spot, and a second picture of that spot, `times` larger.

    `reach` is half the side of the frame, in inches. Put the two side by side with `beside`.

    >>> whole = Picture([Shapes([[(0, 0), (3, 0), (0, 3)]], "blue")], alt="A triangle of 3 in.")
    >>> close_up(whole, (3, 0), 0.5, 4)[1].title
    'A, 4 times larger'
    """
    x, y = (float(value) for value in at)
    left, right, low, high = x - reach, x + reach, y - reach, y + reach
    frame = Lines([[(left, low), (right, low), (right, high), (left, high), (left, low)]], "spot")
    marked = picture.with_layers(frame, Words((left, high), letter, anchor="end", side="above", bold=True))
    near = CloseUp(picture.layers, (x, y), float(reach), float(times))
    alt = f"Close-up {letter}, {times:g} times larger, of: {picture.alt}"
    return marked, Picture([near], alt, title=f"{letter}, {times:g} times larger")


def with_close_up(
    picture: Picture, spot: Points, reach: float, times: float, at: Points, layers: "Sequence[Layer]" = ()
) -> Picture:
    """The picture with a frame round one spot and, in the same picture with its middle `at` another place, what lies in
    that frame, `times` larger; two lines lead from the one to the other. It shows `layers`, if not the picture's own.

    >>> whole = Picture([Shapes([[(0, 0), (3, 0), (0, 3)]], "blue")], alt="A triangle of 3 in.")
    >>> near = with_close_up(whole, (3, 0), 0.5, 4, at=(6, 1)).layers[-1]
    >>> near.corners[0].tolist(), near.seen((3, 0)).tolist()
    ([4.0, -1.0], [6.0, 1.0])
    """
    near = CloseUp(layers or picture.layers, tuple(map(float, spot)), float(reach), float(times), at)
    frame, (right, up) = _square(near.centre, near.reach), np.subtract(near.at, near.centre)
    side = (0 if up < 0 else 2) if abs(up) > abs(right) else (1 if right > 0 else 3)  # of the frame, as corners go
    links = [[frame[side + one - 4], near.corners[side - one - 1]] for one in (0, 1)]
    return picture.with_layers(Lines([[*frame, frame[0]], *links], "spot"), near)
