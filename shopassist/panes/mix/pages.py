"""The pages beside the grams: what the services say about a mix, written for the reader."""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from shopassist.core.batch import Cup
from shopassist.core.entry import Entry
from shopassist.core.errors import RefusedError
from shopassist.core.figures import Figure
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kilogram, UtcSecond
from shopassist.core.sheets import ResinSheet
from shopassist.panes.mix import words
from shopassist.panes.mix.asks import AFTER, BEFORE, MEASURE_SHOWN, PAGES
from shopassist.panes.mix.desk import Desk, Stand
from shopassist.panes.mix.screen import ButtonShown, Card, PageShown
from shopassist.panes.mix.sources import MixSources
from shopassist.services.beside import Beside, Caution
from shopassist.services.entry_book import EntryBook
from shopassist.services.warmth import AS_MIXED
from shopassist.widgets.shown import FigureShown

if TYPE_CHECKING:
    from shopassist.core.stock import Part

PARTS: "tuple[Part, ...]" = ("a", "b")
ASK_LEFTOVER = say("How much is left in the cup? The rest tells when it is hard.")
LOOK_AT_LEVEL = say("Look at the level 15, 30 and 60 min after the pour; a fall goes under Blank.")
COUNTS = ("mix.cups_wanted", "mix.layers", "mix.pieces_possible")
MONEY = ("mix.cost", "mix.cost_each")
ON_SCALE = ("mix.least_batch", "mix.bottle_stop", "mix.regained")
"""Masses that are read off the scale."""
PLAIN = ("mix.stroke_pair", "mix.pumped", "mix.strokes_a", "mix.strokes_b")
"""Figures that are numbers and no shares."""


