"""Every spelling of a cue and a filler, once; units, numbers and vessels are in words_measures.py.

A word here is spelled as it leaves grammar.clean: lower case, no accents. The lexer builds its terminals from these
tables. Ingredient and drink names live in grammar.ingredients; nothing here knows what a cue leads to.
"""

CUES: dict[str, str] = {
    # what surrounds amounts
    "water": (
        "water|h2o|wtr|waters|filtered water|still water|cold water|tap water|mineral water|chilled water|h20"
        "|melt|melted ice|ice melt|melt water|meltwater|melted water|icemelt"
    ),
    "dilution": "dilution|diluted|dilute|dil|diln|dilu|prediluted|pre diluted|predilute|pre dilute|diluting|dilutes",
    "final": (
        "once diluted|after dilution|when diluted|after diluting|post dilution|after water|once watered|final"
        "|finished|total|totals|overall|end volume|final volume|finished volume|total volume|altogether|in total"
        "|of the whole|comes to|coming to|adds up to|adding up to|totalling|the lot|of the batch|of the mix"
        "|all told|whole lot|the whole lot|entire batch|final batch|final yield|final total|yield|yields|in all"
        "|final mix|finished batch|whole batch|end product|finished product|whole thing|land on|lands on|landing on"
        "|land at|lands at|end up with|ends up with|end up at|ends up|ends up in the bottle|what ends up"
        "|what ends up in the bottle|what's in the bottle|whats in the bottle|what goes in the bottle|what is in the bottle"
    ),
    "undiluted": (
        "undiluted|pre dilution|before dilution|before water|neat|of the spirits|of the spirit|of undiluted"
        "|of the undiluted|of booze|of the booze|unwatered|dry mix|of the recipe|of the spec|by volume of spirit"
        "|of the alcohol|of the ingredients|on top|before any water|not diluted yet"
        "|not yet diluted"
    ),
    "rest": (
        "makes up the difference|make up the difference|making up the difference|makes up the rest|make up the rest"
        "|making up the rest|the difference|topped to|top to|topped it up with|topped it up to|holds up to|rest|the rest"
        "|remainder|balance|remaining|topped up with|top up with|top it up with|make up with|made up with|fill up with"
        "|filled up with|fill the rest with|topped up to|top up to|make up to|made up to|up to|fill with|rest is|rest of it"
    ),
    "top": (
        "top|topped|top with|topped with|top off|top up|splash|splash of|float|floated|spritz of|to top"
    ),
    "none": (
        "no|without|zero water|w/o|w o|hold the|skip the|leave out the|leave out|minus the|none|no more|not"
    ),
    "each": (
        "each|ea|per|apiece|a piece|per drink|per serve|per serving|per person|per guest|per head|a head"
        "|each drink|in each|to each|per cocktail|each one|a serve|a drink|a person|for each|per glass|pp|p p"
        "|a pop|ech|per one|per portion|a guest|a cocktail|every one|per martini|per negroni|per round|eaach"
        "|for every drink|per ea|every|out of every|in every|for every"
    ),
    "equal": (
        "equal thirds|equal halves|equal quarters|equal parts|equal|equal measures|equals|even parts"
        "|same amount of|same of|equal amounts|equal part"
        "|equally|third each|a third each|one third each|a third of each|quarter each|a quarter each|same amounts of"
        "|equal volumes|equal volume|equal measure"
    ),
    "of": "of|o",
    "at": "at|@|a b v of",
    "from": "from|out of|starting at|start at|starting from",
    "to": (
        "became|becomes|grew to|went to|makes it|to make it|hit|to hit|to|->|=>|down to|into|till|until|unto|>"
        "|back to|back up to|back down to|to about|to reach|til|>>|->>"
    ),
    "in": "in|as|expressed in|given in",
    "and": "and|&|n|plus|+|then|also|und|y|et",
    "with": "with|w|w/|using|containing|contains|including|incl|inc",
    "for": "for|4 x",
    "or": "or|vs|versus",
    "equals": "=|equals to|equal to|is equal to",
    # what is asked
    "how_much": "how much|how mch|hw much|howmuch|hm|how mutch",
    "how_many": "how far|hw mny|hwmny|how many|hw many|howmany|how mny|number of|no of"
        "|how many does it do|how many will it do|how many does that do|how many do i get"
        "|how many does it make|how many will that do",
    "what": "what|whats|what's|wats|wat|wot|what is|which|what are|whats the|wots",
    "work_out": "calculate|calc|work out|figure out|compute",
    "convert": "convert|conversion|converted|translate|turn into|change into|to metric|in metric|metric|convrt",
    "imperial_out": "in imperial|to imperial|in us measures",
    "abv": (
        "percentage|what percentage|percentage alcohol|abv|alc|alcohol|alc vol|a b v|strength|strong"
        "|alcohol by volume|alcohol content|how strong|vol alc|alcohol percentage|alcohol percent|abv percent"
        "|abvs|avb|how boozy|boozy|alc percent|potency|final strength|final abv|abv of|octane|alcoholic"
    ),
    "proof_word": "proof|proofs|us proof|prf|prof|degrees proof",
    "cut": (
        "cut|cutting|watering|watering down|knock|bring|reduce|proof down|proofing down|proofing|let down|bring down|knock down"
        "|water down|watered down|watered|lower|drop|weaken|take|cut down|dial down|tone down|reduced|knocked|down|drop down|thin"
        "|adjust|brought|break down|knock back|dropping|reduction|water back|takes|lengthen|pull|pull down"
        "|stretch|dwn|water dwn|cut dwn|ease|bringing|lowering|rectify|let it down|make into|make it into"
    ),
    "raise": "raise|bring up|increase|strengthen|fortify|up it|boost|take up|push|push up|beef up",
    "blend": "blend|mix|mixed|mixd|mxd|mixing|blended|combine|combined|combining|together|blending|marry|add together",
    "freezer": (
        "freezer|freeze|freezes|freezing|frozen|freezer safe|chest freezer|deep freeze|deep freezer|freez|frezer"
        "|frreezer|freezr|freezers|frozed"
    ),
    "slush": (
        "slush|slushy|slushes|ice up|solid|turn to ice|go solid|liquid|stay liquid|pourable|still pour"
        "|pours clear|solidify|go slushy|crystals|icy|goes solid|slushie|stays liquid|remain liquid|stay pourable"
        "|rock solid|rock hard|rock or not|a rock|hard as a rock|a brick|block of ice"
        "|go hard|goes hard|set hard|set solid|burst|crack|stays pourable|iced|safe|survive|runny|stay runny|get ice"
        "|keep liquid|expand|crystallise|crystallize"
    ),
    "headspace": (
        "headspace|head space|space at the top|space on top|of space|of empty space|empty at the top"
        "|headroom|room to leave|gap to leave|air gap|ullage|swell|swells|swelling|expansion"
    ),
    "ice_share": "ice share|how icy|how much ice|percent ice|share of ice|amount of ice|ice percent",
    "fridge": "fridge|refrigerator|cooler",
    "point": (
        "freezing point|freeze point|freezing temperature|freezing temp|when does it freeze|what temp"
        "|what temperature|what temperature does|at what temp|at what temperature|how cold"
    ),
    "least": "min|weakest i can|minimum|least|lowest|at least|weakest|mimimum|minumum|miminum",
    "most": "max|maximum|most|highest|at most|maximum amount of|limit|as much",
    "syrup_word": "syrups",
    "sweeten": (
        "brix|sugar content|how sweet|sugar per litre|sugar per liter|g per l|g/l|grams per litre|sweetness"
        "|degrees brix|sugar level|bx"
    ),
    "by_weight": "by weight|by mass|weight|weighed|by wt|w w|in weight|on the scale|by the scale|by scale|wt",
    "by_volume": "by volume|by vol|v v|volume|vol|by volumes|volumes|in volume",
    "cost": (
        "cost|costs|costing|costed|cogs|coster|cost price|liquid cost|drink cost|cots|spend|ingredient cost"
        "|costings|pay|paid|budget"
    ),
    "price": (
        "price|sell|selling|sell price|selling price|charge|menu price|sale price|retail|sells|sold|priced|prices"
        "|sold at|sold for|charging|rrp|menu"
    ),
    "pour_cost": (
        "pour cost|pourcost|pc|pour cost percent|beverage cost|liquor cost|cost percent|cost percentage"
        "|pour costs|bev cost|pour cst|cost of goods|drink cost percent|liquor cost percent"
    ),
    "margin": "margin|gp|gross profit|gross margin|profit|profit margin|g p|gpm|gross|mrgin|margins",
    "markup": "markup|mark up|times cost|times the cost|x cost",
    "tax": "tax|vat|gst|sales tax|taxes|iva|mwst|hst|moms|taxed",
    "tax_in": (
        "inc tax|incl tax|including tax|tax included|tax inclusive|inc vat|incl vat|including vat|inclusive"
        "|tax in|vat included|vat in|inc gst|incl gst|gst included|incl|including|with tax|with vat|vat inclusive"
        "|tax inc|vat inc|included|after tax|gst inclusive|including gst|with gst"
    ),
    "tax_out": (
        "ex tax|excl tax|excluding tax|tax excluded|ex vat|excl vat|excluding vat|exclusive|plus tax|plus vat"
        "|before tax|tax out|net of tax|ex gst|plus gst|excl gst|no tax|vat excluded|tax free|without tax"
        "|excluding|excl|exclusive of tax|+ vat|+ tax|+ gst|excluding gst|vat on top|tax on top|net"
    ),
    "bottles": (
        "how many bottles|bottles to buy|bottles needed|bottles needed for|bottles required|what bottles"
        "|need to order|to order in|to buy|buy|buy list|shopping list|purchase|shop|shopping"
    ),
    "enough": (
        "enough|suffice|cover it|is that enough|last|will it cover|do i have enough|cover|stretch to|be short"
        "|run out|short|will that do|will it do|will they do|does that do|would that do|will this do|do the job|see us through"
        "|get us through|cover us|go round"
    ),
    "stock": (
        "on shelf|on the shelf|in stock|on hand|in hand|have|i have|we have|got|mine is|mine|ours is|i've got"
        "|we've got|stock|have got|at hand|ive got|weve got|left on the shelf|i got|on the back bar|there are"
        "|there is|in the cellar|we got|in the cupboard|in the storeroom|in the back|out back|there's a|theres a"
    ),
    "left": "left|left over|leftover|remaining in|used|used up|gone|poured|left in|sold so far|already poured",
    "fit": (
        "fit|fits|fit in|fit into|hold|holds|holding|to hold|need to hold|big enough|container size|capacity|room for"
        "|fitting|will it fit"
    ),
    "standard_drinks": (
        "standard drinks|standard drink|std drinks|std drink|standards|standard units|alcohol units"
        "|units of alcohol|uk units|uk unit|units|unit|standard serves|standard serve|units in|stds|alcohol unit"
    ),
    "label": "label|labels|labelling|labeling|on the label|for the label|for a label|labelled|tag",
    "allergens": "allergens|allergen|allergy|allergies|allergic|allergens in|contains sulphites|alergens",
    "country": (
        "us|usa|uk|au|aus|australia|australian|american|british|eu|european|aussie|europe|england|america|who|nz"
    ),
    # house specs, shelf, settings, help
    "save": (
        "save|remember|store|keep as|save as|save this as|save that as|remember this as|log|add spec|save it as"
        "|new spec|add recipe|remember that as|call it|save it|save this|save that"
    ),
    "show": (
        "show|show me|recipe for|spec for|what's in|whats in|what is in|recall|spec of|recipe of|how do we make"
        "|open"
    ),
    "list": (
        "list|list my|my recipes|my specs|house specs|saved|list all|list recipes|list specs|what have i saved"
        "|what have we saved|what specs|what recipes|recipes saved|specs saved|saved specs|saved recipes"
        "|my house specs|our specs|our recipes|all recipes|all specs|which recipes|which specs|list the recipes"
        "|list house specs|house recipes|the book|recipe book"
    ),
    "rename": "rename|call|retitle",
    "replace": "replace|overwrite|update|change",
    "forget": (
        "forget|delete|remove|erase|scrap|bin|drop spec|delete spec|delete recipe|wipe|discard|get rid of|unsave"
        "|clear"
    ),
    "bring_back": (
        "bring back|restore|undo|revert|undelete|roll back|go back to the old|previous version|old version"
        "|put back"
    ),
    "export": "export|csv|export all|download|as csv|backup|back up",
    "import_csv": "import|load csv|read csv",
    "everything": "everything|all my data|all data|all of it|everything you know|all you know",
    "shelf": "shelf|my shelf|bottles on shelf|my bottles|the shelf|our shelf",
    "settings": "settings|setting|preferences|prefs|defaults|set up|configure|options",
    "default": "default|by default|from now on|always",
    "set_to": "set|switch|use",
    "first": "first|ml first|oz first",
    "help": (
        "help|commands|what can you do|what can u do|what do u do|how does this work|how do you work"
        "|what do you do|usage|guide|how do i use this|examples|what can i ask|tutorial|halp|manual|help me"
    ),
    # follow-ups
    "same": (
        "same|again|as before|same again|same thing|same as before|the same|same batch|that again|same recipe"
        "|same spec|repeat|last one|redo"
    ),
    "but": "but|except|instead|only|just|rather|now|ok now|and now|actually",
    "make_it": (
        "make it|make that|make them|do it|scale it|scale to|scale that to|scale it to|bump it|bump to|bump"
        "|change to|now for|and for|what about|how about|go to|switch to|set it to|do|scale|scale up to"
        "|scale down to|try|let's do|lets do|make it for|change it to|set to|now make it|now do|rescale|up"
        "|take it to|upscale|scale this to|resize|make|and if"
    ),
    "double": (
        "double it|double that|double|doubled|twice|twice that|twice as much|x2 it|doubling|double the"
        "|double batch"
    ),
    "triple": "triple|triple it|triple that|tripled|three times|three times that|treble|treble it",
    "half": (
        "half that|halve|halve it|half it|half of that|half as much|half the batch|halved|cut it in half"
        "|half batch|half the recipe|half a batch|halve that|cut in half|half the amount|half quantities"
    ),
    "oops": (
        "oops|sorry|i meant|meant|i mean|wait|correction|whoops|scratch that|should be|should have been|typo"
        "|should've been|shouldve been|was supposed to be|supposed to be|was meant to be|meant to be"
        "|my bad|woops|mistake"
    ),
    "swap": "swap|sub|substitute|swap out|switch out|instead of|rather than|in place of"
        "|change out|trade|swapping|subbing|replace the",
    "bigger": "extra|added|adding|put in|more|bigger|stronger|larger|increase by|add",
    "smaller": "less|fewer|smaller|weaker",
    # surroundings of a recipe
    "garnish": "garnish|garnished|garnish with|garnished with|garnish:|deco|for garnish|to garnish",
    "technique_stir": "stir|stirred|stirring|stired|strred",
    "technique_shake": "shake|shaken|shaking|shakn|hard shake|dry shake",
    "ice": (
        "ice|over ice|on ice|cubes|cube|crushed ice|rocks|on the rocks|ice cubes|with ice|over crushed ice"
        "|cubed ice|block ice|large ice"
    ),
    "recipe_word": "recipe|spec|specs|recipes|formula",
    "scale": (
        "batch|batches|batching|batched|prebatch|pre batch|fill|filling|to fill|fills|full|batch up|prep|filled"
        "|batch of|premix|premixed|pre mix|refill"
    ),
    "serves_base": (
        "recipe serves|recipe makes|spec serves|spec makes|serves one|makes one|originally serves"
        "|originally makes|recipe is for|spec is for|recipe yields|which makes|which serves|that makes"
        "|that serves|it makes|it serves|for one drink|makes|is for"
    ),
    "want": "i'm after|im after|we're after"
        "|i need|need|needs|needed|want|wants|we need|needing|doing|gotta make|would like|required|want to make",
}

