"""What a group is fastened to: whether it can be fastened so at all, who answers for it, and what weakens it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...errors import UnknownName
from ...model.beams import Beam
from ...model.existing import Existing
from ...model.posts import Post
from ...model.roofs import Rafter, Tie
from ...units import show
from ...values.judgment import judgment
from ...values.loader import Row, rows, source_of
from ...values.lumber import read_size
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check
from ..core.seat import answered
from .cuts import hole_of
from .denied import clauses, denied
from .group import Group, round_force
from .steel.back import back_checks, back_of
from .unsaid import Open

NAILED = re.compile(r"\b(?:nails|nailing|nailed)\b", re.IGNORECASE)
NAMED = {  # words of a report that say how its hardware goes onto what takes no nails
    "concrete": re.compile(r"\b(?:concrete|cast|embedded|anchored|anchor bolts?|bolted|bolts?)\b", re.IGNORECASE),
    "masonry": re.compile(r"\b(?:masonry|brick|block|anchored|anchor bolts?|bolted|bolts?)\b", re.IGNORECASE),
    "steel": re.compile(r"\b(?:welded|welds?|bolted|bolts?|steel (?:beam|girder|column|post|wall)s?)\b", re.IGNORECASE),
}
TABLE = "anchor_far_sides"
BEHIND, PATH = "what it is fastened to", "load path"


def far_side_checks(group: Group) -> list[Check]:
    """Everything about the far side that the fasteners themselves do not know."""
    found = [*_behind(group)]
    if back_of(group) is not None:
        found += back_checks(group)
    elif group.into is not None:
        found += [*_can_be(group), *_grain(group)]
    return [*found, *_steel_beyond(group), *_holes_behind(group)]


def _behind(group: Group) -> Iterator[Check]:
    """What the group is fastened to, and who answers for the rest of the way."""
    anchor, into = group.anchor, group.into
    if into is None:
        yield group.refers(
            "anchor.into", BEHIND, PATH, Open("what it is fastened to is not known here", "into", "into")
        )
        return
    if anchor.into is not None and anchor.into != into.name:
        text = f"it is said to be fastened to {anchor.into}, but the end that it holds is carried by {into.name}"
        yield group.refers("anchor.into", BEHIND, PATH, Open(text, "into", "into", (into.name,)))
    if not isinstance(into, Existing):
        return
    yield answered(group.name, f"what {group.name} is fastened to", into)
    if into.takes is None and group.largest:
        text = f"what {into.name} may take is not said (`takes`); {group.force_words} come to it"
        most = max(group.largest.values())
        path, answers = f"existing.{into.name}.takes", (round_force(1.5 * most), round_force(0.5 * most))
        asked = ask("existing_takes", into.name, path, answers=answers, force=group.force_words)
        yield Check.refers("anchor.far_takes", group.name, f"what {into.name} may take", PATH, text, ask=asked)


# ---- which fastening goes with which material ------------------------------------------------------------------------


def fastening(group: Group) -> str:
    """The first column of the table of far sides."""
    made, anchor = group.made, group.anchor
    if made.plates:
        return "welded plate" if anchor.plate is not None and anchor.plate.weld is not None else "plate"
    if anchor.rating is not None and _nailed(group, f"{anchor.rating.source} {anchor.rating.conditions}"):
        return "rated nailed hardware"
    if made.aslant or not made.fastened:
        return anchor.manner
    return "bolted or screwed to wood" if anchor.other is None or anchor.other.material == "wood" else "into concrete"


def _nailed(group: Group, words: str) -> bool:
    """Whether nails hold a hanger to what is there. Those of a strap or post base may be those in the held piece."""
    named = NAMED.get(group.into.material or "") if isinstance(group.into, Existing) else None
    by_name = named is not None and any(
        not denied(clause, *found.span()) for clause in clauses(words) for found in named.finditer(clause)
    )
    return not group.rests and NAILED.search(words) is not None and not by_name


def row_of(what: str, far: str) -> Row:
    """The row of the table for a fastening and a material. Raises UnknownName if the table has no such row."""
    for row in rows(TABLE):
        if row["fastening"] == what and row["far"] == far:
            return row
    raise UnknownName("fastening and what it goes into", f"{what}, {far}", [f"{r['fastening']}, {r['far']}"
                                                                            for r in rows(TABLE)])  # fmt: skip


def _can_be(group: Group) -> Iterator[Check]:
    """Whether it can be fastened so to what is there."""
    into, fastener = group.into, group.anchor.fastener
    far = into.material if isinstance(into, Existing) else "wood"
    found = [row_of(fastening(group), far)]
    other = group.anchor.other
    if other is not None and other.grain == "end" and fastener is not None:
        found.append(row_of(fastener.kind, "end grain"))
    for row in found:
        what, source = f"{row['fastening']}, {row['far']}", source_of(row)
        text = f"{group.far}: {row['why']}"
        if row["holds"] == "no":
            yield Check.breaks_rule("anchor.far_side", group.name, what, source.document, text)
        elif row["holds"] == "ask" and row["question"] == "far_material" and isinstance(into, Existing):
            asked = ask("far_material", into.name, f"existing.{into.name}.material", of_group=group.name)
            if other is not None:  # what the fasteners are said to go into comes first
                first = sorted(asked.answers, key=lambda one: one.sets[0][1] != other.material)
                asked = replace(asked, answers=tuple(first))
            yield Check.refers("anchor.far_side", group.name, what, source.document, text, ask=asked)
        elif row["holds"] == "ask":
            yield group.refers("anchor.far_side", what, source.document, Open(text, row["question"]))


def _grain(group: Group) -> Iterator[Check]:
    """The grain that is said of the other side against the way that piece stands."""
    other, into = group.anchor.other, group.into
    if other is None or other.material != "wood" or group.made.in_the_end or group.made.aslant or group.slope:
        return
    level, upright = isinstance(into, Beam), isinstance(into, Post)
    if not (level and other.grain == "across") and not (upright and other.grain == "along"):
        return
    way = "level: a load that comes down crosses its grain" if level else "upright: its grain runs up and down"
    text = f"{group.far} stands {way}; its grain is said to run {other.grain} that of {group.piece}"
    best = ("along", "end") if level else ("across", "end")
    open_ = Open(text, "other_grain", "other.grain", best)
    yield group.refers("anchor.grain", f"grain of {group.far}", "NDS 2018 12.3.3, 12.5.1", open_)


# ---- beyond the wood ------------------------------------------------------------------------------------------------


def _steel_beyond(group: Group) -> Iterator[Check]:
    """The weld is checked; what it is welded to, only somebody who answers for that knows."""
    plate = group.anchor.plate
    if not group.made.plates or plate is None or plate.weld is None or isinstance(group.into, Existing | None):
        return
    text = f"the weld is checked; the steel that it is welded to, and the fastening of that to {group.far}, are not"
    yield group.refers("anchor.steel_beyond", "the steel beyond the held piece", PATH, Open(text, "steel_beyond"))


def passed_on(group: Group) -> Iterator[str]:
    """What the far side has to take: of a plate a moment beside the force."""
    if group.made.plates and group.x.size:
        turning = 0.0 if group.forces.turning is None else float(np.max(np.abs(group.forces.turning)))
        e = max(abs(group.arm or 0.0), float(np.mean(group.x)))
        M = float(np.max(np.abs(group.forces.across))) * e + turning
        yield (
            f"The plate is taken to be held at the end of {group.piece} or at the end of its arm. What it is fixed to "
            f"must take {group.force_words} there, with a moment of up to {show(M, 'moment')}: whoever answers for "
            "that must know it."
        )
    elif group.forces.turning is not None and np.any(group.forces.turning):
        M = float(np.max(np.abs(group.forces.turning)))
        yield (
            f"The fasteners keep the end from turning freely: a moment of up to {show(M, 'moment')} comes to them and "
            f"to {group.far}."
        )


def _holes_behind(group: Group) -> Iterator[Check]:
    """Holes bored into another piece of the job weaken that; they count there only once they are entered as cuts."""
    into, fastener = group.into, group.anchor.fastener
    if group.anchor.other is None or fastener is None or not isinstance(into, Beam | Post | Rafter | Tie):
        return
    d_h, near = hole_of(fastener), judgment("hole entered near its group").value
    if not d_h:
        return
    drilled = [cut for cut in into.cuts if cut.kind == "hole"]
    if not isinstance(into, Post):
        drilled = [cut for cut in drilled if group.lands_at is not None and abs(cut.at - group.lands_at) <= near]
    if drilled:
        return
    kind, size = type(into).__name__.lower(), show(d_h, "length")
    deep = group.far_depth or (8.0 if group.into_stock is None else float(read_size(group.into_stock.size).d))
    hole = {"kind": "hole", "depth": size, "from_bottom": show(0.5 * deep, "length")}
    if isinstance(into, Post):  # near its head, where the held piece lies beside it
        hole["at"] = show(max(into.height - 0.5 * float(group.section.d), 0.0), "length")
    else:
        hole["at"] = show(max(group.lands_at or 0.0, near), "length")  # clear of the end of the piece
    path = f"{kind}.{into.name}.cuts"
    answer = PlausibleAnswer(f"bored {size} wide", ((path, hole),))
    text = (
        f"they are not taken off {into.name}: enter each as a cut of it (hole, {size}), so that its own checks count "
        "them"
    )
    asked = ask("far_holes", into.name, path, answers=(answer,), size=size, by=group.name)
    what = f"holes in {into.name}"
    yield Check.refers("anchor.far_holes", group.name, what, "NDS 2018 3.1.2", text, ask=asked)
