"""A picture as one SVG string for the live view: a path per fabric, a repeated block written once and started
at every place."""

from hashlib import sha1
from html import escape

import numpy as np

from .page import KEY_ROW, KEY_SIZE, KEY_SWATCH, LINE_HEIGHT, PX_PER_POINT, Page, lay_out, mark_strokes, measure_parts
from .picture import Drawn, Lines, Marks, Measure, Repeat, Shapes, Words, turned
from .roles import BLACK, TEXT, WHITE, role

# Broken strokes: a whole line across a patch would be taken for a seam.
_HATCH = {
    "rising": '<path d="M1.5 5.5L5.5 1.5M7.5 11.5L11.5 7.5" stroke="{ink}" stroke-width="1.5"/>',
    "falling": '<path d="M1.5 1.5L5.5 5.5M7.5 7.5L11.5 11.5" stroke="{ink}" stroke-width="1.5"/>',
    "level": '<path d="M1 3H6M7 9H12" stroke="{ink}" stroke-width="1.5"/>',
    "upright": '<path d="M3 1V6M9 7V12" stroke="{ink}" stroke-width="1.5"/>',
    "crossed": '<path d="M1.5 1.5L5.5 5.5M1.5 5.5L5.5 1.5M7.5 7.5L11.5 11.5M7.5 11.5L11.5 7.5" stroke="{ink}" '
    'stroke-width="1.5"/>',
    "dots": '<circle cx="3" cy="3" r="1.6" fill="{ink}"/><circle cx="9" cy="9" r="1.6" fill="{ink}"/>',
}
_TILE = 12  # px from one stroke of a hatch to its like


def svg(
    picture: Drawn,
    width: float = 700,
    height: float | None = None,
    scale: float | None = None,
    key: bool = True,
    ids: str = "",
) -> str:
    """The picture as an SVG string, white ground, alt text as its name; `ids` sets its inner names apart.

    A page can hold many pictures, and their inner names must differ: without `ids` they are made from the
    content.

    >>> from quiltmath.draw import Picture, Shapes
    >>> text = svg(Picture([Shapes([[(0, 0), (3, 0), (0, 3)]], "blue", "navy")], alt="A triangle of 3 in."))
    >>> text[:4], 'aria-label="A triangle of 3 in."' in text
    ('<svg', True)
    """
    return page_svg(lay_out(picture, width, height, scale, key), ids)


def page_svg(page: Page, ids: str = "", scaled: bool = False) -> str:
    """A page that is laid out already as an SVG string, as `svg` gives it; `scaled` it takes the width of its place.

    >>> from quiltmath.draw import Picture, Shapes, lay_out
    >>> triangle = Picture([Shapes([[(0, 0), (3, 0), (0, 3)]], "blue", "navy")], alt="A triangle of 3 in.")
    >>> page_svg(lay_out(triangle, 300)) == svg(triangle, 300)
    True
    """
    pen = _Pen()
    body = [pen.cell(cell) for cell in page.cells] + [pen.words(words) for words in page.words]
    body += [pen.key(*row) for row in page.key]
    text = "".join(body)
    defs = "".join(pen.defs)
    if defs:
        mark = ids or "q" + sha1((defs + text).encode()).hexdigest()[:8]
        defs, text = (f"<defs>{defs}</defs>".replace("\0", mark), text.replace("\0", mark))
    alt = escape(page.alt, quote=True)
    wide, high = _n(page.width), _n(page.height)
    size = "" if scaled else f'width="{wide}" height="{high}" '
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{alt}" '
        f'{size}viewBox="0 0 {wide} {high}" font-family="Verdana, DejaVu Sans, sans-serif">'
        f'<title>{alt}</title>{defs}<rect width="{wide}" height="{high}" fill="{WHITE}"/>{text}</svg>'
    )


