"""What is raised where a file cannot be read back."""

from __future__ import annotations

from ...errors import BeamcheckError


class ReadError(BeamcheckError, ValueError):
    """A file from which no job or result can be read back."""
