"""Frames and trusses: their members as checked pieces, what they stand on, and what keeps the whole standing."""
