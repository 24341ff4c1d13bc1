"""The ways in: the link from the terminal, and the code for a tablet in the yard."""

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from saycheck.page.door import Door
from saycheck.page.setting import environment

CODE_LONGEST = 200
"""Bytes of the form that brings the code."""


async def by_link(request: Request) -> Response:
    """Spend the token of the link for a cookie."""
    door: Door = request.app.state.door
    cookie = door.by_token(request.path_params["token"])
    if cookie is None:
        return _shown(
            request, "This link has been used or is another run's. The terminal shows a new one.", 403
        )
    return _inside(door, cookie)


async def enter(request: Request) -> Response:
    """Ask for the code that stands in the terminal, and take it."""
    door: Door = request.app.state.door
    if door.code is None:
        return _shown(request, "Open the link that stands in the terminal.", 403)
    if request.method != "POST":
        return _shown(request, "", 200)
    form = await request.form(max_files=0, max_fields=2, max_part_size=CODE_LONGEST)
    cookie = door.by_code(str(form.get("code", "")))
    if cookie is None:
        return _shown(
            request, "That is not the code, or it came too soon after the last. Wait and try again.", 403
        )
    return _inside(door, cookie)


def _inside(door: Door, cookie: str) -> Response:
    answer = RedirectResponse("/", 303)
    answer.set_cookie(door.cookie, cookie, httponly=True, samesite="strict", path="/")
    return answer


def _shown(request: Request, told: str, status: int) -> Response:
    door: Door = request.app.state.door
    text = environment().get_template("enter.html").render(told=told, asks=door.code is not None)
    return HTMLResponse(text, status)
