"""No number stands on the page that is not in the walk, or in what it was held against: all are traced back."""

import csv
import io
import json
import re
from collections.abc import Iterable
from dataclasses import replace

import pytest

from saycheck.models.decisions import Decision
from saycheck.reporting.writeup.compose import compose
from saycheck.reporting.writeup.costs import costs, figures
from saycheck.reporting.writeup.given import Given, Point, Series
from saycheck.reporting.writeup.html import as_html
from saycheck.reporting.writeup.pdf import as_pdf
from saycheck.reporting.writeup.rows import as_csv
from saycheck.sums.leaks import Leak
from saycheck.vocabulary.compiled import Part
from saycheck.vocabulary.schema import SharedPart

from .paper import pages

NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")

FIGURES = """
money = "EUR"
period = "spring"
crew_per_h = 45
machine_per_h = 80
[[job]]
finding = "f1"
chance = [0.05, 0.2]
now = { cost = 910, hours_down = 6 }
later = { cost = 870, hours_down = 6 }
failed = { cost = 4230, hours_down = [16, 40] }
"""


def numbers(text: str) -> list[float]:
    """All numbers of a text, thousands commas read."""
    return [float(found.rstrip(",").replace(",", "")) for found in NUMBER.findall(text)]


def in_all(texts: Iterable[str]) -> set[float]:
    """All numbers of some texts."""
    return {number for text in texts for number in numbers(text)}


def of_the_walk(given: Given) -> set[float]:
    """Numbers that the walk holds, and the times of its words as a clock shows them."""
    walk = given.standing.walk
    starts = [at.start_s for one in walk.findings for at in one.evidence if at.start_s is not None]
    starts += [word.start_s for word in walk.transcript.words if word.start_s is not None]
    clocks = {float(part) for start in starts for part in divmod(int(start), 60)}
    return clocks | numbers_of(walk.model_dump(mode="json", by_alias=True)) | in_all([given.walk_sha256])


def numbers_of(value: object) -> set[float]:
    """Numbers of a JSON value, those in its texts as well."""
    if isinstance(value, str):
        return in_all([value])
    return in_all([json.dumps(value)]) if value is not None else set()


def of_the_vocabulary(given: Given) -> set[float]:
    """Numbers in limits, sources and sentences of the vocabulary."""
    parts: list[Part | SharedPart] = [*given.vocabulary.parts, *given.vocabulary.shared.values()]
    measures = [measure for part in parts for measure in part.measures]
    limits = {float(one) for each in measures for one in (each.at_least, each.at_most) if one is not None}
    texts = [check.source for check in given.vocabulary.checks.values()]
    texts += [measure.source or "" for measure in measures] + [one.text + one.source for one in given.waiting]
    return limits | in_all(
        [
            *texts,
            Leak.source,
            *(part.caution or "" for part in parts),
            given.vocabulary.version,
            given.version,
        ]
    )


def counted(given: Given) -> set[float]:
    """What a reader can count in the walk, counted here once more."""
    walk, standing = given.standing.walk, given.standing
    states = [one.state for one in walk.findings]
    counts = [states.count(state) for state in ("writeup", "watch", "hidden", "later")]
    counts += [
        len(walk.questions),
        len(walk.transcript.words),
        len(standing.open_findings),
        len(standing.edits),
    ]
    counts += [sum(span.disposition == "unclear" for span in walk.transcript.spans)]
    counts += [len(walk.checklist), sum(line.state != "unsaid" for line in walk.checklist)]
    places = range(1, max(len(walk.findings), len(walk.questions)) + 1)
    return {float(count) for count in [*counts, *places, int(standing.reviewed_share * 100)]} | {
        round(standing.reviewed_share, 4)
    }


def of_the_sound(given: Given) -> set[float]:
    """Seconds of speech, all and not to be trusted, in minutes and seconds; shares of words in hundredths."""
    walk = given.standing.walk
    speech = [one for one in walk.sound if one.kind == "speech"]
    lengths = [walk.source.duration_s, sum(one.end_s - one.start_s for one in speech)]
    lengths.append(sum(one.end_s - one.start_s for one in speech if one.trouble))
    found = {float(part) for seconds in lengths for part in divmod(round(seconds), 60)}
    text, shares = walk.transcript.text, dict[str, int]()
    for span in walk.transcript.spans:
        said = text[span.char_start : span.char_end]
        shares[span.disposition] = shares.get(span.disposition, 0) + len("".join(said.split()))
    whole = sum(shares.values()) or 1
    return found | {float(round(100 * share / whole)) for share in shares.values()}


