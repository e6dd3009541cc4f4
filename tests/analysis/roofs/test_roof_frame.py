"""The roof frame: published thrusts, statics by hand, properties, what is refused. The sticks weigh nothing."""

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.roofs.roof_frame import RoofRun, Stiff, solve_roof
from beamcheck.errors import OutOfRange, Unstable
from beamcheck.model.loads import Load
from beamcheck.model.roofs import Rafter, Tie
from beamcheck.model.sticks import Support

RIGID = Stiff(EA=1e12, EI=1e12, GA_s=1e12, w=0.0)
PLF = 1.0 / 12.0  # lbf/in
quick = settings(max_examples=20, deadline=None)


def rafter(*loads: Load, run: str = "12 ft", slope: str = "6:12", tail: str = "0 ft", **more: object) -> Rafter:
    given_ = {"ridge": "board", **more}
    return Rafter(name="R", stock="s", run=run, slope=slope, spacing="24 in", finish="none", top_held="full length",
                  wall=Support(at=tail, on="wall"), carries=loads, **given_)  # fmt: skip


def on_beam(*loads: Load, **more: object) -> Rafter:
    return rafter(*loads, ridge="beam", ridge_on="ridge", **more)


def tie(height: str = "0 ft", *loads: Load) -> Tie:
    return Tie(name="T", stock="s", height=height, finish="none", top_held="full length", carries=loads)


def solved(one: Rafter, with_tie: Tie | None = None, stiff: Stiff = RIGID) -> RoofRun:
    return solve_roof(one, with_tie, stiff, stiff if with_tie is not None else None)


def case(run: RoofRun, kind: str, pattern: str = "") -> int:
    found = [i for i, one in enumerate(run.cases) if (one.kind, one.pattern) == (kind, pattern)]
    assert len(found) == 1, [(one.kind, one.pattern) for one in run.cases]
    return found[0]


def named(run: RoofRun, combination: str) -> int:
    return [one.name for one in run.combinations].index(combination)


def reactions(run: RoofRun, kind: str, pattern: str = "") -> np.ndarray:
    """(supports, Fx Fy M) of one case."""
    return run.solution.reactions[case(run, kind, pattern)]


def tension(run: RoofRun, kind: str, pattern: str = "") -> float:
    """Axial force of the tie in one case."""
    return float(run.solution.N[case(run, kind, pattern), run.tie_bars[0], 0])


SNOW = Load(what="snow", snow="40 psf")


class TestThrustOfTheReferenceSet:
    """loads.md 6: run 12 ft, 6:12, 40 psf, 24 in apart: W = 960 lb, H = 960 lb; tie one third up: T = 1440 lb.

    H = (W/2)(run/rise) and T = H Hr/h are read, the figures derived from them there.
    """

    def test_feet_that_push_on_walls(self) -> None:
        run = solved(rafter(SNOW))
        assert reactions(run, "S")[:, 1] == pytest.approx([960.0, 960.0])
        assert reactions(run, "S")[:, 0] == pytest.approx([960.0, -960.0])
        assert float(np.max(run.thrust)) == pytest.approx(960.0)

    def test_tie_at_the_feet(self) -> None:
        run = solved(rafter(SNOW), tie())
        assert tension(run, "S") == pytest.approx(960.0)
        assert reactions(run, "S")[:, 0] == pytest.approx([0.0, 0.0], abs=1e-6)

    def test_tie_one_third_up(self) -> None:
        run = solved(rafter(SNOW), tie("2 ft"))
        assert tension(run, "S") == pytest.approx(1440.0)


