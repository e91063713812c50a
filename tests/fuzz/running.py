"""Cases tried in a process of their own, which another watches: `python -m tests.fuzz.running KIND SEED COUNT` is the
one, `watched` the other."""

import json
import queue
import resource
import subprocess
import sys
import threading
import traceback
import warnings
from pathlib import Path
from typing import NamedTuple

from hypothesis import HealthCheck, Phase, given, seed, settings

from . import MEGABYTES, SECONDS
from .jobs import TooSlow, limited

PATIENCE = 300  # seconds that a case may take by the clock, for a busy machine is no fault
MOST_AT_ONCE = 250  # cases to a process
GIVEN_UP = r"(matplotlib|sympy|mpmath|pyparsing|ipywidgets)(\..*)?"  # as pyproject.toml says why
AT_REST = 300  # MB that a process takes with the kit loaded and no case tried


class Tried(NamedTuple):
    """A case that was tried: what it came to ("" for a finding), what went wrong, the CPU seconds of its slowest job,
    and the most memory that the process has taken so far."""

    case: str
    outcome: str
    wrong: str
    seconds: float
    megabytes: float


def tried(case, by, seconds=SECONDS):
    """One case `Tried`; a warning of Python's or NumPy's is a finding as an error is."""
    before, resting, outcome, wrong = most_memory(), memory_now(), "", ""
    try:
        with limited(seconds) as clock, warnings.catch_warnings():
            warnings.simplefilter("error")
            warnings.filterwarnings("ignore", category=DeprecationWarning, module=GIVEN_UP)
            outcome = by(case)
    except TooSlow:
        wrong = f"more than {seconds} s of CPU"
    except Exception:  # noqa: BLE001 - whatever it is, it is a finding
        wrong = "".join(traceback.format_exc().splitlines(keepends=True)[-8:])
    memory = most_memory()
    taken = memory - resting + min(resting, AT_REST)  # what others left in this process is no fault of this case
    if memory > before and taken > MEGABYTES and not wrong:
        wrong = f"{taken:.0f} MB"
    return Tried(as_text(case), outcome if not wrong else "", wrong, clock.slowest, memory)


def most_memory():
    """The most memory that this process has taken so far, in MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def memory_now():
    """The memory that this process takes now, in MB; the most so far, where the system does not tell."""
    pages = Path("/proc/self/statm")
    return int(pages.read_text().split()[1]) * resource.getpagesize() / 2**20 if pages.exists() else most_memory()


def as_text(case):
    """A case as text, to be shown and kept."""
    return case if isinstance(case, str) else repr(case)


def all_tried(kind, number, count, begun=lambda case: None, done=lambda one: None):
    """So many cases of a kind, always the same for one number: `begun` is told each before, `done` after."""
    from .cases import KINDS

    cases, by = KINDS[kind]

    @seed(number)
    @settings(
        max_examples=count,
        database=None,
        deadline=None,
        derandomize=False,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(cases)
    def each(case):
        begun(as_text(case))
        done(tried(case, by))

    each()


def watched(kind, number, count):
    """Yield each case `Tried` of so many, tried in processes of their own; one that hangs or dies is a finding."""
    for first in range(0, count, MOST_AT_ONCE):
        yield from _one_process(kind, number + first, min(MOST_AT_ONCE, count - first))


def _one_process(kind, number, count):
    command = [sys.executable, "-m", f"{__package__}.running", kind, str(number), str(count)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, encoding="utf-8") as process:
        lines: queue.Queue = queue.Queue()
        threading.Thread(target=_pass_on, args=(process.stdout, lines), daemon=True).start()
        case = ""
        while True:
            try:
                line = lines.get(timeout=PATIENCE)
            except queue.Empty:
                process.kill()
                yield Tried(case, "", "it hangs", float(PATIENCE), 0.0)
                return
            if not line:
                break
            told = json.loads(line)
            if isinstance(told, str):
                case = told
            else:
                yield Tried(*told)
                case = ""
        if process.wait() and case:
            yield Tried(case, "", f"the process ended with code {process.returncode}", 0.0, 0.0)


def _pass_on(stream, lines):
    """Put every line of a stream into a queue as it comes, and "" at the end."""
    for line in stream:
        lines.put(line)
    lines.put("")


def main(arguments):
    """Try cases and print each as a line of JSON before it is tried, and what it came to after."""
    kind, number, count = arguments[0], int(arguments[1]), int(arguments[2])
    resource.setrlimit(resource.RLIMIT_AS, (4 * MEGABYTES * 2**20,) * 2)
    tell = sys.stdout

    def say(thing):
        tell.write(json.dumps(thing) + "\n")
        tell.flush()

    all_tried(kind, number, count, say, say)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
