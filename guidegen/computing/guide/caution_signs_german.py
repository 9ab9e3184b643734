"""German words that call for a caution, as `caution_signs` searches for them beside the English ones, by caution.

German joins words: what the caution is about may begin a longer word, stand within it, or end it. Cautions concern a
reader's health, so a guide's `language` does not decide what is searched: every guide is searched in both.
"""

from __future__ import annotations

# Named anywhere in a step, or among a guide's materials and tools.
ANYWHERE = {
    "isocyanate": (
        r"\bisocyanat\w*",
        r"\b(?:2|zwei)[ -]?k[ -]?(?:farbe|lack|klarlack|grundierung)\w*",
        r"\b(?:2|zwei)[ -]?komponenten-?(?:farbe|lack|klarlack|grundierung)\w*",
    ),
    "solvents": (
        r"\b\w*lösungs?mittel(?!frei)\w*",
        r"\b\w*lösemittel(?!frei)\w*",
        r"\bterpentin\w*",
        r"\b(?:test|wasch|reinigungs|feuerzeug)-?benzin\b",
        r"\b(?:nitro|kunstharz|email|enamel|lack)-?verdünn(?:er|ung)\b",
        r"\b(?:brenn)?spiritus\b",
        r"\b(?:xylol|toluol|isopropanol|isopropylalkohol)\b",
        r"\böl(?:farbe|wash|lack)(?:n|es|s)?\b",
    ),
    "oily rags": (r"\b(?:lein|walnuss|tung|mohn)öl\b", r"\böl(?:farbe|wash)(?:n|es)?\b"),
    "uncured": (
        r"\bepoxid\w*",
        r"\b(?:gieß|uv-?|flüssig|epoxid)harz\w*",
        r"\b(?:2|zwei)[ -]?k(?:omponenten)?-?(?:knete|spachtel|kitt)\w*",
    ),
    "lead": (
        r"\bblei-?(?:figur|guss|legierung|miniatur|soldat|gewicht|schrot|blech|folie|draht|kugel|späne|staub)\w*",
        r"\baus (?:altem )?blei\b",
        r"\bbleihaltig\w*",
        r"\benthält blei\b",
    ),
    "super glue": (r"\bsekundenkleber\w*", r"\bcyanacrylat\w*", r"\bcyanoacrylat\w*"),
    "warm air": (r"\bf(?:ö|oe)hn\b", r"\bhaartrockner\w*", r"\bheißluft\w*"),
    "stripping": (r"\babbeizer\w*", r"\b(?:farb|lack)entferner\w*", r"\bentlack(?:er|en|ung)\w*"),
    "uv resin": (r"\buv-?(?:harz|gel|kleber|lack)\w*",),
    "ammonia": (r"\bammoniak\w*", r"\bsalmiak\w*", r"\bchlor(?:bleiche|reiniger)\w*"),
    "dropper": (r"\bverstopfte\w? (?:tropfflasche|tropfer|spitze|düse)\w*", r"\btropfflasche\w*"),
}

# Named in what a step does: its title and technique.
DOING = {
    "airbrush": (r"\bairbrushen\b",),
    "blades": (r"\b(?:ab|aus|zu)(?:ge)?schn(?:eiden|itten)\b", r"\bschnitzen\b", r"\b(?:guss|form)grate?\b"),
    "curing": (r"\b(?:ab)?maskieren\b", r"\babkleben\b"),
}

# Named among the tools and materials, or as brush or thinner.
BENCH = {
    "sprays": (
        r"\b\w*spr(?:ü|ue)hdosen?\b",
        r"\b\w*spraydosen?\b",
        r"\bspr(?:ü|ue)hkleber\b",
        r"\bdosenlack\w*",
    ),
    "blades": (
        r"\b(?:\w*(?:bastel|teppich|cutter|modell|hobby))?-?messer\b",
        r"\bskalpelle?\b",
        r"\b\w*klingen?\b",
        r"\b\w*s(?:ä|ae)gen?\b",
        r"\b(?:seitenschneider|handbohrer)\b",
    ),
    "curing": (r"\b(?:maskier|abdeck|abkleb)-?(?:band|folie|flüssigkeit)\w*",),
    "magnifier": (r"\b(?:\w+)?lupen?(?:lampe|leuchte|brille)?\b", r"\bvergrößerungsglas\w*"),
}

# In a title whose technique is not told, or is told in a word of the author's own.
SPRAYING = (r"\b(?:an|auf|be|ein)?(?:ge)?spr(?:ü|ue)h(?:en|t)\b", r"\bspr(?:ü|ue)hdose\b")

HEAVY_METALS = (r"\b(?:kadmium|kobalt|cadmium(?=[a-zäöü]))(?!\w*(?:ton|imit))\w*",)
FOAM = (r"\b(?:styropor|styrodur|hartschaum|schaumstoff(?:platte|block))\w*",)

RESIN = (r"\b(?:\w+)?harz\w*", r"\bresin\w+")
RESIN_FIGURE = (r"\b(?:harz|resin)-?(?:figur|guss|bausatz|modell|teil|druck|miniatur|büste|base)\w*",)
ABRADING = (
    r"\b(?:ab|an|glatt|nach)?(?:ge)?schleif(?:en|t|papier)\b",
    r"\bschleif\w*",
    r"\b(?:ab|nach)?feilen?\b",
    r"\b(?:ab|zer)?s(?:ä|ae)gen\b",
    r"\bbohren\b",
    r"\b(?:ab)?schaben\b",
)
DENIED_BEFORE = r"ohne|kein|keine|keinen|statt|anstatt|frei von|nicht"
DENIED_AFTER = r"[ -]?frei\b"
