"""A PostgreSQL of one's own for as long as it is needed: on a socket in a folder of its own, which goes with it.

Its locale is not C, so that what compares texts byte by byte must say so itself. Used by ``bench/history.py`` and
by the tests.
"""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path


class MissingError(Exception):
    """Why there can be none here, in one sentence."""


def programs() -> Path | None:
    """Where PostgreSQL keeps its server programs; None where it is not installed."""
    on_path = shutil.which("initdb")
    found = [*Path("/usr/lib/postgresql").glob("*/bin/initdb"), *([Path(on_path)] if on_path else [])]
    return sorted(found)[-1].parent if found else None


@contextmanager
def running() -> Iterator[str]:
    """A context with the URL of the server.

    Raises:
        MissingError: PostgreSQL or its driver is not installed, or nobody may run it.
        RuntimeError: it is there and does not start.
    """
    bin_folder = programs()
    if bin_folder is None:
        raise MissingError("PostgreSQL is not installed (Debian package postgresql)")
    if find_spec("psycopg") is None:
        raise MissingError("psycopg is not installed (extra fleet)")
    as_user = _other_user()
    home = Path(tempfile.mkdtemp(prefix="saycheck-pg-"))
    if as_user:
        shutil.chown(home, "postgres")

    def run(program: str, *words: str) -> None:
        command = [*as_user, str(bin_folder / program), *words]
        done = subprocess.run(command, capture_output=True, text=True, cwd=home, timeout=60)
        if done.returncode:
            raise RuntimeError(f"{program} failed: {done.stdout} {done.stderr}")

    data = home / "data"
    run("initdb", "-D", str(data), "-U", "saycheck", "--auth=trust", "--locale=C.UTF-8", "--encoding=UTF8",
        "--locale-provider=icu", "--icu-locale=en-US", "--no-sync")  # fmt: skip
    options = f"-c listen_addresses= -c unix_socket_directories={home} -c fsync=off"
    run("pg_ctl", "-D", str(data), "-l", str(home / "log"), "-o", options, "-w", "start")
    try:
        yield f"postgresql://saycheck@/postgres?host={home}"
    finally:
        run("pg_ctl", "-D", str(data), "-m", "immediate", "-w", "stop")
        shutil.rmtree(home, ignore_errors=True)


def _other_user() -> list[str]:
    """What to put before a command so that it does not run as root, which PostgreSQL refuses."""
    if os.name != "posix" or os.geteuid() != 0:
        return []
    import pwd

    try:
        pwd.getpwnam("postgres")
    except KeyError as error:
        raise MissingError("PostgreSQL does not run as root and there is no user postgres") from error
    return ["runuser", "-u", "postgres", "--"]
