"""Loads from the site: six roofs and six floors from the place to `passes`, each also with one wrong number; a drift.

The sticks are those of everyday jobs in tests/trials; what comes onto them follows from [site], [[roof]], [[floor]].
Figures by hand: ASCE 7-16 chapters 3, 4, 7 and 27 as read second-hand (see tests/published/test_site_loads.py).
"""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck import JobError, check_job, job_from_data
from beamcheck.analysis.site.pieces import areas_of, with_formed_loads
from beamcheck.analysis.site.wind import open_roof_rafter
from beamcheck.calc.pad import Pad
from beamcheck.checks.core.result import JobResult, PieceResult
from beamcheck.model.job import Job
from beamcheck.model.loads import FormedLoad

Data = dict[str, Any]
TRIALS = Path(__file__).parents[2] / "trials"
PSF = 1.0 / 144.0
BY = "building department, letter of 3 May 2026"
SITE: Data = {
    "ground_snow": "30 psf", "ground_snow_from": BY, "snow_edition": "ASCE 7-16", "surroundings": "suburb or woods",
    "wind_speed": "115 mph", "wind_speed_from": BY, "flat_ground": True,
}  # fmt: skip
ROOF: Data = {
    "name": "main roof", "shape": "gable", "slope": "6:12", "eave_to_ridge": "11 ft", "ridge": "beam",
    "surface": "shingles", "below": "unheated", "exposed": "partially exposed", "higher": "nothing",
    "slides_from": "nothing", "layers": ["asphalt shingles, one layer", "felt", "1x boards"],
}  # fmt: skip
FLOOR: Data = {
    "name": "rooms", "use": "other room", "layers": ["3/4 in hardwood", "3/4 in panel", "1/2 in gypsum board"]
}  # fmt: skip
BY_DEPARTMENT = "building official, sheet of local code no. 4, 3 May 2026"
CODE = "IRC Table R301.5, by the building department"


def job_of(file: str, carries: dict[str, list[Data]], *, roof: Data | None = None, floor: Data | None = None,
           site: Data | None = None, **head: Any) -> Data:  # fmt: skip
    """A trial job whose pieces carry roofs and floors of the place instead of typed figures."""
    data = tomllib.loads((TRIALS / file).read_text(encoding="utf-8"))
    data["job"].pop("ground_snow", None)
    data["job"].pop("snow", None)
    data["job"] |= head
    data["site"] = SITE | (site or {})
    data["roof"] = [] if roof is None else [ROOF | roof]
    data["floor"] = [] if floor is None else [FLOOR | floor]
    for piece in (*data.get("beam", []), *data.get("rafter", [])):
        piece["carries"] = carries.get(piece["name"], piece["carries"])
    return data


def strip(area: str, width: str = "", **more: Any) -> list[Data]:
    kind = "floor" if area == "rooms" else "roof"
    found: Data = {"what": area, kind: area, "applied": "top", **({"width": width} if width else {}), **more}
    return [found]


def rafters() -> Data:
    """2x10 at 24 in, 10 ft from wall to ridge beam, a tail of 1 ft; straps and hangers by report."""
    return job_of("everyday/rafters_on_a_ridge_beam_with_hangers.toml",
                  {"rafters": [{"what": "main roof", "roof": "main roof"}]}, roof={},
                  wind_by=BY_DEPARTMENT)  # fmt: skip


def shed_roof() -> Data:
    return job_of("everyday/shed_roof.toml", {"rafters": [{"what": "main roof", "roof": "main roof"}]},
                  roof={"shape": "monoslope"}, wind_by=BY_DEPARTMENT)  # fmt: skip


def ridge_beam() -> Data:
    """6x10, 12 ft, half of both slopes: 12 ft of roof in all at 6 ft eave to ridge."""
    return job_of("everyday/roof_beam_with_wind.toml", {"b": strip("main roof", "6 ft", astride=True)},
                  roof={"eave_to_ridge": "6 ft", "framing": "2x6 at 24 in"}, wind_by=BY_DEPARTMENT)  # fmt: skip


def header() -> Data:
    """A pair of 2x10 over 5 ft under 7 ft of a roof of 11 ft, and its attic."""
    return job_of("everyday/window_header.toml", {"header": strip("main roof", "7 ft")},
                  roof={"framing": "2x8 at 16 in", "below": "cold attic"})  # fmt: skip


