/* What the steps of a batch took. A span is a stretch of work on one step: {begun, ended, by: figures by coat, closed}, kept
   with the step; `all` gives the steps. Hands are full of figures, so silence is no pause; but what dries between two coats is none's work, and
   whoever comes back after LONG was away. */
window.guidegenLog = (all, of) => {
  const MIN = 60000, LONG = 180 * MIN;
  // What is kept may be damaged.
  const spans = own => (Array.isArray(own.spans) ? own.spans : []).filter(span => span && span.ended >= span.begun && Array.isArray(span.by));
  const latest = () => all().flatMap(leaf => spans(of(leaf))).reduce((last, span) => span.ended > last ? span.ended : last, 0);
  let since = Date.now();
  // The reader turned to another step.
  const turn = () => { since = Date.now(); };

  // `n` more figures have their coat; what is taken back makes no span longer. `ends` is whether the whole coat is done.
  function stroke(leaf, coat, n, ends) {
    const own = of(leaf), now = Date.now(), those = own.spans = spans(own), last = those[those.length - 1];
    let span = last;
    if (n > 0 && !(last && !last.closed && last.ended === latest() && now - last.ended < LONG)) {
      const after = last && last.closed && own.dry && own.dry <= now ? own.dry : 0;
      span = {begun: Math.min(now, Math.max(since, latest(), after, now - LONG)), by: []};
      those.push(span);
    }
    if (!span) return;
    if (n > 0) span.ended = now;
    span.by[coat] = Math.max(0, (span.by[coat] || 0) + n);
    span.by = Array.from(span.by, count => count || 0);
    span.closed = ends;
  }
  // Milliseconds of painting, null where nobody knows.
  const took = leaf => {
    const own = of(leaf), those = spans(own);
    if (own.away || !those.length) return null;
    return Math.max(0, those.reduce((sum, span) => sum + span.ended - span.begun, 0) - (+own.off || 0));
  };

  const pad = n => String(n).padStart(2, "0");
  const day = ms => { const at = new Date(ms); return at.getFullYear() + "-" + pad(at.getMonth() + 1) + "-" + pad(at.getDate()); };
  const moment = ms => { const at = new Date(ms); return day(ms) + "T" + [at.getHours(), at.getMinutes(), at.getSeconds()].map(pad).join(":"); };
  const minutes = ms => ms < 10 * MIN ? Math.round(ms / MIN * 10) / 10 : Math.round(ms / MIN);

  // A line for the guide's `made:`, '' where nothing was timed; a title that two steps share says nothing of either.
  // `mixed` is how many figures take each option of a choice, null where all are alike.
  function made(figures, choice, mixed) {
    const titles = all().map(leaf => leaf.dataset.title), timed = {}, notes = [];
    all().forEach(leaf => {
      const own = of(leaf), {title} = leaf.dataset, said = parseFloat(String(own.minutes || "").replace(",", "."));
      const length = said > 0 ? said : own.done ? minutes(took(leaf) || 0) : 0;
      if (length && titles.filter(one => one === title).length === 1) timed[title] = length;
      if (own.note) notes.push(title + ": " + own.note);
    });
    if (!Object.keys(timed).length) return "";
    // What JSON quotes, YAML reads alike; it wants a blank after each colon and comma.
    const group = value => value && typeof value === "object" ? "{" + Object.entries(value).map(([key, one]) => JSON.stringify(key) + ": " + group(one)).join(", ") + "}" : JSON.stringify(value);
    const taken = Object.fromEntries(Object.entries(choice).filter(([name]) => !(mixed && name in mixed)));
    return "- {" + ["date: " + day(latest() || Date.now()), "figures: " + figures, "minutes: " + group(timed)]
      .concat(Object.keys(taken).length ? "choose: " + group(taken) : [], mixed ? "mixed: " + group(mixed) : [], notes.length ? "note: " + JSON.stringify(notes.join(" ")) : []).join(", ") + "}\n";
  }
  // As guidegen/base/csv_cells.py writes tables: no cell is taken for a formula.
  const cell = text => '"' + text.replace(/(^|[,;\t|\r\n])(?=[ "']*[=+\-@\t\r＝＋－＠])/g, "$1'").replace(/"/g, '""') + '"';
  function csv() {
    const rows = all().flatMap(leaf => spans(of(leaf)).map(span => ({span, title: leaf.dataset.title}))).sort((a, b) => a.span.begun - b.span.begun);
    return ["step,begun,ended,figures"].concat(rows.map(({span, title}) =>
      [cell(title), moment(span.begun), moment(span.ended), Math.max(0, ...span.by)].join(","))).join("\r\n") + "\r\n";
  }
  return {turn, stroke, took, made, csv, any: () => all().some(leaf => spans(of(leaf)).length)};
};

/* From a plan the address names the batch, as unit=regatta.1 and batch=2, and how many figures it has; of a mixed batch also
   how many take each option, and how many those steps are for that not all figures have, as own=step-hood:7. */
window.guidegenPlanned = () => {
  const search = new URLSearchParams(location.search), [unit, batchNumber] = ["unit", "batch"].map(name => search.get(name) || "");
  const [, plan] = /^([a-z0-9-]+)\.\d{1,4}$/.exec(unit) || [], ofPlan = plan && /^\d{1,4}$/.test(batchNumber);
  if (!ofPlan) return {fewer: new Map()};
  const whole = n => Math.min(500, Math.floor(n) || 0), pairs = (search.get("own") || "").split(",").map(pair => pair.split(":"));
  let mixed = null;
  try {
    const [[choice, options]] = Object.entries(JSON.parse(search.get("mixed")));
    mixed = {[choice]: Object.fromEntries(Object.entries(options).map(([option, n]) => [option, whole(n)]))};
  } catch { /* all figures are alike */ }
  return {unit, batchNumber, plan, ofPlan, mixed, figures: whole(search.get("figures")) || undefined, fewer: new Map(pairs.map(([id, n]) => [id, whole(n)]))};
};
