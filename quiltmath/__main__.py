"""The commands: open, review, draft, plan, handout, why."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

GO, NOT_YET, UNREADABLE = 0, 1, 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit code is 0 for go, 1 for ask or stop, 2 for what cannot be read or done."""
    try:  # also while the rest of the kit is still being loaded
        from .output import ended_by_ctrl_c, standard_streams

        for stream in (sys.stdout, sys.stderr):
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="replace")  # a terminal that has no "√" shows "?" for it
        with ended_by_ctrl_c(), standard_streams() as out:
            code = _run(arguments)
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return UNREADABLE
    if out.trouble is not None:
        return _refused(f"standard output cannot be written ({out.trouble.strerror}): make room, or send it elsewhere")
    return code


def _run(arguments):
    try:
        asked = _parser().parse_args(arguments)
        return asked.run(asked)
    except SystemExit as ended:  # after --help, or what argparse refuses
        return ended.code
    except OSError as problem:
        named = f"{str(problem.filename)[:120]}: " if problem.filename else ""
        return _refused(f"{named}this cannot be read or written ({problem.strerror or problem})")


def _parser():
    import argparse

    from . import __version__

    parser = argparse.ArgumentParser(
        prog="quiltmath",
        description="Reads a quilt pattern before anyone cuts, shows why, and gives numbers that work.",
    )
    parser.add_argument("--version", action="version", version=f"quiltmath {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    opening = commands.add_parser(
        "open", help="open the notebooks in JupyterLab, or as pages for a class, on your own working copy"
    )
    opening.add_argument(
        "notebook", nargs="?", default="", help="the notebook to open, by its number or name (default: the first)"
    )
    opening.add_argument("--folder", help="where your working copy is kept (default: quiltmath-notebooks)")
    opening.add_argument("--port", type=_port, help="the port to try first (default: 8888, or 8866 with --class)")
    opening.add_argument("--no-browser", dest="browser", action="store_false", help="only print the address")
    opening.add_argument(
        "--class",
        dest="for_class",
        action="store_true",
        help="as plain pages without code, in large type, one section at a time",
    )
    opening.add_argument(
        "--room", action="store_true", help="with --class: let other devices in the room open the pages"
    )
    opening.set_defaults(run=_open)
    reviewing = commands.add_parser("review", help="read pattern sheets (TOML) and say go, ask or stop")
    reviewing.add_argument("sheets", nargs="*", metavar="SHEET", help="pattern sheets, .toml files")
    reviewing.add_argument(
        "--json", action="store_true", help="print the findings as JSON: one object, or a list for several sheets"
    )
    reviewing.add_argument(
        "--save",
        metavar="REPORT",
        help="write a report to hand over: report.html or report.pdf; for several sheets a folder/, or "
        "a name with {} for the name of each sheet",
    )
    reviewing.add_argument(
        "--teacher",
        action="store_true",
        help="save the teacher's copy of the report: with the lines of the sheet, the names of the checks and the "
        "commands that show why",
    )
    reviewing.add_argument(
        "--fix", metavar="NEW.toml", help="write a corrected sheet: the same design, numbers that work"
    )
    reviewing.add_argument(
        "--handout",
        metavar="PATTERN.pdf",
        help="write the whole pattern, corrected where need be, as pages to work from; the report links it",
    )
    reviewing.add_argument("--force", action="store_true", help="write over files that are there already")
    reviewing.add_argument("--schema", action="store_true", help="print the JSON Schema of a pattern sheet")
    reviewing.set_defaults(run=_review)
    _drafting(commands.add_parser("draft", help="draft a pattern sheet from the text of a printed page"))
    _planning(commands.add_parser("plan", help="plan a quilt: its size, cutting list, rows and fabric"))
    _handing(
        commands.add_parser("handout", help="print what to hand over for a sheet: the pattern and more, as one PDF")
    )
    asking = commands.add_parser("why", help="print where a number comes from, step by step")
    asking.add_argument("proof", nargs="?", help="the name of a proof (none: list them all)")
    asking.add_argument(
        "values",
        nargs="*",
        metavar="name=value",
        help="the quantities it takes, such as block=12; also unit=cm, step=1/4",
    )
    asking.add_argument("--sources", action="store_true", help="also name where such figures are printed")
    asking.set_defaults(run=_why)
    return parser


def _drafting(drafting):
    """The arguments of `draft`."""
    drafting.add_argument("pages", nargs="+", metavar="PAGE", help="the pages of one pattern in order: text or PDF")
    drafting.add_argument("--save", required=True, metavar="SHEET.toml", help="where the drafted sheet goes")
    drafting.add_argument("--force", action="store_true", help="write over a file that is there already")
    drafting.add_argument("--ask", action="store_true", help="put its questions here, one at a time")
    drafting.set_defaults(run=_draft)


def _planning(planning):
    """The arguments of `plan`."""
    planning.add_argument("kind", nargs="?", help="on-point, straight, medallion or fit (none: an example of each)")
    planning.add_argument(
        "values",
        nargs="*",
        metavar="name=value",
        help="what you wish, such as across=5 down=6 block=9 (none: list what there is)",
    )
    planning.add_argument(
        "--save",
        action="append",
        default=[],
        metavar="FILE",
        help="write plan.toml, its sheet, or plan.pdf, its handout",
    )
    planning.add_argument("--choose", type=_number, default=1, metavar="N", help="which layout of a fit (default: 1)")
    _printing(planning)
    planning.set_defaults(run=_plan)