class TestByStatics:
    """Free bodies of one rafter, worked by hand in the docstrings (derived)."""

    def test_three_hinged_arch(self) -> None:
        """Without a tie H = w L^2/(8 h), here 80 plf (24 ft)^2/(8 x 6 ft) = 960 lb, whatever the stiffness."""
        soft = Stiff(EA=1e5, EI=1e6, GA_s=1e5, w=0.0)
        assert np.max(solved(rafter(SNOW), stiff=soft).thrust) == pytest.approx(80 * 24**2 / (8 * 6))

    def test_axial_force_along_a_rafter(self) -> None:
        """At the foot V sin + H cos, at the ridge H cos: there the pair only leans on each other."""
        run = solved(rafter(SNOW), tie())
        theta = math.atan(0.5)
        line = run.rafter_line
        full = named(run, "D + S")
        assert -line.at("N", 0.0)[full] == pytest.approx(960 * math.sin(theta) + 960 * math.cos(theta))
        assert -line.at("N", float(line.length), "left")[full] == pytest.approx(960 * math.cos(theta))

    def test_a_raised_tie_bends_the_rafter(self) -> None:
        """Below a tie 4 ft in from the wall only the wall pushes: M = 960 x 4 - 80 x 4^2/2 = 3200 lb-ft."""
        run = solved(rafter(SNOW), tie("2 ft"))
        full = named(run, "D + S")
        up = 4 * 12 / math.cos(math.atan(0.5))
        assert run.rafter_line.at("M", up)[full] == pytest.approx(3200 * 12)
        # a low tie leaves a simple beam: 80 x 12^2/8
        low = solved(rafter(SNOW), tie()).rafter_line.extremes("M")[2][full]
        assert low == pytest.approx(80 * 12**2 / 8 * 12)

    def test_snow_on_one_side(self) -> None:
        """Moments about the far foot: 3/4 and 1/4 of W; half the thrust, since that adds up over the sides."""
        run = solved(rafter(SNOW), tie())
        assert reactions(run, "S", "one side")[:, 1] == pytest.approx([720.0, 240.0])
        assert tension(run, "S", "one side") == pytest.approx(480.0)

    def test_wind_that_lifts_both_sides(self) -> None:
        """Moments about the ridge: T = w (rise^2 - run^2)/(2 rise), -9 w for 6 ft and 12 ft; each wall pulls w run."""
        run = solved(rafter(Load(what="wind", wind="-10 plf")), tie())
        assert tension(run, "W", "wind up") == pytest.approx(-90.0)
        assert reactions(run, "W", "wind up")[:, 1] == pytest.approx([-120.0, -120.0])

    def test_wind_from_either_side_is_held_by_the_wall_that_is_there(self) -> None:
        """10 plf square to one slope has 10 x 6 ft = 60 lb sideways; the tie passes it on to the wall that holds."""
        run = solved(rafter(Load(what="wind", wind="10 plf")), tie())
        assert reactions(run, "W", "wind down on one side")[0, 0] == pytest.approx(-60.0)
        assert reactions(run, "W", "wind down on the other")[0, 0] == pytest.approx(60.0)
        forces = [tension(run, "W", f"wind down on {side}") for side in ("one side", "the other")]
        assert abs(forces[0] - forces[1]) == pytest.approx(60.0)

    def test_wind_pressing_one_side_and_lifting_the_other(self) -> None:
        loads = Load(what="windward", wind="10 plf"), Load(what="leeward", wind="-6 plf")
        run = solved(rafter(*loads), tie())
        both = reactions(run, "W", "wind down on one side and up on the other")
        parts = reactions(run, "W", "wind down on one side") + reactions(run, "W", "wind up on the other")
        assert both == pytest.approx(parts, abs=1e-6)

    def test_rafter_on_a_ridge_beam(self) -> None:
        """A simple beam on plan: 480 lb at either end, 80 x 12^2/8 lb-ft, no push on the wall."""
        run = solved(on_beam(SNOW))
        assert reactions(run, "S") == pytest.approx(np.array([[0, 480, 0], [0, 480, 0]]), abs=1e-6)
        full = named(run, "D + S")
        assert run.rafter_line.extremes("M")[2][full] == pytest.approx(80 * 12**2 / 8 * 12)

    def test_dead_load_along_the_slope_and_on_plan(self) -> None:
        """Per area of slope it is heavier by 1/cos; not saying which counts as slope."""
        totals = [
            reactions(solved(on_beam(Load(what="roof", dead="15 psf", measured=how))), "D")[:, 1].sum()
            for how in ("plan", "slope", None)
        ]
        assert totals[0] == pytest.approx(15 * 2 * 12)
        assert totals[1] == totals[2] == pytest.approx(15 * 2 * 12 / math.cos(math.atan(0.5)))

    def test_tail_beyond_the_wall(self) -> None:
        """beam_formulas B23 on plan (read): R = w (L + a)^2/(2 L) at the wall, w (L^2 - a^2)/(2 L) at the ridge."""
        a = 24 * math.cos(math.atan(0.5)) / 12  # ft
        run = solved(on_beam(SNOW, tail="2 ft"))
        assert reactions(run, "S")[:, 1] == pytest.approx([80 * (12 + a) ** 2 / 24, 80 * (144 - a**2) / 24])
        assert reactions(run, "S", "not on the tails")[:, 1] == pytest.approx([480, 480])
        assert reactions(run, "S", "on the tails alone")[1, 1] == pytest.approx(-80 * a**2 / 24)

    def test_a_force_that_moves_stands_at_the_worst_place(self) -> None:
        """300 lb at midspan of a simple beam: P L/4 on plan."""
        run = solved(on_beam(Load(what="person", live="300 lb", moves=True)))
        assert np.max(run.rafter_line.extremes("M")[2]) == pytest.approx(300 * 144 / 4)

    def test_a_force_that_moves_along_a_tie(self) -> None:
        run = solved(rafter(SNOW), tie("0 ft", Load(what="person", live="200 lb", moves=True)))
        assert np.max(run.tie_line.extremes("M")[2]) == pytest.approx(200 * 288 / 4)

    def test_what_hangs_on_a_tie(self) -> None:
        """A simple beam between the feet, 24 ft long: w L^2/8, and P a b/L for a force 6 ft in."""
        hung = Load(what="ceiling", dead="10 plf"), Load(what="lamp", live="120 lb", at="6 ft")
        run = solved(rafter(SNOW), tie("0 ft", *hung))
        dead, live = (case(run, kind) for kind in ("D", "L"))
        bars = list(run.tie_bars)
        moments = [float(np.max(np.abs(run.solution.M[i, bars, 0]))) for i in (dead, live)]
        at_lamp = 10 * PLF * 72 * (288 - 72) / 2
        assert moments[0] == pytest.approx(at_lamp)  # the tie is cut at the lamp
        assert moments[1] == pytest.approx(120 * 72 * 216 / 288)
        assert reactions(run, "D")[:, 1] == pytest.approx([120, 120])

    def test_a_force_at_the_ridge_counts_once(self) -> None:
        top = 144 / math.cos(math.atan(0.5))
        run = solved(rafter(Load(what="mast", dead="100 lb", at=f"{top:.6f} in")), tie())
        assert reactions(run, "D")[:, 1] == pytest.approx([50, 50])


