"""The words of the bench in German."""

from __future__ import annotations

BENCH: dict[str, str] = {
    "bench.title": "{guide}, am Maltisch",
    "bench.open": "Zum Maltisch",
    "bench.guide": "Zurück zur Anleitung",
    "bench.step": "Schritt {n} von {count}",
    "bench.back": "Zurück",
    "bench.next": "Weiter",
    "bench.end": "Ende",
    "bench.hand": "Zur Hand",
    "bench.opens": "Als Nächstes",
    "bench.away": "Kann weg",
    "bench.done": "Erledigt",
    "bench.figures": "Bemalte Figuren",
    "bench.figure": "Figur {n}",
    "bench.start": "Trocknet {length}: Uhr starten",
    "bench.stop": "Uhr anhalten",
    "bench.left": "noch {left} bis trocken",
    "bench.dry-now": "Trocken",
    "bench.notes": "Eine Notiz fürs nächste Mal",
    "bench.minutes": "So lange hat es gedauert, in Minuten",
    "bench.pot": "Ein anderer Topf war es",
    "bench.note": "Notiz",
    "bench.copy": "Alle Notizen kopieren",
    "bench.copied": "Kopiert. Füg sie in die Anleitung ein.",
    "bench.text": "Alle Notizen, so wie sie in die Anleitung kommen",
    "bench.took": "Hat {minutes} min gedauert.",
    "bench.used": "Mit {pot} gemalt.",
    "bench.resume": "Weiter mit Schritt {n}: {step}",
    "bench.stop-here": "Hier darf Schluss sein: {stop}.",
}
