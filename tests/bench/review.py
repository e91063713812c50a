"""Reviewing and reporting: `python -m tests.bench review [SHEET …]`.

Prints, as ratios within one run: the CPU time of the whole process `quiltmath review SHEET` for a sound sheet and, with
`--json`, for a stopped one, to that of a Python that imports NumPy and pydantic; the time of a report as HTML, all
that is sewn and planned for it given, to that of its pictures alone (made from the cloth, laid out and written; and
laid out and written alone); and how often sheets were sewn and fabrics planned for review, report and correction
together.
"""

import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path

from quiltmath import pattern, review
from quiltmath.resources import folder
from quiltmath.review.report import as_html
from quiltmath.review.report.contents import contents
from quiltmath.review.report.pictures import both, detail

from ..counted import counted

RUNS = 5
BARE = ("-c", "import numpy, pydantic")
SHEETS = ("faulty/no-allowance-halved-blocks.toml", "sound/library-lap-quilt.toml")


def cpu(arguments):
    """Seconds of CPU that Python takes with these arguments, children and all."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def commands(stopped, sound):
    """Each command's CPU time and its ratio to the bare imports, medians of runs taken in turn."""
    asked = {
        "import numpy, pydantic": BARE,
        f"review {sound.name}": ("-m", "quiltmath", "review", str(sound)),
        f"review {stopped.name} --json": ("-m", "quiltmath", "review", str(stopped), "--json"),
    }
    runs = [{name: cpu(arguments) for name, arguments in asked.items()} for _ in range(RUNS)]
    used = {name: statistics.median(run[name] for run in runs) for name in asked}
    bare = next(iter(used.values()))
    return {name: (seconds, seconds / bare) for name, seconds in used.items()}


def taken(work):
    """Milliseconds of CPU that some work takes."""
    before = time.process_time()
    work()
    return 1000 * (time.process_time() - before)


def pictures(parts):
    """The pictures of a report as SVG, each in its room on the page."""
    for number, part in enumerate(parts):
        if getattr(part, "picture", None) is not None:
            yield as_html.drawn(part, number)


def report(path):
    """Milliseconds, medians: a review, the quilt on the cover, the correction, the length of each fabric to buy, the
    report as HTML that follows from these, and the pictures of that report alone."""
    runs = []
    for _ in range(RUNS):
        sheet = pattern.read(path)
        found = review.review(sheet)
        meaning = taken(lambda found=found: found.cover)
        correcting = taken(lambda found=found: found.correction)
        planning = taken(lambda found=found: [found.reading.plan(name) for name in found.sheet.fabric])
        writing = taken(lambda found=found: as_html.html(contents(found), "title"))
        parts = contents(found)
        making = taken(lambda found=found: [both(found), *(detail(found, finding) for finding in found.findings)])
        drawing = taken(lambda parts=parts: list(pictures(parts)))
        reviewing = taken(lambda sheet=sheet: review.review(sheet))
        runs.append((reviewing, meaning, correcting, planning, writing, making + drawing, drawing))
    return [statistics.median(times) for times in zip(*runs)]


def main(arguments):
    sheets = [Path(name) for name in arguments] or [folder("data") / "patterns" / name for name in SHEETS]
    for name, (used, ratio) in commands(sheets[0], sheets[-1]).items():
        print(f"{name:55} {1000 * used:6.0f} ms CPU {ratio:6.2f}")
    for path in sheets:
        reviewing, meaning, correcting, planning, writing, pictured, drawing = report(path)
        print(
            f"{path.name:42} report as HTML {writing:5.1f} ms CPU, its pictures alone {pictured:5.1f}: "
            f"{writing / pictured:5.2f} times (laid out and written alone {drawing:.1f}); before it the review "
            f"{reviewing:.0f}, the quilt on the cover {meaning:.0f}, the correction {correcting:.0f}, the lengths to "
            f"buy {planning:.0f}"
        )
        with counted() as seen:
            found = review.review(pattern.read(path))
            contents(found), review.corrected(found)
        print(
            f"{'':42} {len(seen.sewn)} sheets, each sewn at most {max(seen.sewn.values())} times; "
            f"{len(seen.asked)} fabrics asked whether they will do, each at most {max(seen.asked.values(), default=0)} "
            f"times; {len(seen.planned)} planned in full, each at most {max(seen.planned.values(), default=0)} times"
        )
