"""A corpus of hostile requests gets 4xx, and changes nothing in the walk folder."""

import hashlib
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from saycheck.models.walk import Walk
from saycheck.page.application import application
from saycheck.page.desk import Desk
from saycheck.page.door import PAUSE_S, TRIES, Door
from saycheck.page.guard import HEADERS
from saycheck.review.photographs import LARGEST
from saycheck.standing import standing

from .conftest import lay, png

BASE = "http://127.0.0.1:8700"
HOSTS = {"127.0.0.1:8700", "localhost:8700"}
JSON = {"content-type": "application/json", "origin": BASE}


def contents(folder: Path) -> dict[str, str]:
    """Every file of a folder by the SHA-256 of its contents; the lock apart, which is always empty."""
    return {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != ".edits.lock"
    }


class Told(list[str]):
    """What the terminal was shown."""


@pytest.fixture
def told() -> Told:
    """The terminal."""
    return Told()


def client_of(folder: Path, told: Told, with_code: bool = False) -> tuple[TestClient, Door]:
    """A client that follows no redirect, and the door it stands before."""
    door = Door(8700, with_code, told.append)
    app = application(Desk(folder), door, HOSTS, "Ann")
    return TestClient(app, BASE, follow_redirects=False, raise_server_exceptions=False), door


@pytest.fixture
def client(folder: Path, told: Told) -> TestClient:
    """A client that has been let in."""
    client, door = client_of(folder, told)
    answer = client.get(f"/open/{door.token}")
    assert (303, "/") == (answer.status_code, answer.headers["location"])
    return client


def wish(**other: Any) -> bytes:
    """A wish as the page sends it."""
    return json.dumps({"action": "accept", "who": "Ann", "findings": ["f001"]} | other).encode()


def multipart(finding: str = "f001", content: bytes = b"\xff\xd8\xff", name: str = "a.jpg") -> dict[str, Any]:
    """A photograph as the page sends it."""
    return {
        "data": {"finding": finding, "who": "Eve"},
        "files": {"photograph": (name, content, "image/jpeg")},
        "headers": {"origin": BASE},
    }


def test_an_honest_wish_is_done(client: TestClient, folder: Path) -> None:
    """The corpus below differs from this one request, which is taken."""
    answer = client.post("/edit", content=wish(), headers=JSON)
    assert 200 == answer.status_code
    assert 1 == len(standing(folder).edits)


CODE = wish(action="change", patches=[{"measured": [{"value": 1, "unit": "__import__('os')"}]}])
PNG_TOO_WIDE = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR" + (2**31 - 1).to_bytes(4, "big") * 2 + b"\x08\x02\0\0\0"

