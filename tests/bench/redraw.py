"""Key press to painted picture, in JupyterLab in headless Chromium.

`python -m tests.bench redraw [MODULE] [name=value …] [--presses N]` measures the app `MODULE.DEMO` (any
module of `quiltmath.demos`; a quilt of some 2,650 patches when none is named), and in the same run the same
polygons drawn the plain way (a figure, and `add_patch` once for each polygon), and by the page itself, without a
kernel: what a redraw costs at least. In JupyterLab, and as a page for a class.
"""

import argparse
import io
import json
import statistics
import tempfile
import time
from importlib import import_module
from itertools import islice
from pathlib import Path

from quiltmath.draw import Board, Repeat, Shapes, role
from quiltmath.draw.fitted import Place

from ..browser import lab

WARM = 2  # presses before the counting begins
WATCH = """() => {
  const channel = new MessageChannel(), pictures = 'svg, img'
  window.painted = []
  let pressed = null
  const shows = node => node.matches?.(pictures) || node.querySelector?.(pictures)
  channel.port1.onmessage = () => {
    if (pressed !== null) window.painted.push(performance.now() - pressed)
    pressed = null
  }
  document.addEventListener('keydown', () => { pressed = performance.now() }, true)
  window.watching?.disconnect()
  window.watching = new MutationObserver(async records => {
    if (pressed === null) return
    const changed = records.flatMap(
      record => record.type === 'attributes' ? [record.target] : [...record.addedNodes])
      .filter(shows)
    if (!changed.length) return
    for (const node of changed)
      for (const image of node.matches('img') ? [node] : node.querySelectorAll('img')) await image.decode()
    requestAnimationFrame(() => channel.port2.postMessage(null))
  })
  window.watching.observe(document.querySelector('.jp-Notebook'),
                          {childList: true, subtree: true, attributes: true, attributeFilter: ['src']})
}"""
IN_VIEW = """() => {
  const box = [...document.querySelectorAll('.jp-OutputArea svg[role=img], .jp-OutputArea img')].at(-1)
    .getBoundingClientRect()
  return box.top >= 0 && box.bottom <= innerHeight && box.width > 100
}"""
# The least that a redraw can cost: the page itself writes the same polygons, of the same two pictures, by turns.
FLOOR = """drawings => {
  const place = document.querySelector('.quiltmath-picture'), size = place.querySelector('svg').getAttribute('viewBox')
  const key = document.createElement('button')
  let turn = 0
  key.addEventListener('keydown', () => {
    turn = 1 - turn
    const paths = drawings[turn].map(([fill, polygons]) => {
      const d = polygons.map(one => 'M' + one.map(([x, y]) => x.toFixed(2) + ' ' + y.toFixed(2)).join('L') + 'Z')
      return `<path d="${d.join('')}" fill="${fill}" shape-rendering="crispEdges"/>`
    })
    place.innerHTML = `<svg role="img" viewBox="${size}">${paths.join('')}</svg>`
  })
  key.id = 'floor'
  key.setAttribute('data-lm-suppress-shortcuts', 'true')
  place.before(key)
}"""
HANDLE = {"app": ".quiltmath-controls input[type=range]", "floor": "#floor", "plain": ".noUi-handle"}
MADE = {
    "app": "the app",
    "floor": "the same polygons by bare JavaScript",
    "plain": "a figure, one add_patch a polygon",
}


def polygons(picture):
    """Every polygon of a picture with its fill, each copy of a repeated block written out, in reading
    order."""
    pictures = picture.pictures if isinstance(picture, Board) else (picture,)
    for index, one in enumerate(pictures):
        for layer in one.layers:
            for part in layer.expanded() if isinstance(layer, Repeat) else (layer,):
                if isinstance(part, Shapes):
                    yield from ((index, points, part.role) for points in part.polygons)


def in_px(picture):
    """The polygons by fill, in px of the page on which the app of a wide screen shows them."""
    page, fills = Place(1200, 1000).page(picture), {}
    for index, points, name in polygons(picture):
        fills.setdefault(role(name).fill, []).append(page.cells[index].px(points).tolist())
    return list(fills.items())


