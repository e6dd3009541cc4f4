"""Small invented jobs of one beam for the tests: a good one that passes, and what is changed in it."""

from __future__ import annotations

import copy
from typing import Any

from beamcheck.checks.core.result import Check, JobResult, PieceResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from ..consistent import consistent

Data = dict[str, Any]
E_STAMP = {"grade_from": "stamp", "evidence": "invented stamp, mill 12"}
LETTER = {"what": "wall", "material": "concrete", "confirmed_by": "invented sheet S-1, engineer"}


def stock(size: str = "6x12 dressed", **more: Any) -> Data:
    """Douglas Fir-Larch No.1, metered dry, with a stamp."""
    return {
        "name": "wood", "species": "Douglas Fir-Larch", "grade": "No.1", "size": size, "moisture": "dry",
        "measured_moisture": "12 %", "agency": "WCLIB", **E_STAMP, **more,
    }  # fmt: skip


SAWN = {"size": "measured so on the spot"}  # says of whole inches that they are no nominal size
LONG = {"at": "as long as that for the figures", "length": "as long as that for the figures"}


def known(size: str, **values: float) -> Data:
    """Wood with values by letter (psi), as light as can be said."""
    psi = {"F_b": 1000, "F_t": 600, "F_v": 150, "F_c_perp": 400, "F_c": 1000, "E": 1.4e6, "E_min": 5e5, **values}
    return {
        "name": "wood", "species": "unknown", "grade": "unstamped", "size": size, "moisture": "dry",
        "measured_moisture": "12 %", "density": "5 pcf", "graded_over": "whole length",
        "values": {**{name: f"{value} psi" for name, value in psi.items()}, "source": "invented letter of a grader"},
    }  # fmt: skip


def seat(at: str, on: str = "wall", **more: Any) -> Data:
    return {"at": at, "on": on, "bearing": "5 1/2 in", "restrained": True, **more}


def floor(**more: Any) -> Data:
    """A load on the top, over the whole length unless said otherwise."""
    return {"what": "floor", "applied": "top", **more}


def beam(**more: Any) -> Data:
    """12 ft between two seats under a floor; all that a `passes` asks for is said."""
    return {
        "name": "B", "stock": "wood", "service": "floor", "finish": "none", "top_held": "full length",
        "supports": [seat("0 ft"), seat("12 ft")],
        "carries": [floor(dead="10 psf", live="40 psf", width="6 ft")], **more,
    }  # fmt: skip


def job(*beams: Data, wood: Data | None = None, stocks: list[Data] | None = None, **tables: list[Data]) -> Data:
    about = {"title": "Test (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True}
    existing = [{"name": "wall", **LETTER}, *tables.pop("existing", [])]
    return {
        "job": about, "stock": [wood or stock(), *(stocks or [])], "beam": list(beams) or [beam()],
        "existing": existing, **tables,
    }  # fmt: skip


def checked(*beams: Data, **more: Any) -> JobResult:
    result = check_job(job_from_data(copy.deepcopy(job(*beams, **more))))
    consistent(check for one in result.pieces for check in one.checks)
    return result


def result_of(*beams: Data, **more: Any) -> PieceResult:
    """The result of the first beam."""
    name = beams[0]["name"] if beams else "B"
    return next(piece for piece in checked(*beams, **more).pieces if piece.name == name)


def find(piece: PieceResult, what: str) -> Check:
    """The one check with this name."""
    found = [check for check in piece.checks if check.what == what]
    assert len(found) == 1, [check.what for check in piece.checks]
    return found[0]


def begins(piece: PieceResult, what: str) -> list[Check]:
    """The checks whose name begins like this."""
    return [check for check in piece.checks if check.what.startswith(what)]


def said(piece: PieceResult, verdict: str) -> str:
    """All that a piece says under one verdict."""
    return "\n".join(f"{one.what}: {'; '.join(one.notes)}" for one in piece.checks if one.verdict == verdict)


def ratios(piece: PieceResult) -> dict[str, float]:
    return {check.what: check.ratio for check in piece.checks if check.ratio is not None}


def step(check: Check, symbol: str) -> float:
    """The last value written down under a symbol."""
    return [each.value for each in check.steps if each.symbol == symbol][-1]
