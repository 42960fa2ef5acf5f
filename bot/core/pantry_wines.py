"""Strength and sugar of vermouths, aromatised and fortified wines, wines, ciders and beers.

Lives here: one row a wine, percent by volume at 20 C, sugar in g/L, source. Never here: brands.
The categories set ranges (Reg. 251/2014: aromatised wine 14.5 to under 22 %; dry vermouth under 50 g/L and at
least 16 %, sweet at least 130 g/L); the value inside the range is common practice. Wines carry sulphites over
10 mg/L, beers carry cereals (Reg. (EU) 1169/2011 Annex II).
"""

from bot.core.ingredient import PRACTICE, Row, table

VERMOUTH = "Reg. 251/2014 Art. 3 and 6: vermouth 14.5 to under 22 %"
AROMATISED = "Reg. 251/2014 Art. 3: aromatised wine 14.5 to under 22 %"
DRY = "Reg. 251/2014 Art. 6: dry, under 50 g/L and at least 16 %"
EXTRA_DRY = "Reg. 251/2014 Art. 6: extra-dry, under 30 g/L and at least 15 %"
SWEET = "Reg. 251/2014 Art. 6: sweet, at least 130 g/L; 14.5 to under 22 %"
LIQUEUR_WINE = "Reg. (EU) 1308/2013 Annex VII: liqueur wine 15 to 22 % (from memory)"
TABLE_WINE = "27 CFR 4.21: table wine at most 14 %"
SPARKLING = "Reg. (EU) 1308/2013 Annex VII: sparkling wine; brut under 12 g/L (from memory)"

_VERMOUTHS: tuple[Row, ...] = (
    ("vermouth", 16, 100, VERMOUTH),
    ("dry vermouth", 18, 30, DRY),
    ("extra dry vermouth", 18, 25, EXTRA_DRY),
    ("sweet vermouth", 16, 150, SWEET),
    ("bianco vermouth", 16, 140, SWEET),
    ("rose vermouth", 15, 130, SWEET),
    ("amber vermouth", 17, 110, VERMOUTH),
)

_AROMATISED: tuple[Row, ...] = (
    ("aromatised wine", 17, 130, AROMATISED),
    ("red quinquina", 17, 140, AROMATISED),
    ("americano wine", 16.5, 130, AROMATISED),
    ("chinato", 16.5, 150, AROMATISED),
)

_FORTIFIED: tuple[Row, ...] = (
    ("sherry", 17, 30, LIQUEUR_WINE),
    ("dry sherry", 15, 3, LIQUEUR_WINE),
    ("fino sherry", 15, 2, LIQUEUR_WINE),
    ("manzanilla sherry", 15, 2, LIQUEUR_WINE),
    ("amontillado sherry", 17.5, 4, LIQUEUR_WINE),
    ("palo cortado sherry", 18, 4, LIQUEUR_WINE),
    ("oloroso sherry", 18, 5, LIQUEUR_WINE),
    ("cream sherry", 17.5, 125, LIQUEUR_WINE),
    ("px sherry", 16, 400, LIQUEUR_WINE),
    ("port", 20, 100, LIQUEUR_WINE),
    ("ruby port", 20, 100, LIQUEUR_WINE),
    ("tawny port", 20, 110, LIQUEUR_WINE),
    ("white port", 19.5, 90, LIQUEUR_WINE),
    ("madeira", 19, 80, LIQUEUR_WINE),
    ("marsala", 18, 80, LIQUEUR_WINE),
    ("pineau", 17, 125, LIQUEUR_WINE),
)

_WINES: tuple[Row, ...] = (
    ("wine", 12.5, 3, TABLE_WINE),
    ("red wine", 13, 3, TABLE_WINE),
    ("white wine", 12.5, 4, TABLE_WINE),
    ("rose wine", 12.5, 5, TABLE_WINE),
    ("orange wine", 12.5, 2, TABLE_WINE),
    ("sparkling wine", 12, 10, SPARKLING),
    ("prosecco", 11, 14, SPARKLING),
    ("champagne", 12, 9, SPARKLING),
    ("cava", 11.5, 9, SPARKLING),
    ("mead", 12, 60, PRACTICE),
    ("umeshu", 13, 200, PRACTICE),
    ("non alcoholic sparkling wine", 0, 40, PRACTICE),
)

_BEERS: tuple[Row, ...] = (
    ("beer", 5, 3, PRACTICE),
    ("lager", 5, 3, PRACTICE),
    ("ipa", 6, 4, PRACTICE),
    ("stout", 4.5, 5, PRACTICE),
)

_SULPHITES = ("sulphites",)

WINES = {
    **table("vermouth", _VERMOUTHS, _SULPHITES),
    **table("aromatised wine", _AROMATISED, _SULPHITES),
    **table("fortified wine", _FORTIFIED, _SULPHITES),
    **table("wine", _WINES, _SULPHITES),
    **table("wine", [("sake", 15, 30, PRACTICE)]),
    **table("cider", [("cider", 5, 25, PRACTICE)], _SULPHITES),
    **table("beer", _BEERS, ("cereals",)),
}
