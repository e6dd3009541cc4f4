"""Each kind of picture has its drawer, which is loaded when one is drawn."""

from __future__ import annotations

from importlib import import_module
from typing import get_args

import pytest

from beamcheck.checks.core.pictures.beams import LoadPath
from beamcheck.checks.core.pictures.others import HoleDrawing, Picture
from beamcheck.sheet.figures import drawers


@pytest.mark.parametrize("kind", [*get_args(Picture), LoadPath, HoleDrawing])
def test_each_kind_of_picture_has_a_drawer_of_its_own(kind: type) -> None:
    module, _, name = drawers._DRAWERS[kind.__name__].rpartition(".")
    assert callable(getattr(import_module(f"beamcheck.sheet.figures.{module}"), name))
    assert list(drawers._DRAWERS.values()).count(f"{module}.{name}") == 1
