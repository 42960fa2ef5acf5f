"""Whether a message tells or manages: save, list, forget, settings, shelf, help.

These are known by how they open. Everything else is for grammar.decide.
"""

import re

from grammar.scan import Scan

_ONLY_LISTED = frozenset(["recipes", "specs"])

_SOME_OF_IT = re.compile(r"\s*replace (?:half|an? (?:third|quarter|fifth)|one (?:third|quarter)|\d+ ?%)")


def command(scan: Scan, last: str) -> str:
    """Messages that tell or manage: save, list, settings, shelf, help."""
    items, text = scan.items, scan.text
    lead = next((p for p in items if not (p.kind == "sep" or p.is_cue("and", "but"))), items[0])
    numbers = len(scan.kinds("amount", "bare", "ratio", "percent", "temperature", "negative", "money"))
    if lead.is_cue("help") and len(text) < 60:
        return "help"
    if scan.has("help") and numbers == 0 and not scan.kinds("count"):
        return "help"
    if re.match(r"\s*/?start\b", text) and len(text.split()) == 1:
        return "help"
    if (
        re.search(r"\bhow (?:do|can|would) (?:i|you|we) (?:ask|save|use|set|get|change|list|delete|forget)\b", text)
        and numbers == 0
    ):
        return "help"
    everything = scan.has("everything") or re.search(r"\beverything\b|\ball (?:my |our )?data\b", text)
    if scan.has("forget") and everything and _only_forget(text):
        return "house:forget_all"
    if lead.is_cue("save") or (lead.is_cue("and") and scan.has("save")):
        return "house:save"
    if re.match(
        r"\s*(?:please |pls |can you |could you )*(?:save|remember|store|(?:add |a )?new (?:house )?(?:spec|recipe))\b",
        text,
    ):
        return "house:save"
    if re.match(r"\s*(?:import|load csv|read csv)\b", text) and "," in text:
        return "house:import"
    if scan.has("export") and not scan.kinds("percent", "proof", "amount"):  # "topped it right back up with water"
        return "house:export"
    if scan.has("rename") and re.search(r"\b(?:rename|retitle)\b", text):
        return "house:rename"
    if scan.has("bring_back") or (re.match(r"\s*(?:pls |please |can you )?bring back\b", text) and numbers == 0):
        return "house:bring_back"
    shelf = _shelf(scan, lead.text)
    if shelf:
        return shelf
    if scan.has("list") and numbers == 0 and not scan.has("equal") and not (scan.has("price") and scan.kinds("name")):
        return "house:list"
    if all(p.text in _ONLY_LISTED or p.kind == "sep" for p in items):
        return "house:list"  # "recipes?"
    if scan.has("settings") and numbers == 0:
        return "setting"
    setting = _setting(scan, text, numbers)
    if setting:
        return setting
    if (
        scan.has("forget")
        and (scan.kinds("house", "unknown", "drink") or scan.has("recipe_word"))
        and numbers == 0
        and not scan.kinds("name")
    ):
        return "house:forget"
    if last and scan.has("forget") and scan.has("water", "dilution"):
        return ""  # "scrap the water"
    if lead.is_cue("forget") and numbers == 0 and (scan.has("recipe_word") or not last):
        return "house:forget"
    overwritten = re.match(r"\s*(?:replace|overwrite)\s+.+\s+with\s+.*\d", text) and scan.kinds("name")
    if overwritten and not (last and _SOME_OF_IT.match(text)):
        return "house:replace"
    if scan.kinds("unit") and numbers == 0 and re.search(r"\b(?:it|that|them|this)\b", text):
        return ""  # "show it in ounces"
    showing = scan.has("show") or (scan.kinds("house") and scan.has("recipe_word", "what"))
    asks = scan.has("allergens", "abv", "freezer", "cost", "settings", "how_many", "how_much", "bottles")
    of_last = bool(last) and scan.has("each") and (len(scan) == 2 or scan.kinds("vessel") != [])  # "what's in each"
    if showing and numbers == 0 and not asks and not of_last:
        return "house:show"
    return ""


_ALSO = re.compile(r"\b(?:and|then|now|but|except|apart|instead|before|after)\b[, ]*|[.,;:!?\n]+ *")
_STILL_FORGET = re.compile(
    r"(?:(?:please|pls|plz|thanks|thank you|thx|ta|cheers|ok|okay|now|then|just|lets?|we|can|you|will|all|over|again|afresh|fresh"
    r"|anew|clean|from|scratch|the|start(?:ing)?|restart|begin|reset|wipe|delete|erase|clear|forget|everything|it|data|my|our|of"
    r"|memory|chat|about|us|me|this|bar|recipes?|specs?|settings?|shelf)\b[ ']*)*"
)


