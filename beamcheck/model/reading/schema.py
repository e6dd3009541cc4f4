"""The job file as a JSON Schema: for editors that check and complete while one types, and as documentation."""

from __future__ import annotations

from typing import Any

from ..job import Job


def job_schema() -> dict[str, Any]:
    """The schema of a job file (JSON Schema 2020-12), without an address; the same on every call.

    It says what each table and field means. It cannot say what ties fields and pieces together; reading the job does.
    """
    schema = Job.model_json_schema(by_alias=True, mode="validation")
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **schema,
        "title": "whatcarries job file",
        "description": "What stands in the house, what it carries, what it rests on. Quantities are text with a unit.",
    }
