"""What is said of a vocabulary file that is not as it should be, word for word."""

from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck.errors import VocabularyError
from saycheck.vocabulary.load import load

Write = Callable[..., Path]

PART = '[[zone]]\nname = "front"\n[[zone.part]]\nname = "wing"\n'


@pytest.mark.parametrize(
    ("machine", "message"),
    [
        (
            PART + 'saying = ["ear"]\n',
            "line 5: unknown key 'saying' in a part; did you mean 'sayings'?",
        ),
        (
            PART + "qqqq = 1\n",
            (
                "line 5: unknown key 'qqqq' in a part; the keys there are name, like, kinds, sayings, sided, "
                "components, checks, measures, option, caution, ask, drop"
            ),
        ),
        ("nane = 1\n", "line 1: unknown key 'nane' in the file; did you mean 'name'?"),
        (
            '[[zone]]\nname = "front"\nsde = "left"\n',
            "line 3: unknown key 'sde' in a zone; did you mean 'side'?",
        ),
        ("[[zone]]\n[[zone.part]]\nname = 'wing'\n", "line 1: a zone needs the key 'name'"),
        (
            PART + 'sided = "yes"\n',
            "line 5: 'sided' in a part must be true or false, not 'yes'",
        ),
        (
            PART + 'sayings = "ear"\n',
            "line 5: 'sayings' in a part must be a list in square brackets, not 'ear'",
        ),
        (
            PART + "sayings = [\n  'ear',\n  7,\n]\n",
            "line 5: each of 'sayings' in a part must be text in quotes, not 7",
        ),
        (
            '[[zone]]\nname = "x"\nside = "lft"\n',
            (
                "line 3: 'side' in a zone must be one of 'left', 'right', 'none', not 'lft'; "
                "did you mean 'left'?"
            ),
        ),
        (
            PART + 'measures = [{ attribute = "gap", unit = "mm", at_lest = 3 }]\n',
            "line 5: unknown key 'at_lest' in a measure; did you mean 'at_least'?",
        ),
        (
            PART + 'measures = [{ attribute = "gap", unit = "mm", at_least = 3 }]\n',
            (
                "line 5: the limit of 'gap' needs a source; without one leave the limit out and let the maker's "
                "manual decide"
            ),
        ),
        (PART + 'like = "tyer"\n', "line 5: there is no shared part 'tyer'; did you mean 'tyre'?"),
        (
            PART + 'like = "qqq"\n',
            "line 5: there is no shared part 'qqq'; shared/parts.toml lists them all",
        ),
        (
            PART + 'components = ["valve stm"]\n',
            "line 5: there is no shared part 'valve stm'; did you mean 'valve stem'?",
        ),
        (PART + 'checks = ["leakin"]\n', "line 5: there is no check 'leakin'; did you mean 'leaking'?"),
        (
            PART + '[[zone.part]]\nname = "wing"\n',
            "line 6: the part 'wing' stands already in the zone 'front'; give this one another name",
        ),
        (
            '[[zone]]\nname = "roof"\n[[zone.part]]\nname = "bucket"\n',  # shipped elsewhere
            "line 4: the part 'bucket' stands already in the zone 'front'; give this one another name",
        ),
        (
            PART + '[[zone]]\nname = "front"\n',
            "line 6: the zone 'front' is there already; put its parts together",
        ),
        (
            '[[zone]]\nname = "far side"\nside = "right"\nmirror = "left sde"\n',
            "line 4: there is no zone 'left sde' to mirror; did you mean 'left side'?",
        ),
        (
            '[[zone]]\nname = "far side"\nmirror = "left side"\n',
            "line 3: 'far side' can mirror 'left side' only where one has side 'left' and the other 'right'",
        ),
        (
            '[[zone]]\nname = "left side"\nmirror = "right side"\n',
            "line 3: 'right side' must come before 'left side', which mirrors it",
        ),
        (
            '[[zone]]\nname = "ramp"\nside = "left"\n[[zone.part]]\nname = "wing"\nsided = true\n',
            "line 6: 'wing' is sided, but no zone mirrors 'ramp', so its other side has no place",
        ),
        (
            'sayings = ["a",\n"b"\n[[zone]]\n',
            "line 3: this is not TOML (unclosed array at column 1); look for a missing quote, comma or bracket",
        ),
        (
            'sayings = ["a"\n',
            (
                "line 2: this is not TOML (unclosed array at the end of the file); "
                "look for a missing quote, comma or bracket"
            ),
        ),
    ],
)
def test_machine_file(toy: Path, shop: Write, machine: str, message: str) -> None:
    """The file, the line, what is wrong and the nearest thing that would be right."""
    own = shop("own", machine=machine)

    with pytest.raises(VocabularyError) as caught:
        load("toy-loader", [own])

    assert f"own/machines/toy-loader.toml, {message}" == str(caught.value)


