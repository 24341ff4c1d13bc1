"""The shortest way to a set of stops on a closed round, by sums small enough to check by hand."""

from collections.abc import Iterable


def shortest(stops: Iterable[int], start: int, round_length: int) -> list[int]:
    """The stops in the order that walks least, from ``start``, ending at the last of them.

    The round has ``round_length`` places 0, 1, 2 ... one step apart, and place 0 follows the last one.
    With d(1) < d(2) < ... < d(k) the distances of the stops ahead of the start, the shortest way goes
    ahead to d(i), turns round and goes back to d(i+1), or does the same the other way about:

        steps = min over i = 0 ... k of
                    min( 2 d(i) + (n - d(i+1)),  d(i) + 2 (n - d(i+1)) ),   d(0) = 0, d(k+1) = n

    i = k goes ahead all the way, i = 0 back all the way. Where two ways are as long, the one that keeps
    walking ahead longest is taken. Exact for any stops on a ring (there is no shorter way, since the
    places visited on a ring are always one stretch around the start).
    """
    wanted = {(stop - start) % round_length for stop in stops}
    ahead = sorted(wanted - {0})
    ways: list[tuple[int, list[int]]] = []
    for turn in range(len(ahead), -1, -1):
        near, far = ahead[:turn], ahead[turn:][::-1]
        out = near[-1] if near else 0
        back = round_length - far[-1] if far else 0
        ways.append((out + back if not far else 2 * out + back, near + far))
        ways.append((out + back if not near else out + 2 * back, far + near))
    best = min(ways, key=lambda way: way[0])[1]
    return [(start + distance) % round_length for distance in [*({0} & wanted), *best]]
