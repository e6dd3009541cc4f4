"""Letters that look like others: names that a person cannot tell apart are refused, with the reason.

Which letters look alike: Unicode Technical Standard 39, confusables; a small part of it, from memory.
"""

from __future__ import annotations

import unicodedata

_CYRILLIC = dict(zip("АВЕЅІЈКМНОРСТУХЬасеорхуіјѕһԁԛԝ", "ABESIJKMHOPCTYXbaceopxyijshdqw", strict=True))
_GREEK = dict(zip("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧονϲ", "ABEZHIKMNOPTYXovc", strict=True))
_ARMENIAN = dict(zip("ՍՕԼոսցհ", "UOLnugh", strict=True))
LIKE_LATIN = {**_CYRILLIC, **_GREEK, **_ARMENIAN}
_LINES = {**dict.fromkeys("‐‑‒–—−﹘－⁃", "-"), **dict.fromkeys("’‘ʼ′ʹ`´＇", "'"), **dict.fromkeys("”“″＂", '"')}
_UNSEEN_IN_NAMES = "\u00ad\u200c\u200d\u034f\u115f\u1160\u3164\uffa0\u2800"  # without width, or blank
_SAME = str.maketrans({**LIKE_LATIN, **_LINES, **dict.fromkeys(_UNSEEN_IN_NAMES, "")})


def told_apart(name: str) -> str:
    """The name, if nothing in it passes itself off as something else.

    Raises ValueError: says which character, and what would be right.
    """
    latin = any("LATIN" in unicodedata.name(char, "") for char in name)
    for char in name:
        if char in _UNSEEN_IN_NAMES or "\ufe00" <= char <= "\ufe0f":
            raise ValueError(f"it holds a character that is not seen (U+{ord(char):04X}): delete it")
        if latin and char in LIKE_LATIN:
            told = f"U+{ord(char):04X}, {unicodedata.name(char, 'another letter').lower()}"
            raise ValueError(f"its {char!r} ({told}) only looks like the Latin {LIKE_LATIN[char]!r}: type that one")
    return name


def look(name: str) -> str:
    """What two names have in common that look the same: letters of one script, plain marks, no case, single spaces."""
    plain = unicodedata.normalize("NFKC", name).translate(_SAME)
    return " ".join(unicodedata.normalize("NFKC", plain.casefold()).split())
