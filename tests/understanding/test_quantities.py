"""Numbers with units as said: ranges, hedges, ambiguous units, words that are units only beside a figure."""

from collections.abc import Callable

import pytest

from saycheck.understanding.quantities import Quantities, Quantity
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Units

Cut = Callable[[str], list[str]]
Only = Callable[[str], Quantity]


@pytest.fixture(scope="module")
def quantities() -> Quantities:
    """The finder over the shipped units."""
    return Quantities([u for table in shared_tables("units.toml", Units) for u in table.unit])


@pytest.fixture(scope="module")
def only(quantities: Quantities, cut: Cut) -> Only:
    """Finds the one quantity of a text."""

    def find(text: str) -> Quantity:
        found = quantities.find(cut(text))
        assert 1 == len(found), found
        return found[0][2]

    return find


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("four eight p s i", 48, "psi"),
        ("forty-eight psi", 48, "psi"),
        ("48psi", 48, "psi"),
        ("one twenty psi", 120, "psi"),
        ("three-fifty kPa", 350, "kPa"),
        ("eight fifty revs", 850, "rpm"),
        ("three point two bar", 3.2, "bar"),
        ("six hundred kilopascals", 600, "kPa"),
        ("eighteen millimetres", 18, "mm"),
        ("eighteen millimeters", 18, "mm"),
        ("two and a half inches", 2.5, "in"),
        ("three sixteenths of an inch", 3 / 16, "in"),
        ("half an inch", 0.5, "in"),
        ("point eight of a millimetre", 0.8, "mm"),
        ("0.4 of an inch", 0.4, "in"),
        ("an inch", 1, "in"),
        ("inch and a quarter", 1.25, "in"),
        ("an inch and a half", 1.5, "in"),
        ("an inch and an eighth", 1.125, "in"),
        ("a minute and a half", 1.5, "min"),
        ("turn and a half", 1.5, "turn"),
        ("half a minute", 0.5, "min"),
        ("two inches and a quarter", 2.25, "in"),
        ("eleven four eight two hours", 11482, "h"),
        ("11 482 hours", 11482, "h"),  # a space between thousands
        ("4 8 psi", 48, "psi"),  # digits one by one, in figures
        ("plus or minus two mil", 2, "mm"),  # a tolerance has no sign
        ("fifty odd psi", 50, "psi"),
        ("fifty-ish psi", 50, "psi"),
        ("half a dozen bolts", 6, None),
        ("twelve six volts", 12.6, "V"),  # as a battery's voltage is read
        ("three and a bit mil", 3, "mm"),
        ("5/8 in", 0.625, "in"),
        ("forty thou", 40, "thou"),
        ("twelve point six volts", 12.6, "V"),
        ("12.6 V", 12.6, "V"),
        ("seventy percent", 70, "percent"),
        ("minus thirty five degrees celsius", -35, "degC"),
        ("a hundred and eighty fahrenheit", 180, "degF"),
        ("nine thousand one hundred hours", 9100, "h"),
        ("thirty five below", -35, "degC"),
        ("-35 °C", -35, "degC"),
        ("80%", 80, "percent"),
        ("twenty-two hundred rpm", 2200, "rpm"),
        ("two thousand and twelve hours", 2012, "h"),
        ("a quarter of a turn", 0.25, "turn"),
        ("a couple of thou", 2, "thou"),
        ("six litres", 6, "L"),
        ("a gallon", 1, "gal"),
        ("low, inch under the neck", 1, "in"),
        ("twenty eight milliamps", 28, "mA"),
        ("two quarts", 2, "quart"),
        ("half a turn", 0.5, "turn"),
        ("three threads", 3, "thread"),
        ("two fingers", 2, "finger"),
        ("two hundred newton metres", 200, "N m"),
        ("ninety foot pounds", 90, "lbf ft"),
        ("eight hundred rpm", 800, "rpm"),
        ("four thirty seconds of an inch", 4 / 32, "in"),
    ],
)
def test_value_and_unit(only: Only, text: str, value: float, unit: str | None) -> None:
    """A number and its unit, in the manners in which people say them."""
    quantity = only(text)
    assert pytest.approx(value) == quantity.value
    assert unit == quantity.unit


