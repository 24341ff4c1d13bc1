"""Words that name a part: what the vocabulary finds is doubted or kept, what stands on no list keeps its name."""

from collections.abc import Callable, Iterator

import pytest

from saycheck.understanding.linear import STANDING_IN, Linear
from saycheck.understanding.pipeline import Understood
from saycheck.understanding.text import Reading

Read = Callable[..., Reading]
Understand = Callable[..., Understood]


@pytest.fixture
def weights() -> Iterator[Callable[[dict[str, float]], None]]:
    """Puts a model in place that knows words by the weights given and says no to all others."""

    def stand_in(known: dict[str, float]) -> None:
        STANDING_IN["names"] = Linear(
            ["name", "no"], [-4.0, 0.0], {f"w={word}": [weight, 0.0] for word, weight in known.items()}
        )

    yield stand_in
    STANDING_IN.pop("names", None)


def named(reading: Reading) -> list[str]:
    """The words of each part mention."""
    return [reading.quote(m.start, m.end) for m in reading.of("part")]


@pytest.mark.parametrize(
    ("text", "known", "expected"),
    [
        ("The bucket has a gauge.", {"bucket": 9, "gauge": -9}, ["bucket"]),  # doubted beside another
        ("The bucket has a gauge.", {"bucket": 9, "gauge": 9}, ["bucket", "gauge"]),
        ("The gauge is cracked.", {"gauge": 2}, ["gauge"]),  # doubted, but the only one
        ("The bucket flap is torn.", {"bucket": 9, "flap": 9}, ["bucket flap"]),  # touching: one name
        ("The gizmo is torn.", {"gizmo": 9}, ["gizmo"]),  # on no list
        ("The gizmo is torn.", {"gizmo": 3}, []),  # not sure enough
        ("The left one is torn.", {"left": 9, "one": 9}, []),  # points, names nothing
    ],
)
def test_likely_names(
    read: Read,
    weights: Callable[[dict[str, float]], None],
    text: str,
    known: dict[str, float],
    expected: list[str],
) -> None:
    """A part stands where its words are likely to name one; how likely is left on the reading."""
    weights(known)
    reading = read(text)
    assert expected == named(reading)
    assert len(reading.tokens) == len(reading.data["names"])


def test_of_a_narration_the_encoder_tells_the_names(
    read: Read, weights: Callable[[dict[str, float]], None]
) -> None:
    """The linear model is asked of few words only: here it would know no name at all."""
    weights({})
    said = "The fan belt is tight. The horn works, and so do the wipers. "
    assert not named(read(said))
    assert {"fan belt", "horn", "wipers"} <= set(named(read(said * 6)))


def test_an_owner_is_kept_where_another_part_is_sure(
    read: Read, weights: Callable[[dict[str, float]], None]
) -> None:
    """ "On the" before a part says that the part before belongs to it, however doubted it is."""
    weights({"bolt": 9, "handrail": 1})
    assert ["bolt", "handrail"] == named(read("Loose bolt on the handrail."))
    assert ["bolt"] == named(read("Loose bolt past my handrail."))


@pytest.mark.parametrize(
    ("text", "part"),
    [("The rain flap's gone.", "rain flap"), ("Air filter flag is green.", "air filter flag")],
)
def test_a_part_on_no_list_is_written_down_by_its_own_name(
    understood: Understand, text: str, part: str
) -> None:
    """The finding is there, under the words that were said."""
    assert [part] == [f.part for f in understood(text).findings]
