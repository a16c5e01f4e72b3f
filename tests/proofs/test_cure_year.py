"""A sample of the year of readings; ratios of times are for the command for proofs."""

import pytest

pytest.importorskip("numpy")
from tests.proofs import cure_year


def test_a_year_of_minutes_is_the_same_by_columns_and_one_by_one() -> None:
    _, failures = cure_year.year(17)
    assert failures == []
