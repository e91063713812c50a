"""The pattern sheet: what a printed pattern says, typed into a TOML file a person can read.

    sheet = pattern.read("data/patterns/sound/lap-quilt.toml")

`sheet.py` has the model (what may be said), `reading.py` reads a file and explains what is wrong in it, with its line.
"""
from .reading import Unreadable, read, read_text
from .sheet import Sheet, json_schema

__all__ = ["Sheet", "Unreadable", "json_schema", "read", "read_text"]
