"""Words of talk that say nothing about a drink: slang, forms of address, and what stresses a figure without changing it.

Lives here: more of grammar.words.FILLER. Never here: a word that can name a drink or an ingredient, or that makes a
figure uncertain ("maybe", "nearly"): that must be asked about.
"""

SLANG: str = (
    "abt|gains|picks up|pick up|picked up|takes on|soaks up|soaked up|"
    "obvs|obviously|innit|tho|btw|fyi|tbh|ofc|defo|deffo|defs|definitely|of course|yeah|yea|yep|yh|basically"
    "|literally|bloody|flipping|frigging|effing|cheeky|proper|wanna|kinda|sorta|pal|matey|guv|bruv|bro|fam|hun|babe"
    "|lads|buddy|fella|squire|legend|love you|soz|bang on|spot on|dead on|on the nose|on the dot|bob on"
    "|pairing|pairings|wise|percentage wise|making up|makes up"
    "|dont count it|don't count it|do not count it|dont count that|not counted|dont include it|not included"
    "|dont count them|don't count them|line|fill line|overnight|over night"
    "|not in the batch|figure|i figure|dropped in|dropped|dumped in|thrown in|chucked in|tipped in|bunged in|toast|reception"
    "|festival|barbecue|bbq|picnic|fundraiser|conference|pop up|takeover|garden party|hen do|stag do|birthday|bday"
    "|that one|this one|in that one|in this one|on that one"
    "|sat|sun|mon|tue|tues|wed|weds|thu|thur|thurs|fri|sat night|fri night|on arrival|to be safe|just in case"
    "|keep the ratio|keep the ratios|keep the proportions|same ratio|same ratios|same proportions|in proportion"
    "|banquet|gala|brunch|having|drinking|wanting|all up|all told|batch card|prep card"
    "|hiya|heya|hullo|howdy|morning|good morning|good afternoon|good evening|afternoon|g'day"
    "|made up|all made up|made up already|already made up"
    "|get a sec|got a sec|have a sec|a sec|get a second|get a minute|get a moment|get a chance|sorry to bother|when you can"
)
#: what is said of an ingredient that is poured later, at the pass or the table, and is no part of the batch
LATER: frozenset[str] = frozenset(
    ["later", "after", "afterwards", "separately", "on top", "to top", "topped", "top", "to order", "at the end", "last"]
)
#: what is said of an ingredient that only wets the glass
RINSES: frozenset[str] = frozenset(["rinse", "rinsed", "rinses", "mist", "wash", "rim", "rims", "rimmed"])
