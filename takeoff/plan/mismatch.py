"""Where a file doesn't match the schema: its errors as flaws, in a builder's words and with the nearest key."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from takeoff.plan.fields import MISSING_KEY, WRONG_VALUE
from takeoff.plan.flaws import Flaw
from takeoff.plan.schema import Plan
from takeoff.plan.tree import Loc, Step
from takeoff.plan.wording import did_you_mean, nearest, shown


def mismatches(error: ValidationError, under: Loc = ()) -> tuple[Flaw, ...]:
    """All flaws of a validation, less the missing keys that stand there misspelled.

    Args:
        error: of the whole plan, or of the part of it that stands at ``under``.
        under: where that part stands.
    """
    flaws = [_flaw(details, (*under, *details["loc"])) for details in error.errors(include_url=False)]
    misspelled = {(*flaw.loc[:-1], flaw.limit) for flaw in flaws if flaw.rule == "plan.unknown-key"}
    return tuple(_at_parent(flaw) for flaw in flaws if flaw.rule != "plan.missing-key" or flaw.loc not in misspelled)


def _flaw(details: ErrorDetails, loc: Loc) -> Flaw:
    """One error of the schema. Of a missing key ``loc`` is the key's own, until `_at_parent`."""
    kind, context = details["type"], details.get("ctx", {})
    if kind == "extra_forbidden":
        return _unknown_key(loc)
    if kind == "missing" and isinstance(loc[-1], str):
        message = f"found no {loc[-1]!r}, expected it among the keys of {_called(loc[:-1])}"
        return Flaw(rule="plan.missing-key", loc=loc, message=message)
    if kind == MISSING_KEY:
        return Flaw(rule="plan.missing-key", loc=(*loc, context["key"]), message=f"expected {context['expected']}")
    at_key = loc[-1:] == ("[key]",)
    if kind == "missing":  # of a point that has one number only
        loc = loc[:-1]
    found = context.get("found") or shown(details["input"])
    expected = _expected(kind, context, loc, details["input"])
    return Flaw(
        rule="plan.wrong-value",
        loc=loc[:-1] if at_key else loc,
        message=f"found {found}, expected {expected}",
        found=found,
        limit=expected,
        at_key=at_key,
    )


def _unknown_key(loc: Loc) -> Flaw:
    """A key that isn't known; ``limit`` holds the nearest one that is."""
    key, known = str(loc[-1]), _keys_at(loc[:-1])
    message = f"found {key!r}, expected a key of {_called(loc[:-1])}"
    near = nearest(key, known)
    message += f"; did you mean {near!r}?" if near else f" ({', '.join(known)})"
    return Flaw(rule="plan.unknown-key", loc=loc, message=message, found=key, limit=near, at_key=True)


def _at_parent(flaw: Flaw) -> Flaw:
    """A missing key is reported where it should stand; so a reader looks for it in the block, not in thin air."""
    if flaw.rule != "plan.missing-key":
        return flaw
    return Flaw(rule=flaw.rule, loc=flaw.loc[:-1], message=flaw.message)


def _expected(kind: str, context: Mapping[str, Any], loc: Loc, value: object) -> str:
    """What should stand there, for every kind of error the schema can give."""
    if kind == WRONG_VALUE:
        return str(context["expected"])
    if kind == "literal_error":
        choices = re.findall(r"'([^']*)'|(\d+)", str(context["expected"]))
        words = [text or number for text, number in choices]
        return " or ".join(words) + (did_you_mean(str(value), words) if len(words) > 1 else "")
    if kind in ("model_type", "model_attributes_type", "dict_type", "mapping_type"):
        return f"a block of keys ({', '.join(_keys_at(loc))})"
    assert kind in ("tuple_type", "too_long", "missing"), kind  # the one fixed tuple that isn't counted before
    return "a corner of two lengths, [x, y]"


def _called(loc: Loc) -> str:
    """What a builder calls the block at ``loc``: ``roof``, ``opening``, ``the plan``."""
    if not loc:
        return "the plan"
    if isinstance(loc[-1], str):
        return loc[-1]
    return _called(loc[:-1]).removesuffix("s")


def _keys_at(loc: Loc) -> tuple[str, ...]:
    """The keys that may stand in the block at ``loc``."""
    model: type[BaseModel] = Plan
    for step in loc:
        model = _model_under(model, step) or model
    return tuple(field.alias or name for name, field in model.model_fields.items())


def _model_under(model: type[BaseModel], step: Step) -> type[BaseModel] | None:
    """The block a step leads to; None for a step within a list or among names, which stays with its block."""
    field = model.model_fields.get(step) if isinstance(step, str) else None
    return _first_model(field.annotation) if field else None


def _first_model(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next(filter(None, map(_first_model, get_args(annotation))), None)
