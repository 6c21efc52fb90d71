"""Options and fixtures for all tests."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from tests.golden import OPTION, check


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--update-golden` rewrites the golden files that differ; review the change as code."""
    parser.addoption(OPTION, action="store_true", help="rewrite the golden files that differ")


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[Path, bytes], None]:
    """Compares bytes with a golden file."""
    return partial(check, update=bool(request.config.getoption(OPTION)))
