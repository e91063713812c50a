"""What cannot exist is refused with its limit, before any work starts; words are asserted."""

import pytest

from quiltmath import blocks, settings

STAR = blocks.named("sawtooth-star")


@pytest.mark.parametrize(
    "asked, said",
    [
        (
            {"across": 0},
            "across is a whole number of blocks from 1 to 400; got 0: write for example across=5",
        ),
        ({"down": 2.5}, "down is a whole number of blocks from 1 to 400; got 2.5"),
        ({"across": True}, "across is a whole number of blocks"),
        ({"across": "9" * 200}, "got " + "9" * 40 + ":"),
        ({"block": 0}, "block must be more than 0 in; got 0 in"),
        ({"block": "nine"}, "a length is a whole number, a fraction or a decimal"),
        ({"block": "1/4"}, "a seam is at most half as wide as the smallest patch, 1/8 in; got 1/4 in"),
        (
            {"block": blocks.named("sixteen-patch", 1)},
            "a seam is at most half as wide as the smallest patch, 1/8 in",
        ),
        ({"sashing": "9 1/2"}, "sashing is at most as wide as the block it goes round, 9 in; got 9 1/2 in"),
        ({"sashing": -1}, "sashing must be 0 or more in; got -1 in"),
        ({"sashing": "1/4"}, "sashing finishes at least two seams wide, 1/2 in; got 1/4 in"),
        ({"frame": 10}, "a frame is at most as wide as the block inside it, 9 in; got 10 in"),
        ({"frame": "3/8"}, "a frame finishes at least two seams wide, 1/2 in; got 3/8 in"),
        (
            {"alternate": 6},
            "all blocks of a plan finish at one size; block finishes at 9 in and alternate block at 6 in",
        ),
        ({"unit": "ft"}, "unit is one of 'in', 'cm', 'mm'; got 'ft'"),
        ({"seam": 0}, "seam must be more than 0 in; got 0 in"),
    ],
)
def test_both_settings_refuse(asked, said):
    for make in (settings.on_point, settings.straight):
        with pytest.raises(ValueError) as refused:
            make(**{"across": 3, "down": 4, "block": 9, **asked})
        assert said in str(refused.value)


@pytest.mark.parametrize(
    "asked, said",
    [
        ({"floating": 7}, "blocks float by no more than the side triangle is high, 6 1/4 in here; got 7 in"),
        (
            {"floating": 1, "sashing": 1},
            (
                "sashed blocks float inside whole cornerstones only; got an edge through their "
                'middle: write edge="whole"'
            ),
        ),
        (
            {"floating": 1, "edges": "built"},
            "only plain setting triangles can be cut larger to let blocks float",
        ),
        ({"edge": "outside"}, "edge is one of 'half', 'whole'; got 'outside'"),
        ({"edges": "cut"}, "edges is one of 'plain', 'framed', 'built'"),
        ({"edges": "framed"}, 'edges="framed" goes with framed blocks'),
        ({"edges": "built", "frame": 1}, "built edges with blocks without a frame"),
        (
            {"edges": "built", "sashing": 1, "edge": "whole"},
            "with whole cornerstones they would have to be larger",
        ),
        (
            {"edges": "built", "block": STAR},
            "setting triangles are built from a block of equal squares; sawtooth-star has other units",
        ),
    ],
)
def test_on_point_refuses(asked, said):
    with pytest.raises(ValueError) as refused:
        settings.on_point(**{"across": 3, "down": 4, "block": 9, **asked})
    assert said in str(refused.value)


def test_a_huge_plan_is_refused_with_its_patch_count_before_work_starts():
    with pytest.raises(ValueError) as refused:
        settings.on_point(300, 400, blocks.named("nine-patch"))
    assert "a plan has at most 100,000 patches; this one would have 2,155,109:" in str(refused.value)
    assert settings.on_point(70, 80, blocks.named("nine-patch")).patches < 100_000
    with pytest.raises(ValueError, match="a plan has at most 100,000 patches; this one would have 1,440,000"):
        settings.straight(400, 400, blocks.named("nine-patch"))
