"""The pattern sheet: what a printed pattern says, typed into a TOML file a person can read.

    sheet = pattern.read("data/patterns/sound/library-lap-quilt.toml")

`sheet.py` has the model (what may be said), `reading.py` reads a file and explains what is wrong in it, with its line,
`writing.py` writes a sheet back as text, `comments.py` keeps what stands above its tables, `editing.py` edits the text
it was read from, `drafting/` drafts a sheet from the text of a printed page.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from .editing import edited
from .reading import Unreadable, read, read_text, tables
from .sheet import Sheet, json_schema
from .writing import as_data, changed, text, toml

if TYPE_CHECKING:
    from .drafting import Draft, page_text
    from .drafting.drafted import draft

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

_LATER = "Draft", "draft", "page_text"  # of drafting, which compiles a whole grammar


def __getattr__(name):
    if name in _LATER:
        return getattr(import_module(f"{__name__}.drafting"), name)
    raise AttributeError(f"quiltmath.pattern has no part called {name!r}; it has {', '.join(__all__)}")
