"""Who draws what: the drawing of a block, by the kind of its picture. A drawer that no block needs is not loaded."""

from __future__ import annotations

from importlib import import_module
from typing import Any

_DRAWERS = {
    "HoleDrawing": "anchor.hole_figure", "LoadPath": "load_path.path_figure", "PostPicture": "post.post_figure",
    "Elevation": "brackets.elevation.bracket_figure", "StressPicture": "brackets.stress.stress_figure",
    "GapPicture": "brackets.gap.gap_figure", "StrutPicture": "brackets.strut.strut_figure",
    "SplitPicture": "brackets.split.split_figure", "BoardPicture": "brackets.on_the_board.board_figure",
    "RafterPicture": "rafter.rafter_figure", "FramePicture": "frame.frame_figure",
    "FrameForces": "frame_forces.forces_figure", "JointPicture": "joint.joint_figure",
    "AssemblyPicture": "assembly.assembly_figure",
}  # fmt: skip


def drawn(block: Any) -> str:
    """The drawing of a block as an `<svg>` element."""
    named = _DRAWERS.get(type(block.figure).__name__, "beam.beam_figure")
    module, _, name = named.rpartition(".")
    draw = getattr(import_module(f"{__package__}.{module}"), name)
    more = (getattr(block, "part", ""),) if module == "beam" else ()
    return str(draw(block.figure, block.name, block.units, block.key, *more))
