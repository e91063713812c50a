"""The form of a pattern sheet: for people who will not type TOML. A page is pasted or its figures are typed; all that
is typed is read as it is typed, and kept whatever it is."""

import asyncio
import os
from collections.abc import Callable
from functools import partial
from html import escape
from pathlib import Path
from tempfile import TemporaryDirectory

import ipywidgets as widgets

from .. import pattern, review
from ..draw import svg
from ..pattern.comments import commented, comments
from ..resources import SHARED, AlreadyThere, save
from . import form_fields as fields
from . import form_kept, form_pictures, form_values, form_verdict
from .downloads import Downloads, file_name
from .form_lines import Section, Turns, boxes_of, button
from .form_page import PagePanel
from .form_style import CSS
from .form_verdict import Verdict
from .form_words import sentence
from .handed_out import handout_files
from .pasted import Page, filled, merged, moved_names, text_of

PAUSE = 0.4  # seconds without a key before the cloth is sewn again
BLOCK = 115, 115  # px: width and height of a block's picture
ALWAYS = ("", "cut", "setting")  # groups that every pattern has
WITHOUT_KERNEL = "The form: paste a printed page, or type its figures; the verdict and the quilt stand beside them."
STAYS = "What you type is kept in {file} for next time. <b>Save</b> writes a sheet file, <b>Load</b> brings one back."
GOES = "This page is shared with a room, so nothing is kept: what you type is gone when the page is closed."
NO_SHEET = (pattern.Unreadable, AttributeError, TypeError, KeyError, ValueError)


def form(sheet=None):
    """The form, empty or filled from a pattern sheet (a `Sheet`, or the path of its file); what was typed into it
    before, in this folder, is there again."""
    return Form(pattern.read(sheet) if isinstance(sheet, (str, Path)) else sheet)


