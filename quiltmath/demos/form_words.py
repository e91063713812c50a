"""What is wrong in a form, in the words of its fields: nobody who fills in a form has to know what a sheet file looks
like."""

import re
from typing import Any

from .form_fields import GROUPS

_LABELS = {group.key: {field.key: field.label for field in group.fields} for group in GROUPS}
_ALL = {key: label for group in reversed(GROUPS) for key, label in _LABELS[group.key].items()}
_TITLES = {group.key: group.title for group in GROUPS if group.key}
_TABLE = re.compile(r"\[{1,2}([a-z_.]+)(?:\.\"[^\"]*\")?\]{1,2}")
_SET = re.compile(r"\b([a-z_]+) = (?:'([^']*)'|\"([^\"]*)\"|(true|false)\b)")
_KEY = re.compile(r"\b[a-z]+(?:_[a-z]+)+\b")
_SHEET_WORDS = (
    (r"; it can have .*$", ""),
    (r"\ba sheet has no such key here\b", "there is no such field"),
    (r"this is missing; the sheet needs it", "this is still missing"),
    (r"^Field required", "this is still missing"),
    (r"\bkey\b", "field"),
    (
        r"\bcutting list gives either size \(a piece\) or strip \(the height",
        "cutting list has either a size or a strip width (the height",
    ),
    (r"write a whole number without quotes", "type a whole number"),
    (r"write a number without quotes", "type a number"),
    (r"write text, in double quotes", "type a name"),
    (r"write true or false, without quotes", "choose yes or no"),
    (r"write a list in square brackets, its parts in quotes.*$", "type the names one after the other"),
    (r"this list has 0 entries or more", "this is empty"),
    (r"^this list has 1 entry or more; got \[\]$", "this is still missing"),
)


def in_words(said: str, group: str | None = None) -> str:
    """What a refused sheet says of a group, for the reader of a form: its titles and labels in place of keys.

    >>> in_words("an on-point setting needs [setting.sides]: say how its setting triangles come about")
    'an on-point setting needs “Side triangles”: say how its setting triangles come about'
    >>> in_words('say usable_width too, or write style = "on point"', "setting")
    'say “Usable width” too, or choose “Set: on point”'
    >>> in_words("or comes ready_made = true, with its size", "block")
    'or comes “Ready made: yes”, with its size'
    """
    for found, better in _SHEET_WORDS:
        said = re.sub(found, better, said)
    labels = _ALL | _LABELS.get(group or "", {})

    def chosen(match):
        value = {"true": "yes", "false": "no"}.get(match[4]) or match[2] or match[3] or ""
        return f"“{labels[match[1]]}: {value}”" if match[1] in labels else match[0]

    said = _SET.sub(chosen, said)
    said = re.sub(r"\bwrite (?=“)", "choose ", said)
    said = _TABLE.sub(lambda match: f"“{_TITLES.get(match[1], match[1])}”", said)
    return _KEY.sub(lambda match: f"“{labels[match[0]]}”" if match[0] in labels else match[0], said)


def sentence(words: Any) -> str:
    """Words as a sentence, with one full stop.

    >>> sentence("this is still missing")
    'This is still missing.'
    """
    text = str(words).strip()
    if "." not in text.partition(" ")[0]:  # the name of a file is spelt as it is
        text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!", "…")) else f"{text}."
