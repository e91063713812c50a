"""What the review says of the form, beside it: the verdict, the quilt with what was found marked in it, each finding
with the field it is about."""

from collections.abc import Callable
from html import escape
from typing import Any, TypeAlias

import ipywidgets as widgets

from .. import pattern, review
from ..draw.svg_writer import page_svg
from ..draw.written import unbroken
from ..review.finding import Finding
from ..review.report.pictures import laid_out
from ..review.writing import LEVEL_WORDS, MOST_TOLD, comes_to, foremost, headline
from . import form_pictures, form_values
from .form_fields import Typed
from .form_lines import button
from .form_pictures import MOST_MARKED
from .form_words import in_words, sentence

Place: TypeAlias = tuple[str, int, str | None]  # a field: its group's key, the number of its line, its own key
PICTURE = 460, 330  # px: width and height of the quilt
NO_GO_YET = "NOT YET A GO: nothing stands against cutting so far, but not all of the page is judged."
NOTHING_YET = "Paste a page and read it, or type what the pattern prints. What is missing or wrong is said here."
STALE = "The quilt as it was before: what is typed now cannot be read yet."


class Verdict(widgets.VBox):
    """The verdict in a line, below it the quilt and the findings, which fold away in a narrow place."""

    def __init__(self, downloads: widgets.Widget, go: Callable[[Place], None]) -> None:
        self.headline, self.picture, self.findings = widgets.HTML(), widgets.HTML(), widgets.HTML()
        self.folder = button("Show the quilt and what was found", self._fold, "qm-folder")
        self.downloads, self._go = downloads, go
        self.jumps = widgets.HBox().add_class("qm-bar")
        more = widgets.VBox([self.picture, self.findings, downloads]).add_class("qm-verdict-more")
        super().__init__([self.headline, self.jumps, self.folder, more])
        self.add_class("qm-verdict")
        self.drawn: form_pictures.Drawn | None = None
        self._places: list[Place] = []

    def empty(self) -> None:
        """Say what to begin with."""
        self.drawn = None
        self.picture.value = self.findings.value = ""
        self.headline.value = head("", NOTHING_YET)
        self._offer([])

    def missing(self, words: str, said: str, place: Place | None, asked: bool = False) -> None:
        """Say which field cannot be read, or is still missing, and why, and where a page is `asked` about, that answers
        may say it; the last picture stays, and is told as such."""
        why = unbroken(escape(sentence(in_words(said, place and place[0]))))
        why += " The questions of the page may answer this: take them first." if asked else ""
        self.headline.value = head("", f"<strong>Not yet: {escape(words)}</strong><br>{why}")
        self.findings.value = ""
        self._offer([("Go to this field", place)] if place else [])
        if self.drawn is not None:
            self.picture.value = self._picture(STALE)

    def fault(self, problem: Exception) -> None:
        """Say that the form itself has a fault."""
        said = f"The form has a fault, whatever was typed: {type(problem).__name__}: {problem}"
        self.headline.value = head("", escape(said))

    def tell(
        self, found: review.Review, form: Typed, aside: dict[str, Any], unjudged: str = "", asked: bool = False
    ) -> tuple[Finding, ...]:
        """Show this review, and what of a page is `unjudged`; while it is `asked` about nothing is a go. Returns the
        findings that are told, in the order of their numbers."""
        told = found.findings if len(found.findings) <= MOST_TOLD else foremost(found, MOST_TOLD)
        not_yet = asked and found.verdict == "go"
        first = f"<strong>{escape(NO_GO_YET if not_yet else headline(found))}</strong>"
        lines = [unbroken(escape(one)) for one in (comes_to(found), unjudged) if one]
        self.headline.value = head("ask" if not_yet else found.verdict, "<br>".join([first, *lines]))
        self.drawn = form_pictures.quilt(found, told)
        self.picture.value = self._picture() if self.drawn else ""
        rest = len(found.findings) - len(told)
        more = f"<p>{rest} more: put these right first.</p>" if rest else ""
        items = "".join(_item(number, finding, form, aside) for number, finding in enumerate(told, 1))
        places = [(f"Go to {number}", _place(one, form, aside)) for number, one in enumerate(told, 1)]
        self._offer([(words, place) for words, place in places if place])
        self.downloads.layout.display = None
        self.findings.value = f'<ol class="qm-findings">{items}</ol>{more}'
        return told

    def _picture(self, words: str = "") -> str:
        assert self.drawn is not None
        drawn = page_svg(laid_out(self.drawn.picture, *PICTURE), f"form-{self.model_id[:8]}-")
        return f"{drawn}<p>{escape(words or self.drawn.words)}</p>"

    def _offer(self, jumps: list[tuple[str, Place]]) -> None:
        """A button for each field that is spoken of; those that are there already stay, with the keyboard's place."""
        self.downloads.layout.display = "none"
        self._places = [place for _, place in jumps[:MOST_MARKED]]
        words = tuple(words for words, _ in jumps[:MOST_MARKED])
        if words != tuple(one.description for one in self.jumps.children):
            self.jumps.children = [
                button(said, lambda _, at=at: self._go(self._places[at]), "qm-small") for at, said in enumerate(words)
            ]

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
        place = _place(finding, form, aside)
        if place is not None:
            found.setdefault(place[:2], []).append((number, finding, place[2] or ""))
    return found


def note(number: int, finding: Finding) -> str:
    """What a finding says at its field, in a line; the whole of it stands beside the quilt."""
    figures = [
        f"printed {finding.printed}" if finding.printed else "",
        f"needed {finding.needed}" if finding.needed else "",
    ]
    words = f"{LEVEL_WORDS[finding.level]}: {finding.title}" + "".join(f"; {one}" for one in figures if one)
    return f'<div class="qm-said qm-is-{finding.level}">{_number(number)}{unbroken(escape(sentence(words)))}</div>'


def wrong(problem: pattern.Unreadable, label: str, group: str) -> str:
    """What is wrong at a field, in a line."""
    said = unbroken(escape(sentence(in_words(problem.said, group))))
    return f'<div class="qm-said" role="alert"><strong>{escape(label)}:</strong> {said}</div>'


def _place(finding, form, aside):
    """The field a finding is about."""
    return None if finding.size else form_values.where(form, finding.path, aside)[0]


def _item(number, finding, form, aside):
    """A finding in words, with its field."""
    _, place = form_values.where(form, finding.path, aside) if not finding.size else (None, f"Size {finding.size}")
    return (
        f"<li><p>{_number(number)}<strong>{LEVEL_WORDS[finding.level]}</strong> ({finding.check}), {escape(place)}: "
        f"{unbroken(escape(finding.message))}</p></li>"
    )


def _number(number):
    return f'<span class="qm-number">{number}</span>'