def header_below() -> Data:
    """The same under a floor and a wall as well."""
    carries = [*strip("rooms", "6 ft"), {"what": "wall", "dead": "80 plf", "applied": "top"},
               *strip("main roof", "7 ft")]  # fmt: skip
    return job_of("everyday/header_under_floor_wall_and_roof.toml", {"header": carries},
                  roof={"framing": "2x8 at 16 in"}, floor={"framing": "2x10 at 16 in"})  # fmt: skip


PORCH: Data = {
    "name": "porch", "shape": "monoslope", "slope": "1/2:12", "eave_to_ridge": "10 ft", "below": "open air",
    "surface": "metal", "layers": ["standing seam steel", "1x boards"], "framing": "2x6 at 24 in",
    "mean_height": "10 ft", "least_width": "10 ft", "attached": "no", "ridge": None,
}  # fmt: skip


def porch() -> Data:
    """A free-standing porch: 6x8, 9 ft, wind by the safe envelope, straps of 1,500 lb."""
    return job_of("uplift/porch_beam_with_rated_straps.toml", {"porch": strip("porch", "5 ft")}, roof=clean(PORCH))


def clean(data: Data) -> Data:
    return {key: value for key, value in data.items() if value is not None}


def joists(use: str = "other room", **more: Any) -> Data:
    return job_of("everyday/bedroom_over_a_garage.toml", {"joists": strip("rooms", "16 in")},
                  floor={"use": use, **more})  # fmt: skip


def ceiling() -> Data:
    return job_of("everyday/ceiling_joists.toml", {"ceiling joists": strip("rooms", "16 in")},
                  floor={"use": "attic without storage", "layers": ["1/2 in gypsum board", "R-38 batt"]})  # fmt: skip


def girder() -> Data:
    return job_of("floors/three_ply_girder.toml", {"girder": strip("rooms", "11 ft")},
                  floor={"framing": "2x10 at 16 in"})  # fmt: skip


def two_spans() -> Data:
    return job_of("everyday/beam_on_three_posts.toml", {"b": strip("rooms", "8 ft")},
                  floor={"framing": "2x10 at 16 in"})  # fmt: skip


def deck() -> Data:
    carries = strip("rooms", "16 in", what="deck", live="40 psf", meant={"live": CODE})  # the tables have 60 as well
    return job_of("everyday/deck_with_two_ply_girder.toml", {"joists": carries},
                  floor={"use": "deck", "outdoors": True, "layers": ["2x6 deck boards"]})  # fmt: skip


def roof_set(**values: Any) -> Any:
    return lambda data: data["roof"][0].update(values)


def floor_set(**values: Any) -> Any:
    return lambda data: data["floor"][0].update(values)


def site_set(**values: Any) -> Any:
    return lambda data: data["site"].update(values)


def typed(piece: str, number: int = 0, **values: Any) -> Any:
    """A figure typed beside the one of the site."""

    def change(data: Data) -> None:
        found = [one for one in (*data["beam"], *data.get("rafter", [])) if one["name"] == piece]
        found[0]["carries"][number].update(values)

    return change


ROOFS = {
    "rafters": (rafters, typed("rafters", snow="4 psf"), "refer"),
    "shed roof": (shed_roof, site_set(snow_edition="remove"), "refer"),
    "ridge beam": (ridge_beam, site_set(ground_snow="120 psf"), "fails"),
    "header": (header, roof_set(slides_from="remove"), "refer"),
    "header under floor and roof": (header_below, site_set(ground_snow="120 psf"), "fails"),
    "open porch": (porch, site_set(wind_speed="remove"), "refer"),
}
FLOORS = {
    "joists": (joists, floor_set(layers=["tile on 1 in mortar bed", "concrete: 40 psf"]), "fails"),
    "bedroom": (lambda: joists("sleeping room"), typed("joists", live="20 psf"), "refer"),
    "ceiling": (ceiling, typed("ceiling joists", dead="1 psf"), "refer"),
    "girder": (girder, floor_set(use="assembly"), "fails"),
    "beam on three posts": (two_spans, floor_set(use="light storage"), "fails"),
    "deck": (deck, site_set(ground_snow_from="my neighbor"), "refer"),
}


def changed(data: Data, change: Any) -> Data:
    data = copy.deepcopy(data)
    change(data)
    for table in (data["site"], *data["roof"], *data["floor"]):
        for key in [key for key, value in table.items() if value == "remove"]:
            del table[key]
    return data


