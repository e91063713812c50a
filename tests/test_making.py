"""Cloth sewn from sheets, held to plain arithmetic: sizes, counts of pieces, lengths of strips."""

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quiltmath import making, pattern
from quiltmath.making import patches, pieces_needed
from quiltmath.making.needs import long_strip_lengths

from .faults import border_needs
from .planted import Figures
from .sheets import BASE, BORDERED, FOLDER, changed, demo, paths, typed

SOUND = [path for path in paths("sound") if not demo(path).get("step")]


def made(sheet):
    """A sheet's cloth; the sheet as text or as tables."""
    return making.make(pattern.read_text(sheet if isinstance(sheet, str) else typed(sheet)))


def on_point(across, down, block, sash=None, more=0.0, **setting):
    """A sheet of plain blocks on point as tables; edge triangles cut so much larger than need be (inches)."""
    inches = f"{block} in"
    side, corner = block * sqrt(2) + (1 + sqrt(2)) / 2 + more, block / sqrt(2) + (2 + sqrt(2)) / 4 + more
    data = {
        "title": "Plain",
        "seam": "1/4",
        "cut": [
            {
                "part": "block",
                "fabric": "a",
                "size": f"{block + 0.5} in",
                "finished": inches,
                "count": 2 * across * down,
            },
            {"part": "side", "fabric": "b", "size": f"{side:.5f}", "cut": "twice", "count": across + down},
            {"part": "corner", "fabric": "b", "size": f"{corner:.5f}", "cut": "once", "count": 2},
        ],
        "setting": {
            "style": "on point",
            "across": across,
            "down": down,
            "block": "block",
            "sides": {"part": "side"},
            "corners": {"part": "corner"},
            **setting,
        },
    }
    if sash is not None:
        data["cut"] += [
            {
                "part": "sash",
                "fabric": "b",
                "size": [f"{sash + 0.5} in", f"{block + 0.5} in"],
                "count": 4 * across * down,
            },
            {"part": "stone", "fabric": "a", "size": f"{sash + 0.5} in", "count": 4 * across * down},
            {"part": "strip", "fabric": "b", "strip": f"{sash + 0.5} in", "count": 40},
        ]
    return data


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
class TestSoundSheets:
    def test_it_finishes_as_its_figures_say(self, path):
        cloth = making.make(pattern.read(path))
        assert cloth.finished == pytest.approx(Figures(demo(path)).finished(), abs=0.04)

    def test_pieces_needed_are_counted_the_same_by_hand(self, path):
        needed = {part: count for part, count in pieces_needed(pattern.read(path)).items() if count}
        assert needed == {part: count for part, count in Figures(demo(path)).needed().items() if count}

    def test_no_patch_is_counted_that_is_not_sewn(self, path):
        sheet = pattern.read(path)
        strip, figures = (demo(path)["setting"].get("sashing") or {}).get("strip"), Figures(demo(path))
        names = [border.get(key) for border in figures.data.get("border", []) for key in ("sides", "top")]
        joined = 2 * sum("strip" in figures.cuts.get(name, {}) for name in names) + sum(
            map(figures.is_long, figures.drawn)
        )
        sewn, setting = making.make(sheet).top, demo(path)["setting"]
        whole = (setting.get("sashing") or {}).get("edge") == "whole"
        apart = whole and not setting["sides"].get("tip")  # a tip from a side triangle's own cloth is not counted
        tips = max(0, abs(figures.across_down[0] - figures.across_down[1]) - 1) if apart else 0
        assert patches(sheet) == len(sewn.corners) - joined - tips - (sewn.count(strip) if strip else 0)

    def test_borders_are_as_long_as_their_edges(self, path):
        cloth = making.make(pattern.read(path))
        assert cloth.top is not None
        lengths = [(strip.part, strip.length) for strip in cloth.border_strips if cloth.sheet.part(strip.part)]
        assert (
            sorted(lengths) == pytest.approx(sorted(border_needs(Figures(demo(path)))), abs=0.05)
            if not lengths
            else all(
                part == needed and length == pytest.approx(need, abs=0.05)
                for (part, length), (needed, need) in zip(sorted(lengths), sorted(border_needs(Figures(demo(path)))))
            )
        )


