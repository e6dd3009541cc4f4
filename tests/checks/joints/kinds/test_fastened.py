"""Bolted joints at an angle, plates, straps: values against yield equations written out in plain Python here.

The equations are those of NDS 2018 Table 12.3.1A (memory), typed a second time; bearing strengths rounded to 50 psi as
the standard prints them.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.asking.question import Question
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from ..jobs import HEAD, Data, checked, joint, member, step_value, the, wood

F_YB = 45000.0
BOLT: Data = {"kind": "bolt", "size": "3/4 in", "steel": "A307", "threads": "clear of it", "thread_length": "1 1/2 in"}
LAID: Data = {"split": "none seen", "seasoned": "dry"}


def bearing(G: float, D: float, theta: float) -> float:
    par, perp = (50 * round(value / 50) for value in (11200 * G, 6100 * G**1.45 / math.sqrt(D)))
    t = math.radians(theta)
    return par * perp / (par * math.sin(t) ** 2 + perp * math.cos(t) ** 2)


def double(D: float, l_m: float, l_s: float, F_m: float, F_s: float, theta: float) -> float:
    k = 1 + 0.25 * theta / 90
    R = F_m / F_s
    k3 = -1 + math.sqrt(2 * (1 + R) / R + 2 * F_YB * (2 + R) * D**2 / (3 * F_m * l_s**2))
    modes = (
        D * l_m * F_m / (4 * k), 2 * D * l_s * F_s / (4 * k), 2 * k3 * D * l_s * F_m / ((2 + R) * 3.2 * k),
        2 * D**2 / (3.2 * k) * math.sqrt(2 * F_m * F_YB / (3 * (1 + R))),
    )  # fmt: skip
    return min(modes)


def single(D: float, l_m: float, l_s: float, F_m: float, F_s: float, theta: float) -> float:
    k = 1 + 0.25 * theta / 90
    R, r = F_m / F_s, l_m / l_s
    k1 = (math.sqrt(R + 2 * R**2 * (1 + r + r**2) + r**2 * R**3) - R * (1 + r)) / (1 + R)
    k2 = -1 + math.sqrt(2 * (1 + R) + 2 * F_YB * (1 + 2 * R) * D**2 / (3 * F_m * l_m**2))
    k3 = -1 + math.sqrt(2 * (1 + R) / R + 2 * F_YB * (2 + R) * D**2 / (3 * F_m * l_s**2))
    modes = (
        D * l_m * F_m / (4 * k), D * l_s * F_s / (4 * k), k1 * D * l_s * F_s / (3.6 * k),
        k2 * D * l_m * F_m / ((1 + 2 * R) * 3.2 * k), k3 * D * l_s * F_m / ((2 + R) * 3.2 * k),
        D**2 / (3.2 * k) * math.sqrt(2 * F_m * F_YB / (3 * (1 + R))),
    )  # fmt: skip
    return min(modes)


def lap(beta: float, side: float = 0.0) -> Any:
    """A brace lapped on the side of a post, force along the brace."""
    P = 400.0
    c, s = math.cos(math.radians(beta)), math.sin(math.radians(beta))
    return checked(
        joint(
            "bolted lap", member("brace", "brace", beta, -P, holes={"end": "6 in", "edge": "2 3/4 in"}),
            # the post pushes back along it: `down` of an upright member is toward its right
            member("post", "post", 90.0, P * s, down=P * c, passes=True,
                   holes={"end": "40 in", "edge": "2 3/4 in"}),
            fastener={**BOLT, "length": "11 in"}, stands_on="post foot", bears_on="post", **LAID,
        ), wood("brace", "3 1/2 in x 5 1/2 in"), wood("post", "5 1/2 in x 5 1/2 in"),
    )  # fmt: skip


@pytest.mark.parametrize("beta", [30.0, 45.0, 60.0])
def test_lap_at_an_angle(beta: float) -> None:
    """Each wood bears at its own angle; K_theta by the larger one; the same value whichever piece is asked."""
    piece = lap(beta)
    theta = 90.0 - beta
    Z = single(0.75, 5.5, 3.5, bearing(0.5, 0.75, theta), bearing(0.5, 0.75, 0.0), theta)
    for name in ("brace", "post"):
        check = the(piece, "anchor.lateral", name)
        assert step_value(check, "Z") == pytest.approx(Z, rel=2e-6), name
        assert check.demand == pytest.approx(400.0)


def between(beta: float = 33.69) -> Data:
    T = 1000.0
    return joint(
        "bolted between", member("rafter", "rafter", beta, -T / math.cos(math.radians(beta)), part="between",
                                 holes={"end": "8 in", "edge": "3 3/4 in"}),
        member("ties", "plank", 0.0, T, part="outside", plies=2, holes={"end": "8 in", "edge": "4 in"}),
        fastener={**BOLT, "length": "10 in"}, stands_on="plate", bears_on="rafter", **LAID,
    )  # fmt: skip


def test_rafter_between_two_ties() -> None:
    """Where the wall pushes into the rafter the bolt takes the level pull: along the ties, at beta in the rafter."""
    beta = 33.69
    piece = checked(between(beta), wood("rafter", "5 1/2 in x 7 1/2 in"), wood("plank", "1 1/2 in x 9 1/2 in"))
    Z = double(0.75, 5.5, 1.5, bearing(0.5, 0.75, beta), bearing(0.5, 0.75, 0.0), beta)
    for name in ("rafter", "ties"):
        check = the(piece, "anchor.lateral", name)
        assert check.demand == pytest.approx(1000.0, rel=1e-6)
        assert step_value(check, "Z") == pytest.approx(Z, rel=2e-6), name


def test_way_of_the_reaction_is_asked() -> None:
    """Under the tie the bolts take the whole push; into which member the wall pushes has to be said."""
    one = between()
    one["bears_on"] = "ties"
    stocks = wood("rafter", "5 1/2 in x 7 1/2 in"), wood("plank", "1 1/2 in x 9 1/2 in")
    check = the(checked(one, *stocks), "anchor.lateral", "ties")
    assert check.demand == pytest.approx(1000.0 / math.cos(math.radians(33.69)), rel=1e-6)
    del one["bears_on"]
    asked = the(checked(one, *stocks), "joint.bears_on")
    assert asked.verdict == "refer" and asked.questions[0].field == "joint.J.bears_on"


def splice(columns: int = 4) -> Any:
    laid = {"rows": 2, "columns": columns, "spacing": "4 in", "row_spacing": "3 in", "end": "5 1/4 in",
            "edge": "3 1/4 in"}  # fmt: skip
    plate = {"steel": "A36", "thickness": "1/4 in", "width": "9 1/2 in", "length": "19 in"}
    halves = [member(f"{side} half", "tie", angle, 16000.0, load="snow", holes=laid, plate=plate)
              for side, angle in (("west", 180.0), ("east", 0.0))]  # fmt: skip
    return checked(
        joint("plates both sides", *halves, fastener={**BOLT, "length": "7 1/2 in"}, **LAID),
        wood("tie", "5 1/2 in x 9 1/2 in", F_t=825.2, F_v=170.4),
    )


def test_tie_splice_by_hand() -> None:
    """Eight 3/4 in bolts: n Z C_D C_g, net section, rows, group (NDS 2018 Appendix E, memory), each typed out."""
    piece = splice()
    F_v, F_t = 170.4 * 1.15, 825.2 * 1.15
    rows = 2 * 4 * F_v * 5.5 * 4.0
    assert the(piece, "anchor.row_tear_out", "west").capacity == pytest.approx(rows, rel=1e-6)
    d_h = 0.75 + 1 / 16
    group = rows / 2 + F_t * (3.0 - d_h) * 5.5
    assert the(piece, "anchor.group_tear_out", "west").capacity == pytest.approx(group, rel=1e-6)
    net = F_t * (5.5 * 9.5 - 2 * d_h * 5.5)
    assert the(piece, "anchor.net_section", "west").capacity == pytest.approx(net, rel=1e-6)
    lateral = the(piece, "anchor.lateral", "west")
    Z = double(0.75, 5.5, 0.25, bearing(0.5, 0.75, 0.0), 87000.0, 0.0)
    assert step_value(lateral, "Z") == pytest.approx(Z, rel=2e-6)
    gamma, EA_m, EA_s = 270000 * 0.75**1.5, 1.6e6 * 5.5 * 9.5, 30e6 * 2 * 0.25 * 9.5
    u = 1 + gamma * 4 / 2 * (1 / EA_m + 1 / EA_s)
    m, n, R = u - math.sqrt(u * u - 1), 4, min(EA_m / EA_s, EA_s / EA_m)
    C_g = m * (1 - m ** (2 * n)) / (n * ((1 + R * m**n) * (1 + m) - 1 + m ** (2 * n))) * (1 + R) / (1 - m)
    assert lateral.capacity == pytest.approx(Z * 1.15 * C_g, rel=1e-5)
    assert piece.verdict == "passes"


def test_short_splice_fails() -> None:
    assert splice(columns=2).verdict == "fails"


def test_knife_plate_far_side_governs() -> None:
    """Two by two bolts in a beam under V at 5 in: 1,632 lb on the worst (elastic vector, typed out). The far group, two
    bolts one above the other in the post, gets the same load at its own arm and governs."""
    beam_plate = {"steel": "A36", "thickness": "3/8 in", "width": "6 in", "length": "12 in", "slot": "3/8 in"}
    V, e = 2400.0, 5.0
    piece = checked(
        joint(
            "knife plate",
            member("beam", "beam", 0.0, down=V, arm=f"{e} in", plate=beam_plate,
                   holes={"rows": 2, "columns": 2, "spacing": "3 in", "row_spacing": "4 in", "end": "5 1/4 in",
                          "edge": "4 in"}),
            member("post", "post", 90.0, pull=V, passes=True, arm="0 in", plate={**beam_plate, "width": "5 in"},
                   holes={"places": [{"x": "40 in", "y": "2 3/4 in"}, {"x": "44 in", "y": "2 3/4 in"}]}),
            fastener={**BOLT, "length": "7 in"}, **LAID,
        ), wood("beam", "5 3/8 in x 11 1/2 in"), wood("post", "5 3/8 in x 5 1/2 in"),
    )  # fmt: skip
    points = [(x, y) for x in (-1.5, 1.5) for y in (-2.0, 2.0)]
    J = sum(x * x + y * y for x, y in points)
    worst = max(math.hypot(V * e * y / J, V / 4 + V * e * x / J) for x, y in points)
    assert the(piece, "anchor.lateral", "beam").demand == pytest.approx(worst, rel=1e-6)
    assert worst == pytest.approx(1632.18, rel=1e-5)
    # where the plate turns about the bolts in the beam, V e goes into the post: 2 bolts 4 in apart and its own bending
    far = the(piece, "anchor.lateral", "post", "couple")
    assert far.demand == pytest.approx(math.hypot(V / 2, V * e / 4.0), rel=1e-6)
    bent = the(piece, "joint.couple", "post")
    assert step_value(bent, "M") == pytest.approx(V * e)
    assert bent.ratio == pytest.approx(V / (5.375 * 5.5) / 825 + V * e / (5.375 * 5.5**2 / 6) / 1350, rel=1e-6)


def test_strap_under_a_tie_by_hand() -> None:
    """Stirrup of 2 x 1/4 in with two 5/8 in bolts along the post: Z mode IIIs, pressure under the tie, rupture."""
    T = 5400.0
    piece = checked(
        joint(
            "strap", member("king post", "post", 90.0, T, part="strapped",
                            holes={"columns": 2, "spacing": "3 in", "end": "6 in", "edge": "2 3/4 in"}),
            member("tie", "tie", 0.0, down=T, part="hung", passes=True),
            fastener={**BOLT, "size": "5/8 in", "length": "7 in"},
            strap={"steel": "A36", "thickness": "1/4 in", "width": "2 in", "beyond": "1 1/2 in", "from_end": "10 ft"},
            **LAID,
        ), wood("post", "5 1/2 in x 5 1/2 in"), wood("tie", "5 1/2 in x 9 1/2 in"),
    )  # fmt: skip
    Z = double(0.625, 5.5, 0.25, bearing(0.5, 0.625, 0.0), 87000.0, 0.0)
    assert step_value(the(piece, "anchor.lateral"), "Z") == pytest.approx(Z, rel=2e-6)
    assert pytest.approx(2413.07, rel=1e-4) == Z
    assert the(piece, "joint.strap_under").demand == pytest.approx(T / (2 * 5.5), rel=1e-6)
    net = the(piece, "anchor.plate_pull_net")  # a leg: F_u (w - D - 1/8) t / 2, AISC 360-16 D2 (memory)
    assert 2 * (net.capacity or 0) == pytest.approx(2 * 58000 * (2 - 0.75) * 0.25 / 2, rel=1e-6)


def test_turned_layout_counts_less_wood() -> None:
    """Two bolts in a row along the ties lie aslant in the rafter: each counts no more wood than the nearest has."""
    one = between()
    one["members"][1]["holes"] = {"rows": 1, "columns": 2, "spacing": "4 in", "end": "8 in", "edge": "4 3/4 in"}
    stocks = wood("rafter", "5 1/2 in x 7 1/2 in"), wood("plank", "1 1/2 in x 9 1/2 in")
    for entry in one["members"]:
        entry["forces"][0]["pull"] = f"{-float(entry['forces'][0]['pull'].split()[0])} lbf"
    piece = checked(one, *stocks)
    check = the(piece, "anchor.row_tear_out", "rafter")
    assert check.capacity == pytest.approx(2 * 170 * 5.5 * 4.0, rel=1e-6)  # F_v' t times the pitch, for each


def test_heavy_single_lap_asks_what_holds_it() -> None:
    one = joint(
        "bolted lap", member("collar", "brace", 0.0, 1500.0, holes={"end": "8 in", "edge": "2 3/4 in"}),
        member("rafter", "post", 180.0, 1500.0, holes={"end": "8 in", "edge": "2 3/4 in"}),
        fastener={**BOLT, "length": "11 in"}, **LAID,
    )  # fmt: skip
    stocks = wood("brace", "3 1/2 in x 5 1/2 in"), wood("post", "5 1/2 in x 5 1/2 in")
    check = the(checked(one, *stocks), "joint.lap")
    assert check.verdict == "refer" and check.questions[0].field == "joint.J.twist_held_by"
    held = {**one, "twist_held_by": "blocking on both faces, engineer's sketch 3 of 12 January 2026"}
    assert the(checked(held, *stocks), "joint.lap").verdict == "passes"


def test_one_ruling_covers_the_forces_of_all_members() -> None:
    """A check across the holes is one fact of the joint: its letter names the forces of both pieces."""
    stocks = [wood("rafter", "5 1/2 in x 7 1/2 in"), wood("plank", "1 1/2 in x 9 1/2 in")]
    one = {**between(), "split": "check across the holes"}
    job = {"job": HEAD, "stock": stocks, "joint": [one]}

    def asked(**more: Any) -> list[Question]:
        questions = [found.question for found in check_job(job_from_data({**job, **more})).questions]
        return [question for question in questions if question.id == "J/split_seen"]

    (question,) = asked()
    ruling = {"on": "J", "question": "split_seen", "says": "screwed across", "by": "A. Invented, PE 00000",
              "date": "2026-03-09", "document": "letters/J.pdf",
              "up_to": {part: f"{abs(force) + 1.0:.0f} lb" for part, force in question.forces.items()}}  # fmt: skip
    assert asked(ruling=[ruling]) == []
