"""``saycheck sums`` as a person at the machine types it."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from saycheck.cli import app

WAIT = (
    "wait", "--now", "1200", "--later", "0", "--failed", "10000", "--failed-hours", "24", "--crew", "180",
    "--machine", "120", "--chance", "3", "--period", "spring",
)  # fmt: skip


def sums(*words: str, status: int = 0) -> tuple[str, str]:
    """Run a sum; returns standard output and standard error."""
    result = CliRunner().invoke(app, ["sums", *words], prog_name="saycheck")
    assert status == result.exit_code, result.output
    return result.stdout, result.stderr


@pytest.mark.parametrize(
    ("words", "begins"),
    [
        ("limit|17±0.5 mm|--at-least|10", "Within the limit by 7 mm: 17 ± 0.5 mm against at least 10 mm."),
        ("leak|dripping|--fluid|hydraulic oil", "Class III leak of hydraulic oil"),
        ("leak|ii|--low", "Class II leak (drops form but do not fall): do not run it"),
        ("coolant|ethylene|40|--coldest|-20", "Ethylene glycol at 40 % by volume freezes at −24.8 °C"),
        ("coolant|propylene|50 %|--coldest|-13 °F", "Propylene glycol at 50 % by volume freezes at −33.7 °C"),
        ("battery|12.45|--at|27|--rested|10", "12.45 V at 27 °C: it is 75 %"),
        ("battery|24.9|--at|80 °F|--nominal|24", "24.9 V at 26.7 °C: if it has rested 8 hours, it is 75 %"),
        (
            "tyre|50±1 psi|--at|20|--then|-15",
            "A tyre with 50 ± 1 psi at 20 °C will show 42.3 psi (41 to 43.5)",
        ),
        ("tyre|345|--at|20|--then|-15", "A tyre with 345 kPa at 20 °C will show 292 kPa"),
        ("fork|36.5|--new|40", "The fork is worn 8.8 %"),
        ("fork|1.375 in|--new|1.575 in", "The fork is worn 13 %"),
        ("chain|1226|--new|1200", "The chain has grown 2.2 %"),
        ("convert|120 lbf ft|N m", "120 lbf ft is 162.698 N m."),
        ("convert|-40 degF|degC", "−40 degF is −40 degC."),  # a number below zero is no option
        (
            "wear|0:22|100:21|200:20|300:19|--at-least|10",
            "Wears 1 mm per 100 h; about 900 h (900 to 900) left",
        ),
        (
            "wear|0:5|100:22|200:21|300:20|--at-least|10|--renewed-at|100",
            "Wears 1 mm per 100 h; about 1,000 h",
        ),
        ("edge|15.3|--new|40|--reverse-by|15|--rate|0.9±0.2|--next-look|50", "Reverse the edge now: 15.3 mm"),
        ("age|--planned|1|--failure|5|--shape|2.5|--scale|1000", "Replace it at 490 h"),
        (
            "age|--planned|1|--failure|9|--failed|900|--failed|1200|--failed|1500",
            "From 3 failures and 0 still running",
        ),
    ],
)
def test_each_sum(words: str, begins: str) -> None:
    """Each command begins with its sentence."""
    out, err = sums(*words.split("|"))
    assert begins == out[: len(begins)]
    assert "" == err


def test_caution_and_source_stand_under_it() -> None:
    """What can hurt and what it rests on are printed with the sentence."""
    out, _ = sums("leak", "weeping")
    first, source, caution = out.splitlines()
    assert first.startswith("Class I leak")
    assert "Source: US Army TM 5-3895-383-24." == source
    assert caution.startswith("Caution: Never feel for a leak by hand")


def test_how_much_coolant_to_exchange() -> None:
    """A mixture that does not hold is told how to mend."""
    out, _ = sums("coolant", "ethylene", "30", "--coldest", "-30", "--system", "24")
    assert "Drain 5.8 L and fill in as much concentrate to get there." == out.splitlines()[-1]


def test_as_json() -> None:
    """All of the result for a script; what has no end is null."""
    out, _ = sums("wear", "0:22±1", "100:21±1", "200:21±1", "--at-least", "10", "--json")
    told = json.loads(out)
    assert told["plainly"].startswith("No clear wear")
    assert told["remaining_h"]["high"] is None
    assert [22, 21, 21] == [point["value"]["value"] for point in told["points"]]


def test_wait_shows_what_matters(tmp_path: Path) -> None:
    """The break-even chance in words, then the tornado as text, or as a picture that is never written over."""
    out, _ = sums(*WAIT)
    assert out.startswith(
        "Waiting pays only if the chance of failure before spring is below 7 %; it is put at 3 %"
    )
    assert "parts and labour now *" in out
    pytest.importorskip("matplotlib")
    picture = tmp_path / "hose.svg"
    sums(*WAIT, "--plot", str(picture))
    before = picture.read_bytes()
    assert b"<svg" in before
    _, err = sums(*WAIT, "--plot", str(picture), status=2)
    assert f"'{picture}' is there already; give another name\n" == err
    assert before == picture.read_bytes()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            "leak|leaking",
            "'leaking' does not say whether drops form or fall; look again, or give I, II or III",
        ),
        ("limit|17 mm", "there is no limit to hold 17 mm against; look it up in the maker's manual"),
        ("convert|35|bar", "'35' has no unit; write it as 35psi or 120 N m"),
        ("wear|1200", "'1200' is no reading at hours; write it as 1200:20±0.5"),
        (
            "age|--planned|1|--failure|5",
            "a life is wanted: --shape with --scale, or --failed once for each failure",
        ),
        ("fork|thick|--new|40", "'thick' is no amount; write it as 17, 17±0.5 or 17±0.5mm"),
        (
            "battery|13.8|--at|20",
            "a rest voltage of 13.8 V for 12 V is outside 11.4 to 12.95 V for 12 V, where this sum holds; a lower one "
            "is a failed cell or not at rest, a higher one a charger's or another kind of battery",
        ),
    ],
)
def test_refused(words: str, sentence: str) -> None:
    """One sentence on standard error, status 2, nothing else."""
    out, err = sums(*words.split("|"), status=2)
    assert ("", sentence + "\n") == (out, err)
