/* The pots on the reader's own table: kept by this browser alone, found by any name that the archive knows them by, read
   from lists and files. What is kept is text from elsewhere: it is looked through before anything uses it. */
window.guidegenPots = (prefix, palette) => {
  const MOST = 5000, BYTES = 1e6, LONGEST = 200, STATES = ["full", "low", "dry"], BINDERS = ["acrylic", "enamel", "oil", "lacquer"];
  const KEY = prefix + ":pots", TAKEN = prefix + ":taken", ASIDE = prefix + ":aside", TRIED = prefix + ":tried", MOST_TRIED = 200;
  const record = value => value && typeof value === "object" && !Array.isArray(value) ? value : {};
  const text = (value, most = LONGEST) => typeof value === "string" ? value.replace(/[\s\p{Cc}]+/gu, " ").trim().slice(0, most) : "";

  // Names are compared as guidegen/base/suggest.py compares them.
  const fold = name => name.replace(/[’‘‛ʼ]/g, "'").replace(/[“”„‟]/g, '"').normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/ß/g, "ss").normalize("NFKD").replace(/\s/g, "");
  function distance(one, two, limit) {
    const far = limit + 1;
    if (Math.abs(one.length - two.length) > limit) return far;
    let older, before = [], row = Array.from({length: two.length + 1}, (_, at) => at);
    for (let i = 1; i <= one.length; i++) {
      [older, before, row] = [before, row, [i]];
      for (let j = 1; j <= two.length; j++) {
        row[j] = Math.min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (one[i - 1] !== two[j - 1]));
        if (i > 1 && j > 1 && one[i - 1] === two[j - 2] && one[i - 2] === two[j - 1]) row[j] = Math.min(row[j], older[j - 2] + 1);
      }
      if (Math.min(...row) > limit) return far;
    }
    return row[two.length];
  }
  const every = [...palette.paints, ...palette.mixes], byName = new Map(every.map(pot => [pot.name, pot])), labels = new Map();
  const levels = [0, 1, 2, 3].map(() => new Map());
  const enter = (level, label, pot) => {
    const key = fold(label || ""), those = levels[level].get(key) || [];
    if (key && !those.includes(pot)) levels[level].set(key, [...those, pot]);
  };
  for (const pot of every) {
    const {bare, label, range, aliases = [], code} = pot;
    if (range) [bare, ...aliases, code, label].filter(Boolean).forEach(each => enter(0, range + "/" + each, pot));
    [bare, label].forEach(each => enter(1, each, pot));
    aliases.forEach(each => enter(2, each, pot));
    enter(3, code, pot);
    [bare, pot.name, ...aliases].forEach(each => labels.has(fold(each)) || labels.set(fold(each), pot));
  }
  // The pots that a name means: those of the first level of likeness that has any.
  const find = name => {
    const key = fold(name), level = levels.find(each => each.has(key));
    return level ? level.get(key) : [];
  };
  function nearest(name) {
    const asked = fold(name), limit = Math.min(4, Math.max(1, Math.floor(asked.length / 3)));
    let best = null, away = limit + 1;
    for (const [label, pot] of labels) {
      const off = distance(asked, label, Math.min(limit, away));
      if (off < away) [best, away] = [pot, off];
    }
    return best;
  }

  // What may be kept, of whatever there is: every text cut to size, nothing twice.
  function clean(value) {
    const pots = [], names = new Set();
    let dropped = 0;
    for (const each of Array.isArray(value) ? value : []) {
      const {name: said, state, own, kind, binder, colour, parts, mixed} = record(each), name = text(said), key = fold(name);
      if (!key || names.has(key) || pots.length >= MOST) { dropped++; continue; }
      names.add(key);
      const pot = {name, state: STATES.includes(state) ? state : "full"};
      if (own === true && !byName.has(name)) Object.assign(pot, {
        own, kind: /^[a-z]{1,20}$/.test(kind) ? kind : "paint", binder: BINDERS.includes(binder) ? binder : "acrylic",
        colour: /^#[0-9a-f]{6}$/.test(colour) ? colour : null, parts: text(parts, 500), mixed: text(mixed, 10)});
      pots.push(pot);
    }
    return {pots, dropped};
  }
  function cleanTaken(value) {
    const taken = {};
    for (const [slug, guide] of Object.entries(record(value)).slice(0, MOST)) {
      const {on, stop, swaps} = record(guide), kept = {};
      for (const [name, swap] of Object.entries(record(swaps)).slice(0, 500)) {
        const {parts, tried} = record(swap), list = Array.isArray(parts) ? parts.slice(0, 4) : [];
        if (!list.every(part => Array.isArray(part) && text(part[0]) && part[1] > 0 && part[1] < 1000)) continue;
        kept[text(name)] = {parts: list.map(([pot, n]) => [text(pot), +n]), tried: ["good", "bad"].includes(tried) ? tried : ""};
      }
      taken[text(slug)] = {on: on === true, stop: text(stop), swaps: kept};
    }
    return taken;
  }

  // Mixtures that were tried: pots in parts, and the colour that they became.
  const isParts = list => Array.isArray(list) && list.length > 1 && list.length <= 4 && list.every(part => Array.isArray(part) && text(part[0]) && part[1] > 0 && part[1] < 1000);
  const cleanTried = value => (Array.isArray(value) ? value : []).filter(each => isParts(record(each).parts) && /^#[0-9a-f]{6}$/.test(each.got)).slice(-MOST_TRIED)
    .map(({parts, got}) => ({parts: parts.map(([name, n]) => [text(name), +n]), got}));

  const store = {pots: [], taken: {}, tried: [], broken: "", works: true, fold, find, nearest, byName};
  const get = key => { try { return localStorage.getItem(key); } catch { store.works = false; return null; } };
  const put = (key, value) => { try { localStorage.setItem(key, value); return true; } catch { return false; } };
  const parsed = written => { try { return JSON.parse(written); } catch { return undefined; } };
  store.read = () => {
    const written = get(KEY), value = written === null ? {pots: []} : parsed(written), {pots, dropped} = clean(record(value).pots);
    // What cannot be read is put aside whole before anything is written in its place.
    if (written !== null && (dropped || !Array.isArray(record(value).pots)) && get(ASIDE) === null) put(ASIDE, written);
    store.broken = get(ASIDE) || "";
    if (store.works) store.pots = pots;
    if (store.works) store.taken = cleanTaken(parsed(get(TAKEN) || "{}"));
    if (store.works) store.tried = cleanTried(parsed(get(TRIED) || "[]"));
    return store;
  };
  // A reader who has forgotten all pots counts as one who never told of any.
  store.save = () => {
    if (store.pots.length) return put(KEY, JSON.stringify({pots: store.pots}));
    try { localStorage.removeItem(KEY); return true; } catch { return false; }
  };
  store.saveTaken = () => put(TAKEN, JSON.stringify(store.taken));
  // What the same parts became last counts.
  const sameParts = store.sameParts = (one, two) => one.length === two.length && one.every(([name, n]) => two.some(part => part[0] === name && part[1] === n));
  store.try = (parts, got) => {
    store.tried = cleanTried([...store.tried.filter(each => !sameParts(each.parts, parts)), ...got ? [{parts, got}] : []]);
    return put(TRIED, JSON.stringify(store.tried));
  };
  store.dropAside = () => { try { localStorage.removeItem(ASIDE); } catch { /* nothing was kept */ } store.broken = ""; };
  store.of = slug => store.taken[slug] = store.taken[slug] || {on: false, stop: "", swaps: {}};
  store.has = name => store.pots.find(pot => pot.name === name);
  store.add = pot => {
    if (store.pots.length >= MOST && !store.has(pot.name)) return false;
    store.pots = clean([...store.pots.filter(each => each.name !== pot.name), pot]).pots;
    return true;
  };
  store.drop = name => { store.pots = store.pots.filter(each => each.name !== name); };
  // As the engine takes them: what is dried up is no pot.
  store.atHand = () => store.pots.filter(pot => pot.state !== "dry").map(pot => byName.has(pot.name) ? {...byName.get(pot.name), owned: 1}
    : pot.own && {...pot, label: pot.name, kind: pot.kind === "bottled" ? "paint" : pot.kind}).filter(Boolean);

  // Lists: one pot a line, or a table whose first lines say what its columns are, as `start --palette-from` reads them.
  const fields = new Map(Object.entries(palette.headings).flatMap(([field, those]) => those.map(each => [fold(each), field])));
  function rowsOf(list, separator) {
    const rows = [];
    let cells = [], cell = "", quoted = false;
    const close = () => { cells.push(text(cell)); cell = ""; };
    for (let at = 0; at < list.length; at++) {
      const sign = list[at];
      if (quoted) {
        if (sign !== '"') cell += sign;
        else if (list[at + 1] === '"') { cell += sign; at++; }
        else quoted = false;
      } else if (sign === '"' && !cell.trim()) { quoted = true; cell = ""; }
      else if (sign === separator) close();
      else if (sign === "\n") { close(); if (cells.some(Boolean)) rows.push(cells); cells = []; }
      else cell += sign;
    }
    close();
    if (cells.some(Boolean)) rows.push(cells);
    return rows;
  }
  const headed = row => {
    const found = new Map();
    row.forEach((cell, at) => {
      const field = fields.get(fold(cell.replace(/[^\p{L}\p{N}]+/gu, " ")));
      if (field && ![...found.values()].includes(field)) found.set(at, field);
    });
    return found;
  };
  function headOf(rows) {
    const at = rows.slice(0, 10).findIndex((row, n) => { const found = headed(row); return [...found.values()].includes("name") && found.size > (n > 0); });
    return at < 0 ? null : {at, columns: headed(rows[at])};
  }
  const NONE = /^(no|n|false|off|0|-|–|nein|falsch)$/i;
  store.fromList = list => {
    const answer = {added: [], known: [], unknown: [], tooLarge: false, full: false};
    if (list.length > BYTES || new Blob([list]).size > BYTES) return {...answer, tooLarge: true};
    const plain = list.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n").replace(/\0/g, ""), marked = /^sep=(.)\n/i.exec(plain);
    const tables = (marked ? [marked[1]] : [",", ";", "\t", "|"]).map(sign => rowsOf(marked ? plain.slice(marked[0].length) : plain, sign));
    const width = rows => { const head = headOf(rows); return head ? head.columns.size : 0; };
    const rows = tables.reduce((best, each) => width(each) > width(best) ? each : best), head = headOf(rows);
    const entries = head
      ? rows.slice(head.at + 1).map(row => Object.fromEntries([...head.columns].map(([at, field]) => [field, row[at] || ""])))
      : plain.split("\n").map(line => ({name: text(line.replace(/^\s*(?:[-*•·–]|\d{1,3}[.)])\s+/, ""))}));
    for (const {name, range, edition, code, owned, kind, hex, colour, binder, what} of entries) {
      if (!name || NONE.test(owned || "") || /^(material|tool)$/i.test(what || "")) continue;
      const whole = edition ? name + " (" + edition + ")" : name;
      const found = range ? find(range + "/" + whole) : [], those = found.length ? found : [whole, name, code].map(each => each ? find(each) : []).find(each => each.length) || [];
      const pots = range && those.length > 1 ? those.filter(pot => fold(pot.range || "") === fold(range)) : those;
      if (pots.length === 1) {
        const [pot] = pots;
        if (store.has(pot.name)) answer.known.push(pot.name);
        else if (store.add({name: pot.name, state: "full"})) answer.added.push(pot.name);
        else answer.full = true;
      } else if (answer.unknown.length < MOST) answer.unknown.push({name: range ? range + " / " + whole : whole, choices: those.length ? those : null, kind, binder, colour: (/^#?([0-9a-f]{6})$/i.exec(hex || colour || "") || [])[1]});
    }
    return answer;
  };

  store.toFile = () => JSON.stringify({"guidegen pots": 1, pots: store.pots, taken: store.taken, tried: store.tried}, null, 1) + "\n";
  // A file that was saved here adds to what is there; the state that it tells is the newer one.
  store.fromFile = written => {
    if (written.length > 4 * BYTES) return {tooLarge: true};
    const value = record(parsed(written)), {pots, dropped} = clean(value.pots);
    if (!Array.isArray(value.pots)) return null;
    const full = pots.filter(pot => !store.add(pot)).length;
    Object.assign(store.taken, cleanTaken(value.taken));
    cleanTried(value.tried).forEach(({parts, got}) => store.try(parts, got));
    return {added: pots.map(pot => pot.name), known: [], unknown: [], dropped: dropped + full, full: full > 0};
  };

  // Where each file on the disk has a store of its own, a link takes along what is kept here.
  const CARRIED = /[#&]pots=([^&]*)/, carried = CARRIED.exec(location.hash);
  store.read();
  if (carried) {
    let value;
    try { value = parsed(decodeURIComponent(carried[1])); } catch { /* half an address */ }
    const {pots} = clean(record(value).pots);
    if (pots.length) {
      store.pots = pots;
      store.taken = cleanTaken(value.taken);
      cleanTried(value.tried).forEach(({parts, got}) => store.try(parts, got));
      store.save();
      store.saveTaken();
    }
    history.replaceState(null, "", location.href.replace(CARRIED, ""));
  }
  // Firefox gives each file a store of its own; Chromium and Safari do not.
  store.alone = location.protocol === "file:" && /Firefox\//.test(navigator.userAgent);
  if (store.alone) ["pointerdown", "focusin"].forEach(type => document.addEventListener(type, ({target}) => {
    const link = target.closest && target.closest("a[href*='.html']"), bare = link && link.getAttribute("href").replace(CARRIED, "");
    if (!link || link.protocol !== "file:" || !store.pots.length) return;
    link.setAttribute("href", bare + (bare.includes("#") ? "&" : "#") + "pots=" + encodeURIComponent(JSON.stringify({pots: store.pots, taken: store.taken, tried: store.tried})));
  }));
  return store;
};
