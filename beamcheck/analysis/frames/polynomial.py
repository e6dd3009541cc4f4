"""Polynomials of low degree, many at a time: value, derivative, turning points and extremes on an interval.

A polynomial is an array of coefficients in rising powers along the last axis: p(x) = c[..., 0] + c[..., 1] x + ...
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
ROUNDING = 4e-16  # of a place in [0, 1]


def evaluate(c: Array, x: Any) -> Array:
    """Value at x; x broadcasts against the leading axes of `c`."""
    if c.shape[-1] == 1:
        return np.asarray(c[..., 0] + np.zeros_like(x, dtype=float))
    value = c[..., -1] * x + c[..., -2]
    for k in range(c.shape[-1] - 3, -1, -1):
        value = value * x + c[..., k]
    return np.asarray(value)


def derivative(c: Array) -> Array:
    """Coefficients of dp/dx; the derivative of a constant is the constant 0."""
    if c.shape[-1] == 1:
        return np.zeros_like(c)
    return c[..., 1:] * np.arange(1, c.shape[-1])


def on_unit_interval(c: Array, start: Any, end: Any) -> Array:
    """Coefficients in t, where x = start + (end - start) t, so that t runs over [0, 1]."""
    start, width = np.asarray(start, dtype=float), np.asarray(end, dtype=float) - np.asarray(start, dtype=float)
    shape = (*np.broadcast_shapes(c.shape[:-1], start.shape, width.shape), c.shape[-1])
    shifted = np.array(np.broadcast_to(c, shape))
    top = shape[-1] - 1
    for first in range(top if start.any() else 0):  # repeated synthetic division by (x - start)
        for k in range(top - 1, first - 1, -1):
            shifted[..., k] += start * shifted[..., k + 1]
    power = np.ones_like(width)
    for k in range(1, top + 1):
        power = power * width
        shifted[..., k] *= power
    return shifted


def crossings(c: Array) -> Array:
    """One point of [0, 1] per stretch where p is monotone: where p changes sign there, else an end of the stretch.

    Every sign change of p in [0, 1] is among the points. A root that only touches zero may be missing: such a point
    of a derivative is no extreme.

    `c`: (..., n + 1) coefficients in t. Returns (..., n) points in rising order; empty along the last axis for n = 0.
    """
    degree = c.shape[-1] - 1
    if degree == 0:
        return np.zeros((*c.shape[:-1], 0))
    turns = crossings(derivative(c))
    edge = np.zeros((*c.shape[:-1], 1))
    edges = np.concatenate([edge, turns, edge + 1.0], axis=-1)
    return _in_monotone_stretch(c[..., None, :], edges[..., :-1], edges[..., 1:])


def _in_monotone_stretch(c: Array, a: Array, b: Array) -> Array:
    """Root in [a, b] where p changes sign there; else an end of the stretch."""
    at_a, at_b = evaluate(c, a), evaluate(c, b)
    changes = ((at_a < 0.0) & (at_b > 0.0)) | ((at_a > 0.0) & (at_b < 0.0))
    found = np.where((at_b == 0.0) & (at_a != 0.0), b, a)
    if changes.any():
        rows = np.broadcast_to(c, (*changes.shape, c.shape[-1]))[changes]
        found[changes] = _root(rows, a[changes], b[changes])
    return found


def _root(c: Array, a: Array, b: Array) -> Array:
    """(n,) the root of each monotone p in [a, b], at whose ends its signs differ."""
    if c.shape[-1] == 2:
        return np.asarray(np.clip(-c[:, 0] / c[:, 1], a, b))
    if c.shape[-1] == 3:
        return _root_of_quadratic(c, a, b)
    below = evaluate(c, a) < 0.0
    below, above = np.where(below, a, b), np.where(below, b, a)  # ends with p < 0 and p > 0
    slope = derivative(c)
    t = 0.5 * (a + b)
    for _ in range(60):  # Newton steps inside a bracket that is halved each time
        value, rate = evaluate(c, t), evaluate(slope, t)
        below, above = np.where(value < 0.0, t, below), np.where(value > 0.0, t, above)
        low, high = np.minimum(below, above), np.maximum(below, above)
        middle = 0.5 * (low + high)
        newton = t - np.divide(value, rate, out=np.full_like(t, np.inf), where=np.abs(rate) > np.abs(value) * 1e-3)
        # a step beyond the bracket goes to its end, which may well be the root; one that would not move goes halfway
        new = np.minimum(np.maximum(newton, low), high)
        new = np.where((new == t) & (np.abs(newton - t) > ROUNDING), middle, new)
        new = np.where(value == 0.0, t, new)
        arrived = np.abs(new - t) <= ROUNDING
        t = new
        if arrived.all():
            break
        at_middle = evaluate(c, middle)  # halves the bracket, so that slow Newton steps cannot stall the loop
        below, above = np.where(at_middle < 0.0, middle, below), np.where(at_middle > 0.0, middle, above)
    return t


def _root_of_quadratic(c: Array, a: Array, b: Array) -> Array:
    """By the sum of like signs, so that neither root loses digits."""
    with np.errstate(divide="ignore", invalid="ignore"):
        half = -0.5 * (c[:, 1] + np.copysign(np.sqrt(np.maximum(c[:, 1] ** 2 - 4.0 * c[:, 2] * c[:, 0], 0.0)), c[:, 1]))
        one, other = half / c[:, 2], c[:, 0] / half
    inside = (one >= a) & (one <= b)
    return np.asarray(np.clip(np.where(inside, one, other), a, b))


def extremes(c: Array, start: Any, end: Any) -> tuple[Array, Array, Array, Array]:
    """Smallest and largest value on start <= x <= end, from the ends and the roots of the derivative.

    `c`: (..., n + 1) coefficients in x. `start`, `end`: broadcast against the leading axes; start <= end. Returns low,
    x_low, high, x_high : arrays over the leading axes.
    """
    start, end = np.asarray(start, dtype=float), np.asarray(end, dtype=float)
    unit = on_unit_interval(c, start, end)
    edge = np.zeros((*unit.shape[:-1], 1))
    t = np.concatenate([edge, crossings(derivative(unit)), edge + 1.0], axis=-1)
    values = evaluate(unit[..., None, :], t)
    x = start[..., None] + (end - start)[..., None] * t
    least, most = values.argmin(axis=-1), values.argmax(axis=-1)
    return picked(values, least), picked(x, least), picked(values, most), picked(x, most)


def picked(values: Array, index: NDArray[np.intp]) -> Array:
    """One value of each row: (..., n) and (...) to (...)."""
    rows = values.reshape(-1, values.shape[-1])
    return np.asarray(rows[np.arange(len(rows)), index.ravel()].reshape(index.shape))
