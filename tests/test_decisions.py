"""The owner's decisions on the disk: only ever added to, none lost, read by whoever remembers walks."""

import threading
from pathlib import Path

import pytest

from saycheck.decisions import DECISIONS, append, decide, read
from saycheck.errors import WalkError
from saycheck.models.decisions import Choice, Decision, decision_of, standing_decisions
from saycheck.models.walk import Evidence, Finding


def finding(name: str = "f1", part: str = "bucket", condition: str = "crack") -> Finding:
    """A finding to decide about."""
    return Finding(
        id=name, zone="front", part=part, side="none", check="cracked", state="writeup", condition=condition,
        heard_as="", confidence=1, evidence=[Evidence(char_start=0, char_end=0)],
    )  # fmt: skip


def choices(folder: Path) -> dict[str, str | None]:
    """The choice that counts for each finding."""
    return {name: one.choice for name, one in standing_decisions(read(folder)).items()}


def test_the_last_choice_counts_and_all_stay(tmp_path: Path) -> None:
    """A choice can be changed and taken back; every line stays in the file."""
    given: list[tuple[str, Choice | None]] = [("f1", "later"), ("f2", "now"), ("f1", "now"), ("f2", None)]
    for name, choice in given:
        append(tmp_path, [decide(finding(name), choice, "R. Holm")])
    assert {"f1": "now"} == choices(tmp_path)
    assert 4 == len((tmp_path / DECISIONS).read_text().splitlines())


def test_who_when_and_what(tmp_path: Path) -> None:
    """A line tells all that a history needs, without the walk."""
    append(tmp_path, [decide(finding(), "later", "R. Holm", "until spring")])
    (one,) = read(tmp_path)
    assert ("R. Holm", "later", "until spring") == (one.who, one.choice, one.note)
    assert ("front", "bucket", "none", "crack") == (one.zone, one.part, one.side, one.condition)
    assert one.at.endswith("Z")


def test_none_yet(tmp_path: Path) -> None:
    """A walk that nobody has decided about has none."""
    assert [] == read(tmp_path)


def test_two_at_once_lose_nothing(tmp_path: Path) -> None:
    """Writers take turns."""

    def some(name: str) -> None:
        for _ in range(10):
            append(tmp_path, [decide(finding(name), "now", name)])

    threads = [threading.Thread(target=some, args=(f"f{place}",)) for place in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert 40 == len(read(tmp_path))


def test_a_line_cut_short_does_not_stand_in_the_way(tmp_path: Path) -> None:
    """What a dying program left half written is put aside, the rest is read, the next line is whole."""
    append(tmp_path, [decide(finding("f1"), "now", "R. Holm")])
    with (tmp_path / DECISIONS).open("ab") as file:
        file.write(b'{"at": "2025-0')
    assert {"f1": "now"} == choices(tmp_path)
    append(tmp_path, [decide(finding("f2"), "later", "R. Holm")])
    assert {"f1": "now", "f2": "later"} == choices(tmp_path)
    assert b'{"at": "2025-0' == (tmp_path / "decisions-torn.txt").read_bytes()


def test_a_last_line_without_its_end_counts(tmp_path: Path) -> None:
    """A whole line to which only the line end is missing is a decision."""
    line = decide(finding("f1"), "now", "R. Holm").model_dump_json()
    (tmp_path / DECISIONS).write_text(line)
    append(tmp_path, [decide(finding("f2"), "now", "R. Holm")])
    assert {"f1": "now", "f2": "now"} == choices(tmp_path)


def test_a_damaged_line_is_told(tmp_path: Path) -> None:
    """The sentence names line and file."""
    (tmp_path / DECISIONS).write_text("nonsense\n")
    with pytest.raises(WalkError) as told:
        read(tmp_path)
    assert (
        f"line 1 of '{tmp_path / DECISIONS}' is damaged; put it right or take it out, the other lines are whole"
        == str(told.value)
    )


@pytest.mark.parametrize(
    ("now", "found"),
    [
        (finding("f1"), True),
        (finding("f9"), True),  # heard again, another id for the same trouble
        (finding("f1", part="boom"), False),  # the id now means another part
        (finding("f9", condition="bent"), False),
    ],
)
def test_a_decision_is_about_its_finding(now: Finding, found: bool) -> None:
    """After hearing again it is found by part, side and condition, and never given to another part."""
    made: Decision = decide(finding("f1"), "now", "R. Holm")
    assert found == (decision_of(now, [made]) is not None)