FILLER: str = (
    "please|pls|plz|hi|hey|hello there|i|i'm|im|we|we're|the|this|that|it|its|it's|my|me|our|your|you|some|about|around"
    "|approx|approximately|roughly|ish|circa|ca|can|could|give|do|does|is|are|am|was|will|would|should|be|by|has|so|if|then"
    "|when|on|onto|up|out|there|here|these|those|them|they|all|any|both|one of|a|an|another|very|really|quick|quickly"
    "|quick one|tonight|tomorrow|today|now|asap|mate|chef|boss|bud|thanks|thank you kindly|kindly|thank you|ta|cheers|thx|regards"
    "|ty|for me|tell|know|maths|math|sums|help with|party|wedding|event|service|shift|bar|menu for|function|gig|friday"
    "|saturday|sunday|monday|tuesday|wednesday|thursday|ingredient|ingredients|mixture|amount|amounts|quantity|quantities"
    "|qty|measure out|measurements|size|sized|sizes|worth|strain|strained|straining|double strain|fine strain|fine strained"
    "|double strained|coupe|nick and nora|rocks glass|highball glass|coupe glass|martini glass|glass|tall glass|chilled"
    "|chill|cold|fresh|freshly|squeezed|fresh squeezed|freshly squeezed|pressed|good|nice|decent|cheap|house made|homemade"
    "|home made|up|straight up|serve up|neat pour|liquid please|spirit of|standard|regular|normal|usual|classic|plain|style"
    "|type|kind|sort|should i|do i|must|gonna|going|go|goes|come|comes|end|off|ok|okay|right|well|um|er|uh|hmm|oh|lol|guys"
    "|quickly please|a la|dear|likes|liked|bot|let|let's|lets|see|say|got to|have to|into a|inside|each of the|also|too"
    "|still|already|at the moment|currently|being|because|cause|cos|i'd|i'll|we'll|we'd|that's|thats|there's|where|who's"
    "|think|reckon|actually please|per cent of|welcome|split|divided|whole ones|full ones|emptying|empty|whole ones only"
    "|full ones only|mixing glass|tin|shaker|bar tin|strainer|batch it|batch this|big|huge|large|small|little|tiny|new|old"
    "|clear|cask strength|premium|tasty|bitter end|until cold|well chilled|long|short glass|more or less|combine all"
    "|deli|delis|deli container|deli containers|deli tub|deli tubs"
    "|all ingredients|everything in|pour into|poured into|serve in|served|serve it|method|directions|express|twist over"
    "|discard peel|makes a|make a|making|made|use up|was wondering|wondering|hows|how's|how do|how would|how|looks like"
    "|look like|come out|comes out|came out|work|works|stuff|thing|things|lot|bit|of it|pop|put|u|ur|em|gets|singles|single"
    "|doubles measure|nothing else|else|use all of|all of it|over|onto it|house|get|getting|anyone|somebody|someone|team"
    "|crew|guest|tray|night|evening|weekend|staff|bartender|chilling|tap|pour me|gimme|lemme|whole|entire|exact|exactly"
    "|shelf life|nice one|good one"
    "|precise|correct|true|real|ready|keep|keeps|together please|next|even|much|many|time|x|than|eg|e g|i e|ie|etc|re"
    "|per se|hi there|yo|oi|sup|alright|hours|hour|min please|minutes|degrees|deg|degree|percent of the|temp|temperature"
)
