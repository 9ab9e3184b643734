/* A guide for the reader's number of figures: times, amounts and the wet line as the site built them. */
(function () {
  "use strict";
  const block = document.getElementById("clock-data");
  if (!block) return;
  const data = JSON.parse(block.textContent), words = data.words, clock = window.guidegenClock;
  const MIN = 60000, HOUR = 60 * MIN, DAY = 24 * HOUR;
  const all = (selector, root) => Array.from((root || document).querySelectorAll(selector));
  const rules = new Intl.PluralRules(document.documentElement.lang || "en");

  // Phrases and numbers as guidegen/rendering/strings.py writes them.
  function number(value, places) {
    const [whole, part] = value.toFixed(places || 0).split(".");
    const rest = (part || "").replace(/0+$/, "");
    return whole.replace(/\B(?=(\d{3})+$)/g, data.signs[1]) + (rest ? data.signs[0] + rest : "");
  }
  function t(key, values) {
    const entry = words[key], phrase = typeof entry === "string" ? entry : entry[rules.select(values.n)] || entry.other;
    return phrase.replace(/\{(\w+)\}/g, (_, name) => typeof values[name] === "number" ? number(values[name]) : values[name]);
  }
  function duration(ms) {
    const units = ms < 10 * MIN ? [["unit.min", MIN], ["unit.s", 1000]]
      : ms < 2 * DAY ? [["unit.h", HOUR], ["unit.min", MIN]] : [["unit.d", DAY], ["unit.h", HOUR]];
    const finest = units[1][1], parts = [];
    let rest = Math.floor((ms + Math.floor(finest / 2)) / finest) * finest;
    for (const [key, size] of units) {
      const count = Math.floor(rest / size);
      rest -= count * size;
      if (count) parts.push(t(key, {n: count}));
    }
    return parts.join(" ") || t("unit.min", {n: 0});
  }
  function iso(ms) {
    const days = Math.floor(ms / DAY), hours = Math.floor(ms % DAY / HOUR), minutes = Math.floor(ms % HOUR / MIN);
    const seconds = ms % MIN / 1000;
    const time = (hours ? hours + "H" : "") + (minutes ? minutes + "M" : "") + (seconds ? seconds + "S" : "");
    return days || time ? "P" + (days ? days + "D" : "") + (time ? "T" + time : "") : "PT0S";
  }
  function onClock(ms) {
    const minutes = Math.floor((ms + MIN / 2) / MIN);
    return Math.floor(minutes / 60) + ":" + String(minutes % 60).padStart(2, "0");
  }
  function twoFigures(value) {
    const digits = 1 - Math.floor(Math.log10(value));
    return number(Number(value.toPrecision(2)), Math.max(digits, 0));
  }

  // The wet line, as guidegen/rendering/wet_line.py draws it.
  const RIBBON = 14, LANE = 4, GAP = 3, LANES = 3, WIDTH = 35, LEAST = 8, BREATH = 12, PAUSE = 30, ENDING = 40, FRESH = .8;
  const left = tail => RIBBON + GAP + tail.lane * (LANE + GAP);
  const half = value => { const low = Math.floor(value), gap = value - low; return gap > .5 || (gap === .5 && low % 2) ? low + 1 : low; };
  const tenth = value => Math.round(value * 10) / 10;

  function scaleOf(bars) {
    const steps = {};
    let sum = 0;
    for (const bar of bars) { steps[bar.n] = (steps[bar.n] || 0) + bar.handsOn; sum += bar.handsOn; }
    return sum ? Math.min(4, 1800 * MIN / sum, 360 * MIN / Math.max(...Object.values(steps))) : 4;
  }
  function tailsOf(bars) {
    const free = new Array(LANES).fill(0), tails = [];
    for (const bar of bars) {
      const lane = free.findIndex(until => until <= bar.end);
      if (bar.dryUntil <= bar.end || lane < 0) continue;
      free[lane] = bar.dryUntil;
      tails.push({start: bar.end, end: bar.dryUntil, lane, colour: (data.colours[bar.n] || [])[0]});
    }
    return tails;
  }
  function painted(zone, top) {
    if (!zone.painted) return `<path class="gap" d="M${RIBBON / 2} ${top}v${zone.height}"/>`;
    const colours = zone.painted.length ? zone.painted : [null], count = colours.length;
    return colours.map((colour, at) => {
      const a = Math.floor(RIBBON * at / count), b = Math.floor(RIBBON * (at + 1) / count);
      return `<path ${colour ? `fill="${colour}"` : 'class="bare"'} d="M${a} ${top}h${b - a}v${zone.height}h-${b - a}z"/>`;
    }).join("") + `<path class="rim" d="M.5 ${top + .5}h${RIBBON - 1}v${zone.height - 1}h-${RIBBON - 1}z"/>`;
  }
  function fading(name, zone, top, tails) {
    return tails.filter(tail => tail.end > zone.start && tail.start < zone.end).map(tail => {
      const at = ms => tenth(top + (ms - zone.start) * zone.height / (zone.end - zone.start));
      const a = at(tail.start), b = at(tail.end), y = Math.max(a, top), end = Math.min(b, top + zone.height);
      const id = `${name}-${tail.lane}-${tail.start}`, tone = tail.colour ? `stop-color="${tail.colour}"` : 'class="dull"';
      return `<linearGradient id="${id}" gradientUnits="userSpaceOnUse" x2="0" y1="${a}" y2="${b}"><stop ${tone} stop-opacity="${FRESH}"/>` +
        `<stop offset="1" ${tone} stop-opacity="0"/></linearGradient><path fill="url(#${id})" d="M${left(tail)} ${y}h${LANE}v${tenth(end - y)}h-${LANE}z"/>`;
    }).join("");
  }
  function run(at, tails) {
    const faint = tails.filter(tail => tail.start <= at && at < tail.end).map(tail => {
      const strength = Math.round(FRESH * (tail.end - at) / (tail.end - tail.start) * 100) / 100;
      return `<path ${tail.colour ? `fill="${tail.colour}"` : 'class="bare"'} fill-opacity="${strength}" d="M${left(tail)} 0h${LANE}v1h-${LANE}z"/>`;
    });
    return `<svg class="run" viewBox="0 0 ${WIDTH} 1" preserveAspectRatio="none"><path class="line" d="M${RIBBON / 2} 0v1"/>${faint.join("")}</svg>`;
  }
  function row(name, zones, tails) {
    let top = 0, parts = "";
    zones.forEach((zone, at) => {
      parts += painted(zone, top) + fading(`${name}-${at}`, zone, top, tails);
      top += zone.height;
    });
    return zones.length ? `<svg class="wet" width="${WIDTH}" height="${top}" viewBox="0 0 ${WIDTH} ${top}">${parts}</svg>` : "";
  }
  function put(element, html) {
    const spine = element && element.querySelector(".spine");
    if (spine) spine.innerHTML = html;
  }
  function waitWords(bars, first) {
    const wet = bars.filter(bar => bar.end <= first.start && bar.dryUntil > first.longestAt).pop();
    const length = duration(first.waited);
    const said = wet ? t("wait.for", {length, step: data.titles[wet.n]}) : t("wait.plain", {length});
    return first.gaps > 1 ? t("wait.pieces", {wait: said, n: first.gaps}) : said;
  }
  function draw(bars) {
    const scale = scaleOf(bars), tails = tailsOf(bars), ends = {0: 0};
    all(".step").forEach(step => {
      const n = Number(step.dataset.n), coats = bars.filter(bar => bar.n === n), first = coats[0], zones = [];
      for (const bar of coats) {
        const begun = bar.start + bar.waited;
        if (bar.waited && bar !== first) zones.push({start: bar.start, end: begun, height: BREATH});
        zones.push({start: begun, end: bar.end, height: Math.max(LEAST, half(bar.handsOn / MIN * scale)), painted: data.colours[n] || []});
      }
      const begun = first.start + first.waited, end = ends[n] = coats[coats.length - 1].end;
      const dry = Math.max(...coats.map(bar => bar.dryUntil));
      put(step, row("s" + n, zones, tails) + run(end, tails));
      if (step.previousElementSibling.classList.contains("care")) put(step.previousElementSibling, run(begun, tails));
      const wait = document.querySelector(`[data-wait="${n}"]`);
      wait.hidden = !first.waited;
      put(wait, first.waited ? row("p" + n, [{start: first.start, end: begun, height: PAUSE}], tails) + run(begun, tails) : "");
      wait.querySelector(".body").textContent = first.waited ? waitWords(bars, first) : "";
      step.querySelector(".clock").textContent = onClock(begun);
      step.querySelector(".when").textContent = t(dry > end ? "clock.dry" : "clock.span", {start: onClock(begun), end: onClock(end), dry: onClock(dry)});
    });
    data.stops.forEach((after, at) => put(document.getElementById("stop-" + (at + 1)), run(ends[after], tails)));
    const end = bars.length ? bars[bars.length - 1].end : 0, dry = Math.max(0, ...bars.map(bar => bar.dryUntil));
    put(document.getElementById("ending"), dry > end ? row("e", [{start: end, end: dry, height: ENDING}], tails) : "");
  }

  function amounts(n) {
    all("[data-ml]").forEach(element => {
      const given = element.dataset, owned = Number(given.owned), size = Number(given.size);
      let words = t("amount.by-eye"), buy = owned ? 0 : 1;
      if (given.ml) {
        const ml = given.ml * n / data.figures, drops = given.drop ? ml / given.drop : 0;
        const said = ml < .005 ? "" : t("amount.ml", {amount: twoFigures(ml)});
        words = !said ? t("amount.trace") : !drops || ml > 10 ? said
          : drops < 2 && given.pour ? t("amount.pour", {ml: said}) : t("amount.drops", {ml: said, drops: twoFigures(Math.round(drops))});
        if (size) buy = Math.max(0, Math.ceil(Number((ml / size).toFixed(9))) - owned);
      }
      element.querySelector(".amount").textContent = words;
      element.querySelector(".shelf").textContent = buy ? t("shelf.buy", {n: buy}) : t("shelf.owned");
    });
  }

  function show(n) {
    const figures = t("figures.n", {n}), bars = clock.timeline(data.passes, n), sums = {whole: clock.times(data.passes, n)};
    data.stops.forEach((after, at) => { sums["stop" + at] = clock.times(data.passes.filter(pass => pass.n <= after), n); });
    all("[data-show]").forEach(element => {
      const [which, what] = element.dataset.show.split("."), times = sums[which];
      if (which === "figures") element.textContent = figures;
      else if (what === "clock") element.textContent = onClock(times.brushDown);
      else if (what === "dry") element.textContent = t("ending.dry", {clock: onClock(times.total)});
      else { element.textContent = duration(times[what]); element.dateTime = iso(times[what]); }
    });
    all("[data-figures]").forEach(element => { element.textContent = t(element.dataset.figures, {figures}); });
    amounts(n);
    draw(bars);
    return t("figures.status", {figures, hands: duration(sums.whole.handsOn), clock: duration(sums.whole.total)});
  }

  const form = document.querySelector(".stepper"), field = form.querySelector("input"), status = document.querySelector("output");
  let shown = data.figures;
  function ask(n) {
    const wanted = Math.min(500, Math.max(1, Math.round(n) || data.figures));
    field.value = wanted;
    if (wanted !== shown) { shown = wanted; status.textContent = show(wanted); }
  }
  field.addEventListener("change", () => ask(Number(field.value)));
  form.addEventListener("submit", event => { event.preventDefault(); ask(Number(field.value)); });
  all("button", form).forEach(button => button.addEventListener("click", () => ask(shown + Number(button.dataset.by))));
  form.hidden = false;
  document.querySelector(".batch").hidden = true;
})();

/* On paper, what is folded away on the screen is open. */
(function () {
  "use strict";
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = Array.from(document.querySelectorAll("details:not([open])"));
    opened.forEach(element => { element.open = true; });
  });
  addEventListener("afterprint", () => { opened.forEach(element => { element.open = false; }); });
})();