def slid(demo, name=""):
    """The control to move: the one of that name, or the one whose slider has the most stops; and its
    number."""
    sliders = [control for control in demo.controls if control.slider]
    chosen = [control for control in sliders if control.name == name] or [max(sliders, key=_stops)]
    return chosen[0], sliders.index(chosen[0])


def _stops(control):
    low, high, step = control.slider
    return round((high - low) / step)


def plainly(module, slider, **values):
    """The same polygons on a figure that every press draws anew, one `add_patch` each: what the bench compares with.

    Not `interact`: in a page of Voilà its Output now and then waits for ever.
    """
    import matplotlib.pyplot as plt
    from IPython.display import display
    from ipywidgets import FloatSlider, Image, IntSlider
    from matplotlib.patches import Polygon

    demo = import_module(module).DEMO
    control, _ = slid(demo, slider)
    start = demo.values(**values)

    def drawn(position):
        picture = demo.model(**{**start, control.name: control.from_slider(position)}).picture
        pieces = list(polygons(picture))
        count = 1 + max(index for index, *_ in pieces)
        figure, axes = plt.subplots(1, count, figsize=(7, 7), squeeze=False)
        for index, points, name in pieces:
            axes[0, index].add_patch(Polygon(points, facecolor=role(name).fill or "none", edgecolor="black"))
        for one in axes[0]:
            one.set_aspect("equal")
            one.autoscale_view()
        page = io.BytesIO()
        figure.savefig(page, dpi=72)
        plt.close(figure)
        return page.getvalue()

    low, high, step = control.slider
    kind = IntSlider if isinstance(step, int) else FloatSlider
    handle = kind(min=low, max=high, step=step, value=start[control.name])
    shown = Image(value=drawn(handle.value))
    handle.observe(lambda change: setattr(shown, "value", drawn(change.new)), "value")
    display(handle, shown)


def main(arguments):
    args = _read(arguments)
    lacking = lab.missing()
    if lacking:
        print(lacking)
        return 1
    demo = import_module(args.module).DEMO
    control, number = slid(demo, args.slider)
    keys = _keys(control, demo.values(**args.values)[control.name])
    count = sum(1 for _ in polygons(demo(**args.values).picture))
    cells = {
        "app": f"from {args.module} import DEMO\nDEMO.app(**{args.values!r})",
        "plain": "from tests.bench.redraw import plainly\n"
        f"plainly({args.module!r}, {control.name!r}, **{args.values!r})",
    }
    ends = ({**demo.values(**args.values), control.name: end} for end in (control.stops[0], control.stops[-1]))
    drawings = [in_px(demo.model(**values).picture) for values in ends]
    presses = {"app": args.presses, "floor": args.presses, "plain": min(args.presses, args.plain)}
    print(f"{args.module} {args.values or ''}: {count} polygons, {control.label!r} moved, key press to painted frame")
    for way, served in {"JupyterLab": lab.jupyterlab, "a page for a class": lab.classroom}.items():
        times = _measure(served, cells, drawings, presses, number, keys)
        print(f" {way}")
        for name, words in MADE.items():
            one = times[name]
            print(
                f"  {words:36} median {statistics.median(one):7.1f} ms   p95 {_p95(one):7.1f} ms   ({len(one)} presses)"
            )
        for name, words in (("floor", "times the floor"), ("plain", "times faster than the plain form")):
            over, under = ("app", name) if name == "floor" else (name, "app")
            median = statistics.median(times[over]) / statistics.median(times[under])
            print(f"  {words:36} median {median:7.2f}      p95 {_p95(times[over]) / _p95(times[under]):7.2f}")
        print(f"  burst of {args.presses} presses at once: last picture after {times['burst'][0]:.0f} ms")
    return 0


