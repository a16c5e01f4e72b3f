"""Every symptom of the guide by a batch that has the fact on record, and by one that has not."""

from pathlib import Path

import pytest

from shopassist.core.batch import Typed
from shopassist.core.pot.events import Answer, Press, row_of
from shopassist.core.pot.events import Typed as Reading
from shopassist.core.pot.words import Act, Item
from shopassist.core.quantities import Kilogram
from shopassist.core.rows import Draft, Json
from shopassist.core.symptoms import SYMPTOMS, Facts, Side, missing
from shopassist.services.loads import EARLY
from tests.shops import Shop

H = 3600.0
BAR = 1e5


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop(tmp_path)


def write(shop: Shop, batch: str, kind: str, **body: Json) -> None:
    shop.journal.append([Draft(f"batch/{batch}", kind, body)])


def events(shop: Shop, batch: str, *names: str) -> None:
    for name in names:
        write(shop, batch, "wood_event", event=name)


def word(shop: Shop, batch: str, name: str, text: str) -> None:
    shop.batches.enter(batch, name, Typed(text, None))


def number(shop: Shop, batch: str, name: str, value: float) -> None:
    shop.batches.enter(batch, name, Typed(str(value), value))


def side(shop: Shop, batch: str, symptom: str, cause: str) -> Side:
    return next(c.side for c in shop.hindsight.causes(batch, symptom) if c.key == cause)


def facts(shop: Shop, batch: str) -> Facts:
    return shop.hindsight.facts(batch)


def test_a_bare_batch_names_what_nobody_wrote_down(shop: Shop) -> None:
    """Nothing is for or against; each symptom names evidence that would help."""
    batch = shop.batches.open("Bare")
    assert facts(shop, batch) == Facts()
    for symptom in SYMPTOMS:
        causes = shop.hindsight.causes(batch, symptom)
        assert {each.side for each in causes} == {"missing"}
        assert missing(causes)


# -- the cup --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("grams", "over"), [(12.0, True), (8.0, False)])
def test_colour_is_held_against_its_cap(shop: Shop, grams: float, over: bool) -> None:
    """199.9 g of mix take 5 % where no colour states its own: 10.0 g."""
    batch = shop.mixed()
    assert facts(shop, batch).colour_over_cap is None
    number(shop, batch, "mix.colour_mass_1", grams / 1000)
    assert facts(shop, batch).colour_over_cap is over
    assert side(shop, batch, "soft everywhere", "colour") == ("for" if over else "against")


def test_a_colours_own_cap_counts_and_the_scale_goes_before_what_was_typed(shop: Shop) -> None:
    batch = shop.mixed()
    ink = shop.keep(shop.colours, name="Ink", cap="1 %", made_for="amine epoxy", kind="ink")
    word(shop, batch, "mix.colour_1", ink)
    number(shop, batch, "mix.colour_mass_1", 0.0015)
    assert facts(shop, batch).colour_over_cap is False
    shop.batches.weigh(batch, 1, "colour", Kilogram(0.003))
    assert facts(shop, batch).colour_over_cap is True


@pytest.mark.parametrize(("told", "scraped"), [("scraped", True), ("poured", False)])
def test_a_scraped_cup_explains_soft_spots(shop: Shop, told: str, scraped: bool) -> None:
    batch = shop.mixed()
    assert facts(shop, batch).scraped is None
    word(shop, batch, "mix.scraped", told)
    assert facts(shop, batch).scraped is scraped
    assert side(shop, batch, "soft in spots", "unmixed") == ("for" if scraped else "against")


# -- the wood -------------------------------------------------------------------------------------


def test_wood_is_dry_once_its_weighings_said_so(shop: Shop) -> None:
    batch = shop.mixed()
    assert facts(shop, batch).wood_dry is None
    write(shop, batch, "wood_weighed", mass=1.2204, when="wet")
    assert facts(shop, batch).wood_dry is False
    for symptom in ("soft in spots", "bubbles at the wood", "cloudiness", "under-cured middle"):
        assert side(shop, batch, symptom, "wet") in ("for", "against")
    assert side(shop, batch, "cloudiness", "wet") == "for"
    events(shop, batch, "oven_on", "oven_off")
    assert facts(shop, batch).wood_dry is True
    assert side(shop, batch, "cloudiness", "wet") == "against"


