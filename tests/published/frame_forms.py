"""The frames of the published and worked values as nodes, bars and supports: pinned figures, pairs, bents, portals."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np

from beamcheck.analysis.frames.contact import ContactSolution, solve_contact
from beamcheck.analysis.frames.frame import Bar, Frame, Loads, Solution, Support, bar_loads, solve

PIN, ROLLER = {"ux": True, "uy": True}, {"uy": True}
EI_OF_BARS = 1.0e6  # of pinned bars: no force in them depends on it
Nodes = dict[str, tuple[float, float]]


class Form:
    """A frame by names: nodes by letters, bars by the letters of their ends."""

    def __init__(self, nodes: Nodes, supports: dict[str, dict[str, Any]]) -> None:
        self.names, self.at = list(nodes), nodes
        self.supports, self.bars, self.by_name = supports, [], {}  # type: ignore[var-annotated]

    def node(self, name: str) -> int:
        return self.names.index(name)

    def pinned(self, *ends: str, EA: float = 1e7, **more: Any) -> None:
        """Bars hinged at both ends."""
        for a, b in ends:
            self._add(
                a + b, Bar(self.node(a), self.node(b), EA, EI_OF_BARS, release_start=True, release_end=True, **more)
            )

    def stick(self, path: str, EA: float, EI: float, hinges: str = "") -> None:
        """One stick through all the nodes of the path, hinged at its ends as `hinges` says: 'start', 'end', 'both'."""
        for k, (a, b) in enumerate(pairwise(path)):
            first, last = k == 0, k == len(path) - 2
            self._add(
                a + b,
                Bar(self.node(a), self.node(b), EA, EI, release_start=first and hinges in ("start", "both"),
                    release_end=last and hinges in ("end", "both")),
            )  # fmt: skip

    def _add(self, name: str, bar: Bar) -> None:
        self.by_name[name] = len(self.bars)
        self.bars.append(bar)

    def change(self, name: str, **more: Any) -> None:
        i = self.by_name[name]
        self.bars[i] = replace(self.bars[i], **more)

    def frame(self) -> Frame:
        held = [Support(self.node(name), **holds) for name, holds in self.supports.items()]
        return Frame([self.at[name] for name in self.names], self.bars, held)

    def loads(self, forces: dict[str, Sequence[float]], plan: dict[str, float] | None = None) -> Loads:
        """Forces (x, y) on nodes; `plan` is a load per length of plan, down, on bars."""
        nodal = np.zeros((1, len(self.names), 3))
        for name, force in forces.items():
            nodal[0, self.node(name), :2] += force
        frame, w = self.frame(), np.zeros((1, len(self.bars), 2, 2))
        for name, down in (plan or {}).items():
            w[0, self.by_name[name], :, 1] = -down
        return Loads(nodal, bar_loads(frame, w, "projection"))

    def solved(self, forces: dict[str, Sequence[float]], plan: dict[str, float] | None = None) -> Solved:
        return Solved(self, solve(self.frame(), self.loads(forces, plan)))

    def in_contact(self, forces: dict[str, Sequence[float]], plan: dict[str, float] | None = None) -> Solved:
        answer = solve_contact(self.frame(), self.loads(forces, plan))
        return Solved(self, answer.solution, answer)


class Solved:
    """Results by names."""

    def __init__(self, form: Form, solution: Solution, contact: ContactSolution | None = None) -> None:
        self.form, self.solution, self.contact = form, solution, contact

    def along(self, what: str, bar: str, share: float = 0.0) -> float:
        """N, V or M of a bar at a share of its length from its start."""
        i = self.form.by_name[bar]
        x = share * self.solution.frame.length[i]
        return float(np.polynomial.polynomial.polyval(x, getattr(self.solution, what)[0, i]))

    def N(self, bar: str, share: float = 0.0) -> float:
        return self.along("N", bar, share)

    def M(self, bar: str, share: float = 0.0) -> float:
        return self.along("M", bar, share)

    def reaction(self, node: str) -> tuple[float, float]:
        i = list(self.form.supports).index(node)
        x, y = self.solution.reactions[0, i, :2]
        return float(x), float(y)

    def moved(self, node: str) -> tuple[float, float]:
        x, y = self.solution.displacements[0, self.form.node(node), :2]
        return float(x), float(y)


def king_post(span: float, rise: float, EA: dict[str, float] | None = None) -> Form:
    """A, B heels, D, E mid-rafters, C foot of the post, R ridge; all pinned."""
    EA = EA or {}
    form = Form(
        {"A": (0, 0), "B": (span, 0), "C": (span / 2, 0), "D": (span / 4, rise / 2), "E": (0.75 * span, rise / 2),
         "R": (span / 2, rise)}, {"A": PIN, "B": ROLLER},
    )  # fmt: skip
    form.pinned("AD", "DR", "BE", "ER", EA=EA.get("rafter", 1e7))
    form.pinned("AC", "CB", EA=EA.get("tie", 1e7))
    form.pinned("DC", "EC", EA=EA.get("strut", 1e7))
    form.pinned("CR", EA=EA.get("post", 1e7))
    return form


def queen_post(span: float, a: float, height: float) -> Form:
    """A, B heels, C, D feet of the posts on a tie in one stick, E, F their heads. Bars that hardly give."""
    form = Form(
        {"A": (0, 0), "C": (a, 0), "D": (span - a, 0), "B": (span, 0), "E": (a, height), "F": (span - a, height)},
        {"A": PIN, "B": ROLLER},
    )  # fmt: skip
    form.stick("ACDB", 1e9, 1e8)
    form.pinned("AE", "EF", "BF", "CE", "DF", EA=1e9)
    return form


def rafter_pair(
    span: float, rise: float, *, collar: float | None = None, right: dict[str, Any] | None = None,
    left: dict[str, Any] | None = None, EA: float = 6.6e7, EI: float = 2.2e8, tie: bool = False,
) -> Form:  # fmt: skip
    """A, B feet, R ridge (a hinge), P, Q where a collar meets the rafters, which run through."""
    nodes: Nodes = {"A": (0, 0), "B": (span, 0), "R": (span / 2, rise)}
    if collar is not None:
        x = span / 2 * collar / rise
        nodes |= {"P": (x, collar), "Q": (span - x, collar)}
    form = Form(nodes, {"A": left or PIN, "B": right or ROLLER})
    for path in ("AR", "BR") if collar is None else ("APR", "BQR"):
        form.stick(path, EA, EI, "end")
    if collar is not None:
        form.pinned("PQ", EA=EA)
    if tie:
        form.pinned("AB", EA=EA)
    return form


def bent(
    span: float, height: float, a: float, b: float, *, EI_post: float = 4.2e8, EI_beam: float = 4.2e8,
    EA: float = 8.4e7, EA_brace: float = 4e7, slip: float = np.inf, braces: str = "both",
) -> Form:  # fmt: skip
    """Feet A, B; heads C, D; braces G-H at the left, J-K at the right; the beam C-H-K-D runs through, posts too.

    A brace meets the post b below the beam and the beam a from the post. `braces`: 'both' act, or 'push' only, or the
    'lee' one is the only one there (load from the left).
    """
    form = Form(
        {"A": (0, 0), "G": (0, height - b), "C": (0, height), "H": (a, height), "K": (span - a, height),
         "D": (span, height), "J": (span, height - b), "B": (span, 0)}, {"A": PIN, "B": PIN},
    )  # fmt: skip
    form.stick("AGC", EA, EI_post, "end")
    form.stick("BJD", EA, EI_post, "end")
    form.stick("CHKD", EA, EI_beam)
    more: dict[str, Any] = {"slip_start": slip, "slip_end": slip}
    if braces == "push":
        more["acts"] = "push"
    form.pinned(*(("JK",) if braces == "lee" else ("GH", "JK")), EA=EA_brace, **more)
    return form
