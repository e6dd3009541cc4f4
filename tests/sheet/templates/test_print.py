"""Templates on paper: the scale in the units of the PDF itself, crosses that fit, words on every tile; and the doors.

A point is 1/72 in and the numbers of a content stream are points (ISO 32000-1 8.3.2.3, memory).
"""

from __future__ import annotations

import math
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from beamcheck.api import write_shop, write_template
from beamcheck.checks.core.result import JobResult
from beamcheck.cli import main
from beamcheck.errors import BeamcheckError, UnknownName
from beamcheck.sheet.templates.geometry import Contour, Straight, Template, circle_arc, rectangle
from beamcheck.sheet.templates.pdf import MOST_TILES, OVERLAP, PAPERS, template_pdf, tile_data, tiles_of
from beamcheck.sheet.templates.piece import template_of

from ...worked_examples.results import example
from ..content_stream import Path as Drawn
from ..content_stream import stroked_paths

INCH = 72.0
LOFT = Path(__file__).parents[3] / "worked_examples" / "net_loft.toml"
NEAR = 0.01  # points, 0.00014 in


def half_round() -> Template:
    """A board 6 in wide with a half round of 3 in radius on its top: every place of it follows from that."""
    edges = (Straight((6.0, 0.0)), Straight((6.0, 2.0)), circle_arc((6.0, 2.0), (3.0, 5.0), (3.0, 2.0), left=True),
             circle_arc((3.0, 5.0), (0.0, 2.0), (3.0, 2.0), left=True), Straight((0.0, 0.0)))  # fmt: skip
    return Template(
        "half round", "Half round", "fails", "DO NOT BUILD FROM THIS: it fails", True, (Contour("CUT", (0, 0), edges),),
        caution="Caution text.", sign_off="Sign here: ____", job="Invented", version="0.0", fingerprint="f" * 64,
    )  # fmt: skip


def spread(path: Drawn) -> tuple[float, float]:
    xs, ys = [x for x, _ in path.points], [y for _, y in path.points]
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize(("paper", "size"), [("letter", (612.0, 792.0)), ("a4", (595.276, 841.890))])
def test_outline_is_printed_at_its_size(paper: str, size: tuple[float, float]) -> None:
    paths, box = stroked_paths(template_pdf(half_round(), paper), 1)
    assert box == pytest.approx(size, abs=0.01)
    outline = max((path for path in paths if path.curves), key=lambda path: spread(path)[0])  # not a ring of a cross
    assert spread(outline) == pytest.approx((6.0 * INCH, 5.0 * INCH), abs=NEAR)
    left = min(x for x, _ in outline.points)
    foot = min(y for _, y in outline.points)
    for x, y in outline.points:  # the ends of all curves lie on the half circle
        if y > foot + 2.0 * INCH + NEAR:
            assert math.dist((x, y), (left + 3.0 * INCH, foot + 2.0 * INCH)) == pytest.approx(3.0 * INCH, abs=NEAR)


def test_an_outline_that_begins_with_a_curve_is_closed_straight() -> None:
    """A quarter round of 3 in on a foot of 3 in: no line of the outline and no handle of a curve leaves its square."""
    edges = (circle_arc((6.0, 0.0), (3.0, 3.0), (3.0, 0.0), left=True), Straight((3.0, 0.0)), Straight((6.0, 0.0)))
    board = replace(half_round(), contours=(Contour("CUT", (6.0, 0.0), edges),))
    paths, _ = stroked_paths(template_pdf(board), 1)
    outline = max((path for path in paths if path.curves), key=lambda path: spread(path)[0])
    foot, left = min(y for _, y in outline.points), min(x for x, _ in outline.points)
    for x, y in (*outline.points, *outline.handles):
        assert left - NEAR <= x <= left + 3.0 * INCH + NEAR
        assert foot - NEAR <= y <= foot + 3.0 * INCH + NEAR


@pytest.mark.parametrize("page", [0, 1])
def test_rulers_are_four_inches_and_a_hundred_millimetres(page: int) -> None:
    paths, _ = stroked_paths(template_pdf(half_round()), page)
    level = [spread(path)[0] for path in paths if len(path.points) == 2 and spread(path)[1] < NEAR]
    for long in (4.0 * INCH, 100.0 / 25.4 * INCH):
        assert sum(abs(one - long) < NEAR for one in level) == 1


def crosses(pdf: bytes, page: int) -> list[tuple[float, float]]:
    """Middles of the level arms, 0.4 in long."""
    paths, _ = stroked_paths(pdf, page)
    arms = [path.points for path in paths if len(path.points) == 2]
    level = [one for one in arms if abs(one[0][1] - one[1][1]) < NEAR]
    return sorted((0.5 * (a[0] + b[0]), a[1]) for a, b in level if abs(abs(a[0] - b[0]) - 0.4 * INCH) < NEAR)


