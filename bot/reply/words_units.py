"""How a figure and its unit are said: the word for one and for many of every unit key, whole pours and what is left."""

from bot.reply import numbers

#: unit key -> (one, many) as said after a number; a key that is not here is said as it is
UNITS: dict[str, tuple[str, str]] = {
    "ml": ("mL", "mL"), "cl": ("cL", "cL"), "dl": ("dL", "dL"), "l": ("L", "L"),
    "us_fl_oz": ("US fl oz", "US fl oz"), "imp_fl_oz": ("imperial fl oz", "imperial fl oz"),
    "bar_oz_30": ("oz of 30 mL", "oz of 30 mL"), "ozw": ("oz by weight", "oz by weight"),
    "proof_us": ("proof", "proof"), "abv": ("% ABV", "% ABV"), "c": ("°C", "°C"), "f": ("°F", "°F"),
    "g_per_l": ("g/L", "g/L"), "brix": ("Brix", "Brix"), "imp_pint": ("imperial pint", "imperial pints"),
    "imp_quart": ("imperial quart", "imperial quarts"),
    "imp_gallon": ("imperial gallon", "imperial gallons"), "dash": ("dash", "dashes"), "pony": ("pony", "ponies"),
    "part": ("part", "parts"), "parts": ("part", "parts"), "pours": ("pour", "pours"), "serves": ("serve", "serves"),
    "bottles": ("bottle", "bottles"), "units": ("unit", "units"), "points": ("point", "points"),
} | {
    word: (word, word + "s")
    for word in ("cup", "pint", "quart", "gallon", "barspoon", "drop", "shot", "jigger", "pour", "serve", "bottle")
}  # fmt: skip


def _named(unit: str, shown: str) -> str:
    one, many = UNITS.get(unit) or (unit.replace("_", " "),) * 2
    return one if shown == "1" else many


def quantity(value: float, unit: str) -> str:
    """A figure with its unit as said: "59.1 mL", "2.25 cups", "25%", "44.1 pours"."""
    if unit in ("percent", "%"):
        return numbers.figure(value) + "%"
    shown = numbers.figure(value)
    return f"{shown} {_named(unit, shown)}".rstrip()


def full_pours(value: float, left_ml: float | None, unit: str) -> str:
    """"44 full pours + 20 mL left"."""
    n = int(value + 1e-9)
    word = UNITS[unit][0] if n == 1 else UNITS[unit][1]
    if value - n < 1e-6 or (left_ml is not None and left_ml < 0.5):
        return f"{n} {word}"
    rest = f"+ {numbers.ml(left_ml)} left" if left_ml is not None else f"({numbers.figure(value)})"
    return f"{n} full {word} {rest}"


_OUNCES = frozenset(("oz", "us_fl_oz", "imp_fl_oz", "bar_oz_30"))


def typed(of: str) -> str:
    """An amount as facts carry it, as it is said: "1.5 us_fl_oz" -> "1½ US fl oz", "40 percent" -> "40%"."""
    if " + " in of:
        return " + ".join(typed(one) for one in of.split(" + "))
    value, _, unit = of.partition(" ")
    try:
        number = float(value)
    except ValueError:
        return of.replace("_", " ")
    if unit == "percent":
        return numbers.figure(number) + "%"
    shown = numbers.ounces_typed(number) if unit in _OUNCES else numbers.figure(number)
    return f"{shown} {_named(unit, shown)}".rstrip()
