"""Pages beside the table: what failures share, what a symptom may mean, what was learnt."""

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from shopassist.panes.log.presenter import LogPresenter
from shopassist.panes.log.screen import CauseShown, LogScreen
from shopassist.widgets.choice import Choice
from shopassist.widgets.look import Look
from shopassist.widgets.paragraphs import Paragraph, Paragraphs
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading


class ComparePage(QWidget):
    """The facts that one side shares, those that tell apart first."""

    def __init__(self, look: Look, presenter: LogPresenter) -> None:
        super().__init__()
        del presenter
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self._rows = Paragraphs(look, "log.shared", "What they share")
        column.addWidget(self._rows, 1)

    def draw(self, screen: LogScreen) -> None:
        """Show the comparison."""
        words: list[Paragraph] = [("bold", "ink", screen.verdict)] if screen.verdict else []
        for name, value, others in screen.shared:
            words.append(("bold", "ink", f"{name}: {value}"))
            words.append(("body", "graphite", f"Among the others: {others}"))
        if screen.unknown:
            words.append(("body", "graphite", f"Not on record for all of them: {screen.unknown}."))
        self._rows.draw(tuple(words))


class SymptomPage(QWidget):
    """Ranked causes of one symptom."""

    def __init__(self, look: Look, presenter: LogPresenter) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self._choice = Choice()
        name_it(self._choice, "log.symptom", "What is wrong with the piece")
        self._choice.addItems(presenter.screen.symptoms)
        self._choice.activated.connect(presenter.on_symptom)
        self._causes = Paragraphs(look, "log.causes", "Possible causes, the likeliest first")
        self._caution = Heading(
            look, "log.caution", "Ranked by what this batch has on record; never a certainty."
        )
        column.addWidget(self._choice)
        column.addWidget(self._causes, 1)
        column.addWidget(self._caution)

    def draw(self, screen: LogScreen) -> None:
        """Show the causes."""
        self._choice.setCurrentIndex(screen.symptom)
        words: list[Paragraph] = []
        for number, cause in enumerate(screen.causes, 1):
            words += _cause(number, cause)
        self._causes.draw(tuple(words))


def _cause(number: int, cause: CauseShown) -> list[Paragraph]:
    words: list[Paragraph] = [("bold", "ink", f"{number}  {cause.title}")]
    if cause.evidence:
        words.append(("body", "ink", f"{cause.verdict}: {' '.join(cause.evidence)}"))
    if cause.lacking:
        words.append(("body", "ink", f"{LACKING}: {' '.join(cause.lacking)}"))
    words.append(("body", "graphite", f"Next time: {cause.remedy}"))
    return words


LACKING = "Not on record"


class LearntPage(QWidget):
    """What the shop's own witness cups say about the sheet's times."""

    def __init__(self, look: Look, presenter: LogPresenter) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self._rows = Paragraphs(look, "log.learnt", "What was learnt")
        self._save = QPushButton("Save as a new version")
        name_it(self._save, "log.save_learnt", "Save what was learnt as a new version of the sheet")
        self._save.clicked.connect(presenter.on_save_learnt)
        column.addWidget(self._rows, 1)
        column.addWidget(self._save)

    def draw(self, screen: LogScreen) -> None:
        """Show the fits."""
        words: list[Paragraph] = []
        for fact in screen.learnt:
            words += [("bold", "ink", fact.label), ("body", "ink", fact.value)]
        if not words:
            words = [("body", "graphite", screen.reading or NOTHING)]
        words.append(("body", "graphite", METHOD))
        self._rows.draw(tuple(words))
        self._save.setVisible(bool(screen.offer))


NOTHING = (
    "Nothing yet. Mark what the witness cup shows in Cure – gelled, nail-hard – in three batches "
    "of one sheet, with temperatures."
)
METHOD = (
    "Method: mean of the logarithms of seen over sheet's age, with the band in which the next "
    "batch will lie 95 of 100 times. Hazards may only come earlier by it, releases never below the "
    "maker's minimum. A batch that came out spoiled counts only where it makes a hazard earlier "
    "or a release later."
)
