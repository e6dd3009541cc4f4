"""How long each fastener bears in each member of each manner, and when it is too long, too short or not known.

Lengths are summed here. Washers of 1/2 in bolts and lag screws 0.109 in thick (memory); tips 5/16 in of a 1/2 in lag
screw (Appendix L, read), 2 D of screws and nails: half of a tip does not bear (NDS 2018 12.3.5.3). Groups are invented.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from beamcheck.checks.anchors.fastener import dowel_of
from beamcheck.checks.anchors.joint import Joint, JointMaker, Part
from beamcheck.checks.anchors.manners.registry import connect, manner_of
from beamcheck.checks.anchors.unsaid import NotSaid
from beamcheck.errors import OutOfRange
from beamcheck.model.anchors.anchor import Fastener
from beamcheck.model.roofs import Rafter

from ... import houses
from ..anchors import Data, find, group, lateral, said, step, stock

PLATE: Data = {"steel": "A36", "thickness": "1/4 in", "width": "6 in", "length": "10 in"}
SLOT = {**PLATE, "slot": "5/16 in"}
FAR: Data = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "6 in", "edge": "5 in"}
BOLT: Data = {"kind": "bolt", "size": "1/2 in"}
PIN: Data = {"kind": "pin", "size": "1/2 in"}
LAG: Data = {"kind": "lag screw", "size": "1/2 in", "length": "6 in"}
BORE: Data = {"counterbore": "1 1/2 in", "counterbore_depth": "1/2 in"}
TIMBER = stock("6x12 dressed")
TIP = 5 / 32  # half of that of a 1/2 in lag screw


def joint(**more: Any) -> Joint:
    made = group([100.0], **{"held": TIMBER, "into": TIMBER, "other": FAR, **more})
    return manner_of(made.anchor).joint_of(made)


def steel(**more: Any) -> Data:
    return {"plate": PLATE, "other": None, "into": None, **more}


@pytest.mark.parametrize(("more", "main", "side", "held", "bored", "slot"), [
    # two pieces of 5 1/2 in: bores off both where there is a nut, off one for a pin
    ({"fastener": BOLT}, 5.5, 5.5, 5.5, 0.0, 0.0), ({"fastener": {**BOLT, **BORE}}, 5.0, 5.0, 5.0, 0.5, 0.0),
    ({"fastener": {**PIN, **BORE}}, 5.5, 5.0, 5.0, 0.5, 0.0),
    ({"fastener": BOLT, "other": {"material": "concrete", "thickness": "6 in", "grain": "along"}, "into": None},
     6.0, 5.5, 5.5, 0.0, 0.0),
    # a plate of 1/4 in on the face, let in, on both faces, in a slot of 5/16 in
    (steel(manner="plate one side", fastener=BOLT), 5.5, 0.25, 5.5, 0.0, 0.0),
    (steel(manner="plate one side", fastener={**BOLT, **BORE}), 5.0, 0.25, 5.0, 0.5, 0.0),
    (steel(manner="let-in angle", fastener=BOLT), 5.25, 0.25, 5.25, 0.0, 0.25),
    (steel(manner="let-in angle", fastener={**BOLT, **BORE}), 4.75, 0.25, 4.75, 0.5, 0.25),
    (steel(manner="plates both sides", fastener=BOLT), 5.5, 0.25, 5.5, 0.0, 0.0),
    (steel(manner="concealed plate", plate=SLOT, fastener=BOLT), 0.25, 5.1875 / 2, 5.1875, 0.0, 0.3125),
    (steel(manner="concealed plate", plate=SLOT, fastener={**BOLT, **BORE}), 0.25, 4.1875 / 2, 4.1875, 1.0, 0.3125),
    ({"manner": "wood both sides", "fastener": {**BOLT, **BORE}}, 5.5, 5.0, 5.5, 0.0, 0.0),
])  # fmt: skip
def test_what_goes_right_through(more: Data, main: float, side: float, held: float, bored: float, slot: float) -> None:
    made = joint(**more)
    assert (made.main.length, made.side.length) == pytest.approx((main, side))
    assert (made.held, made.bored, made.slot) == pytest.approx((held, bored, slot))
    assert made.penetration is None
    assert made.two_planes is (more.get("manner") in ("plates both sides", "concealed plate", "wood both sides"))


@pytest.mark.parametrize(("more", "main", "side", "penetration"), [
    # 6 in less 1 1/2 in of wood and the washer; a gap more; a bore less
    ({"held": stock(), "fastener": LAG}, 6 - 1.5 - 0.109 - TIP, 1.5, 6 - 1.5 - 0.109),
    ({"held": stock(), "fastener": LAG, "gap": "1/4 in"}, 6 - 1.5 - 0.359 - TIP, 1.5, 6 - 1.5 - 0.359),
    ({"held": stock(), "fastener": {**LAG, **BORE}}, 6 - 1.0 - 0.109 - TIP, 1.0, 6 - 1.0 - 0.109),
    # through the post into the end
    ({"manner": "into the end", "fastener": {**LAG, "length": "9 in", **BORE}, "gap": "1/4 in"},
     9 - 5.0 - 0.359 - TIP, 5.0, 9 - 5.0 - 0.359),
    (steel(manner="plate one side", fastener={**LAG, "length": "5 in"}), 5 - 0.25 - 0.109 - TIP, 0.25, 4.641),
    (steel(manner="plate one side", fastener={**LAG, "length": "5 in"}, gap="1/16 in"),
     5 - 0.25 - 0.109 - 0.0625 - TIP, 0.25, 4.5785),
    # no washer under a wood screw; tip 0.38 in; a 16d nail, tip 0.324 in
    ({"held": stock(), "fastener": {"kind": "wood screw", "size": "No. 10", "length": "3 in"}}, 1.5 - 0.19, 1.5, 1.5),
    ({"held": stock(), "fastener": {"kind": "nail", "size": "16d common"}}, 2.0 - 0.162, 1.5, 2.0),
    ({"held": stock(), "fastener": {"kind": "nail", "size": "16d common"}, "gap": "1/4 in"}, 1.75 - 0.162, 1.5, 1.75),
])  # fmt: skip
def test_what_has_a_point(more: Data, main: float, side: float, penetration: float) -> None:
    made = joint(**more)
    assert (made.main.length, made.side.length) == pytest.approx((main, side))
    assert made.penetration == pytest.approx(penetration) and not made.two_planes and not made.faults


@pytest.mark.parametrize(("length", "faults", "main"), [
    # 4 D and the tip are 2.3125 in; with 1.609 in before them 3.9215 in; the post ends 7.109 in below the head
    ("3.922 in", [], 2.313 - TIP), ("3.92 in", ["anchor.penetration"], 2.3125 - TIP), ("1 in", ["anchor.penetration"],
                                                                                   2.3125 - TIP),
    ("7.109 in", [], 5.5 - TIP), ("7.2 in", ["anchor.length"], 7.2 - 1.609 - TIP), ("8 in", ["anchor.length"], 5.5),
])  # fmt: skip
def test_the_point_ends_within_its_member(length: str, faults: list[str], main: float) -> None:
    made = joint(held=stock(), fastener={**LAG, "length": length})
    assert [fault.id for fault in made.faults] == faults
    assert made.main.length == pytest.approx(main)
    for fault in made.faults:
        kind = "penetration of the lag screw" if fault.id == "anchor.penetration" else "length of the lag screw"
        assert fault.what == kind
    if length == "8 in":
        assert "comes out by 7/8 in" in made.faults[0].text
    if length == "3.92 in":
        assert "2 5/16 in in the member that holds the point, at least 2 5/16 in asked" in made.faults[0].text
    if length == "1 in":
        assert made.faults[0].text.startswith("0 in in the member"), "it does not reach it at all"


@pytest.mark.parametrize(("more", "length", "words"), [
    # 11 in of wood, two washers, a nut of 1/2 in: 11.718
    ({"fastener": BOLT}, "11.718 in", ""), ({"fastener": BOLT}, "11.71 in", "too short: the parts with washers"),
    ({"fastener": BOLT, "gap": "1/4 in"}, "11.968 in", ""), ({"fastener": BOLT, "gap": "1/4 in"}, "11.96 in",
                                                             "too short"),
    # bored 1/2 in on either side: 10 in to hold, hidden within 11 in
    ({"fastener": {**BOLT, **BORE}}, "11 in", ""), ({"fastener": {**BOLT, **BORE}}, "11.01 in", "room for 11 in"),
    ({"fastener": {**BOLT, **BORE}, "gap": "1/4 in"}, "11.25 in", ""),
    ({"fastener": {**BOLT, **BORE}, "gap": "1/4 in"}, "11.26 in", "too long: it comes out of the face"),
    ({"fastener": {**BOLT, **BORE}}, "10.718 in", ""), ({"fastener": {**BOLT, **BORE}}, "10.71 in", "too short"),
    # a pin: as long as the wood, and no longer
    ({"fastener": PIN}, "11 in", ""), ({"fastener": PIN}, "10.99 in", "too short: the parts need 11 in"),
    ({"fastener": PIN}, "11.01 in", "too long"),
    # plates: 1/4 in each, 1/16 in off the wood
    (steel(manner="plate one side", fastener=BOLT, gap="1/16 in"), "6.5305 in", ""),
    (steel(manner="plate one side", fastener=BOLT, gap="1/16 in"), "6.53 in", "too short"),
    (steel(manner="plate one side", fastener={**BOLT, **BORE}), "5.968 in", "too long"),
    (steel(manner="let-in angle", fastener={**BOLT, **BORE}), "5.718 in", "too long"),
    (steel(manner="plates both sides", fastener=BOLT, gap="1/16 in"), "6.843 in", ""),
    (steel(manner="plates both sides", fastener=BOLT, gap="1/16 in"), "6.842 in", "too short"),
    (steel(manner="concealed plate", plate=SLOT, fastener=BOLT), "6.218 in", ""),
    (steel(manner="concealed plate", plate=SLOT, fastener=BOLT), "6.21 in", "too short"),
    (steel(manner="concealed plate", plate=SLOT, fastener={**BOLT, **BORE}), "5.218 in", ""),
    (steel(manner="concealed plate", plate=SLOT, fastener={**BOLT, **BORE}), "5.51 in", "room for 5 1/2 in"),
    ({"manner": "wood both sides", "fastener": BOLT}, "17.218 in", ""),
    ({"manner": "wood both sides", "fastener": BOLT}, "17.21 in", "too short"),
    ({"manner": "wood both sides", "fastener": {**BOLT, **BORE}, "gap": "1/4 in"}, "17 in", ""),
    ({"manner": "wood both sides", "fastener": {**BOLT, **BORE}, "gap": "1/4 in"}, "17.01 in", "room for 17 in"),
])  # fmt: skip
def test_bolts_and_pins_as_long_as_their_parts(more: Data, length: str, words: str) -> None:
    fastener = {**more["fastener"], "length": length, "thread_length": "1 1/2 in"}
    if fastener["kind"] == "pin":
        del fastener["thread_length"]
    faults = [fault.text for fault in joint(**{**more, "fastener": fastener}).faults]
    assert len(faults) == bool(words) and all(words in text for text in faults), faults


def test_the_nut_turns_on_thread() -> None:
    """A bolt of 14 in on 11 in of wood with four washers of 0.109 in: 2.564 in of it stand out beyond them."""
    made = joint(fastener={**BOLT, "length": "14 in", "thread_length": "2.564 in"})
    assert not [one for one in made.doubts if one.key == "bolt_thread"]
    made = joint(fastener={**BOLT, "length": "14 in", "thread_length": "2 1/2 in"})
    (open_,) = [one for one in made.doubts if one.key == "bolt_thread"]
    assert "with 2 1/2 in of thread, the nut comes to the end of the thread 1/16 in before the washer" in open_.text
    assert "parts that are 11 in thick" in open_.text
    # 2.564 in and one diameter: 3.064, so 3 1/4 in of thread; or all of it
    assert (open_.field, open_.answers) == ("fastener.thread_length", ("3 1/4 in", "14 in"))


@pytest.mark.parametrize(("thread", "D", "clear"), [
    # a bolt of 12 in: 0.109 + 11 in of it lie under the head's washer and in the wood, the thread begins 12 less itself
    ("0.891 in", 0.5, True), ("2 1/4 in", 0.5, True), ("2.266 in", 0.5, True), ("2.27 in", 0.406, True),
    ("6.3 in", 0.406, True), ("6.391 in", 0.406, True), ("6.5 in", 0.406, False),
])  # fmt: skip
def test_threads_over_a_quarter_of_the_wood_beside_the_nut(thread: str, D: float, clear: bool) -> None:
    """12.3.7.2 (memory): 1.375 of 5 1/2 in. They come to the shear plane beyond 5 1/2 in."""
    made = joint(fastener={**BOLT, "length": "12 in", "threads": "clear of it", "thread_length": thread})
    assert made.dowel.D_calc == D and made.threads_clear is clear
    if thread == "6.5 in":
        assert "6 1/2 in of 12 in, lies over 5 1/2 in of the 5 1/2 in beside the nut" in made.dowel.why_D
    if thread == "2.27 in":
        assert "lies over 1 3/8 in of the 5 1/2 in" in made.dowel.why_D


def test_threads_outside_of_the_wood_do_not_count() -> None:
    """A plate of 1/4 in, 1/16 in off the wood, lies between wood and washer: so much more thread may lie there."""

    def made(thread: str) -> Joint:
        bolt = {**BOLT, "length": "7 in", "threads": "clear of it", "thread_length": thread}
        return joint(**steel(manner="plates both sides", fastener=bolt, gap="1/16 in"))

    # 7 in of bolt, 0.109 + 6.125 in to the other face of steel: 5.9215 to that of the wood, whose quarter is 1.375 in
    assert made("2.45 in").dowel.D_calc == 0.5 and made("2.46 in").dowel.D_calc == 0.406


def test_threads_said_to_be_clear_of_a_bolt_of_no_length() -> None:
    """Asked for: 11 in of wood, two washers and a nut of 1/2 in, to the next quarter, or an inch more."""
    made = joint(fastener={**BOLT, "threads": "clear of it"})
    (open_,) = made.doubts
    assert (open_.key, open_.field, open_.answers) == ("length", "fastener.length", ("11 3/4 in", "12 3/4 in"))
    assert made.threads_clear and made.dowel.D_calc == 0.5
    assert not joint(fastener=BOLT).doubts and not joint(fastener=BOLT).threads_clear
    pins = joint(fastener={**PIN, "threads": "clear of it"}, clamped=True)
    assert pins.threads_clear and not pins.doubts
    assert not joint(fastener=PIN, clamped=True).threads_clear


@pytest.mark.parametrize(("clamped", "asked"), [(True, False), (None, True), (False, True)])
def test_pins_are_clamped_by_bolts(clamped: bool | None, asked: bool) -> None:
    made = joint(fastener=PIN, clamped=clamped)
    assert [(one.key, one.field) for one in made.doubts] == ([("clamped", "clamped")] if asked else [])
    assert not [one for one in joint(fastener=BOLT, clamped=clamped).doubts if one.key == "clamped"]


@pytest.mark.parametrize(("gap", "asked"), [("1 in", False), ("1.01 in", True)])
def test_gaps_of_up_to_two_diameters(gap: str, asked: bool) -> None:
    made = joint(fastener=BOLT, gap=gap)
    assert [one.key for one in made.doubts] == (["wide_gap"] if asked else [])
    if asked:
        assert "wider than 2 D = 1 in" in made.doubts[0].text


@pytest.mark.parametrize(("thickness", "asked"), [
    ("5 1/2 in", False), ("11 1/2 in", False), ("5 3/4 in", False), ("5.76 in", True), ("5 1/4 in", False),
    ("11.76 in", True), ("8 in", True),
])  # fmt: skip
def test_thickness_of_the_other_side_is_that_of_its_stock(thickness: str, asked: bool) -> None:
    """Within 1/4 in of 5 1/2 or 11 1/2 in; else both are offered."""
    made = joint(fastener=BOLT, other={**FAR, "thickness": thickness})
    found = [(one.field, one.answers) for one in made.doubts if one.key == "other_thickness"]
    assert found == ([("other.thickness", ("5 1/2 in", "11 1/2 in"))] if asked else [])


@pytest.mark.parametrize(("grade", "F_e"), [("A36", 87000.0), ("A653 Grade 33", 61850.0)])
def test_bearing_of_bolts_on_steel(grade: str, F_e: float) -> None:
    """1.5 F_u hot-rolled (58 ksi); cold-formed as Table 12.3.3 prints it, 61,850 psi for 1.375 x 45 ksi (memory)."""
    made = joint(**steel(manner="plate one side", plate={**PLATE, "steel": grade}, fastener=BOLT))
    assert made.side.F_e == F_e
    assert step(find(lateral(group([50.0], held=TIMBER, **steel(manner="plate one side", fastener=BOLT, plate={
        **PLATE, "steel": grade}))), "lateral load"), "F_es") == F_e  # fmt: skip


# ---- angles ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("grain", "turn", "theta", "angle"), [
    ("held", 0.0, 30.0, 30.0), ("along", 0.0, 30.0, 30.0), ("across", 0.0, 30.0, 60.0), ("end", 0.0, 30.0, 90.0),
    ("into", 0.0, 30.0, 90.0), ("along", 20.0, 30.0, 50.0), ("along", 20.0, 80.0, 90.0), ("along", 20.0, -30.0, 50.0),
    ("turned", 20.0, 30.0, 10.0), ("turned", 20.0, -30.0, 50.0), ("turned", 20.0, -80.0, 80.0),
    ("turned", 90.0, 30.0, 60.0), ("held", 0.0, -30.0, 30.0),
])  # fmt: skip
def test_angle_of_a_load_to_the_grain_of_each_member(grain: Any, turn: float, theta: float, angle: float) -> None:
    assert Part("x", "wood", 1.5, grain, turn=turn).angle(theta) == pytest.approx(angle)


@pytest.mark.parametrize(("slope", "at", "piece", "turn"), [
    ("30 deg", 0.0, "B", 30.0), ("30 deg", 10.0, "B", 20.0), ("30 deg", -30.0, "B", 0.0), ("30 deg", 0.0, "R", 60.0),
    ("50 deg", 0.0, "R", 90.0),
])  # fmt: skip
def test_wood_along_a_rafter_leans_as_it_does(slope: str, at: float, piece: str, turn: float) -> None:
    """By the difference of both slopes; at the ridge the opposite one is met at twice its own, 90 degrees at most."""
    rafter = Rafter.model_validate(houses.rafter(name="R", slope=slope))
    made = replace(group([100.0], other={**FAR, "grain": "along"}, fastener=BOLT, into=TIMBER), into=rafter, slope=at,
                   piece=piece)  # fmt: skip
    assert connect(made).joint.other.turn == pytest.approx(turn)
    across = replace(made, anchor=group([100.0], other=FAR).anchor)
    assert connect(across).joint.other.turn == 0.0


# ---- what is not said ------------------------------------------------------------------------------------------------


def test_wood_that_is_not_known_has_the_least_gravity_that_it_may_have() -> None:
    old = stock(species="unknown", grade="unstamped", grade_from=None, evidence="", candidates=["Hem-Fir", "Red Oak"])
    made = joint(fastener=BOLT, held=old)
    assert made.side.G == 0.43 and [one.key for one in made.guessed] == ["grade"]
    assert made.guessed[0].field == "stock.wood.grade"
    nobody = joint(fastener=BOLT, other={**FAR, "stock": None}, into=None)
    assert nobody.main.G == 0.31 and [(one.key, one.field) for one in nobody.guessed] == [
        ("other_stock", "other.stock")
    ]


def test_bores_without_their_depth_and_wood_that_is_used_up() -> None:
    half = Fastener.model_validate({**BOLT, **BORE})
    for gone in ("counterbore", "counterbore_depth"):
        made = group([100.0], fastener=BOLT)
        made = replace(made, anchor=made.anchor.model_copy(update={"fastener": half.model_copy(update={gone: None})}))
        with pytest.raises(NotSaid) as caught:
            manner_of(made.anchor).joint_of(made)
        assert (caught.value.open.key, caught.value.open.field) == ("bore", "fastener.counterbore_depth")
    assert JointMaker.left(2.0, 1.5) == 0.5
    with pytest.raises(OutOfRange, match=r"no wood is left of 2 in: slot, bores and plate take 2 in"):
        JointMaker.left(2.0, 1.5, 0.5)


def test_pieces_that_are_not_described() -> None:
    made = group([100.0], fastener=BOLT)
    make = JointMaker(replace(made, anchor=made.anchor.model_copy(update={"other": None})), dowel_of(half()))
    with pytest.raises(NotSaid) as caught:
        _ = make.other
    assert caught.value.open.field == "other.thickness"
    with pytest.raises(NotSaid) as caught:
        _ = make.plate
    assert caught.value.open.field == "plate.thickness"
    assert "takes no wood, see whether" in said(lateral(group([50.0], held=TIMBER, **steel(
        manner="plates both sides", fastener={**BOLT, **BORE}))), "refer")  # fmt: skip


def half() -> Fastener:
    return Fastener.model_validate(BOLT)
