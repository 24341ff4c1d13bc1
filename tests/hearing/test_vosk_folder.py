"""Finding a Vosk model folder and telling a good one from others before Vosk sees it."""

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from saycheck.errors import EarError
from saycheck.hearing import vosk_folder
from saycheck.hearing.vosk_folder import CONTAINS, VARIABLE, checked, named

FST = b"\xd6\xfd\xb2\x7e" + b"graph" * 50
KALDI = b"\0B" + b"numbers" * 50
FILES = {
    "am/final.mdl": KALDI,
    "conf/mfcc.conf": b"--num-ceps=40\n",
    "conf/model.conf": b"--beam=10.0\n",
    "graph/HCLr.fst": FST,
    "graph/Gr.fst": FST,
    "ivector/final.ie": KALDI,
    "ivector/final.dubm": KALDI,
    "ivector/final.mat": KALDI,
    "ivector/global_cmvn.stats": b" [\n",
    "ivector/online_cmvn.conf": b"# none\n",
    "ivector/splice.conf": b"--left-context=3\n",
}
OLD = {"final.mdl": KALDI, "mfcc.conf": b"--num-ceps=40\n", "HCLG.fst": FST}


def laid_out(folder: Path, files: Mapping[str, bytes | None]) -> Path:
    """Write files below a folder; None leaves one out."""
    for name, content in files.items():
        if content is not None:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(content)
    return folder


@pytest.fixture
def at_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The user's data folder for models, in a place of the test's own."""
    place = tmp_path / "data" / "vosk"
    monkeypatch.setattr(vosk_folder, "home", lambda: place)
    return place


@pytest.mark.parametrize(
    "files",
    [
        FILES,
        FILES | {"graph/HCLr.fst": None, "graph/Gr.fst": None, "graph/HCLG.fst": FST},  # a large model
        {name: content for name, content in FILES.items() if not name.startswith("ivector")},
        OLD,
    ],
)
def test_a_whole_model_passes(tmp_path: Path, files: Mapping[str, bytes | None]) -> None:
    """Both layouts, with either kind of graph, with and without speaker adaptation."""
    folder = laid_out(tmp_path / "model", files)

    assert folder == checked(folder)


def test_a_folder_round_the_model_will_do(tmp_path: Path) -> None:
    """Archives unpack to a folder in a folder."""
    inner = laid_out(tmp_path / "vosk-en" / "vosk-en-small", FILES)

    assert inner == checked(tmp_path / "vosk-en")


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda folder: None, "there is no Vosk model folder {folder}; {contains}; {put}"),
        (lambda folder: folder.mkdir(), "the Vosk model folder {folder} is empty; {contains}; {put}"),
        (
            lambda folder: folder.write_bytes(b"x"),
            "the Vosk model {folder} is a file, not a folder; {contains}; {put}",
        ),
        (
            lambda folder: laid_out(folder, {"photo.jpg": b"x"}),
            "the Vosk model folder {folder} lacks am/final.mdl, conf/mfcc.conf, conf/model.conf,"
            " graph/HCLG.fst or graph/HCLr.fst with graph/Gr.fst; {contains}; {put}",
        ),
        (
            lambda folder: laid_out(folder, FILES | {"graph/Gr.fst": None}),
            "the Vosk model folder {folder} lacks graph/HCLG.fst or graph/HCLr.fst with graph/Gr.fst;"
            " {contains}; {put}",
        ),
        (
            lambda folder: laid_out(folder, FILES | {"ivector/final.ie": None}),
            "the Vosk model folder {folder} lacks ivector/final.ie; {contains}; {put}",
        ),
        (
            lambda folder: laid_out(folder, FILES | {"am/final.mdl": b""}),
            "the Vosk model file {folder}/am/final.mdl is damaged; copy the model folder again",
        ),
        (
            lambda folder: laid_out(folder, FILES | {"graph/Gr.fst": b"version https://example.org/"}),
            "the Vosk model file {folder}/graph/Gr.fst is damaged; copy the model folder again",
        ),
        (
            lambda folder: laid_out(folder, FILES | {"graph/HCLr.fst": FST + bytes(len(FST))}),
            "the Vosk model file {folder}/graph/HCLr.fst is damaged; copy the model folder again",
        ),
    ],
    ids=["missing", "empty", "file", "other", "no graph", "half adapted", "no bytes", "stub", "broke off"],
)
def test_what_is_wrong_is_said(
    tmp_path: Path, at_home: Path, make: Callable[[Path], object], says: str
) -> None:
    """One sentence: what is wrong, what a model folder holds, where to put one."""
    folder = tmp_path / "model"
    make(folder)
    put = f"put one at {at_home}, or name it with --model or {VARIABLE}"

    with pytest.raises(EarError) as error:
        checked(folder)

    assert says.format(folder=folder, contains=CONTAINS, put=put) == str(error.value)


def test_an_archive_is_to_be_unpacked(tmp_path: Path) -> None:
    """The commonest mistake gets its own hint."""
    archive = tmp_path / "model.zip"
    archive.write_bytes(b"PK")

    with pytest.raises(EarError, match="is a file, not a folder; unpack it first;"):
        checked(archive)


def test_named_in_order(tmp_path: Path, at_home: Path) -> None:
    """What is asked for goes before the environment, and that before the user's folder."""
    asked, set_up = tmp_path / "asked", tmp_path / "set up"

    assert named(None, {}) is None
    assert set_up == named(None, {VARIABLE: str(set_up)})
    assert asked == named(asked, {VARIABLE: str(set_up)})

    at_home.mkdir(parents=True)
    assert named(None, {}) is None  # an empty folder is not a wish
    model = laid_out(at_home / "en", FILES)
    assert model == named(None, {})
