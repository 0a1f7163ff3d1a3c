"""The kinds of value a brief is made of. Belongs here: lengths, labels, angles and the like, each with the
bounds that keep every later sum finite. Not here: what a value means for the light, or what is assumed
where it is open."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, GetCoreSchemaHandler, StringConstraints
from pydantic_core import CoreSchema, core_schema

T = TypeVar("T")


class Part(BaseModel):
    """A part of the input: frozen, exact about types, closed to unknown keys, free of infinities."""

    model_config = ConfigDict(
        extra="forbid",
        strict=True,
        frozen=True,
        allow_inf_nan=False,
        validate_by_alias=True,
        serialize_by_alias=True,
    )


class _MayBeOpen:
    """Accepts null beside the value itself."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.nullable_schema(handler(source))


class FromList:
    """Accepts a list for a tuple; where it may be left out, null for an empty one."""

    def __init__(self, *, may_be_null: bool = False) -> None:
        self.may_be_null = may_be_null

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        read = _none_is_empty if self.may_be_null else _as_tuple
        return core_schema.no_info_before_validator_function(read, handler(source))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: Any) -> dict[str, Any]:
        found: dict[str, Any] = handler(schema)
        return {"anyOf": [found, {"type": "null"}]} if self.may_be_null else found


def _none_is_empty(value: object) -> object:
    return () if value is None else _as_tuple(value)


def _as_tuple(value: object) -> object:
    return tuple(value) if isinstance(value, list) else value


def _whole(value: object) -> object:
    """1.0 is the whole number 1 in JSON."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


# None in what was read ("not known"); never None once `assumptions.fill` has put the stated default in.
Assumed = Annotated[T, _MayBeOpen()]
# A list that may be left out (then it is empty), and one that must hold something.
Many = Annotated[tuple[T, ...], Field(max_length=1000), FromList(may_be_null=True)]
Some = Annotated[tuple[T, ...], Field(min_length=1, max_length=1000), FromList()]
# The default of an Assumed field; typed Any because `fill` replaces it before anybody reckons with it.
OPEN: Any = None

Label = Annotated[
    str,
    StringConstraints(min_length=1, max_length=120, pattern=r"^[^\x00-\x1f\x7f]*[^\s\x00-\x1f\x7f][^\x00-\x1f\x7f]*$"),
]
Sentence = Annotated[str, StringConstraints(max_length=2000, pattern=r"^[^\x00-\x08\x0b-\x1f\x7f]*$")]

Size = Annotated[float, Field(ge=0.01, le=100)]  # metres, of a thing that is there
Reach = Annotated[float, Field(ge=0, le=100)]  # metres, may be nothing
Millimetres = Annotated[float, Field(ge=0.5, le=10_000)]
Share = Annotated[float, Field(ge=0, le=1)]
Kilograms = Annotated[float, Field(ge=0, le=10_000)]
Watts = Annotated[float, Field(ge=0, le=100_000)]
Amperes = Annotated[float, Field(ge=0.1, le=10_000)]
Kelvin = Annotated[float, Field(ge=1000, le=40_000)]
Minutes = Annotated[float, Field(ge=0, le=10_000)]
FNumber = Annotated[float, Field(ge=0.5, le=128)]
Iso = Annotated[float, Field(ge=1, le=10_000_000)]
Seconds = Annotated[float, Field(ge=0.00001, le=3600)]
StopsDown = Annotated[float, Field(ge=0, le=20)]
Bearing = Annotated[float, Field(ge=-180, le=180)]
Height = Annotated[float, Field(ge=-90, le=90)]
Limit = Annotated[float, Field(ge=0, le=90)]  # degrees a head can turn or nod
FullAngle = Annotated[float, Field(ge=1, le=180)]
Count = Annotated[int, Field(ge=1, le=100_000), BeforeValidator(_whole)]
Ratio = (
    Annotated[float, Field(ge=0.01, le=100)]
    | Annotated[str, StringConstraints(pattern=r"^[1-9][0-9]{0,3}(\.[0-9]+)?[:x/][1-9][0-9]{0,3}(\.[0-9]+)?$")]
)
Surface = Share | Literal["white", "light grey", "grey", "dark", "black"]
