"""Check values on props of the reference on brackets that carry (section 6: own beam solver, derived), typed here.

A 5 1/2 x 11 1/2 in beam of 13 ft hung at the middle of a like girder of 14 ft; E = 1,600,000 psi with COV 0.25, so that
E_05 = 942,000 psi; G = E_05/16; 7.2152 lb/in dead, 20 lb/in live; K_cr 1.5 on dead load.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.analysis.beams.solved_beam import BeamSupport, SolvedBeam, solve_beam
from beamcheck.analysis.props.props import carried_down, sinking, unit_sags
from beamcheck.checks.brackets.props.gap import Nearby, pad_in_series
from beamcheck.formulas.brackets.prop import gap_needed, prop_force

from ...beams import beams
from .near_a_beam import ask, asked, context, find

B, D, L, X, GIRDER = 5.5, 11.5, 156.0, 143.0, 168.0
E_05 = 1.6e6 * (1 - 1.645 * 0.25)
DEAD, LIVE, OWN, K_CR = 7.2152, 20.0, 1.2152, 1.5


def beam(length: float, loads: list[Applied], stiff: float = 1.0) -> SolvedBeam:
    A, I = B * D, B * D**3 / 12  # noqa: E741
    ends = [BeamSupport(0.0, "pin"), BeamSupport(length, "pin")]
    return solve_beam(length, ends, loads, depth=D, EI=stiff * E_05 * I, GA_s=stiff * E_05 / 16 * A * 5 / 6)


def even(kind: str, w: float, length: float) -> Applied:
    return Applied(kind, 0.0, length, w_start=w, w_end=w)


def supported(stiff: float = 1.0) -> tuple[float, float, SolvedBeam]:
    """Sag of the girder under what the beam hangs on it, dead and live; and the beam itself."""
    girder = beam(GIRDER, [even("D", OWN, GIRDER), Applied("D", 84.0, 84.0, P=DEAD * L / 2),
                           Applied("L", 84.0, 84.0, P=LIVE * L / 2)], stiff)  # fmt: skip
    down = sinking(girder, [84.0])
    worst = int(np.argmax(down.lasting + down.passing))
    return (
        float(down.lasting[worst, 0]),
        float(down.passing[worst, 0]),
        beam(L, [even("D", DEAD, L), even("L", LIVE, L)]),
    )


def test_the_girder_sags() -> None:
    dead, live, _ = supported()
    assert dead == pytest.approx(0.112859, rel=0.01)  # BC082
    assert live == pytest.approx(0.255799, rel=0.01)  # BC083


def test_the_beam_comes_down_with_it() -> None:
    dead, live, own = supported()
    share = float(carried_down(own, [X])[1, 0])
    assert share == pytest.approx(0.916667, rel=0.005)  # BC084
    down = sinking(own, [X])
    alone = float(np.max(down.long_term(K_CR)))
    drop = alone + share * (K_CR * dead + live)
    assert drop == pytest.approx(0.494139, rel=0.01)  # BC085
    softness = float(unit_sags(own, [X])[0, 0])
    under = float(unit_sags(beam(GIRDER, [even("D", OWN, GIRDER)]), [84.0])[0, 0])
    f = softness + share**2 * under
    assert f == pytest.approx(0.000152869, rel=0.01)  # BC086
    for gap, force in ((0.25, 1128.93), (0.375, 550.915)):  # BC087, BC088
        k = pad_in_series(15775.9, 1.0 / (share**2 * under))
        assert float(prop_force(drop, gap, k, softness)) == pytest.approx(force, rel=0.02)
    needed = gap_needed(1.0, drop, 0.0, 0.0, 0.0242, 0.0625)
    assert float(needed) == pytest.approx(0.580839, rel=0.01)  # BC089


def test_a_tight_post_at_the_middle() -> None:
    """R = drop/(f + l/(E A)); the post of 7 1/2 x 7 1/2 in, 96 in high, E 1,600,000 psi."""
    own = beam(L, [even("D", DEAD, L), even("L", LIVE, L)])
    drop = float(np.max(sinking(own, [78.0]).long_term(K_CR)))
    f = float(unit_sags(own, [78.0])[0, 0])
    assert float(prop_force(drop, 0.0, 1.6e6 * 7.5**2 / 96, f)) == pytest.approx(2924.98, rel=0.01)  # BC090
    assert float(gap_needed(1.0, drop, 0.0, 0.0, 0.0, 0.0625)) == pytest.approx(0.454694, rel=0.01)  # BC091


def needed(stiff: float) -> float:
    """Gap at the nose of the beam on a girder so many times as stiff."""
    dead, live, own = supported(stiff)
    share = float(carried_down(own, [X])[1, 0])
    alone = float(np.max(sinking(own, [X]).long_term(K_CR)))
    return float(gap_needed(1.0, alone + share * (K_CR * dead + live), 0.0, 0.0, 0.0, 0.0625))


def test_a_stiffer_carrier_never_asks_for_more_gap() -> None:
    gaps = [needed(stiff) for stiff in (0.5, 1.0, 2.0, 10.0, 1e4)]
    assert all(later < earlier for earlier, later in pairwise(gaps))
    assert gaps[-1] == pytest.approx(0.105 + 0.0625, abs=0.002)  # the beam alone: the reference, section 6


@pytest.mark.parametrize(
    ("most", "least", "force", "pull", "sure"),
    [(0.5, -0.5, False, False, "too small to be sure"), (0.51, 0.0, True, False, "too small: "),
     (0.0, -0.51, False, True, "too small to be sure"), (40.0, -30.0, True, True, "too small: ")],
)  # fmt: skip
def test_up_to_half_a_pound_it_attracts_and_is_pulled_by_nothing(
    most: float, least: float, force: bool, pull: bool, sure: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = context(beams.beam())

    def forces(self: Nearby, i: int) -> tuple[np.ndarray, np.ndarray]:
        at = np.arange(len(self.needed))
        return np.where(at == 1, most, 0.0), np.where(at == 2, least, 0.0)

    monkeypatch.setattr(Nearby, "forces", forces)
    result = asked(place, ask(gap="1/16 in"))
    attracted, pulled = (
        [check for check in result.checks if check.what.startswith(begins)] for begins in ("force that", "pull from")
    )
    names = [one.name for one in result.combinations]
    assert [(check.demand, check.combination) for check in attracted] == ([(most, names[1])] if force else [])
    assert [(check.demand, check.combination) for check in pulled] == ([(-least, names[2])] if pull else [])
    assert find(result, "gap under B").notes[0].startswith(sure)
