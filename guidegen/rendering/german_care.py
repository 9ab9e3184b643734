"""What pages warn of in German: the usual cautions of the bench, in plain words. Each says where it comes from; none replaces a label."""

from __future__ import annotations

CARE: dict[str, str] = {
    "care.isocyanate.subject": "Zweikomponentenlack",
    "care.isocyanate.text": (
        "Mit Isocyanat gehärteter Zweikomponentenlack gehört nicht nach Hause. Sein Nebel, den man nicht sieht, löst "
        "Asthma aus, das ein Leben lang bleibt, und keine Filtermaske hält ihn ab: Dazu braucht es Atemschutz mit "
        "Luftzufuhr, eine Kabine und geschulte Leute. Nimm eine andere Farbe."
    ),
    "care.isocyanate.source": "Health and Safety Executive (Großbritannien), Hinweise zum Sprühen von Isocyanatlacken",
    "care.sprays.subject": "Sprühdosen",
    "care.sprays.text": (
        "Sprüh im Freien oder wo die Luft abgesaugt wird, mit dem Wind im Rücken, und trag eine Maske gegen Farbnebel "
        "und Dämpfe. Halt Flammen, Funken und Heizgeräte fern. Lass eine Dose nie wärmer als 50 °C werden und stich sie "
        "nie an und verbrenn sie nie, auch leer nicht."
    ),
    "care.sprays.source": "GHS der Vereinten Nationen, Anhang 3, Sicherheitshinweise P210, P211, P251, P410+P412",
    "care.airbrush.subject": "Airbrush",
    "care.airbrush.text": (
        "Eine Airbrush bringt Farbe in die Luft, die du atmest, auch wasserbasierte. Saug die Luft ab oder sprüh im "
        "Freien, trag eine Maske mit Filtern gegen Partikel und gegen Dämpfe, und reinige die Airbrush genauso."
    ),
    "care.airbrush.source": "allgemein üblich, ohne Quelle",
    "care.warm solvent.subject": "Warme Luft und Lösemittel",
    "care.warm solvent.text": (
        "Halt Föhn und Heißluftpistole fern von Lösemitteln, von Sprühdosen und von Farbe, die noch nach einem davon "
        "riecht: Der Dampf kann Feuer fangen. Lass sie von selbst in bewegter Luft trocknen."
    ),
    "care.warm solvent.source": "GHS der Vereinten Nationen, Anhang 3, Sicherheitshinweis P210",
    "care.solvents.subject": "Lösemittel",
    "care.solvents.text": (
        "Mach ein Fenster auf und halt Flammen, Funken und warme Luft fern. Verschließ die Flasche sofort, trag "
        "Nitrilhandschuhe und bring den Rest zur Sammelstelle: In den Ausguss gehört er nicht."
    ),
    "care.solvents.source": (
        "GHS der Vereinten Nationen, Anhang 3, Sicherheitshinweise P210, P233, P271, P280, P501"
    ),
    "care.oily rags.subject": "Ölige Lappen",
    "care.oily rags.text": (
        "Lappen und Papier mit Ölfarbe oder trocknendem Öl können heiß werden und sich von selbst entzünden. Breite sie "
        "im Freien flach zum Trocknen aus, bevor sie in den Müll kommen; lass sie nie auf einem Haufen liegen."
    ),
    "care.oily rags.source": "allgemein üblich, ohne Quelle",
    "care.resin dust.subject": "Harzstaub",
    "care.resin dust.text": (
        "Harzstaub schadet der Lunge. Schleif und feile nass, trag eine FFP3-Maske und wisch den Staub feucht auf, "
        "statt zu pusten oder zu fegen."
    ),
    "care.resin dust.source": "allgemein üblich, ohne Quelle",
    "care.uncured.subject": "Unausgehärtetes Harz und Epoxidknete",
    "care.uncured.text": (
        "Harz und Epoxidknete, die nicht ausgehärtet sind, können die Haut fürs Leben allergisch machen. Trag "
        "Nitrilhandschuhe, lass frische Luft herein und wasch dich mit Wasser und Seife, nicht mit Lösemittel."
    ),
    "care.uncured.source": "allgemein üblich, ohne Quelle",
    "care.lead.subject": "Blei",
    "care.lead.text": (
        "Blei ist ein Gift, das im Körper bleibt. Feile und schleif es nie trocken, wisch die Späne nass auf, wasch dir "
        "die Hände, bevor du isst oder rauchst, und halt Figuren und Abfall von Kindern fern."
    ),
    "care.lead.source": "allgemein üblich, ohne Quelle",
    "care.super glue.subject": "Sekundenkleber",
    "care.super glue.text": (
        "Sekundenkleber verklebt Haut und Augen in Sekunden. Lass frische Luft herein, schütz deine Augen, halt ihn von "
        "Kindern fern. Reiß verklebte Haut nie auseinander: Weich sie in warmem Seifenwasser ein."
    ),
    "care.super glue.source": (
        "Verordnung (EG) Nr. 1272/2008, Anhang III, EUH202; das Übrige allgemein üblich, ohne Quelle"
    ),
    "care.blades.subject": "Klingen",
    "care.blades.text": (
        "Nimm eine frische Klinge, schneide von den Fingern weg und steck die Kappe auf, wenn du das Messer weglegst. "
        "Alte Klingen kommen in eine Dose, nicht lose in den Müll."
    ),
    "care.blades.source": "allgemein üblich, ohne Quelle",
    "care.warm air.subject": "Warme Luft",
    "care.warm air.text": (
        "Warme Luft auf kleinster Stufe, eine Armlänge entfernt und immer in Bewegung: Kunststoff und Harz werden "
        "weich, und an einer Heißluftpistole verbrennt man sich. Wärm nie eine Sprühdose oder etwas mit Lösemittel darin."
    ),
    "care.warm air.source": "allgemein üblich, ohne Quelle",
    "care.powder.subject": "Pigmentpulver",
    "care.powder.text": (
        "Halt Pigmentpulver aus der Luft: Arbeite über einem Tablett, puste nichts weg, trag eine Staubmaske, wenn es "
        "mehr als eine Prise ist, und wisch feucht auf."
    ),
    "care.powder.source": "allgemein üblich, ohne Quelle",
    "care.curing.subject": "Trocken ist nicht ausgehärtet",
    "care.curing.text": (
        "Farbe, die sich trocken anfühlt, ist noch nicht ausgehärtet. Gib Acrylfarbe 24 Stunden, bevor Lösemittel oder "
        "Abklebeband darüber kommt."
    ),
    "care.curing.source": "allgemein üblich, ohne Quelle",
    "care.brushes.subject": "Pinsel",
    "care.brushes.text": (
        "Spitz einen Pinsel nicht mit Lippen oder Zunge an und halt Essen und Trinken von Farbe und Malwasser fern."
    ),
    "care.brushes.source": "allgemein üblich, ohne Quelle",
    "care.always.subject": "Immer",
    "care.always.text": (
        "Etikett und Sicherheitsdatenblatt gehen vor, dann die Regeln bei dir vor Ort und geschulte Leute. Diese Liste "
        "ist allgemeiner Rat und nicht vollständig; wo sie etwas anderes sagen, folg ihnen und nicht dieser Seite."
    ),
    "care.always.source": (
        "GHS der Vereinten Nationen, Anhang 3, Sicherheitshinweis P103; das Übrige allgemein üblich, ohne Quelle"
    ),
    "care.by-author": "der Autor der Anleitung",
}
