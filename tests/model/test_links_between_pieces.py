"""What must hold between pieces: names, what rests on what, ties, the wood of the tables, sizes that meet."""

from __future__ import annotations

import pytest

from beamcheck.model.job import Job
from beamcheck.model.links.pieces import check_links
from beamcheck.model.reading.reader import read_job_text

from .jobs import GOOD, LETTER, edited, line_with, only_problem, problems

JOIST = '{ at = "0 ft", on = "B1", lands_at = "3 ft", holds = "hung" }'
WITHOUT_G = LETTER.replace(", G = 0.4", "")
ANOTHER_TIE = '[[tie]]\nname = "T2"\nstock = "2x6"\nheight = "1 ft"\nfinish = "none"\ntop_held = "ends only"\n\n[[tie]]'


def test_the_good_job_has_no_problem_between_its_pieces() -> None:
    assert check_links(read_job_text(GOOD)) == []


# changes to the good job; a part of the line that is named; where; what is said
ONE_PROBLEM: list[tuple[list[tuple[str, str]], str, str, str]] = [
    # links to what does not exist
    (
        [('stock = "2x6"\nsupports', 'stock = "2x8"\nsupports')],
        'stock = "2x8"',
        'beam "J1", stock',
        "there is no [[stock]] named '2x8'; did you mean '2x6'?",
    ),
    (
        [('on = "hidden plate A"', 'on = "hidden plate"')],
        '"hidden plate"',
        'beam "B1", supports 2, on',
        "there is no piece and no [[existing]] entry named 'hidden plate'; did you mean 'hidden plate A'",
    ),
    (
        [('on = "B1", lands', 'on = "b1", lands')],
        'on = "b1"',
        'beam "J1", supports 1, on',
        "named 'b1'; did you mean 'B1'?",
    ),
    (
        [('on = "hidden plate A"', 'on = "old beam"')],
        'on = "old beam"',
        'beam "B1", supports 2, on',
        "'old beam' is a [[stock]], a kind of stick and not a piece",
    ),
    ([('on = "footing"', 'on = "fotting"')], '"fotting"', 'post "west post", on', "did you mean 'footing'"),
    ([('on = "footing"', 'on = "2x6"')], 'on = "2x6"', 'post "west post", on', "'2x6' is a [[stock]]"),
    (
        [('  on = "north wall"', '  on = "south wall"')],
        '"south wall"',
        'rafter "R1", wall, on',
        "did you mean 'north wall'",
    ),
    (
        [('ridge_on = "B1"', 'ridge_on = "B9"')],
        '"B9"',
        'rafter "R2", ridge_on',
        "there is no piece and no [[existing]] entry named 'B9'",
    ),
    (
        [('ridge_on = "B1"', 'ridge_on = "west post"')],
        "ridge_on",
        'rafter "R2", ridge_on',
        "is a post, but a [[beam]] or [[existing]] entry is needed",
    ),
    (
        [('on = "hidden plate A"', 'on = "R1"')],
        'on = "R1"',
        'beam "B1", supports 2, on',
        "'R1' is a rafter; nothing rests on a rafter here",
    ),
    (
        [('on = "hidden plate A"', 'on = "T1"')],
        'on = "T1"',
        'beam "B1", supports 2, on',
        "'T1' is a tie; nothing rests on a tie here",
    ),
    (
        [('on = "footing"', 'on = "B1"'), ('on = "west post"', 'on = "footing"')],
        "[[post]]",
        'post "west post", lands_at',
        "missing: 'B1' is a beam; say where along it this piece lands",
    ),
    (
        [('on = "footing"', 'on = "B1"\nlands_at = "16 ft"'), ('on = "west post"', 'on = "footing"')],
        '"16 ft"',
        'post "west post", lands_at',
        "16 ft is beyond the end: the beam 'B1' is 14 ft long",
    ),
    (
        [('on = "footing"', 'on = "footing"\nlands_at = "1 ft"')],
        'lands_at = "1 ft"',
        'post "west post", lands_at',
        "only for a carrying beam or bracket, and 'footing' is not one",
    ),
    # where it lands
    (
        [('on = "B1", lands_at = "3 ft"', 'on = "B1"')],
        '"hung"',
        'beam "J1", supports 1, lands_at',
        "missing: 'B1' is a beam; say where along it",
    ),
    (
        [('lands_at = "3 ft"', 'lands_at = "15 ft"')],
        '"15 ft"',
        'beam "J1", supports 1, lands_at',
        "15 ft is beyond the end: the beam 'B1' is 14 ft long",
    ),
    (
        [('on = "hidden plate A"', 'on = "hidden plate A", lands_at = "1 ft"')],
        "1 ft",
        'beam "B1", supports 2, lands_at',
        "only for a carrying beam",
    ),
    (
        [('  at = "0 ft"\n  on = "north wall"', '  at = "0 ft"\n  on = "B1"\n  lands_at = "20 ft"')],
        "20 ft",
        'rafter "R1", wall, lands_at',
        "is beyond the end",
    ),
    # names twice
    (
        [('name = "J1"', 'name = "b1"')],
        'name = "b1"',
        'beam "b1", name',
        "the name 'B1' (case does not count) is taken by beam 1",
    ),
    # ties
    (
        [("[[tie]]", ANOTHER_TIE)],
        "[[tie]]",
        'tie "T2"',
        'no rafter names this tie: write tie = "T2" at the rafter that it holds',
    ),
    (
        [('height = "1 ft"', 'height = "9 ft"')],
        'tie = "T1"',
        'rafter "R1", tie',
        "the tie lies 9 ft above the wall, but the ridge only 8 ft",
    ),
    (
        [('height = "1 ft"', 'height = "1 ft"\ncarries = [{ what = "lamp", dead = "20 lbf", at = "21 ft 1 in" }]')],
        "21 ft 1 in",
        'tie "T1", carries 1, at',
        "21 ft 1 in is beyond the end: between its rafters the tie is 21 ft long",
    ),
    (
        [
            (
                'height = "1 ft"',
                'height = "1 ft"\ncuts = [{ kind = "hole", at = "22 ft", depth = "1 in", from_bottom = "2 in" }]',
            )
        ],
        "22 ft",
        'tie "T1", cuts 1, at',
        "the tie is 21 ft long",
    ),
    (
        [('tie = "T1"', 'tie = "T9"'), ("[[tie]]", "[[tie]]\n")],
        'tie = "T9"',
        'rafter "R1", tie',
        "there is no [[tie]] named 'T9'",
    ),
    (
        [('tie = "T1"', 'tie = "B1"'), ("[[tie]]", "[[tie]]\n")],
        'tie = "B1"',
        'rafter "R1", tie',
        "'B1' is a beam, not a [[tie]]",
    ),
    # cuts that leave nothing
    (
        [('depth = "1 1/2 in", face', 'depth = "9 3/4 in", face')],
        '"9 3/4 in"',
        'beam "B1", cuts 1, depth',
        "9.75 in: nothing is left of a piece 9.75 in deep",
    ),
    (
        [('from_bottom = "5 in"', 'from_bottom = "10 in"')],
        '"10 in"',
        'beam "B1", cuts 2, from_bottom',
        "10 in is above the top of a piece 9.75 in deep",
    ),
    (
        [('slope = "8:12"', 'slope = "8:12"\nseat_cut = "6 in"')],
        "seat_cut",
        'rafter "R1", seat_cut',
        "nothing is left of a rafter 5.5 in deep",
    ),
    # wood
    (
        [("Eastern White Pine", "Eastern Wite Pine")],
        "Wite",
        'stock "old beam", species',
        "'Eastern Wite Pine' is not known; did you mean 'Eastern White Pine'",
    ),
    (
        [('species = "Eastern White Pine"', 'species = "unknown"\ncandidates = ["Eastern White Pine", "Sprouce"]')],
        "Sprouce",
        'stock "old beam", candidates 2',
        "'Sprouce' is not known",
    ),
    ([('grade = "No.2"', 'grade = "No.7"')], "No.7", 'stock "2x6", grade', "'No.7' is not known; did you mean"),
    (
        [('size = "2x6"', 'size = "2x8"'), ('grade = "No.2"', 'grade = "Utility"')],
        "Utility",
        'stock "2x6", grade',
        "'Utility'",
    ),
    ([('size = "2x6"', 'size = "2 by six"')], "by six", 'stock "2x6", size', "2 by six"),
    ([('size = "2x6"', 'size = "0x6"')], "0x6", 'stock "2x6", size', "both sides must be above zero"),
    ([('size = "2x6"', 'size = "-2x6"')], "-2x6", 'stock "2x6", size', "-2x6"),
    ([('size = "2x6"', 'size = "2 ft x 60 ft"')], "60 ft", 'stock "2x6", size', "720 in"),
    (
        [
            ('species = "Eastern White Pine"', 'species = "unknown"'),
            ('grade = "unstamped"', 'grade = "unstamped"\n' + WITHOUT_G),
        ],
        "values",
        'stock "old beam", values',
        "the weight of this wood is not known: give G in the values, or density in the stock",
    ),
]


