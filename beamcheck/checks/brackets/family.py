"""The families of brackets: which checks a body gets, of which wood it is, its weight, how far it stands out."""

from __future__ import annotations

import math
from itertools import pairwise

from ...analysis.beams.load_cases import Applied
from ...analysis.fields.outline import outline_of
from ...model.brackets import Bent, Braced, Bracket, Corbel, Solid, SteelCore
from ..beams.beam import doubts
from ..core.context import Context
from ..core.govern import stated
from ..core.material import WoodMaterial, is_unknown, reference_values, rows_to_screen, wood_of
from ..core.result import Check
from .bearing import hung_on_it
from .body import Body
from .families.bent import bent_body, bent_projection
from .families.braced import braced_body
from .families.concealed_bar import steel_body
from .families.corbel import corbel_body
from .families.solid import solid_body, solid_stiffness
from .loads import BracketLoads, bracket_loads

STEEL_WEIGHT = 490.0 / 1728.0  # lbf/in3; common practice, no source
TRIAL = 100.0  # lbf
STRIPS = 12  # strips of own weight along the top edge


def body_of(bracket: Bracket, loads: BracketLoads, wood: WoodMaterial | None, context: Context) -> Body:
    """Strength and stiffness of the body under these loads."""
    body = _family_body(bracket, loads, wood, context)
    body.checks += hung_on_it(bracket.name, loads)
    return body


def _family_body(bracket: Bracket, loads: BracketLoads, wood: WoodMaterial | None, context: Context) -> Body:
    shape = bracket.shape
    if isinstance(shape, SteelCore):
        return steel_body(bracket, shape, loads, context)
    if wood is None:
        text = "of which wood it is made is not said (`stock`)"
        return Body(checks=[stated(bracket.name, "wood", "NDS 2018 4.1", "refer", text)])
    if isinstance(shape, Solid):
        return solid_body(bracket, shape, loads, wood, context)
    if isinstance(shape, Braced):
        return braced_body(bracket, shape, loads, wood, context)
    if isinstance(shape, Bent):
        return bent_body(bracket, shape, loads, wood, context)
    return corbel_body(bracket, shape, loads, wood, context)


def stiffness_of(bracket: Bracket, wood: WoodMaterial | None, context: Context) -> tuple[float, float]:
    """Bounds of the stiffness under a force at its nose, lbf/in; where nothing is known the upper one is rigid."""
    shape, projection = bracket.shape, projection_of(bracket)
    trial = Applied("L", projection, projection, P=TRIAL, what="trial force at the nose", bearing=0.1 * projection)
    bare = bracket.model_copy(update={"carries": ()})
    loads = bracket_loads(bare, context, projection, (), accidental=False, more=[trial])
    if isinstance(shape, Solid):
        return (0.0, math.inf) if wood is None else solid_stiffness(bracket, shape, loads, wood, context)
    body = body_of(bracket, loads, wood, context)
    return body.k_low or 0.0, body.k_high or math.inf


def wood_of_bracket(bracket: Bracket, context: Context) -> tuple[WoodMaterial | None, list[Check]]:
    """Its wood, and what is in doubt about it. Of wood that is not known the first row of the screening is taken."""
    if bracket.stock is None:
        return None, []
    stock = context.stock(bracket.stock)
    if is_unknown(stock):
        wood = wood_of(stock, rows_to_screen(stock)[0])
        text = f"the wood of {stock.name} is not known by species and grade: its figures here are those of {wood.label}"
        found = [stated(bracket.name, "evidence for the wood", "NDS 2018 4.1", "refer", text)]
    else:
        wood = wood_of(stock, reference_values(stock))
        found = []
    if bracket.role == "carries":
        found += doubts(bracket.name, wood)
    return wood, found


def projection_of(bracket: Bracket) -> float:
    """How far it stands out from the wall, in."""
    return bent_projection(bracket.shape) if isinstance(bracket.shape, Bent) else bracket.shape.projection


def own_weight(bracket: Bracket, wood: WoodMaterial | None) -> list[tuple[float, float, float]]:
    """Own weight in strips along the top edge: (from, to, lbf)."""
    shape, projection = bracket.shape, projection_of(bracket)
    density = float(wood.density) if wood is not None else 0.0
    if isinstance(shape, Solid):
        outline = outline_of(shape)
        edges = [projection * i / STRIPS for i in range(STRIPS + 1)]
        depths = [outline.depth(0.5 * (low + high)) for low, high in pairwise(edges)]
        whole = sum(depths) or 1.0  # the area is exact; the strips only say where it lies
        total = density * shape.thickness * outline.area
        return [
            (low, high, total * depth / whole)
            for low, high, depth in zip(edges[:-1], edges[1:], depths, strict=True) if depth > 0.0
        ]  # fmt: skip
    if isinstance(shape, SteelCore):
        bar = STEEL_WEIGHT * shape.width * shape.thickness * (shape.projection + shape.down)
        gusset = 0.5 * STEEL_WEIGHT * (shape.gusset_thickness or 0.0) * (shape.gusset_depth or 0.0) ** 2
        return [(0.0, projection, bar + gusset)]
    if isinstance(shape, Braced):
        length = math.hypot(shape.brace_out, shape.brace_down)
        area = shape.height * shape.wall_leg + shape.projection * shape.top_leg + length * shape.brace
        return [(0.0, projection, density * shape.thickness * area)]
    if isinstance(shape, Bent):
        length = math.radians(shape.sweep) * (shape.inner_radius + 0.5 * shape.depth)
        return [(0.0, projection, density * shape.thickness * shape.depth * length)]
    assert isinstance(shape, Corbel)
    return [(0.0, projection, density * shape.thickness * shape.height * shape.projection)]
