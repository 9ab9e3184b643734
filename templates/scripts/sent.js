/* A guide sent as one file: a tick for each step, kept by the reader's browser under the guide's name. */
(() => {
  const find = (css, root = document) => [...root.querySelectorAll(css)];
  // A photo that is shown more than once is kept once in the file, as a drawing that needs no script. Here it becomes
  // a picture like the others, to be opened large and saved.
  find(".again").forEach(drawn => {
    const picture = new Image(), side = name => +drawn.getAttribute(name);
    picture.alt = drawn.getAttribute("aria-label") || "";
    picture.width = side("width");
    picture.height = side("height");
    picture.src = find(find("use", drawn)[0].getAttribute("href"))[0].getAttribute("href");
    drawn.replaceWith(picture);
  });
  own();
  const block = find("#sent-data")[0], steps = find(".step[id]");
  if (!block || !steps.length) return;
  const {key, done, clear} = JSON.parse(block.textContent), name = "guidegen sent " + key;
  let kept = [];
  try { kept = JSON.parse(localStorage.getItem(name)) || []; } catch { /* a private window: for this visit only */ }
  const forget = document.createElement("button");
  const save = () => {
    kept = steps.filter(step => step.classList.contains("is-done")).map(step => step.id);
    forget.hidden = !kept.length;
    try { localStorage.setItem(name, JSON.stringify(kept)); } catch { /* the same */ }
  };
  const boxes = steps.map(step => {
    const label = document.createElement("label"), box = document.createElement("input");
    label.className = "tick";
    box.type = "checkbox";
    box.setAttribute("aria-describedby", step.getAttribute("aria-labelledby"));
    box.onchange = () => { step.classList.toggle("is-done", box.checked); save(); };
    box.checked = kept.includes(step.id);
    step.classList.toggle("is-done", box.checked);
    label.append(box, " ", done);
    find("h3", step)[0].after(label);
    return box;
  });
  forget.type = "button";
  forget.className = "forget";
  forget.textContent = clear;
  forget.onclick = () => boxes.forEach(box => { if (box.checked) box.click(); });
  find("#ending .body")[0]?.append(forget);
  save();

  // The reader's pots: those that this browser keeps already, and a list to tell of them.
  function own() {
    const [tell] = find(".own-tell"), begin = window.guidegenPalette;
    if (!tell || !window.guidegenTold) return;
    let palette;
    window.guidegenPalette = told => { palette = told; };
    window.guidegenTold();
    const {store} = find(".own")[0].dataset, pots = window.guidegenPots(store, palette), {words} = palette, {t} = window.guidegenPhrases(words, palette.signs);
    const [list] = find("textarea", tell), [taken] = find(".mine-taken", tell), unknown = Object.assign(document.createElement("ul"), {className: "mine-unknown"});
    let begun = pots.pots.length > 0;
    if (begun) begin(palette);
    function show() {
      const kept = pots.save();
      if (!begun && pots.pots.length && kept) begin(palette); else dispatchEvent(new StorageEvent("storage", {key: store + ":pots"}));
      begun = begun || kept && pots.pots.length > 0;
      return kept ? "" : words["mine.no-memory"];
    }
    find("form", tell)[0].onsubmit = event => {
      event.preventDefault();
      pots.read();
      const found = pots.fromList(list.value), kept = show();
      taken.textContent = found.tooLarge ? words["mine.too-large"] : [t("mine.taken", {n: found.added.length}), found.known.length && t("mine.known", {n: found.known.length}),
        found.unknown.length && t("mine.unknown", {n: found.unknown.length}), found.full && words["mine.most"], kept].filter(Boolean).join(" ");
      unknown.replaceChildren(...found.unknown.slice(0, 100).map(({name, choices, kind, binder, colour}) => {
        const line = document.createElement("li");
        const take = (text, pot) => Object.assign(document.createElement("button"), {type: "button", textContent: text, onclick() { pots.add({state: "full", ...pot}); show(); line.remove(); }});
        line.append(name + " ", ...(choices || [pots.nearest(name)].filter(Boolean)).slice(0, 4).map(pot => take(t("mine.take-near", {name: pot.name}), {name: pot.name})),
          take(words["mine.as-own"], {name, own: true, kind, binder, colour: colour ? "#" + colour.toLowerCase() : null}));
        return line;
      }));
    };
    tell.append(unknown);
    tell.hidden = false;
  }
})();
