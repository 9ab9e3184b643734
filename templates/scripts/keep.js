/* Has the browser keep a guide and its bench, so that the bench works where there is no network. On the home page no guide
   is kept, but those that are kept already are looked at again. Nothing is done on pages from the disk, which need no
   network, nor in a preview, which shows what was just written. */
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
