"""A file with an error in it imported in place of the one that is there: slow, and right for any error.

Run as python -m tests.mutation.fresh FILE START END NEW TESTS...
"""

from __future__ import annotations

import sys
import tempfile
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType
from typing import Any

import pytest

TOP = Path(__file__).parents[2]


class Forgetful:
    """A pytest plugin: what fails on an error is no example to try again the next time."""

    def pytest_sessionstart(self) -> None:
        from hypothesis.configuration import set_hypothesis_home_dir  # not before pytest has looked at its plugins

        self._home = tempfile.TemporaryDirectory(prefix="whatcarries-")
        set_hypothesis_home_dir(self._home.name)

    def pytest_unconfigure(self) -> None:
        self._home.cleanup()


def put_in(file: Path, raw: bytes) -> None:
    """From now on an import of the file gets these bytes."""
    as_ever: Any = SourceFileLoader.get_code

    def get_code(self: SourceFileLoader, fullname: str) -> CodeType | None:
        if Path(self.get_filename(fullname)) == file:
            return compile(raw, file, "exec", dont_inherit=True)
        found: CodeType | None = as_ever(self, fullname)
        return found

    SourceFileLoader.get_code = get_code  # type: ignore[method-assign]


def main(file: str, start: str, end: str, new: str, *tests: str) -> int:
    """The status of pytest."""
    raw = (TOP / file).read_bytes()
    put_in(TOP / file, raw[: int(start)] + new.encode() + raw[int(end) :])
    return int(pytest.main(["-q", "-x", "-p", "no:cacheprovider", "--tb=no", *tests], plugins=[Forgetful()]))


if __name__ == "__main__":
    raise SystemExit(main(*sys.argv[1:]))
