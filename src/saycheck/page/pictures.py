"""Photographs on the page: sent, shown and taken off."""

from typing import Annotated

from pydantic import Field
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response

from saycheck.models.base import Model
from saycheck.models.wishes import Ident, Name
from saycheck.page.desk import Desk
from saycheck.page.writing import answered, taken
from saycheck.review.photographs import FOLDER, attaching, detaching, keep, media_type


async def attach(request: Request) -> Response:
    """Keep a photograph that was sent, and attach it to a finding."""
    desk: Desk = request.app.state.desk
    if not request.headers.get("content-type", "").startswith("multipart/form-data"):
        raise HTTPException(415, "send a form with one photograph")
    async with request.form(max_files=1, max_fields=4) as form:
        file = form.get("photograph")
        finding, who = str(form.get("finding", ""))[:120], str(form.get("who", "")).strip()[:80]
        if not isinstance(file, UploadFile) or not finding:
            raise HTTPException(400, "send one photograph and the finding that it shows")
        content, name = await file.read(), file.filename or ""
    there = {one.id for one in desk.sheet().standing.walk.findings}
    if finding not in there:
        raise HTTPException(400, "there is no such finding any more; load the page again")
    photograph = await run_in_threadpool(keep, desk.folder, content, finding, name)
    made = await run_in_threadpool(
        desk.add, lambda standing: [attaching(standing, [photograph], who or "someone")]
    )
    since = request.headers.get("saycheck-since", "")[:40]
    return JSONResponse(await run_in_threadpool(answered, desk, made, since, None))


async def show(request: Request) -> Response:
    """A photograph that is attached, or was."""
    desk: Desk = request.app.state.desk
    wanted = request.path_params["file"]
    known = {p.file for edit in desk.sheet().standing.edits for p in edit.photographs}
    path = desk.folder / FOLDER / wanted
    if wanted not in known or "/" in wanted or not path.is_file():
        raise HTTPException(404, "there is no such photograph")
    return FileResponse(path, media_type=media_type(wanted))


class Off(Model):
    """Which finding a photograph is taken off, and by whom."""

    finding: Ident
    who: Annotated[Name, Field()]


async def detach(request: Request) -> Response:
    """Take a photograph off a finding; the picture stays in the folder, and undo brings it back."""
    desk: Desk = request.app.state.desk
    off = await taken(request, Off)
    file = request.path_params["file"]
    made = await run_in_threadpool(
        desk.add, lambda standing: [detaching(standing, off.finding, file, off.who)]
    )
    since = request.headers.get("saycheck-since", "")[:40]
    return JSONResponse(await run_in_threadpool(answered, desk, made, since, None))
