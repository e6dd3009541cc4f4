"""Random beams against sympy.physics.continuum_mechanics.beam (another method: singularity functions)."""

import random
from fractions import Fraction

import numpy as np
import pytest

from beamcheck.analysis.frames.member_line import LineLoad, PointLoad, straight_beam

LAYOUTS = [  # length, supports
    (12, [(0, "fixed"), (12, "roller")]),
    (12, [(0, "pin"), (5, "roller"), (12, "roller")]),
    (14, [(2, "pin"), (7, "roller"), (11, "roller")]),
    (10, [(0, "fixed")]),
    (15, [(3, "pin"), (15, "fixed")]),
]


@pytest.mark.parametrize("number", range(len(LAYOUTS)))
def test_random_beam(number):
    import sympy
    from sympy.physics.continuum_mechanics.beam import Beam

    rng = random.Random(1000 + number)
    length, supports = LAYOUTS[number]
    EI = rng.randint(2, 9)
    beam, unknown, order = Beam(length, EI, 1), [], []
    for i, (s, kind) in enumerate(supports):
        unknown.append(sympy.Symbol(f"R{i}"))
        order.append((i, 1, 1))
        beam.apply_load(unknown[-1], s, -1)
        beam.bc_deflection.append((s, 0))
        if kind == "fixed":
            unknown.append(sympy.Symbol(f"M{i}"))
            order.append((i, 2, -1))  # sympy's couples are clockwise
            beam.apply_load(unknown[-1], s, -2)
            beam.bc_slope.append((s, 0))
    loads = []
    for _ in range(2):
        s, P, moment = rng.randint(1, length - 1), rng.randint(-5, 9), rng.randint(-6, 6)
        loads.append(PointLoad(s, P, moment))
        beam.apply_load(-P, s, -1)
        beam.apply_load(-moment, s, -2)
    s0 = rng.randint(0, length - 4)
    s1, w0, w1 = s0 + rng.randint(1, 4), rng.randint(1, 5), rng.randint(-3, 8)
    loads.append(LineLoad(s0, s1, w0, w1))
    beam.apply_load(-w0, s0, 0, s1)
    beam.apply_load(sympy.Rational(w0 - w1, s1 - s0), s0, 1, s1)
    beam.solve_for_reaction_loads(*unknown)

    result = straight_beam(length, supports, [loads], EI)
    for symbol, (i, way, sign) in zip(unknown, order, strict=True):
        assert result.reactions[0, i, way] == pytest.approx(
            sign * float(beam.reaction_loads[symbol]), rel=1e-10, abs=1e-10
        )
    places = [Fraction(2 * k + 1, 7) for k in range(0, 7 * length // 2 - 1, 5)]
    x, moment, deflection = beam.variable, beam.bending_moment(), beam.deflection()
    at = [{x: sympy.Rational(place.numerator, place.denominator)} for place in places]
    s = np.array([float(place) for place in places])
    # with upward loads positive, sympy's moment is positive when it hogs
    assert result.line.at("M", s)[0] == pytest.approx([-float(moment.subs(p)) for p in at], rel=1e-9, abs=1e-9)
    assert result.line.at("v", s)[0] == pytest.approx([float(deflection.subs(p)) for p in at], rel=1e-9, abs=1e-9)
