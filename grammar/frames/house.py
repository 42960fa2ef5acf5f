"""Frames for what a chat tells the bot to keep: house specs, the shelf, settings; and help."""

import re
from dataclasses import replace

from grammar.frames.freezer import celsius
from grammar.frames.spec import read_spec
from grammar.phrase import Phrase
from grammar.request import Help, House, Measure, Money, Part, Setting, Shelf, Yield
from grammar.scan import Scan, Unclear, measure, rough_ml

LONGEST_NAME = 40
_NAME_END = re.compile(r"\s*(?::|=|\n|\bas\b|\bis\b(?=\s*\d))")
TOPICS: dict[str, str] = {
    "scale": "batch", "recipe_word": "batch", "abv": "strength", "proof_word": "strength", "cut": "cut",
    "convert": "convert", "freezer": "freezer", "slush": "freezer", "dilution": "dilution", "water": "dilution",
    "cost": "cost", "price": "cost", "pour_cost": "cost", "margin": "cost", "bottles": "bottles", "label": "label",
    "standard_drinks": "label", "allergens": "label", "save": "house", "list": "house", "shelf": "shelf",
    "settings": "settings", "same": "follow", "make_it": "follow", "stock": "bottles", "forget": "house", "rename": "house",
    "export": "house", "syrup_word": "syrup", "sweeten": "syrup",
}  # fmt: skip


def read_save(scan: Scan, verb: int, typed: str) -> House:
    """ "save fog bell: 50 gin …", "save that as gangway". typed is the message as typed, for the name and the spec's text.

    Raises Unclear no_house_spec without a name, no_spec without a spec.
    """
    start = scan.items[verb].end
    plain = scan.text[start:]
    head = re.match(r"\s*(?:this|that|it|the last one|last)?\s*(?:as|house spec|spec|recipe|new spec|a spec|the spec)?\s*", plain)
    offset = start + (head.end() if head else 0)
    end = _NAME_END.search(scan.text, offset)
    name_end = end.start() if end else None
    first_number = re.search(r"\d", scan.text[offset:])
    if name_end is None or (
        first_number and offset + first_number.start() < name_end and end is not None and end.group().strip() in ("as", "is", "")
    ):
        name_end = offset + first_number.start() if first_number else len(scan.text)
    name = tidy_name(scan.text[offset:name_end])
    after = end.end() if end and end.start() == name_end else name_end
    rest = [i for i, p in enumerate(scan.items) if p.start >= after]
    scan.use(*[i for i in range(len(scan)) if i not in rest])
    if not name:
        raise Unclear("no_house_spec", [scan.items[verb]], "a name to save it under")
    body = Scan([p for p in scan.all if p.start >= after], scan.text)
    if not any(p.kind in ("name", "context", "ratio", "amount", "unknown", "bare") for p in body.items):
        return House("save", name)
    recipe, makes = read_spec(body)
    recipe = replace(recipe, drink=name)
    if makes.serves is not None and makes.serves > 1 and not recipe.base_serves:
        recipe = replace(recipe, base_serves=None)
    return House("save", name, recipe, scan.text[after:].strip())


def tidy_name(text: str) -> str:
    """A house spec's name as it is kept: words, single spaces, lower case, no longer than 40 characters."""
    text = re.sub(r"\b(?:spec|recipe|house spec)\b\s*$", "", " ".join(text.split()).strip(" .,;:=\"'-"))
    return text.strip(' .,;:="')[:LONGEST_NAME].strip()