class MixPages:
    """Builds the page that is open, and what of it must be told beside the grams."""

    def __init__(self, sources: MixSources, book: EntryBook, desk: Desk) -> None:
        self._from, self._book, self._desk = sources, book, desk
        self._figures: dict[str, Figure] = {}
        self._places: int | None = None
        """As many places as the scale shows."""

    def figure(self, name: str) -> Figure | None:
        """A figure of the page that was shown last."""
        return self._figures.get(name)

    # -- the page --------------------------------------------------------------------------------

    def page(self, key: str, stand: Stand) -> PageShown | None:
        """The page of that name; None for the ratio itself."""
        build: dict[str, Callable[[Stand], PageShown]] = {
            "measure": self._measure, "cup": self._cup, "colour": self._colour,
            "stock": self._stock, "steps": self._steps,
        }  # fmt: skip
        return build[key](stand) if key in build else None

    def _shown(self, key: str, found: Beside, shown: frozenset[str]) -> PageShown:
        tell = self._from.wording.say
        problems = {name: tell(text) for name, text in found.problems.items()}
        asks = next(asks for name, _, asks in PAGES if name == key)
        answers = {
            ask.name: self._book.answer(ask.name, problems.get(ask.name, "")) for ask in asks
        }
        self._figures = {each.id: each for each in found.figures}
        return PageShown(
            key, shown, answers, {},
            tuple(self._written(each) for each in found.figures),
            tuple(each.id for each in found.figures), self.told(found.caution),
            tuple((tell(label), tell(text)) for label, text in found.rows),
            tuple(tell(note) for note in found.notes),
        )  # fmt: skip

    def told(self, caution: Caution | None) -> tuple[str, str]:
        """A caution in words; empty where there is none."""
        if caution is None:
            return "", ""
        return self._from.wording.say(caution[0]), self._from.wording.say(caution[1])

    def _written(self, figure: Figure) -> FigureShown:
        wording = self._from.wording
        label = wording.say(figure.label) if figure.label is not None else ""
        if figure.value is None:
            why = wording.say(figure.missing) if figure.missing is not None else ""
            return FigureShown(label, "–", "", "missing", note=why, explains=False, lead=False)
        number, unit = self._number(figure)
        if figure.low is None or figure.high is None:
            return FigureShown(label, number, unit, lead=False)
        low = wording.signed(figure.low * 100, 1)
        high = wording.signed(figure.high * 100, 1)
        return FigureShown(label, number, unit, note=f"{low} … {high} %", lead=False)

    def _number(self, figure: Figure) -> tuple[str, str]:
        wording, value = self._from.wording, figure.value or 0.0
        if figure.id in COUNTS or figure.id in MONEY:
            return wording.number(value, 0 if figure.id in COUNTS else 2), ""
        if figure.id in PLAIN:
            return wording.significant(value, 3), ""
        if figure.quantity == "Ratio":
            return wording.percent(value, 1, signed=figure.id != "mix.scale_band"), ""
        by_scale = figure.quantity == "Kilogram" and figure.id.startswith(ON_SCALE)
        return wording.split(value, figure.quantity, self._places if by_scale else None)

    # -- scale, cups, pumps ----------------------------------------------------------------------

    def _measure(self, stand: Stand) -> PageShown:
        from shopassist.services.label import label_doubt
        from shopassist.services.measure import measure

        found = measure(self._desk.facts(stand))
        self._places = words.step_places(self._from.wording, stand.plan)
        if found.caution is None and stand.sheet is not None:
            found = _with(found, label_doubt(stand.sheet))
        records = self._from.scales().all()
        offers = {
            "scale": (("", "by its step"), *((v.id, v.name) for v in records if not v.is_broken))
        }
        shown = MEASURE_SHOWN.get(self._book.text("how"), MEASURE_SHOWN[""]) | {"how"}
        return replace(self._shown("measure", found, shown), offers=offers)

    # -- the cup --------------------------------------------------------------------------------

    def _cup(self, stand: Stand) -> PageShown:
        from shopassist.services.cup_today import cup_beside, cup_today

        if stand.cup.contact is not None:
            return replace(self._shown("cup", self._leftover(), AFTER), cards=self._after_cards())
        facts, temp = self._desk.facts(stand), self._desk.temp(stand)
        found = cup_beside(facts, temp, self._desk.earlier(stand))
        today, act = cup_today(facts, self._desk.warm(stand)), None
        if today is not None and today.cups > 1 and stand.given.cups != today.cups:
            act = ButtonShown(f"Mix in {today.cups} cups")
        return replace(self._shown("cup", found, BEFORE), act=act, cards=self._before_cards())

    def _leftover(self) -> Beside:
        from shopassist.core.leftover import needs_watch

        mass = self._book.value("leftover")
        if mass is None:
            return Beside(notes=(ASK_LEFTOVER, LOOK_AT_LEVEL))
        if not needs_watch(Kilogram(mass)):
            return Beside(notes=(say("Little enough: leave it open until it is hard."),))
        if self._book.text("leftover_cold"):
            return Beside(notes=(say("Cold and hard: it may go into the bin."),))
        return Beside(caution=(
            say("{mass} left over may get hot.", mass=Amount(mass, "Kilogram")),
            say("The batch is not closed before it is cold and hard."),
        ))  # fmt: skip

    def _card(self, title: str, lines: tuple[Text, ...]) -> Card:
        return title, tuple(self._from.wording.say(line) for line in lines)

    def _before_cards(self) -> tuple[Card, ...]:
        from shopassist.core.leftover import CRYSTAL_CARD

        return (self._card("Part A is cloudy or gritty", CRYSTAL_CARD),)

    def _after_cards(self) -> tuple[Card, ...]:
        from shopassist.core.leftover import HOT_CUP_CARD, LEFTOVER_CARD

        return (
            self._card("The cup is hot", HOT_CUP_CARD),
            self._card("What is left over", LEFTOVER_CARD),
        )

    # -- colour --------------------------------------------------------------------------------

    def _colour(self, stand: Stand) -> PageShown:
        from shopassist.services.colouring import colouring

        found = colouring(self._desk.facts(stand), stand.added)
        records = self._from.colours().all()
        known = (("", "not on record"),
                 *((v.id, v.name) for v in records if not v.is_broken))  # fmt: skip
        offers = {f"colour_{n}": known for n in (1, 2, 3)}
        names = frozenset(ask for n in (1, 2, 3) for ask in (f"colour_{n}", f"colour_mass_{n}"))
        return replace(self._shown("colour", found, names), offers=offers)

    def as_mass(self, name: str, entry: Entry | None, stand: Stand) -> Entry | None:
        """A share of A and B together is worked out at once; what is kept are grams."""
        if entry is None or entry.quantity != "Ratio" or not name.startswith("colour_mass"):
            return entry
        from shopassist.services.colouring import mix_of

        mix = mix_of(self._desk.facts(stand))
        if mix is None:
            raise RefusedError("A share needs the grams of A and B first.", field=f"mix.{name}")
        mass, decimals = mix * entry.value, words.step_places(self._from.wording, stand.plan)
        shown = self._from.wording.amount(mass, "Kilogram", decimals)
        return replace(entry, value=mass, quantity="Kilogram", plain=shown)

    # -- stock --------------------------------------------------------------------------------

    def _stock(self, stand: Stand) -> PageShown:
        from shopassist.services.stock import stock_beside

        shelf = self._desk.shelf(stand)
        found = stock_beside(
            self._desk.facts(stand), shelf, self._desk.pieces(stand), self._desk.today()
        )
        return self._shown("stock", found, frozenset())

    # -- steps --------------------------------------------------------------------------------

    def _steps(self, stand: Stand) -> PageShown:
        from shopassist.services.steps import steps_beside

        found = self._desk.steps(stand)
        shown = frozenset(f"step_{n}" for n in range(1, 7))
        act, digits = None, ("", "")
        if found.from_ is not None:
            shown = frozenset()
        if found.now is not None and found.now.step is not None:
            act = ButtonShown(f"{found.now.step.name} – done")
            digits = (f"{found.now.step.name}; under pressure in", self.digits(stand))
        return replace(self._shown("steps", steps_beside(found), shown), act=act, digits=digits)

    def digits(self, stand: Stand) -> str:
        """Time left until pressurise-by, each second."""
        found = self._desk.steps(stand)
        return self._from.wording.digits(found.now.left) if found.now is not None else ""

    # -- what must be told beside the grams ------------------------------------------------------

    def cautions(self, stand: Stand) -> tuple[Caution, ...]:
        """The weightiest first; those that ask for nothing now are left on their pages."""
        weighs_up_to = stand.record.most if stand.record is not None else None
        bare = stand.sheet is None and not stand.added and weighs_up_to is None
        if stand.plan.missing is not None or bare:
            return ()
        facts, found = self._desk.facts(stand), list[Caution]()
        if weighs_up_to is not None:
            from shopassist.services.measure import too_heavy

            found += _some(too_heavy(facts))
        if stand.sheet is not None:
            from shopassist.services.cup_today import cup_today, not_for_today, too_much

            warm = self._desk.warm(stand)
            found += _some(too_much(cup_today(facts, warm)))
            found += _some(not_for_today(stand.sheet, warm))
            found += self._water(stand.sheet, stand)
        if stand.added:
            from shopassist.services.colouring import forbidden, over_cap, too_fine

            found += _some(forbidden(facts, stand.added)) + _some(over_cap(facts, stand.added))
            found += _some(too_fine(facts, stand.added))
        found += self._of_the_shelf(stand)
        return tuple(found)

    def _water(self, sheet: ResinSheet, stand: Stand) -> list[Caution]:
        """Damp air and wood that is not dry, before they meet a resin that cannot stand them."""
        from shopassist.services.damp import damp_air, humidity_at_pour

        humidity = self._book.value("humidity")
        if humidity is None and stand.batch is not None:
            humidity = humidity_at_pour(stand.batch)
        return _some(damp_air(sheet, humidity)) + _some(self.wet_wood(stand))

    def wet_wood(self, stand: Stand) -> Caution | None:
        """Why this resin is not poured round this wood."""
        if stand.sheet is None or stand.batch is None:
            return None
        from shopassist.services.damp import FOAMS, damp_wood

        if stand.sheet.family != FOAMS:
            return None
        return damp_wood(stand.sheet, stand.batch.entries, self._from.wood(stand.batch.id))

    def _of_the_shelf(self, stand: Stand) -> list[Caution]:
        shelf = self._desk.shelf(stand)
        if shelf is None or stand.sheet is None:
            return []
        from shopassist.services.label import label_doubt
        from shopassist.services.stock import prompts, short, supplies

        facts = self._desk.facts(stand)
        told = _some(short(facts, shelf, self._desk.pieces(stand))) if shelf.lots else []
        told += _some(label_doubt(stand.sheet))
        for text in prompts(stand.sheet, shelf, supplies(facts, shelf), self._desk.today()):
            told.append((text, say("See Stock.")))
        return told

    def worst(self, stand: Stand) -> float | None:
        """What the scale may be off by in this cup."""
        from shopassist.services.measure import measure

        found = measure(self._desk.facts(stand))
        return next((each.value for each in found.figures if each.id == "mix.scale_band"), None)

    def cups_wanted(self, stand: Stand) -> int:
        """Cups that the whole amount wants today."""
        from shopassist.services.cup_today import cup_today

        found = cup_today(self._desk.facts(stand), self._desk.warm(stand))
        return found.cups if found is not None else 1

    def most_in_cup(self, stand: Stand) -> Kilogram | None:
        """As much as one cup takes today, where the sheet says it and a cup is off its ratio."""
        if stand.sheet is None or stand.rescue is None:
            return None
        from shopassist.services.cup_today import limits_today

        return limits_today(stand.sheet, self._desk.warm(stand)).mass

    def next_cup(self) -> None:
        """What was on the scale for the cup before is another mass now."""
        for name in ("bottle", "cup_now"):
            self._book.committed(name, None)

    def not_above(self, stand: Stand, part: str, reading: float) -> str:
        """Why a reading is no running total, and what it would come to from a scale at zero."""
        told = "The running total must be above the last stop."
        return f"{told} {self._zeroed(stand, part, reading)}".strip()

    def looks_zeroed(self, stand: Stand, part: str, reading: float) -> str:
        """Whether what was taken for a running total is rather what was poured of the part."""
        step = next((each for each in stand.plan.steps if each.part == part), None)
        mass = stand.mass_at(part, Kilogram(reading))  # type: ignore[arg-type]
        if step is None or mass is None or abs(mass / step.amount - 1) <= ZEROED:
            return ""
        return self._zeroed(stand, part, reading)

    def _zeroed(self, stand: Stand, part: str, reading: float) -> str:
        step = next((each for each in stand.plan.steps if each.part == part), None)
        in_cup = sum(each.mass for name, each in stand.cup.weighed.items() if name != part)
        if step is None or not in_cup or abs(reading / step.amount - 1) > ZEROED:
            return ""
        places = words.step_places(self._from.wording, stand.plan)
        total = self._from.wording.amount(in_cup + reading, "Kilogram", places)
        return f"Was the scale zeroed in between? Then the running total is {total}."

    def take_warmth(self, stand: Stand, batch_id: str, happened: UtcSecond | None) -> None:
        """What was typed of the resin's warmth is a reading of its cure."""
        ahead = self._desk.as_mixed(stand)
        if ahead is not None:
            self._from.batches.add_temperature(batch_id, ahead.low, ahead.high, AS_MIXED, happened)

    def take_from_lots(self, stand: Stand) -> None:
        """Write down which lots this cup was taken from, where there are any."""
        shelf = self._desk.shelf(stand)
        if shelf is None or not shelf.lots:
            return
        from shopassist.services.stock import drawn

        poured = {part: self._poured(stand, stand.cup, part) for part in PARTS}
        lots = [(each.lot.id, each.lot.part, each.mass) for each in drawn(shelf, poured)]
        self._from.batches.draw(self._book.batch.id if self._book.batch else "", lots)

    def take_again(self, stand: Stand, part: "Part | Literal['colour']") -> None:
        """A weight was corrected after the cup was drawn: its lots give more, or have it back."""
        batch, shelf = stand.batch, self._desk.shelf(stand)
        if batch is None or shelf is None or stand.cup.contact is None or part == "colour":
            return
        from shopassist.services.stock import drawn_more

        mixed = sum(self._poured(stand, cup, part) for cup in batch.cups if cup.contact is not None)
        more = drawn_more(shelf, batch, part, Kilogram(mixed))
        self._from.batches.draw(batch.id, [(lot, part, mass) for lot, mass in more])

    @staticmethod
    def _poured(stand: Stand, cup: Cup, part: "Part") -> Kilogram:
        """What was weighed, or what was to be."""
        if part in cup.weighed:
            return cup.weighed[part].mass
        target = stand.plan.part_a if part == "a" else stand.plan.part_b
        return Kilogram(target.value or 0.0)

    def why(self, stand: Stand) -> str:
        """Why a typed reason is asked before hardener goes in; empty where none is."""
        if self.too_much(stand):
            return "This is too much for one cup today"
        return "Nothing shows this wood oven-dry" if self.wet_wood(stand) is not None else ""

    def too_much(self, stand: Stand) -> bool:
        """More than one cup takes today."""
        if stand.sheet is None or stand.plan.missing is not None:
            return False
        from shopassist.services.cup_today import cup_today

        found = cup_today(self._desk.facts(stand), self._desk.warm(stand))
        return found is not None and found.check is not None and found.check.over


ZEROED = 0.1
"""So near to what a part is to weigh, a reading may be that part alone; ours."""


def _some(caution: Caution | None) -> list[Caution]:
    return [caution] if caution is not None else []


def _with(found: Beside, caution: Caution | None) -> Beside:
    return replace(found, caution=caution) if caution is not None else found
