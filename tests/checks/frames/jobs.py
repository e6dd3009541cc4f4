"""An invented king-post truss as a job, to be changed by the tests. 24 ft by 8 ft, 8 ft apart."""

from __future__ import annotations

import copy
from typing import Any

from beamcheck.checks.core.result import Check, JobResult, PieceResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from ..consistent import consistent

SHEET = "engineer's sheet S-2 of 3 May 2025"
STAMP = "stamp No.1, WWPA mill 12, seen by J. M. on 3 May 2025"


def stock(name: str, size: str) -> dict[str, Any]:
    return {
        "name": name, "size": size, "species": "Douglas Fir-Larch", "grade": "No.1", "grade_from": "stamp",
        "evidence": STAMP, "moisture": "dry", "measured_moisture": "14 %",
    }  # fmt: skip


def wall(name: str, **more: Any) -> dict[str, Any]:
    return {
        "name": name, "what": "concrete wall", "material": "concrete", "confirmed_by": SHEET, "takes": "12,000 lb",
        "takes_for": "each seat", **more,
    }  # fmt: skip


KING: dict[str, Any] = {
    "job": {
        "title": "Boat shed (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True,
        "wind_by": f"{SHEET}: straps", "snow": {"by": SHEET, "higher": "nothing", "slides": "nothing"},
    },
    "stock": [stock("6x8", "6x8 dressed"), stock("6x10", "6x10 dressed")],
    "existing": [wall("west wall"), wall("east wall")],
    "frame": [{
        "name": "truss", "kind": "king post", "span": "24 ft", "rise": "8 ft", "spacing": "8 ft", "finish": "none",
        "upright_by": f"purlins and deck, {SHEET}",
        "feet": [
            {"at": "left heel", "on": "west wall", "bearing": "8 in"},
            {"at": "right heel", "on": "east wall", "bearing": "8 in", "slides": True,
             "slides_by": f"{SHEET}: slotted holes"},
        ],
        "members": [
            {"name": "rafters", "stock": "6x8", "top_held": "24 in",
             "carries": [{"what": "roof", "dead": "12 psf", "snow": "30 psf"}]},
            {"name": "tie", "stock": "6x10"}, {"name": "king post", "stock": "6x8"}, {"name": "struts", "stock": "6x8"},
        ],
    }],
}  # fmt: skip


def king(**frame: Any) -> dict[str, Any]:
    """The job with fields of its frame changed."""
    data = copy.deepcopy(KING)
    data["frame"][0] |= frame
    return data


def checked(data: dict[str, Any]) -> JobResult:
    result = check_job(job_from_data(data))
    consistent(check for one in result.pieces for check in one.checks)
    return result


def piece(result: JobResult, name: str) -> PieceResult:
    return next(one for one in result.pieces if one.name == name)


def check(result: JobResult, name: str, id: str, what: str = "") -> Check:
    return next(one for one in piece(result, name).checks if one.id == id and what in one.what)


def bent(**frame: Any) -> dict[str, Any]:
    """A bent of 14 ft by 9 ft with knee braces of 3 ft, 8 ft apart, on walls that take its thrust."""
    data = copy.deepcopy(KING)
    data["stock"] += [stock("8x8", "8x8 dressed"), stock("8x12", "8x12 dressed")]
    data["existing"] = [wall(name, takes_sideways="3,000 lb") for name in ("west wall", "east wall")]
    data["frame"] = [{
        "name": "bent", "kind": "braced bent", "span": "14 ft", "height": "9 ft", "brace_on_beam": "3 ft",
        "brace_on_post": "3 ft", "spacing": "8 ft", "finish": "none", "upright_by": f"purlins and deck, {SHEET}",
        "sway_held_by": f"sheathed walls, {SHEET}",
        "feet": [
            {"at": "left foot", "on": "west wall", "bearing": "7 1/2 in"},
            {"at": "right foot", "on": "east wall", "bearing": "7 1/2 in"},
        ],
        "members": [
            {"name": "beam", "stock": "8x12", "top_held": "24 in",
             "carries": [{"what": "roof", "dead": "12 psf", "snow": "25 psf"}]},
            {"name": "posts", "stock": "8x8"}, {"name": "braces", "stock": "8x8"},
        ], **frame,
    }]  # fmt: skip
    return data
