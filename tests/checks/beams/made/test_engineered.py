"""Beams of glued and composite wood. Closed forms are typed here; layup values are memory (NDS Supplement 2018 5A)."""

from __future__ import annotations

import copy

import pytest

from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data
from beamcheck.values.engineered import layup
from beamcheck.values.loader import listed

from ..beams import Data, beam, checked, find, floor, job, ratios, result_of, said, seat, step

STAMP = {"grade_from": "stamp", "evidence": "invented stamp: agency mark, plant 31, 24F-V4/DF, TOP"}
REPORT: Data = {
    "number": "report no. 0417", "edition": "renewed 3 May 2025", "F_b": "2600 psi", "F_v": "285 psi",
    "F_c_perp": "750 psi", "E": "2,000,000 psi", "d_0": "12 in", "power": 0.136, "density": "42 pcf",
}  # fmt: skip


def glulam(grade: str = "24F-V4/DF", size: str = "5 1/8 in x 18 in", **more: object) -> Data:
    return {
        "name": "wood", "made": "glulam", "species": "Douglas Fir-Larch", "grade": grade, "size": size,
        "moisture": "dry", "grade_from": "stamp", "evidence": f"invented stamp: agency mark, plant 31, {grade}, TOP",
        **more,
    }  # fmt: skip


def lvl(size: str = "1 3/4 in x 11 7/8 in", report: Data | None = None, **more: object) -> Data:
    return {
        "name": "wood", "made": "composite", "species": "LVL", "grade": "2.0E", "size": size, "moisture": "dry",
        "grade_from": "stamp", "evidence": "invented stamp: agency mark, plant 7, LVL 2.0E, report 0417, 3 May 2025",
        "report": {**REPORT, **(report or {})}, **more,
    }  # fmt: skip


def long(**more: object) -> Data:
    return beam(supports=[seat("0 ft"), seat("24 ft")], carries=[floor(dead="10 psf", live="40 psf", width="8 ft")],
                meant={"length": "a girder over the hall"}, **more)  # fmt: skip


def test_volume_factor_and_bending_by_hand() -> None:
    """C_V = (21/24)^0.1 (12/18)^0.1 (5.125/5.125)^0.1 = 0.9475; F_b' = 2400 C_V (NDS 2018 5.3.6, memory)."""
    bending = find(result_of(long(stamp_up=True), wood=glulam()), "bending")
    assert step(bending, "C_V") == pytest.approx((21 / 24) ** 0.1 * (12 / 18) ** 0.1, rel=1e-9)
    assert bending.capacity == pytest.approx(2400 * (21 / 24) ** 0.1 * (12 / 18) ** 0.1, rel=1e-9)


def test_the_lesser_of_C_V_and_C_L_counts_never_their_product() -> None:
    free = find(result_of(long(stamp_up=True, top_held="ends only"), wood=glulam()), "bending")
    C_L, C_V = step(free, "C_L"), step(free, "C_V")
    assert C_L < C_V < 1.0
    assert free.capacity == pytest.approx(2400 * C_L, rel=1e-9)


def test_the_face_that_is_pulled_decides() -> None:
    """Turned over, or where nobody looked, an unbalanced layup counts with the weaker face: 1850 of 2400 psi."""
    right = find(result_of(long(stamp_up=True), wood=glulam()), "bending").capacity
    over = find(result_of(long(stamp_up=False), wood=glulam()), "bending").capacity
    unsaid = find(result_of(long(), wood=glulam()), "bending").capacity
    assert right and over and over / right == pytest.approx(1850 / 2400) and unsaid == over
    same = find(result_of(long(), wood=glulam("24F-V8/DF")), "bending").capacity
    assert same == pytest.approx(right)


def test_the_stamp_is_asked_for_where_it_decides() -> None:
    heavy = long()
    heavy["carries"][0]["width"] = "11 ft"
    result = checked(heavy, wood=glulam())
    assert result.verdict == "refer"
    assert "B/stamp_up" in {question.id for question in result.questions}


