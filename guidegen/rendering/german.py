"""Every word of the interface in German. It addresses the reader as „du“."""

from __future__ import annotations

from guidegen.rendering.german_about import ABOUT
from guidegen.rendering.german_archive import ARCHIVE
from guidegen.rendering.german_bench import BENCH
from guidegen.rendering.german_care import CARE
from guidegen.rendering.german_guide import GUIDE
from guidegen.rendering.german_handling import HANDLING
from guidegen.rendering.german_hazards import HAZARDS, ORIGINS
from guidegen.rendering.german_plans import PLANS
from guidegen.rendering.german_sent import SENT
from guidegen.rendering.german_sharing import SHARING
from guidegen.rendering.german_techniques import NAMES, TECHNIQUES
from guidegen.rendering.language import Language, Phrase, under

_PHRASES: dict[str, Phrase] = {
    # Everywhere
    "skip": "Zum Text",
    "nav.site": "Website",
    "nav.guides": "Anleitungen",
    "nav.paints": "Farben",
    "nav.shelf": "Regal",
    "nav.techniques": "Techniken",
    "nav.cautions": "Vorsicht",
    "nav.page": "Auf dieser Seite",
    "foot.colour": "Bildschirme und Drucker lügen bei Farben. Tupf auf dem Ausdruck die echte Farbe in den Ring neben jeder Farbprobe.",
    "foot.safety": "Etikett und Sicherheitsdatenblatt gehen vor, dann kommt diese Seite.",
    "foot.made": "Veröffentlicht mit guidegen.",
    # Units; the figures are already written as the language writes them
    "unit.d": "{n} d",
    "unit.h": "{n} h",
    "unit.min": "{n} min",
    "unit.s": "{n} s",
    "parts": {"one": "{n} Teil", "other": "{n} Teile"},
    "parts.touch": "ein Hauch",
    "figures.n": {"one": "{n} Figur", "other": "{n} Figuren"},
    "figures.status": "{figures}: {hands} am Pinsel, {clock} nach der Uhr.",
    # Kinds of pot
    "kind.paint": "Farbe",
    "kind.primer": "Grundierung",
    "kind.wash": "Wash",
    "kind.glaze": "Lasur",
    "kind.ink": "Tinte",
    "kind.stain": "Beize",
    "kind.metallic": "Metallfarbe",
    "kind.pigment": "Pigment",
    "kind.effect": "Effektfarbe",
    "kind.oil": "Ölfarbe",
    "kind.paste": "Strukturpaste",
    "kind.medium": "Malmittel",
    "kind.thinner": "Verdünner",
    "kind.varnish": "Klarlack",
    "kind.mix": "eigene Mischung",
    # Chips
    "chip.estimate": "Farbton geschätzt",
    "chip.touch": "mit einem Hauch kann es alles sein von",
    "chip.to": "bis",
    "chip.no-colour": "Farbton unbekannt",
    "close.same": "nicht zu unterscheiden",
    "close.side-by-side": "nur nebeneinander zu unterscheiden",
    "close.near": "ähnlich",
    "close.related": "verwandt",
    "close.unlike": "anders",
    # Home
    "home.count": {"one": "{n} Anleitung", "other": "{n} Anleitungen"},
    "home.pots": {"one": "{n} Topf", "other": "{n} Töpfe"},
    "home.none": "Noch keine Anleitungen.",
    # All paints
    "paints.all": "Farben",
    "paints.count": {"one": "{n} Topf", "other": "{n} Töpfe"},
    "paints.owned": "{n} davon im Regal",
    "paints.no-range": "Ohne Reihe",
    "paints.mixes": "Eigene Mischungen",
    "paints.used": {"one": "in {n} Anleitung", "other": "in {n} Anleitungen"},
    "paints.ranges": "Reihen",
    # The shelf
    "shelf.title": "Das Regal",
    "shelf.count": {"one": "{n} Farbe zu Hause", "other": "{n} Farben zu Hause"},
    "shelf.what": "Was deine Töpfe malen können, jede Anleitung für ihre eigene Zahl von Figuren.",
    "shelf.ready": "Lässt sich jetzt malen",
    "shelf.none-ready": "Noch keine Anleitung: Jeder fehlt mindestens ein Topf.",
    "shelf.one-short": "Ein Topf fehlt",
    "shelf.short": "Mehr als ein Topf fehlt",
    "shelf.lacks": {"one": "{n} Topf fehlt", "other": "{n} Töpfe fehlen"},
    "shelf.wanted": "Lohnt den Kauf",
    "shelf.wanted-what": "Danach, wie viele Anleitungen damit vollständig wären.",
    "shelf.completes": {"one": "vervollständigt {n} Anleitung", "other": "vervollständigt {n} Anleitungen"},
    "shelf.lacking": {"one": "fehlt in {n} Anleitung", "other": "fehlt in {n} Anleitungen"},
    "shelf.gone": "Nicht mehr zu kaufen",
    "shelf.used-by": "Gebraucht in",
    "shelf.closest": "am nächsten und noch zu kaufen",
    "shelf.no-closest": "Nichts, was es noch zu kaufen gibt, kommt ihr nahe.",
    # One pot
    "pot.code": "Nummer",
    "pot.finish": "Glanzgrad",
    "pot.covers": "Deckt",
    "pot.binder": "Bindemittel",
    "pot.comes-as": "Kommt als",
    "pot.size": "Inhalt",
    "pot.ml": "{n} ml",
    "pot.price": "Preis",
    "pot.thinner": "Verdünnen mit",
    "pot.shelf": "Regal",
    "pot.owned": {"one": "{n} Topf", "other": "{n} Töpfe"},
    "pot.not-owned": "keiner",
    "pot.also": "Heißt auch",
    "pot.colour": "Farbton",
    "pot.parts": "Was drin ist",
    "pot.used": "Gebraucht in",
    "pot.unused": "Noch in keiner Anleitung.",
    "pot.mixes": "Eigene Mischungen damit",
    "pot.twin": "Passt zu",
    "pot.film": "Oben ein Film davon über Weiß und über Grau; unten, wo er sich sammelt.",
    "pot.closest-what": "Nur nach dem Farbton, Probe gegen Probe (CIEDE2000), unter Farben, die sich gleich verhalten.",
    "pot.closest-none": "Nichts in der Palette kommt nahe.",
    "finish.matt": "matt", "finish.satin": "seidenmatt", "finish.gloss": "glänzend",
    "covers.well": "gut", "covers.fair": "mäßig", "covers.poor": "schlecht",
    "binder.acrylic": "Acryl", "binder.enamel": "Kunstharz", "binder.oil": "Öl", "binder.lacquer": "Lösemittellack",
    "comes-as.pot": "Topf", "comes-as.can": "Sprühdose", "comes-as.airbrush": "Airbrushflasche",
    # Techniques
    "techniques.title": "Techniken",
    "techniques.what": "Was jede ist, in einfachen Worten. Zeiten und Pinsel sind allgemein üblich; deine Farbe kann anders sein.",
    "technique.dries": "Meist trocken in",
    "technique.guides": "Gebraucht in",
    "role.cover": "Deckend",
    "role.film": "Durchsichtige Filme",
    "role.edges": "An den Kanten",
    "role.finish": "Zum Abschluss",
    "role.ground": "Bodengestaltung",
    "brush.can": "Dose", "brush.flat": "flach", "brush.2": "Größe 2", "brush.1": "Größe 1", "brush.0": "Größe 0",
    "brush.00": "Größe 00", "brush.foam": "Schaumstoff", "brush.old flat": "alt, flach",
    "brush.soft flat": "weich, flach", "brush.old soft": "alt, weich", "brush.spatula": "Spachtel", "brush.old": "alt",
    # Cautions
    "care.title": "Vorsicht",
    "care.practice": "Am Maltisch",
    "care.labels": "Was die Etiketten sagen",
    "care.label": "Etikett",
    "care.source": "Quelle: {source}",
    # Not found
    "lost.title": "Hier liegt nichts",
    "lost.text": "Die Seite ist umgezogen, oder in der Adresse steckt ein Fehler.",
    "moved.text": "Diese Anleitung ist umgezogen.",
    "lost.home": "Zu allen Anleitungen",
    # While a site is being published
    "soon.title": "Wird gerade veröffentlicht",
    "soon.text": "Diese Seite ist gleich da.",
    "soon.home": "Zur ersten Seite",
}  # fmt: skip


def _plural(n: float) -> str:
    return "one" if n == 1 else "other"


GERMAN = Language(
    code="de",
    phrases={
        **_PHRASES,
        **ABOUT,
        **ARCHIVE,
        **GUIDE,
        **PLANS,
        **BENCH,
        **CARE,
        **HANDLING,
        **SENT,
        **SHARING,
        **under("hazard", HAZARDS),
        **under("hazard.source", ORIGINS),
        **under("technique.name", NAMES),
        **under("technique.words", TECHNIQUES),
    },
    plural=_plural,
    decimal=",",
    group=".",
    months=(
        "Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September", "Oktober",
        "November", "Dezember",
    ),
    date="{day}. {month} {year}",
    # Unicode CLDR, German, where the sign is in common use.
    currencies={"EUR": "€", "USD": "$", "GBP": "£"},
)  # fmt: skip
