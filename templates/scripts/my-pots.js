/* The page of the reader's pots. Whatever it shows of them is put on the page as text. */
(() => {
  const place = one(".mine"), {store: prefix, palette: address} = place.dataset;
  const make = (name, kind = "", words = "") => {
    const element = document.createElement(name);
    if (kind) element.className = kind;
    element.textContent = words;
    return element;
  };
  window.guidegenPalette = palette => {
    const {words, signs, families} = palette, {t} = window.guidegenPhrases(words, signs), pots = window.guidegenPots(prefix, palette), {fold} = pots;
    const told = one(".mine-told"), undo = one(".mine-undo"), aside = one(".mine-aside"), search = one("#mine-q"), range = one("#mine-range"), only = one("#mine-only");
    const SVG = "http://www.w3.org/2000/svg";
    let before = null;

    const tell = (...keys) => {
      told.textContent = keys.filter(Boolean).join(" ");
      told.hidden = !told.textContent;
    };
    function count() {
      one(".mine-count").textContent = t("mine.count", {n: pots.atHand().length});
      undo.hidden = !before;
      aside.hidden = !pots.broken;
    }
    // Every change is kept at once, and the last can be taken back as long as the page is open.
    function change(how, ...said) {
      before = JSON.stringify(pots.pots);
      how();
      tell(...said, pots.save() ? "" : words["mine.no-memory"]);
      count();
    }
    const chip = colour => {
      const svg = document.createElementNS(SVG, "svg"), shape = document.createElementNS(SVG, "path");
      for (const [name, value] of [["class", "chip"], ["viewBox", "0 0 30 20"], ["aria-hidden", "true"]]) svg.setAttribute(name, value);
      for (const [name, value] of [["d", "M1 1h28v18H1z"], ["fill", colour || "none"], ["stroke", "#767b79"]]) shape.setAttribute(name, value);
      svg.append(shape);
      return svg;
    };
    const button = (does, name, then) => {
      const made = make("button", "", does);
      made.type = "button";
      if (name !== does) made.setAttribute("aria-label", does + ": " + name);
      made.onclick = then;
      return made;
    };

    // A row: whether it is there, and once it is, how it stands.
    const rows = new Map();
    function row(pot) {
      const line = make("li"), label = make("label"), box = make("input"), named = make("span", "name", pot.label || pot.name);
      box.type = "checkbox";
      label.append(box, chip(pot.colour), named);
      const kind = pot.own ? pot.kind === "bottled" ? words["mine.bottled"] : words["kind." + pot.kind] : pot.parts ? words["kind.mix"] : pot.kind && words["kind." + pot.kind];
      const aside = [pot.range, kind, pot.discontinued && words["mine.gone"], pot.own && pot.parts, pot.mixed].filter(Boolean).join(" · ");
      if (aside) named.append(" ", make("small", "", aside));
      line.append(label);
      const states = make("select", "mine-state");
      for (const state of ["full", "low", "dry"]) states.append(Object.assign(make("option", "", words["mine.state." + state]), {value: state}));
      states.setAttribute("aria-label", words["mine.state"] + ": " + (pot.label || pot.name));
      const own = {...pot};
      const show = () => {
        const kept = pots.has(pot.name);
        box.checked = !!kept;
        line.classList.toggle("is-dry", !!kept && kept.state === "dry");
        if (kept) { states.value = kept.state; line.append(states); } else states.remove();
      };
      box.onchange = () => { change(() => box.checked ? pots.add(pot.own ? {...own, state: "full"} : {name: pot.name, state: "full"}) || tell(words["mine.most"]) : pots.drop(pot.name)); show(); };
      states.onchange = () => { change(() => pots.add({...pots.has(pot.name), state: states.value})); show(); };
      show();
      rows.set(pot.name, {line, pot, show, text: fold([pot.label, pot.name, pot.code, ...pot.aliases || []].join(" "))});
      return line;
    }
    const kept = name => pots.byName.get(name);
    function list() {
      const place = one(".mine-families"), groups = families.map(() => []);
      rows.clear();
      [...palette.paints, ...palette.mixes].forEach(pot => groups[pot.family || 0].push(pot));
      const parts = groups.map((those, at) => [families[at], those.sort((one, two) => (one.light || 0) - (two.light || 0) || (one.name < two.name ? -1 : 1))]);
      const mine = pots.pots.filter(pot => pot.own), lost = pots.pots.filter(pot => !pot.own && !kept(pot.name));
      place.replaceChildren(...[[words["mine.yours"], mine], [words["mine.elsewhere"], lost], ...parts].filter(([, those]) => those.length).map(([title, those]) => {
        const section = make("section", "mine-family"), rack = make("ul", "mine-rack");
        rack.append(...those.map(row));
        section.append(make("h3", "", title), rack);
        return section;
      }));
      sift();
    }
    function sift() {
      const wanted = fold(search.value), from = range ? range.value : "";
      rows.forEach(({line, pot, text}) => {
        line.hidden = !!(wanted && !text.includes(wanted) || from && pot.range !== from || only.checked && !pots.has(pot.name));
      });
      all(".mine-family").forEach(family => { family.hidden = !one("li:not([hidden])", family); });
    }
    const again = () => { list(); count(); tried(); };
    search.oninput = sift;
    only.onchange = sift;
    if (range) range.onchange = sift;
    one(".mine-find").onsubmit = event => { event.preventDefault(); sift(); };

    // What a list or a file brought, and for each name that is not known the nearest one to take.
    function report(found) {
      const {added, known, unknown, tooLarge, full, dropped} = found, place = one(".mine-unknown");
      one(".mine-taken").textContent = tooLarge ? words["mine.too-large"]
        : [t("mine.taken", {n: added.length}), known.length && t("mine.known", {n: known.length}), unknown.length && t("mine.unknown", {n: unknown.length}), dropped && t("mine.dropped", {n: dropped}), full && words["mine.most"]].filter(Boolean).join(" ");
      // So many slips are looked up; more is another trouble than slips.
      place.replaceChildren(...(unknown || []).slice(0, 100).map(each => {
        const line = make("li", "", each.name + " "), near = each.choices || [pots.nearest(each.name)].filter(Boolean);
        const done = pot => { change(() => pots.add(pot)); line.remove(); again(); };
        near.slice(0, 4).forEach(pot => line.append(button(t("mine.take-near", {name: pot.name}), each.name, () => done({name: pot.name, state: "full"})), " "));
        line.append(button(words["mine.as-own"], each.name, () => done({name: each.name, state: "full", own: true, kind: each.kind, binder: each.binder, colour: each.colour ? "#" + each.colour.toLowerCase() : null})));
        return line;
      }));
    }
    const readList = written => {
      let found;
      change(() => { found = pots.fromList(written); });
      report(found);
      again();
    };
    one(".mine-read").onclick = () => readList(one("#mine-list").value);
    one("#mine-load").onchange = ({target}) => {
      const [file] = target.files, reader = new FileReader();
      if (!file) return;
      if (file.size > 4e6) return report({tooLarge: true});
      reader.onload = () => {
        let found;
        change(() => { found = pots.fromFile(String(reader.result)); });
        if (!found) return readList(String(reader.result));
        pots.saveTaken();
        report(found.tooLarge ? found : {unknown: [], ...found});
        again();
      };
      reader.readAsText(file);
      target.value = "";
    };
    const save = (written, name) => {
      const link = make("a");
      link.href = URL.createObjectURL(new Blob([written], {type: "application/json"}));
      link.download = name;
      document.body.append(link);
      link.click();
      link.remove();
      setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    };
    one(".mine-save").onclick = () => save(pots.toFile(), "my-pots.json");
    aside.onclick = () => { save(pots.broken, "my-pots-aside.txt"); pots.dropAside(); tell(); count(); };
    one(".mine-forget").onclick = () => { change(() => { pots.pots = []; }, words["mine.forgotten"]); again(); };
    undo.onclick = () => {
      pots.pots = JSON.parse(before);
      before = null;
      pots.save();
      tell(words["mine.undone"]);
      again();
    };

    // After a first try: what to add. The engine comes when it is first asked for.
    const engine = () => window.guidegenColour ? Promise.resolve() : new Promise(done => document.head.append(Object.assign(document.createElement("script"), {src: place.dataset.engine, onload: done})));
    const mixed = written => written.split(/\s*[+,;]\s*/).filter(Boolean).map(part => {
      const [, before = "", name, after = ""] = /^(?:(\d+(?:[.,]\d+)?)\s+)?(.*?)(?:\s*:\s*(\d+(?:[.,]\d+)?))?$/.exec(part);
      return [name, +(before || after || "1").replace(",", ".")];
    });
    const inHand = name => { const [known] = pots.find(name); return pots.atHand().find(pot => known ? pot.name === known.name : fold(pot.name) === fold(name)); };
    function tried() {
      one(".mine-tried").replaceChildren(...pots.tried.map(({parts, got}) => {
        const said = parts.map(([name, n]) => n + " " + (kept(name) || {label: name}).label).join(" + "), line = make("li");
        line.append(chip(got), " " + said + " ", button(words["mine.try-forget"], said, () => { pots.try(parts, ""); tried(); }));
        return line;
      }));
    }
    one(".mine-try").onsubmit = async event => {
      event.preventDefault();
      await engine();
      const {canBeMixed, isColour} = window.guidegenColour, wanted = one("#mine-wanted").value.trim(), got = one("#mine-got").value, [paint] = pots.find(wanted), hex = "#" + wanted.replace(/^#/, "").toLowerCase();
      const pot = paint && paint.colour ? paint : isColour(hex) ? {name: hex, colour: hex} : null, those = mixed(one("#mine-mixed").value).map(([name, n]) => ({name, n, pot: inHand(name)}));
      const odd = those.find(each => !each.pot || !canBeMixed(each.pot) || !(each.n > 0)), names = new Set(those.map(each => each.pot && each.pot.name));
      const say = text => { one(".mine-next").textContent = text; };
      if (!pot) return say(t("mine.try-no-colour", {name: wanted}));
      if (odd) return say(t("mine.try-unknown", {name: odd.name}));
      if (names.size < 2 || those.length > 4 || names.size < those.length) return say(words["mine.try-none"]);
      const parts = those.map(each => [each.pot.name, each.n]);
      pots.try(parts, got);
      tried();
      say(window.guidegenOwnLines(palette, window.guidegenTable(palette, pots)).tried({parts, got}, pot));
    };

    const form = one(".mine-add"), kind = one("#mine-kind");
    kind.onchange = () => { one(".mine-of").hidden = kind.value !== "bottled"; };
    form.onsubmit = event => {
      event.preventDefault();
      const name = one("#mine-name").value.trim(), [there] = pots.find(name), bottled = kind.value === "bottled";
      if (!fold(name)) return;
      const today = new Date(), mixed = bottled ? [today.getFullYear(), today.getMonth() + 1, today.getDate()].map(n => String(n).padStart(2, "0")).join("-") : "";
      change(() => pots.add(there && !bottled ? {name: there.name, state: "full"}
        : {name, state: "full", own: true, kind: kind.value, binder: one("#mine-binder").value, colour: one("#mine-colour").value, parts: bottled ? one("#mine-parts").value : "", mixed}),
      t("mine.added", {name: there && !bottled ? there.name : name}));
      form.reset();
      one(".mine-of").hidden = true;
      again();
    };
    addEventListener("storage", ({key}) => { if (key === prefix + ":pots") { pots.read(); again(); } });

    one(".mine-needs").hidden = true;
    place.hidden = false;
    again();
    tell(pots.broken && words["mine.broken"], !pots.works && words["mine.no-memory"], pots.alone && words["mine.alone"]);
  };
  document.head.append(Object.assign(document.createElement("script"), {src: address}));
})();
