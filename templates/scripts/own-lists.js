/* The reader's pots on the shelf's page, which guides they paint, and on a plan's, what they lack for all of it. Each guide
   is looked at as on its own page: with the author's substitutes, the reader's choices, and every area as a set. */
(() => {
  "use strict";
  const one = (css, root = document) => root.querySelector(css), place = one(".own"), [link] = place.querySelectorAll("a"), {store: prefix, style} = one("script[data-scripts]").dataset;
  const came = {};
  ["Palette", "Guides", "Needs"].forEach(what => { window["guidegen" + what] = data => { came[what] = data; if (came.Palette && (came.Guides || came.Needs)) begin(came); }; });
  document.head.append(Object.assign(document.createElement("link"), {rel: "stylesheet", href: style}));
  // The most lines that are shown, and the most milliseconds in one go for which the page stands still while mixtures are sought.
  const MOST = 200, PATIENCE = 40;

  function begin({Palette: palette, Guides: guides, Needs: needs}) {
    const pots = window.guidegenPots(prefix, palette), table = window.guidegenTable(palette, pots), mine = link.getAttribute("href");
    const {words, t, number, make, label, head, other, difference, sum} = window.guidegenOwnLines(palette, table);
    const every = (guides || needs.map(data => ["", data])).map(([href, data]) => ({href, data, swaps: window.guidegenSwaps(data, table)}));
    let turn = 0;

    // Looks through all guides, a while at a time, and begins anew where something has changed meanwhile.
    function look() {
      const now = ++turn, found = [];
      table.refresh();
      place.setAttribute("aria-busy", "true");
      (function on() {
        if (now !== turn) return;
        for (const until = performance.now() + PATIENCE; found.length < every.length && performance.now() < until;) {
          const {href, data, swaps} = every[found.length];
          found.push({href, data, rows: swaps.work(pots.of(data.slug)).rows});
        }
        if (found.length < every.length) {
          top(t("mine.looking", {n: found.length, all: number(every.length)}));
          setTimeout(on);
        } else {
          (guides ? shelf : plan)(found);
          place.removeAttribute("aria-busy");
        }
      })();
    }
    function top(said, ...more) {
      const sums = make("p", "own-sum", said), back = make("a", "", words["mine.change"]);
      sums.setAttribute("role", "status");
      back.href = mine;
      place.classList.add("told");
      place.replaceChildren(make("div", "own-top", sums, back), ...more);
    }
    const lines = rows => rows.map(row => make("li", "", line(row)));
    // A paint that is lacking, and folded what else there is to take for it.
    function line(row) {
      const {pot, way, others} = row, list = make("ul", "own-ways"), [chips, said] = head(row);
      if (!others.length && !(way && difference(way))) return make("div", "own-line", chips, said);
      list.append(...others.map(each => make("li", "", other(each, pot))));
      return make("details", "", make("summary", "own-line", chips, said), way ? make("p", "small", difference(way)) : "", others.length ? make("p", "label", words["mine.others"]) : "", list);
    }
    const lacking = rows => rows.filter(({kind}) => kind === "instead" || kind === "buy"), toBuy = rows => rows.filter(({kind}) => kind === "buy");
    function shelf(found) {
      const open = new Set([...place.querySelectorAll("a + details[open]")].map(each => each.previousSibling.getAttribute("href"))), list = make("ul", "own-lines");
      found.sort((a, b) => toBuy(a.rows).length - toBuy(b.rows).length);
      found.slice(0, MOST).forEach(({href, data, rows}) => {
        const to = make("a", "", data.title), lacks = toBuy(rows), instead = lacking(rows).length - lacks.length;
        to.href = href;
        if (!lacking(rows).length) return list.append(make("li", "own-guide", to));
        const said = [instead && t("mine.of-instead", {n: instead}), lacks.length && t("shelf.lacks", {n: lacks.length}) + ": " + lacks.map(({name}) => label(name)).join(", ")].filter(Boolean).join(" · ");
        const fold = make("details", "", make("summary", "own-line", make("span", "", said))), inner = make("ul", "own-lines");
        // Its lines are made when they are asked for: before a click opens it, and when the browser does, as in a search.
        const fill = () => { if (!inner.childNodes.length) inner.append(...lines(lacking(rows))); };
        fold.firstChild.onclick = fold.ontoggle = fill;
        fold.append(inner);
        if (fold.open = open.has(href)) fill();
        list.append(make("li", "own-guide", to, fold));
      });
      top(t("mine.ready", {n: found.filter(({rows}) => !toBuy(rows).length).length, all: number(found.length)}), list);
    }
    function plan(found) {
      // A paint that several units take is one line where the same stands in for it in all, and bought for the sum.
      const paints = new Map();
      for (const {data, rows} of found) for (const row of rows.filter(({kind}) => kind !== "spared")) {
        const those = paints.get(row.name) || paints.set(row.name, new Map()).get(row.name), key = JSON.stringify([row.kind, row.way && row.way.parts]);
        const {ml = 0, titles = []} = those.get(key) || {};
        those.set(key, {...row, ml: ml === null || row.ml === null ? null : ml + row.ml, titles: [...new Set([...titles, data.title])]});
      }
      const sums = [...paints.values()].map(those => [...those.values()].map(row => ({...row, buy: row.pot.size && row.ml ? Math.max(1, Math.ceil(+(row.ml / row.pot.size).toFixed(9))) : 1})));
      const count = kind => sums.filter(those => those.some(row => row.kind === kind)).length, buys = sums.flatMap(toBuy), have = count("have"), buy = count("buy");
      const list = make("ul", "own-lines", ...sums.flatMap(those => lacking(those).map(row => make("li", "", those.length > 1 ? make("small", "", row.titles.join(", ")) : "", line(row)))));
      top(sum(have, sums.length - have - buy, buy), list.childNodes.length ? list : "",
        buys.length ? make("p", "own-buy", make("b", "", words["mine.shopping"] + ": "), buys.map(row => label(row.name) + " (" + t("pot.owned", {n: row.buy}) + ")").join(", ")) : "");
    }
    look();
    const again = () => { pots.read(); look(); };
    addEventListener("storage", ({key}) => { if (key && key.startsWith(prefix + ":")) again(); });
    addEventListener("pageshow", ({persisted}) => { if (persisted) again(); });
  }
})();
