"""What is typed in the form, kept in a file beside the notebook; and the files it may load and save."""

import json
import os
from contextlib import suppress
from pathlib import Path
from typing import Any

from ..resources import save
from . import form_fields as fields
from .form_fields import KEPT, Typed

DRAFT = "pattern-draft"  # begins the names of these files
ENDING = ".toml"
PAGES = (".txt", ".pdf", ".text", ".md")


class Outside(ValueError):
    """A file that does not lie in the folder of the notebook; the message says what to type instead."""


def draft_file(name: str = "") -> str:
    """The file in which a form keeps what is typed, of a form that was begun from a sheet its own.

    >>> draft_file(), draft_file("lap-quilt")
    ('pattern-draft.json', 'pattern-draft-lap-quilt.json')
    """
    return f"{DRAFT}{f'-{name}' if name else ''}.json"


def keep(name: str, data: dict[str, Any]) -> None:
    """Keep this in the file of that name, whole or not at all."""
    save(name, json.dumps(data, default=str, indent=1).encode(), over=True)


def kept(name: str) -> dict[str, Any] | None:
    """What was kept under that name; None where nothing is, or nothing that can be read."""
    with suppress(OSError, ValueError, TypeError, AttributeError):
        data = json.loads(Path(name).read_text("utf-8"))
        return {**data, "form": _mended(data["form"]), "aside": dict(data["aside"])}
    return None


def to_load(typed: str) -> Path:
    """The file that is meant by what was typed: with its ending, where that was left out.

    >>> to_load("no-such-sheet").name
    'no-such-sheet.toml'
    """
    path = Path(typed.strip())
    return path if path.suffix or path.exists() else path.with_name(path.name + ENDING) if path.name else path


def to_save(typed: str) -> Path:
    """The file to save under; refused where it would lie outside the folder of the notebook.

    >>> to_save("trial").name
    'trial.toml'
    >>> to_save("../trial")
    Traceback (most recent call last):
    quiltmath.demos.form_kept.Outside: a sheet is saved in the notebook's folder: type a name alone, as trial.toml
    """
    path = Path(typed.strip() or "my-pattern")
    if path.suffix != ENDING:
        path = path.with_name(path.name + ENDING)
    if not Path(os.path.realpath(path)).is_relative_to(os.path.realpath(".")):
        raise Outside(f"a sheet is saved in the notebook's folder: type a name alone, as {path.name}")
    return path


def sheets_here() -> tuple[str, ...]:
    """The sheets and pages that lie beside the notebook, by name."""
    with suppress(OSError):
        return tuple(sorted(path.name for path in Path().iterdir() if path.suffix in (ENDING, *PAGES)))
    return ()


def _mended(form: Any) -> Typed:
    """A form as it was kept, with the fields that there are today."""
    return {
        group.key: [
            {**fields.blank(group), **{key: str(line[key]) for key in (*_keys(group), KEPT) if key in line}}
            for line in form.get(group.key, ())
        ]
        or [fields.blank(group)]
        for group in fields.GROUPS
    }


def _keys(group):
    return (field.key for field in group.fields)
