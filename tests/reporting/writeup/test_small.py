"""The parts of a write-up by themselves: order, limits, weather, plots, columns, costs, photographs."""

from collections.abc import Callable
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from saycheck.errors import WriteUpError
from saycheck.models.walk import Finding, Walk
from saycheck.reporting.writeup import pictures
from saycheck.reporting.writeup.columns import dealt
from saycheck.reporting.writeup.costs import costs, figures
from saycheck.reporting.writeup.entries import to_decide
from saycheck.reporting.writeup.given import Given, Point, Series
from saycheck.reporting.writeup.limits import readings
from saycheck.reporting.writeup.order import in_order, injures, urgency
from saycheck.reporting.writeup.trend import trend
from saycheck.reporting.writeup.weather import weather
from saycheck.vocabulary.load import load

from .conftest import finding, mm
from .pictures_made import jpeg
from .test_numbers import FIGURES


def made(part: str, condition: str, *sizes: dict[str, object], **other: object) -> Finding:
    """A finding written up on a part."""
    given = finding(
        "f1", "Radiator is blocked", part, "writeup", condition, measurements=list(sizes), **other
    )
    return Finding.model_validate(given)


@pytest.mark.parametrize(
    ("part", "condition", "soon", "hurts"),
    [
        ("service brake", "inoperative", "before work", True),
        ("steer tyre", "cut", "before work", True),  # graver than the general check "cut"
        ("radiator", "blocked", "this week", False),
        ("horn", "not works", "before work", True),  # a good word denied
    ],
)
def test_how_urgent(part: str, condition: str, soon: str, hurts: bool) -> None:
    """The gravest check that a part's condition answers decides."""
    vocabulary = load("road-truck")
    one = made(part, condition, check="condition")
    assert (soon, hurts) == (urgency(one, vocabulary), injures(one, vocabulary))


def test_a_part_that_nobody_knows_is_not_left_out() -> None:
    """It stands among what wants attention this week."""
    vocabulary = load("road-truck")
    found = in_order(
        [made("radiator", "blocked"), made("flux thing", "odd"), made("steer tyre", "cut")], vocabulary
    )
    assert ["steer tyre", "radiator", "flux thing"] == [one.part for one in found]


@pytest.mark.parametrize(
    ("condition", "size", "limit", "verdict"),
    [
        ("worn", mm(4.0, 0.05, ""), "at least 4.8 mm", "beyond the limit"),
        ("worn", mm(4.8, 0.0, ""), "at least 4.8 mm", "within the limit"),  # on the limit keeps it
        ("worn", mm(4.9, 0.5, ""), "at least 4.8 mm", "too close to call: measure again, finer"),
        ("worn", mm(4.0, 0.05, "") | {"other_units": ["thou"]}, "look it up in the maker’s manual", ""),
        ("crack", mm(4.0, 0.05, ""), "look it up in the maker’s manual", ""),  # the crack's length
        ("worn", mm(0.2, 0.0, "") | {"unit": "in"}, "at least 4.8 mm", "within the limit"),  # 5.08 mm
    ],
)
def test_a_measurement_against_its_limit(
    condition: str, size: dict[str, object], limit: str, verdict: str
) -> None:
    """49 CFR 393.47(d)(1) asks for 4.8 mm (3/16 in) on steering axles; what may be of something else is not judged."""
    (found,) = readings(made("steer brake lining", condition, size), load("road-truck"))
    assert (limit, verdict) == (found.limit, found.verdict)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Cold morning, minus two.", ["Cold morning, minus two."]),
        ("Raining, so wet proves little. Bucket good.", ["Raining, so wet proves little."]),
        ("If it is raining you want to dry it first.", []),  # teaching
        ("Last week it was snowing.", []),  # another day
        ("Bucket is good.", []),
        ("I'd get a plate on that this winter.", []),
    ],
)
def test_weather(make_walk: Callable[..., Walk], text: str, said: list[str]) -> None:
    """Sentences about the weather now are quoted, others are not."""
    assert said == weather(make_walk(text))


def test_weather_in_a_finding_is_said_of_the_part(make_walk: Callable[..., Walk]) -> None:
    """ "Frozen" on a lock tells nothing of the day."""
    text = "Lock is frozen."
    span = {"char_start": 0, "char_end": len(text), "disposition": "finding"}
    assert [] == weather(make_walk(text, transcript={"text": text, "words": [], "spans": [span]}))


def test_a_trend_is_well_formed_and_said_in_words() -> None:
    """The drawing is XML, has a dot for each measurement and a line for the limit, and the words give the ends."""
    plot = trend(Series([Point(100, 20, 0.5), Point(200, 18), Point(300, 17)], "mm", at_least=12))
    assert plot is not None
    drawn = ElementTree.fromstring(plot.svg)
    kinds = [one.tag.rsplit("}", 1)[1] for one in drawn]
    assert (3, 1, 4) == (kinds.count("circle"), kinds.count("polyline"), kinds.count("text"))
    assert "20 mm at 100 h, 17 mm at 300 h; 3 measurements." == plot.words
    heights = [float(one.attrib["cy"]) for one in drawn if one.tag.endswith("circle")]
    assert sorted(heights) == heights  # less stands lower


