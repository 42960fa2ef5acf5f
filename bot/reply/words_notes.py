"""Sentences for the codes of assumptions, readings, remarks and what a chat saved. See words.py for the list.

Every sentence is one short clause without a full stop, so that several can stand in one line. Shares and strengths
come as fractions, volumes in mL, temperatures in °C. No rounding here: bot.reply.numbers.
"""

from collections.abc import Callable

from bot.reply import numbers

Sayer = Callable[..., str]
_LONGEST_ECHO = 40
_BIDI = frozenset("\u200b\u200c\u200d\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2060\u2066\u2067\u2068\u2069\ufeff")


def clip(text: str, longest: int = _LONGEST_ECHO) -> str:
    """What someone typed, fit to be said back: one line, no invisible marks, not shouting, not long."""
    plain = "".join([c if c.isprintable() else " " for c in text if c not in _BIDI])
    plain = " ".join(plain.split())
    if plain.isupper():
        plain = plain.lower()
    return plain if len(plain) <= longest else plain[: longest - 1].rstrip() + "…"


def quoted(text: str) -> str:
    """The same in quotation marks."""
    return f"“{clip(text)}”"


def named(name: object) -> str:
    """A name someone gave: a little longer than an echo may be."""
    return clip(str(name), 60)


_OUNCES = {"us": "oz is the US fl oz, 29.6 mL", "imperial": "oz is the imperial fl oz, 28.4 mL", "30ml": "oz is 30 mL"}


_COUNTRIES: dict[str, str] = {
    "us": "the US", "eu": "the EU", "uk": "the UK", "au": "Australia", "who": "the WHO", "nz": "New Zealand",
}  # fmt: skip
_EMPTY: dict[str, str] = {"shelf": "on the shelf", "specs": "saved"}


def _ounce(which: str) -> str:
    return _OUNCES.get(which, f"oz is {which}")


def _measure(name: str) -> Sayer:
    return lambda ml: f"{name} {numbers.ml(ml)}"


def _same(sentence: str) -> Sayer:
    return lambda *_: sentence


ASSUMED: dict[str, Sayer] = {
    "serve_size": lambda ml: f"{numbers.ml(ml)} undiluted a serve",
    "finished_serve": lambda ml: f"{numbers.ml(ml)} finished a serve",
    "abv": lambda name, abv: f"{named(name)} {numbers.percent(abv)}",
    "unknown_abv": lambda name, *_: f"{named(name)}: no strength known, counted as 0%",
    "sugar": lambda name, g_per_l: f"{named(name)} {numbers.grams(g_per_l)}/L sugar",
    "ounce": _ounce,
    "vermouth_kind": lambda taken, beside="": f"{taken}, as goes with {beside}" if beside else f"{taken}",
    "one_each": _same("one drink a guest"),
    "each": lambda n: f"{numbers.count(n)} drinks a guest",
    "whole_batch": _same("amounts are for the whole batch"),
    "one_serve": _same("amounts are for one serve"),
    "dash": _measure("dash"),
    "drop": _measure("drop"),
    "shot": _measure("shot"),
    "jigger": _measure("jigger"),
    "pony": _measure("pony"),
    "barspoon": _measure("barspoon"),
    "measure": lambda unit, ml: f"{_us_or_not(str(unit), float(ml))} {numbers.ml(ml)}",
    "pour": _measure("pour"),
    "bottle": _measure("bottle"),
    "filled_up": lambda ml: f"filled up to {numbers.size(ml)} with no alcohol",
    "scaled_to_serve": lambda ml: f"recipe scaled to a serve of {numbers.ml(ml)}",
    "freezer": lambda at_c: f"freezer {numbers.degrees(at_c)}",
    "bare_ml": _same("bare numbers are mL"),
    "bare_parts": _same("bare numbers are parts"),
    "bare_oz": _same("bare numbers are oz"),
    "each_ml": lambda name, ml: f"one {named(name).removesuffix(' juice')} gives {numbers.ml(ml)}",
    "by_weight": _same("parts by weight"),
    "by_volume": _same("parts by volume"),
    "cup_weight": lambda name, g_per_ml: f"{named(name)} weighs {numbers.figure(g_per_ml)} g/mL",
    "saline": lambda share: f"salt {numbers.percent(share)}, grams in 100 mL",
    "one_to_one": _same("syrup 1:1"),
    "stirred_water": lambda share: f"{numbers.percent_whole(share)} water, about what stirring adds",
    "shaken_water": lambda share: f"{numbers.percent_whole(share)} water, about what shaking adds",
    "drink_parts": lambda drink, names: f"{named(drink)}: {clip(names, 80)}",
    "read_as": lambda typed, name: f"{quoted(typed)} is {named(name)}",
    "skipped": lambda words: f"passed over {quoted(words)}",
    "waste": lambda share: f"{numbers.percent(share)} waste on top of the cost",
    "per_litre": _same("for 1 L"),
    "per_bottle": lambda ml: f"price is for {numbers.size(ml)}",
    "bottle_size": lambda name, ml: f"{named(name)} in {numbers.size(ml)} bottles",
    "fresh_bottles": _same("counted from full bottles"),
    "no_water": _same("no water added"),
    "of_undiluted": _same("water % is of the undiluted volume"),
    "of_finished": _same("water % is of the finished volume"),
    "finished_volume": _same("the volume is the finished one"),
    "tax_out": _same("prices without tax"),
    "tax_in": _same("prices with tax"),
    "shelf": lambda name, abv=None: f"{named(name)} {'' if abv is None else numbers.percent(abv) + ' '}from your shelf",
    "house": lambda name: f"house spec {named(name)}",
    "sugar_as_sucrose": _same("all sugar counted as table sugar"),
    "country": lambda name: f"rules of {_COUNTRIES.get(name, name)}",
    "same_as_before": _same("the rest as before"),
    "unpriced": lambda *names: f"no price for {', '.join(map(named, names))}",
    "scaled": lambda times: f"recipe × {numbers.figure(float(times))}",
    "spirit_label": _same("labelled as a spirit drink"),
}  # fmt: skip

