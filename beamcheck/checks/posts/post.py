"""A post: compression with buckling both ways, load off center, its ends, what pulls it up."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ...calc.pad import SilentPad
from ...model.posts import Post
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check
from ..core.wood.govern import Criterion, govern
from ..core.wood.material import WoodMaterial
from ..core.wood.wood_doubts import named_engineered, wood_evidence_checks
from ..loads.weather import weather_checks
from .brackets import bracket_checks, brackets_on, only_decoration
from .cuts import cut_checks, weak_places
from .eccentricity import off_center_checks, straight_down
from .ends import end_checks
from .fire import fire_checks
from .holding import holding_checks
from .plies import ply_checks, ply_question
from .post_run import PostRun


def check_post(post: Post, wood: WoodMaterial, flat: WoodMaterial, context: Context) -> tuple[PostRun, list[Check]]:
    """Every check of a post of known wood.

    `wood`, `flat`: the wood on edge, and the same on the flat. Raises OutOfRange if a value lies outside the rules
    before any check is made.
    """
    run = PostRun(post, wood, flat, context)
    if post.top_restraint == "free":
        text = "the top is held by nothing: a post that must stay up by its foot alone is for an engineer"
        asked = ask("post_free_top", post.name, f"post.{post.name}.top_restraint")
        free = Check.refers("post.stands", post.name, "stands still", "NDS 2018 Appendix G", text, ask=asked)
        return run, [
            free,
            *end_checks(run),
            *cut_checks(run),
            *wood_evidence_checks(post.name, wood.doubts, upright=True),
            *([] if wood.made == "glulam" else named_engineered(post)),
        ]
    criterion = Criterion(post.name, "compression", "NDS 2018 3.6, 3.7", "stress", id="post.compression",
                          ask=tuple(filter(None, [ply_question(post, run.size)])))  # fmt: skip
    straight = govern(criterion, run.combinations, partial(straight_down, run))
    glued = wood.made == "glulam"
    capacity = (straight.capacity or 0.0) * float(run.section.area(SilentPad()))
    return run, [
        *_unloaded(run), *_wind(post, context), *weather_checks(post, context.stock(post.stock)), straight,
        *off_center_checks(run), *bracket_checks(run), *end_checks(run), *cut_checks(run),
        *holding_checks(run, capacity), *above_checks(post, context), *ply_checks(post, run.size),
        *(_glued(run) if glued else fire_checks(run)), *wood_evidence_checks(post.name, wood.doubts, upright=True),
        *([] if glued else named_engineered(post)),
    ]  # fmt: skip


def _glued(run: PostRun) -> list[Check]:
    """What is not run for posts of glued laminated timber."""
    post, found = run.post, []
    for there, why in (
        (post.fire is not None, "what a fire leaves of glued laminated timber"),
        (post.plies > 1, "plies of glued laminated timber that are joined to one post"),
        (bool(weak_places(run)), "cuts in a post of glued laminated timber"),
    ):
        if there:
            text, asked = f"{why}: not run here", ask("glued_post", post.name, what=why)
            found.append(Check.refers("post.glued", post.name, why, "NDS 2018 chapter 5", text, ask=asked))
    return found


def _unloaded(run: PostRun) -> list[Check]:
    """A post that carries nothing is not described to its end."""
    decoration = [f"from {one.name}" for one in brackets_on(run) if only_decoration(run, one.name)]
    others = [load for load in run.loads if not load.own and load.what not in decoration]
    if others:
        return _only_weight(run) if all(load.kind == "D" for load in others) else []
    if run.post.role != "carries":
        return []  # what is above it is asked instead
    text = "nothing is said to stand on this post"
    asked = ask("post_loads", run.post.name, f"post.{run.post.name}.role")
    return [Check.refers("post.loads", run.post.name, "loads as given", "load path", text, ask=asked)]


def _only_weight(run: PostRun) -> list[Check]:
    """A post bears more than weight: people, snow or men on a roof, unless somebody says that none of these come."""
    post = run.post
    said = any(getattr(load, kind) is not None for load in post.carries for kind in ("live", "roof_live", "snow"))
    if said or not post.carries:
        return []  # where other pieces bring it all they are asked themselves
    text = "only weight that stays is stated: what people, snow or men on a roof bring is not said"
    asked = ask("post_only_weight", post.name, f"post.{post.name}.carries.1.live")
    return [Check.refers("post.loads", post.name, "kinds of load", "ASCE 7-16 chapter 4", text, ask=asked)]


def _wind(post: Post, context: Context) -> list[Check]:
    """A roof that the job puts straight on a post: wind lifts it, unless somebody says how much, nothing included."""
    roof = [i for i, load in enumerate(post.carries, 1) if load.snow is not None or load.roof_live is not None]
    if not roof or any(load.wind is not None for load in post.carries) or context.structure.site.wind_by.strip():
        return []
    text = "a roof stands on it and no wind is given: what lifts it and pushes it over is not known"
    asked = ask("post_wind", post.name, f"post.{post.name}.carries.{roof[0]}.wind")
    return [Check.refers("post.wind", post.name, "wind on the roof over it", "ASCE 7-16 chapters 26 to 30", text,
                         ask=asked)]  # fmt: skip


ID, WHAT, PATH = "post.above", "what is above it", "load path"


def above_checks(post: Post, context: Context) -> Iterator[Check]:
    """Only of posts that are declared decorative or a cover; they are asked what a bracket under a beam is asked."""
    if post.role == "carries" or post.above == "nothing":
        return
    if post.near is None:
        text = "whether it stands tight under a beam is not said: as that sags, the post would carry it"
        asked = ask("post_above", post.name, f"post.{post.name}.above")
        yield Check.refers(ID, post.name, WHAT, PATH, text, ask=asked)
        return
    from ..brackets.props.asks import asks_under  # most posts have no beam near them
    from ..brackets.props.prop import prop_result

    yield from prop_result(asks_under(post.near.beam, context), post.name, context).checks
