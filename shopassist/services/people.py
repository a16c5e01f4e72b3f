"""Who is at the bench, as they typed it: for a pot that several people share."""

from shopassist.clock import Clock
from shopassist.core.rows import Draft
from shopassist.services.hooks import Hook
from shopassist.services.ports import Journal

STREAM, HERE = "people", "here"
LONGEST = 40


class People:
    """A line in the journal for each change; nobody is asked, and nothing hangs on it."""

    def __init__(self, journal: Journal, clock: Clock) -> None:
        self.changed: Hook[None] = Hook()
        self._journal, self._clock = journal, clock
        self._said = [
            (float(row.happened), str(row.body.get("who", "")))
            for row in journal.read(STREAM)
            if row.kind == HERE
        ]

    @property
    def who(self) -> str:
        """Who is here now; empty where nobody has said so in this sitting."""
        return self._said[-1][1] if self._said else ""

    def start(self) -> None:
        """Begin a sitting: whoever opens the program has not said who they are."""
        if self.who:
            self.here("")

    def here(self, name: str) -> None:
        """Say who is here."""
        who = name.strip()[:LONGEST]
        if who == self.who:
            return
        for row in self._journal.append([Draft(STREAM, HERE, {"who": who})]):
            self._said.append((float(row.happened), who))
        self.changed.emit(None)

    def at(self, utc: float) -> str:
        """Who was here at an instant; empty where nobody had said so."""
        return next((who for when, who in reversed(self._said) if when <= utc), "")
