"""The foreign libraries the light is proven with. Belongs here: finding them, and the one place that may go without.

They are the extra `proof` of pyproject.toml. A desk without them skips, saying why; under CI=true a skip fails
(tests/conftest.py), and .ci/run installs them.
"""

from __future__ import annotations

import importlib
import importlib.util
from types import ModuleType
from typing import Any

import pytest


def _library(name: str) -> ModuleType:
    if importlib.util.find_spec(name) is None:
        pytest.skip(f"no {name} on this desk: pip install -e '.[proof]'; .ci/run does it")
    return importlib.import_module(name)


@pytest.fixture(scope="session")
def mi() -> Any:
    """The renderer, in the variant that needs no compiler and no graphics card."""
    renderer = _library("mitsuba")
    renderer.set_variant("scalar_rgb")
    return renderer


@pytest.fixture(scope="session")
def integrate() -> ModuleType:
    _library("scipy")
    return importlib.import_module("scipy.integrate")


@pytest.fixture(scope="session")
def colour() -> ModuleType:
    return _library("colour")


@pytest.fixture(scope="session")
def colour_hdri() -> ModuleType:
    return _library("colour_hdri")


@pytest.fixture(scope="session")
def view_factors() -> ModuleType:
    return _library("pyviewfactor")


@pytest.fixture(scope="session")
def meshes() -> ModuleType:
    """The mesh library the view factors are asked in."""
    return _library("pyvista")


@pytest.fixture(scope="session")
def photometric() -> ModuleType:
    """Another's reader of photometric files."""
    return _library("photompy")
