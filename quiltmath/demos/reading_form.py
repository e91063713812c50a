"""The form of a pattern sheet: for people who will not type TOML. What is typed is read as it is typed, and kept
whatever it is."""

import asyncio
import os
from html import escape
from pathlib import Path

import ipywidgets as widgets

from .. import making, pattern, review
from ..draw import panel_picture
from ..draw.fitted import Place
from ..draw.svg_writer import page_svg
from ..resources import SHARED, AlreadyThere, save
from ..review.report.pictures import fabrics_drawn
from ..review.writing import LEVEL_WORDS, comes_to, headline
from . import form_fields as fields
from .downloads import Downloads
from .handed_out import handout_files
from .on_page import Status

PAUSE = 0.4  # seconds without a key before the cloth is sewn again
WIDE = {
    "title": "24em",
    "rows": "26em",
    "part": "9em",
    "finished": "11em",
    "size": "11em",
    "name": "9em",
    "parts": "12em",
    "strips": "18em",
    "instructions": "38em",
    "frame": "12em",
}
WRONG = "2px solid #D55E00"
PLACE = 700, 700  # px, of its picture


def form(sheet=None):
    """The form, empty or filled from a pattern sheet (a `Sheet`, or the path of its file)."""
    return Form(pattern.read(sheet) if isinstance(sheet, (str, Path)) else sheet)


