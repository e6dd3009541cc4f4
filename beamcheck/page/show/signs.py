"""The signs of the verdicts, drawn in one place: a beam on two posts, the beam broken, one post and a question mark."""

from __future__ import annotations

_BOX = '<svg class="sign" viewBox="0 0 26 22" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="3.4">'
_ASKED = (
    '<text x="18.6" y="21.4" font-size="16.5" font-weight="700" text-anchor="middle" fill="currentColor" '
    'stroke="none">?</text>'
)
_DRAWN = {
    "passes": '<path d="M5 21V5M21 21V5M1 4.6H25"/>',
    "fails": '<path d="M5 21V6M21 21V6M1.5 1.8L13 14.2 24.5 1.8"/>',
    "refer": f'<path d="M5 21V5M1 4.6H25"/>{_ASKED}',
}


def sign(verdict: str) -> str:
    """An `<svg>` element; the word stands beside it."""
    return f"{_BOX}{_DRAWN[verdict]}</svg>"
