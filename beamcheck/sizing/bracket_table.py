"""The table of hand rule against field analysis over the families of solid brackets: what the claimed band rests on.

`python -m beamcheck.sizing.bracket_table` prints it as CSV; the file in worked_examples/ is that output.
"""

from __future__ import annotations

import csv
import io
import sys
from collections.abc import Iterator
from itertools import product

from ..checks.brackets.families.solid_comparison import ComparedSection, Edge, band, beside
from ..checks.brackets.families.solid_hand_rule import Moduli, is_diagonal
from ..model.brackets.bracket import Solid
from ..records import dataclass
from ..values.brackets import elastic_ratios
from ..values.judgment import judgment

SOFFITS = ("straight", "concave", "convex", "ogee", "hollow arc", "full arc")
GRAINS = (0.0, 45.0, 90.0)
SIZES = (  # height, projection, foot, nose, in: about square, stout, long, tall, very long
    (12.0, 10.0, 1.5, 1.5), (12.0, 10.0, 3.0, 3.0), (10.0, 14.0, 2.0, 2.0), (16.0, 10.0, 2.5, 2.5),
    (8.0, 16.0, 2.0, 2.0),
)  # fmt: skip
LOADS, HELD = ("tip", "shelf"), ("bonded", "anchors")
THICKNESS, FORCE, SAGITTA = 1.5, 100.0, 1.5  # in, lbf, in: stress goes with force over thickness
SPECIES, E_L = "Coast Douglas-fir", 1.6e6  # psi: only ratios of moduli matter for stress
ACROSS = 14  # cells: ratios at edges then move little with the mesh
FROM_ENDS = 2.0  # in: the two rows of anchors, from top and foot
WALL = 1.0e6  # psi/in, a hard wall
HEADS = (
    "soffit", "grain_deg", "height_in", "projection_in", "foot_in", "nose_in", "load", "held", "arm_over_depth_at_wall",
    "edge", "sections_read", "sections_within_rule", "least_hand_over_field", "largest_hand_over_field",
    "claimed", "least_outside_rule", "largest_outside_rule",
)  # fmt: skip


@dataclass(frozen=True)
class Case:
    """One bracket of the table."""

    soffit: str
    grain: float
    size: tuple[float, float, float, float]
    load: str
    held: str


def cases() -> list[Case]:
    """All brackets of the table, in its order."""
    return [Case(*one) for one in product(SOFFITS, GRAINS, SIZES, LOADS, HELD)]


def rows_of(case: Case) -> list[dict[str, str]]:
    """The rows of one bracket: one for each edge. '' where no section lies within the rule."""
    sections = compared(case)
    found = []
    edges: tuple[Edge, ...] = ("top", "soffit") if case.held == "bonded" else ("top", "soffit", "wall")
    for edge in edges:
        on = [one for one in sections if one.edge == edge]
        ratios = [one.ratio for one in on if one.covered and one.counts]
        outside = [one.ratio for one in on if one.counts and not one.covered]
        claim = band(edge, "bonded" if case.held == "bonded" else "springs")
        first = next((one for one in sections if one.edge == ("wall" if edge == "wall" else "top")), None)
        said = "" if not ratios else "no claim" if claim is None else f"{claim[0]:g} to {claim[1]:g}"
        values = (
            case.soffit, f"{case.grain:g}", *(f"{one:g}" for one in case.size), case.load, case.held,
            "" if first is None else f"{first.arm:.2f}", edge, str(len(on)), str(len(ratios)), *_ends(ratios), said,
            *_ends(outside),
        )  # fmt: skip
        found.append(dict(zip(HEADS, values, strict=True)))
    return found


def _ends(ratios: list[float]) -> tuple[str, str]:
    return (f"{min(ratios):.3f}", f"{max(ratios):.3f}") if ratios else ("", "")


def compared(case: Case) -> list[ComparedSection]:
    """All sections of one bracket."""
    from ..analysis.fields.field import Backing, Elastic, Press, Spring, solve_field
    from ..analysis.fields.outline import outline_of

    H, P, a, b = case.size
    shape = Solid.model_validate({
        "family": "solid", "thickness": f"{THICKNESS} in", "height": f"{H} in", "projection": f"{P} in",
        "foot": f"{a} in", "nose": f"{b} in", "soffit": case.soffit, "grain": f"{case.grain} deg",
        **({"sagitta": f"{SAGITTA} in"} if "arc" in case.soffit else {}),
    })  # fmt: skip
    outline = outline_of(shape)
    ratios = elastic_ratios(SPECIES)[0].value
    moduli = Moduli(E_L, E_L * ratios.E_T, E_L * ratios.G_LT, ratios.nu_LT, case.grain)
    backing = Backing("bonded")
    if case.held == "anchors":
        k = judgment("anchor stiffness, soft").value
        backing = Backing("springs", tuple(Spring(y, k, k) for y in (FROM_ENDS, H - FROM_ENDS)), WALL)
    press = Press(P - 1.0, P, FORCE) if case.load == "tip" else Press(0.0, P, FORCE)
    elastic = Elastic(moduli.E_L, moduli.E_T, moduli.G_LT, moduli.nu_LT, case.grain)
    field = solve_field(outline, THICKNESS, elastic, backing, [press], across=ACROSS)
    diagonal = is_diagonal(case.grain, case.soffit, bool(outline.kinks))
    return beside(field, THICKNESS, moduli, diagonal=diagonal)


def rows() -> Iterator[dict[str, str]]:
    """The whole table; about a minute."""
    for case in cases():
        yield from rows_of(case)


def as_csv() -> str:
    """The table as text."""
    out = io.StringIO()
    writer = csv.DictWriter(out, HEADS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows())
    return out.getvalue()


if __name__ == "__main__":
    sys.stdout.write(as_csv())
