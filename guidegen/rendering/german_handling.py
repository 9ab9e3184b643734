"""The words in German for what a reader turns, opens, times and prints."""

from __future__ import annotations

HANDLING: dict[str, str] = {
    # Photos that open large
    "photo.large": "Das Foto in groß",
    "photo.before": "Foto davor",
    "photo.after": "Foto danach",
    "photo.close": "Schließen",
    # From step to step
    "steps.list": "Alle Schritte",
    "steps.keys": "Die Pfeiltasten ← und → führen von Schritt zu Schritt.",
    # The weather for spraying
    "spray.air-unread": "Die Luft muss zwischen {coldest} und {hottest} °C haben.",
    "spray.figure-unread": "Die Figur muss zwischen {coldest} und {hottest} °C haben.",
    "spray.humidity-unread": "Die Luftfeuchte muss zwischen 1 und 100 % liegen.",
    "spray.near-dew": "Die Figur muss mindestens {limit} °C wärmer sein als der Taupunkt, sonst schlägt sich Feuchte nieder.",
    "spray.too-damp": "Über {limit} % Luftfeuchte wird matter Lack weiß.",
    "spray.too-cold": "Unter {limit} °C spuckt die Farbe und trocknet schlecht.",
    "spray.too-hot": "Über {limit} °C trocknet die Farbe in der Luft und kommt als Staub an.",
    "spray.may-frost": "Über {limit} % Luftfeuchte kann matter Lack weiß werden: Probier es zuerst an einem Rest.",
    "spray.all-well": "Die Figur ist weit wärmer als der Taupunkt, die Luft weder zu feucht noch zu kalt oder zu heiß.",
    # The bench
    "bench.keys": "Die Pfeiltasten ← und → blättern durch die Schritte, ein Fußpedal zum Blättern auch.",
    "bench.so-far": "{done} von {count} Schritten erledigt",
    "bench.is-done": "Schritt {n} ist erledigt. {done} von {count} Schritten erledigt.",
    "bench.not-done": "Schritt {n} ist wieder offen. {done} von {count} Schritten erledigt.",
    "bench.drying": "Was gerade trocknet",
    "bench.started": "Die Uhr für „{step}“ läuft: {length}.",
    "bench.stopped": "Die Uhr für „{step}“ ist angehalten.",
    "bench.rings": "„{step}“ ist trocken.",
    "bench.heard": "Gehört",
    "bench.begin-again": "Von vorn: Haken, Figuren und Uhren löschen",
    "bench.drop-notes": "Notizen wegwerfen",
    "bench.undo": "Rückgängig",
    "bench.cleared": "Gelöscht.",
    "bench.undone": "Wieder wie vorher.",
    "bench.no-memory": "Dieser Browser merkt sich nichts: Was du hier abhakst, ist vergessen, sobald du die Seite schließt.",
    "bench.thin": "verdünnt {thin}",
    "bench.with": "mit {brush}",
    "bench.figures-painted": "{done} von {count}",
    # The bench on paper
    "sheet.step": "Schritt",
    "sheet.paint": "Farbe, Tupfer und Verdünnung",
    "sheet.brush": "Pinsel",
    "sheet.dry": "Trocknen",
    "sheet.stop": "Hier darf Schluss sein: {stop}",
    "sheet.care": "Vorsicht",
    # What a plan's guides ask for
    "plan.per-guide": "Werkzeug, Material und worauf zu achten ist, Anleitung für Anleitung",
}