def said(result: JobResult) -> str:
    return "\n".join(f"{check.subject}: {check.id} {check.what} {check.ratio} {check.notes}"
                     for piece in result.pieces for check in piece.checks if check.verdict != "passes")  # fmt: skip


@pytest.mark.parametrize("name", [*ROOFS, *FLOORS])
def test_it_passes_from_the_site(name: str) -> None:
    made, _, _ = (ROOFS | FLOORS)[name]
    result = check_job(job_from_data(made()))
    assert result.verdict == "passes", said(result)


@pytest.mark.parametrize("name", [*ROOFS, *FLOORS])
def test_one_wrong_number_is_caught(name: str) -> None:
    made, change, verdict = (ROOFS | FLOORS)[name]
    assert check_job(job_from_data(changed(made(), change))).verdict == verdict


def piece(data: Data, name: str) -> PieceResult:
    return next(one for one in check_job(job_from_data(data)).pieces if one.name == name)


def formed(data: Data, name: str) -> list[FormedLoad]:
    """The loads of a piece as they follow from the site."""
    job = job_from_data(data)
    areas = areas_of(job.site, job.roof, job.floor)
    (found,) = [one for one in (*job.beam, *job.rafter) if one.name == name]
    return [load for load in with_formed_loads(found, areas).carries if isinstance(load, FormedLoad)]


HIGHER = {
    "what": "house wall and eave", "step": "4 ft", "upper_length": "30 ft", "lower_length": "8 ft"
}  # fmt: skip


class TestDrift:
    """The porch under the eaves of a house, by hand (ASCE 7-16 7.7.1): p_g 40, p_s 33.6, h_d 2.053 ft, p_d 39.4.

    gamma = 0.13 x 40 + 14 = 19.2 pcf; h_b = 33.6/19.2 = 1.75 ft; h_c = 4 - 1.75 = 2.25 ft;
    h_d = 0.43 x 30^(1/3) x 50^(1/4) - 1.5 = 2.053 ft; w = 4 h_d = 8.21 ft; p_d = 19.2 x 2.053 = 39.4 psf.
    """

    def porch(self, **load: Any) -> Data:
        data = job_of("everyday/roof_beam_with_wind.toml", {"b": strip("porch", "4 ft", **load)},
                      roof=clean(PORCH) | {"slope": "2:12", "eave_to_ridge": "8 ft", "higher": HIGHER},
                      site={"ground_snow": "40 psf"})  # fmt: skip
        data["roof"][0].pop("ridge", None)
        return data

    def test_a_beam_along_the_wall(self) -> None:
        """The outer beam at 8 ft: 134.4 plf and 39.4 x 8.21/2 of it by lever: 189.7 plf; the ledger 240.9."""
        for off, plf in (("8 ft", 189.7), ("0 ft", 240.9)):
            (snow,) = [load for load in formed(self.porch(off_wall=off), "b") if load.snow]
            assert snow.snow is not None
            assert 144.0 * snow.snow[0] * 4.0 == pytest.approx(plf, abs=0.1)

    def test_a_beam_whose_place_is_not_said_bears_the_peak(self) -> None:
        (snow,) = [load for load in formed(self.porch(), "b") if load.snow]
        assert snow.snow is not None
        assert 144.0 * snow.snow[0] == pytest.approx(33.6 + 39.42, abs=0.02)

    def test_a_beam_away_from_the_wall_bears_the_triangle(self) -> None:
        """At the wall 73.0 psf, at 8.21 ft 33.6; the beam is 12 ft long."""
        even, drift = (load for load in formed(self.porch(wall_at="0 ft"), "b") if load.snow)
        assert even.snow is not None and drift.snow is not None and drift.end is not None
        assert 144.0 * (even.snow[0] + drift.snow[0]) == pytest.approx(73.0, abs=0.05)
        assert drift.end / 12.0 == pytest.approx(8.21, abs=0.01) and drift.snow_ends == (1.0, 0.0)

    def test_the_moment_is_that_of_the_triangle(self) -> None:
        """Simple beam of 12 ft, 4 ft wide: reactions of the drift 39.42 x 8.2117/2 x 4 lb, its center at a third."""
        result = piece(self.porch(wall_at="0 ft"), "b")
        (table,) = [one for one in result.tables if one.title.startswith("Reactions")]
        snow = [row[table.heads.index("S")] for row in table.rows]
        drift = 39.42 * 8.2117 / 2.0 * 4.0
        left = 33.6 * 4.0 * 6.0 + drift * (12.0 - 8.2117 / 3.0) / 12.0
        right = 33.6 * 4.0 * 6.0 + drift * 8.2117 / 3.0 / 12.0
        assert [float(text.split(" ")[0].replace(",", "")) for text in snow] == pytest.approx([left, right], abs=6)

    def test_snow_that_slides_lies_on_the_balanced_load(self) -> None:
        """House roof p_f 0.7 x 1.1 x 40 = 30.8: 0.4 x 30.8 x 15/15 = 12.3; 33.6 + 12.3 = 45.9 psf."""
        upper = {"slope": "6:12", "eave_to_ridge": "15 ft", "surface": "shingles", "below": "cold attic"}
        data = self.porch()
        data["roof"][0] |= {"higher": "nothing", "slides_from": upper}
        (snow,) = [load for load in formed(data, "b") if load.snow]
        assert snow.snow is not None
        assert 144.0 * snow.snow[0] == pytest.approx(45.92, abs=0.02)


