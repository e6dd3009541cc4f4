"""A bracket on a post under a beam: what the sizes of the job already say of its place, against what is said of it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

from ...errors import BeamcheckError
from ...model.beams import Beam
from ...model.brackets.near import Near
from ...model.existing import Existing
from ...model.posts import Post
from ...units import show
from ...values.judgment import judgment
from ...values.lumber import read_size
from ..core.asking.question import PlausibleAnswer
from ..core.context import Context
from ..core.result import Check
from .asking import ask_for, path_of
from .family import Family

ID, CLAUSE = "bracket.place", "geometry"


def place_checks(family: Family[Any], context: Context) -> Iterator[Check]:
    """Refers where the place of the nose or the gap cannot be what they are said to be."""
    near, beams = family.bracket.near, _beams_on_its_post(family, context)
    if near is None:
        yield from _beam_that_nobody_names(family, beams, context)
    beam = next((one for one in beams if near is not None and one.name == near.beam), None)
    if near is not None and isinstance(context.under(family.bracket.on), Existing):
        yield from _at_another_wall(family, near, context)
    if near is None or beam is None:
        return
    bracket, places = family.bracket, noses(family, beam, context)
    if places and min(abs(near.at - place) for place in places) > judgment("nose along a beam").value:
        where = " or ".join(show(place, "length") for place in places)
        text = (
            f"it stands on {bracket.on}, on which {beam.name} rests: its nose is {where} along {beam.name} and not "
            f"{show(near.at, 'length')}: one of them is not right"
        )
        what = f"where it stands under {beam.name}"
        asked = ask_for(bracket, "nose_at", "near.at", [f"{place:.4g} in" for place in places], beam=beam.name)
        yield Check.refers(ID, bracket.name, what, CLAUSE, text, ask=asked)
    gap = gap_by_sizes(family, beam, context)
    if gap is not None and near.gap is not None and abs(near.gap - gap) > judgment("gap by sizes").value:
        yield _gap_contradicted(family, beam, context, near.gap, gap)


def _at_another_wall(family: Family[Any], near: Near, context: Context) -> Iterator[Check]:
    """Refers where a beam rests on the wall of the bracket somewhere else than its nose is said to stand."""
    bracket, beam = family.bracket, context.under(near.beam)
    seats = [one for one in beam.supports if one.on == bracket.on] if isinstance(beam, Beam) else []
    if not isinstance(beam, Beam) or not seats or bracket.insists_on("near"):
        return
    out, ends = bracket.shape.stands_out, [support.at for support in beam.supports]
    reach = [(seat.at, 0.5 * (seat.bearing or 0.0) + out) for seat in seats]
    places = [place for at, far in reach for place in (at + far, at - far)]
    if min(abs(near.at - place) for place in places) <= judgment("nose along a beam by its wall").value:
        return
    between = [place for place in places if min(ends) <= place <= max(ends)] or places
    where = " or ".join(show(place, "length") for place in between)
    text = (
        f"it is fixed to {bracket.on}, on which {beam.name} rests: its nose is about {where} along {beam.name} and not "
        f"{show(near.at, 'length')}: one of them is not right"
    )
    elsewhere = f"that is another part of {bracket.on}"
    answers: list[PlausibleAnswer | str] = [
        *(f"{place:.4g} in" for place in between),
        PlausibleAnswer(elsewhere, ((path_of(bracket, "meant.near"), elsewhere),)),
    ]
    asked = ask_for(bracket, "nose_at", "near.at", answers, beam=beam.name)
    yield Check.refers(ID, bracket.name, f"where it stands under {beam.name}", CLAUSE, text, ask=asked)


def _beam_that_nobody_names(family: Family[Any], beams: Sequence[Beam], context: Context) -> Iterator[Check]:
    """Of a bracket for a load, which stands on the post of a beam: whether that may come down on it.

    One that is only for looks is asked what is above it in any case, a cover has its reveal.
    """
    bracket = family.bracket
    if bracket.role != "carries" or bracket.above is not None:
        return
    for beam in beams:
        gap, places = gap_by_sizes(family, beam, context), noses(family, beam, context)
        if not places or any(support.on == bracket.name for support in beam.supports):
            continue
        what = f"gap under {beam.name} by its sizes"
        needed = max((_needed(family, beam, place, context) for place in places), default=math.inf)
        if gap is not None and gap - judgment("gap by sizes").value > needed:
            text = f"{show(gap, 'length')} is left under {beam.name}, which comes down {show(needed, 'length')} at most"
            yield Check.keeps_rule(ID, bracket.name, what, CLAUSE, text)
            continue
        text = f"it stands on {bracket.on}, on which {beam.name} rests, and whether its nose is under it is not said: "
        text += (
            "how far up its foot stands is not said either (`at`)" if gap is None
            else f"by the sizes {show(max(gap, 0.0), 'length')} is left between them"
        )  # fmt: skip
        nothing = PlausibleAnswer("no: it is on another face", ((path_of(bracket, "above"), "nothing"),))
        asked = ask_for(bracket, "above", "above", [nothing, *likely_beams(family, context)])
        yield Check.refers(ID, bracket.name, what, CLAUSE, text, ask=asked)


def _needed(family: Family[Any], beam: Beam, place: float, context: Context) -> float:
    """Gap that keeps a nose free, with a live load that stays, in; inf where it is not known."""
    from .props.gap import Nearby, PropAsk
    from .props.supports import moving_supports

    run = context.structure.runs.get(beam.name)
    if run is None:
        return math.inf
    supports, unknown = moving_supports(run.beam, context, live_stays=True)
    if unknown:
        return math.inf
    try:
        near = Near.model_construct(beam=beam.name, at=place, closing=())
        ask = PropAsk(family.bracket.name, near, 0.0, math.inf, family.swells)
        return Nearby(run, [ask], supports, live_stays=True).g_needed(0)
    except BeamcheckError:
        return math.inf


def _gap_contradicted(family: Family[Any], beam: Beam, context: Context, said: float, gap: float) -> Check:
    """`said`: the gap as left; `gap`: what the sizes leave, in."""
    bracket, foot = family.bracket, family.bracket.at
    assert foot is not None  # without it there is no gap by sizes
    left = show(gap, "length") if gap > 0.0 else "nothing"
    text = (
        f"its foot stands {show(foot, 'length')} up {bracket.on}, {show(foot + family.back + gap, 'length')} high, and "
        f"it is {show(family.back, 'length')} high itself: {left} is left under {beam.name}, not "
        f"{show(said, 'length')}: one of them is not right"
    )
    lower, held = foot + gap - said, f"{show(foot, 'length')}, with a gap of {left}"
    answers = [
        PlausibleAnswer(show(lower, "length"), ((path_of(bracket, "at"), f"{lower:.5g} in"),)),
        PlausibleAnswer(held, ((path_of(bracket, "near.gap"), f"{max(gap, 0.0):.4g} in"),)),
    ]  # fmt: skip
    asked = ask_for(bracket, "foot_up", "at", answers, on=bracket.on)
    return Check.refers(ID, bracket.name, f"gap under {beam.name} by its sizes", CLAUSE, text, ask=asked)


def likely_beams(family: Family[Any], context: Context) -> list[PlausibleAnswer]:
    """Beams on the post that the bracket stands on, as answers to what is above it."""
    found = []
    for beam in _beams_on_its_post(family, context):
        gap = gap_by_sizes(family, beam, context)
        for place in noses(family, beam, context)[:1]:
            said: dict[str, object] = {"beam": beam.name, "at": f"{place:.4g} in", "closing": []}
            if gap is not None:
                said["gap"] = f"{max(gap, 0.0):.4g} in"
            found.append(PlausibleAnswer(f"yes, {beam.name}", ((path_of(family.bracket, "near"), said),)))
    return found


def noses(family: Family[Any], beam: Beam, context: Context) -> list[float]:
    """Where along a beam that rests on the post the nose may be, in, the inner place first."""
    bracket, post = family.bracket, context.under(family.bracket.on)
    if not isinstance(post, Post):
        return []
    size, out = read_size(context.stock(post.stock).size), bracket.shape.stands_out
    ends = [support.at for support in beam.supports]
    length = beam.length if beam.length is not None else max(ends)
    sides = [0.5 * float(side) + out for side in dict.fromkeys((size.b, size.d))]
    seats = [support.at for support in beam.supports if support.on == post.name]
    found = [place for at in seats for far in sides for place in (at + far, at - far)]
    on_it = [place for place in found if 0.0 <= place <= length]
    return sorted(on_it, key=lambda place: not min(ends) <= place <= max(ends))


def gap_by_sizes(family: Family[Any], beam: Beam, context: Context) -> float | None:
    """From the top of the bracket up to a beam that rests on the head of its post, in; None where it is not said."""
    bracket, post = family.bracket, context.under(family.bracket.on)
    rests = any(one.on == bracket.on and one.holds == "rests" for one in beam.supports)
    if not isinstance(post, Post) or bracket.at is None or not rests:
        return None
    return post.height - bracket.at - family.back


def _beams_on_its_post(family: Family[Any], context: Context) -> list[Beam]:
    on = family.bracket.on
    return list(context.structure.beams_on(on)) if isinstance(context.under(on), Post) else []
