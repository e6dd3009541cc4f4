"""Names that moved; see stock.py, sticks.py, beams.py, roofs.py, posts.py, existing.py, job.py."""

from __future__ import annotations

from .beams import Beam
from .existing import Existing
from .job import MOST_PIECES, About, Job
from .loads import Load
from .posts import Post
from .roofs import Rafter, Tie
from .sticks import Cut, Finish, Stick, Support
from .stock import Evidence, GivenValues, Stock

__all__ = [
    "MOST_PIECES", "About", "Beam", "Cut", "Evidence", "Existing", "Finish", "GivenValues", "Job", "Load", "Post",
    "Rafter", "Stick", "Stock", "Support", "Tie",
]  # fmt: skip
