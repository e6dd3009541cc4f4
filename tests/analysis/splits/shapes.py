"""Twelve ordinary shapes with round values of fasteners (reference on brackets that carry, section 1.6: derived)."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from beamcheck.analysis.fields.outline import outline_of
from beamcheck.analysis.splits.holds import Held, Ledge, Rod, Row, Seat
from beamcheck.model.brackets.shapes import Solid

LAG3 = {"T": 700.0, "Z": 140.0, "q": 270.0, "M": 35.0, "washer": 1.5}
LAG4 = {"T": 1000.0, "Z": 245.0, "q": 316.0, "M": 95.0, "washer": 1.75}
TWO = {"T": 2000.0, "Z": 490.0, "q": 632.0, "M": 190.0, "washer": 1.75}
# soffit, H, P, thickness, foot, nose, load from and to, rows down, fastener
SHAPES: dict[str, tuple[Any, ...]] = {
    "C1": ("concave", 11, 9, 1.5, 2.25, 2, 5, 8, (2.5, 9.0), LAG3),
    "C2": ("concave", 12, 12, 3.5, 3.5, 3.5, 8, 11, (2.5, 10.0), LAG4),
    "T1": ("straight", 12, 10, 1.5, 2.5, 2, 7, 9, (2.5, 9.5), LAG3),
    "T2": ("straight", 14, 10, 3.5, 4, 4, 6, 9, (2.5, 10.0), LAG4),
    "X1": ("convex", 10, 8, 3, 2, 2, 5.25, 7.25, (2.0, 8.0), LAG3),
    "X2": ("convex", 14, 12, 3.5, 4, 4, 8, 11, (3.0, 11.0), LAG4),
    "O1": ("ogee", 24, 24, 5.5, 5, 4, 19, 23, (4.0, 20.0), TWO),
    "O2": ("ogee", 14, 10, 3.5, 3.5, 3, 6.5, 8.5, (2.5, 10.0), LAG3),
    "B1": ("block", 12, 5.5, 3.5, 5.5, 12, 3, 5, (2.75, 9.0), LAG3),
    "B2": ("block", 24, 12, 5.5, 12, 24, 9, 11, (3.0, 15.0), TWO),
    "S1": ("straight", 16, 12, 3.5, 5, 5, 8, 11, (4.0, 11.0), LAG4),
    "L1": ("block", 5.5, 12, 3.5, 12, 5.5, 8.5, 10.5, (1.5, 4.0), LAG3),
}  # fmt: skip


def grains(name: str) -> dict[str, float]:
    """Level, upright, and along foot to nose."""
    soffit, H, P, _, foot, nose = SHAPES[name][:6]
    up, out = (H, P) if soffit == "block" else (H - nose, P - foot)
    return {"level": 0.0, "upright": 90.0, "strut": math.degrees(math.atan2(up, out))}


def outline(shape: dict[str, Any], pockets: Any = ()) -> np.ndarray:
    """(n, 2) closed; `points` run from foot to nose."""
    H, P = shape["H"], shape["P"]
    if shape["soffit"] == "block":
        points = [(0, 0), (P, 0), (P, H), (0, H)]
    elif shape["soffit"] == "points":
        points = [(0, 0), (P, 0), *map(tuple, shape["points"][::-1]), (0, H)]
    else:
        solid = Solid.model_construct(
            family="solid", thickness=1.0, height=float(H), projection=float(P), foot=float(shape["a"]),
            nose=float(shape["b"]), soffit=shape["soffit"], sagitta=None, points=(), grain=0.0, pocket=None,
        )  # fmt: skip
        points = [tuple(p) for p in outline_of(solid).closed()]
    for p in pockets:
        low = p["top"] + p["height"]
        points += [(0, low), (p["depth"], low), (p["depth"], p["top"]), (0, p["top"])]
    return np.array(points, dtype=float)


def front(name: str, y: float) -> float:
    """From the wall to the front at a height, less 0.05 in."""
    points = outline({"soffit": SHAPES[name][0], **dict(zip("HPtab", SHAPES[name][1:6], strict=True))})
    edges = zip(points, np.roll(points, -1, axis=0), strict=True)
    y += 1e-9  # beside the points of the outline
    found = [p[0] + (y - p[1]) / (q[1] - p[1]) * (q[0] - p[0]) for p, q in edges if (p[1] - y) * (q[1] - y) < 0]
    return float(max(found)) - 0.05


def held_shape(name: str, heads: str) -> Held:
    """A shape with its heads 'front' or 'deep' (0.75 of the shallower leg, at most 2 in)."""
    soffit, H, P, t, a, b, x0, x1, ys, lag = SHAPES[name]
    deep = min(2.0, 0.75 * min(a, b))
    rows = tuple(Row(y=y, head=front(name, y) if heads == "front" else deep, **lag) for y in ys)
    shape = {"soffit": soffit, "H": H, "P": P, "a": a, "b": b}
    seat = Seat(x0, x1, 0.5 * (x0 + x1) + (x1 - x0) / 6.0)
    return Held(outline(shape), t, float(H), (seat,), rows, 180.0, 625.0, 625.0, 0.18)


def held_of(inputs: dict[str, Any]) -> Held:
    """A check value as it is written down."""
    rows = tuple(Row(**{k: r[k] for k in ("y", "head", "T", "Z", "q", "M", "washer")}) for r in inputs["rows"])
    rods = tuple(
        Rod(tuple(b["from"]), tuple(b["to"]), b["bond"], b["steel"], b["Z"], b.get("head_from", 0.0))
        for b in inputs.get("bars", [])
    )
    dap, load = inputs.get("dap"), inputs["load"]
    return Held(
        outline(inputs["shape"], inputs.get("pockets", ())), inputs["t"], inputs["shape"]["H"],
        (Seat(load["x0"], load["x1"], load["at"]),), rows, inputs["F_v"], inputs["F_c_perp"], inputs["F_wall"],
        inputs["mu"], rods, Ledge(dap["depth"], dap["F"]) if dap else None,
    )  # fmt: skip
