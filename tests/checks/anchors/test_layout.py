"""Ends, edges, spacing and rows around the fasteners: the published multiples, and layouts that cannot be."""

from __future__ import annotations

import pytest

from .anchors import A36, Data, find, group, lateral, layout, said, stock

ONE: Data = {"rows": 1, "columns": 1, "end": "4 in", "edge": "6 in"}
FOUR: Data = {"rows": 2, "columns": 2, "end": "4 in", "edge": "4 in", "spacing": "3 in", "row_spacing": "3 in"}
HELD = "in the held piece B"


@pytest.mark.parametrize(
    ("across", "along", "what", "multiple"),
    [
        (100.0, 0.0, f"end distance {HELD}", 2.0),  # Table 12.5.1A (read)
        (0.0, 100.0, f"end distance {HELD}", 3.5),
        (0.0, -100.0, f"end distance {HELD}", 2.0),
        (100.0, 0.0, f"distance to the top edge {HELD}", 4.0),  # Table 12.5.1C (read)
        (100.0, 0.0, f"distance to the bottom edge {HELD}", 1.5),
        (-100.0, 0.0, f"distance to the bottom edge {HELD}", 4.0),
        (0.0, 100.0, f"distance to the top edge {HELD}", 1.5),
        (100.0, 100.0, f"distance to the top edge {HELD}", 4.0),
        (100.0, 100.0, f"end distance {HELD}", 3.5),
    ],
)
def test_single_bolt(across: float, along: float, what: str, multiple: float) -> None:
    check = find(layout(group([across], [along])), what)
    assert check.demand == pytest.approx(multiple * 0.5)
    assert check.verdict == "passes"


def test_hardwood_needs_less_end() -> None:
    """Table 12.5.1A (read): 2.5 D where softwood needs 3.5 D."""
    oak = stock(species="Mixed Oak", grade="No.2")
    made = group([0.0], [100.0], held=oak)
    assert find(layout(made), f"end distance {HELD}").demand == pytest.approx(1.25)


def test_rows() -> None:
    """Tables 12.5.1B and D (read): 3 D in line; 1.5 D between rows along the grain; across it (5 l + 10 D)/8."""
    across = layout(group([100.0], holes=FOUR))
    assert find(across, f"distance between rows across the grain {HELD}").demand == pytest.approx((7.5 + 5) / 8)
    assert find(across, f"spacing across the grain {HELD}").demand == pytest.approx(1.5)
    along = layout(group([0.0], [100.0], holes={**FOUR, "edge": "4 1/8 in"}))
    assert find(along, f"distance between rows along the grain {HELD}").demand == pytest.approx(0.75)
    assert find(along, f"spacing along the grain {HELD}").demand == pytest.approx(1.5)


def test_slender_bolts_need_more_edge_along_the_grain() -> None:
    """Table 12.5.1C (read): l/D over 6 asks for half the distance between rows."""
    plate = {key: value for key, value in A36.items() if key != "slot"}
    made = group([0.0], [100.0], held=stock("4x12 dressed"), other=None, plate=plate, manner="plates both sides",
                 holes={**FOUR, "edge": "3 5/8 in", "row_spacing": "4 in"})  # fmt: skip
    assert find(layout(made), f"distance to the top edge {HELD}").demand == pytest.approx(2.0)


def test_a_group_that_fails_for_edge_distance_only() -> None:
    made = group([100.0], holes={**ONE, "edge": "9 3/4 in"})
    checks = layout(made)
    failed = [check for check in [*checks, *lateral(made)] if check.verdict == "fails"]
    assert [check.what for check in failed] == [f"distance to the top edge {HELD}"]
    assert failed[0].clause == "NDS 2018 Table 12.5.1C"
    assert "1 1/2 in given, at least 2 in asked: short by 1/2 in" in failed[0].notes[0]
    assert failed[0].where == "row 1, column 1"


def test_distances_at_the_limit_pass() -> None:
    checks = layout(group([100.0], holes={**ONE, "end": "1 in", "edge": "9 1/4 in"}))
    assert said(checks, "fails") == ""


