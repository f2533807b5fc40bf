"""A part of a building's frame: what one roof and what stands under it give to the whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from takeoff.findings import Finding
from takeoff.model.face import Face
from takeoff.model.layout import LayoutLine
from takeoff.model.member import Member


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Sticks, layout lines, faces and findings. Joints are found later, over the sticks of all parts together."""

    members: tuple[Member, ...] = ()
    lines: tuple[LayoutLine, ...] = ()
    faces: tuple[Face, ...] = ()
    vent_area_sqin: float = 0.0
    """Net free area of its eaves [sq in]."""
    findings: tuple[Finding, ...] = ()

    def labelled(self, label: str) -> Part:
        """The same part, its label before every face and line that doesn't have it in its name yet."""

        def named(name: str) -> str:
            return name if label in name else f"{label} {name}"

        return replace(
            self,
            members=tuple(replace(m, face=named(m.face)) for m in self.members),
            lines=tuple(replace(line, name=named(line.name)) for line in self.lines),
            faces=tuple(replace(face, name=named(face.name), part=label) for face in self.faces),
            findings=tuple(replace(f, where=named(f.where)) for f in self.findings),
        )


def joined(parts: Sequence[Part]) -> Part:
    """Several parts as one, in their order."""
    return Part(
        members=tuple(m for part in parts for m in part.members),
        lines=tuple(line for part in parts for line in part.lines),
        faces=tuple(face for part in parts for face in part.faces),
        vent_area_sqin=sum(part.vent_area_sqin for part in parts),
        findings=tuple(f for part in parts for f in part.findings),
    )
