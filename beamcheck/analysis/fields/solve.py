"""Plane stress of orthotropic wood on a mesh: stiffness, loads, supports, one-sided contact with the wall, solving.

Unknowns: for each node its movement out from the wall (x) and down (y), inch. Stress in psi, forces in lbf.
Theory: displacement method, O. C. Zienkiewicz; grain turned by the rules of plane stress (any text on composites).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from ...errors import BeamcheckError, OutOfRange
from ...records import dataclass
from ..frames.polynomial import Array
from .mesh import Edge, Index, Mesh, Points

Flags = NDArray[np.bool_]
Grain = float | Callable[[Array, Array], Array]
BALANCED = 1e-8  # unbalanced part of loads and reactions that is still an answer
MOST_TURNS = 60  # of the search for where the wall presses
GAUSS = np.array([0.5 - np.sqrt(0.15), 0.5, 0.5 + np.sqrt(0.15)])
GAUSS_WEIGHT = np.array([5.0, 8.0, 5.0]) / 18.0


@dataclass(frozen=True)
class Elastic:
    """Stiffness of the wood in the plane of the bracket.

    E_L, E_T, G_LT : psi, along and across the grain. nu_LT : Poisson's ratio, strain across from stress along.
    grain : deg above level towards the nose; or a function of (x, y) for wood whose grain follows its shape.
    """

    E_L: float
    E_T: float
    G_LT: float
    nu_LT: float
    grain: Grain

    def __post_init__(self) -> None:
        for name in ("E_L", "E_T", "G_LT"):
            value = getattr(self, name)
            if not (np.isfinite(value) and value > 0.0):
                raise OutOfRange(f"{name} = {value:g} psi: a stiffness of wood is more than zero")
        if not (np.isfinite(self.nu_LT) and self.nu_LT**2 * self.E_T < self.E_L and self.nu_LT >= 0.0):
            raise OutOfRange(
                f"nu_LT = {self.nu_LT:g} with E_T/E_L = {self.E_T / self.E_L:g} is no elastic material:"
                " nu_LT^2 E_T/E_L must be less than 1 and nu_LT not below zero"
            )
        if not callable(self.grain) and not np.isfinite(self.grain):
            raise OutOfRange(f"a grain angle of {self.grain} is none")

    def angle(self, x: Array, y: Array) -> Array:
        """(...) angle of the grain above level (rad) at places."""
        degrees = self.grain(x, y) if callable(self.grain) else np.full(np.shape(x), self.grain)
        return np.radians(degrees)

    def matrix(self, x: Array, y: Array) -> Array:
        """(..., 3, 3) stress (x, y, shear) from strain (x, y, shear angle), y down."""
        # y points down, so an angle above level is a turn from x away from y
        t = turned(-self.angle(x, y))
        nu_TL = self.nu_LT * self.E_T / self.E_L
        one = 1.0 - self.nu_LT * nu_TL
        own = np.array(
            [
                [self.E_L / one, self.nu_LT * self.E_T / one, 0.0],
                [self.nu_LT * self.E_T / one, self.E_T / one, 0.0],
                [0.0, 0.0, self.G_LT],
            ]
        )
        return np.asarray(np.swapaxes(t, -1, -2) @ own @ t)

    def flexibility(self, phi: Array) -> Array:
        """(..., 2) strain along a line at phi (rad) to the grain from stress along it and across it."""
        c, s = np.cos(phi), np.sin(phi)
        e_l, e_t, e_lt, g = 1.0 / self.E_L, 1.0 / self.E_T, -self.nu_LT / self.E_L, 1.0 / self.G_LT
        along = c**4 * e_l + s**4 * e_t + s * s * c * c * (2.0 * e_lt + g)
        across = s * s * c * c * (e_l + e_t - g) + (s**4 + c**4) * e_lt
        return np.stack([along, across], axis=-1)


def turned(angle: Array) -> Array:
    """(..., 3, 3) strains in axes turned by an angle (rad, from x towards y) from strains in x, y."""
    c, s = np.cos(angle), np.sin(angle)
    rows = [[c * c, s * s, s * c], [s * s, c * c, -s * c], [-2.0 * s * c, 2.0 * s * c, c * c - s * s]]
    return np.stack([np.stack(row, axis=-1) for row in rows], axis=-2)


@dataclass(frozen=True)
class Spring:
    """A row of anchors at y below the top edge: stiffness of the whole row along and across the anchors, lbf/in.

    It acts on the wall face, spread evenly over `height` (in): 3/4 in unless said otherwise. It pulls and pushes.
    """

    y: float
    k_axial: float
    k_lateral: float
    height: float = 0.75


@dataclass(frozen=True)
class Patch:
    """A part of the wall face, from y0 to y1 below the top, that is held rigidly: 'both' ways or only 'out' and in."""

    y0: float
    y1: float
    held: Literal["both", "out"] = "both"


@dataclass(frozen=True)
class Backing:
    """What is behind the wall face.

    'bonded': held everywhere. 'springs': anchors, and a wall that presses only, without friction; `stiffness` of that
    wall in psi of pressure per inch (a hard one about 1e7). 'patches': parts held rigidly, free elsewhere.
    """

    kind: Literal["bonded", "springs", "patches"]
    springs: tuple[Spring, ...] = ()
    stiffness: float = 0.0
    patches: tuple[Patch, ...] = ()


@dataclass(frozen=True)
class Press:
    """A force (lbf, down; below zero it lifts) spread evenly over the top edge from x0 to x1 (in)."""

    x0: float
    x1: float
    force: float


@dataclass(frozen=True, eq=False)
class Line:
    """Points along an edge: (k, 3) nodes, (3 q, 3) shape functions, (k, q) length each stands for, (k, q, 2) places."""

    nodes: Index
    length: Array
    place: Array
    cells: Index


SHAPE = np.stack([(1 - GAUSS) * (1 - 2 * GAUSS), 4 * GAUSS * (1 - GAUSS), GAUSS * (2 * GAUSS - 1)], axis=-1)
SLOPE = np.stack([4 * GAUSS - 3, 4 - 8 * GAUSS, 4 * GAUSS - 1], axis=-1)


def line(mesh: Mesh, edge: Edge, low: float = -np.inf, high: float = np.inf, axis: int = 0) -> Line:
    """The sides of an edge whose middle lies between two places along an axis, with points to integrate over."""
    middle = mesh.nodes[edge.sides[:, 1], axis]
    on = (middle > low) & (middle < high)
    sides = edge.sides[on]
    places = mesh.nodes[sides]
    along = np.einsum("qn,knc->kqc", SLOPE, places)
    length = np.hypot(along[..., 0], along[..., 1]) * GAUSS_WEIGHT
    return Line(sides, length, np.einsum("qn,knc->kqc", SHAPE, places), edge.cells[on])


@dataclass(frozen=True, eq=False)
class Solution:
    """Movements and what holds the bracket.

    moves : (n, 2) in. presses_only : (n, 2) the part that is not from own weight (at the contact that was found).
    pulls, shears : one per spring, lbf; a pull draws the bracket to the wall, a shear holds it up.
    contact : (k, q) pressure of the wall (psi) at the points of `wall`. residual : unbalanced part of the forces.
    """

    mesh: Mesh
    elastic: Elastic
    moves: Array
    presses_only: Array
    pulls: Array
    shears: Array
    wall: Line
    contact: Array
    residual: float
    turns: int


def stress_at(mesh: Mesh, elastic: Elastic, moves: Array, points: Points) -> Array:
    """(m, q, 3) stress x, y, shear at points inside the cells."""
    own = moves[mesh.cells]  # (m, k, 2)
    slope = points.gradient.transpose(0, 1, 3, 2) @ own[:, None]  # (m, q, derivative, component)
    strain = np.stack([slope[..., 0, 0], slope[..., 1, 1], slope[..., 0, 1] + slope[..., 1, 0]], axis=-1)
    D = elastic.matrix(points.place[..., 0], points.place[..., 1])
    return np.asarray(np.einsum("mqij,mqj->mqi", D, strain))


def body(mesh: Mesh, elastic: Elastic) -> tuple[Array, Index]:
    """(m, 2k, 2k) stiffness of each cell and (m, 2k) its unknowns."""
    gradient, count = mesh.work.gradient, mesh.cells.shape[1]
    B = np.zeros((*gradient.shape[:2], 3, 2 * count))
    B[:, :, 0, 0::2] = B[:, :, 2, 1::2] = gradient[..., 0]
    B[:, :, 1, 1::2] = B[:, :, 2, 0::2] = gradient[..., 1]
    D = elastic.matrix(mesh.work.place[..., 0], mesh.work.place[..., 1])
    D = D * (mesh.work.area * mesh.thickness[:, None])[..., None, None]
    shape = (len(B), -1, 2 * count)
    K = np.swapaxes(B.reshape(shape), 1, 2) @ (D @ B).reshape(shape)
    unknowns = np.stack([2 * mesh.cells, 2 * mesh.cells + 1], axis=-1).reshape(len(B), -1)
    return K, unknowns


def spread_load(target: Array, where: Line, per_length: Array, component: int) -> None:
    """Add a load per length (k, q) on an edge to the (n, 2) forces on nodes."""
    np.add.at(target[:, component], where.nodes, np.einsum("qn,kq,kq->kn", SHAPE, where.length, per_length))


def bed(where: Line, per_length: Array, component: int) -> tuple[Array, Index]:
    """(k, 3, 3) stiffness of springs (lbf/in per inch, (k, q)) along an edge and (k, 3) the unknowns."""
    K = np.einsum("qa,qb,kq,kq->kab", SHAPE, SHAPE, where.length, per_length)
    return K, 2 * where.nodes + component


def gathered(parts: list[tuple[Array, Index]], count: int) -> Any:
    """The sparse matrix of all parts."""
    from scipy.sparse import coo_array

    values = np.concatenate([K.ravel() for K, _ in parts])
    rows = np.concatenate([np.repeat(u, u.shape[1], axis=1).ravel() for _, u in parts])
    columns = np.concatenate([np.tile(u, (1, u.shape[1])).ravel() for _, u in parts])
    return coo_array((values, (rows, columns)), shape=(count, count)).tocsc()


def factor(matrix: Any) -> Callable[[Array], Array]:
    """Factor a symmetric sparse matrix once; what comes back solves for right-hand sides."""
    from scipy.sparse.linalg import splu

    try:
        solved = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    except RuntimeError as error:
        raise BeamcheckError("the bracket is not held: what is behind it lets it move freely") from error
    solve: Callable[[Array], Array] = solved.solve
    return solve


def solve(
    mesh: Mesh, elastic: Elastic, backing: Backing, loads: Array, weights: Array, guess: Callable[[Array], Flags]
) -> Solution:
    """Solve one mesh for forces on nodes: `loads` (n, 2) of the presses, `weights` (n, 2) of its own weight.

    guess : for places y on the wall face, whether the wall presses there to begin with.

    Raises BeamcheckError: it is not held, the contact does not settle, or the answer is out of balance by more than
    1e-8.
    """
    n = 2 * len(mesh.nodes)
    parts = [body(mesh, elastic)]
    right = np.stack([loads.ravel(), weights.ravel()], axis=-1)
    wall = line(mesh, mesh.edges["wall"], axis=1)
    free = np.ones(n, dtype=bool)
    if backing.kind == "bonded":
        free[(2 * np.unique(wall.nodes)[:, None] + [0, 1]).ravel()] = False
    for patch in backing.patches:
        nodes = np.unique(line(mesh, mesh.edges["wall"], patch.y0, patch.y1, 1).nodes)
        for component in (0, 1) if patch.held == "both" else (0,):
            free[2 * nodes + component] = False
    rows = [line(mesh, mesh.edges["wall"], s.y - s.height / 2, s.y + s.height / 2, 1) for s in backing.springs]
    for spring, row in zip(backing.springs, rows, strict=True):
        even = np.ones_like(row.length) / row.length.sum()
        parts += [bed(row, spring.k_axial * even, 0), bed(row, spring.k_lateral * even, 1)]
    base = gathered(parts, n)
    bedding = backing.stiffness * mesh.thickness[wall.cells][:, None] * np.ones_like(wall.length)
    presses = guess(wall.place[..., 1]) & (bedding > 0.0)
    numbers = np.flatnonzero(free)
    whole = len(numbers) == n
    before: set[bytes] = set()
    for turn in range(1, MOST_TURNS + 1):  # noqa: B007
        matrix = base if not np.any(presses) else base + gathered([bed(wall, np.where(presses, bedding, 0.0), 0)], n)
        part = matrix if whole else matrix[numbers][:, numbers]
        solved = factor(part)
        found = solved(right[numbers])
        found += solved(right[numbers] - part @ found)  # slender brackets lose digits: once more for what is left
        moves = np.zeros((n, 2))
        moves[numbers] = found
        into = -np.einsum("qn,kn->kq", SHAPE, moves.sum(axis=1)[2 * wall.nodes])
        wrong = ((into > 0.0) != presses) & (bedding > 0.0)
        slack = 1e-12 * np.abs(into).max(initial=0.0)
        wrong &= np.abs(into) > slack
        if not np.any(wrong):
            break
        # all at once; the worst alone once a state comes back, so that the search cannot go in circles for long
        key = presses.tobytes()
        if key in before:
            wrong &= np.abs(into) >= np.where(wrong, np.abs(into), 0.0).max()
        before.add(key)
        presses = presses ^ wrong
    else:
        raise BeamcheckError("it was not found where the wall presses against the bracket: the contact does not settle")
    u = moves.sum(axis=1)
    held = base @ u - right.sum(axis=1)
    contact = np.where(presses, backing.stiffness * into, 0.0)
    by_wall = np.zeros((len(mesh.nodes), 2))
    spread_load(by_wall, wall, contact * mesh.thickness[wall.cells][:, None], 0)
    loose = np.abs(held - by_wall.ravel())[numbers].max(initial=0.0)
    held[numbers] = 0.0
    pulls = [s.k_axial * _mean(r, u, 0) for s, r in zip(backing.springs, rows, strict=True)]
    shears = [s.k_lateral * _mean(r, u, 1) for s, r in zip(backing.springs, rows, strict=True)]
    by_springs = np.zeros((len(mesh.nodes), 2))
    for spring, row in zip(backing.springs, rows, strict=True):
        for component, k in ((0, spring.k_axial), (1, spring.k_lateral)):
            at = np.einsum("qn,kn->kq", SHAPE, u[2 * row.nodes + component])
            spread_load(by_springs, row, -k * at / row.length.sum(), component)
    forces = right.sum(axis=1).reshape(-1, 2)
    residual = unbalanced(mesh.nodes, forces, [held.reshape(-1, 2), by_wall, by_springs], float(loose))
    if not residual <= BALANCED:
        raise BeamcheckError(f"the stress field is out of balance by {residual:.1e} of the forces; no figure is given")
    return Solution(
        mesh, elastic, u.reshape(-1, 2), moves[:, 0].reshape(-1, 2), np.array(pulls), np.array(shears), wall, contact,
        residual, turn,
    )  # fmt: skip


def _mean(row: Line, u: Array, component: int) -> float:
    at = np.einsum("qn,kn->kq", SHAPE, u[2 * row.nodes + component])
    return float((at * row.length).sum() / row.length.sum())


def unbalanced(nodes: Array, forces: Array, reactions: list[Array], loose: float) -> float:
    """Largest of the sums of forces and of moments about O and of what is `loose` on a node, as a part of what acts."""
    total = forces + sum(reactions)
    scale = np.abs(forces).sum() + sum(np.abs(one).sum() for one in reactions)
    if scale <= 0.0:
        return 0.0
    reach = float(np.ptp(nodes, axis=0).sum())
    moment = (nodes[:, 0] * total[:, 1] - nodes[:, 1] * total[:, 0]).sum()
    return float(max(np.abs(total.sum(axis=0)).max() / scale, abs(moment) / (scale * reach), loose / scale))
