"""Trial jobs: the verdict of each whole job is the one that a careful engineer expects.

`index.csv` lists every job of this folder with what is expected, why, the clause it rests on and how that is known:
`passes`; `fails`; or `not_passes`, which is fails, refer or refused. `open.txt` lists those that are not yet so. A
listed one must really be wrong still: whoever cures it deletes its line (and leaves the blank line, so that two who do
it at the same time do not collide).
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from beamcheck.checks.job import check_job
from beamcheck.errors import BeamcheckError
from beamcheck.model.reading.reader import read_job
from beamcheck.sheet.record.as_json import result_json
from beamcheck.sheet.terminal.everything import plain_text

from .words import raw_symbols

FOLDER = Path(__file__).parent
ALLOWED = {"passes": {"passes"}, "fails": {"fails"}, "not_passes": {"fails", "refer", "refused"}}
COLUMNS = ["file", "expect", "subject", "why", "clause", "how"]


def read_index() -> list[dict[str, str]]:
    with (FOLDER / "index.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def read_open() -> list[str]:
    path = FOLDER / "open.txt"
    lines = path.read_text(encoding="utf-8").splitlines() if path.is_file() else []
    return [line.strip() for line in lines if line.strip() and not line.startswith("#")]


INDEX, OPEN = read_index(), read_open()


def verdict_of(name: str) -> str:
    """The verdict of a trial job, which every door can tell, in words; 'refused' where the file is not read."""
    try:
        job = read_job(FOLDER / name)
    except BeamcheckError:
        return "refused"
    result = check_job(job)
    assert f'"verdict": "{result.verdict}"' in result_json(result)
    assert result.verdict.upper() in plain_text(result).upper()
    assert raw_symbols(result, (FOLDER / name).read_text(encoding="utf-8")) == []
    return result.verdict


def test_index_is_whole() -> None:
    """Every job is listed once with its expectation, reason, clause and source, and every listed job is there."""
    names = [row["file"] for row in INDEX]
    there = {path.relative_to(FOLDER).as_posix() for path in FOLDER.rglob("*.toml")}
    assert sorted(names) == sorted(there)
    for row in INDEX:
        assert list(row) == COLUMNS and all(row.values()), f"{row['file']}: the cells are {', '.join(COLUMNS)}"
        assert row["expect"] in ALLOWED, row["file"]
    assert set(OPEN) <= set(names), "open.txt lists what index.csv does not"


@pytest.mark.parametrize("row", INDEX, ids=lambda row: row["file"].removesuffix(".toml"))
def test_trial(row: dict[str, str]) -> None:
    """As expected, or listed as open and really not yet as expected."""
    found = verdict_of(row["file"])
    right = found in ALLOWED[row["expect"]]
    if row["file"] in OPEN:
        assert not right, f"{row['file']} is {found} now, as expected: delete its line in open.txt"
    else:
        assert right, f"{row['file']} is {found}, expected: {row['expect']}, since {row['why']} [{row['clause']}]"
