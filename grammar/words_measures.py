"""Units, number words, counted things and vessels as people type them. Spellings are split by "|"; longest wins.

Never here: what a unit holds (bot/core/units.py).
"""

UNITS: dict[str, str] = {
    "ml": (
        "ml|mls|millilitre|millilitres|milliliter|milliliters|mil|mils|mill|mills|cc|m l|mililiters|mililitres"
    ),
    "cl": "cl|cls|centilitre|centilitres|centiliter|centiliters",
    "dl": "dl|decilitre|decilitres|deciliter|deciliters",
    "l": "l|litr|litrs|litre|litres|liter|liters|ltr|ltrs|lt|lts|litros|litro",
    "oz": "oz|ozs|ounce|ounces|fl oz|floz|fl ozs|fluid ounce|fluid ounces|fluid oz|fl ounce|fl ounces|onz",
    "us_fl_oz": "us oz|us fl oz|us ounce|us ounces|us fluid ounce|us fluid ounces|american ounces",
    "imp_fl_oz": (
        "imperial oz|imperial ounce|imperial ounces|imp oz|uk oz|uk fl oz|imperial fl oz|imp fl oz|uk ounce"
        "|uk ounces|imperial fluid ounce|imperial fluid ounces|british oz|british ounces"
    ),
    "cup": "cup|cups|us cup|us cups",
    "pint": "deli pint|deli pints|pint deli|pint delis|pint|pints|pt|pts|us pint|us pints",
    "imp_pint": "imperial pint|imperial pints|uk pint|uk pints|imp pint|british pint|british pints|imp pints",
    "quart": "deli quart|deli quarts|quart deli|quart delis|quart|quarts|qt|qts|us quart|us quarts|us qt",
    "gallon": "gallon|gallons|gal|gals|us gallon|us gallons|us gal",
    "imp_quart": "imperial quart|imperial quarts|uk quart|uk quarts|imp quart",
    "imp_gallon": "imperial gallon|imperial gallons|uk gallon|uk gallons|imp gallon|imp gal",
    "tbsp": "tbsp|tbsps|tbs|tablespoon|tablespoons",
    "tsp": "tsp|tsps|teaspoon|teaspoons",
    "barspoon": "barspoon|barspoons|bar spoon|bar spoons|bsp|bsps|spoon|spoons|spoonful|spoonfuls",
    "dash": "dash|dashes|dsh|dshs|dashs|ds|d",
    "drop": "drop|drops",
    "shot": "shot|shots",
    "jigger": "jigger|jiggers",
    "pony": "pony|ponies",
    "part": "part|parts|pt of|measure|measures|doubles",
    "g": "g|gr|gram|grams|gramme|grammes|gms|gm",
    "kg": "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes",
    "lb": "lb|lbs",
    "ozw": "oz by weight|oz weight|ounces by weight|ounce by weight|oz wt|weight oz|ounces weight",
}

NUMBER_WORDS: dict[str, float] = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17,
    "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60,
    "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100, "dozen": 12, "doz": 12, "couple": 2,
    "thousand": 1000, "zero": 0,
}  # fmt: skip
FRACTION_WORDS: dict[str, float] = {
    "half": 1 / 2, "third": 1 / 3, "thirds": 1 / 3, "quarter": 1 / 4, "quarters": 1 / 4, "eighth": 1 / 8,
    "eighths": 1 / 8, "fifths": 1 / 5, "fifth": 1 / 5, "sixth": 1 / 6, "tenth": 1 / 10, "halves": 1 / 2,
    "qtr": 1 / 4, "qtrs": 1 / 4,
}  # fmt: skip

#: short forms of a word that stands inside longer spellings, and other words for a measure of no fixed size
ALIASES: dict[str, str] = {
    "liq": "liqueur", "lqr": "liqueur", "jce": "juice", "syr": "syrup", "nip": "measure", "nips": "measures", "tot": "measure",
    "tots": "measures", "sry": "sorry", "srry": "sorry", "syrop": "syrup", "sirop": "syrup", "surup": "syrup",
}  # fmt: skip

COUNTED: str = (
    "pour|pours|serve|serves|srv|srvs|srvgs|serving|servings|drink|drinks|cocktail|cocktails|portion|portions|bevs|bev"
    "|covers drinks|rounds|round|glasses|drnks|drinx|orders|serv|servs|pcs|ct|units of it|coupes|flutes|flute"
    "|copa|copas|tumblers|welcome glass|welcome glasses|welcome cocktails|welcome drinks|welcome drink|samples|tasters"
)
GUESTS: str = (
    "guest|guests|people|ppl|pax|person|persons|pers|heads|covers|punters|of us|customers|guest list|peeps"
    "|folks|folk|attendees|diners|mates|friends"
)
#: noun -> its size in mL when the noun says one
VESSELS: dict[str, float | None] = {
    "bottle": None, "bottles": None, "btl": None, "btls": None, "bottel": None, "bucket": None, "buckets": None,
    "jug": None, "jugs": None, "pitcher": None, "pitchers": None, "container": None, "containers": None,
    "carafe": None, "carafes": None, "bowl": None, "punch bowl": None, "flask": None, "flasks": None, "tub": None,
    "jar": None, "jars": None, "keg": None, "kegs": None, "cask": None, "drum": None, "corny keg": None,
    "corny kegs": None, "corny": None, "cornelius keg": None, "bottled": None, "decanter": None, "dispenser": None,
    "vessel": None, "vessels": None, "box": None, "bttl": None, "bttls": None, "batch bottle": None,
    "glass bottle": None, "glass bottles": None, "swing top": None, "swing tops": None, "fifth": 750.0, "fifths": 750.0,
    "magnum": 1500.0, "growler": None, "growlers": None, "demijohn": None, "magnums": 1500.0, "mags": 1500.0, "hip flask": None,
    "pot": None, "pots": None, "handle": 1750.0,
    "handles": 1750.0, "minis": None, "miniatures": None, "mini bottles": None, "tank": None, "cans": None,
    "cambro": None, "cambros": None,
    "bag in box": None, "bag in a box": None, "bags in box": None, "boxed bag": None, "bots": None, "bot": None,
}  # fmt: skip