def read_house(scan: Scan, do: str, verb: int) -> House:
    """show, list, forget, rename, bring_back, export, import, forget_all. Raises Unclear no_house_spec without a name."""
    if do == "import":
        return House(do, text=re.sub(r"^\s*(?:import|load csv|read csv)\b[:\s]*", "", scan.text))
    if do in ("list", "export", "forget_all"):
        return House(do)
    text = scan.text[scan.items[verb].end :]
    house = [p for p in scan.items if p.kind == "house"]
    if do == "rename":
        parts = re.split(r"\s+(?:to|as|->|into)\s+", text, maxsplit=1)
        old = house[0].name if house else tidy_name(_strip(parts[0]))
        new = tidy_name(parts[1]) if len(parts) > 1 else ""
        if not old or not new:
            raise Unclear("no_house_spec", [scan.items[verb]], "the old name and the new one")
        return House("rename", old, new_name=new)
    if house:
        return House(do, house[0].name)
    name = tidy_name(_strip(text)) or tidy_name(_strip(scan.text[: scan.items[verb].start]))
    if not name:
        raise Unclear("unread", [scan.items[verb]], scan.text.strip())
    return House(do, name)


def _strip(text: str) -> str:
    return re.sub(r"\b(?:the|my|our|me|old|spec|recipe|house|for|please|pls|again|previous|version|of|in)\b|[?!]", " ", text)


def read_shelf(scan: Scan, do: str) -> Shelf:
    """ "my gin is 46.2%, 700 ml, 28". Raises Unclear out_of_range, no_amounts when nothing is said of it."""
    names = scan.kinds("name", "context")
    if do == "list":
        return Shelf("list")
    if do == "forget":
        return Shelf("forget", Part(scan.items[names[0]].name, typed=scan.items[names[0]].text) if names else None)
    first = scan.items[names[0]]
    abv: float | None = None
    sugar: float | None = None
    size: Measure | None = None
    price: Money | None = None
    for i, p in enumerate(scan.items):
        after = scan.at(i + 1)
        if p.kind in ("percent", "proof") and abv is None:
            abv = p.value
        elif (
            p.kind == "amount"
            and p.unit == "g"
            and (
                (after is not None and (after.kind == "name" or after.is_cue("sweeten", "each")))
                or any(q.kind == "name" and q.name == "sugar" for q in scan.items)
            )
        ) or (p.kind == "bare" and after is not None and after.is_cue("sweeten")):
            sugar = p.value
        elif p.kind == "amount" and size is None:
            size = measure(p)
        elif p.kind == "vessel" and p.size is not None and size is None:
            size = Measure(*p.size)
        elif p.kind == "money" or (
            p.kind == "bare" and price is None and (p.value not in (500, 700, 750, 1000) or size is not None)
        ):
            price = Money(p.value, p.unit)
        elif p.kind == "bare" and size is None:
            size = Measure(p.value, "ml")
        elif p.kind == "ratio" and p.unit and len(p.values) == 2:
            price, size = Money(p.values[0]), Measure(p.values[1], p.unit)
        elif p.kind == "negative":
            raise Unclear("out_of_range", [p], p.text)
    if abv is not None and not 0 <= abv <= 1:
        raise Unclear("out_of_range", [first], f"{first.text} at {abv * 100:g} %")
    if size is not None and (rough_ml(size.value, size.unit) or 0) <= 0:
        raise Unclear("out_of_range", [first], f"{size.value:g} {size.unit}")
    if abv is None and sugar is None and size is None and price is None:
        raise Unclear("no_amounts", [first], first.text, names=first.text)
    return Shelf("put", Part(first.name, None, first.text, True, abv, price, size), sugar)


_COUNTRY = {
    "uk": "uk", "united kingdom": "uk", "england": "uk", "britain": "uk", "scotland": "uk", "us": "us", "usa": "us",
    "america": "us", "united states": "us", "au": "au", "australia": "au", "eu": "eu", "europe": "eu",
    "ireland": "eu", "germany": "eu",
    "france": "eu", "spain": "eu", "italy": "eu", "new zealand": "au",
}  # fmt: skip


