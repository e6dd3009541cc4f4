"""Wood torn out along the grain, sheared or split at the connection: worked by hand here (formulas from memory)."""

from __future__ import annotations

import pytest

from .anchors import Data, find, group, said, step, tear_out

FOUR: Data = {
    "rows": 2, "columns": 2, "end": "4 in", "edge": "4 1/8 in", "spacing": "3 in", "row_spacing": "3 in"
}  # fmt: skip


def test_one_row() -> None:
    """n F_v' t s_crit = 1 x 180 x 1.5 x 4 = 1080 lbf; net (16.875 - 0.5625 x 1.5) x 675."""
    checks = tear_out(group([0.0], [500.0]))
    assert find(checks, "row tear-out in the held").capacity == pytest.approx(1080.0)
    assert find(checks, "net section").capacity == pytest.approx((16.875 - 0.5625 * 1.5) * 675.0)


def test_four_bolts() -> None:
    """s_crit 3 in: two rows of 2 x 180 x 1.5 x 3 = 1620; block 1620 + 675 x (3 - 0.5625) x 1.5."""
    checks = tear_out(group([0.0], [500.0], holes=FOUR))
    assert find(checks, "row tear-out in the held").capacity == pytest.approx(3240.0)
    assert find(checks, "group tear-out in the held").capacity == pytest.approx(1620.0 + 675.0 * 2.4375 * 1.5)
    assert find(checks, "net section").capacity == pytest.approx((16.875 - 2 * 0.5625 * 1.5) * 675.0)


def test_staggered_holes_count_in_one_section() -> None:
    """3.1.2.2 (memory): nearer than 4 D along the grain."""
    for x, left in (("5 1/2 in", 2), ("6 1/2 in", 1)):
        places = {"places": [{"x": "4 in", "y": "4 in"}, {"x": x, "y": "7 in"}]}
        check = find(tear_out(group([0.0], [500.0], holes=places)), "net section")
        assert check.capacity == pytest.approx((16.875 - left * 0.5625 * 1.5) * 675.0)


def test_a_check_through_the_row_leaves_it_nothing() -> None:
    checks = tear_out(group([0.0], [500.0], split="check across the holes"))
    assert "a row holds nothing" in said(checks, "refer")
    assert not [check for check in checks if check.what.startswith("row tear-out") and check.ratio is not None]


def test_pressed_into_the_joint_nothing_tears() -> None:
    checks = tear_out(group([0.0], [-500.0]))
    assert not [check for check in checks if "held piece" in check.what]


@pytest.mark.parametrize(("force", "d_e"), [(100.0, 11.25 - 4.0), (-100.0, 4.0)])
def test_shear_at_the_connection(force: float, d_e: float) -> None:
    """3.4.3.3(a): 2/3 F_v' b d_e (d_e/d)^2; bolt 4 in above the lower edge, the unloaded one when pressed down."""
    check = find(tear_out(group([force], holes={"rows": 1, "columns": 1, "end": "4 in", "edge": "4 in"})),
                 "shear at the connection")  # fmt: skip
    assert step(check, "d_e") == pytest.approx(d_e)
    assert check.capacity == pytest.approx(2 / 3 * 180.0 * 1.5 * d_e * (d_e / 11.25) ** 2)


def test_high_bolts_pull_the_wood_across_its_grain() -> None:
    low = {"rows": 1, "columns": 1, "end": "4 in", "edge": "4 in"}
    assert "across the grain of B" not in said(tear_out(group([100.0], holes=low)), "refer")
    assert "across the grain of B" in said(tear_out(group([-100.0], holes=low)), "refer")
    assert "across the grain of B" in said(tear_out(group([100.0], holes={**low, "edge": "7 in"})), "refer")


def test_the_other_member() -> None:
    """A post (grain across that of the beam) tears out along its own grain: 180 x 1.5 x 6 in."""
    checks = tear_out(group([100.0]))
    assert find(checks, "row tear-out in the post").capacity == pytest.approx(1620.0)
    hung = {"stock": "wood", "thickness": "1 1/2 in", "grain": "along", "end": "6 in", "edge": "5 in"}
    assert "loaded across its grain" in said(tear_out(group([100.0], other=hung)), "refer")
