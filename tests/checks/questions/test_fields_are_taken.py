"""Whatever is asked can be answered: each field that a question names is taken by the very piece that it names.

Over all manners of anchoring in all situations, and all kinds of joint, described in full and with no more than needed.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

import pytest

from beamcheck.checks.core.asking.question import RULING, Question
from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.anchors.manners import MANNERS
from beamcheck.model.anchors.manners import PARTS as OF_ANCHORS
from beamcheck.model.job import Job
from beamcheck.model.job_paths import get_field, with_values
from beamcheck.model.joints.kinds import MADE
from beamcheck.model.joints.kinds import PARTS as OF_JOINTS
from beamcheck.model.reading.reader import job_from_data

from ..anchors.anchor_jobs import KNIFE, RATED, STUB, hung
from ..beams.beams import Data, beam, floor, job
from ..joints.jobs import HEAD, SHEET, joint, member, wood
from ..roofs.test_raised_tie import roof

BOLT, LAG = {**KNIFE["fastener"], "length": "20 in"}, {"kind": "lag screw", "size": "1/2 in", "length": "8 in"}
NAIL = {"kind": "nail", "size": "16d common"}
HOLES = {"rows": 2, "columns": 1, "row_spacing": "2 in", "end": "4 1/2 in", "edge": "2 in"}
OTHER = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "30 in", "edge": "2 3/4 in"}
PLATE = {"steel": "A36", "thickness": "3/8 in", "width": "6 in", "length": "9 in"}
SAID: Data = {
    "other": OTHER, "holes": HOLES, "plate": PLATE, "gap": "0 in", "arm": "0 in", "confirmed_by": SHEET,
    "twist_held_by": SHEET, "on_girder": {"highest": "2 in", "lowest": "5 in"}, "rating": RATED["rating"],
    "seasoned": "dry", "split": "none seen",
    "back": {
        "count": 4, "diameter": "5/8 in", "hole": "11/16 in", "plate": "3/8 in", "along": "10 in", "off": "1 1/2 in",
        "edge": "1 1/4 in", "takes": "3,000 lbf", "clear": "0 in", "high": "8 in", "in_top_row": 2,
    },
}  # fmt: skip
ALWAYS = ("seasoned", "split")


def fastener(manner: str) -> Data:
    kinds = MANNERS[manner].kinds
    return BOLT if "bolt" in kinds else LAG if "lag screw" in kinds else NAIL


def anchor(manner: str, full: bool) -> Data:
    made = MANNERS[manner]
    fields = (*made.needed, *made.may, *ALWAYS) if full else made.needed
    given = {name: fastener(manner) if name == "fastener" else SAID[name] for name in fields}
    if made.in_a_slot:
        given["plate"] = PLATE | {"slot": "7/16 in"}
    if "back" in given:
        given["plate"] = given["plate"] | {"weld": "1/4 in"}
    return copy.deepcopy({"name": "A1", "manner": manner, **given})


def existing(material: str) -> Data:
    return {**STUB, "name": "stub", "what": f"{material} there", "material": material}


def on_girder(one: Data, **more: Any) -> Data:
    held = hung(carries=[floor(dead="5 psf", live="10 psf", width="4 ft")])
    held["supports"][0] |= {"on": "high", "lands_at": "3 ft", **more}
    return job(beam(name="high"), {**held, "name": "low"}, anchor=[one])


def on_post(one: Data) -> Data:
    held = hung()
    held["supports"][0] |= {"on": "P"}
    post = {"name": "P", "stock": "wood", "height": "9 ft", "on": "wall", "top_restraint": "pinned",
            "above": "nothing", "head_held_by": "wall"}  # fmt: skip
    return job(held, anchor=[one], post=[post])


def raised(one: Data) -> Data:
    data = roof(heights=None)
    one = {**one, "name": data["anchor"][0]["name"]}
    if "other" in one:
        one["other"]["stock"] = data["stock"][0]["name"]
    if "holes" in one:  # a tie of 1 1/2 in has little room in its end
        one["holes"] |= {"end": "4 1/2 in" if one["manner"] != "into the end" else "3/4 in"}
    data["anchor"][0] = one
    return data


def lifted(one: Data) -> Data:
    return job(
        hung(carries=[floor(dead="5 psf", live="9 psf", width="2 ft"), {**floor(wind="-600 plf"), "what": "wind"}]),
        anchor=[one],
        existing=[STUB],
    )


PLACES = {
    "steel": lambda one: job(hung(), anchor=[one], existing=[existing("steel")]),
    "concrete": lambda one: job(hung(), anchor=[one], existing=[existing("concrete")]),
    "timber": lambda one: job(hung(), anchor=[one], existing=[existing("wood")]),
    "side of a girder": on_girder,
    "top of a girder": lambda one: on_girder(one, holds="rests", bearing="3 in"),
    "post": on_post,
    "raised tie": raised,
    "lifted": lifted,
}


def asked(job: Job) -> Iterator[Question]:
    for piece in check_job(job).pieces:
        yield from piece.questions
        for check in piece.checks:
            yield from check.questions


def refused(job: Job) -> list[str]:
    """What is asked and cannot be answered: the question, the field, why."""
    found = []
    for one in {(one.id, one.field): one for one in asked(job) if one.field != RULING}.values():
        table, _, rest = one.field.partition(".")
        for answer in one.answers:
            try:
                with_values(job, answer.sets)
            except JobError as error:
                found.append(f"{one.id} at {one.field}: {answer.says}: {error}")
        for entries, parts, made in ((job.anchor, OF_ANCHORS, MANNERS), (job.joint, OF_JOINTS, MADE)):
            for entry in entries:
                name = f"{entry.name}."
                if table != type(entry).__name__.lower() or not rest.startswith(name):
                    continue
                get_field(job, f"{table}.{entry.name}")
                head = rest.removeprefix(name).partition(".")[0]
                kind = made[getattr(entry, "manner", None) or entry.kind]
                if head in parts and head not in (*kind.needed, *kind.may):
                    found.append(f"{one.id} at {one.field}: {entry.name!r} takes no {head}")
    return found


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("manner", MANNERS)
def test_of_every_manner_in_every_place(manner: str, place: str) -> None:
    for full in (True, False):
        assert refused(job_from_data(PLACES[place](anchor(manner, full)))) == [], full


def test_a_raised_tie_on_steel_plates_asks_an_engineer() -> None:
    """Plates say nothing of the side that they are fixed to: no tape answers, and no field is asked that they lack."""
    for manner in ("plates both sides", "plate one side", "concealed plate"):
        one = anchor(manner, full=True)
        for data, key in ((raised(copy.deepcopy(one)), "tie_by_steel"), (on_girder(one), "side_by_steel")):
            found = [question for question in asked(job_from_data(data)) if question.id.endswith(f"/{key}")]
            assert found and all(question.field == RULING and question.forces for question in found)
            assert {question.who for question in found} == {"engineer"}


# ---- joints ----------------------------------------------------------------------------------------------------------

STICK = wood("stick", "5 1/2 in x 7 1/2 in")
OF_KIND: dict[str, Data] = {
    "fastener": {**BOLT, "length": "8 in"}, "step": {"depth": "1 1/2 in", "behind": "12 in"},
    "tenon": {"thickness": "2 in", "width": "7 in", "length": "4 in", "cheek": "1 3/4 in"},
    "strap": {"steel": "A36", "thickness": "1/4 in", "width": "2 in", "beyond": "2 in"},
    "base": {"steel": "A36", "plate": "3/8 in", "bears_wide": "5 in", "bears_long": "7 in", "stands_off": "1 in",
             "stem": "full"},
    "cap": {"steel": "A36", "plate": "3/8 in", "bears_long": "5 in", "bears_wide": "5 in", "beyond": "0 in"},
    "row": {"along": "12 ft", "spacing": "16 in", "joists": "16 in", "behind": "studs"},
    "screws": {"count": 4, "angle": "45 deg"}, "rating": {**RATED["rating"], "along": "3,000 lbf"},
}  # fmt: skip


def of_kind(kind: str, pull: float, down: float) -> Data:
    """Members of that kind pulled and pushed, with no more said than is needed."""
    made = MADE[kind]
    parts = [part for part, (low, _) in made.roles.items() for _ in range(low)]
    count = max(made.members[0], len(parts))
    members = []
    for i in range(count):
        sign = 1.0 if i == 0 else -1.0
        turned = 90.0 if made.members == (1, 1) or parts[i : i + 1] in (["standing"], ["landing"]) else 180.0 * i
        more = {} if not parts else {"part": parts[i]}
        if parts[i : i + 1] == ["outside"]:
            more["plies"] = 2
        if made.laid_out and not (kind in ("post base", "post cap") or parts[i : i + 1] == ["hung"]):
            more["holes"] = {"end": "5 1/4 in", "edge": "3 in"}
            if i == 0 or made.plated:  # else the layout is that of the first
                more["holes"] |= {"rows": 1, "columns": 2, "spacing": "3 in"}
        if made.plated and "holes" in more:
            more["plate"] = PLATE | ({"slot": "7/16 in"} if kind == "knife plate" else {})
        if parts[i : i + 1] == ["behind"]:
            members.append(member(f"m{i}", "stick", 90.0, **more))
            continue
        members.append(member(f"m{i}", "stick", turned, sign * pull, down=sign * down, load="wind", **more))
    needed = {name: "4 in" if name == "embedded" else OF_KIND[name] for name in made.needed}
    return joint(kind, *members, **needed)


@pytest.mark.parametrize("kind", MADE)
def test_of_every_kind_of_joint(kind: str) -> None:
    questions = 0
    for pull, down in ((2000.0, 0.0), (-2000.0, 0.0), (0.0, 900.0), (800.0, -500.0)):
        made = job_from_data({"job": HEAD, "stock": [STICK], "joint": [of_kind(kind, pull, down)]})
        questions += len(list(asked(made)))
        assert refused(made) == []
    assert questions
