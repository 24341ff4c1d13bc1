"""What the page asks to be changed, one wish at a time."""

import json
from typing import Any, TypeVar

from pydantic import ValidationError
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from saycheck.models.base import Model
from saycheck.models.review import Edit
from saycheck.models.wishes import Wish
from saycheck.page import news, setting
from saycheck.page.desk import Desk
from saycheck.page.proposing import proposal_for

M = TypeVar("M", bound=Model)


async def edit(request: Request) -> Response:
    """Do a wish, and answer with what has changed on the page since the browser last looked."""
    desk: Desk = request.app.state.desk
    wish = await taken(request, Wish)
    since = request.headers.get("saycheck-since", "")[:40]
    made = await run_in_threadpool(desk.do, wish)
    return JSONResponse(await run_in_threadpool(answered, desk, [made], since, wish.seen))


def answered(desk: Desk, made: list[Edit], since: str, seen: str | None) -> dict[str, Any]:
    """What a browser is told after its edits: what is on the page now, and what others did meanwhile."""
    changed = setting.changes(desk, since)
    edits = desk.sheet().standing.edits
    ours = {one.id for one in made}
    meanwhile = [one for one in news.since(edits, seen)[-20:] if one.id not in ours] if seen else []
    clashing = [sentence for one in made for sentence in news.clashes(one, meanwhile)]
    told = clashing or [news.sentence(one, edits) for one in meanwhile[-5:]]
    return changed | {
        "made": [one.id for one in made],
        "done": [news.sentence(one, edits) for one in made],
        "news": told,
    }


class Place(Model):
    """Words of the transcript."""

    start: int
    end: int


async def proposal(request: Request) -> Response:
    """What some words of the transcript would be as a finding, as far as they can be understood."""
    desk: Desk = request.app.state.desk
    place = await taken(request, Place)
    return JSONResponse(await run_in_threadpool(proposal_for, desk, place.start, place.end))


async def taken(request: Request, model: type[M]) -> M:
    """The body of a request as a model; anything else is refused."""
    if request.headers.get("content-type", "").split(";")[0].strip() != "application/json":
        raise HTTPException(415, "send JSON")
    body = await request.body()
    try:
        return model.model_validate(json.loads(body))
    except (ValidationError, ValueError, RecursionError) as error:
        raise HTTPException(400, _brief(error)) from error


def _brief(error: Exception) -> str:
    if isinstance(error, ValidationError):
        first = error.errors()[0]
        where = ".".join(str(step) for step in first["loc"])
        return f"{where or 'the request'}: {first['msg'].lower()}"
    return "this is no JSON"
