"""A question that is answered on a picture: which of its points are lost."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from ..draw import Picture
from .questions import Reply

LOST, WHOLE = "lost", "stays whole"


@dataclass(frozen=True)
class PointQuestion:
    """Which points of a picture are lost: `points` are (name, spot in inches) in reading order, `answer` the names of
    those that are lost, `mistakes` sets of names with what is said to them.

    >>> row = Picture([], "Three points in a row.")
    >>> asked = PointQuestion("Which are lost?", row, (("left", (1, 0)), ("middle", (2, 0)), ("right", (3, 0))),
    ...                       ("left", "middle"), mistakes=((("right",), "You marked what is kept."),),
    ...                       hint="Look.", why="So.")
    >>> asked.judge(["middle", "left"])
    Reply(kind='exact', words='Exactly right. You marked both points that are lost, and no other. So.')
    >>> asked.judge(["left", "right"]).words
    'Not yet. You found 1 of the 2 points that are lost and missed 1; 1 that you marked stays whole.'
    >>> asked.judge(["right"], tries=2).words
    'Not yet. You found none of the 2 points that are lost; 1 that you marked stays whole. You marked what is kept. \
Hint: Look.'
    >>> asked.judge(["top"]).words
    "That could not be read: the points are left, middle, right; got 'top': mark some of these."
    """

    words: str
    picture: Picture = field(compare=False)
    points: tuple[tuple[str, tuple[float, float]], ...]
    answer: tuple[str, ...]
    mistakes: tuple[tuple[tuple[str, ...], str], ...] = ()
    hint: str = ""
    why: str = ""

    def __post_init__(self):
        strange = {*self.answer, *(name for names, _ in self.mistakes for name in names)} - set(self.choices)
        if strange or not self.answer:
            raise ValueError(
                f"some of the points {self.choices} are lost; got {self.answer}, and {strange}: name those"
            )

    @property
    def choices(self) -> tuple[str, ...]:
        """The names of the points."""
        return tuple(name for name, _ in self.points)

    @property
    def told(self) -> str:
        """The answer in words."""
        return "; ".join(self.answer)

    @property
    def truth(self) -> dict[str, str]:
        """What becomes of each point."""
        return {name: LOST if name in self.answer else WHOLE for name in self.choices}

    def judge(self, marked: Iterable[str], tries: int = 1) -> Reply:
        """The Reply to the points that were marked, by name; from the second try on a miss comes with the hint."""
        given, lost = set(marked), set(self.answer)
        strange = sorted(given - set(self.choices))
        if strange:
            rule = f"the points are {', '.join(self.choices)}; got {strange[0]!r}: mark some of these"
            return Reply("unread", f"That could not be read: {rule}.")
        if given == lost:
            return Reply("exact", f"Exactly right. You marked {self._all()}, and no other. {self.why}".strip())
        known = next((words for names, words in self.mistakes if set(names) == given), "")
        hint = f"Hint: {self.hint}" if self.hint and tries > 1 else ""
        said = f"Not yet. {self._counted(len(given & lost), len(given - lost))}"
        return Reply("mistake" if known else "wrong", " ".join(filter(None, (said, known, hint))))

    def tally(self, typed: str) -> str:
        """What a show of hands came to: how many had it all right, of how many.

        >>> row = Picture([], "A point.")
        >>> asked = PointQuestion("Is it lost?", row, (("left", (1, 0)),), ("left",))
        >>> asked.tally("3 of 12")
        'Hands: 3 of 12 had it all right.'
        >>> asked.tally("3")
        Traceback (most recent call last):
        ValueError: a show of hands is how many had it all right, of how many; got '3': type for example 7 of 20
        """
        counts = typed.replace("of", " ").replace(",", " ").split()
        if len(counts) == 2 and all(count.isascii() and count.isdigit() for count in counts):
            right, everyone = map(int, counts)
            if right <= everyone:
                return f"Hands: {right} of {everyone} had it all right."
        raise ValueError(
            f"a show of hands is how many had it all right, of how many; got {typed!r}: type for example 7 of 20"
        )

    def ask(self, reveal: Any = None) -> Any:
        """The question as a widget, to be the last line of a cell; `reveal` (an app) appears once it is answered."""
        from .asking import AskingPoints

        return AskingPoints(self, reveal)

    def _all(self):
        count = len(self.answer)
        return {1: "the one point that is lost", 2: "both points that are lost"}.get(
            count, f"all {count} points that are lost"
        )

    def _counted(self, found, extra):
        """How many were found, missed, and marked though they stay whole."""
        count = len(self.answer)
        missed = f" and missed {count - found}" if 0 < found < count else ""
        stay = f"{extra} that you marked {'stays' if extra == 1 else 'stay'} whole"
        if found == count:
            return f"You found {self._all()}; {stay}."
        those = "the one point that is lost" if count == 1 else f"{found or 'none'} of the {count} points that are lost"
        found_ = f"You missed {those}" if count == 1 else f"You found {those}{missed}"
        return f"{found_}; {stay}." if extra else f"{found_}."
