"""Where a block puts what is in it: moved, turned, scaled, mirrored."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, radians, sin

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Affine:
    """Maps (x, y) to (a x + c y + e, b x + d y + f)."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def __call__(self, point: Point) -> Point:
        """Where a point comes to lie."""
        x, y = point
        return (self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    def after(self, first: Affine) -> Affine:
        """The map that does ``first``, then this one."""
        e, f = self((first.e, first.f))
        return Affine(
            self.a * first.a + self.c * first.b,
            self.b * first.a + self.d * first.b,
            self.a * first.c + self.c * first.d,
            self.b * first.c + self.d * first.d,
            e,
            f,
        )

    @property
    def largest_scale(self) -> float:
        """At most so much longer does a line become; a bound, not the least one."""
        return hypot(self.a, self.b) + hypot(self.c, self.d) if self._skew else max(hypot(self.a, self.b), self._up)

    @property
    def _up(self) -> float:
        return hypot(self.c, self.d)

    @property
    def _skew(self) -> bool:
        return abs(self.a * self.c + self.b * self.d) > 1e-9 * (hypot(self.a, self.b) * self._up + 1e-300)


def scaled(x: float, y: float | None = None) -> Affine:
    """Scaled along x and y."""
    return Affine(a=x, d=x if y is None else y)


def moved(x: float, y: float) -> Affine:
    """Moved."""
    return Affine(e=x, f=y)


def turned(degrees: float) -> Affine:
    """Turned counter-clockwise about the origin; by quarter turns exactly."""
    quarter, rest = divmod(degrees, 90)
    if rest:
        c, s = cos(radians(degrees)), sin(radians(degrees))
    else:
        c, s = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    return Affine(c, s, -s, c)


MIRRORED = Affine(a=-1.0)
"""What an entity drawn from behind (extrusion 0, 0, -1) has been through: x is turned round."""
