"""Sugar, allergens and keeping of everything without alcohol (bitters of flavour extracts included).

Lives here: one row an ingredient: percent by volume at 20 C (nearly always 0), sugar in g/L, source.
Never here: brands. Juices carry a typical total sugar; fruit sugar depresses freezing about 1.9 times as much
as sucrose per gram, which the freezing estimate does not know. EACH_ML is what one piece gives (one lime,
one egg white), common practice unless the row says otherwise.
"""

from bot.core.ingredient import PRACTICE, USDA, Row, table

ONE_TO_ONE = "1:1 by weight, 50 % sugar; density from the CRC Handbook (2021) sucrose table"
TWO_TO_ONE = "2:1 by weight, 66.7 % sugar; density from the CRC Handbook (2021) sucrose table"
HONEY = "USDA FoodData Central: 82.1 g sugars per 100 g, cup 339 g (1.433 g/mL)"
AGAVE = "75 % dissolved sugars, common practice; 1.379 g/mL from the CRC Handbook (2021) sucrose table"

_SYRUPS: tuple[Row, ...] = (
    ("simple syrup", 0, 614.75, ONE_TO_ONE),
    ("rich syrup", 0, 884.3, TWO_TO_ONE),
    ("demerara syrup", 0, 614.75, ONE_TO_ONE),
    ("rich demerara syrup", 0, 884.3, TWO_TO_ONE),
    ("gum syrup", 0, 884.3, TWO_TO_ONE),
    ("cane syrup", 0, 884.3, TWO_TO_ONE),
    ("honey syrup", 0, 485, "1:1 by weight of honey at 82.1 % sugars, 41.1 % sugar; CRC density"),
    ("rich honey syrup", 0, 798, "3:1 by weight of honey at 82.1 % sugars, 61.6 % sugar; CRC density"),
    ("agave syrup", 0, 516, "1:1 by volume of agave nectar, common practice, no source"),
    ("maple syrup", 0, 800, "USDA FoodData Central: 60 g sugars per 100 g (from memory); 1.33 g/mL"),
    ("golden syrup", 0, 1100, PRACTICE),
    ("grenadine", 0, 700, PRACTICE),
    ("ginger syrup", 0, 614.75, ONE_TO_ONE),
    ("honey ginger syrup", 0, 485, PRACTICE),
    ("cinnamon syrup", 0, 614.75, ONE_TO_ONE),
    ("vanilla syrup", 0, 614.75, ONE_TO_ONE),
    ("raspberry syrup", 0, 614.75, ONE_TO_ONE),
    ("strawberry syrup", 0, 614.75, ONE_TO_ONE),
    ("passionfruit syrup", 0, 614.75, ONE_TO_ONE),
    ("pineapple syrup", 0, 700, PRACTICE),
    ("mint syrup", 0, 614.75, ONE_TO_ONE),
    ("lavender syrup", 0, 614.75, ONE_TO_ONE),
    ("rosemary syrup", 0, 614.75, ONE_TO_ONE),
    ("basil syrup", 0, 614.75, ONE_TO_ONE),
    ("hibiscus syrup", 0, 614.75, ONE_TO_ONE),
    ("falernum syrup", 0, 614.75, PRACTICE),
    ("coconut syrup", 0, 614.75, PRACTICE),
    ("caramel syrup", 0, 800, PRACTICE),
    ("chocolate syrup", 0, 650, PRACTICE),
    ("tea syrup", 0, 614.75, ONE_TO_ONE),
    ("spiced syrup", 0, 614.75, ONE_TO_ONE),
    ("chilli syrup", 0, 614.75, ONE_TO_ONE),
    ("rose syrup", 0, 614.75, ONE_TO_ONE),
    ("elderflower cordial", 0, 500, PRACTICE),
    ("lime cordial", 0, 350, PRACTICE),
    ("lemon cordial", 0, 400, PRACTICE),
    ("cordial", 0, 400, PRACTICE),
    ("oleo saccharum", 0, 850, PRACTICE),
    ("shrub", 0, 400, PRACTICE),
)

_SWEETENERS: tuple[Row, ...] = (
    ("honey", 0, 1177, HONEY),
    ("agave nectar", 0, 1034, AGAVE),
    ("sugar", 0, 845, "granulated, 200 g a US cup, common practice, no source"),
    ("demerara sugar", 0, 845, "granulated, 200 g a US cup, common practice, no source"),
)

_JUICES: tuple[Row, ...] = (
    ("lime juice", 0, 17, USDA),
    ("lemon juice", 0, 20, USDA),
    ("lime acid", 0, 0, PRACTICE),
    ("lemon super juice", 0, 5, PRACTICE),
    ("citrus juice", 0, 20, PRACTICE),
    ("sour mix", 0, 200, PRACTICE),
    ("orange juice", 0, 85, USDA),
    ("grapefruit juice", 0, 80, USDA),
    ("yuzu juice", 0, 20, PRACTICE),
    ("pineapple juice", 0, 100, USDA),
    ("cranberry juice", 0, 110, "USDA FoodData Central, sweetened juice cocktail (from memory)"),
    ("apple juice", 0, 100, USDA),
    ("pear juice", 0, 100, PRACTICE),
    ("tomato juice", 0, 27, USDA),
    ("grape juice", 0, 150, USDA),
    ("watermelon juice", 0, 62, USDA),
    ("pomegranate juice", 0, 130, USDA),
    ("cucumber juice", 0, 17, USDA),
    ("carrot juice", 0, 40, USDA),
    ("beetroot juice", 0, 70, USDA),
    ("ginger juice", 0, 15, PRACTICE),
    ("verjus", 0, 10, PRACTICE),
    ("peach nectar", 0, 130, PRACTICE),
    ("mango juice", 0, 130, PRACTICE),
    ("guava juice", 0, 120, PRACTICE),
    ("juice", 0, 90, "typical of orange, apple and pineapple juice, common practice, no source"),
    ("aloe vera juice", 0, 80, PRACTICE),
    ("birch sap", 0, 10, PRACTICE),
)

