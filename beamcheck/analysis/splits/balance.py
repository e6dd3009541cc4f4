"""How a bracket stands at the load of the split test: what holds the part beyond the worst check, for a drawing.

A statics that reaches that load is seldom the only one; the one that is told here is one of them, and shows that it
stands.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from ...records import dataclass
from ..frames.polynomial import Array
from .cut import Contact
from .holds import Held
from .programme import POINTS, Acting, Programme
from .split import LINES, Split

TAKES_PART = 1e-3  # of the load: pressure below that holds no line shut
Place = tuple[float, float]
Stretch = tuple[Place, Place]


@dataclass(frozen=True)
class Sum:
    """Forces of one kind on the part beyond the check: right and down, lbf, their middle, in, and their moment about
    the corner at the top of the wall, lbf in, turning right to down.

    `what` as of `Acting`; 'line' is what goes over the check. `number` counts rows and rods from 0.
    """

    what: str
    number: int
    x: float
    y: float
    right: float
    down: float
    moment: float


@dataclass(frozen=True)
class Balance:
    """A bracket at its load, lbf. check : the worst one where it crosses the wood, nothing where none lowers the load.

    pressed : its stretches that are held together; elsewhere it opens. beyond : what acts on the part beyond it, on
    all of the bracket where there is none.
    """

    load: float
    check: tuple[Stretch, ...]
    pressed: tuple[Stretch, ...]
    beyond: tuple[Sum, ...]


def balance(held: Held, found: Split, lines: int = LINES) -> Balance:
    """The forces with the worst check of a direction of the grain."""
    programme = Programme(held, found.grain, lines)
    strips = programme.strips
    if found.s is None:
        load, _ = programme.checked(None)
        return Balance(load, (), (), tuple(_sums(programme, frozenset(range(len(strips.area))), None)))
    line = int(np.argmin(np.abs(strips.levels - found.s)))
    load, _ = programme.checked(line)
    contacts = [one for one in strips.contacts if one.line == line]
    check = tuple(_stretch(programme, one, one.u0, one.u1) for one in contacts)
    pressed = tuple(stretch for one in contacts for stretch in _pressed(programme, one, load))
    beyond = frozenset(np.flatnonzero(strips.centroid @ strips.across > found.s).tolist())
    return Balance(load, check, pressed, tuple(_sums(programme, beyond, line)))


def _sums(programme: Programme, pieces: frozenset[int], line: int | None) -> Iterator[Sum]:
    """What acts on some pieces, by kind: what goes from piece to piece among them is left out."""
    groups: dict[tuple[str, int], list[Acting]] = {}
    for one in programme.acting:
        if one.piece in pieces and (one.what != "line" or one.number == line):
            groups.setdefault((one.what, one.number), []).append(one)
    for (what, number), acting in groups.items():
        forces = np.array([programme.values[one.column] * np.array(one.force) for one in acting])
        places = np.array([one.place for one in acting])
        right, down = forces.sum(axis=0)
        sizes = np.hypot(forces[:, 0], forces[:, 1])
        moment = float(np.sum(places[:, 0] * forces[:, 1] - places[:, 1] * forces[:, 0]))
        if sizes.sum() <= TAKES_PART or max(abs(right), abs(down), abs(moment)) <= TAKES_PART:
            continue  # a rod that crosses no check holds itself
        x, y = np.average(places, axis=0, weights=sizes)
        yield Sum(what, number, float(x), float(y), float(right), float(down), moment)


def _stretch(programme: Programme, contact: Contact, low: float, high: float) -> Stretch:
    strips = programme.strips
    start, end = (u * strips.along + contact.s * strips.across for u in (low, high))
    return (float(start[0]), float(start[1])), (float(end[0]), float(end[1]))


def _pressed(programme: Programme, contact: Contact, load: float) -> Iterator[Stretch]:
    """From halfway to the neighbor that is not pressed, on either side."""
    along = programme.strips.along
    at: Array = np.linspace(contact.u0, contact.u1, POINTS)
    held = np.zeros(POINTS, dtype=bool)
    for one in programme.acting:
        if (one.what, one.number, one.piece) == ("line", contact.line, contact.far):
            u, across = float(along @ one.place), float(programme.strips.across @ one.force)
            if across > 0.0 and contact.u0 - 1e-9 <= u <= contact.u1 + 1e-9:
                held[int(np.argmin(np.abs(at - u)))] |= programme.values[one.column] > TAKES_PART * load
    half = 0.5 * (at[1] - at[0])
    edges = np.flatnonzero(np.diff(np.concatenate(([False], held, [False])).astype(int)))
    for first, after in pairwise(edges.tolist()):
        if held[first]:
            low, high = max(at[first] - half, contact.u0), min(at[after - 1] + half, contact.u1)
            yield _stretch(programme, contact, float(low), float(high))
