"""A picture by matplotlib, for print, reports and the static fallback; no pyplot and no global settings."""

from io import BytesIO
from threading import RLock
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.patches import PathPatch, Rectangle
from matplotlib.path import Path
from matplotlib.patheffects import withStroke
from PIL import Image

from .page import KEY_ROW, KEY_SIZE, KEY_SWATCH, LINE_HEIGHT, PX_PER_POINT, Page, lay_out, mark_strokes, measure_parts
from .picture import Drawn, Lines, Marks, Measure, Repeat, Shapes, Words
from .roles import BLACK, TEXT, WHITE, role

PX_PER_INCH = 96
DRAWING = RLock()
"""Held by whoever draws with matplotlib: its fonts are shared, and serve one thread at a time."""
_HATCH = {"rising": "//", "falling": "\\\\", "level": "--", "upright": "||", "crossed": "xx", "dots": ".."}


def figure(
    picture: Drawn, width: float = 700, height: float | None = None, scale: float | None = None, key: bool = True
) -> Figure:
    """The picture as a matplotlib Figure of `width` px, 96 to the inch; its `alt` holds the alt text.

    >>> from quiltmath.draw import Picture, Shapes
    >>> triangle = Shapes([[(0, 0), (3, 0), (0, 3)]], "blue")
    >>> fig = figure(Picture([triangle], alt="A triangle of 3 in."), width=480)
    >>> fig.alt, float(fig.get_size_inches()[0])
    ('A triangle of 3 in.', 5.0)
    """
    page = lay_out(picture, width, height, scale, key)
    fig: Any = Figure(figsize=(page.width / PX_PER_INCH, page.height / PX_PER_INCH), facecolor=WHITE)
    fig.alt = page.alt
    axes = fig.add_axes((0, 0, 1, 1))
    paint(axes, page)
    return fig


def paint(axes: Axes, page: Page) -> None:
    """Draw a laid-out Page into axes, whose units become px, y downwards: for a page that holds more than
    pictures."""
    axes.set(xlim=(0, page.width), ylim=(page.height, 0))
    axes.axis("off")
    brush = _Brush(axes)
    for cell in page.cells:
        for layer in cell.picture.layers:
            brush.layer(layer, cell.px, None)
    for words in page.words:
        brush.words(words, words.at)
    for row in page.key:
        brush.key(*row)


def png(
    picture: Drawn,
    width: float = 700,
    height: float | None = None,
    scale: float | None = None,
    key: bool = True,
    dpi: float = 144,
) -> bytes:
    """The picture as PNG bytes, of at most 128 colours: flat cloth needs no more, and a notebook stays
    small."""
    canvas = FigureCanvasAgg(figure(picture, width, height, scale, key))
    canvas.figure.set_dpi(dpi)
    with DRAWING:
        canvas.draw()
    image, out = Image.fromarray(np.asarray(canvas.buffer_rgba())).convert("RGB"), BytesIO()
    image.quantize(128, dither=Image.Dither.NONE).save(out, format="png", optimize=True, dpi=(dpi, dpi))
    return out.getvalue()


