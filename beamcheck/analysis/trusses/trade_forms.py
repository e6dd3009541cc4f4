"""The forms of frame that the trade has names for, by their measures in inches, left heel at (0, 0).

Rafters, ties and posts of bents are one stick each; posts, struts, braces and collars are hinged at both ends.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from ...errors import OutOfRange, UnknownName
from .plan import Plan, Stick

Measures = Mapping[str, float]


def king_post(m: Measures) -> Plan:
    """Rafters, tie, king post, and struts from mid-rafter to the foot of the post."""
    L, H = m["span"], m["rise"]
    points = {
        "left heel": (0.0, 0.0), "right heel": (L, 0.0), "foot of the king post": (L / 2, 0.0),
        "left rafter, middle": (L / 4, H / 2), "right rafter, middle": (0.75 * L, H / 2), "ridge": (L / 2, H),
    }  # fmt: skip
    sticks = (
        Stick("left rafter", ("left heel", "left rafter, middle", "ridge")),
        Stick("right rafter", ("right heel", "right rafter, middle", "ridge")),
        Stick("tie", ("left heel", "foot of the king post", "right heel"), slips=True),
        Stick("king post", ("foot of the king post", "ridge"), slips=True),
        Stick("left strut", ("foot of the king post", "left rafter, middle"), slips=True),
        Stick("right strut", ("foot of the king post", "right rafter, middle"), slips=True),
    )
    return Plan(points, sticks, ("left heel", "right heel"))


def queen_post(m: Measures) -> Plan:
    """Rafters to the heads of two posts, a straining beam between these, a tie that runs through."""
    L, H, a = m["span"], m["rise"], m["post_from_heel"]
    _less(a, L / 2, "post_from_heel", "half the span")
    points = {
        "left heel": (0.0, 0.0), "right heel": (L, 0.0), "left post, foot": (a, 0.0), "right post, foot": (L - a, 0.0),
        "left post, head": (a, H), "right post, head": (L - a, H),
    }  # fmt: skip
    sticks = (
        Stick("left rafter", ("left heel", "left post, head")),
        Stick("right rafter", ("right heel", "right post, head")),
        Stick("straining beam", ("left post, head", "right post, head")),
        Stick("tie", ("left heel", "left post, foot", "right post, foot", "right heel"), slips=True),
        Stick("left post", ("left post, foot", "left post, head"), slips=True),
        Stick("right post", ("right post, foot", "right post, head"), slips=True),
    )
    return Plan(points, sticks, ("left heel", "right heel"))


def scissor(m: Measures) -> Plan:
    """Chords from each heel to the middle of the far rafter, pinned where they cross; king post from there."""
    L, H = m["span"], m["rise"]
    points = {
        "left heel": (0.0, 0.0), "right heel": (L, 0.0), "left rafter, middle": (L / 4, H / 2),
        "right rafter, middle": (0.75 * L, H / 2), "ridge": (L / 2, H), "crossing": (L / 2, H / 3),
    }  # fmt: skip
    sticks = (
        Stick("left rafter", ("left heel", "left rafter, middle", "ridge")),
        Stick("right rafter", ("right heel", "right rafter, middle", "ridge")),
        Stick("left chord", ("left heel", "crossing", "right rafter, middle"), hinged="all", slips=True),
        Stick("right chord", ("right heel", "crossing", "left rafter, middle"), hinged="all", slips=True),
        Stick("king post", ("crossing", "ridge"), slips=True),
    )
    return Plan(points, sticks, ("left heel", "right heel"))


def collar_tie(m: Measures) -> Plan:
    """A pair of rafters with a collar between them, or a tie at their feet where its height is 0."""
    L, H, h = m["span"], m["rise"], m["collar_height"]
    _less(h, H, "collar_height", "the rise")
    points = {"left heel": (0.0, 0.0), "right heel": (L, 0.0), "ridge": (L / 2, H)}
    ends = ("left heel", "right heel")
    left: tuple[str, ...] = ("left heel", "ridge")
    right: tuple[str, ...] = ("right heel", "ridge")
    if h > 0.0:
        x = L / 2 * h / H
        points |= {"left end of the collar": (x, h), "right end of the collar": (L - x, h)}
        ends = ("left end of the collar", "right end of the collar")
        left, right = (left[0], ends[0], "ridge"), (right[0], ends[1], "ridge")
    sticks = (
        Stick("left rafter", left),
        Stick("right rafter", right),
        Stick("collar" if h > 0.0 else "tie", ends, slips=True),
    )
    return Plan(points, sticks, ("left heel", "right heel"))


def braced_bent(m: Measures) -> Plan:
    """Two posts pinned at foot and head, a beam over them, knee braces."""
    L, h, a, b = m["span"], m["height"], m["brace_on_beam"], m["brace_on_post"]
    _less(a, L / 2, "brace_on_beam", "half the span")
    _less(b, h, "brace_on_post", "the height")
    points = {
        "left foot": (0.0, 0.0), "left brace, foot": (0.0, h - b), "left head": (0.0, h),
        "left brace, head": (a, h), "right brace, head": (L - a, h), "right head": (L, h),
        "right brace, foot": (L, h - b), "right foot": (L, 0.0),
    }  # fmt: skip
    sticks = (
        Stick("left post", ("left foot", "left brace, foot", "left head")),
        Stick("right post", ("right foot", "right brace, foot", "right head")),
        Stick("beam", ("left head", "left brace, head", "right brace, head", "right head"), hinged="none"),
        Stick("left brace", ("left brace, foot", "left brace, head"), slips=True),
        Stick("right brace", ("right brace, foot", "right brace, head"), slips=True),
    )
    return Plan(points, sticks, ("left foot", "right foot"), anchored=True)


FORMS: dict[str, tuple[Callable[[Measures], Plan], tuple[str, ...]]] = {
    "king post": (king_post, ("span", "rise")),
    "queen post": (queen_post, ("span", "rise", "post_from_heel")),
    "scissor": (scissor, ("span", "rise")),
    "collar tie": (collar_tie, ("span", "rise", "collar_height")),
    "braced bent": (braced_bent, ("span", "height", "brace_on_beam", "brace_on_post")),
}


def trade_form(name: str, measures: Measures) -> Plan:
    """The plan of a form by its name.

    Raises
    ------
    BeamcheckError
        An unknown form, a measure that it lacks or has no use for, one that is not positive or does not fit.
    """
    if name not in FORMS:
        raise UnknownName("form of frame", name, list(FORMS))
    make, wanted = FORMS[name]
    for each in wanted:
        if each not in measures:
            raise OutOfRange(f"a {name} needs its {each}: give {', '.join(wanted)}", name)
    for each, value in measures.items():
        if each not in wanted:
            raise OutOfRange(f"a {name} has no {each}: give {', '.join(wanted)}", name)
        if not value > 0.0 and not (each == "collar_height" and value == 0.0):
            raise OutOfRange(f"{each} is {value:g} in: it must be greater than zero", name)
    return make(measures)


def one_way(plan: Plan, push: tuple[str, ...], pull: tuple[str, ...]) -> Plan:
    """The plan with sticks that only push (dry shoulders) or only pull (rods, straps).

    Raises
    ------
    BeamcheckError
        An unknown stick, one named twice, one that runs through a point and so cannot drop out.
    """
    names = [stick.name for stick in plan.sticks]
    for name in (*push, *pull):
        if name not in names:
            raise UnknownName("stick", name, names)
        if name in push and name in pull:
            raise OutOfRange(f"{name!r} cannot both only push and only pull", "frame")
    sticks = []
    for stick in plan.sticks:
        acts = "push" if stick.name in push else "pull" if stick.name in pull else stick.acts
        if acts != "both" and len(stick.points) > 2 and stick.hinged != "all":
            raise OutOfRange(f"{stick.name!r} runs through a joint: it cannot act one way only", "frame")
        sticks.append(replace(stick, acts=acts))
    return replace(plan, sticks=tuple(sticks))


def _less(value: float, limit: float, name: str, of: str) -> None:
    if not value < limit:
        raise OutOfRange(f"{name} is {value:g} in: it must be less than {of}, {limit:g} in", "frame")
