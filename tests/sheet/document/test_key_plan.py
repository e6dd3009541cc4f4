"""The key plan: each piece as a bar, the member in black, and none where it would not help."""

from __future__ import annotations

from beamcheck.checks.core.pictures.beams import LoadPath, PathEdge, PathNode
from beamcheck.sheet.document.short.key_plan import MOST, key_plan, little_plan


def _path(count: int = 1) -> LoadPath:
    """Beams on two walls, side by side."""
    nodes = [PathNode(name, "existing", "carries", "", "by others, confirmed") for name in ("west", "east")]
    nodes += [PathNode(f"B{i}", "beam", "carries", "passes") for i in range(count)]
    edges = [PathEdge(f"B{i}", wall, 100.0, 0.0) for i in range(count) for wall in ("west", "east")]
    return LoadPath(tuple(nodes), tuple(edges), ())


def test_the_member_is_black_and_stands_over_what_bears_it() -> None:
    found = key_plan(little_plan(_path()), ["B0"])
    assert found is not None
    (beam,) = [bar for bar in found.bars if bar.here]
    walls = [bar for bar in found.bars if bar.end]
    assert len(walls) == 2
    assert all(beam.row < wall.row for wall in walls)
    assert all(0.0 <= bar.x0 < bar.x1 <= 1.0 for bar in found.bars)
    assert len(found.lines) == 2


def test_there_is_none_for_what_is_not_in_it_or_for_too_many() -> None:
    assert key_plan(little_plan(_path()), ["P9"]) is None
    assert little_plan(_path(MOST)) is None
