"""Roof frames: rafters with ties, on a ridge beam or against each other."""
