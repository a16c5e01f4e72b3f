from datetime import UTC, datetime
from pathlib import Path

import pytest

from chores import proofs
from chores.proofs import HEAD, Progress, keep, merged, names_in, resumed, with_row

WHEN = datetime(2026, 11, 25, tzinfo=UTC)


def test_counts_add_up_and_extremes_stay_extreme() -> None:
    before = {"kills": 5.0, "most late [s]": 0.4, "least left [s]": 3.0}
    part = {"kills": 7.0, "most late [s]": 0.2, "least left [s]": 2.0, "new": 1.0}
    assert merged(before, part) == {
        "kills": 12.0, "most late [s]": 0.4, "least left [s]": 2.0, "new": 1.0,
    }  # fmt: skip


def test_a_proof_goes_on_where_it_stopped(tmp_path: Path) -> None:
    store = tmp_path / "cache" / "weeks.json"
    begun = Progress("weeks", 100, 7, "abc", done=40, failures=["one"], figures={"weeks": 40.0})
    keep(store, begun)
    assert resumed(store, "weeks", 100, None, "abc") == begun
    assert resumed(store, "weeks", 100, 7, "abc") == begun


@pytest.mark.parametrize(
    ("count", "seed", "code"), [(200, 7, "abc"), (100, 8, "abc"), (100, None, "other code")]
)
def test_another_count_seed_or_code_begins_anew(
    count: int, seed: int | None, code: str, tmp_path: Path
) -> None:
    store = tmp_path / "weeks.json"
    keep(store, Progress("weeks", 100, 7, "abc", done=40))
    assert resumed(store, "weeks", count, seed, code).done == 0


def test_a_torn_progress_file_begins_anew(tmp_path: Path) -> None:
    (tmp_path / "weeks.json").write_text('{"name": "we', "utf-8")
    assert resumed(tmp_path / "weeks.json", "weeks", 100, 3, "abc") == Progress(
        "weeks", 100, 3, "abc"
    )


def test_the_page_keeps_the_other_proofs_and_replaces_this_one() -> None:
    page = with_row(HEAD, Progress("weeks", 9, 1, "abc", done=9), WHEN)
    page = with_row(page, Progress("kill_loop", 5, 1, "abc", done=5, figures={"kills": 5.0}), WHEN)
    page = with_row(page, Progress("weeks", 10, 2, "abc", done=10, failures=["x"]), WHEN)
    rows = page.removeprefix(HEAD).splitlines()
    assert [row.split(" | ")[:4] for row in rows] == [
        ["| kill_loop", "5", "1", "0"],
        ["| weeks", "10", "2", "1"],
    ]
    assert "kills 5" in rows[0]
    assert "2026-11-25" in rows[0]


def test_only_modules_that_offer_a_run_are_proofs(tmp_path: Path) -> None:
    (tmp_path / "weeks.py").write_text("import x\n\n\ndef run(count, seed):\n    ...\n", "utf-8")
    (tmp_path / "report.py").write_text("class Report: ...\n", "utf-8")
    assert names_in(tmp_path) == ("weeks",)


def fake_answers(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, fail_at: int = -1) -> list[str]:
    seeds: list[str] = []

    def ask(python: Path, name: str, *words: str) -> dict[str, object]:
        if words == ("facts",):
            return {"full": 10, "stretch": 4, "cache": str(tmp_path / "cache")}
        seeds.append(words[1])
        failures = ["lost a row"] if int(words[1]) == fail_at else []
        return {"count": int(words[0]), "seconds": 1.0, "failures": failures, "figures": {"n": 1}}

    monkeypatch.setattr(proofs, "_ask", ask)
    monkeypatch.setattr(proofs, "PAGE", tmp_path / "PROOFS.md")
    monkeypatch.setattr(proofs, "names_in", lambda folder: ("weeks",))
    return seeds


def test_a_proof_runs_in_stretches_with_their_own_seeds(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    seeds = fake_answers(monkeypatch, tmp_path)
    assert proofs.start(Path("python"), [], None, 100) == 0
    assert seeds == ["100", "104", "108"]
    assert "| weeks | 10 | 100 | 0 | n 3 |" in (tmp_path / "PROOFS.md").read_text("utf-8")


def test_a_failure_is_written_down_and_makes_the_command_fail(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    fake_answers(monkeypatch, tmp_path, fail_at=104)
    assert proofs.start(Path("python"), ["weeks"], None, 100) == 1
    assert "| weeks | 10 | 100 | 1 |" in (tmp_path / "PROOFS.md").read_text("utf-8")
    assert "lost a row" in capsys.readouterr().out


def test_an_unknown_name_is_refused(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    fake_answers(monkeypatch, tmp_path)
    assert proofs.start(Path("python"), ["months"], None, None) == 2