REMARKS: dict[str, Sayer] = {
    "does_not_fit": lambda volume, held: f"Does not fit: {numbers.ml(volume)} into {numbers.ml(held)}",
    "no_headspace": lambda ml: f"Too full for the freezer: it needs {numbers.ml(ml)} free",
    "unknown_strength": lambda name: f"No strength known for {named(name)}: tell me, like {named(name)} 20%",
    "contraction": lambda ml: f"Spirit and water shrink: {numbers.ml(abs(ml))} less than added up",
    "ratio_is": lambda sweet, water: f"Ratio {_ratio(sweet, water)} by weight",
    "same_volume": lambda ml: f"With {numbers.ml(ml)} of water it is the same volume",
    "pure_alcohol": lambda ml, g: f"{numbers.ml(ml)} of pure alcohol, {numbers.grams(g)}",
    "before_ice": lambda abv: f"Before the ice: {numbers.percent(abv)} ({numbers.proof(abv)} proof)",
    "mixes_to": lambda ml: f"Mixes to {numbers.ml(ml)}",
    "stirring_adds": lambda share: f"Stirring would add about {numbers.percent_whole(share)}",
    "shaking_adds": lambda share: f"Shaking would add about {numbers.percent_whole(share)}",
    "outside_regression": _same("Too weak or too strong for the stirring rule (12 to 50% ABV)"),
    "plain_sum": lambda ml: f"Plain arithmetic gives {numbers.ml(ml)}",
    "same_strength": _same("Already at that strength: no water"),
    "fits": lambda spare: f"Fits, {numbers.ml(spare)} to spare",
    "unknown_allergens": lambda name: f"Allergens of {named(name)} not known: check its label",
    "nothing_to_add": _same("Already at that strength: add nothing"),
    "not_even_undiluted": _same("Even without water it does not pour"),
    "short": lambda name, ml: f"Short of {named(name)}: {numbers.ml(ml)} more needed",
    "enough": _same("Enough"),
    "not_enough": _same("Not enough"),
    "undercooling": _same("It may take hours to start freezing"),
    "near_edge": _same("Too close to call: freezers and bottles vary by 1.5 °C"),
    "also": lambda text: str(text),
    "both_readings": lambda text: f"Or {text}",
    "without": lambda ml: f"Without water {numbers.ml(ml)}",
    "stronger": lambda ml, abv: f"Or add {numbers.ml(ml)} at {numbers.percent(abv)}",
    "left_ml": lambda ml: f"{numbers.ml(ml)} left",
    "keeps": lambda place, days: keeps(str(place), int(days)),
    "no_freeze": _same("Too strong for the curve"),
    "ethanol": lambda ml: f"{numbers.ml(ml)} of pure alcohol",
}  # fmt: skip

