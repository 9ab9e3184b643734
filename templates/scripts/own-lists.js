/* The reader's pots on the shelf's page, which guides they paint, and on a plan's, what they lack for all of it. */
(() => {
  "use strict";
  const one = (css, root = document) => root.querySelector(css), place = one(".own"), [link] = place.querySelectorAll("a"), {store: prefix, style} = one("script[data-scripts]").dataset;
  const came = {};
  ["Palette", "Guides", "Needs"].forEach(what => { window["guidegen" + what] = data => { came[what] = data; if (came.Palette && (came.Guides || came.Needs)) begin(came); }; });
  document.head.append(Object.assign(document.createElement("link"), {rel: "stylesheet", href: style}));
  const make = (name, kind = "", ...inner) => {
    const element = document.createElement(name);
    if (kind) element.className = kind;
    element.append(...inner.filter(each => each !== ""));
    return element;
  };
  // A page of more lines than this nobody reads.
  const MOST = 200, NEAR = 4;

  function begin({Palette: palette, Guides: guides, Needs: needs}) {
    const {words} = palette, {t, number} = window.guidegenPhrases(words, palette.signs), engine = window.guidegenColour;
    const pots = window.guidegenPots(prefix, palette), mine = link.getAttribute("href"), label = name => (pots.byName.get(name) || {label: name}).label;
    function show() {
      const hand = pots.atHand(), has = new Set(hand.map(pot => pot.name)), book = engine.standIns(hand);
      place.classList.add("told");
      const top = make("div", "own-top"), back = make("a", "", words["mine.change"]), list = make("ul", "own-lines");
      back.href = mine;
      place.replaceChildren(top);
      if (guides) {
        // What has a pot close by is not lacking: that pot stands in.
        const near = new Map(), stands = name => {
          if (!near.has(name)) { const pot = pots.byName.get(name), [first] = pot && pot.colour ? book.nearest(pot) : []; near.set(name, !!first && first.de00 <= NEAR); }
          return near.get(name);
        };
        const found = guides.map(([title, href, names]) => ({title, href, lacks: names.filter(name => !has.has(name) && !stands(name))})).sort((a, b) => a.lacks.length - b.lacks.length);
        top.append(make("p", "own-sum", t("mine.ready", {n: found.filter(each => !each.lacks.length).length, all: number(found.length)})), back);
        found.slice(0, MOST).forEach(({title, href, lacks}) => {
          const to = make("a", "", title);
          to.href = href;
          list.append(make("li", "", make("div", "own-line", make("span", "", to, lacks.length ? make("small", "", " " + t("shelf.lacks", {n: lacks.length}) + ": " + lacks.map(label).join(", ")) : ""))));
        });
        place.append(list);
        return;
      }
      const lacking = needs.filter(([name]) => !has.has(name)), toBuy = [], have = needs.length - lacking.length;
      lacking.forEach(([name, ml]) => {
        const pot = pots.byName.get(name) || {name, colour: null}, {advice, pots: near, recipes} = pot.colour ? book.advised(pot) : {advice: "buy"};
        const n = ml && pot.size ? Math.max(1, Math.ceil(+(ml / pot.size).toFixed(9))) : 1, want = label(name);
        const parts = advice === "pot" ? [[near[0].pot, 1]] : advice === "mix" ? recipes[0].parts : null;
        const take = parts && parts.map(([each, count]) => (parts.length > 1 ? number(count, 2) + " " : "") + (each.label || each.name)).join(" + ");
        if (!parts) toBuy.push(want + " (" + t("pot.owned", {n}) + ")");
        list.append(make("li", "", make("div", "own-line", make("span", "", ...parts ? [make("b", "", take), t("mine.for", {take: "", want}), parts.length > 1 ? make("small", "", " " + words["mine.mix-warns"]) : ""] : [make("b", "", t("mine.buy", {want})), make("small", "", " " + t("pot.owned", {n}))]))));
      });
      const rest = [lacking.length - toBuy.length && t("mine.of-instead", {n: lacking.length - toBuy.length}), toBuy.length && t("mine.of-buy", {n: toBuy.length})].filter(Boolean).join(", ");
      top.append(make("p", "own-sum", rest ? t("mine.of", {n: have, all: number(needs.length)}) + "; " + rest + "." : t("mine.of-all", {n: have})), back);
      if (lacking.length) place.append(list);
      if (toBuy.length) place.append(make("p", "own-buy", make("b", "", words["mine.shopping"] + ": "), toBuy.join(", ")));
    }
    show();
    addEventListener("storage", ({key}) => { if (key === prefix + ":pots") { pots.read(); show(); } });
    addEventListener("pageshow", ({persisted}) => { if (persisted) { pots.read(); show(); } });
  }
})();