def _read(arguments):
    parser = argparse.ArgumentParser(prog="python -m tests.bench redraw", description=__doc__.split("\n")[0])
    parser.add_argument("module", nargs="?", default="tests.bench.quilt", help="a module with a DEMO")
    parser.add_argument("values", nargs="*", metavar="name=value", help="what the app opens on")
    parser.add_argument("--slider", default="", help="the name of the control to move (the one with the most stops)")
    parser.add_argument("--presses", type=int, default=30)
    parser.add_argument("--plain", type=int, default=10, help="presses of the plain form, which is slow")
    args = parser.parse_args(arguments)
    args.values = dict(value.split("=", 1) for value in args.values)
    return args


def _keys(control, value):
    """Arrow keys that move the slider at every press, to and fro between its ends; begins at `value`."""
    low, _, step = control.slider
    place, way, stops = round((float(value) - float(low)) / step), 1, _stops(control)
    while True:
        if not 0 <= place + way <= stops:
            way = -way
        place += way
        yield "ArrowRight" if way > 0 else "ArrowLeft"


def _measure(served, cells, drawings, presses, number, keys):
    """Milliseconds of each press, in one way of serving the notebooks."""
    times, keys = {}, list(islice(keys, 1 + 2 * max(presses.values()) + WARM))
    with tempfile.TemporaryDirectory() as scratch:
        notebooks = Path(scratch) / "notebooks"
        notebooks.mkdir()
        for name, source in cells.items():
            (notebooks / f"{name}.ipynb").write_text(json.dumps(_notebook(source)))
        with served(notebooks, scratch) as address, lab.chromium_running() as browser:
            page = browser.new_page(viewport=lab.VIEW)
            for name in presses:
                if name in cells:
                    _open(page, address, name)
                else:
                    page.evaluate(FLOOR, drawings)
                handle = page.locator(HANDLE[name]).nth(number if name == "app" else 0)
                handle.wait_for(timeout=60_000)
                page.wait_for_timeout(1500)
                times[name] = _presses(page, handle, keys[: presses[name] + WARM])
                if not page.evaluate(IN_VIEW):
                    raise RuntimeError(f"the picture of the {name} notebook is not in view, so it is never painted")
                if name == "app":
                    times["burst"] = [_burst(page, keys[presses[name] + WARM : 2 * presses[name] + WARM])]
    return times


def _open(page, address, name):
    if "token" in address:
        page.goto(address.replace("/?", f"/voila/render/{name}.ipynb?"), timeout=60_000)
        return
    lab.open_notebook(page, address, f"{name}.ipynb")
    lab.run_all(page)
    wrong = lab.errors(page)
    if wrong:
        raise RuntimeError(f"the {name} notebook fails: {wrong}")


def _presses(page, handle, keys):
    page.evaluate(WATCH)
    handle.focus()
    for number, key in enumerate(keys):
        page.keyboard.press(key)
        page.wait_for_function("count => window.painted.length > count", arg=number, timeout=30_000, polling=20)
        page.wait_for_timeout(150)
    return page.evaluate("() => window.painted")[WARM:]


def _burst(page, keys):
    """Milliseconds from the first of many presses to the last change of the picture."""
    page.evaluate("""() => {
      window.last = performance.now()
      new MutationObserver(() => { window.last = performance.now() })
        .observe(document.querySelector('.jp-Notebook'), {childList: true, subtree: true})
    }""")
    first = page.evaluate("() => performance.now()")
    for key in keys:
        page.keyboard.press(key)
    end = time.monotonic() + 30
    while time.monotonic() < end and page.evaluate("() => performance.now() - window.last") < 1000:
        page.wait_for_timeout(100)
    return page.evaluate("() => window.last") - first


def _p95(times):
    return sorted(times)[max(0, round(0.95 * len(times)) - 1)]


def _notebook(source):
    cell = {
        "cell_type": "code",
        "execution_count": None,
        "id": "only",
        "metadata": {},
        "outputs": [],
        "source": source,
    }
    kernel = {"display_name": "Python 3", "language": "python", "name": "python3"}
    return {"cells": [cell], "metadata": {"kernelspec": kernel}, "nbformat": 4, "nbformat_minor": 5}
