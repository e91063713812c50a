"""The text of a printed page, from a file of text or a PDF."""

from __future__ import annotations

from pathlib import Path

from ...resources import shown
from ..files import Kind, contents
from .page import LONGEST, Unreadable

LARGEST = 10_000_000
"""Bytes: the largest file that is read as a printed page."""

PAGE = Kind(
    "a printed page", "one page in it (a .txt or a .pdf file)", LARGEST, "save the pages with the cutting list alone"
)


def page_text(path: str | Path) -> str:
    """The text of a printed page in a file: plain text, or a PDF whose pages hold text.

    >>> page_text("no-such-page.txt")
    Traceback (most recent call last):
    quiltmath.pattern.drafting.page.Unreadable: no-such-page.txt: there is no such file; check its name and folder
    """
    raw, name = contents(path, PAGE, Unreadable), shown(path)
    if raw.lstrip()[:5] == b"%PDF-":
        return _pdf_text(raw, name)
    return _decoded(raw, name)


def _decoded(raw, name):
    """The text of a file that is no PDF."""
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        encoding = "utf-16"
    elif b"\0" in raw:
        raise Unreadable(f"{name}: this is neither text nor a PDF; copy the text of the page into a .txt file")
    else:
        encoding = "utf-8-sig"
    try:
        return raw.decode(encoding)
    except UnicodeDecodeError:
        if encoding == "utf-16":
            raise Unreadable(f"{name}: this is not readable as text; save the page as UTF-8 text") from None
    return raw.decode("cp1252", "replace")  # what older programs save: every byte is a sign


def until_too_long(texts):
    """The texts of pages, until they are too long for a pattern: a book of hundreds takes minutes."""
    length = 0
    for text in texts:
        yield text
        length += len(text)
        if length > LONGEST:
            return


def _pdf_text(raw, name):
    """The text of a PDF, page by page."""
    import logging
    from io import BytesIO

    from pypdf import PdfReader

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)  # what it mends is no concern of a reader
    try:
        reader = PdfReader(BytesIO(raw))
        if reader.is_encrypted and not reader.decrypt(""):
            raise Unreadable(f"{name}: this PDF is locked with a password; open it and copy its text into a .txt file")
        text = "\n\n".join(until_too_long(page.extract_text() for page in reader.pages))
    except Unreadable:
        raise
    except Exception as problem:  # noqa: BLE001 - of what a damaged file makes pypdf raise there are many kinds
        locked = "crypt" in str(problem).lower()
        why = "it is locked" if locked else "it is damaged"
        raise Unreadable(f"{name}: this PDF cannot be read ({why}); copy its text into a .txt file") from None
    if not text.strip():
        raise Unreadable(
            f"{name}: this PDF holds no text, only pictures (a scan): type its cutting list, or have its text "
            "recognised first"
        )
    return text
