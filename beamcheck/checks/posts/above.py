"""What is over a post that is not meant to carry: a beam that comes down on it would make it a prop."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.posts import Post
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check

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
