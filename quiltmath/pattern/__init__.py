"""The pattern sheet: what a printed pattern says, typed into a TOML file a person can read.

    sheet = pattern.read("data/patterns/sound/library-lap-quilt.toml")

`sheet.py` has the model (what may be said), `reading.py` reads a file and explains what is wrong in it, with its line,
`writing.py` writes a sheet back as text, `editing.py` edits the text it was read from, `drafting/` drafts a sheet from
the text of a printed page.
"""

from .drafting import Draft, draft, page_text
from .editing import edited
from .reading import Unreadable, read, read_text, tables
from .sheet import Sheet, json_schema
from .writing import as_data, changed, text, toml

__all__ = [
    "Draft",
    "Sheet",
    "Unreadable",
    "as_data",
    "changed",
    "draft",
    "edited",
    "json_schema",
    "page_text",
    "read",
    "read_text",
    "tables",
    "text",
    "toml",
]
