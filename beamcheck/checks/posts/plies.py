"""The plies of a built-up post: joined by the schedule of NDS 2018 15.3, or each standing by itself."""

from __future__ import annotations

from ...model.links.hardware import diameter_and_length
from ...model.posts import PlySchedule, Post
from ...units import show
from ...values.judgment import judgment
from ...values.loader import rows
from ...values.lumber import Size
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.result import Check

BUILT_UP = "NDS 2018 15.3"
HAIR = 1e-6


def built_up_factor(post: Post, size: Size) -> float | None:
    """K_f of plies that are joined by the rules; None for a solid post and for plies that stand each for itself."""
    return (
        None if post.plies == 1 or broken_rules(post, size) else judgment(f"built-up post, {post.plies_joined}").value
    )


def broken_rules(post: Post, size: Size) -> tuple[str, ...]:
    """What keeps the plies from counting as one post, each in a sentence."""
    most, thinnest = judgment("most plies of a built-up post").value, judgment("thinnest ply of a built-up post").value
    if size.surface == "round":
        return ("round sticks are no plies",)
    if post.plies > most:
        return (f"{post.plies} plies: the rule is for {most:g} at most",)
    if size.b < thinnest - HAIR:
        return (f"plies {show(size.b, 'length')} thick: the rule asks for {show(thinnest, 'length')} at least",)
    if post.plies_joined == "none":
        return ("they are not said to be joined",)
    if post.plies_schedule is None:
        return (f"they are said to be {post.plies_joined}, but by which schedule is not said",)
    return tuple(_broken(post, post.plies_schedule, size))


def _broken(post: Post, by: PlySchedule, size: Size) -> list[str]:
    D, length = diameter_and_length(by.kind, by.size)
    thin = size.b
    found = []
    for row in rows("nds_2018_15_3_schedules"):
        given = getattr(by, row["distance"]) if row["kind"] == by.kind else None
        if given is None:
            continue
        least = float(row["least_diameters"]) * D
        most = float(row["most_diameters"]) * D if row["most_diameters"] else float(row["most_thicknesses"]) * thin
        if not least - HAIR <= given <= most + HAIR:
            found.append(
                f"{show(given, 'length')} {row['words']}: from {show(least, 'small length')} to "
                f"{show(most, 'small length')} is asked for"
            )
    if by.rows < 2 and size.d > judgment("built-up post, depth for one row").value * thin + HAIR:
        found.append("one row: plies so deep need two")
    if length is not None:
        needed = (post.plies - 1 + judgment("nail in the last ply").value) * thin
        if length < needed - HAIR:
            found.append(f"nails {show(length, 'length')} long: {show(needed, 'length')} reach into the last ply")
    if by.kind == "nail" and by.from_both_sides is not True:
        found.append("nails must be driven in turn from either side (`from_both_sides`)")
    if by.kind == "bolt" and by.washers is not True:
        found.append("bolts need a washer or plate under each head and nut (`washers`)")
    return found


def ply_question(post: Post, size: Size) -> Question | None:
    """What would let plies that stand apart count as one post; None where nothing would, or they do already."""
    if post.plies == 1 or post.plies_schedule is not None or not broken_rules(post, size):
        return None
    if size.surface == "round" or size.b < judgment("thinnest ply of a built-up post").value - HAIR:
        return None
    if post.plies > judgment("most plies of a built-up post").value:
        return None
    at = f"post.{post.name}.plies_schedule"
    best = _usual(post, size)
    joined = ((f"post.{post.name}.plies_joined", "nailed"),) if post.plies_joined != "nailed" else ()
    answers = () if best is None else (PlausibleAnswer(_said(best), (*joined, (at, best))),)
    return ask("plies_schedule", post.name, at, answers=answers)


def _usual(post: Post, size: Size) -> dict[str, object] | None:
    """A schedule of nails that keeps the rule, where some nail does."""
    for trade in ("10d", "16d", "20d", "30d", "40d", "50d", "60d"):
        D, _ = diameter_and_length("nail", f"{trade} common")
        two = size.d > judgment("built-up post, depth for one row").value * size.b
        across = 10.0 * D if two else 0.0
        made: dict[str, object] = {
            "kind": "nail", "size": f"{trade} common", "rows": 2 if two else 1,
            "spacing": f"{max(20.0 * D, min(6.0 * size.b, 36.0 * D)):.4g} in",
            **({"row_spacing": f"{across:.4g} in"} if two else {}), "end": f"{16.0 * D:.4g} in",
            "edge": f"{0.5 * (size.d - across):.4g} in", "from_both_sides": True,
        }  # fmt: skip
        if not _broken(post, PlySchedule.model_validate(made), size):
            return made
    return None


def _said(by: dict[str, object]) -> str:
    return (
        f"{by['size']} nails in {by['rows']} row{'s' if by['rows'] == 2 else ''}, every {by['spacing']}, {by['end']} "
        f"from the ends and {by['edge']} from the edges, driven in turn from either side"
    )


def ply_checks(post: Post, size: Size) -> list[Check]:
    """Whether the plies count as one; where they do not, each carries its share by itself, and that is for information.

    Plies that stand by themselves are no fault: their strength is checked as that of single posts.
    """
    if post.plies == 1:
        return []
    what = "fastening of the plies"
    if not (broken := broken_rules(post, size)):
        return [Check.keeps_rule("post.plies", post.name, what, BUILT_UP, "by the schedule: they count as one post")]
    text = f"{'; '.join(broken)}: each ply counts as a post of its own with an equal share of the load"
    return [Check.keeps_rule("post.plies", post.name, what, BUILT_UP, text)]
