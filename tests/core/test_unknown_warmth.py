from shopassist.core.batch_fold import fold_all
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading, Row

READING = Reading(UtcSecond(1000.0), Second(10.0), "boot", Second(0.0))


def test_an_unknown_stretch_is_kept_apart_from_what_was_read() -> None:
    row = Row(
        1, "batch/1", 1, "temperature_unknown", 1, READING, UtcSecond(900.0), {"since": 800.0}, ""
    )
    batch = fold_all("1", [row])
    assert batch.warmth == ()
    assert [(each.since, each.until) for each in batch.unknowns] == [(800.0, 900.0)]
