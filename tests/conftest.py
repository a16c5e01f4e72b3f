"""Options of the whole suite; free of Qt, so that the core is tested where Qt is missing."""

import gc
import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

from shopassist.core.checks import Check
from shopassist.store.check_files import load_checks, shipped_checks

PROOFS = Path(__file__).parent / "proofs"

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


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Samples of proofs ask whether the code is right, not whether a test ran each line."""
    for item in items:
        if PROOFS in item.path.parents:
            item.add_marker("proof")
        if item.get_closest_marker("proof"):
            item.add_marker("no_cover")


@pytest.fixture(autouse=True)
def journals_end_with_their_test() -> Iterator[None]:
    """A shop of a test leaves its journal open; from Python 3.13 on that is warned about."""
    opened: list[sqlite3.Connection] = []
    connect = sqlite3.connect

    def spy(*words: Any, **more: Any) -> sqlite3.Connection:
        opened.append(connect(*words, **more))
        return opened[-1]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sqlite3, "connect", spy)
        yield
    for connection in opened:
        with suppress(sqlite3.ProgrammingError):  # of another thread, which ends its own
            connection.close()


@pytest.fixture(scope="module", autouse=True)
def what_stood_before() -> None:
    """What a module of tests finds in memory stays: to look for garbage in it costs every test."""
    gc.collect()
    gc.freeze()


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "outside_check" in metafunc.fixturenames:
        checks = outside_checks(metafunc.config)
        metafunc.parametrize("outside_check", checks, ids=[check.id for check in checks])
