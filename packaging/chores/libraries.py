"""The shared libraries that Qt opens, looked for before Qt fails with a riddle.

The list is what Qt 6.11's own libraries name as needed on Linux (core, gui, network and the X11
platform), less what Python and the C library bring.
"""

import ctypes
import os
import platform
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from chores.ground import SetupError, say


@dataclass(frozen=True)
class Library:
    """One shared library and the packages that carry it."""

    soname: str
    debian: str
    arch: str


LIBRARIES = tuple(
    Library(*line.split())
    for line in """
    libEGL.so.1              libegl1               libglvnd
    libGL.so.1               libgl1                libglvnd
    libglib-2.0.so.0         libglib2.0-0          glib2
    libgthread-2.0.so.0      libglib2.0-0          glib2
    libfontconfig.so.1       libfontconfig1        fontconfig
    libfreetype.so.6         libfreetype6          freetype2
    libdbus-1.so.3           libdbus-1-3           dbus
    libzstd.so.1             libzstd1              zstd
    libgssapi_krb5.so.2      libgssapi-krb5-2      krb5
    libbrotlidec.so.1        libbrotli1            brotli
    libX11.so.6              libx11-6              libx11
    libX11-xcb.so.1          libx11-xcb1           libx11
    libxkbcommon.so.0        libxkbcommon0         libxkbcommon
    libxkbcommon-x11.so.0    libxkbcommon-x11-0    libxkbcommon-x11
    libxcb.so.1              libxcb1               libxcb
    libxcb-cursor.so.0       libxcb-cursor0        xcb-util-cursor
    libxcb-icccm.so.4        libxcb-icccm4         xcb-util-wm
    libxcb-image.so.0        libxcb-image0         xcb-util-image
    libxcb-keysyms.so.1      libxcb-keysyms1       xcb-util-keysyms
    libxcb-randr.so.0        libxcb-randr0         libxcb
    libxcb-render.so.0       libxcb-render0        libxcb
    libxcb-render-util.so.0  libxcb-render-util0   xcb-util-renderutil
    libxcb-shape.so.0        libxcb-shape0         libxcb
    libxcb-shm.so.0          libxcb-shm0           libxcb
    libxcb-sync.so.1         libxcb-sync1          libxcb
    libxcb-util.so.1         libxcb-util1          xcb-util
    libxcb-xfixes.so.0       libxcb-xfixes0        libxcb
    libxcb-xkb.so.1          libxcb-xkb1           libxcb
    """.strip().splitlines()
)

FAMILIES = {
    "apt": {"debian", "ubuntu"},
    "dnf": {"fedora", "rhel", "centos"},
    "pacman": {"arch"},
    "zypper": {"suse", "opensuse"},
}


def missing(load: Callable[[str], object] = ctypes.CDLL) -> tuple[Library, ...]:
    """List the libraries that the loader cannot open."""
    return tuple(library for library in LIBRARIES if not _opens(library.soname, load))


def _opens(soname: str, load: Callable[[str], object]) -> bool:
    try:
        load(soname)
    except OSError:
        return False
    return True


def installer_of(os_release: str) -> str:
    """Name the package tool of a system by its ``os-release`` text; empty when unknown."""
    fields = dict(line.split("=", 1) for line in os_release.splitlines() if "=" in line)
    words = f"{fields.get('ID', '')} {fields.get('ID_LIKE', '')}".replace('"', "").split()
    for tool, families in FAMILIES.items():
        if any(word.split("-")[0] in families for word in words):
            return tool
    return ""


def install_commands(tool: str, wanted: Iterable[Library]) -> tuple[tuple[str, ...], ...]:
    """Give the commands that bring the libraries. Only apt's have been tried."""
    wanted = tuple(wanted)
    if tool == "apt":
        names = sorted({library.debian for library in wanted})
        return ("apt-get", "update"), ("apt-get", "install", "--yes", *names)
    if tool == "pacman":
        return (("pacman", "-S", "--needed", *sorted({library.arch for library in wanted})),)
    by_soname = tuple(f"{library.soname}()(64bit)" for library in wanted)
    if tool == "dnf":
        return (("dnf", "install", *by_soname),)
    if tool == "zypper":
        return (("zypper", "install", "--capability", *by_soname),)
    return ()


def as_line(commands: Iterable[tuple[str, ...]]) -> str:
    """Write commands as one line to type."""
    quoted = (" ".join(f"'{w}'" if "(" in w else w for w in command) for command in commands)
    return " && ".join(f"sudo {command}" for command in quoted)


def told(tool: str, wanted: tuple[Library, ...]) -> str:
    """Say what is missing and what to type."""
    names = ", ".join(library.soname for library in wanted)
    commands = install_commands(tool, wanted)
    advice = (
        f"Install them with:\n  {as_line(commands)}"
        if commands
        else ("Install the packages of your system that hold them, then start again.")
    )
    return f"Qt needs shared libraries that this system does not have: {names}.\n{advice}"


def ensure() -> None:
    """See that Qt's libraries are there: install them where that is allowed, else tell how."""
    if not sys.platform.startswith("linux") or platform.libc_ver()[0] != "glibc":
        return
    wanted = missing()
    if not wanted:
        return
    release = Path("/etc/os-release")
    tool = installer_of(release.read_text("utf-8")) if release.exists() else ""
    if tool != "apt" or os.geteuid() != 0 or shutil.which("apt-get") is None:
        raise SetupError(told(tool, wanted))
    say(f"Installing what Qt needs: {', '.join(library.soname for library in wanted)}")
    for command in install_commands(tool, wanted):
        quiet = {"DEBIAN_FRONTEND": "noninteractive"}
        done = subprocess.run(command, check=False, stdout=sys.stderr, env=os.environ | quiet)
        if done.returncode:
            say(f"“{' '.join(command)}” failed.")
    if missing():
        raise SetupError(told(tool, missing()))
