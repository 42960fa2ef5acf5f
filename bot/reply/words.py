"""Every sentence of an answer: labels, verdicts, ways out.

Sentences for the codes of notes (assumptions, readings, remarks, changes) are in words_notes.py, with their
arguments; cautions in words_cautions.py; questions, one for each problem code, in words_questions.py; units in
words_units.py; the freezer in words_freezer.py.
Must never: round (bot.reply.numbers does), know layout or markup.
"""

from bot.core.facts import Note
from bot.reply import numbers
from bot.reply.words_cautions import caution
from bot.reply.words_notes import NOTES, named

TOTAL = "Total"
READ = "Read: "
NEXT, OR = "Try: ", " or "
CUT_SHORT = "… the rest is too long for one message"
NOTHING = "Nothing to show"

ASSUMED = "Assumed: "
POUR, EACH = "Pour ", " each"
ONE_SERVE = "One serve: "
STANDARD_DRINKS, A_SERVE = "Standard drinks", "a serve"


def each_of(serves: float) -> str:
    """How many full serves a volume gives, said behind the size of one."""
    return f"{EACH}: {numbers.full(serves)} serves"


def said(note: Note) -> str:
    """What a note says, whatever it is."""
    sayer = NOTES.get(note.code)
    return sayer(*note.args) if sayer else caution(note)


def serves(n: float) -> str:
    """"8 serves"."""
    return f"{numbers.count(n)} serve{'' if abs(n - 1.0) < 1e-9 else 's'}"


def vessels(count: int, size_ml: float) -> str:
    """"3 × 700 mL"."""
    return f"{count} × {numbers.size(size_ml)}" if count != 1 else numbers.size(size_ml)


def spec(ml: float, water: float | None, ounce_ml: float, first: str) -> str:
    """"90 mL spec + 25% water", or "3 oz spec" where ounces lead."""
    size = numbers.oz(ml, ounce_ml) if first == "oz" else numbers.ml(ml)
    return f"{size} spec{with_water(water)}"


def with_water(share: float | None) -> str:
    """" + 25% water", or nothing."""
    return f" + {numbers.percent(share)} water" if share and share > 0.0005 else ""


def both(ml: float, ounce_ml: float, first: str = "ml") -> str:
    """"345 mL (11.7 oz)", or the other way round."""
    a, b = numbers.ml(ml), numbers.oz(ml, ounce_ml)
    return f"{b} ({a})" if first == "oz" else f"{a} ({b})"


def mixes_to(ml: float, ounce_ml: float, first: str) -> str:
    """"Mixes to 893 mL (30¼ oz)": the true volume."""
    return f"Mixes to {both(ml, ounce_ml, first)}"


def makes(ml: float, ounce_ml: float, first: str, abv: float | None = None) -> str:
    """"Makes 1.24 L (42 oz) at 45% (90 proof)"."""
    at = "" if abv is None else f" at {numbers.percent(abv)} ({numbers.proof(abv)} proof)"
    return f"Makes {both(ml, ounce_ml, first)}{at}"


def becomes(before_ml: float, after_ml: float, ounce_ml: float, first: str) -> str:
    """"4.2 L becomes 4956 mL (167½ oz)"; "3028 mL (102½ oz) becomes 3785 mL (128 oz)" where neither is a round size."""
    before = numbers.oz(before_ml, ounce_ml) if first == "oz" else numbers.size(before_ml)
    if first != "oz" and before_ml >= 1000.0 and before.endswith("mL"):
        before = both(before_ml, ounce_ml, first)
    return f"{before} becomes {both(after_ml, ounce_ml, first)}"


def pour_from(pour: str, whole: str) -> str:
    """"1.5 oz from 2 L"."""
    return f"{pour} from {whole}"


def add_water(ml: float, ounce_ml: float, first: str) -> str:
    """"Add 345 mL water (11.7 oz)"."""
    a, b = numbers.ml(ml), numbers.oz(ml, ounce_ml)
    return f"Add {b} water ({a})" if first == "oz" else f"Add {a} water ({b})"


def to_lot(ml: float, name: str, abv: float | None, ounce_ml: float, first: str) -> str:
    """"To 700 mL of rye, 57%", "To 1 L of 63%": what the water goes into."""
    at = "" if abv is None or name.endswith("%") else f", {numbers.percent(abv)}"
    amount = both(ml, ounce_ml, first) if first == "oz" else numbers.size(ml)
    return f"To {amount} of {named(name)}{at}"


def by_weight(g: float) -> str:
    """"By weight: 344 g water"."""
    return f"By weight: {numbers.grams(g)} water"


def water(amount: str, share: float | None, more: bool = False) -> str:
    """"Water 756 mL (25.6 oz), 18%"; where some is in already "Add 450 mL (15¼ oz) more water, 25% in all"."""
    return (f"Add {amount} more water" if more else f"Water {amount}") + _in_all(share, more)


def _in_all(share: float | None, more: bool) -> str:
    return "" if share is None else f", {numbers.percent(share)}{' in all' * more}"


def water_share(share: float) -> str:
    """"Water 44% of the undiluted volume"."""
    return f"Water {numbers.percent(share)} of the undiluted volume"


SHARE_OF = {
    "undiluted": "of the undiluted volume", "finished": "of the finished volume", "stirred": "water from stirring",
    "shaken": "water from shaking", "heat balance": "by heat balance, a check",
}  # fmt: skip


