"""Joints at the points of a frame, and its loads as a whole: what is asked, of whom, with which forces."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import HEAD, JOINTS_OF, Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.frames.joined import described, of_member, plays_of, softest_joint, splices_of
from beamcheck.checks.frames.loads import _sloped, frame_loads, member_loads
from beamcheck.model.frames.frame import Frame, FrameForce, FrameStick
from beamcheck.model.job import Snow
from beamcheck.model.loads import FormedLoad, Load
from beamcheck.model.reading.reader import job_from_data

from .jobs import SHEET, king

PSF = 1 / 144


def end(stick: str, *N: float) -> Any:
    return SimpleNamespace(stick=stick, piece=f"truss: {stick}", N=np.array([0.0, *N]))


def joint(at: str, *names: str, **more: Any) -> Any:
    given = {"name": "J", "at": at, "fastener": None, "spliced": "", "splice_at": None, **more}
    return SimpleNamespace(members=[SimpleNamespace(name=name) for name in names], **given)


def context(*joints: Any, head: Any = None) -> Context:
    heads = {f"{JOINTS_OF}truss": joints} | ({} if head is None else {HEAD: head})
    return Context(Structure({}, {}, heads=heads))


NODES = {
    "heel": SimpleNamespace(name="heel", ends=(end("tie", 900.0, -300.0), end("rafter", -1200.0))),
    "foot": SimpleNamespace(name="foot", ends=(end("tie", 900.0), end("tie", 500.0), end("post", 1.0, -1.0),
                                               end("strut", -200.0))),
    "end": SimpleNamespace(name="end", ends=(end("tie", 900.0), end("tie", 800.0))),
}  # fmt: skip
SOLVED: Any = SimpleNamespace(nodes=NODES)
FRAME: Any = SimpleNamespace(name="truss", shape=SimpleNamespace(
    stick=lambda name: SimpleNamespace(points={"tie": ("heel", "foot", "end"), "strut": ("foot", "heel"),
                                               "post": ("foot", "end")}[name]),
    sticks=[SimpleNamespace(name=name) for name in ("tie", "rafter", "post", "strut")],
))  # fmt: skip


def points(*joints: Any) -> dict[str, Check]:
    return {check.what.rpartition(" ")[2]: check for check in described(FRAME, SOLVED, context(*joints))}


def test_each_point_at_which_two_members_meet_is_asked() -> None:
    """A member that runs through is there twice and needs no joint with itself."""
    found = points()
    assert set(found) == {"heel", "foot"} and {one.verdict for one in found.values()} == {"refer"}
    assert dict(found["heel"].questions[0].forces) == {"tie": 900.0, "rafter": 1200.0}
    assert dict(found["foot"].questions[0].forces) == {"tie": 900.0, "post": 1.0, "strut": 200.0}
    assert (
        found["heel"].notes[0].startswith("tie pushes up to 300 lb and pulls up to 900 lb, rafter pushes up to 1,200")
    )
    assert "post brings next to nothing" in found["foot"].notes[0]


def test_members_that_no_joint_names_are_told() -> None:
    found = points(joint("heel", "tie", "rafter"), joint("foot", "tie", "truss: post"), joint("elsewhere", "strut"))
    assert found["heel"].verdict == "passes"
    assert found["foot"].notes[0].startswith("strut pushes up to 200 lb; how they")
    assert set(dict(found["foot"].questions[0].forces)) == {"tie", "post", "strut"}


@pytest.mark.parametrize(("joints", "verdict"), [
    ([("tie", "post"), ("post", "strut")], "passes"), ([("tie", "post"), ("strut",)], "refer"),
    ([("tie",), ("post",), ("strut",)], "refer"), ([("tie",), ("post",), ("strut",), ("tie", "strut", "post")],
    "passes"),
    ([("truss: tie", "post"), ("truss: post", "strut")], "passes"), ([("tie", "beam"), ("beam", "post", "strut")],
    "refer"),
])  # fmt: skip
def test_joints_of_a_point_hold_all_of_it_together(joints: list[tuple[str, ...]], verdict: str) -> None:
    """By however many steps; what is no member of the point holds nothing."""
    assert points(*(joint("foot", *names) for names in joints))["foot"].verdict == verdict


@pytest.mark.parametrize(("joints", "asked"), [
    ([], ["heel", "foot"]), ([("heel", "tie", "rafter")], ["foot"]),
    ([("heel", "tie", "rafter"), ("foot", "tie", "post", "strut")], []),
    ([("heel", "tie", "rafter"), ("foot", "tie", "post")], []),  # the strut is left out, the tie is held
    ([("heel", "tie", "rafter"), ("foot", "tie", "post"), ("foot", "strut")], ["foot"]),
])  # fmt: skip
def test_a_member_is_no_better_than_its_joints(joints: list[tuple[str, ...]], asked: list[str]) -> None:
    stick: Any = SimpleNamespace(stick="tie", name="truss: tie")
    found = list(of_member(stick, FRAME, SOLVED, context(*(joint(*names) for names in joints))))
    assert [one.id.partition(": ")[2].partition("/")[0] for check in found for one in check.questions] == asked
    assert not asked or found[0].notes[0] == f"not described: those at the {', the '.join(asked)}"


@pytest.mark.parametrize(("said", "by", "counted"), [
    (None, "", 20000.0), (60000.0, "", 20000.0), (60000.0, "the carpenter", 20000.0), (60000.0, SHEET, 60000.0),
    (5000.0, "", 5000.0), (20000.0, "", 20000.0),
])  # fmt: skip
def test_joints_stiffer_than_usual_need_somebodys_word(said: float | None, by: str, counted: float) -> None:
    assert softest_joint(SimpleNamespace(joint_stiffness=said, joints_by=by)) == counted  # type: ignore[arg-type]


BOLT = SimpleNamespace(kind="bolt")


@pytest.mark.parametrize(("said", "by", "each"), [
    (None, "", 1 / 16), (0.0, "", 1 / 16), (0.0, SHEET, 0.0), (0.125, "", 0.125), (1 / 16, "", 1 / 16),
])  # fmt: skip
def test_play_of_bolts_at_both_ends(said: float | None, by: str, each: float) -> None:
    """Of each bolted joint that a member is in; twice in a splice of it; less only where somebody answers for it."""
    frame: Any = SimpleNamespace(name="truss", joint_play=said, joints_by=by, shape=FRAME.shape)
    around = context(joint("heel", "tie", "rafter", fastener=BOLT), joint("foot", "tie", "post", fastener=BOLT),
                     joint("foot", "strut", "tie", fastener=SimpleNamespace(kind="pin")), joint("foot", "strut", "tie"),
                     joint(None, "a", "b", fastener=BOLT, spliced="truss: strut", splice_at=30.0),
                     joint(None, "a", "b", spliced="truss: rafter"))  # fmt: skip
    assert plays_of(frame, around) == {"tie": 2 * each, "rafter": each, "post": each, "strut": 2 * each}
    assert splices_of(frame, around) == {"strut": [30.0]}


# ---- loads of the whole ----------------------------------------------------------------------------------------------


def loads(members: dict[str, list[Load]], *, cases: str = "DSW", forces: tuple[FrameForce, ...] = (),
          rise: str = "6 ft", snow: dict[str, Any] | None = None, wind_by: str = "") -> dict[str, Check]:  # fmt: skip
    """Of the king-post truss with other loads on its members."""
    frame = job_from_data(king(rise=rise)).frame[0].model_copy(update={"carries": forces})
    sticks = [one.model_copy(update={"carries": tuple(members.get(one.stick, ()))}) for one in frame.sticks]
    head = SimpleNamespace(ground_snow=None, wind_by=wind_by, snow=None if snow is None else Snow.model_validate(snow))
    solved: Any = SimpleNamespace(cases=[SimpleNamespace(kind=kind) for kind in cases])
    return {f"{one.id} {one.what}" if one.id == "roof.snow_drift" else one.id: one
            for one in frame_loads(frame, sticks, solved, context(head=head))}  # fmt: skip


def load(**psf: float) -> Load:
    given = {"dead": None, "live": None, "roof_live": None, "snow": None, "wind": None}
    return Load.model_construct(what="roof", **{**given, **{name: (one * PSF, "area") for name, one in psf.items()}})


def formed(snow: float = 20.0, *, by: tuple[str, ...] = ("snow",), more: bool = False) -> FormedLoad:
    return FormedLoad.model_construct(what="roof", snow=(snow * PSF, "area"), formed=dict.fromkeys(by, 1.0), more=more,
                                      roof="", live=None, roof_live=None, dead=None, wind=None)  # fmt: skip


BOTH = ("left rafter", "right rafter")


@pytest.mark.parametrize(("cases", "asked"), [("D", True), ("DW", True), ("DS", False), ("DR", True), ("DL", False)])
def test_a_frame_bears_more_than_weight(cases: str, asked: bool) -> None:
    assert ("loads.roof" in loads({}, cases=cases)) is asked


@pytest.mark.parametrize(("cases", "by", "asked"), [
    ("DS", "", True), ("DSW", "", False), ("DS", SHEET, False), ("DS", "the roofer", True), ("DL", "", False),
    ("D", "", False),
])  # fmt: skip
def test_wind_over_a_roof_has_somebody_who_answers_for_it(cases: str, by: str, asked: bool) -> None:
    assert ("loads.wind" in loads({}, cases=cases, wind_by=by)) is asked


def force(at: str, **lbf: float) -> FrameForce:
    given = {"dead": None, "live": None, "roof_live": None, "snow": None, "wind": None, "wind_sideways": None}
    return FrameForce.model_construct(what="purlin", at=at, **{**given, **lbf})


@pytest.mark.parametrize(("on", "forces", "asked"), [
    ({"left rafter": [load(snow=20.0)]}, (), "right rafter"), ({one: [load(snow=20.0)] for one in BOTH}, (), ""),
    ({"left rafter": [load(snow=20.0)], "right rafter": [load(dead=20.0)]}, (), "right rafter"),
    ({"left rafter": [load(roof_live=20.0)], "right rafter": [load(live=0.0)]}, (), "right rafter"),
    ({"left rafter": [load(dead=20.0)]}, (), ""), ({"tie": [load(live=20.0)]}, (), ""),
    ({"left rafter": [load(snow=20.0)]}, (force("right rafter, middle", snow=300.0),), ""),
    ({"left rafter": [load(snow=20.0)]}, (force("right rafter, middle", roof_live=300.0),), ""),
    ({"left rafter": [load(snow=20.0)]}, (force("right rafter, middle", live=300.0),), ""),
    ({"left rafter": [load(snow=20.0)]}, (force("right rafter, middle", dead=300.0),), "right rafter"),
    ({"left rafter": [load(snow=20.0)]}, (force("ridge", snow=300.0),), "right rafter"),  # that is of both
    ({"left rafter": [load(snow=20.0)]}, (force("foot of the king post", snow=300.0),), "right rafter"),
])  # fmt: skip
def test_a_roof_lies_on_both_sides_of_its_ridge(on: Any, forces: tuple[FrameForce, ...], asked: str) -> None:
    found = loads(on, forces=forces).get("loads.roof")
    assert (found is not None) is bool(asked)
    assert found is None or found.notes[0] == f"the left rafter bears a roof, and no snow nor men lie on the {asked}"


@pytest.mark.parametrize(("on", "told"), [
    ({one: [formed()] for one in BOTH}, True), ({one: [formed(by=())] for one in BOTH}, False),
    ({one: [formed(by=(), more=True)] for one in BOTH}, True), ({"left rafter": [formed()],
    "right rafter": [load(snow=9)]}, False),
    ({"left rafter": [formed()], "right rafter": [load(snow=0.0)]}, True),
    ({one: [formed(0.0)] for one in BOTH}, False),
])  # fmt: skip
def test_snow_that_follows_from_the_site_has_its_heap(on: Any, told: bool) -> None:
    found = loads(on)
    assert ("formed from the site" in found["frame.snow"].notes[0]) is told
    assert any(one.startswith("roof.snow_drift") for one in found) is not told
    pushed = loads(on, forces=(force("ridge", snow=5.0),))
    assert "formed from the site" not in pushed["frame.snow"].notes[0]
    assert "frame.snow" not in loads(on, cases="DW")


@pytest.mark.parametrize(("rise", "on", "asked"), [
    ("7 ft", BOTH, True), ("7 ft 1/16 in", BOTH, False), ("6 in", BOTH, True), ("5.9 in", BOTH, False),
    ("7 ft", (), True), ("7 ft", ("tie",), True), ("8 ft", ("left strut", "tie"), False),
])  # fmt: skip
def test_slopes_between_half_and_seven_in_twelve(rise: str, on: tuple[str, ...], asked: bool) -> None:
    """Of the members with snow, or of all that slope where none of these has any (ASCE 7-16 7.6.1)."""
    check = loads({one: [load(snow=20.0)] for one in on}, rise=rise)["frame.snow"]
    assert (check.verdict == "refer") is asked


@pytest.mark.parametrize(("snow", "given", "verdict", "capacity"), [
    (None, (20.0, 30.0), "refer", None), ({"one_side": "25 psf"}, (20.0, 30.0), "refer", None),
    ({"one_side": "25 psf", "by": SHEET}, (20.0, 30.0), "passes", 30.0),
    ({"one_side": "31 psf", "by": SHEET}, (20.0, 30.0), "fails", 30.0),
    ({"one_side": "31 psf", "by": SHEET}, (), "passes", None), ({"by": SHEET}, (20.0,), "refer", None),
])  # fmt: skip
def test_the_lee_side_as_somebody_says(
    snow: Any, given: tuple[float, ...], verdict: str, capacity: float | None
) -> None:
    """Against the most that lies anywhere by area."""
    check = loads({"left rafter": [load(snow=one) for one in given]}, snow=snow)["frame.snow"]
    assert check.verdict == verdict
    assert check.capacity == (None if capacity is None else pytest.approx(capacity * PSF))
    if verdict == "refer" and given:
        assert check.questions[0].answers[0].sets[0] == ("job.snow.one_side", f"{max(given):g} psf")
        assert check.questions[0].field == "job.snow.one_side"
    bare = loads({"left rafter": [Load.model_construct(what="x", snow=(90.0, "point"), live=None, roof_live=None,
                                                       dead=None, wind=None)]})["frame.snow"]  # fmt: skip
    assert bare.questions[0].answers == () and bare.questions[0].field == "ruling"


# ---- loads of one member ---------------------------------------------------------------------------------------------


def of_a_member(name: str, carries: list[dict[str, Any]]) -> list[tuple[str, str]]:
    data = king()
    next(one for one in data["frame"][0]["members"] if name.endswith(one["name"].rstrip("s")))["carries"] = carries
    job = job_from_data(data)
    frame: Frame = job.frame[0]
    stick: FrameStick = next(one for one in frame.sticks if one.stick == name)
    structure = Structure({one.name: one for one in job.stock}, {}, heads={HEAD: job.job})
    found = member_loads(frame, stick, Context(structure))
    return [(one.id, asked.field) for one in found for asked in one.questions]


def test_loads_of_a_member_are_asked_where_it_stands_in_the_job_file() -> None:
    light = {"what": "roof", "dead": "1 psf", "snow": "30 psf"}
    sloped = of_a_member("left rafter", [light])
    assert sloped and all(field.startswith("frame.truss.members.1.") for _, field in sloped)
    level = of_a_member("tie", [{"what": "loft floor", "dead": "10 psf", "live": "5 psf"}])
    assert ("loads.floor", "frame.truss.members.2.carries.1.live") in level
    assert of_a_member("king post", [{"what": "roof", "dead": "1 psf"}]) == []  # upright
    assert of_a_member("tie", []) == []
    under_a_roof = of_a_member("tie", [{"what": "roof", "dead": "1 psf", "snow": "30 psf"}])
    assert under_a_roof and not any(id == "loads.floor" for id, _ in under_a_roof)


@pytest.mark.parametrize(("slope", "sloped"), [(1.0, False), (1.1, True), (59.9, True), (60.0, False)])
def test_between_level_and_steep_it_is_a_slope_of_the_roof(slope: float, sloped: bool) -> None:
    """Up to a degree it is level, from 60 degrees on a wall."""
    assert _sloped(SimpleNamespace(slope=slope)) is sloped  # type: ignore[arg-type]
