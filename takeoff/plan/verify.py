"""What the schema can't see: whether the parts of a plan go together. All rules are asked, and all flaws told."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from takeoff.plan import (
    rules_backing,
    rules_clips,
    rules_dormers,
    rules_eaves,
    rules_floors,
    rules_gambrel,
    rules_lofts,
    rules_openings,
    rules_outline,
    rules_partitions,
    rules_pony,
    rules_porches,
    rules_ridge,
    rules_roof,
    rules_skylights,
    rules_slopes,
    rules_tops,
    rules_walls,
)
from takeoff.plan.flaws import Flaw
from takeoff.plan.schema import Building, Plan

Rule = Callable[[Building], Iterator[Flaw]]

RULES: tuple[Rule, ...] = (
    rules_outline.names_match,
    rules_outline.points_apart,
    rules_outline.sides_measured,
    rules_outline.not_crossing,
    rules_outline.area_enough,
    rules_openings.sides_known,
    rules_openings.under_the_plates,
    rules_openings.above_the_floor,
    rules_openings.hung_under_plates,
    rules_openings.header_in_the_wall,
    rules_partitions.names_apart,
    rules_partitions.sizes_made,
    rules_partitions.measured,
    rules_partitions.tops_in_order,
    rules_walls.by_side_known,
    rules_walls.balloon_in_gables,
    rules_walls.rake_plates_under_rakes,
    rules_walls.through_walls_known,
    rules_walls.grades_go_with_sizes,
    rules_walls.spacings_fit_sheets,
    rules_walls.sheathing_left_out,
    rules_tops.tops_where_no_rafters_stand,
    rules_pony.pony_walls_under_a_floor,
    rules_roof.roof_sides_known,
    rules_roof.tail_ripped_from_rafter,
    rules_roof.seat_bears,
    rules_roof.rake_is_carried,
    rules_roof.ridge_is_what_it_says,
    rules_ridge.over_under_gables_only,
    rules_ridge.seat_on_the_beam,
    rules_ridge.posts_under_gables_only,
    rules_ridge.ties_under_gables_only,
    rules_gambrel.slopes_break_outward,
    rules_gambrel.ridge_of_a_gambrel,
    rules_slopes.slopes_of_edges,
    rules_slopes.slopes_simple,
    rules_clips.clips_on_gables,
    rules_clips.parts_beside_clips,
    rules_clips.gablets_on_hips,
    rules_clips.gablets_with_barges,
    rules_roof.sheathing_flush,
    rules_eaves.level_cut_is_told,
    rules_eaves.boxed_over_level_tails,
    rules_porches.porch_sides_known,
    rules_porches.porch_beams_on_posts,
    rules_porches.porch_posts_placed,
    rules_dormers.dormers_on_slopes,
    rules_dormers.dormers_behind_the_wall,
    rules_dormers.dormers_wide_enough,
    rules_dormers.sheds_flatter_than_their_slope,
    rules_dormers.dormers_high_enough,
    rules_dormers.dormer_windows_fit,
    rules_skylights.skylights_in_slopes,
    rules_skylights.skylights_inside_the_wall,
    rules_skylights.skylights_clear_of_each_other,
    rules_floors.floor_sides_known,
    rules_floors.loft_names_differ,
    rules_floors.floor_grades_fit,
    rules_floors.loft_under_the_plates,
    rules_floors.outlines_sound,
    rules_floors.girders_cross,
)
"""Rules of any building."""

FOOTPRINT_RULES: tuple[Rule, ...] = (
    rules_openings.inside_their_walls,
    rules_openings.clear_of_each_other,
    rules_tops.tops_along_their_walls,
    rules_tops.steps_clear_of_openings,
    rules_pony.pony_walls_stepped,
    rules_openings.clear_of_ridge_posts,
    rules_partitions.inside_the_outline,
    rules_partitions.long_enough,
    rules_partitions.apart_from_each_other,
    rules_partitions.pieces_apart,
    rules_partitions.ends_clear_of_openings,
    rules_partitions.openings_fit,
    rules_backing.backing_in_walls,
    rules_roof.gables_over_a_rectangle,
    rules_eaves.square_tails_meet,
    rules_roof.shed_over_a_rectangle,
    rules_ridge.posts_inside,
    rules_floors.lofts_inside_the_walls,
    rules_floors.lofts_leave_a_floor,
    rules_floors.girders_inside,
    rules_floors.floor_openings_have_room,
    rules_lofts.lofts_clear_of_openings,
    rules_porches.porches_inside_their_walls,
    rules_porches.porches_clear_of_each_other,
    rules_gambrel.break_inside,
    rules_slopes.slopes_sound,
    rules_clips.clips_between_eaves,
)
"""Rules that measure along the sides, and so are asked only where the outline is sound."""


def building_flaws(building: Building) -> tuple[Flaw, ...]:
    """All flaws of one building; each ``loc`` is reckoned from the building."""
    asked = RULES + FOOTPRINT_RULES if rules_outline.outline_sound(building) else RULES
    return tuple(flaw for rule in asked for flaw in rule(building))


def job_flaws(plan: Plan, folder: Path) -> tuple[Flaw, ...]:
    """Flaws of the job as a whole, its buildings' own left out.

    Args:
        plan: the plan.
        folder: where the plan lies.
    """
    return (*_names_twice(plan), *_files_missing(plan, folder))


def _names_twice(plan: Plan) -> Iterator[Flaw]:
    """Buildings are told apart by name; capitals don't tell them apart in a list on the wall."""
    first: dict[str, int] = {}
    for index, building in enumerate(plan.buildings):
        if first.setdefault(building.name.casefold(), index) != index:
            message = f"found {building.name!r} twice, expected each building's own name"
            yield Flaw(rule="plan.name", loc=("buildings", index, "name"), message=message, found=building.name)


def _files_missing(plan: Plan, folder: Path) -> Iterator[Flaw]:
    """The lists that the settings name are files, and they do lie in the plan's folder, links followed."""
    named = (("prices", "a price list"), ("on_hand", "a list of boards on hand"))
    for key, words in named:
        name: str | None = getattr(plan.settings, key)
        if name is None:
            continue
        file = (folder / name).resolve()
        if not file.is_file() or not file.is_relative_to(folder.resolve()):
            message = f"found no file {name!r} in the plan's folder, expected {words} (CSV)"
            yield Flaw(rule="plan.prices", loc=("settings", key), message=message, found=name)
