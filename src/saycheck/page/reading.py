"""What the page asks for and changes nothing: itself, what has changed, a finding, words of the trade, sound."""

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, JSONResponse, Response

from saycheck.page import news, setting
from saycheck.page import sound as sounds
from saycheck.page.desk import Desk
from saycheck.review.measures import known_units
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Conditions


async def page(request: Request) -> Response:
    """The page."""
    desk: Desk = request.app.state.desk
    return HTMLResponse(await run_in_threadpool(setting.page, desk, request.app.state.who))


async def changes(request: Request) -> Response:
    """What has changed since the sheet that the browser has, and who did it."""
    desk: Desk = request.app.state.desk
    since = request.query_params.get("since", "")[:40]
    seen = request.query_params.get("seen", "")[:40]
    found = await run_in_threadpool(setting.changes, desk, since)
    edits = desk.sheet().standing.edits
    found["news"] = [news.sentence(edit, edits) for edit in news.since(edits, seen)[-5:]]
    return JSONResponse(found)


async def finding(request: Request) -> Response:
    """A finding as the form needs it."""
    desk: Desk = request.app.state.desk
    wanted = request.path_params["id"]
    for one in desk.sheet().standing.walk.findings:
        if one.id == wanted:
            keep = {"id", "zone", "part", "side", "state", "condition", "denied", "measurements"}
            return JSONResponse(one.model_dump(mode="json", include=keep))
    raise HTTPException(404, "there is no such finding any more; load the page again")


async def vocabulary(request: Request) -> Response:
    """Parts with their sayings, conditions and units, to choose from while typing."""
    desk: Desk = request.app.state.desk
    known = desk.vocabulary
    conditions = [
        one.name for table in shared_tables("conditions.toml", Conditions) for one in table.condition
    ]
    parts = [
        {
            "name": part.name,
            "sayings": list(part.sayings[:40]),
            "sided": part.sided,
            "zones": list(part.zones),
        }
        for part in known.parts
    ]
    return JSONResponse({"parts": parts, "conditions": sorted(set(conditions)), "units": list(known_units())})


async def piece(request: Request) -> Response:
    """A few seconds of sound as WAV, whole or the bytes that are asked for."""
    desk: Desk = request.app.state.desk
    try:
        start, end = (float(request.query_params[name]) for name in ("from", "to"))
    except (KeyError, ValueError):
        raise HTTPException(400, "say from and to in seconds") from None
    if not 0 <= start < end < 1e6:
        raise HTTPException(400, "from must be before to, both in seconds")
    content = await run_in_threadpool(sounds.piece, desk.sound, start, end)
    return _bytes(request, content, "audio/wav")


async def sound(request: Request) -> Response:
    """The whole recording; a player asks for the bytes that it needs."""
    desk: Desk = request.app.state.desk
    if not desk.sound.is_file():
        raise HTTPException(404, "this walk has no sound")
    return FileResponse(desk.sound, media_type="audio/flac")


def _bytes(request: Request, content: bytes, media_type: str) -> Response:
    """The bytes that the Range header asks for, all without it (RFC 9110, 14.2; one range only)."""
    unit, _, wanted = request.headers.get("range", "").partition("=")
    first, dash, last = wanted.partition("-")
    if unit != "bytes" or not dash or "," in wanted or not (first + last).isdecimal() or len(wanted) > 30:
        return Response(content, media_type=media_type, headers={"accept-ranges": "bytes"})
    size = len(content)
    start = int(first) if first else max(size - int(last), 0)
    end = min(int(last), size - 1) if first and last else size - 1
    if start > end:
        return Response(status_code=416, headers={"content-range": f"bytes */{size}"})
    headers = {"content-range": f"bytes {start}-{end}/{size}", "accept-ranges": "bytes"}
    return Response(content[start : end + 1], 206, headers, media_type)
