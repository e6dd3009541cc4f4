"""Post caps and ledgers against hand sums typed here; invented."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult
from beamcheck.errors import JobError

from ..jobs import SHEET, Data, checked, joint, member, the, wood

POST, BEAM = wood("post", "7 1/2 in x 7 1/2 in"), wood("beam", "5 1/2 in x 11 1/2 in")
CAP: Data = {"steel": "A36", "plate": "3/8 in", "bears_long": "9 1/2 in", "bears_wide": "5 1/2 in", "beyond": "1 in"}


def cap(P: float = 20000.0, load: str = "live", **more: Any) -> Data:
    return joint(
        "post cap", member("post", "post", 270.0, -P, load=load, part="standing"),
        member("girder", "beam", 0.0, down=P, load=load, part="lying", passes=True), cap={**CAP, **more},
    )  # fmt: skip


def test_cap_by_hand() -> None:
    """End grain 5 1/2 x 7 1/2 in; beam 5 1/2 x 9 1/2 in with C_b = (l_b + 3/8)/l_b only under 6 in (NDS 2018 3.10.4,
    memory: 1 here); overhang f a^2/2 a strip against F_y Z/1.67 (AISC F11, memory)."""
    piece = checked(cap(), POST, BEAM)
    post = the(piece, "joint.cap_post")
    assert post.demand == pytest.approx(20000 / (5.5 * 7.5)) and post.capacity == pytest.approx(1150.0)
    beam = the(piece, "joint.cap_beam")
    assert beam.demand == pytest.approx(20000 / (5.5 * 9.5)) and beam.capacity == pytest.approx(625.0)
    plate = the(piece, "joint.cap_plate")
    assert plate.demand == pytest.approx(20000 / (5.5 * 9.5) * 1.0**2 / 2)
    assert plate.capacity == pytest.approx(36000 * min(0.375**2 / 4, 1.6 * 0.375**2 / 6) / 1.67)
    assert piece.verdict == "passes"
    assert checked(cap(P=40000.0), POST, BEAM).verdict == "fails"


def test_two_beams_on_a_cap_press_each_for_itself() -> None:
    one = joint(
        "post cap", member("post", "post", 270.0, -8000.0, part="standing"),
        member("west", "beam", 180.0, down=5000.0, part="lying"),
        member("east", "beam", 0.0, down=3000.0, part="lying"),
        cap={**CAP, "bears_long": "4 in", "beyond": "0 in"},
    )  # fmt: skip
    piece = checked(one, POST, BEAM)
    assert the(piece, "joint.cap_beam", "west").demand == pytest.approx(5000 / (5.5 * 4.0))
    # the end grain under the west beam has that beam on its half
    assert the(piece, "joint.cap_post").demand == pytest.approx(5000 / (5.5 * 7.5 / 2))
    assert piece.verdict == "passes"


def test_what_a_cap_does_not_balance_is_no_seat_beside_it() -> None:
    """Only the post is under a cap: forces that differ are a slip, and no wall takes the rest."""
    one = cap()
    one["members"][0]["forces"][0]["pull"] = "-12,000 lbf"
    check = the(checked(one, POST, BEAM), "joint.balance")
    assert check.verdict == "refer" and [q.field for q in check.questions] == ["ruling"]


def test_load_of_no_force_is_none() -> None:
    one = cap()
    for entry in one["members"]:
        entry["forces"] = [{"load": "live", "pull": "0 lbf"}]
    with pytest.raises(JobError, match="a live load of no force"):
        checked(one, POST, BEAM)


def test_what_lifts_needs_bolts_through_the_cap() -> None:
    one = cap(load="snow")
    for entry, field, force in zip(one["members"], ("pull", "down"), (1000.0, -1000.0), strict=True):
        entry["forces"].append({"load": "dead", field: f"{-0.1 * force} lbf"})
        entry["forces"].append({"load": "wind", field: f"{force} lbf"})
    loose = the(checked(one, POST, BEAM), "joint.cap_held")
    assert loose.verdict == "refer" and "lift" in loose.notes[0]
    plate = {"steel": "A36", "thickness": "1/4 in", "width": "4 in", "length": "10 in"}
    bolt = {"kind": "bolt", "size": "5/8 in", "length": "9 in", "steel": "A307", "threads": "clear of it",
            "thread_length": "1 1/2 in"}  # fmt: skip
    for entry, holes in zip(one["members"], ({"end": "5 in", "edge": "3 3/4 in"}, {"end": "30 in", "edge": "4 in"}),
                            strict=True):  # fmt: skip
        entry |= {"holes": holes, "plate": plate, "arm": "0 in"}
    held = checked({**one, "fastener": bolt, "split": "none seen", "seasoned": "dry"}, POST, BEAM)
    assert "joint.cap_held" not in {check.id for check in held.checks}
    assert [check for check in held.checks if check.id.startswith("anchor.lateral")]


def test_beam_that_slopes_does_not_lie_on_a_cap() -> None:
    one = cap()
    one["members"][1]["direction"] = "20 deg"
    assert the(checked(one, POST, BEAM), "joint.cap_square").verdict == "refer"


LEDGER, STUD = wood("ledger", "1 1/2 in x 9 1/4 in"), wood("stud", "1 1/2 in x 5 1/2 in")
RIM = wood("rim", "1 1/2 in x 11 1/4 in")
LAG: Data = {"kind": "lag screw", "size": "3/8 in", "length": "5 in", "washer": "1 in", "coating": "none"}


def ledger_data(F: float = 2400.0, behind: str = "studs", stock: str = "stud", **row: Any) -> Data:
    return joint(
        "ledger",
        member("ledger", "ledger", 0.0, down=F, part="ledger", passes=True, arm="1 in",
               holes={"rows": 2, "columns": 1, "row_spacing": "4 in", "end": "8 in", "edge": "2 in"}),
        member("stud", stock, 270.0 if behind == "studs" else 0.0, part="behind", passes=True,
               holes={"end": "20 in", "edge": "3/4 in" if behind == "studs" else "3 in"}),
        fastener=LAG, row={"along": "12 ft", "spacing": "16 in", "joists": "16 in", "behind": behind, **row},
        split="none seen", seasoned="dry", confirmed_by=SHEET,
    )  # fmt: skip


def ledger(F: float = 2400.0, behind: str = "studs", stock: str = "stud", **row: Any) -> PieceResult:
    return checked(ledger_data(F, behind, stock, **row), LEDGER, STUD, RIM)


def test_worst_stud_of_a_ledger_by_hand() -> None:
    """11/8 of an even share (two spans, a joist in the middle of each); with joists 24 in apart one joist is more."""
    w = 2400.0 / 144.0
    for joists, R in (("16 in", 1.375 * w * 16.0), ("24 in", w * 24.0)):
        shear = [
            check for check in ledger(joists=joists).checks if check.id == "anchor.lateral" and "ledger" in check.where
        ]
        each = max(check.demand or 0.0 for check in shear)
        assert each == pytest.approx(R / 2.0, rel=1e-6)


def test_ledger_is_turned_over_by_what_lies_on_its_middle() -> None:
    """T = R e/(0.7 h), h from its lower edge to the upper row; 0.7 of a wall that may be soft (the lever-arm rule)."""
    check, w = the(ledger(), "anchor.pull"), 2400.0 / 144.0
    assert check.demand == pytest.approx(1.375 * w * 16.0 * 1.0 / (0.7 * 6.0))


def test_ledger_bends_between_studs() -> None:
    """w s^2/8 or a joist in the middle, P s/4 with P = w 16: the latter."""
    w = 2400.0 / 144.0
    check = the(ledger(), "joint.ledger_bends")
    assert check.demand == pytest.approx(w * 16.0 * 16.0 / 4 / (1.5 * 9.25**2 / 6))


def test_ledger_passes_fails_or_is_asked() -> None:
    found = {F: ledger(F) for F in (300.0, 20000.0)}
    assert {F: piece.verdict for F, piece in found.items()} == {300.0: "passes", 20000.0: "fails"}, [
        (check.id, check.what, check.where, check.notes) for check in found[300.0].checks if check.verdict != "passes"
    ]


def test_rim_takes_the_thread_in_its_own_breadth_only() -> None:
    """A rim of 1 1/2 in holds less of a lag screw than a stud 5 1/2 in deep."""

    def most(piece: PieceResult) -> float:
        return max(check.ratio or 0.0 for check in piece.checks if check.id == "anchor.lateral") if piece else math.nan

    rim = ledger(behind="rim", stock="rim")
    assert rim.verdict != "passes" or most(rim) >= most(ledger())


@pytest.mark.parametrize("length", ["1 1/2 in", "1 3/4 in", "2 in"])
def test_lag_that_hardly_reaches_the_stud_is_too_short(length: str) -> None:
    """At least 4 D and the tip, 1.72 in; nothing is said of a tip longer than what is in the wood."""
    data = ledger_data(300.0)
    data["fastener"] = {**LAG, "length": length}
    found = [check for check in checked(data, LEDGER, STUD, RIM).checks if check.verdict == "fails"]
    assert {check.id for check in found} == {"anchor.penetration", "anchor.pull"}
    assert "at least 1 3/4 in asked for" in next(check for check in found if check.id == "anchor.penetration").notes[0]


def test_studs_do_not_stand_one_in_the_other() -> None:
    with pytest.raises(JobError, match="ft cannot be right"):
        ledger(300.0, spacing="0.16 in")


def test_ledger_in_a_frame_is_told() -> None:
    with pytest.raises(JobError, match="no member of a frame"):
        checked({"name": "J", "kind": "ledger", "frame": "T", "at": "x", "fastener": LAG,
                 "row": {"along": "12 ft", "spacing": "16 in", "joists": "16 in", "behind": "studs"},
                 "members": [{"name": "a", "part": "ledger"}, {"name": "b", "part": "behind"}]}, LEDGER)  # fmt: skip


def test_plate_longer_than_its_post_stands_out_whatever_is_said() -> None:
    """20 in on a post of 7 1/2 in: 6 1/4 in on either side."""
    plate = the(checked(cap(P=5000.0, bears_long="20 in", beyond="0 in"), POST, BEAM), "joint.cap_plate")
    assert plate.demand == pytest.approx(5000 / (5.5 * 20.0) * 6.25**2 / 2)


def test_beams_that_press_unlike_bend_their_post() -> None:
    """8,000 lb on 4 in of plate at one side of the middle: 2 in off (statics)."""
    one = joint(
        "post cap", member("post", "post", 270.0, -8000.0, part="standing"),
        member("west", "beam", 180.0, down=8000.0, part="lying"), member("east", "beam", 0.0, part="lying"),
        cap={**CAP, "bears_long": "4 in", "beyond": "0 in"},
    )  # fmt: skip
    bent = the(checked(one, POST, BEAM), "joint.couple")
    assert bent.ratio == pytest.approx(8000 / 7.5**2 / 825 + 16000 / (7.5**3 / 6) / 1350, rel=1e-6)


def test_force_along_a_ledger_is_asked() -> None:
    one = ledger_data(300.0)
    one["members"][0]["forces"][0]["pull"] = "900 lbf"
    assert the(checked(one, LEDGER, STUD, RIM), "joint.ledger_along").verdict == "refer"
    one["members"][1]["forces"] = [{"load": "live", "pull": "1 lbf"}]
    with pytest.raises(JobError, match="stands at the ledger"):
        checked(one, LEDGER, STUD, RIM)
