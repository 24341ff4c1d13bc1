"""Where the walker goes within one sentence: a move counts from the word that tells it on."""

from saycheck.understanding.attach.walk import Walk, WalkerSide


class Route:
    """The way through the tokens ``start`` to ``end`` (half-open) of a sentence; ``at`` is how far it has come.

    ``zone`` and ``side`` are where the sentence says the walker goes, None once they are there; ``turn`` is the
    token that tells it. ``there`` where the walker has gone already: "up the other side" turns round once only.
    """

    def __init__(self, walk: Walk, start: int, end: int, there: bool = False) -> None:
        self.walk = walk
        self.at = self.start = start
        self.end = end
        moves = walk.rules.places.moves(walk.reading, start, end)
        self.zone, self.side, self.turn = (None, None, end) if there else moves

    def go_on(self, to: int) -> None:
        """Go on to the token ``to``, and take note of the places told between the events."""
        if (self.zone or self.side) and self.turn < to:
            self.move(self.zone, self.side)
            self.zone = self.side = None
        for at in range(self.at, to):
            self.pass_by(at)
        self.pass_over(to)

    def pass_over(self, to: int) -> None:
        """Go on to the token ``to``; the words between belong to an event and tell no place."""
        self.at = max(self.at, to)

    def move(self, zone: str | None, side: str | None) -> None:
        """The walker goes to another place."""
        self.walk.move(zone, side)
        self.walk.now.moved = True

    def pass_by(self, at: int) -> None:
        """Take note of a side that the word at ``at`` names: the walker is told to be there, or it shows so."""
        walk = self.walk
        passed = walk.rules.places.passing(walk.reading, at, self.start, self.end)
        if passed is None:
            return
        side, told = passed
        if told and side != walk.where.side:
            self.move(None, side)
        elif not (walk.side.told and walk.side.side):
            walk.side = WalkerSide(side, sentence=walk.now.number)
