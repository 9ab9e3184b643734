"""Words of painting and of what is painted, in English and German: a name that has one was hardly a slip of the pen.

Typed from memory, and no dictionary: colours, what they are named after, what is said of them, and above all words that
are one letter away from such a one. Folded as names are, umlauts also spelt out where that makes another word.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

_ENGLISH = """
amber apricot aqua ash auburn azure beige black blond blonde blue brass bronze brown brunette buff burgundy cadmium
caramel carmine cerise charcoal cherry chestnut chrome claret cobalt copper coral cream crimson cyan denim drab ebony
ecru emerald fawn flax fuchsia gamboge gilt gold golden gray green grey hazel indigo iron ivory jade jet khaki lapis
lavender lead lemon lilac lime linen madder magenta mahogany maroon mauve mint mustard navy ochre olive onyx opal orange
orchid peach pearl pewter pink plum puce purple quartz red rose rosy rouge ruby ruddy russet rust rusty sable saffron
sage salmon sand sandy sapphire scarlet sepia sienna silver slate snow snowy steel straw tan tawny teal tin titanium
topaz turquoise ultramarine umber verdigris vermilion violet viridian wheat white wine yellow zinc

aged ancient angry bare bitter blank bleak bleached blunt bold bright brisk brittle broad broken burned burnt calm
charred cheery chilly clean clear close coarse cold cool crisp crude damp dark dead deep dense dim dirty dry dull dusky
dusty early eerie empty even faded faint fair faked fallen false fated fierce fiery fine first flat foul fresh frosty
full gentle ghostly glad glossy gloomy grand grave greasy great grim grimy gritty gross hard harsh hazy heavy high holy
hot humid icy inky jaded keen lasting late later light livid living local lonely long loose lost loud low lower loyal
lucid lurid lush mad matt matte mean mellow mild milky misty mixed modern moist moody mossy muddy murky musty muted
narrow natural near neat new next noble normal odd oily old older open opaque outer pale pallid plain poor primal prime
proud pure quick quiet quite rainy rapid rare raw rich ripe rough round royal rubbed rude sacred satin scared second
shady shallow sharp sheer shiny short sickly silky simple slick slim slow sly small smoky smooth smudged sober soft solid
sombre sooty sour spare stale stark steady steep stiff still stormy strange strong subtle sultry sunny sure sweet swift
tall tarnished tart tattered tender thick thin tidal tidy tired toasted torrid tough tried true ugly upper urban vague
vast velvety violent vivid warm warped washed wasted watery waxen waxy weak weary weathered wet whole wide wild wintry
wise worn woven wry young

