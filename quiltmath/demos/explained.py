"""A proof on the page: its steps in words and equations, its results at given values, and its pictures."""

from dataclasses import dataclass
from html import escape
from typing import Any

from .still import Still


@dataclass(frozen=True, eq=False)
class Explained:
    """A proof told for a notebook; without a browser it is the plain text of `Proof.printed`."""

    proof: Any
    values: dict[str, Any]
    width: int = 860
    height: int = 520

    def html(self) -> str:
        """The proof as HTML, folded: question, pictures with alt text, steps in words; the equations and a table of
        results are folded once more."""
        words = "".join(f"<li>{escape(step.words)}</li>" for step in self.proof.steps)
        steps = "".join(f"<li>{escape(step.words)}{_equations(step.lines)}</li>" for step in self.proof.steps)
        equations = _folded("The same in equations", f"<ol>{steps}</ol>{self._results()}")
        return (
            '<div style="font-size:max(16px,0.9em);line-height:1.5;max-width:62em">'
            + _folded(
                f"Show why: {self.proof.title}",
                f"<p>{escape(self.proof.question)}</p>{self._pictures()}<ol>{words}</ol>{equations}",
            )
            + "</div>"
        )

    def _pictures(self):
        from ..draw import roomiest
        from ..draw.told import proof_pictures

        if not self.proof.pictures(**self.values):
            return ""
        board = roomiest(proof_pictures(self.proof, **self.values), self.width, self.height)
        return Still(board, width=self.width, height=self.height).html()

    def _results(self):
        from ..proofs.printing import figure
        from ..proofs.writing import written

        units = {one.name: " in" if one.kind == "length" else "" for one in self.proof.quantities}
        given = ", ".join(f"{name} = {value}{units.get(name, '')}" for name, value in self.values.items())
        rows = "".join(
            f'<tr><th scope="row" style="text-align:left">{escape(measure.name)}</th>'
            f'<td style="text-align:left">{escape(written(measure.formula))}</td>'
            f'<td style="text-align:left">{escape(self._number(measure, figure))}</td></tr>'
            for measure in self.proof.measures.values()
        )
        head = "".join(
            f'<th scope="col" style="text-align:left">{escape(name)}</th>'
            for name in ("what", "formula", f"with {given}")
        )
        return f'<table style="font-size:max(16px,0.9em)"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>'

    def _number(self, measure, figure):
        exact = self.proof.exact(measure.name, **self.values)
        return figure(exact) if measure.kind in ("cut", "length") else str(exact)

    def _repr_mimebundle_(self, include=None, exclude=None):
        return {"text/html": self.html(), "text/plain": self.proof.printed(self.values)}


def _folded(summary, html):
    """A part of a page that opens where its name is pressed, by pointer or by keyboard."""
    return (
        f'<details style="margin:0.5em 0"><summary style="cursor:pointer;padding:6px"><strong>{escape(summary)}'
        f"</strong></summary>{html}</details>"
    )


def _equations(lines):
    return "".join(f'<br><span style="margin-left:2em">{escape(line)}</span>' for line in lines)


def explain(proof: Any, **values: Any) -> Explained:
    """The proof for a notebook, to be the last line of a cell, with its numbers at these values.

    >>> from quiltmath import proofs
    >>> "8 − √2/4" in explain(proofs.half_block_loss, block=8)._repr_mimebundle_()["text/plain"]
    True
    >>> explain(proofs.half_block_loss)
    Traceback (most recent call last):
    ValueError: the numbers of half_block_loss need block: give it, for example explain(proof, block=4)
    """
    missing = [quantity.name for quantity in proof.quantities if quantity.given and quantity.name not in values]
    if missing:
        example = ", ".join(f"{name}=4" for name in missing)
        raise ValueError(
            f"the numbers of {proof.name} need {', '.join(missing)}: give it, for example explain(proof, {example})"
        )
    return Explained(proof, values)
