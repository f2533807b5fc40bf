"""Values a builder writes, as annotated types: each reads its own text and says in one form what it expected."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import PurePosixPath
from typing import Annotated

from pydantic import AfterValidator, BeforeValidator, Field, PlainSerializer, PlainValidator
from pydantic_core import PydanticCustomError

from takeoff.catalog.grades import grade, grades
from takeoff.catalog.profiles import profile, profiles
from takeoff.catalog.sheets import sheet_product, sheet_products
from takeoff.catalog.unknown import UnknownItem
from takeoff.catalog.waste import waste_categories
from takeoff.measure import MeasureError, Pitch, parse_length, parse_pitch
from takeoff.plan.by_name import ByName
from takeoff.plan.header import HeaderSize, parse_header

WRONG_VALUE = "plan_value"
"""Kind of the error for a value that can't be used; its context holds ``expected``."""

MISSING_KEY = "plan_missing"
"""Kind of the error for a key that other keys call for; its context holds ``key`` and ``expected``."""

STEEPEST = Pitch(24)
FLATTEST = Pitch(1)


def refusal(expected: str, *, found: str = "") -> PydanticCustomError:
    """The error for a value that can't be used.

    Args:
        expected: completes "expected ...".
        found: completes "found ..." where the value itself wouldn't say it.
    """
    return PydanticCustomError(WRONG_VALUE, "expected {expected}", {"expected": expected, "found": found})


def missing(key: str, expected: str) -> PydanticCustomError:
    """The error for a key that has to be there; ``expected`` says why, and completes "expected ..."."""
    return PydanticCustomError(MISSING_KEY, "expected {expected}", {"key": key, "expected": expected})


def _length(low: str, high: str) -> BeforeValidator:
    """Reads a length between two lengths, which are written as in a plan."""
    low_in, high_in = parse_length(low), parse_length(high)

    def read(value: object) -> float:
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise refusal("a length, such as 12'-6 1/2\"")
        try:
            inches = parse_length(value)
        except MeasureError as error:
            raise refusal(f"a length ({error.fault})") from None
        if not low_in <= inches <= high_in:
            bare = not isinstance(value, str) and low_in <= 12 * inches <= high_in
            meant = f"; a bare number is inches, for feet write {inches:g}'" if bare else ""
            raise refusal(f"a length from {low} to {high}{meant}")
        return inches

    return BeforeValidator(read, json_schema_input_type=str | float)


def _whole(low: int, high: int) -> BeforeValidator:
    def read(value: object) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            raise refusal(f"a whole number from {low} to {high}")
        return value

    return BeforeValidator(read)


def _text(longest: int) -> BeforeValidator:
    """Reads a name; a number or a yes/no that the file's format made of it is refused, not turned back into text."""

    def read(value: object) -> str:
        if value is not None and not isinstance(value, str | dict | list):
            raise refusal("text; put it in quotes")
        if not isinstance(value, str) or not value.isprintable() or not 1 <= len(value.strip()) <= longest:
            raise refusal(f"text of 1 to {longest} printable characters")
        return value.strip()

    return BeforeValidator(read, json_schema_input_type=str)


def _side_name(value: str) -> str:
    if any(mark in value for mark in ".[]"):  # they part the steps of a path such as buildings[0].walls
        raise refusal("a name without . [ or ]")
    return value


def _from_catalog(what: str, look_up: Callable[[str], str]) -> BeforeValidator:
    """Reads a name of the catalog and gives it as the catalog writes it."""

    def read(value: object) -> str:
        if not isinstance(value, str):
            raise refusal(what)
        try:
            return look_up(value)
        except UnknownItem as error:
            raise refusal(what + _tip(error)) from None

    return BeforeValidator(read, json_schema_input_type=str)


def _tip(error: UnknownItem) -> str:
    """What the catalog offers instead, without its "no profile is known", which "found" says already."""
    return "; " + tip if (tip := str(error).partition("; ")[2]) else ""


def listed(least: int, most: int, what: str) -> BeforeValidator:
    """Counts a list before its items are read, so that a faulty item isn't told as one too few."""

    def read(value: object) -> object:
        if not isinstance(value, list | tuple):
            raise refusal(f"a list of {what}")
        if not least <= len(value) <= most:
            raise refusal(f"{least} to {most} {what}" if least < most else f"{most} {what}")
        return value

    return BeforeValidator(read)


