"""Reading a sheet: its cloth is sewn once and every check looks at it; other sizes of the pattern are read the same way."""
from dataclasses import replace

from .. import making, pattern
from ..pattern.names import pieces_needed
from ..pattern.parts import PIECES
from .checks import CHECKS
from .finding import LEVELS, Review


def review(sheet):
    """Everything there is to say about a sheet before it is cut, gravest first.

    A check is left out for what an earlier one has already explained (see `checks.Check.after`). What is found in another size
    of the pattern, and not already in the first, is said with that size's name.
    """
    made = making.make(sheet)
    findings = _looked_at(made)
    for number, size in enumerate(sheet.other_size):
        findings += _new_in(_looked_at(making.make(in_size(sheet, size))), findings, sheet.place(["other_size", number]), size)
    return Review(made, tuple(sorted(findings, key=lambda finding: LEVELS.index(finding.level))))


def _looked_at(made):
    """The findings of every check on one made sheet."""
    findings = []
    for check in CHECKS:
        findings.extend(check.look(made, tuple(findings)))
    return findings


def _new_in(findings, known, place, size):
    """The findings on another size that the first size does not have as well; they point at that size's table."""
    said = {(finding.check, finding.parts) for finding in known}
    return [replace(finding, where=place, message=f"In size {size.name}: {finding.message}", mend=())
            for finding in findings if (finding.check, finding.parts) not in said]


def in_size(sheet, size):
    """The sheet with what another size of it says in place of its own.

    A count the other size does not give is not one of its faults: it is taken as enough.
    """
    changes = [(("other_size",), None)]
    changes += [(("setting", key), getattr(size, key)) for key in ("across", "down") if getattr(size, key)]
    changes.append((("finished",), None if size.finished is None else _written(size.finished)))
    for number, cut in enumerate(sheet.cut):
        if cut.part in size.counts:
            changes += [(("cut", number, "count"), size.counts[cut.part]), (("cut", number, "triangles"), None)]
        if cut.part in size.sizes:
            changes.append((("cut", number, "size"), _written(size.sizes[cut.part])))
    for name in sheet.fabric:
        changes.append((("fabric", name, "bought"), None if name not in size.bought else f"{size.bought[name]} in"))
    changed = pattern.changed(sheet, *changes)
    needed = pieces_needed(changed)
    enough = [(("cut", number, "count"), max(cut.count, -(-needed[cut.part] // PIECES[cut.cut])))
              for number, cut in enumerate(changed.cut) if cut.part not in size.counts]
    return pattern.changed(changed, *enough)


def _written(pair):
    return f"{pair[0]} in x {pair[1]} in"
