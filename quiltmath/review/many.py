"""Reviewing one sheet or many from the command line: what is printed as it goes, the reports, and the summary
at the end."""

import json
import sys
from typing import NamedTuple

from .. import pattern
from .finding import LEVELS, Ruler
from .reading import review
from .report import CannotSave, places, save
from .writing import printable, text

GO, NOT_YET, UNREADABLE = 0, 1, 2
NOT_READ = "not read"


class Seen(NamedTuple):
    """One sheet of many: its path, its review or None where it cannot be read, and its report or None."""

    path: str
    found: object
    report: object


def reviewed(sheets, as_json=False, wanted=None, force=False, out=None, err=None):
    """Review these sheets and print what was found; returns the exit code of the worst.

    One sheet that cannot be read, or one report that cannot be written, does not stop the others. `wanted`
    says where reports go (see `report.places`).
    """
    out, err = out or sys.stdout, err or sys.stderr
    try:
        files = [None] * len(sheets) if wanted is None else places(sheets, wanted, force)
    except CannotSave as problem:
        _refused(problem, err)
        return UNREADABLE
    seen, code = [], GO
    for path, file in zip(sheets, files):
        found = _read(path, err)
        code = max(code, UNREADABLE if found is None else GO if found.verdict == "go" else NOT_YET)
        saved = _saved(found, file, force, err)
        if found is not None and file is not None and saved is None:
            code = UNREADABLE
        seen.append(Seen(path, found, saved))
        if len(sheets) > 1 and err.isatty():
            print(printable(f"[{len(seen)}/{len(sheets)}] {path}: {_verdict(found)}"), file=err, flush=True)
        if not as_json and found is not None and (wanted is None or len(sheets) == 1):
            print(text(found), end="\n\n" if len(sheets) > 1 else "\n", file=out, flush=True)
    if as_json:
        _print_json(seen, out)
    elif len(sheets) > 1:
        print(summary(seen), file=out)
    for one in seen:
        if one.report is not None and len(sheets) == 1:
            print(printable(f"Report: {one.report}"), file=err if as_json else out)
    return code


def _read(path, err):
    """The review of one sheet, or None after saying why it cannot be read."""
    try:
        return review(pattern.read(path))
    except pattern.Unreadable as problem:
        _refused(problem, err)
        return None


def _saved(found, file, force, err):
    """The file the report went to, or None after saying why there is none."""
    if found is None or file is None:
        return None
    try:
        return save(found, file, force)
    except CannotSave as problem:
        _refused(problem, err)
        return None


def _print_json(seen, out):
    found = [one.found.as_dict() for one in seen if one.found is not None]
    if len(seen) > 1:
        print(json.dumps(found, indent=2), file=out)
    elif found:
        print(json.dumps(found[0], indent=2), file=out)


def summary(seen):
    """One line a sheet: verdict, how many things of each level, finished size, and the report where one was
    saved.

    >>> print(summary([Seen("lap.toml", None, None)]))
    Verdict   Stop  Ask  Note  Finishes                  Sheet
    not read     -    -     -  -                         lap.toml
    """
    lines = [f"{'Verdict':10}Stop  Ask  Note  {'Finishes':26}Sheet"]
    for one in seen:
        counts, size = ["-"] * 3, "-"
        if one.found is not None:
            counts = [sum(finding.level == level for finding in one.found.findings) for level in LEVELS]
            made, ruler = one.found.made, Ruler(one.found.sheet.units)
            size = ruler.sizes(made.finished) if made.finished else "cannot be sewn"
        report = f" → {one.report}" if one.report is not None else ""
        lines.append(f"{_verdict(one.found):10}{counts[0]:>4}{counts[1]:>5}{counts[2]:>6}  {size:26}{one.path}{report}")
    return "\n".join(printable(line) for line in lines)


def _verdict(found):
    return NOT_READ if found is None else found.verdict


def _refused(problem, err):
    print(f"quiltmath: {printable(str(problem))}", file=err, flush=True)
