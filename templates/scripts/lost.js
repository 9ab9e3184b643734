/* The page for a missing address may be served at any depth below wherever the site lies: the way home is found by the
   nearest folder above that has the site's own file in it. */
(async () => {
  const home = document.querySelector("#home"), folders = location.pathname.split("/").slice(0, -1);
  for (let deep = folders.length; home && deep; deep--) {
    const root = folders.slice(0, deep).join("/") + "/";
    try {
      const found = await (await fetch(root + "site.webmanifest")).json();
      if (found.start_url) return void (home.href = root + found.start_url);
    } catch { /* not here */ }
  }
})();