@pytest.mark.parametrize(("grams", "low"), [(104.0, True), (135.0, False)])
def test_a_low_uptake_explains_white_spots(shop: Shop, grams: float, low: bool) -> None:
    """Elm of 67.3 g: half of its ceiling are about 31 g."""
    batch = shop.mixed()
    for name, text, value in (("pieces", "4", 4.0), ("diameter", "30 mm", 0.03),
                              ("length", "45 mm", 0.045)):  # fmt: skip
        shop.batches.enter(batch, f"stabilise.{name}", Typed(text, value))
    assert facts(shop, batch).low_uptake is None
    write(shop, batch, "wood_weighed", mass=0.0673, when="oven")
    write(shop, batch, "wood_weighed", mass=grams / 1000, when="baked")
    assert facts(shop, batch).low_uptake is low
    assert side(shop, batch, "white spots in a bore", "dry") == ("for" if low else "against")


def test_a_bath_that_treated_other_sets_may_cloud_this_one(shop: Shop) -> None:
    first, second = shop.batches.open("First"), ""
    shop.clock.advance(H)
    second = shop.batches.open("Second")
    assert facts(shop, second).bath_shared is None
    for batch in (first, second):
        word(shop, batch, "stabilise.bath", "Tin 4")
    assert facts(shop, first).bath_shared is False
    assert facts(shop, second).bath_shared is True
    assert side(shop, second, "cloudiness", "bath") == "for"
    assert side(shop, first, "cloudiness", "bath") == "against"


# -- mould and pot ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("hours", "early"), [(2.0, True), (400.0, False)])
def test_a_mould_left_too_early_explains_cracks(shop: Shop, hours: float, early: bool) -> None:
    batch = shop.mixed(celsius=23.0)
    assert facts(shop, batch).age_at_demould is None
    shop.clock.suspend(hours * H)
    shop.warm(batch, 23.0)
    write(shop, batch, "stage_started", stage="rest")
    share = facts(shop, batch).age_at_demould
    assert share is not None
    assert (share < 1.0) is early
    assert side(shop, batch, "cracks", "early") == ("for" if early else "against")


def pot(shop: Shop) -> str:
    plate = shop.plate()
    for event in (Answer(Item.LID_OFF_NOW, "inside_seen"), Answer(Item.AFTERCARE, "cleaned")):
        shop.pots.act(plate, event)
    return plate


def pressed(shop: Shop, last: float | None, minutes: float = 40.0) -> str:
    """A batch at 2.76 bar whose pot was read at 21 °C, and again some time later."""
    plate, batch = pot(shop), shop.mixed(celsius=21.0)
    stream = f"pot/{plate}"

    def row(event: Answer | Press | Reading) -> None:
        kind, body = row_of(event)
        shop.journal.append([Draft(stream, kind, body)])

    row(Press(Act.AIR_ON))
    shop.batches.load(batch, plate)
    row(Reading(Item.AT_PRESSURE, 2.76 * BAR, "2.76", "bar"))
    shop.clock.advance(15 * 60)
    row(Reading(Item.LEAK_START, 2.76 * BAR, "2.76", "bar", 294.15))
    shop.clock.advance(minutes * 60)
    if last is not None:
        row(Reading(Item.LEAK_END, last * BAR, f"{last}", "bar", 294.15))
    return batch


@pytest.mark.parametrize(("last", "leaked"), [(2.2, True), (2.75, False)])
def test_a_pot_that_lost_air_explains_bubbles(tmp_path: Path, last: float, leaked: bool) -> None:
    """The allowance is 1 psi in ten minutes: 0.28 bar in forty."""
    shop = Shop(tmp_path)
    batch = pressed(shop, last)
    shop = shop.reopened()
    assert facts(shop, batch).pot_leaked is leaked
    assert side(shop, batch, "bubbles everywhere", "leak") == ("for" if leaked else "against")


@pytest.mark.parametrize(("last", "minutes"), [(None, 40.0), (2.6, 5.0)])
def test_too_few_or_too_quick_readings_tell_no_leak(
    tmp_path: Path, last: float | None, minutes: float
) -> None:
    shop = Shop(tmp_path)
    batch = pressed(shop, last, minutes)
    assert facts(shop.reopened(), batch).pot_leaked is None