def test_over_a_support_the_other_face_is_pulled() -> None:
    """Of a beam over three supports the top is pulled at the middle one: 1850 psi, and C_V with the whole length."""
    two = beam(supports=[seat("0 ft"), seat("20 ft"), seat("40 ft")], stamp_up=True,
               carries=[floor(dead="10 psf", live="40 psf", width="8 ft")])  # fmt: skip
    below = find(result_of(two, wood=glulam()), "bending with the bottom edge pressed")
    assert step(below, "F_b") == 1850.0
    assert step(below, "C_V") == pytest.approx((21 / 40) ** 0.1 * (12 / 18) ** 0.1, rel=1e-9)


@pytest.mark.parametrize(("property", "factor"), [("F_b", 0.8), ("F_v", 0.875), ("F_c_perp", 0.53)])
def test_wet_service(property: str, factor: float) -> None:
    """NDS Supplement 2018 Table 5A, adjustment factors (memory); at 16 % and over it is wet, whatever is said."""
    names = {"F_b": "bending", "F_v": "shear", "F_c_perp": "bearing at support 1 on wall"}
    dry = find(result_of(long(stamp_up=True), wood=glulam()), names[property])
    wet = find(result_of(long(stamp_up=True), wood=glulam(measured_moisture="16 %")), names[property])
    assert dry.capacity and wet.capacity and wet.capacity / dry.capacity == pytest.approx(factor)


def test_notch_in_glulam() -> None:
    """NDS 2018 5.4.5 (memory): a tenth of the depth in the tension side over the bearing; 0.72 F_v there (5.3.10)."""

    def notched(depth: str, **more: object) -> Data:
        cut = {"kind": "notch", "at": "0 ft", "length": "2 3/4 in", "depth": depth, "face": "bottom", **more}
        return long(stamp_up=True, cuts=[cut])  # fmt: skip

    fine = result_of(notched("1 1/2 in"), wood=glulam())
    assert find(fine, "limits of the notch").verdict == "passes"
    shear = next(check for check in fine.checks if check.id == "beam.shear.cut")
    d_n = 16.5
    assert shear.capacity == pytest.approx(2 / 3 * 0.72 * 265 * 5.125 * d_n * (d_n / 18) ** 2, rel=1e-6)
    assert find(result_of(notched("2 in"), wood=glulam()), "limits of the notch").verdict == "fails"
    inner = result_of(notched("1 in", at="8 ft", face="top"), wood=glulam())
    assert find(inner, "limits of the notch").verdict == "fails"


def test_a_notch_in_the_top_of_glulam_ends_before_the_middle_third() -> None:
    """NDS 2018 5.4.5.2 (memory): end notches in the compression side do not reach into the middle third of the span."""

    def notched(length: str) -> Data:
        return long(
            stamp_up=True, cuts=[{"kind": "notch", "at": "0 ft", "length": length, "depth": "1 in", "face": "top"}]
        )

    assert find(result_of(notched("7 ft"), wood=glulam()), "limits of the notch").verdict == "passes"
    assert find(result_of(notched("9 ft"), wood=glulam()), "limits of the notch").verdict == "fails"


def test_a_report_allows_what_it_says_and_no_more() -> None:
    """Round holes are no slots, and a notch over the seat is none that runs past it (NDS 2018 8.4, memory)."""
    holes = {"largest": "2 in", "from_seats": "12 in", "from_edges": "4 in", "middle_third_only": False}
    wood = lvl(report={"holes": holes, "end_notch": "1 in"})
    hole = {"kind": "hole", "at": "6 ft", "depth": "1 1/2 in", "from_bottom": "6 in"}
    notch = {"kind": "notch", "at": "0 ft", "depth": "1 in", "face": "bottom"}
    for cut, verdict in (
        (hole, "passes"), ({**hole, "length": "1 1/2 in"}, "passes"), ({**hole, "length": "12 in"}, "refer"),
        ({**notch, "length": "1 1/2 in"}, "passes"), ({**notch, "length": "12 in"}, "refer"),
    ):  # fmt: skip
        found = find(result_of(beam(cuts=[cut]), wood=wood), f"limits of the {cut['kind']}")
        assert found.verdict == verdict, cut
        assert verdict == "passes" or found.questions