acorn alder almond anchor angel angle ankle ant apple apron arch arm armour arrow aspen autumn awning axe back badge badger
bag bait bale band bank bar bard barge bark barley barn baron barrel barren base basin bass bat bath bay beach bead beak
beaker beam bean bear beard beast beaver bed bee beech beef beer beet bell belt bench berry better bib bilge birch bird
biscuit bishop bit blade blast blaze blight block blood bloom blossom blot blush boar board boat bog bolt bone bones book
boot border bottle boulder bow bowl box bracken braid brake bramble bran branch brand bread break breath breeze brew
briar brick bride bridge brine brood brook broom broth brow bruise brush bubble bucket bud bull bun bur burr bush butler
butter button cabin cable cactus cage cake calf camel camp canal candle cane canoe canvas cap cape caper captain card
cargo carp cart carve casket castle cat cave cavern cedar cell chain chalk chard charm chart cheek cheese chest chief chill
chin chip choir cider cigar cinder citrus city clam claw clay cliff cloak clock clot cloth clothes cloud clover clown coal
coast coat cobble cobra cockle cocoa cod coffee coin collar comet cone cook cooper cord core cork corn corner corpse
cotton course court cove coven cover cow crab craft crane crate crater crave craw craze creek creep crest crew crime crop
cross crow crown crumb crust crystal cub cup cuff currant curry curse curtain custard dagger dairy daisy dale danger dart
date dawn day deal debt deck deer delta demon dent desert dessert devil dew diamond diary dike dirt dish ditch diver dock
doe dog doll donkey door dot dough dove dragon drain drake drape draw dream dress drift drink drip drop drum duck duke dun
dune dusk dust dwarf dye eagle ear earl earth east eel egg elbow elder elf elk elm ember enamel engine eve evening eye eyes
face fairy falcon fall fallow fang farm fat fault feather feet felt fen fence fern ferry fiend field fig film fin finch
finger fir fire fish fisher fist flag flake flame flank flare flash flask fleece flesh flint flock flood floor flora flour
flower flute fly foal foam fog folk food foot forest forge fork form fort fossil found fox frame friend fright fringe frog
from frost fruit fudge fuel fume fungus fur game garden garlic garnet gas gate gavel gaze gear gem ghost ghoul giant
ginger girl glacier glade glare glass glaze gleam glen globe gloom gloss glove glow glue gnat goat goblin goddess goose
gorge gorse grain grape graphite grass gravel graze greed greek grill grime grit grotto ground grouse grove growth grub
guard guest guide guild gull gum gun gut hail hair hall ham hand harbour hare harp hart harvest hat haven hawk hay haze
head heap heart hearth heat heath heather hedge heel heir helm helmet hemp hen herb herd hero heron hide hill hinge hive
hod hole hollow holly home honey hood hoof hook hoop hop hope horn horse hose host hound house hue hull human hunt hunted
hunter hut ice idol imp inch ink inn insect island isle ivy jacket jam jar jaw jay jelly jetty jewel joint juice jungle
kelp kettle key kid kin king kiss kitchen kite knife knight knot knuckle lace ladder lagoon lake lamb lamp lance land lane
lantern larch lard lark larva lash latch laurel lava law lawn layer leaf leaves leak leather ledge leech leek leg leopard
lever lichen lid lift liken limb line liner lining lion lip lips liver lizard loaf loam lobe lobster lock locust loft log
loin loom lord lotus lure lynx mace maid mail malt mane mantel mantle maple marble march mare marine mark market marsh
marten martial martin mash mask mason mast mat maze meadow meal meat medal melon mend metal meteor midnight mile milk mill
miller millet mimic mind mine miner mire mirror mist mite moat mocha mode mold mole money monk monkey moon moor moose morning
mortal mortar moss moth mould mound mount mouse mouth mud mule mum musk mussel nail neck needle nest net nettle newt night
noon north nose nun nut nutmeg oak oar oat oats oath ocean office oil oilskin oracle orb orc ore otter oven owl ox oyster
pack paddle page pail pain palm pan panel panther pants paper parch parchment park parsley parson part past paste pasture
patch path patina paw pea peak peat pebble peel pelt pen pepper perch petal petrol petrel phantom pie pier pig pigeon pike pilgrim
pill pilot pin pine pipe pirate pit pitch place plague plaice plan plane plank plant plaster plate plaza plough plumb
plume plump poach pod point poison pole polish pollen pond pony pool pope poplar poppy porch pore port portal post pot
potato pottery pouch powder prawn priest prince princess print private prose prow prune pumpkin pup pus quail quay queen
rabbit race raft rag rail rain ram ramp range ranger raspberry rat raven ravine reed reef reel reeve relic resin rest rice rider
ridge rift rim rind ring rise rite river rivet road roast robe robin rock rod rogue roof rook room root rope rosewood rot
route rover row rubble rum rune rye sack sad saddle sail sailor saint salt salty sand sap sash sauce save savage saw scab
scale scales scar scarf scholar school scorch scout scrap scree screw scroll sea seal seam seas seat seaweed seed serpent
shade shadow shaft shale shape share shark sheaf shed sheen sheep shelf shell shield shift shingle ship shirt shoal shoe shore
shot shrimp shroud sign signal silk sill silt sin sink siren skate skeleton skill skin skirt skull sky slack slab slag
sleet sleeve slice slime slip slit sliver sloe slope sludge sluice slush smelt smell smile smith smoke snail snake snow snuff
soap sock sod soil sole song soot sorrel soul soup source south spade spark sparrow spell sphere spice spider spike spine
spire spirit splash spleen sponge spoon spore spot spray spring sprout spruce spur squall squash squid squire stable stack
stag stain stair stake stalk stall stamp stand star starch starling state statue steam steed stem step stern steward stick
sting stitch stock stole stone stool store stork storm story stove strand strap strata stray stream street string stripe
stroke stub stud stump style sugar suit sulphur summer summit sun sunset surf swallow swamp swan swarm sweat swine sword
syrup tail tallow tang tannin tannery tanner tar tarn tartan task taste tea tear temple tent tentacle thatch thicket thief
thigh thistle thorn thread throat throne thrush thunder thyme tide tiger tile till timber timbre tip tit toad toast
tobacco toffee tomato tomb tone tongue tool tooth torch tower town trace track trail train trap tray tree trench trial
trim trench trolley trough trout truffle trunk tulip tundra tunic tunnel turf turnip turtle tusk tweed twig twilight twine
urchin urn valley vampire vanilla vapour vault veil vein vellum velvet velour venom verdant vessel vest vine vinegar viper
vision wafer wagon wall walnut walrus wand war ware warden warrior wart wasp watch water wave waver wax weasel weave weaver
web weed weeds well west whale wharf wheel whelp while whine whip whisky wick widow willow wind wing winner winter wire witch wolf
wood wool woollen work world worm wound wraith wreck wren yam yard yarn yeast yew yolk zebra zone

