"""What has no joint that is checked here: the work of others, and what holds nothing."""

from __future__ import annotations

from ....model.fields.evidence import vouched
from ...core.context import Context
from ...core.result import Check
from ...core.trivial import negligible
from ..group import Group
from ..unsaid import Open
from .base import Manner

PATH = "load path"


class ByOthers(Manner):
    """Named and passed on: somebody else answers for it."""

    name = "by others"

    def checks(self, group: Group, context: Context | None = None) -> list[Check]:
        if vouched(group.anchor.confirmed_by, "structure"):
            text = f"by others, said to be confirmed: {group.anchor.confirmed_by}. Not checked: it must take"
        else:
            text = "by others, and nobody is named who answers for it (`confirmed_by`). It must take"
        open_ = Open(f"{text} {group.force_words}", "by_others")
        return [group.refers("anchor.by_others", "fastening by others", PATH, open_)]

    def to_see(self, group: Group) -> tuple[str, ...]:
        return ("the work of others is in place as its letter describes it: photograph it with the letter",)


class HoldsNothing(Manner):
    """Glue, brads, unrated pegs, magnets: they hold nothing up."""

    name = "holds nothing"

    def checks(self, group: Group, context: Context | None = None) -> list[Check]:
        id, what = "anchor.holds_nothing", "holds nothing"
        if max(group.largest.values(), default=0.0) > negligible():
            text = (
                "glue, brads, unrated pegs and magnets hold no load that anybody can count on, and "
                f"{group.force_words} come to it: it needs a fastening that can be worked out"
            )
            return [Check.breaks_rule(id, group.name, what, PATH, text)]
        text = "no force was worked out for it; it holds the piece against nothing, a knock or a draft included"
        return [group.refers(id, what, PATH, Open(text, "nothing_to_hold"))]

    def to_see(self, group: Group) -> tuple[str, ...]:
        return (f"something else holds {group.piece} at this end: {group.name} counts for nothing",)
