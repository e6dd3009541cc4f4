"""What the words of an [[existing]] entry say against it: decay, what carries nothing, another material, bare soil.

Whoever confirms it: a letter about something else, or about its state of long ago, does not undo such words.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...model.existing import Existing
from ...units import show
from ...values.judgment import judgment
from ...values.loads import told
from ..beams.seats import told_apart
from ..core.asking.question import PlausibleAnswer, ask
from ..core.forces_said import forces_said, same_force
from ..core.result import Check

_KINDS = {
    "wood": ("wood",),
    "steel": ("steel",),
    "masonry": ("masonry", "concrete"),
    "concrete": ("masonry", "concrete"),
}
_CARRIES = "an engineer has seen it: it does carry"
# words that say nothing against it where these stand beside them: 'stud wall with gypsum board', 'header over a window'
_UNLESS = {"bears nothing by itself": "part that carries", "over an opening": "spans an opening"}


def word_checks(above: str, under: Existing, force: float | None) -> Iterator[Check]:
    """What keeps something that rests on it from passing.

    `above`: the piece that rests on it. `force`: down on it; None where it could not be worked out [lbf].
    """
    yield from _against_it(above, under)
    yield from _made_of(above, under)
    yield from _less_in_the_paper(above, under)
    yield from _on_soil(above, under, force)


def _against_it(above: str, under: Existing) -> Iterator[Check]:
    if under.insists_on("what"):
        return
    for sort, key, answer in (
        ("decayed", "existing_sound", "an engineer has seen it: what carries is sound"),
        ("carries nothing", "existing_carries", _CARRIES),
        ("bears nothing by itself", "existing_carries", _CARRIES),
        ("over an opening", "existing_carries", _CARRIES),
    ):
        if not (found := told(under.what, sort)) or told(under.what, _UNLESS.get(sort, "")):
            continue
        path, says = f"existing.{under.name}.meant.what", found[0].says
        answers = [PlausibleAnswer(answer, ((path, answer),))]
        question = ask(key, under.name, path, answers=answers, what=under.what, found=says)
        text = (
            f"{under.name} ({under.what}): by these words {says}; that carries nothing, unless somebody has seen to it"
        )
        yield Check.refers("path.sound", above, f"state of {under.name}", "load path", text, ask=question)
        if sort != "decayed":
            return  # asked once, whatever the words


def _made_of(above: str, under: Existing) -> Iterator[Check]:
    said = tuple(one.says for one in told(under.what, "made of"))
    kinds = _KINDS.get(under.material, ())
    if not kinds or not said or under.insists_on("material") or set(kinds).intersection(said):
        return
    path, meant = f"existing.{under.name}.material", f"existing.{under.name}.meant.material"
    as_entered = f"{under.material} where it is pressed"
    answers = [PlausibleAnswer(one, ((path, one),)) for one in said]
    answers.append(PlausibleAnswer(as_entered, ((meant, as_entered),)))
    question = ask("existing_made_of", under.name, path, answers=answers, what=under.what, material=under.material)
    text = f"{under.name} ({under.what}) is entered as {under.material}, and its words say {' and '.join(said)}"
    what = f"material of {under.name}"
    yield Check.refers("path.made_of", above, what, "NDS 2018 3.10.2", text, ask=question)


def _less_in_the_paper(above: str, under: Existing) -> Iterator[Check]:
    """A force in the words that confirm it, which no capacity of the entry is: it is the figure, or another one is."""
    said = [force for force in forces_said(under.confirmed_by) if force > 0.0]
    presses = [force for force in forces_said(under.confirmed_by, "") if force > 0.0]
    elsewhere = [one for one in (under.takes_uplift, under.takes_sideways) if one is not None]
    left = [force for force in presses if not any(same_force(force, one) for one in elsewhere)]
    if under.takes is not None:
        left = left or presses  # one figure for both ways
    if said and (left or under.takes is not None):
        yield from _another_figure(above, under, "takes", under.takes, left)
    for way, field, given in (("up", "takes_uplift", under.takes_uplift),
                              ("sideways", "takes_sideways", under.takes_sideways)):  # fmt: skip
        named = list(forces_said(under.confirmed_by, way))
        if named and given is not None:
            yield from _another_figure(above, under, field, given, named)


def _another_figure(
    above: str, under: Existing, field: str, given: float | None, named: list[float]
) -> Iterator[Check]:
    """More than the largest figure that a paper names for that way."""
    most = max(named, default=0.0)
    if under.insists_on(field) or (given is not None and (given <= most or same_force(given, most))):
        return
    figure, path = show(most, "force", "US"), f"existing.{under.name}.{field}"
    entered = "no capacity is entered" if given is None else f"{show(given, 'force')} is entered"
    another = "the paper gives that figure for something else"
    answers = [PlausibleAnswer(f"{figure}, as the paper says", ((path, figure),))] if named else []
    answers.append(PlausibleAnswer(another, ((f"existing.{under.name}.meant.{field}", another),)))
    figure = figure if named else "no force that presses"
    question = ask("existing_takes_said", under.name, path, answers=answers, what=under.what, figure=figure)
    if field != "takes":
        question = told_apart(question, field)
    text = f"{under.name} ({under.what}): {entered}, and what confirms it names {figure}: {under.confirmed_by}"
    yield Check.refers("path.takes_said", above, f"capacity of {under.name}", "load path", text, ask=question)


def _on_soil(above: str, under: Existing, force: float | None) -> Iterator[Check]:
    """Soil carries by a footing: what is set on it has only its own section, far too little."""
    bare = under.material == "ground" or told(under.what, "ground")
    if not bare or told(under.what, "footing") or under.insists_on("what"):
        return
    psf = judgment("soil pressure of the weakest soil").value
    much, area = "what comes there", "a footing by its load"
    if force is not None:
        much, area = show(force, "force"), f"{math.ceil(10.0 * force / psf) / 10.0:,.1f} ft2 of footing"
    path = f"existing.{under.name}.what"
    footing = f"concrete footing of {area.removesuffix(' of footing')} or more"
    answers = [PlausibleAnswer(footing, ((path, footing), (f"existing.{under.name}.material", "concrete")))]
    question = ask("footing", under.name, path, answers=answers, what=under.what, force=much, area=area)
    text = f"{under.name} ({under.what}) is soil: {much} on it needs {area} at {psf:,.0f} psf"
    yield Check.refers("path.footing", above, f"footing on {under.name}", "IRC R403.1", text, ask=question)
