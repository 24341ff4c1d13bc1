"""From statements to findings: evidence, times, measurements in SI, words heard for the part."""

from collections.abc import Callable

import pytest

from saycheck.models.walk import Word
from saycheck.understanding.findings import Units, heard_as, reworded, times
from saycheck.understanding.judge import Verdict
from saycheck.understanding.pipeline import Understood, understand
from saycheck.understanding.resolve import Resolved
from saycheck.understanding.statements import Subject

Understand = Callable[..., Understood]


@pytest.fixture(scope="module")
def units() -> Units:
    """The unit registry."""
    return Units()


# Factors: NIST SP 811 (2008), appendix B, as written here from memory; tests/outside checks them all.
@pytest.mark.parametrize(
    ("value", "unit", "expected", "unit_si"),
    [
        (1, "in", 0.0254, "m"),
        (18, "mm", 0.018, "m"),
        (40, "thou", 40 * 0.0000254, "m"),
        (48, "psi", 48 * 6894.757, "kg / m / s ** 2"),
        (3.2, "bar", 320_000, "kg / m / s ** 2"),
        (-35, "degC", 238.15, "K"),
        (32, "degF", 273.15, "K"),
        (2, "h", 7200, "s"),
        (70, "percent", 0.7, "1"),
        (3, "count", 3, "count"),  # a count stays a count
        (2, "finger", 2, "finger"),
    ],
)
def test_si(units: Units, value: float, unit: str, expected: float, unit_si: str) -> None:
    """A measurement in SI base units."""
    found, name = units.si(value, unit)
    assert pytest.approx(expected, rel=1e-6) == found
    assert unit_si == name


@pytest.mark.parametrize(
    ("under", "spoken", "quote", "expected"),
    [
        ("", "the left lift ram", "x", "lift ram"),  # without article and side
        ("", "Our Left front tyre", "x", "front tyre"),
        ("", "left", "x", "left"),  # the last word stays
        ("", "", "wet at the gland", "wet at the gland"),  # no words for the part: the whole quote
        ("The quick hitch", "the pin", "x", "quick hitch, pin"),  # a heading stands first
    ],
)
def test_heard_as(under: str, spoken: str, quote: str, expected: str) -> None:
    """The words that were heard for the part, as heard."""
    part = Resolved("pin", None, "front", None, 0.5)
    assert expected == heard_as(Subject(part, None, 0, 1, spoken=spoken, under=under), quote)


@pytest.mark.parametrize(
    ("condition", "state", "expected"),
    [
        ("crack", "writeup", "crack"),
        ("mentioned", "writeup", "writeup"),  # the words named no condition
        ("measured", "watch", "watch"),
        ("good", "hidden", "hidden"),
        ("good", "later", "later"),
    ],
)
def test_reworded(condition: str, state: str, expected: str) -> None:
    """A state that the weighing overturned gets a word that fits."""
    assert expected == reworded(Verdict("good", condition), state)  # type: ignore[arg-type]


@pytest.mark.parametrize("verdict", [Verdict("writeup", "leak"), Verdict("good", "not tight")])
def test_good_names_no_trouble(verdict: Verdict) -> None:
    """What was weighed as good is not called a leak, nor what it is not."""
    assert "good" == reworded(verdict, "good")


WORDS = [
    Word(text="bucket", char_start=0, char_end=6, start_s=1.0, end_s=1.4),
    Word(text="is", char_start=7, char_end=9, start_s=1.5, end_s=1.6),
    Word(text="good", char_start=10, char_end=14, start_s=1.7, end_s=2.1),
]


@pytest.mark.parametrize(
    ("start", "end", "expected"),
    [
        (0, 14, (1.0, 2.1)),
        (7, 14, (1.5, 2.1)),
        (8, 9, (1.5, 1.6)),  # part of a word is the word
        (6, 7, (None, None)),  # between two words
        (14, 20, (None, None)),
    ],
)
def test_times(start: int, end: int, expected: tuple[float | None, float | None]) -> None:
    """A stretch of the transcript has the times of the words in it."""
    assert expected == times(WORDS, start, end)


def test_a_typed_text_has_no_times() -> None:
    """Words without times give none."""
    assert (None, None) == times([Word(text="bucket", char_start=0, char_end=6)], 0, 6)


def test_evidence_carries_the_place_in_the_sound() -> None:
    """A finding points at the seconds in which it was said."""
    text = "bucket is good."
    (finding,) = understand(text, "wheel-loader", WORDS).findings
    (evidence,) = finding.evidence
    assert ("bucket is good", 1.0, 2.1) == (
        text[evidence.char_start : evidence.char_end],
        evidence.start_s,
        evidence.end_s,
    )


