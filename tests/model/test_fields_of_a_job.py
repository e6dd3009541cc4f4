"""What is wrong with one field: the message says where, on which line, what is wrong and what would be right."""

from __future__ import annotations

from typing import Annotated, Any, get_args

import pytest
from pydantic import TypeAdapter

from beamcheck.model import beams, existing, job, loads, posts, roofs, sticks, stock
from beamcheck.model.anchors import anchor as anchors
from beamcheck.model.brackets import bracket as brackets
from beamcheck.model.fields.base import Piece
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import read_job_text

from .jobs import CEILING, GOOD, edited, line_with, problems


def test_the_good_job_is_read_into_inner_units() -> None:
    """Inches, lbf, lbf/in2: 14 ft = 168 in, 10 psf = 10/144 psi, 8:12 = 33.69 deg (the arc tangent of 2/3)."""
    job = read_job_text(GOOD)
    beam, rafter = job.beam[0], job.rafter[0]
    assert [support.at for support in beam.supports] == [0.0, 168.0]
    assert beam.supports[0].bearing == 5.5
    assert beam.carries[0].dead is not None
    assert beam.carries[0].dead[0] == pytest.approx(10 / 144, rel=1e-15)
    assert beam.carries[0].dead[1] == "area"
    assert beam.carries[0].width == 48.0
    assert rafter.slope == pytest.approx(33.690067525979785, rel=1e-12)
    assert job.post[0].carries[0].dead == (200.0, "point")
    assert job.stock[0].temperature == 100.0


HOLE = '{ kind = "hole", at = "1 ft", depth = "1 in", from_bottom = "4 in" }, '

