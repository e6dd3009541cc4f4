"""What the sheet tells beside figures: why a side does not pass, where the path ends, what a joint was taken for."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from beamcheck.checks.core.result import JobResult
from beamcheck.sheet.document.blocks import Block, Columns
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.document.prose import without_fields
from beamcheck.sheet.document.rich_blocks import Bar, MemberHead, RichTable

from ...worked_examples.results import example


@pytest.fixture(scope="module")
def loft() -> tuple[Block, ...]:
    return compose(example("net_loft"))


def heads(blocks: tuple[Block, ...]) -> dict[str, MemberHead]:
    return {mark: block for block in blocks if isinstance(block, MemberHead) for mark in block.marks}


def table(blocks: tuple[Block, ...], kind: str) -> RichTable:
    (found,) = (block for block in blocks if isinstance(block, RichTable) and block.kind == kind)
    return found


def told(blocks: tuple[Block, ...], mark: str) -> dict[str, str]:
    return {side.name: side.told.replace("\u00a0", " ") for side in heads(blocks)[mark].sides}


def test_a_side_that_fails_names_what_fails_and_not_what_passes_closest(loft: tuple[Block, ...]) -> None:
    """The plate is drilled 3/4 in from the edge where 1 9/16 in are needed, 1.55 by its table over 0.75."""
    assert re.fullmatch(
        r"distance to the bottom edge in the held piece alcove beam, 2\.0\d", told(loft, "A2")["Joints and seats"]
    )
    grain = told(compose(example("mantel_with_the_grain_wrong")), "K1")
    assert "grain to be relied on" in grain["Member"] and "closest" not in grain["Member"]
    assert grain["Joints and seats"].startswith("closest: ")


def test_what_holds_an_end_is_named_where_it_does_not_hold(loft: tuple[Block, ...]) -> None:
    assert told(loft, "B7")["Joints and seats"].startswith("A2, which holds it, does not hold; closest: ")
    assert told(loft, "B8")["Joints and seats"].startswith("A3, which holds it, is open; closest: ")
    assert told(loft, "B1")["Joints and seats"].startswith("closest: ")


def test_the_path_ends_at_each_wall_once_with_all_that_comes_there(loft: tuple[Block, ...]) -> None:
    rows = {row[0]: row for row in table(loft, "ends").rows}
    assert rows["west wall"][1] == "B1 1,148 lb, B2 2,538 lb, B3 587 lb, B4 2,720 lb"
    bar = rows["west wall"][3]
    assert rows["west wall"][2] == "8,000 lb" and isinstance(bar, Bar)
    assert float(bar.text) == pytest.approx(2720.0 / 8000.0, abs=1e-9)
    assert rows["timber wall"][1] == "B10 168 lb at 2 places"
    assert rows["wall plate"][1] == "R1 1,021 lb every 2 ft"
    assert rows["opposite wall"][2:4] == ("–", "–")


def texts(blocks: object) -> Iterator[str]:
    if isinstance(blocks, str):
        yield blocks
    elif isinstance(blocks, Columns):
        yield from texts((*blocks.left, *blocks.right, *blocks.flow))
    elif isinstance(blocks, RichTable):
        yield from texts((*blocks.heads, *(cell for row in blocks.rows for cell in row), blocks.note))
    elif isinstance(blocks, tuple):
        for one in blocks:
            yield from texts(one)


def test_questions_for_an_engineer_are_without_the_brackets_of_a_job_file(loft: tuple[Block, ...]) -> None:
    asked = table(loft, "questions")
    every = list(texts(asked))
    assert any("add it as an anchor, with its report" in text for text in every)
    assert not [text for text in every if "[[" in text]
    assert asked.rows[-1][-1] == "a ruling on plate in checked wood: split seen"
    assert without_fields("a [[roof]] with its [site] (`site.snow`)") == "a roof with its site"


def joints(result: JobResult) -> list[str]:
    return [piece.understood for piece in result.pieces if piece.kind == "joint"]


def test_each_joint_says_what_it_was_taken_for() -> None:
    result = example("plated_truss")
    said = joints(result)
    assert len(said) == 8 and all(said)
    assert said[0] == (
        "left heel plates is a joint, plates both sides with bolts 1 in at the left heel of truss; it joins tie and "
        "left rafter."
    )
    assert said[-1].endswith("it joins west length and east length; it is a splice of truss: tie.")
    shown = [block.understood for block in compose(result) if isinstance(block, MemberHead)]
    assert shown and all(text.startswith("Understood: ") for text in shown)
