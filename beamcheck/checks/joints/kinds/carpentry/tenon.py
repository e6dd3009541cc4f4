"""Mortise and tenon: shear by the housing or else by the tenon, push by the shoulders, pull by pegs or not at all."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal

import numpy as np

from .....calc.core import Number
from .....calc.pad import Pad
from .....formulas.joints import steps, tenons
from .....formulas.wood import bearing as br
from .....formulas.wood import shear as sh
from .....model.joints.parts import Tenon
from .....model.sticks import Cut
from .....units import show
from .....values.judgment import judgment
from ....core.result import Check
from ....core.trivial import negligible
from ....core.wood.govern import Criterion, at, duration, govern
from ....core.wood.group_cut import GroupCut
from ....core.wood.material import bearing_prime, compression_star, shear_prime
from ....core.wood.strength import Outcome
from ...meeting import Arriving, Meeting, angle_between, wood_checks
from ..base import Kind, into_which
from .pegged import Pegged, pegged_checks

Array = np.ndarray
PATH = "load path"
HAIR = 1e-6


class MortiseAndTenon(Kind):
    """A tenon in a mortise."""

    name = "mortise and tenon"

    def checks(self, meeting: Meeting) -> list[Check]:
        way = [into_which(meeting)] if meeting.bears is False else []
        meeting = meeting.with_what_comes_from_outside()
        return [*_fits(meeting), *way, *_shear(meeting), *_push(meeting), *_pull(meeting), *wood_checks(meeting)]

    def cuts(self, meeting: Meeting, member: Arriving, place: float, ahead: bool) -> list[GroupCut | Cut]:
        tenon, mortised, tenoned = meeting.joint.tenon, meeting.the("mortised"), meeting.the("tenoned")
        if tenon is None or member is not mortised:
            return []
        s = max(math.sin(math.radians(angle_between(mortised, tenoned))), 0.2)
        deep = min(tenon.length + tenon.housing, member.d)
        top = float(tenoned.direction @ member.up) > 0.0
        middle = member.d - 0.5 * deep if top else 0.5 * deep
        long = tenon.width / s
        found: list[GroupCut | Cut] = [
            Cut.model_construct(kind="mortise", at=max(place, 0.0), length=long, depth=deep, width=tenon.thickness,
                from_bottom=middle)
        ]  # fmt: skip
        if tenon.housing > 0.0:
            face: Literal["top", "bottom"] = "top" if top else "bottom"
            found.append(
                Cut.model_construct(
                    kind="notch", at=max(place, 0.0), length=tenoned.d / s, depth=tenon.housing, face=face
                )
            )
        return found

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        tenon = meeting.joint.tenon
        assert tenon is not None
        yield "the tenon beside a rule before it goes in, and the mortise a quarter inch deeper than it is long"
        yield "shoulders tight all over; the bottom of the housing tight under the piece"
        if tenon.pegs is not None:
            pegs = tenon.pegs
            yield f"species, straight grain and dryness of the {pegs.count} pegs, {show(pegs.diameter, 'length')} thick"
            yield (
                f"{show(pegs.end, 'length')} from the pegs to the end of the tenon, {show(pegs.edge, 'length')} to the "
                "face of the mortised piece, measured before the pieces are closed"
            )
            yield "each peg through both cheeks, none cut to a stub; no check through the line of the pegs"
        yield "moisture of pegs and frame metered on the day, the meter in the picture"

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        yield "What a housing carries is not added to what the tenon does; pegs carry nothing of either."
        yield "Glue and the draw of pegs count for nothing; the joint turns freely."


def _tenon(meeting: Meeting) -> Tenon:
    tenon = meeting.joint.tenon
    assert tenon is not None
    return tenon


def _fits(meeting: Meeting) -> Iterator[Check]:
    """The tenon lies in both pieces."""
    tenon, mortised, tenoned = _tenon(meeting), meeting.the("mortised"), meeting.the("tenoned")
    id, what = "joint.tenon_fits", "tenon in its pieces"
    wrong = []
    if tenon.thickness + 2.0 * tenon.cheek > mortised.b + HAIR:
        wrong.append(f"tenon and two cheeks are thicker than {mortised.name}, {show(mortised.b, 'length')}")
    if tenon.thickness >= tenoned.b - HAIR:
        wrong.append(f"the tenon is as thick as {tenoned.name} and has no shoulder")
    if tenon.width > tenoned.d + HAIR:
        wrong.append(f"the tenon is wider than {tenoned.name}, {show(tenoned.d, 'length')}")
    if tenon.length + tenon.housing > mortised.d + HAIR:
        wrong.append(f"tenon and housing go deeper than {mortised.name}, {show(mortised.d, 'length')}")
    if wrong:
        yield Check.breaks_rule(id, meeting.name, what, "geometry", "; ".join(wrong))
    else:
        yield Check.keeps_rule(id, meeting.name, what, "geometry", "it lies in both")


def _across(meeting: Meeting) -> Array:
    """(combinations,) of the tenoned piece square to it, lbf."""
    return np.asarray(np.abs(meeting.the("tenoned").down))


def _shear(meeting: Meeting) -> Iterator[Check]:
    """What comes square to the tenoned piece: the housing takes it, or else the tenon."""
    tenon, one = _tenon(meeting), meeting.the("tenoned")
    most = float(np.max(_across(meeting), initial=0.0))
    if most <= negligible():
        return
    lifted = float(np.max(-one.down, initial=0.0))
    if tenon.housing > 0.0 and meeting.next_to_nothing(lifted):
        yield from _housing(meeting)
    else:
        yield from _by_the_tenon(meeting)


def _housing(meeting: Meeting) -> Iterator[Check]:
    tenon, one, other = _tenon(meeting), meeting.the("tenoned"), meeting.the("mortised")
    combinations, b = meeting.combinations, min(one.b, other.b) - tenon.thickness

    def bears(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(_across(meeting), which), "lbf", note=f"of {one.name} on the housing")
        F = bearing_prime(pad, one.wood, 1.0)
        breadth = pad.take("b", b, "in", note="less the mortise, which may be cut through the ledge")
        R = pad(tenons.housing_capacity, F_c_perp_prime=F, b=breadth, l_h=tenon.housing)
        return Outcome(V, R, V / R)

    criterion = Criterion(meeting.name, f"{one.name} on the ledge of its housing", "NDS 2018 3.10.2", "force",
                          one.name, id="joint.housing")  # fmt: skip
    yield govern(criterion, combinations, bears)

    def on_the_end_grain(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(_across(meeting), which), "lbf")
        f = pad.take("f_c", V / (b * tenon.housing), "psi", note=f"on the ledge of {other.name}")
        F_star = compression_star(pad, other.wood, duration(pad, combinations, which))
        theta = 90.0 - angle_between(one, other)
        F = pad(br.bearing_at_angle, F_c_star=F_star, F_c_perp_prime=bearing_prime(pad, other.wood, 1.0),
                theta=abs(theta))  # fmt: skip
        return Outcome(f, F, f / F)

    criterion = Criterion(meeting.name, f"ledge of {other.name} under {one.name}", "NDS 2018 3.10.1, 3.10.3", "stress",
                          other.name, id="joint.ledge")  # fmt: skip
    yield govern(criterion, combinations, on_the_end_grain)
    what = f"wood of {other.name} under the housing"
    under = tenon.under_housing
    if under is None:
        text = "how much wood stands under the housing is not said: its ledge shears off along the grain"
        yield meeting.refers("joint.ledge_shear", what, steps.STATICS, text, "joint_under_housing",
                             "tenon.under_housing")  # fmt: skip
        return
    k_v, least = judgment("largest over mean shear behind a step"), judgment("least length behind a step")
    if under < least.value - HAIR:
        text = f"{show(under, 'length')} under the housing: less than {show(least.value, 'length')}"
        yield Check.breaks_rule("joint.ledge_shear", meeting.name, what, steps.LIMITS, text)
        return

    def sheared(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(_across(meeting), which), "lbf")
        l_ef = pad(steps.step_shear_length, l_v=under, t_n=tenon.housing)
        k = pad.take("k_v", k_v.value, source=k_v.source, note="largest over mean shear")
        f_v = pad(steps.step_shear, T=V, b=b, l_v_ef=l_ef, k_v=k)
        F_v = shear_prime(pad, other.wood, duration(pad, combinations, which))
        return Outcome(f_v, F_v, f_v / F_v)

    criterion = Criterion(meeting.name, f"shear in the {what}", steps.LIMITS, "stress", other.name,
                          id="joint.ledge_shear")  # fmt: skip
    yield govern(criterion, combinations, sheared)


def _by_the_tenon(meeting: Meeting) -> Iterator[Check]:
    """Without a housing, or where the piece lifts: the tenon as a notched end, and its edge on the mortise."""
    tenon, one, other = _tenon(meeting), meeting.the("tenoned"), meeting.the("mortised")
    combinations = meeting.combinations
    left = min(tenon.width, one.d)

    def notched(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(_across(meeting), which), "lbf", note=f"of {one.name} through its tenon")
        F_v = shear_prime(pad, one.wood, duration(pad, combinations, which))
        d_n = pad.take("d_n", left, "in", note="height of the tenon: the wood beside it counts for nothing")
        R: Number = pad(sh.end_notch_tension_shear, F_v_prime=F_v, b=tenon.thickness, d=one.d, d_n=d_n)
        return Outcome(V, R, V / R)

    criterion = Criterion(meeting.name, f"tenon of {one.name} in shear", "NDS 2018 3.4.3.2", "force", one.name,
                          id="joint.tenon_shear")  # fmt: skip
    yield govern(criterion, combinations, notched)

    def bears(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(_across(meeting), which), "lbf")
        f = pad(br.bearing_stress, R=V, b=tenon.thickness, l_b=tenon.length)
        F = bearing_prime(pad, one.wood, 1.0)
        return Outcome(f, F, f / F)

    criterion = Criterion(meeting.name, f"tenon of {one.name} on its mortise", "NDS 2018 3.10.2", "stress", one.name,
                          id="joint.tenon_bearing")  # fmt: skip
    yield govern(criterion, combinations, bears)
    theta = 90.0 - angle_between(one, other)
    if abs(theta) > 45.0:
        text = f"{one.name} presses sideways on the mortise of {other.name}, nearly across its grain"
        yield meeting.refers("joint.tenon_bearing", f"mortise of {other.name}", "NDS 2018 3.10.2", text,
                             "joint_tenon_sideways")  # fmt: skip


def _push(meeting: Meeting) -> Iterator[Check]:
    """A push goes through the shoulders, less the mortise; never through the end of the tenon."""
    tenon, one, other = _tenon(meeting), meeting.the("tenoned"), meeting.the("mortised")
    push = np.maximum(-one.N, 0.0)
    most = float(np.max(push, initial=0.0))
    if most <= negligible():
        return
    what = f"shoulders of {one.name} on {other.name}"
    if tenon.shoulder != "tight":
        text = f"{show(most, 'force')} push on the shoulders; that they bear all over is not said"
        yield meeting.refers("joint.shoulder", what, PATH, text, "joint_shoulder", "tenon.shoulder")
    beta = angle_between(one, other)
    if beta < 45.0:
        text = f"{one.name} meets {other.name} at {show(beta, 'angle')}: a push slides along it, which needs a step"
        yield meeting.refers("joint.shoulder", what, PATH, text, "joint_flat_shoulder")
        return
    combinations = meeting.combinations
    b, d = min(one.b, other.b), one.d / math.sin(math.radians(beta))
    area = b * d - tenon.thickness * tenon.width
    for piece, theta in ((other, beta), (one, 90.0 - beta)):

        def bears(pad: Pad, which: int | slice, piece: Arriving = piece, theta: float = theta) -> Outcome:
            N = pad.take("N", at(push, which), "lbf", note=f"push in {one.name}")
            A = pad.take("A_n", area, "in2", note="of the shoulders, less the mortise")
            f = pad.take("f", N / A, "psi")
            F_star = compression_star(pad, piece.wood, duration(pad, combinations, which))
            F_perp = bearing_prime(pad, piece.wood, 1.0)
            F = pad(br.bearing_at_angle, F_c_star=F_star, F_c_perp_prime=F_perp, theta=theta)
            return Outcome(f, F, f / F)

        criterion = Criterion(meeting.name, f"{what}, in {piece.name}", "NDS 2018 3.10.3", "stress", piece.name,
                              id="joint.shoulder")  # fmt: skip
        yield govern(criterion, combinations, bears)
    slide = most * math.cos(math.radians(beta))
    if slide > negligible() and beta < 90.0 - 1.0 and tenon.housing <= 0.0:
        text = (
            f"{show(slide, 'force')} of the push slide along {other.name}: only the nose of the tenon, or a housing, "
            "stops it"
        )
        yield meeting.refers("joint.slide", f"{one.name} slides along {other.name}", PATH, text, "joint_slide",
                             "tenon.housing")  # fmt: skip
    elif slide > negligible() and beta < 90.0 - 1.0:

        def slides(pad: Pad, which: int | slice) -> Outcome:
            N = pad.take("N", at(push, which), "lbf", note=f"push in {one.name}")
            S = pad.take("N_s", N * math.cos(math.radians(beta)), "lbf", note=f"along {other.name}")
            f = pad.take("f", S / (b * tenon.housing), "psi", note="on the shoulder of the housing")
            F_star = compression_star(pad, one.wood, duration(pad, combinations, which))
            F = pad(br.bearing_at_angle, F_c_star=F_star, F_c_perp_prime=bearing_prime(pad, one.wood, 1.0), theta=beta)
            return Outcome(f, F, f / F)

        criterion = Criterion(meeting.name, f"{one.name} on the shoulder of its housing", "NDS 2018 3.10.3", "stress",
                              one.name, id="joint.slide")  # fmt: skip
        yield govern(criterion, combinations, slides)


def _pull(meeting: Meeting) -> list[Check]:
    """Pegs hold a pull, or nothing does."""
    tenon, one, other = _tenon(meeting), meeting.the("tenoned"), meeting.the("mortised")
    pull = np.maximum(one.N, 0.0)
    most = float(np.max(pull, initial=0.0))
    if meeting.next_to_nothing(most):
        return []
    what = f"pull of {one.name}"
    if tenon.pegs is None:
        text = f"{show(most, 'force')} pull {one.name} out of its mortise and no peg holds it: a strap, bolts or a rod"
        return [meeting.refers("joint.pull", what, PATH, text, "joint_pull")]
    return pegged_checks(Pegged(meeting, tenon, tenon.pegs, other, one, pull))
