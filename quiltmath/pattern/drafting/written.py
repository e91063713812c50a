"""The text of a drafted sheet: TOML tables, above each the words of the page, and what is still to be said."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..names import first_few
from ..writing import toml
from . import naming
from .at_hand import items
from .layouts import too_few
from .model import LENGTHS
from .parts import fabric_names

if TYPE_CHECKING:
    from .drafted import Draft
    from .model import Entry

TOP = ("title", "units", "seam", "finished")
LISTS = ("cut", "border", "step")
NAMED = ("fabric", "strip_set", "unit", "block")
ORDER = ("fabric", "size", "strip", "length", "count", "per_print")
MOST_INSTRUCTIONS = 200
LONGEST_LINE = 1000


def _units(entries):
    """The units of the sheet: centimetres where all cut sizes are."""
    sizes = (one.data.get("size", one.data.get("strip")) for one in entries if one.table == "cut")
    texts = (text for size in sizes if size for text in (size if isinstance(size, list) else [size]))
    first = next(texts, "")  # most pages are in inches: the first text tells
    return "cm" if first.endswith("cm") and all(text.endswith("cm") for text in texts) else "in"


def _ordered(data):
    return {
        key: data[key] for key in (*(key for key in ORDER if key in data), *(key for key in data if key not in ORDER))
    }


def _table(entry, entries):
    """The values of an entry as they stand in its table."""
    data = _with_inches(_ordered(entry.data), _units(entries))
    if "fabric" in data:
        data["fabric"] = _as_listed(data["fabric"], entries)
    if entry.table == "cut":
        return {"part": entry.name, **data}
    if entry.table == "fabric" and not {"usable_width", "piece"} & {*data}:
        width = _said(entries, "usable_width")
        return {**data, "usable_width": width} if width else data
    return data


def _as_listed(fabric, entries):
    """The name of a fabric as the shopping list spells it, where that has it once."""
    listed = [one.name for one in entries if one.table == "fabric"]
    same = [name for name in listed if naming.key(name) == naming.key(fabric)]
    return same[0] if fabric not in listed and len(same) == 1 else fabric


def _said(entries, key):
    """A figure of the whole page, or nothing."""
    found = next((one.data for one in entries if one.table == "sheet" and key in one.data), None)
    return _with_inches(found, _units(entries))[key] if found else None


def _with_inches(data, units):
    """The values of a table, in a sheet of centimetres with the unit of those that are in inches."""
    if units == "in":
        return data
    return {key: _in_inches(value) if key in LENGTHS else value for key, value in data.items()}


def _in_inches(value):
    if isinstance(value, list):
        return [_in_inches(one) for one in value]
    return f"{value} in" if value[-1].isdigit() else value


def data(entries: list[Entry], instructions: Any = ()) -> dict[str, Any]:
    """The entries as the tables of a sheet."""
    found: dict[str, Any] = {key: value for key in TOP if (value := _said(entries, key))}
    if _units(entries) == "cm":
        found["units"] = "cm"
    if instructions:
        found["instructions"] = [one.text for one in instructions][:MOST_INSTRUCTIONS]
    for one in [*entries, *_unsaid_fabrics(entries)]:
        if one.table == "sheet":
            continue
        table = _table(one, entries)
        if one.table in LISTS:
            found.setdefault(one.table, []).append(table)
        elif one.table in NAMED:
            found.setdefault(one.table, {})[one.name] = table
        else:
            found[one.table] = table
    return found


def _unsaid_fabrics(entries):
    """A fabric for each that is cut from and stands on no shopping list, where there is one, or its width is known."""
    from .model import Entry

    there = {one.name for one in entries if one.table == "fabric"}
    of_prints = any("per_print" in one.data for one in entries)  # whose fabric has to be named
    if not there and not of_prints and not _said(entries, "usable_width"):
        return []
    names = {naming.key(name): name for name in there}
    cut = {one.data["fabric"]: one.words for one in reversed(entries) if one.data.get("fabric")}
    first = {name: cut.get(name) for name in fabric_names(entries) if naming.key(name) not in names}
    return [Entry("fabric", {}, words, name) for name, words in first.items() if words is not None]


def missing(entries: list[Entry]) -> list[str]:
    """What a sheet needs and these entries do not say."""
    found = []
    tables = {one.table for one in entries}
    if not _said(entries, "title"):
        found.append("title: what the pattern is called")
    bare = [one.name for one in entries if one.table == "cut" and "fabric" not in one.data]
    if bare:
        found.append(f"fabric: of what {first_few(bare)} {'is' if len(bare) == 1 else 'are'} cut")
    open_lengths = [one.name for one in entries if "lengthwise" in one.data and not {"size", "length"} & {*one.data}]
    if open_lengths:
        found.append(f"length: how long {first_few(open_lengths)} {'is' if len(open_lengths) == 1 else 'are'} cut")
    of_prints = dict.fromkeys(one.data.get("fabric", "") for one in entries if "per_print" in one.data)
    known = {one.name for one in entries if one.table == "fabric" and "prints" in one.data}
    found += [f"[fabric.{name or 'NAME'}]: prints, how many there are" for name in of_prints if name not in known]
    if "cut" not in tables:
        found.append("[[cut]]: a cutting list")
    for one in entries:
        needs = {
            "binding": () if "part" in one.data else ("fabric", "strip"),
            "strip_set": ("sub_cut",) if "of" in one.data else ("strips", "sub_cut"),
            "unit": ("kind", "parts"),
            "block": ("rows",),
            "border": () if one.table == "border" and _on_two_sides(one, entries) else ("sides", "top"),
            "fabric": ("pieces",) if "piece" in one.data and "prints" not in one.data else (),
        }.get(one.table, ())
        lacks = [key for key in needs if key not in one.data]
        if one.table == "batting" and "bought" in one.data and "usable_width" not in one.data:
            lacks = ["usable_width"]
        if lacks:
            found.append(f"{_heading(one)}: {' and '.join(lacks)}")
    setting = next((one for one in entries if one.table == "setting"), None)
    drawn = setting is not None and bool({"rows", "columns"} & setting.data.keys())
    if "block" not in tables and not drawn and (setting is None or "block" not in setting.data):
        found.append(
            '[block.NAME]: its rows as drawn, such as rows = ["A B A", "B A B"] (none in a quilt of one kind of square)'
        )
    needs_of_setting = ("style",) if drawn else ("style", "across", "down", "block")
    lacks = [key for key in needs_of_setting if setting is None or key not in setting.data]
    if lacks:
        found.append(f"[setting]: {', '.join(lacks)}")
    elif too_few(entries):
        found.append("[setting]: alternate, what stands between the blocks")
    elif setting is not None and setting.data["style"] == "on point":
        found += [f"[setting.{key}]: its triangles" for key in ("sides", "corners") if key not in setting.data]
    return found


def _on_two_sides(border, entries):
    """Whether a border lies above and below alone, or at the sides, as its strips tell: no others are cut for it."""
    own = [part for key in ("sides", "top") if (part := border.data.get(key))]
    others = [one for one in entries if one.table == "cut" and one.role.startswith(border.name) and one.name not in own]
    return bool(own) and not others and not items(entries, "border")


def _heading(entry):
    if entry.table in LISTS:
        return f"[[{entry.table}]]{f' ({entry.name})' if entry.table == 'border' else ''}"
    return f"[{entry.table}.{entry.name}]" if entry.table in NAMED else f"[{entry.table}]"


def counted(number: int, thing: str) -> str:
    """So many things, in words.

    >>> counted(0, "question"), counted(1, "question"), counted(2, "question")
    ('no questions', '1 question', '2 questions')
    """
    return f"{number or 'no'} {thing}{'' if number == 1 else 's'}"


def _comment(text, mark=""):
    """Words of the page, or a question, as lines of comment: nothing in them can end it."""
    printable = "".join(char if char.isprintable() else " " for char in text)
    return [f"# {mark}{printable[:LONGEST_LINE]}"]


def text(draft: Draft) -> str:
    """The text of a drafted sheet."""
    entries = list(draft.entries)
    cut = sum(one.table in ("cut", "strip_set", "binding") for one in entries)
    questions = counted(len(draft.questions), "question")
    lines = _comment(f"Drafted from {draft.name}: {counted(cut, 'line')} of the cutting list, {questions}.")
    if draft.questions:
        lines += ["# A question is a line that begins with # ? and stands above the words it is about."]
    if draft.missing:
        lines += ["# Still to be said:", *(line for one in draft.missing for line in _comment(one, "- "))]
    top = _top(entries, draft)
    lines += ["", *top] if top else []
    for _, part in sorted([*_tables(entries), *_questions(draft)], key=lambda pair: pair[0]):
        lines += ["", *part]
    if draft.remarks:
        lines += ["", "# Kept from the page as it stands there:"]
        lines += [line for one in draft.remarks for line in _comment(one.text, "- ")]
    return "\n".join(lines).rstrip() + "\n"


def _top(entries, draft):
    """What belongs to the whole pattern, each line below its words."""
    lines = []
    for key in TOP:
        one = next((one for one in entries if one.table == "sheet" and key in one.data), None)
        if one is not None:
            lines += _comment(one.words.text) + [_toml(key, _said(entries, key))]
        elif key == "units" and _units(entries) == "cm":
            lines += ['units = "cm"']
    if draft.instructions:
        told = [one.text for one in draft.instructions][:MOST_INSTRUCTIONS]
        lines += toml({"instructions": told}).splitlines()
    return lines


def _toml(key, value):
    """One line of a table; a list of texts stays on it."""
    if isinstance(value, list):
        return f"{key} = [{', '.join(toml({'x': one}).strip().removeprefix('x = ') for one in value)}]"
    if isinstance(value, dict):
        return f"{key} = {{ {', '.join(_toml(*pair) for pair in value.items())} }}"
    return toml({key: value}).strip()


def _header(entry):
    """The heading of an entry's table."""
    if entry.table in NAMED:
        return toml({entry.table: {entry.name: {"x": 1}}}).strip().splitlines()[0]
    return f"[[{entry.table}]]" if entry.table in LISTS else f"[{entry.table}]"


def _tables(entries):
    """Each table with its words above it, by its place on the page."""
    for place, one in enumerate([*entries, *_unsaid_fabrics(entries)]):
        if one.table == "sheet":
            continue
        values = _table(one, entries)
        body = [_header(one), *(_toml(*pair) for pair in values.items())]
        notes = [note for remark in one.remarks if remark for note in _comment(remark, "  ")]
        unsaid = ['# fabric = ""'] if one.table in ("cut", "binding") and not {"fabric", "part"} & {*one.data} else []
        late = one.table in ("unit", "block", "setting")
        in_order = one.table in ("border", "step")  # borders from the inside out
        at = (2, place) if in_order else (int(late), one.words.start)
        yield at, [*_comment(one.words.text), *notes, *body, *unsaid]


def _questions(draft):
    for one in draft.questions:
        lines = [*_comment(one.text, "? ")]
        lines += [line for choice in one.choices for line in _comment(choice.label, "?   - ")]
        yield (0, one.words.start), [*lines, *_comment(one.words.text)]
