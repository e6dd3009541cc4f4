"""Stress fields of brackets: outline, one mesh, refined. Run: pytest tests/benchmarks"""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.analysis.fields.field import Backing, Elastic, Press, Spring, Void, refined_field, solve_field
from beamcheck.analysis.fields.outline import Outline, outline_of
from beamcheck.model.brackets.bracket import Solid
from tests.analysis.fields.arc import arc_field

BONDED = Backing("bonded")
HELD = Backing("springs", (Spring(2.0, 30000.0, 1e5), Spring(9.0, 30000.0, 1e5)), 1e7)


def outline(soffit: str = "concave") -> Outline:
    return outline_of(
        Solid.model_validate(
            {"family": "solid", "thickness": "1 1/2 in", "height": "12 in", "projection": "10 in", "foot": "2 in",
             "nose": "2 in", "soffit": soffit}
        )
    )  # fmt: skip


def wood(grain: float) -> Elastic:
    return Elastic(1.6e6, 80000.0, 124800.0, 0.449, grain)


def test_outline(benchmark: Any) -> None:
    assert benchmark(outline).area > 0.0


@pytest.mark.parametrize("across", [6, 9, 14, 21])
def test_one_mesh(benchmark: Any, across: int) -> None:
    field = benchmark(solve_field, outline(), 1.5, wood(0.0), BONDED, [Press(9.0, 10.0, 100.0)], across=across)
    benchmark.extra_info["unknowns"] = 2 * len(field.mesh.nodes)
    assert field.residual < 1e-8


@pytest.mark.parametrize("grain", [0.0, 45.0, 90.0])
@pytest.mark.parametrize("backing", [BONDED, HELD], ids=["bonded", "anchors and wall"])
@pytest.mark.parametrize("soffit", ["straight", "concave", "convex"])
def test_refined(benchmark: Any, soffit: str, backing: Backing, grain: float) -> None:
    field = benchmark(refined_field, outline(soffit), 1.5, wood(grain), backing, [Press(9.0, 10.0, 100.0)])
    benchmark.extra_info["cells_across"] = field.across_cells
    assert field.moved < 0.02


def test_refined_with_a_pocket(benchmark: Any) -> None:
    voids = [Void(4.0, 3.0, 0.75)]
    field = benchmark(refined_field, outline(), 1.5, wood(90.0), HELD, [Press(9.0, 10.0, 100.0)], voids=voids)
    assert field.mesh.kind == "triangles"


def test_arc(benchmark: Any) -> None:
    assert benchmark(arc_field, 10.0, 2.0, 90.0, 1.5, wood(0.0), 100.0).moved < 0.02
