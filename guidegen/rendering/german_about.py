"""What each kind of page is about, in one sentence in German: for search engines and for links that unfold."""

from __future__ import annotations

ABOUT: dict[str, str] = {
    "about.home": "Malanleitungen für kleine Figuren, Schritt für Schritt, mit Farben, Zeiten, Material und was wohin kommt.",
    "about.guide": "Wie „{title}“ bemalt wird, Schritt für Schritt: Farben, Zeiten, Material und was wohin kommt.",
    "about.bench": "„{title}“ am Maltisch: ein Schritt nach dem anderen, mit Haken, Trockenuhren und den Töpfen zur Hand.",
    "about.moved": "„{title}“ steht jetzt auf einer anderen Seite.",
    "about.colours": "Alle Anleitungen nach den Farben, die das meiste ihrer Figur bedecken: Rot, Grün, Blau, Unbuntes und Metall.",
    "about.paints": "Alle Farben und eigenen Mischungen dieser Anleitungen: ihr Ton, wofür sie dienen und was ihnen am nächsten kommt.",
    "about.pot": "{title}: die Anleitungen, die den Topf brauchen, die ähnlichsten Farben und die Mischungen damit.",
    "about.shelf": "Welche Anleitungen sich mit den Farben im Regal malen lassen und was den anderen noch fehlt.",
    "about.techniques": "Die Techniken dieser Anleitungen in einfachen Worten, mit üblichen Pinseln und Trockenzeiten.",
    "about.cautions": "Worauf bei Sprays, Lösemitteln, Staub und Klingen zu achten ist und was die Warnungen auf Etiketten sagen.",
    "about.plans": "Malvorhaben, verteilt auf die Abende, die es gibt.",
    "about.plan": "„{title}“, Abend für Abend: was wann gemalt wird und was dafür zu kaufen ist.",
    "about.shared": "{title}: Schritte, die mehrere Anleitungen gemeinsam haben, und die Anleitungen, die sie nutzen.",
}