CHANGES: dict[str, Sayer] = {
    "saved": lambda name: f"Saved {named(name)}",
    "replaced": lambda name, old="": f"Replaced {named(name)}" + (f"; it was {clip(old, 120)}" if old else ""),
    "forgotten": lambda name: f"Forgot {named(name)}",
    "forgotten_all": _same("Forgot everything this chat told me"),
    "renamed": lambda old, new: f"{named(old)} is now called {named(new)}",
    "brought_back": lambda name: f"{named(name)} is back as it was",
    "shelf_put": lambda name, *facts: f"On the shelf: {', '.join([named(name), *map(named, facts)])}",
    "shelf_forgotten": lambda name: f"{named(name)} is off the shelf",
    "setting_set": lambda name, value: setting(str(name), value),
    "empty_list": lambda what="": f"Nothing {_EMPTY.get(what, 'saved')} yet",
    "export": lambda *_: "All your house specs, ready to copy",
    "imported": lambda n: f"Added {numbers.count(n)} house specs" if n != 1 else "Added 1 house spec",
    "house_specs": _same("Your house specs"),
    "shelf_list": _same("On your shelf"),
    "settings": _same("How this chat is set"),
    "sure": lambda text: f"Sure? Then say “{text}”",
}


def _us_or_not(unit: str, ml: float) -> str:
    """A unit's name, with whose it is where two countries' differ: "US pint"."""
    name = unit.replace("_", " ")
    us = {"pint": 473.2, "quart": 946.4, "gallon": 3785.4, "cup": 236.6}
    return f"US {name}" if name in us and abs(us[name] - ml) < 1.0 else name


def keeps(place: str, days: int) -> str:
    """How long a batch keeps, and where."""
    where = "cold, 4 °C or less" if place == "cold" else "at room temperature"
    return f"Keeps {days} day{'' if days == 1 else 's'}, {where}"


def setting(name: str, value: str | float) -> str:
    """A setting as it now stands. value as told: a number in the setting's unit, or a word."""
    try:
        number = float(value)
    except ValueError:
        number = None
    match name, number:
        case "ounce", None:
            return _ounce(str(value)).replace("oz is", "oz is now", 1)
        case "ounce", _:
            return _ounce(f"{numbers.count(number or 0.0)} mL")
        case "first", _:
            return f"{'oz' if value == 'oz' else 'mL'} first from now on"
        case ("freezer" | "freezer_c"), float(celsius):
            return f"Freezer is {numbers.degrees(celsius)} ({numbers.fahrenheit(celsius)})"
        case ("serve" | "serve_ml"), float(ml):
            return f"A serve is {numbers.ml(ml)} undiluted"
        case ("dash" | "dash_ml"), float(ml):
            return f"A dash is {numbers.ml(ml)}"
        case "currency", _:
            return f"Prices are in {clip(str(value), 12)}" if value else "Prices carry no currency"
        case "country", _:
            return f"Labels follow {_COUNTRIES.get(str(value).lower(), clip(str(value)))}"
        case _:
            return f"{name.replace('_', ' ')} is now {clip(str(value))}"


def _ratio(first: float, second: float) -> str:
    """ "2:1"."""
    return f"{numbers.figure(first)}:{numbers.figure(second)}"


READ: dict[str, Sayer] = {
    "read": lambda text: clip(text, 120),
    "recipe": lambda text: clip(text, 120),
    "serves": lambda n: f"{numbers.count(n)} serve{'' if n == 1.0 else 's'}",
    "base_serves": lambda n: f"recipe for {numbers.count(n)}",
    "guests": lambda n, each=1.0: f"{numbers.count(n)} guests" + ("" if each == 1.0 else f" × {numbers.count(each)}"),
    "fill": lambda ml: f"{numbers.size(ml)} finished",
    "ratio": lambda text: clip(text, 80),
    "syrup_to": lambda ml, *r: f"Add to {numbers.ml(ml)} of {_ratio(r[0], r[1])} for {_ratio(r[2], r[3])}",
    "in_place": lambda ml, *r: f"As sweet as {numbers.ml(ml)} of {_ratio(r[0], r[1])}",
    "with_sugar": lambda g_per_l: f"{numbers.figure(g_per_l)} g/L sugar",
    "water_rest": _same("water makes up the rest"),
    "water_of_undiluted": lambda share: f"water {numbers.percent(share)} of the undiluted volume",
    "water_of_finished": lambda share: f"water {numbers.percent(share)} of the finished volume",
    "at_strength": lambda ml, abv: f"{numbers.size(ml)} at {numbers.percent(abv)}",
    "from_to": lambda ml, abv, target: f"{numbers.size(ml)}, {numbers.percent(abv)} to {numbers.percent(target)}",
    "blend": lambda a, b, to: f"{numbers.percent(a)} and {numbers.percent(b)} to {numbers.percent(to)}",
    "to_strength": lambda abv: f"to {numbers.percent(abv)} ABV",
    "strength": lambda abv: f"{numbers.percent(abv)} ABV",
    "volume": lambda ml: numbers.size(ml),
    "temperature": lambda at_c: numbers.degrees(at_c),
}  # fmt: skip

NOTES: dict[str, Sayer] = {**READ, **CHANGES, **REMARKS, **ASSUMED}