def _examples(names: Callable[[], list[str]]) -> Callable[[dict[str, object]], None]:
    """Puts names of the catalog into the JSON Schema, so that an editor offers them."""

    def add(schema: dict[str, object]) -> None:
        schema["examples"] = names()

    return add


def _read_pitch(value: object) -> Pitch:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise refusal("a pitch, such as 8/12")
    if value == 0:
        raise refusal(f"a pitch from {FLATTEST} to {STEEPEST}")
    try:
        pitch = parse_pitch(value)
    except MeasureError as error:
        raise refusal(f"a pitch ({error.fault})") from None
    if not FLATTEST.rise <= pitch.rise <= STEEPEST.rise:
        raise refusal(f"a pitch from {FLATTEST} to {STEEPEST}")
    return pitch


def _plies(what: str) -> Callable[[object], HeaderSize]:
    def read(value: object) -> HeaderSize:
        if not isinstance(value, str):
            raise refusal(what)
        try:
            return parse_header(value)
        except UnknownItem as error:
            raise refusal(what + _tip(error)) from None

    return read


_read_header = _plies("a header, such as 2-2x8 (two plies of 2x8)")
_read_beam = _plies("a beam, such as 3-2x10 (three plies of 2x10) or 6x10")


def _read_yes_no(value: object) -> bool:
    if isinstance(value, bool):
        return value
    if value not in ("yes", "no"):
        raise refusal("yes or no")
    return value == "yes"


def _read_percent(value: object) -> float:
    text = value.strip().removesuffix("%").strip() if isinstance(value, str) else value
    if isinstance(text, str) and text.isdecimal() and text.isascii():
        text = int(text)
    if isinstance(text, bool) or not isinstance(text, int | float) or not 0 <= text <= 100:
        raise refusal("a percentage from 0 to 100")
    return float(text)


def _read_pounds(value: object) -> float:
    text = value.strip().lower().removesuffix("lbs").removesuffix("lb").strip() if isinstance(value, str) else value
    if isinstance(text, str) and text.replace(",", "").isdecimal() and text.isascii():
        text = int(text.replace(",", ""))
    if isinstance(text, bool) or not isinstance(text, int | float) or not 1 <= text <= 200_000:
        raise refusal("a weight from 1 to 200,000 lb, such as 8,000 lb")
    return float(text)


def _read_snow(value: object) -> float:
    text = value.strip().lower().removesuffix("psf").strip() if isinstance(value, str) else value
    if isinstance(text, str) and text.isdecimal() and text.isascii():
        text = int(text)
    if isinstance(text, bool) or not isinstance(text, int | float) or not 0 <= text <= 300:
        raise refusal("a ground snow load from 0 to 300 psf, such as 50 psf")
    return float(text)


def _read_category(value: object) -> str:
    if value not in waste_categories():
        raise refusal(f"a category of the order: {', '.join(waste_categories())}")
    return str(value)


def _read_file_name(value: str) -> str:
    """A file beside the plan: nothing a plan says may lead out of its folder."""
    path = PurePosixPath(value)
    if path.is_absolute() or ".." in path.parts or any(mark in value for mark in "\\:"):
        raise refusal("the name of a file in the plan's folder, such as prices.csv")
    return value


def _read_drawing_name(value: str) -> str:
    """A drawing beside the plan, as `_read_file_name`."""
    try:
        return _read_file_name(value)
    except PydanticCustomError:
        raise refusal("the name of a drawing in the plan's folder, such as house.dxf") from None


Corners = listed(3, 200, "corners")
SideNames = listed(3, 200, "names of sides")
Gables = listed(2, 2, "names of sides")
ThroughSides = listed(0, 200, "names of sides")
Openings = listed(0, 200, "openings")
Partitions = listed(0, 100, "items")
Buildings = listed(1, 20, "buildings")
Posts = listed(0, 50, "distances along the ridge")
BookPages = listed(0, 6, "kinds of pages")
PorchPosts = listed(2, 50, "distances along the front of the porch")
Porches = listed(0, 20, "porches")
Dormers = listed(0, 20, "dormers")
Windows = listed(0, 10, "windows")
Tops = listed(2, 50, "corners of a top, [along, height]")
"""Marks of list fields: how many there may be."""