def test_composite_lumber_takes_what_its_report_says() -> None:
    """F_b' = 2600 (12/11.875)^0.136, no C_b, E without shear deflection unless the report says so."""
    result = result_of(wood=lvl())
    bending = find(result, "bending")
    assert bending.capacity == pytest.approx(2600 * (12 / 11.875) ** 0.136, rel=1e-9)
    assert find(result, "bearing at support 1 on wall").capacity == 750.0
    included = ratios(result_of(wood=lvl(report={"E_is": "shear included"})))["deflection under live load"]
    assert ratios(result)["deflection under live load"] > included
    shallow = find(result_of(wood=lvl("1 3/4 in x 7 1/4 in", report={"least_depth": "9 in"})), "bending")
    assert shallow.capacity == pytest.approx(2600 * (12 / 9) ** 0.136, rel=1e-9)


def test_neighbors_count_by_the_report_only() -> None:
    row = beam(
        spacing="16 in", members=4, shared_by="3/4 in plywood, nailed", carries=[floor(live="40 psf", width="16 in")]
    )
    plain = find(result_of(row, wood=lvl()), "bending").capacity
    more = find(result_of(row, wood=lvl(report={"C_r": 1.04})), "bending").capacity
    assert plain and more and more / plain == pytest.approx(1.04)


@pytest.mark.parametrize(
    ("wood", "why"),
    [(lvl(moisture="wet"), "put in wet"), (lvl(treated=True), "treated"), (glulam(treated=True), "treated"),
     (lvl(temperature="120 deg F"), "120"),
     (glulam(evidence="invented stamp: agency mark, plant 31, 20F-V3"), "the evidence says 20F-V3"),
     (glulam(evidence="invented stamp: agency mark, plant 31, 24F V4, fire retardant treated"), "treated"),
     (glulam(evidence="invented stamp: agency mark, plant 31, 24F-V4/DF, CCA 0.40"), "treated"),
     (glulam(evidence="invented stamp: agency mark, plant 31, 24F-V4/DF, pressure-treated"), "treated"),
     (lvl(evidence="invented stamp: agency mark, plant 7, LVL 2.0E, report 0999"), "the evidence says report 999"),
     (lvl(report={"edition": "renewed 3 May 2099"}), "3 May 2099"),
     (lvl(report={"edition": "2025?"}), "no answer yet"),
     (lvl(evidence="invented stamp: agency mark, plant 7, LVL 1.8E, report 0417"), "the evidence says 1.8E"),
     (lvl(grade_from="assumed"), "PRELIMINARY"),
     (lvl(grade="LVL", report={"E": "2,600,000 psi"}), "a make of 2,000,000"),
     (lvl(report={"edition": "valid until 3 May 2020"}), "is past"),
     (lvl(report={"edition": "renewed 3 May 2005", "holds_by": "the maker, perhaps"}), "years old")],
)  # fmt: skip
def test_what_only_the_maker_knows_refers(wood: Data, why: str) -> None:
    result = result_of(wood=wood)
    assert result.verdict == "refer" and why in said(result, "refer")