balsam banner barrow barter basket batter beacon bellow billow bisque bluster bonnet bosun bracket brandy brindle bridle brother
buckle bugle bundle bunting cannon canopy canter canyon carrion cattle caviar cayenne celery centre center cereal chalet chapel chicory
chisel chive chorus citron cloister cloves colony compass condor conker copse coracle cormorant corral corsair cottage
cowl crayon cricket crochet cutlass cutler cutter dahlia dapple dapper dinghy dingy drill drudge eager eagre earthen ermine
errand fable fathom fennel ferret fetter fiddle filly fjord flannel fleet flounder flush fodder founder foundry foxglove
freckle friar frilly fritter furrow gable galley gallow gambler gander gannet gantry garland garret gibbet glacial glitter
glimmer glisten goblet gosling gossamer granary granite gravy griffin gripe grove grovel gully gunner gypsum halter hamlet
hamper hatter hawser herald hermit heretic hickory holster hornet husk icicle inlet jackal jasper jerkin jester
jigsaw juniper kernel kestrel kipper lacquer lancer lather lattice lever linnet linseed lotion lumber lustre magma magnet
magnolia magpie mallet mallow mango manor marina mariner marrow marshal mastiff matron meander mercer merlin midge minnow
minster minstrel minter mitten molten monster morass morocco morsel mosaic mosque moulder muffin murder mutton myrtle nectar
nestle nomad nougat nursery osier osprey otter outlaw paladin palace palette pansy pantry papaya parrot partridge patter pauper
peacock peasant pelican pennant peony periwinkle pestle pewit pickle pilaster pillar pillow piper pippin plaid platina
platinum platter plover plunder poplin porter potter pottage poultry powder puffin pulley puppet puppy purse python quarry
quarrel quiver rafter raisin rampart ransom rapids rattle raider reaper regent ribbon ripple robber rodent rotor rubble
rudder ruffle rugby runner rustic sailcloth salad saloon salve samphire sandal sardine sawdust scallion scallop sceptre scone
scooter scribe scullery settle shackle shamrock shanty sherry shimmer shiver shovel shuttle shutter sickle singer skipper
slave sling slipper slumber smelter smudge smuggler snipe snout socket sorrow sparse spatter spawn spear speck spectre
spindle spinach splint splinter sprig sprite squirrel stallion staple steeple stencil sterling stirrup stubble stucco
stump sunrise sunburn surge swede swirl syrup tabby tackle talon tangle tansy tavern teasel temper tempest tendril terrace
thrash thresh thrift thistle throng tinder tinker titan tonic topper torrent totem trader trance trash treacle treasure
trellis trident trifle trinket troll trooper trouble trumpet trundle tumble turban turret turner tuxedo twinkle twist umbrella
valet valour vandal vapor velum vendor venison verger vermin vicar victor vintage viola vulture waiter waffle wallow warbler warble
warlock warp weapon welder wicker wicket wigwam willow winkle wither wizard wrack wreath wrench writer yellowish yeoman zephyr
burnish crash crush crust dash ditch draft drift draught flinch forge gulch hatch hunch latch lodge lunge lynch munch nudge
parse paddy patsy perky plush prank punch putty quill quilt randy rapid raspy ridged roach rouse saucy scald scalp scant scone
scope scour scowl scrub sedge sewer shack shank shave shear shrub siege sieve skein sleek sleigh sloth smack smear smirk
snare sneer snore spade spank spear spelt spent spice spill spilt spoil spool spout sprawl squat squint stack staff stall
stash steak stilt sting stint stomp stoop stoat stout strut stump stung surly swarm swede swell swirl swoop tabor talon
tatty taunt tawdry teeth tepid terse thick thump tilde toffy token topaz toxic tramp trend tribe trick tripe troop truce
truck tubby tweak twirl udder usher valet verse vicar vigil vinyl visor vivid vixen vocal voice wacky waist weird wench
whiff whirl whisk wield windy wring wrist yacht yield zesty

