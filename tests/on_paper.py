"""What stands on a printed page: lines as they are drawn, in inches, and lines as they are printed, in pixels."""

import subprocess
from io import BytesIO

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import LineCollection
from matplotlib.colors import to_hex
from PIL import Image
from shapely import STRtree, box

from quiltmath.handout import Pages

DPI = 300
MM = 1 / 25.4  # inches
TRUE = 0.1 * MM  # inches: how far a line may lie from where it belongs


def drawn_lines(page, colour="#000000", width=None):
    """Every segment drawn in this colour (and width, points) on a page, n x 2 x 2 inches from its lower left corner."""
    found, dpi = [np.empty((0, 2, 2))], page.figure.dpi
    for axes in page.figure.axes:
        for lines in axes.collections:
            if not isinstance(lines, LineCollection) or to_hex(lines.get_colors()[0]) != colour:
                continue
            if width is None or abs(lines.get_linewidths()[0] - width) < 1e-9:
                paths = [axes.transData.transform(path) / dpi for path in lines.get_segments()]
                found += [np.stack([path[:-1], path[1:]], axis=1) for path in paths]
    return np.concatenate(found)


def pdf_of(page, paper):
    """The bytes of a PDF of one page."""
    pages = Pages("true size", paper)
    pages.add("test", [page])
    return pages.pdf()


def printed(pdf, number=1):
    """A page of a PDF as pdftoppm prints it: darkness from 0 to 1, rows downwards, `DPI` pixels to the inch."""
    shot = ["pdftoppm", "-r", str(DPI), "-f", str(number), "-l", str(number), "-gray", "-"]
    done = subprocess.run(shot, input=pdf, capture_output=True, check=True)
    return 1 - np.asarray(Image.open(BytesIO(done.stdout)), float) / 255


def words(pdf):
    """The text of a PDF, its lines as they stand on the page."""
    done = subprocess.run(["pdftotext", "-layout", "-", "-"], input=pdf, capture_output=True, check=True, text=False)
    return done.stdout.decode()


def read_aloud(pdf):
    """The text of a PDF in the order in which it was set, its lines one after another."""
    done = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True)
    return done.stdout.decode()


def off_line(image, at, along, reach=0.06):
    """How far, inches, the line that runs `along` (a vector) past the spot `at` (inches from the lower left) was
    printed from there: the middle of the dark on a walk across it."""
    high = image.shape[0]
    across = np.array([-along[1], along[0]]) / np.hypot(*along)
    steps = np.linspace(-reach, reach, 8 * int(reach * DPI) + 1)
    spots = np.asarray(at) + steps[:, None] * across
    x, y = spots[:, 0] * DPI - 0.5, high - spots[:, 1] * DPI - 0.5
    dark = _between(image, x, y)
    assert dark.max() > 0.5, f"no line is printed near {at}"
    return float((dark * steps).sum() / dark.sum())


def _between(image, x, y):
    """The darkness between pixels, by their four neighbours."""
    left, top = np.floor(x).astype(int), np.floor(y).astype(int)
    right, low = x - left, y - top
    upper = image[top, left] * (1 - right) + image[top, left + 1] * right
    lower = image[top + 1, left] * (1 - right) + image[top + 1, left + 1] * right
    return upper * (1 - low) + lower * low


def text_boxes(page):
    """Where each text of a page stands, px from its lower left corner: (text, box) pairs, boxes as Shapely has them."""
    renderer = FigureCanvasAgg(page.figure).get_renderer()
    for axes in page.figure.axes:
        for word in axes.texts:
            if word.get_text().strip():
                yield word.get_text(), box(*word.get_window_extent(renderer).extents)


def is_readable(page):
    """No text of a page runs into another or off the paper."""
    found = list(text_boxes(page))
    paper = box(0, 0, *page.figure.get_size_inches() * page.figure.dpi)
    assert [text for text, place in found if not paper.covers(place)] == []
    shapes = [place.buffer(-1.5) for _, place in found]
    pairs = STRtree(shapes).query(shapes, predicate="intersects").T.tolist()
    assert [(found[one][0], found[other][0]) for one, other in pairs if one < other] == []
