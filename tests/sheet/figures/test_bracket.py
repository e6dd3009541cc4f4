"""The drawings of a bracket: elevation, stress, gap. Sizes, classes and sums are worked out by hand here."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.brackets.drawing import DEEPER
from beamcheck.checks.core.pictures.others import Elevation, GapPicture, Picture, StressPicture
from beamcheck.checks.core.result import JobResult
from beamcheck.sheet.document.blocks import FigureBlock, Paragraph
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.document.rich_blocks import MemberHead, RichTable
from beamcheck.sheet.figures.brackets.board import edges_of, hatching, joined
from beamcheck.sheet.figures.brackets.elevation import WOOD, bracket_figure
from beamcheck.sheet.figures.brackets.gap import gap_figure
from beamcheck.sheet.figures.brackets.stress import GRAYS, classes_of, stress_figure
from beamcheck.sheet.figures.drawers import drawn
from beamcheck.sheet.html.render import render

from ...worked_examples.results import example
from .. import sample

CHART = Path(__file__).parents[3] / "worked_examples" / "chart_room.toml"
SVG = "{http://www.w3.org/2000/svg}"
BOARD = ((0.0, 0.0), (8.0, 0.0), (8.0, 2.0), (2.0, 10.0), (0.0, 10.0))


def elevation(**more: object) -> Elevation:
    """An invented bracket 10 in high that stands out 8 in."""
    made = Elevation(
        "K1", (("", BOARD),), (90.0,), 10.0, 8.0, voids=(("pocket", ((0.0, 4.0), (1.0, 4.0), (1.0, 6.0), (0.0, 6.0))),),
        anchors=((2.5, 3.0, "row 1: 1 × lag screw"), (8.5, 3.0, "row 2: 1 × lag screw")),
        loads=((6.0, 6.0, "shelf: live 75 lb"), (1.0, 7.0, "jars: dead 12 lb")), wall="studs",
        dimensions=(("x", 0.0, 2.0, "foot"), ("y", 0.0, 2.0, "nose"), ("x", 0.0, 8.0, "projection"),
                    ("y", 0.0, 10.0, "height")),
    )  # fmt: skip
    return replace(made, **more)  # type: ignore[arg-type]


def stresses(values: tuple[float, ...] = (-40.0, -8.0, 2.0, 12.0, 24.0, 90.0), **more: object) -> StressPicture:
    """A row of squares of 1 in with one stress each; the limit is 15 psi."""
    count = len(values)
    cells = tuple(((i, 0.0), (i + 1.0, 0.0), (i + 1.0, 1.0), (float(i), 1.0)) for i in range(count))
    outline = ((0.0, 0.0), (float(count), 0.0), (float(count), 1.0), (0.0, 1.0))
    made = StressPicture("K1", "stress across the grain", outline, cells, values, 15.0,
                         marks=((count - 0.5, 0.5, "largest tension 90 psi"),))  # fmt: skip
    return replace(made, **more)  # type: ignore[arg-type]


def gap(left: float | None = 0.375, **more: object) -> GapPicture:
    """0.10 + 0.05 - 0.03 + 0.0625 = 0.1825 in are used up."""
    steps = (("dead load", 0.10), ("creep", 0.05), ("had come down before", -0.03), ("tolerance", 0.0625))
    return replace(GapPicture("K1", "B1", left, steps, 0.1825, 0.0), **more)  # type: ignore[arg-type]


def root(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def words(svg: str) -> list[str]:
    return [text.text or "" for text in root(svg).iter(f"{SVG}text")]


def said(svg: str) -> str:
    return " ".join(words(svg))


def described(svg: str) -> str:
    return root(svg).findtext(f"{SVG}desc", "")


def numbers(path: str) -> np.ndarray:
    return np.array(re.findall(r"-?[0-9.]+", path), dtype=float).reshape(-1, 2)


def paths(svg: str, **wanted: str) -> list[np.ndarray]:
    found = root(svg).iter(f"{SVG}path")
    return [numbers(p.get("d", "")) for p in found if all(p.get(k.replace("_", "-")) == v for k, v in wanted.items())]


# the shared parts


@given(st.floats(0.0, 179.0), st.floats(1.0, 4.0))
@settings(max_examples=30, deadline=None)
def test_hatching_runs_at_its_angle_inside_and_fills_the_area(angle: float, apart: float) -> None:
    """Length of the lines times their distance is the area: 100 x 60 less a hole of 20 x 20 is 5600."""
    box = [(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]
    hole = [(40.0, 20.0), (60.0, 20.0), (60.0, 40.0), (40.0, 40.0)]
    lines = hatching([box, hole], angle, apart)
    assert sum(math.dist(*line) for line in lines) * apart == pytest.approx(5600.0, rel=0.12)
    for (x0, y0), (x1, y1) in lines:
        lean = math.degrees(math.atan2(y0 - y1, x1 - x0)) % 180.0
        assert math.dist((x0, y0), (x1, y1)) < 1e-6 or min(abs(lean - angle), 180.0 - abs(lean - angle)) < 1e-3
        assert not (40.01 < 0.5 * (x0 + x1) < 59.99 and 20.01 < 0.5 * (y0 + y1) < 39.99)


def test_joined_cells_lose_the_lines_between_them() -> None:
    """A ring of eight squares: an outer square with 4 corners and a hole with 4."""
    cells = [
        [(x, y), (x + 10.0, y), (x + 10.0, y + 10.0), (x, y + 10.0)]
        for x in (0.0, 10.0, 20.0) for y in (0.0, 10.0, 20.0) if (x, y) != (10.0, 10.0)
    ]  # fmt: skip
    assert sorted(len(ring) for ring in joined(cells)) == [4, 4]
    assert sum(math.dist(*line) for line in edges_of(cells)) == pytest.approx(4 * 30.0 + 4 * 10.0)


# the elevation


def test_elevation_is_to_scale_with_the_top_up_and_the_nose_to_the_right() -> None:
    (wood,) = paths(bracket_figure(elevation(), "K1"), fill=WOOD)
    wood = wood[: len(BOARD)]
    scale = (wood[1, 0] - wood[0, 0]) / 8.0
    assert scale > 5.0
    assert wood - wood[0] == pytest.approx(scale * np.array(BOARD), abs=0.03)


def test_grain_lines_run_with_the_grain() -> None:
    """In a 45 degree grain that rises to the nose every line goes up as far as it goes out."""
    svg = bracket_figure(elevation(grain=(45.0,), voids=()), "K1")
    lines = [path for path in paths(svg, stroke="#767676") if len(path) > 40]
    rising = [
        path for path in lines if np.allclose(path[0::2, 0] - path[1::2, 0], path[1::2, 1] - path[0::2, 1], atol=0.03)
    ]
    assert len(rising) == 1  # the wall behind is hatched the other way
    assert "45 deg above level" in said(svg)


def test_sizes_loads_fasteners_and_pocket_are_lettered() -> None:
    svg = bracket_figure(elevation(), "K1")
    seen = set(words(svg))
    assert {"0", "2 1/2 in", "8 1/2 in", "10 in", "foot 2 in", "projection 8 in", "nose", "2 in", "studs"} <= seen
    assert {"1", "2", "Load 1: shelf: live 75 lb.", "Row 1: 1 × lag screw."} <= seen
    assert "pocket 2 in high and 1 in deep, 4 in below the top" in said(svg)
    assert "Load 2: jars: dead 12 lb." in described(svg)


def test_in_si_the_sizes_are_metric() -> None:
    """25.4 mm in an inch: 8 in = 203 mm, 10 in = 254 mm."""
    seen = words(bracket_figure(elevation(), "K1", "SI"))
    assert {"254 mm", "projection 203 mm"} <= set(seen)
    assert not any(text.endswith(" in") for text in seen)


@pytest.mark.parametrize(
    ("left", "seen"), [(0.375, {"gap", "3/8 in"}), (0.0, {"no gap"}), (None, {"gap", "not known"})]
)
def test_the_beam_above_and_its_gap(left: float | None, seen: set[str]) -> None:
    svg = bracket_figure(elevation(beam=(left, "B7")), "K1")
    assert {"B7", *seen} <= set(words(svg))
    assert ("a guess" in said(svg)) == (left is None)


def test_unknown_grain_is_not_drawn_and_steel_has_none() -> None:
    unknown = bracket_figure(elevation(grain=(None,), voids=()), "K1")
    assert "No grain is drawn" in said(unknown)
    assert "Wood: grain not known." in described(unknown)
    assert not any(len(path) > 40 for path in paths(unknown, stroke="#767676", stroke_width="0.6")[1:])
    steel = bracket_figure(elevation(parts=(("bar", BOARD),), grain=(None,)), "K1")
    assert "Steel only" in said(steel)
    assert "Bar: steel." in described(steel)


def test_bores_that_must_be_deeper_are_said() -> None:
    bore = (DEEPER, ((1.5, 2.1), (7.6, 2.1), (7.6, 2.9), (1.5, 2.9)))
    assert "deeper bores than are given" in said(bracket_figure(elevation(voids=(bore,)), "K1"))
    assert "deeper" not in said(bracket_figure(elevation(), "K1"))


def test_the_head_of_a_fastener_sits_at_the_bottom_of_its_bore() -> None:
    """The bore begins 1 1/2 in out: the head, the thickest stroke, stands there."""
    bore = ("bore", ((1.5, 2.1), (7.6, 2.1), (7.6, 2.9), (1.5, 2.9)))
    svg = bracket_figure(elevation(voids=(bore,)), "K1")
    (wood,) = paths(svg, fill=WOOD)
    scale = (wood[1, 0] - wood[0, 0]) / 8.0
    first = paths(svg, stroke_width="3.2")[0]
    assert (first[0, 0] - wood[0, 0]) / scale == pytest.approx(1.5, abs=0.01)


# the stress


def test_classes_double_and_hold_the_limit() -> None:
    """Largest 90 psi of 15: log2(6) is 2.6, so the borders are 15, 30, 60; up to twice the limit they end at it."""
    assert classes_of(15.0, 90.0).borders == (15.0, 30.0, 60.0)
    assert classes_of(15.0, 25.0).borders == (3.75, 7.5, 15.0)
    assert classes_of(15.0, 45.0).borders == (7.5, 15.0, 30.0)
    assert classes_of(15.0, 0.0).borders == (3.75, 7.5, 15.0)


@given(st.floats(0.5, 100.0), st.floats(0.0, 1e6))
def test_borders_rise_and_the_limit_is_one_of_them(limit: float, most: float) -> None:
    borders = classes_of(limit, most).borders
    assert limit in borders
    assert borders[0] < borders[1] < borders[2]


def test_grays_darken_evenly() -> None:
    light = [int(gray[1:3], 16) for gray in GRAYS[1:]]
    assert light == sorted(light, reverse=True)
    assert min(a - b for a, b in zip([255, *light], light, strict=False)) > 35


def test_bands_are_smooth_and_the_line_stands_where_the_stress_is_at_its_limit() -> None:
    """Six cells of 1 in, 5, 15, ... 55 psi at their middles: 10 psi an inch, so that 15 psi is met 1.5 in out."""
    cells = tuple(((x, 0.0), (x + 1.0, 0.0), (x + 1.0, 1.0), (x, 1.0)) for x in map(float, range(6)))
    outline = ((0.0, 0.0), (6.0, 0.0), (6.0, 1.0), (0.0, 1.0))
    svg = stress_figure(StressPicture("K1", "stress", outline, cells, (5.0, 15.0, 25.0, 35.0, 45.0, 55.0), 15.0), "K1")
    (limit,) = paths(svg, stroke_width="2.4")
    edge = paths(svg, fill="none", stroke_width="2")[0]
    inch = (edge[1, 0] - edge[0, 0]) / 6.0
    assert (limit[:, 0] - edge[0, 0]) / inch == pytest.approx([1.5] * len(limit), abs=0.01)
    for gray, start, end in zip(GRAYS[2:], (1.5, 3.0), (3.0, 6.0), strict=True):  # borders 7.5, 15 and 30 psi
        (band,) = paths(svg, fill=gray, stroke_width="0.5")
        found = (band[:, 0] - edge[0, 0]) / inch
        assert (found.min(), found.max()) == pytest.approx((start, end), abs=0.02)


def test_wood_that_is_pressed_is_hatched_and_no_line_runs_round_it() -> None:
    svg = stress_figure(stresses((-40.0, -40.0, -40.0)), "K1")
    assert [len(paths(svg, fill=gray, stroke_width="0.5")) for gray in GRAYS] == [0, 0, 0, 1]
    assert not paths(svg, stroke_width="2.4")
    assert {"marked", "pressed together", "pulled apart", "psi", "15", "A"} <= set(words(svg))


def test_the_scale_of_an_si_sheet_is_in_megapascals() -> None:
    """15 psi = 0.1034 MPa."""
    seen = words(stress_figure(stresses(), "K1", "SI"))
    assert {"MPa", "0.103", "−0.103"} <= set(seen)
    assert "psi" not in seen


def test_what_lies_in_a_zone_that_is_not_read_sets_no_class() -> None:
    """Without the cell of 90 psi the largest is 24, and the borders are those up to twice the limit."""
    zone = ((4.9, -0.1), (6.1, -0.1), (6.1, 1.1), (4.9, 1.1))
    svg = stress_figure(stresses(left_out=(zone,), marks=()), "K1")
    assert {"3.8", "7.5", "15"} <= set(words(svg))
    assert "no stress is read" in said(svg)
    assert "Places where no stress is read: 1." in described(svg)


def test_stress_that_is_no_number_is_left_white() -> None:
    svg = stress_figure(stresses((math.nan, 2.0, 10.0)), "K1")
    assert "nan" not in svg
    assert "Nowhere that is read" in said(svg)


def test_a_thousand_cells_stay_small() -> None:
    """80 kB at most for a field as fine as those that are drawn."""
    side = 36
    cells = tuple(
        ((x, y), (x + 1.0, y), (x + 1.0, y + 1.0), (x, y + 1.0))
        for x in map(float, range(side)) for y in map(float, range(side))
    )  # fmt: skip
    values = tuple(60.0 * math.sin(0.4 * cell[0][0]) * math.cos(0.3 * cell[0][1]) for cell in cells)
    outline = ((0.0, 0.0), (36.0, 0.0), (36.0, 36.0), (0.0, 36.0))
    assert len(stress_figure(StressPicture("K1", "stress", outline, cells, values, 15.0), "K1")) < 80_000


# the gap


def test_bars_follow_each_other_to_what_is_needed() -> None:
    svg = gap_figure(gap(), "K1")
    gray, paper = paths(svg, fill="#b0b0b0"), paths(svg, fill="#fff", stroke_width="1.2")
    needed = paths(svg, fill="#000", stroke_width="1.2")[0]
    scale = (needed[1, 0] - needed[0, 0]) / 0.1825
    assert (gray[0][1, 0] - gray[0][0, 0]) / scale == pytest.approx(0.10, abs=1e-4)
    assert gray[1][0, 0] == pytest.approx(gray[0][1, 0], abs=0.02)  # creep begins where the dead load ends
    assert paper[0][1, 0] == pytest.approx(gray[1][1, 0], abs=0.02)  # what had come down goes back
    assert gray[2][1, 0] == pytest.approx(needed[1, 0], abs=0.02)
    assert {"3/8 in", "0.1 in", "creep", "needed in all"} <= set(words(svg))


@pytest.mark.parametrize(
    ("left", "force", "sentence"),
    [
        (0.3825, 0.0, "0.2 in to spare."),  # 0.3825 - 0.1825
        (0.1825, 0.0, "0 in to spare."),
        (0.0825, 233.0, "0.1 in too little."),  # 0.1825 - 0.0825
        (0.0825, 233.0, "B1 comes down on K1 with up to 233 lb."),
        (None, 233.0, "Whether it stays clear is not known: measure the gap."),
    ],
)
def test_what_follows_from_the_gap_is_said(left: float | None, force: float, sentence: str) -> None:
    svg = gap_figure(gap(left, force=force), "K1")
    assert sentence in said(svg)
    assert sentence in described(svg)
    assert ("this much is missing" in said(svg)) == (left == 0.0825)


# all of them

ALL = (elevation(beam=(None, "B1")), stresses(), gap(0.0))


@pytest.mark.parametrize("picture", ALL, ids=("elevation", "stress", "gap"))
def test_alternative_text_stands_in_every_drawing_and_names_are_escaped(picture: Picture) -> None:
    name = 'bracket <A> & "co"'
    made = replace(picture, name=name)
    svg = drawn(FigureBlock(made, name, "US", "figure-9", ""))
    top = root(svg)
    assert top.get("role") == "img"
    ids = {one.get("id") for one in top.iter() if one.get("id")}
    assert set(top.get("aria-labelledby", "").split()) == ids == {"figure-9-title", "figure-9-about"}
    assert name in top.findtext(f"{SVG}title", "")
    assert len(described(svg)) > 40


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("picture", ALL, ids=("elevation", "stress", "gap"))
def test_black_and_gray_only_and_all_of_it_inside(picture: Picture, system: str) -> None:
    svg = drawn(FigureBlock(picture, "K1", system, "f", ""))
    for color in re.findall(r'(?:fill|stroke)="(#[0-9a-f]+)"', svg):
        digits = color[1:] if len(color) == 7 else "".join(letter * 2 for letter in color[1:])
        assert digits[:2] == digits[2:4] == digits[4:]
    width, height = map(float, root(svg).get("viewBox", "").split()[2:])
    for path in paths(svg):
        assert (path >= -0.5).all()
        assert (path <= np.array([width, height]) + 0.5).all()


def with_bracket() -> JobResult:
    job = sample.job()
    piece = replace(
        job.pieces[0], name="K1", kind="bracket", figure=None, finding="decoration only",
        reason="short grain at the nose", pictures=(elevation(), stresses(), gap()),
    )  # fmt: skip
    return replace(job, pieces=(piece, *job.pieces[1:]))


def test_the_finding_stands_right_under_the_verdict_and_at_the_head() -> None:
    blocks = compose(with_bracket())
    at = next(i for i, block in enumerate(blocks) if isinstance(block, MemberHead))
    assert blocks[at + 1] == Paragraph("Found to be: decoration only. Short grain at the nose.")
    change = next(block for block in blocks if isinstance(block, RichTable) and block.title == "Change")
    assert "Decoration only. " in str(change.rows[0][1])
    assert "Found to be: decoration only. Short grain at the nose." in render(with_bracket())


def test_a_piece_that_is_no_bracket_says_nothing_of_a_finding() -> None:
    assert "Found to be: " not in render(sample.job())


def test_all_drawings_stand_in_the_page_with_keys_of_their_own() -> None:
    page = render(with_bracket())
    for key in ("figure-1-title", "figure-1-2-title", "figure-1-3-title"):
        assert page.count(f'id="{key}"') == 1


def test_the_front_is_as_wide_as_it_is_thick_at_one_scale_with_the_side_and_holds_every_fastener() -> None:
    """Two fasteners side by side 1 in apart, the rows 6 in apart: six to one in the drawing too."""
    made = elevation(thickness=2.0, front=((0.5, 2.5), (1.5, 2.5), (1.0, 8.5)))
    svg = bracket_figure(made, "K1")
    rings = [one for one in root(svg).iter(f"{SVG}circle") if one.get("r") == "3.2"]
    assert len(rings) == 3 and "front" in words(svg) and "2 in" in words(svg)
    xs = sorted(float(one.get("cx", "")) for one in rings)
    ys = sorted(float(one.get("cy", "")) for one in rings)
    assert (ys[-1] - ys[0]) / (xs[-1] - xs[0]) == pytest.approx(6.0, rel=0.02)  # 6 in down, 1 in apart


def test_a_stress_picture_shows_what_loads_and_what_holds_it() -> None:
    bare = stress_figure(stresses(), "K1")
    shown = stress_figure(stresses(loads=((2.0, 2.0, "shelf: live 75 lb"),), anchors=((0.5, 3.0, "row 1"),)), "K1")
    strokes = [len(list(root(svg).iter(f"{SVG}path"))) for svg in (bare, shown)]
    assert strokes[1] == strokes[0] + 5  # shaft and head of the arrow; ground, body and head of the fastener


def test_the_order_of_assembly_names_what_the_job_says() -> None:
    """Each bracket of the demo with fixings: its rows from the job file, one step a line."""
    pieces = [piece for piece in example("chart_room").pieces if piece.kind == "bracket"]
    tables = [table for piece in pieces for table in piece.tables if table.title == "Order of assembly"]
    assert tables and all("below the top" in " ".join(row[1] for row in table.rows) for table in tables)
    assert all([row[0] for row in table.rows] == [str(n + 1) for n in range(len(table.rows))] for table in tables)
