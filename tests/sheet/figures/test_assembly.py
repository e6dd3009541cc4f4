"""The order of assembly as panels: one a step, numbered as the table, the new dark, all at one scale and inside."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from beamcheck.checks.core.pictures.assembled import TITLE, AssemblyPicture, Laid
from beamcheck.checks.core.result import PieceResult
from beamcheck.sheet.document.blocks import Columns, FigureBlock, TableBlock
from beamcheck.sheet.document.piece import order_of_assembly
from beamcheck.sheet.figures.assembly import HIGHEST, WIDTH, assembly_figure
from beamcheck.sheet.figures.svg import GRAY, INK
from beamcheck.sheet.shop.shop import shop_pages

from ...worked_examples.results import example

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = '<script>alert("K1")</script> & K1'
SQUARE = ((0.0, 0.0), (8.0, 0.0), (8.0, 8.0), (0.0, 8.0))
# a board 8 in wide from a stock; on a wall; a screw through it; left standing
MADE = AssemblyPicture("K1", ("Saw it.", "Fix it.", "Leave it."), (
    Laid("stock", "board", ((-1.0, -1.0), (9.0, -1.0), (9.0, 9.0), (-1.0, 9.0)), last=1),
    Laid("wood", "wood", SQUARE, 1, grain=90.0),
    Laid("ground", "wall", ((-3.0, -2.0), (0.0, -2.0), (0.0, 10.0), (-3.0, 10.0)), 2),
    Laid("fastener", "row 1", ((8.0, 4.0), (-2.0, 4.0)), 2),
    Laid("no load", "load", ((4.0, -3.0), (4.0, -0.2)), 3),
))  # fmt: skip


def root(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def words(svg: str) -> list[str]:
    return [text.text or "" for text in root(svg).iter(f"{SVG}text")]


def squares(svg: str) -> list[tuple[str, list[float]]]:
    """Stroke and corners of each closed shape of four corners that is as wide as high."""
    found = []
    for path in root(svg).iter(f"{SVG}path"):
        n = [float(x) for x in re.findall(r"-?\d+(?:\.\d+)?", path.get("d", ""))]
        if not path.get("d", "").endswith("Z") or len(n) != 8:
            continue
        wide, high = (max(side) - min(side) for side in (n[::2], n[1::2]))
        if wide > 20.0 and wide == pytest.approx(high, abs=0.02):
            found.append((path.get("stroke", ""), n))
    return found


def outside(svg: str) -> list[str]:
    """Places that lie outside of the drawing."""
    _, _, wide, high = map(float, root(svg).get("viewBox", "").split())
    found = []
    for one in root(svg).iter():
        n = [float(x) for x in re.findall(r"-?\d+(?:\.\d+)?", one.get("d", ""))]
        x, y = one.get("x") or one.get("cx"), one.get("y") or one.get("cy")
        n += [float(x), float(y)] if x and y else []
        found += [f"{one.tag} {a} {b}" for a, b in zip(n[::2], n[1::2], strict=True)
                  if not (0.0 <= a <= wide and 0.0 <= b <= high)]  # fmt: skip
    return found


def ordered() -> list[PieceResult]:
    """Every piece of the demos that has an order: sawn, of steel, with a pocket, with a gap, braced; and a truss."""
    names = ("chart_room", "shelf_on_three_piece_brackets", "boat_shed")
    return [piece for name in names for piece in example(name).pieces if piece.assembly is not None]


def test_board_is_dark_where_it_is_new_and_gray_after_at_one_scale() -> None:
    """The stock of 10 in is there in the first panel alone, the board of 8 in in all three."""
    drawn = squares(assembly_figure(MADE, "K1"))
    sides = [(stroke, max(n[::2]) - min(n[::2])) for stroke, n in drawn]
    (_, stock), boards = max(sides, key=lambda one: one[1]), [one for one in sides if one[1] < max(s for _, s in sides)]
    assert len(sides) == 4 and [stroke for stroke, _ in boards] == [INK, GRAY, GRAY]
    assert all(side == pytest.approx(0.8 * stock, rel=0.01) for _, side in boards)


def test_panels_stand_from_left_to_right_with_their_numbers_below_all_lines() -> None:
    svg = assembly_figure(MADE, "K1")
    texts = list(root(svg).iter(f"{SVG}text"))
    assert [text.text for text in texts] == ["1", "2", "3"]
    places = [float(text.get("x", "")) for text in texts]
    assert places == sorted(places) and len({text.get("y") for text in texts}) == 1
    lowest = max(float(y) for path in root(svg).iter(f"{SVG}path")
                 for y in re.findall(r"[ML]-?[\d.]+ (-?[\d.]+)", path.get("d", "")))  # fmt: skip
    assert lowest < float(texts[0].get("y", "")) - 10.0


@pytest.mark.parametrize("count", [1, 2, 6, 13, 40])
def test_any_number_of_steps_fits_the_page_and_its_height(count: int) -> None:
    """Even 40 members of 40 ft by 3 in have each a panel of its own."""
    laid = tuple(Laid("wood", f"m{n}", ((0.0, 3.0 * n), (480.0, 3.0 * n), (480.0, 3.0 * n + 3), (0.0, 3.0 * n + 3)), n)
                 for n in range(1, count + 1))  # fmt: skip
    svg = assembly_figure(AssemblyPicture("F", tuple(f"m{n}" for n in range(count)), laid), "F")
    _, _, wide, high = map(float, root(svg).get("viewBox", "").split())
    assert wide <= WIDTH and high <= HIGHEST + 0.01 and not outside(svg)
    assert words(svg) == [str(n) for n in range(1, count + 1)]


def test_any_name_stays_text() -> None:
    made = AssemblyPicture(HOSTILE, (HOSTILE, "b", "c"), (Laid("wood", HOSTILE, SQUARE, 1),))
    svg = assembly_figure(made, HOSTILE, key="k")
    assert not list(root(svg).iter("script")) and not list(root(svg).iter(f"{SVG}script"))
    assert root(svg).findtext(f"{SVG}title") == f"{HOSTILE}: order of assembly"
    assert HOSTILE in root(svg).findtext(f"{SVG}desc", "")


def test_every_step_of_the_table_has_its_panel_and_its_words() -> None:
    for piece in ordered():
        assert piece.assembly is not None
        table = next(one for one in piece.tables if one.title == TITLE)
        svg = assembly_figure(piece.assembly, piece.name)
        assert words(svg) == [row[0] for row in table.rows] and not outside(svg), piece.name
        about = root(svg).findtext(f"{SVG}desc", "")
        assert all(row[1].rstrip(".") in about for row in table.rows), piece.name
        steps = {one.step for one in piece.assembly.laid}
        assert steps >= set(range(1, len(table.rows) + 1)), f"{piece.name}: a step that adds nothing to see"


def test_pieces_of_a_braced_bracket_lie_apart_until_they_are_put_together() -> None:
    """Cut, housed apart, put together: before that nothing of the brace touches a leg, and no housing is seen after."""
    piece = next(one for one in example("shelf_on_three_piece_brackets").pieces if one.assembly is not None)
    assert piece.assembly is not None
    steps = piece.assembly.steps
    dry = next(n for n, text in enumerate(steps, 1) if "dry on a bench" in text)
    apart = [one for one in piece.assembly.laid if one.step < dry]
    assert {one.name for one in apart} == {"wall leg", "top leg", "brace", "housing"}
    assert all(one.last == dry - 1 for one in apart)
    legs = {one.name: one.points for one in apart if one.step == 1}
    assert min(x for x, _ in legs["brace"]) > max(x for x, _ in legs["wall leg"])
    assert min(y for _, y in legs["brace"]) > max(y for _, y in legs["top leg"])
    assert {one.name for one in piece.assembly.laid if one.step == dry} == {"wall leg", "top leg", "brace"}
    bolts = [one.points for one in piece.assembly.laid if one.step == dry + 1]
    assert "1/4 in bolts, 1 at 1 in below the top, 1 at 3 in below the top" in steps[dry]
    assert bolts == [((1.75, 1.0),), ((1.75, 3.0),)]  # the rows of the job file, 1 3/4 in from the end of the top leg


def test_members_of_a_truss_come_one_by_one_with_the_joints_that_they_close() -> None:
    piece = next(one for one in example("boat_shed").pieces if one.kind == "frame")
    assert piece.assembly is not None
    table = next(one for one in piece.tables if one.title == TITLE)
    for number, row in enumerate(table.rows, start=1):
        new = [one for one in piece.assembly.laid if one.step == number]
        assert [one.name for one in new if one.what == "wood"] == [row[1]]
        closed = ", ".join(cell for cell in row[2:4] if cell != "–")
        assert ", ".join(one.name for one in new if one.what == "joint") == closed


def test_on_sheets_the_table_stands_beside_a_short_order_and_above_a_long_one() -> None:
    for piece in ordered():
        assert piece.assembly is not None
        table = next(one for one in piece.tables if one.title == TITLE)
        blocks = list(order_of_assembly(table, piece.assembly, "k", "US"))
        both = [*blocks[0].left, *blocks[0].right] if isinstance(blocks[0], Columns) else blocks
        assert [type(one) for one in both] == [TableBlock, FigureBlock]
        assert isinstance(blocks[0], Columns) == (len(piece.assembly.steps) <= 4)


def test_shop_sheet_has_the_steps_in_words_with_their_drawing() -> None:
    result = example("chart_room")
    for page, piece in zip(shop_pages(result), result.pieces, strict=True):
        assert page.steps == (piece.assembly.steps if piece.assembly else ())
        assert words(page.order or "<svg/>") == [str(n) for n in range(1, len(page.steps) + 1)]
