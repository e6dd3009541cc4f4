"""The ends of a post: end grain, the seats of what rests on it, what it stands on, wood that is cut out."""

from __future__ import annotations

from functools import partial

import numpy as np

from ...calc.pad import Pad
from ...model.pieces import Beam, Cut, Existing
from ...units import show
from ..beams.beam import section_of
from ..beams.cuts import net_section, words
from ..core.govern import Criterion, at, duration, govern, stated
from ..core.result import Check
from ..core.seat import answered, wood_under
from ..core.stated_capacity import enough
from ..core.strength import Outcome, end_grain
from .brackets import is_bracket
from .post_run import PostRun, Seat

END_GRAIN = "NDS 2018 3.10.1"
NEEDS_PLATE = "over 3/4 of F_c* a metal plate must spread the load; without one 3/4 is the limit here"
ROUNDING = 1.0 + 1e-9


def end_checks(run: PostRun) -> list[Check]:
    """Everything about the ends and the cuts of a post."""
    criterion = Criterion(run.post.name, "end grain at top and foot", END_GRAIN, "ratio", notes=(NEEDS_PLATE,))
    whole = govern(criterion, run.combinations, partial(_grain, run, run.pressed, None))
    return [whole, *_top(run), *_foot(run), *_cuts(run)]


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
            found.append(stated(name, f"seat of {seat.beam}", "load path", "refer", text))
        criterion = Criterion(name, f"end grain under {seat.beam}", END_GRAIN, "ratio", notes=(NEEDS_PLATE,))
        found.append(govern(criterion, run.combinations, partial(_grain, run, run.pressed_by(seat.beam), area)))
    top, needed = run.sides[0] * run.sides[1], sum(area or 0.0 for area in areas)
    if needed > top * ROUNDING:
        text = f"together they need {show(needed, 'area')}, the top has {show(top, 'area')}"
        found.append(stated(name, "seats on the top", "load path", "refer", text))
    found += [
        stated(name, f"{transfer.from_piece} on its side", "NDS 2018 15.4.2", "refer",
               "what hangs on a face of a post presses off centre by more than half a side: not checked here")
        for transfer in run.context.transfers if transfer.applied == "side" and not is_bracket(transfer)
    ]  # fmt: skip
    return found


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
        found.append(stated(post.name, what, "load path", "refer", text))
    return [*found, *wood_under(post.name, run.combinations, run.pressed, b, l_b, under, context)]


def _cuts(run: PostRun) -> list[Check]:
    """Net area anywhere, against F_c* (NDS 2018 3.6.3); what is cut from one side only also bends the post: refer."""
    name, found = run.post.name, list[Check]()
    for cut in run.post.cuts:
        text = words(cut)
        if run.section.round or cut.kind in ("notch", "taper") or cut.depth >= run.section.d:
            why = "wood missing on one side puts the load off centre and weakens the post against buckling"
            found.append(stated(name, f"net section at {text}", "NDS 2018 3.6.3", "refer", why))
            continue
        criterion = Criterion(name, f"net section at {text}", "NDS 2018 3.6.3", "ratio")
        found.append(govern(criterion, run.combinations, partial(_net, run, cut)))
        why = "whether the cut lies in the part that buckles is not decided here"
        found.append(stated(name, f"buckling with {text}", "NDS 2018 3.6.3", "refer", why))
    return found


def _net(run: PostRun, cut: Cut, pad: Pad, which: int | slice) -> Outcome:
    net = net_section(pad, run.section, cut)
    P = pad.take("P", at(run.pressed, which), "lbf", note="all that arrives, own weight included")
    return end_grain(pad, run.wood, run.section, P=P, C_D=duration(pad, run.combinations, which), plate=True, A_n=net.A)
