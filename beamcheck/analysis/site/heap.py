"""A heap of snow, as a drift or beside a ridge: a load that falls off from there, and what of it comes to a piece."""

from __future__ import annotations

from ...records import dataclass


@dataclass(frozen=True)
class Heap:
    """A triangle of load: `peak` psi where it begins, nothing at `width` in. `height` and `clear`: of a drift, in."""

    kind: str
    peak: float
    width: float
    height: float = 0.0
    clear: float = 0.0

    def at(self, x: float) -> float:
        """Pressure at a distance from where it begins, psi."""
        return self.peak * max(1.0 - max(x, 0.0) / self.width, 0.0) if self.width > 0.0 else 0.0

    def share(self, near: float, far: float, at_near: float, at_far: float) -> float:
        """The integral from `near` to `far` times a weight that goes straight from `at_near` to `at_far`, lbf/in."""
        low, high = max(near, 0.0), min(far, self.width)
        if high <= low:
            return 0.0

        def weighted(x: float) -> float:
            return self.at(x) * (at_near + (at_far - at_near) * (x - near) / (far - near))

        return (high - low) / 6.0 * (weighted(low) + 4.0 * weighted(0.5 * (low + high)) + weighted(high))

    def on_strip(self, stands: float, width: float) -> float:
        """What comes to a piece along the wall, lbf/in: joists bring it on simple spans to both sides.

        The piece stands `stands` in from the wall and takes a strip of `width` in. As much of the strip as can be is
        taken to lie towards the wall, where the load is larger: a joist of the span s brings it a strip of s/2.
        """
        inner = min(2.0 * width, stands)
        outer = 2.0 * width - inner
        found = self.share(stands - inner, stands, 0.0, 1.0) if inner > 0.0 else 0.0
        return found + (self.share(stands, stands + outer, 1.0, 0.0) if outer > 0.0 else 0.0)