class Form(widgets.VBox):
    """A box to paste a page into, fields in the order of a printed pattern, and beside them what the review says of
    them as they are typed, with the quilt as it would come out. A wrong field is marked and named; it and all others
    stay as they were typed, and are kept in a file beside the notebook."""

    def __init__(self, sheet=None):
        self.aside, self._filling, self._keys, self._page = {}, False, 0, None
        self._source = ""  # the text whose comments are saved with the sheet
        self.turns = Turns()
        self._undo: list[tuple[str, Callable]] = []
        self._keeps = not os.environ.get(SHARED)  # the files of this computer are its owner's, not a class's
        self.draft_file = form_kept.draft_file(file_name(sheet.title, "")[:-1] if sheet else "")
        self.began = None if sheet is None else form_values.filled_from(sheet)[0]
        self.sections = {group.key: Section(group, self._typed, self._taken_out, self.turns) for group in fields.GROUPS}
        self.page = PagePanel(self._drafted, self._uploaded, self.turns)
        self.verdict = Verdict(
            Downloads(handout_files("my pattern", self.sheet), "Once it passes:"), self.turns(self.go_to)
        )
        self.downloads = self.verdict.downloads
        self.kept = widgets.HTML()
        typed = [self.page, *self.sections.values(), self._adding(), self.kept]
        body = widgets.Box([widgets.VBox(typed).add_class("qm-fields"), self.verdict]).add_class("qm-body")
        super().__init__([widgets.HTML(CSS), *self._files(), body])
        self.add_class("qm-form")
        self._begin(sheet)

    def _repr_mimebundle_(self, **kwargs):
        """The widget, and what it is for readers without a kernel."""
        return {**super()._repr_mimebundle_(**kwargs), "text/plain": WITHOUT_KERNEL}

    # -- filling and reading -------------------------------------------------------------------------------------

    def fill(self, values, aside, words="", source=""):
        """Put these values into the fields; `words` say what is done, where it can be undone, `source` is the text of a
        sheet that they come from."""
        before = self.values, self.aside, self._page, self._source
        self._filling = True
        self.aside, self._source = aside, source
        fresh = values == fields.empty()
        for key, section in self.sections.items():
            section.fill(values[key], key in ALWAYS or fresh and key == "block")
        self._filling = False
        self._undo = [(words, lambda: self._back_to(*before))] if words else []
        self._show_undo()
        self.check()

    def _back_to(self, values, aside, page, source):
        """Show what was there before: the page that was read with its answers, and what was typed."""
        self.page.restore(page)
        self.fill(values, aside, source=source)

    @property
    def values(self):
        """What is typed in every field: {group key: list of lines}."""
        return {key: section.values for key, section in self.sections.items()}

    @property
    def boxes(self):
        """The boxes of every line that is shown: {group key: list of {field key: box}}."""
        return {key: [line.boxes for line in section.shown_lines] for key, section in self.sections.items()}

    @property
    def units(self):
        """The units that are chosen."""
        return self.boxes[""][0]["units"].value

    def go_to(self, place):
        """Put the keyboard's place into this field."""
        key, number, field = place
        section = self.sections[key]
        if number >= len(section.shown_lines):
            section.add()
        line = section.shown_lines[number]
        if field and line.boxes[field].layout.display == "none":
            section.ask_for(field)
        line.boxes[field or next(iter(line.boxes))].focus()

    def sheet(self):
        """The pattern sheet that the fields make; refused where one of them cannot be read."""
        return form_values.read(self.values, self.aside)

    def check(self):
        """Read the fields and say what the review says of them, or which field cannot be read and why; keep them."""
        values = self.values
        self._lay_out(values)
        self._keep(values)
        made, marks = None, {}
        try:
            if values == fields.empty():
                self.verdict.empty()
            else:
                found = review.review(self.sheet())
                made = found.made
                told = self.verdict.tell(found, values, self.aside, self.page.unjudged(), self.page.asks)
                marks = form_verdict.notes(told, values, self.aside)
        except pattern.Unreadable as problem:
            self._say_wrong(problem, values)
        except Exception as problem:
            self.verdict.fault(problem)
            raise
        else:
            self._mark(marks)
        self._draw_blocks(values, made)

    def _say_wrong(self, problem, values):
        """Mark the field that cannot be read, and no other; an empty one is asked for at the verdict alone."""
        place, words = form_values.where(values, problem.path, self.aside)
        self.verdict.missing(words, problem.said, place, asked=self.page.asks)
        self._mark({})
        if place is None or place[0] not in self.sections:
            return
        lines = self.sections[place[0]].shown_lines
        if place[1] < len(lines) and fields.says(lines[place[1]].group, lines[place[1]].values):
            label = words.rpartition(", ")[2] if place[2] else words
            lines[place[1]].mark({place[2]: "wrong"} if place[2] else {}, form_verdict.wrong(problem, label, place[0]))

    def _mark(self, marks):
        """Mark the fields that findings are about, each with its number, and no others."""
        for key, number, line in boxes_of(self.sections):
            mine = marks.get((key, number), ())
            levels = {field: finding.level for _, finding, field in reversed(mine) if field}
            line.mark(levels, "".join(form_verdict.note(count, finding) for count, finding, _ in mine))

    def _lay_out(self, values):
        """Show the fields that this pattern has, in its units, with the names that are typed already on offer."""
        on_point = values["setting"][0]["style"] == "on point"
        for key, section in self.sections.items():
            section.units = self.units
            if section.group.on_point:
                lines = section.lines.children
                lines[0].shown = on_point or fields.says(section.group, lines[0].values)
            section.lay_out()
            section.offer(lambda of: form_values.names_offered(values, of))
            if key in self.adders:
                self.adders[key].layout.display = "none" if section.shown_lines else None
        told = form_values.kept(values, self.aside)
        words = f"Kept and saved, though the form has no field for it: {', '.join(told)}." if told else ""
        self.kept.value = f"<p>{escape(words)}</p>" if words else ""

    def _draw_blocks(self, values, made):
        """Each block beside its rows."""
        pictures = form_pictures.blocks(values, made)
        for number, (line, picture) in enumerate(zip(self.sections["block"].shown_lines, pictures)):
            ids = f"block-{self.model_id[:8]}-{number}-"
            line.picture.value = svg(picture, *BLOCK, key=False, ids=ids) if picture else ""

    # -- pages and files -----------------------------------------------------------------------------------------

    def _drafted(self, drafted, before):
        """Fill the form from a page that was read, or change it by an answer to one of its questions."""
        after, aside = form_values.filled_from(filled(drafted))
        if before is not None:
            names = moved_names(before, drafted)
            old, now = (
                form_values.renamed(one, names) for one in (form_values.filled_from(filled(before))[0], self.values)
            )
            both = merged(old, after, now)
            self.fill(both, {**self.aside, **aside}, "The question is answered.", drafted.text())
        else:
            self.fill(after, aside, "The form is filled from the page.", drafted.text())

    def _uploaded(self, name, content):
        """Take a file that was chosen in the browser."""
        if name.endswith(form_kept.ENDING):
            with TemporaryDirectory() as place:
                path = Path(place) / "sheet.toml"
                path.write_bytes(content)
                self._load_sheet(path, name)
            return
        try:
            text = text_of(name, content)
        except ValueError as problem:
            self.page.tell(sentence(problem))
        else:
            self.page.take(text)

    def load(self, _=None):
        """Fill the form from the named file, also where a field in it is still wrong; a file that is no sheet changes
        nothing."""
        path = form_kept.to_load(self.file.value)
        if path.suffix in form_kept.PAGES:
            try:
                text = pattern.page_text(path)
            except ValueError as problem:
                self._tell(problem)
            else:
                self.page.take(text)
        else:
            self._load_sheet(path, str(path))

    def _load_sheet(self, path, name):
        try:
            values, aside = form_values.filled_from(pattern.read(path))
        except pattern.Unreadable as problem:
            try:
                values, aside = form_values.filled_from(pattern.tables(path))
            except NO_SHEET:
                self._tell(str(problem).replace(str(path), name))
                return
        self.fill(values, aside, f"{name} is loaded.", path.read_text("utf-8"))
        self._tell(f"Loaded {name}.")

    def save(self, _=None):
        """Write the fields as a sheet, also where a field is still wrong: nothing typed is lost."""
        try:
            path = form_kept.to_save(self.file.value)
            data, _lines = form_values.sheet_data(self.values, self.aside)
            text = commented(pattern.toml(data), comments(self._source))
            save(path, text.encode(), over=self.over.value)
        except AlreadyThere:
            self._tell(f"{path} is there already: tick “replace a file of that name”, or give another name.")
        except form_kept.Outside as problem:
            self._tell(sentence(problem))
        except (OSError, ValueError) as problem:
            said = getattr(problem, "strerror", None) or problem
            self._tell(f"{self.file.value} cannot be written ({said}): give another name.")
        else:
            self.file.options = form_kept.sheets_here()
            self._tell(f"Saved {path}.")

    def start_afresh(self, _=None):
        """Empty every field."""
        self.page.clear()
        self.fill(fields.empty(), {}, "The form is emptied.")

    # -- what is kept --------------------------------------------------------------------------------------------

    def _begin(self, sheet):
        """Fill the form with what was typed before; else from the sheet it is begun from."""
        before = form_kept.kept(self.draft_file) if self._keeps else None
        values, aside = (fields.empty(), {}) if sheet is None else form_values.filled_from(sheet)
        if before is None or before.get("began") != self.began:
            self.fill(values, aside, source=(sheet.source or "") if sheet is not None else "")
            return
        self.file.value = str(before.get("file", "")) or self.file.value
        page = before.get("page")
        if page:
            self.page.restore(Page(page["text"], page["name"], tuple(map(tuple, page["answers"]))))
        self.fill(before["form"], before["aside"], source=str(before.get("source", "")))
        self._tell(f"What you typed before is here again, kept in {self.draft_file}.")

    def _keep(self, values):
        """Keep what is typed in the file beside the notebook; nothing is written before anything is typed."""
        begun = self.began or fields.empty()
        page = self._page = self.page.page
        if not self._keeps or (values == begun and page is None and not Path(self.draft_file).exists()):
            return
        data = {"form": values, "aside": self.aside, "file": self.file.value, "began": self.began}
        data["source"] = self._source
        try:
            form_kept.keep(self.draft_file, {**data, "page": page._asdict() if page else None})
        except OSError as problem:
            self._tell(f"What you type cannot be kept beside the notebook ({problem.strerror or problem}).")

    def undo(self, _=None):
        """Take back what was done last."""
        if self._undo:
            _words, back = self._undo.pop()
            back()
            self._show_undo()

    def _taken_out(self, section, line, number):
        """A line has been taken out: offer to put it back."""

        def back():
            line.shown = True
            self.check()
            line.focus_first()

        place = f"Line {number} of {section.group.title}" if section.group.many else section.group.title
        self._undo.append((f"{place} is taken out.", back))
        self._show_undo()
        if not section.shown_lines:
            if section.group.key in ALWAYS:
                section.add()
            else:
                self._lay_out(self.values)
                self.adders[section.group.key].focus()
        self.check()

    def _show_undo(self):
        words = self._undo[-1][0] if self._undo else ""
        self.undone.value = f'<span role="status">{escape(words)}</span>'
        self.undoer.layout.display = None if words else "none"

    # -- widgets -------------------------------------------------------------------------------------------------

    def _files(self):
        """The row of the sheet's file, and what was done last."""
        self.file = widgets.Combobox(
            value="my-pattern.toml",
            options=form_kept.sheets_here(),
            description="Sheet file",
            layout=widgets.Layout(width="15em"),
        ).add_class("qm-field")
        self.over = widgets.Checkbox(
            False, description="replace a file of that name", indent=False, layout=widgets.Layout(width="auto")
        )
        self.told, self.undone = widgets.HTML(), widgets.HTML()
        self.undoer = button("Undo", self.turns(self.undo))
        buttons = [button("Load", self.turns(self.load)), button("Save", self.turns(self.save)), self.over]
        mine = [self.file, *buttons] if self._keeps else []
        last = [button("Start afresh", self.turns(self.start_afresh)), self.undone, self.undoer]
        stays = STAYS.format(file=escape(self.draft_file)) if self._keeps else GOES
        return [widgets.HBox([*mine, *last]).add_class("qm-bar"), widgets.HTML(f"<p>{stays}</p>"), self.told]

    def _adding(self):
        """A button for each group that not every pattern has."""
        self.adders = {
            group.key: button(
                f"+ {group.one or group.title.lower()}", self.turns(partial(self._open, group.key)), "qm-small"
            )
            for group in fields.GROUPS
            if group.key not in ALWAYS and not group.on_point
        }
        words = widgets.HTML("<h3>This pattern also has</h3>")
        return widgets.VBox([words, widgets.HBox([*self.adders.values()]).add_class("qm-bar")]).add_class("qm-section")

    def _open(self, key, _=None):
        self.sections[key].add()
        self._lay_out(self.values)

    def _tell(self, words):
        self.told.value = f'<p role="status">{escape(str(words))}</p>' if words else ""

    def _typed(self, _):
        """Check soon, once the keys rest; at once where no kernel loop runs."""
        if self._filling:
            return
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            self.check()
            return
        self._keys += 1
        loop.call_later(PAUSE, self.turns(self._check_after), self._keys)

    def _check_after(self, keys):
        """Check, unless more has been typed since."""
        if keys == self._keys:
            self.check()
