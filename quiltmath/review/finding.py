"""What a review finds and what a correction changes, as data: nothing is read back from its words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from .checks.check import Check

LEVELS = ("stop", "ask", "note")  # do not cut; settle it first; good to know


class Why(str):
    """The name of what shows a reason; `command` shows it. Either a `ByProof` or a `ByNotebook`."""

    @property
    def command(self) -> str:
        """The command that shows the reason."""
        raise TypeError(f"{str(self)!r} is neither a proof nor a notebook: write ByProof(name) or ByNotebook(name)")


class ByProof(Why):
    """A reason that a proof tells, by the proof's name.

    >>> ByProof("half_square").command
    'quiltmath why half_square'
    """

    @property
    def command(self) -> str:
        """The command that prints the proof."""
        return f"quiltmath why {self}"


class ByNotebook(Why):
    """A reason that a notebook shows, by the notebook's name.

    >>> ByNotebook("09-check-a-pattern").command
    'quiltmath open 09-check-a-pattern'
    """

    @property
    def command(self) -> str:
        """The command that opens the notebook."""
        return f"quiltmath open {self}"


@dataclass(frozen=True)
class Finding:
    """One thing found: by which check, how grave, where in the sheet, what is printed, what is needed, and why.

    `path` is the place as keys and list numbers, `where` the same as file and line; for what was found in another size
    of the pattern (`size`, its name) `path` lies in the sheet of that size and `where` is that size's table. `message`
    says it to a new quilter, with what to do; `why` shows the reason. `parts` is what it is about, `panel` and `spots`
    (points in inches on that panel) where to look in the picture, `fix` the changes to the sheet, (path, new value)
    each, that correct it where that is plain, and `meant` those with which all else is judged where they are but one of
    several ways to correct it. `asks` is the question it puts, where that is not the check's own.
    """

    found_by: Check
    level: str
    path: tuple
    where: str
    printed: str
    needed: str
    message: str
    why: Why
    size: str = ""
    parts: frozenset = frozenset()
    panel: str = ""
    spots: tuple = ()
    fix: tuple = ()
    meant: tuple = ()
    asks: str = ""

    @property
    def check(self) -> str:
        """The name of the check that found it."""
        return self.found_by.name

    @property
    def title(self) -> str:
        """What was found, in a few words: the same for everything this check finds."""
        return self.found_by.title

    @property
    def only_designer(self) -> bool:
        """Whether nobody but the designer can say what is right."""
        return self.found_by.only_designer and not self.fix

    @property
    def question(self) -> str:
        """What to ask the designer about it."""
        return self.found_by.ask(self)

    def as_dict(self) -> dict[str, Any]:
        """The finding as plain data: check, level, where, printed, needed, message, why."""
        keys = ("check", "level", "where", "printed", "needed", "message", "why")
        return {key: str(getattr(self, key)) for key in keys}


class Change(NamedTuple):
    """One change to a sheet: the checks that asked for it, what is changed, from what (None: it was not there) to what.

    `how` is "becomes" for a value, "new" for one more line of the cutting list, "added" for one more of other lines,
    "moved" for a line that stands elsewhere, "taken out" for what is gone, "planned" for another way of working, whose
    `what` then ends in a verb. `path` is where in the sheet the value stands, where it is one value.

    >>> print(Change(("piece-count",), "part 'A', count", 12, 16))
    piece-count: part 'A', count 12 becomes 16
    >>> Change(("lost-points",), "'top' is", "trimmed to its points", "squared up", "planned").words
    "'top' is no longer trimmed to its points but squared up"
    >>> Change(("piece-count",), "part 'edge'", None, "6 plum squares 5 1/2 in, cut twice", "new").words
    "new: 6 plum squares 5 1/2 in, cut twice (part 'edge')"
    """

    checks: tuple[str, ...]
    what: str
    old: Any
    new: Any
    how: str = "becomes"
    path: tuple = ()

    @property
    def words(self) -> str:
        """The change in words."""
        ways = {
            "new": f"new: {self.new} ({self.what})",
            "added": f"{self.what}, added: {self.new}",
            "moved": f"{self.what} {self.new}",
            "taken out": f"{self.what} {self.old} is taken out",
            "planned": f"{self.what} no longer {self.old} but {self.new}",
        }
        return ways.get(self.how, f"{self.what} {'' if self.old is None else f'{self.old} '}becomes {self.new}")

    def __str__(self) -> str:
        return f"{', '.join(self.checks)}: {self.words}"
