"""A timber beam that comes to rest on a bracket, both in plane stress: a check on the force method of props."""

import numpy as np
import pytest

from beamcheck.analysis.fields.field import Backing, Elastic, Press, solve_field
from beamcheck.analysis.fields.mesh import QUAD_FACES, QUAD_SUB, Edge, Mesh, finish
from beamcheck.analysis.fields.outline import outline_of
from beamcheck.analysis.fields.solve import SHAPE, body, factor, gathered, line, spread_load

from .test_outline import solid

L, d, b, w, x = 144.0, 9.5, 5.5, 25.0, 24.0
TIMBER = Elastic(1.6e6, 80000.0, 124800.0, 0.449, 0.0)


def beam_mesh(along=72, across=4):
    """A rectangle L x d; y down. `top`, `soffit`, and the two end faces."""
    stops = np.unique(np.concatenate([np.linspace(0, L, along + 1), [x - 0.5, x + 0.5]]))
    columns = len(stops) - 1
    number = np.arange((columns + 1) * (across + 1)).reshape(columns + 1, across + 1)
    quads = np.stack([number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]], axis=-1).reshape(-1, 4)
    flat = np.stack(np.meshgrid(stops, np.linspace(0, d, across + 1), indexing="ij"), axis=-1).reshape(-1, 2)
    nodes, cells, work, read, spread = finish(flat, quads, lambda places: places)

    def edge(axis, value):
        on = np.flatnonzero(np.abs(nodes[:, axis] - value) < 1e-9)
        on = on[np.argsort(nodes[on, 1 - axis])]
        sides = np.stack([on[:-2:2], on[1:-1:2], on[2::2]], axis=-1)
        return Edge(sides, np.zeros(len(sides), dtype=np.intp))

    edges = {"top": edge(1, 0.0), "soffit": edge(1, d), "left": edge(0, 0.0), "right": edge(0, L)}
    sub, faces = np.array(QUAD_SUB), np.array(QUAD_FACES)
    return Mesh(nodes, cells, work, read, spread, edges, np.full(len(cells), b), sub, faces, "mapped")


def sags(mesh):
    """Sinking at x under w, and under 1 lb spread over 1 in there; supports hold the whole end faces up."""
    n = 2 * len(mesh.nodes)
    free = np.ones(n, dtype=bool)
    for name in ("left", "right"):
        free[2 * np.unique(mesh.edges[name].sides) + 1] = False
    free[2 * mesh.edges["left"].sides[0, 0]] = False
    numbers = np.flatnonzero(free)
    top, foot = line(mesh, mesh.edges["top"]), line(mesh, mesh.edges["soffit"], x - 0.5, x + 0.5)
    loads = np.zeros((2, len(mesh.nodes), 2))
    spread_load(loads[0], top, np.full_like(top.length, w), 1)
    spread_load(loads[1], foot, np.ones_like(foot.length), 1)
    moves = np.zeros((n, 2))
    K = gathered([body(mesh, TIMBER)], n)
    moves[numbers] = factor(K[numbers][:, numbers])(loads.reshape(2, -1).T[numbers])
    down = np.einsum("qn,kni->kqi", SHAPE, moves[2 * foot.nodes + 1])
    return (down * foot.length[..., None]).sum(axis=(0, 1))


def test_prop_force_under_a_two_dimensional_beam():
    """Q1: 737.7 lb on a spring of 8000 lb/in under the soffit (derived by another program), 1 %."""
    delta_0, f_xx = sags(beam_mesh())
    assert delta_0 / (1 / 8000.0 + f_xx) == pytest.approx(737.7, rel=0.01)


def test_the_force_method_with_shear_is_near_the_two_dimensional_beam():
    """Section f: with shear terms 1.02 to 1.07 of the two-dimensional beam, without 0.94 to 1.00."""
    delta_0, f_xx = sags(beam_mesh())
    EI, GA = 1.6e6 * b * d**3 / 12, 124800.0 * b * d
    bend, unit = w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI), x**2 * (L - x) ** 2 / (3 * EI * L)
    shear, unit_shear = 1.2 * w * x * (L - x) / (2 * GA), 1.2 * x * (L - x) / (GA * L)
    exact = delta_0 / (1 / 8000.0 + f_xx)
    assert 0.94 < bend / (1 / 8000.0 + unit) / exact < 1.0
    assert 1.0 < (bend + shear) / (1 / 8000.0 + unit + unit_shear) / exact < 1.07


def test_beam_on_a_bracket_that_is_a_field_itself():
    """The bracket's stiffness comes from its own field: forces and movements must agree where they touch."""
    outline = outline_of(solid("concave", 14.0, 12.0, 2.0, 2.0))
    press = Press(11.0, 12.0, 1.0)
    bracket = solve_field(
        outline, 1.5, Elastic(1.6e6, 80000.0, 124800.0, 0.449, 45.0), Backing("bonded"), [press], across=8
    )
    delta_0, f_xx = sags(beam_mesh())
    force = delta_0 / (1 / bracket.stiffness + f_xx)
    loaded = solve_field(
        outline, 1.5, bracket.solution.elastic, Backing("bonded"), [Press(11.0, 12.0, force)], across=8
    )
    assert force / loaded.stiffness == pytest.approx(delta_0 - force * f_xx, rel=1e-9)
    moment = loaded.resultant(9.0, 0.0, 9.0, outline.depth(9.0)).M
    assert moment == pytest.approx(force * 2.5, rel=0.02)
    # across the grain far beyond the 15 psi that short grain may be given
    assert loaded.peak("across tension").value > 150.0
