"""The boxes of the form, line by line: each box with its label, each line with what is wrong in it, each group with the
lines that this pattern has.

A line that is taken out is hidden, not destroyed, and one more stands ready behind the last: a browser keeps the
keyboard's place only among boxes that stay.
"""

from collections.abc import Callable, Iterator
from functools import wraps
from html import escape
from threading import RLock

import ipywidgets as widgets

from . import form_fields as fields
from .form_fields import KEPT, Field, Group, Line

WIDE = {
    "title": "16em",
    "part": "10em",
    "cut": "6.5em",
    "size": "8em",
    "finished": "9em",
    "count": "5em",
    "sets": "5em",
    "pieces": "5em",
    "triangles": "5em",
    "seam": "5.5em",
    "units": "4.5em",
    "parts": "12em",
    "strips": "14em",
    "rows": "16em",
    "between": "16em",
    "columns": "16em",
    "instructions": "36em",
}
USUAL_WIDTH = "8.5em"


class Turns:
    """Makes the handlers of one form wait for each other: a kernel may take what comes from a browser in more than one
    thread, and two that fill the same boxes at once would mix what they fill in.

    >>> turns = Turns()
    >>> add = turns(lambda a, b: a + b)
    >>> add(1, 2)
    3
    """

    def __init__(self) -> None:
        self._lock = RLock()

    def __call__(self, do: Callable) -> Callable:
        """The same function, run when no other of these runs."""

        @wraps(do)
        def alone(*given):
            with self._lock:
                return do(*given)

        return alone


class LineBoxes(widgets.VBox):
    """The boxes of one line, a button that takes it out where it can be, and what is wrong with it in words."""

    def __init__(self, group: Group, typed: Callable, take_out: Callable | None, line: Line) -> None:
        self.group, self.kept = group, line.get(KEPT, "")
        self.boxes = {field.key: _box(field, line[field.key]) for field in group.fields}
        for box in self.boxes.values():
            box.observe(typed, "value")
        self.taker = button("×", lambda _: take_out(self) if take_out else None, "qm-take")
        self.note, self.picture = widgets.HTML(), widgets.HTML()
        row = [*self.boxes.values(), *([self.taker] if take_out else [])]
        if group.key == "block":
            row.append(self.picture)
        super().__init__([widgets.HBox(row).add_class("qm-row"), self.note])
        self.add_class("qm-line")

    @property
    def values(self) -> Line:
        """What is typed in it."""
        return {key: box.value for key, box in self.boxes.items()} | {KEPT: self.kept}

    def put(self, line: Line) -> None:
        """Put these values into its boxes."""
        self.kept = line.get(KEPT, "")
        for key, box in self.boxes.items():
            if isinstance(box, widgets.Dropdown) and line[key] not in box.options:
                box.options = [*box.options, line[key]]  # a wrong word in a file is shown, and named
            box.value = line[key]

    @property
    def shown(self) -> bool:
        """Whether it is one of the pattern's lines: not taken out, and no spare one."""
        return self.layout.display != "none"

    @shown.setter
    def shown(self, yes: bool) -> None:
        self.layout.display = None if yes else "none"

    def focus_first(self) -> None:
        """Put the keyboard's place into its first box."""
        next(iter(self.boxes.values())).focus()

    def lay_out(self, columns: list[Field], number: int, units: str, many: bool) -> None:
        """Show these fields, each named for this line in a pattern of these units."""
        place = f"{self.group.title}, line {number}" if many else self.group.title
        begun = many and fields.says(self.group, self.values)  # an example beside what is typed looks like it
        for field in self.group.fields:
            box = self.boxes[field.key]
            box.layout.display = None if field in columns else "none"
            needed = not many or field.fits(self.values) or fields.says(self.group, self.values, field.key)
            box.layout.visibility = None if needed else "hidden"  # its column stays
            spoken = f'<span class="qm-spoken">, {escape(place)}</span>'
            box.description = escape(field.label_in(units)) + spoken
            if not field.choices:
                box.placeholder = "" if begun else field.example_in(units)
        self.taker.tooltip = f"Take out {place}"
        if number == 1:
            self.remove_class("qm-later")
        else:
            self.add_class("qm-later")

    def mark(self, keys: dict[str, str], notes: str) -> None:
        """Mark boxes by key, each as "wrong", "stop", "ask" or "note", and say why below the line (HTML)."""
        for key, box in self.boxes.items():
            wanted = f"qm-{keys[key]}" if key in keys else None
            classes = [name for name in box._dom_classes if name not in ("qm-wrong", "qm-stop", "qm-ask", "qm-note")]
            box._dom_classes = [*classes, *([wanted] if wanted else [])]
        self.note.value = notes


