"""Serving the page: where it listens, what the terminal shows, and how it ends."""

import gc
import socket
from collections.abc import Callable
from pathlib import Path

import uvicorn

from saycheck.errors import ReviewError
from saycheck.page.application import application
from saycheck.page.desk import Desk
from saycheck.page.door import Door

THIS_MACHINE = "127.0.0.1"
ANYWHERE = "0.0.0.0"


def serve(folder: Path, who: str, port: int, lan: bool, show: Callable[[str], None]) -> None:
    """Serve the review of a walk until it is stopped; ``port`` 0 takes a free one.

    ``show`` is given each line for the terminal: the link, with ``lan`` also address and code.

    Raises:
        SaycheckError: there is no walk, or the port is taken.
    """
    desk = Desk(folder)
    desk.sheet()  # what is wrong with the walk is told before anything is served
    gc.freeze()  # a long walk is a million objects that stay: not to be looked through at each edit
    listening = _listen(ANYWHERE if lan else THIS_MACHINE, port)
    port = listening.getsockname()[1]
    hosts = {f"{name}:{port}" for name in (THIS_MACHINE, "localhost")}
    address = own_address() if lan else None
    if address:
        hosts.add(f"{address}:{port}")

    def told(secret: str) -> None:
        if secret.isdecimal() and len(secret) == 6:
            show(f"too many wrong codes; the code is now {secret}")
        else:
            show(f"for another browser: http://{THIS_MACHINE}:{port}/open/{secret}")

    door = Door(port, lan, told)
    show(f"open http://{THIS_MACHINE}:{port}/open/{door.token}")
    if lan and address:
        show(f"on the tablet: http://{address}:{port}/ and there the code {door.code}")
        show("anyone on this network can see what goes over it; use --lan only on a network of your own")
    show("Ctrl-C ends it; every edit is kept as soon as it is made")
    app = application(desk, door, hosts, who)
    config = uvicorn.Config(
        app, log_level="error", access_log=False, server_header=False, date_header=False,
        h11_max_incomplete_event_size=32 * 1024, timeout_keep_alive=30, timeout_graceful_shutdown=2, lifespan="off",
    )  # fmt: skip
    uvicorn.Server(config).run(sockets=[listening])


def own_address() -> str | None:
    """The address of this machine on the local network; None where there is no network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # RFC 5737: an address for examples; nothing is sent
        except OSError:
            return None
        return str(probe.getsockname()[0])


def _listen(host: str, port: int) -> socket.socket:
    # Named as TCP, since asyncio leaves the waiting of small answers (Nagle) on where it is not: 40 ms an edit.
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))
    except OSError as error:
        listening.close()
        raise ReviewError(
            f"port {port} cannot be used ({error.strerror}); leave --port out to take a free one"
        ) from error
    listening.listen(64)
    listening.set_inheritable(False)
    return listening
