"""What keeps a panel of a sheet from being sewn."""

from __future__ import annotations

from typing import NamedTuple


class ConstructionError(NamedTuple):
    """What could not be sewn: the name of the panel, its path in the sheet, and why."""

    name: str
    path: list
    message: str


class Missing(Exception):
    """A panel needed for another could not be sewn; the trouble is noted with the first one."""
