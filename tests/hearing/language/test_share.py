"""How much a shop's own walks count."""

from saycheck.hearing.language.kneser_ney import estimate
from saycheck.hearing.language.lookup import WordModel
from saycheck.hearing.language.sentences import Spelling
from saycheck.hearing.language.share import LEAST, UNTRIED, share
from saycheck.hearing.language.talk import Talk

COMMON = ["left pin dry", "right pin dry", "left hose good", "right hose good", "pin good", "hose dry"]
BASE = WordModel(
    estimate([line.split() for line in COMMON * 5 + ["good left dry right hose pin"]]),
    Spelling(Talk({}, (), {})),
)
OWN_MANNER = [["good", "left"], ["dry", "right"], ["dry", "left", "hose"], ["good", "right", "pin"]]


def test_one_walk_cannot_be_tried() -> None:
    """A single walk has a fixed, small share."""
    assert UNTRIED == share(BASE, [OWN_MANNER])


def test_walks_that_foretell_each_other_count_more() -> None:
    """Walks in one manner of their own count for much; walks that share nothing for little, and so do few words."""
    alike = share(BASE, [OWN_MANNER * 20] * 4)
    unlike = share(BASE, [[line] * 80 for line in (["left", "pin"], ["hose", "good"], ["dry"], ["right"])])
    few = share(BASE, [OWN_MANNER] * 4)
    assert alike > 0.3
    assert alike > few
    assert alike > unlike >= LEAST


def test_words_only_the_shop_knows_do_not_count() -> None:
    """Nothing can be told from words that the base model does not know."""
    assert 1.0 > share(BASE, [[["zebra", "quagga"]], [["okapi"]]]) > 0.0
