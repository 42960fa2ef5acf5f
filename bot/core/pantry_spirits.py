"""Strength of spirits and bitters, by legal category.

Lives here: one row a spirit, percent by volume at 20 C, sugar in g/L, source. Never here: brands.
The categories set a least strength (EU: gin, vodka, rum 37.5, whisky 40, brandy 36; US: 40 for all of them);
40 is the usual bottling and is taken unless the row says otherwise. Proof variants are common practice.
Spirits distilled from cereals carry no cereal allergen (Reg. (EU) 1169/2011 Annex II).
"""

from bot.core.ingredient import PRACTICE, Row, table

US = "27 CFR 5.22 (pre-2022 text): at least 40 %"
EU_US = "Reg. (EU) 2019/787 Annex I: at least 37.5 %; 27 CFR 5.22: at least 40 %"
WHISKY = "Reg. (EU) 2019/787 Annex I and 27 CFR 5.22: at least 40 %"
BRANDY = "Reg. (EU) 2019/787 Annex I: brandy at least 36 % (from memory); 27 CFR 5.22: at least 40 %"
FRUIT = "Reg. (EU) 2019/787 Annex I: fruit spirit and marc at least 37.5 % (from memory)"
ANISE = "Reg. (EU) 2019/787 Annex I: pastis at least 40 %, other aniseed at least 15 % (from memory)"
PRODUCT = "product specification of its origin, at least 38 % (from memory)"
FLAVOURED = "Reg. (EU) 2019/787 Annex I: flavoured vodka at least 37.5 % (from memory)"
NAVY = "common practice: 57 %, after UK proof 57.15 % (Alcoholic Liquor Duties Act 1979 s.2)"

_SPIRITS: tuple[Row, ...] = (
    ("spirit", 40, 0, "27 CFR 5.22: the named classes at least 40 %"),
    ("gin", 40, 0, EU_US),
    ("london dry gin", 40, 0, EU_US),
    ("navy strength gin", 57, 0, NAVY),
    ("old tom gin", 40, 20, PRACTICE),
    ("genever", 40, 0, "Reg. (EU) 2019/787 Annex I: juniper spirit at least 30 % (from memory)"),
    ("vodka", 40, 0, EU_US),
    ("citrus vodka", 40, 0, FLAVOURED),
    ("vanilla vodka", 40, 0, FLAVOURED),
    ("flavoured vodka", 40, 0, FLAVOURED),
    ("rum", 40, 0, EU_US),
    ("white rum", 40, 0, EU_US),
    ("aged rum", 40, 0, EU_US),
    ("dark rum", 40, 0, EU_US),
    ("overproof rum", 63, 0, PRACTICE),
    ("spiced rum", 37.5, 15, PRACTICE),
    ("rhum agricole", 50, 0, "Reg. (EU) 2019/787 Annex I: at least 37.5 %; 50 % is common practice"),
    ("cachaca", 40, 0, "product specification of its origin, 38 to 48 % (from memory)"),
    ("tequila", 40, 0, US),
    ("blanco tequila", 40, 0, US),
    ("reposado tequila", 40, 0, US),
    ("anejo tequila", 40, 0, US),
    ("mezcal", 43, 0, "product specification of its origin, 35 to 55 % (from memory)"),
    ("whisky", 40, 0, WHISKY),
    ("bourbon", 40, 0, WHISKY),
    ("rye", 40, 0, WHISKY),
    ("scotch", 40, 0, WHISKY),
    ("islay scotch", 43, 0, WHISKY),
    ("irish whiskey", 40, 0, WHISKY),
    ("japanese whisky", 43, 0, WHISKY),
    ("canadian whisky", 40, 0, WHISKY),
    ("corn whiskey", 40, 0, WHISKY),
    ("moonshine", 50, 0, PRACTICE),
    ("brandy", 40, 0, BRANDY),
    ("cognac", 40, 0, BRANDY),
    ("armagnac", 40, 0, BRANDY),
    ("calvados", 40, 0, FRUIT),
    ("apple brandy", 40, 0, BRANDY),
    ("pisco", 40, 0, PRODUCT),
    ("grappa", 40, 0, FRUIT),
    ("eau de vie", 40, 0, FRUIT),
    ("aquavit", 40, 0, "Reg. (EU) 2019/787 Annex I: at least 37.5 % (from memory)"),
    ("absinthe", 60, 0, PRACTICE),
    ("pastis", 45, 20, ANISE),
    ("ouzo", 40, 10, ANISE),
    ("arak", 45, 0, ANISE),
    ("batavia arrack", 50, 0, PRACTICE),
    ("shochu", 25, 0, PRACTICE),
    ("soju", 20, 5, PRACTICE),
    ("baijiu", 52, 0, PRACTICE),
    ("neutral spirit", 95, 0, "27 CFR 5.22: distilled at or above 95 % (from memory)"),
    ("high proof spirit", 75, 0, PRACTICE),
)

_BITTERS: tuple[Row, ...] = (
    ("aromatic bitters", 45, 40, PRACTICE),
    ("orange bitters", 35, 20, PRACTICE),
    ("anise bitters", 35, 20, PRACTICE),
    ("chocolate bitters", 40, 0, PRACTICE),
    ("grapefruit bitters", 40, 0, PRACTICE),
    ("lemon bitters", 40, 0, PRACTICE),
    ("peach bitters", 35, 20, PRACTICE),
    ("cherry bitters", 40, 0, PRACTICE),
    ("lavender bitters", 40, 0, PRACTICE),
    ("cardamom bitters", 45, 0, PRACTICE),
    ("rhubarb bitters", 40, 0, PRACTICE),
    ("tiki bitters", 40, 0, PRACTICE),
    ("bitter tincture", 50, 0, PRACTICE),
)

SPIRITS = table("spirit", _SPIRITS)
BITTERS = {
    **table("bitters", _BITTERS),
    **table("bitters", [("celery bitters", 44, 0, PRACTICE)], allergens=("celery",)),
    **table("bitters", [("walnut bitters", 45, 0, PRACTICE)], allergens=("nuts",)),
}
