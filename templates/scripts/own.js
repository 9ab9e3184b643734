/* Asks for what knows the reader's pots, but only where this browser keeps any, or a link from a page with another store
   carries them. Everybody else is shown where to tell of them, and asks for nothing. */
(() => {
  "use strict";
  const {store, scripts} = document.currentScript.dataset, place = document.querySelector(".own");
  let asked;
  const ask = () => {
    let kept = location.hash.includes("pots=");
    try { kept = kept || localStorage.getItem(store + ":pots"); } catch { /* a browser that keeps nothing */ }
    if (asked || !kept) return;
    asked = true;
    document.head.append(...scripts.split(" ").map(src => Object.assign(document.createElement("script"), {src, async: false})));
  };
  place.hidden = false;
  ask();
  // Told of on another page in the meantime.
  addEventListener("pageshow", ask);
  addEventListener("storage", ask);
})();
