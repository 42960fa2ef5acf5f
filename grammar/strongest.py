"""How strong a thing can be at most by its name, to tell a strength from a share of water that stands behind the name."""

#: liqueur wine holds 22 % by volume at most (Regulation (EU) No 1308/2013, annex VII part II (3); from memory)
_MOST_IN_WINE = 0.22
_MOST_IN_SOFT = 0.05  # juice that began to ferment: common practice, no source
_WINES = frozenset(["vermouth", "sherry", "port", "wine"])
_SOFT = frozenset(["juice", "syrup", "water", "tonic", "cordial", "milk", "tea", "espresso", "lemonade", "cola", "puree"])


def strongest(name: str) -> float:
    """The highest ABV (a fraction) that the last word of a name allows; 1 where it says nothing."""
    last = name.rpartition(" ")[2]
    return _MOST_IN_SOFT if last in _SOFT else _MOST_IN_WINE if last in _WINES else 1.0


def fits(name: str, abv: float) -> bool:
    """Whether so much can be the strength of it: not "30 lime 20%", not "10 dry vermouth 25%"."""
    return abv <= strongest(name) + 1e-9