@pytest.mark.parametrize(
    ("wood", "key"),
    [(glulam(evidence="invented stamp: agency mark, plant 31"), "made_grade"),
     (glulam(evidence="invented stamp: agency mark, plant 31, 24F, TOP"), "made_grade"),
     (lvl(evidence="invented stamp: agency mark, plant 7, LVL 2.0E"), "report_named"),
     (lvl(report={"edition": "renewed 3 May 2005"}), "report_in_force"),
     (lvl(report={"edition": "edition of 2009"}), "report_in_force"),
     (lvl(report={"edition": "edition 4"}), "report_in_force")],
)  # fmt: skip
def test_evidence_that_is_wanting_is_asked_for_and_its_best_answer_closes(wood: Data, key: str) -> None:
    """Values go by the layup or report of the very stick, in an edition that holds (NDS 2018 5.1.2, 8.1, memory)."""
    result = result_of(wood=wood)
    assert result.verdict == "refer"
    (question,) = [one for check in result.checks for one in check.questions if one.id == f"wood/{key}"]
    path, value = (
        question.answers[0].sets[0] if question.answers else (question.field, "letter of the maker, 3 May 2025, no. 12")
    )
    names = path.removeprefix("stock.wood.").split(".")
    inner = wood if len(names) == 1 else {**wood[names[0]], names[1]: value}
    cured = {**wood, names[0]: value if len(names) == 1 else inner}
    assert result_of(wood=cured).verdict == "passes"


def test_curved_glued_timber_is_not_run() -> None:
    """Radial tension (NDS 2018 5.2.8, memory) is not derived here: words that say curved refer until it is straight."""
    wood = glulam(evidence="invented stamp: agency mark, plant 31, 24F-V4/DF, TOP, radius 40 ft")
    result = result_of(long(stamp_up=True), wood=wood)
    (check,) = [check for check in result.checks if check.id == "beam.curved"]
    ((path, value),) = check.questions[0].answers[0].sets
    meant = {"length": "a girder over the hall", path.rsplit(".", 1)[1]: value}
    assert check.verdict == "refer"
    assert not [
        c for c in result_of({**long(stamp_up=True), "meant": meant}, wood=wood).checks if c.id == "beam.curved"
    ]
    camber = glulam(evidence="invented stamp: agency mark, plant 31, 24F-V4/DF, TOP, camber 3/8 in")
    assert result_of(long(stamp_up=True), wood=camber).verdict == "passes"


def test_a_post_of_composite_wood_refers_to_an_engineer() -> None:
    data = job(
        beam(supports=[seat("0 ft", on="P"), seat("12 ft")]), stocks=[{**lvl("3 1/2 in x 5 1/2 in"), "name": "leg"}]
    )
    data["post"] = [{"name": "P", "stock": "leg", "height": "8 ft", "on": "wall", "top_restraint": "pinned"}]
    result = check_job(job_from_data(copy.deepcopy(data)))
    post = next(piece for piece in result.pieces if piece.name == "P")
    assert post.verdict == "refer" and "an engineer answers for it" in said(post, "refer")


@pytest.mark.parametrize(
    ("wood", "says"),
    [
        (glulam(size="6x18 dressed"), "not sawn to nominal sizes"),
        (glulam("26F-V9/DF"), "26F-V9/DF"),
        ({**glulam(), "species": "Southern Pine"}, "outer laminations"),
        ({key: value for key, value in lvl().items() if key != "report"}, "missing: of composite lumber"),
        (lvl(report={"number": "report"}), "has no figure in it"),
        (lvl(report={"E": "20,000,000 psi"}), "cannot be right"),
        ({**glulam(), "made": "sawn", "report": REPORT, "grade": "No.2", "size": "2x10"}, "for composite lumber"),
    ],
)
def test_what_does_not_go_together_is_said(wood: Data, says: str) -> None:
    with pytest.raises(JobError, match=says):
        job_from_data(copy.deepcopy(job(wood=wood)))


@pytest.mark.parametrize("name", listed("nds_2018_supplement_5a", "layup"))
def test_moduli_of_the_layups_fit_together(name: str) -> None:
    """E_min = E_y (1 - 1.645 x 0.10) 1.05/1.66 rounded to 10,000 psi (NDS 2018 Appendix D, memory), E_y up to E_x."""
    found = layup(name)
    tabulated = [round(E * (1 - 1.645 * 0.10) * 1.05 / 1.66, -4) for E in (1.1e6, 1.2e6, 1.5e6, 1.6e6)]
    assert found.E_min in tabulated and found.E_min < 0.53 * found.E
    assert found.F_b_other <= found.F_b and (found.balanced or found.F_b_other < found.F_b)
