"""The base of everything written as a block of keys."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, model_validator


class Block(BaseModel):
    """A block of keys in the plan: no other keys than its own, and nothing changes once it is read."""

    model_config = ConfigDict(defer_build=True, extra="forbid", frozen=True, use_attribute_docstrings=True)

    @model_validator(mode="before")
    @classmethod
    def _empty_is_left_out(cls, data: Any) -> Any:
        """A key without a value, as where its lines were commented out, counts as left out if it may be."""
        if not isinstance(data, dict):
            return data
        may_be = {key for key, field in cls.model_fields.items() if not field.is_required()}
        return {key: value for key, value in data.items() if value is not None or key not in may_be}
