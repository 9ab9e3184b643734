/* Finds guides on the home page. The index is a script, since a page from the disk may fetch nothing else, and comes with
   the first touch. Whatever is in it is put on the page as text. */
(() => {
  "use strict";
  const form = document.querySelector(".find");
  if (!form) return;
  const words = JSON.parse(form.dataset.words), rules = new Intl.PluralRules(document.documentElement.lang);
  const one = css => document.querySelector(css), status = one(".find [role=status]"), clear = one(".find-clear");
  const out = one(".find-out"), list = one(".finds"), none = one(".find-none"), more = one(".find-more"), everything = one(".all-guides");
  const {q, tag, by, time, shelf, lacks} = form.elements;
  // Rows that are made at once; more are made when asked for.
  const MOST = 24, STEPS = 3, AROUND = 60;
  let guides = null, asked = false, found = [], shown = 0, sought = [];

  const number = n => String(n).replace(/\B(?=(\d{3})+$)/g, words.signs);
  const t = (key, n, more = {}) => (words[key][rules.select(n)] || words[key].other)
    .replace(/\{(\w+)\}/g, (_, name) => number(name === "n" ? n : more[name]));
  const make = (name, kind = "", text = "") => {
    const element = document.createElement(name);
    if (kind) element.className = kind;
    element.textContent = text;
    return element;
  };

  // Letters without their marks, in small; what is no letter and no figure parts words.
  const LETTERS = {"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "ł": "l", "ħ": "h", "ı": "i", "þ": "th", "ſ": "s"};
  const bare = text => /^[\0-~]*$/.test(text) ? text.toLowerCase() : text.normalize("NFKD").toLowerCase().replace(/\p{M}+/gu, "").replace(/[ßæœøđðłħıþſ]/g, letter => LETTERS[letter]);
  const fold = text => " " + bare(text).replace(/['’]/g, "").replace(/[^\p{L}\p{N}]+/gu, " ");

  // What each sign of a text comes to, for showing where in it a word was found.
  const KNOWN = new Map(), sounds = sign => {
    if (!KNOWN.has(sign)) KNOWN.set(sign, /['’]/.test(sign) ? "" : bare(sign).replace(/[^\p{L}\p{N}]/gu, " "));
    return KNOWN.get(sign);
  };

  // A word as it stands, without its ending, and with its letters written otherwise: any of them will do.
  const forms = word => {
    const every = [word];
    for (const ending of words.endings.split(" "))
      if (word.endsWith(ending) && word.length - ending.length > Math.min(3, ending.length + 1)) every.push(word.slice(0, -ending.length));
    for (const pair of words.umlauts.split(" "))
      for (const form of [...every]) if (pair[1] && form.includes(pair)) every.push(form.replaceAll(pair, pair[0]));
    return every;
  };
  // Within a word only longer ones count, or every wash would be found by “ash”; scripts without spaces have no such words.
  const inside = word => word.length > 3 || /[^a-z0-9]/.test(word);
  const weigh = (text, those) => {
    if (text.includes(" " + those[0])) return text.includes(" " + those[0] + " ") || text.endsWith(" " + those[0]) ? 4 : 3;
    return those.some(word => text.includes(" " + word)) ? 2 : inside(those[0]) && those.some(word => inside(word) && text.includes(word)) ? 1 : 0;
  };

  function take(entries) {
    const join = list => (list || []).join(" · ");
    guides = entries.map(guide => {
      const steps = (guide.steps || []).map(([title, place, head, prose]) => ({title, place, head, prose, named: fold(title + " · " + head)}));
      return {...guide, steps, title_: fold(guide.title), named: fold(join([join(guide.tags), join(guide.areas), join(guide.pots)])),
        stepsNamed: steps.map(step => step.named).join(" "), said: fold(join([guide.summary, guide.text, ...steps.map(step => step.prose)]))};
    });
    show();
  }
  window.guidegenIndex = take;

  function fetchIndex() {
    if (asked) return;
    asked = true;
    const script = document.createElement("script");
    script.src = form.dataset.index;
    script.onerror = () => { status.textContent = words.failed; asked = false; };
    document.head.append(script);
  }

  // How well a guide answers, 0 where a word is nowhere in it. Words that meet in one step count for more.
  function score(guide) {
    let sum = 0;
    for (const those of sought) {
      let best = 0;
      for (const [text, worth] of [[guide.title_, 8], [guide.named, 4], [guide.stepsNamed, 3], [guide.said, 1]]) {
        const weight = weigh(text, those);
        best = Math.max(best, weight * worth);
        // The beginning of a word here is worth more than whatever else may be found.
        if (weight > 1) break;
      }
      if (!best) return 0;
      sum += best;
    }
    return sum + (sought.length > 1 && guide.steps.some(step => sought.every(those => those.some(word => step.named.includes(" " + word)))) ? 20 : 0);
  }

  function marked(element, text) {
    // Where each folded letter comes from.
    const letters = [], from = [];
    let at = 0;
    for (const sign of text) {
      for (const letter of sounds(sign)) { letters.push(letter); from.push(at); }
      at += sign.length;
    }
    from.push(at);
    const folded = " " + letters.join("");
    const spans = [];
    for (const those of sought) {
      const word = those.find(form => folded.includes(" " + form)), part = word || those.find(form => inside(form) && folded.includes(form));
      if (!part) continue;
      const wanted = word ? " " + word : part, skip = word ? 1 : 0;
      for (let place = folded.indexOf(wanted); place >= 0; place = folded.indexOf(wanted, place + 1))
        spans.push([from[place + skip - 1], from[place + wanted.length - 1]]);
    }
    spans.sort((a, b) => a[0] - b[0]);
    at = 0;
    for (const [start, end] of spans) {
      if (end <= at) continue;
      element.append(text.slice(at, Math.max(at, start)), make("mark", "", text.slice(Math.max(at, start), end)));
      at = end;
    }
    element.append(text.slice(at));
    return spans.length ? spans[0][0] : -1;
  }

  // A few words around the first that was sought.
  function excerpt(text) {
    const at = marked(make("i"), text);
    if (at < 0) return null;
    const start = at > AROUND ? text.indexOf(" ", at - AROUND) + 1 : 0, last = text.indexOf(" ", at + 2 * AROUND);
    const line = make("small");
    marked(line, (start && start <= at ? "… " : "") + text.slice(start <= at ? start : at, last < 0 ? text.length : last) + (last < 0 ? "" : " …"));
    return line;
  }

  function strip(colours) {
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    let at = 0;
    const last = colours.length - 1;
    for (const [place, [colour, part]] of colours.entries()) {
      const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
      path.setAttribute("fill", colour);
      path.setAttribute("d", `M${at} 0h${place < last ? part : 2 * part}v9H${at}z`);
      svg.append(path);
      at += part;
    }
    svg.setAttribute("class", "band");
    svg.setAttribute("viewBox", `0 0 ${at} 9`);
    svg.setAttribute("preserveAspectRatio", "none");
    svg.setAttribute("aria-hidden", "true");
    return svg;
  }

  const addressOf = guide => guide.page || `guides/${guide.slug}/index.html`;

  function why(guide) {
    const lines = make("ul", "why"), address = addressOf(guide);
    const ranked = guide.steps.map(step => {
      const said = fold(step.prose);
      return [sought.reduce((sum, those) => sum + 5 * weigh(step.named, those) + weigh(said, those), 0), step];
    }).filter(([much]) => much);
    let told = guide.title_;
    ranked.sort((a, b) => b[0] - a[0]);
    for (const [much, step] of ranked.slice(0, STEPS)) {
      if (much * 2 <= ranked[0][0]) break;
      told += " " + step.named + fold(step.prose);
      const line = make("li"), link = make("a"), head = make("span");
      link.href = address + "#" + step.place;
      marked(link, step.title);
      marked(head, step.head);
      line.append(link, " ", head);
      const said = sought.some(those => !weigh(step.named, those)) && excerpt(step.prose);
      if (said) line.append(said);
      lines.append(line);
    }
    // Whatever else made it be found.
    for (const text of [guide.text || "", (guide.pots || []).join(", ")]) {
      if (!sought.some(those => !weigh(told, those) && weigh(fold(text), those))) continue;
      lines.append(make("li"));
      lines.lastChild.append(excerpt(text));
      told += fold(text);
    }
    return lines.firstChild && lines;
  }

  function row(guide) {
    const item = make("li", "found"), top = make("div", "found-top"), body = make("div"), heading = make("h2"), link = make("a"), facts = make("p", "card-facts", guide.facts);
    if (guide.picture) {
      const image = make("img");
      image.alt = "";
      image.loading = "lazy";
      image.src = guide.picture;
      if (guide.picture.endsWith(".svg")) top.classList.add("figure-top");
      top.append(image);
    }
    if (guide.strip) top.append(strip(guide.strip));
    link.href = addressOf(guide);
    marked(link, guide.title);
    heading.append(link);
    heading.dir = "auto";
    if (guide.lang) item.lang = guide.lang;
    body.append(heading);
    if (guide.summary) marked(body.appendChild(make("p")), guide.summary);
    if (guide.lacks) facts.append(" · ", t("lacks", guide.lacks));
    body.append(facts);
    if (guide.tags) marked(body.appendChild(make("p", "card-facts")), guide.tags.join(", "));
    const lines = sought.length ? why(guide) : null;
    if (lines) body.append(lines);
    item.append(top, body);
    return item;
  }

  function extend() {
    const next = found.slice(shown, shown + MOST);
    list.append(...next.map(row));
    shown += next.length;
    more.hidden = shown === found.length;
    if (!more.hidden) more.textContent = t("more", Math.min(MOST, found.length - shown));
    return list.children[shown - next.length];
  }

  const active = () => q.value.trim() || tag && tag.value || by && by.value || time && time.value || shelf && shelf.checked || lacks && lacks.value;

  function show() {
    const on = !!active();
    clear.hidden = !on;
    if (!on || !guides) {
      out.hidden = true;
      everything.hidden = false;
      status.textContent = on ? words.loading : "";
      if (on) fetchIndex();
      return;
    }
    sought = fold(q.value).split(" ").filter(Boolean).map(forms);
    const rank = new Map();
    for (const guide of guides) {
      if (tag && tag.value && !(guide.tags || []).includes(tag.value)) continue;
      if (by && by.value && !(guide.by || []).includes(by.value)) continue;
      if (time && time.value && !(guide.minutes !== null && guide.minutes <= +time.value)) continue;
      if (shelf && shelf.checked && guide.lacks !== 0) continue;
      if (lacks && lacks.value && !(guide.lacks !== null && guide.lacks <= +lacks.value)) continue;
      // By the shelf what lacks least comes first.
      const points = sought.length ? score(guide) : lacks ? 1 / (1 + guide.lacks) : 1;
      if (points) rank.set(guide, points);
    }
    found = [...rank.keys()].sort((a, b) => rank.get(b) - rank.get(a));
    shown = 0;
    list.replaceChildren();
    extend();
    none.hidden = found.length > 0;
    out.hidden = false;
    everything.hidden = true;
    const pages = found.filter(guide => guide.page).length;
    status.textContent = t("found", found.length - pages, {all: guides.filter(guide => !guide.page).length}) + (pages ? " · " + t("pages", pages) : "");
  }

  // What is sought stands in the address, so that it can be sent on and is there again after a look at a guide.
  function note() {
    const state = new URLSearchParams();
    if (q.value.trim()) state.set("q", q.value.trim());
    if (tag && tag.value) state.set("tag", tag.value);
    if (by && by.value) state.set("by", by.value);
    if (time && time.value) state.set("time", time.value);
    if (shelf && shelf.checked) state.set("shelf", "1");
    if (lacks && lacks.value) state.set("lacks", lacks.value);
    const hash = state.toString();
    try { history.replaceState(null, "", hash ? "#" + hash : location.pathname + location.search); } catch { /* It works without. */ }
  }
  function recall() {
    const hash = location.hash.slice(1);
    // A place on the page is no search.
    if (hash && !hash.includes("=")) return;
    const state = new URLSearchParams(hash);
    q.value = (state.get("q") || "").slice(0, q.maxLength);
    if (tag) tag.value = [...tag.options].some(option => option.value === state.get("tag")) ? state.get("tag") : "";
    if (by) by.value = [...by.options].some(option => option.value === state.get("by")) ? state.get("by") : "";
    if (time) time.value = [...time.options].some(option => option.value === state.get("time")) ? state.get("time") : "";
    if (shelf) shelf.checked = state.has("shelf");
    if (lacks) lacks.value = [...lacks.options].some(option => option.value === state.get("lacks")) ? state.get("lacks") : "";
    show();
  }

  form.addEventListener("focusin", fetchIndex);
  form.addEventListener("pointerenter", fetchIndex);
  form.addEventListener("input", () => { note(); show(); });
  form.addEventListener("submit", event => {
    event.preventDefault();
    const first = list.querySelector("a");
    if (first && !out.hidden) first.focus();
  });
  form.addEventListener("keydown", event => {
    if (event.key === "Escape" && active()) { event.preventDefault(); clear.click(); }
  });
  clear.addEventListener("click", () => {
    form.reset();
    note();
    show();
    q.focus();
  });
  more.addEventListener("click", () => extend().querySelector("a").focus());
  window.addEventListener("hashchange", recall);
  form.hidden = false;
  recall();
})();
