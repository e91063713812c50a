"""Questions that check themselves: an answer is exact, close, a known mistake by name, or wrong with a hint
to follow."""

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, repeat
from typing import Any, NamedTuple

from .. import lengths
from ..usual import MEASURED, RULER

EXACT = Fraction(1, 2000)  # an irrational answer typed to three decimals counts as exact
SAME_MISTAKE = Fraction(1, 32)  # a mistake is still itself after rounding to a ruler's sixteenth
DEGREES = "degrees"
UNITS = {"in": " in", DEGREES: f" {DEGREES}", "": ""}
EXAMPLES = {"in": "3 7/8", DEGREES: "20", "": "12"}


class Reply(NamedTuple):
    """What is said to an answer; `kind` is "exact", "close", "mistake", "wrong" or "unread"."""

    kind: str
    words: str


@dataclass(frozen=True)
class Question:
    """A question with its answer, the mistakes that are known by name (value, words), and a hint.

    The answer is a length in inches (`unit="in"`), an angle (`unit="degrees"`), a plain number or a count (`unit=""`,
    an int), or one of `choices`; `close` is how far off a number may be and still be called close. A size to cut has
    its `exact` size too: less than that is too small and never close. Numbers come from the library, never from
    typing.

    >>> cut = Question("What size do you cut?", Fraction(31, 8), unit="in", close="1/8", exact=3.8536,
    ...                mistakes=((Fraction(7, 2), "Two seams: the long edge needs more."),),
    ...                hint="Draw the finished triangle and move all three sides out.", why="3 + 7/8.")
    >>> cut.judge("3 7/8")
    Reply(kind='exact', words='Exactly right. 3 + 7/8.')
    >>> cut.judge("3.5").kind, cut.judge("3.9").kind, cut.judge("2").kind, cut.judge("two").kind
    ('mistake', 'close', 'wrong', 'unread')
    >>> cut.judge("3 3/4").words
    'Not yet. That is rounded down, and about 3/32 in too small: too large can be trimmed, too small cannot. Round up.'
    >>> cut.judge("2", tries=2).words
    'Not yet. Hint: Draw the finished triangle and move all three sides out.'
    >>> Question("How many blocks?", 18).judge("two dozen").words
    "That could not be read: a count is a whole number; got 'two dozen': type it in digits, for example 12."
    """

    words: str
    answer: Any
    unit: str = ""
    choices: tuple[str, ...] = ()
    close: Any = Fraction(0)
    mistakes: tuple[tuple[Any, str], ...] = ()
    hint: str = ""
    why: str = ""
    exact: Any = None

    def __post_init__(self):
        object.__setattr__(self, "close", lengths.parse(self.close))
        if self.unit not in UNITS:
            raise ValueError(f"an answer is in {', '.join(filter(None, UNITS))} or a plain number; got {self.unit!r}")
        if self.choices:
            named = {self.answer, *(value for value, _ in self.mistakes)}
            if not named <= set(self.choices):
                raise ValueError(f"answer and mistakes are among the choices {self.choices}; got {named}")

    @property
    def told(self) -> str:
        """The answer in words, with its unit."""
        return str(self.answer) if self.choices else lengths.text(self.answer) + UNITS[self.unit]

    def judge(self, typed: Any, tries: int = 1) -> Reply:
        """The Reply to what was typed or chosen; from the second try on a miss comes with the hint."""
        try:
            given = self.read(typed)
        except ValueError as error:
            return Reply("unread", f"That could not be read: {error}.")
        if given == self.answer or not self.choices and abs(given - _fraction(self.answer)) <= EXACT:
            return Reply("exact", f"Exactly right. {self.why}".strip())
        hint = f" Hint: {self.hint}" if self.hint and tries > 1 else ""
        known = self._known(given) or self._too_small(given)
        if known:
            return Reply("mistake", f"Not yet. {known}{hint}")
        if not self.choices and self._is_close(given):
            return Reply("close", f"Close: it is {self.told}. {self.why}".strip())
        return Reply("wrong", f"Not yet.{hint}")

    def tally(self, typed: str) -> str:
        """What a show of hands came to, beside the truth: so many for each choice, in their order.

        >>> Question("Which?", "b", choices=("a", "b")).tally("3 9")
        '3 hands for a; 9 for b. Right were 9 of 12.'
        >>> Question("Which?", "b", choices=("a", "b")).tally("3")
        Traceback (most recent call last):
        ValueError: a show of hands has a whole number for each of a, b; got '3': type for example 0, 1
        """
        counts = typed.replace(",", " ").split()
        if len(counts) != len(self.choices) or not all(count.isascii() and count.isdigit() for count in counts):
            example = ", ".join(map(str, range(len(self.choices))))
            raise ValueError(
                f"a show of hands has a whole number for each of {', '.join(self.choices)}; got {typed!r}: type for "
                f"example {example}"
            )
        hands = dict(zip(self.choices, map(int, counts)))
        first = next(iter(hands.values()))
        units = chain((" hand" if first == 1 else " hands",), repeat(""))
        said = "; ".join(f"{count}{unit} for {choice}" for (choice, count), unit in zip(hands.items(), units))
        return f"{said}. Right were {hands[self.answer]} of {sum(hands.values())}."

    def read(self, typed: Any) -> Any:
        """What was typed as a number, or the choice that was made."""
        if self.choices:
            if typed not in self.choices:
                raise ValueError(f"choose one of: {', '.join(self.choices)}")
            return typed
        text = str(typed).strip()
        if not text:
            raise ValueError(f"type a number first, for example {EXAMPLES[self.unit]}")
        return lengths.parse(typed) if self.unit == "in" else self._number(text)

    def ask(self, reveal: Any = None) -> Any:
        """The question as a widget, to be the last line of a cell; `reveal` (an app) appears once it is
        answered."""
        from .asking import Asking

        return Asking(self, reveal)

    def _number(self, text):
        """A count, an angle or a plain number: digits, without a length's units."""
        kind = "count" if self.unit == "" and isinstance(self.answer, int) else self.unit
        figure = re.sub(r"\s*(°|degrees?)$", "", text) if kind == DEGREES else text
        try:
            if re.search(r"[^\d\s./-]", figure):
                raise ValueError
            return lengths.parse(figure)
        except ValueError:
            rule = {"count": "a count is a whole number", DEGREES: "an angle is a number of degrees"}
            raise ValueError(
                f"{rule.get(kind, 'the answer is a plain number')}; got {text!r}: type it in digits, for example "
                f"{EXAMPLES[self.unit]}"
            ) from None

    def _known(self, given):
        if self.choices:
            return dict(self.mistakes).get(given)
        near = sorted((abs(given - _fraction(value)), words) for value, words in self.mistakes)
        if near and near[0][0] <= min(SAME_MISTAKE, abs(given - _fraction(self.answer))):
            return near[0][1]
        return None

    def _too_small(self, given):
        """What is said to a cut that is a little too small; None to any other."""
        short = 0 if self.exact is None else _fraction(self.exact) - given
        if not EXACT < short <= max(self.close, lengths.parse(RULER["in"])):
            return None
        downs = [lengths.ruler(self.exact, step, "down") for step in (RULER["in"], MEASURED["in"])]
        by = lengths.text(lengths.ruler(short, "1/32", "nearest") or short, mark="in")
        rounded = "rounded down, and " if given in downs else ""
        return f"That is {rounded}about {by} too small: too large can be trimmed, too small cannot. Round up."

    def _is_close(self, given):
        low = _fraction(self.answer) - self.close if self.exact is None else _fraction(self.exact) - EXACT
        return low <= given <= _fraction(self.answer) + self.close


def _fraction(value):
    return Fraction(value) if isinstance(value, (int, Fraction)) else Fraction(float(value))
