"""A table within a table that few jobs have: what reads it is made when a job has one, since that takes time."""

from __future__ import annotations

from typing import Annotated, Any, TypeVar

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

T = TypeVar("T")


class _WhenThere:
    """Reads a value by the class of its field, whose errors and schema are kept."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(source.model_validate, metadata={"of": source})

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        cls = core["metadata"]["of"]
        name = f"{cls.__module__}.{cls.__qualname__}:{id(cls)}"  # as pydantic calls it where it stands without the mark
        return handler(core_schema.chain_schema([{**cls.__pydantic_core_schema__, "ref": name}]))


Seldom = Annotated[T, _WhenThere()]
