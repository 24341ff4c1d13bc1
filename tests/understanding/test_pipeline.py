"""``understand`` as a whole: what holds of any text, whatever is in it."""

import json
import math
from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from saycheck.errors import SaycheckError
from saycheck.models.walk import Word
from saycheck.understanding.pipeline import Understood, pauses_of, pipeline, understand

KIND = "wheel-loader"
Understand = Callable[..., Understood]

WORDS = st.sampled_from(
    (
        "bucket tyre left right front rear gland lift cylinder hose pin mirror seat belt windscreen number hours clock"
        " cracked leaking weeping loose good tight no not isn't can't see any but and or of the a on it about between"
        " one two forty eight psi mil half an inch point ditto same other side scratch that no wait make except bar if"
        " last year you always later keep an eye write up , . ; ? ! — - ' \" … um 48 3/16 ½ 12,480"
    ).split(" ")
)
SPEECH = st.lists(WORDS, max_size=40).map(" ".join)
ODD = st.text(max_size=80)
ANY = SPEECH | ODD | st.lists(SPEECH | ODD, max_size=3).map("\n".join)
FEW = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def finite(value: object) -> bool:
    """Whether no number inside is without end."""
    if isinstance(value, dict):
        return all(finite(v) for v in value.values())
    if isinstance(value, list):
        return all(finite(v) for v in value)
    return not isinstance(value, float) or math.isfinite(value)


@FEW
@given(ANY)
def test_every_character_is_accounted_for(text: str) -> None:
    """Spans run from the first to the last character of any text, without gap or overlap."""
    spans = understand(text, KIND).spans
    assert list(range(len(text))) == [i for s in spans for i in range(s.char_start, s.char_end)]


@FEW
@given(ANY)
def test_findings_point_into_the_text(text: str) -> None:
    """Evidence lies inside the text and is not empty; every finding has some, and a span that names it."""
    walk = understand(text, KIND)
    assert [] == [
        f
        for f in walk.findings
        if not f.evidence or any(not 0 <= e.char_start < e.char_end <= len(text) for e in f.evidence)
    ]
    assert {f.id for f in walk.findings} == {i for s in walk.spans for i in s.finding_ids}
    assert {"finding"} >= {s.disposition for s in walk.spans if s.finding_ids}


@FEW
@given(SPEECH)
def test_same_text_same_walk(text: str) -> None:
    """The same text is always understood alike."""
    one, other = understand(text, KIND), understand(text, KIND)
    assert (one.findings, one.spans, one.hours) == (other.findings, other.spans, other.hours)


@FEW
@given(SPEECH)
def test_findings_are_whole(text: str) -> None:
    """Ids count up in order of speech, confidence is a probability, and all of it can be written as JSON."""
    findings = understand(text, KIND).findings
    assert [f"f{n:03}" for n in range(1, len(findings) + 1)] == [f.id for f in findings]
    assert sorted(f.evidence[0].char_start for f in findings) == [f.evidence[0].char_start for f in findings]
    assert all(0 <= f.confidence <= 1 for f in findings)
    assert all(finite(f.model_dump()) and json.dumps(f.model_dump(), allow_nan=False) for f in findings)


@FEW
@given(SPEECH)
def test_review_comes_with_a_reason(text: str) -> None:
    """Whoever is asked to look is told why, and nobody is told why who is not asked."""
    assert [] == [f for f in understand(text, KIND).findings if f.needs_review != bool(f.review_reasons)]


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "\n\n\t",
        "\x00",
        "x" * 50_000,  # one very long word
        "left " * 500,
        "bucket is good. " * 200,
        "no " * 300,
        "half half half",
        "double double",
        "point point five",
        "1/0 psi",
        "² ③ psi",  # digits, but no numbers
        "tyre ² psi",
        "about " + "seven " * 400,  # no number is that long
        "bucket 1/" + "9" * 5000,
        "9" * 5000,
        "between and",
        "number",
        "minus minus",
        "’s",
        "İstanbul bucket good",  # a capital that grows in lower case
        "ﬁre extinguisher good",  # a ligature
        "bucket\u2028good",
        "buck\u00adet good",  # a soft hyphen
        "𝐛𝐮𝐜𝐤𝐞𝐭 good",
        "👷 bucket good 🚜",
        "مرحبا bucket",
        "e\u0301 bucket",
        "\ufeffBucket is good.",  # a byte order mark
        "bucket is good\r\nedge is worn\r\n",
        "؟ bucket ٣ psi",  # figures of another script
    ],
)
def test_odd_texts(understood: Understand, text: str) -> None:
    """No text is refused, and every character of it is accounted for."""
    spans = understood(text).spans
    assert list(range(len(text))) == [i for s in spans for i in range(s.char_start, s.char_end)]


@pytest.mark.parametrize("text", ["", "  \n"])
def test_nothing_said(understood: Understand, text: str) -> None:
    """Where nothing was said there is nothing but talk."""
    walk = understood(text)
    assert ([], None) == (walk.findings, walk.hours)
    assert {"talk"} >= {s.disposition for s in walk.spans}


def test_offsets_count_the_text_unchanged(understood: Understand) -> None:
    """Characters outside the plain alphabet before a finding do not move it."""
    text = "👷‍♀️ Grüße – the windscreen is cracked."
    (finding,) = understood(text).findings
    (evidence,) = finding.evidence
    assert "windscreen is cracked" == text[evidence.char_start : evidence.char_end]


def test_case_does_not_matter(understood: Understand) -> None:
    """Capitals change nothing, as a recogniser has none."""
    texts = ["Left front tyre has a cut.", "LEFT FRONT TYRE HAS A CUT.", "left front tyre has a cut."]
    assert 1 == len({tuple((f.part, f.side, f.state) for f in understood(text).findings) for text in texts})


def test_kind_may_be_written_freely(understood: Understand) -> None:
    """ "Wheel Loader" is the wheel-loader."""
    assert understood("Bucket is good.", "Wheel Loader").findings == understood("Bucket is good.").findings


def test_unknown_kind() -> None:
    """A machine kind that nobody knows is an error of the program's own."""
    with pytest.raises(SaycheckError) as caught:
        understand("Bucket is good.", "steam plough")
    assert "steam plough" in str(caught.value)


def test_one_component_a_question() -> None:
    """The pipeline is built once for a machine, in the order of the design."""
    assert [
        "saycheck_reading",
        "saycheck_quantities",
        "saycheck_parts",
        "saycheck_conditions",
        "saycheck_cues",
        "saycheck_clauses",
        "saycheck_anew",
        "saycheck_told",
        "saycheck_names",
        "saycheck_statements",
    ] == pipeline(KIND).pipe_names
    assert pipeline(KIND) is pipeline(KIND)


def test_pauses_between_words() -> None:
    """Silence before a word is what lies between it and the one before, never less than none."""
    words = [
        Word(text="bucket", char_start=0, char_end=6, start_s=0.0, end_s=0.5),
        Word(text="is", char_start=7, char_end=9, start_s=1.25, end_s=1.5),
        Word(text="good", char_start=10, char_end=14, start_s=1.4, end_s=2.0),  # they overlap
    ]
    assert {7: 0.75, 10: 0.0} == pauses_of(words)
