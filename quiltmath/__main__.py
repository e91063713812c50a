"""The commands: open, review, why."""

from __future__ import annotations

import argparse
import json
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

GO, NOT_YET, UNREADABLE = 0, 1, 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit code is 0 for go, 1 for ask or stop, 2 for what cannot be read or done."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal that has no "√" shows "?" for it
    asked = _parser().parse_args(arguments)
    try:
        return asked.run(asked)
    except BrokenPipeError:
        sys.stderr.close()
        return GO
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return UNREADABLE


def _parser():
    from . import __version__

    parser = argparse.ArgumentParser(
        prog="quiltmath",
        description="Reads a quilt pattern before anyone cuts, shows why, and gives numbers that work.",
    )
    parser.add_argument("--version", action="version", version=f"quiltmath {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    opening = commands.add_parser("open", help="open the notebooks in JupyterLab, on your own working copy")
    opening.add_argument(
        "notebook", nargs="?", default="", help="the notebook to open, by its number or name (default: the first)"
    )
    opening.add_argument("--folder", help="where your working copy is kept (default: quiltmath-notebooks)")
    opening.add_argument("--port", type=_port, help="the port to try first (default: 8888)")
    opening.add_argument("--no-browser", dest="browser", action="store_false", help="only print the address")
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
    reviewing.add_argument("--force", action="store_true", help="write over files that are there already")
    reviewing.add_argument("--schema", action="store_true", help="print the JSON Schema of a pattern sheet")
    reviewing.set_defaults(run=_review)
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


def _port(text):
    port = int(text) if text.isascii() and text.isdigit() else 0
    if not 1 <= port <= 65535:
        raise argparse.ArgumentTypeError(
            f"a port is a number from 1 to 65535; got {text[:20]!r}: write for example 8900"
        )
    return port


def _review(asked):
    from . import pattern
    from .review.many import reviewed

    if asked.schema:
        print(json.dumps(pattern.json_schema(), indent=2))
        return GO
    if not asked.sheets:
        return _refused("name at least one pattern sheet, for example: quiltmath review lap-quilt.toml")
    if asked.force and asked.save is None and asked.fix is None:
        return _refused("--force goes with --save or --fix: write for example --save report.html --force")
    if asked.teacher and asked.save is None:
        return _refused("--teacher goes with --save: write for example --save report.html --teacher")
    if asked.fix is not None and len(asked.sheets) != 1:
        return _refused(f"--fix corrects one sheet at a time; got {len(asked.sheets)}: name one sheet and one new file")
    return reviewed(asked.sheets, asked.json, asked.save, asked.force, fix=asked.fix, teacher=asked.teacher)


def _why(asked):
    from . import proofs

    if asked.proof is None:
        for proof in proofs.every():
            print(f"{proof.name:24}{proof.title}")
        return GO
    if asked.proof[:2].isdigit():
        return _refused(f"{asked.proof[:60]!r} names a notebook; open it: quiltmath open {asked.proof[:2]}")
    values = {}
    for pair in asked.values:
        name, equals, value = pair.partition("=")
        if not equals:
            return _refused(f"a quantity is written name=value, such as block=12; got {pair[:60]!r}")
        values[name] = value
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


def _open(asked):
    from .opening import CannotOpen, open_lab

    try:
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
