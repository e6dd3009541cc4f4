"""Effective lengths, proportions, buckling lengths, creep and deflection limits by look-up."""

import pytest

from beamcheck.errors import OutOfRange, UnknownName, Unstable
from beamcheck.values import factors
from beamcheck.values.limits import Finish, Member, Moisture

# NDS 2018 Table 3.3.3 (second-hand; five to seven loads memory)
LENGTHS = {
    "cantilever_uniform": (1.33, 0.90, 3), "cantilever_tip": (1.87, 1.44, 3), "simple_uniform": (2.06, 1.63, 3),
    "simple_midspan": (1.80, 1.37, 3), "braced_1": (1.11, 1.11, 0), "braced_2": (1.68, 1.68, 0),
    "braced_3": (1.54, 1.54, 0), "braced_4": (1.68, 1.68, 0), "braced_5": (1.73, 1.73, 0), "braced_6": (1.78, 1.78, 0),
    "braced_7_or_more": (1.84, 1.84, 0), "end_moments": (1.84, 1.84, 0), "any": (2.06, 1.63, 3),
}  # fmt: skip


def test_effective_lengths() -> None:
    assert factors.effective_length_cases() == tuple(LENGTHS)
    for case, numbers in LENGTHS.items():
        length = factors.effective_length(case).value
        assert (length.below_7, length.from_7, length.plus_d) == numbers
        assert (length.up_to, length.beyond) == ((14.3, 1.84) if case == "any" else (None, None))
    recalled = {case for case in LENGTHS if factors.effective_length(case).source.how == "memory"}
    assert recalled == {"braced_5", "braced_6", "braced_7_or_more"}
    assert factors.effective_length("braced_1").source.how == "read, second-hand"
    assert factors.effective_length("any").reason == "any other loading, single span or cantilever"


def test_effective_lengths_meet_at_7_and_the_general_case_covers_the_others() -> None:
    """At l_u/d = 7 both branches agree within the rounding of the table: 2.06 x 7 = 14.42, 1.63 x 7 + 3 = 14.41."""
    general = factors.effective_length("any").value
    assert general.beyond is not None
    for case in LENGTHS:
        length = factors.effective_length(case).value
        assert length.below_7 * 7 == pytest.approx(length.from_7 * 7 + length.plus_d, rel=2e-3)
        assert length.below_7 <= general.below_7 and length.from_7 <= general.beyond
    assert general.from_7 * 14.3 + 3 == pytest.approx(1.84 * 14.3, rel=1e-3)


def test_an_unknown_case() -> None:
    with pytest.raises(
        UnknownName, match="effective length case 'simple_unifrom' is not known; did you mean 'simple_uniform'"
    ):
        factors.effective_length("simple_unifrom")


@pytest.mark.parametrize(
    ("ratio", "rule"),
    [
        (0.5, "nothing"), (1.0, "nothing"), (2.0, "nothing"), (2.01, "ends"), (4.0, "ends"), (4.01, "edge"),
        (5.0, "edge"), (5.01, "edge and bridging"), (6.0, "edge and bridging"),
        (6.01, "both edges"), (7.0, "both edges"),
    ],
)  # fmt: skip
def test_proportions(ratio: float, rule: str) -> None:
    """NDS 2018 4.4.1.2 (the row up to 6 second-hand, the others memory)."""
    found = factors.proportion_rule(ratio)
    assert found.value == rule
    assert found.source.how == ("read, second-hand" if rule == "edge and bridging" else "memory")
    assert found.reason.startswith(f"d/b = {ratio:.3g}: ")


@pytest.mark.parametrize("ratio", [7.01, 0.0, -1.0, float("nan")])
def test_proportions_out_of_range(ratio: float) -> None:
    with pytest.raises(OutOfRange, match=r"the proportion rules end at 7; calculate C_L \(NDS 2018 4.4.1.2\)"):
        factors.proportion_rule(ratio)


@pytest.mark.parametrize(
    ("base", "top", "K_e"),
    [
        ("fixed", "fixed", 0.65), ("fixed", "pinned", 0.80), ("pinned", "fixed", 0.80), ("fixed", "guided", 1.2),
        ("pinned", "pinned", 1.0), ("fixed", "free", 2.1), ("free", "fixed", 2.1), ("pinned", "guided", 2.4),
    ],
)  # fmt: skip
def test_buckling_length(base: str, top: str, K_e: float) -> None:
    """NDS 2018 Appendix G, design values (memory)."""
    found = factors.length_factor(base, top)
    assert (found.value, found.source.how, found.reason) == (K_e, "memory", f"{base} at the base, {top} at the top")


