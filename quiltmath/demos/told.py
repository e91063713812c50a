"""Sentences on the page, that need no running kernel: paragraphs whose lines break between words."""

from dataclasses import dataclass
from html import escape
from typing import Any

from ..draw.written import unbroken


@dataclass(frozen=True)
class Told:
    """Paragraphs of plain text.

    >>> print(Told("Press first.", "Then measure."))
    Press first.
    Then measure.
    """

    paragraphs: tuple[str, ...]

    def __init__(self, *paragraphs: str) -> None:
        object.__setattr__(self, "paragraphs", paragraphs)

    def text(self) -> str:
        """The paragraphs as text, a line each."""
        return "\n".join(self.paragraphs)

    def html(self) -> str:
        """The paragraphs as HTML."""
        said = "".join(f"<p>{unbroken(escape(one))}</p>" for one in self.paragraphs)
        return f'<div class="quiltmath-told" style="font-size:16px;line-height:1.5;max-width:62em">{said}</div>'

    def __str__(self):
        return self.text()

    def _repr_mimebundle_(self, include=None, exclude=None):
        return {"text/html": self.html(), "text/plain": self.text()}


class InTurn:
    """Tables and sentences, one below the other.

    >>> print(InTurn(Told("Press first."), Told("Then measure.")))
    Press first.
    <BLANKLINE>
    Then measure.
    """

    def __init__(self, *parts: Any) -> None:
        self.parts = parts

    def text(self) -> str:
        """All of it as text, a blank line between."""
        return "\n\n".join(part.text() for part in self.parts)

    def html(self) -> str:
        """All of it as HTML."""
        return "".join(part.html() for part in self.parts)

    def __str__(self):
        return self.text()

    def _repr_mimebundle_(self, include=None, exclude=None):
        return {"text/html": self.html(), "text/plain": self.text()}
