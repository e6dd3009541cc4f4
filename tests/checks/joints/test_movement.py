"""Bolts in rows through steel and green wood: the wood shrinks between them, the steel does not."""

from __future__ import annotations

from .jobs import Data, checked, joint, member, the, wood
from .test_fastened import BOLT, LAID

PLATE: Data = {"steel": "A36", "thickness": "1/4 in", "width": "9 in", "length": "14 in"}


def splice(moisture: str, rows: int) -> Data:
    holes = {"columns": 2, "spacing": "4 in", "end": "5 1/4 in", "edge": "3 1/4 in" if rows > 1 else "4 3/4 in",
             **({"rows": rows, "row_spacing": "3 in"} if rows > 1 else {})}  # fmt: skip
    return joint(
        "plates both sides", member("west", "tie", 180.0, 1000.0, holes=holes, plate=PLATE),
        member("east", "tie", 0.0, 1000.0, holes=holes, plate=PLATE), fastener={**BOLT, "length": "7 1/2 in"},
        **{**LAID, "seasoned": moisture},
    )  # fmt: skip


def green() -> Data:
    return {**wood("tie", "5 1/2 in x 9 1/2 in"), "moisture": "green", "measured_moisture": "24 %"}


def test_two_rows_in_green_wood_are_asked_about() -> None:
    """C x change x distance, 24 to 12 percent over 3 in: 0.00323 per percent for western larch, the larger of the two
    woods of the name (Wood Handbook Table 13-5), is 0.116 in; a hole gives 1/32 in."""
    check = the(checked(splice("green", 2), green()), "joint.moves", "west")
    assert check.verdict == "refer" and "0.116" in check.notes[0]


def test_one_row_or_dry_wood_does_not_move() -> None:
    assert not [check for check in checked(splice("green", 1), green()).checks if check.id == "joint.moves"]
    dry = checked(splice("dry", 2), wood("tie", "5 1/2 in x 9 1/2 in"))
    assert not [check for check in dry.checks if check.id == "joint.moves"]
