"""Options of the whole suite; free of Qt, so that the core is tested where Qt is missing."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from shopassist.core.checks import Check
from shopassist.store.check_files import load_checks, shipped_checks

settings.register_profile("shop", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("shop")
"""A busy machine is no fault of what is tested."""


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--checks",
        action="append",
        default=[],
        metavar="DIR",
        help="A further folder of outside checks, of the same form as resources/checks.",
    )


def outside_checks(config: pytest.Config) -> tuple[Check, ...]:
    """Shipped checks and those of every folder given."""
    folders = [Path(folder) for folder in config.getoption("--checks")]
    return (*shipped_checks(), *(check for folder in folders for check in load_checks(folder)))


@pytest.fixture(scope="session")
def qapp_args() -> list[str]:
    """The arguments that the program gives to its own application."""
    return ["shopassist", "-style", "fusion"]


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "outside_check" in metafunc.fixturenames:
        checks = outside_checks(metafunc.config)
        metafunc.parametrize("outside_check", checks, ids=[check.id for check in checks])
