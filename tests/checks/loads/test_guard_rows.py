"""Rows of tests/published/site_loads.csv whose answer is a question, a refusal or none (guards.md, derived), as jobs.

LD250 is in test_site.py, LD473, LD475 and LD476 are in test_site_contradictions.py.
"""

from __future__ import annotations

import copy
import csv
from pathlib import Path
from typing import Any

import pytest

from beamcheck import JobError, check_job, job_from_data
from beamcheck.values.lumber import read_size

from ..beams.beams import Data, beam, floor, job, seat, stock

ELSEWHERE = {"LD250", "LD465", "LD473", "LD475", "LD476"}
ROWS = Path(__file__).parents[2] / "published" / "site_loads.csv"
BY = "building department, letter of 3 May 2026"
HEAD = {"ground_snow": "40 psf", "snow": {"higher": "nothing", "slides": "nothing", "by": BY}}
ROOFED: Data = {"service": "roof", "roof_slope": "4:12"}


def roof(**amounts: str) -> Data:
    return beam(**ROOFED, carries=[floor(what="roof", width="6 ft", **amounts)])


def joist(size: str = "2x10", span: str = "12 ft", **amounts: str) -> Data:
    return beam(spacing="16 in", members=8, shared_by="3/4 in plywood, nailed", supports=[seat("0 ft"), seat(span)],
                carries=[floor(width="16 in", **amounts)])  # fmt: skip


SMALL = stock("2x10", grade="No.2", evidence="stamp: agency mark, mill 12, No.2, Douglas Fir-Larch, S-DRY")
BIG = stock("6x12 dressed")
LD: dict[str, tuple[Data, Data, str]] = {  # beam, wood, the check that asks; "" for quiet, "refused" for an error
    "LD450": (roof(dead="8 psf", roof_live="3 psf"), BIG, "loads.roof"),
    "LD451": (roof(dead="15 psf", snow="31 psf", roof_live="20 psf", wind="-18 psf"), BIG, ""),
    "LD453": (
        beam(**ROOFED, carries=[floor(what="porch roof, open below", width="6 ft", dead="5 psf", roof_live="20 psf")]),
        BIG,
        "loads.wind",
    ),
    "LD455": (beam(carries=[floor(width="6 ft", dead="10 psf", live="40 psf", wind="20 psf")]), BIG, "loads.floor"),
    "LD456": (joist(dead="10 psf", live="30 psf", what="sleeping room"), SMALL, ""),
    "LD458": (beam(carries=[floor(width="6 ft", dead="0.5 psf", live="1.9 psf")]), BIG, "refused"),
    "LD460": (beam(finish="plaster", carries=[floor(width="6 ft", dead="4 psf", live="40 psf")]), BIG, "loads.dead"),
    "LD461": (
        beam(carries=[floor(what="tile on mortar bed", width="6 ft", dead="10 psf", live="40 psf")]), BIG, "loads.dead"
    ),
    "LD463": (joist(span="15 ft", dead="10 psf", live="40 psf"), SMALL, ""),
    "LD466": (beam(supports=[seat("0 ft", bearing="1 in"), seat("12 ft")]), BIG, "seat.least"),
    "LD468": (beam(supports=[seat("0 ft", bearing="3 1/2 in"), seat("12 ft")]), BIG, ""),
    "LD470": (beam(), stock("8x10 rough", evidence="stamp: agency mark, No.1, DOUG FIR-L"), "wood.evidence"),
    "LD471": (beam(), stock("6x12 dressed", measured_moisture="3 %"), "refused"),
    "LD478": (
        beam(
            **ROOFED, supports=[seat("0 ft"), seat("8 ft"), seat("16 ft")],
            carries=[floor(what="roof", width="6 ft", dead="15 psf", snow="40 psf", wind="-12 psf")],
        ),
        BIG,
        "",
    ),
}  # fmt: skip


def test_a_2x14_is_a_size_of_the_standard() -> None:
    """LD465 would ask, for it is hardly ever in stock; PS 20 lists it (read, second-hand): read as dressed."""
    assert (read_size("2x14").b, read_size("2x14").d) == (1.5, 13.25)


def test_every_row_has_its_job() -> None:
    with ROWS.open(newline="", encoding="utf-8") as file:
        answers = {row["id"] for row in csv.DictReader(file) if row["quantity"] == "answer"}
    assert answers == {*LD, *ELSEWHERE}


@pytest.mark.parametrize("row", LD)
def test_a_guard(row: str) -> None:
    one, wood, expected = LD[row]
    data: dict[str, Any] = copy.deepcopy(job(one, wood=wood))
    if one.get("service") == "roof":
        data["job"] |= HEAD
    if expected == "refused":
        with pytest.raises(JobError):
            job_from_data(data)
        return
    result = check_job(job_from_data(data))
    opened = {c.id for piece in result.pieces for c in piece.checks if c.verdict != "passes"}
    loads = {id for id in opened if id.startswith(("loads.", "seat.least", "wood.evidence"))}
    assert (expected in loads) if expected else not loads, opened
