"""From what lies on a straight beam to the frame and the loads that stand for it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

import numpy as np

from .chains import Indices
from .frame import Bar, Frame, Loads, Support
from .polynomial import Array
from .structure import stacked

if TYPE_CHECKING:
    from .contact import Contact

Amount = float | Array
SNAP = 1e-9  # part of the length within which two places are one, also when a Line is read


class PointLoad(NamedTuple):
    """A force `P` at `s`, down positive, and a moment, counter-clockwise positive."""

    s: Amount
    P: Amount = 0.0
    moment: Amount = 0.0


class LineLoad(NamedTuple):
    """A vertical load from `s0` to `s1`, down positive, `w0` to `w1` (None: as w0) in a straight line.

    `per` 'length': per length of the beam. 'projection': per length in plan (they differ on a slope).
    """

    s0: Amount
    s1: Amount
    w0: Amount
    w1: Amount | None = None
    per: Literal["length", "projection"] = "length"


class Settlement(NamedTuple):
    """The support with this index goes down by `down` (for a spring: what the spring stands on)."""

    support: int
    down: Amount


class Section(NamedTuple):
    """A stretch of the beam with stiffness of its own."""

    s0: Amount
    s1: Amount
    EI: Amount
    GA_s: Amount = np.inf


class Prop(NamedTuple):
    """Something under the beam at `s` that pushes up once the beam has come down by `gap`; rigid or a spring."""

    s: Amount
    gap: Amount
    stiffness: bool | Amount = True


BeamLoad = PointLoad | LineLoad | Settlement


def beam_frame(
    length: Amount, supports: Sequence[tuple[Amount, str | Amount]], cases: Sequence[Sequence[BeamLoad]],
    EI: Amount | None, GA_s: Amount, EA: Amount | None, sections: Sequence[Section], stations: Sequence[Amount],
    slope: float, props: Sequence[Prop],
) -> tuple[Frame, Loads, list[Contact]]:  # fmt: skip
    """Cut the beam wherever something changes; bar 0 is the leftmost. Arguments, errors: see `line.straight_beam`."""
    places = _Places(length)
    at_support = [places.add(s, f"support {i}") for i, (s, _) in enumerate(supports)]
    at_prop = [places.add(prop.s, f"prop {i}") for i, prop in enumerate(props)]
    at_section = [places.stretch(section.s0, section.s1, f"section {i}") for i, section in enumerate(sections)]
    for i, s in enumerate(stations):
        places.add(s, f"station {i}")
    at_load = [[_places_of(load, places, f"case {c}, load {i}") for i, load in enumerate(case)]
               for c, case in enumerate(cases)]  # fmt: skip
    s, number = places.merged()
    if not cases:
        raise ValueError("cases: there is none; give at least one list of loads (it may be empty)")
    held = [int(number[k]) for k in at_support]
    if len(set(held)) < len(held):
        raise ValueError("supports: two of them are in the same place")
    angle = np.deg2rad(slope)
    nodes = np.stack([s * np.cos(angle), s * np.sin(angle)], axis=-1)
    bars = _bars(
        s.shape[-1] - 1, length, EI, GA_s, EA, sections, [(number[a], number[b]) for a, b in at_section], slope
    )
    frame = Frame(nodes, bars, _supports(held, [kind for _, kind in supports], slope))
    loads = _loads(cases, at_load, s, number, angle, len(supports))
    return frame, loads, _contacts(props, [int(number[k]) for k in at_prop])


def _contacts(props: Sequence[Prop], nodes: Sequence[int]) -> list[Contact]:
    if not props:
        return []
    from .contact import Contact

    return [Contact(node, prop.gap, prop.stiffness) for prop, node in zip(props, nodes, strict=True)]


class _Places:
    """The places that matter on a beam, to be merged where they coincide."""

    def __init__(self, length: Amount) -> None:
        self.length = np.asarray(length, dtype=float)
        if not np.all((self.length > 0.0) & np.isfinite(self.length)):
            raise ValueError(f"length = {length!r}; it must be greater than zero")
        self.near = SNAP * self.length
        self.all: list[Any] = [np.zeros_like(self.length), self.length]

    def add(self, s: Amount, what: str) -> int:
        if not np.all((s >= -self.near) & (s <= self.length + self.near)):
            raise ValueError(f"{what}: s = {s!r} is not on the beam, which runs from 0 to {self.length!r}")
        self.all.append(np.clip(s, 0.0, self.length))
        return len(self.all) - 1

    def stretch(self, s0: Amount, s1: Amount, what: str) -> tuple[int, int]:
        if not np.all(np.asarray(s1) - s0 > self.near):
            raise ValueError(f"{what}: from {s0!r} to {s1!r} has no length")
        return self.add(s0, what), self.add(s1, what)

    def merged(self) -> tuple[Array, Indices]:
        """The places in order, (*F, n), and the number among them of each place that was added."""
        every = stacked(self.all)
        order = np.argsort(every.reshape(-1, every.shape[-1])[0], kind="stable")
        sorted_ = every[..., order]
        gap, near = np.diff(sorted_, axis=-1), self.near[..., None]
        batch = tuple(range(gap.ndim - 1))
        apart = np.any(gap > near, axis=batch)
        if np.any(gap < -near) or np.any(apart & np.any(gap <= near, axis=batch)):
            raise ValueError("the places along the beam do not come in the same order in the whole batch; split it")
        first = np.concatenate([[True], apart])
        number = np.empty(every.shape[-1], dtype=np.intp)
        number[order] = np.cumsum(first) - 1
        kept = sorted_[..., first]
        kept[..., -1] = self.length
        return kept, number


def _places_of(load: BeamLoad, places: _Places, where: str) -> tuple[int, int]:
    amounts = load[1:] if not isinstance(load, LineLoad) else (load.w0, 0.0 if load.w1 is None else load.w1)
    if not all(np.all(np.isfinite(amount)) for amount in amounts):
        raise ValueError(f"{where}: {load} holds something that is not a finite number")
    if isinstance(load, LineLoad):
        return places.stretch(load.s0, load.s1, where)
    place = places.add(load.s, where) if isinstance(load, PointLoad) else 0
    return place, place


def _bars(
    n: int, length: Amount, EI: Amount | None, GA_s: Amount, EA: Amount | None, sections: Sequence[Section],
    spans: Sequence[tuple[int, int]], slope: float,
) -> list[Bar]:  # fmt: skip
    if EA is None and slope != 0.0:
        raise ValueError("EA must be given for a beam on a slope")
    stiffness: list[tuple[Amount, Amount] | None] = [None if EI is None else (EI, GA_s)] * n
    taken: dict[int, int] = {}
    for i, (section, (a, b)) in enumerate(zip(sections, spans, strict=True)):
        for bar in range(a, b):
            if bar in taken:
                raise ValueError(f"section {i}: overlaps section {taken[bar]}")
            taken[bar], stiffness[bar] = i, (section.EI, section.GA_s)
    made = []
    for bar, of_bar in enumerate(stiffness):
        if of_bar is None:
            raise ValueError("EI must be given where no section covers the beam")
        # level: any EA does; 100 EI/L^2 keeps the axial numbers near the bending ones
        axial = EA if EA is not None else 100.0 * np.asarray(of_bar[0]) / np.asarray(length) ** 2
        made.append(Bar(bar, bar + 1, axial, *of_bar))
    return made


def _supports(nodes: Sequence[int], kinds: Sequence[str | Amount], slope: float) -> list[Support]:
    for i, kind in enumerate(kinds):
        if isinstance(kind, str) and kind not in ("pin", "roller", "fixed"):
            raise ValueError(
                f"support {i}: {kind!r} is not known; known are 'pin', 'roller', 'fixed' or a spring stiffness"
            )
    words = [kind if isinstance(kind, str) else "spring" for kind in kinds]
    if slope != 0.0 and words.count("pin") > 1:
        raise ValueError(
            "two pins on a slope push against each other: make one a roller, or use a Frame for the thrust"
        )
    holding = next((words.index(word) for word in ("pin", "fixed") if word in words), 0)
    return [
        Support(node, ux=i == holding, uy=True if isinstance(kind, str) else kind, rz=word == "fixed")
        for i, (node, kind, word) in enumerate(zip(nodes, kinds, words, strict=True))
    ]


def _loads(
    cases: Sequence[Sequence[BeamLoad]], at: Sequence[Sequence[tuple[int, int]]], s: Array, number: Indices,
    angle: float, n_supports: int,
) -> Loads:  # fmt: skip
    shapes = [np.shape(x) for case in cases for load in case for x in load if x is not None and not isinstance(x, str)]
    batch = np.broadcast_shapes(*shapes) if shapes else ()
    lead, n = (*batch, len(cases)), s.shape[-1]
    nodal, settlement = np.zeros((*lead, n, 3)), np.zeros((*lead, n_supports, 3))
    down = np.zeros((*np.broadcast_shapes(batch, s.shape[:-1]), len(cases), n - 1, 2))
    for c, case in enumerate(cases):
        for i, load in enumerate(case):
            a, b = (int(number[k]) for k in at[c][i])
            if isinstance(load, PointLoad):
                nodal[..., c, a, 1] -= load.P
                nodal[..., c, a, 2] += load.moment
            elif isinstance(load, Settlement):
                if isinstance(load.support, bool) or not 0 <= load.support < n_supports:
                    raise ValueError(f"case {c}, load {i}: there is no support {load.support}")
                settlement[..., c, load.support, 1] -= load.down
            else:
                if load.per not in ("length", "projection"):
                    raise ValueError(f"case {c}, load {i}: per = {load.per!r}; it must be 'length' or 'projection'")
                factor = abs(np.cos(angle)) if load.per == "projection" else 1.0
                w0, w1 = (
                    np.asarray(w, dtype=float)[..., None] for w in (load.w0, load.w0 if load.w1 is None else load.w1)
                )
                s0, s1 = (np.asarray(x, dtype=float)[..., None] for x in (load.s0, load.s1))
                w = factor * (w0 + (w1 - w0) * np.clip((s[..., a : b + 1] - s0) / (s1 - s0), 0.0, 1.0))
                down[..., c, a:b, 0] += w[..., :-1]
                down[..., c, a:b, 1] += w[..., 1:]
    return Loads(nodal, np.stack([-np.sin(angle) * down, -np.cos(angle) * down], axis=-1), settlement)
