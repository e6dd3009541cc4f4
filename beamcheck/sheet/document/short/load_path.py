"""The drawings of the load path on a sheet, and what is said where they would not help."""

from __future__ import annotations

from collections.abc import Iterator

from ....checks.core.pictures import LoadPath
from ....checks.core.result import JobResult
from ...figures.load_path import MOST_NODES, drawable
from ..blocks import Block, FigureBlock, Paragraph

CAPTION = (
    "The force at each arrow is the largest under any combination of loads. A broken outline: declared not to carry. A "
    "crossed arrow: no load may go there. Strokes under a box: here the path ends."
)


def path_blocks(result: JobResult) -> Iterator[Block]:
    """One drawing for each part of the house that hangs together, if there is more to it than a line of the table."""
    if result.path is None or not result.path.edges:
        return
    parts, left_out = drawable(result.path)
    parts = [part for part in parts if _worth_it(part)]
    for index, part in enumerate(parts):
        name = "Load path" if len(parts) == 1 else f"Load path, part {index + 1} of {len(parts)}"
        yield FigureBlock(
            part, name, result.units, f"path-{index + 1}", f"{name}. {CAPTION}" if index == 0 else f"{name}."
        )
    if left_out:
        some = "Part of the load path is" if parts else "The load path is"
        yield Paragraph(
            f"{some} not drawn, because there is too much of it (more than {MOST_NODES} pieces that hang together, or "
            "too many parts) or loads come back to where they were: "
            f"{left_out} of {left_out + len(parts)} parts stand in the table only."
        )


def _worth_it(part: LoadPath) -> bool:
    """Whether a piece stands on another, or a load goes where none may go."""
    return sum(not node.ends for node in part.nodes) > 1 or any(edge.wrong for edge in part.edges)
