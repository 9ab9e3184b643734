/* Waits for word of a rebuild and reloads, or lays the author's mistakes over the last good page. */
(function () {
  "use strict";
  var own = document.currentScript;
  var turn = Number(own.dataset.turn);
  var place = "guidegen-preview-scroll " + location.pathname;

  var style = document.createElement("link");
  style.rel = "stylesheet";
  style.href = own.dataset.style;
  document.head.appendChild(style);

  /* A site that was served from here before may have left a worker behind, which has no business in a preview. */
  if (navigator.serviceWorker) {
    navigator.serviceWorker.getRegistrations().then(function (all) {
      all.forEach(function (one) { one.unregister(); });
    }, function () { /* a private window may refuse */ });
  }

  function show(panel) {
    var old = document.getElementById("guidegen-preview");
    if (old) old.remove();
    if (!panel) return;
    var box = document.createElement("section");
    box.id = "guidegen-preview";
    box.setAttribute("role", "alert");
    box.tabIndex = 0;
    box.innerHTML = panel;
    document.body.appendChild(box);
  }

  function ask(known, patience) {
    var script = document.createElement("script");
    function again(pause, next) {
      script.remove();
      setTimeout(function () { ask(turn, next); }, pause);
    }
    script.src = "/.preview/news.js?turn=" + known + "&page=" + encodeURIComponent(location.pathname);
    script.onload = function () { again(20, 500); };
    script.onerror = function () { again(patience, Math.min(patience * 2, 8000)); };
    document.head.appendChild(script);
  }

  window.guidegenPreview = function (now, panel) {
    if (!panel && now !== turn) {
      try { sessionStorage.setItem(place, String(scrollY)); } catch (_) { /* a private window may refuse */ }
      location.reload();
      return;
    }
    turn = now;
    show(panel);
  };

  try {
    var at = sessionStorage.getItem(place);
    if (at) { sessionStorage.removeItem(place); scrollTo(0, Number(at)); }
  } catch (_) { /* nothing to go back to */ }

  /* Answered at once, so that a page opened while there are mistakes shows them. Not before the page is there: an open
     question counts as something that it still has to load. */
  if (document.readyState === "complete") ask(0, 500);
  else addEventListener("load", function () { ask(0, 500); });
})();