class _Brush:
    """Adds artists to one axes, each above the last."""

    def __init__(self, axes):
        self.axes, self.order = axes, 0

    def add(self, artist, clip=None):
        self.order += 1
        artist.set_zorder(self.order)
        self.axes.add_artist(artist)
        if clip is not None:
            artist.set_clip_path(clip)
        else:
            artist.set_clip_on(False)

    def layer(self, layer, px, clip):
        if isinstance(layer, Shapes):
            self.shapes(layer, px, clip)
        elif isinstance(layer, Lines):
            self.lines(px(layer.points), layer.counts, role(layer.role), clip)
        elif isinstance(layer, Marks):
            for point in px(layer.points):
                self.mark(point, role(layer.role), clip)
        elif isinstance(layer, Words):
            self.words(layer, px([layer.at])[0], clip)
        elif isinstance(layer, Measure):
            self.measure(layer, px, clip)
        elif isinstance(layer, Repeat):
            for part in layer.expanded():
                self.layer(part, px, clip)
        else:
            self.close_up(layer, px)

    def shapes(self, layer, px, clip):
        kind = layer.kind
        if not layer.counts:
            return
        shape = _closed(px(layer.points), layer.counts)
        self.filled(shape, kind, clip)
        if kind.line:
            self.add(
                PathPatch(
                    shape,
                    facecolor="none",
                    edgecolor=kind.line,
                    linewidth=_points(kind.width),
                    linestyle=_dash(kind),
                ),
                clip,
            )

    def filled(self, shape, kind, clip):
        if kind.fill:  # a hair of overlap hides the white between two fabrics
            self.add(PathPatch(shape, facecolor=kind.fill, edgecolor=kind.fill, linewidth=0.3), clip)
        if kind.hatch:
            self.add(
                PathPatch(shape, facecolor="none", edgecolor=kind.ink, linewidth=0, hatch=_HATCH[kind.hatch]),
                clip,
            )

    def lines(self, px, counts, kind, clip):
        rows = np.split(px, np.cumsum(counts)[:-1]) if counts else []
        if kind.halo:
            self.add(LineCollection(rows, colors=WHITE, linewidths=_points(kind.width + 3), capstyle="butt"), clip)
        self.add(
            LineCollection(
                rows,
                colors=kind.line,
                linewidths=_points(kind.width),
                linestyles=[_dash(kind)],
                capstyle="butt",
            ),
            clip,
        )

    def mark(self, point, kind, clip=None):
        for ends in mark_strokes(point, kind.mark):
            self.lines(np.array(ends), (len(ends),), kind, clip)

    def measure(self, layer, px, clip):
        start, end = px([layer.start, layer.end])
        line, ticks, spot = measure_parts(start, end, layer)
        self.add(
            LineCollection(
                [np.array(part) for part in (line, *ticks)],
                colors=TEXT[layer.colour],
                linewidths=_points(1.5),
            ),
            clip,
        )
        self.words(Words((0, 0), layer.text, colour=layer.colour), spot, clip)

    def words(self, words, at, clip=None):
        x, y = at
        if clip is not None and not clip.get_extents().contains(*self.axes.transData.transform((x, y))):
            return
        lines, size = words.text.split("\n"), words.size * PX_PER_POINT
        step = size * LINE_HEIGHT
        top = {"middle": y - step * len(lines) / 2, "above": y - 4 - step * len(lines), "below": y + 4}[words.side]
        across = {"start": "left", "middle": "center", "end": "right"}[words.anchor]
        for row, line in enumerate(lines):
            self.order += 1
            self.axes.text(
                x,
                top + step * row + step / 2 + 0.36 * size,
                line.replace("$", r"\$"),
                ha=across,
                va="baseline",
                size=words.size,
                color=TEXT[words.colour],
                zorder=self.order,
                weight="bold" if words.bold else "normal",
                clip_on=False,
                usetex=False,  # whatever a user's own settings say: names in a picture are never LaTeX
                path_effects=[withStroke(linewidth=3, foreground=WHITE)],
            )

    def close_up(self, layer, px):
        (left, low), _, (right, top), _ = px(layer.corners)
        frame = role("spot")
        window = Rectangle(
            (left, top),
            right - left,
            low - top,
            facecolor="none",
            edgecolor=frame.line,
            linewidth=_points(frame.width),
        )
        window.set_transform(self.axes.transData)

        def near(points):
            return px(layer.seen(points))

        for part in layer.layers:
            self.layer(part, near, window)
        self.add(window)

    def key(self, x, y, name, label):
        kind, middle = role(name), y + KEY_ROW / 2
        if kind.mark:
            self.mark((x + KEY_SWATCH / 2, middle), kind)
        elif kind.fill:
            box = np.array(
                [(x, middle - 9), (x + KEY_SWATCH, middle - 9), (x + KEY_SWATCH, middle + 9), (x, middle + 9)]
            )
            self.filled(_closed(box, (4,)), kind, None)
            line = {"edgecolor": BLACK, "linewidth": _points(1), "linestyle": _dash(kind)}
            self.add(PathPatch(_closed(box, (4,)), facecolor="none", **line))
        else:
            self.lines(np.array([(x, middle), (x + KEY_SWATCH, middle)]), (2,), kind, None)
        if label:
            self.words(Words((0, 0), label, "start", size=KEY_SIZE), (x + KEY_SWATCH + 8, middle))


def _closed(px, counts):
    parts = np.split(px, np.cumsum(counts)[:-1])
    points = np.concatenate([np.vstack([part, part[:1]]) for part in parts])
    codes = np.concatenate([[Path.MOVETO] + [Path.LINETO] * (len(part) - 1) + [Path.CLOSEPOLY] for part in parts])
    return Path(points, codes)


def _points(px):
    return px / PX_PER_POINT


def _dash(kind):
    return (0, tuple(length / kind.width for length in kind.dash)) if kind.dash else "solid"
