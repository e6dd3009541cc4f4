"""The drawings of a piece for a notebook: those of its sheet, made from its result."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from ..checks.core.result import CAUTION, SIGN_OFF, PieceResult
from ..lettering import legible
from ..records import dataclass
from .document.blocks import FigureBlock
from .document.piece import assembly_drawn, diagrams_of, picture_of
from .figures.drawers import drawn


@dataclass(frozen=True)
class Drawings:
    """The drawings of one piece as `<svg>` elements; a notebook shows them, with the caution below."""

    name: str
    svg: tuple[str, ...]

    def _repr_html_(self) -> str:
        head = f"<p><strong>{escape(legible(self.name))}</strong></p>"
        body = "".join(self.svg) or "<p>There is no drawing of this piece.</p>"
        foot = f"<p><strong>Caution.</strong> {escape(CAUTION)}</p><p>{escape(SIGN_OFF)}</p>"
        return f'<div style="max-width:50em;background:#fff;color:#000">{head}{body}{foot}</div>'


def drawings(piece: PieceResult, *, units: str = "US") -> Drawings:
    """The drawings of a piece of a result: loads, shear, moment, deflection; cuts and holes; what else its sheet shows.

    Parameters
    ----------
    piece : PieceResult
    units : 'US' or 'SI'
    """
    return Drawings(piece.name, tuple(drawn(block) for block in _blocks(piece, units)))


def _blocks(piece: PieceResult, units: str) -> Iterator[FigureBlock]:
    for index, picture in enumerate(piece.pictures):
        yield picture_of(piece, picture, f"notebook-{index + 1}", units)
    if piece.figure is not None:
        yield diagrams_of(piece, "notebook", units)
    if piece.drawing is not None:
        yield FigureBlock(piece.drawing, piece.name, units, "notebook-holes", "")
    if piece.assembly is not None:
        yield assembly_drawn(piece.assembly, "notebook-assembly", units)
