"""What must hold between joints and the rest of a job: stocks, posts, members, and one joint for one place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ...errors import nearest
from ..anchors.anchor import Anchor, Holes, Other
from ..anchors.manners import MANNERS, Manner
from ..fields.places import SAME_PLACE, Fault, Path, entries, feet, fields, inches
from ..frames.frame import Frame, FrameStick
from ..joints.joint import Joint
from ..joints.kinds import MADE
from ..joints.parts import Member
from ..posts import Post
from .entries import Entry, size_of
from .hardware import fastener_faults, steel_faults

# kind of joint -> the manner in which the fasteners of one member hold
MANNER_OF: dict[str, Manner] = {
    "bolted lap": "wood side", "bolted between": "wood both sides", "plates both sides": "plates both sides",
    "knife plate": "concealed plate", "strap": "plates both sides", "post base": "concealed plate",
    "post cap": "plates both sides", "ledger": "ledger", "concrete anchor": "wood side",
}  # fmt: skip
OF_MEMBER = ("holes", "plate", "arm")


def joint_links(
    found: Sequence[Entry], stocks: Mapping[str, Entry], things: Mapping[str, Entry]
) -> Iterator[Fault]:  # fmt: skip
    """Everything that is wrong between joints and what they name."""
    taken: dict[tuple[str, str], str] = {}
    seats: dict[tuple[str, str], tuple[str, str]] = {}
    for entry in found:
        if entry.kind == "joint":
            yield from _of_the_tables(entry)
        joint = entry.piece
        if not isinstance(joint, Joint):
            continue
        for i, member in enumerate(joint.members):
            if member.stock is not None and member.stock not in stocks:
                text = f"there is no [[stock]] named {member.stock!r}; {nearest(member.stock, list(stocks))}"
                yield (*entry.path, "members", i, "stock"), text
        head = joint.step.wide_from if joint.step is not None else None
        under = joint.base.rods.stock if joint.base is not None and joint.base.rods is not None else None
        for place, name in ((("step", "wide_from"), head), (("base", "rods", "stock"), under)):
            if name is not None and name not in stocks:
                text = f"there is no [[stock]] named {name!r}; {nearest(name, list(stocks))}"
                yield (*entry.path, *place), text
        yield from _of_a_post(entry, joint, things)
        yield from _splice(entry, joint, things, [one.piece for one in found if isinstance(one.piece, Joint)])
        yield from _seat(entry, joint, seats)
        yield from _fasteners(entry, joint)
        yield from _in_their_slots(entry, joint, stocks, things)
        yield from _of_a_frame(entry, joint, things)
        for key, path in _places(joint):
            other = taken.setdefault(key, joint.name)
            if other != joint.name:
                text = f"{key[1]!r} has joint {other!r} there already: one joint for one end"
                yield (*entry.path, *path), text


def _of_the_tables(entry: Entry) -> Iterator[Fault]:
    """Sizes and grades that the tables must know: of what is worked out."""
    kind = entry.data.get("kind")
    if isinstance(kind, str) and kind in MANNER_OF:
        yield from fastener_faults((*entry.path, "fastener"), fields(entry.data.get("fastener")))
    for part in ("base", "cap", "strap"):
        yield from steel_faults((*entry.path, part, "steel"), fields(entry.data.get(part)).get("steel"))
    for i, member in enumerate(entries(entry.data.get("members"))):
        grade = fields(fields(member).get("plate")).get("steel")
        yield from steel_faults((*entry.path, "members", i, "plate", "steel"), grade)


def _places(joint: Joint) -> Iterator[tuple[tuple[str, str], Path]]:
    """Ends that it holds. What others are notched or let into may be that of several joints."""
    if joint.frame is not None and joint.at is not None:
        for i, member in enumerate(joint.members):
            if member.part not in ("notched", "mortised", "hung"):
                yield (f"{joint.frame}: {joint.at}", member.name), ("members", i, "name")
    if joint.post is not None:
        yield ("post", joint.post), ("post",)


def _seat(entry: Entry, joint: Joint, seats: dict[tuple[str, str], tuple[str, str]]) -> Iterator[Fault]:
    """What a joint stands on goes into one member: not into one that lies in the notch of another."""
    if joint.bears_on is None:
        return
    lands = [one for one in joint.members if one.name == joint.bears_on and one.part == "landing"]
    if lands:
        on = next(one.name for one in joint.members if one.part == "notched")
        yield (*entry.path, "bears_on"), f"{joint.bears_on!r} lies in the notch of {on!r}: write bears_on = {on!r}"
    if joint.frame is None or joint.at is None:
        return
    before, other = seats.setdefault((joint.frame, joint.at), (joint.name, joint.bears_on))
    if other != joint.bears_on:
        text = f"the {joint.at} bears on {joint.bears_on!r} here, by joint {before!r} on {other!r}: it is one of them"
        yield (*entry.path, "bears_on"), text


def _splice(
    entry: Entry, joint: Joint, things: Mapping[str, Entry], joints: Sequence[Joint]
) -> Iterator[Fault]:  # fmt: skip
    """The member of a frame that it joins in its length, and a place on that."""
    if not joint.spliced:
        return
    frames = [thing.piece for thing in things.values() if isinstance(thing.piece, Frame)]
    names = [stick.name for frame in frames for stick in frame.sticks]
    if joint.spliced not in names:
        text = f"there is no member {joint.spliced!r} of a frame"
        yield (*entry.path, "splices"), f"{text}; {nearest(joint.spliced, names)}"
        return
    stick = next(one for frame in frames for one in frame.sticks if one.name == joint.spliced)
    if joint.splice_at is not None and joint.splice_at > stick.length + SAME_PLACE:
        text = f"{feet(joint.splice_at)} along it, but {joint.spliced!r} ends {feet(stick.length)} from its first point"
        yield (*entry.path, "splice_at"), f"{text}; measure from there, of a rafter from its foot"
    elif joint.splice_at is not None:
        frame = next(one for one in frames if stick in one.sticks)
        yield from _room(entry, joint, frame, stick, [one for one in joints if one is not joint])


def _room(
    entry: Entry, joint: Joint, frame: Frame, stick: FrameStick, others: Sequence[Joint]
) -> Iterator[Fault]:  # fmt: skip
    """Either length that a splice joins is as long as what is bored into its ends."""
    assert joint.splice_at is not None
    points = frame.shape.stick(stick.stick).points
    taken = [(0.0, 0.0), (stick.length, 0.0)]  # along the member: where something is, and how far its holes reach
    for one in others:
        if one.spliced == joint.spliced and one.splice_at is not None:
            if abs(one.splice_at - joint.splice_at) <= SAME_PLACE:
                text = f"{joint.spliced!r} is spliced there by {one.name!r} already: one joint for one place"
                yield (*entry.path, "splice_at"), text
                return
            toward = one.members[:2][one.splice_at < joint.splice_at :][:1]
            taken += [(one.splice_at, _reach(member)) for member in toward]
        elif one.frame == frame.name and one.at in (points[0], points[-1]):
            place = 0.0 if one.at == points[0] else stick.length
            named = (stick.stick, stick.name)
            taken += [(place, _reach(member)) for member in one.members if member.name in named]
    for i, member in enumerate(joint.members):
        own = _reach(member)
        ahead = [(abs(place - joint.splice_at), far) for place, far in taken
                 if (place > joint.splice_at if i else place < joint.splice_at)]  # fmt: skip
        room, far = min(ahead, key=lambda one: one[0] - one[1], default=(0.0, 0.0))
        if own > 0.0 and own + far > room - SAME_PLACE:
            bored = f"holes reach {inches(own)} into it" + (f" and {inches(far)} from its other end" if far else "")
            text = f"{member.name!r} is {feet(room)} long by that, and {bored}: they do not lie clear of each other"
            yield (*entry.path, "splice_at"), f"{text}; splice it elsewhere"


def _reach(member: Member) -> float:
    """How far from its end the holes in a member go, in."""
    return 0.0 if member.holes is None else max((x for _, x in member.holes.distances()), default=0.0)


def _of_a_frame(entry: Entry, joint: Joint, things: Mapping[str, Entry]) -> Iterator[Fault]:
    """The frame, its point, and members that reach that point."""
    if joint.frame is None or joint.at is None:
        return
    frames = {name: thing for name, thing in things.items() if thing.kind == "frame"}
    if joint.frame not in frames:
        what = f"{joint.frame!r} is a {things[joint.frame].kind}" if joint.frame in things else "there is no such frame"
        yield (*entry.path, "frame"), f"{what}; {nearest(joint.frame, list(frames))}"
        return
    frame = frames[joint.frame].piece
    if not isinstance(frame, Frame):
        return
    shape = frame.shape
    if joint.at not in shape.points:
        text = f"the frame has no point {joint.at!r}"
        yield (*entry.path, "at"), f"{text}; {nearest(joint.at, list(shape.points))}"
        return
    here = [stick.name for stick in shape.sticks if joint.at in stick.points]
    for i, member in enumerate(joint.members):
        name = member.name.removeprefix(f"{frame.name}: ")
        if name not in here:
            there = any(stick.name == name for stick in shape.sticks)
            what = f"{name!r} does not come to the {joint.at}" if there else f"the frame has no member {name!r}"
            yield (*entry.path, "members", i, "name"), f"{what}; there meet: {', '.join(here)}"
            continue
        if joint.strap is not None and member.part == "hung" and joint.strap.from_end > 0.5 * shape.length(name):
            text = (
                f"{feet(joint.strap.from_end)} from the nearest end of the {name}, which is {feet(shape.length(name))}"
            )
            yield (*entry.path, "strap", "from_end"), f"{text} long: no more than half of that"
        if joint.step is not None and member.part == "notched":
            yield from _behind(entry, joint, frame, name)
        if member.holes is not None:
            yield from _within((*entry.path, "members", i, "holes"), member.holes, shape.length(name), name)


def _within(path: Path, holes: Holes, length: float, name: str) -> Iterator[Fault]:
    """Holes lie in their member."""
    for inner, x in holes.distances():
        if x > length + SAME_PLACE:
            yield (*path, *inner), f"{feet(x)} from its end, but the {name} is {feet(length)} long: measure again"
            return


def _behind(entry: Entry, joint: Joint, frame: Frame, name: str) -> Iterator[Fault]:
    """Behind a notch along a member there is no more wood than up to its end."""
    assert joint.step is not None
    at, length = frame.shape.places(name)[str(joint.at)], frame.shape.length(name)
    if not SAME_PLACE < at < length - SAME_PLACE:
        return  # how far it reaches beyond its last point is not part of the frame
    most = max(at, length - at)
    if joint.step.behind > most + SAME_PLACE:
        text = f"{inches(joint.step.behind)} of wood behind the notch, but the {name} ends {feet(most)} from there"
        yield (*entry.path, "step", "behind"), f"{text}; measure from the root of the notch to the end or the next cut"


def _of_a_post(entry: Entry, joint: Joint, things: Mapping[str, Entry]) -> Iterator[Fault]:
    if joint.post is None:
        return
    posts = [name for name, thing in things.items() if thing.kind == "post"]
    if joint.post not in posts:
        what = f"{joint.post!r} is a {things[joint.post].kind}" if joint.post in things else "there is no such [[post]]"
        yield (*entry.path, "post"), f"{what}; {nearest(joint.post, posts)}"
        return
    foot = things[joint.post].data.get("foot_held_by")
    if foot:
        text = f"the foot of {joint.post!r} is held by {foot!r} already: one joint for one end"
        yield (*entry.path, "post"), text


def _fasteners(entry: Entry, joint: Joint) -> Iterator[Fault]:
    """Fasteners, holes and plates of each member, by the rules of the groups that hold ends."""
    made = MADE[joint.kind]
    if joint.fastener is None or not made.laid_out:
        return
    given = 0
    for i, member in enumerate(joint.members):
        path = (*entry.path, "members", i)
        if joint.kind == "strap" and member.part == "hung":
            continue
        if member.holes is None:
            text = "missing: where the fasteners are in it"
            yield (*path, "holes"), f'{text}, for example holes = {{ end = "5 1/4 in", edge = "3 in" }}'
            continue
        if made.plated and member.plate is None and joint.kind != "post base":
            text = "missing: the plate on it"
            example = 'plate = { steel = "A36", thickness = "1/4 in", width = "6 in", length = "12 in" }'
            yield (*path, "plate"), f"{text}, for example {example}"
            continue
        shared = not made.plated and joint.kind != "strap"
        many = max((member.holes.rows or 1) * (member.holes.columns or 1), len(member.holes.places))
        if shared and many > 1:
            given += 1
            if given > 1:
                text = "the layout is given at another member already: here only how far the nearest hole is"
                yield (*path, "holes"), f'{text}, for example holes = {{ end = "7 in", edge = "3 in" }}'
        yield from _of_member(entry, joint, i, member)


def _in_their_slots(
    entry: Entry, joint: Joint, stocks: Mapping[str, Entry], things: Mapping[str, Entry]
) -> Iterator[Fault]:  # fmt: skip
    """A plate in a slot is no wider than the wood that it is let into."""
    if not MANNERS[MANNER_OF.get(joint.kind, "by others")].in_a_slot:
        return
    frame, post = (things[name].piece if name in things else None for name in (joint.frame or "", joint.post or ""))
    sticks = frame.sticks if isinstance(frame, Frame) else ()
    of_frame = {name: stick.stock for stick in sticks for name in (stick.stick, stick.name)}
    of_post = post.stock if isinstance(post, Post) else None
    for i, member in enumerate(joint.members):
        size = size_of(stocks.get(member.stock or of_frame.get(member.name) or of_post or ""))
        if member.plate is not None and size is not None and member.plate.width > max(size.b, size.d) + SAME_PLACE:
            text = f"a plate {inches(member.plate.width)} wide is not let into {member.name!r}, {size.b:g} x {size.d:g}"
            where = (*entry.path, "members", i, "plate", "width")
            yield where, f"{text} in: give its width across the grain, at most {inches(max(size.b, size.d))}"


def _of_member(entry: Entry, joint: Joint, i: int, member: Member) -> Iterator[Fault]:
    if joint.kind == "strap" or (joint.kind == "post base" and member.plate is None):
        return
    other = Other.model_construct(thickness=1.0, grain="along", material="wood")
    plates = joint.kind in ("plates both sides", "knife plate", "post base", "post cap")
    made = Anchor.model_construct(
        name=joint.name, manner=MANNER_OF[joint.kind], fastener=joint.fastener, holes=member.holes,
        plate=member.plate, other=None if plates else other,
    )  # fmt: skip
    for path, text in Anchor.faults(made):
        head = path[0] if path else ""
        if head in OF_MEMBER:
            yield (*entry.path, "members", i, *path), text
        elif head != "other":
            yield (*entry.path, *path), text