def test_measurement_of_a_finding(understood: Understand) -> None:
    """A measurement holds the number as said, its unit, its words and how open it is."""
    (finding,) = understood("Cutting edge is worn, about three sixteenths of an inch left.").findings
    (measured,) = finding.measurements
    assert ("in", "about three sixteenths of an inch", "m") == (
        measured.unit,
        measured.text,
        measured.unit_si,
    )
    assert pytest.approx((0.1875, 0.0047625, 0.03125)) == (
        measured.value,
        measured.value_si,
        measured.plus_minus,
    )


def test_ambiguous_unit_is_kept_for_a_question(understood: Understand) -> None:
    """ "Mil" may be a millimetre or a thousandth of an inch: the other reading is kept."""
    (finding,) = understood("Cutting edge is worn, eighteen mil left.").findings
    assert [("mm", ["thou"])] == [(m.unit, m.other_units) for m in finding.measurements]


def test_times_of_day_and_years_are_no_measurement(understood: Understand) -> None:
    """How long ago or how soon is not measured on the part."""
    findings = understood("Fan belt is worn, maybe two weeks left in it.").findings
    assert [("fan belt", [])] == [(f.part, f.measurements) for f in findings]


@pytest.mark.parametrize(
    ("text", "measured"),
    [
        ("Lift cylinder drips, a drop every half a minute.", [(0.5, "min")]),
        ("Lift cylinder drips, one drop in about twenty seconds.", [(20, "s")]),
        ("Parking brake held for a minute and a half.", [(1.5, "min")]),
        ("The lift cylinder drifted an inch over ten seconds.", [(1, "in"), (10, "s")]),
        ("The bucket pins are dry, give me two minutes.", []),
        ("The bucket pins are dry, I'll be back in five minutes.", []),
        ("The wipers work, be done in two minutes.", []),
        ("The horn works, took me ten seconds to find it.", []),
    ],
)
def test_how_long_it_took_is_measured(
    understood: Understand, text: str, measured: list[tuple[float, str]]
) -> None:
    """A short time is a measurement where it tells how often or how long, not where somebody asks for it."""
    found = understood(text).findings
    assert [measured] == [[(m.value, m.unit) for m in f.measurements if m.unit != "count"] for f in found]


def test_count_becomes_a_measurement(understood: Understand) -> None:
    """How many are missing is a number of the finding."""
    (finding,) = understood("Three bucket teeth are missing.").findings
    assert [(3, "count", 0)] == [(m.value, m.unit, m.plus_minus) for m in finding.measurements]


def test_caution_where_work_may_hurt(understood: Understand) -> None:
    """A written-up part that can hurt whoever mends it carries its caution; a good one does not."""
    bad, good = understood("Tilt cylinder is leaking badly. Left lift cylinder is dry.").findings
    assert ("writeup", True) == (bad.state, "never feel for a leak by hand" in (bad.caution or ""))
    assert ("good", None) == (good.state, good.caution)


def test_line_of_the_checklist(understood: Understand) -> None:
    """A finding on a component answers its owner's line."""
    (finding,) = understood("Tilt cylinder gland is weeping.").findings
    assert ("tilt cylinder gland", "tilt cylinder") == (finding.part, finding.line)


@pytest.mark.parametrize(
    ("text", "condition", "denied"),
    [
        ("Front tyre, not a mark.", "mark", True),  # a saying that is good by itself
        ("Kingpin, nothing in it.", "trouble", True),
        ("Bucket is good, nothing wrong.", "good", False),
        ("Fan belt is tight, no fuzz.", "fuzz", True),  # a word that no table knows
        ("Air tank is sound, no water.", "water", True),
        ("Fan belt is tight.", "tight", False),
    ],
)
def test_what_is_not_there(understood: Understand, text: str, condition: str, denied: bool) -> None:
    """Of a good part the trouble that is named as absent is told, and the words for it belong to the finding."""
    (finding,) = understood(text).findings
    assert ("good", condition, denied) == (finding.state, finding.condition, finding.denied)
    assert text.rstrip(".") == text[finding.evidence[0].char_start : finding.evidence[0].char_end]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Hydraulic hoses, can't see them.", "Hydraulic hoses, can't see them"),
        ("The cab I'll do once it's warm.", "cab I'll do once it's warm"),
        ("Two of the four studs are gone.", "Two of the four studs are gone"),
        ("Left front tyre is cut and so on.", "Left front tyre is cut"),  # another thought begins
        ("Left front tyre is cut, as ever.", "Left front tyre is cut"),  # a mark ends the clause
    ],
)
def test_evidence_does_not_break_off_before_the_last_words(
    understood: Understand, text: str, words: str
) -> None:
    """What a person reads as evidence runs on to the end of its clause where that is near."""
    evidence = understood(text).findings[0].evidence[0]
    assert words == text[evidence.char_start : evidence.char_end]
