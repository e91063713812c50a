"""Sentences on the page, that need no running kernel: paragraphs whose lines break between words."""

from dataclasses import dataclass
from html import escape

from ..draw.written import unbroken


@dataclass(frozen=True)
class Told:
    """Paragraphs of plain text.

    >>> print(Told("Press first.", "Then measure.").text())
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

    def _repr_mimebundle_(self, include=None, exclude=None):
        return {"text/html": self.html(), "text/plain": self.text()}
