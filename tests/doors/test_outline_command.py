"""`whatcarries outline`: a drawing in, a table of the job file out."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

import beamcheck
from beamcheck import BeamcheckError, read_outline

SIDE = '<svg width="20in" viewBox="0 0 20 20"><path d="M0 0V12H2L10 2V0{end}"/></svg>'


@pytest.fixture
def side(tmp_path: Path) -> Path:
    path = tmp_path / "side.svg"
    path.write_text(SIDE.format(end="Z"))
    return path


def test_it_prints_a_table_with_the_caution(run, side: Path) -> None:
    done = run("outline", side)
    assert done.exit_code == 0 and not done.stderr
    assert done.stdout.startswith(f"# {beamcheck.CAUTION}\n# Outline read from side.svg, in units of 1 in.\n")
    shape = tomllib.loads(done.stdout)["bracket"]["shape"]
    assert (shape["height"], shape["soffit"]) == ("12 in", "points")
    assert shape["points"] == [{"x": "2 in", "y": "12 in"}, {"x": "10 in", "y": "2 in"}]
    assert "thickness" not in shape  # no drawing of the side tells it: the job file is refused until it is written


@pytest.mark.parametrize(
    ("end", "options", "said"),
    [
        (
            "",
            (),
            "the outline is open: between (0, 0) in of the drawing and (10, 0) in of the drawing is a gap of 10 in",
        ),
        ("Z", ("--units", "mm"), "the drawing says that its unit is in, not mm"),
        ("Z", ("--units", "ell"), "Invalid value for '--units'"),
    ],
)
def test_slips_end_with_two(run, side: Path, end: str, options: tuple[str, ...], said: str) -> None:
    side.write_text(SIDE.format(end=end))
    done = run("outline", side, *options)
    assert done.exit_code == 2 and said in done.stderr and not done.stdout and "Traceback" not in done.stderr


def test_in_python(side: Path) -> None:
    profile = read_outline(side)
    assert (profile.height, profile.projection, profile.points) == (12.0, 10.0, ((2.0, 12.0), (10.0, 2.0)))
    with pytest.raises(BeamcheckError, match=r"none\.svg: there is no such file"):
        read_outline(side.with_name("none.svg"))
