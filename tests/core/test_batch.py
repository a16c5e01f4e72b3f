from shopassist.core.batch import Batch
from shopassist.core.batch_fold import fold, fold_all
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Body, Reading, Row

READING = Reading(UtcSecond(1000.0), Second(10.0), "boot", Second(0.0))


def row(seq: int, kind: str, happened: float = 1000.0, **body: object) -> Row:
    content: Body = body  # type: ignore[assignment]
    return Row(seq, "batch/1", seq, kind, 1, READING, UtcSecond(happened), content, "")


def test_the_earliest_cup_leads_hazards_and_the_latest_releases() -> None:
    batch = fold_all(
        "1", [row(1, "hardener_in", 500.0, cup=2), row(2, "hardener_in", 400.0, cup=1)]
    )
    assert (batch.first_contact, batch.last_contact) == (400.0, 500.0)
    assert [cup.number for cup in batch.cups] == [1, 2]


def test_an_untouched_batch_has_no_contact() -> None:
    assert Batch("1").first_contact is None
    assert Batch("1").last_contact is None
    assert Batch("1").cup(3).weighed == {}


def test_undo_gives_back_what_stood_before() -> None:
    rows = [
        row(1, "entry", field="amount", text="200 g", value=0.2),
        row(2, "entry", field="amount", text="300 g", value=0.3),
        row(3, "entry", field="amount", text="200 g", value=0.2, undo=True),
    ]
    batch = fold_all("1", rows)
    assert batch.entries["amount"].text == "200 g"
    assert batch.entry_log == (("amount", None),)


def test_hardener_in_ends_undo() -> None:
    rows = [
        row(1, "entry", field="amount", text="200 g"),
        row(2, "hardener_in", cup=1, reason="heavy on B"),
    ]
    batch = fold_all("1", rows)
    assert batch.entry_log == ()
    assert batch.entries["amount"].value is None
    assert batch.reasons == ("heavy on B",)


def test_an_entry_taken_away_is_gone() -> None:
    rows = [row(1, "entry", field="waste", text="8 %"), row(2, "entry", field="waste", text=None)]
    assert fold_all("1", rows).entries == {}


def test_a_corrected_temperature_replaces_the_old_one() -> None:
    rows = [
        row(1, "temperature", 900.0, low=290.0, high=292.0, where="shop", since=800.0),
        row(2, "temperature", 700.0, low=280.0, high=280.0, where="resin"),
        row(3, "temperature", 950.0, low=293.0, high=293.0, where="shop", corrects=1),
    ]
    warmth = fold_all("1", rows).warmth
    assert [(each.at, each.middle, each.since) for each in warmth] == [
        (700.0, 280.0, None),
        (950.0, 293.0, None),
    ]


def test_a_second_weighing_stands_in_place_of_the_first() -> None:
    rows = [
        row(1, "weighed", cup=1, part="a", mass=0.1),
        row(2, "weighed", cup=1, part="a", mass=0.12),
    ]
    assert fold_all("1", rows).cup(1).weighed["a"].mass == 0.12


def test_every_other_fact_finds_its_place() -> None:
    rows = [
        row(1, "opened", 50.0, name="Knobs", again_of="0007"),
        row(2, "named", name="Knobs 2"),
        row(3, "sheet", record="slow", version=2, reason="new sheet"),
        row(4, "poured", 60.0),
        row(5, "seen", 70.0, mark="gelled"),
        row(6, "note", text="cold morning"),
        row(7, "next_time", text="warm the mould"),
        row(8, "outcome", 80.0, outcome="good"),
        row(9, "removed"),
        row(10, "something newer"),
    ]
    batch = fold_all("1", rows)
    assert (batch.name, batch.opened, batch.again_of, batch.sheet) == (
        "Knobs 2",
        50.0,
        "0007",
        ("slow", 2),
    )
    assert (batch.poured, batch.seen, batch.notes, batch.next_time) == (
        60.0,
        {"gelled": 70.0},
        ("cold morning",),
        "warm the mould",
    )
    assert (batch.outcome, batch.finished, batch.removed, batch.reasons) == (
        "good",
        80.0,
        True,
        ("new sheet",),
    )
    assert not fold(batch, row(11, "removed", removed=False)).removed
    assert fold(batch, row(12, "sheet", record="", version=0)).sheet is None


def test_a_body_of_the_wrong_shape_does_no_harm() -> None:
    batch = fold_all(
        "1", [row(1, "opened", name=7), row(2, "weighed", cup="one", part="a", mass="heavy")]
    )
    assert batch.name == ""
    assert batch.cup(0).weighed["a"].mass == 0.0


def test_a_pot_takes_a_batch_in_and_gives_it_back() -> None:
    rows = [row(1, "loaded", 600.0, pot="big"), row(2, "loaded", 900.0, pot="")]
    inside = fold_all("1", rows[:1])
    assert (inside.pot, inside.at_pressure) == ("big", 600.0)
    after = fold_all("1", rows)
    assert (after.pot, after.at_pressure) == ("", 600.0)


def test_a_weighing_taken_back_leaves_the_part_unweighed() -> None:
    rows = [
        row(1, "weighed", cup=1, part="a", mass=0.1),
        row(2, "weighed", cup=1, part="b", mass=0.05),
        row(3, "weighed", cup=1, part="b", mass=None),
    ]
    assert set(fold_all("1", rows).cup(1).weighed) == {"a"}


def test_what_a_cup_took_out_of_its_lots_is_kept_with_its_place() -> None:
    batch = fold_all("1", [row(1, "drawn", lots=[["l-1", "a", 0.1], ["l-2", "b", 0.03], ["bad"]]),
                           row(2, "drawn", lots=7)])  # fmt: skip
    assert [(each.lot, each.part, each.mass, each.seq) for each in batch.drawn] == [
        ("l-1", "a", 0.1, 1), ("l-2", "b", 0.03, 1),
    ]  # fmt: skip


def test_steps_are_kept_with_their_time() -> None:
    steps = fold_all("1", [row(1, "step_done", 60.0), row(2, "step_done", 90.0)]).steps
    assert [float(each) for each in steps] == [60.0, 90.0]