def test_the_run_of_another_day_tells_nothing_of_this_batch(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    first = pressed(shop, 2.2)
    stream = next(iter(shop.plates.all())).id
    kind, body = row_of(Answer(Item.LID_OFF, "inside_seen"))
    shop.journal.append([Draft(f"pot/{stream}", kind, body)])
    shop.clock.advance(H)
    later = shop.mixed(celsius=21.0)
    shop.batches.load(later, stream)
    shop = shop.reopened()
    assert facts(shop, first).pot_leaked is True
    assert facts(shop, later).pot_leaked is None


def test_a_pot_that_is_not_on_record_tells_no_leak(shop: Shop) -> None:
    batch = shop.mixed()
    shop.batches.load(batch, "borrowed")
    assert facts(shop, batch).pot_leaked is None


@pytest.mark.parametrize(("hours", "early"), [(2.0, True), (400.0, False)])
def test_a_pot_opened_before_the_end_of_its_hold(shop: Shop, hours: float, early: bool) -> None:
    batch = shop.mixed(celsius=23.0)
    assert facts(shop, batch).vented_early is None
    shop.batches.load(batch, "big-pot")
    assert facts(shop, batch).vented_early is None
    shop.clock.suspend(hours * H)
    shop.warm(batch, 23.0)
    shop.batches.load(batch, "")
    assert facts(shop, batch).vented_early is early
    assert side(shop, batch, "bubbles everywhere", "vented") == ("for" if early else "against")


def test_what_was_told_at_the_vent_outlasts_what_is_known_later(shop: Shop) -> None:
    batch = shop.mixed(celsius=23.0)
    shop.batches.load(batch, "big-pot")
    shop.batches.note(batch, EARLY)
    assert facts(shop, batch).vented_early is True


# -- the lathe --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("told", "pecked"), [("pecks", True), ("long", False)])
def test_long_steps_of_the_drill_explain_a_chip(shop: Shop, told: str, pecked: bool) -> None:
    batch = shop.mixed()
    assert facts(shop, batch).pecked is None
    word(shop, batch, "turn.drilled", told)
    assert facts(shop, batch).pecked is pecked
    assert side(shop, batch, "chip-out", "pecks") == ("against" if pecked else "for")


@pytest.mark.parametrize(
    ("turns", "faults", "fast"),
    [(2900.0, "", True), (2500.0, "", False), (2900.0, "none", False), (2900.0, "voids", True)],
)  # fmt: skip
def test_the_lathes_typed_speed_is_held_against_its_band(
    shop: Shop, turns: float, faults: str, fast: bool
) -> None:
    """60 mm: up to 2540 a minute with a joint or voids, 3810 for sound work."""
    batch = shop.mixed()
    number(shop, batch, "turn.knob", turns / 60)
    assert facts(shop, batch).fast is None
    number(shop, batch, "blank.mould_diameter", 0.060)
    if faults:
        word(shop, batch, "turn.faults", faults)
    assert facts(shop, batch).fast is fast
    assert side(shop, batch, "gumming", "friction") == ("for" if fast else "against")


# -- case R02 ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("hard", [True, False])
def test_soft_after_three_days_by_the_batchs_own_rows(shop: Shop, hard: bool) -> None:
    """Case R02: weights, temperatures and the witness cup tell three rivals apart.

    Masses within tolerance speak against a slip, the age against the cold; then a hard witness
    beside a soft joint points to the timber, a soft one to the mix.
    """
    batch = shop.mixed(celsius=23.0)
    shop.clock.suspend(30 * 24 * H)
    shop.warm(batch, 23.0)
    shop.batches.see(batch, "gelled")
    if hard:
        shop.batches.see(batch, "nail-hard")
    write(shop, batch, "wood_weighed", mass=0.0673, when="wet")
    everywhere = {c.key: c for c in shop.hindsight.causes(batch, "soft everywhere")}
    assert everywhere["cold"].side == everywhere["young"].side == "against"
    assert everywhere["colour"].side == "missing"
    ratio = {each.text.template: each.side for each in everywhere["off ratio"].evidence}
    assert ratio["The weights lie within the sheet's tolerance."] == "against"
    spots = shop.hindsight.causes(batch, "soft in spots")
    timber = next(c for c in spots if c.key == "wood")
    assert timber.side == ("for" if hard else "against")
    soft = "The witness cup is soft too."
    assert (ratio.get(soft) == "for") is not hard
