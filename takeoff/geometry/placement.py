"""A right-handed set of axes placed in the world."""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.geometry.vec import Vec, add, cross, dot, scale


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a face or a stick stands: its origin [in] and its first two unit axes, in world coordinates.

    World axes: x east, y north, z up, z = 0 on top of the main floor deck.
    """

    origin: Vec
    x: Vec
    y: Vec

    @property
    def z(self) -> Vec:
        """Third axis, x cross y."""
        return cross(self.x, self.y)

    def to_world(self, local: Vec) -> Vec:
        """World coordinates of a point given in these axes."""
        x, y, z = local
        return add(add(self.origin, scale(self.x, x)), add(scale(self.y, y), scale(self.z, z)))

    def from_world(self, world: Vec) -> Vec:
        """Coordinates in these axes of a point given in the world."""
        away = add(world, scale(self.origin, -1.0))
        return (dot(away, self.x), dot(away, self.y), dot(away, self.z))

    def direction_to_world(self, local: Vec) -> Vec:
        """World components of a direction given in these axes."""
        return add(scale(self.x, local[0]), add(scale(self.y, local[1]), scale(self.z, local[2])))
