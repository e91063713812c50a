"""A border, as a sheet tells of it."""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from .fields import AtKey, Length, Name, Table

PAIRS = {"sides": ("left", "right"), "top": ("bottom", "top")}
"""The edges that the two pairs of a border's strips lie on."""


class Border(Table):
    """One border, from the inside out: the parts for the `sides` and for `top` and bottom, cut to length or as strips.

    `first` says which pair is sewn on first. `corner` names corner squares; `ends` says whether strips meet butted or
    mitred. `sides_length` and `top_length` are the printed lengths of what is cut from joined strips. A border without
    `sides`, or without `top`, lies on the other two edges alone; `only` names the edges of one that lies on some. A
    block in place of a part is a pieced border, written as it lies on the left or at the top: it is turned half round
    for the right and the bottom, and a pieced corner by a quarter from one to the next. A round of four `triangles`
    instead, cut once, sets what lies inside it on point (as in a medallion).
    """

    sides: Name | None = None
    sides_length: Length | None = None
    top: Name | None = None
    top_length: Length | None = None
    triangles: Name | None = None
    corner: Name | None = None
    ends: Literal["butted", "mitred"] = "butted"
    first: Literal["sides", "top"] = "sides"
    only: Annotated[list[Literal["left", "right", "top", "bottom"]], Field(min_length=1, max_length=3)] | None = None

    @model_validator(mode="after")
    def _strips_or_triangles(self):
        strips = [self.sides, self.top]
        if self.triangles is not None and any((*strips, self.corner)):
            raise ValueError("a border is made of strips or of four triangles, not of both: take one of them out")
        if self.triangles is not None and self.ends == "mitred":
            raise ValueError('a round of four triangles has no ends to mitre; got ends = "mitred": take it out')
        if self.triangles is not None:
            two_pairs = ["first", "sides_length", "top_length"]
            self.refuse(two_pairs, "a round of four triangles is not sewn on in two pairs of strips")
            self.refuse(["only"], "a round of four triangles lies on all four edges")
        if self.triangles is None and not any(strips):
            raise ValueError("a border names the strips of its sides, of its top, or of both: add sides or top")
        return self

    @model_validator(mode="after")
    def _on_edges_it_has(self):
        twice = next((edge for edge in self.only or () if self.only.count(edge) > 1), None)
        if twice is not None:
            raise AtKey("only", f"names the {twice} edge twice: name each edge once")
        for pair, name in (("sides", self.sides), ("top", self.top)):
            asked = [edge for edge in self.only or () if edge in PAIRS[pair]]
            if asked and name is None:
                raise AtKey("only", f"nothing is named for the {asked[0]}: write {pair} too, or take it out of only")
            if self.only is not None and name is not None and not asked:
                raise AtKey(pair, f"only leaves out {' and '.join(PAIRS[pair])}: take {pair} out, or name one of them")
        if self.triangles is None and len(self.edges) < 4:
            self.refuse(["corner"], "only a border on all four edges has corners")
            if self.ends == "mitred":
                raise AtKey("ends", "only a border on all four edges is mitred: take ends out")
        if self.triangles is None and None in (self.sides, self.top):
            self.refuse(["first"], "one pair of strips alone is not sewn on before another")
        return self

    @property
    def edges(self) -> tuple[str, ...]:
        """The edges it lies on, of "left", "right", "bottom" and "top"."""
        named = [edge for pair, edges in PAIRS.items() if getattr(self, pair) is not None for edge in edges]
        return tuple(edge for edge in named if self.only is None or edge in self.only)

    @property
    def pairs(self) -> list[str]:
        """The pairs it has strips of, "sides" and "top"."""
        return [pair for pair in PAIRS if self.on(pair)]

    def on(self, pair: str) -> int:
        """On how many edges of a pair it lies: of "sides", the left and the right, or of "top", the top and bottom."""
        return sum(edge in PAIRS[pair] for edge in self.edges)

    @property
    def parts(self) -> list[str]:
        """The names of its parts, each as often as the border takes it."""
        if self.triangles is not None:
            return [self.triangles] * 4
        strips = [self.sides] * self.on("sides") + [self.top] * self.on("top")
        return [name for name in (*strips, *[self.corner] * 4) if name is not None]
