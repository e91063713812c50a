"""How large a sheet may be: what is refused, with the figure that is too large, and that the largest takes no work
twice. Work is counted, never timed: `python -m tests.bench limits` measures."""

from itertools import pairwise
from unittest import mock

import numpy as np
import pytest

from quiltmath import making, pattern, review, sewing
from quiltmath.making import measures
from quiltmath.pattern import lines
from quiltmath.review import taken
from quiltmath.review.writing import FOREMOST, MOST_TOLD, foremost
from quiltmath.review.writing import text as in_words
from quiltmath.sewing import edges
from quiltmath.usual import DEEPEST, MOST_SEAMS, MOST_TABLES
from quiltmath.yardage import cutting

from .bench import limits
from .sheets import BASE, changed


def with_blocks(blocks, main="four"):
    """The small sheet with more blocks, this one its main one."""
    return changed(BASE, ("[setting]", f"{blocks}[setting]"), ('block = "four"', f'block = "{main}"'))


def in_stages(count):
    """Blocks each made of the one before, the first of "four"."""
    return "".join(f'[block.d{i}]\nrows = ["{f"d{i - 1}" if i else "four"}"]\n' for i in range(count))


def refused(text):
    """Why a sheet is refused, one line that names the place."""
    with pytest.raises(making.TooLarge) as caught:
        review.review(pattern.read_text(text, "large.toml"))
    assert str(caught.value).startswith("large.toml, line ") and str(caught.value).isprintable()
    return str(caught.value)


