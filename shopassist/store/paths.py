"""The folders of the program; nothing is made before it is needed."""

from pathlib import Path

from shopassist.core.frozen import frozen

NAME = "shopassist"


@frozen
class Paths:
    """Where settings, data, state and caches lie."""

    config: Path
    data: Path
    state: Path
    cache: Path

    @property
    def journal(self) -> Path:
        """The journal's file."""
        return self.data / "journal.db"

    @property
    def backups(self) -> Path:
        """The folder of backups."""
        return self.data / "backups"

    @property
    def sheets(self) -> Path:
        """The folder of sheets to print."""
        return self.data / "sheets"

    @property
    def settings(self) -> Path:
        """The user's settings."""
        return self.config / "settings.json"

    @property
    def window(self) -> Path:
        """The window's own state."""
        return self.state / "window.json"


def paths_of(data_dir: Path | None = None) -> Paths:
    """Name the folders: all within ``data_dir``, or where this system keeps such things."""
    if data_dir is not None:
        whole = data_dir.absolute()
        return Paths(whole, whole, whole, whole / "cache")
    import platformdirs

    dirs = platformdirs.PlatformDirs(NAME, appauthor=False)
    return Paths(
        dirs.user_config_path, dirs.user_data_path, dirs.user_state_path, dirs.user_cache_path
    )