def read_setting(scan: Scan) -> Setting:
    """One setting, or Setting() for all of them. Raises Unclear out_of_range, unread when the value makes no sense."""
    text = scan.text
    if scan.has("freezer"):
        temps = [p for p in scan.items if p.kind in ("temperature", "negative", "bare")]
        if not temps:
            raise Unclear("unread", [p for p in scan.items if p.kind == "unknown"] or scan.items[-1:], text.split()[-1])
        p = temps[0]
        if p.unit == "" and any(q.text in ("f", "fahrenheit") for q in scan.all):
            p.unit = "f"
        value = celsius(p)
        if not -60 <= value <= 5:
            raise Unclear("out_of_range", [p], p.text)
        return Setting("freezer", f"{value:g}")
    number = next(
        (p for p in reversed(scan.items) if p.kind in ("amount", "bare", "negative", "same_amount") and p.name != "a"),
        None,
    )
    if re.search(r"\bdash\b|\bdashes\b", text):
        return _sized(scan, "dash", number, 0.3, 2.0)
    if re.search(r"\b(serve|serving|pour|drink)\b", text) and number is not None:
        return _sized(scan, "serve", number, 10.0, 400.0)
    if re.search(r"\b(oz|ounce|ounces)\b", text):
        if re.search(r"\bfirst\b|\bbefore\b", text):
            ml_at, oz_at = re.search(r"\bml|millil", text), re.search(r"\boz|\bounce", text)
            if ml_at and oz_at and ml_at.start() < oz_at.start():
                return Setting("first", "ml")
            return Setting("first", "oz")
        if re.search(r"imp|uk|british", text):
            return Setting("ounce", "imperial")
        if re.search(r"(?<!\d)30(?!\d)", text):
            return Setting("ounce", "30ml")
        if re.search(r"\bus\b|america", text):
            return Setting("ounce", "us")
        raise Unclear("unread", scan.items[-1:], "which ounce")
    if re.search(r"\b(ml|millilit\w+|metric)\b", text):
        return Setting("first", "ml")
    if re.search(r"currency|price|euro|dollar|pound|[$€£¥]", text):
        sign = next((p.unit for p in scan.items if p.kind == "money"), "") or _currency(text)
        if not sign:
            raise Unclear("unread", scan.items[-1:], "which currency")
        return Setting("currency", sign)
    for words, code in _COUNTRY.items():
        if re.search(rf"\b{words}\b", text):
            return Setting("country", code)
    if scan.has("settings", "default") and not scan.kinds("unknown", "bare", "amount"):
        return Setting()
    raise Unclear("unread", [p for p in scan.items if p.kind == "unknown"] or scan.items[-1:], text.strip())


def _sized(scan: Scan, name: str, number: Phrase | None, low_ml: float, high_ml: float) -> Setting:
    if number is None:
        raise Unclear("no_amounts", scan.items[-1:], name)
    ml = rough_ml(number.value, number.unit or "ml")
    if number.kind == "negative" or ml is None or not low_ml <= ml <= high_ml:
        raise Unclear("out_of_range", [number], number.text)
    return Setting(name, f"{ml:g}")


def _currency(text: str) -> str:
    for pattern, sign in (
        (r"€|euro|\beur\b", "€"),
        (r"\$|dollar|\busd\b|bucks", "$"),
        (r"£|pound|\bgbp\b|quid|sterling", "£"),
        (r"¥|yen|\bjpy\b", "¥"),
        (r"\bkr\b|krone|krona", "kr"),
        (r"\bchf\b|franc", "CHF"),
        (r"\baud\b", "AUD"),
        (r"\bcad\b", "CAD"),
        (r"\bzl\b|zloty|\bpln\b", "zl"),
        (r"₹|rupee|\binr\b", "₹"),
    ):
        if re.search(pattern, text):
            return sign
    return ""


def read_help(scan: Scan) -> Help:
    """Help, on the topic a cue or a syrup names."""
    words = {p.text for p in scan.items if p.kind in ("unknown",)}
    for p in scan.items:
        if p.kind == "cue" and p.name in TOPICS:
            return Help(TOPICS[p.name])
        if p.kind in ("name", "context") and ("syrup" in p.text or p.name in ("sugar", "honey", "saline", "simple syrup")):
            return Help("syrup")
        if p.kind == "vessel":
            return Help("bottles")
    return Help(" ".join(sorted(words)))


__all__ = ["Yield", "read_help", "read_house", "read_save", "read_setting", "read_shelf", "tidy_name"]
