"""What a widget says and draws, as HTML for its parts: a sentence that a screen reader announces, a live picture."""

from html import escape


def said(words: str, refused: bool = False) -> str:
    """A sentence as a status line, or, where something was refused, as an alert.

    >>> said("3 < 4")
    '<p role="status" style="font-size:16px;line-height:1.5">3 &lt; 4</p>'
    """
    role, text = ("alert", f"<strong>{escape(words)}</strong>") if refused else ("status", escape(words))
    return f'<p role="{role}" style="font-size:16px;line-height:1.5">{text}</p>'


def live(picture, width, height, widget):
    """A picture as SVG, its ids those of this widget alone."""
    from ..draw import svg

    return svg(picture, width, height, ids=f"q{widget.model_id[:12]}-")
