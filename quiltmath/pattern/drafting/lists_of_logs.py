"""The lines of a list of logs: its head, how wide all of them are, and each log with its length."""

from __future__ import annotations

from dataclasses import replace

from . import logs, pieces
from .chunks import chunked, count, opened
from .model import Reading
from .unfigured import Unfigured


class ListsOfLogs(Unfigured):
    """Reads the lists of logs of one page."""

    def _is_of_logs(self, start, end, chunks):
        """Whether a line heads a list of logs, or says how long one of them is."""
        words, outer = self.page.words(start, end), [one for one in chunks if one.kind != "note"]
        found = logs.headed(opened(chunks), self.page) or logs.headed(outer, self.page)
        below = self._on_the_line_below(words) if found else []
        if found and below and not count(below, "yards", "size", "strip", "squares", "strips"):
            self.logs, self.context.fabrics = found, ()
            self.read.understood.append(words)
            return True
        of_block = self.context.each_block and logs.is_numbered(self.page, start, end)
        of = self.logs or (logs.OF_ONE_BLOCK if of_block else None)
        number, start = logs.numbered(self.page, start, end)
        chunks = logs.log(chunked(self.page.plain, start, end), of) if of else None
        read = self._first([pieces.piece], chunks) if chunks else None
        if read is None or read.questions or len(read.entries) != 1:
            return False
        entry, first = logs.without_strips(replace(read.entries[0], words=words), of, self.read, self.page)
        name = f"log {number}" if number else ""
        entry = replace(entry, words=self.page.words(first, end), name=name)
        if of is logs.OF_ONE_BLOCK and not self.context.blocks:
            self.read.of_one_block.append(entry)
            self.context.strips = ()
        else:
            self._take(Reading((entry,)))
        return True

    def _is_of_strips_of_logs(self, start, end, chunks):
        """Whether a line counts logs of a length, cut from strips of its fabric that are told to be cut into logs."""
        fabric = self.context.fabrics[0] if len(self.context.fabrics) == 1 else ""
        if self.log_strips is None or not fabric:
            return False
        whole = [
            one
            for one in self.read.entries
            if one.table == "cut" and not one.role and {*one.data} == {"fabric", "strip", "count"}
            if one.data["fabric"] == fabric
        ]
        strips = self.log_strips.get(fabric) or (whole[0] if len(whole) == 1 else None)
        told = logs.of_strips(chunks, strips) if strips else None
        read = self._first([pieces.piece], told[1]) if told else None
        if read is None or read.questions or len(read.entries) != 1:
            return False
        entry = replace(read.entries[0], words=self.page.words(start, end), name=told[0].upper())
        self._take(Reading((entry.noted(f"cut from {strips.data['count']} strips {strips.data['strip']}"),)))
        self.log_strips[fabric] = strips
        if strips in whole:
            self.read.put(strips)
        return True

    def _is_of_all_logs(self, start, end, words):
        """Whether a sentence says how wide all logs are that are counted below it."""
        found = logs.all_so_wide(self.page, start, end) if self.context.section != "sewing" else None
        if found:
            self.logs, self.context.fabrics = found, ()
            self.read.understood.append(words)
        return found is not None
