"""Drawings for tests, written pair by pair (release 12, no library), and what is read from them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from takeoff.findings import Finding, PlanError
from takeoff.plan.read import WrittenPlan, read_plan

Point = tuple[float, float]
BOX: tuple[Point, ...] = ((0, 0), (360, 0), (360, 240), (0, 240))

SETTINGS = """
job: Drawn
buildings:
  - name: hut
    outline: {units: in}
    walls: {studs: 2x6, sheathing: {product: osb-7/16}}
    roof:
      shape: gable
      gables: [east, west]
      pitch: 6/12
      rafters: {size: 2x8, spacing: 16"}
      ridge: {kind: board, size: 2x10}
      fascia: {size: 2x6}
      sheathing: {field: cdx-5/8}
"""


def pairs(*values: object) -> str:
    """Codes and values, a line each."""
    return "".join(f"{value}\n" for value in values)


def line(a: Point, b: Point, layer: str = "WALLS", handle: str = "") -> str:
    named = ("5", handle) if handle else ()
    return pairs(0, "LINE", *named, 8, layer, 10, a[0], 20, a[1], 11, b[0], 21, b[1])


def light(points: Sequence[Point], layer: str = "WALLS", *, closed: bool = True, extra: Sequence[object] = ()) -> str:
    corners = [value for x, y in points for value in (10, x, 20, y)]
    return pairs(0, "LWPOLYLINE", 5, "2F", 8, layer, 90, len(points), 70, int(closed), *extra, *corners)


def heavy(points: Sequence[Point], layer: str = "WALLS") -> str:
    vertices = "".join(pairs(0, "VERTEX", 8, layer, 10, x, 20, y) for x, y in points)
    return pairs(0, "POLYLINE", 8, layer, 66, 1, 70, 1) + vertices + pairs(0, "SEQEND")


def text(words: str, at: Point, layer: str = "OPENINGS") -> str:
    return pairs(0, "TEXT", 8, layer, 10, at[0], 20, at[1], 40, 5, 1, words)


def insert(name: str, at: Point = (0, 0), *more: object, layer: str = "0") -> str:
    return pairs(0, "INSERT", 8, layer, 2, name, 10, at[0], 20, at[1], *more)


def block(name: str, inside: str, base: Point = (0, 0)) -> str:
    return pairs(0, "BLOCK", 8, 0, 2, name, 70, 0, 10, base[0], 20, base[1]) + inside + pairs(0, "ENDBLK")


def box_lines(layer: str = "WALLS") -> str:
    return "".join(line(a, b, layer) for a, b in zip(BOX, (*BOX[1:], BOX[0]), strict=True))


def drawing(entities: str, blocks: str = "", header: Sequence[object] = ()) -> str:
    head = pairs(0, "SECTION", 2, "HEADER", *header, 0, "ENDSEC") if header else ""
    held = pairs(0, "SECTION", 2, "BLOCKS") + blocks + pairs(0, "ENDSEC") if blocks else ""
    return head + held + pairs(0, "SECTION", 2, "ENTITIES") + entities + pairs(0, "ENDSEC", 0, "EOF")


def read(
    folder: Path, content: str | bytes, settings: str = SETTINGS
) -> tuple[WrittenPlan | None, tuple[Finding, ...]]:
    """What a drawing with settings gives: the plan, if it is one, and all findings."""
    (folder / "settings.yaml").write_text(settings)
    (folder / "house.dxf").write_bytes(content if isinstance(content, bytes) else content.encode())
    try:
        return read_plan(folder / "settings.yaml", folder / "house.dxf")
    except PlanError as error:
        return None, error.findings


def outline_of(folder: Path, content: str | bytes, settings: str = SETTINGS) -> tuple[Point, ...]:
    """Corners of the one building, rounded to a thousandth; fails with the findings where there is none."""
    written, findings = read(folder, content, settings)
    assert written is not None, [str(finding) for finding in findings]
    return tuple((round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in written.plan.buildings[0].outline)


def rules(findings: Sequence[Finding]) -> list[str]:
    """Rules of the findings that speak of a drawing."""
    return [finding.rule for finding in findings if finding.rule.startswith("drawing.")]
