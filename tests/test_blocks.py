"""Blocks: the grid of letters, the drawing and the sewn cloth say the same."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quiltmath import blocks

from . import cloth_regions

EXACT = 1e-9  # inches: float noise of a few dozen seams
LETTERS = st.sampled_from("ABC")
UNITS = st.one_of(
    LETTERS,
    st.tuples(LETTERS, LETTERS).map("/".join),
    st.tuples(LETTERS, LETTERS).map("\\".join),
    st.tuples(LETTERS, LETTERS, LETTERS, LETTERS).map(":".join),
)


@st.composite
def grids(draw):
    """A grid of one to four units a side, as text, and its finished size."""
    count = draw(st.integers(1, 4))
    rows = [[draw(UNITS) for _ in range(count)] for _ in range(count)]
    return " | ".join(" ".join(row) for row in rows), Fraction(draw(st.integers(8, 24)) * count, 8)


def same_cloth(block):
    """Square inches where the sewn block shows another fabric than its drawing."""
    return cloth_regions.unlike(
        cloth_regions.of_panel(block.panel().bind()), cloth_regions.of_drawing(block.polygons())
    )


class TestSewn:
    @pytest.mark.parametrize("name", blocks.names())
    def test_a_traditional_block_is_sewn_as_it_is_drawn(self, name):
        block = blocks.named(name)
        panel = block.panel()
        assert panel.size == pytest.approx((float(block.size) + 0.5,) * 2, abs=EXACT)
        assert same_cloth(block) < cloth_regions.SLIVER
        assert len(panel.patches) == block.pieces == sum(patches.count for patches in block.patches())
        assert {edge.grain for edge in panel.raw_edges()} == {"straight"}
        assert panel.depths().min() >= 0.25 - EXACT

    @given(grids())
    def test_any_grid_is_sewn_as_it_is_drawn(self, grid):
        block = blocks.read(grid[0], size=grid[1])
        assert block.panel().size == pytest.approx((float(grid[1]) + 0.5,) * 2, abs=EXACT)
        assert same_cloth(block) < cloth_regions.SLIVER

    @given(grids())
    def test_a_drawing_covers_its_square_once(self, grid):
        block = blocks.read(grid[0], size=grid[1])
        drawn = cloth_regions.of_drawing(block.polygons())
        assert sum(region.area for region in drawn.values()) == pytest.approx(float(block.size) ** 2)

    def test_columns_and_rows_of_different_widths(self):
        block = blocks.read("A B A | C C C | A B A", widths=["1 1/2", 4, "1 1/2"], heights=[3, 1, 3])
        assert (block.size, block.panel().size) == (7, pytest.approx((7.5, 7.5)))
        assert same_cloth(block) < cloth_regions.SLIVER

    def test_a_seam_of_another_width(self):
        assert blocks.named("ohio-star").panel(Fraction(3, 8)).size == pytest.approx((9.75, 9.75))


class TestReading:
    def test_named_fabrics_sizes_and_names(self):
        star = blocks.named("sawtooth-star", size="9", fabrics={"A": "cream", "B": "rust", "C": "navy"})
        assert star.fabrics() == ("cream", "rust", "navy")
        assert (star.size, star.widths[0]) == (9, Fraction(9, 4))
        assert star.part("square") == "sawtooth-star: square"

    @pytest.mark.parametrize(
        "grid, extra, said",
        [
            ("", {"size": 6}, "a block has at least one unit; got none"),
            (
                "A B | A",
                {"size": 6},
                "every row of a block has as many units as the first; row 2 has 1 and row 1 has 2",
            ),
            ("A/B/C", {"size": 6}, "a unit is A, A/B, A\\B or A:B:C:D; got 'A/B/C'"),
            ("A:B", {"size": 6}, "a unit is A, A/B, A\\B or A:B:C:D; got 'A:B'"),
            ("A?", {"size": 6}, "a unit is A, A/B, A\\B or A:B:C:D; got 'A?'"),
            ("A", {}, "give one of the two"),
            ("A", {"size": 6, "widths": [6]}, "give one of the two"),
            ("A", {"size": 0}, "block must be more than 0 in; got 0 in"),
            (
                "A B | A B",
                {"widths": [1, 2], "heights": [2, 2]},
                "a block is square; its widths add up to 3 in and its heights to 4 in",
            ),
            (
                "A B | A B",
                {"widths": [1, 2, 3]},
                "a block of 2 columns and 2 rows needs as many widths and heights; got 3 and 3",
            ),
            (
                "A/B A | A A",
                {"widths": [1, 2], "heights": [2, 1]},
                "a unit of triangles is square; got 1 x 2 in",
            ),
        ],
    )
    def test_a_grid_that_cannot_be_is_refused(self, grid, extra, said):
        with pytest.raises(ValueError) as refused:
            blocks.read(grid, **extra)
        assert said in str(refused.value)

    def test_an_unknown_block_is_refused_with_the_known_ones(self):
        with pytest.raises(ValueError, match="the kit has no block called 'wheel'; it has broken-dishes, four-patch"):
            blocks.named("wheel")

    def test_plain_blocks(self):
        assert blocks.as_block("9").is_plain and not blocks.named("pinwheel").is_plain
        assert blocks.plain("9 1/2", "navy").polygons() == [("navy", [(0.0, 0.0), (9.5, 0.0), (9.5, 9.5), (0.0, 9.5)])]