def test_neighboring_tiles_fit_where_their_crosses_meet() -> None:
    """A long board over two tiles: its left end on A1 and its right end on A2 lie its length apart, cross on cross."""
    board = Template("board", "Board", "passes", "CARRIES", False, (rectangle("CUT", 0.0, 0.0, 12.0, 3.0),))
    assert tiles_of(board, "letter") == (2, 1)
    pdf = template_pdf(board)
    first, second = crosses(pdf, 1), crosses(pdf, 2)
    assert len(first) == len(second) == 4
    ends = []
    for page, pick in ((1, min), (2, max)):
        paths, _ = stroked_paths(pdf, page)
        outline = next(path for path in paths if abs(spread(path)[0] - 12.0 * INCH) < NEAR)
        ends.append(pick(x for x, _ in outline.points))
    # laid so that the right crosses of A1 fall on the left crosses of A2
    moved = first[-1][0] - second[0][0]
    assert ends[1] + moved - ends[0] == pytest.approx(12.0 * INCH, abs=NEAR)
    wide = PAPERS["letter"][2] - OVERLAP
    assert first[-1][0] - first[0][0] == pytest.approx(wide * INCH, abs=NEAR)


@pytest.mark.parametrize(("notes", "pages"), [((), 2), (("a reason " * 500, "the last reason"), 3)])
def test_every_page_says_verdict_caution_and_sign_off(notes: tuple[str, ...], pages: int) -> None:
    reader = PdfReader(BytesIO(template_pdf(replace(half_round(), notes=notes))))
    texts = [" ".join(page.extract_text().split()) for page in reader.pages]
    assert len(texts) == pages and all(note.strip() in " ".join(texts[:-1]) for note in notes[1:])
    for text in texts:
        for said in ("DO NOT BUILD FROM THIS: it fails", "Caution text.", "Sign here:"):
            assert said in text
    assert all("Print at 100 %, no fitting" in text for text in texts[-2:])  # beside the rulers
    assert "A1" in texts[-1]


@pytest.mark.parametrize(("paper", "width"), [("roll24", 24.0), ("roll36", 36.0)])
def test_a_roll_is_as_wide_as_it_is_called_and_as_long_as_the_drawing_needs(paper: str, width: float) -> None:
    """A board 20 x 60 in is one piece on either roll, at its size."""
    board = Template("board", "Board", "passes", "CARRIES", False, (rectangle("CUT", 0.0, 0.0, 20.0, 60.0),))
    assert tiles_of(board, paper) == (1, 1)
    paths, box = stroked_paths(template_pdf(board, paper), 1)
    assert box[0] == pytest.approx(width * INCH, abs=0.01) and 60.0 * INCH < box[1] < 65.0 * INCH
    assert any(spread(path) == pytest.approx((20.0 * INCH, 60.0 * INCH), abs=NEAR) for path in paths)


def test_tiles_on_which_nothing_is_drawn_are_left_out_and_the_plan_says_so() -> None:
    """The sides of a board 30 x 30 in: the tiles in its middle hold no line, those of its edges all do."""
    board = Template("board", "Board", "passes", "CARRIES", False, (rectangle("CUT", 0.0, 0.0, 30.0, 30.0),))
    across, down = tiles_of(board, "letter")
    made = tile_data(board, "letter")
    inner = [[row, column] for row in range(1, down - 1) for column in range(1, across - 1)]
    assert inner and made["blank"] == inner
    reader = PdfReader(BytesIO(template_pdf(board)))
    assert len(reader.pages) == 1 + across * down - len(inner)
    texts = [page.extract_text() for page in reader.pages]
    assert f"{across * down - len(inner)} tiles" in " ".join(texts[0].split()) and "left out" in texts[0]
    assert not any("B2" in text for text in texts[1:])


def test_text_of_the_job_is_not_read_as_typst() -> None:
    trap = '#panic("read") ] $x$ "; #let it = 1 \\ <a> @b'
    made = replace(half_round(), title=trap, job=trap, notes=(trap,), name=trap)
    text = " ".join(page.extract_text() for page in PdfReader(BytesIO(template_pdf(made))).pages)
    assert '#panic("read") ] $x$' in " ".join(text.split())


def test_same_template_is_the_same_pdf() -> None:
    assert template_pdf(half_round()) == template_pdf(half_round())


