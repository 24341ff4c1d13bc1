"""Findings as they stand after the edits: what was heard, with every edit that has not been undone."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from saycheck.models.review import Difference, Edit, Photograph, Settled
from saycheck.models.walk import Evidence, Finding, Machine, Walk
from saycheck.review.hearing import alike, fingerprint, moved, same_as


@dataclass
class Replayed:
    """What the edits leave: findings in order of speech, and what else they say.

    ``settled`` goes by finding id, ``answered`` by question id. ``passages`` are the words that were
    settled as talk, each with its edit.
    """

    findings: list[Finding]
    machine: Machine
    settled: dict[str, Settled] = field(default_factory=dict)
    answered: dict[str, Settled] = field(default_factory=dict)
    passages: list[tuple[Evidence, Edit]] = field(default_factory=list)
    dropped: dict[str, tuple[Finding, Edit]] = field(default_factory=dict)
    photographs: list[Photograph] = field(default_factory=list)
    differences: list[Difference] = field(default_factory=list)
    lost: list[Finding] = field(default_factory=list)
    """Findings of the hearing before that are not heard now and that nobody edited."""


@dataclass(frozen=True)
class Stacks:
    """Ids of the edits that count, oldest first, and of those that redo would bring back, next one last."""

    done: list[str]
    undone: list[str]


def stacks(edits: Iterable[Edit]) -> Stacks:
    """Which edits count and which could be redone; something new after an undo leaves nothing to redo.

    What can no longer be redone stays in the log, with its findings.
    """
    done: list[str] = []
    undone: list[str] = []
    for edit in edits:
        if edit.action == "undo":
            if edit.refers in done:
                done.remove(edit.refers)
                undone.append(edit.refers)
        elif edit.action == "redo":
            if edit.refers in undone:
                undone.remove(edit.refers)
                done.append(edit.refers)
        else:
            done.append(edit.id)
            undone.clear()
    return Stacks(done, undone)


def replay(heard: Walk, edits: Sequence[Edit], earlier: Sequence[Walk] = ()) -> Replayed:
    """The findings of ``heard`` after the edits, in order of speech.

    ``earlier`` are earlier hearings of the walk; with them it can be told what is heard for the first time
    and what is not heard any more.
    """
    counting = set(stacks(edits).done)
    replaying = _Replaying(heard)
    for edit in edits:
        names = replaying.names(edit)
        if edit.id in counting:
            replaying.apply(edit, names)
    return replaying.result(earlier)


class _Replaying:
    """The state of a replay; ids of earlier hearings are carried over to those of now."""

    def __init__(self, heard: Walk) -> None:
        self.heard = heard
        self.now = fingerprint(heard)
        self.findings = {finding.id: finding for finding in heard.findings}
        self.out = Replayed([], heard.machine)
        self.met: dict[tuple[str, str], str] = {}
        self.made: dict[tuple[str, str], str] = {}
        self.elsewhere = ""

    def names(self, edit: Edit) -> dict[str, str]:
        """The ids that the findings of an edit have now, by the ids that they have in it."""
        names = {was.id: self._find(edit, was) for was in edit.before}
        self.made |= {(edit.id, made.id): names.get(made.id, made.id) for made in edit.after}
        return names

    def apply(self, edit: Edit, names: dict[str, str]) -> None:
        """Do what an edit does."""
        ids = list(names.values())
        if self._is_now(edit):
            self.out.differences = [one for one in self.out.differences if one.finding not in ids]
        gone = {name: self.findings.pop(name, None) for name in ids}
        for made in edit.after:
            finding = self._carried(edit, made, names)
            self.findings[finding.id] = finding
            self.out.settled[finding.id] = _settled(edit, made.id)
            self.out.dropped.pop(finding.id, None)
        for name, was in gone.items():
            if was is not None and edit.action == "drop":
                self.out.dropped[name] = (was, edit)
        if edit.question:
            self.out.answered[edit.question] = _settled(edit)
        if edit.passage:
            self.out.passages.append((self._place(edit, edit.passage), edit))
        if edit.machine:
            self.out.machine = edit.machine
        for photograph in edit.photographs:
            self._photograph(edit, photograph)

    def result(self, earlier: Sequence[Walk]) -> Replayed:
        """What the edits leave, compared with the last other hearing that someone edited."""
        before = next((walk for walk in earlier if fingerprint(walk) == self.elsewhere), None)
        if before:
            self._compare(before)
        order = {finding.id: place for place, finding in enumerate(self.findings.values())}
        self.out.findings = sorted(self.findings.values(), key=lambda one: (_starts(one), order[one.id]))
        return self.out

    def _compare(self, before: Walk) -> None:
        """Tell what was not heard before, and what that nobody edited is not heard now."""
        touched = {*self.out.settled, *self.out.dropped, *self.met.values()}
        met: set[str] = set()
        for was in before.findings:
            if (self.elsewhere, was.id) in self.met:
                continue
            now = same_as(was, self.heard.findings, met | touched)
            if now:
                met.add(now.id)
            else:
                self.out.lost.append(was)
        self.out.differences += [
            Difference(kind="new", finding=finding.id, now=finding)
            for finding in self.heard.findings
            if finding.id in self.findings and finding.id not in met | touched
        ]

    def _is_now(self, edit: Edit) -> bool:
        """Whether it was made on this hearing, or on the walk before another recording was joined to it."""
        return edit.heard in ("", self.now) or any(edit.heard == one.before for one in self.heard.joined)

    def _find(self, edit: Edit, was: Finding) -> str:
        """The id that a finding an edit was made on has now."""
        if self._is_now(edit):
            return was.id
        self.elsewhere = edit.heard
        if made := self.made.get(edit.origins.get(was.id, ("", ""))):
            return made
        key = (edit.heard, was.id)
        if key not in self.met:
            heard = same_as(was, self.heard.findings, self.met.values())
            self.met[key] = heard.id if heard else f"{was.id}-{edit.heard}"
            self._differ(edit, was, heard)
        return self.met[key]

    def _differ(self, edit: Edit, was: Finding, heard: Finding | None) -> None:
        """Tell where an edit no longer meets what it was made on."""
        name = self.met[edit.heard, was.id]
        stands = edit.after[0] if edit.after else None
        if heard is None and stands is not None:
            told = Difference(kind="gone", finding=name, edit=edit.id, was=was, stands=stands)
        elif heard is not None and not alike(heard, was) and not (stands and alike(heard, stands)):
            told = Difference(kind="other", finding=name, edit=edit.id, was=was, now=heard, stands=stands)
        else:
            return
        self.out.differences.append(told)

    def _carried(self, edit: Edit, made: Finding, names: dict[str, str]) -> Finding:
        """A finding that an edit made, under the id and with the evidence of now."""
        name = names.get(made.id, made.id)
        if self._is_now(edit):
            return made if name == made.id else made.model_copy(update={"id": name})
        evidence = moved(made, edit.quotes.get(made.id, ""), self.heard.transcript)
        return made.model_copy(update={"id": name, "evidence": evidence})

    def _place(self, edit: Edit, passage: Evidence) -> Evidence:
        if self._is_now(edit):
            return passage
        quoted = Finding.model_construct(evidence=[passage])
        found = moved(quoted, edit.quotes.get("passage", ""), self.heard.transcript)
        return found[0] if found else passage.model_copy(update={"char_start": 0, "char_end": 0})

    def _photograph(self, edit: Edit, photograph: Photograph) -> None:
        name = self.met.get((edit.heard, photograph.finding), photograph.finding)
        if edit.action == "detach":
            self.out.photographs = [p for p in self.out.photographs if p.file != photograph.file]
        else:
            self.out.photographs.append(photograph.model_copy(update={"finding": name}))


def _settled(edit: Edit, made: str = "") -> Settled:
    return Settled(edit=edit.id, made=made, action=edit.action, who=edit.who, at=edit.at)


def _starts(finding: Finding) -> float:
    """Where a finding begins in the transcript; what was added without words comes last."""
    return min((one.char_start for one in finding.evidence), default=float("inf"))
