"""Built-up girders that take their load on one side. Z of 16d common in 1 1/2 in of Douglas Fir: 141 lb, Table 12N."""

from __future__ import annotations

import copy

import pytest

from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from ..beams import Data, beam, find, floor, job, known, result_of, said

WOOD = {"name": "wood", "species": "Douglas Fir-Larch", "grade": "No.1", "size": "2x12", "moisture": "dry",
        "grade_from": "stamp", "evidence": "invented stamp: agency mark, mill 12, No.1, DOUG FIR-L, S-DRY"}  # fmt: skip
NAILS = {"kind": "nail", "size": "16d common", "rows": 3, "spacing": "8 in", "row_spacing": "4 in", "end": "3 in",
         "edge": "1 1/2 in", "from_both_sides": True}  # fmt: skip
BOLTS = {"kind": "bolt", "size": "1/2 in", "rows": 2, "spacing": "24 in", "row_spacing": "5 in", "end": "4 in",
         "edge": "2 1/2 in", "washers": True}  # fmt: skip

ONE_ROW = {**{key: value for key, value in BOLTS.items() if key != "row_spacing"}, "rows": 1}


def girder(by: Data | None = None, plies: int = 3, live: str = "40 psf", **more: object) -> Data:
    load = floor(live=live, width="7 ft", applied="side", fastened={"highest": "2 in", "lowest": "9 in"})
    schedule = {} if by is None else {"plies_schedule": by}
    return beam(plies=plies, carries=[load], in_a_row=False, **{**schedule, **more})


@pytest.mark.parametrize(("plies", "share"), [(2, 0.5), (3, 2 / 3)])
def test_nails_by_the_published_value(plies: int, share: float) -> None:
    """w (n - 1)/n against rows Z'/s, Z = 141 lb (NDS 2018 Table 12N, memory, reproduced), C_D = 1."""
    passed = find(result_of(girder(NAILS, plies), wood=WOOD), "load from ply to ply")
    assert passed.demand == pytest.approx(280 / 12 * share)
    assert passed.capacity == pytest.approx(3 * 141 / 8, rel=0.005)


def test_bolts_by_the_published_value() -> None:
    """1/2 in bolt, 1 1/2 in in 1 1/2 in of Douglas Fir across the grain of both: 300 lb, both members perpendicular.

    The table has 370 lb with one member across; with F_e of 3,150 psi in both, mode II by its closed form governs.
    """
    D, t, F_e = 0.5, 1.5, 3150.0  # 6100 G^1.45/sqrt(D), rounded to 50 psi
    k_1 = (1 + 2 * (1 + 1 + 1) + 1) ** 0.5  # R_e = R_t = 1
    k_1 = (k_1 - 2) / 2
    Z = k_1 * D * t * F_e / (3.6 * 1.25)
    passed = find(result_of(girder(BOLTS, 2), wood=WOOD), "load from ply to ply")
    assert passed.capacity == pytest.approx(2 * Z * 0.95 / 24, rel=1e-6)


@pytest.mark.parametrize(("by", "moisture", "factor"), [
    (BOLTS, "wet", 0.7), (BOLTS, "green", 0.4), (ONE_ROW, "green", 0.7), (NAILS, "green", 0.7),
])  # fmt: skip
def test_plies_joined_green_count_as_they_may_dry(by: Data, moisture: str, factor: float) -> None:
    """C_M 0.7 in wood that stays wet; 0.4 of rows of bolts in wood that dries in its place (Table 11.3.3, memory)."""
    green = {**WOOD, "moisture": moisture, "evidence": WOOD["evidence"].replace("S-DRY", "S-GRN")}
    dry, now = (find(result_of(girder(by, 2), wood=wood), "load from ply to ply").capacity for wood in (WOOD, green))
    assert now == pytest.approx(factor * (dry or 0.0))


@pytest.mark.parametrize(
    ("by", "says"),
    [
        ({**NAILS, "edge": "1/4 in"}, "from the edge"),
        ({**NAILS, "end": "1 in"}, "from the end"),
        ({**NAILS, "spacing": "1/2 in"}, "in a row"),
        ({**NAILS, "row_spacing": "5 in"}, "do not fit"),
        ({**NAILS, "size": "6d common"}, "into the next ply"),
        ({**NAILS, "from_both_sides": False}, "its own nails"),
        ({**BOLTS, "washers": False}, "need a washer"),
    ],
)
def test_a_schedule_that_breaks_a_rule_fails(by: Data, says: str) -> None:
    assert says in said(result_of(girder(by), wood=WOOD), "fails")


@pytest.mark.parametrize(("by", "field"), [(NAILS, "from_both_sides"), (BOLTS, "washers")])
def test_what_nobody_said_of_a_schedule_is_asked_and_the_answer_closes_it(by: Data, field: str) -> None:
    unsaid = {key: value for key, value in by.items() if key != field}
    piece = result_of(girder(unsaid), wood=WOOD)
    found = next(check for check in piece.checks if check.id == "beam.plies")
    assert found.verdict == "refer"
    assert found.questions[0].answers[0].sets == ((f"beam.B.plies_schedule.{field}", True),)
    closed = result_of(girder(by), wood=WOOD)
    assert next(check for check in closed.checks if check.id == "beam.plies").verdict == "passes"