def in_all(ml: float) -> str:
    """"In all 20 L, 5.28 US gal"."""
    return f"In all {numbers.large(ml)}"


def garnish(thing: str) -> str:
    """"Garnish: lemon peel"."""
    return f"Garnish: {named(thing)}"


def filled(count: int, size_ml: float, fill_ml: float, free_ml: float | None) -> str:
    """"Bottles 3 × 1 L: 893 mL in each, leave 31 mL free"."""
    many = "" if count == 1 else f"{count} × "
    name = vessel_name(size_ml, count).capitalize()
    each = " in each" if count > 1 else ""
    free = f", leave {numbers.ml(free_ml)} free" if free_ml else ""
    return f"{name} {many}{numbers.size(size_ml)}: {numbers.ml(fill_ml)}{each}{free}"


def fits(size_ml: float, free_ml: float | None) -> str:
    """"Fits a 1 L bottle, leave 31 mL free"."""
    free = f", leave {numbers.ml(free_ml)} free" if free_ml else ""
    return f"Fits a {numbers.size(size_ml)} {vessel_name(size_ml, 1)}{free}"


def strength(abv: float) -> str:
    """"ABV 23.4% (47 proof)"."""
    return f"ABV {numbers.percent(abv)} ({numbers.proof(abv)} proof)"


def vessel_name(size_ml: float, count: int) -> str:
    """"bottle", "bottles", "keg"."""
    return ("keg" if size_ml >= 5000.0 else "bottle") + ("" if count == 1 else "s")


def left_over(ml: float) -> str:
    """"500 mL left over", or that nothing is."""
    return f"{numbers.ml(ml)} left over" if ml >= 0.5 else "none left over"


def buy(count: int, size_ml: float, name: str, need_ml: float | None = None) -> str:
    """"Buy 5 × 700 mL gin", "Buy 3 × 700 mL gin for 1800 mL"."""
    needed = "" if need_ml is None else f" for {numbers.ml(need_ml)}"
    return f"Buy {count} × {numbers.size(size_ml)} {named(name)}".rstrip() + needed


def stock(
    name: str, need_ml: float | None, have: float, size_ml: float, short_ml: float, left_ml: float | None
) -> tuple[str, str]:
    """"rye: short 116 mL, not enough", "Need 2366 mL, have 3 × 750 mL"; or that it is enough."""
    what = f"{named(name)}: " if name else ""
    at_hand = f"{numbers.count(have)} × {numbers.size(size_ml)}"
    both_figures = f"Have {at_hand}" if need_ml is None else f"Need {numbers.ml(need_ml)}, have {at_hand}"
    if short_ml >= 0.5:
        return f"{what}short {numbers.ml(short_ml)}, not enough", both_figures
    rest = "" if left_ml is None else f", {left_over(left_ml)}"
    return f"{what}enough{rest}", both_figures


def left_in(name: str, left_ml: float, used_ml: float | None) -> str:
    """"rye: 225 mL left, 525 mL used"."""
    used = "" if used_ml is None else f", {numbers.ml(used_ml)} used"
    return f"{named(name)}: {numbers.ml(left_ml)} left{used}"


def need(ml: float) -> str:
    """"Need 3000 mL"."""
    return f"Need {numbers.ml(ml)}"


COST_LABELS = {
    "per_serve": "Cost a serve", "total": "Cost in all", "price": "Price", "price_net": "Price before tax",
    "pour_cost": "Pour cost", "margin": "Margin", "markup": "Markup",
}  # fmt: skip

PLACES = {"us": "US", "uk": "UK units", "au": "Australia", "who": "WHO", "eu": "EU", "nz": "New Zealand"}


def drinks(place: str, n: float) -> str:
    """"1.01 US standard drinks", "17.5 UK units"."""
    if place == "uk":
        return f"{numbers.figure(n)} UK units"
    whose = "Australian" if place == "au" else PLACES.get(place, place)
    return f"{numbers.figure(n)} {whose} standard drinks"


def in_volume(ml: float) -> str:
    """"in 700 mL"."""
    return f"in {numbers.size(ml)}"


def sugar_of(g: float, serves: float | None) -> str:
    """"Sugar 11 g a serve, 180 g in all"."""
    each = f"{numbers.grams(g / serves)} a serve, " if serves and serves != 1.0 else ""
    return f"Sugar {each}{numbers.grams(g)} in all"


def sugar_in_it(g: float) -> str:
    """"Sugar in it 411 g": of honey only its sugar."""
    return f"Sugar in it {numbers.grams(g)}"


def tolerance(points: float) -> str:
    """"Allowed ±0.3 points"."""
    return f"Allowed ±{numbers.figure(points)} points"


ALLERGENS = {"cereals": "cereals with gluten"}  # the other groups are called as they are


def allergens(groups: tuple[str, ...]) -> str:
    """"Allergens: egg, milk. Check the bottles' own labels."."""
    if not groups:
        return "No listed allergen found; check the bottles’ own labels"
    return f"Allergens: {', '.join(ALLERGENS.get(g, g) for g in groups)}; check the bottles’ own labels"


def was(before: str) -> str:
    """", was 12.9%"."""
    return f", was {before}"


def moved(now: float, before: float, currency: str) -> str:
    """", was 1.89: 0.34 more"."""
    more = "more" if now >= before else "less"
    return f"{was(numbers.money(before, currency))}: {numbers.money(abs(now - before), currency)} {more}"
