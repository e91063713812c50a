"""A sheet's own text edited so that it says what another sheet says: its order, its comments and its spelling stay, and
each line that changes says what it was.

`tomllib` forgets the layout, and libraries that keep it move tables that stand apart (a fabric, its cuts, the next
fabric) together; so the places of the values are looked up (`spans`) and nothing else is touched.
"""

from __future__ import annotations

import tomllib
from collections import defaultdict
from typing import TYPE_CHECKING

from .differences import Difference, aligned, differences
from .reading import Unreadable, read_text
from .spans import spans
from .spelling import key, spelled, written
from .writing import as_data, text

if TYPE_CHECKING:
    from .sheet import Sheet

WAS, NEW, MOVED = "was", "new", "moved"
LONGEST_NOTE = 200  # characters
OF_ONE_STYLE = ("edge", "around")  # keys of a setting that only one style of it has
OTHER_ROWS = ("left", "bottom", "right", "between", "columns")  # of [setting] and what is in it, besides its rows


def edited(sheet: Sheet, becomes: Sheet, comment: str = "") -> str:
    """The text that a sheet was read from, edited so that it says what another says; `comment` becomes its first lines.

    A sheet that was read from no text is written first. Refused with `Unreadable` should the edited text not say the
    same as the other sheet.

    >>> from quiltmath import pattern
    >>> from quiltmath.pattern.sheet import EXAMPLE
    >>> sheet = pattern.read_text(EXAMPLE.replace("16", "12  # squares"))
    >>> print(edited(sheet, pattern.changed(sheet, (("cut", 0, "count"), 16))).splitlines()[5])
    count = 16  # was 12; squares
    """
    draft = _Draft(sheet.source or text(sheet), sheet.units)
    for one in differences(as_data(sheet), as_data(becomes)):
        draft.change(one)
    if sheet.setting.style != becomes.setting.style:
        draft.forget_defaults(as_data(sheet))
    head = "".join(f"{f'# {line}'.rstrip()}{draft.newline}" for line in comment.splitlines())
    new = (head + draft.newline if head else "") + draft.result()
    if as_data(read_text(new, sheet.title)) != as_data(becomes):
        raise Unreadable(
            f"{sheet.place([])}: the corrections cannot be written into this text; write its values the plain way "
            "(one key = value a line), and try again"
        )
    return new


