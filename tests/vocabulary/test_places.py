"""Where things stand in a TOML file."""

import pytest

from saycheck.vocabulary.places import Where, line_of, lines_of

TEXT = '''\
# a remark with [[zone]] in it
name = "loader"
sayings = [
    "payloader",  # ] not the end
    "[[zone]]",
]

[[zone]]
name = "front"

[[zone.part]]
name = "bucket"
measures = [
    { attribute = "thickness", unit = "mm" },
    { attribute = "gap", unit = "in", wear = "yes" },
]

[[zone.part]]
"name" = """
many
name = "no key"
"""

[[zone]]
name = "rear"

[[zone.part]]
name = "hitch"
'''


@pytest.mark.parametrize(
    ("where", "line"),
    [
        (("name",), 2),
        (("sayings",), 3),
        (("sayings", 1), 3),
        (("zone", 0), 8),
        (("zone", 0, "name"), 9),
        (("zone", 0, "part", 0), 11),
        (("zone", 0, "part", 0, "name"), 12),
        (("zone", 0, "part", 1), 18),
        (("zone", 0, "part", 1, "name"), 19),  # a quoted key
        (("zone", 1), 24),  # after a text over several lines that looks like keys
        (("zone", 1, "part", 0, "name"), 28),
        (("zone", 1, "part", 0, "checks"), 27),  # a key that is not there: its table
        (("zone", 7), 1),  # a table that is not there
        ((), 1),
    ],
)
def test_line_of(where: Where, line: int) -> None:
    """Every table and key is found on its line, counted from 1."""
    assert line == line_of(TEXT, where)


def test_inline_table() -> None:
    """A key inside an inline table is found on the line of the list that holds it."""
    assert 13 == line_of(TEXT, ("zone", 0, "part", 0, "measures", 1))


def test_key_of_inline_table_on_one_line() -> None:
    """A key in a table written in braces beside its name is found there."""
    text = 'x = 1\nmeasures = [{ attribute = "gap" }]\nunit = 3\n'

    assert 2 == line_of(text, ("measures", 0, "attribute"))


def test_values_are_no_keys() -> None:
    """What stands inside lists and long texts is not taken for a key."""
    assert not [where for where in lines_of(TEXT) if "no key" in where or "many" in where]
