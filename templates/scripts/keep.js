/* Has a served guide and its bench kept by the browser, so that the bench works where there is no network; from the home
   page none, but what is kept is looked at again. Not from the
   disk, which is at hand anyway, and not in a preview, which shows what was just written. */
(() => {
  "use strict";
  const {worker, manifest, pages} = document.currentScript.dataset, workers = navigator.serviceWorker;
  if (!workers || !location.protocol.startsWith("http") || document.querySelector('script[src^="/.preview/"]')) return;
  // By script, since a browser complains of one that is linked from the disk.
  const app = document.createElement("link");
  app.rel = "manifest";
  app.href = manifest;
  document.head.append(app);
  // A worker that takes over, the first as well as one of a new build, is told anew.
  const tell = () => workers.controller && workers.controller.postMessage(pages.split(" ").filter(Boolean).map(page => new URL(page, location).href));
  addEventListener("load", () => {
    workers.addEventListener("controllerchange", tell);
    tell();
    // A private window may refuse; all but this works there too.
    workers.register(worker).then(kept => kept.update()).catch(() => {});
  });
})();
