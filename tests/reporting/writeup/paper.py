"""PDFs as tests read them: words by poppler, structure by pikepdf; neither has to do with what made them."""

import io
import re
import shutil
import subprocess
from typing import Any

import pikepdf
import pytest


def _poppler(program: str, pdf: bytes, *words: str) -> str:
    if not shutil.which(program):
        pytest.skip(f"poppler's {program} is not here (Debian package poppler-utils)")
    done = subprocess.run([program, *words, "-", "-"], input=pdf, capture_output=True, timeout=60)
    assert 0 == done.returncode, done.stderr
    return done.stdout.decode()


def pages(pdf: bytes) -> list[str]:
    """The text of each page, words in one row."""
    return [
        " ".join(page.replace("\u200b", "").split()) for page in _poppler("pdftotext", pdf).split("\f")[:-1]
    ]


def boxes(pdf: bytes) -> list[tuple[float, float, float, float, float, float, str]]:
    """Each word with its box and the size of its page, all in points."""
    found = []
    width = height = 0.0
    for line in _poppler("pdftotext", pdf, "-bbox").splitlines():
        if page := re.search(r'<page width="([\d.]+)" height="([\d.]+)"', line):
            width, height = float(page[1]), float(page[2])
        if word := re.search(
            r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)<', line
        ):
            x1, y1, x2, y2 = (float(word[place]) for place in (1, 2, 3, 4))
            found.append((x1, y1, x2, y2, width, height, word[5]))
    return found


def opened(pdf: bytes) -> pikepdf.Pdf:
    """The PDF as an independent library reads it."""
    return pikepdf.open(io.BytesIO(pdf))


def tags(pdf: pikepdf.Pdf) -> list[tuple[str, str]]:
    """The structure tree in reading order: each element's type and its words for those who cannot see it."""
    found: list[tuple[str, str]] = []

    def walk(node: Any) -> None:
        if isinstance(node, pikepdf.Array):
            for one in list(node):
                walk(one)
        elif isinstance(node, pikepdf.Dictionary):
            if "/S" in node:
                found.append((str(node["/S"]).lstrip("/"), str(node.get("/Alt", ""))))
            if "/K" in node:
                walk(node["/K"])

    walk(pdf.Root["/StructTreeRoot"])
    return found