able above after again almost alone along among barely been before behind being below beside between both casual causal
could every eight eighth eighteen eighty eleven fifteen fifth fifty five four fourteen fourth forty half handy hundred last left
less like made make many mate might mingle month more most much must name nine nineteen ninth ninety none number once one
only other over pair quarter right same seven seventeen seventh seventy shall should single six sixteen sixth sixty some
ten tenth than that their them then there these third thirteen thirty this those three through twelfth twelve twenty twice
two under until very when where which whose with without would write

mattress base coated coating glazed ground layer mixer painted painter pigment primer priming rubber sealed sealer shader
stainer strain tinted tinter tint toner toned undercoat varnish washer

ann anne anna anton antonia carol carole christian christina christine clair clara denis denise elena emil ernst eva francis
franz frieda fritz hanna hans heidi henry jakob james jane johann johanna john joseph julia julian julius karl karla klaus
laura louis louise lucas lucia luisa maria marie mario marta martha mary michael nora otto paul paula peter petra philip
simon simone sofia sophie theo thea tom viktor viola werner wilhelm wilma
"""

_GERMAN = """
anthrazit bernstein blau blei bleich bordeaux braun bronze cremeweiss eisen elfenbein erde flieder gelb gold grau gruen
grun karmin kobalt koralle kupfer lachs lila magenta malve messing nickel ocker olive oliv orange perle pink platin purpur
rosa rostig rot safran scharlach schwarz silber smaragd stahl tuerkis turkis umbra veilchen violett weiss zinn zinnober
zink

alt angelaufen blass bunt dicht dumpf dunkel dunkle dunkel dunn duenn duster edel fahl falsch fein fest feucht fett finster
flach freundlich frisch gebrannt gebleicht ganz glatt glanz glaenzend grell grob gross hart heiss hell hoch hold hohl jung kalt
kaputt klar klein knapp krank krass kuehl kuhl lang laut leer leicht leise lose matt mild mittel mude nackt nass neu nieder
oben ober offen rauh rau reich reif rein rissig roh rund rustig sanft satt sauber sauer scharf schlicht schmal schmutzig
schoen schon schwach schwer seiden sonnig spaet staubig stark steil still streng strahlend stumpf suess susse tief trocken
trueb trub unter verblasst verwittert voll warm weich weise weit welk wild zart