class _Pen:
    """Collects the definitions one picture needs; "\\0" stands for the picture's own prefix until the end."""

    def __init__(self):
        self.defs, self.known = [], {}

    def define(self, key, markup):
        if key not in self.known:
            self.known[key] = f"\0{len(self.known)}"
            self.defs.append(markup.replace("\1", self.known[key]))
        return self.known[key]

    def cell(self, cell):
        return "".join(self.layer(layer, cell.px, cell.scale) for layer in cell.picture.layers)

    def layer(self, layer, px, scale):
        if isinstance(layer, (Shapes, Lines)):
            closed = isinstance(layer, Shapes)
            return self.drawn(_path(px(layer.points), layer.counts, "Z" if closed else ""), layer.kind, closed)
        if isinstance(layer, Marks):
            return "".join(self.mark(point, role(layer.role)) for point in px(layer.points))
        if isinstance(layer, Words):
            return self.words(layer, px([layer.at])[0])
        if isinstance(layer, Measure):
            return self.measure(layer, px)
        if isinstance(layer, Repeat):
            return self.repeat(layer, px, scale)
        return self.close_up(layer, px, scale)

    def drawn(self, d, kind, closed):
        if not closed:
            return _stroked(d, kind)
        crisp = "" if kind.line else ' shape-rendering="crispEdges"'  # no hairline between patches of one cloth
        return f'<path d="{d}" fill="{self.fill(kind)}"{_stroke(kind)}{crisp}/>'

    def fill(self, kind):
        if not kind.hatch:
            return kind.fill or "none"
        strokes = _HATCH[kind.hatch].format(ink=kind.ink)
        markup = (
            f'<pattern id="\1" width="{_TILE}" height="{_TILE}" patternUnits="userSpaceOnUse">'
            f'<rect width="{_TILE}" height="{_TILE}" fill="{kind.fill}"/>{strokes}</pattern>'
        )
        return f"url(#{self.define(('hatch', kind), markup)})"

    def repeat(self, layer, px, scale):
        """Each role of the block as one path: its outline is written once, in steps, and starts afresh at
        every place."""
        spots, flip = px(layer.places[:, :2]), (scale, -scale)
        drawn = []
        for part in layer.layers:
            d, closed = [], isinstance(part, Shapes)
            for turn in set(layer.places[:, 2].tolist()):
                copy = turned(part.points, turn) * flip
                starts = spots[layer.places[:, 2] == turn] + copy[0]
                one = "M%.2f %.2f" + _steps(copy, part.counts, "z" if closed else "")
                d.append(one * len(starts) % tuple(starts.ravel().tolist()))
            drawn.append(self.drawn("".join(d), part.kind, closed))
        return "".join(drawn)

    def close_up(self, layer, px, scale):
        (left, low), _, (right, top), _ = px(layer.corners)
        box = f'x="{_n(left)}" y="{_n(top)}" width="{_n(right - left)}" height="{_n(low - top)}"'
        name = self.define(("window", box), f'<clipPath id="\1"><rect {box}/></clipPath>')

        def near(points):
            return px(layer.seen(points))

        inner = "".join(self.layer(part, near, scale * layer.times) for part in layer.layers)
        return f'<g clip-path="url(#{name})">{inner}</g><rect {box} fill="none"{_stroke(role("spot"))}/>'

    def mark(self, point, kind):
        return "".join(
            _stroked(_path(np.array(ends), (len(ends),), ""), kind) for ends in mark_strokes(point, kind.mark)
        )

    def measure(self, layer, px):
        start, end = px([layer.start, layer.end])
        line, ticks, spot = measure_parts(start, end, layer)
        d = "".join(_path(np.array(part), (2,), "") for part in (line, *ticks))
        ink = TEXT[layer.colour]
        return f'<path d="{d}" fill="none" stroke="{ink}" stroke-width="1.5"/>' + self.words(
            Words((0, 0), layer.text, colour=layer.colour), spot
        )

    def words(self, words, at=None):
        x, y = words.at if at is None else at
        size = words.size * PX_PER_POINT
        step, lines = size * LINE_HEIGHT, words.text.split("\n")
        top = {"middle": y - step * len(lines) / 2, "above": y - 4 - step * len(lines), "below": y + 4}[words.side]
        bold = ' font-weight="bold"' if words.bold else ""
        spans = "".join(
            f'<tspan x="{_n(x)}" y="{_n(top + step * row + step / 2 + 0.36 * size)}">{escape(line)}</tspan>'
            for row, line in enumerate(lines)
        )
        return (
            f'<text font-size="{size:g}" text-anchor="{words.anchor}" fill="{TEXT[words.colour]}"{bold} '
            f'stroke="{WHITE}" stroke-width="4" stroke-linejoin="round" paint-order="stroke">{spans}</text>'
        )

    def key(self, x, y, name, label):
        kind, middle = role(name), y + KEY_ROW / 2
        if kind.mark:
            swatch = self.mark((x + KEY_SWATCH / 2, middle), kind)
        elif kind.fill:
            swatch = (
                f'<rect x="{_n(x)}" y="{_n(middle - 9)}" width="{KEY_SWATCH}" height="18" '
                f'fill="{self.fill(kind)}" stroke="{BLACK}"{_dashes(kind)}/>'
            )
        else:
            swatch = _stroked(f"M{_n(x)} {_n(middle)}h{KEY_SWATCH}", kind)
        if not label:
            return swatch
        return swatch + self.words(Words((x + KEY_SWATCH + 8, middle), label, "start", size=KEY_SIZE))


def _path(px, counts, close):
    """The SVG path of many polygons or lines, built in one go: writing numbers is what takes the time."""
    shapes = {count: "M" + " ".join(["%.2f %.2f"] * count) + close for count in set(counts)}
    return "".join([shapes[count] for count in counts]) % tuple(px.ravel().tolist())


def _steps(px, counts, close):
    """The rest of that path after its first point, in steps from point to point, for any place it may start
    at."""
    ends, path, here = np.cumsum(counts), [], px[0]
    for count, end in zip(counts, ends):
        points = np.round(px[end - count : end], 2)
        if len(path):
            path.append(_path((points[0] - here)[None], (1,), "").lower())
        steps = np.diff(points, axis=0)
        path.append("l" + " ".join(["%.2f %.2f"] * len(steps)) % tuple(steps.ravel().tolist()) + close)
        here = points[0] if close else points[-1]  # closing goes back to where the shape began
    return "".join(path)


def _stroked(d, kind):
    halo = f'<path d="{d}" fill="none" stroke="{WHITE}" stroke-width="{kind.width + 3:g}"/>' if kind.halo else ""
    return halo + f'<path d="{d}" fill="none"{_stroke(kind)}/>'


def _stroke(kind):
    if not kind.line:
        return ""
    return f' stroke="{kind.line}" stroke-width="{kind.width:g}"{_dashes(kind)}'


def _dashes(kind):
    return f' stroke-dasharray="{" ".join(map(str, kind.dash))}"' if kind.dash else ""


def _n(value):
    return f"{value:.2f}".rstrip("0").rstrip(".")
