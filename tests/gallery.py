"""Draw the pieces with invented data, to look at them: python tests/gallery.py FOLDER."""

import os
import sys
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import (
    QApplication,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from shopassist.shell.window_layout import Parts, WindowLayout
from shopassist.widgets import fonts
from shopassist.widgets.alarm_band import AlarmBand
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.answer_button import AnswerGrid
from shopassist.widgets.bench_view import BenchView
from shopassist.widgets.card import Card
from shopassist.widgets.deviation_rule import DeviationRule
from shopassist.widgets.explain_sheet import ExplainSheet
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.hair import Hair
from shopassist.widgets.hold_button import HoldButton
from shopassist.widgets.lid import Lid
from shopassist.widgets.limits_card import LimitsCard
from shopassist.widgets.look import Look
from shopassist.widgets.next_line import NextLine
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.pot_card import PotCardFrame, QuietColumn, StopButton
from shopassist.widgets.pot_line import PotLine
from shopassist.widgets.prose import Question
from shopassist.widgets.rail import Rail
from shopassist.widgets.shown import (
    AlarmShown,
    AnswerShown,
    BenchShown,
    BracketShown,
    CardShown,
    DeviationShown,
    ExplainShown,
    FigureShown,
    IconName,
    LidHole,
    LidShown,
    NextShown,
    PotLineShown,
    RailShown,
    Reported,
    RuleShown,
    SheetSection,
    StopShown,
    Tick,
    WaitShown,
)
from shopassist.widgets.stops import Stops
from shopassist.widgets.theme import Theme
from shopassist.widgets.tokens import POT_FIELDS, PotFace
from shopassist.widgets.wait_block import WaitBlock

FONTS = Path(__file__).parent.parent / "resources" / "fonts"
FHD, SMALL = 1 / 0.180, 1 / 0.253
"""Pixels a millimetre of a 15.6 inch screen of 1920 and of 1366 pixels."""

WORDS = {
    "unknown": ("NOT KNOWN", "TREAT AS PRESSURISED", "no record · Big pot", "Let down"),
    "open": ("OPEN", "when last seen, 14 h ago", "Big pot · gasket cleaned", ""),
    "closed": ("CLOSED, NO AIR YET", "6 clamps, once round", "2 min ago · Big pot", "Let down"),
    "pressurised": ("PRESSURISED", "You reported 2.76 bar", "38 min ago · Big pot", "Let down"),
    "letting_down": ("LETTING DOWN", "You reported 1.29 bar", "4 min ago · vent open", "Vent now"),
    "proving": ("PROVING", "You reported 0.0 bar", "1 min ago · vent open", "Vent now"),
    "clear_to_crack": ("CLEAR TO CRACK", "as reported", "Big pot", ""),
    "clear_to_open": ("CLEAR TO OPEN", "lid moved freely", "Big pot · as reported", ""),
    "suspect": ("STOP – SUSPECT", "zero, but air moving", "2 min ago · Big pot", "Let down"),
}


class StillTicks:
    """A ticker that never ticks."""

    def every(self, seconds: float, callback: Callable[[], None]) -> Callable[[], None]:
        return lambda: None


def pot_line(look: Look, face: PotFace, name: str = "pot_line") -> PotLine:
    word, report, detail, action = WORDS[face]
    life = {"clear_to_crack": 0.93, "clear_to_open": 0.6}.get(face)
    rest = {"clear_to_crack": "9:32", "clear_to_open": "3:05"}.get(face, "")
    return PotLine(look, name, PotLineShown(face, word, report, detail, action, life, rest))


def time_rule() -> RuleShown:
    ticks = tuple(
        Tick(14.25 + i * 0.25, f"{int(14.25 + i * 0.25)}:00" if i % 4 == 3 else "")
        for i in range(20)
    )
    return RuleShown(
        14.1, 19.0, ticks, 15.2, 15.2, 16.58, 17.17, 17.75, "gel likely", 18.33, "18:20"
    )


def label(words: str, kind: str = "label") -> QLabel:
    made = QLabel(words)
    made.setProperty("kind", kind)
    return made


def mix_pane(look: Look) -> PaneFrame:
    pane = PaneFrame(look, "mix", "Mix")
    pane.set_right("Knobs 12")
    pane.body.addWidget(label("Slow clear   100 : 30 by weight", "strong"))
    pane.body.addWidget(label("214 ml, from Blank · waste 8 %"))
    stops = Stops(look, "mix.stops")
    stops.draw(
        (
            StopShown("Resin", "179.4", "g", "done", "stop was 179.2"),
            StopShown("Smoke grey paste", "181.2", "g", "present", "pour to"),
            StopShown("Hardener", "235.0", "g", "later", "to come"),
        )
    )
    pane.body.addWidget(stops)
    pane.body.addStretch(1)
    pane.body.addWidget(
        FigureView(look, "mix.deviation", FigureShown("Hardener against the sheet", "+0.7", "%"))
    )
    ticks = (Tick(-3, "−3 %"), Tick(-2), Tick(-1), Tick(0, "0"), Tick(1), Tick(2), Tick(3, "+3 %"))
    pane.body.addWidget(
        DeviationRule(look, "mix.rule", DeviationShown(-3.0, 3.0, -3, 3, 0.7, ticks))
    )
    pane.body.addStretch(1)
    row = QHBoxLayout()
    for words in ("Another cup", "Correct a weight"):
        row.addWidget(QPushButton(words))
    pane.body.addLayout(row)
    return pane


def cure_pane(look: Look) -> PaneFrame:
    pane = PaneFrame(look, "cure", "Cure")
    pane.set_right("Knobs 12")
    wait = WaitBlock(
        look,
        "cure.wait",
        WaitShown(
            "Hold the pressure until 18:20, past a late gel",
            "1:06 since hardener",
            "from one reading at 21.5 °C, so the range is wide",
            time_rule(),
        ),
    )
    wait.set_digits("3:07:42")
    pane.body.addWidget(wait, 3)
    pane.body.addWidget(Hair(look))
    row = QHBoxLayout()
    row.addWidget(
        FigureView(
            look,
            "cure.temperature",
            FigureShown("", "21.5", "°C", "typed", note="", explains=False, lead=False),
        )
    )
    row.addWidget(label("typed 24 min ago, by the pot"))
    row.addStretch(1)
    add = QPushButton("Add temperature")
    add.setProperty("kind", "primary")
    row.addWidget(add)
    pane.body.addLayout(row)
    pane.body.addWidget(Hair(look))
    note = AmberNote(look, "cure.note")
    pane.body.addWidget(note)
    note.draw("One reading only", "type the temperature again when the shop has warmed up")
    pane.body.addStretch(1)
    return pane


def hold_pane(look: Look) -> PaneFrame:
    pane = PaneFrame(look, "pot", "Pot")
    pane.set_right("Big pot · Hold")
    grid = QGridLayout()
    typed = FigureShown("You reported", "2.76", "bar", "typed", None, "at 14:34, on supply", False)
    worked = FigureShown(
        "Should read now", "2.75", "bar", "computed", BracketShown(2.71, 2.79, 2.75, "2.71 – 2.79")
    )
    grid.addWidget(FigureView(look, "pot.reported", typed), 0, 0)
    grid.addWidget(FigureView(look, "pot.should", worked), 0, 1)
    holes = (LidHole("gauge", 0.8, 0.4), LidHole("vent", 0.1, 0.4), LidHole("relief", 0.45, 0.4))
    lid = LidShown((1, 3, 5, 2, 4, 6), frozenset((1, 2, 3, 4, 5, 6)), None, holes)
    grid.addWidget(Lid(look, "pot.lid", lid), 1, 0)
    push = FigureShown("Pushes like", "1 380", "kg", lead=False)
    grid.addWidget(FigureView(look, "pot.push", push), 1, 1)
    pane.body.addLayout(grid)
    pane.body.addStretch(1)
    answers = AnswerGrid(look, "pot.answers")
    answers.draw(
        {
            "pot.answer.reading": AnswerShown("1", "Type a reading", filled=True),
            "pot.answer.supply": AnswerShown("2", "Supply changed"),
            "pot.answer.down": AnswerShown("3", "Let down", "isolate, then vent"),
            "pot.answer.vent": AnswerShown("V", "Vent now", "hose comes after"),
        }
    )
    pane.body.addWidget(answers)
    return pane


def let_down_pane(look: Look) -> PaneFrame:
    pane = PaneFrame(look, "pot", "Pot")
    pane.set_right("Big pot · Knobs 12")
    pane.set_steps(("Isolate and vent", "Zero", "Prove", "Crack and open"), 1)
    column = QuietColumn(look, "pot.quiet", "You reported")
    column.draw(
        (
            Reported("Inlet", "shut"),
            Reported("Hose", "bled, apart"),
            Reported("Eyes, line", "covered, clear"),
            Reported("Vent", "hiss, I opened it"),
            Reported("Half-way", "1.30, then 1.29 bar"),
            Reported("Fall", "slow"),
        )
    )
    column.set_stop(StopButton(look, "pot.stop", "Stop", "leave the vent open, walk away"))
    card = PotCardFrame(look, "pot.card", column)
    card.top.addWidget(
        Question(look, "pot.question", "Leave the vent open.\nWhat does the gauge read?")
    )
    row = QHBoxLayout()
    entry = QLineEdit("0.0")
    entry.setProperty("typed", "true")
    entry.setObjectName("pot.gauge")
    row.addWidget(entry)
    force = FigureShown(
        "Pushes like", "50", "kg", note="the dial can still hide 0.10 bar", lead=False
    )
    row.addWidget(FigureView(look, "pot.force", force), 1)
    card.top.addLayout(row)
    card.right.addStretch(1)
    for words, kind in (
        ("Timed step ahead", "strong"),
        ("Next, the vent stays open 2 to 10 minutes. The program counts.", "label"),
    ):
        extra = label(words, kind)
        card.right.addWidget(extra)
        card.fold(extra)
    card.right.addStretch(1)
    answers = AnswerGrid(look, "pot.answers")
    answers.draw(
        {
            "pot.answer.zero": AnswerShown(
                "Enter", "Record 0.0 bar", "starts the dwell", filled=True
            ),
            "pot.answer.falling": AnswerShown("Alt 2", "Still falling", shortcut="Alt+2"),
            "pot.answer.below": AnswerShown(
                "Alt 3", "Below zero", "needle on the pin", shortcut="Alt+3"
            ),
            "pot.answer.unsure": AnswerShown(
                "Alt 4", "Can't tell", "nothing moves on", shortcut="Alt+4"
            ),
        }
    )
    card.foot.addWidget(answers)
    pane.body.addWidget(card)
    return pane


def explained_pane(look: Look) -> PaneFrame:
    pane = PaneFrame(look, "blank", "Blank")
    pane.set_right("Knobs 12")
    sheet = ExplainSheet(look, "blank.explanation")
    sheet.draw(
        ExplainShown(
            "Resin for one",
            "16.5 ml",
            "cavity − core + overfill",
            (
                SheetSection(
                    "From",
                    (
                        ("Mould inside", "48.0 mm, typed 09:12"),
                        ("Core", "57.1 ml, from 37.1 g at 0.65 g/ml (min. 0.61, max. 0.69)"),
                        ("Overfill", "5 %, our default where the sheet gives no shrink figure"),
                    ),
                ),
                SheetSection("Rounding", (("", "up to the next 0.1 ml, toward enough"),)),
                SheetSection(
                    "Left out", (("", "cracks and bark inclusions that the eye does not see"),)
                ),
            ),
        )
    )
    pane.show_sheet(sheet)
    return pane


def cards(look: Look) -> dict[str, Card]:
    cure = CardShown(
        "cure", "Cure", "Knobs 12", "Until demould, late estimate", "14:18", "h:min", "computed",
        BracketShown(4.0, 7.5, 5.6, "04:05 – 07:30"), "20.5 °C, typed 51 min ago",
    )  # fmt: skip
    mix = CardShown(
        "mix", "Mix", "Knobs 12", "In the cup, all poured", "235.4", "g", "typed", None,
        "hardener +0.7 %, within 3 %",
    )  # fmt: skip
    pot = CardShown("pot", "Pot", "Big pot", "Last hold, you reported", "2.80", "bar", "typed")
    return {s.icon: Card(look, f"card.{s.icon}", s) for s in (cure, mix, pot)}


RAIL: tuple[tuple[IconName, str], ...] = (
    ("mix", "Mix"), ("cure", "Cure"), ("pot", "Pot"), ("blank", "Blank"),
    ("stabilise", "Stabilise"), ("warm-up", "Warm-up"), ("plan", "Plan"), ("log", "Log"),
)  # fmt: skip


def board(
    look: Look, face: PotFace, focus: str, *, let_down: bool, alarm: bool = False
) -> WindowLayout:
    rail = Rail(look, "rail")
    band = AlarmBand(look, "alarm", StillTicks())
    line = NextLine(
        look,
        "next",
        NextShown("May demould 09:10", "likely 04:05 – 07:30")
        if let_down
        else NextShown("Hold until 18:20", "gel likely 16:35 – 17:45"),
    )
    panes = {
        "mix": mix_pane(look),
        "cure": cure_pane(look),
        "pot": let_down_pane(look) if let_down else hold_pane(look),
        "blank": explained_pane(look),
    }
    made = WindowLayout(look, Parts(pot_line(look, face), band, rail, line, panes, cards(look)))
    if alarm:
        band.draw(
            AlarmShown("high", "Pressurise now, or abandon the pour", "3 min left · Knobs 12")
        )
    made.set_focus(focus)
    made.set_broad("pot" if let_down else "")

    def follow() -> None:
        shown = made.shown()
        rail.draw(
            [
                RailShown(
                    key, word, key in shown, key == focus, "medium" if key == "plan" else None
                )
                for key, word in RAIL
            ]
        )

    made.resize(1366, 740)
    follow()
    made.follow = follow  # type: ignore[attr-defined]
    return made


def faces(look: Look) -> QWidget:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(0, 10, 0, 10)
    for face in POT_FIELDS:
        column.addWidget(pot_line(look, face, f"line.{face}"))
    for priority in ("high", "medium", "low"):
        band = AlarmBand(look, f"alarm.{priority}", StillTicks())
        band.draw(AlarmShown(priority, f"A {priority} alarm says what to do", "how long"))
        column.addWidget(band)
    return page


def pieces(look: Look) -> QWidget:
    page = QWidget()
    row = QHBoxLayout(page)
    pane = PaneFrame(look, "a", "Pieces")
    pane.set_focused(True)
    hold = HoldButton(
        look,
        "pot.hold",
        AnswerShown("Space", "All seen now", "hold 1.5 s"),
        StillTicks(),
        lambda: clock[0],
    )
    clock = [0.0]
    hold._press()
    clock[0] = 0.9
    pane.body.addWidget(hold)
    for kind in ("estimated", "allowed", "target"):
        shown = FigureShown(
            kind,
            "206",
            "ml",
            "computed",
            BracketShown(200, 222, 206, "200 – 222", kind),
        )
        pane.body.addWidget(FigureView(look, f"f.{kind}", shown))
    missing = FigureShown("Resin", "–", "", "missing", note="needs the ratio", explains=False)
    pane.body.addWidget(FigureView(look, "f.missing", missing))
    early = RuleShown(
        14, 17, (Tick(14, "14:00"), Tick(15, "15:00"), Tick(16, "16:00"), Tick(17, "17:00")),
        14.4, 14.4, 15.2, 15.6, 16.1, "pot life ends", 14.75, "14:45",
    )  # fmt: skip
    from shopassist.widgets.ruled_edge import RuledEdge

    pane.body.addWidget(RuledEdge(look, "rule.early", early))
    pane.body.addStretch(1)
    row.addWidget(pane)
    second = PaneFrame(look, "b", "Controls")
    for words, kind in (
        ("Record", "primary"),
        ("Another cup", ""),
        ("use Blank's 214 ml", "quiet"),
    ):
        button = QPushButton(words)
        button.setProperty("kind", kind)
        second.body.addWidget(button)
    off = QPushButton("Close the lid")
    off.setEnabled(False)
    second.body.addWidget(off)
    second.body.addWidget(label("no relief valve on the plate", "error"))
    for state in ("", "error"):
        entry = QLineEdit("14.0")
        entry.setProperty("typed", "true")
        entry.setProperty("state", state)
        second.body.addWidget(entry)
    holes = (
        LidHole("gauge", 0.8, 0.45), LidHole("vent", 0.12, 0.45), LidHole("relief", 0.45, 0.4),
        LidHole("inlet", 0.3, 0.5),
    )  # fmt: skip
    lid = LidShown((1, 7, 3, 5, 2, 8, 4, 6), frozenset((1, 2, 3)), 4, holes)
    second.body.addWidget(Lid(look, "lid.eight", lid), 1)
    row.addWidget(second)
    limits = LimitsCard(
        look, "limits", "What this program cannot do",
        ("It cannot see or feel the pot.", ("It keeps the order of the steps and what was typed. "
          "It replaces neither relief valve, working gauge nor the words of the maker.")),
        "I have read this",
    )  # fmt: skip
    row.addWidget(limits)
    return page


def bench(look: Look) -> QWidget:
    view = BenchView(look, "bench")
    view.draw(BenchShown("Hold past a late gel", "Knobs 12", time_rule()))
    view.set_digits("3:07:42")
    return view


def save(page: QWidget, size: tuple[int, int], path: Path) -> None:
    page.resize(*size)
    page.show()
    QApplication.processEvents()
    follow = getattr(page, "follow", None)
    if follow is not None:
        follow()
    QApplication.processEvents()
    shot: QPixmap = page.grab()
    shot.save(str(path))
    page.close()
    page.deleteLater()


def main(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    family = fonts.load(sorted(FONTS.glob("*.otf")))
    look = Look(family)
    theme = Theme(app, look)
    ratio = app.devicePixelRatio()
    big, small = (
        (round(1920 / ratio), round(1053 / ratio)),
        (round(1366 / ratio), round(741 / ratio)),
    )
    for dark in (False, True):
        theme.choose("dark" if dark else "light")
        tone = f"{'dark' if dark else 'light'}-{ratio:g}"
        for size, pitch, word in ((big, FHD, "fhd"), (small, SMALL, "1366")):
            look.set_pitch(pitch / ratio)
            end = f"{word}-{tone}.png"
            save(board(look, "pressurised", "cure", let_down=False), size, folder / f"hold-{end}")
            save(board(look, "letting_down", "pot", let_down=True), size, folder / f"down-{end}")
            save(board(look, "open", "blank", let_down=False), size, folder / f"blank-{end}")
            save(
                board(look, "closed", "mix", let_down=False, alarm=True),
                size,
                folder / f"mix-{end}",
            )
            save(faces(look), size, folder / f"faces-{end}")
            save(pieces(look), size, folder / f"pieces-{end}")
            save(bench(look), size, folder / f"bench-{end}")


if __name__ == "__main__":
    main(Path(sys.argv[1] if len(sys.argv) > 1 else "gallery"))
