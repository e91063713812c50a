"""Where reports go: one file for each sheet, written whole or not at all, and never over another unless that
is asked for."""

import os
from io import BytesIO
from pathlib import Path

from ...pattern.reading import STANDARD_INPUT
from ...resources import CannotSave, same, save_as_named, shown
from ..writing import printable
from .as_html import html
from .contents import contents

KINDS = (".html", ".pdf")
EACH = "{}"  # stands for the name of each sheet
MOST_NAMED = 3


def places(sheets, wanted, force=False):
    """The file of each sheet's report, a list of Paths as long as `sheets`; refused where that is not plain.

    `wanted` is one file, for one sheet; a folder (it is there, or its name ends with a slash), for an HTML
    report named after each sheet; or a name with {} in it, which stands for the name of each sheet.

    >>> [place.as_posix() for place in places(["a/lap.toml", "cot.toml"], "seen/{}.pdf")]
    ['seen/lap.pdf', 'seen/cot.pdf']
    >>> places(["lap.toml", "cot.toml"], "both.html")
    Traceback (most recent call last):
    quiltmath.resources.CannotSave: 2 sheets make 2 reports, and both.html is one file: \
name a folder, such as reports/, or write {} for the name of each sheet, such as reports/{}.html
    """
    named = shown(wanted)
    if not str(wanted).strip():
        raise CannotSave("a report needs a name: write for example --save report.html")
    if str(wanted).endswith(("/", os.sep)) or os.path.isdir(wanted):
        pattern = Path(wanted) / f"{EACH}.html"
    else:
        pattern = Path(wanted)
        if len(sheets) > 1 and EACH not in pattern.name:
            raise CannotSave(
                f"{len(sheets)} sheets make {len(sheets)} reports, and {named} is one file: name a folder, "
                "such as reports/, or write {} for the name of each sheet, such as reports/{}.html"
            )
    if pattern.suffix.lower() not in KINDS:
        raise CannotSave(f"a report is an .html or a .pdf file; got {named}: write for example --save report.html")
    if EACH in str(pattern.parent):
        raise CannotSave(f"{{}} stands for the name of a sheet in the name of a file, not of a folder; got {named}")
    files = [pattern.with_name(pattern.name.replace(EACH, _stem(sheet))) for sheet in sheets]
    _refuse_twins(files)
    _refuse_taken(files, sheets, force)
    return files


def _stem(sheet):
    """The name of a sheet in the name of its report; what comes from standard input ("-") is called "sheet"."""
    return Path(sheet).stem if str(sheet) != STANDARD_INPUT else "sheet"


def _refuse_twins(files):
    """Refuse two reports under one name (names that differ in capitals only are one on many machines)."""
    seen = set()
    for file in files:
        if str(file).lower() in seen:
            raise CannotSave(
                f"two of these sheets would both be saved as {shown(file)}: review them apart, or rename one"
            )
        seen.add(str(file).lower())


def _refuse_taken(files, sheets, force):
    for file in files:
        if os.path.isdir(file):
            raise CannotSave(f"{shown(file)} is a folder: name a file in it")
        if any(same(file, sheet) for sheet in sheets):
            raise CannotSave(f"{shown(file)} is one of the sheets: give the report another name")
    there = [file for file in files if os.path.lexists(file)]
    if there and not force:
        more = f" and {len(there) - MOST_NAMED} more" if len(there) > MOST_NAMED else ""
        names = ", ".join(shown(file) for file in there[:MOST_NAMED])
        raise CannotSave(
            f"{names}{more} {'is' if len(there) == 1 else 'are'} there already: add --force to write over "
            f"{'it' if len(there) == 1 else 'them'}, or choose another name"
        )


def save(review, place, force=False, teacher=False, pages=None):
    """Write the report of a review to an .html or .pdf file, whole or not at all; over an existing one only
    by `force`; the `teacher`'s copy also has the lines of the sheet, the names of the checks and the commands. `pages`
    is the file of the printed pattern, which the report then links.

    The folder is made where it is missing. The file is written beside its place under another name, then
    moved there.
    """
    place = Path(place)
    if place.suffix.lower() not in KINDS:
        raise CannotSave(f"a report is an .html or a .pdf file; got {shown(place)}: write for example report.html")
    linked = "" if pages is None else os.path.relpath(pages, place.parent).replace(os.sep, "/")
    title, said = f"{review.verdict.upper()}: {printable(review.sheet.title)}", contents(review, teacher, linked)
    return save_as_named(place, _written(said, title, place.suffix.lower()), force)


def _written(said, title, kind):
    """The report as the bytes of an .html or a .pdf file."""
    if kind == ".html":
        return html(said, title).encode("utf-8", "replace")
    from .as_pdf import save_pdf

    file = BytesIO()
    save_pdf(said, title, file)
    return file.getvalue()