@pytest.mark.parametrize(("changes", "marker", "where", "text"), ONE_PROBLEM)
def test_a_wrong_link(changes: list[tuple[str, str]], marker: str, where: str, text: str) -> None:
    bad = edited(*changes)
    problem = only_problem(bad)
    assert text in problem.text
    assert problem.where == where
    assert problem.line == bad[: bad.index(marker)].count("\n") + 1


def test_the_name_of_a_stock_given_twice() -> None:
    bad = GOOD.replace('name = "2x6"', 'name = "OLD BEAM"').replace('stock = "2x6"', 'stock = "OLD BEAM"')
    problem = only_problem(bad)
    assert problem.text == "the name 'old beam' (case does not count) is taken by stock 1 of the job: give each its own"
    assert (problem.where, problem.line) == ('stock "OLD BEAM", name', line_with(bad, "OLD BEAM"))


def test_a_tie_closes_one_pair() -> None:
    start, end = GOOD.index("[[rafter]]"), GOOD.index("[[tie]]")
    bad = GOOD + "\n" + GOOD[start:end].replace('"R1"', '"R3"')
    problem = only_problem(bad)
    assert problem.where == 'rafter "R3", tie'
    assert problem.text == "'T1' holds rafter 'R1' already; a pair is one entry, and each pair has a [[tie]] of its own"