# changes to the good job; a part of the line that is named; where; what is said
FIELDS: list[tuple[list[tuple[str, str]], str, str, str]] = [
    # missing
    ([('finish = "plaster"\n', "")], "[[beam]]", 'beam "B1", finish', "missing: what is attached below or rests on it"),
    (
        [('finish = "plaster"\n', "")],
        "[[beam]]",
        'beam "B1", finish',
        "(allowed: 'plaster', 'gypsum board', 'masonry veneer'",
    ),
    ([('finish = "plaster"\n', "")], "[[beam]]", 'beam "B1", finish', 'for example finish = "plaster"'),
    (
        [('name = "B1"\n', ""), ('on = "B1", lands_at = "3 ft", holds = "hung"', 'on = "footing"')],
        "[[beam]]",
        "beam 1, name",
        'missing: what this piece is called in the job; for example name = "B1"',
    ),
    (
        [('{ at = "14 ft", on = "hidden plate A" }', '{ at = "14 ft" }')],
        'at = "14 ft"',
        'beam "B1", supports 2, on',
        'missing: the name of another piece or of an [[existing]] entry; for example on = "west post"',
    ),
    ([('standard = "NDS 2018"\n', "")], "[job]", "job, standard", 'for example standard = "NDS 2018"'),
    (
        [('  on = "north wall"\n  [[', "  [[")],
        "[rafter.wall]",
        'rafter "R1", wall, on',
        "missing: the name of another piece",
    ),
    # misspelt
    ([("carries = [\n", "carrys = [\n")], "carrys", 'beam "B1", carrys', "no such field; did you mean 'carries'?"),
    (
        [('bearing = "5 1/2 in"', 'baering = "5 1/2 in"')],
        "baering",
        'beam "B1", supports 1, baering',
        "did you mean 'bearing'",
    ),
    (
        [('what = "plaster ceiling", dead', 'what = "plaster ceiling", Dead = "1 psf", dead')],
        "Dead",
        'beam "B1", carries 1, Dead',
        "no such field; did you mean 'dead'?",
    ),
    (
        [('what = "plaster ceiling", dead', 'what = "plaster ceiling", form = "1 ft", dead')],
        "form",
        'beam "B1", carries 1, form',
        "did you mean 'from' or 'floor'?",
    ),
    (
        [('[[existing]]\nname = "footing"', '[[exsting]]\nname = "x"\n[[existing]]\nname = "footing"')],
        "[[exsting]]",
        "exsting",
        "no such table; did you mean 'existing'?",
    ),
    # said elsewhere, or out of scope
    (
        [("invented = true", 'invented = true\nseismic = "D"')],
        "seismic",
        "job, seismic",
        "seismic is out of scope: an engineer must do that",
    ),
    (
        [('live = "10 psf", width', 'live = "10 psf", earthquake = "9 psf", width')],
        "earthquake",
        'beam "B1", carries 2, earthquake',
        "seismic is out of scope: an engineer must do that",
    ),
    ([("[[post]]", '[[joists]]\nname = "x"\n[[post]]')], "[[joists]]", "joists", "no such table; write it as [[beam]]"),
    (
        [('service = "floor"', 'service = "floor"\nspan = "14 ft"')],
        "span",
        'beam "B1", span',
        "follows from the places of the supports",
    ),
    (
        [('service = "floor"', 'service = "floor"\nsize = "2x8"')],
        'size = "2x8"',
        'beam "B1", size',
        "belongs to the [[stock]] entry",
    ),
    # wrong word
    (
        [('finish = "plaster"', 'finish = "plastr"')],
        "plastr",
        'beam "B1", finish',
        "'plastr' is not allowed: write 'plaster', 'gypsum board', 'masonry veneer', 'flexible' or 'none'; did you",
    ),
    (
        [('standard = "NDS 2018"', 'standard = "NDS 2012"')],
        "NDS 2012",
        "job, standard",
        "'NDS 2012' is not allowed: write 'NDS 2018'",
    ),
    (
        [('moisture = "dry"', "moisture = 12")],
        "moisture = 12",
        'stock "old beam", moisture',
        "12 is not allowed: write 'dry', 'green' or 'wet'",
    ),
    (
        [('top_held = "ends only"', 'top_held = "sometimes"')],
        "sometimes",
        'beam "B1", top_held',
        "is not allowed: write 'full length', 'at loads' or 'ends only', or a quantity such as '14 ft 6 in'",
    ),
    ([('top_held = "ends only"', 'top_held = "24"')], '"24"', 'beam "B1", top_held', "has no unit"),
    (
        [('top_held = "ends only"', "top_held = { every = 2 }")],
        "every",
        'beam "B1", top_held',
        "write 'full length', 'at loads' or",
    ),
    # quantities
    ([('height = "8 ft"', "height = 8")], "height = 8", 'post "west post", height', "8"),
    ([('height = "8 ft"', 'height = "8"')], 'height = "8"', 'post "west post", height', "'8' has no unit"),
    (
        [('height = "8 ft"', 'height = "8 psf"')],
        "8 psf",
        'post "west post", height',
        "a length needs the dimension length",
    ),
    ([('height = "8 ft"', 'height = "-8 ft"')], "-8 ft", 'post "west post", height', "a length has no sign"),
    (
        [('height = "8 ft"', 'height = "0 ft"')],
        'height = "0 ft"',
        'post "west post", height',
        "'0 ft' is not allowed: it must be greater than 0",
    ),
    ([('depth = "1 1/2 in"', 'depth = "0 in"')], '"0 in"', 'beam "B1", cuts 1, depth', "it must be greater than 0"),
    (
        [('dead = "10 psf", width = "4 ft"', 'dead = "10 psf", width = "-4 ft"')],
        '"-4 ft"',
        'beam "B1", carries 1, width',
        "has no sign",
    ),
    (
        [('dead = "10 psf", width = "4 ft"', 'dead = 10, width = "4 ft"')],
        "dead = 10",
        'beam "B1", carries 1, dead',
        "10",
    ),
    # plain kinds of value
    (
        [("invented = true", 'invented = "yes"')],
        '"yes"',
        "job, invented",
        "'yes' is neither true nor false (without quotes)",
    ),
    (
        [('name = "B1"', 'name = "B1"\nplies = "2"')],
        'plies = "2"',
        'beam "B1", plies',
        "'2' is not a whole number; write it without quotes",
    ),
    (
        [('name = "B1"', 'name = "B1"\nplies = 9')],
        "plies = 9",
        'beam "B1", plies',
        "9 is not allowed: it must be at most 6",
    ),
    (
        [('name = "B1"', 'name = "B1"\nmembers = 0')],
        "members = 0",
        'beam "B1", members',
        "0 is not allowed: it must be at least 1",
    ),
    (
        [("invented = true", "invented = true\ndate = 2025-05-03")],
        "2025-05-03",
        "job, date",
        "is not text: put it in quotes",
    ),
    ([('title = "Boathouse, main room (invented)"', 'title = ""')], 'title = ""', "job, title", "is too short"),
    (
        [("invented = true", f'invented = true\nnotes = "{"x" * 5001}"')],
        "notes",
        "job, notes",
        "too long: at most 5000 characters are read",
    ),
    (
        [('name = "footing"', 'name = "foot\\ning"'), ('on = "footing"', 'on = "north wall"')],
        "foot\\ning",
        "existing 3, name",
        "must be one line without spaces at its ends",
    ),
    (
        [('moisture = "dry"', 'moisture = "dry"\nvalues = { G = "0.4" }')],
        "G =",
        'stock "old beam", values, G',
        "'0.4' is not a number; write it",
    ),
    # lists and tables
    (
        [("[[post]]", "[post]")],
        "[post]",
        "post",
        "write each post as a table of its own under [[post]], with two brackets",
    ),
    (
        [("[job]", "[[job]]")],
        "[[job]]",
        "job",
        "there is one job in a file: write its table as [job], with one bracket",
    ),
    (
        [('carries = [{ what = "chimney breast, invented", dead = "200 lbf" }]', 'carries = "200 lbf"')],
        '"200 lbf"',
        'post "west post", carries',
        "'200 lbf' is not a list: write [ ... ]",
    ),
    (
        [('carries = [{ what = "chimney breast, invented", dead = "200 lbf" }]', 'carries = { dead = "200 lbf" }')],
        '"200 lbf"',
        'post "west post", carries',
        "this is a list: write its tables with two brackets, [[...]], or as [{ ... }, { ... }]",
    ),
    (
        [('carries = [{ what = "chimney breast, invented", dead = "200 lbf" }]', "carries = [3]")],
        "[3]",
        'post "west post", carries 1',
        "3 is not a table: write { name = value, ... }",
    ),
    (
        [
            (
                '  [rafter.wall]\n  at = "0 ft"\n  on = "north wall"',
                '  [[rafter.wall]]\n  at = "0 ft"\n  on = "north wall"',
            )
        ],
        "[[rafter.wall]]",
        'rafter "R1", wall',
        "there is only one of this: write its table with one bracket, [...], or as { ... }",
    ),
    ([("cuts = [", f"cuts = [{HOLE * 201}")], "cuts", 'beam "B1", cuts', "more than 200 entries cannot be read"),
]


