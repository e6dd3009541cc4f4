"""Benchmarks are not run with the tests; that they can still be run is a test."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest

FOLDER = Path(__file__).parents[1] / "benchmarks"


@pytest.mark.parametrize("name", sorted(path.stem for path in FOLDER.glob("test_*.py")))
def test_a_benchmark_finds_what_it_measures(name: str) -> None:
    module = importlib.import_module(f"tests.benchmarks.{name}")
    assert any(each.startswith("test_") for each in vars(module))