class Form(widgets.VBox):
    """Fields in the order of a printed pattern, what the review says of them as they are typed, and the quilt as it
    would come out. A wrong field is marked and named; it and all others stay as they were typed."""

    def __init__(self, sheet=None):
        self.boxes, self.aside, self._filling, self._waiting = {}, {}, False, None
        self.sections = {group.key: widgets.VBox() for group in fields.GROUPS}
        self.says = Status()
        self.picture = widgets.HTML(layout=widgets.Layout(min_height="420px"))
        self.file = widgets.Text("my-pattern.toml", description="Sheet file", layout=widgets.Layout(width="24em"))
        self.over = widgets.Checkbox(False, description="replace a file of that name", indent=False)
        self.told = Status()
        buttons = [
            self._button("Load", self.load, "Fill the form from this sheet file"),
            self._button("Save", self.save, "Write the form to this sheet file"),
        ]
        typed = widgets.VBox([self.sections[group.key] for group in fields.GROUPS])
        self.downloads = Downloads(handout_files("my pattern", self.sheet), "Once it passes:")
        file = widgets.HBox([self.file, *buttons, self.over])
        # the files of this computer are its owner's: a class takes sheets away by the buttons below
        mine = [] if os.environ.get(SHARED) else [file, self.told]
        super().__init__([*mine, typed, self.says, self.picture, self.downloads])
        self.add_class("quiltmath-form")
        self.fill(sheet)

    # -- filling and reading -------------------------------------------------------------------------------------

    def fill(self, sheet=None):
        """Fill every field from a sheet, or empty them."""
        values, self.aside = (fields.empty(), {}) if sheet is None else fields.filled_from(sheet)
        self._filling = True
        for group in fields.GROUPS:
            self.boxes[group.key] = []
            for line in values[group.key]:
                self._add(group, line)
            self._lay_out(group)
        self._filling = False
        self.check()

    @property
    def units(self):
        """The units that are chosen."""
        return self.boxes[""][0]["units"].value

    def _show_examples(self):
        """The example in each empty field, in the units that are chosen."""
        for group in fields.GROUPS:
            for line in self.boxes[group.key]:
                for field in group.fields:
                    if not field.choices:
                        line[field.key].placeholder = field.example_in(self.units)

    @property
    def values(self):
        """What is typed in every field: {group key: list of lines}."""
        return {
            group.key: [{key: box.value for key, box in line.items()} for line in self.boxes[group.key]]
            for group in fields.GROUPS
        }

    def sheet(self):
        """The pattern sheet that the fields make; refused where one of them cannot be read."""
        return fields.read(self.values, self.aside)

    def check(self):
        """Read the fields and say what the review says of them, or which field cannot be read and why."""
        self._mark(None)
        self._show_examples()
        values = self.values
        if values == fields.empty():
            self.says.value = _status(
                "Type what the pattern prints, from the top. What is missing or wrong is said here."
            )
            return
        try:
            found = review.review(self.sheet())
            self.says.value = _said(found)
            self._draw(found.made)
        except pattern.Unreadable as problem:
            place, words = fields.where(values, problem.path, self.aside)
            self._mark(place)
            self.says.value = _status(f"<strong>{escape(words)}:</strong> {escape(problem.said)}.")
        except Exception as problem:
            self.says.value = _status(
                escape(f"The form has a fault, whatever was typed: {type(problem).__name__}: {problem}")
            )
            raise

    def _draw(self, made):
        """The quilt as it would come out, if it can be sewn."""
        if isinstance(made, making.Made) and made.top is not None:
            top = panel_picture(made.top, name="The quilt top", fabrics=fabrics_drawn(made.sheet))
            drawn = page_svg(Place(*PLACE).page(top), ids=f"form-{self.model_id[:8]}-", scaled=True)
            self.picture.value = f'<div style="max-width:{PLACE[0]}px">{drawn}</div>'

    # -- files ---------------------------------------------------------------------------------------------------

    def load(self, _=None):
        """Fill the form from the named file, also where a field in it is still wrong; a file that is no sheet changes
        nothing."""
        path = self.file.value.strip()
        try:
            self.fill(pattern.read(path))
        except pattern.Unreadable as problem:
            try:
                self.fill(pattern.tables(path))
            except (pattern.Unreadable, AttributeError, TypeError, KeyError):
                self._tell(problem)
                return
        self._tell(f"Loaded {path}.")

    def save(self, _=None):
        """Write the fields as a sheet, also where a field is still wrong: nothing typed is lost."""
        path = self.file.value.strip() or "my-pattern.toml"
        try:
            data, _lines = fields.sheet_data(self.values, self.aside)
            save(path, pattern.toml(data).encode(), over=self.over.value)
        except AlreadyThere:
            self._tell(f"{path} is there already: tick “replace a file of that name”, or give another name.")
        except (OSError, ValueError) as problem:
            self._tell(
                f"{path} cannot be written ({getattr(problem, 'strerror', None) or problem}): give another name."
            )
        else:
            self._tell(f"Saved {path}.")

    def _tell(self, words):
        self.told.value = _status(escape(str(words)))

    # -- widgets -------------------------------------------------------------------------------------------------

    def _button(self, words, do, hint):
        button = widgets.Button(description=words, tooltip=hint)
        button.on_click(do)
        return button

    def _lay_out(self, group):
        """The widgets of one group of fields."""
        head = [widgets.HTML(f"<h3 style='margin:8px 0 2px'>{escape(group.title)}</h3>")]
        lines = [
            widgets.HBox(
                [self._labelled(field, line[field.key]) for field in group.fields]
                + ([self._taker(group, number)] if group.many else []),
                layout=widgets.Layout(flex_flow="row wrap"),
            )
            for number, line in enumerate(self.boxes[group.key])
        ]
        more = (
            [self._button("Add a line", lambda _: self._one_more(group), f"Another line of {group.title}")]
            if group.many
            else []
        )
        self.sections[group.key].children = [*head, *lines, *more]

    def _labelled(self, field, box):
        label = widgets.HTML(
            f"<span style='font-size:16px'>{escape(field.label)}</span>", layout=widgets.Layout(margin="0 0 -4px")
        )
        return widgets.VBox([label, box])

    def _taker(self, group, number):
        def take(_):
            del self.boxes[group.key][number]
            if not self.boxes[group.key]:
                self._add(group, fields.blank(group))
            self._lay_out(group)
            self.check()

        button = self._button("Take out", take, f"Take out line {number + 1} of {group.title}")
        button.layout = widgets.Layout(width="6em", align_self="flex-end")
        return button

    def _one_more(self, group):
        self._add(group, fields.blank(group))
        self._lay_out(group)

    def _add(self, group, line):
        """One more line of boxes, watched."""
        boxes = {}
        for field in group.fields:
            layout = widgets.Layout(width=WIDE.get(field.key) or f"{max(8.0, 0.65 * len(field.label)):.1f}em")
            hint = f"{group.title}: {field.label}"
            if field.choices:
                options = dict.fromkeys((*field.choices, line[field.key]))  # a wrong word in a file is shown, and named
                box = widgets.Dropdown(options=list(options), value=line[field.key], tooltip=hint, layout=layout)
            elif field.key == "instructions":
                box = widgets.Textarea(line[field.key], placeholder=field.example, tooltip=hint, layout=layout)
            else:
                box = widgets.Text(line[field.key], placeholder=field.example, tooltip=hint, layout=layout)
            box.observe(self._typed, "value")
            boxes[field.key] = box
        self.boxes[group.key].append(boxes)

    def _typed(self, _):
        """Check soon, once the keys rest; at once where no kernel loop runs."""
        if self._filling:
            return
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            self.check()
            return
        if self._waiting is not None:
            self._waiting.cancel()
        self._waiting = loop.call_later(PAUSE, self.check)

    def _mark(self, place):
        """Mark the field at (group, line, field), and no other."""
        for group, lines in self.boxes.items():
            for number, line in enumerate(lines):
                for key, box in line.items():
                    box.layout.border = WRONG if place == (group, number, key) else None


def _status(html):
    return f'<div style="font-size:16px;line-height:1.5">{html}</div>'


def _said(found):
    """The review in words, the verdict first."""
    items = "".join(
        f"<li><strong>{LEVEL_WORDS[finding.level]}</strong> ({finding.check}): {escape(finding.message)} "
        f"<code>{escape(finding.why.command)}</code></li>"
        for finding in found.findings
    )
    return _status(f"<p><strong>{escape(headline(found))}</strong> {escape(comes_to(found))}</p><ul>{items}</ul>")
