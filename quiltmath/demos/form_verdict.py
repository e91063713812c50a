"""What the review says of the form, beside it: the verdict, the quilt with what was found marked in it, each finding
with the field it is about."""

from html import escape
from typing import Any

import ipywidgets as widgets

from .. import pattern, review
from ..draw import svg
from ..review.finding import Finding
from ..review.writing import LEVEL_WORDS, MOST_TOLD, comes_to, foremost, headline
from . import form_pictures, form_values
from .form_fields import Typed
from .form_lines import button
from .form_words import in_words, sentence

PICTURE = 460, 330  # px: width and height of the quilt
NOTHING_YET = "Paste a page and read it, or type what the pattern prints. What is missing or wrong is said here."
STALE = "The quilt as it was before: what is typed now cannot be read yet."


class Verdict(widgets.VBox):
    """The verdict in a line, below it the quilt and the findings, which fold away in a narrow place."""

    def __init__(self, downloads: widgets.Widget) -> None:
        self.headline, self.picture, self.findings = widgets.HTML(), widgets.HTML(), widgets.HTML()
        self.folder = button("Show the quilt and what was found", self._fold, "qm-folder")
        more = widgets.VBox([self.picture, self.findings, downloads]).add_class("qm-verdict-more")
        super().__init__([self.headline, self.folder, more])
        self.add_class("qm-verdict")
        self.drawn: form_pictures.Drawn | None = None

    def empty(self) -> None:
        """Say what to begin with."""
        self.drawn = None
        self.picture.value = self.findings.value = ""
        self.headline.value = head("", NOTHING_YET)

    def missing(self, words: str, said: str) -> None:
        """Say which field cannot be read, or is still missing, and why; the last picture stays, and is told as such."""
        self.headline.value = head("", f"<strong>Not yet: {escape(words)}</strong><br>{escape(sentence(in_words(said)))}")
        self.findings.value = ""
        if self.drawn is not None:
            self.picture.value = self._picture(STALE)

    def fault(self, problem: Exception) -> None:
        """Say that the form itself has a fault."""
        said = f"The form has a fault, whatever was typed: {type(problem).__name__}: {problem}"
        self.headline.value = head("", escape(said))

    def tell(self, found: review.Review, form: Typed, aside: dict[str, Any]) -> tuple[Finding, ...]:
        """Show this review; returns the findings that are told, in the order of their numbers."""
        told = found.findings if len(found.findings) <= MOST_TOLD else foremost(found, MOST_TOLD)
        self.headline.value = head(
            found.verdict, f"<strong>{escape(headline(found))}</strong><br>{escape(comes_to(found))}"
        )
        self.drawn = form_pictures.quilt(found, told)
        self.picture.value = self._picture() if self.drawn else ""
        rest = len(found.findings) - len(told)
        more = f"<p>{rest} more: put these right first.</p>" if rest else ""
        items = "".join(_item(number, finding, form, aside) for number, finding in enumerate(told, 1))
        self.findings.value = f'<ol class="qm-findings">{items}</ol>{more}'
        return told

    def _picture(self, words: str = "") -> str:
        assert self.drawn is not None
        drawn = svg(self.drawn.picture, *PICTURE, ids=f"form-{self.model_id[:8]}-")
        return f"{drawn}<p>{escape(words or self.drawn.words)}</p>"

    def _fold(self, _: object) -> None:
        opened = "qm-open" in self._dom_classes
        (self.remove_class if opened else self.add_class)("qm-open")
        self.folder.description = f"{'Show' if opened else 'Fold'} the quilt and what was found"


def head(verdict: str, html: str) -> str:
    """The line that a screen reader says when it changes, marked by its verdict."""
    return f'<div role="status" class="qm-head qm-is-{verdict or "open"}">{html}</div>'


def notes(told: tuple[Finding, ...], form: Typed, aside: dict[str, Any]) -> dict[tuple, list[tuple[int, Finding, str]]]:
    """For each line of the form that a finding is about, {(group key, line number): [(number, finding, field key)]}."""
    found: dict[tuple, list[tuple[int, Finding, str]]] = {}
    for number, finding in enumerate(told, 1):
        place, _ = form_values.where(form, finding.path, aside) if not finding.size else (None, "")
        if place is not None:
            found.setdefault(place[:2], []).append((number, finding, place[2] or ""))
    return found


def note(number: int, finding: Finding) -> str:
    """What a finding says at its field, in a line; the whole of it stands beside the quilt."""
    figures = [f"printed {finding.printed}" if finding.printed else "", f"needed {finding.needed}" if finding.needed else ""]
    words = f"{LEVEL_WORDS[finding.level]}: {finding.title}" + "".join(f"; {one}" for one in figures if one)
    return f'<div class="qm-said qm-is-{finding.level}">{_number(number)}{escape(sentence(words))}</div>'


def wrong(problem: pattern.Unreadable, label: str) -> str:
    """What is wrong at a field, in a line."""
    return f'<div class="qm-said" role="alert"><strong>{escape(label)}:</strong> {escape(sentence(in_words(problem.said)))}</div>'


def _item(number, finding, form, aside):
    """A finding in words, with its field."""
    _, place = form_values.where(form, finding.path, aside) if not finding.size else (None, f"Size {finding.size}")
    return (
        f"<li><p>{_number(number)}<strong>{LEVEL_WORDS[finding.level]}</strong> ({finding.check}), {escape(place)}: "
        f"{escape(finding.message)}</p></li>"
    )


def _number(number):
    return f'<span class="qm-number">{number}</span>'
