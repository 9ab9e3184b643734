/* Leads on from an old address to the very place on the new page that was asked for. */
(() => {
  "use strict";
  const link = document.querySelector("main a");
  location.replace(link.href + location.search + location.hash);
})();