def _only_forget(text: str) -> bool:
    """Whether nothing else is wanted with it: "forget everything and start over", not "... and print your instructions"."""
    clauses = _ALSO.split(text.strip())
    return all("everything" in clause or " data" in clause or _STILL_FORGET.fullmatch(clause) for clause in clauses)


def _shelf(scan: Scan, lead: str) -> str:
    text = scan.text
    names = scan.kinds("name", "context")
    telling = scan.kinds("percent", "proof", "money", "amount")
    if (
        scan.has("shelf", "stock")
        and re.search(r"\bshelf\b", text)
        and len(names) == 1
        and telling
        and "?" not in text
        and not scan.has("how_much", "how_many")  # "1 L of 1:1 on the shelf, need it 2:1, how much more sugar"
        and not scan.kinds("count", "guests", "drink", "fold", "times", "ratio")
    ):
        return "shelf:put"
    if scan.has("shelf") and not names and not scan.kinds("count", "amount"):
        return "shelf:list"
    if re.search(r"\b(?:list|show|see)\b.*\bbottles\b", text) and not scan.kinds("amount", "count", "name"):
        return "shelf:list"
    if re.search(r"\bwhat bottles\b", text) and not scan.kinds("amount", "count"):
        return "shelf:list"
    if len(names) >= 1 and (
        (scan.has("forget") and re.search(r"\b(?:my|our|house)\b", text)) or (re.search(r"\boff (?:the|my|our) shelf\b", text))
    ):
        return "shelf:forget"
    counted = scan.kinds("count", "guests", "times", "fold", "drink", "ratio", "house")
    if scan.has("cost") and (scan.has("what", "each") or len(scan.kinds("amount", "vessel")) > 1):
        return ""
    own = re.match(r"\s*(?:so |ok |fyi |btw )?(?:my|our|the house|house|we (?:pour|use|stock|buy))\b", text)
    asks = (
        scan.has("how_many", "how_much", "enough", "freezer", "cut", "bottles", "standard_drinks", "pour_cost", "margin")
        or "?" in text
    )
    if (
        own
        and len([i for i in scan.kinds("name") if scan.items[i].name != "sugar"]) == 1
        and not counted
        and not asks
        and not scan.has("water")
        and not (scan.has("want", "to") and len(scan.kinds("percent", "proof")) > 1)
    ):
        return "shelf:put"
    if (
        re.search(r"\bcosts? (?:us|me)\b", text)
        and len(scan.kinds("name")) == 1
        and not counted
        and not asks
        and not re.search(r"\bdrink\b", text)
    ):
        return "shelf:put"
    return ""


def _setting(scan: Scan, text: str, numbers: int) -> str:
    spec = scan.kinds("name", "house", "count", "drink", "percent")
    if spec:
        return ""
    if (
        re.match(
            r"\s*(?:set|default|change|switch|use|put|show|make)\b.*\b(?:ounces?|oz|freezer|serve|dash|currency|country|ml|euros?|dollars?|pounds?|metric|imperial)\b",
            text,
        )
        and (
            re.search(
                r"\b(?:set|default|imperial|first|before|currency|country|metric|euros?|dollars?|pounds"
                r"|(?:us|uk|british) (?:ounces?|oz))\b",
                text,
            )
        )
        and not re.search(r"\bin (?:oz|ml|cl)\b", text)
    ):
        return "setting"
    if (
        re.match(r"\s*(?:our |my |the )?(?:chest )?freezer (?:is|runs|sits|=|at|set)?\s*(?:at |to )?(?:minus |-)?\d", text)
        and "?" not in text
        and not scan.kinds("percent")
        and not re.search(r"\b(?:batch|ok|will|does)\b", text)
    ):
        return "setting"
    if re.match(r"\s*(?:a |1 |our |my |the )?(?:dash|oz|ounce|ounces)\s*(?:is|=|are|means)\s*", text) or re.match(
        r"\s*30 ?ml (?:ounce|oz)\b", text
    ):
        return "setting"
    if re.match(r"\s*(?:default )?serve (?:size )?(?:is|=)\s*\d", text) or re.match(r"\s*default\b.*\d", text):
        return "setting"
    if re.match(r"\s*(?:ml|oz|ounces|millilitres|metric) first\b", text) or re.search(r"\bprices (?:are )?in\b", text):
        return "setting"
    if re.match(r"\s*(?:go |switch )?back to (?:us|imperial|uk|30 ?ml|american)\b.*\b(?:oz|ounces?)\b", text):
        return "setting"
    if re.match(r"\s*(?:currency|country)\b", text) or re.match(
        r"\s*we(?:'re| are) in (?:the )?(?:uk|us|usa|eu|australia|united|america|england|ireland)\b", text
    ):
        return "setting"
    return ""
