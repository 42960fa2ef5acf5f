"""Strength and sugar of liqueurs, amari and aperitifs, by legal category.

Lives here: one row a liqueur, percent by volume at 20 C, sugar in g/L, source. Never here: brands.
The category sets floors (liqueur 15 % and 100 g/L as invert sugar, cherry 70, creme de 250, cassis 400, egg
liqueur 14 %, maraschino 24 %, sambuca 38 %); the value above the floor is common practice, and bottlings of
one name differ by ten points and more: a shelf entry beats these rows.
"""

from bot.core.ingredient import PRACTICE, Row, table

LIQUEUR = "Reg. (EU) 2019/787 Annex I: liqueur at least 15 %, 100 g/L"
CREME = "Reg. (EU) 2019/787 Annex I: creme de, at least 15 %, 250 g/L (third party)"
CASSIS = "Reg. (EU) 2019/787 Annex I: creme de cassis at least 15 %, 400 g/L (third party)"
CHERRY = "110/2008 Annex II.32: cherry liqueur at least 15 %, 70 g/L"
GENTIAN = "110/2008 Annex II.32: gentian liqueur at least 15 %, 80 g/L"
BITTER = "Reg. (EU) 2019/787 Annex I: bitter spirit drink at least 15 % (from memory)"
MARASCHINO = "Reg. (EU) 2019/787 Annex I: maraschino at least 24 %, 250 g/L (from memory)"
SAMBUCA = "Reg. (EU) 2019/787 Annex I: sambuca at least 38 %, 350 g/L (from memory)"
SLOE = "Reg. (EU) 2019/787 Annex I: sloe gin at least 25 % (from memory)"
EGG = "Reg. (EU) 2019/787 Annex I: egg liqueur at least 14 %, 150 g/L"
CREAM = "Reg. (EU) 2019/787 Annex I: liqueur with milk products at least 15 %"

_LIQUEURS: tuple[Row, ...] = (
    ("liqueur", 25, 250, LIQUEUR),
    ("sloe gin", 26, 200, SLOE),
    ("sloe liqueur", 25, 200, LIQUEUR),
    ("coconut rum", 21, 200, LIQUEUR),
    ("sambuca", 38, 350, SAMBUCA),
    ("orange liqueur", 40, 240, LIQUEUR),
    ("triple sec", 30, 270, LIQUEUR),
    ("curacao", 35, 250, LIQUEUR),
    ("mandarin liqueur", 38, 250, LIQUEUR),
    ("maraschino liqueur", 32, 350, MARASCHINO),
    ("coffee liqueur", 20, 350, LIQUEUR),
    ("elderflower liqueur", 20, 180, LIQUEUR),
    ("herbal liqueur", 40, 280, LIQUEUR),
    ("green herbal liqueur", 55, 250, LIQUEUR),
    ("yellow herbal liqueur", 43, 310, LIQUEUR),
    ("saffron herbal liqueur", 40, 280, LIQUEUR),
    ("gentian liqueur", 20, 180, GENTIAN),
    ("peach liqueur", 20, 220, LIQUEUR),
    ("apricot liqueur", 24, 260, LIQUEUR),
    ("cherry liqueur", 24, 250, CHERRY),
    ("raspberry liqueur", 18, 300, LIQUEUR),
    ("strawberry liqueur", 18, 300, LIQUEUR),
    ("blackberry liqueur", 17, 300, LIQUEUR),
    ("creme de cassis", 18, 420, CASSIS),
    ("creme de cacao", 24, 330, CREME),
    ("creme de menthe", 24, 350, CREME),
    ("creme de violette", 20, 300, CREME),
    ("banana liqueur", 20, 300, CREME),
    ("pear liqueur", 25, 220, LIQUEUR),
    ("apple liqueur", 18, 220, LIQUEUR),
    ("ginger liqueur", 35, 180, LIQUEUR),
    ("melon liqueur", 20, 300, LIQUEUR),
    ("lychee liqueur", 20, 250, LIQUEUR),
    ("passionfruit liqueur", 18, 250, LIQUEUR),
    ("limoncello", 28, 270, LIQUEUR),
    ("allspice dram", 25, 280, LIQUEUR),
    ("vanilla liqueur", 28, 280, LIQUEUR),
    ("cinnamon liqueur", 33, 200, LIQUEUR),
    ("kummel", 38, 300, LIQUEUR),
    ("peppermint schnapps", 40, 150, LIQUEUR),
    ("honey liqueur", 38, 250, LIQUEUR),
    ("chilli liqueur", 30, 250, LIQUEUR),
    ("grapefruit liqueur", 18, 250, LIQUEUR),
)

_BITTER: tuple[Row, ...] = (
    ("amaro", 28, 190, BITTER),
    ("fernet", 40, 100, BITTER),
    ("bitter red aperitif", 24, 190, BITTER),
    ("aperitif", 11, 240, PRACTICE),
    ("rhubarb aperitif", 16, 200, BITTER),
    ("artichoke aperitif", 16.5, 170, BITTER),
    ("fruit cup", 25, 110, PRACTICE),
)

_NUT: tuple[Row, ...] = (
    ("amaretto", 26, 290, LIQUEUR),
    ("hazelnut liqueur", 22, 280, LIQUEUR),
    ("walnut liqueur", 30, 250, LIQUEUR),
    ("pistachio liqueur", 18, 280, LIQUEUR),
    ("falernum", 11, 350, PRACTICE),
)

LIQUEURS = {
    **table("liqueur", _LIQUEURS),
    **table("liqueur", _BITTER),
    **table("liqueur", _NUT, allergens=("nuts",)),
    **table("liqueur", [("cream liqueur", 17, 200, CREAM)], allergens=("milk",)),
    **table("liqueur", [("advocaat", 15, 280, EGG)], allergens=("egg",)),
}