def test_a_name_given_twice() -> None:
    bad = GOOD + '\n[[existing]]\nname = "footing"\nwhat = "another footing"\n'
    problem = only_problem(bad)
    assert problem.text == "the name is taken by existing 3 of the job: give each its own"
    assert (problem.where, problem.line) == ('existing "footing", name', GOOD.count("\n") + 3)


def test_a_grade_that_the_size_class_does_not_have() -> None:
    """NDS Supplement Table 4D has no Stud grade among timbers (memory); Table 4A has it for dimension lumber."""
    bad = edited(
        ('grade = "unstamped"\nsize = \'7 1/4" x 9 3/4"\'', 'grade = "Stud"\ngrade_from = "stamp"\nsize = "8x10 rough"')
    )
    problem = only_problem(bad)
    assert problem.where == 'stock "old beam", grade'
    assert "'Stud' is not known" in problem.text
    assert problem.line == line_with(bad, '"Stud"')


def test_a_letter_takes_the_place_of_the_tables() -> None:
    """Species and grade of a letter need be in no table; the weight then comes from G or from a weighing."""
    own = (
        'species = "Eastern White Pine"\ngrade = "unstamped"',
        'species = "Black Locust"\ngrade = "as by letter"\n' + WITHOUT_G,
    )
    assert only_problem(edited(own)).where == 'stock "old beam", values'
    weighed = (own[0], own[1] + '\ndensity = "48 pcf"')
    assert read_job_text(edited(weighed)).stock[0].density == pytest.approx(48.0, rel=1e-12)
    with_G = (own[0], own[1].replace(WITHOUT_G, LETTER))
    assert read_job_text(edited(with_G)).stock[0].species == "Black Locust"
    by_species = (own[0], own[0] + "\n" + WITHOUT_G)
    assert read_job_text(edited(by_species)).stock[0].values is not None


def test_what_rests_on_itself_in_a_circle_is_told_as_a_chain() -> None:
    two = edited(('on = "hidden plate A"', 'on = "J1", lands_at = "1 ft"'))
    problem = only_problem(two)
    assert problem.text == 'these rest on each other in a circle: "B1" on "J1" on "B1"'
    assert (problem.where, problem.line) == ('beam "J1", supports 1, on', line_with(two, 'on = "B1"'))

    alone = edited(('on = "hidden plate A"', 'on = "B1", lands_at = "1 ft"'))
    assert only_problem(alone).text == 'these rest on each other in a circle: "B1" on "B1"'

    three = problems(edited(('on = "footing"', 'on = "J1"')))
    assert 'these rest on each other in a circle: "B1" on "west post" on "J1" on "B1"' in [
        found.text for found in three
    ]


