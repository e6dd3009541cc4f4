"""The stress field of one solid bracket, as a value by itself: what the sheet shows beside the split test.

As in `single.py` a value is no verdict: wood has no strength across the grain that could be relied on.
"""

from __future__ import annotations

from collections.abc import Sequence

from .checks.brackets.families.solid_field import TOLERANCE, model_of
from .checks.core.result import CAUTION, SIGN_OFF
from .checks.core.wood.material import reference_values, wood_of
from .errors import OutOfRange
from .model.brackets.fixings import Fixings
from .model.brackets.shapes import Solid
from .model.stock import Stock
from .records import dataclass
from .units import read, show

KINDS = ("length", "length", "force")


@dataclass(frozen=True)
class FieldCase:
    """One run: stresses in psi with their places (in, from the upper inner corner, out and down), forces in lbf.

    `peaks` : largest tension along each edge and across the grain anywhere, and compression along the soffit.
    `pulls`, `shears` : of each row of fixings, from the first. `contact` : where the wall presses (from, to), its force
    `stiffness` : lbf/in. `moved` : by what part a governing figure moved between the last two meshes.
    """

    case: str
    peaks: tuple[tuple[str, float, tuple[float, float]], ...]
    pulls: tuple[float, ...]
    shears: tuple[float, ...]
    contact: tuple[float, float, float]
    stiffness: float
    moved: float


@dataclass(frozen=True)
class BracketField:
    """A solid bracket under one set of loads, for each end of what is not known of its wood, anchors and wall."""

    cases: tuple[FieldCase, ...]

    def __repr__(self) -> str:
        lines = ["stress field of a bracket: peaks of stress"]
        for case in self.cases:
            peaks = ", ".join(f"{name} {show(value, 'stress')}" for name, value, _ in case.peaks)
            lines.append(f"  {case.case}: {peaks}; moved by {100.0 * case.moved:.1f} % between the last two meshes")
        return "\n".join(lines) + f"\nCaution: {CAUTION}\n{SIGN_OFF}"


def bracket_field(
    shape: Solid, stock: Stock, *, grain: object, loads: Sequence[tuple[object, object, object]],
    fixings: Fixings | None = None,
) -> BracketField:  # fmt: skip
    """The stress field of a solid bracket, refined until its figures stand still.

    Parameters
    ----------
    shape : Solid
    stock : Stock
        Its species gives the range of elastic ratios.
    grain : str or pint quantity
        Angle above level towards the nose, '0 deg' to '180 deg'.
    loads : sequence of (from, to, force)
        Each spread evenly over a strip of the top edge, measured out from the wall; down is positive.
    fixings : Fixings, optional
        Without them the whole wall face is held.

    Raises
    ------
    OutOfRange
        If there is no load, or a strip lies off the top edge.
    BeamcheckError
        If a unit is missing, or the figures still move on the finest mesh.

    Source: plane stress, orthotropic; Wood Handbook ch. 5 for the elastic ratios.
    """
    from .analysis.fields.field import Press, refined_field
    from .analysis.fields.read import EDGE_PEAKS

    presses = [Press(*(float(read(one, kind)) for one, kind in zip(load, KINDS, strict=True))) for load in loads]
    if not presses:
        raise OutOfRange("a field needs a load: (from, to, force), such as ('6 in', '10 in', '200 lb')")
    for place, text in shape.faults():
        raise OutOfRange(f"shape, {'.'.join(map(str, place))}: {text}")
    wood = wood_of(stock, reference_values(stock))
    model = model_of(shape, fixings, stock, wood, grain=float(read(grain, "angle")))
    cases = []
    for variant in model.variants:
        found = refined_field(
            model.outline, shape.thickness, variant.elastic, variant.backing, presses, voids=model.voids,
            tolerance=TOLERANCE,
        )  # fmt: skip
        names = [name for name in (*EDGE_PEAKS, "across tension")
                 if name != "wall tension" or variant.backing.kind != "bonded"]  # fmt: skip
        peaks = [(name, found.peak(name)) for name in names]
        start, end, force, _ = found.contact
        cases.append(FieldCase(
            variant.words, tuple((name, peak.value, (peak.x, peak.y)) for name, peak in peaks), found.pulls,
            found.shears, (start, end, force), found.stiffness, found.moved,
        ))  # fmt: skip
    return BracketField(tuple(cases))