def test_five_inches_across_the_grain() -> None:
    """12.5.1.3 (read)."""
    what = "fasteners across the grain of the held piece"
    tall = {"rows": 2, "columns": 1, "end": "4 in", "edge": "3 in"}
    assert find(layout(group([100.0], holes={**tall, "row_spacing": "5 in"})), what).verdict == "passes"
    assert find(layout(group([100.0], holes={**tall, "row_spacing": "5 1/8 in"})), what).verdict == "fails"


def test_holes_that_cannot_be() -> None:
    def fails(holes: Data) -> str:
        return said(layout(group([100.0], holes=holes)), "fails")

    assert "leaves the wood" in fails({"places": [{"x": "4 in", "y": "0.2 in"}]})
    assert "leaves the wood" in fails({"places": [{"x": "0.2 in", "y": "5 in"}]})
    assert "leaves the wood" in fails({"places": [{"x": "4 in", "y": "12 in"}]})
    two = {"places": [{"x": "4 in", "y": "5 in"}, {"x": "4.3 in", "y": "5 in"}]}
    assert "row 1, column 1 and row 1, column 2 run into each other" in fails(two)


def test_the_other_member() -> None:
    """Downward load on a member with the same grain: its given lower edge is the loaded one."""
    other = {"stock": "wood", "thickness": "1 1/2 in", "grain": "along", "end": "6 in", "edge": "1 3/4 in"}
    down, lifted = (
        find(layout(group([force], other=other)), "distance to the given edge in the post") for force in (100.0, -100.0)
    )
    assert (down.verdict, lifted.verdict) == ("fails", "passes")
    missing = layout(group([100.0], other={"stock": "wood", "thickness": "1 1/2 in", "grain": "across"}))
    assert "`other.end`" in said(missing, "refer")
    assert "`other.edge`" in said(missing, "refer")


def test_thin_fasteners_go_by_the_commentary() -> None:
    """C12.1.6.6 (memory), not bored: edge 2.5 D, end 15 D in tension and 10 D else; D 0.162."""
    nail = {"kind": "nail", "size": "16d common"}

    def verdict(end: str) -> str:
        return find(layout(group([0.0], [50.0], fastener=nail, holes={**ONE, "end": end})), "split").verdict

    assert verdict("2 1/2 in") == "passes"
    assert verdict("2 in") == "refer"
    assert verdict("1 in") == "refer"


def test_washers_in_bores() -> None:
    """Judgment of the collected rules: the washer fits, and 1-1/2 in of wood stay under it."""

    def bolt(bore: str, depth: str) -> list[str]:
        fastener = {"kind": "bolt", "size": "1/2 in", "counterbore": bore, "counterbore_depth": depth}
        other = {"stock": "wood", "thickness": "3 1/2 in", "grain": "across", "end": "6 in", "edge": "5 in"}
        wood = stock("4x12 dressed")
        made = group([100.0], held=wood, into=wood, fastener=fastener, other=other)
        return [find(layout(made), "washer in its bore").verdict]

    assert bolt("1 1/2 in", "1 in") == ["passes"]
    assert bolt("1 1/4 in", "1 in") == ["fails"]
    assert bolt("1 1/2 in", "2 1/4 in") == ["refer"]


@pytest.mark.parametrize(("length", "thread", "verdict"), [("4 in", None, "passes"), ("9 in", None, "refer"),
                                                           ("9 in", "7 in", "passes")])  # fmt: skip
def test_the_nut_comes_to_the_end_of_the_thread(length: str, thread: str | None, verdict: str) -> None:
    """Table L1 (memory): a 1/2 in bolt 9 in long has 1 1/2 in of thread, so 7 1/2 in of shank, on 3 in of wood."""
    bolt = {"kind": "bolt", "size": "1/2 in", "threads": "clear of it", "length": length}
    made = group([100.0], fastener={**bolt, **({"thread_length": thread} if thread else {})})
    found = [check for check in lateral(made) if check.what == "what is known of the joint"]
    assert ([check.verdict for check in found] or ["passes"]) == [verdict]
