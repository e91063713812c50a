"""What is wrong with a text that is no pattern sheet, in words: which rule, the value got, what to write instead."""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import TYPE_CHECKING, get_origin

from .not_sewn import instead
from .sheet import Sheet

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

SHOWN = 60  # characters of a value that a message quotes
LOOKED_AT = 1000  # characters of a line that are searched for what is wrong with it
ALIKE, VERY_ALIKE = 0.6, 0.8  # of 1: how like a key that may be meant is; where another table has the very key
IN_LISTS = "[[cut]], [[step]], [[border]] and [[other_size]]"
LINES = (
    (r"[“”„‘’]", "these are printer's quotes: type straight ones, \""),
    (r"\d,\d", "write a decimal with a point, in quotes or without: 3.5"),
    (
        r"\[[^\]\"']*[^\s\]\"']\s+[^\s\]\"']",
        'a name with blanks in it goes in quotes there too, as in [block."garden star"]',
    ),
    (r"\d\s*(\"|″|'')\s*\"", 'leave the inch marks out: "3 1/2"'),
    (r"=\s*$", "nothing is written there: leave the line out, or write a value"),
)
SAID_TWICE = (
    f"this has been said already: say it once; each line of a list has its own heading in two pairs of brackets "
    f"({IN_LISTS}), all else has one pair"
)
MEANT = {  # keys that people write, and those of the sheet
    **dict.fromkeys(("width_of_fabric", "wof", "fabric_width", "width"), "usable_width"),
    **dict.fromkeys(("yardage", "yards", "metres", "meters", "amount", "to_buy"), "bought"),
    **dict.fromkeys(("quantity", "qty", "number", "how_many"), "count"),
    **dict.fromkeys(("strip_width", "strip_height"), "strip"),
    **dict.fromkeys(("subcut", "sub_cut_width"), "sub_cut"),
    **dict.fromkeys(("trim", "trimmed_to", "square_up_to", "squared_up"), "trim_to"),
    **dict.fromkeys(("finished_size", "finishes"), "finished"),
    "seam_allowance": "seam",
    "layout": "style",
}
TYPES = {
    "int": "write a whole number without quotes, such as 12",
    "float": "write a number without quotes, such as 90",
    "bool": "write true or false, without quotes",
    "string": "write text, in double quotes",
    "list": 'write a list in square brackets, its parts in quotes, such as ["A B", "B A"]',
}


def not_toml(problem: str, line: str) -> str:
    """What a TOML parser's complaint about a line comes to, and the cure.

    >>> not_toml("Invalid value", "fabric = navy")
    'this is not TOML (Invalid value); text goes in double quotes, one "name = value" a line; got fabric = navy'
    """
    line = line.strip()[:LOOKED_AT]
    cure = 'text goes in double quotes, one "name = value" a line'
    if re.search("overwrite|twice|immutable", problem):
        cure = SAID_TWICE
    elif not re.match(r"[\w.\s-]+=\s*\"[^\"]*\"$", line):
        cure = next((cure for rule, cure in LINES if re.search(rule, line)), cure)
    return f"this is not TOML ({shown(problem, 200)}); {cure}{f'; got {shown(line)}' if line else ''}"


def said(error: Mapping[str, Any], path: Sequence[str | int]) -> str:
    """One error of a validation in words; `path` is where in the sheet it is."""
    kind, value, about = error["type"], error.get("input"), error.get("ctx", {})
    got = f"; got {shown(repr(value))}"
    if kind == "value_error":
        return str(about["error"])
    if kind == "missing":
        return "this is missing; the sheet needs it"
    if kind == "extra_forbidden":
        return _no_such_key(path)
    if kind == "literal_error":
        return f"{instead(value, str(path[-1])) or 'write ' + about['expected']}{got}"
    if kind in ("list_type", "tuple_type") and isinstance(value, dict):
        return f"this can come more than once: head it [[{path[-1]}]], with two pairs of brackets"
    if kind in ("model_type", "dict_type"):
        heading = ".".join(map(str, path))
        return (
            f'this is a table of its own: head it [{heading}], with one pair of brackets, and one "name = value" a line'
            + ("" if isinstance(value, list) else got)
        )
    if kind in ("too_short", "too_long"):
        least, most = about.get("min_length", 0), about.get("max_length")
        wanted, entries = f"{least}" if kind == "too_short" else f"at most {most}", "entry" if least == 1 else "entries"
        return f"this list has {wanted} {entries}{' or more' if most is None else ''}{got}"
    if kind in ("greater_than_equal", "less_than_equal"):
        return (
            f"write a whole number of {about.get('ge', about.get('le'))} or {'more' if 'ge' in about else 'less'}{got}"
        )
    told = TYPES.get(kind.split("_")[0])
    return f"{told or error['msg'][0].lower() + error['msg'][1:]}{got}"


def _no_such_key(path):
    """What a key that no table here has may have been meant as."""
    key, known = path[-1], known_keys(path[:-1])
    if len(path) > 1 and key in Sheet.model_fields:
        whole = known_keys([key])
        where = (
            f"as a table [{key}] of its own"
            if whole != known_keys([])
            else "at the top of the sheet, above the first [table]"
        )
        return f"{key} stands {where}, not under {'.'.join(str(one) for one in path[:-1] if isinstance(one, str))}"
    meant = MEANT.get(str(key).lower().replace("-", "_"))
    elsewhere = _headings_with(meant or key)
    alike = VERY_ALIKE if elsewhere else ALIKE
    near = [meant] if meant in known else get_close_matches(str(key).lower(), known, 1, alike)
    elsewhere = [] if near else elsewhere
    if elsewhere:
        *most, last = elsewhere
        return f"{meant or key} stands under {', '.join(most)}{' or ' * bool(most)}{last}, not here"
    return (
        f"a sheet has no such key here{f'; did you mean {near[0]}' if near else ''}"
        f"{'; it can have ' + ', '.join(known) if known else ''}"
    )


def _headings_with(key, model=Sheet, path=()):
    """The headings of the tables below this one that have a key, as they are typed: "[fabric.NAME]", "[[cut]]"."""
    found = []
    for name, field in model.model_fields.items():
        inside, outer = _model_inside(field.annotation), get_origin(field.annotation)
        if inside is None or name == "other_size":
            continue
        named = [*path, name, *(["NAME"] if outer is dict else [])]
        heading = ".".join(named)
        if key in (f.alias or n for n, f in inside.model_fields.items()):
            found.append(f"[[{heading}]]" if outer is list else f"[{heading}]")
        found += _headings_with(key, inside, named)
    return found


def known_keys(path: Sequence[str | int]) -> list[str]:
    """The keys the model knows at this place of a sheet.

    >>> known_keys(["strip_set", "outer"])
    ['strips', 'of', 'opened_above', 'sub_cut', 'sets', 'pieces']
    """
    model = Sheet
    for key in path:
        if isinstance(key, str) and key in model.model_fields:
            model = _model_inside(model.model_fields[key].annotation) or model
    return [f.alias or n for n, f in model.model_fields.items()]


def _model_inside(annotation):
    if isinstance(annotation, type) and hasattr(annotation, "model_fields"):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = _model_inside(inner)
        if found:
            return found
    return None


def shown(value: object, most: int = SHOWN) -> str:
    """A value as a message may quote it: one line, printable, cut off where it is long."""
    text = "".join(char if char.isprintable() else "?" for char in str(value))
    return text if len(text) <= most else text[: most - 1] + "…"
