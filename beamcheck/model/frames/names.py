"""What the members of frames are called among the pieces of a job."""

from __future__ import annotations


def piece_name(frame: str, stick: str) -> str:
    """The name of a member of a frame."""
    return f"{frame}: {stick}"