def _handing(handing):
    """The arguments of `handout`."""
    handing.add_argument("sheet", nargs="?", metavar="SHEET", help="a pattern sheet, a .toml file")
    handing.add_argument("--save", required=True, metavar="FILE.pdf", help="where the handout goes")
    handing.add_argument(
        "--only", metavar="PARTS", help="the parts it shall have, parted by commas (a wrong one lists them)"
    )
    _printing(handing)
    handing.set_defaults(run=_handout)


def _printing(command):
    """What every command that prints pages takes."""
    command.add_argument("--paper", metavar="A4|Letter", help="the paper (default: the usual one of your country)")
    command.add_argument("--force", action="store_true", help="write over files that are there already")


def _number(text):
    from argparse import ArgumentTypeError

    if not (text.isascii() and text.isdigit() and len(text) < 7):
        raise ArgumentTypeError(f"the number of a layout is a whole number; got {text[:20]!r}: write for example 1")
    return int(text)


def _port(text):
    from argparse import ArgumentTypeError

    port = int(text) if text.isascii() and text.isdigit() else 0
    if not 1 <= port <= 65535:
        raise ArgumentTypeError(f"a port is a number from 1 to 65535; got {text[:20]!r}: write for example 8900")
    return port


def _review(asked):
    import json

    from . import pattern
    from .review.many import reviewed

    if asked.schema:
        print(json.dumps(pattern.json_schema(), indent=2))
        return GO
    if not asked.sheets:
        return _refused("name at least one pattern sheet, for example: quiltmath review lap-quilt.toml")
    if asked.force and asked.save is None and asked.fix is None and asked.handout is None:
        return _refused("--force goes with --save, --fix or --handout: write for example --save report.html --force")
    if asked.teacher and asked.save is None:
        return _refused("--teacher goes with --save: write for example --save report.html --teacher")
    if asked.fix is not None and len(asked.sheets) != 1:
        return _refused(f"--fix corrects one sheet at a time; got {len(asked.sheets)}: name one sheet and one new file")
    hand_over = None
    if asked.handout is not None:
        if len(asked.sheets) != 1:
            return _refused(f"--handout prints one pattern at a time; got {len(asked.sheets)} sheets: name one")
        from functools import partial

        from .handout.commands import pages_of

        hand_over = partial(pages_of, save=asked.handout, force=asked.force)
    return reviewed(
        asked.sheets,
        asked.json,
        asked.save,
        asked.force,
        fix=asked.fix,
        teacher=asked.teacher,
        hand_over=hand_over,
    )


def _draft(asked):
    from .pattern.drafting.command import draft_command

    return draft_command(asked.pages, asked.save, asked.force, asked.ask)


def _plan(asked):
    from .handout.commands import plan_command

    return plan_command(asked.kind, asked.values, asked.save, asked.choose, asked.paper, asked.force)


def _handout(asked):
    from .handout.commands import handout_command

    only = [name.strip() for name in (asked.only or "").split(",") if name.strip()]
    return handout_command(asked.sheet, asked.save, only, asked.paper, asked.force)


def _why(asked):
    from . import proofs

    if asked.proof is None:
        for proof in proofs.every():
            print(f"{proof.name:24}{proof.title}")
        return GO
    if asked.proof[:2].isdigit():
        return _refused(f"{asked.proof[:60]!r} names a notebook; open it: quiltmath open {asked.proof[:2]}")
    try:
        values = _quantities(asked.values)
    except ValueError as problem:
        return _refused(str(problem))
    try:
        proof = proofs.find(asked.proof)
    except ValueError as problem:
        return _refused(f"{problem} (as does the command quiltmath why, alone)")
    try:
        print(proof.printed(**values))
    except ValueError as problem:
        takes = " ".join(f"{quantity.name}=…" for quantity in proof.quantities if quantity.given)
        return _refused(f"{problem} (as a command: quiltmath why {proof.name} {takes})")
    if asked.sources:
        print(f"\n{proof.sources_named}")
    return GO


def _quantities(pairs):
    """{name: value} of what is written name=value; refused where one is not, or is given twice."""
    values = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not equals:
            raise ValueError(f"a quantity is written name=value, such as block=12; got {pair[:60]!r}")
        if name in values:
            raise ValueError(
                f"{name[:60]} is given twice, as {values[name][:60]!r} and as {value[:60]!r}: give each quantity once"
            )
        values[name] = value
    return values


def _open(asked):
    from .opening import CannotOpen, open_lab

    if asked.room and not asked.for_class:
        return _refused("--room goes with --class: write for example quiltmath open --class 04 --room")
    try:
        if asked.for_class:
            from .classroom import open_class

            return open_class(asked.notebook, asked.folder, asked.port, asked.browser, asked.room)
        return open_lab(asked.notebook, asked.folder, asked.port, asked.browser)
    except CannotOpen as problem:
        return _refused(str(problem))


def _printable(message):
    return "".join(c if c.isprintable() else "?" for c in message)


def _refused(message):
    print(f"quiltmath: {_printable(message)}", file=sys.stderr)
    return UNREADABLE


if __name__ == "__main__":
    sys.exit(main())