HOSTILE: list[tuple[str, str, str, dict[str, Any]]] = [
    # other hosts and other sites
    ("another host name", "GET", "/", {"headers": {"host": "evil.example"}}),
    ("another host name with our port", "GET", "/changes", {"headers": {"host": "evil.example:8700"}}),
    ("another port", "GET", "/", {"headers": {"host": "127.0.0.1:80"}}),
    ("our name in front", "GET", "/", {"headers": {"host": "127.0.0.1:8700.evil.example"}}),
    ("no host", "GET", "/", {"headers": {"host": ""}}),
    ("all addresses", "POST", "/edit", {"headers": JSON | {"host": "0.0.0.0:8700"}, "content": wish()}),
    ("another site", "POST", "/edit", {"headers": JSON | {"origin": "http://evil.example"}, "content": wish()}),
    ("no site", "POST", "/edit", {"headers": {"content-type": "application/json"}, "content": wish()}),
    ("a sandboxed site", "POST", "/edit", {"headers": JSON | {"origin": "null"}, "content": wish()}),
    ("another port's site", "POST", "/edit", {"headers": JSON | {"origin": "http://127.0.0.1:1"}, "content": wish()}),
    ("our site over TLS", "POST", "/edit", {"headers": JSON | {"origin": "https://127.0.0.1:8700"}, "content": wish()}),
    ("read by another site", "GET", "/changes", {"headers": {"origin": "http://evil.example"}}),
    ("embedded elsewhere", "GET", "/piece.wav?from=0&to=1", {"headers": {"sec-fetch-site": "cross-site"}}),
    ("from a sister site", "GET", "/", {"headers": {"sec-fetch-site": "same-site"}}),
    # traversal
    ("photograph outside", "GET", "/photographs/..%2fwalk.json", {}),
    ("photograph outside, twice encoded", "GET", "/photographs/%252e%252e%252fwalk.json", {}),
    ("photograph by full path", "GET", "/photographs/%2fetc%2fpasswd", {}),
    ("photograph on Windows", "GET", "/photographs/..%5cwalk.json", {}),
    ("a file of the walk", "GET", "/photographs/walk.json", {}),
    ("a zero byte", "GET", "/photographs/a%00.jpg", {}),
    ("static outside", "GET", "/static/../application.py", {}),
    ("static outside, encoded", "GET", "/static/%2e%2e/application.py", {}),
    ("static outside, slashes encoded", "GET", "/static/..%2fapplication.py", {}),
    ("static by full path", "GET", "/static//etc/passwd", {}),
    ("static folder", "GET", "/static/", {}),
    ("the walk itself", "GET", "/walk.json", {}),
    ("the edits", "GET", "/edits.jsonl", {}),
    # methods
    ("deleting", "DELETE", "/edit", {"headers": JSON}),
    ("putting", "PUT", "/photographs/a.jpg", {"headers": JSON, "content": b"x"}),
    ("an edit by link", "GET", "/edit", {}),
    ("page by post", "POST", "/", {"headers": JSON, "content": b"{}"}),
    ("tracing", "TRACE", "/", {"headers": {"origin": BASE}}),
    # bodies
    ("no JSON", "POST", "/edit", {"headers": JSON, "content": b"{"}),
    ("not UTF-8", "POST", "/edit", {"headers": JSON, "content": b"\xff\xfe{}"}),
    ("nothing", "POST", "/edit", {"headers": JSON, "content": b""}),
    ("a list", "POST", "/edit", {"headers": JSON, "content": b"[]"}),
    ("deeply nested", "POST", "/edit", {"headers": JSON, "content": b"[" * 60_000}),
    ("a form", "POST", "/edit", {"headers": {"origin": BASE}, "data": {"action": "undo", "who": "Eve"}}),
    ("JSON as text", "POST", "/edit", {"headers": {"origin": BASE, "content-type": "text/plain"}, "content": wish()}),
    ("too large", "POST", "/edit", {"headers": JSON, "content": wish(reason="x" * 70_000)}),
    ("a reason too long", "POST", "/edit", {"headers": JSON, "content": wish(reason="x" * 501)}),
    ("a name too long", "POST", "/edit", {"headers": JSON, "content": wish(who="x" * 81)}),
    ("nobody", "POST", "/edit", {"headers": JSON, "content": wish(who="")}),
    ("too many findings", "POST", "/edit", {"headers": JSON, "content": wish(findings=["f001"] * 1001)}),
    ("an unknown action", "POST", "/edit", {"headers": JSON, "content": wish(action="delete")}),
    ("an action of ours only", "POST", "/edit", {"headers": JSON, "content": wish(action="attach")}),
    ("an unknown key", "POST", "/edit", {"headers": JSON, "content": wish(path="/etc/passwd")}),
    ("an unknown finding", "POST", "/edit", {"headers": JSON, "content": wish(findings=["../f001"])}),
    ("a number that is none", "POST", "/edit",
     {"headers": JSON, "content": b'{"action":"machine","who":"E","hours":NaN}'}),
    ("endless hours", "POST", "/edit", {"headers": JSON, "content": b'{"action":"machine","who":"E","hours":1e999}'}),
    ("a state that is none", "POST", "/edit",
     {"headers": JSON, "content": wish(action="change", patches=[{"state": "fine"}])}),
    ("a unit that is code", "POST", "/edit",
     {"headers": JSON, "content": CODE}),
    ("words that are nowhere", "POST", "/edit",
     {"headers": JSON, "content": wish(action="settle", start=10**9, end=10**9 + 1)}),
    ("words before the start", "POST", "/edit", {"headers": JSON, "content": wish(action="settle", start=-5, end=4)}),
    ("undo of nothing", "POST", "/edit", {"headers": JSON, "content": wish(action="undo", findings=[])}),
    ("undo of something else", "POST", "/edit", {"headers": JSON, "content": wish(action="undo", refers="nobody")}),
    ("a question that is none", "POST", "/edit", {"headers": JSON, "content": wish(action="answer", question="q")}),
    ("a proposal of nothing", "POST", "/proposal", {"headers": JSON, "content": b'{"start":-9,"end":-1}'}),
    ("a proposal with more", "POST", "/proposal", {"headers": JSON, "content": b'{"start":0,"end":9,"file":"x"}'}),
    # photographs
    ("a script as photograph", "POST", "/photographs", multipart(content=b"<script>alert(1)</script>")),
    ("an SVG as photograph", "POST", "/photographs", multipart(content=b"<svg xmlns='http://www.w3.org/2000/svg'/>")),
    ("a program as photograph", "POST", "/photographs", multipart(content=b"\x7fELF" + b"\0" * 64)),
    ("only the first bytes of a JPEG", "POST", "/photographs", multipart(content=b"\xff\xd8\xff\xe0" + b"\0" * 20)),
    ("a JPEG that is cut off", "POST", "/photographs",
     multipart(content=b"\xff\xd8\xff\xc0\0\x0b\x08\0\x04\0\x04\x01\x01\x11\0\xff\xda\0\x08\x01\x01\0\0\x3f\0abc")),
    ("an endless PNG", "POST", "/photographs", multipart(content=PNG_TOO_WIDE)),
    ("an empty photograph", "POST", "/photographs", multipart(content=b"")),
    ("a photograph of nothing", "POST", "/photographs", multipart(finding="nobody")),
    ("a photograph too large", "POST", "/photographs", multipart(content=b"\xff\xd8\xff" + b"x" * (LARGEST + 70_000))),
    ("no photograph", "POST", "/photographs", {"headers": {"origin": BASE}, "data": {"finding": "f001"}}),
    ("a broken form", "POST", "/photographs",
     {"headers": {"origin": BASE, "content-type": "multipart/form-data; boundary=x"}, "content": b"--x\r\nrubbish"}),
    ("a form without boundary", "POST", "/photographs",
     {"headers": {"origin": BASE, "content-type": "multipart/form-data"}, "content": b"rubbish"}),
    ("taking off what is not there", "POST", "/photographs/a.jpg/off",
     {"headers": JSON, "content": b'{"finding":"f001","who":"Eve"}'}),
    # sound
    ("sound without times", "GET", "/piece.wav", {}),
    ("sound backwards", "GET", "/piece.wav?from=5&to=2", {}),
    ("sound that is no number", "GET", "/piece.wav?from=nan&to=inf", {}),
    ("sound of a text", "GET", "/piece.wav?from=0&to=2", {}),
    ("all sound of a text", "GET", "/sound.flac", {}),
    # ways in
    ("a wrong token", "GET", "/open/x", {}),
    ("an empty token", "GET", "/open/", {}),
    ("a token with strange letters", "GET", "/open/%C3%BC%00", {}),
    ("a code where there is none", "POST", "/enter", {"headers": {"origin": BASE}, "data": {"code": "000000"}}),
    ("a length that is none", "POST", "/edit", {"headers": JSON | {"content-length": "-5"}, "content": wish()}),
    ("a length too large", "POST", "/edit", {"headers": JSON | {"content-length": "9" * 30}, "content": wish()}),
]  # fmt: skip


