"""Blocks that are sewn, cut in four through their middle and sewn together anew, two of the quarters turned."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ... import lengths
from .at_hand import two_seams
from .in_passing import InPassing
from .layouts import kinds, only, told_blocks
from .model import SOMETHING_ELSE, Choice, Entry, Question

SHUFFLED = [["upper left", "turned upper right"], ["turned lower left", "lower right"]]
_CUTS = (
    ("{}", "bottom middle", "top middle", ["left half", "right half"]),
    ("left half", "left middle", "right middle", ["upper left", "lower left"]),
    ("right half", "left middle", "right middle", ["upper right", "lower right"]),
)


def cut_in_four(entries: list[Entry], told: InPassing) -> Iterator[Question]:
    """The question whether the blocks are cut in four and sewn anew, where a page tells so in passing."""
    made = kinds(entries)
    block = next((one for one in entries if made and one.path == ("block", made[0].name)), None)
    if not told.quartered or len(made) != 1 or block is None or not made[0].number:
        return
    if any(one.table == "step" for one in entries) or len(block.data["rows"]) == 1:
        return
    (nine,), setting, words = made, only(entries, "setting"), block.words
    steps: list[dict[str, Any]] = [
        {"cut": part.format(nine.name), "from": start, "to": end, "gives": gives} for part, start, end, gives in _CUTS
    ]
    steps += [{"turn": name, "by": 180, "gives": f"turned {name}"} for name in ("upper right", "lower left")]
    side = lengths.text(nine.width - two_seams(entries))
    shuffled = Entry(
        "block", {"rows": SHUFFLED, "count": nine.number, "finished": side}, words, f"{nine.name} cut in four"
    )
    made_anew = [*(Entry("step", step, words, str(step["gives"])) for step in steps), shuffled]
    of_quarters = setting is not None and told_blocks(entries)[:1] == [4 * nine.number]
    if setting is not None and of_quarters and setting.data["across"] % 2 == setting.data["down"] % 2 == 0:
        across, down = setting.data["across"] // 2, setting.data["down"] // 2
        data = {"style": "straight", "across": across, "down": down, "block": shuffled.name}
        made_anew.append(setting.but(**data))
    asks = f"are the {nine.number} blocks cut in four through their middle, and two quarters of each turned?"
    yield Question(words, asks, (Choice("yes", tuple(made_anew)), SOMETHING_ELSE))