def test_nails_so_close_that_they_split_are_asked_about() -> None:
    """15 D in a row where holes are not bored ahead: 2.43 in of 16d (NDS 2018 commentary C12.1.6.6, memory)."""
    assert "is advised" in said(result_of(girder({**NAILS, "spacing": "2 3/8 in"}), wood=WOOD), "refer")
    found = result_of(girder({**NAILS, "spacing": "2 1/2 in"}), wood=WOOD)
    assert find(found, "fastening of the plies").verdict == "passes"


def test_too_few_nails_fail_and_more_pass() -> None:
    few = {**NAILS, "rows": 2, "row_spacing": "8 in", "spacing": "16 in"}
    heavy = girder(few, live="60 psf", supports=[
        {"at": "0 ft", "on": "wall", "bearing": "5 1/2 in", "restrained": True},
        {"at": "8 ft", "on": "wall", "bearing": "5 1/2 in", "restrained": True}])  # fmt: skip
    assert find(result_of(heavy, wood=WOOD), "load from ply to ply").verdict == "fails"
    assert find(result_of(girder(NAILS), wood=WOOD), "load from ply to ply").verdict == "passes"


def test_without_a_schedule_it_is_asked_for_and_the_best_answer_closes_it() -> None:
    plain = girder()
    plain["carries"][0]["dead"] = "10 psf"
    piece = result_of(plain, wood=WOOD)
    question = find(piece, "fastening of the plies").questions[0]
    ((path, by),) = question.answers[0].sets
    assert piece.verdict == "refer" and path == "beam.B.plies_schedule"
    assert result_of({**plain, "plies_schedule": dict(by)}, wood=WOOD).verdict == "passes"


def test_four_plies_and_single_forces_are_for_an_engineer() -> None:
    assert "four plies" in said(result_of(girder(NAILS, 4), wood=WOOD), "refer")
    force = {"what": "beam", "live": "800 lb", "at": "6 ft", "applied": "side",
             "fastened": {"highest": "2 in", "lowest": "9 in"}}  # fmt: skip
    lone = {**girder(NAILS), "carries": [force]}
    assert "a single force" in said(result_of(lone, wood=WOOD), "refer")


def test_a_schedule_of_one_ply_and_an_unknown_nail_are_said() -> None:
    for data, says in ((girder(NAILS, 1), "one ply only"), (girder({**NAILS, "size": "17d common"}), "17d")):
        with pytest.raises(JobError, match=says):
            job_from_data(copy.deepcopy(job(data, wood=WOOD)))


TABLE = "10d nails, two rows, 24 in apart, staggered, by the fastener table of the code"


@pytest.mark.parametrize(
    ("size", "said_so", "joins"),
    [
        ("2x12", TABLE, True), ("4x12", TABLE, False), ("4x12", "20 penny nails, two rows", False),
        ("4x12", "40d nails, two rows, 12 in apart", True), ("4x12", "1/2 in bolts at 24 in", True),
        ("2x12", "6d nails, two rows", False),
    ],
)  # fmt: skip
def test_nails_in_words_reach_the_next_ply(size: str, said_so: str, joins: bool) -> None:
    """10d are 3 in long, 20d 4 in, 40d 5 in and 6d 2 in (NDS 2018 Table L4); 6 D in the next ply (12.1.6.5, memory)."""
    wood = {**WOOD, "size": size}
    one = beam(plies=2, in_a_row=False, plies_fastened=said_so, carries=[floor(live="40 psf", width="4 ft")])
    check = next(check for check in result_of(one, wood=wood).checks if check.id == "beam.plies")
    assert check.verdict == ("passes" if joins else "refer")
    if not joins and size == "4x12":  # the answer that is offered closes it
        ((_, answer),) = check.questions[0].answers[0].sets
        again = result_of({**one, "plies_fastened": answer}, wood=wood)
        assert next(check for check in again.checks if check.id == "beam.plies").verdict == "passes"


def test_a_schedule_of_nails_too_short_to_keep_plies_in_line_fails() -> None:
    by = {**NAILS, "size": "6d common"}
    one = beam(plies=2, in_a_row=False, plies_schedule=by, carries=[floor(live="40 psf", width="4 ft")])
    assert "do not join" in said(result_of(one, wood=WOOD), "fails")


def test_wood_by_letter_holds_nails_by_the_gravity_of_its_letter() -> None:
    """Of a species that nobody names: G = 0.42 of the letter gives Z of mode IV of 10d common (12.3.1, typed)."""
    wood = known("2x12")
    wood["values"] = {**wood["values"], "G": 0.42}
    by = {**NAILS, "size": "10d common"}
    found = find(result_of(girder(by, 2), wood=wood), "load from ply to ply")
    F_e = 50 * round(16600 * 0.42**1.84 / 50)
    D, F_yb, R_d = 0.148, 90000.0, 2.2
    Z = D**2 / R_d * (2 * F_e * F_yb / (3 * 2)) ** 0.5
    assert found.capacity == pytest.approx(3 * Z / 8, rel=1e-3)
