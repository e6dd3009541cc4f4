"""Shapes of brackets: solid, braced, bent, steel core, corbel. Each says what cannot be built of it. No computing here.

Measured as `shape.py` says.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Annotated, Literal

from pydantic import Field

from ..anchors.anchor import Fastener
from ..fields.base import Answer, Name, Words
from ..fields.places import SAME_PLACE, Fault, inches
from ..fields.quantities import Angle, Length, PositiveLength
from .joints import EndScrews, LegJoint
from .shape import ON_IT, Boxed, BracketShape, Grain, Pocket, Point


class Solid(Boxed):
    """Cut from one board or block."""

    sawn = True

    family: Literal["solid"] = Field(description="cut from one board or block", examples=["solid"])
    thickness: PositiveLength = Field(description="of the bracket, side to side", examples=["1 1/2 in"])
    height: PositiveLength = Field(description="of the wall leg, along the wall", examples=["12 in"])
    projection: PositiveLength = Field(description="of the top edge, out from the wall", examples=["10 in"])
    foot: PositiveLength = Field(description="depth of the wall leg at its foot, out from the wall", examples=["2 in"])
    nose: PositiveLength = Field(description="depth of the top at its nose, down from the top edge", examples=["2 in"])
    soffit: Literal["straight", "concave", "convex", "ogee", "hollow arc", "full arc", "points"] = Field(
        description="the lower edge from foot to nose; concave and convex are quarter ellipses", examples=["concave"]
    )
    sagitta: PositiveLength | None = Field(
        default=None, description="of a hollow or full circular arc, from the straight line between its ends"
    )
    points: tuple[Point, ...] = Field(
        default=(), max_length=500, description="of the soffit, from the foot to the nose, both ends included"
    )
    grain: Grain | None = Field(
        default=None, description='"level", "upright", or degrees above level towards the nose', examples=["upright"]
    )
    pocket: Pocket | None = Field(default=None, description="cut into the wall face to hide hardware")

    def faults(self) -> Iterator[Fault]:
        """Its outline."""
        from ..outlines.rules import outline_faults  # plane geometry, which only a solid bracket needs

        yield from outline_faults(self)

    def air_at(self, places: Sequence[tuple[float, float]]) -> tuple[float, float] | None:
        import numpy as np

        from ..outlines.geometry import in_the_wood

        within = in_the_wood(self, np.array(places, dtype=float), ON_IT)
        return next((place for place, inside in zip(places, within, strict=True) if not inside), None)


class Braced(Boxed):
    """Built up of a wall leg, a top leg and a brace, straight or curved."""

    family: Literal["braced"] = Field(description="wall leg, top leg and brace", examples=["braced"])
    thickness: PositiveLength = Field(description="of all three pieces, side to side", examples=["2 1/2 in"])
    height: PositiveLength = Field(description="of the wall leg, along the wall", examples=["18 in"])
    projection: PositiveLength = Field(description="of the top leg, out from the wall", examples=["18 in"])
    wall_leg: PositiveLength = Field(description="depth of the wall leg, out from the wall", examples=["2 1/2 in"])
    top_leg: PositiveLength = Field(description="depth of the top leg, down from its top", examples=["2 1/2 in"])
    brace: PositiveLength = Field(description="depth of the brace, in the plane of the bracket", examples=["2 1/2 in"])
    brace_out: PositiveLength = Field(
        description="from the wall face to where the brace's axis meets the underside of the top leg",
        examples=["15 in"],
    )
    brace_down: PositiveLength = Field(
        description="from the top edge to where the brace's axis meets the outer face of the wall leg",
        examples=["15 in"],
    )
    sagitta: Length = Field(default=0.0, description="of a curved brace, from the straight line between its ends")
    joints: Literal["butted", "housed", "tenoned", "glued only"] | None = Field(
        default=None, description="how the brace meets the legs"
    )
    housing: PositiveLength | None = Field(default=None, description="depth of the housings or shoulders of the brace")
    behind_housing: PositiveLength | None = Field(
        default=None, description="length of wood along the leg's grain that keeps a housing from shearing off"
    )
    legs_joined: Answer = Field(default="", description="how top leg and wall leg are joined, in words")
    legs_joint: LegJoint | None = Field(
        default=None,
        description="the joint of top leg and wall leg, so that it can be worked out",
        examples=[{
            "manner": "lap", "fastener": {"kind": "wood screw", "size": "No. 14", "length": "2 1/4 in"},
            "rows": [{"down": "1/2 in", "count": 2}, {"down": "2 1/8 in", "count": 2}], "end": "3/4 in",
            "apart": "1 in",
        }],
    )  # fmt: skip
    end_screws: EndScrews | None = Field(
        default=None, description="of a butted brace: what keeps its ends from sliding along the legs"
    )
    true_pins: bool = Field(
        default=False, description="the brace turns freely at its ends; else a tight joint bends it"
    )

    def faults(self) -> Iterator[Fault]:
        """The legs lie within the box, the brace between them, housings within the legs."""
        found, filled = False, set()
        for leg, side in (("wall_leg", "projection"), ("top_leg", "height")):
            if getattr(self, leg) >= getattr(self, side):
                filled.add(leg)
                text = f"a leg {inches(getattr(self, leg))} deep fills the {side} of {inches(getattr(self, side))}"
                yield (leg,), f"{text}: no room is left for a brace"
        for place, side, leg, what in (
            ("brace_out", "projection", "wall_leg", "top leg"),
            ("brace_down", "height", "top_leg", "wall leg"),
        ):
            x, most, least = getattr(self, place), getattr(self, side), getattr(self, leg)
            if x > most + SAME_PLACE:
                found = True
                text = f"{inches(x)} is beyond the end of the {what}: {side} is {inches(most)}"
                yield (place,), text
            elif x <= least and leg not in filled:
                found = True
                text = f"{inches(x)} lies within the {leg.replace('_', ' ')}, which is {inches(least)} deep"
                yield (place,), f"{text}: the brace would have no length"
        if not found and not filled:
            yield from self._brace_faults()
        if self.end_screws is not None and self.joints not in (None, "butted"):
            yield ("end_screws",), f'joints = "{self.joints}": only a butted brace is kept from sliding by screws'
        if self.legs_joint is not None:
            lowest = max((row.down for row in self.legs_joint.rows), default=0.0)
            if lowest >= self.top_leg:
                text = f"{inches(lowest)} down is below the top leg, which is {inches(self.top_leg)} deep"
                yield ("legs_joint", "rows"), text
        if self.housing is not None and self.joints in ("butted", "glued only"):
            text = f'joints = "{self.joints}" have no housing: leave housing out, or write joints = "housed"'
            yield ("housing",), text
        elif self.housing is not None and self.housing >= min(self.wall_leg, self.top_leg):
            leg = inches(min(self.wall_leg, self.top_leg))
            yield ("housing",), f"{inches(self.housing)} deep: nothing is left of a leg {leg} deep"
        if self.behind_housing is not None and self.joints in ("butted", "glued only"):
            yield ("behind_housing",), f'joints = "{self.joints}" have no housing: leave behind_housing out'

    def least_beside(self) -> tuple[float, str]:
        depths = {name: getattr(self, name) for name in ("wall_leg", "top_leg", "brace")}
        name = max(depths, key=lambda key: depths[key])
        return depths[name], name.replace("_", " ")

    def own_fasteners(self) -> Iterator[tuple[str, Fastener, int]]:
        legs, ends = self.legs_joint, self.end_screws
        if legs is not None and legs.fastener is not None:
            yield "its legs together", legs.fastener, sum(row.count for row in legs.rows)
        if ends is not None:
            yield "its brace to its legs", ends.fastener, 2 * ends.count

    def _brace_faults(self) -> Iterator[Fault]:
        length = math.hypot(self.brace_out - self.wall_leg, self.brace_down - self.top_leg)
        if self.brace >= length:
            text = f"{inches(self.brace)} deep, but only {inches(length)} long between the legs: that is no brace"
            yield ("brace",), f"{text}; describe a solid bracket, or check brace_out and brace_down"
        if self.sagitta > 0.5 * length:
            text = f"{inches(self.sagitta)} is more than half the {inches(length)} between the brace's ends"
            yield ("sagitta",), f"{text}: more than half a circle cannot be a brace"


class Bent(BracketShape):
    """A bent or laminated arc of constant depth, its grain along the arc, from the wall out to the nose."""

    family: Literal["bent"] = Field(description="a bent or laminated arc", examples=["bent"])
    thickness: PositiveLength = Field(description="side to side", examples=["1 1/2 in"])
    depth: PositiveLength = Field(description="of the arc, across its curve", examples=["2 in"])
    inner_radius: PositiveLength = Field(description="of the hollow side", examples=["10 in"])
    sweep: Annotated[Angle, Field(gt=0, le=180)] = Field(
        description="angle from the fixed end to the nose", examples=["90 deg"]
    )
    made: Literal["steam-bent", "laminated", "sawn"] | None = Field(default=None, description="how it got its curve")
    lamination: PositiveLength | None = Field(default=None, description="thickness of one lamination")
    glue: Answer = Field(default="", description="glue of the laminations and who vouches for it")

    @property
    def stands_out(self) -> float:
        """Out from the wall face to the nose, in. An arc leaves the wall upright, its full side to it."""
        outer, turn = self.inner_radius + self.depth, math.cos(math.radians(self.sweep))
        return outer - (self.inner_radius if turn >= 0.0 else outer) * turn

    @property
    def level_top(self) -> float | None:
        return None

    @property
    def longest_seat(self) -> float:
        return max(self.thickness, self.inner_radius + self.depth)

    def least_beside(self) -> tuple[float, str]:
        return (self.depth, "depth") if self.made == "sawn" else (self.lamination or 0.0, "lamination")

    def faults(self) -> Iterator[Fault]:
        """Laminations and glue belong to a laminated arc, and a lamination is thinner than the arc is deep."""
        if self.lamination is not None and self.lamination > self.depth + SAME_PLACE:
            text = f"{inches(self.lamination)} is more than the depth of the arc, {inches(self.depth)}"
            yield ("lamination",), f"{text}: give the thickness of one lamination"
        if self.made in ("steam-bent", "sawn"):
            for field in ("lamination", "glue"):
                if getattr(self, field):
                    text = f'an arc that is {self.made} has no {field}: leave it out, or write made = "laminated"'
                    yield (field,), text


class SteelCore(BracketShape):
    """A concealed flat bar or angle inside a skin of wood; the steel carries all of it."""

    of_wood = False

    family: Literal["steel core"] = Field(
        description="a concealed bar or angle in a wooden skin", examples=["steel core"]
    )
    steel: Name = Field(description="grade of the bar", examples=["A36"])
    width: PositiveLength = Field(description="of the bar, side to side", examples=["1 1/2 in"])
    thickness: PositiveLength = Field(description="of the bar", examples=["1/4 in"])
    projection: PositiveLength = Field(description="of the level leg, out from the wall", examples=["8 in"])
    down: PositiveLength = Field(
        description="from the bend to the fixing that keeps the upright leg from turning", examples=["3 in"]
    )
    hole_at_bend: Length = Field(default=0.0, description="diameter of a hole at the bend; 0 for none")
    gusset_depth: PositiveLength | None = Field(default=None, description="of a welded gusset at the bend")
    gusset_thickness: PositiveLength | None = Field(default=None, description="of that gusset")
    gusset_edge: PositiveLength | None = Field(default=None, description="length of its free sloping edge")
    weld: PositiveLength | None = Field(default=None, description="leg of the gusset's fillet welds, both sides")
    tip_clear: Length | None = Field(
        default=None, description="how far the steel may sink at its tip before the skin is touched"
    )
    skin: Words = Field(default="", description="the wood around it, in words")

    @property
    def stands_out(self) -> float:
        return self.projection

    @property
    def lowest_fixing(self) -> float | None:
        """Its upright leg ends there, `down` below the bend."""
        return self.down

    @property
    def side_to_side(self) -> float:
        return self.width

    def least_beside(self) -> tuple[float, str]:
        return 0.0, ""

    def faults(self) -> Iterator[Fault]:
        """The hole lies within the bar; a gusset has all its parts."""
        if self.hole_at_bend >= self.width:
            text = f"a hole of {inches(self.hole_at_bend)} leaves nothing of a bar {inches(self.width)} wide"
            yield ("hole_at_bend",), f"{text}: give its diameter, 0 for none"
        parts = ("gusset_depth", "gusset_thickness", "gusset_edge", "weld")
        given = [field for field in parts if getattr(self, field) is not None]
        for field in ("gusset_depth", "gusset_thickness"):
            if given and field not in given:
                example = "3 in" if field == "gusset_depth" else "1/4 in"
                text = f"missing: {given[0]} is given, so there is a gusset"
                yield (field,), f'{text}; for example {field} = "{example}", or leave {" and ".join(given)} out'
        if self.gusset_edge is not None and self.gusset_depth is not None:
            longest = math.hypot(self.gusset_depth, self.projection)
            if self.gusset_edge <= self.gusset_depth + SAME_PLACE:
                text = f"{inches(self.gusset_edge)} is not longer than the gusset is deep, {inches(self.gusset_depth)}"
                yield ("gusset_edge",), f"{text}: its free edge runs aslant, from the upright leg to the level one"
            elif self.gusset_edge > longest + SAME_PLACE:
                text = f"{inches(self.gusset_edge)} would end beyond the nose: from there to the gusset's foot it is"
                yield ("gusset_edge",), f"{text} {inches(longest)}"
        if self.gusset_thickness is not None and self.gusset_thickness > self.width + SAME_PLACE:
            text = f"{inches(self.gusset_thickness)} is more than the width of the bar, {inches(self.width)}"
            yield ("gusset_thickness",), f"{text}: a gusset stands square to the bar, its thickness across it"


class Corbel(Boxed):
    """A block on the face of a post."""

    sawn = True

    family: Literal["corbel"] = Field(description="a block screwed to a post", examples=["corbel"])
    thickness: PositiveLength = Field(description="of the block, side to side", examples=["3 1/2 in"])
    height: PositiveLength = Field(description="along the post", examples=["9 in"])
    projection: PositiveLength = Field(description="out from the post", examples=["3 1/2 in"])
    grain: Grain | None = Field(default=None, description='"upright" as a rule', examples=["upright"])
    seat: Length = Field(default=0.0, description="depth of the dap in the post that the block's foot stands on")
    below_seat: PositiveLength | None = Field(
        default=None, description="length of post below the dap, along its grain, until the next cut or its end"
    )

    @property
    def in_the_dap(self) -> float:
        return self.seat

    def air_at(self, places: Sequence[tuple[float, float]]) -> tuple[float, float] | None:
        within = (
            -self.seat - ON_IT <= x <= self.projection + ON_IT and -ON_IT <= y <= self.height + ON_IT for x, y in places
        )
        return next((place for place, inside in zip(places, within, strict=True) if not inside), None)

    def faults(self) -> Iterator[Fault]:
        """What is below the seat belongs to a seat."""
        if self.below_seat is not None and not self.seat:
            text = "there is no seat: give its depth into the post"
            yield ("below_seat",), f'{text}, for example seat = "3/4 in", or leave below_seat out'


Shape = Annotated[Solid | Braced | Bent | SteelCore | Corbel, Field(discriminator="family")]