def test_feet_move_apart_only_with_a_raised_tie() -> None:
    stiff = Stiff(EA=1e8, EI=1e8, GA_s=1e12, w=0.0)
    raised, low = (float(np.max(solved(rafter(SNOW), tie(h), stiff).spreading)) for h in ("2 ft", "0 ft"))
    assert low == pytest.approx(960 * 288 / 1e8)  # the tie stretches by T L/(E A)
    assert raised > 10 * low


@pytest.mark.parametrize("height", ["6 ft", "5.999 ft", "7 ft"])
def test_a_tie_at_or_above_the_ridge_is_refused(height: str) -> None:
    with pytest.raises(OutOfRange, match="below their ridge and not below their feet"):
        solved(rafter(SNOW), tie(height))


def test_a_tie_without_a_pair_is_refused() -> None:
    with pytest.raises(OutOfRange, match="must close a pair of rafters"):
        solved(on_beam(SNOW), tie())


def test_one_rafter_cannot_lean_on_a_board() -> None:
    """The model refuses it too; here it comes past the model."""
    with pytest.raises(Unstable, match="nothing holds its upper end up"):
        solved(rafter(SNOW).model_copy(update={"pair": False}))


lengths = st.integers(4, 24).map(lambda x: f"{x} ft")
slopes = st.integers(3, 18)
amounts = st.integers(5, 60)
tails = st.sampled_from(["0 ft", "1 ft", "2.5 ft"])


