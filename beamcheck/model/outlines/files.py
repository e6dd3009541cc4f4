"""The outline of a bracket from a drawing file: DXF or SVG."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path

import numpy as np

from ...errors import UnknownName
from .profile import OutlineError, Profile, profile_of

MOST_BYTES = 5_000_000  # the outline of a bracket has some 10 kB
UNITS = ("in", "mm", "cm")


def read_outline(path: str | os.PathLike[str], units: str | None = None) -> Profile:
    """Read the one closed outline of a drawing as the side view of a solid bracket.

    The wall is on the left of the drawing, the top edge above; curves become points within 0.005 in of them, thinned
    out to the fewest within 0.002 in.

    Parameters
    ----------
    path : str or path
        A drawing, .dxf or .svg.
    units : 'in', 'mm', 'cm' or None
        The unit of a drawing that does not say its own.

    Returns
    -------
    Profile
        Sizes and soffit points, inches; `toml()` writes them for a job file.

    Raises
    ------
    OutlineError
        If the file cannot be read, or holds no outline of a bracket; the text says what would be right.
    UnknownName
        If there is no such unit.
    """
    source = os.fsdecode(path)
    if units is not None and units not in UNITS:
        raise UnknownName("unit of a drawing", str(units), UNITS)
    try:
        return replace(_profile(source, units), source=Path(source).name)
    except OutlineError as error:
        raise OutlineError(f"{source}: {error}") from None


def _profile(source: str, units: str | None) -> Profile:
    raw = _bytes(source)
    kind = Path(source).suffix.casefold()
    with np.errstate(all="ignore"):  # what overflows is found where the lines are put together
        if kind == ".dxf":
            from .dxf import dxf_lines
            from .dxf_bounds import check_file

            check_file(raw)

            lines, unit, notes = dxf_lines(source, units)
        elif kind == ".svg":
            from .svg import svg_lines

            lines, unit, notes = svg_lines(raw, units)
        else:
            raise OutlineError("the name of a drawing ends in .dxf or .svg")
        return replace(profile_of(lines, y_up=kind == ".dxf"), unit=unit, notes=notes)


def _bytes(source: str) -> bytes:
    try:
        with open(source, "rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise OutlineError("there is no such file") from None
    except PermissionError:
        raise OutlineError("no permission to read this file") from None
    except (OSError, ValueError) as error:
        if os.path.isdir(source.replace("\0", "")):
            raise OutlineError("this is a folder: name the drawing in it") from None
        raise OutlineError(f"cannot be read: {getattr(error, 'strerror', None) or error}") from None
    if len(raw) > MOST_BYTES:
        raise OutlineError(f"larger than {MOST_BYTES / 1e6:g} MB: this is not the outline of a bracket")
    return raw