FrozenMapping = (AfterValidator(ByName), PlainSerializer(dict))
"""Marks of a mapping field that nobody can change afterwards."""

Coordinate = Annotated[float, _length("-500'", "500'")]
WallHeight = Annotated[float, _length("2'", "20'")]
BoltDiameter = Annotated[float, _length('3/8"', '1-1/4"')]
BoltSpacing = Annotated[float, _length('12"', "6'")]
Spacing = Annotated[float, _length('6"', '48"')]
OpeningSize = Annotated[float, _length('6"', "20'")]
DormerHeight = Annotated[float, _length('6"', "12'")]
HeadHeight = Annotated[float, _length("1'", "20'")]
WallHeightPoint = Annotated[float, _length('3"', "20'")]
Distance = Annotated[float, _length('0"', "200'")]
Allowance = Annotated[float, _length('0"', '6"')]
Overhang = Annotated[float, _length('0"', '48"')]
Seat = Annotated[float, _length('1/2"', '12"')]
SoffitDrop = Annotated[float, _length('2"', '24"')]
Gap = Annotated[float, _length('0"', '4"')]
Kerf = Annotated[float, _length('0"', '1/2"')]
Trim = Annotated[float, _length('0"', '6"')]
Leftover = Annotated[float, _length('6"', "20'")]
PorchHeight = Annotated[float, _length("2'", "40'")]
PorchWidth = Annotated[float, _length("3'", "100'")]
PorchDepth = Annotated[float, _length("2'", "40'")]
PostSpacing = Annotated[float, _length("2'", "20'")]
Level = Annotated[float, _length("-20'", "20'")]
TieHeight = Annotated[float, _length('0"', "30'")]
PitchField = Annotated[Pitch, PlainValidator(_read_pitch, json_schema_input_type=str), PlainSerializer(str)]

JobName = Annotated[str, _text(60)]
Name = Annotated[str, _text(40)]
CompanyName = Annotated[str, _text(40)]
Revision = Annotated[str, _text(12)]
SideName = Annotated[str, AfterValidator(_side_name), _text(40)]
YesNo = Annotated[bool, BeforeValidator(_read_yes_no, json_schema_input_type=bool | str)]
Count = Annotated[int, _whole(1, 50), Field(ge=1, le=50)]
LengthCount = Annotated[int, _whole(1, 12), Field(ge=1, le=12)]
JackCount = Annotated[int, _whole(1, 4), Field(ge=1, le=4)]
Percent = Annotated[float, BeforeValidator(_read_percent, json_schema_input_type=float | str)]
Pounds = Annotated[float, BeforeValidator(_read_pounds, json_schema_input_type=float | str)]
SnowLoad = Annotated[float, BeforeValidator(_read_snow, json_schema_input_type=float | str)]
WasteCategory = Annotated[str, BeforeValidator(_read_category, json_schema_input_type=str)]
PriceFile = Annotated[str, AfterValidator(_read_file_name), _text(120)]

DrawingFile = Annotated[str, AfterValidator(_read_drawing_name), _text(120)]
LayerName = Annotated[str, _text(60)]

LumberSize = Annotated[
    str,
    _from_catalog("a size, such as 2x6", lambda name: profile(name).name),
    Field(json_schema_extra=_examples(lambda: [known.name for known in profiles()])),
]
Grade = Annotated[
    str,
    _from_catalog("a grade, such as no2", lambda name: grade(name).name),
    Field(json_schema_extra=_examples(lambda: [known.name for known in grades()])),
]
SheetName = Annotated[
    str,
    _from_catalog("a sheet, such as osb-7/16", lambda name: sheet_product(name).name),
    Field(json_schema_extra=_examples(lambda: [known.name for known in sheet_products()])),
]
HeaderField = Annotated[HeaderSize, PlainValidator(_read_header, json_schema_input_type=str), PlainSerializer(str)]
BeamField = Annotated[HeaderSize, PlainValidator(_read_beam, json_schema_input_type=str), PlainSerializer(str)]