def test_a_post_may_stand_on_a_beam() -> None:
    job = read_job_text(
        edited(('on = "footing"', 'on = "B1"\nlands_at = "6 ft"'), ('on = "west post"', 'on = "footing"'))
    )
    assert job.post[0].lands_at == 72.0


def test_two_ways_down_to_the_same_piece_are_no_circle() -> None:
    """B1 stands on the post at both ends of a diamond: J1 on B1 and on the post, B1 on the post."""
    job = read_job_text(edited(('{ at = "8 ft", on = "north wall" }', '{ at = "8 ft", on = "west post" }')))
    assert check_links(job) == []


def test_a_chain_of_hundreds_of_pieces_is_no_trouble() -> None:
    post = '\n[[post]]\nname = "p{0}"\nstock = "old beam"\nheight = "8 ft"\non = "{1}"\ntop_restraint = "pinned"\n'
    chain = "".join(post.format(i, f"p{i + 1}") for i in range(400))
    assert len(read_job_text(GOOD + chain + post.format(400, "footing")).post) == 402
    circle = only_problem(GOOD + chain + post.format(400, "p0"))
    assert circle.text.endswith('"p0" on "p1" on "p2" on "p3" on "p4" on ... on "p399" on "p400" on "p0"')


def test_names_are_checked_also_where_a_field_cannot_be_read() -> None:
    """A missing field does not hide a wrong link of the same piece, and is not taken for a missing piece."""
    bad = edited(('finish = "plaster"\n', ""), ('stock = "old beam"\nsupports', 'stock = "old baem"\nsupports'))
    assert [problem.where for problem in problems(bad)] == ['beam "B1", finish', 'beam "B1", stock']


def test_unused_stock_and_existing_entries_are_allowed() -> None:
    existing = '\n[[existing]]\nname = "chimney"\nwhat = "brick"\n'
    stock = (
        '\n[[stock]]\nname = "spare"\nspecies = "unknown"\ngrade = "unstamped"\nsize = "8x8 rough"\nmoisture = "wet"\n'
    )
    assert len(read_job_text(GOOD + existing + stock).stock) == 3


def test_a_rafter_without_tie_or_thrust_is_left_to_the_checks() -> None:
    start, end = GOOD.index("[[tie]]"), GOOD.index('[[existing]]\nname = "hidden')
    job = read_job_text((GOOD[:start] + GOOD[end:]).replace('tie = "T1"\n', ""))
    assert (job.rafter[0].tie, job.rafter[0].ridge, job.rafter[0].thrust_resisted_by) == (None, "board", "")


def test_a_job_made_in_python_can_be_checked_too() -> None:
    job = read_job_text(GOOD)
    alone = Job(job=job.job, stock=job.stock, beam=job.beam)
    found = check_links(alone)
    assert [problem.where for problem in found] == [
        'beam "B1", supports 1, on', 'beam "B1", supports 2, on', 'beam "J1", supports 2, on',
    ]  # fmt: skip
    assert all(problem.line is None for problem in found)


def test_the_order_of_the_pieces_does_not_matter() -> None:
    """Whole tables turned round: the same pieces, and the same problems."""

    def turned(text: str) -> str:
        head, *tables = text.split("\n[[")
        return "\n[[".join([head, *reversed(tables)])

    there, back = read_job_text(GOOD), read_job_text(turned(GOOD))
    for kind in ("stock", "beam", "rafter", "tie", "post", "existing"):
        assert {piece.name: piece for piece in getattr(there, kind)} == {
            piece.name: piece for piece in getattr(back, kind)
        }
    bad = edited(
        ('on = "hidden plate A"', 'on = "R1"'),
        ('stock = "2x6"\nrun', 'stock = "2x9"\nrun'),
        ('height = "1 ft"', 'height = "9 ft"'),
    )
    assert {(p.where, p.text) for p in problems(bad)} == {(p.where, p.text) for p in problems(turned(bad))}
