import ctypes
import subprocess
from pathlib import Path

import pytest

from chores import libraries
from chores.ground import SetupError
from chores.libraries import LIBRARIES, as_line, install_commands, installer_of, missing, told

WANTED = tuple(lib for lib in LIBRARIES if lib.soname in {"libEGL.so.1", "libxcb-cursor.so.0"})


def loader_without(*absent: str) -> object:
    def load(name: str) -> object:
        if name in absent:
            raise OSError(f"{name}: cannot open shared object file")
        return object()

    return load


def test_only_what_the_loader_cannot_open_is_missing() -> None:
    load = loader_without("libEGL.so.1", "libxcb-cursor.so.0")
    assert missing(load) == WANTED  # type: ignore[arg-type]
    assert missing(loader_without()) == ()  # type: ignore[arg-type]


def test_the_real_loader_is_asked_for_real() -> None:
    with pytest.raises(OSError, match="no-such-thing"):
        ctypes.CDLL("no-such-thing.so.0")
    assert missing() == ()  # the tests have started Qt by then


@pytest.mark.parametrize(
    ("text", "tool"),
    [
        ('ID=debian\nVERSION_ID="12"', "apt"),
        ("ID=linuxmint\nID_LIKE=ubuntu", "apt"),
        ("ID=fedora", "dnf"),
        ('ID="rocky"\nID_LIKE="rhel centos fedora"', "dnf"),
        ("ID=arch", "pacman"),
        ('ID="opensuse-tumbleweed"\nID_LIKE="opensuse suse"', "zypper"),
        ("ID=plan9", ""),
        ("", ""),
    ],
)
def test_the_package_tool_follows_the_system(text: str, tool: str) -> None:
    assert installer_of(text) == tool


def test_each_system_gets_its_exact_line() -> None:
    assert as_line(install_commands("apt", WANTED)) == (
        "sudo apt-get update && sudo apt-get install --yes libegl1 libxcb-cursor0"
    )
    assert as_line(install_commands("dnf", WANTED)) == (
        "sudo dnf install 'libEGL.so.1()(64bit)' 'libxcb-cursor.so.0()(64bit)'"
    )
    assert as_line(install_commands("pacman", WANTED)) == (
        "sudo pacman -S --needed libglvnd xcb-util-cursor"
    )
    assert as_line(install_commands("zypper", WANTED)).startswith("sudo zypper install --capab")


def test_an_unknown_system_is_told_the_names() -> None:
    words = told("", WANTED)
    assert "libEGL.so.1, libxcb-cursor.so.0" in words
    assert "sudo" not in words


@pytest.fixture
def lacking(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[tuple[str, ...]]:
    """A Debian-like Linux without two libraries; notes the commands that would run."""
    ran: list[tuple[str, ...]] = []

    def run(command: tuple[str, ...], **_: object) -> subprocess.CompletedProcess[str]:
        ran.append(command)
        return subprocess.CompletedProcess(command, 0)

    answers = iter([WANTED, (), ()])
    monkeypatch.setattr(libraries, "missing", lambda: next(answers))
    monkeypatch.setattr(libraries, "installer_of", lambda text: "apt")
    monkeypatch.setattr("chores.libraries.sys.platform", "linux")
    monkeypatch.setattr("chores.libraries.platform.libc_ver", lambda: ("glibc", "2.36"))
    monkeypatch.setattr("chores.libraries.shutil.which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr("chores.libraries.subprocess.run", run)
    return ran


def test_root_on_a_debian_like_system_gets_them_installed(
    lacking: list[tuple[str, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("chores.libraries.os.geteuid", lambda: 0)
    libraries.ensure()
    assert lacking == list(install_commands("apt", WANTED))


def test_anybody_else_is_told_what_to_type(
    lacking: list[tuple[str, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("chores.libraries.os.geteuid", lambda: 1000)
    with pytest.raises(SetupError, match="sudo apt-get update && sudo apt-get install --yes"):
        libraries.ensure()
    assert lacking == []


def test_an_installation_that_did_not_help_is_not_called_done(
    lacking: list[tuple[str, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("chores.libraries.os.geteuid", lambda: 0)
    monkeypatch.setattr(libraries, "missing", lambda: WANTED)
    with pytest.raises(SetupError, match=r"libEGL\.so\.1"):
        libraries.ensure()


def test_nothing_is_asked_of_other_systems(
    lacking: list[tuple[str, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("chores.libraries.sys.platform", "darwin")
    libraries.ensure()
    assert lacking == []