class Section(widgets.VBox):
    """One group of fields: its title, the lines that the pattern has, and what else it may have."""

    def __init__(self, group: Group, typed: Callable, taken_out: Callable, turns: Turns) -> None:
        self.group, self._typed, self._taken_out, self._turns = group, typed, taken_out, turns
        self.asked: frozenset[str] = frozenset()
        self.units = "in"
        self.lines = widgets.VBox()
        self.adder = button("Add a line", turns(lambda _: self.add()), "qm-small")
        self.adder.tooltip = f"Another line of {group.title}"
        self.more = widgets.Dropdown(
            options=[("More fields …", "")],
            description=f"More fields of {group.title}",
            layout=widgets.Layout(width="11em"),
        ).add_class("qm-more")
        self.more.observe(turns(lambda change: self.ask_for(change["new"])), "value")
        title = widgets.HTML(f"<h3>{escape(group.title)}</h3>")
        below = widgets.HBox([*([self.adder] if group.many else []), self.more])
        super().__init__([title, self.lines, below])
        self.add_class("qm-section")
        self.add_class(f"qm-{group.key.replace('.', '-') or 'pattern'}")
        self._spare()

    @property
    def shown_lines(self) -> list[LineBoxes]:
        """The lines that the pattern has."""
        return [line for line in self.lines.children if line.shown]

    @property
    def values(self) -> list[Line]:
        """What is typed in its lines; a blank line where there is none."""
        return [line.values for line in self.shown_lines] or [fields.blank(self.group)]

    def fill(self, lines: list[Line], open_: bool) -> None:
        """Show these lines; of a group that not every pattern has a blank one only if it is to stand `open_`."""
        wanted = [line for line in lines if open_ or fields.says(self.group, line)]
        while len(self.lines.children) <= len(wanted):
            self._spare()
        for box, line in zip(self.lines.children, wanted):
            box.put(line)
            box.shown = True
        for box in self.lines.children[len(wanted) :]:
            box.put(fields.blank(self.group))
            box.shown = False
        self.asked = frozenset()

    def add(self) -> None:
        """One more line, with the keyboard's place in its first box."""
        line = self.lines.children[-1]
        line.shown = True
        self._spare()
        self.lay_out()
        line.focus_first()

    def ask_for(self, key: str) -> None:
        """Show a field that few patterns need, with the keyboard's place in it."""
        if key and self.shown_lines:
            self.asked |= {key}
            self.lay_out()
            next((line for line in self.shown_lines if _fits(line, key)), self.shown_lines[0]).boxes[key].focus()

    def lay_out(self) -> None:
        """Show what its lines have, and offer the rest."""
        lines = self.shown_lines
        columns = fields.shown_fields(self.group, [line.values for line in lines], self.asked)
        for number, line in enumerate(lines, 1):
            # blocks stand beside their pictures and are no table: each has the fields of its own
            own = fields.shown_fields(self.group, [line.values], self.asked) if self.group.key == "block" else columns
            line.lay_out(own, number, self.units, self.group.many)
        hidden = self._hidden()
        options = [("More fields …", ""), *((field.label_in(self.units), field.key) for field in hidden)]
        if list(self.more.options) != options:
            self.more.options = options
        self.more.layout.display = None if hidden else "none"
        self.layout.display = None if lines else "none"

    def offer(self, names: Callable[[str], list[str]]) -> None:
        """Offer the names typed elsewhere in each box that takes one; `names` gives those of fabrics, parts, blocks."""
        for line in self.shown_lines:
            for field in self.group.fields:
                if field.offers and isinstance(line.boxes[field.key], widgets.Combobox):
                    line.boxes[field.key].options = tuple(names(field.offers))

    def _hidden(self) -> list[Field]:
        """The fields that fit a line of it and are not shown."""
        values = [line.values for line in self.shown_lines]
        columns = fields.shown_fields(self.group, values, self.asked)
        every = fields.shown_fields(self.group, values, frozenset(field.key for field in self.group.fields))
        return [field for field in every if field not in columns]

    def _spare(self) -> None:
        can_go = self.group.many or self.group.one
        line = LineBoxes(
            self.group, self._typed, self._turns(self._take_out) if can_go else None, fields.blank(self.group)
        )
        line.shown = False
        self.lines.children = (*self.lines.children, line)

    def _take_out(self, line: LineBoxes) -> None:
        number = self.shown_lines.index(line)
        line.shown = False
        self.lay_out()
        after = self.shown_lines[number : number + 1] or self.shown_lines[-1:]
        (after[0].taker if after else self.adder).focus()
        self._taken_out(self, line, number + 1)


def _fits(line, key):
    return next(field for field in line.group.fields if field.key == key).fits(line.values)


def button(words: str, do: Callable, look: str = "") -> widgets.Button:
    """A button with these words."""
    made = widgets.Button(description=words, layout=widgets.Layout(width="auto"))
    made.on_click(do)
    return made.add_class(look) if look else made


def _box(field: Field, value: str) -> widgets.DOMWidget:
    """The box of a field, labelled above it."""
    layout = widgets.Layout(width=WIDE.get(field.key, USUAL_WIDTH))
    told = {"description": field.label, "description_allow_html": True, "layout": layout}
    if field.choices:
        options = list(dict.fromkeys((*field.choices, value)))
        return widgets.Dropdown(options=options, value=value, **told).add_class("qm-field")
    if field.lines > 1:
        return widgets.Textarea(value, rows=field.lines, placeholder=field.example, **told).add_class("qm-field")
    if field.offers and field.key not in ("parts", "strips", "frame", "strip"):
        return widgets.Combobox(value=value, placeholder=field.example, **told).add_class("qm-field")
    return widgets.Text(value, placeholder=field.example, **told).add_class("qm-field")


def boxes_of(sections: dict[str, Section]) -> Iterator[tuple[str, int, LineBoxes]]:
    """Every line that is shown: its group's key, its number from 0, its boxes."""
    for key, section in sections.items():
        for number, line in enumerate(section.shown_lines):
            yield key, number, line
