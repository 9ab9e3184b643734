"""The techniques in German: what painters call each, and plain words for somebody who has never held the brush that way."""

from __future__ import annotations

NAMES: dict[str, str] = {
    "spray undercoat": "Grundierung sprühen",
    "brush undercoat": "Grundierung mit dem Pinsel",
    "airbrush": "Airbrush",
    "base coat": "Grundfarbe",
    "layer": "Schichten",
    "freehand": "Freihand",
    "stipple": "Stupfen",
    "sponge": "Schwämmchen",
    "wash": "Wash",
    "pin wash": "Pin Wash",
    "glaze": "Lasur",
    "stain": "Beize",
    "oil wash": "Ölwash",
    "dry brush": "Trockenbürsten",
    "edge highlight": "Kantenakzent",
    "highlight": "Glanzlicht",
    "spray varnish": "Klarlack sprühen",
    "brush varnish": "Klarlack mit dem Pinsel",
    "pigment": "Pigment",
    "paste": "Strukturpaste",
    "sand on glue": "Sand auf Leim",
    "water gel": "Wassergel",
}

TECHNIQUES: dict[str, str] = {
    "spray undercoat": (
        "Eine dünne Schicht aus der Dose, über alles, damit die Farbe Halt findet. Setz neben der Figur an, zieh den "
        "Strahl eine Unterarmlänge entfernt über sie hinweg und hör auf der anderen Seite auf; zwei leichte Durchgänge "
        "von verschiedenen Seiten sind besser als ein schwerer. Genug ist es, wenn alle Formen noch scharf sind und "
        "nichts nass glänzt."
    ),
    "brush undercoat": (
        "Derselbe Grund wie aus der Dose, mit dem Pinsel aufgetragen, wo Sprühen nicht geht. Arbeite dünn und zieh die "
        "Farbe aus den Vertiefungen, bevor sie sich sammelt. Sie braucht zum Trocknen länger, als es aussieht."
    ),
    "airbrush": (
        "Farbe, dünn wie Milch, als Nebel aufgetragen. Aus vielen hauchzarten Durchgängen entsteht eine Farbe ohne Rand, "
        "und so gleitet ein Ton in den nächsten. Bleib in Bewegung und wisch die Nadel ab, bevor sie spuckt."
    ),
    "base coat": (
        "Die Hauptfarbe einer Stelle, deckend, nichts scheint durch. Zwei gleichmäßige Aufträge geben einen glatteren "
        "Grund als ein dicker. Geh an den Rändern langsam: Eine saubere Kante erspart später das Ausbessern."
    ),
    "layer": (
        "Eine hellere oder dunklere Farbe über dem größten Teil der Grundfarbe, die nur dort stehen bleibt, wo das Licht "
        "nicht hinkommt. Verdünn etwas mehr als für die Grundfarbe. Jede Schicht bedeckt weniger als die davor."
    ),
    "freehand": (
        "Malen, was der Modelleur weggelassen hat: ein Streifen, ein Buchstabe, ein Muster. Zeichne es erst mit dünner "
        "Farbe vor und bessere mit der Grundfarbe nach, so oft es sein muss. Stütz beide Handgelenke auf."
    ),
    "stipple": (
        "Punkte, dicht gesetzt mit der Spitze eines senkrecht gehaltenen Pinsels oder mit etwas Schaumstoff. Sie brechen "
        "eine glatte Fläche auf, bis sie abgenutzt, pelzig oder rau wirkt. Tupf vorher die meiste Farbe ab."
    ),
    "sponge": (
        "Ein abgerissenes Stück Schaumstoff, eingetaucht, fast trocken getupft und angedrückt. Es hinterlässt Kratzer "
        "und Krümel von Farbe, wie sie kein Pinsel so setzen würde. Dreh es nach jedem Tupfer, sonst wiederholt sich das "
        "Muster."
    ),
    "wash": (
        "Dünne, dunkle, durchsichtige Farbe, über eine Stelle oder über alles gestrichen. Sie läuft von dem ab, was "
        "hochsteht, sammelt sich in dem, was tief liegt, und malt so die Schatten von selbst. Lenk sie, solange sie nass "
        "ist, nimm Pfützen mit einem feuchten Pinsel auf, und lass sie dann ganz in Ruhe, bis sie trocken ist."
    ),
    "pin wash": (
        "Ein Wash nur entlang von Fugen, Nieten und Falten, mit feinem Pinsel gesetzt und von der Rille selbst "
        "weitergezogen. Über einer glänzenden Schicht läuft er am besten. Was danebengeht, nimmst du mit einem feuchten "
        "Pinsel weg."
    ),
    "glaze": (
        "Ein Farbfilm, der tönt, ohne die Vertiefungen zu füllen. Streif den Pinsel fast ganz ab und zieh jeden Strich "
        "dorthin, wo die Farbe am kräftigsten sein soll. Mehrere Lasuren, jede trocken vor der nächsten, ergeben einen "
        "weichen Übergang."
    ),
    "stain": (
        "Eine kräftige, dünne Farbe auf hellem Grund, die Flächen färbt und Vertiefungen zugleich schattiert. Ein "
        "Auftrag, beherzt aufgetragen und danach nicht mehr angerührt. Wie er aussieht, hängt von dem ab, was darunter "
        "liegt."
    ),
    "oil wash": (
        "Ölfarbe, mit Lösemittel verdünnt, über eine versiegelte Fläche oder an ihr entlang laufen gelassen, eine Weile "
        "in Ruhe gelassen und dann zurückgewischt. Sie bleibt stundenlang offen, es muss also nichts sofort stimmen. Sie "
        "braucht frische Luft und einen Tag zum Trocknen."
    ),
    "dry brush": (
        "Ein breiter, abgenutzter Pinsel, fast alle Farbe am Tuch abgestreift, locker über das Relief gezogen. Nur was "
        "hochsteht, nimmt Farbe an. Gibt es Streifen, war zu viel Farbe am Pinsel."
    ),
    "edge highlight": (
        "Eine dünne helle Linie an Kanten, an denen sich das Licht fangen würde. Leg die Seite des Pinsels an die Kante "
        "und lass die Kante die Linie ziehen. Nicht jede Kante will eine; die nach oben zeigen, schon."
    ),
    "highlight": (
        "Die letzten und hellsten Tupfer: Knöchel, Nasen, Knie, das Blitzen im Metall. Klein genügt, denn man sieht sie "
        "aus einer Armlänge. Wenn es schreit, nimm es mit etwas von der Farbe darunter zurück."
    ),
    "spray varnish": (
        "Eine dünne klare Schicht aus der Dose, damit Anfassen die Farbe nicht abnutzt, und alles wird matt, seidenmatt "
        "oder glänzend. Feuchte Luft macht sie trüb: Probier sie an einem Rest, warte auf einen trockenen Tag und sprüh in "
        "zwei leichten Durchgängen."
    ),
    "brush varnish": (
        "Klarlack mit einem weichen Flachpinsel, wo nur ein Teil glänzen soll oder wo die Dose nicht geht. Wenige "
        "Striche, alle in eine Richtung, und nie zurück über das, was schon anzieht: Davon wird er trüb."
    ),
    "pigment": (
        "Trockenes Farbpulver, in Ecken gestäubt für Schlamm, Ruß und Rost, und mit einem Tropfen Verdünner oder einer "
        "matten Schicht gebunden. Ein wenig auf einem alten weichen Pinsel reicht weit. Gebundenes Pulver wirkt dunkler "
        "als loses."
    ),
    "paste": (
        "Dicker Bodengrund aus dem Topf, mit Spachtel oder altem Pinsel auf die Base gestrichen. Rau ihn mit einem "
        "feuchten Pinsel auf, bevor er anzieht, drück hinein, was halb begraben liegen soll, und halt ihn von den Füßen "
        "weg. Beim Trocknen schrumpft er etwas."
    ),
    "sand on glue": (
        "Leim auf die Base, dann Sand, eher geschüttet als gestreut, angeklopft und abgeschüttelt. Lass alles ganz hart "
        "werden, bevor es weitergeht. Eine dünne Schicht verdünnter Leim darüber hält ihn fest."
    ),
    "water gel": (
        "Klares Gel für Pfützen, nasse Planken und den Fluss, wenige Millimeter auf einmal. Es ist erst milchig und wird "
        "beim Trocknen klar, langsam. Die zweite Schicht erst, wenn die erste ganz klar ist."
    ),
}  # fmt: skip
