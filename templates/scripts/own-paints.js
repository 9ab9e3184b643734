/* What a guide and its bench say to a reader who has told of pots: what is lacking, one line each, and on the switch the
   whole page in those paints. It waits for the palette's script and for the guide's. */
(() => {
  "use strict";
  const one = (css, root = document) => root.querySelector(css), all = (css, root = document) => [...root.querySelectorAll(css)];
  // A guide that was sent alone has its pots told in it, and its style inside.
  const place = one(".own"), script = one("script[data-scripts]"), came = {};
  if (!place) return;
  const mine = script ? one("a", place).getAttribute("href") : "", {store: prefix, style} = (script || place).dataset;
  ["Palette", "Paints"].forEach(what => { window["guidegen" + what] = data => { came[what] = data; if (came.Palette && came.Paints) begin(came.Palette, came.Paints); }; });

  if (style) document.head.append(Object.assign(document.createElement("link"), {rel: "stylesheet", href: style}));
  function begin(palette, guide) {
    const pots = window.guidegenPots(prefix, palette), table = window.guidegenTable(palette, pots), swaps = window.guidegenSwaps(guide, table), {potOf} = table;
    const {words, t, number, make, draw, chip, label, partsText, difference, head, other, sum, tried: afterTry} = window.guidegenOwnLines(palette, table), engine = window.guidegenColour;
    const onGuide = !!one("#clock-data"), block = one("#clock-data") || one("#bench-data"), passes = block ? JSON.parse(block.textContent).passes : [];
    const kept = () => { try { return JSON.parse(localStorage.getItem(JSON.parse(block.textContent).store)) || {}; } catch { return {}; } };
    const undone = [];
    let answer, repainted = false;

    function figures() {
      const field = one("#figures"), n = Math.floor(field && +field.value) || kept().figures || guide.figures;
      return Math.min(500, Math.max(1, n));
    }
    const button = (does, name, then, pressed) => {
      const made = make("button", "", does);
      made.type = "button";
      if (name) made.setAttribute("aria-label", does + ": " + name);
      if (pressed !== undefined) made.setAttribute("aria-pressed", pressed);
      made.onclick = then;
      return made;
    };
    function choose(name, swap) {
      const own = pots.of(guide.slug);
      if (swap) own.swaps[name] = {...own.swaps[name], ...swap};
      else delete own.swaps[name];
      pots.saveTaken();
      show();
      const again = all(".own-lines > li").find(line => line.dataset.name === name), button = again && one("summary", again);
      if (button) button.focus();
    }

    let open = new Set();
    // One line a pot that is lacking; what else there is to say of it opens below.
    function line(row) {
      const {name, pot, way, others, tried, chosen, bottle} = row, want = label(name), item = make("li");
      item.dataset.name = name;
      let told = "";
      const line = make("div", "own-line", ...head(row)), more = make("details"), list = make("ul", "own-ways"), tools = make("p", "row-of");
      others.forEach(each => list.append(make("li", "", other(each, pot), button(words["mine.take"], partsText(each.parts) + ", " + want, () => choose(name, {parts: each.parts, tried: ""})))));
      if (way) {
        list.append(make("li", "", make("span", "", words["mine.without"]), button(words["mine.take"], words["mine.without"] + ", " + want, () => choose(name, {parts: [], tried: ""}))));
        tools.append(words["mine.tried"]);
        ["good", "bad"].forEach(each => tools.append(button(words["mine." + each], want, () => choose(name, {parts: way.parts, tried: tried === each ? "" : each}), tried === each)));
      }
      // What a mixture became corrects what is foretold of its pots.
      if (way && way.mixed && pot.colour) {
        const seen = pots.tried.find(({parts}) => pots.sameParts(parts, way.parts)), got = Object.assign(make("input"), {type: "color", value: seen ? seen.got : way.colour || pot.colour});
        got.onchange = () => { pots.try(way.parts, got.value); choose(name, {parts: way.parts}); };
        tools.append(make("label", "", words["mine.it-became"], got));
        if (seen) told = make("p", "own-tried", afterTry(seen, pot));
      }
      if (chosen) tools.append(button(words["mine.undo"], want, () => choose(name, null)));
      if (!list.children.length && !tools.childNodes.length) {
        item.append(line);
        return item;
      }
      const summary = make("summary", "own-line", ...line.childNodes);
      more.open = open.has(name);
      more.append(summary, way && difference(way) ? make("p", "small", difference(way)) : "", tools.childNodes.length ? tools : "", told, bottle ? bottling(row) : "", list.children.length ? make("p", "label", words["mine.others"]) : "", list);
      item.append(more);
      return item;
    }
    // Where a mixture is much work each time: once for all figures, into a bottle with a label.
    function bottling({name, way, bottle}) {
      const ml = number(+bottle.ml.toPrecision(2), 2), counts = way.parts.map(([pot], at) => t("mine.drops", {n: bottle.counts[at]}) + " " + label(pot)).join(" + ");
      const made = make("div", "own-bottle", make("p", "", t("mine.bottle", {ml: t("amount.ml", {amount: ml}), figures: t("figures.n", {n: figures()}), drops: counts}))), tools = make("p", "row-of");
      const today = new Date(), day = [today.getFullYear(), today.getMonth() + 1, today.getDate()].map(n => String(n).padStart(2, "0")).join("-");
      tools.append(button(words["mine.bottle-put"], label(name), () => {
        const bottled = label(name) + " (" + words["mine.bottled"] + ")";
        pots.add({name: bottled, state: "full", own: true, kind: "bottled", binder: "acrylic", colour: way.colour, parts: partsText(way.parts), mixed: day});
        pots.save();
        choose(name, {parts: [[bottled, 1]], tried: ""});
      }), button(words["mine.label"], label(name), () => {
        const slip = make("div", "own-label", make("b", "", label(name)), make("span", "", partsText(way.parts)), make("span", "", counts), make("span", "", day + " · " + guide.title));
        document.body.append(slip);
        document.body.classList.add("labelling");
        print();
        document.body.classList.remove("labelling");
        slip.remove();
      }));
      made.append(tools);
      return made;
    }

    // Two areas touch where their drawings do; without a drawing nobody knows, and so it is said.
    function touch({first, second}) {
      const boxes = [first, second].map(at => all(".beside [data-area]").filter(part => pots.fold(part.dataset.area) === pots.fold(guide.areas[at])).map(part => part.getBoundingClientRect())).flat();
      if (boxes.length < 2) return true;
      const [one, two] = [boxes[0], boxes[boxes.length - 1]];
      return one.left <= two.right && two.left <= one.right && one.top <= two.bottom && two.top <= one.bottom;
    }
    function show() {
      const own = pots.of(guide.slug), n = figures(), hands = window.guidegenClock ? window.guidegenClock.times(passes, n).handsOn : 0;
      table.refresh();
      answer = swaps.work(own, n, hands);
      const count = kind => answer.rows.filter(row => row.kind === kind).length, rows = answer.rows.filter(row => row.kind === "instead" || row.kind === "buy");
      const [have, instead, buy, spared] = ["have", "instead", "buy", "spared"].map(count), sums = make("p", "own-sum", sum(have, instead, buy) + (spared ? " " + t("mine.spared", {n: spared}) : ""));
      sums.setAttribute("role", "status");
      const top = make("div", "own-top", sums), box = make("input"), turn = make("label", "own-switch", box, words["mine.switch"]);
      box.type = "checkbox";
      box.checked = own.on;
      box.disabled = !instead;
      box.onchange = () => { own.on = box.checked; pots.saveTaken(); show(); one(".own-switch input").focus(); };
      top.append(turn);
      if (guide.stops.length && onGuide) {
        const stop = make("select");
        stop.append(...[["", words["mine.stop-end"]], ...guide.stops.filter(([, after]) => after < guide.steps.length).map(([name]) => [name, name])].map(([value, name]) => Object.assign(make("option", "", name), {value})));
        stop.value = own.stop;
        stop.onchange = () => { own.stop = stop.value; pots.saveTaken(); show(); one(".own select").focus(); };
        if (stop.options.length > 1) top.append(make("label", "", words["mine.stop"], stop));
      }
      if (mine) top.append(Object.assign(make("a", "", words["mine.change"]), {href: mine}));
      open = new Set(all(".own-lines details[open]").map(each => each.parentNode.dataset.name));
      place.classList.add("told");
      place.hidden = false;
      place.replaceChildren(top);
      if (onGuide) {
        const list = make("ul", "own-lines"), toBuy = rows.filter(row => row.kind === "buy");
        list.append(...rows.map(line));
        answer.touching.filter(touch).forEach(each => list.append(make("li", "", make("span", "warns", t("mine.touch", {take: label(each.take), first: guide.areas[each.first], second: guide.areas[each.second]})))));
        if (list.childNodes.length) place.append(list);
        if (toBuy.length) place.append(make("p", "own-buy", make("b", "", words["mine.shopping"] + ": "), toBuy.map(row => label(row.name) + " (" + t("pot.owned", {n: row.buy}) + ")").join(", ")));
      }
      undone.splice(0).reverse().forEach(back => back());
      tray();
      if (answer.on) swap();
      // The wet line and the evening are drawn anew, and again without once the switch is off.
      if (window.guidegenRepainted && (answer.on || repainted)) window.guidegenRepainted(answer.on ? swaps.painted(answer.swaps) : {});
      repainted = answer.on;
    }

    // The page itself. Whatever is changed can be had back.
    const set = (element, name, value) => {
      const was = element.getAttribute(name);
      if (was === value) return;
      element.setAttribute(name, value);
      undone.push(() => was === null ? element.removeAttribute(name) : element.setAttribute(name, was));
    };
    const replace = (element, ...inner) => {
      const was = [...element.childNodes];
      element.replaceChildren(...inner);
      element.classList.add("swapped");
      undone.push(() => { element.replaceChildren(...was); element.classList.remove("swapped"); });
    };
    const named = (parts, own, colour) => [make("span", "pot", chip(parts.length < 2 ? potOf(parts[0][0]) : {}, parts.length < 2 ? potOf(parts[0][0]).colour : colour, parts.length > 1), make("i", "ring"), make("span", "", partsText(parts))), " ", make("span", "own-name", t("mine.own-name", {name: own}))];
    // What is to be bought goes by the reader's table, for any number of figures.
    function tray() {
      const byName = new Map(answer.rows.map(row => [row.name, row])), rows = all(".tray > li");
      guide.needs.forEach(([name], at) => {
        const row = byName.get(name), need = rows[at] && one(".need", rows[at]), shelf = need && one(".shelf", need);
        if (!need) return;
        need.dataset.owned = row && row.kind === "buy" ? 0 : 999;
        shelf.textContent = row && row.kind === "buy" ? t("shelf.buy", {n: row.buy}) : row && row.low ? words["mine.low"] : "";
        if (!answer.on || !row || !row.way) return;
        replace(one(".name", rows[at]), partsText(row.way.parts), make("span", "own-name", t("mine.own-name", {name: label(name)})));
        recolour(one(".daub", rows[at]), potOf(name).colour, row.way.colour);
      });
    }
    const recolour = (root, was, now) => { if (was && now) all("[fill='" + was + "']", root).forEach(part => set(part, "fill", now)); };
    function swap() {
      const {steps, blends, colours} = guide, looks = colours.map((_, blend) => swaps.looks(blend, answer.swaps)), changed = colours.map((_, blend) => swaps.concerns(blend, answer.swaps));
      const stepAt = href => steps.findIndex(step => "#" + step.place === href), states = swaps.states(answer.swaps);
      const own = blend => blends[blend].length < 2 ? label(blends[blend][0][0]) : partsText(blends[blend]);
      const chips = (root, those) => those.filter(blend => changed[blend]).forEach(blend => recolour(root, colours[blend], looks[blend]));
      all("[data-n] .pots, .sheet-steps > li:not(.sheet-stop) .with").forEach((list, at) => {
        const holder = list.closest("[data-n]"), step = steps[holder ? holder.dataset.n - 1 : all(".sheet-steps > li:not(.sheet-stop) .with").indexOf(list)];
        all(holder ? "li" : ".dab", list).forEach((item, which) => {
          const blend = (step.brushed || [])[which], parts = blend >= 0 && changed[blend] ? swaps.swapped(blend, answer.swaps) : null;
          if (!parts) return;
          replace(item, ...named(parts, own(blend), looks[blend]), parts.length > 1 && holder ? make("small", "estimate", words["mine.mix-warns"]) : "");
        });
      });
      all(".in-reach .pot").forEach(pot => {
        const found = [...answer.swaps].find(([name]) => label(name) === pot.textContent.trim());
        if (found) replace(pot, ...named(found[1].parts, label(found[0]), found[1].colour));
      });
      // A mixture of the guide's, found by a step that takes it and by its name, or by the pots it is of.
      all(".mix-rows > li").forEach(row => {
        const list = one(".parts", row), of = [...list.children], step = steps[stepAt(one(".nums a", row).getAttribute("href"))], title = one(".name", row).textContent;
        const isOf = each => blends[each].length < 2 ? own(each) === title : blends[each].length === of.length && blends[each].every(([name]) => of.some(part => part.textContent.includes(label(name))));
        const blend = ((step && step.brushed) || []).find(each => changed[each] && isOf(each));
        if (blend === undefined) return;
        const [pot, , was] = named(swaps.swapped(blend, answer.swaps), own(blend), looks[blend]);
        replace(list, make("li", "", pot), make("li", "", was));
        chips(one(".daub", row), [blend]);
      });
      all(".matrix a, .step-list a").forEach(link => {
        const at = stepAt(link.getAttribute("href"));
        if (at >= 0) chips(link, steps[at].brushed || []);
      });
      // Drawings: each shape is a piece of the chart, and each piece one of an area.
      const stateOf = (area, n) => (states[area] || []).filter(state => state.n <= n).pop();
      all("use[href^='#fig']").forEach(use => {
        const piece = /^#fig(\d+)$/.exec(use.getAttribute("href")), fill = use.getAttribute("fill"), area = piece ? guide.pieces[piece[1]] : -1;
        if (!piece || area < 0 || !fill || fill[0] !== "#") return;
        const holder = use.closest("[data-n]"), link = use.closest(".step-list a"), before = use.closest(".pair figure:first-child") ? 1 : 0;
        const n = holder ? holder.dataset.n - before : link ? stepAt(link.getAttribute("href")) + 1 : steps.length, state = stateOf(area, n);
        if (!state) return;
        const to = new Map([["recesses", state.was.recesses], ["edges", state.was.edges], ["flats", state.was.flats]].map(([part, was]) => [was, state[part]]));
        if (to.get(fill)) set(use, "fill", to.get(fill));
      });
      // The sheet's foot tells of the guide's own mixtures; its rows say those in the reader's.
      const sheet = one(".sheet-head");
      if (sheet) {
        const said = make("p", "", [words["mine.switch"] + ".", [...answer.swaps.values()].some(way => way.mixed) ? words["mine.mix-warns"] : ""].join(" "));
        sheet.append(said);
        undone.push(() => said.remove());
      }
      all(".sheet-foot > img, .sheet-foot > div:has(.chip)").forEach(part => set(part, "hidden", ""));
      const head = one(".head-picture .drawn img");
      if (head && one("#fig-end-g")) {
        const again = draw("svg", {class: "figure", viewBox: one(".beside svg").getAttribute("viewBox"), role: "img", "aria-label": head.alt});
        again.append(draw("use", {href: "#fig-end-g"}));
        head.after(again);
        head.hidden = true;
        undone.push(() => { again.remove(); head.hidden = false; });
      }
      const relief = (svg, state) => ["flats", "edges", "recesses"].forEach((part, at) => { const path = all("path[fill^='#']", svg)[at]; if (path && state[part]) set(path, "fill", state[part]); });
      all(".daubs [data-area], .matrix [data-area]").forEach(row => {
        const area = guide.areas.findIndex(name => pots.fold(name) === pots.fold(row.dataset.area));
        if (area < 0) return;
        all("li a", row).forEach(link => { const state = stateOf(area, stepAt(link.getAttribute("href")) + 1); if (state) relief(one(".relief", link), state); });
        const ends = one("td:last-child .relief", row), state = stateOf(area, steps.length);
        if (ends && state) relief(ends, state);
        all(".ladder circle", row).forEach(dot => {
          const blend = colours.findIndex((colour, at) => colour === dot.getAttribute("fill") && changed[at]);
          if (blend < 0 || !looks[blend]) return;
          set(dot, "fill", looks[blend]);
          set(dot, "cx", (3.5 + engine.labOf(looks[blend])[0] * .93).toFixed(1));
        });
      });
    }

    show();
    const again = () => { pots.read(); show(); };
    addEventListener("storage", ({key}) => { if (key && key.startsWith(prefix + ":")) again(); });
    addEventListener("pageshow", ({persisted}) => { if (persisted) again(); });
    const field = one("#figures");
    if (field) {
      field.addEventListener("change", () => setTimeout(show));
      const form = field.closest("form");
      if (form) all("button", form).forEach(each => each.addEventListener("click", () => setTimeout(show)));
    }
  }
})();
