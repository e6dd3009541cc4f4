"""Why odd figures of a question are right all the same: what is said of the wood, and what of the beam."""

from __future__ import annotations

from collections.abc import Mapping

from ..model.beams import Beam
from ..model.fields.base import field_names
from ..model.loads import Load
from ..model.sticks import Support
from ..model.stock import Stock

Reasons = dict[str, str]
SEARCHED = {"at": "any place, since the span is what is asked for"}  # a span that is looked for is no slip


def parted(meant: Mapping[str, str] | None) -> tuple[Reasons, Reasons]:
    """Reasons for fields of the wood, and for all others: fields of the beam and of what it carries."""
    of_the_rest = {*Beam.model_fields, *field_names(Load), *field_names(Support)}  # a question has no plates and plies
    of_wood = set(Stock.model_fields) - of_the_rest
    given = dict(meant or {})
    return (
        {field: why for field, why in given.items() if field in of_wood},
        {field: why for field, why in given.items() if field not in of_wood},
    )
