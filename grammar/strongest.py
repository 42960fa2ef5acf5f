"""How strong a thing can be at most by its name, to tell a strength from a share of water that stands behind the name."""

#: liqueur wine holds 15 to 22 % (OIV, International Code of Oenological Practices, I.4.3); vermouth less than 22 % (Regulation
#: (EU) No 251/2014, art. 3)
_MOST_WINE_ABV = 0.22
_MOST_SOFT_ABV = 0.05  # juice that began to ferment: common practice, no source
_WINES = frozenset(["vermouth", "sherry", "port", "wine"])
_SOFT = frozenset(["juice", "syrup", "water", "tonic", "cordial", "milk", "tea", "espresso", "lemonade", "cola", "puree"])


def strongest(name: str) -> float:
    """The highest ABV (a fraction) that the last word of a name allows; 1 where it says nothing."""
    last = name.rpartition(" ")[2]
    return _MOST_SOFT_ABV if last in _SOFT else _MOST_WINE_ABV if last in _WINES else 1.0


def fits(name: str, abv: float) -> bool:
    """Whether so much can be the strength of it: not "30 lime 20%", not "10 dry vermouth 25%"."""
    return abv <= strongest(name) + 1e-9