def test_design_values_of_the_buckling_length_are_not_below_theory() -> None:
    """Euler's columns, closed form: 0.5, 0.699, 1, 1, 2, 2."""
    theory = {("fixed", "fixed"): 0.5, ("fixed", "pinned"): 0.699, ("fixed", "guided"): 1.0, ("pinned", "pinned"): 1.0,
              ("fixed", "free"): 2.0, ("pinned", "guided"): 2.0}  # fmt: skip
    for ends, exact in theory.items():
        assert factors.length_factor(*ends).value >= exact


@pytest.mark.parametrize(
    ("base", "top"), [("pinned", "free"), ("free", "free"), ("guided", "free"), ("guided", "guided")]
)
def test_a_mechanism_is_no_post(base: str, top: str) -> None:
    with pytest.raises(Unstable, match=f"a post {base} at its base and {top} at its top can move without resistance"):
        factors.length_factor(base, top)


def test_unknown_ends() -> None:
    with pytest.raises(
        UnknownName, match="end of a post 'roller' is not known; known are 'fixed', 'free', 'guided', 'pinned'"
    ):
        factors.length_factor("fixed", "roller")


@pytest.mark.parametrize(("moisture", "K_cr", "share"), [("dry", 1.5, 0.5), ("green", 2.0, 1.0), ("wet", 2.0, 1.0)])
def test_creep(moisture: Moisture, K_cr: float, share: float) -> None:
    """K_cr: NDS 2018 3.5.2; share in D + L: IBC Table 1604.3 footnote d (both read in an answer of the council)."""
    assert (factors.creep(moisture).value, factors.creep(moisture).source.how) == (K_cr, "read")
    found = factors.dead_share_of_total(moisture)
    assert (found.value, found.source.how) == (share, "read")


def test_unknown_moisture() -> None:
    for look_up in (factors.creep, factors.dead_share_of_total):
        with pytest.raises(UnknownName, match="moisture 'damp' is not known; known are 'dry', 'green', 'wet'"):
            look_up("damp")  # type: ignore[arg-type]


# The stricter of IBC Table 1604.3 (read) and IRC Table R301.7 (read): live, snow, wind, total
LIMITS = [
    ("floor", "plaster", False, (360, 360, 360, 240)),
    ("floor", "gypsum board", False, (360, 360, 360, 240)),
    ("floor", "flexible", False, (360, 360, 360, 240)),
    ("floor", "none", False, (360, 360, 360, 240)),
    ("roof", "plaster", False, (360, 360, 360, 240)),
    ("roof", "gypsum board", False, (240, 240, 240, 180)),
    ("roof", "flexible", False, (240, 240, 240, 180)),
    ("roof", "none", False, (240, 240, 240, 120)),  # IRC: all other structural members
    ("roof", "none", True, (180, 180, 180, 120)),  # both codes
    ("roof", "plaster", True, (360, 360, 360, 240)),
    ("roof", "flexible", True, (240, 240, 240, 180)),
    ("floor", "masonry veneer", False, (600, 600, 600, 600)),
    ("roof", "masonry veneer", True, (600, 600, 600, 600)),
]


@pytest.mark.parametrize(("member", "finish", "steep", "limits"), LIMITS)
def test_deflection_limits(member: Member, finish: Finish, steep: bool, limits: tuple[int, ...]) -> None:
    found = factors.deflection_limit(member, finish, steep_rafter=steep)
    assert (found.live.value, found.snow.value, found.wind.value, found.total.value) == limits
    assert {one.source.document for one in (found.live, found.snow, found.wind, found.total)} <= {
        "IBC Table 1604.3",
        "IRC Table R301.7",
    }
    masonry = finish == "masonry veneer"
    assert found.total_long_term == masonry and (found.total_at_most is not None) == masonry


def test_masonry_counts_dead_and_live_load() -> None:
    """L/600 (read) on dead and live load, 0.3 in at most (older masonry code, second-hand); long-term sag is safe."""
    found = factors.deflection_limit("floor", "masonry veneer")
    assert found.total.source.note.startswith("on dead plus live load")
    assert found.total_at_most is not None
    assert (found.total_at_most.value, found.total_at_most.source.how) == (0.3, "read, second-hand")


def test_which_code_governs_is_said() -> None:
    assert factors.deflection_limit("roof", "none").live.reason == "all other structural members"
    assert factors.deflection_limit("roof", "plaster").total.reason == "roof, plaster or stucco ceiling"


def test_unknown_member_or_finish() -> None:
    with pytest.raises(UnknownName, match="member 'wall' is not known; known are 'floor', 'roof'"):
        factors.deflection_limit("wall", "none")  # type: ignore[arg-type]
    with pytest.raises(UnknownName, match="finish 'plastic' is not known; did you mean 'plaster'"):
        factors.deflection_limit("floor", "plastic")  # type: ignore[arg-type]
