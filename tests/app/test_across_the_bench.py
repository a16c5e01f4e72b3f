"""What is laid over or beside the panes is drawn at once, not at the next minute."""

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from tests.app.driver import Person


def test_the_view_across_the_bench_shows_caption_digits_and_rule(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    shopkeeper.key(Qt.Key.Key_F11)
    assert window.benched
    assert window.bench.shown.caption.startswith("Hold the pressure until")
    assert window.bench.shown.rule is not None
    caption, look = window.bench.caption, window.bench.look
    words = look.font("across_caption").advance(caption.shown.caption)
    name = look.font("across_side").advance(caption.shown.side)
    assert words + look.mm(8) + name <= caption.width(), "the batch's name is cut"
    assert window.bench.digits.text.count(":") == 2
    assert window.next_line.look is window.bench.look


def test_escape_gives_the_keyboard_back_to_where_it_was(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    before = QApplication.focusWidget()
    shopkeeper.key(Qt.Key.Key_F11)
    shopkeeper.key(Qt.Key.Key_Escape)
    assert not window.benched
    assert QApplication.focusWidget() is before
    assert window.next_line.look is window.look
    shopkeeper.key(Qt.Key.Key_F11)
    shopkeeper.key(Qt.Key.Key_F11)
    assert not window.benched


def test_where_it_was_is_gone_and_the_pane_in_hand_takes_the_keyboard(
    shopkeeper: Person,
) -> None:
    window = shopkeeper.program.window
    answer = QPushButton("Answer", shopkeeper.program.panes["mix"])
    answer.show()
    for leave in (lambda: shopkeeper.sequence("F11"), lambda: window.show_pane("stabilise")):
        answer.setFocus()
        shopkeeper.key(Qt.Key.Key_F11)
        answer.hide()
        leave()
        assert not window.benched
        focused = QApplication.focusWidget()
        assert focused is not None
        assert focused.isVisible()
        window.show_pane("mix")
        answer.show()
    answer.setFocus()
    window.take_over(QWidget())
    answer.deleteLater()
    QCoreApplication.sendPostedEvents(answer, QEvent.Type.DeferredDelete)
    window.show_pane("mix")
    focused = QApplication.focusWidget()
    assert focused is not None
    assert shopkeeper.find(QWidget, "mix").isAncestorOf(focused)


def test_cards_of_panes_out_of_sight_show_their_lead_at_once(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    window.show_pane("blank")
    shown = {key: card for key, card in window.cards.items() if card.isVisible()}
    assert shown
    assert all(card.shown.value not in ("", "–") for card in shown.values())


def test_every_pane_of_the_invented_shop_has_life_in_it(shopkeeper: Person) -> None:
    parts = shopkeeper.program.presenters
    assert parts.mix.screen.stops
    assert parts.cure.digits()
    assert parts.blank.screen.wall.value == "3.7"
    assert parts.stabilise.screen.figures[0].value.startswith("71")
    assert parts.warmup.screen.picture.series
    assert parts.log.screen.count >= 2
