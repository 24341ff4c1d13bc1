"""The index: a database that answers fast what walk folders hold, and that may be thrown away at any time.

SQLite in the user's cache folder unless a database is named by URL, for a fleet on PostgreSQL say; the same
code runs on both.
"""

import hashlib
import platform
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, event, insert, inspect, select
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError, SQLAlchemyError

from saycheck.errors import HistoryError
from saycheck.history.tables import VERSION, about, metadata

URL_VARIABLE = "SAYCHECK_HISTORY"
"""The environment variable that names the database."""
WAIT_S = 30


class Index:
    """An open index. ``root`` names the walks folder on this computer as rows of it are marked.

    ``own`` is true for the one in the user's cache folder, which nobody else uses.
    """

    def __init__(self, engine: Engine, walks: Path, own: bool = False) -> None:
        self.engine = engine
        self.walks = walks
        self.own = own
        self.root = f"{platform.node()}:{walks.resolve().as_posix()}"

    @contextmanager
    def changing(self) -> Iterator[Connection]:
        """A transaction that no other program shares; all of it counts or nothing."""
        writing = self.engine.execution_options(writing=True)
        with told(self.engine), writing.begin() as connection:
            connection.execute(
                select(about.c.value).where(about.c.name == "version").with_for_update()
            )  # PostgreSQL waits here for its turn; SQLite has waited already
            yield connection

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A connection to ask questions with."""
        with told(self.engine), self.engine.connect() as connection:
            yield connection


@contextmanager
def opened(walks: Path, url: str | None = None, anew: bool = False) -> Iterator[Index]:
    """A context with the index of a walks folder; its tables are made where there are none.

    ``url`` is a database URL as SQLAlchemy takes it, None for the index in the user's cache folder. With
    ``anew`` tables of another version are thrown away.

    Raises:
        HistoryError: the database cannot be reached or used, or another version of the program made it.
    """
    engine = _engine(url) if url else _own(walks, anew)
    try:
        with told(engine):
            _prepare(engine, keep=url is not None and not anew)
        yield Index(engine, walks, own=url is None)
    finally:
        engine.dispose()


def drop(engine: Engine) -> None:
    """Take away all that the index holds, and nothing else that the database may hold."""
    with told(engine), engine.execution_options(writing=True).begin() as connection:
        metadata.drop_all(connection)
        metadata.create_all(connection)
        connection.execute(insert(about).values(name="version", value=VERSION))


def own_file(walks: Path) -> Path:
    """The index of a walks folder in the user's cache folder."""
    from platformdirs import user_cache_path

    name = hashlib.sha256(str(walks.resolve()).encode("utf-8", "surrogateescape")).hexdigest()[:16]
    return user_cache_path("saycheck") / "history" / f"{name}.sqlite"


def _own(walks: Path, anew: bool) -> Engine:
    file = own_file(walks)
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise HistoryError(
            f"the folder '{file.parent}' for the index cannot be made ({error.strerror}); set XDG_CACHE_HOME "
            f"to a folder that can be written, or name a database in {URL_VARIABLE}"
        ) from error
    if file.exists() and (anew or not _is_sqlite(file)):
        for ending in ("", "-wal", "-shm"):  # it was only an index
            file.with_name(file.name + ending).unlink(missing_ok=True)
    return _engine(f"sqlite:///{file}")


def _is_sqlite(file: Path) -> bool:
    head = file.open("rb").read(16)
    return head in (b"", b"SQLite format 3\0")


def _engine(url: str) -> Engine:
    try:
        parsed = make_url(url)
        if parsed.drivername in ("postgresql", "postgres"):
            parsed = parsed.set(drivername="postgresql+psycopg")
        engine = create_engine(parsed, connect_args=_waiting(parsed.get_backend_name()))
    except (ArgumentError, NoSuchModuleError, ValueError) as error:
        raise HistoryError(
            f"'{url}' names no database; write it like sqlite:///history.sqlite or "
            "postgresql://user@host/fleet"
        ) from error
    except ModuleNotFoundError as error:
        raise HistoryError(
            f"the database '{parsed.render_as_string()}' needs the package '{error.name}'; "
            'pip install "saycheck[fleet]" brings it'
        ) from error
    if engine.dialect.name == "sqlite":
        _take_turns(engine)
    return engine


def _waiting(backend: str) -> dict[str, object]:
    return {"timeout": WAIT_S} if backend == "sqlite" else {}


def _take_turns(engine: Engine) -> None:
    """Let SQLite begin writing at the beginning, so that two programs wait for each other and never fail."""

    @event.listens_for(engine, "connect")
    def _(connection: object, _record: object) -> None:
        connection.isolation_level = None  # type: ignore[attr-defined]
        for setting in ("journal_mode=WAL", "synchronous=OFF", "foreign_keys=OFF", "cache_size=-65536"):
            connection.execute(f"PRAGMA {setting}")  # type: ignore[attr-defined]

    @event.listens_for(engine, "begin")
    def _(connection: Connection) -> None:
        writing = connection.get_execution_options().get("writing")
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


def _prepare(engine: Engine, keep: bool) -> None:
    """See that the tables are there and of this version; ``keep`` throws none of another version away."""
    version = _version(engine)
    if version is None:
        _make(engine)
        version = _version(engine)
    if version == VERSION:
        return
    if keep:
        raise HistoryError(
            f"the index at '{engine.url.render_as_string()}' is of version '{version}' and this program "
            f"uses '{VERSION}'; `saycheck history rebuild` makes it again"
        )
    drop(engine)


def _version(engine: Engine) -> str | None:
    with engine.connect() as connection:
        if not inspect(connection).has_table(about.name):
            return None
        return connection.scalar(select(about.c.value).where(about.c.name == "version"))


def _make(engine: Engine) -> None:
    """Make the tables, unless another program has made them in the same moment."""
    try:
        with engine.execution_options(writing=True).begin() as connection:
            if not inspect(connection).has_table(about.name):
                metadata.create_all(connection)
                connection.execute(insert(about).values(name="version", value=VERSION))
    except DBAPIError:
        if _version(engine) is None:
            raise


@contextmanager
def told(engine: Engine) -> Iterator[None]:
    """Turn what a database refuses into one sentence."""
    try:
        yield
    except SQLAlchemyError as error:
        why = str(getattr(error, "orig", None) or error).strip().splitlines()
        hint = "look whether it runs and who may use it"
        if engine.dialect.name == "sqlite":
            hint = "look who may write there, or make it again with `saycheck history rebuild`"
        raise HistoryError(
            f"the database '{engine.url.render_as_string()}' refused ({why[0] if why else 'no reason given'}); {hint}"
        ) from error