class TestWhatIsRefused:
    def test_blocks_in_more_stages(self):
        assert review.review(pattern.read_text(with_blocks(in_stages(DEEPEST - 1), f"d{DEEPEST - 2}"))).verdict == "go"
        for count in (DEEPEST, 140, 5000):
            said = refused(with_blocks(in_stages(count), f"d{count - 1}"))
            assert f"is made of blocks in {DEEPEST + 1} stages; at most {DEEPEST} are sewn here" in said

    def test_a_block_that_nothing_uses_counts_too(self):
        doubled = '[block.d0]\nrows = ["A A A A A A A A A A"]\n'
        doubled += "".join(f'[block.d{i}]\nrows = ["{" ".join([f"d{i - 1}"] * 10)}"]\n' for i in range(1, 6))
        assert "block 'd5' would have 1,000,000 patches; at most 100,000 are sewn here" in refused(with_blocks(doubled))

    def test_a_row_of_many_thousand_patches(self):
        row = "[" + ",\n".join(['"A"'] * 100_001) + "]"
        said = refused(with_blocks(f"[block.long]\nrows = [{row}]\n", "long"))
        assert "patches; at most 100,000 are sewn here" in said
        assert "the rows of this sheet name 100,005 parts" in refused(with_blocks(f"[block.long]\nrows = [{row}]\n"))

    def test_rows_that_are_all_different(self):
        rows = ",\n".join(
            '"' + " ".join("AB"[(place >> bit) & 1] for bit in range(40)) + '"' for place in range(MOST_SEAMS // 40 + 1)
        )
        assert f"seams; at most {MOST_SEAMS:,} are sewn here" in refused(with_blocks(f"[block.p]\nrows = [{rows}]\n"))
        same = ", ".join(['"A B A B"'] * 200)
        making.make(pattern.read_text(with_blocks(f"[block.p]\nrows = [{same}]\n")))

    def test_more_tables_than_a_cutting_list_has_lines(self):
        blocks = "".join(f'[block.u{i}]\nrows = ["A A"]\n' for i in range(MOST_TABLES))
        assert "a sheet has at most 500 [block] tables; got 501" in refused(with_blocks(blocks))

    def test_a_long_cutting_list_in_many_sizes(self):
        cuts = "".join(f'[[cut]]\npart = "p{i}"\nfabric = "navy"\nsize = 3\ncount = 1\n' for i in range(300))
        sizes = "".join(f'[[other_size]]\nname = "s{i}"\nacross = {i + 1}\n' for i in range(7))
        assert "304 lines of the cutting list in 8 sizes are 2,432; at most 2,000" in refused(BASE + cuts + sizes)

    def test_more_fabric_than_can_be_said(self):
        many = changed(BASE, ('size = "3 1/2"\ncount = 16', 'size = ["3 1/2", "40"]\ncount = 60000'))
        assert "measure 2,400,031 in end to end; at most 1,000,000 in are planned" in refused(many)

    def test_steps_that_take_a_large_top_again_and_again(self):
        top = changed(BASE, ("across = 2\ndown = 3", "across = 60\ndown = 60"))
        steps = "".join(
            f'[[step]]\nturn = "{f"s{i - 1}" if i else "setting"}"\nby = 90\ngives = "s{i}"\n' for i in range(60)
        )
        assert "patches, counted anew in each; at most 500,000 are handled here" in refused(top + steps)


def test_a_chain_of_as_many_steps_as_a_sheet_may_have_is_sewn():
    found = review.review(pattern.read_text(limits.steps()))
    assert found.made.top.count("A") == 481 and not found.made.troubles


class TestNothingIsDoneTwice:
    def test_the_text_is_looked_through_once_for_all_findings(self):
        with mock.patch.object(lines, "spans", wraps=lines.spans) as looked:
            found = review.review(pattern.read_text(limits.comments(), "long.toml"))
        assert len(found.findings) > 400 and looked.call_count == 1
        assert len({finding.where for finding in found.findings}) > 400

    def test_each_panel_is_measured_once_however_often_it_lies(self):
        doubled = "".join(f'[block.d{i}]\nrows = ["{" ".join([f"d{i - 1}" if i else "A"] * 2)}"]\n' for i in range(14))
        sheet = pattern.read_text(with_blocks(doubled, "d13"))
        with mock.patch.object(measures, "_finished", wraps=measures._finished) as worked_out:
            assert measures.finished(sheet, "d13") == (3 * 2**14, 3)
        assert worked_out.call_count == 15

    def test_a_long_cutting_list_is_planned_without_linear_programmes(self):
        sheet = pattern.read_text(limits.sizes().partition("[[other_size]]")[0])
        assert len(sheet.cut) > taken.MOST_TO_SEARCH
        cutting._planned.cache_clear()
        with mock.patch.object(cutting, "by_programmes", side_effect=AssertionError("searched")):
            plan = review.reading.Reading(sheet).plan("navy")
        assert 0 < plan.at_least <= plan.length and plan.whole


class TestNothingIsComparedEachWithEach:
    @pytest.mark.parametrize("count", [1, 3, 20_000])
    def test_distances_are_those_of_every_pair_and_few_pairs_are_measured(self, count):
        chance = np.random.default_rng(count)
        points = chance.uniform(0, 100, (count, 2))
        corners = np.array([(0, 0), (100, 0), (100, 100), (0, 100), (0, 0)], float)
        outline = np.concatenate([np.linspace(one, two, 101)[:-1] for one, two in pairwise(corners)])
        segments = np.stack((outline, np.roll(outline, -1, axis=0)), axis=1)
        pairs = []

        def counting(points, segments):
            pairs.append(len(points) * len(segments))
            return gaps(points, segments)

        gaps = edges._gaps
        with mock.patch.object(edges, "_gaps", counting):
            found = edges.distances(points, segments)
        assert np.allclose(found, gaps(points, segments).min(axis=1), rtol=0, atol=1e-12)
        assert max(pairs) <= edges.TOGETHER * len(segments)
        assert count < 20_000 or sum(pairs) < count * len(segments) / 4

    def test_three_patches_meet_where_each_pair_says_so(self):
        chance = np.random.default_rng(7)
        low = np.sort(chance.integers(0, 60, 80) / 2.0)
        high = low + chance.integers(0, 8, 80) / 2.0
        places = chance.integers(0, 70, 50) / 2.0
        near = edges.NEAR
        each = ((low <= places[:, None] + near) & (places[:, None] <= high + near)).sum(axis=1) >= 3
        assert edges.meet(places, low, high).tolist() == each.tolist()

    def test_a_line_of_a_panel_stands_out_as_far_as_its_cloth(self):
        panel = sewing.patch(size=(3, 3)).sew(sewing.patch(corners=[(0, 0), (3, 0), (0, 3)])).turn(20)
        found = panel.raw_lines
        each = (panel.corners.reshape(-1, 2) @ found.normals.T).max(axis=0) - found.limits
        assert np.allclose(edges.past(found, panel.corners), each, rtol=0, atol=1e-12)


class TestManyFindings:
    def test_of_many_findings_those_that_matter_first_are_told_and_the_rest_counted(self):
        found = review.review(pattern.read_text(limits.comments(), "long.toml"))
        words = in_words(found)
        assert f"{len(found.findings)} findings. These {FOREMOST} matter first" in words
        assert words.count("  why: ") == FOREMOST and len(words.splitlines()) < 30
        assert f"Note (piece-count): {len(found.findings) - FOREMOST} more" in words or "Besides these:" in words

    def test_few_findings_are_all_told(self):
        found = review.review(pattern.read_text(changed(BASE, ("count = 16", "count = 12"))))
        assert 0 < len(found.findings) <= MOST_TOLD and "matter first" not in in_words(found)
        assert in_words(found).count("  why: ") == len(found.findings)

    def test_causes_come_first_and_of_one_check_what_most_pieces_depend_on(self):
        squares = 'part = "A"\nfabric = "navy"\nsize = "3 1/2"\ncount = '
        few = changed(BASE, (f"{squares}16", f"{squares}12"))
        fewer = changed(few, ('size = "9 3/4"\ncount = 2', 'size = "9 3/4"\ncount = 1'))
        first = foremost(review.review(pattern.read_text(fewer)))
        assert [one.check for one in first[:2]] == ["piece-count", "piece-count"]
        assert [sorted(one.parts) for one in first[:2]] == [["A"], ["side"]]
