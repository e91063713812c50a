"""Reviewing one sheet or many from the command line: what is printed as it goes, the reports, the corrected sheet,
and the summary at the end."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple, TextIO

from .. import pattern
from ..resources import CannotSave, same, save_as_named
from .finding import LEVELS
from .reviewing import Review, review
from .writing import printable, text

GO, NOT_YET, UNREADABLE = 0, 1, 2
NOT_READ = "not read"


class Seen(NamedTuple):
    """One sheet of many: its path, its review or None where it cannot be read, and its report or None."""

    path: str
    found: Review | None
    report: Path | None


def reviewed(
    sheets: Sequence[str],
    as_json: bool = False,
    wanted: str | None = None,
    force: bool = False,
    out: TextIO | None = None,
    err: TextIO | None = None,
    fix: str | None = None,
    teacher: bool = False,
    hand_over: Callable[[Review, TextIO], Path | None] | None = None,
) -> int:
    """Review these sheets and print what was found; returns the exit code of the worst.

    One sheet that cannot be read, or one report that cannot be written, does not stop the others. `wanted`
    says where reports go (see `report.places`), `teacher` that they are the teacher's copies. Of one sheet alone, `fix`
    says where the corrected sheet goes, and `hand_over` prints its pattern for the report to link: it gives the file,
    or None after saying why there is none.
    """
    out, err = out or sys.stdout, err or sys.stderr
    try:
        files = _places(sheets, wanted, force)
    except ValueError as problem:
        return _refused(problem, err)
    talk = err if as_json else out  # what is said besides the findings
    seen: list[Seen] = []
    code = GO
    for path, file in zip(sheets, files):
        found = _read(path, err)
        pages = None if hand_over is None or found is None else hand_over(found, talk)
        saved = _saved(found, file, force, err, teacher, pages)
        seen.append(Seen(path, found, saved))
        unwritten = (file is not None and saved is None) or (hand_over is not None and pages is None)
        code = max(code, UNREADABLE if found is None or unwritten else _code(found.verdict))
        if len(sheets) > 1 and err.isatty():
            print(printable(f"[{len(seen)}/{len(sheets)}] {path}: {_verdict(found)}"), file=err, flush=True)
        if not as_json and found is not None and (wanted is None or len(sheets) == 1):
            print(text(found), end="\n\n" if len(sheets) > 1 else "\n", file=out, flush=True)
    if as_json:
        _print_json(seen, out)
    elif len(sheets) > 1:
        print(summary(seen), file=out)
    if len(sheets) == 1 and seen[0].report is not None:
        print(printable(f"Report: {seen[0].report}"), file=talk)
    if fix is not None and code != UNREADABLE:
        code = max(code, _corrected(seen[0].path, seen[0].found, fix, force, talk, err))
    return code


def _code(verdict):
    """The exit code of a verdict."""
    return GO if verdict == "go" else NOT_YET


def _places(sheets, wanted, force):
    """The file of each sheet's report, None where no report is wanted."""
    if wanted is None:
        return [None] * len(sheets)
    from .report import places

    return places(sheets, wanted, force)


def _corrected(sheet, found, file, force, out, err):
    """Write the corrected sheet, and say what was changed and what is still missing; nothing is written where nothing
    is changed."""
    if not file.endswith(".toml") or Path(file).is_dir():
        return _refused(f"a sheet is a .toml file; got {file[:120]!r}: write for example --fix corrected.toml", err)
    if same(file, sheet):
        return _refused(f"{file[:120]} is the sheet itself: give the corrected one another name", err)
    right = found.correction
    if not right.changes:
        print(printable(f"{right.nothing} {file} is not written."), file=out)
        return GO if right.passes else NOT_YET
    try:
        save_as_named(file, right.text().encode(), force)
    except pattern.Unreadable as problem:
        return _refused(f"no corrected sheet is written: {problem}", err)
    except CannotSave as problem:
        return _refused(problem, err)
    lines = [f"Corrected: {file}", *(f"- {change}" for change in right.changes)]
    lines += [f"? {thing}" for thing in right.missing]
    print("\n".join(map(printable, lines)), file=out)
    return GO if right.passes else NOT_YET


def _read(path, err):
    """The review of one sheet, or None after saying why it cannot be read."""
    try:
        return review(pattern.read(path))
    except pattern.Unreadable as problem:
        _refused(problem, err)
        return None


def _saved(found, file, force, err, teacher, pages):
    """The file the report went to, or None after saying why there is none."""
    if found is None or file is None:
        return None
    from .report import save

    try:
        return save(found, file, force, teacher, pages)
    except CannotSave as problem:
        _refused(problem, err)
        return None


def _print_json(seen, out):
    found = [one.found.as_dict() for one in seen if one.found is not None]
    if len(seen) > 1:
        print(json.dumps(found, indent=2), file=out)
    elif found:
        print(json.dumps(found[0], indent=2), file=out)


def summary(seen: Sequence[Seen]) -> str:
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
            counts = [str(sum(finding.level == level for finding in one.found.findings)) for level in LEVELS]
            finished = one.found.made.finished
            size = one.found.reading.ruler.sizes(finished) if finished else "cannot be sewn"
        report = f" → {one.report}" if one.report is not None else ""
        lines.append(f"{_verdict(one.found):10}{counts[0]:>4}{counts[1]:>5}{counts[2]:>6}  {size:26}{one.path}{report}")
    return "\n".join(printable(line) for line in lines)


def _verdict(found):
    return NOT_READ if found is None else found.verdict


def _refused(problem, err):
    print(f"quiltmath: {printable(str(problem))}", file=err, flush=True)
    return UNREADABLE
