"""kill −9 in the middle of a batch: what was acknowledged is there when it starts again."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from shopassist.store.opening import check
from tests.shops import Shop

WRITER = Path(__file__).with_name("killed_writer.py")


@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is of other systems")
@pytest.mark.parametrize("heard", [1, 7, 13, 29])
def test_what_was_acknowledged_is_there_after_a_real_kill(tmp_path: Path, heard: int) -> None:
    child = subprocess.Popen(
        [sys.executable, str(WRITER), str(tmp_path)], stdout=subprocess.PIPE, text=True,
        cwd=WRITER.parents[2], env={"PYTHONPATH": str(WRITER.parents[2])},
    )  # fmt: skip
    assert child.stdout is not None
    said = [child.stdout.readline().split() for _ in range(heard)]
    child.send_signal(signal.SIGKILL)
    said += [line.split() for line in child.stdout if line.endswith("\n")]
    child.stdout.close()
    assert child.wait() == -signal.SIGKILL
    assert all(len(line) == 2 for line in said)
    assert check(tmp_path / "journal.db") == ()
    shop = Shop(tmp_path)
    for act, batch_id in said:
        batch = shop.batches.get(batch_id)
        cup = batch.cup(1)
        held = {
            "opened": batch.name == f"Batch {int(batch_id)}",
            "amount": "amount" in batch.entries,
            "a": "a" in cup.weighed,
            "b": "b" in cup.weighed,
            "hardener": cup.contact is not None,
        }
        assert held[act], (act, batch_id)
    shop.session.end()
    shop.journal.close()
