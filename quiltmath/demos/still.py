"""A picture that needs no running kernel: SVG where a page can scale it, else PNG with alt text."""

from dataclasses import dataclass
from typing import Any

from ..draw.fitted import Place
from ..draw.svg_writer import page_svg

PHONE = 560, 900  # px
STYLE = (
    ".quiltmath-still{container-type:inline-size;width:100%;max-width:1160px;background:#fff}"
    ".quiltmath-still svg{display:block;width:100%;height:auto}"
    ".quiltmath-narrow{display:none}"
    "@container (max-width:840px){.quiltmath-wide{display:none}.quiltmath-narrow{display:block}}"
)


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
        """The picture as HTML that takes the width of its place, laid out for a wide one and for a narrow one, of which
        a browser shows one."""
        wide = page_svg(Place(self.width, self.height).page(self.picture), scaled=True)
        narrow = page_svg(Place(*PHONE).page(self.picture), scaled=True)
        return (
            f"<style>{STYLE}</style><div class='quiltmath-still'><div class='quiltmath-wide'>{wide}</div>"
            f"<div class='quiltmath-narrow'>{narrow}</div></div>"
        )

    def _repr_mimebundle_(self, include=None, exclude=None):
        """PNG with its alt text in the metadata, which file viewers read, and HTML, which JupyterLab shows."""
        data, alt = self.png(), self.picture.alt
        return (
            {"text/html": self.html(), "image/png": data, "text/plain": self.sentence or alt},
            {"image/png": {"alt": alt, "width": self.width}},
        )
