"""Questions that check themselves: an answer is exact, close, a known mistake by name, or wrong with a hint
to follow."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, NamedTuple

from .. import lengths

EXACT = Fraction(1, 2000)  # an irrational answer typed to three decimals counts as exact
SAME_MISTAKE = Fraction(1, 32)  # a mistake is still itself after rounding to a ruler's sixteenth


class Reply(NamedTuple):
    """What is said to an answer; `kind` is "exact", "close", "mistake", "wrong" or "unread"."""

    kind: str
    words: str


@dataclass(frozen=True)
class Question:
    """A question with its answer, the mistakes that are known by name (value, words), and a hint.

    The answer is a length in inches (`unit="in"`), a plain number (`unit=""`), or one of `choices`; `close`
    is how far off a number may be and still be called close. Numbers come from the library, never from
    typing.

    >>> cut = Question("What size do you cut?", Fraction(31, 8), unit="in", close="1/8",
    ...                mistakes=((Fraction(7, 2), "Two seams: the long edge needs more."),),
    ...                hint="Draw the finished triangle and move all three sides out.", why="3 + 7/8.")
    >>> cut.judge("3 7/8")
    Reply(kind='exact', words='Exactly right. 3 + 7/8.')
    >>> cut.judge("3.5").kind, cut.judge("3.9").kind, cut.judge("2").kind, cut.judge("two").kind
    ('mistake', 'close', 'wrong', 'unread')
    >>> cut.judge("2", tries=2).words
    'Not yet. Hint: Draw the finished triangle and move all three sides out.'
    """

    words: str
    answer: Any
    unit: str = ""
    choices: tuple[str, ...] = ()
    close: Any = Fraction(0)
    mistakes: tuple[tuple[Any, str], ...] = ()
    hint: str = ""
    why: str = ""

    def __post_init__(self):
        object.__setattr__(self, "close", lengths.parse(self.close))
        if self.choices:
            named = {self.answer, *(value for value, _ in self.mistakes)}
            if not named <= set(self.choices):
                raise ValueError(f"answer and mistakes are among the choices {self.choices}; got {named}")

    def judge(self, typed: Any, tries: int = 1) -> Reply:
        """The Reply to what was typed or chosen; from the second try on a miss comes with the hint."""
        try:
            given = self.read(typed)
        except ValueError as error:
            return Reply("unread", f"That could not be read: {error}.")
        if given == self.answer or not self.choices and abs(given - self._number) <= EXACT:
            return Reply("exact", f"Exactly right. {self.why}".strip())
        hint = f" Hint: {self.hint}" if self.hint and tries > 1 else ""
        known = self._known(given)
        if known:
            return Reply("mistake", f"Not yet. {known}{hint}")
        if not self.choices and abs(given - self._number) <= self.close:
            exactly = lengths.text(self.answer) + (" in" if self.unit else "")
            return Reply("close", f"Close: it is {exactly}. {self.why}".strip())
        return Reply("wrong", f"Not yet.{hint}")

    def read(self, typed: Any) -> Any:
        """What was typed as a number, or the choice that was made."""
        if self.choices:
            if typed not in self.choices:
                raise ValueError(f"choose one of: {', '.join(self.choices)}")
            return typed
        if not str(typed).strip():
            raise ValueError("type a number first, for example 3 7/8" if self.unit else "type a number first")
        return lengths.parse(typed)

    def ask(self, reveal: Any = None) -> Any:
        """The question as a widget, to be the last line of a cell; `reveal` (an app) appears once it is
        answered."""
        from .asking import Asking

        return Asking(self, reveal)

    @property
    def _number(self):
        return Fraction(self.answer) if isinstance(self.answer, (int, Fraction)) else Fraction(float(self.answer))

    def _known(self, given):
        if self.choices:
            return dict(self.mistakes).get(given)
        near = sorted((abs(given - Fraction(float(value))), words) for value, words in self.mistakes)
        if near and near[0][0] <= min(SAME_MISTAKE, abs(given - self._number)):
            return near[0][1]
        return None