def test_too_many_tiles_and_unknown_paper_are_refused() -> None:
    huge = replace(half_round(), contours=(rectangle("CUT", 0.0, 0.0, 500.0, 100.0),))
    with pytest.raises(BeamcheckError, match=f"more than {MOST_TILES}: give the DXF or SVG drawing to a plotter"):
        template_pdf(huge)
    with pytest.raises(UnknownName, match="paper"):
        template_pdf(half_round(), "legal")


@pytest.fixture(scope="module")
def loft() -> JobResult:
    return example("net_loft")


def test_hole_pattern_is_where_the_job_puts_it(loft: JobResult) -> None:
    """The job says: 2 rows 3 1/2 in apart, 3 in from the bottom edge, 4 1/2 in from the end, bolts 5/8 in."""
    made = template_of(loft, "hidden plate")
    assert [(hole.x, hole.y) for hole in made.holes] == [(4.5, 3.0), (4.5, 6.5)]
    assert {hole.drill for hole in made.holes} == {0.6875}  # at most 1/16 in over the bolt, NDS 2018 12.1.3.2 (read)
    assert made.holes[0].label == "1: drill 11/16 in"
    rod = template_of(loft, "rod")
    assert [(hole.x, hole.y) for hole in rod.holes] == [(6.0, 2.75)]  # in the middle of 5 1/2 in, from the top


def test_verdict_is_said_on_the_template(loft: JobResult) -> None:
    failing = template_of(loft, "plate drilled low")
    assert failing.stop and failing.banner.startswith("DO NOT BUILD FROM THIS: it fails")
    assert any("distance to the bottom edge" in note for note in failing.notes)
    referred = template_of(loft, "plate in checked wood")
    assert referred.stop and "has to decide" in referred.banner
    passing = template_of(loft, "hidden plate")
    assert not passing.stop and passing.banner.startswith("HOLDS")
    assert any("The job as a whole does not pass" in note for note in passing.notes)


def test_what_has_no_template_says_what_has(loft: JobResult) -> None:
    with pytest.raises(BeamcheckError, match=r"post is a post: templates are made of brackets .* hidden plate"):
        template_of(loft, "post")
    with pytest.raises(UnknownName, match="piece of the job"):
        template_of(loft, "hidden plat")
    with pytest.raises(BeamcheckError, match="without the text of a job file"):
        template_of(replace(loft, job_text=""), "hidden plate")


def test_python_door_writes_and_keeps_what_is_not_its_own(loft: JobResult, tmp_path: Path) -> None:
    names = [tmp_path / f"plate.{kind}" for kind in ("svg", "dxf", "pdf")]
    for _ in range(2):  # its own files are replaced
        assert write_template(loft, "hidden plate", *names) == tuple(name.resolve() for name in names)
    for name in names:
        name.write_text("somebody's drawing")
        with pytest.raises(BeamcheckError, match="was not made by whatcarries"):
            write_template(loft, "hidden plate", name)
        assert name.read_text() == "somebody's drawing"
    with pytest.raises(BeamcheckError, match=r"templates are written as \.svg, \.dxf or \.pdf"):
        write_template(loft, "hidden plate", tmp_path / "plate.png")
    with pytest.raises(BeamcheckError, match="name at least one file"):
        write_template(loft, "hidden plate")
    with pytest.raises(BeamcheckError, match=r"shop sheets are written as \.html or \.pdf"):
        write_shop(loft, tmp_path / "shop.txt")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["plate.dxf", "plate.pdf", "plate.svg"]


@pytest.mark.parametrize(
    ("piece", "status", "said"),
    [("hidden plate", 0, "hidden plate passes"), ("plate in checked wood", 3, "DO NOT BUILD FROM THIS"),
     ("plate drilled low", 4, "DO NOT BUILD FROM THIS")],
)  # fmt: skip
def test_command_writes_and_ends_with_the_verdict(piece: str, status: int, said: str, tmp_path: Path) -> None:
    out = tmp_path / "t.svg"
    run = CliRunner().invoke(main, ["template", str(LOFT), piece, "--svg", str(out)])
    assert run.exit_code == status and said in run.output and "Written" in run.output
    assert "licensed engineer" in run.output and out.exists()


@pytest.mark.parametrize(
    ("options", "message"),
    [([], "name a file to write: --svg, --dxf or --pdf"), (["--svg", "x.dxf"], "the name must end in .svg"),
     (["--pdf", "x.pdf", "--paper", "legal"], "legal")],
)  # fmt: skip
def test_command_says_what_is_wrong(options: list[str], message: str) -> None:
    run = CliRunner().invoke(main, ["template", str(LOFT), "hidden plate", *options])
    assert run.exit_code == 2 and message in run.output
