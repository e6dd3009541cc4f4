"""A surveyed beam, invented, with everything looked at and clean; each test changes an entry."""

from __future__ import annotations

import copy
from typing import Any

from beamcheck.checks.core.result import PieceResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

Data = dict[str, Any]

CLEAN: Data = {
    "by": "carpenter, 3 May 2025", "length": "14 ft", "species_by": "laboratory sample", "meter": "pins",
    "stations": [{"at": at, "breadth": "7 1/2 in", "depth": "9 1/2 in"} for at in ("1 ft", "7 ft", "13 ft")],
    "readings": [{"at": at, "moisture": "13 %"} for at in ("1 ft", "7 ft", "13 ft")],
    "grain": [{"face": "left", "one_in": 20}, {"face": "bottom", "one_in": 40}],
    "knots": [], "openings": [], "heart_checks": "no", "losses": [], "cuts": [], "decay": "none", "insects": "none",
    "metal": "none", "crushed": "0 in", "fire": "none", "chemicals": "none", "overload": "none", "sag": "1/4 in",
    "use": "as before", "not_seen": [], "photographs": ["1", "2", "3", "4", "5", "6"],
}  # fmt: skip
CERTIFICATE: Data = {
    "species": "Eastern Hemlock", "grade": "No.1", "grade_from": "certificate", "candidates": [],
    "evidence": "grading certificate no. 22 of 9 May 2025, A. Example, grader",
}  # fmt: skip


def data(survey: Data | None = None, stock: Data | None = None, live: str = "40 psf", **beam: Any) -> Data:
    wood: Data = {
        "name": "old beam", "species": "unknown", "candidates": ["Eastern White Pine", "Eastern Hemlock"],
        "grade": "unstamped", "size": "7 1/2 in x 9 1/2 in", "moisture": "dry",
        "survey": {**CLEAN, **(survey or {})}, **(stock or {}),
    }  # fmt: skip
    seats = [{"at": at, "on": "walls", "bearing": "6 in", "restrained": True} for at in ("3 in", "13 ft 9 in")]
    floor = {"what": "floor", "dead": "10 psf", "live": live, "width": "4 ft", "applied": "top"}
    return copy.deepcopy({
        "job": {"title": "Old (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True},
        "stock": [wood],
        "existing": [{"name": "walls", "what": "concrete wall", "material": "concrete",
                      "confirmed_by": "invented letter of an engineer, 3 May 2025, no. 4"}],
        "beam": [{"name": "B1", "stock": "old beam", "length": "14 ft", "service": "floor", "finish": "none",
                  "top_held": "full length", "supports": seats, "carries": [floor], **beam}],
    })  # fmt: skip


def result(survey: Data | None = None, stock: Data | None = None, **more: Any) -> PieceResult:
    return check_job(job_from_data(data(survey, stock, **more))).pieces[0]


def found(piece: PieceResult, verdict: str) -> str:
    return " | ".join(" ".join(check.notes) for check in piece.checks if check.verdict == verdict)
