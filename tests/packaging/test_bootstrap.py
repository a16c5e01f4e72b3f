from argparse import Namespace

import pytest

import bootstrap
from chores import errands
from chores.ground import SetupError


def test_an_older_python_is_told_plainly() -> None:
    told = bootstrap.too_old((3, 10, 14))
    assert "needs Python 3.11 or newer; this is Python 3.10" in told
    assert "python3.11 packaging/bootstrap.py" in told


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 12, 1), (3, 14, 0), (4, 0, 0)])
def test_a_python_that_is_new_enough_hears_nothing(version: tuple[int, ...]) -> None:
    assert bootstrap.too_old(version) == ""


def test_an_older_python_stops_before_anything_newer_is_imported(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(bootstrap, "LEAST", (99, 0))
    monkeypatch.setattr(errands, "do", lambda wanted: pytest.fail("went on"))
    assert bootstrap.main(["run"]) == 2
    assert "needs Python 99.0" in capsys.readouterr().err


def test_what_follows_run_is_for_the_program() -> None:
    wanted = bootstrap.understood(["run", "--demo", "--data-dir", "here"])
    assert wanted == Namespace(command="run", rest=["--demo", "--data-dir", "here"])


def test_what_follows_test_is_for_pytest() -> None:
    assert bootstrap.understood(["test", "-q", "tests/core"]).rest == ["-q", "tests/core"]
    assert bootstrap.understood(["test"]).rest == []


def test_bench_and_prove_have_their_own_options() -> None:
    assert bootstrap.understood(["bench", "--json"]).json is True
    wanted = bootstrap.understood(["prove", "weeks", "--count", "5", "--seed", "7"])
    assert (wanted.names, wanted.count, wanted.seed) == (["weeks"], 5, 7)


def test_an_unknown_command_is_refused() -> None:
    with pytest.raises(SystemExit):
        bootstrap.understood(["fly"])


def test_a_setup_problem_ends_with_its_words_and_a_status(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fails() -> None:
        raise SetupError("Type this line.")

    monkeypatch.setattr("chores.errands.libraries.ensure", fails)
    assert errands.do(Namespace(command="run", rest=[])) == 2
    assert capsys.readouterr().err == "Type this line.\n"


def test_a_missing_screen_is_told_before_qt_aborts() -> None:
    assert "no screen" in errands.no_screen("linux", {"DISPLAY": ""})
    assert errands.no_screen("linux", {"DISPLAY": ":1"}) == ""
    assert errands.no_screen("linux", {"WAYLAND_DISPLAY": "wayland-0"}) == ""
    assert errands.no_screen("linux", {"QT_QPA_PLATFORM": "offscreen"}) == ""
    assert errands.no_screen("win32", {}) == ""
