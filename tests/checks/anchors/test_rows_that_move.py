"""Rows of bolts across the grain of wood that moves: told, asked for the meter, ruled by an engineer; or an entry."""

from __future__ import annotations

from pathlib import Path

from beamcheck.checks.core.result import Check
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import read_job_text

PLATE = Path(__file__).parents[2] / "trials" / "joints" / "said_put_together_dry_but_the_wood_is_wet.toml"
TEXT = PLATE.read_text(encoding="utf-8")
METERED = 'measured_moisture = "{} %"\ngrade_from'


def rows(text: str) -> list[Check]:
    result = check_job(read_job_text(text))
    return [check for piece in result.pieces for check in piece.checks if check.id == "anchor.rows_move"]


def green(percent: str) -> str:
    return TEXT.replace('moisture = "wet"\ngrade_from', f'moisture = "green"\n{METERED.format(percent)}')


def test_wet_wood_that_nobody_metered_asks_for_the_meter() -> None:
    """3 1/2 in from 30 to 12 %, outdoors: 3.5 x 18/(3000/9.1) = 0.191 in for western larch (memory)."""
    (found,) = rows(TEXT)
    assert found.verdict == "refer" and "0.191" in found.notes[0]
    assert found.questions[0].field == "stock.s.measured_moisture"


def test_metered_green_wood_is_for_an_engineer_and_never_fails() -> None:
    """From 24 to 8 %: 3.5 x 16/(3000/9.1 - 6) = 0.173 in; from 10 to 8 % no more than a hole gives."""
    (found,) = rows(green("24"))
    assert found.verdict == "refer" and "0.173" in found.notes[0] and found.questions[0].who == "engineer"
    assert found.questions[0].forces
    (found,) = rows(green("10"))
    assert found.verdict == "passes"


def test_a_row_that_is_an_entry_of_its_own_is_judged_there() -> None:
    entry = '[[movement]]\nname = "bolts of A"\nkind = "bolt row"\non = "B"\nacross = "{}"\nbuilt_at = "24 %"\n'
    (found,) = rows(f"{green('24')}\n{entry.format('3 1/2 in')}")
    assert found.verdict == "passes" and "judged as 'bolts of A'" in found.notes[0]
    (found,) = rows(f"{green('24')}\n{entry.format('2 in')}")  # of a smaller row: this one is not described
    assert found.verdict == "refer"


def test_wood_that_runs_the_same_way_moves_with_it() -> None:
    """Against a plate both rows are kept apart; against wood across its grain, both woods; along it, none."""
    wood = TEXT.replace('manner = "concealed plate"', 'manner = "wood side"').replace(
        'material = "steel"', 'material = "wood"'
    )
    lines = [line for line in wood.splitlines() if not line.startswith("plate = ")]
    wood = "\n".join(lines).replace('"7 in", threads', '"13 in", threads')
    other = 'other = {{ stock = "s", thickness = "5 1/2 in", grain = "{}", edge = "3 in", end = "12 in" }}'
    assert [one.where for one in rows(f"{wood}\n{other.format('across')}")] == ["held piece B"]
    assert rows(f"{wood}\n{other.format('along')}") == []
