/* The bench: ticks, figures, drying clocks and notes, kept by the browser under the page's own address, step by step
   under the step's own place, so that they stay with it when others come before it. */
(() => {
  "use strict";
  const one = (css, root = document) => root.querySelector(css), all = (css, root = document) => [...root.querySelectorAll(css)];
  const words = JSON.parse(one("#bench-words").textContent);
  const t = (key, values) => words[key].replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const leaves = all(".leaf[data-n]"), key = "guidegen bench " + location.pathname;
  const told = one(".told"), alarm = one(".alarm"), clocks = one(".clocks"), figures = one("#figures");
  const tell = text => { told.textContent = text; };
  const record = value => value && typeof value === "object" && !Array.isArray(value) ? value : {};

  let kept, before, sound, rings = {};
  const read = () => {
    // A private window keeps nothing, or for this visit only; damaged memory is forgotten.
    try { kept = record(JSON.parse(localStorage.getItem(key))); } catch (_) { kept = record(kept); }
  };
  const save = () => {
    try { localStorage.setItem(key, JSON.stringify(kept)); } catch (_) { one(".no-memory").hidden = false; }
  };
  const of = leaf => kept[leaf.id] = record(kept[leaf.id]);
  const painted = leaf => Array.isArray(of(leaf).painted) ? of(leaf).painted : [];
  const soFar = () => ({done: leaves.filter(leaf => of(leaf).done).length, count: leaves.length});

  function count(leaf) {
    const ofAll = Number(figures.value) || 1, done = painted(leaf).filter(at => at < ofAll).length;
    one(".dots-count", leaf).textContent = t("bench.figures-painted", {done, count: ofAll});
  }
  function dots() {
    const length = Number(figures.value) || 1;
    leaves.forEach(leaf => {
      const place = one(".dots", leaf), those = painted(leaf);
      place.classList.toggle("many", length > 20);
      place.replaceChildren(...Array.from({length}, (_, at) => {
        const dot = document.createElement("button");
        dot.type = "button";
        dot.textContent = at + 1;
        dot.setAttribute("aria-label", t("bench.figure", {n: at + 1}));
        dot.setAttribute("aria-pressed", those.includes(at));
        dot.onclick = () => {
          const now = new Set(painted(leaf));
          if (!now.delete(at)) now.add(at);
          of(leaf).painted = [...now];
          dot.setAttribute("aria-pressed", now.has(at));
          count(leaf);
          save();
        };
        return dot;
      }));
      count(leaf);
    });
  }

  // Sound has to be woken by a hand, and after a reload again.
  function wake() {
    const Sound = window.AudioContext || window.webkitAudioContext;
    if (Sound && !sound) sound = new Sound();
    if (sound && sound.state === "suspended") sound.resume();
  }
  function ring() {
    if (navigator.vibrate && navigator.userActivation && navigator.userActivation.hasBeenActive) navigator.vibrate([300, 150, 300, 150, 600]);
    if (!sound || sound.state !== "running") return;
    [0, .35, .7].forEach(after => {
      const tone = sound.createOscillator(), volume = sound.createGain(), start = sound.currentTime + after;
      tone.frequency.value = 880;
      volume.gain.setValueAtTime(.3, start);
      volume.gain.exponentialRampToValueAtTime(.001, start + .3);
      tone.connect(volume).connect(sound.destination);
      tone.start(start);
      tone.stop(start + .3);
    });
  }
  function clockText(ms) {
    const seconds = Math.ceil(ms / 1000), pad = value => String(value).padStart(2, "0");
    const hours = Math.floor(seconds / 3600), minutes = Math.floor(seconds / 60) % 60;
    return (hours ? hours + ":" + pad(minutes) : minutes) + ":" + pad(seconds % 60);
  }
  const leftOf = leaf => of(leaf).dry - Date.now();
  const running = () => leaves.filter(leaf => of(leaf).dry && !of(leaf).heard);
  const say = leaf => leftOf(leaf) > 0 ? t("bench.left", {left: clockText(leftOf(leaf))}) : words["bench.dry-now"];

  // What dries shows above every step, and stays until somebody has heard it.
  function strip(those) {
    clocks.hidden = !those.length;
    const shown = those.map(leaf => leaf.id + (leftOf(leaf) > 0 ? "" : "!")).join();
    if (clocks.dataset.shown !== shown) {
      clocks.dataset.shown = shown;
      clocks.replaceChildren(...those.map(leaf => {
        const line = document.createElement("p"), link = document.createElement("a"), left = document.createElement("span");
        link.href = "#" + leaf.id;
        link.textContent = leaf.dataset.title;
        line.append(link, left);
        if (leftOf(leaf) <= 0) {
          const heard = document.createElement("button");
          heard.type = "button";
          heard.textContent = words["bench.heard"];
          heard.setAttribute("aria-label", words["bench.heard"] + ": " + leaf.dataset.title);
          heard.onclick = () => { of(leaf).heard = true; save(); tick(); };
          line.className = "rings";
          line.append(heard);
        }
        return line;
      }));
    }
    those.forEach((leaf, at) => { clocks.children[at].children[1].textContent = say(leaf); });
  }
  function tick() {
    const those = running();
    leaves.forEach(leaf => {
      const button = one(".timer", leaf), {dry} = of(leaf);
      if (!button) return;
      const said = dry ? say(leaf) : "", output = one(".left", leaf);
      button.textContent = dry ? words["bench.stop"] : t("bench.start", {length: button.dataset.length});
      if (output.textContent !== said) output.textContent = said;
      leaf.classList.toggle("is-dry", Boolean(dry) && leftOf(leaf) <= 0);
    });
    strip(those);
    those.filter(leaf => leftOf(leaf) <= 0).forEach(leaf => {
      const rung = rings[leaf.id] = rings[leaf.id] || {times: 0, next: 0};
      if (rung.times > 4 || Date.now() < rung.next) return;
      if (!rung.times) alarm.textContent = t("bench.rings", {step: leaf.dataset.title});
      rung.times += 1;
      rung.next = Date.now() + 15000;
      if (!of(leaf).rang) { of(leaf).rang = true; save(); }
      ring();
    });
  }

  function notes() {
    return leaves.map(leaf => {
      const {minutes, pot, note} = of(leaf);
      const said = [minutes && t("bench.took", {minutes}), pot && t("bench.used", {pot}), note].filter(Boolean);
      return said.length ? "## " + leaf.dataset.title + "\n" + said.join(" ") + "\n" : "";
    }).filter(Boolean).join("\n");
  }
  function retell() {
    const open = leaves.find(leaf => !of(leaf).done), begun = soFar().done, resume = one(".resume");
    leaves.forEach(leaf => leaf.classList.toggle("is-done", Boolean(of(leaf).done)));
    one(".all-notes").value = notes();
    one(".so-far").textContent = begun ? t("bench.so-far", soFar()) : "";
    resume.hidden = !open || !begun;
    if (resume.hidden) return;
    const link = document.createElement("a");
    link.href = "#" + open.id;
    link.textContent = t("bench.resume", {n: open.dataset.n, step: open.dataset.title});
    resume.replaceChildren(link);
  }
  function show() {
    figures.value = kept.figures || figures.defaultValue;
    all("[data-keep]").forEach(field => {
      const value = of(field.closest(".leaf"))[field.dataset.keep];
      if (field.type === "checkbox") field.checked = Boolean(value);
      else field.value = value || "";
    });
    dots();
    tick();
    retell();
  }

  all("[data-keep]").forEach(field => {
    field.oninput = () => {
      const leaf = field.closest(".leaf"), ticked = field.type === "checkbox";
      of(leaf)[field.dataset.keep] = ticked ? field.checked : field.value;
      save();
      retell();
      if (ticked) tell(t(field.checked ? "bench.is-done" : "bench.not-done", {n: leaf.dataset.n, ...soFar()}));
    };
  });
  figures.onchange = () => {
    figures.value = kept.figures = Math.min(200, Math.max(1, Math.floor(figures.value) || 1));
    save();
    dots();
  };
  all(".timer").forEach(button => {
    button.onclick = () => {
      const leaf = button.closest(".leaf"), own = of(leaf);
      wake();
      own.dry = own.dry ? 0 : Date.now() + Number(leaf.dataset.dry);
      own.rang = own.heard = false;
      delete rings[leaf.id];
      save();
      tick();
      tell(t(own.dry ? "bench.started" : "bench.stopped", {step: leaf.dataset.title, length: button.dataset.length}));
    };
  });
  one(".copy").onclick = () => {
    const text = one(".all-notes");
    const copied = () => tell(one(".copied").textContent = words["bench.copied"]);
    const otherwise = () => { text.select(); if (document.execCommand("copy")) copied(); };
    if (navigator.clipboard) navigator.clipboard.writeText(text.value).then(copied, otherwise);
    else otherwise();
  };

  // Whatever is cleared can be had back as long as the page is open.
  const undo = one(".undo");
  const clear = keeps => () => {
    before = JSON.stringify(kept);
    leaves.forEach(leaf => { kept[leaf.id] = Object.fromEntries(Object.entries(of(leaf)).filter(([name]) => keeps === ["minutes", "pot", "note"].includes(name))); });
    rings = {};
    done("bench.cleared", false);
  };
  function done(key, gone) {
    save();
    show();
    tell(one(".cleared").textContent = words[key]);
    undo.hidden = gone;
  }
  one(".begin-again").onclick = clear(true);
  one(".drop-notes").onclick = clear(false);
  undo.onclick = () => {
    kept = JSON.parse(before);
    one(".begin-again").focus();
    done("bench.undone", true);
  };

  const pages = leaves.concat(one("#end"));
  addEventListener("keydown", event => {
    const {key, target} = event, back = getComputedStyle(target).direction === "rtl" ? "ArrowRight" : "ArrowLeft";
    const by = ["ArrowLeft", "ArrowRight"].includes(key) ? key === back ? -1 : 1 : {PageDown: 1, PageUp: -1}[key];
    if (!by || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || target.closest("input, textarea")) return;
    const boxes = pages.map(page => page.getBoundingClientRect()), at = boxes.filter(box => box.top < innerHeight * .4).length - 1;
    // A page that is longer than the screen is first read to its end.
    if (key[0] === "P" && at >= 0 && boxes[at].height > innerHeight + 8 && (by > 0 ? boxes[at].bottom > innerHeight + 8 : boxes[at].top < -8)) return;
    const next = pages[at + by];
    if (!next) return;
    event.preventDefault();
    location.replace("#" + next.id);
  });
  addEventListener("hashchange", () => {
    const heading = pages.filter(page => "#" + page.id === location.hash).map(page => one("h2", page))[0];
    if (heading) heading.focus({preventScroll: true});
  });
  addEventListener("storage", event => { if (event.key === key) { read(); show(); } });
  addEventListener("pointerdown", () => { if (running().length) wake(); });

  // Where the browser lets it, the screen stays on.
  const stayAwake = () => { if (!document.hidden && navigator.wakeLock) navigator.wakeLock.request("screen").catch(() => {}); };
  document.addEventListener("visibilitychange", stayAwake);
  stayAwake();
  all(".bench-tools").forEach(tools => { tools.hidden = false; });
  read();
  show();
  save();
  setInterval(tick, 1000);
})();