@pytest.mark.parametrize(
    ("text", "also"),
    [
        ("three mil", ("thou",)),  # a millimetre, or a thousandth of an inch
        ("twenty degrees", ("degF", "angle")),
        ("three millimetres", ()),
        ("three thou", ()),
    ],
)
def test_ambiguous_units(only: Only, text: str, also: tuple[str, ...]) -> None:
    """A unit that may mean two things keeps both, so that it can be asked."""
    assert also == only(text).also


@pytest.mark.parametrize(
    ("text", "value", "plus_minus"),
    [
        ("between three and four mil", 3.5, 0.5),
        ("three to four mil", 3.5, 0.5),
        ("three or four mil", 3.5, 0.5),
        ("forty to fifty psi", 45, 5),
        ("10-12 mm", 11, 1),
        ("ten to twelve thousand hours", 11000, 1000),  # the scale belongs to both ends
        ("three mil to four mil", 3.5, 0.5),
        ("a quarter inch to a half inch", 0.375, 0.125),
        ("3 – 4 mm", 3.5, 0.5),
    ],
)
def test_ranges(only: Only, text: str, value: float, plus_minus: float) -> None:
    """A range is its middle, open by half its width on either side."""
    quantity = only(text)
    assert pytest.approx((value, plus_minus)) == (quantity.value, quantity.plus_minus)


@pytest.mark.parametrize(
    ("text", "plus_minus"),
    [
        ("twelve mil", 0.5),  # half the last place said
        ("12.6 volts", 0.05),
        ("twelve point six two volts", 0.005),
        ("three sixteenths of an inch", 1 / 32),
        ("half an inch", 1 / 8),
    ],
)
def test_plain_numbers_are_open_by_half_their_last_place(only: Only, text: str, plus_minus: float) -> None:
    """A number said plainly is as sure as its last place."""
    quantity = only(text)
    assert pytest.approx(plus_minus) == quantity.plus_minus
    assert not quantity.hedged


@pytest.mark.parametrize(
    "text",
    [
        "about forty psi",
        "around forty psi",
        "roughly forty psi",
        "somewhere around forty psi",
        "a hair over forty psi",
        "just under forty psi",
        "forty psi or so",
        "call it forty psi",
        "under forty psi",
        "i'd say forty psi",
        "near enough forty psi",
        "forty psi maybe",
    ],
)
def test_hedges(only: Only, text: str) -> None:
    """A hedge before or behind opens the number to a tenth of its value."""
    quantity = only(text)
    assert (40, "psi", 4.0, True) == (quantity.value, quantity.unit, quantity.plus_minus, quantity.hedged)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("bucket is good", []),
        ("a bolt", []),  # an article counts nothing
        ("one is loose", []),
        ("she's in the yard", []),
        ("round the back in a minute", []),
        ("wear a hard hat", []),
    ],
)
def test_no_quantity(quantities: Quantities, cut: Cut, text: str, expected: list[Quantity]) -> None:
    """Words that only look like a number or a unit are left alone."""
    assert expected == [q for _, _, q in quantities.find(cut(text))]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("fifty two in the front", (52, None)),  # "in" is no inch here
        ("three in left", (3, None)),
        ("3 in left", (3, "in")),  # but it is behind a figure
        ("left front forty eight", (48, None)),
        ("five a", (5, None)),
    ],
)
def test_small_words_are_units_behind_figures_only(
    only: Only, text: str, expected: tuple[float, str | None]
) -> None:
    """Ordinary words such as "in" and "a" are units only behind a number in figures."""
    quantity = only(text)
    assert expected == (quantity.value, quantity.unit)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("about forty psi left", (0, 3)),  # the hedge belongs to the stretch
        ("reads forty psi", (1, 3)),
        ("between three and four mil of play", (0, 5)),
        ("a bare quarter inch left", (0, 4)),
    ],
)
def test_stretch(quantities: Quantities, cut: Cut, text: str, expected: tuple[int, int]) -> None:
    """A quantity covers its number, its unit and what widens it."""
    ((start, end, _),) = quantities.find(cut(text))
    assert expected == (start, end)


def test_several_in_one_breath(quantities: Quantities, cut: Cut) -> None:
    """Numbers side by side stay apart where a mark stands between them."""
    found = quantities.find(cut("forty eight, fifty two and sixty psi"))
    assert [48, 52, 60] == [q.value for _, _, q in found]