class TestRoofs:
    def test_layers_on_the_slope_are_turned_once(self) -> None:
        """2 + 0.3 + 2.3 = 4.6 psf on the slope of 6:12, 5.14 on plan; 24 in and 11 ft level: 113 lb and the stick."""
        data = rafters()
        (load,) = formed(data, "rafters")
        assert load.dead == (pytest.approx(4.6 * (12.0**2 + 6.0**2) ** 0.5 / 12.0 * PSF), "area")
        twice = copy.deepcopy(data)
        typed_in = [{"what": "roof", "dead": "4.6 psf", "measured": "slope"}, {"what": "snow", "snow": "30 psf"}]
        twice["rafter"][0]["carries"] = typed_in
        ours, by_hand = (
            next(check.ratio for check in piece(each, "rafters").checks if check.id == "roof.bearing")
            for each in (data, twice)
        )
        assert ours == pytest.approx(by_hand) and ours

    def test_the_lee_side_bears_the_ground_snow(self) -> None:
        """Simple rafters, 11 ft: 30 psf on the lee side, above 0.7 x 1.2 x 30 = 25.2 (ASCE 7-16 7.6.1)."""
        (load,) = formed(rafters(), "rafters")
        assert load.snow == (pytest.approx(30 * PSF), "area")

    def test_a_wide_roof_is_heaped_beside_the_ridge(self) -> None:
        """p_g 40, C_t 1.1, 24 ft, 4:12 with trusses: p_s 30.8, 19.9 more over 8.3 ft from the ridge (level)."""
        data = rafters()
        data["site"]["ground_snow"] = "40 psf"
        data["roof"][0] |= {"slope": "4:12", "eave_to_ridge": "24 ft", "ridge": "ties or trusses"}
        data["roof"][0]["below"] = "cold attic"
        data["rafter"][0]["slope"] = "4:12"
        even, heap = (load for load in formed(data, "rafters") if load.snow)
        assert even.snow is not None and heap.snow is not None and heap.start is not None and heap.end is not None
        assert 144.0 * even.snow[0] == pytest.approx(30.8, abs=0.01)
        assert 144.0 * heap.snow[0] == pytest.approx(19.9, abs=0.05) and heap.snow_ends == (0.0, 1.0)
        level = (heap.end - heap.start) * 12.0 / (12.0**2 + 4.0**2) ** 0.5
        assert level / 12.0 == pytest.approx(8.306, abs=0.01)

    def test_a_ridge_beam_bears_half_of_what_lies_on_one_side(self) -> None:
        """Balanced 25.2 psf on both, or 30 on one: half of that is less."""
        (load,) = formed(ridge_beam(), "b")
        assert load.snow == (pytest.approx(25.2 * PSF), "area")

    @pytest.mark.parametrize(
        ("words", "verdict"), [("letter of 3 May 2026: 70 psf", "refer"), ("letter of 3 May 2026: 30 psf", "passes")]
    )
    def test_a_source_that_names_another_ground_snow_asks(self, words, verdict) -> None:
        data = changed(rafters(), lambda data: data["site"].update(ground_snow_from=f"building department, {words}"))
        assert piece(data, "rafters").verdict == verdict

    def test_ice_on_the_overhang_of_a_warm_roof_asks_for_its_insulation(self) -> None:
        """ASCE 7-16 7.4.5: R-30, or R-20 where it is vented, and none builds up."""
        warm = changed(rafters(), roof_set(below="heated"))
        (asked,) = (one for one in piece(warm, "rafters").checks if one.what.startswith("ice at the eave"))
        assert asked.verdict == "refer" and asked.questions[0].field == "roof.main roof.insulation"
        for said in ({"insulation": 30}, {"insulation": 20, "vented": True}):
            good = changed(rafters(), roof_set(below="heated", **said))
            assert not any(one.what.startswith("ice at the eave") for one in piece(good, "rafters").checks)

    def test_the_open_porch_is_lifted_by_the_envelope(self) -> None:
        """-1.02 x q_h, 115 mph, B taken as said: 0.57: -16.7 psf at 10 ft, less what may be gone of its layers."""
        loads = formed(porch(), "porch")
        q_h = 0.00256 * 0.57 * 0.85 * 115**2
        up = -1.2 * 0.85 * q_h - (1.5 + 2.3 - 1.2 - 1.9) * (12.0**2 + 0.5**2) ** 0.5 / 12.0
        assert [144.0 * load.wind[0] for load in loads if load.wind] == pytest.approx([up, 1.2 * 0.85 * q_h], abs=0.01)

    @pytest.mark.parametrize("words", ["hot tub", "library stacks", "garage floor"])
    def test_what_the_words_say_is_on_a_floor_outweighs_its_use(self, words) -> None:
        data = joists()
        data["beam"][0]["carries"][0]["what"] = words
        found = piece(data, "joists")
        assert found.verdict == "refer", [check.what for check in found.checks]

    def test_one_of_a_row_under_it_gets_the_wind_of_a_part(self) -> None:
        """Fig. 30.7-1, 2.39 deg, 9 ft x 3 ft is between a^2 and 4 a^2: zone 2, -1.8 - 0.8 (2.386/7.5) = -2.0545."""
        data = porch()
        data["beam"][0]["spacing"] = "24 in"
        (up, *_) = [144.0 * load.wind[0] for load in formed(data, "porch") if load.wind]
        part = -2.0545 * 0.85 * 0.00256 * 0.57 * 0.85 * 115**2
        assert up == pytest.approx(part - (1.5 + 2.3 - 1.2 - 1.9) * (12.0**2 + 0.5**2) ** 0.5 / 12.0, abs=0.02)

    def test_a_part_never_gets_less_than_sixteen_psf(self) -> None:
        """ASCE 7-16 30.2.2, read second-hand."""
        up, down = open_roof_rafter(Pad(), 1.0 / 144.0, "pitched", 10.0, area=2000.0)
        assert (144.0 * up, 144.0 * down) == (pytest.approx(-16.0), pytest.approx(16.0))

    def test_weaker_straps_do_not_hold_it(self) -> None:
        data = porch()
        data["anchor"][0]["rating"]["up"] = "50 lb"
        assert check_job(job_from_data(data)).verdict == "fails"

    def test_an_open_roof_attached_to_a_house_and_steep_refers(self) -> None:
        data = changed(porch(), roof_set(attached="one side"))
        result = piece(data, "porch")
        assert any("safe envelope" in check.notes[0] for check in result.checks if check.verdict == "refer")

    def test_a_wind_sheet_of_allowable_level_counts_whole(self) -> None:
        """12 psf of allowable level are 20 of strength; 0.6 of them are taken."""
        sheet = {"lifts": "12 psf", "presses": "6 psf", "level": "allowable", "by": "engineer, sheet S-3 of 2026-01-02"}
        data = changed(porch(), roof_set(wind=sheet, layers=["asphalt shingles, one layer"]))
        winds = [144.0 * load.wind[0] for load in formed(data, "porch") if load.wind]
        assert winds == pytest.approx([-20.0, 10.0])

    def test_seven_22_snow_in_seven_16_combinations_is_refused(self) -> None:
        """LD250: value and combinations are of different editions (factor about 1.6)."""
        with pytest.raises(JobError, match="strength level"):
            job_from_data(changed(rafters(), site_set(snow_edition="ASCE 7-22", ground_snow="63 psf")))

    def test_what_is_meant_may_stay_below(self) -> None:
        data = changed(rafters(), typed("rafters", snow="25 psf", meant={"snow": "letter of the department no. 4"}))
        assert not [c for c in piece(data, "rafters").checks if c.id == "loads.site" and c.verdict == "refer"]


