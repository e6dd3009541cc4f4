"""How the pages of two PDFs look: the same words may stand under a white patch, or beside a picture of others."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

_SCALE = 0.5  # pixels a point: 36 an inch
_TILE = 6  # pixels: a patch that hides a figure or a word is larger
_DIFFERS = 60.0  # of 255, the mean of a tile: lines and letters that move by a hair stay below
_LARGEST = 4_000.0  # points of a side, beyond which no page of ours goes


def pages_that_look_otherwise(one: bytes, other: bytes) -> Iterator[int]:
    """Numbers (from 1) of the pages that do not look alike, notes and form fields left out."""
    import pypdfium2

    with pypdfium2.PdfDocument(one) as first, pypdfium2.PdfDocument(other) as second:
        for number, (was, now) in enumerate(zip(first, second, strict=False), start=1):
            if max(now.get_size()) > _LARGEST or was.get_size() != now.get_size() or _differ(was, now):
                yield number


def _differ(was: Any, now: Any) -> bool:
    one, other = (
        page.render(scale=_SCALE, grayscale=True, may_draw_forms=False, draw_annots=False).to_numpy().astype(float)
        for page in (was, now)
    )
    apart = one.reshape(one.shape[:2]) - other.reshape(other.shape[:2])
    high, wide = (side // _TILE * _TILE for side in apart.shape)
    tiles = apart[:high, :wide].reshape(high // _TILE, _TILE, wide // _TILE, _TILE).mean(axis=(1, 3))
    return bool(np.abs(tiles).max(initial=0.0) > _DIFFERS)
