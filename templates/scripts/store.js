/* What the reader's browser keeps of one batch of one guide: how many figures it has, and what bench and plan note of its
   steps. From the disk some browsers give each file a store of its own, so there the links between a guide's pages carry
   the number of figures with them, and those between bench and plan what is ticked. */
window.guidegenStore = key => {
  const MOST = 500, CARRIED = /[#&]figures=(\d+)$/, TICKS = /[#&]ticks=([^&]{1,50000})$/;
  const record = value => value && typeof value === "object" && !Array.isArray(value) ? value : {};
  const within = n => Math.min(MOST, Math.max(1, Math.floor(n) || 0));
  const store = {kept: {}, record};
  // A private window keeps nothing, or for this visit only; damaged memory is forgotten.
  store.read = () => {
    try { store.kept = record(JSON.parse(localStorage.getItem(key))); } catch { store.kept = record(store.kept); }
  };
  store.save = () => {
    carry();
    try { localStorage.setItem(key, JSON.stringify(store.kept)); return true; } catch { return false; }
  };
  // What the reader chose, else the author's own.
  store.figures = ofAuthor => typeof store.kept.figures === "number" ? within(store.kept.figures) : ofAuthor;
  store.choose = n => {
    store.read();
    store.kept.figures = within(n);
    const saved = store.save();
    dispatchEvent(new Event("figures"));
    return saved;
  };
  // `then` is called whenever another page may have changed what is kept, or another part of this one.
  store.follow = then => {
    const again = () => { store.read(); carry(); then(); };
    addEventListener("storage", event => { if (event.key === key) again(); });
    addEventListener("figures", again);
    addEventListener("pageshow", event => { if (event.persisted) again(); });
  };
  function carry() {
    if (location.protocol !== "file:" || !store.kept.figures) return;
    const folder = location.pathname.replace(/[^/]*$/, "");
    all("a[href$='.html'], a[href*='.html#']").forEach(link => {
      if (link.pathname === location.pathname || link.pathname.replace(/[^/]*$/, "") !== folder) return;
      const bare = link.getAttribute("href").replace(CARRIED, "");
      link.setAttribute("href", bare + (bare.includes("#") ? "&" : "#") + "figures=" + store.kept.figures);
    });
  }
  // What is ticked, for the end of a link: of each step the figures that had each coat. Nothing where stores are shared.
  store.ticks = () => {
    if (location.protocol !== "file:") return "";
    const found = Object.entries(record(store.kept.benches)).map(([page, steps]) => [page, Object.entries(record(steps))
      .filter(([, own]) => own && (own.done || Array.isArray(own.painted))).map(([id, own]) => [id, own.done ? 1 : own.painted])]);
    const text = JSON.stringify(Object.fromEntries(found.filter(([, steps]) => steps.length).map(([page, steps]) => [page, Object.fromEntries(steps)])));
    return text === "{}" ? "" : "&ticks=" + encodeURIComponent(text);
  };
  // Take what a link brought, which says more than what is kept of those steps here, and clear the address of it.
  store.take = () => {
    const found = TICKS.exec(location.hash);
    if (!found) return;
    try {
      for (const [page, steps] of Object.entries(record(JSON.parse(decodeURIComponent(found[1])))))
        for (const [id, value] of Object.entries(record(steps))) {
          // This name is no entry of its own: to set it would change what all objects share.
          if ([page, id].includes("__proto__")) continue;
          const benches = store.kept.benches = record(store.kept.benches), those = benches[page] = record(benches[page]);
          const own = those[id] = record(those[id]);
          own.done = value === 1;
          if (Array.isArray(value)) own.painted = value.slice(0, 99).map(n => Math.floor(n) || 0);
        }
      store.save();
    } catch { /* a link that was cut short brings nothing */ }
    const place = location.hash.slice(0, found.index).replace(/[#&]batch=.*/, "");
    history.replaceState(null, "", location.href.split("#")[0] + place);
    if (place) location.replace(place);
  };
  store.read();
  const carried = CARRIED.exec(location.hash);
  if (carried) {
    const place = location.hash.slice(0, carried.index);
    store.choose(+carried[1]);
    history.replaceState(null, "", location.href.split("#")[0] + place);
    if (place) location.replace(place);
  }
  carry();
  return store;
};
