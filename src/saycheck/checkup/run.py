"""The whole checkup: shapes first, then what the files say, then the list of each machine kind and unit."""

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from saycheck.checkup.fault import Fault
from saycheck.checkup.lists import wrong_lists
from saycheck.checkup.names import without_source, wrong_names
from saycheck.checkup.shapes import repeated_words, wrong_shapes
from saycheck.errors import SaycheckError
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import files_of, kinds, load, roots_of
from saycheck.vocabulary.stack import Stack, stacked
from saycheck.vocabulary.unit import units_of


def checkup(
    folders: Sequence[Path] = (), loaded: Callable[[Vocabulary], None] = print, only: Sequence[str] = ()
) -> list[Fault]:
    """All faults of the vocabulary, in the order of files and lines.

    ``loaded`` is told of every machine kind and unit that could be read. ``only`` names the machine kinds
    whose lists are looked through, all where it names none.
    """
    roots = roots_of(folders)
    faults = list(wrong_shapes(roots))
    if faults:  # what is misshapen cannot be read any further
        return sorted(set(faults))
    faults += repeated_words(roots)
    read: list[tuple[Vocabulary, Stack]] = []
    for kind, unit in _all(folders, roots):
        try:
            read.append((load(kind, folders, unit), stacked(files_of(kind, folders, unit))))
        except SaycheckError as error:
            faults.append(_fault_of(error))
            continue
        loaded(read[-1][0])
    for vocabulary, stack in [one for one in read if not only or one[0].kind in only]:
        faults += wrong_lists(vocabulary, stack)
    if read:
        faults += wrong_names(roots, [vocabulary for vocabulary, _ in read], read[0][1])
        faults += without_source(roots, [stack for _, stack in read])
    return sorted(set(faults))


def _all(folders: Sequence[Path], roots: Sequence[Path]) -> Iterator[tuple[str, str | None]]:
    """Every machine kind, then every unit with its kind."""
    for kind in kinds(folders):
        yield kind, None
    for name, machine in units_of(roots):
        yield machine, name


def _fault_of(error: SaycheckError) -> Fault:
    """The fault that loading stopped at; its message begins with file and line."""
    place, _, sentence = str(error).partition(": ")
    label, _, line = place.partition(", line ")
    return Fault(label, int(line), sentence) if line.isdigit() else Fault("vocabulary", 1, str(error))
