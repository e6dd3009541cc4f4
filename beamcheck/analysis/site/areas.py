"""The roofs and floors of a job; how they are worked out is not loaded with a job that has none."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ...records import dataclass

if TYPE_CHECKING:
    from ...model.site import FloorArea, RoofArea, Site
    from .roofs import Formed


@dataclass(frozen=True)
class Areas:
    """The roofs and floors of a job by name, worked out."""

    site: Site | None
    roofs: Mapping[str, tuple[RoofArea, Formed]]
    floors: Mapping[str, tuple[FloorArea, Formed]]


NO_AREAS = Areas(None, {}, {})
