"""What must be true of a frame as a whole before any of its figures count."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...calc.pad import SilentPad
from ...model.fields.evidence import read_evidence, vouched
from ...model.frames.frame import BY_POINTS, Frame
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.result import Check
from ..core.wood.material import modulus_min_prime, modulus_prime
from .member import MadeOf


def whole_checks(frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf]) -> Iterator[Check]:
    """Form, span, what holds it upright and from swaying, which members act one way only."""
    yield from _form(frame)
    yield _upright(frame)
    yield from _sway(frame, solved)
    yield from _buckling(frame, solved, made)
    yield from _collar(frame)
    yield from _one_way(frame, solved)


def _form(frame: Frame) -> Iterator[Check]:
    id, what = "frame.form", "its form"
    if frame.kind == "hammer beam":
        text = "a hammer beam thrusts, and loads meet in joints that no rule covers: the figures are for information"
        yield Check.refers(id, frame.name, what, "statics", text, ask=ask("frame_hammer_beam", frame.name))
    x = [frame.shape.points[foot][0] for foot in frame.shape.feet]
    most = judgment("longest span of a frame").value
    if max(x) - min(x) > most:
        text = f"{show(max(x) - min(x), 'length')} from foot to foot: over {show(most, 'length')} it is for an engineer"
        yield Check.refers(id, frame.name, "its span", "judgment", text, ask=ask("frame_long", frame.name))


def _upright(frame: Frame) -> Check:
    """Out of its plane a frame has no strength of its own."""
    id, what, said = "frame.upright", "held upright and out of its plane", frame.upright_by.strip()
    if vouched(said, "structure"):
        return Check.keeps_rule(id, frame.name, what, "NDS 2018 Appendix A", f"by others: {said}; not checked here")
    text = "what holds it upright and its members out of its plane is not said"
    if said:
        text = f"held by {said!r}: {read_evidence(said).missing_for('structure')}"
    asked = ask("frame_upright", frame.name, f"frame.{frame.name}.upright_by")
    return Check.refers(id, frame.name, what, "NDS 2018 Appendix A", text, ask=asked)


def _sway(frame: Frame, solved: SolvedFrame) -> Iterator[Check]:
    """Knee braces do not hold a bent from swaying as far as posts ask for it."""
    if solved.triangulated or frame.kind not in ("braced bent", *BY_POINTS):
        return
    id, what, said = "frame.sway", "held from swaying in its plane", frame.sway_held_by.strip()
    if vouched(said, "structure"):
        yield Check.keeps_rule(id, frame.name, what, "NDS 2018 3.7.1", f"by others: {said}; not checked here")
        return
    text = "what keeps its top from moving sideways is not said: braces alone leave posts 2.3 to 9.8 times as long"
    if said:
        text = f"held by {said!r}: {read_evidence(said).missing_for('structure')}"
    asked = ask("frame_sway", frame.name, f"frame.{frame.name}.sway_held_by")
    yield Check.refers(id, frame.name, what, "NDS 2018 3.7.1", text, ask=asked)


def _collar(frame: Frame) -> Iterator[Check]:
    """A collar above the lower third bends the rafters and is no rafter tie."""
    if frame.kind != "collar tie" or not frame.rise or not frame.collar_height:
        return
    if frame.collar_height > frame.rise * judgment("lower part of a roof").value:
        text = "the collar sits above the lower third: it bends the rafters and is no rafter tie by the code"
        yield Check.refers("frame.collar", frame.name, "height of the collar", "IRC R802.5.2", text,
                           ask=ask("frame_collar", frame.name))  # fmt: skip


def _one_way(frame: Frame, solved: SolvedFrame) -> Iterator[Check]:
    """A dry joint that opens must not lose its seat."""
    for path in frame.shape.sticks:
        idle = solved.members[path.name].idle
        if path.acts != "both" and bool(np.any(idle)):
            worst = solved.combinations[int(np.argmax(idle))].name
            text = (
                f"{path.name} takes no part under {worst}: its joint opens, and whether it keeps its seat is not known"
            )
            asked = ask("frame_opens", f"{frame.name}: {path.name}", member=path.name)
            yield Check.refers("frame.opens", frame.name, f"{path.name} opens", "statics", text, ask=asked)


def in_plane_length(frame: Frame, solved: SolvedFrame, stick: str) -> tuple[float, str]:
    """The length of a member that may buckle in the plane of the frame, inches, and why."""
    panels = solved.members[stick].panels
    whole = math.fsum(panels)
    if frame.kind == "collar tie" and frame.collar_height and stick.endswith("rafter"):
        K = judgment("rafter with a collar, feet free").value
        return K * whole, f"{K:g} of the whole rafter: a collar does not brace it (elastic critical load, feet free)"
    if frame.kind in ("braced bent", "hammer beam") and frame.shape.slope(stick) > 60.0:
        return whole, "the whole height: braces do not hold a post"
    if frame.kind in BY_POINTS and not solved.triangulated:
        return whole, "from end to end: no triangles hold the points between"
    return max(panels), "the longest panel between two points of the frame (K = 1)"


def eccentric(frame: Frame, stick: str) -> bool:
    """Whether a member is a strut, post, brace or collar, pressed through joints at its ends alone."""
    path = frame.shape.stick(stick)
    return path.slips and len(path.points) == 2


def _buckling(frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf]) -> Iterator[Check]:
    """A frame without triangles may buckle as a whole: its elastic critical load with the modulus for stability."""
    swaying = frame.kind in ("braced bent", *BY_POINTS)  # asked about, and held by others
    if solved.triangulated or swaying or any(path.acts != "both" for path in frame.shape.sticks):
        return
    pad = SilentPad()
    share = min(float(modulus_min_prime(pad, one.wood)) / float(modulus_prime(pad, one.wood)) for one in made.values())
    factor, column = solved.buckling()
    if factor == math.inf:
        return
    text = f"elastic, of the whole in its plane, with the modulus for stability: {factor * share:.3g} times the loads"
    yield Check.of_ratio(
        "frame.buckling", frame.name, "buckling of the whole in its plane", "NDS 2018 3.7.1.3", text,
        demand=1.0, capacity=factor * share, kind="ratio", combination=solved.combinations[column].name,
    )  # fmt: skip
