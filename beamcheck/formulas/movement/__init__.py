"""Moisture that wood takes on in the air, and what it does to its size (Wood Handbook ch. 4 and 13)."""