@quick
@given(run=lengths, rise=slopes, dead=amounts, snow=amounts, tail=tails, height=st.integers(0, 60), wind=amounts)
def test_every_case_is_in_equilibrium(
    run: str, rise: int, dead: int, snow: int, tail: str, height: int, wind: int
) -> None:
    """What the walls hold up is what lies on the roof, in each case, upright and sideways."""
    loads = [Load(what="roof", dead=f"{dead} psf", snow=f"{snow} psf"), Load(what="wind", wind=f"{wind} psf")]
    one = rafter(*loads, run=run, slope=f"{rise}:12", tail=tail)
    ridge = one.run * rise / 12
    with_tie = tie(f"{height / 100 * ridge} in", Load(what="ceiling", dead="5 psf", width="2 ft"))
    solution = solved(one, with_tie)
    theta = math.atan(rise / 12)
    span, over = one.run / math.cos(theta), one.wall.at  # on the slope
    width, psf = 24.0, 1.0 / 144.0
    tie_length = 2 * (one.run - with_tie.height / math.tan(theta))
    parts = {"span": span, "tail": over}
    on = {
        "": [1, 1, 1, 1], "not on the tails": [1, 0, 1, 0], "on the tails alone": [0, 1, 0, 1],
        "one side": [1, 1, 0, 0], "the other side": [0, 0, 1, 1], "one side, not on its tail": [1, 0, 0, 0],
        "the other side, not on its tail": [0, 0, 1, 0],
    }  # fmt: skip
    seen = 0
    for one_case, forces in zip(solution.cases, solution.solution.reactions, strict=True):
        up, across = forces[:, 1].sum(), forces[:, 0].sum()
        if one_case.kind == "D":
            assert up == pytest.approx(2 * dead * psf * width * (span + over) + 5 * psf * width * tie_length)
        elif one_case.kind == "S":
            along = float(np.dot(on[one_case.pattern], [*parts.values(), *parts.values()]))
            assert up == pytest.approx(snow * psf * width * along * math.cos(theta), abs=1e-6)
        else:
            side = {"wind down": 0, "wind down on one side": 1, "wind down on the other": -1}[one_case.pattern]
            push = wind * psf * width * (span + over)
            assert up == pytest.approx(push * math.cos(theta) * (1 if side else 2))
            assert across == pytest.approx(-side * push * math.sin(theta), abs=1e-6 * push)
        seen += 1
    assert seen == 1 + len(on if over else [name for name in on if "tail" not in name]) + 3


@quick
@given(run=lengths, rise=slopes, snow=amounts, height=st.integers(0, 90))
def test_thrust_by_the_formula_of_the_reference_set(run: str, rise: int, snow: int, height: int) -> None:
    """T = (W/2)(run/rise)(Hr/h) for every shape (read)."""
    one = rafter(Load(what="snow", snow=f"{snow} psf"), run=run, slope=f"{rise}:12")
    ridge = one.run * rise / 12
    up = height / 100 * ridge
    W = snow / 144 * 24 * one.run
    run_ = solved(one, tie(f"{up} in"))
    assert tension(run_, "S") == pytest.approx(W / 2 * one.run / ridge * ridge / (ridge - up))


@quick
@given(rise=st.integers(3, 17), snow=amounts)
def test_a_steeper_roof_pushes_less(rise: int, snow: int) -> None:
    load = Load(what="snow", snow=f"{snow} psf")
    flat, steep = (float(np.max(solved(rafter(load, slope=f"{x}:12")).thrust)) for x in (rise, rise + 1))
    assert steep < flat


@quick
@given(rise=slopes, height=st.integers(0, 60), tail=tails)
def test_the_two_sides_are_mirror_images(rise: int, height: int, tail: str) -> None:
    """Loading the other side gives the mirrored reactions and the same force in the tie."""
    one = rafter(SNOW, slope=f"{rise}:12", tail=tail)
    run = solved(one, tie(f"{height / 100 * one.run * rise / 12} in"))
    here, there = reactions(run, "S", "one side"), reactions(run, "S", "the other side")
    assert here[:, 1] == pytest.approx(there[::-1, 1], abs=1e-6)
    assert tension(run, "S", "one side") == pytest.approx(tension(run, "S", "the other side"))


def test_combinations_are_named_by_their_pattern() -> None:
    names: Sequence[str] = [one.name for one in solved(rafter(SNOW, tail="1 ft"), tie()).combinations]
    assert "D + S" in names and "D + S, one side" in names and "D + S, on the tails alone" in names
