"""The pieces of the built-in ear's tokenizer."""

from pathlib import Path

import pytest

from saycheck.errors import EarError
from saycheck.hearing.speech_model import model_folder
from saycheck.hearing.tokens import Tokens


def tokens(*shown: str) -> Tokens:
    """Tokens with the three marks in front, as in the real file."""
    return Tokens((b"<unk>", b"<s>", b"</s>", *(piece.encode() for piece in shown)))


FEW = tokens("\u2581gland,", "\u2581weep", "ing", "\u2581", "8", "0", "<<ST_1>>", "\u2581caf", "\u00e9")


@pytest.fixture(scope="module")
def real() -> Tokens:
    """The tokenizer inside the moonshine-voice wheel."""
    return Tokens.read(model_folder() / "tokenizer.bin")


def test_the_real_file_holds_32768_pieces(real: Tokens) -> None:
    """The number the decoder gives scores for; source: the model's own output shape."""
    assert 32_768 == len(real)
    assert ("<unk>", "<s>", "</s>") == real.shown[:3]


def test_raw_bytes_make_letters(real: Tokens) -> None:
    """A letter without a piece of its own is written byte by byte; piece 3 is byte 0."""
    assert "é" == real.text([3 + byte for byte in "é".encode()])


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ([3, 4, 5, 2], [("gland,", [0]), ("weeping", [1, 2])]),
        ([1, 3, 9, 4], [("gland,", [1]), ("weep", [3])]),  # marks are in no word
        ([5, 4], [("ing", [0]), ("weep", [1])]),  # a first word without its space
        ([6, 7, 8], [("80", [0, 1, 2])]),  # the space stands alone, then the figures
        ([6, 6, 2], []),
        ([10, 11], [("café", [0, 1])]),
        ([], []),
    ],
)
def test_words(numbers: list[int], words: list[tuple[str, list[int]]]) -> None:
    """Words come with the places of their pieces."""
    assert words == FEW.words(numbers)


def test_text_is_the_words(real: Tokens) -> None:
    """The text of a reading and its words say the same."""
    numbers = [7, 300, 450, 1000, 20_000, 511]

    assert real.text(numbers).split() == [word for word, _ in real.words(numbers)]


def test_a_missing_file_says_what_to_install(tmp_path: Path) -> None:
    """The sentence names the file and the package."""
    with pytest.raises(EarError) as error:
        Tokens.read(tmp_path / "tokenizer.bin")

    assert (
        f"the built-in ear cannot read its word pieces {tmp_path / 'tokenizer.bin'}: No such file or"
        " directory; install moonshine-voice==0.1.0 again" == str(error.value)
    )


def test_a_file_cut_short(tmp_path: Path) -> None:
    """A piece that ends after the file does."""
    file = tmp_path / "tokenizer.bin"
    file.write_bytes(b"\x03abc\x05de")

    with pytest.raises(EarError, match=r"end in the middle of piece 1; install"):
        Tokens.read(file)
