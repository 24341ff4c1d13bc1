"""The question that a part carries because its name sounds like another's."""

from pathlib import Path

from saycheck.coverage.doubts import alike
from saycheck.understanding.pipeline import understand
from saycheck.vocabulary.load import load

SHOP = """
[[zone]]
name = "front"

[[zone.part]]
name = "bucket"
ask = "The bucket, or the bucket link?"
"""


def test_question_is_asked_once(tmp_path: Path) -> None:
    """Where such a part is spoken of its question is asked, once, with the words that it is about."""
    (tmp_path / "machines").mkdir()
    (tmp_path / "machines" / "wheel-loader.toml").write_text(SHOP, encoding="utf-8")
    findings = understand(
        "The bucket is cracked. The bucket is worn. The horn works.", "wheel-loader"
    ).findings

    (question,) = alike(load("wheel-loader", [tmp_path]), findings)

    assert ("unclear", "The bucket, or the bucket link?") == (question.kind, question.text)
    assert question.evidence
    assert [] == list(alike(load("wheel-loader"), findings))
