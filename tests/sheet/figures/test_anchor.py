"""The drawing of an anchor group: every hole and dimension in it, the governing one marked, all of it inside."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from beamcheck import result_json, result_schema
from beamcheck.checks.core.pictures.others import FastenerSize, ForceMark, HoleDrawing, ShortOf
from beamcheck.checks.core.result import JobResult
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.figures.anchor import describe, hole_figure
from beamcheck.sheet.html.render import render
from beamcheck.sheet.terminal.everything import plain_text

from ...worked_examples.results import example
from .. import sample

DEMO = Path(__file__).parents[3] / "worked_examples" / "net_loft.toml"
SVG = "{http://www.w3.org/2000/svg}"
TO_SEE = ("count and size: 4 bolts 3/4 in", "no split runs through a row")


def drawing(end: str = "left", governing: str = "4", **more: object) -> HoleDrawing:
    """Four 3/4 in bolts through a concealed plate, invented."""
    places = ((5.25, 3.0), (8.25, 3.0), (5.25, 6.0), (8.25, 6.0))
    made = HoleDrawing(
        name="plate A", end="right" if end == "right" else "left", length=13.35, depth=9.75, breadth=7.25,
        holes=tuple((x, y, 0.75, str(i), str(i) == governing) for i, (x, y) in enumerate(places, start=1)),
        dimensions=(("x", 0.0, 5.25, "from the end"), ("x", 0.0, 8.25, "from the end"), ("y", 0.0, 3.0, ""),
                    ("y", 0.0, 6.0, ""), ("y", 6.0, 9.75, "to the top")),
        slot=(0.3125, 11.0, 9.75), plate=(0.0, 1.5, 10.0, 7.5, 0.25), plate_at="in the slot", bores=(2.25, 1.0),
        bored=2, texts=("4 x bolt 3/4 in, left end of B",),
    )  # fmt: skip
    return replace(made, **more)  # type: ignore[arg-type]


def drawn(made: HoleDrawing, system: str = "US") -> ElementTree.Element:
    return ElementTree.fromstring(hole_figure(made, "plate <A> & co", system))


def words(root: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in root.iter(f"{SVG}text")]


def with_drawing() -> JobResult:
    job = sample.job()
    piece = replace(job.pieces[0], figure=None, drawing=drawing(), to_see=TO_SEE)
    return replace(job, pieces=(piece, *job.pieces[1:]))


def test_holes_dimensions_and_the_governing_fastener_are_lettered() -> None:
    seen = words(drawn(drawing()))
    assert {"1", "2", "3", "4", "4 governs", "left end from the side", "end view"} <= set(seen)
    assert {"0", "5 1/4 in", "8 1/4 in", "3 in", "6 in", "9 3/4 in", "7 1/4 in"} <= set(seen)


def test_in_si_all_dimensions_are_metric() -> None:
    """25.4 mm in an inch: 5 1/4 in = 133.35 mm, 9 3/4 in = 247.65 mm."""
    seen = words(drawn(drawing(), "SI"))
    assert {"133 mm", "248 mm"} <= set(seen)
    assert not any(text.endswith(" in") for text in seen)


def test_holes_stand_to_scale_and_the_right_end_is_the_mirror_of_the_left() -> None:
    """Equal steps in inches are equal steps in the drawing, along and across; the other end runs the other way."""

    def middles(root: ElementTree.Element) -> list[tuple[float, float]]:
        rings = [one for one in root.iter(f"{SVG}circle") if one.get("stroke-width") == "1.3"]
        return sorted((float(one.get("cx", "")), float(one.get("cy", ""))) for one in rings)

    left, right = (middles(drawn(drawing(end, governing="0"))) for end in ("left", "right"))
    assert len(left) == len(right) == 4
    along, across = left[2][0] - left[0][0], left[1][1] - left[0][1]
    assert along == pytest.approx(across, abs=0.02)  # both 3 in
    assert right[2][0] - right[0][0] == pytest.approx(along, abs=0.02)
    radius = next(float(one.get("r", "")) for one in drawn(drawing()).iter(f"{SVG}circle") if one.get("fill") == "#000")
    assert radius / along == pytest.approx(0.375 / 3.0, abs=0.002)


def test_slot_and_plate_are_dashed_and_the_governing_fastener_has_a_ring() -> None:
    root = drawn(drawing())
    dashes = {one.get("stroke-dasharray") for one in root.iter(f"{SVG}path")}
    assert {"4 3", "10 3"} <= dashes
    rings = [one for one in root.iter(f"{SVG}circle") if one.get("stroke-width") == "2.2"]
    assert len(rings) == 1
    assert not [one for one in drawn(drawing(governing="")).iter(f"{SVG}circle") if one.get("stroke-width") == "2.2"]


def test_only_black_white_and_grays() -> None:
    colors = set(re.findall(r"#[0-9a-f]{3,6}", hole_figure(drawing(), "A")))
    assert all(len(set(re.findall("..", color[1:]) if len(color) == 7 else color[1:])) == 1 for color in colors)


def test_the_words_for_readers_who_do_not_see_it() -> None:
    text = describe(drawing())
    for part in (
        "Left end of a piece 9 3/4 in deep and 7 1/4 in wide.",
        "Hole 4, 3/4 in, 8 1/4 in from the end and 6 in from the bottom edge, governs.",
        "Slot 5/16 in wide, 11 in long, 9 3/4 in high.", "Plate 1/4 in by 6 in by 10 in in the slot.",
        "Bores 2 1/4 in across and 1 in deep.",
    ):  # fmt: skip
        assert part in text
    root = drawn(drawing())
    title, about = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None and about is not None and about.text == text
    assert root.get("aria-labelledby") == f"{title.get('id')} {about.get('id')}"


def inside(root: ElementTree.Element) -> bool:
    _, _, width, height = (float(number) for number in (root.get("viewBox") or "").split())
    xs = [float(one.get(key, "")) for one in root.iter() for key in ("x", "cx") if one.get(key) is not None]
    ys = [float(one.get(key, "")) for one in root.iter() for key in ("y", "cy") if one.get(key) is not None]
    pairs = [pair.split() for one in root.iter(f"{SVG}path") for pair in re.split("[MLZ]", one.get("d", "")) if pair]
    xs, ys = xs + [float(x) for x, _ in pairs], ys + [float(y) for _, y in pairs]
    return min(xs) >= 0 and max(xs) <= width and min(ys) >= 0 and max(ys) <= height


@settings(max_examples=60, deadline=None)
@given(
    st.floats(1, 60), st.floats(1.5, 30), st.floats(0.5, 24), st.integers(1, 20), st.integers(1, 6),
    st.sampled_from(["left", "right"]), st.booleans(), st.floats(0, 12),
)  # fmt: skip
def test_whatever_the_sizes_all_of_it_is_inside(
    reach: float, depth: float, breadth: float, columns: int, rows: int, end: str, upright: bool, beside: float
) -> None:
    holes = tuple(
        (reach * (i + 1) / columns, depth * (j + 1) / (rows + 1), 0.5, str(columns * j + i + 1), i + j == 0)
        for j in range(rows) for i in range(columns)
    )  # fmt: skip
    made = drawing(
        end, length=1.1 * reach + 1.25, depth=depth, breadth=breadth, holes=holes, slot=None, plate=None, bores=None,
        dimensions=tuple(("x", 0.0, x, "") for x, *_ in holes), upright=upright,
        other=("a very long name of another member in the house " * 2, beside) if beside else None, gap=0.5,
    )  # fmt: skip
    assert inside(drawn(made))


def test_a_group_without_holes_is_still_drawn() -> None:
    seen = words(drawn(drawing(holes=(), dimensions=(), slot=None, plate=None, bores=None)))
    assert "left end from the side" in seen and not any("governs" in text for text in seen)


def test_the_sheet_shows_it_with_what_to_see() -> None:
    result = with_drawing()
    assert "4 governs" in render(result) and "on the shop sheet of" in render(result)
    page = render(result, all_steps=True)
    assert "4 governs" in page and "end view" in page
    assert f"See and photograph {result.pieces[0].name} before it is covered" in page
    assert "Count and size: 4 bolts 3/4 in." in page
    assert [type(block).__name__ for block in compose(result, all_steps=True)].count("Beside") >= 1


def test_the_console_lists_what_to_see() -> None:
    text = plain_text(with_drawing())
    assert f"See and photograph {with_drawing().pieces[0].name} before it is covered:\n  - count and size" in text
    assert "See and photograph" not in plain_text(sample.job())


def test_json_holds_the_drawing_and_keeps_to_the_schema() -> None:
    found = json.loads(result_json(with_drawing()))
    assert [error.message for error in Draft202012Validator(result_schema()).iter_errors(found)] == []
    shown = found["pieces"][0]["drawing"]
    assert shown["holes"][3] == {
        "x": {"value": 8.25, "unit": "in"}, "y": {"value": 6.0, "unit": "in"},
        "diameter": {"value": 0.75, "unit": "in"}, "number": "4", "governing": True,
    }  # fmt: skip
    assert shown["slot"]["width"] == {"value": 0.3125, "unit": "in"}
    assert found["pieces"][0]["to_see"] == list(TO_SEE)
    assert found["pieces"][1]["drawing"] is None and found["pieces"][1]["to_see"] == []


BOLT = FastenerSize("bolt", 0.75, 9.0, None, 2.0, 0.148)


def shanks(root: ElementTree.Element) -> list[tuple[float, float]]:
    """Left and right end of each fastener in the end view: closed white outlines much longer than high."""
    found = []
    for one in root.iter(f"{SVG}path"):
        numbers = [float(n) for n in re.findall(r"-?[0-9.]+", one.get("d", ""))]
        xs, ys = numbers[::2], numbers[1::2]
        if one.get("fill") == "#fff" and len(xs) in (4, 5) and max(xs) - min(xs) > 5 * (max(ys) - min(ys)):
            found.append((min(xs), max(xs)))
    return found


@pytest.mark.parametrize("length", [9.0, 11.0])
def test_a_bolt_is_drawn_to_its_length(length: float) -> None:
    """Two holes 3 in apart give the scale; the shank from under the head is `length` of it."""
    root = drawn(drawing(governing="0", bores=None, fastener=BOLT._replace(length=length)))
    rings = sorted(float(one.get("cx", "")) for one in root.iter(f"{SVG}circle") if one.get("stroke-width") == "1.3")
    scale = (rings[-1] - rings[0]) / 3.0
    found = shanks(root)
    assert len(found) == 2  # one a row
    for left, right in found:
        assert (right - left) / scale == pytest.approx(length, rel=0.01)
    assert inside(root)


def test_forces_and_what_is_not_kept_are_said_beside_the_drawing() -> None:
    made = drawing(
        forces=(ForceMark("down", 1375.0), ForceMark("up", 96.0)), line=2.0, other_grain="across",
        short=(ShortOf("end distance", 5.25, 3.0, "fails"),), other=("post", 5.5), fastener=BOLT,
    )  # fmt: skip
    seen = words(drawn(made))
    assert {"1,375 lb", "96 lb"} <= set(seen)
    assert "End distance: needs 5 1/4 in, has 3 in." in seen
    assert "The line of its support is 2 in from the end." in describe(made)
    assert "It presses down with 1,375 lb." in describe(made)
    assert inside(drawn(made))


def test_a_group_of_a_job_carries_its_hardware_forces_and_faults() -> None:
    """The demo house: the plate drilled low has 3/4 in to the edge; it is not kept."""
    pieces = {piece.name: piece for piece in example("net_loft").pieces}
    made = pieces["plate drilled low"].drawing
    assert made is not None and made.fastener is not None
    assert (made.fastener.kind, made.fastener.diameter) == ("bolt", 0.625)
    assert [force.way for force in made.forces] == ["down"]
    assert any("edge" in one.what and one.there == pytest.approx(0.75) and one.needed > 0.75 for one in made.short)
