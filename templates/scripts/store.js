/* What the reader's browser keeps of one batch of one guide: how many figures it has, and what the bench notes of its
   steps. From the disk some browsers give each file a store of its own, so there the links between a guide's pages carry
   the number of figures with them. */
window.guidegenStore = key => {
  const MOST = 500, CARRIED = /[#&]figures=(\d+)$/;
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
    return store.save();
  };
  // `then` is called whenever another page may have changed what is kept.
  store.follow = then => {
    const again = () => { store.read(); carry(); then(); };
    addEventListener("storage", event => { if (event.key === key) again(); });
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
