"""Sewn cloth against an independent model: the same steps on Shapely polygons, with raw edges found by brute
force."""

from functools import partial

import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, assume, event, given, settings
from shapely.geometry import LineString, Point, Polygon

from quiltmath.sewing import SEAM, CannotSew
from quiltmath.shapes import NEAR
from tests.cloth_model import Cloth, Refused
from tests.strategies import constructions, step_done

EXACT = 1e-9  # inches and square inches: library and model agree to this

slow = partial(settings, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def model_done(kind, cloth, *rest):
    """The model after the step `strategies.step_done` does."""
    if kind == "patch":
        return Cloth([Polygon(cloth)])
    if kind == "sew":
        other, mine, theirs, align = rest
        return cloth.sew(other, mine, theirs, SEAM, align)
    if kind == "turn":
        return cloth.turn(*rest)
    _left, _bottom, right, top = cloth.box()
    if kind == "cut":
        (x, y), (z, w), right_half = rest
        return cloth.cut((x * right, y * top), (z * right, w * top), SEAM)[right_half].laid_down()
    side, off = rest
    return cloth.trim(
        side, {"left": off, "bottom": off, "right": right - off, "top": top - off}[side], SEAM
    ).laid_down()


def both(construction):
    """The panel and the model of a construction, compared after every step; both do a step, or both refuse
    it."""
    kind, *rest = construction
    kids = [
        both(part) if isinstance(part, tuple) and part[0] in ("patch", "sew", "cut", "turn", "trim") else None
        for part in rest
    ]
    try:
        panel = step_done(kind, *(kid[0] if kid else part for kid, part in zip(kids, rest)))
    except CannotSew as problem:
        with pytest.raises(Refused):
            model_done(kind, *(kid[1] if kid else part for kid, part in zip(kids, rest)))
        event(f"refused: {kind}, {str(problem)[:20]}")
        return kids[0]
    model = model_done(kind, *(kid[1] if kid else part for kid, part in zip(kids, rest)))
    same_cloth(panel, model)
    same_losses(panel, model)
    if kind == "turn":
        same_but_turned(kids[0][0], panel, rest[1])
    before = sum(len(kid[0].lost) for kid in kids if kid)
    event(f"{kind}: {['as many', 'more', 'fewer'][(len(model.lost) > before) - (len(model.lost) < before)]} lost")
    return panel, model


def same_cloth(panel, model):
    """Patches, size, area, raw edges, meetings and depths agree; corners that all but touch are left to
    NEAR."""
    assume(not _all_but_touch(model))
    assert [len(patch.polygon) for patch in panel.patches] == [len(piece.exterior.coords) - 1 for piece in model.pieces]
    for patch, piece in zip(panel.patches, model.pieces):
        mine = Polygon(patch.polygon)
        assert mine.is_valid and mine.exterior.is_ccw
        assert shapely.hausdorff_distance(mine, piece) < EXACT
    left, bottom, right, top = model.box()
    assert panel.size == pytest.approx((right - left, top - bottom), abs=EXACT)
    assert panel.area == pytest.approx(sum(piece.area for piece in model.pieces), abs=EXACT)
    same_edges(panel, model)
    same_meetings(panel, model)


def _all_but_touch(model):
    corners = np.concatenate([np.array(piece.exterior.coords[:-1]) for piece in model.pieces])
    apart = np.hypot(*np.moveaxis(corners[:, None] - corners, -1, 0))
    return ((apart > EXACT) & (apart < 10 * NEAR)).any()


def same_edges(panel, model):
    outline = model.union().boundary
    edges = panel.raw_edges()
    total = sum(edge.length for edge in edges)
    assert total == pytest.approx(sum(np.hypot(*np.subtract(b, a)) for a, b in model.raw()), abs=EXACT)
    assert total == pytest.approx(outline.length, abs=EXACT)
    assert (
        shapely.hausdorff_distance(shapely.unary_union([LineString([e.start, e.end]) for e in edges]), outline) < EXACT
    )
    inside = sum(e.start[0] * e.end[1] - e.end[0] * e.start[1] for e in edges) / 2
    assert inside == pytest.approx(panel.area, abs=EXACT), "raw edges have their cloth on the left, all the way round"
    assert min(edges, key=lambda e: (round(e.start[1], 6), round(e.start[0], 6))).start == edges[0].start


def same_meetings(panel, model):
    outline = model.union().boundary
    found, wanted = panel.junctions(), model.junctions()
    assert len(found) == len(wanted)
    for point in wanted:
        assert min(np.hypot(*np.subtract(point, junction.point)) for junction in found) < EXACT
    for junction in found:
        depth = outline.distance(Point(junction.point))
        assert junction.depth == pytest.approx(depth, abs=EXACT)
        assert junction.lost_by == pytest.approx(max(0.0, SEAM - depth), abs=2 * NEAR)
    assert (np.diff([junction.depth for junction in found]) > -NEAR).all()


def same_losses(panel, model):
    """Every meeting that seams and cuts have taken is noted, where the model notes it and by as much."""
    assert np.sort(panel.lost_by) == pytest.approx(sorted(by for _, by in model.lost), rel=0, abs=EXACT)
    for point, by in model.lost:
        near = np.hypot(*(panel.lost - point).T) < EXACT
        assert np.isclose(panel.lost_by[near], by, rtol=0, atol=EXACT).any()


def same_but_turned(before, after, angle):
    """Turning changes where things lie and nothing else."""
    assert after.area == pytest.approx(before.area, abs=EXACT)
    assert np.allclose(after.depths(), before.depths(), rtol=0, atol=EXACT)
    assert np.array_equal(after.lost_by, before.lost_by) and len(after.seams) == len(before.seams)
    assert np.allclose((after.grains - before.grains - angle + 90) % 180, 90, rtol=0, atol=1e-9)
    assert sorted(str(edge.grain) for edge in after.raw_edges()) == sorted(
        str(edge.grain) for edge in before.raw_edges()
    )


@slow(max_examples=80)
@given(constructions())
def test_random_constructions_agree_with_the_model(construction):
    panel, _model = both(construction)
    event(f"patches: {min(len(panel.corners), 6)}")
    event(f"meetings: {min(len(panel.meets), 3)}")


@slow(max_examples=40)
@given(constructions(most=6))
def test_binding_takes_one_seam_all_round(construction):
    panel, model = both(construction)
    outline = model.union()
    whole = shapely.convex_hull(outline)
    try:
        bound = panel.bind()
    except CannotSew as problem:
        event(f"refused: {str(problem)[:30]}")
        assert whole.area - outline.area > EXACT or whole.buffer(-SEAM).area < EXACT
        return
    assert len(bound.raw) == 0 and bound.raw_edges() == [] and np.isinf(bound.depths()).all()
    if whole.area - outline.area < EXACT:
        event("a convex outline")
        assert bound.area == pytest.approx(whole.buffer(-SEAM, join_style="mitre").area, abs=EXACT)
    assert bound.area < panel.area
    with pytest.raises(CannotSew, match="bound fabric has no raw edge left: sew it before you bind it"):
        bound.edge("right")
