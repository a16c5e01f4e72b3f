"""The list on paper: the same questions, answers, plate and revision as on the screen."""

from shopassist.core.messages import Text
from shopassist.core.pot.asks import LABELS, QUESTIONS
from shopassist.core.pot.paper import GAUGE_LOST, HOLD, Paper, paper
from shopassist.core.pot.plate import Holes, Plate
from shopassist.core.pot.standing import STANDING_WORDS
from shopassist.core.pot.steps import CLOSE, FILL, LET_DOWN, PROVE, READY
from shopassist.core.pot.words import Item
from shopassist.core.quantities import PascalAbsolute
from shopassist.core.wording import Wording
from tests.core.pot.bench import plate

SEA = PascalAbsolute(101325.0)
WORDS = Wording()


def sheet(**changes: object) -> Paper:
    return paper(plate(**changes), 3, SEA)


def questions(made: Paper) -> list[str]:
    found = []
    for part in made.parts:
        for line in part.lines:
            inner = dict(line.question.params).get("a")
            found.append(inner.template if isinstance(inner, Text) else line.question.template)
    return found


def test_every_item_of_the_straight_path_is_asked() -> None:
    asked = questions(sheet())
    for steps in (READY, CLOSE, FILL, LET_DOWN, PROVE):
        for step in steps:
            if step.item not in (*GAUGE_LOST, Item.SIGN, Item.HOLE):
                assert QUESTIONS[step.item] in asked, step.item
    for item in (Item.AIR_ON, Item.SLACKEN, Item.ROCK, Item.LID_OFF, Item.AFTERCARE, *HOLD):
        assert QUESTIONS[item] in asked


def test_letting_down_begins_overleaf() -> None:
    sides = [part.overleaf for part in sheet().parts]
    assert sides == [False] * 4 + [True] * 3
    (first, *_) = [part for part in sheet().parts if part.overleaf]
    assert first.heading.startswith("Let down")


def test_items_are_numbered_through() -> None:
    numbers = [line.number for part in sheet().parts for line in part.lines]
    assert numbers == list(range(1, len(numbers) + 1))


def test_each_hole_and_each_sign_of_this_pot_has_its_own_line() -> None:
    made = sheet(holes=Holes(gauge="north", vent="north", relief="south", inlet="west"))
    holes = [
        line for part in made.parts for line in part.lines if "hole" in dict(line.question.params)
    ]
    assert [dict(line.question.params)["hole"] for line in holes] == ["north", "south", "west"]
    lines = [line for part in made.parts for line in part.lines]
    acts = [WORDS.say(line.question) for line in lines if "air moving" in WORDS.say(line.question)]
    assert [act.partition(".")[0] for act in acts] == [
        "See the hose apart, then open the inlet valve",
        "Cover eyes and ears, lift the relief ring and hold it",
    ], "the vent shares the gauge's hole"


def test_the_times_that_the_program_counts_are_on_the_sheet() -> None:
    said = [WORDS.say(line.question) for part in sheet().parts for line in part.lines]
    for told in (
        "2 min at least, and as long as the vent took (10 min if not known); 30 min where the",
        "A second sign always, a third where it is owed.",
        "Slacken as if it were still pressurised. Within 10 min of the signs.",
        "Within 5 min of rocking.",
    ):
        assert len([line for line in said if told in line]) == 1, told


def test_answers_stand_in_the_order_of_the_screen_and_give_nothing_away() -> None:
    ring = next(
        line for part in sheet().parts for line in part.lines
        if line.question.template == QUESTIONS[Item.RING]
    )  # fmt: skip
    shown = [answer.template for answer in ring.answers]
    assert shown == [*(label for label, _ in LABELS[Item.RING].values()), "Can't tell"]


def test_values_have_a_place_to_be_written() -> None:
    written = {line.quantity for part in sheet().parts for line in part.lines}
    assert {"PascalGauge", "Count", ""} <= written
    assert [line.warmth for part in sheet().parts for line in part.lines].count(True) == len(HOLD)


def test_the_revision_follows_the_words_and_the_plate_its_version() -> None:
    made = sheet()
    assert made.revision == sheet().revision
    assert made.version == 3
    other = sheet(holes=Holes(gauge="a", vent="b", relief="c", inlet="d"))
    assert made.revision != other.revision


def test_standing_words_and_odd_things_are_on_it() -> None:
    made = sheet()
    assert made.standing[: len(STANDING_WORDS)] == STANDING_WORDS
    assert "cannot be entered afterwards" in made.standing[-1]
    assert [name for name, _ in made.odd] == [
        "Over the rating", "Relief valve lifts", "No hiss", "Gauge failed", "Signs disagree",
        "Supply lost", "Too hot", "Lid stuck", "Lost track", "Time ran out", "In doubt",
    ]  # fmt: skip
    assert all(lines for _, lines in made.odd)


def test_nothing_is_left_open_in_a_question() -> None:
    said = [WORDS.say(line.question) for part in sheet().parts for line in part.lines]
    assert not [line for line in said if "{" in line]
    for told in ("about 0.70 bar.", "to the hold pressure.", "about half."):
        assert [line for line in said if told in line], told


def test_an_inlet_opened_as_a_sign_is_told_on_the_screen_only() -> None:
    (inlet,) = [
        line for part in sheet().parts for line in part.lines
        if line.question.template == QUESTIONS[Item.INLET_NOW]
    ]  # fmt: skip
    assert [answer.template for answer in inlet.answers] == ["Open", "Shut", "Can't tell"]


def test_the_cards_of_the_sheet_follow_the_run() -> None:
    assert [(part.heading, len(part.lines)) for part in sheet().parts] == [
        ("Ready: lid off, before mixing", 12), ("Close", 3), ("Air on", 5), ("Hold", 2),
        ("Let down: isolate, vent, zero", 10), ("Prove", 8), ("Crack and open", 4),
    ]  # fmt: skip


def test_what_is_asked_only_where_something_went_wrong_stands_among_the_odd_things() -> None:
    asked = questions(sheet())
    for item in (Item.SILENCE, Item.SILENCE_AGAIN, Item.OPENING, Item.VENT_READING):
        assert QUESTIONS[item] not in asked


def test_a_bare_plate_still_gives_a_list() -> None:
    made = paper(Plate("Bare", clamps=4), 1, SEA)
    assert [fact.template for fact in made.plate] == ["{count} clamps, {passes} passes"]
    assert made.parts