class TestOnPoint:
    @settings(max_examples=25)
    @given(
        st.integers(1, 4),
        st.integers(1, 4),
        st.sampled_from([3.0, 5.5, 9.0, 12.25]),
        st.sampled_from([0.0, 0.125, 0.5, 2.0]),
    )
    def test_it_finishes_at_blocks_times_root_two_whatever_the_triangles_spare(self, across, down, block, more):
        assert made(on_point(across, down, block, more=more)).finished == pytest.approx(
            (across * block * sqrt(2), down * block * sqrt(2)), abs=0.005
        )

    @settings(max_examples=20)
    @given(
        st.integers(1, 3),
        st.integers(1, 3),
        st.sampled_from([0.5, 1.0, 2.5]),
        st.sampled_from([0.0, 0.5, 2.0]),
        st.booleans(),
    )
    def test_sashes_widen_the_pitch_between_stones_or_long_strips(self, across, down, sash, more, strips):
        data = on_point(
            across,
            down,
            6.0,
            sash,
            more,
            sashing={"part": "sash", "strip" if strips else "cornerstone": "strip" if strips else "stone"},
        )
        cloth = made(data)
        assert cloth.finished == pytest.approx((across * (6 + sash) * sqrt(2), down * (6 + sash) * sqrt(2)), abs=0.005)
        assert cloth.top.count("block") == across * down + (across - 1) * (down - 1)
        assert cloth.top.count("sash") == (2 if strips else 4) * across * down == pieces_needed(cloth.sheet)["sash"]
        if strips:
            total = 2 * across * down * 6 + (2 * across * down + across + down) * sash + (across + down) / 2
            lengths = long_strip_lengths(cloth)["strip"]
            assert sum(lengths) == pytest.approx(total) and len(lengths) == across + down

    @pytest.mark.parametrize("across, down", [(1, 1), (2, 2), (2, 3), (3, 1)])
    def test_whole_cornerstones_add_the_diagonal_of_one(self, across, down):
        data = on_point(across, down, 9.0, 2.0, sashing={"part": "sash", "cornerstone": "stone", "edge": "whole"})
        data["cut"][1]["size"], data["cut"][2]["size"] = f"{11 * sqrt(2) + 1.2072:.4f}", f"{13 / sqrt(2) + 0.8536:.4f}"
        assert made(data).finished == pytest.approx(((11 * across + 2) * sqrt(2), (11 * down + 2) * sqrt(2)), abs=0.01)

    @pytest.mark.parametrize("floating", [0.25, 1.0, 2.5])
    def test_floating_blocks_leave_their_margin_all_round(self, floating):
        data = on_point(2, 3, 6.0, more=2 * floating + 0.2, floating=floating)
        assert made(data).finished == pytest.approx(
            (12 * sqrt(2) + 2 * floating, 18 * sqrt(2) + 2 * floating), abs=0.01
        )

    def test_a_large_quilt_is_sewn_whole(self):
        cloth = made(on_point(24, 30, 4.0))
        assert cloth.finished == pytest.approx((96 * sqrt(2), 120 * sqrt(2)), abs=0.005)
        assert len(cloth.top.corners) == 24 * 30 + 23 * 29 + 2 * 52 + 4


class TestBorders:
    def test_a_pieced_border_shows_its_pieces(self):
        keys = changed(
            BORDERED,
            ('sides = "long"', 'sides = "keys"'),
            (
                '[[cut]]\npart = "long"\nfabric = "cream"\nsize = ["6 1/2", "30 1/2"]',
                '[[cut]]\npart = "key"\nfabric = "cream"\nsize = ["3 1/2", "6 1/2"]',
            ),
            ("[setting]", f'[block.keys]\nrows = ["{" ".join(["key"] * 10)}"]\n[setting]'),
        )
        cloth = made(keys)
        assert cloth.finished == (36, 42) and cloth.top.count("key") == 20

    def test_a_mitred_strip_is_held_to_its_proof(self):
        cloth = made(changed(BORDERED, ('top = "short"', 'top = "short"\nends = "mitred"')))
        assert cloth.top is not None
        assert [strip.length for strip in cloth.border_strips] == pytest.approx(
            [36 + (1 + sqrt(2)) / 2, 42 + (1 + sqrt(2)) / 2][::-1]
        )


def test_review_sews_from_the_printed_sizes():
    small = made(changed(BASE, ('size = "3 1/2"', 'size = "3"'), ('finished = "6"\n', "")))
    assert small.panel("four").size == (5.5, 5.5)


def test_what_cannot_be_sewn_is_kept_with_its_reason():
    cloth = made(BASE + '[[step]]\ntrim = "setting"\nleft = 90\ngives = "nothing"\n')
    assert cloth.top is None and cloth.finished is None
    assert [trouble.name for trouble in cloth.troubles] == ["nothing"]


class TestTrianglesOfARound:
    MEDALLION = (FOLDER / "sound" / "turned-medallion.toml").read_text()

    def test_cut_large_they_are_trimmed_level_and_the_top_grows(self):
        larger = made(changed(self.MEDALLION, ('size = "11 1/2"', 'size = "12 1/2"'))).need("quilt")
        exact = made(self.MEDALLION).need("quilt")
        assert larger.size[0] - exact.size[0] == pytest.approx(1, abs=0.1)
        assert larger.raw_edges() and {edge.grain for edge in larger.raw_edges()} == {"straight"}

    def test_they_go_round_a_square(self):
        sheet = made(changed(self.MEDALLION, ("across = 1", "across = 2")))
        assert sheet.top is None
        assert "a round of four triangles goes round a square; what this one goes round finishes 27 x 15 in" in str(
            sheet.troubles[0].message
        )


def test_large_triangles_beside_halved_cornerstones_are_trimmed():
    sheet = (FOLDER / "sound" / "halved-cornerstones.toml").read_text()
    larger = changed(sheet, ('size = "14"', 'size = "16"'), ('size = "7 1/4"', 'size = "9 1/4"'))
    assert made(larger).finished == pytest.approx(made(sheet).finished, abs=0.01)


def test_a_border_is_not_sewn_to_an_edge_it_would_not_touch_all_along():
    sheet = (FOLDER / "sound" / "hourglasses-in-a-border.toml").read_text()
    uneven = made(sheet.replace('"7 1/4"', '"6 7/8"'))  # hourglasses smaller than the plain squares beside them
    assert uneven.panel("setting") is not None and uneven.top is None
    assert "a border sewn on would touch" in str(uneven.troubles[0].message)