@pytest.mark.parametrize(
    ("method", "path", "sent"), [row[1:] for row in HOSTILE], ids=[row[0] for row in HOSTILE]
)
def test_it_is_refused(
    client: TestClient, folder: Path, method: str, path: str, sent: dict[str, Any]
) -> None:
    """The answer is 4xx with all headers that forbid, and the folder is as it was."""
    before = contents(folder)
    answer = client.request(method, path, **sent)
    assert 400 <= answer.status_code < 500, answer.text
    assert HEADERS.items() <= dict(answer.headers).items()
    assert before == contents(folder)


PATHS = [
    "/",
    "/changes",
    "/finding/f001",
    "/vocabulary",
    "/piece.wav?from=0&to=1",
    "/sound.flac",
    "/photographs/a.jpg",
]


@pytest.mark.parametrize("path", PATHS)
def test_nothing_is_told_without_the_cookie(folder: Path, told: Told, path: str) -> None:
    """Without the cookie, or with another run's, every path is refused and tells nothing of the walk."""
    stranger, _ = client_of(folder, told)
    for cookie in ("", "saycheck-8700=", "saycheck-8700=x", "saycheck=x"):
        answer = stranger.get(path, headers={"cookie": cookie} if cookie else {})
        assert 403 == answer.status_code
        assert "Number Seven" not in answer.text


def test_the_link_works_once(folder: Path, told: Told) -> None:
    """The second use is refused; the terminal has shown a new link meanwhile, which works."""
    client, door = client_of(folder, told)
    link = f"/open/{door.token}"
    assert 303 == client.get(link).status_code
    assert 403 == client_of(folder, Told())[0].get(link).status_code
    client.cookies.clear()
    assert 403 == client.get(link).status_code
    assert 403 == client.get("/").status_code
    assert 303 == client.get(f"/open/{told[-1]}").status_code
    assert 200 == client.get("/").status_code


def test_the_cookie_is_for_this_page_alone(folder: Path, told: Told) -> None:
    """No script can read it, and no other site's page sends it along."""
    client, door = client_of(folder, told)
    cookie = client.get(f"/open/{door.token}").headers["set-cookie"].lower()
    assert {"httponly", "samesite=strict", "path=/"} <= {part.strip() for part in cookie.split(";")}


