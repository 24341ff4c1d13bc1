"""The figures shown in DEVELOPERS.md are read and reckoned with."""

from saycheck.models.walk import Evidence, Finding
from saycheck.reporting.writeup.costs import costs, figures

from .conftest import Document


def test_the_example_is_reckoned(developers: Document) -> None:
    """By hand: now 900 + 6 · (45 + 80) = 1,650 of the money named there."""
    (block,) = developers.blocks("Cost figures", "toml")
    leak = Finding(
        id="f1", zone="left side", part="steering cylinder", side="right", check="leaking", state="writeup",
        condition="leak", heard_as="", confidence=1, evidence=[Evidence(char_start=0, char_end=0)],
    )  # fmt: skip
    found = costs(figures(block.text, "costs.toml"), [leak], "costs.toml")
    assert "Doing it now costs 1,650 EUR" in found["f1"].sentences[0]
