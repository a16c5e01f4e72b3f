from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.panes.warmup.bench import Bench


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = Bench(tmp_path)
    yield made
    made.close()
