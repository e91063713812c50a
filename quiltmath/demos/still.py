"""A picture that needs no running kernel: PNG with alt text, in a notebook and in whatever shows its file."""

from base64 import b64encode
from dataclasses import dataclass
from html import escape
from typing import Any


@dataclass(frozen=True, eq=False)
class Still:
    """A Picture or Board with its sentence, shown by a notebook as PNG with alt text and readable before it is run."""

    picture: Any
    sentence: str = ""
    width: int = 860
    height: int | None = None

    def png(self) -> bytes:
        """The picture as PNG bytes."""
        from ..draw import png

        return png(self.picture, self.width, self.height)

    def html(self) -> str:
        """The picture as an HTML image with its alt text."""
        return self._image(self.png())

    def _image(self, data):
        alt = escape(self.picture.alt)
        return f'<img alt="{alt}" width="{self.width}" src="data:image/png;base64,{b64encode(data).decode()}">'

    def _repr_mimebundle_(self, include=None, exclude=None):
        """PNG with its alt text in the metadata, which file viewers read, and in HTML, which JupyterLab
        shows."""
        data, alt = self.png(), self.picture.alt
        return (
            {"text/html": self._image(data), "image/png": data, "text/plain": self.sentence or alt},
            {"image/png": {"alt": alt, "width": self.width}},
        )
