"""More spellings of the cues of grammar.words: longer phrases that say what one of its short ones says."""

MORE_CUES: dict[str, str] = {
    "abv": (
        "where does it land|where does that land|where do i land|where do we land|where will it land|where would it land"
        "|where does that put it|where does that put me|where does that leave it|where does it end up|where does it come out"
    ),
    "freezer": "ice cream freezer|ice cream chest|blast chiller|blast freezer|upright freezer|freezer chest|bar freezer",
    "want": (
        "bottling at|bottling it at|to bottle at|bottle it at|target|targeting|aiming for|aim for|shooting for|needs to be"
    ),
    "headspace": "how full can i fill|how full can we fill|how full do i fill|how full should i fill|how full|how far can i fill",
    "rest": (
        "topped it back up with|topped back up with|top it back up with|top back up with|filled it back up with"
        "|filled back up with|fill it back up with|filled it up with|fill it up with|refilled it with|refilled with"
    ),
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