@pytest.mark.parametrize("points", [[], [Point(100, 20)]])
def test_one_point_is_no_trend(points: list[Point]) -> None:
    """Two measurements at least."""
    assert trend(Series(points, "mm")) is None


def test_a_trend_that_does_not_move() -> None:
    """The same value on the same hour divides by nothing."""
    assert trend(Series([Point(5, 1), Point(5, 1)], "mm")) is not None


@pytest.mark.parametrize(
    ("heights", "columns", "wanted"),
    [
        ([5, 5, 5], 3, [1, 1, 1]),
        ([9, 1, 1, 1, 9], 3, [1, 3, 1]),
        ([4, 4], 3, [2, 0, 0]),
        ([], 3, [0, 0, 0]),
    ],
)
def test_zones_are_dealt_out(heights: list[int], columns: int, wanted: list[int]) -> None:
    """In order, none cut, the tallest column as low as can be."""
    found = dealt(heights, columns)
    assert sum(wanted) == sum(found)

    def tallest(counts: list[int]) -> int:
        starts = [sum(counts[:place]) for place in range(len(counts))]
        return max((sum(heights[at : at + many]) for at, many in zip(starts, counts, strict=True)), default=0)

    assert tallest(found) <= tallest(wanted)


def test_costs_are_reckoned(given: Given) -> None:
    """The figures of the file go through the sum; done by hand: now 910 + 6 · 125 = 1,660."""
    found = [one for one in given.standing.walk.findings if one.state == "writeup"]
    cost = costs(figures(FIGURES, "costs.toml"), found, "costs.toml")["f1"]
    assert "Doing it now costs 1,660 EUR" in cost.sentences[0]
    assert "This reckons with money alone." in cost.sentences[1]
    assert cost.plot is not None
    assert "chance of failure" in cost.plot.words
    ElementTree.fromstring(cost.plot.svg)


@pytest.mark.parametrize(
    ("was", "now", "sentence"),
    [
        (
            'finding = "f1"',
            'part = "keel"',
            "'costs.toml' tells of 'keel', which is not written up; those are",
        ),
        (
            "chance = [0.05, 0.2]",
            "chance = 7",
            "'costs.toml', f1: a chance of failure of 7 is outside 0 to 1",
        ),
        ("[[job]]", "[[jobs]]", "'costs.toml' is not as it should be: "),
        ('money = "EUR"', "money = EUR", "'costs.toml' is not TOML ("),
    ],
)
def test_slips_in_the_figures_are_told(given: Given, was: str, now: str, sentence: str) -> None:
    """File, place and what is wrong in one sentence."""
    found = [one for one in given.standing.walk.findings if one.state == "writeup"]
    with pytest.raises(WriteUpError) as told:
        costs(figures(FIGURES.replace(was, now), "costs.toml"), found, "costs.toml")
    assert str(told.value).startswith(sentence)


def test_what_waiting_means_is_said_of_all_that_is_written_up(given: Given) -> None:
    """No entry to decide leaves the owner without it."""
    entries = [one for group in to_decide(given) for one in group.entries]
    assert 4 == len(entries)
    assert [] == [one.part for one in entries if not one.waiting]


def test_a_heavy_photograph_is_made_smaller() -> None:
    """The longer side is at most what print can show; it is still a JPEG."""
    import io

    import av

    small = pictures.shown(jpeg(3200, 2400))
    assert small is not None
    with av.open(io.BytesIO(small)) as file:
        frame = next(file.decode(video=0))  # type: ignore[union-attr]
    assert (1600, 1200) == (frame.width, frame.height)


def test_how_a_photograph_is_turned_stays_with_it() -> None:
    """The Exif segment goes over to the smaller picture byte by byte."""
    exif = b"\xff\xe1\x00\x22Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0"
    whole = jpeg(3200, 2400)
    turned = whole[:2] + exif + whole[2:]
    small = pictures.shown(turned)
    assert small is not None
    assert small.startswith(whole[:2] + exif)


@pytest.mark.parametrize("content", [b"", b"not a picture", jpeg()[:40], b"\x89PNG\r\n\x1a\n" + b"0" * 40])
def test_a_damaged_photograph_is_left_out(content: bytes) -> None:
    """It never stops the write-up."""
    assert pictures.shown(content) is None


def test_a_lost_photograph_is_told(given: Given) -> None:
    """How many were attached and cannot be shown stands under how it was made."""
    from saycheck.reporting.writeup.compose import compose

    standing = given.standing.model_copy(update={"photos": {"f1": ["a.jpg", "b.jpg"]}})
    facts = compose(replace(given, standing=standing, pictures={"a.jpg": jpeg()})).making
    assert ["2, of which 1 cannot be shown"] == [one.value for one in facts if one.name == "photographs"]


def test_what_the_ears_had_learned_is_told(given: Given) -> None:
    """The digest of the shop's own narrations stands under how it was made, where there were any."""
    from saycheck.reporting.writeup.compose import compose

    def learned(digest: str | None) -> list[str]:
        walk = given.standing.walk.model_copy(update={"learned": digest})
        standing = given.standing.model_copy(update={"walk": walk})
        facts = compose(replace(given, standing=standing)).making
        return [one.value for one in facts if one.name == "learned"]

    assert ["the shop's own narrations, digest 0123456789ab"] == learned("0123456789ab")
    assert [] == learned(None)
