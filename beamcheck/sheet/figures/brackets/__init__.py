"""Drawings of brackets: from the side, their stresses, struts, checks, gaps, and on the board."""
