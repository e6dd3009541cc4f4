"""Size of what is stressed: the stress that would be as bad over one cubic inch (weakest link)."""

from __future__ import annotations

import numpy as np

from ..frames.polynomial import Array
from .read import Field


def over_one_cubic_inch(stress: Array, volume: Array, k: float) -> float:
    """(sum of stress^k dV)^(1/k) over what is pulled, psi; stress in psi, volume in in3."""
    most = float(np.max(stress, initial=0.0))
    if most <= 0.0:
        return 0.0
    part = np.maximum(stress, 0.0) / most  # so that powers neither overflow nor vanish
    return float(most * float((part**k * volume).sum()) ** (1.0 / k))


def across_over_one_cubic_inch(field: Field, k: float) -> float:
    """Tension across the grain of a field, outside the zones that are not read, psi."""
    mesh = field.mesh
    _, number, stress = field._nodal
    across = np.einsum("qk,mk->mq", mesh.work.value, stress[number, 1])
    volume = mesh.work.area * mesh.thickness[:, None]
    read = field.readable(mesh.work.place.reshape(-1, 2))
    return over_one_cubic_inch(across.ravel()[read], volume.ravel()[read], k)