def of_others(given: Given) -> set[float]:
    """Numbers of decisions, earlier walks and sums, and of the day on which it was made."""
    points = [point for one in given.series.values() for point in one.points]
    found = {number for point in points for number in (point.at, point.value)}
    found |= {float(len(one.points)) for one in given.series.values()}
    texts = [one.at[:10] + " " + one.note for one in given.decisions]
    texts += [sentence for one in given.costs.values() for sentence in one.sentences]
    texts += [one.plot.words for one in given.costs.values() if one.plot]
    texts += [one.saying for one in given.series.values()]
    return found | in_all([*texts, *given.since.values(), given.made.strftime("%Y-%m-%d %H:%M"), "SHA-256"])


def untraced(text: str, given: Given) -> list[float]:
    """The numbers of a text that come from nowhere."""
    sources = (of_the_walk, of_the_vocabulary, counted, of_the_sound, of_others)
    known = set().union(*(source(given) for source in sources))
    return [number for number in numbers(text) if number not in known]


def without_page_numbers(texts: list[str]) -> str:
    """The text of all pages, each rightly numbered."""
    for place, text in enumerate(texts, 1):
        assert f"page {place} of {len(texts)}" in text
    return " ".join(re.sub(r"page \d+ of \d+", "", text) for text in texts)


@pytest.fixture
def full(given: Given) -> Given:
    """A write-up with decisions, earlier measurements and costs."""
    findings = [one for one in given.standing.walk.findings if one.state == "writeup"]
    points = [Point(3970, 11.5, 0.5), Point(4411, 9, 0.5), Point(4812, 7, 0.5)]
    decision = Decision(
        at="2025-03-10T09:15:00Z", who="R. Holm", finding="f2", choice="later", note="by 2025-04-18",
        zone="left side", part="steer tyre", side="left", condition="cut",
    )  # fmt: skip
    return replace(
        given,
        decisions=[decision],
        series={"f5": Series(points, "mm", at_least=6.5, saying="Wears 0.53 mm per 100 h.")},
        since={"f1": "first seen on 2024-11-02 at 3,970 h"},
        costs=costs(figures(FIGURES, "costs.toml"), findings, "costs.toml"),
    )


def test_every_number_on_paper_is_traced(full: Given) -> None:
    """Each number in the text that poppler reads is in the walk, or in what it was held against."""
    text = without_page_numbers(pages(as_pdf(compose(full), full.made)))
    assert len(numbers(text)) > 100
    assert [] == untraced(text, full)


def test_every_number_of_the_page_is_traced(full: Given) -> None:
    """The same holds for the HTML page with the words in its drawings, its styles left out."""
    html = re.sub(r"<style>.*?</style>|<[^>]*>", " ", as_html(compose(full)), flags=re.DOTALL)
    text = re.sub(r"&#\d+;", " ", html)
    assert len(numbers(text)) > 100
    assert [] == untraced(text, full)


def test_every_number_of_the_table_is_traced(full: Given) -> None:
    """The same holds for every cell of the CSV."""
    table = list(csv.reader(io.StringIO(as_csv(full), newline="")))
    cells = [cell for row in table[1:] for cell in row]
    assert len([cell for cell in cells if numbers(cell)]) > 50
    assert [] == [cell for cell in cells if untraced(cell, full)]


def test_a_planted_cell_is_found(full: Given) -> None:
    """The trace of the CSV can fail: a reading that nobody gave is told."""
    assert "3.2" in as_csv(full)
    assert [3.9] == [one for one in untraced(as_csv(full).replace(",3.2,", ",3.9,"), full) if one == 3.9]


@pytest.mark.parametrize(
    ("was", "planted"),
    [
        ("3.2 ± 0.05 mm", "3.9 ± 0.05 mm"),  # another reading
        ("at least 4.8 mm", "at least 4.88 mm"),  # another limit
        ("4,812 h", "4,821 h"),  # hours turned round
        ("2025-03-09 06:40", "2025-03-09 06:47"),  # another time
        ("393.47(d)(1)", "393.74(d)(1)"),  # another clause
        ("9 mm", "98 mm"),
    ],
)
def test_a_planted_number_is_found(full: Given, was: str, planted: str) -> None:
    """The trace can fail: a number changed on the page is told."""
    text = without_page_numbers(pages(as_pdf(compose(full), full.made)))
    changed = text.replace(was, planted) if was in text else f"{text} {planted}"
    assert 1 <= len(untraced(changed, full))


def test_numbers_stay_with_their_finding(given: Given) -> None:
    """What was measured stands in the entry of its own finding and in no other."""
    document = compose(given)
    entries = [*(one for group in document.deciding for one in group.entries), *document.watching]
    told = {one.finding: [reading.value for reading in one.readings] for one in entries}
    assert {"f1": [], "f2": [], "f3": ["3.2 ± 0.05 mm"], "f4": [], "f5": ["7 ± 0.5 mm"]} == told
