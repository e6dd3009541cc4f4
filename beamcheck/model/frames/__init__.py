"""Frames: members between named points in one plane, in trade words."""
