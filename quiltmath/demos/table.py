"""A table on the page, that needs no running kernel: as HTML, and as text for whoever sees no HTML."""

from dataclasses import dataclass
from html import escape
from typing import Any, NamedTuple

from ..draw.written import unbroken

CELL = "text-align:left;vertical-align:top;padding:4px 16px 4px 0"


class Link(NamedTuple):
    """A cell that leads somewhere: what it says, and a file beside the notebook."""

    words: str
    place: str

    def __str__(self):
        return self.words


@dataclass(frozen=True)
class Table:
    """A table: a head, and rows of as many cells, each text or a Link; the first cell of a row names it.

    >>> rows = Table(("word", "meaning"), (("batting", "The soft layer."),))
    >>> print(rows)
    batting
        meaning: The soft layer.
    >>> Table(("word", "meaning"), (("batting",),))
    Traceback (most recent call last):
    ValueError: a row has a cell for each of word, meaning; got ('batting',): give it as many
    """

    head: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]
    caption: str = ""

    def __post_init__(self):
        for row in self.rows:
            if len(row) != len(self.head):
                raise ValueError(f"a row has a cell for each of {', '.join(self.head)}; got {row}: give it as many")

    def html(self) -> str:
        """The table as HTML, its first column as heads of the rows."""
        head = "".join(f'<th scope="col" style="{CELL}">{unbroken(escape(name))}</th>' for name in self.head)
        body = "".join(
            "<tr>"
            + f'<th scope="row" style="{CELL}">{_cell(first)}</th>'
            + "".join(f'<td style="{CELL}">{_cell(one)}</td>' for one in rest)
            + "</tr>"
            for first, *rest in self.rows
        )
        wide = ";min-width:min(100%,44em)" if self.caption else ""  # its lines are no longer than the table is wide
        caption = f'<caption style="{CELL}">{unbroken(escape(self.caption))}</caption>' if self.caption else ""
        return (
            f'<table class="quiltmath-table" style="font-size:16px;line-height:1.5;max-width:62em{wide}">'
            f"{caption}<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
        )

    def text(self) -> str:
        """The table as text, a row after the other."""
        lines = [self.caption] if self.caption else []
        for first, *rest in self.rows:
            lines += [str(first), *(f"    {name}: {one}" for name, one in zip(self.head[1:], rest) if str(one))]
        return "\n".join(lines)

    def __str__(self):
        return self.text()

    def _repr_mimebundle_(self, include=None, exclude=None):
        return {"text/html": self.html(), "text/plain": self.text()}


def _cell(one):
    if isinstance(one, Link):
        return f'<a href="{escape(one.place, quote=True)}">{escape(one.words)}</a>'
    return unbroken(escape(str(one)))
