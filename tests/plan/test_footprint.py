from __future__ import annotations

from math import cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.schema import Building

Point = tuple[float, float]


def building(outline: list[Point], sides: list[str] | None = None) -> Building:
    return Building.model_validate(
        {
            "name": "shed",
            "outline": outline,
            "sides": sides,
            "walls": {"studs": "2x4"},
            "roof": {
                "shape": "gable",
                "gables": ["east", "west"],
                "pitch": "6/12",
                "rafters": {"size": "2x6"},
                "ridge": {"kind": "board", "size": "2x8"},
                "sheathing": {"field": "cdx-1/2"},
            },
        }
    )


@st.composite
def stars(draw: st.DrawFn) -> list[Point]:
    """Outlines counter-clockwise round the origin: corners at rising angles, none of them on a line with it."""
    count = draw(st.integers(3, 12))
    radii = draw(st.lists(st.integers(50, 500), min_size=count, max_size=count))
    return [(r * cos(radians(360 * i / count)), r * sin(radians(360 * i / count))) for i, r in enumerate(radii)]


@given(stars())
def test_clockwise_or_not_an_outline_gives_the_same_footprint(outline: list[Point]) -> None:
    names = [f"wall {i}" for i in range(len(outline))]
    turned = [outline[0], *reversed(outline[1:])]
    assert footprint(building(turned, names[::-1])) == footprint(building(outline, names))


@given(stars())
def test_every_name_stays_with_its_edge(outline: list[Point]) -> None:
    turned = outline[::-1]
    names = [f"wall {i}" for i in range(len(turned))]
    walls = footprint(building(turned, names))
    for index, name in enumerate(names):
        edge = {turned[index], turned[(index + 1) % len(turned)]}
        assert {walls.side(name).start, walls.side(name).end} == edge
    assert walls.area_sqin > 0


def test_a_rectangle_along_the_axes_is_named_by_compass_whichever_way_it_is_written() -> None:
    outline: list[Point] = [(0, 0), (0, 96), (144, 96), (144, 0)]  # clockwise, first edge in the west
    assert side_names(building(outline)) == ("west", "north", "east", "south")
    walls = footprint(building(outline))
    assert [side.name for side in walls.sides] == ["south", "east", "north", "west"]
    assert {side.name: side.normal for side in walls.sides} == {
        "south": (0, -1), "east": (1, 0), "north": (0, 1), "west": (-1, 0),
    }  # fmt: skip


@pytest.mark.parametrize(
    "outline",
    [
        [(0, 0), (144, 10), (134, 154), (-10, 144)],
        [(0, 0), (144, 0), (144, 96), (72, 96), (72, 48), (0, 48)],
        [(0, 0), (144, 0), (72, 96)],
    ],
)
def test_any_other_outline_is_named_by_number(outline: list[Point]) -> None:
    assert side_names(building(outline)) == tuple(f"side {i + 1}" for i in range(len(outline)))


def test_seen_from_outside_a_side_runs_from_left_to_right() -> None:
    walls = footprint(building([(0, 0), (144, 0), (144, 96), (0, 96)]))
    south = walls.side("south")
    assert (south.start, south.end, south.length_in) == ((0, 0), (144, 0), 144)
    assert (walls.left_of("south").name, walls.right_of("south").name) == ("west", "east")


@pytest.mark.parametrize("turn", [0, 17, 45, 90, 200])
def test_a_rectangle_is_one_however_it_is_turned(turn: int) -> None:
    c, s = cos(radians(turn)), sin(radians(turn))
    corners = [(0, 0), (144, 0), (144, 96), (0, 96)]
    turned = [(round(16 * (x * c - y * s)) / 16, round(16 * (x * s + y * c)) / 16) for x, y in corners]
    assert footprint(building(turned)).is_rectangle


def test_a_corner_out_of_square_makes_no_rectangle() -> None:
    assert not footprint(building([(0, 0), (144, 0), (144.5, 96), (0, 96)])).is_rectangle


def test_names_that_do_not_fit_the_outline_give_no_footprint() -> None:
    with pytest.raises(ValueError, match="3 names for 4 sides"):
        footprint(building([(0, 0), (144, 0), (144, 96), (0, 96)], ["a", "b", "c"]))
