/* The bench: ticks, figures, drying clocks and notes, kept by the browser under the page's own address. */
(function () {
  "use strict";
  const one = (css, root = document) => root.querySelector(css), all = (css, root = document) => [...root.querySelectorAll(css)];
  const words = JSON.parse(one("#bench-words").textContent);
  const t = (key, values) => words[key].replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const leaves = all(".leaf[data-n]"), key = "guidegen bench " + location.pathname;
  let kept = {};
  try { kept = JSON.parse(localStorage.getItem(key)) || {}; } catch (_) { /* a private window: for this visit only */ }
  const save = () => { try { localStorage.setItem(key, JSON.stringify(kept)); } catch (_) { /* the same */ } };
  const of = leaf => kept[leaf.dataset.n] = kept[leaf.dataset.n] || {};

  function dots() {
    const figures = Number(one("#figures").value) || 1;
    leaves.forEach(leaf => {
      const painted = of(leaf).painted || [];
      one(".dots", leaf).replaceChildren(...Array.from({length: figures}, (_, at) => {
        const dot = document.createElement("button");
        dot.type = "button";
        dot.textContent = at + 1;
        dot.setAttribute("aria-label", t("bench.figure", {n: at + 1}));
        dot.setAttribute("aria-pressed", painted.includes(at));
        dot.onclick = () => {
          const now = new Set(of(leaf).painted || []);
          if (!now.delete(at)) now.add(at);
          of(leaf).painted = [...now];
          dot.setAttribute("aria-pressed", now.has(at));
          save();
        };
        return dot;
      }));
    });
  }

  // A drying clock keeps the moment when it ends, so a reload or a closed tablet takes nothing from it.
  let sound;
  function ring() {
    if (navigator.vibrate && navigator.userActivation && navigator.userActivation.hasBeenActive) navigator.vibrate([300, 150, 300, 150, 600]);
    try {
      [0, .35, .7].forEach(after => {
        const tone = sound.createOscillator(), volume = sound.createGain(), start = sound.currentTime + after;
        tone.frequency.value = 880;
        volume.gain.setValueAtTime(.3, start);
        volume.gain.exponentialRampToValueAtTime(.001, start + .3);
        tone.connect(volume).connect(sound.destination);
        tone.start(start);
        tone.stop(start + .3);
      });
    } catch (_) { /* no sound here: the words say it too */ }
  }
  function clockText(ms) {
    const seconds = Math.ceil(ms / 1000), pad = value => String(value).padStart(2, "0");
    const hours = Math.floor(seconds / 3600), minutes = Math.floor(seconds / 60) % 60;
    return (hours ? hours + ":" + pad(minutes) : minutes) + ":" + pad(seconds % 60);
  }
  function tick() {
    leaves.forEach(leaf => {
      const button = one(".timer", leaf), end = of(leaf).dry;
      if (!button) return;
      const left = end - Date.now(), output = one(".left", leaf);
      const said = !end ? "" : left > 0 ? t("bench.left", {left: clockText(left)}) : words["bench.dry-now"];
      button.textContent = end ? words["bench.stop"] : t("bench.start", {length: button.dataset.length});
      if (output.textContent !== said) output.textContent = said;
      leaf.classList.toggle("is-dry", Boolean(end) && left <= 0);
      if (end && left <= 0 && !of(leaf).rang) {
        of(leaf).rang = true;
        save();
        ring();
      }
    });
  }

  function notes() {
    return leaves.map(leaf => {
      const {minutes, pot, note} = of(leaf);
      const said = [minutes && t("bench.took", {minutes}), pot && t("bench.used", {pot}), note].filter(Boolean);
      return said.length ? "## " + leaf.dataset.title + "\n" + said.join(" ") + "\n" : "";
    }).filter(Boolean).join("\n");
  }
  const retell = () => { one(".all-notes").value = notes(); };

  function show() {
    one("#figures").value = kept.figures || one("#figures").defaultValue;
    all("[data-keep]").forEach(field => {
      const value = of(field.closest(".leaf"))[field.dataset.keep];
      if (field.type === "checkbox") field.checked = Boolean(value);
      else field.value = value || "";
    });
    leaves.forEach(leaf => leaf.classList.toggle("is-done", Boolean(of(leaf).done)));
    const open = leaves.find(leaf => !of(leaf).done), begun = leaves.some(leaf => of(leaf).done), resume = one(".resume");
    resume.hidden = !open || !begun;
    if (!resume.hidden) {
      const link = document.createElement("a");
      link.href = "#" + open.id;
      link.textContent = t("bench.resume", {n: open.dataset.n, step: open.dataset.title});
      resume.replaceChildren(link);
    }
    dots();
    tick();
    retell();
  }

  all("[data-keep]").forEach(field => {
    field.oninput = () => {
      const leaf = field.closest(".leaf");
      of(leaf)[field.dataset.keep] = field.type === "checkbox" ? field.checked : field.value;
      leaf.classList.toggle("is-done", Boolean(of(leaf).done));
      save();
      retell();
    };
  });
  one("#figures").onchange = () => { kept.figures = Number(one("#figures").value); save(); dots(); };
  all(".timer").forEach(button => {
    button.onclick = () => {
      const leaf = button.closest(".leaf"), own = of(leaf);
      // Sound has to be woken by a hand.
      const Sound = window.AudioContext || window.webkitAudioContext;
      if (Sound && !sound) sound = new Sound();
      own.dry = own.dry ? 0 : Date.now() + Number(leaf.dataset.dry);
      own.rang = false;
      save();
      tick();
    };
  });
  one(".copy").onclick = () => {
    const text = one(".all-notes");
    const told = () => { one(".copied").textContent = words["bench.copied"]; };
    const otherwise = () => { text.select(); if (document.execCommand("copy")) told(); };
    if (navigator.clipboard) navigator.clipboard.writeText(text.value).then(told, otherwise);
    else otherwise();
  };
  one(".clear").onclick = () => { kept = {}; save(); show(); };
  addEventListener("keydown", event => {
    const step = {ArrowRight: ".on", PageDown: ".on", ArrowLeft: ".back", PageUp: ".back"}[event.key];
    if (!step || event.target.matches("input, textarea")) return;
    const here = leaves.concat(one("#end")).find(leaf => leaf.getBoundingClientRect().bottom > innerHeight / 2);
    const link = here && one(".leaf-foot " + step, here);
    if (link) { event.preventDefault(); link.click(); }
  });
  // Where the browser lets it, the screen stays on.
  const stayAwake = () => { if (!document.hidden && navigator.wakeLock) navigator.wakeLock.request("screen").catch(() => {}); };
  document.addEventListener("visibilitychange", stayAwake);
  stayAwake();
  all(".bench-tools").forEach(tools => { tools.hidden = false; });
  show();
  setInterval(tick, 1000);
})();
