"""Templates of joints: the notch of a step with the foot that goes into it, a tenon with the holes of its pegs.

Each piece lies level with its end on the left; what is notched has its notch on top. For the other side turn it over.
"""

from __future__ import annotations

import math

from ...checks.core.pictures.others import JointBar, JointPicture
from ...errors import BeamcheckError
from ...model.joints.joint import Joint
from ...model.joints.parts import Step, Tenon
from ...units import show, show_inches
from .geometry import Arrow, Hole, Label, Point, polygon
from .shapes import APART, OUTSIDE, Drawn

SQUARE = 1.0  # deg
INTO = 1.6  # depths of a piece that are shown beyond its cuts


def joint_drawn(joint: Joint, picture: JointPicture) -> Drawn:
    """The cuts of a step or of a tenon.

    Raises BeamcheckError if the joint has no cut that is drawn here; its text says which have.
    """
    bars = {bar.name: bar for bar in picture.bars}
    roles = {part: [bars[one.name] for one in joint.members if one.part == part] for part in
             ("notched", "landing", "mortised", "tenoned")}  # fmt: skip
    if joint.step is not None and roles["landing"]:
        return _step(joint.step, roles["notched"][0], roles["landing"][0])
    if joint.tenon is not None:
        return _tenon(joint.tenon, roles["mortised"][0], roles["tenoned"][0])
    raise BeamcheckError(f"{joint.name} has no template: they are made of steps and of tenons that meet square")


def step_points(step: Step, depth: float, d_landing: float, beta: float) -> tuple[Point, Point, Point]:
    """Top of the front face, root and heel of the notch: in the notched piece, its end at x = 0, its bottom at y = 0.

    beta : between the two pieces, deg.
    """
    half = {"bisector": beta / 2.0, "square to the landing piece": beta, "square to the notched piece": 0.0}
    run = step.depth * math.tan(math.radians(half[step.face]))
    front = (step.behind - run, depth)
    heel = front[0] + d_landing / math.sin(math.radians(beta))
    return front, (step.behind, depth - step.depth), (heel, depth)


def foot_points(front: Point, root: Point, heel: Point, d_landing: float, beta: float) -> tuple[Point, Point, Point]:
    """The same three points in the landing piece, which lies level, its toe on the left at its upper edge."""
    c, s = math.cos(math.radians(beta)), math.sin(math.radians(beta))

    def turned(point: Point) -> Point:
        x, y = point[0] - front[0], point[1] - front[1]
        return (c * x + s * y, d_landing - s * x + c * y)

    found = turned(front), turned(root), turned(heel)
    return found[0], found[1], found[2]


def _between(one: JointBar, other: JointBar) -> float:
    """Angle between the lines of two members, 0 to 90 deg."""
    apart = abs(math.remainder(one.angle - other.angle, 360.0))
    return min(apart, 180.0 - apart)


def _step(step: Step, notched: JointBar, landing: JointBar) -> Drawn:
    beta, drawn = _between(notched, landing), Drawn()
    if beta < SQUARE:
        raise BeamcheckError(f"{landing.name} lies along {notched.name}: there is no notch to draw")
    d, d_l = step.wide or notched.depth, landing.depth
    front, root, heel = step_points(step, d, d_l, beta)
    if front[0] <= 0.0:
        raise BeamcheckError("the front face of the notch reaches beyond the end of the piece: more wood behind it")
    long = heel[0] + INTO * d
    drawn.height, drawn.reach = d, long
    drawn.contours.append(polygon("CUT", (long, 0.0), (0.0, 0.0), (0.0, d), front, root, heel, (long, d), closed=False))
    drawn.across(0.0, root[0], -OUTSIDE)
    drawn.across(front[0], heel[0], d + OUTSIDE)
    drawn.upright(root[1], d, long + OUTSIDE)
    drawn.upright(0.0, d, -OUTSIDE)
    drawn.labels.append(Label(0.0, -1.0, f"{notched.name}: from its end, or the next cut"))
    drawn.grain.append(Arrow((0.3 * long, 0.2 * d), (0.7 * long, 0.2 * d)))
    base = d + APART + 1.0
    toe, inner, under = foot_points(front, root, heel, d_l, beta)
    far = max(inner[0], under[0]) + INTO * d_l
    places = [(far, 0.0), under, inner, toe, (far, d_l)]
    drawn.contours.append(polygon("CUT", *((x, y + base) for x, y in places), closed=False))
    drawn.across(toe[0], inner[0], base - OUTSIDE)
    drawn.upright(base, base + d_l, far + OUTSIDE)
    drawn.labels.append(Label(0.0, base + d_l + 0.6, f"{landing.name}: its foot"))
    drawn.grain.append(Arrow((far - 1.2 * d_l, base + 0.5 * d_l), (far - 0.2 * d_l, base + 0.5 * d_l)))
    drawn.notes += [
        f"{show(beta, 'angle')} between the pieces; the front face: {step.face}.",
        "Lay the end line on the end of the piece and the edges on its edges; for the other side turn it over.",
    ]
    if step.contact is not None and step.contact < step.depth:
        drawn.notes.append(f"Of the front face {show_inches(step.contact)} square to {landing.name} are to bear.")
    return drawn


def _tenon(tenon: Tenon, mortised: JointBar, tenoned: JointBar) -> Drawn:
    """The end of the tenoned piece from its side: the tenon to the left, its shoulder upright, its pegs."""
    if abs(_between(mortised, tenoned) - 90.0) > SQUARE:
        raise BeamcheckError("tenons are drawn where the pieces meet square: this one is cut by a sketch of its own")
    drawn, d = Drawn(), tenoned.depth
    low, shoulder = 0.5 * (d - tenon.width), tenon.length
    high, long = low + tenon.width, tenon.length + tenon.housing + INTO * d
    drawn.height, drawn.reach = d, long
    drawn.contours.append(
        polygon("CUT", (long, 0.0), (shoulder, 0.0), (shoulder, low), (0.0, low), (0.0, high), (shoulder, high),
                (shoulder, d), (long, d), closed=False)
    )  # fmt: skip
    drawn.across(0.0, shoulder, -OUTSIDE)
    drawn.upright(low, high, -OUTSIDE)
    drawn.upright(0.0, d, long + OUTSIDE)
    if tenon.housing > 0.0:
        face = shoulder + tenon.housing
        drawn.contours.append(polygon("NOTES", (face, 0.0), (face, d), closed=False, dashed=True))
        drawn.across(shoulder, face, d + OUTSIDE)
        drawn.notes.append(f"Dashed: the face of {mortised.name}; the whole end is let in to the shoulder.")
    if (pegs := tenon.pegs) is not None:
        for k in range(pegs.count):
            y = low + pegs.side + k * (pegs.spacing or 0.0)
            drawn.holes.append(Hole(pegs.end, y, pegs.diameter, pegs.diameter, f"peg {k + 1}"))
        drawn.across(0.0, pegs.end, -OUTSIDE - 0.35)
    drawn.labels.append(Label(0.0, -1.2, f"{tenoned.name}: its end, {show_inches(tenon.thickness)} thick tenon"))
    drawn.grain.append(Arrow((long - 1.2 * d, 0.5 * d), (long - 0.2 * d, 0.5 * d)))
    drawn.notes.append("Lay the edges on the edges of the piece; the shoulders on both faces alike.")
    return drawn
