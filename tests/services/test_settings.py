"""Settings: defaults, what cannot be used, what is kept."""

from collections.abc import Mapping

import pytest

from shopassist.core.errors import EntryError
from shopassist.core.messages import Text, say
from shopassist.core.rows import Json
from shopassist.services.settings import Settings, SettingsService


class Memory:
    def __init__(self, kept: dict[str, Json] | None = None) -> None:
        self.kept: dict[str, Json] = kept or {}
        self.problems: tuple[Text, ...] = ()

    def load(self) -> dict[str, Json]:
        return dict(self.kept)

    def save(self, values: Mapping[str, Json]) -> None:
        self.kept = dict(values)


def test_without_a_file_the_defaults_hold() -> None:
    service = SettingsService(Memory())
    assert (service.now, service.problems) == (Settings(), ())


def test_a_change_is_kept_then_told() -> None:
    keeper = Memory()
    service = SettingsService(keeper)
    told: list[str] = []
    service.changed.connect(lambda now: told.append(f"{now.units} {keeper.kept['units']}"))
    service.change(units="us", elevation=650)
    assert told == ["us us"]
    assert SettingsService(keeper).now == Settings(units="us", elevation=service.now.elevation)
    assert float(service.now.elevation) == 650


def test_unknown_names_are_kept_and_written_back() -> None:
    keeper = Memory({"later": [1, 2]})
    SettingsService(keeper).change(theme="dark")
    assert keeper.kept["later"] == [1, 2]


@pytest.mark.parametrize(
    ("name", "value"),
    [("units", "furlongs"), ("units", 3), ("decimal", ""), ("theme", None), ("elevation", "high"),
     ("elevation", True), ("elevation", 1e9), ("walk", float("nan")), ("size", 0), ("sound", 1),
     ("date_order", "week")],
)  # fmt: skip
def test_a_value_that_cannot_be_used_falls_back_is_told_and_stays_in_the_file(
    name: str, value: Json
) -> None:
    keeper = Memory({name: value})
    service = SettingsService(keeper)
    assert service.now == Settings()
    assert [dict(text.params)["name"] for text in service.problems] == [name]
    other: dict[str, Json] = {"sound": False} if name != "sound" else {"theme": "dark"}
    service.change(**other)
    assert keeper.kept[name] is value


def test_a_refused_value_is_replaced_by_the_users_next_choice() -> None:
    keeper = Memory({"theme": "neon"})
    service = SettingsService(keeper)
    service.change(theme="dark")
    service.change(sound=False)
    assert keeper.kept["theme"] == "dark"


def test_a_wrong_change_is_refused_beside_its_field_and_moves_nothing() -> None:
    keeper = Memory()
    service = SettingsService(keeper)
    with pytest.raises(EntryError) as caught:
        service.change(walk=-1)
    assert caught.value.field == "settings.walk"
    assert (service.now, keeper.kept) == (Settings(), {})


def test_what_the_keeper_could_not_read_is_told() -> None:
    keeper = Memory()
    keeper.problems = (say("{file} cannot be read.", file="settings.json"),)
    assert SettingsService(keeper).problems == keeper.problems
