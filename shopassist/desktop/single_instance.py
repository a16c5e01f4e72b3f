"""One program per data folder: a lock, and a word to the window that is already open."""

import hashlib
import logging
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QDeadlineTimer, QLockFile

from shopassist.core.errors import StoreError
from shopassist.core.messages import say
from shopassist.services.hooks import Hook

if TYPE_CHECKING:
    from PySide6.QtNetwork import QLocalServer

LOG = logging.getLogger(__name__)
PATIENCE_MS = 700
"""How long a second launch tries before it gives up; it is gone within a second."""
TRY_MS = 50


class SingleInstance:
    """Holds a data folder for this process, or tells the process that holds it to come forward.

    A lock is enough to hold it. Qt's sockets are brought in where a word is said or waited for:
    the first paint does without them.
    """

    def __init__(self, folder: Path) -> None:
        self.called: Hook[None] = Hook()
        """A second launch wants this window to come forward."""
        self.took_over = False
        """Whether the folder was still marked by a process that is dead."""
        self.told = False
        """Whether the holder heard of us."""
        self._folder = folder
        self._lock = QLockFile(str(folder / "in-use.lock"))
        self._lock.setStaleLockTime(0)
        self._server: QLocalServer | None = None

    def take(self) -> bool:
        """Take the folder; False where another process has it, which then was told.

        Raises ``StoreError`` where the folder cannot be written.
        """
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise self._unwritable() from error
        deadline = QDeadlineTimer(PATIENCE_MS)
        while not self._try():
            if self._tell(min(TRY_MS * 4, int(deadline.remainingTime()))):
                self.told = True
                return False
            if deadline.hasExpired():
                return False
        return True

    def listen(self) -> None:
        """Hear later launches, from now on."""
        if self._server is not None:
            return
        from PySide6.QtNetwork import QLocalServer

        QLocalServer.removeServer(self._name)
        server = QLocalServer()
        server.setSocketOptions(QLocalServer.SocketOption.UserAccessOption)
        server.newConnection.connect(self._answer)
        if not server.listen(self._name):
            LOG.warning("second launches will not be heard: %s", server.errorString())
        self._server = server

    def release(self) -> None:
        """Let go of the folder."""
        if self._server is not None:
            self._server.close()
            self._server.deleteLater()
            self._server = None
        self._lock.unlock()

    def _try(self) -> bool:
        marked = Path(self._lock.fileName()).exists()
        if self._lock.tryLock(TRY_MS):
            if marked:
                self.took_over = True
                LOG.warning("the lock of a program that is gone was taken over")
            return True
        if self._lock.error() == QLockFile.LockError.LockFailedError:
            return False
        raise self._unwritable()

    def _unwritable(self) -> StoreError:
        return StoreError(
            "The data folder cannot be written.",
            say("Check who may write in {folder}.", folder=str(self._folder)),
        )

    @property
    def _name(self) -> str:
        whole = hashlib.sha256(str(self._folder.resolve()).encode()).hexdigest()
        return f"shopassist-{whole[:24]}"

    def _answer(self) -> None:
        while self._server is not None and self._server.hasPendingConnections():
            caller = self._server.nextPendingConnection()
            caller.disconnected.connect(caller.deleteLater)
            caller.disconnectFromServer()
            self.called.emit(None)

    def _tell(self, patience_ms: int) -> bool:
        from PySide6.QtNetwork import QLocalSocket

        caller = QLocalSocket()
        caller.connectToServer(self._name)
        heard = caller.waitForConnected(max(1, patience_ms))
        if heard:
            caller.disconnectFromServer()
        return heard
