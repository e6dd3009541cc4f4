"""Quantities as pydantic types: text such as '14 ft 6 in' or a pint quantity in, a plain float in inner units out."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, WithJsonSchema

from ...units import example, read


def _reader(kind: str) -> Any:
    def convert(value: Any) -> float:
        return read(value, kind)

    schema = {"type": "string", "description": f"{kind} with its unit", "examples": [example(kind)]}
    return [BeforeValidator(convert), WithJsonSchema(schema, mode="validation")]


Length = Annotated[float, *_reader("length")]  # in
Offset = Annotated[float, *_reader("offset")]  # in, with a sign
PositiveLength = Annotated[float, Field(gt=0), *_reader("length")]  # in
Force = Annotated[float, *_reader("force")]  # lbf
Stress = Annotated[float, Field(gt=0), *_reader("stress")]  # psi
Temperature = Annotated[float, *_reader("temperature")]  # deg F
Slope = Annotated[float, Field(ge=0, lt=90), *_reader("slope")]  # deg from level; text '6:12' or '26.6 deg'
Angle = Annotated[float, *_reader("angle")]  # deg
Spring = Annotated[float, Field(gt=0), *_reader("line load")]  # lbf/in, of a spring
Moisture = Annotated[float, Field(ge=0, le=200), *_reader("moisture")]  # percent
Density = Annotated[float, Field(gt=0), *_reader("density")]  # pcf
LoadAmount = Annotated[tuple[float, str], *_reader("load")]  # (value, 'area' lbf/in2 | 'line' lbf/in | 'point' lbf)
