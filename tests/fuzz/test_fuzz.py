"""Broken files end in an answer or in our own error, in time; each that ever went wrong is run again.

`python -m tests.fuzz --minutes 60` looks for more, see there.
"""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from .breaking import bases, broken_job
from .files import of_every_kind
from .running import bytes_broken, check_and_tell, read_file, trouble_with

KEPT = sorted(Path(__file__).parent.joinpath("kept").glob("[0-9a-f]*"))
SEED = 20_261


@pytest.mark.parametrize("path", KEPT, ids=lambda path: path.name)
def test_what_once_went_wrong(path: Path, tmp_path: Path) -> None:
    raw, chance = path.read_bytes(), Random(path.name)
    if path.suffix == ".toml":
        text = raw.decode("utf-8", "surrogatepass")
        found, *_ = trouble_with(lambda: check_and_tell(text, chance), path.name)
    else:
        found, *_ = trouble_with(lambda: read_file(raw, path.suffix, tmp_path), path.name)
    assert found is None, found


def test_letters_beyond_ascii_in_a_packed_result_are_told(tmp_path: Path) -> None:
    """What the first hour of `python -m tests.fuzz --seed 17` found, case 1000."""
    (page,) = of_every_kind()[".html"]
    place = page.index(b"</template>")
    found, _, ended = trouble_with(lambda: read_file(page[:place] + "é".encode() + page[place:], ".html", tmp_path), "")
    assert found is None and ended == "refused", found


def test_broken_jobs() -> None:
    jobs, ends = bases(), set()
    for number in range(400):
        chance = Random(f"{SEED}:{number}")
        text = broken_job(jobs, chance)
        found, _, ended = trouble_with(lambda: check_and_tell(text, chance), str(number))  # noqa: B023
        assert found is None, (found, text)
        ends.add(ended)
    assert ends == {"answered", "refused"}  # else nothing was broken, or all was


@pytest.mark.parametrize("ending", sorted(of_every_kind()))
def test_broken_files(ending: str, tmp_path: Path) -> None:
    for number in range(40):
        chance = Random(f"{SEED}:{ending}:{number}")
        raw = bytes_broken(chance.choice(of_every_kind()[ending]), chance)
        found, *_ = trouble_with(lambda: read_file(raw, ending, tmp_path), str(number))  # noqa: B023
        assert found is None, found
