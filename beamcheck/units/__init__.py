"""The doors for quantities: text or pint in, plain floats in inner units inside, text for people out.

Inner units: in, lbf, lbf/in (line load), lbf/in2 (area load, stress), lbf*in, pcf, deg F, deg, percent; see `KINDS`.
"""

from .kinds import KINDS, Kind, example
from .pint_door import registry, to_pint
from .reading import read
from .showing import down_to_inch, from_inner, show, show_inches, show_number, shown_in, unit_label

__all__ = [
    "KINDS", "Kind", "down_to_inch", "example", "from_inner", "read", "registry", "show", "show_inches",
    "show_number", "shown_in", "to_pint", "unit_label",
]  # fmt: skip
