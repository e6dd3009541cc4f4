"""Small invented jobs of a beam whose end is held by an anchor group, for the tests."""

from __future__ import annotations

from typing import Any

from beamcheck.checks.core.result import Check, JobResult, PieceResult

from ..beams.beams import Data, beam, checked, floor, seat

B, D = 5.5, 11.5  # 6x12 dressed, in
W = (10 + 40) * 6 / 12  # lb/in of floor, D + L
STUB: Data = {
    "name": "stub", "what": "plate cast into the wall with a stub to weld to", "material": "steel",
    "confirmed_by": "invented sheet S-1, engineer", "takes": "9,000 lb",
}  # fmt: skip
KNIFE: Data = {
    "name": "A1", "manner": "concealed plate", "into": "stub", "arm": "0 in", "seasoned": "dry", "split": "none seen",
    "fastener": {"kind": "bolt", "size": "5/8 in", "steel": "A307", "length": "7 in", "threads": "clear of it"},
    "holes": {"rows": 2, "columns": 1, "row_spacing": "3 1/2 in", "end": "4 1/2 in", "edge": "3 in"},
    "plate": {"steel": "A36", "thickness": "3/8 in", "width": "7 in", "length": "9 in", "slot": "7/16 in",
              "slot_length": "9 1/2 in", "weld": "1/4 in"},
}  # fmt: skip
RATED: Data = {
    "name": "A1", "manner": "rated hardware",
    "split": "none seen",
    "rating": {"source": "evaluation report 1 (invented), 2025, table 3", "down": "4000 lbf", "duration": "included",
               "loads": "floor", "conditions": "Douglas Fir, all holes filled", "conditions_met": True},
}  # fmt: skip


def hung(**more: Any) -> Data:
    """A beam of 12 ft whose left end hangs in anchor A1."""
    return beam(supports=[{"at": "4 1/2 in", "on": "stub", "holds": "hung", "held_by": "A1", "restrained": True},
                          seat("12 ft")], **more)  # fmt: skip


def of(job: JobResult, name: str = "A1") -> PieceResult:
    return next(piece for piece in job.pieces if piece.name == name)


def anchored(anchor: Data, held: Data | None = None, **more: Any) -> JobResult:
    return checked(held or hung(), anchor=[anchor], **{**more, "existing": [STUB, *more.get("existing", [])]})


def rated(**rating: Any) -> Data:
    return {**RATED, "rating": {**RATED["rating"], **rating}}


def lifted() -> Data:
    """A wind of 100 lb/ft up (0.6 of it counts) on a beam that weighs little: both ends lift."""
    return hung(carries=[floor(wind="-1200 plf")])


def begins(piece: PieceResult, what: str) -> Check:
    found = [check for check in piece.checks if check.what.startswith(what)]
    assert len(found) == 1, [check.what for check in piece.checks]
    return found[0]
