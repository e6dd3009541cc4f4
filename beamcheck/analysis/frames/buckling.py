"""How much more a frame takes until it buckles in its plane: the least eigenvalue of stiffness and geometric stiffness.

Each bar that is pushed is cut into short straight elements with cubic deflection, so the factor comes out high by far
less than what is known of the joints (under 0.1 percent with eight elements). Bars that are idle are left out; what
joints give along the bar and in turning is in. Buckling out of the plane is another matter.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ...errors import Unstable
from ...records import dataclass
from .chains import Flags
from .polynomial import Array
from .structure import RIGID_ENOUGH, Frame

if TYPE_CHECKING:
    from scipy.sparse import coo_array

PIECES = 8
SMALL = 40  # freedoms up to which all eigenvalues are found at once
MOVES = "the frame can move without resistance: it has no critical load"


@dataclass
class _Assembly:
    """Stiffness and geometric stiffness, growing by the freedoms that are asked for."""

    n: int
    elastic: list[tuple[list[int], Array]]
    geometric: list[tuple[list[int], Array]]

    def more(self, count: int) -> list[int]:
        self.n += count
        return list(range(self.n - count, self.n))

    def matrix(self, parts: list[tuple[list[int], Array]]) -> coo_array:
        """The parts added up, sparse: few of the freedoms are neighbors."""
        from scipy.sparse import coo_array

        rows = [number for at, _ in parts for number in at for _ in at]
        columns = [number for at, _ in parts for _ in at for number in at]
        return coo_array((np.concatenate([k.ravel() for _, k in parts]), (rows, columns)), shape=(self.n, self.n))


def acting_frame(frame: Frame, closed: Flags) -> Frame:
    """The frame of one case of `solve_contact`: bars that act one way act or are idle, as `closed` has them.

    closed : (n_contacts + n_one_way,) of that case; the contacts come first and are the caller's to add as supports.
    """
    one_way = [i for i, bar in enumerate(frame.bars) if bar.acts != "both"]
    bars = list(frame.bars)
    for i, acts in zip(one_way, closed[len(closed) - len(one_way) :], strict=True):
        bars[i] = replace(bars[i], acts="both", idle=not acts)
    return Frame(frame.nodes, bars, frame.supports)


def critical_factor(frame: Frame, N: Array, pieces: int = PIECES) -> float:
    """By what the axial forces may be multiplied until the frame buckles in its plane; inf where nothing buckles it.

    `frame`: a single one, no batch. Bars that act one way must act or be idle (`acting_frame`). `N`: (n_bars,): axial
    force of each bar, tension positive; where it varies, the largest push. `pieces`: elements to a bar. Raises
    Unstable: the frame can move without resistance; ValueError: a batch, a wrong number of forces, a bar that acts one
    way.
    """
    from scipy.sparse import csc_array, diags_array
    from scipy.sparse.linalg import LinearOperator, eigsh, splu

    N = np.asarray(N, dtype=float)
    if frame.batch or N.shape != (len(frame.bars),) or not np.all(np.isfinite(N)):
        raise ValueError(f"one frame and one finite axial force for each of its {len(frame.bars)} bars is needed")
    for i, bar in enumerate(frame.bars):
        if bar.acts != "both":
            raise ValueError(f"bar {i} can only {bar.acts}: say first whether it acts (acting_frame)")
    made = _Assembly(3 * frame.n_nodes, [], [])
    for number, force in enumerate(N.tolist()):
        if not frame.idle[number]:
            _add_bar(made, frame, number, force, pieces if force < 0.0 else 1)
    for k, support in enumerate(frame.supports):
        made.elastic.append(([3 * support.node + way for way in range(3)], np.diag(frame.spring[k])))
    fixed = [3 * support.node + way for k, support in enumerate(frame.supports) for way in range(3)
             if frame.rigid[k, way]]  # fmt: skip
    K, G = csc_array(made.matrix(made.elastic)), csc_array(made.matrix(made.geometric))
    stiff = K.diagonal()
    stiff[fixed] = 0.0
    free = np.flatnonzero(stiff > 0.0)
    scale = diags_array(1.0 / np.sqrt(stiff[free]))
    K, G = (csc_array(scale @ A[free][:, free] @ scale) for A in (K, G))
    try:  # by pivots on the diagonal alone, as those of a stiffness may be taken: what is negative or nothing can move
        by_pivots = splu(K, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    except RuntimeError as error:
        raise Unstable(MOVES) from error
    if np.min(by_pivots.U.diagonal()) < RIGID_ENOUGH:
        raise Unstable(MOVES)
    if not np.any(N < 0.0):
        return float("inf")
    size = len(free)
    if size < SMALL:
        L = np.linalg.cholesky(K.toarray())
        per_stiffness = np.linalg.solve(L, np.linalg.solve(L, -G.toarray()).T)
        most = float(np.linalg.eigvalsh(per_stiffness)[-1])
    else:
        start = np.random.default_rng(0).standard_normal(size)
        inverse = LinearOperator((size, size), matvec=by_pivots.solve, dtype=float)
        most = float(eigsh(-G, k=1, M=K, Minv=inverse, which="LA", v0=start, return_eigenvectors=False)[0])
    return 1.0 / most if most > 0.0 else float("inf")


def _add_bar(made: _Assembly, frame: Frame, i: int, N: float, pieces: int) -> None:
    bar, L = frame.bars[i], float(frame.length[i])
    EI, GA = float(frame.EI[i]), float(frame.GA_s[i])
    slips = 1.0 / frame.slip_start[i] + 1.0 / frame.slip_end[i]
    EA = L / (L / float(frame.EA[i]) + slips)
    c, s, h = float(frame.cos[i]), float(frame.sin[i]), L / pieces
    k, g = _element(EA, EI, GA, h), _geometric(N, h)
    turn = np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
    inner = [made.more(3) for _ in range(pieces - 1)]
    ends = []
    for node, stub, release, spring in (
        (bar.start, bar.stub_start, bar.release_start, frame.turn_start[i]),
        (bar.end, bar.stub_end, bar.release_end, frame.turn_end[i]),
    ):
        at = [3 * node, 3 * node + 1, 3 * node + 2]
        arm = np.array([[1.0, 0.0, -stub[1]], [0.0, 1.0, stub[0]], [0.0, 0.0, 1.0]])
        if release or np.isfinite(spring):  # a turn of its own
            own = made.more(1)[0]
            if not release:
                made.elastic.append(([at[2], own], float(spring) * np.array([[1.0, -1.0], [-1.0, 1.0]])))
            at.append(own)
            arm = np.array([[1.0, 0.0, -stub[1], 0.0], [0.0, 1.0, stub[0], 0.0], [0.0, 0.0, 0.0, 1.0]])
        ends.append((at, turn @ arm))
    places = [ends[0], *((at, turn) for at in inner), ends[1]]
    known: dict[tuple[int, int], tuple[Array, Array]] = {}
    for (at_a, T_a), (at_b, T_b) in pairwise(places):
        key = (id(T_a), id(T_b))
        if key not in known:  # all but the first and the last are alike
            T = np.zeros((6, T_a.shape[1] + T_b.shape[1]))
            T[:3, : T_a.shape[1]], T[3:, T_a.shape[1] :] = T_a, T_b
            known[key] = T.T @ k @ T, T.T @ g @ T
        made.elastic.append((at_a + at_b, known[key][0]))
        made.geometric.append((at_a + at_b, known[key][1]))


def _element(EA: float, EI: float, GA: float, h: float) -> Array:
    """Elastic stiffness of a short element, with what it slides."""
    slide = 12.0 * EI / (GA * h**2)
    b = EI / (h**3 * (1.0 + slide))
    k = np.zeros((6, 6))
    k[np.ix_([0, 3], [0, 3])] = EA / h * np.array([[1.0, -1.0], [-1.0, 1.0]])
    near, far = (4.0 + slide) * h * h, (2.0 - slide) * h * h
    k[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = b * np.array(
        [[12.0, 6 * h, -12.0, 6 * h], [6 * h, near, -6 * h, far], [-12.0, -6 * h, 12.0, -6 * h],
         [6 * h, far, -6 * h, near]]
    )  # fmt: skip
    return k


def _geometric(N: float, h: float) -> Array:
    """What an axial force adds to the stiffness of a short element across it."""
    g = np.zeros((6, 6))
    g[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = (N / (30.0 * h)) * np.array(
        [[36.0, 3 * h, -36.0, 3 * h], [3 * h, 4 * h * h, -3 * h, -h * h], [-36.0, -3 * h, 36.0, -3 * h],
         [3 * h, -h * h, -3 * h, 4 * h * h]]
    )  # fmt: skip
    return g
