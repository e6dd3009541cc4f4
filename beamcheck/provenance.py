"""Where a value comes from and how well it is known."""

from __future__ import annotations

from .records import dataclass


@dataclass(frozen=True)
class Source:
    """The origin of one value.

    `how` is 'read' (seen in a copy of the document), 'read, second-hand' (seen in a record, course, handbook or page
    that quotes it), 'derived' (recomputed from a named rule), 'memory' (recalled, to be confirmed against the printed
    document), 'given' (by the user; `document` holds their words) or 'practice' (common practice, no source).
    `confidence` is '', 'high', 'medium' or 'low'.
    """

    document: str
    how: str
    note: str = ""
    confidence: str = ""
