"""Pictures made from models: sewn panels, plans, findings and proofs show what the models hold."""

from typing import ClassVar

import numpy as np
import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from quiltmath import blocks, lengths, proofs, settings, sewing
from quiltmath.draw import (
    Board,
    Lines,
    Marks,
    Repeat,
    Shapes,
    finding_picture,
    panel_picture,
    plan_picture,
    proof_pictures,
    svg,
)
from quiltmath.draw.panels import finished_layers, outlines
from quiltmath.resources import folder

from .sheets import reviewed_file

FAULTY = [pytest.param(path, id=path.stem) for path in sorted((folder("data") / "patterns/faulty").glob("*.toml"))]


def layer(picture, role):
    return next((one for one in picture.layers if getattr(one, "role", None) == role), None)


def four_by_four():
    squares = [sewing.patch(size=(2, 2), fabric=fabric) for fabric in ("navy", "gold")]
    rows = [sewing.in_a_row([squares[(i + j) % 2] for i in range(4)]) for j in (0, 1)]
    return sewing.in_a_row(rows * 2, mine="top", theirs="bottom")


class TestPanels:
    def test_a_half_shows_its_bias_its_lost_points_and_its_finished_line(self):
        half, _ = four_by_four().cut((0, 0), (6.5, 6.5))
        picture = panel_picture(half, show=("seams", "edges", "finished", "lost points", "kept points"))
        (edge,) = layer(picture, "bias edge").paths
        assert np.hypot(*np.subtract(*edge)) == pytest.approx(6.5 * 2**0.5)
        assert len(layer(picture, "lost point").points) == 3 and len(layer(picture, "kept point").points) == 3
        assert "9 3/16 in on the bias; 3 points lost." in picture.alt

    def test_each_fabric_is_drawn_with_all_its_cloth(self):
        block = four_by_four()
        picture = panel_picture(block, show=())
        for role, area in (("blue", 0.0), ("yellow", 0.0)):
            drawn = sum(Polygon(one).area for one in layer(picture, role).polygons)
            fabric = layer(picture, role).label
            assert (
                drawn == pytest.approx(sum(Polygon(one.polygon).area for one in block.patches if one.fabric == fabric))
                and drawn > area
            )

    def test_the_outline_is_that_of_all_the_cloth_and_the_finished_line_lies_a_seam_inside(self):
        """Shapely's union and its mitred inner offset."""
        half, _ = four_by_four().cut((0, 0), (6.5, 6.5))
        for panel in (four_by_four(), half, half.turn(30)):
            cloth = unary_union([Polygon(one.polygon).buffer(1e-9) for one in panel.patches])
            (loop,) = outlines(panel)
            assert Polygon(loop).symmetric_difference(cloth).area < 1e-5
            (line,) = finished_layers(panel)[0].paths
            inside = Polygon(loop).buffer(-0.25, join_style="mitre")
            assert Polygon(line).symmetric_difference(inside).area < 1e-5

    def test_bound_cloth_has_no_raw_edge_and_remembers_what_was_lost(self):
        half, _ = four_by_four().cut((0, 0), (6.5, 6.5))
        picture = panel_picture(half.bind(), show=("edges", "finished", "lost points"))
        assert layer(picture, "bias edge") is None and layer(picture, "finished line") is None
        assert len(layer(picture, "lost point").points) == 3 and "no raw edge; 3 points lost." in picture.alt

    def test_grain_arrows_lie_along_the_thread(self):
        picture = panel_picture(sewing.patch(size=(4, 4)).turn(45), show=("grain",))
        ((dx, dy),) = (np.subtract(arrow[1], arrow[0]) for arrow in layer(picture, "grain").paths[:1])
        assert abs(dx) == pytest.approx(abs(dy))

    def test_an_unknown_wish_or_an_unnamed_fabric_is_refused_in_words(self):
        with pytest.raises(ValueError, match="a panel's picture shows seams, edges, .*; got glitter"):
            panel_picture(four_by_four(), show=("glitter",))
        with pytest.raises(ValueError, match="each fabric of a panel needs a role; gold got none"):
            panel_picture(four_by_four(), fabrics={"navy": "blue"})


class TestPlans:
    @pytest.mark.parametrize("more", [{}, {"sashing": "1 1/2"}])
    def test_every_patch_is_drawn_and_together_they_fill_the_top(self, more):
        nine = blocks.read("A B A | B A B | A B A", size=9, name="nine-patch")
        plan = settings.on_point(across=3, down=4, block=nine, **more)
        picture = plan_picture(plan)
        drawn = [
            Polygon(one)
            for layer in picture.layers
            if isinstance(layer, Repeat)
            for part in layer.expanded()
            if isinstance(part, Shapes)
            for one in part.polygons
        ]
        assert sum(one.area for one in drawn) == pytest.approx(plan.size[0] * plan.size[1])
        assert f"{len(drawn)} patches" in picture.alt

    def test_fabrics_keep_their_roles_from_picture_to_picture(self):
        plan = settings.on_point(across=2, down=2, block=6)
        with pytest.raises(ValueError, match="each fabric of a plan needs a role; setting got none"):
            plan_picture(plan, fabrics={"plain": "blue"})


class TestFindings:
    @pytest.mark.parametrize("path", FAULTY)
    def test_a_finding_with_spots_is_drawn_with_each_of_them_and_an_enlarged_one(self, path):
        found = reviewed_file(path)
        for finding in found.findings:
            picture = finding_picture(found.made, finding)
            if picture is None:
                assert not len(finding.spots)
                continue
            assert svg(picture)
            if len(finding.spots):
                assert isinstance(picture, Board) and "times larger" in picture.pictures[1].title
                marks = [one for one in picture.pictures[0].layers if isinstance(one, Marks)]
                assert len(marks[-1].points) == len(finding.spots)
                assert f"{len(finding.spots)} spot" in picture.alt


class TestProofs:
    SIZES: ClassVar = {"corner": "1", "strip": "1 1/2", "usable_width": 40}

    @pytest.mark.parametrize("proof", [pytest.param(one, id=one.name) for one in proofs.every()])
    def test_every_proof_with_pictures_is_drawn_with_its_measures(self, proof):
        sizes = {**dict.fromkeys(("finished", "block", "leg", "side"), 6), **self.SIZES}
        values = {
            one.name: lengths.parse(sizes.get(one.name, 3 if one.kind == "count" else "1 1/2"))
            for one in proof.quantities
            if one.given
        }
        steps = proof.pictures(**values)
        if not steps:
            with pytest.raises(ValueError, match="has no pictures: print its steps instead"):
                proof_pictures(proof, **values)
            return
        board = proof_pictures(proof, **values)
        assert svg(board) and len(board.pictures) == len(steps)
        assert all(text in board.alt for step in steps for *_, text in step.measures)
        assert not any(isinstance(one, Lines) for picture in board.pictures for one in picture.layers)
