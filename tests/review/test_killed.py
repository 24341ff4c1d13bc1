"""kill -9 at any moment loses at most the edit in flight."""

import random
import signal
from pathlib import Path

import httpx
import pytest

import kill_review
from saycheck.standing import standing

from .browser import served


def test_a_writer_killed_at_random_moments(tmp_path: Path) -> None:
    """All that was told to count is there after 25 kills, and at most one edit more for each of them."""
    count = kill_review.killed(tmp_path, 25, random.Random(4))
    assert [] == count.lost
    assert count.most_more <= 1
    assert count.told


@pytest.mark.parametrize("after", [3, 8])
def test_the_server_killed_while_someone_edits(folder: Path, after: int) -> None:
    """What the page was told is kept is there when the server was killed right after it, and can be undone."""
    made = []
    with served(folder) as server, httpx.Client(base_url=server.base, timeout=20) as client:
        client.get(server.link)
        for number in range(after):
            wish = {"action": "machine", "who": "Ann", "hours": 5000 + number}
            answer = client.post("/edit", json=wish, headers={"origin": server.base})
            made += answer.json()["made"]
        server.process.send_signal(signal.SIGKILL)
    assert made == [edit.id for edit in standing(folder).edits]
    assert 5000 + after - 1 == standing(folder).walk.machine.hours
