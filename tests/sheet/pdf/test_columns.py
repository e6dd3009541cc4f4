"""What stands beside what: nothing is lost, and the higher column is never made much higher."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from beamcheck.sheet.pdf.columns import HIGH, early, height, in_half, narrow, stacked

FIGURE = st.builds(
    lambda high, wide: {"kind": "FigureBlock", "width": wide, "height": high, "caption": "to scale"},
    st.floats(20, 600), st.floats(100, 1200),
)  # fmt: skip
TABLE = st.builds(
    lambda rows, long: {"kind": "TableBlock", "title": "Loads", "note": [], "heads": [["what"], ["amount"]],
                        "rows": [[["x" * long], ["1 lb"]]] * rows},
    st.integers(0, 30), st.integers(1, 200),
)  # fmt: skip
BLOCKS = st.lists(FIGURE | TABLE, max_size=6)


def flat(parts: list[Any]) -> list[Any]:
    return [one for part in parts for one in ((part,) if isinstance(part, dict) else (*part[0], *part[1]))]


@given(BLOCKS, BLOCKS, BLOCKS)
def test_every_block_stands_once(left: list[Any], right: list[Any], flow: list[Any]) -> None:
    found = flat(list(stacked(left, right, flow)))
    assert sorted(map(id, found)) == sorted(map(id, (*left, *right, *flow)))


@given(BLOCKS)
def test_what_is_too_wide_for_half_a_page_keeps_all_of_it(flow: list[Any]) -> None:
    for part in stacked([], [], flow):
        if not isinstance(part, dict):
            assert all(map(narrow, (*part[0], *part[1])))


def test_a_drawing_is_as_high_as_its_width_allows() -> None:
    """440 units of 0.55 pt are 242 pt and fit into half a page; 880 are set half as large."""
    one = {"kind": "FigureBlock", "width": 440.0, "height": 200.0, "caption": ""}
    assert abs(height({**one, "width": 880.0}) - height(one)) < 0.55 * 200.0


def test_a_table_in_half_the_page_breaks_sentences_and_no_word() -> None:
    """The column of sentences gets what those of single words leave; each holds its longest word."""
    table = {"kind": "TableBlock", "title": "Order", "note": [], "columns": [0.0, 0.0], "half": False,
             "heads": [["Step"], ["What"]], "rows": [[["1"], ["clamp and drive " * 8]]]}  # fmt: skip
    step, what = in_half(table)["columns"]
    assert narrow(table)
    assert what > 4 * step > 4 * len("Step")


def test_what_may_end_a_page_before_its_drawing_is_no_higher_than_columns_that_stay_whole() -> None:
    drawing = {"kind": "FigureBlock", "width": 440.0, "height": 200.0, "caption": ""}
    told = {"kind": "Pairs", "rows": [["Size", "6x8"]] * 8}
    assert early([told], [drawing]) and height(told) < HIGH
    assert not early([{**told, "rows": told["rows"] * 6}], [drawing])
    assert not early([told], []) and not early([drawing], [drawing])
