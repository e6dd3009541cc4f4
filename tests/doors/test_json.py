"""The result as JSON and the two schemas. The reference is JSON Schema 2020-12, by the jsonschema package."""

from __future__ import annotations

import json
import math
import tomllib
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from beamcheck import check_text, job_schema, result_json, result_schema
from beamcheck.checks.core.result import Check, PieceResult

from ..worked_examples.results import FOLDER, example
from .jobs import BAD, FAILS, GOOD

EXAMPLES = sorted(path for path in FOLDER.rglob("*.toml") if ".expect." not in path.name)


@cache
def validator(schema: Callable[[], dict[str, Any]]) -> Draft202012Validator:
    """Made and checked once: a schema does not change from job to job."""
    made = schema()
    Draft202012Validator.check_schema(made)
    return Draft202012Validator(made)


def faults(schema: Callable[[], dict[str, Any]], found: Any) -> list[str]:
    return [error.message for error in validator(schema).iter_errors(found)]


@pytest.mark.parametrize("units", ["US", "SI"])
@pytest.mark.parametrize("verdict", GOOD)
def test_every_result_keeps_to_the_schema(verdict, units) -> None:
    assert faults(result_schema, json.loads(result_json(check_text(GOOD[verdict], units=units)))) == []


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_results_of_the_worked_examples_keep_to_the_schema(path) -> None:
    assert (
        faults(result_schema, json.loads(result_json(example(path.relative_to(FOLDER).with_suffix("").as_posix()))))
        == []
    )


def test_the_curves_of_a_drawing_carry_their_units() -> None:
    figure = json.loads(result_json(check_text(FAILS)))["pieces"][0]["figure"]
    units = {name: figure[name]["unit"] for name in ("x", "V_high", "V_low", "M_high", "M_low", "sag")}
    assert units == {"x": "in", "V_high": "lbf", "V_low": "lbf", "M_high": "lbf*in", "M_low": "lbf*in", "sag": "in"}
    assert figure["length"] == {"value": 144.0, "unit": "in"}


def test_the_schema_refuses_what_is_not_a_result() -> None:
    found = json.loads(result_json(check_text(FAILS)))
    for damage in ({"verdict": "ok"}, {"caution": None}, {"more": 1}):
        assert faults(result_schema, {**found, **damage}) != []
    del found["sign_off"]
    assert faults(result_schema, found) == ["'sign_off' is a required property"]


def test_the_caution_stands_at_the_top() -> None:
    found = json.loads(result_json(check_text(FAILS)))
    assert list(found)[:6] == ["generator", "format", "verdict", "meaning", "caution", "sign_off"]
    assert found["generator"].startswith("whatcarries ")
    assert found["caution"].startswith("This is a calculation aid, not an engineered design.")
    assert found["sign_off"].startswith("Reviewed by licensed engineer: ____")


def test_numbers_are_those_of_the_result_to_the_last_bit_with_their_units() -> None:
    result = check_text(FAILS)
    units = {"stress": "psi", "small length": "in", "length": "in", "force": "lbf", "ratio": ""}
    for piece, shown in zip(result.pieces, json.loads(result_json(result))["pieces"], strict=True):
        for check, record in zip(piece.checks, shown["checks"], strict=True):
            for name in ("demand", "capacity"):
                value = getattr(check, name)
                assert record[name] == (None if value is None else {"value": value, "unit": units[check.kind]})
            assert record["ratio"] == (None if check.ratio is None else {"value": check.ratio, "unit": ""})
            for step, line in zip(check.steps, record["steps"], strict=True):
                assert line["result"] == {"value": step.value, "unit": step.unit}
                assert line["formula"] == (step.formula and step.formula.name)
                assert {one["symbol"]: one["given"]["value"] for one in line["inputs"]} == dict(step.inputs)


def test_inputs_carry_the_unit_of_their_symbol() -> None:
    checks = json.loads(result_json(check_text(FAILS)))["pieces"][0]["checks"]
    inputs = {
        one["symbol"]: one["given"]["unit"] for check in checks for step in check["steps"] for one in step["inputs"]
    }
    assert inputs["M"] == "lbf*in" and inputs["F_b"] == "psi" and inputs["b"] == "in" and inputs["C_D"] == ""


def test_the_same_job_gives_the_same_bytes_and_only_ascii() -> None:
    strange = FAILS.replace("Invented shed", "Scheune №7 「梁」")
    once, again = result_json(check_text(strange)), result_json(check_text(strange))
    assert once == again
    assert once.isascii() and once.endswith("}\n")
    assert json.loads(once)["title"] == "Scheune №7 「梁」"


@pytest.mark.parametrize(
    ("value", "text"), [(math.inf, "infinite"), (-math.inf, "minus infinite"), (math.nan, "not a number")]
)
def test_what_is_no_finite_number_is_null_with_a_text(value, text) -> None:
    """NaN and Infinity are no JSON (RFC 8259, section 6)."""
    check = Check("B", "bending", "c", "fails", "stress", value, 2.0, value)
    result = replace(check_text(FAILS), pieces=(PieceResult("B", "beam", "t", "fails", (check,), ()),))
    written = result_json(result)
    record = json.loads(written, parse_constant=pytest.fail)["pieces"][0]["checks"][0]
    assert record["demand"] == {"value": None, "unit": "psi", "text": text}
    assert record["ratio"] == {"value": None, "unit": "", "text": text}
    assert faults(result_schema, json.loads(written)) == []


def test_schemas_are_printed_as_they_are(run) -> None:
    assert json.loads(run("schema", "job").stdout) == job_schema()
    assert json.loads(run("schema", "result").stdout) == result_schema()


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_job_schema_takes_the_worked_examples(path) -> None:
    assert faults(job_schema, tomllib.loads(path.read_text(encoding="utf-8"))) == []


def test_there_are_worked_examples() -> None:
    assert EXAMPLES


def test_the_job_schema_refuses_a_slip() -> None:
    data = tomllib.loads(BAD)
    assert faults(job_schema, data) == []  # that a unit is missing only reading can tell
    data["beam"][0]["spann"] = "12 ft"
    assert len(faults(job_schema, data)) == 1
