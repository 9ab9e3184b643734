/* Has every guide kept by the browser, for a hall without a network: how much that is, how far it is, and let go again.

   The page asks the worker for one page after another, so that it can show how far it is, and looks itself at what is kept.
   What is kept so is renewed by the worker with every new build, guides that are new as well. */
(() => {
  "use strict";
  const place = document.querySelector(".keep-all"), workers = navigator.serviceWorker;
  if (!place || !workers || !location.protocol.startsWith("http") || document.querySelector('script[src^="/.preview/"]')) return;
  const {list, what, going, done: whole, some} = place.dataset, here = new URL(".", location).href;
  const [keep, go] = place.querySelectorAll("button"), bar = place.querySelector("progress"), status = place.querySelector("[role=status]");
  // Pages that are asked for at the same time.
  const LANES = 4;
  let pages = [], mb = "";

  const say = (text, n = 0) => { status.textContent = text.replace("{mb}", mb).replace("{done}", n).replace("{all}", pages.length); };

  async function kept() {
    const names = (await caches.keys()).filter(name => name.startsWith(`guidegen ${here} `)), found = new Set();
    for (const name of names) for (const {url} of await (await caches.open(name)).keys()) found.add(url);
    return {asked: found.has(here + "?all"), count: pages.filter(page => found.has(here + page)).length};
  }

  // The worker answers whether it could do it.
  const ask = async what => {
    const {active} = await workers.ready, {port1, port2} = new MessageChannel();
    const answer = new Promise(heard => { port1.onmessage = event => heard(event.data); });
    active.postMessage(what, [port2]);
    return answer;
  };

  function show({asked, count}, failed = false) {
    const all = asked && count === pages.length;
    bar.hidden = true;
    keep.hidden = all;
    go.hidden = !asked;
    say(all ? whole : failed || asked ? some : what, count);
  }

  async function keepAll() {
    const rest = [...pages];
    let tried = 0, well = true;
    keep.hidden = go.hidden = true;
    bar.hidden = false;
    bar.max = pages.length;
    bar.value = 0;
    // So that the browser does not let go of it for want of room; where it would not promise, it is kept all the same.
    if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
    // First of all, so that what is begun is gone on with at the next visit.
    await ask({all: true});
    await Promise.all(Array.from({length: LANES}, async () => {
      while (well && rest.length) {
        well = await ask({keep: [rest.shift()]}) && well;
        bar.value = ++tried;
        say(going, tried);
      }
    }));
    show(await kept(), !well);
  }

  keep.addEventListener("click", keepAll);
  go.addEventListener("click", async () => {
    await ask({drop: true});
    show(await kept());
    keep.focus();
  });
  // In a private window, or where the first visit ends before anything is there, nothing is offered.
  (async () => {
    await workers.ready;
    const told = await (await fetch(list)).json();
    pages = told.pages;
    mb = new Intl.NumberFormat(document.documentElement.lang, {maximumSignificantDigits: 2}).format(told.bytes / 1e6);
    show(await kept());
    place.hidden = false;
  })().catch(() => {});
})();
