"""What the commands `plan` and `handout` print and save."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from .. import pattern, resources
from ..pattern.names import CORNER, SIDE, called, edge_names, edge_piece
from ..review import review
from ..review.writing import printable, text
from ..settings.asked import EXAMPLES, KINDS, asked, options
from .buying_and_cutting import to_buy
from .numbered import numbers
from .supplied import supplied

if TYPE_CHECKING:
    from ..review import Review

GO, NOT_YET, UNREADABLE = 0, 1, 2
KINDS_OF_FILE = (".toml", ".pdf")


def plan_command(
    kind: str | None,
    pairs: Sequence[str],
    save: Sequence[str] = (),
    choose: int = 1,
    paper_name: str | None = None,
    force: bool = False,
) -> int:
    """Plan a quilt as asked, print it, and save its sheet (.toml) or its handout (.pdf); gives the exit code."""
    if kind is None:
        return _say(*(f"quiltmath plan {name} {EXAMPLES[name]}" for name in KINDS))
    try:
        if not pairs:
            return _say(_options(kind))
        values = _values(pairs)
        _refuse_other_files(save)
        found = asked(kind, values)
        if isinstance(found, list):
            _say(_listed(found, values))
            found = _chosen(found, choose)
            _say(f"\nNumber {choose}:")
        sheet = found.sheet()
    except ValueError as problem:
        return _refused(problem)
    complete = review(supplied(review(sheet).reading).sheet)
    _say(plan_text(complete))
    return _saved(complete, save, f"quiltmath plan {kind} {' '.join(pairs)}", paper_name, force)


def handout_command(
    path: str | None, save: str, only: Sequence[str] = (), paper_name: str | None = None, force: bool = False
) -> int:
    """Save the handout of a sheet that passes, or of its correction; gives the exit code."""
    from .parts import CannotHandOver, handout, passing

    try:
        found = None if path is None else review(pattern.read(path))
    except pattern.Unreadable as problem:
        return _refused(problem)
    try:
        right = None if found is None else passing(found)
    except CannotHandOver as problem:
        return _refused(problem, NOT_YET)
    try:
        pages = handout(right, only, paper_name)
        place = pages.save(save, force)
    except ValueError as problem:
        return _refused(problem)
    return _say(*_corrected(found, right), _written(place, pages))


def pages_of(found: Review, out: TextIO, save: str, force: bool = False) -> Path | None:
    """Save the handout of a reviewed sheet, corrected where need be, and say so to `out`; gives its file, or None after
    saying why there is none."""
    from .parts import CannotHandOver, handout, passing

    try:
        right = passing(found)
        pages = handout(right)
        place = pages.save(save, force)
    except (CannotHandOver, ValueError) as problem:
        _refused(problem)
        return None
    for line in (*_corrected(found, right), _written(place, pages)):
        print(printable(line), file=out)
    return place


def plan_text(found: Review) -> str:
    """A plan in words: its size, counts, cutting list, rows and fabric."""
    from .assembly import row_words

    reading, made, said = found.reading, found.made, found.reading.ruler
    sheet, label = found.sheet, numbers(found.sheet)
    lines = [sheet.title, f"Finished size: {said.sizes(sheet.finished or made.finished)}", "", "How many"]
    lines += [f"  {made.bill[name]:>5}  {called(name)}" for name in _things(found)]
    lines += ["", "Cutting list"]
    lines += [f"  {label[need.part]:>3}  {need}" for need in made.needs.values()]
    if made.lies is not None and len(made.lies.rows) > 1:
        lines += ["", "Rows", *(f"  {row_words(made, row)}" for row in made.lies.rows)]
    lines += ["", "To buy"]
    lines += [f"  {what}: {', '.join(one for one in about if one != '-')}" for what, *about in _bought(reading)]
    if found.verdict != "go":
        lines += ["", "The review of this plan says:", text(found)]
    return "\n".join(lines)


def _bought(reading):
    """The lines of what to buy, without the list of what it is for."""
    for what, length, width, holds in to_buy(reading):
        yield what, length, f"{width} wide" if width != "-" else "-", holds if what.startswith("Ba") else "-"


def _things(found):
    """The names of what a quilt is made of: blocks, edge triangles that are built, units, pieces."""
    sheet, bill = found.sheet, found.made.bill
    edges = [
        name for kind in (SIDE, CORNER) for name in edge_names(sheet, kind) if edge_piece(sheet, name).how == "built"
    ]
    return [name for name in (*sheet.block, *edges, *sheet.unit, *(cut.part for cut in sheet.cut)) if bill[name]]


def _options(kind):
    """Every option of a kind of plan, and an example."""
    lines = [f"{name + '=':14}{holds}" for name, holds in options(kind).items()]
    return "\n".join([*lines, f"For example: quiltmath plan {kind} {EXAMPLES[kind]}"])


def _values(pairs):
    """The options as {name: value}."""
    values: dict[str, str] = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not equals:
            raise ValueError(f"an option is written name=value, such as block=9; got {pair[:60]!r}")
        if name in values:
            raise ValueError(f"{name[:40]} is given twice: say it once")
        values[name] = value
    return values


def _listed(found, values):
    """The layouts of a fit, numbered."""
    lines = [f"{number:>3}. {one}" for number, one in enumerate(found, 1)]
    if "blocks" not in values:
        lines.append("     (say which block sizes may be used: blocks=6,9,12 or blocks=6..12)")
    return "\n".join(lines)


def _chosen(found: list[Any], number: int) -> Any:
    """The plan of one of the layouts of a fit."""
    if not 1 <= number <= len(found):
        raise ValueError(f"choose one of the {len(found)} layouts listed; got {number}: write for example --choose 1")
    return found[number - 1].plan()


def _refuse_other_files(save):
    """Refuse a file that is neither a sheet nor a handout."""
    for place in save:
        if Path(place).suffix.lower() not in KINDS_OF_FILE:
            raise ValueError(
                f"a plan is saved as a sheet, .toml, or as a handout, .pdf; got {resources.shown(place)}: write for "
                "example --save plan.toml"
            )


def _saved(found, save, command, paper_name, force):
    """Save a plan as its sheet or its handout."""
    from .parts import CannotHandOver, handout

    code = GO if found.verdict == "go" else NOT_YET
    for place in save:
        try:
            if Path(place).suffix.lower() == ".toml":
                content = pattern.text(found.sheet, f"Planned by: {printable(command)}")
                _say(f"Sheet: {resources.save_as_named(place, content.encode(), force)}")
                continue
            if found.verdict != "go":
                raise CannotHandOver("a plan that its own review does not pass is not handed over: change the plan")
            pages = handout(found, paper_name=paper_name)
            _say(_written(pages.save(place, force), pages))
        except ValueError as problem:
            return _refused(problem)
    return code


def _corrected(found, right):
    """What was corrected before it was handed over, in lines."""
    return [] if right is found else ["Corrected first:", *(f"- {change}" for change in found.correction.changes)]


def _written(place, pages):
    """What is said of a handout that was saved."""
    return f"Handout: {place}, {len(pages)} page{'s' * (len(pages) != 1)} of {pages.paper.name}"


def _say(*lines):
    print("\n".join("\n".join(map(printable, line.split("\n"))) for line in lines))
    return GO


def _refused(problem, code=UNREADABLE):
    print(f"quiltmath: {printable(str(problem))}", file=sys.stderr)
    return code