anis arche armut auster backe bohrer borste brache brachen brause brause breite brennen bremse brocken brosche dolch drossel
ebene ecker elster enge enzian fasan fasern felsen ferne fessel flanke flechte fliese flocke floss flotte flucht fluegel frieden furche
furt gatter gaukler gelee geroell gewitter gewuerz giebel gipfel glucke gondel granit graupe grenze grotte gruft habicht
hafenmeister halde halm halter harke hecht hefe heller henker heuer hornisse huelle hummel hummer huerde insekt kaktus kalender kamel
kamin kapitaen kasten kastanie kegel keks kelle kette kittel klasse klinge klinker klinge koffer kompass kranich kranz krater krieger
krug kruemel kuchen kutsche kutter lade lager lanze larve laune leder leiste leiter lerche leute linie litze luke lumpen
luchs made magd magen mahagoni makrele manschette marder marke marmor maske masse masche matrose matsch matte mitte moder moerder
molke monat moertel mueller mulde munster muster nerv niete nische nonne nudel oliven pacht palme panther panzer papagei pappe paste
pate perle pfahl pfanne pforte pfosten pfund pilger pirat platz pokal polster poren posten pudel puder pulver qualm quaste
quitte rampe rasen rasse rassel raster ratten raute reife reihe reiser riese rinder rinne roggen rolle rotor ruine rumpf
runde russig sahne sanddorn sense sessel sichel silberne sims sitte sitz socke sockel sorte spange spalte spargel sperling
spindel spion sprosse stadel stahl stall stange stapel steg stelle stier stille stolz stoppel storch strahl strasse strauch
strecke streu strick strudel stufe stulle stute tadel talar taler tapete taster taufe tempel teufel ton trage traene traube
treppe trift trommel truhe tuelle tuell tunke turban ulme unke vase vater venus vieh vogel wabe wade waffe wagen wanne
warze watt weber weiler weite wende werder wesen wickel wiege wiesel winde winkel wipfel wirbel wirt witwe woge zander zange
zarge zeche zecke zeile zelle zicke zierde zobel zofe zone zunder zwinger zwirn

