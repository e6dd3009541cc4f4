"""Snow that does not lie evenly: on one side of the ridge, or drifted and slid (ASCE 7-16 7.6 to 7.9)."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...analysis.roofs.roof_frame import RoofRun
from ...model.fields.evidence import vouched
from ...model.loads import FormedLoad
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check

ONE_SIDED, DRIFT = "ASCE 7-16 7.6.1", "ASCE 7-16 7.7 to 7.9"


def snow_checks(run: RoofRun, context: Context) -> Iterator[Check]:
    """Only where the rafter carries snow."""
    snowy = [load for load in run.rafter.carries if load.snow is not None and load.snow[0] > 0.0]
    if snowy and all(isinstance(load, FormedLoad) and (load.more or "snow" in load.formed) for load in snowy):
        text = (
            "on the lee side, drifted and slid: formed from the site, the largest at each place, see the design basis"
        )
        yield Check.keeps_rule(
            "roof.snow_one_side", run.rafter.name, "snow that lies unevenly", f"{ONE_SIDED}, {DRIFT}", text
        )
    elif any(load.snow is not None and load.snow[0] > 0.0 for load in run.rafter.carries):
        yield _one_sided(run, context)
        yield from drifted(run.rafter.name, context)


def _one_sided(run: RoofRun, context: Context) -> Check:
    """Wind moves snow over the ridge: up to 20 ft from eave to ridge the lee side bears the ground snow load.

    The snow given is tried on both sides and on either of them alone; so it is enough that as much is given.
    """
    rafter, what, id = run.rafter, "snow on one side", "roof.snow_one_side"
    low, high = judgment("flattest roof with one-sided snow").value, judgment("steepest roof with one-sided snow").value
    if not rafter.pair or not low <= rafter.slope <= high:
        text = "not asked for: one slope only, or a roof flatter than 1/2:12 or steeper than 7:12"
        return Check.keeps_rule(id, rafter.name, what, ONE_SIDED, text)
    site = context.structure.site
    given = sum(load.snow[0] for load in rafter.carries if load.snow is not None and load.snow[1] == "area")
    ground = site.ground_snow
    if ground is None:
        asked = ask("ground_snow", "job", "job.ground_snow")
        text = "the ground snow load is not given, from which it follows"
        return Check.refers(id, rafter.name, what, ONE_SIDED, text, ask=asked)
    if ground[0] <= 0.0:
        return Check.keeps_rule(id, rafter.name, what, ONE_SIDED, "no snow falls there")
    if site.snow is not None and site.snow.one_side is not None and vouched(site.snow.by, "structure"):
        text = f"on the lee side alone, by {site.snow.by}; tried on either side alone as well as on both"
        return Check.of_ratio(id, rafter.name, what, ONE_SIDED, text, demand=site.snow.one_side[0], capacity=given,
                              kind="area load")  # fmt: skip
    width = rafter.run + rafter.wall.at * math.cos(math.radians(rafter.slope))
    widest = judgment("widest roof with even one-sided snow").value
    if width > widest:
        text = f"{show(width, 'length')} from eave to ridge, over {show(widest, 'length')}: snow heaped up at the ridge"
        asked = ask("snow_heaped", rafter.name)
        return Check.refers(id, rafter.name, what, ONE_SIDED, f"{text} is not added here", ask=asked)
    index = next(i for i, load in enumerate(rafter.carries, 1) if load.snow is not None and load.snow[0] > 0.0)
    asked = ask("snow_one_side", rafter.name, f"rafter.{rafter.name}.carries.{index}.snow",
                answers=(show(ground, "load"),), ground=show(ground, "load"))  # fmt: skip
    text = "the lee side bears the ground snow load, tried on either side alone as well as on both"
    return Check.of_ratio(
        id, rafter.name, what, ONE_SIDED, text, demand=ground[0], capacity=given, kind="area load", ask=asked
    )  # fmt: skip


def drifted(name: str, context: Context) -> Iterator[Check]:
    """A higher roof or wall near it heaps snow up, or sheds its own onto it."""
    site, id = context.structure.site.snow, "roof.snow_drift"
    for what, field, said in (
        ("drifted snow", "higher", site.higher if site else None),
        ("sliding snow", "slides", site.slides if site else None),
    ):
        if said is None:
            text = "whether a higher roof or wall near it brings more snow onto it is not said; none is added here"
            asked = ask(f"snow_{field}", "job", f"job.snow.{field}")
            yield Check.refers(id, name, what, DRIFT, text, ask=asked)
        elif site is None or not vouched(site.by):
            text = f"said to be: {said}; who says so is not"
            yield Check.refers(id, name, what, DRIFT, text, ask=ask("snow_by", "job", "job.snow.by"))
        else:
            words = "none comes there" if said == "nothing" else "it is in the loads given"
            yield Check.keeps_rule(id, name, what, DRIFT, f"{words}, by {site.by}")