class _Draft:
    """A text with the edits that are to be made in it, by their places in the text as it was."""

    def __init__(self, source, units):
        self.spans, self.units = spans(source), units
        self.source = source
        self.newline = "\r\n" if "\r\n" in source else "\n"
        self.apart = any(
            not source[self.spans.line_start(self.spans.line_start(header.start) - 1) : header.start].strip()
            for header in self.spans.headers[1:]
        )
        self.edits = []  # (start, end, order, new text)
        self.less = defaultdict(set)  # by the path of a list or of a table in braces: the items to take out
        self.more = defaultdict(list)  # the items to put in
        self.commas = set()  # after the last item of a list that gets more
        self.notes = defaultdict(list)  # by the end of a line

    def result(self):
        """The text with everything edited."""
        for path in dict.fromkeys([*self.less, *self.more]):
            self._rejoin(path)
        for end, notes in self.notes.items():
            self._comment(end, "; ".join(dict.fromkeys(notes)))
        self.edits += [(place, place, 0, ",") for place in self.commas]
        parts, at = [], 0
        for start, end, _, new in sorted(self.edits, key=lambda edit: edit[:3]):
            parts += [self.source[at:start], new]
            at = max(at, end)
        return "".join(parts) + self.source[at:]

    def change(self, one: Difference):
        """One value changed, put in or taken out."""
        if one.new is None:
            self._take_out(one.path)
        elif one.old is None:
            self._put_in(one.path[:-1], one.path[-1], one.new)
        elif one.path in self.spans.values:
            self._respell(one.path, one.new)
        elif isinstance(one.new, list) and isinstance(one.new[0], dict):
            raise Unreadable(f"{one.path}: a list of tables becomes another")
        else:
            self._put_in(one.path[:-1], one.path[-1], one.new)

    def forget_defaults(self, said):
        """What is typed of the setting as it would be anyway, taken out: in another style it may not be said."""
        for path in [path for path in self.spans.values if path[0] == "setting" and len(path) > 1]:
            table = said
            for name in path[:-1]:
                table = table.get(name, {}) if isinstance(table, dict) else {}
            if isinstance(table, dict) and table and path[-1] in OF_ONE_STYLE and path[-1] not in table:
                self._take_out(path)

    # -- values --------------------------------------------------------------------------------------------------------

    def _respell(self, path, new):
        """A value that is there becomes another, in its own spelling."""
        old = self._value(path)
        rows = path[-1] == "rows" or path[0] == "setting" and path[-1] in OTHER_ROWS
        self._replace(path, old, spelled(old, new, self.units, rows))

    def _value(self, path):
        return tomllib.loads(f"k = {self.spans.source(path)}")["k"]

    def _replace(self, path, old, new):
        if old == new and type(old) is type(new):
            return
        if isinstance(old, list) and isinstance(new, list):
            self._replace_items(path, old, new)
            return
        place, source = self.spans.values[path], self.spans.source(path)
        self._edit(place.start, place.end, written(new, source[0]))
        self._was(place.key, place.end, source)

    def _replace_items(self, path, old, new):
        """The items of a list, one by one: what stays is not touched."""
        pairs = list(aligned([repr(one) for one in old], [repr(one) for one in new]))
        gone = {repr(old[was]): was for _, was, now in pairs if now is None}
        for place, was, now in pairs:
            if now is None:
                self.less[path].add(was)
            elif was is not None:
                self._replace((*path, was), old[was], new[now])
            elif repr(new[now]) in gone:
                self.more[path].append((place, self.spans.source((*path, gone[repr(new[now])])), MOVED))
            else:
                self.more[path].append((place, written(new[now]), NEW))

    def _rejoin(self, path):
        """A list or a table in braces with some items less and some more, each (before which number, text, note)."""
        whole, items = self.spans.values[path], self.spans.items(path)
        if items and all(map(self._alone_on_line, items)):
            for number in self.less[path]:
                self._comment_out(items[number].start, items[number].end)
            for place, source, note in self.more[path]:
                self._put_line_of_list(whole, items, place, f"{source},  # {note}")
            return
        kept = [number for number in range(len(items)) if number not in self.less[path]]
        if kept:
            self._rejoin_in_line(items, kept, self.less[path], self.more[path])
        else:
            self._edit(whole.start + 1, whole.end - 1, ", ".join(source for _, source, _ in self.more[path]))
        self._was(whole.key, whole.end, self.spans.source(path))

    def _rejoin_in_line(self, items, kept, less, more):
        """The items of a list that share a line, some of which are kept: those less with a comma of theirs, those more
        with one of their own."""
        for number in less:
            if number < kept[-1]:
                self._edit(items[number].key, items[number + 1].key, "")
            else:
                self._edit(items[number - 1].end, items[number].end, "")
        for place, source, _ in more:
            after = next((one for one in kept if one >= place), None)
            at = items[kept[-1]].end if after is None else items[after].key
            self._edit(at, at, f", {source}" if after is None else f"{source}, ")

    def _put_line_of_list(self, whole, items, place, line):
        """One more item, on a line of its own, of a list that has each on its own line."""
        beside = items[min(place, len(items) - 1)]
        start, end = self.spans.line_start(beside.start), self.spans.line_end(beside.end)
        line = self.source[start : beside.start] + line
        if place < len(items):
            self._edit(start, start, line + self.newline)
            return
        if "," not in self.source[beside.end : whole.end - 1].partition("#")[0]:
            self.commas.add(beside.end)
        self._edit(end, end, self.newline + line)

    def _alone_on_line(self, item):
        before = self.source[self.spans.line_start(item.start) : item.start]
        after = self.source[item.end : self.spans.line_end(item.end)].partition("#")[0]
        return not before.strip() and after.strip() in ("", ",")

    # -- keys and tables -----------------------------------------------------------------------------------------------

    def _take_out(self, path):
        """A key, a table or an item less; what it said stays as a comment."""
        if path[:-1] in self.spans.values:
            self.less[path[:-1]].update(self.spans.numbers(path))
            return
        deep = len(path)
        for header in self.spans.headers:
            if header.path[:deep] == path:
                self._comment_out(header.start, header.end)
        for given in self.spans.given:
            if given.path[:deep] == path:
                self._comment_out(given.start, given.end)

    def _put_in(self, parent, name, new):
        """One more key, table or item."""
        path = (*parent, name)
        if isinstance(name, int) and parent in self.spans.values:
            self.more[parent].append((name, written(new), NEW))
        elif isinstance(name, int):
            self._put_table(path, new)
        elif path in self.spans.values:  # what is left out of the plain tables for being usual may still be written
            self._respell(path, new)
        elif isinstance(new, dict) and self._is_given(path):
            for inside, value in new.items():
                self._put_in(path, inside, value)
        elif parent in self.spans.values:
            self.more[parent].append((len(self.spans.items(parent)), f"{key(name)} = {written(new)}", NEW))
        elif isinstance(new, dict):
            self._put_table(path, new)
        elif isinstance(new, list) and new and isinstance(new[0], dict):
            for one in new:
                self._put_table((*path, 0), one)
        else:
            self._put_line(parent, name, new)

    def _is_given(self, path):
        """Whether a heading or a dotted key makes a table of this path."""
        deep = len(path)
        return any(one.path[:deep] == path for one in (*self.spans.headers, *self.spans.given))

    def _put_line(self, parent, name, new):
        """One more `key = value` of a table that a heading, or dots in the keys, make."""
        headers = {header.path: number for number, header in enumerate(self.spans.headers)} | {(): -1}
        if parent in headers:
            mine = [given for given in self.spans.given if given.header == headers[parent]]
            names = [name]
        else:
            mine = [given for given in self.spans.given if given.path[: len(parent)] == parent]
            if not mine:
                self._put_table(parent, {name: new})
                return
            over = self.spans.headers[mine[-1].header].path if mine[-1].header >= 0 else ()
            names = [*parent[len(over) :], name]
        if mine:
            start, end = mine[-1].start, self.spans.line_end(mine[-1].end)
        elif parent:
            header = self.spans.headers[headers[parent]]
            start, end = header.start, self.spans.line_end(header.end)
        else:
            start = end = 0
        indent = self.source[self.spans.line_start(start) : start]
        line = f"{indent}{'.'.join(map(key, names))} = {written(new)}  # {NEW}"
        self._edit(end, end, self.newline + line if end else line + self.newline)

    def _put_table(self, path, new):
        """One more table under a heading of its own, after those of its kind or at the end."""
        many = isinstance(path[-1], int)
        names = ".".join(key(name) for name in path if not isinstance(name, int))
        near = (*path[:-1], path[-1] - 1) if many else path[:-1]
        if not many and any(one.header < 0 and one.path[: len(near)] == near for one in self.spans.given if near):
            self._put_line(path[:-1], path[-1], new)  # a heading here would take what follows without one
            return
        lines = [f"{f'[[{names}]]' if many else f'[{names}]'}  # {NEW}"]
        lines += [f"{key(name)} = {written(value)}" for name, value in new.items()]
        under = [number for number, one in enumerate(self.spans.headers) if near and one.path[: len(near)] == near]
        first = next((one.start for one in self.spans.headers if one.path == path), None)
        if many and not under and first is not None:
            start = self._with_comments(first)
            self._edit(start, start, self.newline.join(lines) + self.newline * (1 + self.apart))
            return
        end = len(self.source.rstrip())
        if under:
            last = under[-1]
            ends = [self.spans.headers[last].end, *(one.end for one in self.spans.given if one.header == last)]
            end = max(ends)
        end = self.spans.line_end(end)
        self._edit(end, end, self.newline * (1 + self.apart) + self.newline.join(lines), 2)  # after lines put in there

    def _with_comments(self, place):
        """Where the line of this place starts, or the first of the comments right above it."""
        start = self.spans.line_start(place)
        while start and self.source[self.spans.line_start(start - 1) : start].lstrip().startswith("#"):
            start = self.spans.line_start(start - 1)
        return start

    # -- text ----------------------------------------------------------------------------------------------------------

    def _edit(self, start, end, new, order=1):
        self.edits.append((start, end, order, new))

    def _was(self, start, end, source):
        """What stood there, beside what stands there now or, where that is long, above it."""
        if "\n" in source or len(source) > LONGEST_NOTE:
            self._above(start, f"{WAS}: {source}")
        else:
            self._note(end, f"{WAS} {source}")

    def _note(self, place, words):
        """A comment at the end of the line of this place."""
        self.notes[self.spans.line_end(place)].append(words)

    def _comment(self, end, words):
        start = self.spans.line_start(end)
        there = next((at for at, _ in self.spans.comments if start <= at < end), None)
        if self.spans.inside_text(end):
            self._above(start, words)
        elif there is None:
            self._edit(end, end, f"  # {words}", 0)
        else:
            blank = "" if self.source[there + 1 : there + 2] in (" ", "\t") else " "
            self._edit(there + 1, there + 1, f" {words};{blank}", 0)

    def _above(self, place, words):
        """Comments on the lines before the one of this place, or before the text that goes on there."""
        at = next((start for start, end in self.spans.texts if start < place < end), place)
        at = self.spans.line_start(at)
        lines = "".join(f"# {line.rstrip()}{self.newline}" for line in words.split("\n"))
        self._edit(at, at, lines, 0)

    def _comment_out(self, start, end):
        """The lines from one place to another become comments."""
        line, end = self.spans.line_start(start), self.spans.line_end(end)
        while line <= end:
            self._edit(line, line, f"# {WAS}: ", 0)
            line = self.source.find("\n", line) + 1 or end + 1
