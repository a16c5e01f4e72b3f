import pytest

from shopassist.core.explain import Explanation, explain, plain_number
from shopassist.core.figures import Figure, Origin
from shopassist.core.formula_text import constants_of, formula_text
from shopassist.core.messages import Amount, Moment, Text, say
from shopassist.core.mixing import hardener_for


def figure(**changes: object) -> Figure:
    fields: dict[str, object] = {
        "id": "mix.b",
        "value": 0.066,
        "quantity": "Kilogram",
        "formula": "mixing.hardener_for",
        "inputs": {
            "mass_a": Origin(0.150, "Kilogram", "measured", when=1.7e9),
            "ratio": Origin(0.44, "Ratio", "sheet", say("Trial sheet 2"), source="BOAT-RATIO"),
        },
        **changes,
    }
    return Figure(**fields)  # type: ignore[arg-type]


def rows(explanation: Explanation, heading: str) -> list[tuple[str, Text]]:
    for section in explanation.sections:
        if section.heading.template == heading:
            return [(label.template, text) for label, text in section.rows]
    return []


def test_a_number_is_explained_by_its_formula_in_words() -> None:
    found = explain(figure())
    assert found.formula == "B = A × B per A"
    assert found.equation == r"m_B = r\, m_A"
    assert found.title.template.startswith("Mass of B")
    assert found.value.params == (("value", Amount(0.066, "Kilogram")),)


def test_an_instant_to_wait_for_is_told_to_the_next_minute() -> None:
    """As the pane tells it: 09:22:30 is 09:23 in both, or one of them seems wrong."""
    found = explain(figure(quantity="UtcSecond", value=1.7e9, late=True))
    assert found.value.params == (("value", Moment(1.7e9, late=True)),)


def test_each_input_says_where_it_comes_from() -> None:
    put_in = rows(explain(figure()), "Numbers put in")
    assert [label for label, _ in put_in] == ["Mass of A in the cup", "Masses of B per mass of A"]
    weighed, ratio = (dict(text.params) for _, text in put_in)
    assert weighed["origin"] == "measured"
    assert weighed["when"] == Moment(1.7e9)
    assert ratio["note"] == say("Trial sheet 2")
    assert "100:44" in str(ratio["source"])


def test_a_figure_among_the_inputs_has_a_section_of_its_own() -> None:
    inner = figure(formula="mixing.weight_ratio", quantity="Ratio", value=0.44, inputs={})
    found = explain(figure(inputs={"ratio": inner}))
    headings = [section.heading for section in found.sections]
    nested = [each for each in headings if each.template == "How it was found: {what}"]
    assert len(nested) == 1
    deep = explain(figure(inputs={"ratio": figure(inputs={"ratio": inner})}))
    headings = [section.heading for section in deep.sections]
    assert len([each for each in headings if each.template.startswith("How it")]) == 2


def test_figures_in_figures_end_somewhere() -> None:
    endless = figure(inputs={})
    for _ in range(20):
        endless = figure(inputs={"ratio": endless})
    assert len(explain(endless).sections) < 12


def test_range_rounding_omissions_and_checks_are_told() -> None:
    found = explain(
        figure(
            low=0.065, high=0.067, range_means=say("Two in three"), rounding=say("Up"),
            omits=(say("The stirrer"),), label=say("Hardener"),
        ),
        ("CV-68", "CV-69"),
    )  # fmt: skip
    assert found.title == say("Hardener")
    assert [label for label, _ in rows(found, "Range")] == ["Lowest", "Highest", "It means"]
    assert rows(found, "Rounding") == [("", say("Up"))]
    omitted = rows(found, "Left out, and where it holds")
    assert omitted[0] == ("Left out", say("The stirrer"))
    assert omitted[1][0] == "It holds"
    assert rows(found, "Outside checks") == [("Passed", say("CV-68, CV-69"))]
    assert rows(found, "Sources")[0][0] == "as others restate it"


def test_constants_come_from_the_code_itself() -> None:
    found = explain(figure(formula="arrhenius.arrhenius_rate", inputs={}))
    ((label, text),) = rows(found, "Constants")
    assert label == "gas constant"
    assert text.template == "{value} J/(mol K)"
    assert constants_of(hardener_for) == ()
    assert constants_of(print) == ()


@pytest.mark.parametrize("path", ["nowhere.formula", "mixing.nothing", "mixing.PartMasses.x"])
def test_a_number_without_a_formula_is_still_shown(path: str) -> None:
    found = explain(figure(formula=path, inputs={"a thing": figure(formula=path, inputs={})}))
    assert found.formula == ""
    assert found.title == say("mix.b")
    assert rows(found, "Numbers put in")[0][0] == "a thing"
    assert rows(found, "Constants") == []


def test_what_is_missing_stands_where_the_number_would() -> None:
    assert explain(figure(value=None, missing=say("needs the ratio"))).value == say(
        "needs the ratio"
    )
    assert explain(figure(value=None)).value == say("not known")
    word = explain(figure(inputs={"basis": Origin("weight", "", "typed")}))
    assert dict(rows(word, "Numbers put in")[0][1].params)["value"] == say("weight")


def test_an_instant_is_written_as_a_clock_time() -> None:
    when = explain(figure(value=1.7e9, quantity="UtcSecond")).value
    assert when.params == (("value", Moment(1.7e9)),)
    plain = explain(figure(value=3.5, quantity="")).value
    assert plain.params == (("value", Amount(3.5, "Ratio", 1)),)


@pytest.mark.parametrize(
    ("value", "places"),
    [(0.0, 0), (10.0, 0), (8.314462618, 7), (0.0065, 4), (101325.0, 0), (5.25588, 5)],
)
def test_a_constant_shows_the_places_that_it_needs(value: float, places: int) -> None:
    assert plain_number(value) == Amount(value, "Ratio", places)


def test_a_docstring_is_taken_apart() -> None:
    text = formula_text(hardener_for.__doc__)
    assert text.sources == ("BOAT-RATIO",)
    assert text.parameter("mass_a") == "Mass of A in the cup"
    assert text.parameter("other_name") == "other name"
    assert text.notes.startswith("The whole of A")
    assert formula_text(None).summary == ""
    assert formula_text("Only a summary.").sources == ()
    assert formula_text("Only a summary.").parameter("a_b") == "a b"
