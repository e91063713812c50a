"""What is kept of a page while it is read: entries that come together, and what the page says twice."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, fields, replace

from . import at_odds, for_each_block
from .model import Choice, Entry, Question, Words
from .page import Page
from .parts import in_its_place

FROM_FABRIC = ("cut", "binding")
"""The tables of what is cut from a fabric."""
SAID_ONCE = ("binding", "backing", "batting")
"""The tables that one line of a page says whole: what another adds is another reading."""
_OF_A_QUILT = re.compile(
    r"\b(?:frames?|borders?|cent(?:er|re)s?|corners?|points?|blocks?|stars?|units?|rows?|rounds?|lanes?|logs?)\b",
    re.IGNORECASE,
)
"""What heads name pieces by that are for one part of a quilt: "First frame", "Star center"."""


@dataclass
class Kept:
    """What was read of a page: entries and questions in the order of their lines, sentences and lines kept as they are,
    and the words that were `understood` besides: heads, and what says more of an entry that has other words."""

    entries: list[Entry] = field(default_factory=list)
    questions: list[Question] = field(default_factory=list)
    remarks: list[Words] = field(default_factory=list)
    instructions: list[Words] = field(default_factory=list)
    understood: list[Words] = field(default_factory=list)
    below_blocks: list[tuple[Words, int, Words]] = field(default_factory=list)
    """(the head of a block, how many are made, the words of a line below it) each."""
    below_doubts: list[tuple[Words, Words]] = field(default_factory=list)
    """(a head that may be the name of a fabric, the words of a line below it) each."""

    of_one_block: list[Entry] = field(default_factory=list)
    """Logs that are listed for one block, of which it is not told there how many are made."""
    unfilled: list[Entry] = field(default_factory=list)
    """The strips that are cut into what the page has not yet told."""

    def copied(self) -> Kept:
        """The same, which may change on its own."""
        return Kept(*([*getattr(self, one.name)] for one in fields(self)))

    def add(self, entry: Entry) -> None:
        """Keep an entry; one of a table that is there already says more of it, or gainsays it."""
        entry = in_its_place(entry, self.entries)
        of_list = entry.table == "cut"  # which has many lines
        before = None if of_list else next((one for one in self.entries if one.path == entry.path), None)
        if before is None:
            self.entries.append(entry)
            return
        differ = [
            key for key in entry.data if key in before.data and _plain(before.data[key]) != _plain(entry.data[key])
        ]
        if entry.table == "strip_set" and before.data.items() <= entry.data.items():
            self.put(before, entry)
            return
        self.understood.append(entry.words)
        if not differ and entry.table in SAID_ONCE and before.data != entry.data:
            differ = [*entry.data]
        asks = f"before this the page says {before.words.text}: which is right?"
        whole = replace(before, data={**before.data, **entry.data})
        if not differ and at_odds.is_at_odds(entry.table, whole.data):
            self.questions.append(at_odds.question(whole, entry.words, asks))
        elif {"across", "down"} & {*differ} and entry.table == "setting":
            self.questions.append(Question(entry.words, asks, _whole_layouts(before, entry)))
        elif differ:
            choices = tuple(
                Choice(
                    f"{key.replace('_', ' ')} {at_odds.said(one.data[key])}",
                    (replace(before, data={**entry.data, **before.data, **one.data}),),
                )
                for key in differ
                for one in (before, entry)
                if key in one.data
            )
            self.questions.append(Question(entry.words, asks, choices))
        else:
            self.put(
                before, replace(before, data={**entry.data, **before.data}, remarks=(*before.remarks, *entry.remarks))
            )

    def put(self, before: Entry, *after: Entry) -> None:
        """Let one entry take the place of another, or none."""
        place = next((place for place, one in enumerate(self.entries) if one is before), None)
        if place is not None:
            self.entries[place : place + 1] = after

    def finish(self, page: Page) -> None:
        """What is still to be asked when the whole page is read."""
        self.questions += [*for_each_block.of_logs(self.of_one_block, self.entries, page)]
        for head, made in dict.fromkeys((head, made) for head, made, _ in self.below_blocks):
            below = {words for other, _, words in self.below_blocks if other == head}
            asked = for_each_block.question(head, made, [one for one in self._cut() if one.words in below])
            self.questions += [asked] if asked else []
        for head in dict.fromkeys(head for head, _ in self.below_doubts):
            self.questions.append(self._of_doubt(head))
        for one in self.unfilled:
            self.put(one)
            self.questions.append(Question(one.words, "what is cut from these?", (Choice("nothing", (one,)),)))
        each = {one.data.get("fabric") for one in self.entries if "per_print" in one.data}
        for one in [one for one in self.entries if {*one.data} == {"prints"} and one.name not in each]:
            if any(asked.words.start > one.words.start for asked in self.questions):  # what is cut of each is asked
                self.put(one)
                self.questions.append(Question(one.words, f"what is cut from each of {one.data['prints']} prints?"))
        known = {one.name: one.data.get("prints") for one in self.entries if one.table == "fabric"}
        told = {question.words for question in self.questions}
        told_of = set()
        for one in self.entries:
            fabric = one.data.get("fabric", "")
            if "per_print" in one.data and not known.get(fabric) and fabric not in told_of and one.words not in told:
                told_of.add(fabric)
                asks = f"of how many prints is {fabric or 'this'}?"
                self.questions.append(
                    Question(one.words, asks, self._as_many_prints(fabric) or self._of_bought_pieces())
                )

    def _cut(self) -> list[Entry]:
        return [one for one in self.entries if one.table in FROM_FABRIC]

    def _of_doubt(self, head: Words) -> Question:
        """The question whether a head is the fabric that the lines below it are cut from."""
        below = {words for other, words in self.below_doubts if other == head}
        bare = [one for one in self._cut() if one.words in below and "fabric" not in one.data]
        name = re.sub(r"\s*[:-]?\s*\b(?:cut)?[^\w)\"']*$", "", head.text, flags=re.IGNORECASE).strip("\"'")
        if re.match(r"(?:cut|out|using|along)|.*\bfrom\b", head.text, re.IGNORECASE):
            known = dict.fromkeys(one.data["fabric"] for one in self._cut() if "fabric" in one.data)
            answers = tuple(Choice(fabric, tuple(one.but(fabric=fabric) for one in bare)) for fabric in known)
            return Question(head, "from which fabric are the lines below this cut?", answers)
        bought = [(f"the fabric bought as {one.name}", one.name) for one in self._alike(name)]
        bought = [one for one in bought if one[1].casefold() != name.casefold()]
        of_fabric = [
            Choice(said, tuple(one.but(fabric=fabric) for one in bare))
            for said, fabric in (*bought, ("the fabric", name))
        ]
        place = Choice("what they are for")
        several = sum(one.table == "fabric" and "bought" in one.data for one in self.entries) > 1
        choices = (place, *of_fabric) if several and not bought and _OF_A_QUILT.search(name) else (*of_fabric, place)
        asks = f"is {name} the fabric of the lines below, or what they are for?"
        return Question(head, asks, choices)

    def _alike(self, name: str) -> list[Entry]:
        """The fabrics that are bought, and nothing is cut from, of whose names a word stands in this one."""
        cut = {one.data.get("fabric") for one in self._cut()}
        words = {*re.findall(r"[a-z]{3,}", name.casefold())} - {"fabric"}
        bought = (one for one in self.entries if one.table == "fabric" and one.name not in cut)
        return [one for one in bought if words & {*re.findall(r"[a-z]{3,}", one.name.casefold())}]

    def _as_many_prints(self, fabric: str) -> tuple[Choice, ...]:
        """The proposal that a fabric that is bought in pieces is of as many prints, a piece of each."""
        bought = next((one for one in self.entries if one.path == ("fabric", fabric) and "pieces" in one.data), None)
        if bought is None:
            return ()
        pieces = bought.data["pieces"]
        return (Choice(f"{pieces}, one piece of each", (bought.but(pieces=None, prints=pieces),)),)

    def _of_bought_pieces(self) -> tuple[Choice, ...]:
        """The proposals that what is cut "from each" of a fabric that is not named is cut of one bought in pieces."""
        bare = [one for one in self._cut() if "per_print" in one.data and "fabric" not in one.data]
        return tuple(
            Choice(
                f"{one.data['pieces']}, one of each piece of {one.name}",
                (one.but(pieces=None, prints=one.data["pieces"]), *(cut.but(fabric=one.name) for cut in bare)),
            )
            for one in self.entries
            if one.table == "fabric" and one.data.get("pieces", 1) > 1 and bare
        )


def _whole_layouts(before, entry):
    """Two ways in which blocks are told to be set, each whole; the one of more places first, for rows of pieces in one
    block may be taken for those of the quilt."""
    both = sorted((before, entry), key=lambda one: -one.data.get("across", 1) * one.data.get("down", 1))
    return tuple(
        Choice(
            ", ".join(f"{key} {at_odds.said(value)}" for key, value in one.data.items()),
            (replace(before, data={**entry.data, **before.data, **one.data}),),
        )
        for one in both
    )


def _plain(value):
    """A value as it is held against another: a scant seam is no other seam."""
    return value.removeprefix("scant ") if isinstance(value, str) else value
