"""What a page says of one thing twice over, where no sheet can say both: which of the two is right has to be asked."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import combinations
from typing import Any

from pydantic import ValidationError

from ..border import Border
from ..cut import Cut
from ..fields import AtOdds, Table
from ..finishing import Backing, Batting, Binding
from ..parts import BlockTable, Fabric, StripSet, UnitTable
from .model import Choice, Entry, Question, Words

TABLES: dict[str, type[Table]] = {
    "fabric": Fabric,
    "cut": Cut,
    "strip_set": StripSet,
    "unit": UnitTable,
    "block": BlockTable,
    "border": Border,
    "binding": Binding,
    "backing": Backing,
    "batting": Batting,
}
_SAID_LATER: dict[str, dict[str, Any]] = {
    "cut": {"part": "A", "fabric": "A"},
    "strip_set": {"sub_cut": "2"},
    "unit": {"kind": "half-square", "parts": ["A", "B"]},
    "block": {"rows": ["A"]},
    "binding": {"fabric": "A", "strip": "2"},
}
"""What a table may still leave out and a sheet must say: it stands in here, so that what is said can be judged."""
MOST_TAKEN_OUT = 3
"""Keys: no more of one table gainsay the others."""


def _whole(table, data):
    """The values of a table with something in place of each that is still to be said."""
    later = dict(_SAID_LATER.get(table, {}))
    if table == "cut":
        later |= {"strip" if "length" in data else "size": "2"} if not {"size", "strip"} & {*data} else {}
        later |= {"count": 1} if "per_print" not in data else {}
    if table == "strip_set" and "of" not in data:
        later["strips"] = ["A", "B"]
    if table == "block" and "ready_made" in data:
        later = {"size": "2"}
    if table == "border" and "triangles" not in data and "only" not in data:
        later = {"sides": "A", "top": "A"}
    if table == "binding":
        later = {} if "part" in data else {**later, **({} if "length" in data else {"count": 1})}
    return {**later, **data}


def is_at_odds(table: str, data: dict[str, Any]) -> bool:
    """Whether what a table says gainsays itself, whatever it still leaves out.

    >>> is_at_odds("fabric", {"bought": "1 yd"}), is_at_odds("fabric", {"bought": "1 yd", "pieces": 2})
    (False, True)
    """
    if table not in TABLES:
        return False
    try:
        TABLES[table].model_validate(_whole(table, data), context={"units": "in", "written": {}})
    except ValidationError as problem:
        return any(isinstance(one.get("ctx", {}).get("error"), AtOdds) for one in problem.errors(include_url=False))
    return False


def ways_out(table: str, data: dict[str, Any]) -> list[frozenset[str]]:
    """The keys that have to go so that a table no longer gainsays itself: each way of them that takes out no more than
    it must, those first that leave what is said first.

    >>> [sorted(one) for one in ways_out("fabric", {"bought": "1 yd", "pieces": 2, "piece": "fat quarter"})]
    [['piece', 'pieces'], ['bought']]
    """
    found: list[frozenset[str]] = []
    for many in range(1, MOST_TAKEN_OUT + 1):
        for keys in map(frozenset, combinations(data, many)):
            left = {key: value for key, value in data.items() if key not in keys}
            if left and not any(one <= keys for one in found) and not is_at_odds(table, left):
                found.append(keys)
    places = [*data]
    return sorted(found, key=lambda keys: -min(map(places.index, keys)))


def question(whole: Entry, words: Words, asks: str) -> Question:
    """What is asked where an entry gainsays itself: which of the ways in which it may be right, each told by what it
    then still says."""
    ways = ways_out(whole.table, whole.data)
    doubtful = {key for way in ways for key in way}

    def told(way):
        return ", ".join(
            f"{key.replace('_', ' ')} {said(whole.data[key])}" for key in whole.data if key in doubtful - way
        )

    made = (replace(whole, data={**whole.data, **dict.fromkeys(way)}) for way in ways)
    return Question(words, asks, tuple(Choice(told(way), (one,)) for way, one in zip(ways, made)))


def said(value: Any) -> str:
    """A value as a question says it."""
    return " x ".join(map(str, value)) if isinstance(value, list) else str(value)


def settled(entries: Iterable[Entry], right: Iterable[Entry] = ()) -> tuple[list[Entry], list[Question]]:
    """The entries, none of which gainsays itself, and what has to be asked for that: what an answer says is taken to be
    `right`, and else what stands first."""
    answers, found, questions = [*right], [], []
    for one in entries:
        if not is_at_odds(one.table, one.data):
            found.append(one)
            continue
        answered = frozenset(key for other in answers if other.path == one.path for key in other.data)
        ways = ways_out(one.table, one.data)
        found.append(one.but(**dict.fromkeys(_leaving_most(ways, answered))))
        questions.append(question(one, one.words, "no sheet can say both of these: which is right?"))
    return found, questions


def _leaving_most(ways, answered):
    """The way out that takes out the fewest of the keys that are answered."""
    return min(ways, key=lambda keys: len(keys & answered))
