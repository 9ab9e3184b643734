/* A guide for the reader's number of figures: times, amounts and the timeline as the site built them. */
(() => {
  const tell = (css, root, text) => { one(css, root).textContent = text; };
  const block = one("#clock-data");
  if (!block) return;
  const data = JSON.parse(block.textContent), {words, stops, passes} = data, clock = window.guidegenClock, MIN = 60000;
  let {colours} = data;
  const {max, min, floor, round} = Math, {t, number, duration, onClock, twoFigures} = window.guidegenPhrases(words, data.signs);

  // The timeline, as guidegen/rendering/guide/timeline.py draws it.
  const RIBBON = 14, WIDTH = 35;
  const tenth = value => round(value * 10) / 10;
  const box = (x, y, w, h) => `M${x} ${y}h${w}v${h}h-${w}z`;
  const left = tail => 17 + tail.lane * 7;
  const path = (colour, d, more = "") => `<path ${colour ? `fill="${colour}"` : 'class="bare"'}${more} d="${d}"/>`;
  const painted = (zone, top) => !zone.painted ? `<path class="gap" d="M7 ${top}v${zone.height}"/>`
    : (zone.painted.length ? zone.painted : [null]).map((colour, at, {length}) => {
      const from = floor(RIBBON * at / length);
      return path(colour, box(from, top, floor(RIBBON * (at + 1) / length) - from, zone.height));
    }).join("") + `<path class="rim" d="${box(".5", top + .5, RIBBON - 1, zone.height - 1)}"/>`;
  const fading = (name, zone, top, tails) => tails.filter(tail => tail.end > zone.start && tail.start < zone.end).map(tail => {
    const [a, b] = [tail.start, tail.end].map(ms => tenth(top + (ms - zone.start) * zone.height / (zone.end - zone.start)));
    const y = max(a, top), id = `${name}-${tail.lane}-${tail.start}`, tone = tail.colour ? `stop-color="${tail.colour}"` : "";
    return `<linearGradient id="${id}" gradientUnits="userSpaceOnUse" x2="0" y1="${a}" y2="${b}"><stop ${tone}/><stop class="gone" offset="1" ${tone}/></linearGradient>`
      + path(`url(#${id})`, box(left(tail), y, 4, tenth(min(b, top + zone.height) - y)));
  }).join("");
  const run = (at, tails) => `<svg class="run" viewBox="0 0 ${WIDTH} 1" preserveAspectRatio="none"><path class="line" vector-effect="non-scaling-stroke" d="M7 0v1"/>`
    + tails.filter(tail => tail.start <= at && at < tail.end).map(tail => {
      const faint = round(80 * (tail.end - at) / (tail.end - tail.start)) / 100;
      return path(tail.colour, box(left(tail), 0, 4, 1), ` fill-opacity="${faint}"`);
    }).join("") + "</svg>";
  const row = (name, zones, tails) => {
    let top = 0;
    const parts = zones.map((zone, at) => {
      const part = painted(zone, top) + fading(name + "-" + at, zone, top, tails);
      top += zone.height;
      return part;
    });
    return `<svg class="wet" width="${WIDTH}" height="${top}" viewBox="0 0 ${WIDTH} ${top}">${parts.join("")}</svg>`;
  };
  const put = (place, html) => { if (place) one(".spine", place).innerHTML = html; };
  const waitWords = (bars, first) => {
    const wet = bars.filter(bar => bar.end <= first.start && bar.dryUntil > first.longestAt).pop();
    return t("wait.for", {length: duration(first.waited), step: data.titles[wet.n]});
  };

  function draw(bars, handsOn) {
    const hands = {}, free = [0, 0, 0], tails = [], ends = {0: 0};
    for (const bar of bars) {
      hands[bar.n] = (hands[bar.n] || 0) + bar.handsOn;
      const lane = free.findIndex(until => until <= bar.end);
      if (bar.dryUntil <= bar.end || lane < 0) continue;
      free[lane] = bar.dryUntil;
      tails.push({start: bar.end, end: bar.dryUntil, lane, colour: colours[bar.n][0]});
    }
    const scale = min(4, 1800 * MIN / handsOn, 360 * MIN / max(0, ...Object.values(hands)));
    all(".step").forEach(step => {
      const n = +step.dataset.n, coats = bars.filter(bar => bar.n === n), first = coats[0], begun = first.start + first.waited;
      const end = ends[n] = coats[coats.length - 1].end, dry = max(...coats.map(bar => bar.dryUntil));
      const zones = coats.flatMap(bar => {
        const start = bar.start + bar.waited, height = max(8, round(bar.handsOn / MIN * scale));
        const zone = {start, end: bar.end, height, painted: colours[n]};
        return bar.waited && bar !== first ? [{start: bar.start, end: start, height: 12}, zone] : [zone];
      });
      put(step, row("s" + n, zones, tails) + run(end, tails));
      const care = step.previousElementSibling;
      if (care.matches(".care")) put(care, run(begun, tails));
      const wait = one(`[data-wait="${n}"]`);
      wait.hidden = !first.waited;
      put(wait, first.waited ? row("p" + n, [{start: first.start, end: begun, height: 30}], tails) + run(begun, tails) : "");
      tell(".body", wait, first.waited ? waitWords(bars, first) : "");
      tell(".clock", step, onClock(begun));
      tell(".when", step, t(dry > end ? "clock.dry" : "clock.span", {start: onClock(begun), end: onClock(end), dry: onClock(dry)}));
    });
    const halts = all(".stop");
    stops.forEach((after, at) => put(halts[at], run(ends[after], tails)));
    const end = max(0, ...bars.map(bar => bar.end)), dry = max(0, ...bars.map(bar => bar.dryUntil));
    put(one("#ending"), dry > end ? row("e", [{start: end, end: dry, height: 40}], tails) : "");
  }

  // The evening, as guidegen/rendering/guide/evening_chart.py draws it.
  const BETWEEN = [15, 30, 60, 120, 240, 480, 720, 1440], DAY = 1440 * MIN, PAINTED = 18, ROW = 8, HOURS = 22;
  function evening(bars) {
    const place = one(".evening"), end = bars[bars.length - 1].end, areas = max(...passes.flatMap(pass => pass.on)) + 1;
    const height = PAINTED + ROW * areas + HOURS, percent = ms => round(ms * 10000 / end) / 100 + "%";
    const between = (BETWEEN.find(one => end / (one * MIN) < 8) || 0) * MIN || Math.ceil(end / 8 / DAY) * DAY;
    const bar = (start, stop, top, tall, colour, name) => stop <= start ? ""
      : `<rect class="${name}${colour ? "" : " bare"}" fill="${colour || "none"}" x="${percent(start)}" y="${top}" width="${percent(stop - start)}" height="${tall}"></rect>`;
    const parts = [`<line class="mark" x1="0" x2="100%" y1="${PAINTED}" y2="${PAINTED}"></line>`];
    for (let at = 0; at < end && at <= end * .85; at += between)
      parts.push(`<line class="mark" x1="${percent(at)}" x2="${percent(at)}" y1="0" y2="${height - HOURS}"></line>`,
        `<text x="${percent(at)}" y="${height - 5}">${onClock(at)}</text>`);
    bars.forEach((one, at) => {
      const colour = colours[one.n][0], {on, area} = passes[at];
      parts.push(bar(one.start + one.waited, one.end, 0, PAINTED - 4, colour, "painted"));
      for (let each = 0; each < areas; each++)
        if (!area || on.includes(each)) parts.push(bar(one.end, min(one.dryUntil, end), PAINTED + 2 + ROW * each, 5, colour, "drying"));
    });
    place.innerHTML = parts.join("");
  }

  function amounts(n) {
    all("[data-ml]").forEach(place => {
      const {ml: given, size, owned, drop} = place.dataset, ml = given * n / data.figures;
      const drops = drop ? ml / drop : 0, whole = round(drops);
      const said = ml < .005 ? "" : t("amount.ml", {amount: twoFigures(ml)});
      const buy = given && size ? max(0, Math.ceil(+(ml / size).toFixed(9)) - owned) : +owned ? 0 : 1;
      tell(".amount", place, !given ? t("amount.by-eye") : !said ? t("amount.trace")
        : !drops || ml > 10 ? said : drops < 2 ? t("amount.pour")
          : t("amount.drops", {n: whole, ml: said, drops: twoFigures(max(whole, 1))}));
      tell(".shelf", place, buy ? t("shelf.buy", {n: buy}) : "");
    });
    all("[data-amount]").forEach(place => {
      const {amount, tool} = place.dataset;
      place.textContent = supply(amount, n, tool !== undefined);
    });
  }

  // Materials are used up, so what the author counted or measured grows with the batch; of tools only what each figure
  // has for itself, such as a cork. Any other amount stays as it was written.
  const COUNTED = /^(\d+(?:[.,]\d+)?)(?:(\s*)([cm]?l|k?g|[cm]?m|drops?|Tropfen))?$/;
  const supply = (amount, n, tool) => amount.split("; ").map(said => {
    const [, digits, gap, unit] = COUNTED.exec(said) || [], given = digits && +digits.replace(",", "."), now = given * n / data.figures;
    if (!given || n === data.figures || tool && (unit || given < data.figures)) return said;
    return unit ? twoFigures(now) + gap + unit : number(Math.ceil(+now.toFixed(9)));
  }).join("; ");

  function drawAll(n) {
    const bars = clock.timeline(passes, n);
    if (one(".evening")) evening(bars);
    draw(bars, clock.times(passes, n).handsOn);
  }
  // Both in other colours, by the numbers of their steps: for a reader who has other paints.
  window.guidegenRepainted = others => {
    colours = {...data.colours, ...others};
    drawAll(shown);
  };

  function show(n) {
    const figures = t("figures.n", {n}), sums = {whole: clock.times(passes, n)};
    stops.forEach((after, at) => { sums["stop" + at] = clock.times(passes.filter(pass => pass.n <= after), n); });
    all("[data-show*=\".\"]").forEach(place => {
      const [which, what] = place.dataset.show.split("."), ms = sums[which][what], long = place.matches("time");
      if (long) place.dateTime = `PT${ms / 1000}S`;
      place.textContent = long ? duration(ms) : onClock(ms);
    });
    all("[data-say]").forEach(place => { place.textContent = t(place.dataset.say, {n, figures, clock: onClock(sums.whole.total)}); });
    amounts(n);
    const unwaited = one(".no-wait");
    if (unwaited) unwaited.hidden = unwaited.dataset.from > 3 * n;
    drawAll(n);
    return t("figures.status", {figures, hands: duration(sums.whole.handsOn), clock: duration(sums.whole.total)});
  }

  const form = one(".stepper"), field = one("input", form), store = window.guidegenStore(data.store);
  let shown = data.figures;
  const turn = n => {
    field.value = n;
    if (n !== shown) form.nextElementSibling.textContent = show(shown = n);
  };
  const ask = wanted => {
    turn(min(500, max(1, floor(wanted) || data.figures)));
    store.choose(shown);
  };
  const again = () => turn(store.figures(data.figures));
  again();
  store.follow(again);
  form.onsubmit = event => { event.preventDefault(); ask(+field.value); };
  field.onchange = () => ask(+field.value);
  all("button", form).forEach(button => { button.onclick = () => ask(shown + +button.dataset.by); });
  form.hidden = false;
  all(".batch").forEach(place => { place.classList.add("on-paper"); });

  all(".weather").forEach(place => {
    const fields = all("input", place);
    place.hidden = false;
    place.oninput = () => {
      const given = fields.map(each => each.valueAsNumber);
      if (given.some(isNaN)) return tell("output", place, "");
      const found = window.guidegenSpraying.verdict(...given), {dewPoint: dew, margin} = found;
      tell("output", place, [...[found.verdict, ...found.reasons].map(key => words["spray." + key]),
        dew === null ? "" : t(margin < 0 ? "spray.dew-above" : "spray.dew", {dew: number(dew, 1), margin: number(Math.abs(margin), 1)})].join(" "));
    };
  });
})();