@pytest.mark.parametrize(
    ("parts", "message"),
    [
        (
            '[[part]]\nname = "tyre"\nsayings = ["x"]\n',
            (
                "line 3: unknown key 'sayings' in a part; the keys there are name, heads, components, checks, "
                "measures, caution"
            ),
        ),
        (
            '[[part]]\nname = "fan"\n[[part]]\nname = "fan"\n',
            "line 4: the part 'fan' is there already; give this one another name",
        ),
        (
            '[[part]]\nname = "fan"\ncomponents = ["tyer"]\n',
            "line 3: there is no shared part 'tyer'; did you mean 'tyre'?",
        ),
        (
            '[[part]]\nname = "fan"\nchecks = ["wornn"]\n',
            "line 3: there is no check 'wornn'; did you mean 'worn'?",
        ),
    ],
)
def test_parts_file(toy: Path, shop: Write, parts: str, message: str) -> None:
    """The same for the shared parts."""
    own = shop("own", parts=parts)

    with pytest.raises(VocabularyError) as caught:
        load("toy-loader", [own])

    assert f"own/shared/parts.toml, {message}" == str(caught.value)


def test_checks_file(toy: Path, shop: Write) -> None:
    """The same for the checks."""
    own = shop("own", checks='[[check]]\nname = "x"\ngood = "y"\nconditions = []\nurgency = "soon"\n')

    with pytest.raises(VocabularyError) as caught:
        load("toy-loader", [own])

    assert (
        "own/shared/checks.toml, line 5: 'urgency' in a check must be one of 'before work', 'this week', "
        "'next service', not 'soon'"
    ) == str(caught.value)


def test_first_slip_is_told(toy: Path, shop: Write) -> None:
    """Of several slips the one that stands first in the file is told."""
    own = shop("own", machine=PART + "option = 1\nsided = 2\n")

    with pytest.raises(VocabularyError, match="line 5: 'option' in a part must be text in quotes, not 1"):
        load("toy-loader", [own])


def test_not_utf8(toy: Path, shop: Write) -> None:
    """A file saved in another encoding is told with its line."""
    own = shop("own", machine=PART)
    (own / "machines" / "toy-loader.toml").write_bytes(b'# ok\nname = "gr\xfcn"\n')

    with pytest.raises(VocabularyError) as caught:
        load("toy-loader", [own])

    assert "own/machines/toy-loader.toml, line 2: this is not UTF-8 text; save the file as UTF-8" == str(
        caught.value
    )


def test_new_kind_needs_name_and_zones(toy: Path, shop: Write) -> None:
    """A kind that is not shipped must say its name and have a zone."""
    nameless = shop("own", kind="log-saw", machine='standard = "trade name"\n')
    with pytest.raises(
        VocabularyError, match=r"own/machines/log-saw\.toml, line 1: the file needs the key 'name'"
    ):
        load("log-saw", [nameless])

    empty = shop("own", kind="log-saw", machine='name = "saw"\nstandard = "trade name"\n')
    with pytest.raises(VocabularyError, match="line 1: a machine kind needs at least one"):
        load("log-saw", [empty])
