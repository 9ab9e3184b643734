"""The hazard statements of labels in German, by their codes, in the official words.

Regulation (EC) No 1272/2008 (CLP), Annex III, German version, consolidated text of 1 September 2025: © European Union,
CC BY 4.0; tests/reference/ghs-statements-de.csv has it. A full stop is added where it has none, and what it leaves to the
label (organ, route, effect) is left out. The United Nations publish no German: codes that the European Union has not
taken over are translated here after its wording, and so are the withdrawn EUH001, EUH006 and EUH059, from memory.
"""

from __future__ import annotations

HAZARDS: dict[str, str] = {
    "H200": "Instabil, explosiv.",
    "H201": "Explosiv, Gefahr der Massenexplosion.",
    "H202": "Explosiv; große Gefahr durch Splitter, Spreng- und Wurfstücke.",
    "H203": "Explosiv; Gefahr durch Feuer, Luftdruck oder Splitter, Spreng- und Wurfstücke.",
    "H204": "Gefahr durch Feuer oder Splitter, Spreng- und Wurfstücke.",
    "H205": "Gefahr der Massenexplosion bei Feuer.",
    "H206": (
        "Gefahr durch Feuer, Druckstoß oder Sprengstücke; erhöhte Explosionsgefahr wenn das Desensibilisierungsmittel "
        "reduziert wird."
    ),
    "H207": (
        "Gefahr durch Feuer oder Sprengstücke; erhöhte Explosionsgefahr wenn das Desensibilisierungsmittel reduziert wird."
    ),
    "H208": "Gefahr durch Feuer; erhöhte Explosionsgefahr wenn das Desensibilisierungsmittel reduziert wird.",
    "H209": "Explosiv.",
    "H210": "Sehr empfindlich.",
    "H211": "Kann empfindlich sein.",
    "H220": "Extrem entzündbares Gas.",
    "H221": "Entzündbares Gas.",
    "H222": "Extrem entzündbares Aerosol.",
    "H223": "Entzündbares Aerosol.",
    "H224": "Flüssigkeit und Dampf extrem entzündbar.",
    "H225": "Flüssigkeit und Dampf leicht entzündbar.",
    "H226": "Flüssigkeit und Dampf entzündbar.",
    "H227": "Brennbare Flüssigkeit.",
    "H228": "Entzündbarer Feststoff.",
    "H229": "Behälter steht unter Druck: Kann bei Erwärmung bersten.",
    "H230": "Kann auch in Abwesenheit von Luft explosionsartig reagieren.",
    "H231": (
        "Kann auch in Abwesenheit von Luft bei erhöhtem Druck und/oder erhöhter Temperatur explosionsartig reagieren."
    ),
    "H232": "Kann sich bei Kontakt mit Luft spontan entzünden.",
    "H240": "Erwärmung kann Explosion verursachen.",
    "H241": "Erwärmung kann Brand oder Explosion verursachen.",
    "H242": "Erwärmung kann Brand verursachen.",
    "H250": "Entzündet sich in Berührung mit Luft von selbst.",
    "H251": "Selbsterhitzungsfähig; kann in Brand geraten.",
    "H252": "In großen Mengen selbsterhitzungsfähig; kann in Brand geraten.",
    "H260": "In Berührung mit Wasser entstehen entzündbare Gase, die sich spontan entzünden können.",
    "H261": "In Berührung mit Wasser entstehen entzündbare Gase.",
    "H270": "Kann Brand verursachen oder verstärken; Oxidationsmittel.",
    "H271": "Kann Brand oder Explosion verursachen; starkes Oxidationsmittel.",
    "H272": "Kann Brand verstärken; Oxidationsmittel.",
    "H280": "Enthält Gas unter Druck; kann bei Erwärmung explodieren.",
    "H281": "Enthält tiefgekühltes Gas; kann Kälteverbrennungen oder -verletzungen verursachen.",
    "H282": "Extrem entzündbare Chemikalie unter Druck: Kann bei Erwärmung explodieren.",
    "H283": "Entzündbare Chemikalie unter Druck: Kann bei Erwärmung explodieren.",
    "H284": "Chemikalie unter Druck: Kann bei Erwärmung explodieren.",
    "H290": "Kann gegenüber Metallen korrosiv sein.",
    "H300": "Lebensgefahr bei Verschlucken.",
    "H301": "Giftig bei Verschlucken.",
    "H302": "Gesundheitsschädlich bei Verschlucken.",
    "H303": "Kann bei Verschlucken gesundheitsschädlich sein.",
    "H304": "Kann bei Verschlucken und Eindringen in die Atemwege tödlich sein.",
    "H305": "Kann bei Verschlucken und Eindringen in die Atemwege gesundheitsschädlich sein.",
    "H310": "Lebensgefahr bei Hautkontakt.",
    "H311": "Giftig bei Hautkontakt.",
    "H312": "Gesundheitsschädlich bei Hautkontakt.",
    "H313": "Kann bei Hautkontakt gesundheitsschädlich sein.",
    "H314": "Verursacht schwere Verätzungen der Haut und schwere Augenschäden.",
    "H315": "Verursacht Hautreizungen.",
    "H316": "Verursacht leichte Hautreizungen.",
    "H317": "Kann allergische Hautreaktionen verursachen.",
    "H318": "Verursacht schwere Augenschäden.",
    "H319": "Verursacht schwere Augenreizung.",
    "H320": "Verursacht Augenreizung.",
    "H330": "Lebensgefahr bei Einatmen.",
    "H331": "Giftig bei Einatmen.",
    "H332": "Gesundheitsschädlich bei Einatmen.",
    "H333": "Kann bei Einatmen gesundheitsschädlich sein.",
    "H334": "Kann bei Einatmen Allergie, asthmaartige Symptome oder Atembeschwerden verursachen.",
    "H335": "Kann die Atemwege reizen.",
    "H336": "Kann Schläfrigkeit und Benommenheit verursachen.",
    "H340": "Kann genetische Defekte verursachen.",
    "H341": "Kann vermutlich genetische Defekte verursachen.",
    "H350": "Kann Krebs erzeugen.",
    "H351": "Kann vermutlich Krebs erzeugen.",
    "H360": "Kann die Fruchtbarkeit beeinträchtigen oder das Kind im Mutterleib schädigen.",
    "H361": "Kann vermutlich die Fruchtbarkeit beeinträchtigen oder das Kind im Mutterleib schädigen.",
    "H362": "Kann Säuglinge über die Muttermilch schädigen.",
    "H370": "Schädigt die Organe.",
    "H371": "Kann die Organe schädigen.",
    "H372": "Schädigt die Organe bei längerer oder wiederholter Exposition.",
    "H373": "Kann die Organe schädigen bei längerer oder wiederholter Exposition.",
    "H300+H310": "Lebensgefahr bei Verschlucken oder Hautkontakt.",
    "H300+H330": "Lebensgefahr bei Verschlucken oder Einatmen.",
    "H310+H330": "Lebensgefahr bei Hautkontakt oder Einatmen.",
    "H300+H310+H330": "Lebensgefahr bei Verschlucken, Hautkontakt oder Einatmen.",
    "H301+H311": "Giftig bei Verschlucken oder Hautkontakt.",
    "H301+H331": "Giftig bei Verschlucken oder Einatmen.",
    "H311+H331": "Giftig bei Hautkontakt oder Einatmen.",
    "H301+H311+H331": "Giftig bei Verschlucken, Hautkontakt oder Einatmen.",
    "H302+H312": "Gesundheitsschädlich bei Verschlucken oder Hautkontakt.",
    "H302+H332": "Gesundheitsschädlich bei Verschlucken oder Einatmen.",
    "H312+H332": "Gesundheitsschädlich bei Hautkontakt oder Einatmen.",
    "H302+H312+H332": "Gesundheitsschädlich bei Verschlucken, Hautkontakt oder Einatmen.",
    "H303+H313": "Kann bei Verschlucken oder Hautkontakt gesundheitsschädlich sein.",
    "H303+H333": "Kann bei Verschlucken oder Einatmen gesundheitsschädlich sein.",
    "H313+H333": "Kann bei Hautkontakt oder Einatmen gesundheitsschädlich sein.",
    "H303+H313+H333": "Kann bei Verschlucken, Hautkontakt oder Einatmen gesundheitsschädlich sein.",
    "H315+H320": "Verursacht Haut- und Augenreizung.",
    "H400": "Sehr giftig für Wasserorganismen.",
    "H401": "Giftig für Wasserorganismen.",
    "H402": "Schädlich für Wasserorganismen.",
    "H410": "Sehr giftig für Wasserorganismen mit langfristiger Wirkung.",
    "H411": "Giftig für Wasserorganismen, mit langfristiger Wirkung.",
    "H412": "Schädlich für Wasserorganismen, mit langfristiger Wirkung.",
    "H413": "Kann für Wasserorganismen schädlich sein, mit langfristiger Wirkung.",
    "H420": "Schädigt die öffentliche Gesundheit und die Umwelt durch Ozonabbau in der äußeren Atmosphäre.",
    "H421": "Schädigt die öffentliche Gesundheit und die Umwelt durch Beitrag zur globalen Erwärmung.",
    "H350i": "Kann bei Einatmen Krebs erzeugen.",
    "H360F": "Kann die Fruchtbarkeit beeinträchtigen.",
    "H360D": "Kann das Kind im Mutterleib schädigen.",
    "H360FD": "Kann die Fruchtbarkeit beeinträchtigen. Kann das Kind im Mutterleib schädigen.",
    "H360Fd": "Kann die Fruchtbarkeit beeinträchtigen. Kann vermutlich das Kind im Mutterleib schädigen.",
    "H360Df": "Kann das Kind im Mutterleib schädigen. Kann vermutlich die Fruchtbarkeit beeinträchtigen.",
    "H361f": "Kann vermutlich die Fruchtbarkeit beeinträchtigen.",
    "H361d": "Kann vermutlich das Kind im Mutterleib schädigen.",
    "H361fd": "Kann vermutlich die Fruchtbarkeit beeinträchtigen. Kann vermutlich das Kind im Mutterleib schädigen.",
    "EUH001": "In trockenem Zustand explosiv.",
    "EUH006": "Mit und ohne Luft explosionsfähig.",
    "EUH014": "Reagiert heftig mit Wasser.",
    "EUH018": "Kann bei Verwendung explosionsfähige/entzündbare Dampf/Luft-Gemische bilden.",
    "EUH019": "Kann explosionsfähige Peroxide bilden.",
    "EUH029": "Entwickelt bei Berührung mit Wasser giftige Gase.",
    "EUH031": "Entwickelt bei Berührung mit Säure giftige Gase.",
    "EUH032": "Entwickelt bei Berührung mit Säure sehr giftige Gase.",
    "EUH044": "Explosionsgefahr bei Erhitzen unter Einschluss.",
    "EUH059": "Die Ozonschicht schädigend.",
    "EUH066": "Wiederholter Kontakt kann zu spröder oder rissiger Haut führen.",
    "EUH070": "Giftig bei Berührung mit den Augen.",
    "EUH071": "Wirkt ätzend auf die Atemwege.",
    "EUH201": (
        "Enthält Blei. Nicht für den Anstrich von Gegenständen verwenden, die von Kindern gekaut oder gelutscht werden "
        "könnten."
    ),
    "EUH201A": "Achtung! Enthält Blei.",
    "EUH202": (
        "Cyanacrylat. Gefahr. Klebt innerhalb von Sekunden Haut und Augenlider zusammen. Darf nicht in die Hände von "
        "Kindern gelangen."
    ),
    "EUH203": "Enthält Chrom (VI). Kann allergische Reaktionen hervorrufen.",
    "EUH204": "Enthält Isocyanate. Kann allergische Reaktionen hervorrufen.",
    "EUH205": "Enthält epoxidhaltige Verbindungen. Kann allergische Reaktionen hervorrufen.",
    "EUH206": (
        "Achtung! Nicht zusammen mit anderen Produkten verwenden, da gefährliche Gase (Chlor) freigesetzt werden können."
    ),
    "EUH207": (
        "Achtung! Enthält Cadmium. Bei der Verwendung entstehen gefährliche Dämpfe. Hinweise des Herstellers beachten. "
        "Sicherheitsanweisungen einhalten."
    ),
    "EUH208": (
        "Enthält einen sensibilisierenden Stoff, der auf dem Etikett steht. Kann allergische Reaktionen hervorrufen."
    ),
    "EUH209": "Kann bei Verwendung leicht entzündbar werden.",
    "EUH209A": "Kann bei Verwendung entzündbar werden.",
    "EUH210": "Sicherheitsdatenblatt auf Anfrage erhältlich.",
    "EUH211": (
        "Achtung! Beim Sprühen können gefährliche lungengängige Tröpfchen entstehen. Aerosol oder Nebel nicht einatmen."
    ),
    "EUH212": (
        "Achtung! Bei der Verwendung kann gefährlicher lungengängiger Staub entstehen. Staub nicht einatmen."
    ),
    "EUH380": "Kann beim Menschen endokrine Störungen verursachen.",
    "EUH381": "Steht in dem Verdacht, beim Menschen endokrine Störungen zu verursachen.",
    "EUH401": "Zur Vermeidung von Risiken für Mensch und Umwelt die Gebrauchsanleitung einhalten.",
    "EUH430": "Kann endokrine Störungen in der Umwelt verursachen.",
    "EUH431": "Steht in dem Verdacht, endokrine Störungen in der Umwelt zu verursachen.",
    "EUH440": "Anreicherung in der Umwelt und in lebenden Organismen einschließlich Menschen.",
    "EUH441": "Starke Anreicherung in der Umwelt und in lebenden Organismen einschließlich Menschen.",
    "EUH450": "Kann lang anhaltende und diffuse Verschmutzung von Wasserressourcen verursachen.",
    "EUH451": "Kann sehr lang anhaltende und diffuse Verschmutzung von Wasserressourcen verursachen.",
    # What an author completes with the name of the substance.
    "EUH208.of": "Enthält {substance}. Kann allergische Reaktionen hervorrufen.",
}

# Where they are published: those of the United Nations, those that the European Union alone has.
ORIGINS: dict[str, str] = {
    "un": "Verordnung (EG) Nr. 1272/2008, Anhang III",
    "un-only": "GHS der Vereinten Nationen, Anhang 3, hier selbst übersetzt",
    "eu": "Verordnung (EG) Nr. 1272/2008, Anhang III",
}
