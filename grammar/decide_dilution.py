"""Whether a drink's water is asked for, and whether it is refused."""

import re

from grammar.scan import Scan


def no_water(scan: Scan) -> bool:
    """Whether the message says "no water"."""
    return any(scan.kind_at(i - 1) == "cue:none" for i in scan.cues("water", "dilution"))


_WATER_FOR = re.compile(r"\W*(?:the |what )?(?:water|dilution|h2o)\b(?: \w+){0,3} (?:for|of|on|in|from)\b")


#: asks for the whole batch: a drink that is shaken or stirred later needs no water for it
OF_EACH = re.compile(
    r"\bhow much (?:do i (?:need|use|pour) )?of (?:each|every)\b|\bwhat'?s the batch\b|\bmeasure out\b"
    r"|\b(?:dont|don't|do not) (?:dilute|add)\b"
)


def dilution_due(scan: Scan) -> bool:
    """Whether a drink's water is wanted and no figure is given for it: "dilution for 20 shaken daiquiris"."""
    iced = scan.has("technique_stir", "technique_shake")
    said = [i for i in scan.cues("dilution") if iced or scan.items[i].text in ("dilution", "dil")]
    if iced and _WATER_FOR.match(scan.text):
        said = [*said, *scan.cues("water")]
    if scan.items[0].is_cue("water") and scan.kind_at(1) in ("cue:to", "cue:for", "cue:want", "cue:bigger"):
        said = [*said, 0]  # "water to put in 20 old fashioneds"
    figures = ("percent", "amount", "bare", "cue:none", "cue:undiluted", "sep:")
    near = [scan.kind_at(i + d) + (scan.text[scan.items[i].end :].lstrip()[:1] == ":") * ":" for i in said for d in (-1, 1)]
    return bool(said) and not any(kind in figures for kind in near) and not no_water(scan)
