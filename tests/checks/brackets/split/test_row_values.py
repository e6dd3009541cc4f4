"""What one row of lag screws brings to the split test, lbf and in, from the NDS; and what holds a loose tip."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.splits.holds import Row
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.fixings.rows import FixingRows
from beamcheck.checks.brackets.split.loose import loose_tip
from beamcheck.checks.brackets.split.row_values import row_value

from ..brackets import LAG, SOLID, bracket, fixings, loads_of, structure, wood
from ..by_hand import F_C, F_PERP, at_angle

# 3/8 x 5 in in wood of G 0.50: F_e 5,600 psi along the grain and 3,650 across it (NDS 2018 Table 12.3.3), root 0.265
# in, thread 3 in and tip 7/32 in (App. L2), F_yb 45,000 psi (Table I1), W 305 lbf/in (Table 12.2A), a washer 0.083 in
# thick (ASME B18.21.1); R_d 5 and 4, as if across the grain; all memory
F_E, ACROSS, D, ROOT, TIP, THICK = 5600.0, 3650.0, 0.375, 0.265, 7.0 / 32.0, 0.083
BENDS = 45000.0 * ROOT**3 / 24.0


def row(
    *, grain: str = "upright", through: float = 2.0, kind: str = "live", count: int = 1, washer: float | None = None,
    **more: Any,
) -> Row:  # fmt: skip
    apart = {"apart": "1 1/2 in"} if count > 1 else {}
    head = {**LAG, **({"washer": f"{washer} in"} if washer else {})}
    rows = [{"below_top": "3 in", "count": count, **apart, **more}, {"below_top": "7 in", "count": 1}]
    here = structure()
    piece = bracket({**SOLID, "grain": grain}, carries=[{"what": "shelf", kind: "40 lb", "at": "3 in"}],
                    fixings=fixings(fastener=head, through=f"{through} in", rows=rows))  # fmt: skip
    loads = loads_of(piece, here)
    assert piece.fixings is not None
    angle = {"upright": 90.0, "level": 0.0, "70 deg": 70.0, "45 deg": 45.0}[grain]
    return row_value(FixingRows(family_of(piece), piece.fixings, loads), wood(here), here, 0,
                     int(np.argmax(loads.F)), grain=angle).row  # fmt: skip


@pytest.mark.parametrize(("kind", "C_D"), [("live", 1.0), ("dead", 0.9), ("snow", 1.15)])
@pytest.mark.parametrize("count", [1, 2])
def test_a_row_in_upright_grain(kind: str, C_D: float, count: int) -> None:
    """It crosses the grain, and what it holds up presses along it."""
    found = row(kind=kind, count=count)
    assert (found.y, found.head, found.slotted, found.washer) == (3.0, 2.0, False, 1.0)
    assert found.q == pytest.approx(count * C_D * F_E * D / 5.0)
    assert pytest.approx(count * C_D * BENDS) == found.M
    under = count * F_PERP * math.pi * (1.0 - D**2) / 4.0  # where no washer is said one of 1 in is taken: no C_D
    assert pytest.approx((under, under), rel=1e-3) == (found.T, found.B)


@pytest.mark.parametrize(("through", "wide"), [(2.0, D), (2.01, ROOT), (1.5, D)])
def test_thread_in_the_bracket_bears_by_its_root(through: float, wide: float) -> None:
    """A lag of 5 in has 2 in of shank."""
    assert row(through=through).q == pytest.approx(F_E * wide / 5.0, rel=1e-3)


def test_along_the_grain_it_bears_across_it_with_the_factor_of_end_grain() -> None:
    """C_eg 0.67 (NDS 2018 12.5.2.2); its bending is that of its steel."""
    level = row(grain="level")
    assert (level.q, level.M) == pytest.approx((0.67 * ACROSS * D / 5.0, BENDS))
    assert row(grain="70 deg").q == pytest.approx(level.q)  # 20 degrees off upright is no longer along the wall
    assert row().Z > level.Z > 0.0
    assert pytest.approx(2.0 * row().Z, rel=1e-6) == row(count=2).Z


@pytest.mark.parametrize("washer", [1.0, 1.5])
@pytest.mark.parametrize(("grain", "F"), [("upright", F_PERP), ("level", 0.75 * F_C), ("45 deg", at_angle(45.0))])
def test_wood_under_a_washer_bears_by_the_slope_of_its_grain(washer: float, grain: str, F: float) -> None:
    """The pull is level: across upright grain; along level grain 3/4 of F_c* (3.10.1.3); a hole of 3/8 in."""
    found = row(grain=grain, washer=washer, count=2)
    B = F * math.pi * (washer**2 - D**2) / 4.0
    assert found.washer == washer and pytest.approx(2.0 * B, rel=1e-3) == found.B
    # as a group its own head is taken to lie across the grain
    across = F_PERP * math.pi * (washer**2 - D**2) / 4.0
    assert pytest.approx(2.0 * min(across, 305.0 * (3.0 - THICK - TIP)), rel=2e-3) == found.T


def test_slots_are_told() -> None:
    assert row(slot="1 in").slotted and not row().slotted


WHOLE = [(0.0, 0.0), (10.0, 0.0), (10.0, 3.0), (3.0, 12.0), (0.0, 12.0)]


def weight(grain: float, head: float = 2.0, **held: Any) -> float:
    """Of the tip that may come down, lbf; one row 3 in down, its head so far out."""
    made: Any = SimpleNamespace(**{"rows": [SimpleNamespace(head=head, y=3.0, washer=0.0)], "seats": [], "rods": [],
                                   "ledge": None, "H": 12.0, "t": 3.5, "outline": np.array(WHOLE), **held})  # fmt: skip
    found = list(loose_tip(bracket(SOLID), made, wood(structure()), grain))
    return float(found[0].notes[0].rsplit(": ", 1)[1].split(" ")[0]) if found else 0.0


def beyond(x: float) -> float:
    high = 3.0 + (10.0 - x) * 9.0 / 7.0
    return 0.5 * (high + 3.0) * (10.0 - x) * 3.5 * float(wood(structure()).density)


def below(y: float) -> float:
    """Weight of what lies deeper than y of at least 3 in: the soffit comes in from (10, 3) to (3, 12)."""
    return 0.5 * (3.0 + 7.0 * (12.0 - y) / 9.0 + 3.0) * (12.0 - y) * 3.5 * float(wood(structure()).density)


def test_a_rod_holds_what_it_goes_through() -> None:
    rod = SimpleNamespace(start=(6.0, 2.0), end=(4.0, 8.0))
    assert weight(90.0, rods=[rod]) == pytest.approx(beyond(6.0), rel=0.05)
    assert weight(90.0, rods=[SimpleNamespace(start=(4.0, 8.0), end=(5.0, 2.0))]) == pytest.approx(
        beyond(5.0), rel=0.05
    )


def test_level_grain_drops_what_lies_below_the_last_row_or_its_washer() -> None:
    """Upright places count there; a washer reaches half of its width below; what stands on a ledge does not fall."""
    rows = [SimpleNamespace(head=2.0, y=y, washer=w) for y, w in ((3.0, 4.0), (6.0, 1.0))]
    assert weight(0.0, rows=rows) == pytest.approx(below(6.5), rel=0.05)
    assert weight(0.0, rows=rows[:1]) == pytest.approx(below(5.0), rel=0.05)
    assert weight(0.0, ledge=SimpleNamespace(depth=0.5)) == 0.0


def test_a_row_holds_at_the_wall_where_the_grain_falls_away_from_its_head() -> None:
    """Grain at 135 degrees: from a head 2 in out and 3 in down s = (2 - 3)/sqrt 2, at the wall -3/sqrt 2 is less."""
    near = weight(135.0, head=2.0)
    assert weight(135.0, head=4.0) < near
