"""Frames in trade words: sticks between named points, and both ends of what is not known of feet and joints."""
