"""Laws of eaves and rakes of any kind: no tail, fascia, lookout, outlooker, block or barge stands in another stick."""

from __future__ import annotations

from any_roofs import one_pitch, rectangles, roof_plans
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from measured import clashes, framed, world_box
from shop import Written, with_role
from strategies import accepted, any_plans

from takeoff.plan.schema import Building

THIRTY_SECOND_IN = 1 / 32
AT_EDGES = {"fascia", "lookout", "soffit-ledger", "outlooker", "ladder-block", "barge", "end-rafter", "hip", "hip-jack"}
RANDOM_EAVES = 25


@st.composite
def eaves(draw: st.DrawFn) -> Written:
    """What a plan may say of tails, soffits and rakes."""
    cut = draw(st.sampled_from(["plumb", "square", "level", "level"]))
    tail: Written = {"cut": cut}
    roof: Written = {"tail": tail}
    if cut == "level":
        tail |= draw(st.sampled_from([{}, {"soffit_drop": 3.0}, {"soffit_drop": 6.0}]))
        roof["fascia"] = {"size": draw(st.sampled_from(["2x6", "2x8"]))}
        roof |= draw(
            st.sampled_from([{}, {"soffit": {"kind": "boxed"}}, {"soffit": {"kind": "boxed", "ledger": "2x6"}}])
        )
    if draw(st.booleans()):
        roof["barge"] = {"size": draw(st.sampled_from(["2x6", "2x8"]))}
        roof["outlookers"] = {
            "size": draw(st.sampled_from(["2x3", "2x4", "2x4", "2x6"])),
            "method": draw(st.sampled_from(["pocket", "dropped", "ladder"])),
            **draw(st.sampled_from([{}, {"spacing": 16.0}, {"spacing": 32.0}])),
        }
    return roof


@st.composite
def buildings(draw: st.DrawFn) -> Building:
    """A gable or a hip over a rectangle, with eaves and rakes of any kind, that no rule refuses."""
    written = draw(any_plans() | roof_plans(rectangles, one_pitch))
    own = draw(eaves())
    tail = {**written["roof"].get("tail", {}), **own["tail"]}
    building = Building.model_validate({**written, "roof": {**written["roof"], **own, "tail": tail}})
    assume(accepted(building))
    return building


@settings(max_examples=RANDOM_EAVES)
@given(buildings())
def test_no_stick_at_an_edge_of_a_roof_stands_in_another(building: Building) -> None:
    members = framed(building).members
    found = [(a, b) for a, b, _ in clashes(members, THIRTY_SECOND_IN) if {a.role.name, b.role.name} & AT_EDGES]
    assert found == []


@settings(max_examples=RANDOM_EAVES)
@given(buildings())
def test_nothing_of_a_boxed_eave_hangs_below_its_soffit(building: Building) -> None:
    members = framed(building).members
    for ledger in with_role(members, "soffit-ledger"):
        side = ledger.face.removesuffix(" soffit")
        low = world_box(ledger)[0][2]
        tails = [m for m in members if m.face == f"{side} slope" and m.rafter is not None]
        assert all(world_box(m)[0][2] >= low - 1e-6 for m in tails)
