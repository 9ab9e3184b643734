"""The techniques in plain words, for somebody who has never held the brush that way."""

from __future__ import annotations

TECHNIQUES: dict[str, str] = {
    "spray undercoat": (
        "A thin coat from a can, over everything, so that paint has something to hold on to. Start the spray beside the "
        "figure, pass over it from a forearm away and stop on the other side; two light passes from different sides beat "
        "one heavy one. It is enough when the shape is still crisp and nothing shines wet."
    ),
    "brush undercoat": (
        "The same ground as a spray gives, put on with a brush where spraying won’t do. Work thin and pull it out of the "
        "recesses before it pools. It takes longer to dry than it looks."
    ),
    "airbrush": (
        "Paint thinned like milk and laid as a mist. Many faint passes build up a colour that has no edge, which is how "
        "one tone slides into the next. Keep moving, and wipe the needle before it spits."
    ),
    "base coat": (
        "The main colour of an area, solid, with nothing showing through. A pair of even coats give a smoother ground than one "
        "thick one. Go slowly along the borders: a clean edge now saves a repair later."
    ),
    "layer": (
        "A lighter or darker colour over most of the base coat, leaving the first to show where the light does not reach. "
        "Thin the paint a little more than for the base coat. Each layer covers less than the one before."
    ),
    "freehand": (
        "Painting what the sculptor left out: a stripe, a letter, a pattern. Sketch it in thin paint first and correct it "
        "with the ground colour, as often as it takes. Rest both wrists on something."
    ),
    "stipple": (
        "Dots, set close with the tip of a brush held upright or with a scrap of foam. They break up a flat colour into "
        "something worn, furred or rough. Dab most of the paint off first."
    ),
    "sponge": (
        "A torn piece of foam, dipped, dabbed nearly dry and pressed on. It leaves chips and crumbs of colour that no "
        "brush would place so well. Turn the foam after every touch, or the pattern repeats."
    ),
    "wash": (
        "Thin, dark, see-through paint brushed over an area, or over everything. It runs off what stands up and gathers "
        "in what lies deep, and so draws the shadows by itself. Guide it while it is wet, draw puddles off with a damp "
        "brush, then leave it quite alone until it is dry."
    ),
    "pin wash": (
        "A wash set only along seams, rivets and folds, with a fine brush, and drawn along by the groove itself. Over a "
        "gloss coat it runs best. What strays is wiped away with a damp brush."
    ),
    "glaze": (
        "A film of colour that tints without filling the recesses. Take most of it off the brush, and pull each stroke "
        "towards where the colour should be strongest. Several glazes, each dry before the next, make a soft change."
    ),
    "stain": (
        "A strong, thin colour over a pale ground, which colours the flats and shades the recesses at once. One coat, put "
        "on boldly and not worried at afterwards. What it looks like depends on what lies beneath."
    ),
    "oil wash": (
        "Oil paint let down with a solvent, run over or along a sealed surface, left a while and then wiped back. It stays "
        "open for hours, so nothing has to be right at once. It wants fresh air, and a day to dry."
    ),
    "dry brush": (
        "A broad, worn brush, nearly all its paint wiped off on a cloth, flicked across the relief. Only what stands up "
        "takes the colour. If it streaks there was too much paint on the brush."
    ),
    "edge highlight": (
        "A thin light line along edges, where light would catch. Lay the side of the brush against the edge and let the "
        "edge draw the line. Not every edge wants one; those that face up do."
    ),
    "highlight": (
        "The last and lightest touches: knuckles, noses, knees, the glint in metal. Small is enough, seen from an arm’s "
        "length. If it shouts, take it back with a little of the colour beneath."
    ),
    "spray varnish": (
        "A thin clear coat from a can that keeps handling from wearing the paint, and makes it all matt, satin or gloss. "
        "Damp air turns it cloudy, so try it on scrap, wait for a dry day, and spray in two light passes."
    ),
    "brush varnish": (
        "Clear coat with a soft flat brush, where only part is to shine, or where a can won’t do. Few strokes, all one "
        "way, and no going back over what has begun to dry: that is what makes it cloudy."
    ),
    "pigment": (
        "Dry coloured powder, dusted into corners for mud, soot and rust, and fixed with a drop of thinner or a matt coat. "
        "A little on an old soft brush goes far. Fixed powder looks darker than loose."
    ),
    "paste": (
        "Thick ground from a pot, spread on the base with a spatula or an old brush. Rough it up with a damp brush before "
        "it sets, press in what should lie half buried, and keep it off the feet. It shrinks a little as it dries."
    ),
    "sand on glue": (
        "Glue on the base, then sand, poured on rather than sprinkled, tapped and shaken off. Let it set quite hard before "
        "anything else. A thin coat of watered glue over it keeps it there."
    ),
    "water gel": (
        "Clear gel for puddles, wet planks and the river, built up a few millimetres at a time. It goes on milky and dries "
        "clear, slowly. A second layer only when the first has gone quite clear."
    ),
}

# What guides call them, and so do pages.
NAMES: dict[str, str] = {name: name for name in TECHNIQUES}