class TestFloors:
    def test_layers_weigh_what_they_weigh(self) -> None:
        """3.5 + 2.4 + 2.2 = 8.1 psf; a girder bears the joists as well: 2.3."""
        (joist,), (beam,) = formed(joists(), "joists"), formed(girder(), "girder")
        assert joist.dead == (pytest.approx(8.1 * PSF), "area")
        assert beam.dead == (pytest.approx((8.1 + 2.3125) * PSF), "area")

    def test_a_stair_asks_for_its_point_load(self) -> None:
        result = piece(joists("stair"), "joists")
        assert any("300 lb" in check.notes[0] for check in result.checks if check.verdict == "refer")


class TestJobs:
    def test_an_unknown_roof_or_layer_is_told_with_its_place(self) -> None:
        data = rafters()
        data["rafter"][0]["carries"][0]["roof"] = "main rof"
        data["roof"][0]["layers"] = ["asphalt shingle"]
        with pytest.raises(JobError) as told:
            job_from_data(data)
        texts = " ".join(problem.text for problem in told.value.problems)
        assert "asphalt shingles, one layer" in texts

    def test_more_snow_never_helps(self) -> None:
        def bending(snow: str) -> float:
            result = piece(changed(ridge_beam(), site_set(ground_snow=snow)), "b")
            return max(check.ratio or 0.0 for check in result.checks if check.id == "beam.bending")

        ratios = [bending(f"{snow} psf") for snow in (10, 20, 30, 50, 70)]
        assert ratios == sorted(ratios)

    def test_the_basis_lists_the_site_and_every_step(self) -> None:
        result = check_job(job_from_data(rafters()))
        (table,) = [one for one in result.tables if "main roof" in one.title]
        words = " ".join(" ".join(row) for row in table.rows)
        assert "ASCE 7-16 7.3 (eq. 7.3-1)" in words and "asphalt shingles" in words and "25.2 psf" in words
        assert ("ground snow from", BY) in [(one.label, one.text) for one in result.about]

    def test_a_job_without_a_site_is_read_as_before(self) -> None:
        text = (TRIALS / "everyday/shed_roof.toml").read_text(encoding="utf-8")
        job: Job = job_from_data(tomllib.loads(text))
        assert job.site is None and check_job(job).verdict == "passes"