@pytest.mark.parametrize(("changes", "marker", "where", "text"), FIELDS)
def test_a_wrong_field(changes: list[tuple[str, str]], marker: str, where: str, text: str) -> None:
    bad = edited(*changes)
    found = [problem for problem in problems(bad) if problem.where == where]
    assert len(found) == 1, problems(bad)
    assert text in found[0].text
    assert found[0].line == line_with(bad, marker)


def test_unknown_and_unstamped_are_words_in_any_case() -> None:
    job = read_job_text(
        edited(('species = "Eastern White Pine"', 'species = "UNKNOWN"'), ('"unstamped"', '"Unstamped"'))
    )
    assert (job.stock[0].species, job.stock[0].grade) == ("unknown", "unstamped")


def test_all_problems_are_told_at_once_in_the_order_of_the_file() -> None:
    """Slips of every sort in one file: a field missing or unknown, a unit, a rule, a name, a species, a grade."""
    bad = edited(
        ("invented = true", "invented = 1"),
        ("Eastern White Pine", "Eastern White Pinn"),
        ('grade = "No.2"', 'grade = "No.9"'),
        ('name = "B1"', 'nane = "B1"'),
        ('on = "hidden plate A"', 'on = "hidden plate B"'),
        (CEILING, '{ what = "ceiling", width = "4 ft" }'),
        ('height = "8 ft"', 'height = "8"'),
        ('ridge = "board"', 'ridge = "bord"'),
        ('tie = "T1"', 'tie = "T9"'),
    )
    found = problems(bad)
    assert [problem.where for problem in found] == [
        "job, invented", 'stock "old beam", species', 'stock "2x6", grade', "beam 1, name", "beam 1, nane",
        "beam 1, supports 2, on", "beam 1, carries 1", 'beam "J1", supports 1, on', 'post "west post", height',
        'rafter "R1", ridge', 'rafter "R1", tie', 'rafter "R2", ridge_on',
    ]  # fmt: skip
    lines = [problem.line for problem in found]
    assert lines == sorted(lines)  # type: ignore[type-var]
    assert all(bad.split("\n")[line - 1].strip() for line in lines if line is not None)


def _models() -> list[type[Piece]]:
    every = [
        thing
        for module in (anchors, beams, brackets, existing, job, loads, posts, roofs, sticks, stock)
        for thing in vars(module).values()
    ]
    found = [thing for thing in every if isinstance(thing, type) and issubclass(thing, Piece)]
    return [model for model in dict.fromkeys(found) if model is not Piece]


def test_every_field_says_what_it_is_for() -> None:
    for model in _models():
        for name, info in model.model_fields.items():
            assert info.description, f"{model.__name__}.{name}"


@pytest.mark.parametrize("model", _models(), ids=lambda model: model.__name__)
def test_every_required_field_has_an_example_that_is_right(model: type[Piece]) -> None:
    """The example is what the message about the missing field tells people to write."""
    for name, info in model.model_fields.items():
        if info.is_required() or info.examples:
            assert info.examples, f"{model.__name__}.{name}"
            whole: Any = info.annotation
            for extra in info.metadata:
                whole = Annotated[whole, extra]
            for example in info.examples:
                given = tuple(example) if isinstance(example, list) else example
                TypeAdapter(whole, config={"strict": True} if not _holds_a_piece(whole) else None).validate_python(
                    given
                )


def _holds_a_piece(annotation: Any) -> bool:
    if isinstance(annotation, type) and issubclass(annotation, Piece):
        return True
    return any(_holds_a_piece(part) for part in get_args(annotation) if part is not annotation)


def test_the_job_class_knows_all_tables() -> None:
    assert set(Job.model_fields) == {
        "job", "stock", "beam", "rafter", "tie", "post", "existing", "anchor", "bracket", "trim",
            "answer", "ruling", "site", "roof", "floor", "movement", "frame", "joint",
    }  # fmt: skip