def test_a_code_is_not_found_by_trying(folder: Path, told: Told, monkeypatch: pytest.MonkeyPatch) -> None:
    """Tries that come too soon do not count, and after a few wrong ones the code is another."""
    client, door = client_of(folder, told, with_code=True)
    clock = [100.0]
    monkeypatch.setattr("saycheck.page.door.time.monotonic", lambda: clock[0])
    assert ("/enter", 303) == (client.get("/").headers["location"], client.get("/").status_code)

    def tried(code: str, after_s: float) -> int:
        clock[0] += after_s
        return int(client.post("/enter", data={"code": code}, headers={"origin": BASE}).status_code)

    code = str(door.code)
    wrong = "000000" if code != "000000" else "111111"
    assert 403 == tried(wrong, PAUSE_S + 1)
    assert 403 == tried(code, PAUSE_S / 2)
    for _ in range(TRIES - 1):
        assert 403 == tried(wrong, PAUSE_S + 1)
    assert [door.code] == told
    assert code != door.code
    assert 403 == tried(code, PAUSE_S + 1)
    assert 303 == tried(str(door.code), PAUSE_S + 1)
    assert 200 == client.get("/").status_code


def test_a_body_that_hides_its_length(client: TestClient, folder: Path) -> None:
    """A body sent in pieces without a length is cut off at the limit."""

    def pieces() -> Iterator[bytes]:
        for _ in range(200):
            yield b" " * 1000

    before = contents(folder)
    assert 413 == client.post("/edit", content=pieces(), headers=JSON).status_code
    assert before == contents(folder)


SCRIPT = "<script>alert(1)</script> <img src=x onerror=alert(2)> \" ' {{ 7 * 7 }} Bucket is cracked."


@pytest.fixture
def scripted(tmp_path: Path, heard: Walk, told: Told) -> TestClient:
    """A walk in which every word that comes from outside is a script."""
    text = SCRIPT.ljust(len(heard.transcript.text))
    transcript = heard.transcript.model_copy(update={"text": text})
    source = heard.source.model_copy(update={"name": SCRIPT})
    machine = heard.machine.model_copy(update={"unit": SCRIPT})
    findings = [
        one.model_copy(
            update={"part": SCRIPT, "condition": SCRIPT, "review_reasons": [SCRIPT], "needs_review": True}
        )
        for one in heard.findings
    ]
    update = {"transcript": transcript, "source": source, "machine": machine, "findings": findings}
    client, door = client_of(lay(tmp_path / "scripted", heard.model_copy(update=update)), told)
    client.get(f"/open/{door.token}")
    return client


def test_script_in_words_stays_words(scripted: TestClient) -> None:
    """Nothing that was said, and nothing that is typed or sent, becomes a tag or is worked out."""
    finding = scripted.get("/changes").json()["order"][0]["entries"][0].removeprefix("f-")
    given = wish(
        action="change",
        who=SCRIPT[:60],
        findings=[finding],
        patches=[{"part": SCRIPT[:50], "state": "watch"}],
    )
    answer = scripted.post("/edit", content=given, headers=JSON)
    assert 200 == answer.status_code, answer.text
    page = scripted.get("/").text
    told = answer.json()
    html = "".join([page, *told["html"].values(), *told["words"].values(), told["strip"]])
    assert "&lt;script&gt;alert(1)" in html
    assert "<script>alert" not in html
    assert "<img src=x" not in html
    assert "49" not in "".join(answer.json()["html"].values())


def test_a_file_name_is_only_words(client: TestClient, folder: Path) -> None:
    """A photograph with a wicked name lies under a name of ours."""
    for name in ("../../walk.json", "<script>.png", "a\x00b.png", "C:\\con", "." * 300):
        assert 200 == client.post("/photographs", **multipart(content=png(len(name)), name=name)).status_code
    names = {path.name for path in (folder / "photos").iterdir()}
    assert 5 == len(names)
    assert all(name.endswith(".png") and name.removesuffix(".png").isalnum() for name in names)
    for name in names:
        shown = client.get(f"/photographs/{name}")
        assert ("image/png", "nosniff") == (
            shown.headers["content-type"],
            shown.headers["x-content-type-options"],
        )


def test_no_page_asks_for_anything_outside(client: TestClient) -> None:
    """Page, styles and modules name no other host, and hold no script or style of their own in the page."""
    page = client.get("/").text
    files = [
        "ink.css",
        "page.css",
        "main.js",
        "sheet.js",
        "send.js",
        "form.js",
        "words.js",
        "sound.js",
        "icon.svg",
    ]
    for text in (page, *(client.get(f"/static/{name}").text for name in files)):
        outside = text.replace("http://www.w3.org/2000/svg", "")
        assert "http://" not in outside
        assert "https://" not in outside
    assert "<style" not in page
    assert " style=" not in page
    assert " onclick" not in page
