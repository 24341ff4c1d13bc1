"""What the checkup finds in a shop's folder: each fault with file and line, and none in the shipped words."""

from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck.checkup.run import checkup

Shop = Callable[[str, str], Path]


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    """Writes one file into a shop's folder called ``own``."""

    def write(name: str, text: str) -> Path:
        path = tmp_path / "own" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return tmp_path / "own"

    return write


def faults(folder: Path) -> list[str]:
    """The faults as they are printed."""
    return [str(fault) for fault in checkup([folder], loaded=lambda _: None, only=["wheel-loader"])]


PART = '[[zone]]\nname = "front"\n[[zone.part]]\nname = "{name}"\n{more}checks = ["worn"]\n'


@pytest.mark.parametrize(
    ("name", "text", "sentence"),
    [
        (
            "shared/conditions.toml",
            '[[condition]]\nname = "x"\nform = "fault"\nstate = "watch"\nnoun = ["x"]\n',
            "own/shared/conditions.toml, line 5: unknown key 'noun' in a condition; did you mean 'nouns'?",
        ),
        (
            "shared/cues.toml",
            '[[cue]]\ncategory = "later"\nphrase = ["x"]\n',
            "own/shared/cues.toml, line 3: unknown key 'phrase' in a cue; did you mean 'phrases'?",
        ),
        (
            "shared/units.toml",
            '[[unit]]\nname = "mm"\nquantity = "length"\nsayings = ["x"]\nalso_ = []\n',
            "own/shared/units.toml, line 5: unknown key 'also_' in a unit; did you mean 'also'?",
        ),
        (
            "shared/places.toml",
            '[[place]]\nzone = "front"\nbeside = "front"\n',
            "own/shared/places.toml, line 1: a place needs the key 'at'",
        ),
        (
            "shared/sounds.toml",
            '[[pronunciation]]\nword = "x"\nphones = "X"\nspoken = "x"\n',
            "own/shared/sounds.toml, line 4: unknown key 'spoken' in a pronunciation; "
            "the keys there are word, phones",
        ),
        (
            "shared/talk/terse.toml",
            'name = "terse"\nshare = 1.0\nlines = "x"\nline = "y"\n',
            "own/shared/talk/terse.toml, line 4: unknown key 'line' in the file; did you mean 'lines'?",
        ),
        (
            "shared/waiting.toml",
            '[[waiting]]\ncheck = ["worn"]\ntext = "x"\n',
            "own/shared/waiting.toml, line 2: unknown key 'check' in a waiting; did you mean 'checks'?",
        ),
        (
            "units/four.toml",
            'name = "four"\nmachine = "wheel-loader"\noption = []\n',
            "own/units/four.toml, line 3: unknown key 'option' in the file; did you mean 'options'?",
        ),
        (
            "shared/condition.toml",
            "",
            "own/shared/condition.toml, line 1: no file of this name is read; "
            "did you mean 'shared/conditions.toml'?",
        ),
        (
            "shared/cues.toml",
            '[[cue]\ncategory = "later"\n',
            "own/shared/cues.toml, line 1: this is not TOML (expected ']]' at the end of an array declaration "
            "at column 6); look for a missing quote, comma or bracket",
        ),
        (
            "shared/checks.toml",
            '[[check]]\nname = "x"\nconditions = ["wornn"]\ngood = "x"\n',
            "own/shared/checks.toml, line 3: there is no condition 'wornn'; did you mean 'worn'?",
        ),
        (
            "shared/cues.toml",
            '[[cue]]\ncategory = "latter"\nphrases = ["x"]\n',
            "own/shared/cues.toml, line 2: nothing asks for a category 'latter'; did you mean 'later'?",
        ),
        (
            "shared/sounds.toml",
            '[[pronunciation]]\nword = "x"\nphones = "F QQ"\n',
            "own/shared/sounds.toml, line 3: there is no sound 'QQ'",
        ),
        (
            "shared/units.toml",
            '[[unit]]\nname = "blorp"\nquantity = "length"\nsayings = ["blorp"]\n',
            "own/shared/units.toml, line 2: pint knows no unit 'blorp'; look it up in its list",
        ),
        (
            "shared/places.toml",
            '[[place]]\nzone = "frnt"\nat = "front"\n',
            "own/shared/places.toml, line 2: no machine has a zone 'frnt'; did you mean 'front'?",
        ),
        (
            "machines/wheel-loader.toml",
            PART.format(name="nail magnet", more='sayings = ["horn"]\n'),
            "own/machines/wheel-loader.toml, line 3: 'horn' names 'nail magnet' and 'horn'; "
            "a saying may name one part",
        ),
        (
            "machines/wheel-loader.toml",
            PART.format(name="XKRT-12/7", more=""),
            "own/machines/wheel-loader.toml, line 3: no one could say 'XKRT-12/7'; "
            "give it sayings in plain words",
        ),
        (
            "machines/wheel-loader.toml",
            PART.format(name="buckets", more=""),
            "own/machines/wheel-loader.toml, line 3: 'buckets' (buckets) sounds like 'bucket' (bucket) in the "
            "same zone, and one of them has no other name; add a saying or a question (ask)",
        ),
        (
            "machines/wheel-loader.toml",
            '[[zone]]\nname = "frnt"\n',
            "own/machines/wheel-loader.toml, line 1: the zone 'frnt' has no part, so it is never reached; "
            "take it away, or look whether its name is that of a zone of this machine",
        ),
        (
            "machines/wheel-loader.toml",
            PART.format(name="nail magnet", more='sayings = ["a b", "A  b"]\n'),
            "own/machines/wheel-loader.toml, line 5: 'a b' stands twice in 'sayings'; take one away",
        ),
        (
            "machines/wheel-loader.toml",
            PART.format(
                name="nail magnet", more='measures = [{ attribute = "gap", unit = "mm", at_most = 3 }]\n'
            ),
            "own/machines/wheel-loader.toml, line 5: the limit of 'gap' needs a source; without one leave the "
            "limit out and let the maker's manual decide",
        ),
        (
            "machines/wheel-loader.toml",
            PART.format(
                name="nail magnet",
                more='measures = [{ attribute = "gap", unit = "mm", at_most = 3, source = "Bob" }]\n',
            ),
            "own/machines/wheel-loader.toml, line 5: the source 'Bob' names no publication of "
            "shared/sources.toml; add it there, or say 'common practice, no source'",
        ),
    ],
)
def test_fault_is_told(shop: Shop, name: str, text: str, sentence: str) -> None:
    """Each fault is told with file and line, what is wrong and what to do."""
    assert sentence in faults(shop(name, text))


def test_a_question_settles_what_sounds_alike(shop: Shop) -> None:
    """Parts that sound alike may stay where one of them carries a question."""
    text = PART.format(name="buckets", more='ask = "The bucket, or the buckets?"\n')

    assert [] == faults(shop("machines/wheel-loader.toml", text))


def test_shipped_words_have_no_fault() -> None:
    """Nothing is wrong with the words that come along."""
    assert [] == checkup(loaded=lambda _: None)
