"""The drawing of the load path: every piece and force is in it, what is wrong is marked and said, text stays text."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.core.pictures.beams import LoadPath, PathEdge, PathNode, PathTotal
from beamcheck.sheet.document.blocks import FigureBlock, Paragraph
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.figures.drawers import drawn
from beamcheck.sheet.figures.load_path import MOST_FIGURES, SIDE, WIDTH, describe, drawable, path_figure
from beamcheck.sheet.figures.load_path_plan import CLOSE, heights, parts_of, planned
from beamcheck.sheet.html.render import render

from ..sample import job

WRONG = "1,240 lb of beam B1 rests on bracket K2, which is declared decorative"


def node(name: str, kind: str = "beam", **more: str) -> PathNode:
    return PathNode(name, kind, more.get("role", "carries"), more.get("verdict", "passes"), more.get("ends", ""))  # type: ignore[arg-type]


def end(name: str, ends: str = "by others, confirmed") -> PathNode:
    return PathNode(name, "existing", "carries", "", ends)


def example() -> LoadPath:
    """A beam on a decorative bracket and on a wall; the bracket on a post, that on a footing."""
    nodes = (
        node("B1", verdict="fails"), node("K2", "bracket", role="decorative", verdict="fails"),
        node("P", "post", verdict="refer"), end("wall", "by others, not confirmed"), end("footing", "ground"),
    )  # fmt: skip
    edges = (
        PathEdge("B1", "K2", 1240.0, -85.0, WRONG), PathEdge("B1", "wall", 980.0, 120.0),
        PathEdge("K2", "P", math.nan, math.nan), PathEdge("P", "footing", 1310.0, 0.0),
    )  # fmt: skip
    return LoadPath(nodes, edges)


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ElementTree.fromstring(svg).iter() if element.tag.endswith("}text")]


def said(svg: str) -> str:
    return " ".join(texts(svg))


class TestWhatIsDrawn:
    def test_names_roles_verdicts_and_ends(self) -> None:
        words = said(path_figure(example(), "Load path"))
        for text in ("B1", "K2, decorative", "fails", "refer", "wall", "not", "confirmed", "ground"):
            assert text in words

    def test_the_force_stands_at_each_arrow(self) -> None:
        words = texts(path_figure(example(), "Load path"))
        assert "1,240 lb, lifts 85 lb (wrong: a)" in words
        assert "980 lb" in words and "1,310 lb" in words and "not worked out" in words

    def test_in_metric(self) -> None:
        """1310 lbf are 5.827 kN (1 lbf = 4.4482 N)."""
        assert "5.83 kN" in said(path_figure(example(), "Load path", "SI"))

    def test_what_is_wrong_is_said_whole_below(self) -> None:
        assert f"a: {WRONG}" in " ".join(said(path_figure(example(), "Load path")).split())

    def test_a_crossed_arrow_and_a_broken_outline_only_where_they_belong(self) -> None:
        """Shape and line tell it, for those who see no colors; there is none in it."""
        svg = path_figure(example(), "Load path")
        plain = LoadPath(
            tuple(node(one.name, one.kind, verdict=one.verdict) if not one.ends else one for one in example().nodes),
            tuple(PathEdge(one.above, one.below, one.largest, one.least) for one in example().edges),
        )
        right = path_figure(plain, "Load path")
        # the bracket, the wall that nobody answers for, and the line to it
        assert svg.count("stroke-dasharray") == 3 and right.count("stroke-dasharray") == 2
        assert svg.count('stroke-width="2.4"') > right.count('stroke-width="2.4"') + 2  # the line, two strokes across
        for color in set(re.findall("#[0-9a-f]+", svg)):
            digits = color[1:] if len(color) == 7 else "".join(2 * digit for digit in color[1:])
            assert digits[:2] == digits[2:4] == digits[4:], color

    def test_each_verdict_has_a_shape_of_its_own(self) -> None:
        """The same drawing but for the verdict differs in more than its word."""
        made = {}
        for verdict in ("passes", "refer", "fails"):
            one = LoadPath((node("P", "post", verdict=verdict), end("rock")), (PathEdge("P", "rock", 10.0, 5.0),))
            made[verdict] = path_figure(one, "Load path").replace(verdict, "")
        assert len(set(made.values())) == 3

    def test_each_load_has_a_line_of_its_own(self) -> None:
        one = LoadPath((node("B"), end("wall")), (PathEdge("B", "wall", 300.0, 1.0), PathEdge("B", "wall", 200.0, 1.0)))
        words = texts(path_figure(one, "x"))
        assert "300 lb" in words and "200 lb" in words

    def test_a_wall_without_a_name(self) -> None:
        one = LoadPath((node("R", "rafter"), end("", "by others, not confirmed")), (PathEdge("R", "", 300.0, 1.0),))
        assert "opposite wall" in said(path_figure(one, "x"))


class TestForReadersWhoDoNotSeeIt:
    def test_title_and_description(self) -> None:
        root = ElementTree.fromstring(path_figure(example(), "Load path", key="k"))
        title, about = root[0], root[1]
        assert root.get("aria-labelledby") == f"{title.get('id')} {about.get('id')}" == "k-title k-about"
        assert title.text == "Load path: what rests on what, from the top down"
        assert about.text == describe(example())

    def test_the_description_has_all_of_it(self) -> None:
        text = describe(example())
        for part in (
            "bracket K2, decorative: fails.", "existing footing: ground.", "From B1 to K2: 1,240 lb, lifts 85 lb.",
            "From K2 to P: not worked out.", f"Wrong: {WRONG}.",
        ):  # fmt: skip
            assert part in text


words = st.text(min_size=1, max_size=80).filter(lambda text: text.strip())


@settings(max_examples=40, deadline=None)
@given(name=words, wrong=words)
def test_any_name_stays_text_and_inside(name: str, wrong: str) -> None:
    """Markup in a name is no markup, and nothing long runs out of the drawing."""
    path = LoadPath(
        (node(name), end(f"{name} 2")), (PathEdge(name, f"{name} 2", 1e6, -1e6, wrong),),
    )  # fmt: skip
    root = ElementTree.fromstring(path_figure(path, name))
    tags = {element.tag.rpartition("}")[2] for element in root.iter()}
    assert tags <= {"svg", "title", "desc", "path", "circle", "text"}
    assert float(root.get("viewBox", "").split()[2]) == WIDTH


def test_markup_in_a_name() -> None:
    bad = "<script>alert(1)</script>&amp;"
    path = LoadPath((node(bad), end("wall")), (PathEdge(bad, "wall", 1.0, 1.0, bad),))
    svg = path_figure(path, bad)
    assert "<script" not in svg
    assert f"beam {bad}" in (ElementTree.fromstring(svg)[1].text or "")


class TestPlaces:
    def test_walls_and_footings_stand_once_along_the_bottom(self) -> None:
        plan = planned(example(), {one.name: 60.0 for one in example().nodes}, SIDE, WIDTH - SIDE)
        rows = {bar.name: bar.row for bar in plan.bars}
        assert len(plan.bars) == 5 and rows["wall"] == rows["footing"] == 0
        assert rows["P"] < rows["K2"] < rows["B1"]
        assert len(plan.drops) == len(example().edges)

    @settings(max_examples=40, deadline=None)
    @given(data=st.data(), count=st.integers(1, 20))
    def test_pieces_of_any_house_stay_apart_and_inside(self, data: st.DataObject, count: int) -> None:
        nodes = [node(f"N{i}") for i in range(count)] + [end("wall"), end("footing")]
        edges = []
        for i in range(count):
            below = data.draw(st.lists(st.integers(i + 1, count + 1), min_size=1, max_size=3))
            edges += [PathEdge(nodes[i].name, nodes[j].name, 100.0 + i, 1.0) for j in below]
        path = LoadPath(tuple(nodes), tuple(edges))
        parts, left_out = drawable(path)
        assert parts or left_out
        for part in parts:
            plan = planned(part, {one.name: 60.0 for one in part.nodes}, SIDE, WIDTH - SIDE)
            assert sorted(bar.name for bar in plan.bars) == sorted(one.name for one in part.nodes)
            for bar in plan.bars:
                assert bar.x0 >= SIDE - 1e-6 and bar.x1 <= WIDTH - SIDE + 1e-6
            for row in {bar.row for bar in plan.bars}:
                beside = sorted((bar.x0, bar.x1) for bar in plan.bars if bar.row == row)
                assert all(one[1] <= other[0] for one, other in pairwise(beside))
            assert sorted(drop.edge.largest for drop in plan.drops) == sorted(edge.largest for edge in part.edges)
            for drop in plan.drops:
                assert drop.upper.row > drop.lower.row
                assert drop.lower.x0 <= drop.x <= drop.lower.x1 and drop.upper.x0 <= drop.x <= drop.upper.x1
            across = sorted(drop.x for drop in plan.drops)
            assert all(other - one >= CLOSE - 1e-6 for one, other in pairwise(across))

    def test_a_load_that_comes_back_is_not_drawn(self) -> None:
        edges = (PathEdge("A", "B", 1.0, 1.0), PathEdge("B", "A", 1.0, 1.0))
        path = LoadPath((node("A"), node("B")), edges)
        assert heights(path) is None and drawable(path) == ([], 1)

    def test_parts_share_walls_but_no_pieces(self) -> None:
        nodes = (node("A"), node("B"), node("C"), end("wall"))
        edges = tuple(PathEdge(above, below, 1.0, 1.0) for above, below in (("A", "B"), ("B", "wall"), ("C", "wall")))
        parts = parts_of(LoadPath(nodes, edges))
        assert [[one.name for one in part.nodes] for part in parts] == [["A", "B", "wall"], ["C", "wall"]]


class TestOnTheSheet:
    def blocks(self, path_of: LoadPath) -> list[FigureBlock | Paragraph]:
        blocks = compose(replace(job(), path=path_of))
        at = [getattr(block, "anchor", "") for block in blocks]
        part = blocks[at.index("path") : at.index("piece-1")]
        return [block for block in part if isinstance(block, (FigureBlock, Paragraph))]

    def test_it_stands_under_the_heading(self) -> None:
        block = self.blocks(example())[0]
        assert isinstance(block, FigureBlock) and block.caption.startswith("Load path. Along each line its force")
        assert "footing" in drawn(block)

    def test_the_page_holds_it(self) -> None:
        page = render(replace(job(), path=example()))
        assert 'id="path-1-title"' in page and "Load path: what rests on what, from the top down" in page

    def test_too_much_of_it_stands_in_the_table_only_and_the_sheet_says_so(self) -> None:
        walls = [f"wall {i}" for i in range(60)]
        edges = tuple(PathEdge("B", name, 1.0, 1.0) for name in walls)
        (block,) = self.blocks(LoadPath((node("B"), *map(end, walls)), edges))
        assert isinstance(block, Paragraph)
        assert block.text.startswith("The load path is not drawn, because there is too much of it")
        assert "1 part that hang together stand in the table only" in block.text

    def test_a_wide_house_is_drawn_in_parts_those_with_something_wrong_first(self) -> None:
        names = [f"N{i}" for i in range(400)]
        edges = [PathEdge(name, f"under {name}", 1.0, 1.0) for name in names]
        edges += [
            PathEdge(f"under {name}", f"wall {name}", 1.0, 1.0, "no" if name == names[-1] else "") for name in names
        ]
        ends = [end(f"wall {name}") for name in names]
        *figures, last = self.blocks(
            LoadPath((*map(node, names), *(node(f"under {name}") for name in names), *ends), tuple(edges))
        )
        assert len(figures) == MOST_FIGURES and isinstance(last, Paragraph)
        first = figures[0]
        assert isinstance(first, FigureBlock) and isinstance(first.figure, LoadPath)
        assert "no" in [edge.wrong for edge in first.figure.edges]

    def test_what_comes_on_and_what_arrives(self) -> None:
        totals = (PathTotal("D", 100.0, 100.0), PathTotal("D + L", 900.0, 850.0))
        *_, last = self.blocks(replace(example(), totals=totals))
        assert isinstance(last, Paragraph)
        assert last.text == "All pieces together under D + L: 900 lb comes on, 850 lb arrives; 50 lb does not arrive."
        *_, last = self.blocks(replace(example(), totals=totals, uncounted="the load of A is not counted in F"))
        assert isinstance(last, Paragraph)
        assert last.text.endswith("; 50 lb does not arrive: the load of A is not counted in F.")

    def test_a_piece_that_stands_on_what_is_there_needs_no_drawing(self) -> None:
        assert self.blocks(LoadPath((node("B1"), end("wall")), (PathEdge("B1", "wall", 1.0, 1.0),))) == []

    def test_a_job_without_pieces_has_no_drawing(self) -> None:
        assert self.blocks(LoadPath((), ())) == []


@pytest.mark.parametrize("system", ["US", "SI"])
def test_the_same_path_gives_the_same_drawing(system: str) -> None:
    assert path_figure(example(), "x", system) == path_figure(example(), "x", system)
