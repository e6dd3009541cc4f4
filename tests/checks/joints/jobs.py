"""Small invented jobs with one joint: design values by letter, forces stated, so that hand sums can be set beside."""

from __future__ import annotations

from typing import Any

from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from ..consistent import consistent

Data = dict[str, Any]
HEAD: Data = {"title": "a joint (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True}
SHEET = "engineer's sheet S-4 of 3 May 2025"


def wood(name: str, size: str, **values: Any) -> Data:
    """A stock with values by letter: F_c, F_c_perp, F_v, F_t, G as wanted."""
    given: Data = {
        "F_b": 1350, "F_t": 825, "F_v": 170, "F_c_perp": 625, "F_c": 1150, "E": 1600000, "E_min": 580000, "G": 0.5,
        **values,
    }  # fmt: skip
    stresses = {key: value if key == "G" else f"{value} psi" for key, value in given.items()}
    return {
        "name": name, "species": "Douglas Fir-Larch", "grade": "No.1", "size": size, "moisture": "dry",
        "measured_moisture": "15 %", "values": {**stresses, "source": "letter of the grader, 3 May 2025, no. 17"},
    }  # fmt: skip


def member(name: str, stock: str, direction: float, pull: float = 0.0, *, load: str = "live", **more: Any) -> Data:
    """A member with one force along it; live load has C_D = 1."""
    down = more.pop("down", 0.0)
    forces = [{"load": load, "pull": f"{pull} lbf", "down": f"{down} lbf"}] if pull or down else []
    return {"name": name, "stock": stock, "direction": f"{direction % 360.0} deg", "forces": forces, **more}


def joint(kind: str, *members: Data, **more: Any) -> Data:
    return {"name": "J", "kind": kind, "members": list(members), "forces_by": SHEET, **more}


def checked(one: Data, *stocks: Data, **more: Any) -> PieceResult:
    """The joint as a piece of a job of its own."""
    job = job_from_data({"job": HEAD, "stock": list(stocks), "joint": [one], **more})
    found = next(piece for piece in check_job(job).pieces if piece.name == one["name"])
    consistent(found.checks)
    return found


def the(piece: PieceResult, id: str, where: str = "", what: str = "") -> Check:
    """The one check of that kind, at that place."""
    found = [check for check in piece.checks if check.id == id and where in check.where and what in check.what]
    assert len(found) == 1, [(check.id, check.what, check.where) for check in piece.checks]
    return found[0]


def step_value(check: Check, symbol: str) -> float:
    """The last value of a symbol in the steps of a check."""
    return [step.value for step in check.steps if step.symbol == symbol][-1]