_PUREES: tuple[Row, ...] = (
    ("passionfruit puree", 0, 110, USDA),
    ("mango puree", 0, 145, USDA),
    ("peach puree", 0, 100, USDA),
    ("strawberry puree", 0, 100, "10 % sugar added, common practice, no source"),
    ("raspberry puree", 0, 110, "10 % sugar added, common practice, no source"),
    ("banana puree", 0, 130, USDA),
    ("coconut puree", 0, 90, PRACTICE),
    ("fruit puree", 0, 110, PRACTICE),
)

_MILK: tuple[Row, ...] = (
    ("cream", 0, 29, USDA),
    ("half and half", 0, 41, USDA),
    ("milk", 0, 50, USDA),
    ("condensed milk", 0, 700, USDA),
    ("evaporated milk", 0, 105, USDA),
    ("whey", 0, 50, USDA),
    ("butter", 0, 1, USDA),
    ("yoghurt", 0, 48, USDA),
    ("ice cream", 0, 150, PRACTICE),
)

_COCONUT: tuple[Row, ...] = (
    ("coconut milk", 0, 33, USDA),
    ("coconut cream", 0, 30, USDA),
    ("coconut water", 0, 26, USDA),
    ("aquafaba", 0, 5, PRACTICE),
)

_MIXERS: tuple[Row, ...] = (
    ("mixer", 0, 80, PRACTICE),
    ("soda water", 0, 0, PRACTICE),
    ("sparkling water", 0, 0, PRACTICE),
    ("tonic", 0, 85, USDA),
    ("ginger beer", 0, 90, PRACTICE),
    ("ginger ale", 0, 88, USDA),
    ("cola", 0, 106, USDA),
    ("lemonade", 0, 90, PRACTICE),
    ("cloudy lemonade", 0, 100, PRACTICE),
    ("limeade", 0, 110, PRACTICE),
    ("grapefruit soda", 0, 90, PRACTICE),
    ("orange soda", 0, 120, USDA),
    ("cream soda", 0, 130, USDA),
    ("root beer", 0, 106, USDA),
    ("energy drink", 0, 110, PRACTICE),
    ("kombucha", 0, 30, PRACTICE),
    ("barley water", 0, 60, PRACTICE),
    ("non alcoholic spirit", 0, 0, PRACTICE),
    ("non alcoholic aperitif", 0, 100, PRACTICE),
)

_TEAS: tuple[Row, ...] = (
    ("tea", 0, 0, PRACTICE),
    ("green tea", 0, 0, PRACTICE),
    ("hibiscus tea", 0, 0, PRACTICE),
    ("chamomile tea", 0, 0, PRACTICE),
)

_COFFEES: tuple[Row, ...] = (
    ("coffee", 0, 0, PRACTICE),
    ("espresso", 0, 0, PRACTICE),
    ("cold brew", 0, 0, PRACTICE),
)

_EGGS: tuple[Row, ...] = (
    ("egg white", 0, 7, USDA),
    ("whole egg", 0, 4, USDA),
    ("egg yolk", 0, 6, USDA),
)

_SEASONINGS: tuple[Row, ...] = (
    ("saline", 0, 0, PRACTICE),
    ("vinegar", 0, 4, PRACTICE),
    ("hot sauce", 0, 10, PRACTICE),
    ("olive brine", 0, 0, PRACTICE),
    ("rose water", 0, 0, PRACTICE),
    ("orange flower water", 0, 0, PRACTICE),
    ("vanilla extract", 35, 0, "21 CFR 169.175: at least 35 % (from memory)"),
)

#: what one piece gives, mL: fruit squeezed, egg parts (common practice, no source)
EACH_ML: dict[str, float] = {
    "lime juice": 30.0,
    "lemon juice": 45.0,
    "orange juice": 75.0,
    "grapefruit juice": 180.0,
    "egg white": 30.0,
    "egg yolk": 17.0,
    "whole egg": 50.0,
    "espresso": 30.0,
}

SOFT = {
    **table("syrup", _SYRUPS),
    **table("syrup", [("orgeat", 0, 700, PRACTICE)], ("nuts",)),
    **table("sweetener", _SWEETENERS),
    **table("juice", _JUICES, perishable=True),
    **table("juice", [("celery juice", 0, 13, USDA)], ("celery",), perishable=True),
    **table("puree", _PUREES, perishable=True),
    **table("dairy", _MILK, ("milk",), perishable=True),
    **table("dairy", [("oat milk", 0, 40, PRACTICE)], ("cereals",), perishable=True),
    **table("dairy", [("almond milk", 0, 20, PRACTICE)], ("nuts",), perishable=True),
    **table("dairy", [("soy milk", 0, 25, PRACTICE)], ("soya",), perishable=True),
    **table("dairy", [("hot chocolate", 0, 100, PRACTICE)], ("milk",), perishable=True),
    **table("egg", _EGGS, ("egg",), perishable=True),
    **table("mixer", _COCONUT, perishable=True),
    **table("syrup", [("cream of coconut", 0, 600, PRACTICE)]),
    **table("mixer", _MIXERS),
    **table("tea", _TEAS, perishable=True),
    **table("coffee", _COFFEES, perishable=True),
    **table("seasoning", _SEASONINGS),
    **table("seasoning", [("worcestershire sauce", 0, 200, PRACTICE)], ("fish",)),
    **table("water", [("water", 0, 0, "no sugar, no alcohol")]),
}
