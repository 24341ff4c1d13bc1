"""The walk card: one page, everything on it, black and white, large enough for arm's length."""

from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from saycheck.errors import WriteUpError
from saycheck.reporting.card.make import SMALLEST, card_of, make_card
from saycheck.vocabulary.load import kinds, load

ARMS_LENGTH = 11.0
"""Points: at 65 cm an x-height of 0.43 em is 10 minutes of arc, twice what a sharp eye needs (ISO 8596: 5)."""


@pytest.mark.parametrize("kind", kinds())
def test_card_is_one_page_with_every_line(kind: str) -> None:
    """The card of each kind is one page of A4, names every zone and every part, in letters that can be read."""
    vocabulary = load(kind)

    pdf, size = make_card(vocabulary)

    (page,) = PdfReader(BytesIO(pdf)).pages
    words = "".join(page.extract_text().split())
    wanted = [zone.name for zone in vocabulary.zones] + [part.name for part in vocabulary.parts]
    assert [] == [name for name in wanted if "".join(name.split()) not in words.replace("-", "")
                  and "".join(name.split()) not in words
                  and "".join(name.replace("-", "").split()) not in words.replace("-", "")]  # fmt: skip
    assert size >= ARMS_LENGTH


@pytest.mark.parametrize("kind", ["wheel-loader", "road-truck"])
def test_card_has_no_colour(kind: str) -> None:
    """Every colour that the page sets is a grey: it prints in black and white."""
    pdf, _ = make_card(load(kind))
    (page,) = PdfReader(BytesIO(pdf)).pages
    content = page.get_contents()
    assert content is not None
    steps = content.get_data().decode("latin-1").split()

    assert [] == [
        steps[place - 3 : place]
        for place, step in enumerate(steps)
        if step in ("rg", "RG") and len(set(steps[place - 3 : place])) > 1
    ]


def test_zones_stand_in_walking_order() -> None:
    """Zones and parts stand as one meets them, the side only where both are looked at from one place."""
    card = card_of(load("wheel-loader"))

    assert ["front", "left side", "rear", "right side"] == [zone["name"] for zone in card["zones"][:4]]
    (tyre,) = [part for part in card["zones"][1]["parts"] if part["name"] == "front tyre"]
    assert {"name": "front tyre", "sides": "", "measures": "depth mm, pressure bar"} == tyre
    (light,) = [part for part in card["zones"][8]["parts"] if part["name"] == "headlight"]
    assert "left, right" == light["sides"]
    assert "bucket teeth" in card["zones"][0]["fitted"]


def test_unknown_paper_is_told() -> None:
    """A paper that typst does not know is told in one sentence."""
    with pytest.raises(WriteUpError) as told:
        make_card(load("generator-set"), "napkin")

    assert str(told.value).endswith("; look at --paper")


def test_too_long_a_list_is_told() -> None:
    """A list that does not fit is refused with the next step, not set in letters nobody can read."""
    with pytest.raises(WriteUpError) as told:
        make_card(load("road-truck"), "a6")

    assert (
        f"the list of a road truck does not fit on one page of a6 in letters of {SMALLEST:g} points; "
        "take a larger paper with --paper a3"
        == str(told.value).replace("road truck and trailer", "road truck")
    )


def test_card_is_never_written_over(tmp_path: Path) -> None:
    """A file that is there stays."""
    from typer.testing import CliRunner

    from saycheck.cli.app import app

    (tmp_path / "card.pdf").write_text("mine", encoding="utf-8")
    done = CliRunner().invoke(app, ["vocab", "card", "generator-set", "--out", str(tmp_path / "card.pdf")])

    assert (2, "mine") == (done.exit_code, (tmp_path / "card.pdf").read_text(encoding="utf-8"))
