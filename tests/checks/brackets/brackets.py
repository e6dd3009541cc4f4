"""Small invented brackets for the tests: built by hand, with a post and a stud behind them."""

from __future__ import annotations

from typing import Any

from beamcheck.checks.brackets.bearing import hung_on_it
from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.fixings.fixings import fixing_checks
from beamcheck.checks.brackets.loads import BracketLoads, bracket_loads
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.material import WoodMaterial
from beamcheck.model.brackets.bracket import Bracket
from beamcheck.model.existing import Existing
from beamcheck.model.posts import Post
from beamcheck.model.stock import Stock

from ..anchors.anchors import made, stock
from ..consistent import consistent

Data = dict[str, Any]
BRACED: Data = {
    "family": "braced", "thickness": "2 1/2 in", "height": "18 in", "projection": "18 in", "wall_leg": "2 1/2 in",
    "top_leg": "2 1/2 in", "brace": "2 1/2 in", "brace_out": "15 in", "brace_down": "15 in", "joints": "housed",
    "housing": "1/2 in", "behind_housing": "1 in",
    "legs_joint": {"manner": "steel", "takes": "900 lb", "report": "report TR-0, 2025 edition", "both_sides": True},
}  # fmt: skip
STRAP: Data = {
    "family": "steel core", "steel": "A36", "width": "1 1/2 in", "thickness": "1/4 in", "projection": "8 in",
    "down": "3 in",
}  # fmt: skip
CORBEL: Data = {
    "family": "corbel", "thickness": "3 1/2 in", "height": "9 in", "projection": "3 1/2 in", "grain": "upright",
}  # fmt: skip
BENT: Data = {
    "family": "bent", "thickness": "1 1/2 in", "depth": "2 in", "inner_radius": "8 in", "sweep": "90 deg",
    "made": "laminated", "lamination": "1/16 in", "glue": "resorcinol, maker's sheet 12",
}  # fmt: skip
SOLID: Data = {
    "family": "solid", "thickness": "3 1/2 in", "height": "12 in", "projection": "10 in", "foot": "3 in",
    "nose": "3 in", "soffit": "straight", "grain": "upright",
}  # fmt: skip
LAG: Data = {"kind": "lag screw", "size": "3/8 in", "length": "5 in"}
BOLT: Data = {"kind": "bolt", "size": "3/8 in", "length": "6 1/2 in", "steel": "A307"}
OTHER: Data = {"stock": "wood", "thickness": "3 1/2 in", "grain": "along", "end": "24 in", "edge": "2 3/4 in"}


def fixings(**more: Any) -> Data:
    """Two 3/8 in lag screws through 2 in of the bracket into a post, dry and sound."""
    return {
        "fastener": LAG, "through": "2 in", "other": OTHER, "wall": "wood", "seasoned": "dry", "split": "none seen",
        "rows": [{"below_top": "3 in", "count": 1}, {"below_top": "7 in", "count": 1}], **more,
    }  # fmt: skip


def bracket(shape: Data, load: str | None = None, at: str = "0 in", **more: Any) -> Bracket:
    """A bracket on the post, with one live force at a place."""
    carries = [{"what": "shelf", "live": load, "at": at}] if load else []
    data: Data = {"name": "K", "role": "carries", "shape": shape, "on": "post", "carries": carries, **more}
    if shape["family"] != "steel core":
        data.setdefault("stock", "wood")
    return Bracket(**data)


def structure(**stocks: Stock) -> Context:
    """A 4x6 post, a wall by others, and the bracket's own wood under the name 'wood'."""
    post = Post.model_validate({
        "name": "post", "stock": "wood", "height": "8 ft", "on": "slab", "top_restraint": "pinned",
    })  # fmt: skip
    slab = Existing.model_validate(
        {
            "name": "slab",
            "what": "slab",
            "material": "concrete",
            "confirmed_by": "invented sheet S-1, engineer",
        }
    )
    return Context(Structure({"wood": stock("4x6 dressed"), **stocks}, {"post": post, "slab": slab}))


def wood(context: Context) -> WoodMaterial:
    return made(context.stock("wood"))


def loads_of(piece: Bracket, context: Context, weight: float = 0.0) -> BracketLoads:
    """Its loads; own weight is left out unless it is given."""
    return bracket_loads(piece, context, [(0.0, piece.shape.stands_out, weight)] if weight else [])


def body_of(piece: Bracket, context: Context) -> Body:
    """Its body, and what hangs on it."""
    loads = loads_of(piece, context)
    found = family_of(piece).body(loads, wood(context), context)
    found.checks += hung_on_it(piece, loads)
    return found


def held(piece: Bracket, context: Context, weight: float = 0.0) -> list[Check]:
    """What is said of its fixings."""
    made = wood(context) if piece.stock is not None else None
    return fixing_checks(family_of(piece), loads_of(piece, context, weight), Body(), made, context)


def find(checks: list[Check], what: str) -> Check:
    """The one check of that name, or whose name begins like this."""
    found = [check for check in checks if check.what == what]
    found = found or [check for check in checks if check.what.startswith(what)]
    assert len(found) == 1, [check.what for check in checks]
    consistent(found)
    return found[0]


def loaded_body(shape: Data, load: Data | None = None, **more: Any) -> list[Check]:
    """What is said of the body of a bracket under a shelf of 100 lb 3 in out."""
    carries = [{"what": "shelf", "live": "100 lb", "at": "3 in", "bearing": "2 in", **(load or {})}]
    return body_of(bracket(shape, carries=carries, **more), structure()).checks


def held_on(
    shape: Data = SOLID, *, existing: Data | None = None, on: str = "post", at: float | None = None, **more: Any
) -> list[Check]:
    """What is said of its fixings under 20 lb, on the post or on a wall by others."""
    here = structure(thin=stock("2x6 dressed", name="thin"))
    wall = {"name": "wall", "what": "studs", "material": "wood", "confirmed_by": "invented sheet S-1, engineer"}
    pieces = {**here.structure.pieces, "wall": Existing.model_validate({**wall, **(existing or {})})}
    piece = bracket(shape, "20 lb", "3 in", on=on, fixings=fixings(**more))
    if at is not None:  # a load of the helper has an `at` of its own
        piece = piece.model_copy(update={"at": at})
    return held(piece, Context(Structure(here.structure.stocks, pieces)))


def those(checks: list[Check], what: str) -> list[Check]:
    """The checks whose names begin like this."""
    return [check for check in checks if check.what.startswith(what)]
