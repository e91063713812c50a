"""The commands: open, review, why."""
import argparse
import json
import sys

GO, NOT_YET, UNREADABLE = 0, 1, 2


def main(arguments=None):
    """Run one command; the exit code is 0 for go, 1 for ask or stop, 2 for what cannot be read or done."""
    parser = argparse.ArgumentParser(
        prog="quiltmath", description="Reads a quilt pattern before anyone cuts, shows why, and gives numbers that work.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    opening = commands.add_parser("open", help="open the notebooks in JupyterLab, on a working copy of your own")
    opening.add_argument("notebook", nargs="?", default="", help="the notebook to open, by its number or name")
    opening.add_argument("--folder", help="where your working copy is kept (default: quiltmath-notebooks in this folder)")
    opening.set_defaults(run=_open)
    reviewing = commands.add_parser("review", help="read pattern sheets (TOML) and say go, ask or stop")
    reviewing.add_argument("sheets", nargs="*", metavar="SHEET", help="pattern sheets, .toml files")
    reviewing.add_argument("--json", action="store_true", help="print the findings as JSON")
    reviewing.add_argument("--schema", action="store_true", help="print the JSON Schema of a pattern sheet")
    reviewing.set_defaults(run=_review)
    asking = commands.add_parser("why", help="print where a number comes from, step by step")
    asking.add_argument("proof", nargs="?", help="the name of a proof (none: list them all)")
    asking.add_argument("values", nargs="*", metavar="name=value", help="the quantities it takes, such as block=12")
    asking.set_defaults(run=_why)
    asked = parser.parse_args(arguments)
    try:
        return asked.run(asked)
    except BrokenPipeError:
        sys.stderr.close()
        return GO
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return UNREADABLE


def _review(asked):
    from . import pattern
    from .review.writing import text
    if asked.schema:
        print(json.dumps(pattern.json_schema(), indent=2))
        return GO
    if not asked.sheets:
        return _refused("name at least one pattern sheet, for example: quiltmath review lap-quilt.toml")
    worst, reports = GO, []
    for path in asked.sheets:
        found = _read_and_review(path)
        if found is None:
            worst = UNREADABLE
            continue
        worst = max(worst, GO if found.verdict == "go" else NOT_YET)
        if asked.json:
            reports.append(found.as_dict())
        else:
            print(text(found), end="\n\n" if path != asked.sheets[-1] else "\n")
    if asked.json and reports:
        print(json.dumps(reports[0] if len(asked.sheets) == 1 else reports, indent=2, ensure_ascii=False))
    return worst


def _read_and_review(path):
    """The review of one sheet, or None after saying why it cannot be read."""
    from . import pattern, review
    try:
        return review.review(pattern.read(path))
    except pattern.Unreadable as problem:
        _refused(str(problem))
        return None


def _why(asked):
    from . import proofs
    if asked.proof is None:
        for proof in proofs.all():
            print(f"{proof.name:24}{proof.title}")
        return GO
    values = {}
    for pair in asked.values:
        name, equals, value = pair.partition("=")
        if not equals:
            return _refused(f"a quantity is written name=value, such as block=12; got {pair[:60]!r}")
        values[name] = value
    try:
        print(proofs.find(asked.proof).printed(**values))
    except ValueError as problem:
        return _refused(str(problem))
    return GO


def _open(asked):
    from .opening import CannotOpen, open_lab
    try:
        return open_lab(asked.notebook, asked.folder)
    except CannotOpen as problem:
        return _refused(str(problem))


def _refused(message):
    print(f"quiltmath: {''.join(c if c.isprintable() else '?' for c in message)}", file=sys.stderr)
    return UNREADABLE


if __name__ == "__main__":
    sys.exit(main())
