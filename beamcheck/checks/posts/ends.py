"""The ends of a post: end grain, the seats of what rests on it, and what it stands on."""

from __future__ import annotations

from functools import partial

import numpy as np

from ...calc.pad import Pad
from ...model.beams import Beam
from ...model.existing import Existing
from ...units import show
from ..beams.beam import section_of
from ..core.asking.question import Question, ask
from ..core.result import Check
from ..core.seat import answered, wood_under
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.stated_capacity import enough
from ..core.wood.strength import Outcome, end_grain
from .brackets import on_a_face
from .post_run import PostRun, Seat

END_GRAIN = "NDS 2018 3.10.1"
NEEDS_PLATE = "over three quarters of it a metal plate must spread the load; without one they are the limit here"
ROUNDING = 1.0 + 1e-9


def end_checks(run: PostRun) -> list[Check]:
    """Everything about the ends and the cuts of a post."""
    criterion = Criterion(run.post.name, "end grain at top and foot", END_GRAIN, "ratio", notes=(NEEDS_PLATE,),
                          id="post.end_grain", ask=_plate(run))  # fmt: skip
    whole = govern(criterion, run.combinations, partial(_grain, run, run.pressed, None))
    return [whole, *_top(run), *_foot(run)]


def _plate(run: PostRun) -> tuple[Question, ...]:
    """Whether a metal plate spreads the load, where nobody says so."""
    return () if run.post.bearing_plate else (
        ask("bearing_plate", run.post.name, f"post.{run.post.name}.bearing_plate"),
    )  # fmt: skip


def _grain(run: PostRun, forces: np.ndarray, area: float | None, pad: Pad, which: int | slice) -> Outcome:
    """End grain of the post; on part of it when an area is given."""
    P = pad.take("P", at(forces, which), "lbf", note="from the analysis")
    A_n = None if area is None else pad.take("A_n", area, "in2", note="the contact")
    return end_grain(
        pad,
        run.wood,
        run.section,
        P=P,
        C_D=duration(pad, run.combinations, which),
        plate=run.post.bearing_plate,
        A_n=A_n,
    )


def _top(run: PostRun) -> list[Check]:
    """Each beam on its own contact; seats that cannot be as they are said to be; what hangs on a side."""
    name, found, seats = run.post.name, [], run.seats()
    longest = max(run.sides)
    areas = [_contact(run, seat) for seat in seats]
    for seat, area in zip(seats, areas, strict=True):
        if area is None or seat.length is None:
            continue  # the beam's own check refers for want of its seat
        if seat.length > longest * ROUNDING:
            text = (
                f"{show(seat.length, 'length')} long, but the top is only {show(longest, 'length')}: the bearing of "
                "the beam is worked out on more than there is"
            )
            asked = ask(
                "seat_on_post", seat.beam, _seat_field(run, seat), post=name, answers=(show(longest, "length"),)
            )
            found.append(Check.refers("post.seat_length", name, f"seat of {seat.beam}", "load path", text, ask=asked))
        criterion = Criterion(name, f"end grain under {seat.beam}", END_GRAIN, "ratio", notes=(NEEDS_PLATE,),
                              id="post.end_grain_under", ask=_plate(run))  # fmt: skip
        found.append(govern(criterion, run.combinations, partial(_grain, run, run.pressed_by(seat.beam), area)))
    top, needed = run.sides[0] * run.sides[1], sum(area or 0.0 for area in areas)
    if needed > top * ROUNDING:
        text = f"together they need {show(needed, 'area')}, the top has {show(top, 'area')}"
        room = show(longest / len(seats), "length")
        asked_all = [ask("seat_on_post", seat.beam, _seat_field(run, seat), post=name, answers=(room,))
                     for seat in seats]  # fmt: skip
        found.append(Check.refers("post.seats_room", name, "seats on the top", "load path", text, ask=asked_all))
    for transfer in run.context.transfers:
        if transfer.applied == "side" and not on_a_face(run, transfer):
            text = f"how far off the face of the post {transfer.from_piece} bears is not known"
            asked = ask("side_load_on_post", name, piece=transfer.from_piece,
                        forces={"comes down": float(np.max(run.comes_from(transfer.from_piece)))})  # fmt: skip
            found.append(Check.refers("post.side_load", name, f"{transfer.from_piece} on its side", "NDS 2018 15.4.2",
                                      text, ask=asked))  # fmt: skip
    return found


def _seat_field(run: PostRun, seat: Seat) -> str:
    """The place of a seat's length in the job file."""
    beam = run.context.structure.pieces[seat.beam]
    assert isinstance(beam, Beam)
    index = next(i for i, support in enumerate(beam.supports, 1) if support.on == run.post.name)
    return f"beam.{seat.beam}.supports.{index}.bearing"


def _contact(run: PostRun, seat: Seat) -> float | None:
    """Area of a seat on the top, in2. Which way the beam runs is not known: the smaller of both."""
    if seat.length is None:
        return None
    return _overlap((seat.length, seat.breadth), run.sides)[2]


def _overlap(one: tuple[float, float], other: tuple[float, float]) -> tuple[float, float, float]:
    """Sides and area of the contact of two rectangles, turned so that it is the smaller one."""
    ways = [(min(one[0], a), min(one[1], b)) for a, b in (other, other[::-1])]
    return min(((b, l_b, b * l_b) for b, l_b in ways), key=lambda way: way[2])


def _foot(run: PostRun) -> list[Check]:
    """What is under the foot."""
    post, context = run.post, run.context
    under = context.under(post.on)
    b, l_b = run.sides
    found: list[Check] = []
    what = f"what {post.name} stands on"
    if isinstance(under, Existing):
        found.append(answered(post.name, what, under))
        found += enough(post.name, f"what {under.name} takes", under, run.combinations, run.pressed)
    elif isinstance(under, Beam):
        broad = float(section_of(context.size(under.stock), under.laid, under.plies).b)
        b, l_b, _ = _overlap((broad, max(run.sides)), run.sides)
    else:
        text = f"the joint with {under.name}, and what holds it sideways there, are not checked"
        asked = ask("post_on_post", post.name, under=under.name, forces={"comes down": float(np.max(run.pressed))})
        found.append(Check.refers("post.foot_joint", post.name, what, "load path", text, ask=asked))
    return [*found, *wood_under(post.name, run.combinations, run.pressed, b, l_b, under, context)]
