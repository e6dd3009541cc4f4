"""Where a cover stands against where the joint is that it is said to hide."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from ....errors import BeamcheckError
from ....model.anchors.anchor import Anchor
from ....model.beams import Beam
from ....model.brackets.bracket import Cover
from ....model.posts import Post
from ....units import show
from ....values.judgment import judgment
from ...anchors.group import hole_places
from ...core.context import Context
from ...core.result import Check
from ..asking import ask_for
from ..family import Family

ID, WHAT = "cover.place", "where the cover stands"


def place_checks(family: Family[Any], cover: Cover, context: Context) -> Iterator[Check]:
    """Refers where the joint does not lie behind it, or where its place is not said and could be compared."""
    bracket, under = family.bracket, context.under(family.bracket.on)
    for name in cover.hides:
        anchor = context.anchor(name)
        if anchor is None:
            continue  # said where what it hides is looked up
        places = _up_the_post(under, anchor, context) if isinstance(under, Post) else (
            _along_the_beam(under, anchor, context) if isinstance(under, Beam) else []
        )  # fmt: skip
        if not places:
            continue
        middle, room = _behind(family, under)
        answers = [f"{max(place - middle, 0.0):.4g} in" for place in places]
        asked = ask_for(bracket, "cover_at", "at", answers, anchor=name, on=bracket.on)
        where = " or ".join(show(place, "length") for place in places)
        of = "up" if isinstance(under, Post) else "along"
        if bracket.at is None:
            text = f"where it stands on {bracket.on} is not said (`at`); {name} lies {where} {of} it"
            yield Check.refers(ID, bracket.name, f"{WHAT}: {name}", "geometry", text, ask=asked)
        elif min(abs(bracket.at + middle - place) for place in places) > room:
            text = (
                f"by what is said of {name} it lies {where} {of} {bracket.on}, and the cover hides what lies "
                f"{show(bracket.at + middle, 'length')} {of} it: one of them is not right"
            )
            yield Check.refers(ID, bracket.name, f"{WHAT}: {name}", "geometry", text, ask=asked)


def _behind(family: Family[Any], under: object) -> tuple[float, float]:
    """From `at` to the middle of what it hides, and how far to either side of that a joint may lie, in."""
    if not isinstance(under, Post):
        return 0.0, 0.5 * family.bracket.shape.side_to_side
    pocket, off = family.pocket, judgment("cover beside the joint it hides").value
    if pocket is None:
        return 0.5 * family.back, 0.5 * family.back
    return family.back - pocket.top - 0.5 * pocket.height, off


def _up_the_post(post: Post, anchor: Anchor, context: Context) -> list[float]:
    """Heights of the middle of a group above the foot of the post, in; from which end it was measured is not said."""
    for beam in context.structure.beams_on(post.name):
        if any(one.held_by == anchor.name and one.on == post.name and one.holds == "rests" for one in beam.supports):
            return [post.height]
    if anchor.into != post.name or anchor.other is None or anchor.other.end is None or anchor.holes is None:
        return []
    try:
        x, y = hole_places(anchor.holes)
    except BeamcheckError:
        return []
    spread = float(np.ptp(y if anchor.other.grain == "across" else x)) if x.size else 0.0
    from_end = anchor.other.end + 0.5 * spread
    return sorted({post.height - from_end, from_end}, reverse=True)


def _along_the_beam(beam: Beam, anchor: Anchor, context: Context) -> list[float]:
    """Places along a beam where the group holds its own end, or the end of another on it, in."""
    own = [support.at for support in beam.supports if support.held_by == anchor.name]
    others = [
        support.lands_at for piece in context.structure.beams_on(beam.name) for support in piece.supports
        if support.on == beam.name and support.held_by == anchor.name and support.lands_at is not None
    ]  # fmt: skip
    return [*own, *others]