aal abend achsel acker adler ahorn algen ampel amsel ampfer angel anker apfel arm asche ast auge bach balken ball band
bank bart bast bauch bauer baum becken beere beet bein bergwerk berg besen bett beule beutel biber biene bier binse birke
birne blatt blech blitz blut bluete blute boden bogen bohle bohne boje boot borke brand brei brett brot bruch bruder brunnen
brust buche bucht bund burg busch butter dach dachs damm dampf darm decke degen deich distel donner dorf dorn draht drache
duft dunst eber echse ecke efeu eiche eichel eimer eis elch engel ente erbse erle ernte esche esel essig eule ebbe eisvogel
fackel faden fahne faehre fahre falke falte farbe farn fass faust feder feige feile feld felge fell fels fenchel fenster
ferse feuer fichte filz finger fink fisch flachs flamme flasche fleck fleisch fliege flosse flut fluss flaum forelle forst
frosch frost frucht fuchs fuss futter gabel gans garbe garn garten gasse gast gehoelz geier geist gerste gesicht gewand gift
gips gitter glas glocke glut gras graben grube grund gurke guertel gurtel gut haar hafen hafer hagel hahn hai hain haken hals
hammer hand hanf harz hase hasel haube haus haut hecht hecke heer hefe heide heim helm hemd henne herbst herd herz heu himbeere
himmel hirsch hirse hirte hitze hof hohle hoehle holz honig horn hose hugel hund hut huette hutte igel iltis insel jade jagd
jaeger jacke joch kabel kachel kaefer kafer kaese kase kaffee kahn kaiser kalb kalk kamm kammer kanne kante kappe kapuze karotte
karpfen karte kater katze kehle keller kelch kern kerze kessel kette keule kiefer kies kind kinn kirche kirsche kiste klaue
klee klippe kloster knie knochen knopf koch kohl kohle konig koenig kopf korb korn kraehe krahe kraut krebs kreide kreis kreuz
kroete krone krote kruste kueste kugel kuh kuste lack laken lamm lampe land lang lanze lappen laterne laub lauch lauge leben
leber lehm leiche leim leine leinen leder leuchte licht liebe lilie linde linse lippe loch loewe lotse lowe luchs luft mais
malz mandel mantel mark markt marder mast mauer maul maus meer mehl messer met milch mohn molch mole moehre mond moor moos
morgen most motte moewe mowe muehle muhle mund mus muschel mutter mutze muetze nabel nacht nadel nagel nase nebel nelke nerz
nessel nest netz nuss ofen ohr oel ol otter pappel papier pech pelz pferd pfeffer pfeife pfeil pfirsich pflanze pflaume pfote
pfuetze pilz pinsel planke platte priester prinz quelle qualle quark rabe rad rahm rand ranke ratte raub rauch raupe rausch rebe
regal regel regen reh reiher reis reiter rest rettich riff rinde ring rippe ritter robbe rochen rock roggen rohr rose rosen
ross rost ruebe ruder rubin ruhe russ sack saege saft sage sahne salbei salz samt sand sarg sattel sau saum schaf schale schar
schatten schaum scheune schiefer schiene schiff schild schilf schimmel schirm schlamm schlange schlick schloss schlucht
schmied schnabel schnee schopf schorf schrift schuh schulter schuppe schurz schuerze schutt schwalbe schwan schweif schwein
see seegras segel segen sehne seide seife seil seite senf siegel sohle sole sonne sommer spaten specht speck speer spiegel
spinne spitze spross spur staub stab stadt stamm stange staude stein stempel steppe stern stich stiefel stiel stier stirn
stock stoff stoppel strand strauch straus streif strick stroh strom stube stueck sturm sturz sumpf suppe tabak tafel tag tal
talg tang tanne tasche tasse tau taube taub tee teer teich teig teppich teufel tiger tinte tisch tod ton tonne topas torf tor
traube traum treppe treue trog tropfen tuch tulpe turm ufer uhr wachs wald wall wand wange wappen wasser watte weg weide wein
weiher weizen welle welt werft wermut wespe wiese wind winter wolf wolke wolle wunde wurm wurst wurzel wueste wuste zahn zange
zaun zeder zelt ziege ziegel zimt zitrone zobel zopf zucker zunge zweig zwerg zwiebel
"""

# By language: the parts of a word that is made of several are all of one.
_LANGUAGES = tuple(frozenset(words.split()) for words in (_ENGLISH, _GERMAN))

# What makes another word of one: more of them, of that kind, done to, and the endings of German.
_ENDINGS = (
    "s", "es", "y", "ly", "ed", "er", "est", "en", "ish", "ing", "ern", "less", "e", "em", "ig", "lich",
)  # fmt: skip
# Only after an e: bronze, bronzed; pale, paler.
_AFTER_E = ("d", "r", "n", "st")


@lru_cache(maxsize=8_192)
def is_word(word: str) -> bool:
    """Whether a folded word is one of those above, one with an ending, or made of several of them."""
    return any(_is_of(word, words) for words in _LANGUAGES)


@lru_cache(maxsize=8_192)
def looks_like_word(word: str) -> bool:
    """Whether any three letters of it in a row, its edges among them, stand so in a word of one language above."""
    return any(all(three in known for three in _threes(word)) for known in _THREES)


def _threes(word: str) -> Iterator[str]:
    edged = f"^{word}$"
    return (edged[at : at + 3] for at in range(len(word)))


_THREES = tuple(frozenset(three for word in words for three in _threes(word)) for words in _LANGUAGES)


def is_listed(word: str) -> bool:
    """Whether it is one of them as it stands."""
    return any(word in words for words in _LANGUAGES)


def _is_of(word: str, words: frozenset[str]) -> bool:
    return _is_plain(word, words) or any(
        word[:at] in words and _is_of(word[at:], words) for at in range(3, len(word) - 2)
    )


def _is_plain(word: str, words: frozenset[str]) -> bool:
    return (
        word in words
        or any(
            word.endswith(ending) and _is_stem(word.removesuffix(ending), ending, words)
            for ending in _ENDINGS
        )
        or any(word.endswith(f"e{ending}") and word.removesuffix(ending) in words for ending in _AFTER_E)
        or (word.endswith("ies") and f"{word[:-3]}y" in words)
    )


def _is_stem(stem: str, ending: str, words: frozenset[str]) -> bool:
    """Three letters and more: sand of sandy, smoke of smoky, red of reddish; but no ochre of ochree."""
    return (
        len(stem) > 2
        and stem[-1] != ending
        and (stem in words or f"{stem}e" in words or (stem[-1] == stem[-2] and stem[:-1] in words))
    )
