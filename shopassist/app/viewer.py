"""Files that were written, shown by what the system shows such files with."""


def show_file(path: str) -> None:
    """Show a file with the system's own viewer, which prints it too."""
    from PySide6.QtCore import QUrl
    from PySide6.QtGui import QDesktopServices

    QDesktopServices.openUrl(QUrl.fromLocalFile(path))
