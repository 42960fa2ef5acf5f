"""More spellings of the cues of grammar.words: longer phrases that say what one of its short ones says."""

MORE_CUES: dict[str, str] = {
    "final": "final vol|finished vol|total vol|end vol|finished size|final size",
    "each": (
        "in each one|to each one|into each one|into each|in each glass|in each drink|in each serve|in every one|in every drink"
        "|in every glass|in every serve|every drink|every glass|every serve|for every glass|for every serve|each glass|each serve"
        "|per each one|to every drink|to every glass|to each glass|to each drink|for each one|for each glass|for each drink"
        "|inside each one|in the one glass|in one glass|in one drink"
        "|in each of them|into every one|to every one|for every one|with each one|in each cocktail|in each pour"
        "|everyone gets|everyone has|everybody gets|everybody has|and everyone gets"
    ),
}
