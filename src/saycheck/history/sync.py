"""Brings the index up to date with the walk folders: what is new, changed or gone since it was last asked."""

import gc
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field

from sqlalchemy import Connection, delete, insert, select

from saycheck.errors import SaycheckError
from saycheck.history.derive import derive
from saycheck.history.folders import walk_folders
from saycheck.history.index import Index
from saycheck.history.names import unit_key
from saycheck.history.records import Walked
from saycheck.history.rows import insert_rows, insert_walks, next_number
from saycheck.history.sense import words_version
from saycheck.history.tables import OF_A_WALK, UnitRow, WalkRow, about, units, walks
from saycheck.history.take import take

WORDS = "words"
BATCH = 500
"""So many walks are held in memory at a time."""


@dataclass
class Synced:
    """What was found: counts of walks read anew and of walks gone, and a sentence for each unreadable one."""

    read: int = 0
    gone: int = 0
    problems: list[str] = field(default_factory=list)


def sync(index: Index, anew: bool = False) -> Synced:
    """Take in every walk folder that is new or has changed, and forget those that are gone.

    With ``anew`` all walks of this folder are read again and all units worked out again. So are the units in
    an index of one's own when words have changed; a shared one waits until it is asked for. A walk that cannot
    be read is left out with its sentence, and read again once its files change.

    Raises:
        HistoryError: there is no walks folder, or the database refuses.
    """
    words = words_version()
    there = {_key(name): (name, stamp) for name, stamp in walk_folders(index.walks)}
    if not anew and _unchanged(index, there, words):
        return Synced(problems=_problems(index))
    with index.changing() as connection, _without_collecting():
        known = _known(connection, index.root)
        stale = {
            name: number
            for name, (number, stamp) in known.items()
            if anew or name not in there or there[name][1] != stamp
        }
        changed = _forget(connection, list(stale.values()))
        fresh = [(key, *there[key]) for key in there if key in stale or key not in known]
        done = Synced(gone=sum(name not in there for name in stale))
        for start in range(0, len(fresh), BATCH):
            changed |= _take_in(connection, index, fresh[start : start + BATCH], done)
        if anew or (index.own and _words(connection) != words):
            changed = set(connection.scalars(select(units.c.id)))
        derive(connection, changed)
        if anew or index.own:
            _keep_words(connection, words)
    done.problems = _problems(index)
    return done


@contextmanager
def _without_collecting() -> Iterator[None]:
    """While this lasts Python looks for no garbage in circles: walks make none, and the search costs a fifth."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _key(name: str) -> str:
    """The path of a folder as the index writes it, whatever bytes are in it."""
    return name.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace").replace("\0", "")


def _unchanged(index: Index, there: dict[str, tuple[str, str]], words: str) -> bool:
    with index.reading() as connection:
        known = _known(connection, index.root)
        if index.own and _words(connection) != words:
            return False
    return {name: stamp for name, (_, stamp) in known.items()} == {
        name: stamp for name, (_, stamp) in there.items()
    }


def _words(connection: Connection) -> str | None:
    """Which vocabulary the index was worked out with."""
    return connection.scalar(select(about.c.value).where(about.c.name == WORDS))


def _keep_words(connection: Connection, words: str) -> None:
    connection.execute(delete(about).where(about.c.name == WORDS))
    connection.execute(insert(about).values(name=WORDS, value=words))


def _known(connection: Connection, root: str) -> dict[str, tuple[int, str]]:
    rows = connection.execute(select(walks.c.folder, walks.c.id, walks.c.stamp).where(walks.c.root == root))
    return {folder: (number, stamp) for folder, number, stamp in rows}


def _problems(index: Index) -> list[str]:
    with index.reading() as connection:
        asked = select(walks.c.problem).where(walks.c.problem.is_not(None), walks.c.root == index.root)
        return list(connection.scalars(asked.order_by(walks.c.folder)))


def _forget(connection: Connection, numbers: Sequence[int]) -> set[int]:
    """Take walks out; returns the units they belonged to."""
    changed: set[int] = set()
    for start in range(0, len(numbers), BATCH):
        some = numbers[start : start + BATCH]
        of = select(walks.c.unit_id).where(walks.c.id.in_(some), walks.c.unit_id.is_not(None)).distinct()
        changed |= set(connection.scalars(of))
        for table in OF_A_WALK:
            connection.execute(delete(table).where(table.c.walk.in_(some)))
        connection.execute(delete(walks).where(walks.c.id.in_(some)))
    return changed


def _take_in(
    connection: Connection, index: Index, fresh: Iterable[tuple[str, str, str]], done: Synced
) -> set[int]:
    """Read walks and put them in; returns the units they belong to."""
    taken: list[tuple[Walked, str]] = []
    bad: list[WalkRow] = []
    for key, name, stamp in fresh:
        try:
            walked = take(index.walks / name, key)
        except SaycheckError as error:
            problem = str(error)
        except OSError as error:
            problem = f"'{index.walks / name}' cannot be read ({error.strerror}); check who may read it"
        else:
            done.read += 1
            taken.append((walked, stamp))
            continue
        bad.append(WalkRow(index.root, key, stamp, _key(problem)))
    if bad:
        first = next_number(connection)
        numbered = [(number, *row) for number, row in enumerate(bad, first)]
        insert_rows(connection, walks, ("id", *WalkRow._fields), numbered)
    of = unit_numbers(connection, [walked for walked, _ in taken])
    insert_walks(connection, index.root, taken, of)
    return set(of.values())


def unit_numbers(connection: Connection, walked: Sequence[Walked]) -> dict[tuple[str, str], int]:
    """The number of each unit walked, by key and kind; units not met before get one."""
    wanted = {(unit_key(one.unit), one.kind): one.unit for one in walked if one.unit}
    found: dict[tuple[str, str], int] = {}
    if not wanted:
        return found
    keys = sorted({key for key, _ in wanted})
    asked = select(units.c.key, units.c.kind, units.c.id).where(units.c.key.in_(keys))
    for missing in (False, True):
        if missing:
            new = [
                UnitRow(kind, key, name) for (key, kind), name in wanted.items() if (key, kind) not in found
            ]
            insert_rows(connection, units, UnitRow._fields, new)
        found = {(key, kind): number for key, kind, number in connection.execute(asked)}
    return {pair: number for pair, number in found.items() if pair in wanted}
