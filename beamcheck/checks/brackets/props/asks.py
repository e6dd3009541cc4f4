"""What stands under a beam and is not among its supports: brackets, posts for looks, trim; how stiff each is."""

from __future__ import annotations

import math

from ....errors import BeamcheckError
from ....model.brackets.bracket import Bracket
from ....model.posts import Post
from ...core.context import Context
from ..families.registry import family_of
from ..wood import known_species, known_wood
from .gap import PropAsk


def asks_under(beam: str, context: Context) -> list[PropAsk]:
    """All that stands under the same beam: they share the load that they attract."""
    found = []
    for other in context.structure.stand_under(beam):
        near, stock = other.near, context.stock(other.stock) if other.stock is not None else None
        assert near is not None
        if isinstance(other, Bracket):
            family = family_of(other)
            try:
                k_low, k_high = family.stiffness(stock)
            except BeamcheckError:
                k_low, k_high = 0.0, math.inf
            carries = other.role == "carries"
            rises = math.degrees(math.atan2(family.back, other.shape.stands_out))
            found.append(PropAsk(other.name, near, k_low, k_high, family.swells, known_species(stock), carries, rises))
        elif isinstance(other, Post):
            found.append(PropAsk(other.name, near, 0.0, _stiff(other, context), carries=False, kind="post"))
        else:
            found.append(PropAsk(other.name, near, 0.0, math.inf, kind="trim"))
    return found


def _stiff(post: Post, context: Context) -> float:
    """A post on a floor that does not give, lbf/in; inf where its wood is not known."""
    wood, size = known_wood(context.stock(post.stock)), context.size(post.stock)
    if wood is None:
        return math.inf
    return float(wood.E.value) * float(size.b * size.d) * post.plies / post.height
