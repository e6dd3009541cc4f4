"""The equations that are typed a second time: none of a file is missing, and each holds every argument."""

from __future__ import annotations

from types import ModuleType

import pytest

from beamcheck.calc.core import REGISTRY

from . import test_equations as of_members
from .bracket_samples import FILES as BRACKETS
from .brackets import test_brace_and_prop_equations as of_braces
from .brackets import test_equations as of_brackets
from .connection_samples import FILES as CONNECTIONS
from .connections import test_equations as of_connections
from .joint_samples import FILES as JOINTS
from .joints import test_equations as of_joints
from .samples import NAMES, file_of

OF_FILES = (
    (of_braces, of_braces.FILES), (of_brackets, BRACKETS), (of_connections, CONNECTIONS), (of_joints, JOINTS),
)  # fmt: skip
MODULES = (of_members, *(module for module, _ in OF_FILES))


@pytest.mark.parametrize(("module", "name"), [(module, name) for module in MODULES for name in module.EQUATIONS])
def test_the_equation_holds_every_argument(module: ModuleType, name: str) -> None:
    assert {str(each) for each in module.typed(name).free_symbols} == set(REGISTRY[name].arguments)


@pytest.mark.parametrize(("module", "files"), OF_FILES)
def test_every_formula_of_the_files_has_its_equation_there(module: ModuleType, files: tuple[str, ...]) -> None:
    assert {name for name in NAMES if file_of(name) in files} == set(module.EQUATIONS)
