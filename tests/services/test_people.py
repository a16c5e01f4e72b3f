"""Who was at the bench when something was said."""

from shopassist.core.rows import Draft
from shopassist.services.people import LONGEST, People
from tests.fakes import HandClock, MemoryJournal


def test_a_name_counts_from_when_it_was_typed() -> None:
    clock = HandClock()
    journal = MemoryJournal(clock)
    people = People(journal, clock)
    told: list[None] = []
    people.changed.connect(told.append)
    people.start()
    assert (people.who, people.at(clock.utc)) == ("", "")
    clock.advance(10)
    people.here("  the turner ")
    people.here("the turner")
    first = clock.utc
    clock.advance(60)
    people.here("x" * 99)
    assert people.at(first) == "the turner"
    assert people.at(first - 1) == ""
    assert people.who == "x" * LONGEST
    assert len(told) == 2


def test_whoever_opens_the_program_has_not_said_who_they_are() -> None:
    clock = HandClock()
    journal = MemoryJournal(clock)
    People(journal, clock).here("the turner")
    journal.append([Draft("people", "foreign", {})])
    when = clock.utc
    clock.advance(60)
    again = People(journal, clock)
    assert again.who == "the turner"
    again.start()
    assert again.who == ""
    assert again.at(when) == "the turner"
