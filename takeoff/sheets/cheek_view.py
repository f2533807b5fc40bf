"""The end of a stick seen from above: its cheek cuts across the top edge, each with its angles."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.drawing import (
    BREAK,
    DIMENSIONS,
    FIGURE_MM,
    GUIDE,
    LABEL_MM,
    MM_PER_IN,
    OUTLINE,
    Anchor,
    Arc,
    Dimension,
    Item,
    Line,
    Point,
    Polyline,
    Text,
)
from takeoff.sheets.stick_end import StickEnd, side_cut_deg

_BODY_MM = 26.0  # of the stick behind the cut
_CLEAR_MM = 3.0
_LINE_MM = 4.2
_OFFSET_MM = 6.0
_ARC_SHARE = 0.55


class TopView:
    """Records the view for one scale. ``k`` is inches of the stick to a millimetre of paper.

    x runs up the stick, y across it to the left: what the carpenter sees who looks up the stick with his head bent.
    """

    def __init__(self, end: StickEnd, one_to: float, denominator: int) -> None:
        self.end = end
        self.k = one_to / MM_PER_IN
        self.denominator = denominator
        self.out = 1.0 if end.upper else -1.0
        self.anchor: Anchor = "start" if end.upper else "end"
        self.corners: tuple[Point, ...] = tuple((x - end.long_point, -z) for x, z in end.corners())

    def items(self) -> Iterator[Item]:
        """All of it."""
        yield from self.outline()
        yield from self.faces()
        yield from self.set_back()
        yield from self.angles()

    def outline(self) -> Iterator[Item]:
        """The top edge from its cut to a break line."""
        (_, left), (_, right) = self.corners[0], self.corners[-1]
        x = self.broken_at
        yield Polyline(((x, left), *self.corners, (x, right)), OUTLINE)
        past, step = 1.5 * self.k, self.k
        zigzag = ((x, step), (x - 1.2 * step, 0.4 * step), (x + 1.2 * step, -0.4 * step), (x, -step))
        yield Polyline(((x, left + past), *zigzag, (x, right - past)), BREAK)
        yield Line((x, 0.0), (self.end.at(0.0) - self.end.long_point, 0.0), GUIDE)

    @property
    def broken_at(self) -> float:
        """Where the break line stands."""
        return -self.out * (self.end.set_back + _BODY_MM * self.k)

    def faces(self) -> Iterator[Item]:
        """Which face is which."""
        x = self.broken_at + self.out * _CLEAR_MM * self.k
        for words, y in (("left face", self.end.half / 2), ("right face", -self.end.half / 2)):
            yield Text(at=(x, y), words=words, height_mm=LABEL_MM, anchor=self.anchor, level="middle")

    def set_back(self) -> Iterator[Item]:
        """From the long point back to the corner of the shorter face, along the edge."""
        if self.end.set_back < TOLERANCE.mark:
            return  # tilted under the top edge only, as where a tail clears another roof
        left, right = self.corners[0], self.corners[-1]
        shorter = min((right, left), key=lambda corner: corner[0] * self.out)
        on_left = shorter is left
        a, b = sorted((shorter, (0.0, shorter[1])))
        yield Dimension(
            a=a,
            b=b,
            offset_mm=_OFFSET_MM if on_left else -_OFFSET_MM,
            label="set back",
            outside_at_a=self.end.upper,
            denominator=self.denominator,
        )

    def angles(self) -> Iterator[Item]:
        """For each cheek its angle across the edge and the tilt of the blade; an arc at the long point of one."""
        cuts = self.end.cheek_cuts
        said = list(dict.fromkeys((f"{abs(side_cut_deg(c)):.1f}°", f"{abs(c.bevel_deg):.1f}°") for c in cuts))
        lines = [(side, "side cut", blade) for side, blade in said]
        top = (len(lines) * 2 * _LINE_MM - (_LINE_MM - FIGURE_MM)) / 2
        x = self.out * _CLEAR_MM * self.k
        for number, (side, _, blade) in enumerate(lines):
            for row, words in enumerate((f"side cut {side}", f"blade tilted {blade}")):
                y = (top - (2 * number + row) * _LINE_MM) * self.k
                yield Text(
                    at=(x, y),
                    words=words,
                    height_mm=FIGURE_MM if row == 0 else LABEL_MM,
                    anchor=self.anchor,
                    level="top",
                    bold=row == 0,
                )
        yield from self._square_line()

    def _square_line(self) -> Iterator[Item]:
        """Square across the edge through the long point, and the arc from it to the first cheek."""
        past = 1.5 * self.k
        yield Line((0.0, self.end.half + past), (0.0, -self.end.half - past), GUIDE)
        radius = _ARC_SHARE * self.end.half
        for cut in self.end.cheek_cuts:
            toward = 1.0 if cut.normal[2] < 0 else -1.0  # it shortens the left face (y up) or the right one
            tips = [y for x, y in self.corners if abs(x) < TOLERANCE.mark]
            tip = (0.0, max(tips, key=lambda y: toward * y))
            if self.end.half - toward * tip[1] > radius:
                square = 180.0 - toward * 90.0
                turned = square + self.out * toward * abs(side_cut_deg(cut))
                yield Arc(tip, radius, min(square, turned), max(square, turned), DIMENSIONS)
                return
