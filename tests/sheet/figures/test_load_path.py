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

from beamcheck.checks.core.pictures import LoadPath, PathEdge, PathNode
from beamcheck.sheet.document.blocks import FigureBlock, Paragraph
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.figures.load_path import MOST_NODES, MOST_PARTS, WIDTH, describe, drawable, path_figure
from beamcheck.sheet.figures.load_path_layers import layers_of, parts_of
from beamcheck.sheet.html.render import drawn, render

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
    def test_names_kinds_roles_verdicts_and_ends(self) -> None:
        words = said(path_figure(example(), "Load path"))
        for text in ("B1", "K2", "bracket", "decorative", "fails", "refer", "wall", "not confirmed", "ground"):
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
        assert svg.count("stroke-dasharray") == 1 and right.count("stroke-dasharray") == 0
        assert svg.count('stroke-width="2.4"') == 3 and right.count('stroke-width="2.4"') == 0  # the arrow, two strokes
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

    def test_two_supports_on_one_wall(self) -> None:
        one = LoadPath((node("B"), end("wall")), (PathEdge("B", "wall", 300.0, 1.0), PathEdge("B", "wall", 200.0, 1.0)))
        three = LoadPath(one.nodes, (*one.edges, PathEdge("B", "wall", 250.0, 1.0)))
        assert "300 lb + 200 lb" in texts(path_figure(one, "x"))
        assert "3 × up to 300 lb" in texts(path_figure(three, "x"))

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
    def test_every_arrow_runs_down_level_by_level(self) -> None:
        layers = layers_of(example())
        for arrow in layers.arrows:
            assert [lower.level - upper.level for upper, lower in pairwise(arrow.slots)] == [1] * (len(arrow.slots) - 1)
        assert {slot.name: slot.level for row in layers.levels for slot in row if not slot.passing} == {
            "B1": 0, "K2": 1, "wall": 1, "P": 2, "footing": 3,
        }  # fmt: skip

    @settings(max_examples=60, deadline=None)
    @given(data=st.data(), count=st.integers(1, 25))
    def test_boxes_of_any_house_stay_apart_and_inside(self, data: st.DataObject, count: int) -> None:
        nodes = [node(f"N{i}") for i in range(count)] + [end("wall")]
        edges = []
        for i in range(count):
            below = data.draw(st.lists(st.integers(i + 1, count), min_size=1, max_size=3))
            edges += [PathEdge(nodes[i].name, nodes[j].name, 100.0 + i, 1.0) for j in below]
        path = LoadPath(tuple(nodes), tuple(edges))
        parts, left_out = drawable(path)
        assert len(parts) + left_out == len(parts_of(path))
        for part in parts:
            root = ElementTree.fromstring(path_figure(part, "x"))
            shown = [element.text for element in root.iter() if element.get("font-weight") == "bold"]
            assert sorted(shown) == sorted(one.name for one in part.nodes)
            for box in _boxes(root):
                assert box[0] >= 0 and box[2] <= WIDTH
            made = sorted(_boxes(root))
            assert len(made) == len(part.nodes)
            assert not any(_overlap(a, b) for i, a in enumerate(made) for b in made[i + 1 :])

    def test_a_load_that_comes_back_is_not_drawn(self) -> None:
        edges = (PathEdge("A", "B", 1.0, 1.0), PathEdge("B", "A", 1.0, 1.0))
        assert drawable(LoadPath((node("A"), node("B")), edges)) == ([], 1)

    def test_parts_share_walls_but_no_pieces(self) -> None:
        nodes = (node("A"), node("B"), node("C"), end("wall"))
        edges = tuple(PathEdge(above, below, 1.0, 1.0) for above, below in (("A", "B"), ("B", "wall"), ("C", "wall")))
        parts = parts_of(LoadPath(nodes, edges))
        assert [[one.name for one in part.nodes] for part in parts] == [["A", "B", "wall"], ["C", "wall"]]


def _boxes(root: ElementTree.Element) -> list[tuple[float, float, float, float]]:
    found = []
    for element in root.iter():
        if (
            element.tag.endswith("}path")
            and element.get("stroke-width") == "1.6"
            and element.get("d", "").endswith("Z")
        ):
            numbers = [float(number) for number in re.findall(r"-?[0-9.]+", element.get("d", ""))]
            xs, ys = numbers[0::2], numbers[1::2]
            if max(xs) - min(xs) > 20:
                found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


def _overlap(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.1 and min(a[3], b[3]) - max(a[1], b[1]) > 0.1


class TestOnTheSheet:
    def blocks(self, path_of: LoadPath) -> list[FigureBlock | Paragraph]:
        blocks = compose(replace(job(), path=path_of))
        at = [getattr(block, "anchor", "") for block in blocks]
        part = blocks[at.index("path") : at.index("piece-1")]
        return [block for block in part if isinstance(block, (FigureBlock, Paragraph))]

    def test_it_stands_under_the_heading(self) -> None:
        (block,) = self.blocks(example())
        assert isinstance(block, FigureBlock) and block.caption.startswith("Load path. The force at each arrow")
        assert "footing" in drawn(block)

    def test_the_page_holds_it(self) -> None:
        page = render(replace(job(), path=example()))
        assert 'id="path-1-title"' in page and "Load path: what rests on what, from the top down" in page

    def test_too_much_of_it_stands_in_the_table_only_and_the_sheet_says_so(self) -> None:
        names = [f"N{i}" for i in range(MOST_NODES + 1)]
        chain = tuple(PathEdge(above, below, 1.0, 1.0) for above, below in pairwise(names))
        (block,) = self.blocks(LoadPath(tuple(map(node, names)), chain))
        assert isinstance(block, Paragraph)
        assert block.text.startswith("The load path is not drawn, because there is too much of it (more than 40 pieces")
        assert "1 of 1 parts stand in the table only" in block.text

    def test_of_many_parts_those_with_something_wrong_are_drawn(self) -> None:
        names = [f"N{i}" for i in range(MOST_PARTS + 5)]
        edges = [PathEdge(name, f"under {name}", 1.0, 1.0) for name in names]
        edges += [PathEdge(f"under {name}", "wall", 1.0, 1.0, "no" if name == names[-1] else "") for name in names]
        *figures, last = self.blocks(
            LoadPath((*map(node, names), *(node(f"under {name}") for name in names), end("wall")), tuple(edges))
        )
        assert len(figures) == MOST_PARTS and isinstance(last, Paragraph)
        first = figures[0]
        assert isinstance(first, FigureBlock) and isinstance(first.figure, LoadPath)
        assert "no" in [edge.wrong for edge in first.figure.edges]
        assert "5 of 17 parts stand in the table only" in last.text

    def test_a_piece_that_stands_on_what_is_there_needs_no_drawing(self) -> None:
        assert self.blocks(LoadPath((node("B1"), end("wall")), (PathEdge("B1", "wall", 1.0, 1.0),))) == []

    def test_a_job_without_pieces_has_no_drawing(self) -> None:
        assert self.blocks(LoadPath((), ())) == []


@pytest.mark.parametrize("system", ["US", "SI"])
def test_the_same_path_gives_the_same_drawing(system: str) -> None:
    assert path_figure(example(), "x", system) == path_figure(example(), "x", system)
