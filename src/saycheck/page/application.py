"""The application: its routes behind the guard."""

from collections.abc import Callable, Collection

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from saycheck.errors import ReviewError, SaycheckError
from saycheck.page import entrance, pictures, reading, writing
from saycheck.page.desk import Desk
from saycheck.page.door import Door
from saycheck.page.guard import Guard
from saycheck.page.setting import HERE
from saycheck.review.photographs import LARGEST


def application(desk: Desk, door: Door, hosts: Collection[str], who: str) -> Starlette:
    """The application for one walk; ``hosts`` are the names it answers to, ``who`` signs edits at first."""
    routes = [
        Route("/", reading.page),
        Route("/changes", reading.changes),
        Route("/finding/{id}", reading.finding),
        Route("/vocabulary", reading.vocabulary),
        Route("/piece.wav", reading.piece),
        Route("/sound.flac", reading.sound),
        Route("/edit", writing.edit, methods=["POST"]),
        Route("/proposal", writing.proposal, methods=["POST"]),
        Route("/photographs", pictures.attach, methods=["POST"]),
        Route("/photographs/{file}", pictures.show),
        Route("/photographs/{file}/off", pictures.detach, methods=["POST"]),
        Route("/open/{token}", entrance.by_link),
        Route("/enter", entrance.enter, methods=["GET", "POST"]),
        Mount("/static", StaticFiles(directory=HERE / "static")),
    ]
    larger = {"/photographs": LARGEST + 64 * 1024}
    app = Starlette(
        routes=routes,
        middleware=[Middleware(Guard, door=door, hosts=hosts, larger=larger)],
        exception_handlers={ReviewError: _refused(400), SaycheckError: _refused(500), HTTPException: _plain},
    )
    app.state.desk, app.state.door, app.state.who = desk, door, who
    return app


def _refused(status: int) -> Callable[[Request, Exception], Response]:
    """Answers with the sentence of an error of ours."""

    def answer(_: Request, error: Exception) -> Response:
        return JSONResponse({"refused": str(error)}, status)

    return answer


def _plain(_: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    return JSONResponse({"refused": error.detail}, error.status_code, headers=error.headers)
