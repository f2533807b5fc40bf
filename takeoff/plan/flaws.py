"""A flaw: what one rule found in one place of the plan, before the file and line are known."""

from __future__ import annotations

from dataclasses import dataclass, replace

from takeoff.findings import Finding, Severity
from takeoff.plan.tree import Loc, Node, spot_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Flaw:
    """Something wrong, doubtful or worth saying about the value at ``loc``."""

    rule: str
    loc: Loc
    message: str
    severity: Severity = Severity.ERROR
    found: str = ""
    limit: str = ""
    at_key: bool = False
    """The key is meant, not its value: it is the key that stands out in its block."""

    def under(self, loc: Loc) -> Flaw:
        """The same flaw, its ``loc`` reckoned from further up."""
        return replace(self, loc=(*loc, *self.loc))

    def finding(self, file: str, root: Node) -> Finding:
        """The flaw as a finding, with its line and column in the file."""
        spot = spot_of(root, self.loc, at_key=self.at_key)
        path = self.loc[:-1] if self.at_key else self.loc
        return Finding(
            rule=self.rule,
            severity=self.severity,
            message=self.message,
            place=spot.place(file, path_text(path)),
            found=self.found,
            limit=self.limit,
        )


def path_text(loc: Loc) -> str:
    """A path in the plan, such as ``buildings[0].roof.pitch``."""
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in loc).removeprefix(".")
