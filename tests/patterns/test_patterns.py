"""No pattern of the project takes more time than in step with its text: a proof on its automaton, no stopwatch."""

from __future__ import annotations

import re

import pytest

from .automaton import slow
from .found import Found, patterns

# Patterns that could be slow on a text that they never see: file, how the pattern begins, what bounds the text.
BOUNDED = (
    ("model/reading/lines.py", "(?P<space>", "the TOML reader has accepted the text: every quote in it is closed"),
    ("model/reading/toml_trouble.py", "^", "cut to MOST_OF_A_LINE"),
    ("model/reading/toml_trouble.py", "\\", "cut to MOST_OF_A_LINE"),
    ("model/reading/toml_trouble.py", "([", "cut to MOST_OF_A_LINE"),
    ("model/reading/toml_trouble.py", "Cannot", "cut to MOST_OF_A_LINE"),
    ("page/views/questions.py", "\\s*([^=,]+?)", "refused beyond MOST_UP_TO"),
    ("sheet/document/mathematics.py", "<math", "made by typst, which closes each element"),
    ("sheet/document/prose.py", "(span )?from", "a place in our own words, with names of 80 letters at most"),
    ("sheet/record/pdf_mark.py", "%generator", "the last 1,024 bytes of a file"),
    ("sheet/terminal/look.py", "(whatcarries", "ends at the end of its line, wherever that is, and so never fails"),
    ("sheet/terminal/span.py", "(?P<words>", "a sentence of our own"),
    ("units/number_text.py", "[0-9.]*,", "refused beyond LONGEST_TEXT"),
    ("units/reading.py", "((?:", "refused beyond LONGEST_TEXT"),
    ("values/sizes.py", "\\s*(?:[x×]", "refused beyond LONGEST_TEXT"),
    ("values/sizes.py", "(.*?)[\\s,]*", "refused beyond LONGEST_TEXT"),
)


def begins(each: Found, file: str, start: str) -> bool:
    text = each.pattern.pattern
    return each.place.startswith(f"beamcheck/{file}:") and str(
        text if isinstance(text, str) else text.decode()
    ).startswith(start)


def test_every_pattern_keeps_step_with_its_text() -> None:
    every = tuple(patterns())
    growing = [each for each in every if slow(each.pattern, search=each.searches, whole=each.whole)]
    bounded = {(file, start): [each for each in growing if begins(each, file, start)] for file, start, _ in BOUNDED}
    wrong = [each for each in growing if not any(each in found for found in bounded.values())]
    assert not wrong, [f"{each.place}: {each.pattern.pattern!r}" for each in wrong]
    assert all(bounded.values()), [key for key, found in bounded.items() if not found]  # an entry that nothing needs
    assert len(every) > 150  # else they were not found


@pytest.mark.parametrize(
    "pattern, search, whole, told",
    [
        (r"(a+)+b", False, False, "doubles with each letter"),
        (r"(?:[0-9]+\.?)*x", False, False, "doubles with each letter"),
        (r"\s*,?\s*x", False, False, "grows with the square"),
        (r"\s+$", True, False, "grows with the square"),
        (r'"(?:[^"\\]|\\.)*"', True, False, "grows with the square"),  # \"\"\"\"... begins at each second letter
        (r"(?m)^\s+x", True, False, "grows with the square"),
        (r".*a.*b", False, True, "grows with the square"),
        (r"\s+$", False, False, ""),  # from one place only
        (r"\w+", True, False, ""),  # nothing can fail after it
        (r"\s*+,?\s*+x", False, False, ""),
        (r"(?<!\s)\s+x", True, False, ""),
        (r"\b\w+=", True, False, ""),
        (r'"[^"]*"', True, False, ""),
        (r"a{2,5}a{2,5}b", True, False, ""),
    ],
)  # fmt: skip
def test_the_proof_itself(pattern: str, search: bool, whole: bool, told: str) -> None:
    """Backtracking followed by hand."""
    assert slow(re.compile(pattern), search=search, whole=whole) == told