SHEET = {"lifts": "12 psf", "presses": "12 psf", "level": "strength", "by": "engineer, sheet S-3 of 2026-01-02, ASD"}


@pytest.mark.parametrize(
    ("made", "change"),
    [
        (rafters, site_set(ground_snow_from=f"{BY}, 7-22 value")),
        (rafters, site_set(ground_snow_from=f"{BY}, strength level")),
        (porch, site_set(wind_speed="90 mph ASD")),
        (porch, site_set(wind_speed_from=f"{BY}, allowable level")),
        (porch, roof_set(wind=SHEET)),
        (joists, floor_set(use="roof")),
        (joists, floor_set(layers=["tile on 1 in mortar bed: 1 psf", "3/4 in panel"])),
    ],
)
def test_words_that_contradict_the_figure_beside_them_are_told(made: Any, change: Any) -> None:
    with pytest.raises(JobError):
        job_from_data(changed(made(), change))


@pytest.mark.parametrize(
    ("made", "change"),
    [
        (rafters, typed("rafters", snow="10 psf", meant={"snow": "carpenter says so, 3 May 2026"})),
        (rafters, typed("rafters", snow="10 psf", meant={"snow": "department refused less, letter no. 4"})),
        (joists, typed("joists", live="20 psf", meant={"live": "owner, letter no. 4 of 3 May 2026"})),
        (rafters, roof_set(slope="12:12")),
        (rafters, roof_set(eave_to_ridge="3 ft")),
        (deck, floor_set(outdoors="remove")),
    ],
)
def test_what_makes_the_loads_of_the_site_smaller_has_to_be_answered_for(made: Any, change: Any) -> None:
    assert check_job(job_from_data(changed(made(), change))).verdict == "refer"


def test_a_deck_without_a_site_asks_for_its_snow() -> None:
    data = deck()
    del data["site"]
    with pytest.raises(JobError, match=r"add \[site\]"):
        job_from_data(data)
