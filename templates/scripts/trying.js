/* The page where colours are tried: a pot in hand, a way of painting, and a touch on the figure. What was done stands as the
   order of work; three schemes are kept by this browser alone, and an address may carry them. */
(() => {
  const bench = one(".try-bench");
  if (!bench) return;
  const {phrases: words, signs} = JSON.parse(bench.dataset.words), {t} = guidegenPhrases(words, signs), KEY = bench.dataset.store, OWN = KEY + ":own";
  const LONGEST_ADDRESS = 2000, TEN = 10, MOST_OWN = 5;
  const told = one(".try-told"), range = one(".try-range"), list = one(".try-steps ol"), table = one(".try-table tbody");
  const wayNames = Object.fromEntries(Object.keys(words).filter(key => key.startsWith("technique.name.")).map(key => [key.slice(15), words[key]]));
  let colours, model, data, showPairs, showTaken, chart = null, drawing = null, measures = null, held = null, tray = null, shown = 0, at = 0, past = [], said = {address: "", foreign: false};
  let schemes = [0, 1, 2].map(n => ({name: t("try.scheme", {n: n + 1}), figure: "", steps: [], locked: []}));

  const make = (name, kind = "", text = "") => {
    const element = document.createElement(name);
    if (kind) element.className = kind;
    if (text) element.textContent = text;
    return element;
  };
  const button = (kind, text, label, act) => {
    const element = Object.assign(make("button", kind, text), {type: "button"});
    if (label) element.setAttribute("aria-label", label);
    element.addEventListener("click", act);
    return element;
  };
  const dab = colour => {
    const element = make("span", "dab");
    if (colour) element.style.background = colour; else element.classList.add("clear");
    return element;
  };
  const script = address => new Promise((done, failed) => {
    const onerror = () => failed(new Error(address));
    document.head.append(Object.assign(document.createElement("script"), {src: address, onload: done, onerror}));
  });

  let arrived = null;
  window.guidegenTrying = found => { data = found; };
  window.guidegenFigure = found => { arrived = found; };
  const addresses = new Map(all("[data-figure]").map(link => [link.dataset.name, link.dataset.figure]));
  const charts = new Map();
  async function ready() {
    if (model) return;
    await script(bench.dataset.colour);
    await script(bench.dataset.tools);
    await script(bench.dataset.pots);
    colours = guidegenColour;
    // What the reader has that the archive has not stands among the others.
    for (const {name, own, kind, colour} of mine.values()) if (own === true && colours.isColour(colour) && name.length <= 200)
      data.pots.push({name, label: name, kind: /^[a-z]{1,20}$/.test(kind) ? kind : "paint", colour, own, light: colours.labOf(colour)[0]});
    model = guidegenSchemes(colours, data);
    showTaken = guidegenTaking({t, make, dab, model, words, wayNames, whose: own => !hasPot(own) ? "try.to-buy" : mine.size ? "try.have" : "try.owned"});
    showPairs = guidegenApart({t, make, dab, button, take});
    tray = guidegenTray({t, make, dab, button, colours, pots: data.pots, mine, take});
    guidegenPicture({t, make, dab, button, colours, how: data.clusters, near: tray.near});
    const guide = one(".try-guide");
    for (const [slug, title] of data.guides) {
      addresses.set("guides/" + slug, `guides/${slug}/try.js`);
      guide.append(new Option(title, "guides/" + slug));
    }
    one(".try-more").hidden = !data.guides.length;
    if (mine.size) one(".try-from").append(new Option(t("try.mine"), "mine"));
  }
  async function figure(name) {
    if (!charts.has(name)) {
      if (!addresses.has(name)) throw new Error(name);
      await script(addresses.get(name));
      charts.set(name, arrived);
    }
    return charts.get(name);
  }
  // The pots that the reader has told of on the page of their own, but for dried ones.
  const mine = (() => {
    try {
      const kept = JSON.parse(localStorage.getItem(bench.dataset.mine)), pots = kept && Array.isArray(kept.pots) ? kept.pots.slice(0, 5000) : [];
      return new Map(pots.filter(pot => pot && typeof pot.name === "string" && pot.state !== "dry").map(pot => [pot.name, pot]));
    } catch { return new Map(); }
  })();
  const hasPot = pot => mine.size ? mine.has(pot.name) : pot.owned > 0;
  const scheme = () => schemes[shown], pot = step => model.potOf(step), label = step => { const found = pot(step); return found ? found.label || found.name : String(step.pot); };
  const whole = (step, of = chart) => of && of.areas.every(area => step.areas.includes(area));
  const where = (step, of = chart) => whole(step, of) ? t("try.whole") : step.areas.join(", ");
  const stepParts = (step, of) => [dab((pot(step) || {}).colour), " ", make("b", "", label(step)), ` ${wayNames[step.way]} `, make("small", "", where(step, of))];
  const stepWords = step => `${label(step)}, ${wayNames[step.way]}: ${where(step)}`;
  const states = (which = scheme(), count = which === scheme() ? at : which.steps.length) => model.states(which.steps.filter(pot), count);

  // With the address that says the same, as long as nothing was changed, and whether that came from elsewhere.
  function keep() {
    try { localStorage.setItem(KEY, JSON.stringify({schemes, shown, ...said})); } catch { one(".try-sent").textContent = t("try.not-kept"); }
  }
  // What was changed is no longer what the address says.
  function keepOwn() {
    if (said.address) {
      said = {address: "", foreign: false};
      history.replaceState(null, "", location.pathname + location.search);
      one(".try-sent").textContent = "";
    }
    keep();
  }
  const now = () => JSON.stringify([shown, at, schemes[shown]]), remember = () => { past = [...past, now()].slice(-100); };
  // Whatever changes a scheme goes through here, so that it can be undone.
  function change(act) {
    remember();
    act(scheme());
    at = Math.min(at, scheme().steps.length);
    if (past.at(-1) === now()) past.pop();
    keepOwn();
    show();
  }
  function undo() {
    if (!past.length) return;
    const [which, count, was] = JSON.parse(past.pop());
    shown = which;
    schemes[shown] = was;
    at = count;
    keepOwn();
    if (was.figure && was.figure !== chart.name) open(was.figure); else show();
  }
  function paint(area) {
    if (!held) { one(".try-held").textContent = t("try.nothing-held"); return; }
    const way = one(".try-ways input:checked").value, under = way.endsWith("undercoat"), areas = (under ? [...chart.areas] : [area]).filter(each => !scheme().locked.includes(each));
    if (!areas.length) { one(".try-held").textContent = t("try.is-locked", {area}); return; }
    change(own => {
      const last = own.steps[at - 1], again = last && (last.pot.name || last.pot) === held.name && last.way === way;
      if (again && (under || !whole(last))) {
        last.areas = under ? [...new Set([...last.areas, ...areas])] : last.areas.includes(area) ? last.areas.filter(each => each !== area) : [...last.areas, area];
        if (!last.areas.length) own.steps.splice(--at, 1);
        return;
      }
      own.steps.splice(at++, 0, {pot: held.own ? {...held} : held.name, way, areas, share: 1, coats: 1, title: ""});
    });
  }

  function draw(place, which, options = {}) {
    const {count, paint: turn, alt = ""} = options, svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    const own = guidegenDrawing(charts.get(which.figure) || chart, options.id);
    svg.setAttribute("viewBox", own.viewBox);
    svg.setAttribute("class", "figure");
    if (alt) { svg.setAttribute("role", "img"); svg.setAttribute("aria-label", alt); } else svg.setAttribute("aria-hidden", "true");
    // The shapes were read from a drawing that lets nothing but plain shapes through.
    svg.innerHTML = own.defs + own.body(states(which, count), turn);
    place.append(svg);
    return svg;
  }
  function showFigure() {
    const place = one(".try-figure"), after = t("try.after", {n: at, all: scheme().steps.length});
    place.replaceChildren();
    draw(place, scheme(), {id: "try", alt: `${chart.title}, ${after}`});
    range.max = scheme().steps.length;
    range.value = at;
    one(".try-after").textContent = after;
    const undoing = one(".try-undo");
    if (!past.length && document.activeElement === undoing) range.focus({preventScroll: true});
    undoing.disabled = !past.length;
  }
  function showSteps() {
    const own = scheme();
    one(".try-empty").hidden = own.steps.length > 0;
    list.replaceChildren(...own.steps.map((step, n) => {
      const item = make("li"), named = stepWords(step), grip = make("span", "grip", "⠿");
      item.classList.toggle("to-come", n >= at);
      grip.setAttribute("aria-hidden", "true");
      const text = make("span", "try-step"), [colour, , ...parts] = stepParts(step);
      text.append(...parts);
      const move = (from, to) => change(now => { now.steps.splice(to, 0, ...now.steps.splice(from, 1)); at = now.steps.length; });
      const tools = make("span", "try-tools"), does = (kind, sign, key, act) => tools.append(button(kind, sign, t(key, {step: named}), act));
      if (n) does("earlier", "↑", "try.earlier", () => { move(n, n - 1); focusStep(n - 1, "earlier"); });
      if (n < own.steps.length - 1) does("later", "↓", "try.later", () => { move(n, n + 1); focusStep(n + 1, "later"); });
      does("away", "×", "try.away", () => { change(now => { now.steps.splice(n, 1); at = now.steps.length; }); focusStep(n, "away"); });
      item.append(grip, colour, text, tools);
      grip.addEventListener("pointerdown", event => guidegenDragged(event, item, n, list, (from, to) => to === from ? showSteps() : move(from, to)));
      return item;
    }));
    one(".try-advice").replaceChildren(...model.darkGrounds(own.steps.slice(0, at)).map(({pot: weak, areas}) => make("li", "", t("try.dark-ground", {pot: weak.label || weak.name, areas: areas.join(", ")}))));
  }
  // A step that was moved is still the one that has the focus; the one after it where it was taken out.
  function focusStep(n, kind) {
    const item = list.children[Math.min(n, list.children.length - 1)];
    ((item && (item.querySelector("." + kind) || item.querySelector("button"))) || one(".try-undo")).focus({preventScroll: true});
  }
  function showTable() {
    const looks = states(), own = scheme();
    table.replaceChildren(...chart.areas.map(area => {
      const row = make("tr"), name = make("th", "", area), look = make("td"), done = make("td"), act = make("td"), state = looks[area];
      name.scope = "row";
      const kinds = ["edges", "flats", "recesses"], alike = !state || kinds.every(key => state.relief[key] === state.relief.flats);
      for (const key of alike ? ["flats"] : kinds) {
        const colour = state && state.relief[key], each = make("span", "look");
        each.append(dab(colour), ` ${alike ? "" : t("try." + key)} ${colour || t("try.bare")} `);
        look.append(each);
      }
      done.textContent = own.steps.slice(0, at).map((step, n) => step.areas.includes(area) ? `${n + 1} ${label(step)} (${wayNames[step.way]})` : "").filter(Boolean).join(", ");
      act.append(button("", t("try.paint"), t("try.put", {area}), () => { paint(area); const again = [...table.rows].find(each => each.cells[0].textContent === area); again.querySelector("button").focus(); }));
      const lock = make("td"), box = Object.assign(make("input"), {type: "checkbox", checked: own.locked.includes(area)});
      box.setAttribute("aria-label", t("try.lock", {area}));
      box.addEventListener("change", () => { own.locked = box.checked ? [...own.locked, area] : own.locked.filter(each => each !== area); keepOwn(); });
      lock.append(box);
      row.append(name, act, lock, look, done);
      return row;
    }));
  }
  function showSchemes() {
    const rows = one(".try-schemes ol");
    rows.replaceChildren(...schemes.map((own, n) => {
      const item = make("li"), pick = button("try-pick", "", t("try.show", {name: own.name}), () => turnTo(n));
      pick.setAttribute("aria-pressed", n === shown);
      draw(pick, own, {id: "try-s" + n, count: n === shown ? at : own.steps.length});
      const brief = make("ol", "try-brief"); // on paper, where each has its steps below it
      brief.append(...own.steps.map(step => { const each = make("li"); each.append(...stepParts(step, charts.get(own.figure))); return each; }));
      item.append(pick, make("span", "try-called", own.name), brief);
      const tools = make("span", "try-tools"), copied = () => ({...JSON.parse(JSON.stringify(scheme())), name: own.name});
      if (n !== shown && scheme().steps.length) tools.append(button("", t("try.copy-here"), "", () => { schemes[n] = copied(); keepOwn(); turnTo(n); }));
      if (own.steps.length) tools.append(button("", t("try.clear"), "", async () => { await turnTo(n); change(now => Object.assign(now, {steps: [], locked: []})); all(".try-pick")[n].focus({preventScroll: true}); }));
      item.append(tools);
      return item;
    }));
    if (document.activeElement !== one(".try-name")) one(".try-name").value = scheme().name;
    const row = one(".try-row");
    row.hidden = one(".try-ten").getAttribute("aria-pressed") !== "true";
    row.replaceChildren();
    if (!row.hidden) for (let n = 0; n < TEN; n++) draw(row, scheme(), {id: "try-t" + n});
  }
  async function turnTo(n) {
    shown = n;
    if (!scheme().figure) scheme().figure = chart.name;
    at = scheme().steps.length;
    keep();
    if (scheme().figure === chart.name) show(); else await open(scheme().figure);
    all(".try-pick")[n].focus({preventScroll: true});
  }
  const measure = async () => { if (!measures) measures = await drawing.measured(); };
  async function showApart() {
    if (!one(".try-apart").open || !chart) return;
    await measure();
    showPairs({colours, pots: data.pots, states: states(), areas: chart.areas, touching: measures.touching, hasPot});
  }
  async function showAnswers() {
    if (!one(".try-reads").open || !chart) return;
    await measure();
    guidegenReads({t, make, dab, colours, states: states(), chart, measures, guides: data.guides, draw: (place, id, turn) => draw(place, scheme(), {id, paint: turn, count: at})});
  }
  function show() {
    if (!chart) return;
    showFigure();
    showSteps();
    showSchemes();
    if (one(".try-table").open) showTable();
    showAnswers();
    showApart();
    showTaken(scheme(), chart);
  }

  function take(own) {
    held = own;
    const way = own.kind !== "paint" && Object.hasOwn(data.usual, own.kind) ? data.usual[own.kind] : "", now = one(".try-ways input:checked").value;
    const fits = way || (Object.values(data.usual).includes(now) ? data.usual.paint : now);
    one(`.try-ways input[value="${fits}"]`).checked = true;
    tray.hold(own);
    say();
  }
  const say = () => { one(".try-held").textContent = held ? t("try.held", {pot: held.label || held.name, way: wayNames[one(".try-ways input:checked").value]}) : t("try.nothing-held"); };

  // Opens a figure; from a guide with its steps where nothing is painted yet.
  async function open(name, begin = false) {
    try {
      await ready();
      chart = await figure(name);
      // What stands beside it may be on other figures; one that is no longer there is shown on this.
      for (const other of schemes) if (other.figure) await figure(other.figure).catch(() => null);
    } catch {
      told.textContent = t("try.failed");
      show();
      return;
    }
    drawing = guidegenDrawing(chart, "try-m");
    measures = null;
    const own = scheme(), moved = own.figure !== name, lost = new Set();
    const before = charts.get(own.figure), everywhere = step => step.way.endsWith("undercoat") || (before && before.areas.every(area => step.areas.includes(area)));
    if (moved && own.figure && own.steps.length) remember();
    own.figure = name;
    for (const step of own.steps) step.areas = moved && everywhere(step) ? [...chart.areas] : step.areas.filter(area => chart.areas.includes(area) || !lost.add(area));
    own.steps = own.steps.filter(step => step.areas.length);
    if (begin && !own.steps.length && chart.steps) {
      own.steps = chart.steps.map(step => model.clean({name: "", figure: "", steps: [step]}).steps[0]);
      own.name = chart.title;
    }
    if (begin || moved || lost.size) keepOwn(); else keep();
    at = own.steps.length;
    told.textContent = lost.size ? t("try.dropped", {n: lost.size}) : "";
    one(".try-choice").hidden = true;
    one(".try-head").classList.add("unseen");
    bench.hidden = false;
    tray.show();
    say();
    show();
  }

  // What an address carries comes before what was kept.
  async function begin() {
    const carried = location.hash.length > 20 ? location.hash.slice(1) : "";
    let kept = null;
    try { kept = JSON.parse(localStorage.getItem(KEY)); } catch { told.textContent = t("try.store-broken"); }
    if (!carried && !kept) return;
    // Nothing was changed since it was sent or came, and what is kept here says more.
    const known = kept && carried && kept.address === carried;
    try { await ready(); } catch { told.textContent = t("try.failed"); return; }
    const sent = carried && !known ? model.read(carried) : null;
    if (carried && !known && !sent) told.textContent = t("try.broken");
    if (sent) {
      // What was kept here is not lost, unless it had come the same way: it can be taken back.
      if (kept && !kept.foreign && kept.schemes && JSON.stringify(kept.schemes).includes("areas")) {
        try { localStorage.setItem(OWN, JSON.stringify([...owns(), kept].slice(-MOST_OWN))); } catch { /* nothing to do about it */ }
      }
      sent.forEach((own, n) => { schemes[n] = {...own, name: own.name.trim() || t("try.scheme", {n: n + 1})}; });
      said = {address: carried, foreign: true};
      shown = 0;
    } else if (kept) {
      try {
        if (!Array.isArray(kept.schemes) || kept.schemes.length !== schemes.length) throw new Error("schemes");
        schemes = kept.schemes.map(own => own.steps.length || own.figure ? model.clean(own) : {...model.clean({...own, figure: ""}), name: own.name});
        shown = [0, 1, 2].includes(kept.shown) ? kept.shown : 0;
        if (known) said = {address: carried, foreign: kept.foreign === true};
      } catch { told.textContent = t("try.store-broken"); return; }
    }
    if (!scheme().figure || (carried && !known && !sent)) return;
    const words = told.textContent, lacking = new Set(scheme().steps.filter(step => !pot(step)).map(step => step.pot)).size;
    await open(scheme().figure);
    offerOwn();
    told.textContent = [words, told.textContent, lacking ? t("try.lacking", {n: lacking}) : ""].filter(Boolean).join(" ");
  }
  function offerOwn() {
    one(".try-own").hidden = !owns().length;
  }
  // What had been kept here when addresses came, the latest last.
  function owns() {
    try { return JSON.parse(localStorage.getItem(OWN)).filter(Boolean); } catch { return []; }
  }
  function takeBack() {
    const before = owns(), back = before.pop(), edited = said.foreign ? [] : [{schemes, shown, ...said}];
    localStorage.setItem(KEY, JSON.stringify(back));
    localStorage.setItem(OWN, JSON.stringify([...edited, ...before]));
    history.replaceState(null, "", location.pathname + location.search);
    location.reload();
  }
  async function send() {
    const full = schemes.filter(own => own.steps.length), first = [scheme(), ...full.filter(own => own !== scheme())];
    let answer = "", text = model.written(first);
    if (text.length + 1 > LONGEST_ADDRESS) { text = model.written([scheme()]); answer = t("try.only-one") + " "; }
    if (text.length + 1 > LONGEST_ADDRESS) { one(".try-sent").textContent = t("try.long"); return; }
    history.replaceState(null, "", "#" + text);
    said = {address: text, foreign: said.foreign};
    keep();
    try {
      await navigator.clipboard.writeText(location.href);
      answer += t("try.copied");
    } catch { answer += t("try.address"); }
    one(".try-sent").textContent = answer;
  }

  // Where the finger came down: the figure may move when something else loses the focus to it.
  let touched = "";
  one(".try-figure").addEventListener("pointerdown", event => { touched = guidegenAreaAt(event.clientX, event.clientY); });
  one(".try-figure").addEventListener("click", event => {
    const area = touched || guidegenAreaAt(event.clientX, event.clientY);
    touched = "";
    if (area) paint(area);
  });
  one(".try-undo").addEventListener("click", undo);
  addEventListener("keydown", event => {
    if ((event.ctrlKey || event.metaKey) && event.key === "z" && !event.target.closest("input[type=search], input[type=text]") && !bench.hidden) { event.preventDefault(); undo(); }
  });
  range.addEventListener("input", () => { at = +range.value; show(); });
  one(".try-ways").addEventListener("change", say);
  one(".try-name").addEventListener("input", () => { scheme().name = one(".try-name").value.trim() || t("try.scheme", {n: shown + 1}); keepOwn(); showSchemes(); showTaken(scheme(), chart); });
  one(".try-send").addEventListener("click", send);
  one(".try-own").addEventListener("click", takeBack);
  one(".try-ten").addEventListener("click", event => { event.target.setAttribute("aria-pressed", event.target.getAttribute("aria-pressed") !== "true"); showSchemes(); });
  one(".try-other").addEventListener("click", () => { one(".try-choice").hidden = false; one("[data-figure]").focus(); });
  one(".try-table").addEventListener("toggle", () => one(".try-table").open && chart && showTable());
  one(".try-reads").addEventListener("toggle", showAnswers);
  one(".try-apart").addEventListener("toggle", showApart);
  one(".try-usual").addEventListener("click", () => change(own => { own.steps = model.usualOrder(own.steps, chart.areas); at = own.steps.length; }));
  all("[data-figure]").forEach(link => link.addEventListener("click", event => {
    event.preventDefault();
    open(link.dataset.name, true).then(() => { bench.scrollIntoView(); if (tray) tray.first(); });
  }));
  one(".try-guide").addEventListener("change", event => { if (event.target.value) open(event.target.value, true); });
  addEventListener("hashchange", begin);
  one(".try-needs").hidden = true;
  begin();
})();
