/* The bench: figures, rounds, ticks, drying clocks and notes, step by step under the step's own place, so that they stay
   with it when others come before it. */
(() => {
  const bench = one(".at-hand"), block = one("#bench-data");
  // Within a guide that was sent the bench is on the page, and seen only where the address leads there.
  if (!bench || !block) return;
  const onScreen = () => bench.getClientRects().length > 0;
  const data = JSON.parse(block.textContent), {t, duration} = window.guidegenPhrases(data.words, data.signs);
  const {unit, batchNumber, plan, ofPlan, figures: planned = data.figures, fewer, mixed} = window.guidegenPlanned(), benchName = mixed ? "mixed" : data.page;
  const store = window.guidegenStore(ofPlan ? data.store.replace(/::1$/, ":" + unit + ":" + batchNumber) : data.store), {record} = store, alarm = window.guidegenAlarm;
  const leaves = all(".leaf[data-n]"), figures = one(".bench-head input[type=number]"), ending = all(".leaf").pop(), pageTitle = document.title;
  const tell = text => { one(".told").textContent = text; };
  const put = (place, text) => { if (place.textContent !== text) place.textContent = text; };
  // A button's words, and its name: words alone would be alike in every step.
  const name = (button, text, step) => {
    put(button, text);
    button.setAttribute("aria-label", text + ": " + step);
  };

  if (ofPlan) store.take();
  const toPlan = all(".to-plan");
  const save = () => { if (!store.save()) one(".no-memory").hidden = false; if (ofPlan) lead(); };
  const lead = () => toPlan.forEach(link => {
    const ticks = store.ticks();
    link.href = data.plans.replace("*", plan) + "#to-do" + (ticks && "&batch=" + unit + ":" + batchNumber + ticks);
  });
  if (ofPlan) {
    lead();
    toPlan.forEach(link => { link.parentElement.hidden = false; });
  }
  const steps = () => {
    const benches = store.kept.benches = record(store.kept.benches);
    return benches[benchName] = record(benches[benchName]);
  };
  const of = leaf => steps()[leaf.id] = record(steps()[leaf.id]);
  const soFar = () => ({done: leaves.filter(leaf => of(leaf).done).length, count: leaves.length});
  // Steps of a mixed batch that were painted at the benches of its other options.
  const others = () => Object.entries(mixed ? steps() : {}).filter(([id, own]) => record(own).title && !leaves.some(leaf => leaf.id === id))
    .map(([id, own]) => ({id, dataset: {title: String(own.title)}}));
  const batch = () => store.figures(planned), log = window.guidegenLog(() => leaves.concat(others()), of);

  // Where a step stands: `rounds` has the figures painted by coat, `coat` is the one in hand, from 0.
  function stand(leaf) {
    const own = of(leaf), coats = +leaf.dataset.coats, count = "atOnce" in leaf.dataset ? 1 : Math.min(batch(), mixed && fewer.get(leaf.id) || batch());
    const painted = Array.isArray(own.painted) ? own.painted : [];
    const rounds = Array.from({length: coats}, (_, at) => own.done ? count : Math.min(count, Math.max(0, Math.floor(painted[at]) || 0)));
    const open = rounds.findIndex(n => n < count), coat = open < 0 ? coats - 1 : open;
    return {own, coats, count, rounds, coat, painted: rounds[coat]};
  }
  const tally = ({coats, coat, painted, count}) =>
    t(coats < 2 ? "bench.figures-painted" : count < 2 ? "bench.coat-of" : "bench.coat-painted", {coat: coat + 1, coats, done: painted, count});

  // Each change of a step can be taken back, one after the other, as long as the page is open.
  const before = {};
  const remember = leaf => {
    const those = before[leaf.id] = before[leaf.id] || [];
    those.push(JSON.stringify(of(leaf)));
    if (those.length > 100) those.shift();
  };
  function paint(leaf, painted) {
    const {own, coats, count, rounds, coat} = stand(leaf);
    const wasDone = own.done;
    if (mixed) own.title = leaf.dataset.title;
    log.stroke(leaf, coat, painted - rounds[coat], painted >= count);
    rounds[coat] = painted;
    own.painted = rounds;
    own.done = painted >= count && coat === coats - 1;
    asked = own.done && !wasDone ? leaf.id : "";
    if (painted >= count) start(leaf);
    settle();
    tell(own.done ? t("bench.is-done", {n: leaf.dataset.n, ...soFar()}) : tally(stand(leaf)));
    show(leaf);
  }
  // At the end of a step it is asked once how much of that was painting; who turns on says all of it.
  let asked = "";
  const worked = leaf => Math.round((log.took(leaf) || 0) / 60000);
  function answer(leaf, less) {
    const own = of(leaf);
    remember(leaf);
    if (less) own.off = (+own.off || 0) + less * 60000;
    else own.away = true;
    asked = "";
    settle();
    tell(less ? t("bench.counted", {length: duration(worked(leaf) * 60000)}) : data.words["bench.not-counted"]);
    show(leaf);
    one(".on", leaf).focus({preventScroll: true});
  }
  function takeBack(leaf) {
    const saved = (before[leaf.id] || []).pop(), {own, count, rounds, coat} = stand(leaf);
    if (saved) steps()[leaf.id] = JSON.parse(saved);
    else {
      // After a reload, one figure at a time.
      const at = rounds[coat] ? coat : coat - 1;
      rounds[at] = (rounds[at] || count) - 1;
      own.painted = rounds;
      own.done = false;
      log.stroke(leaf, at, -1, false);
    }
    delete rings[leaf.id];
    asked = "";
    settle();
    tell(tally(stand(leaf)));
    show(leaf);
    if (document.activeElement === document.body) one(".do", leaf).focus({preventScroll: true});
  }
  function settle() {
    save();
    tick();
    retell();
  }

  // The foot of a step: how many figures are painted, and the one button for what comes next.
  function show(leaf) {
    const now = stand(leaf), {own, coats, count, coat, painted} = now, {title, dry} = leaf.dataset;
    const button = one(".do", leaf), strip = one(".strip", leaf), last = painted + 1 >= count;
    const what = !last ? t(coats > 1 ? "bench.figure-coat" : "bench.figure", {n: painted + 1, count, coat: coat + 1})
      : coat < coats - 1 ? t("bench.coat", {coat: coat + 1}) : data.words[count > 1 ? "bench.all-done" : "bench.done"];
    const hadFocus = button === document.activeElement;
    button.hidden = !!own.done;
    one(".on", leaf).hidden = !own.done;
    if (hadFocus && own.done) one(".on", leaf).focus({preventScroll: true});
    name(button, last && +dry ? t("bench.dries", {what, length: duration(+dry)}) : what, title);
    put(one(".count", leaf), count > 1 || coats > 1 ? tally(now) : "atOnce" in leaf.dataset && batch() > 1 ? t("bench.at-once", {n: batch()}) : "");
    strip.max = count;
    strip.value = painted;
    strip.setAttribute("aria-valuetext", tally(now));
    // Each figure has its own piece where that can still be seen.
    strip.style.setProperty("--of", count > 30 ? 1 : count);
    strip.style.setProperty("--done", painted / count);
    const ask = one(".ask", leaf), length = worked(leaf);
    ask.hidden = asked !== leaf.id || !length;
    put(one(".all-painting", ask), t("bench.all-painting", {length: duration(length * 60000)}));
    all("[data-less]", ask).forEach(less => { less.hidden = +less.dataset.less >= length; });
    strip.hidden = one(".every", leaf).hidden = count < 2 || !ask.hidden;
    one(".every", leaf).disabled = !!own.done;
    const back = one(".take-back", leaf).hidden = !((before[leaf.id] || []).length || own.done || coat || painted);
    one(".tally", leaf).hidden = back && !one(".count", leaf).textContent;
    leaf.classList.toggle("is-done", !!own.done);
  }

  // Clocks. What dries stands above every step, and a clock that rings goes on until somebody has heard it.
  const rings = {};
  function clockText(ms) {
    const seconds = Math.ceil(ms / 1000), pad = value => String(value).padStart(2, "0");
    const hours = Math.floor(seconds / 3600), minutes = Math.floor(seconds / 60) % 60;
    return (hours ? hours + ":" + pad(minutes) : minutes) + ":" + pad(seconds % 60);
  }
  const leftOf = leaf => of(leaf).dry - Date.now();
  const running = () => leaves.filter(leaf => of(leaf).dry && !of(leaf).heard).sort((a, b) => leftOf(a) - leftOf(b));
  const say = leaf => leftOf(leaf) > 0 ? t("bench.left", {left: clockText(leftOf(leaf))}) : data.words["bench.dry-now"];
  const short = leaf => leaf.dataset.title + " · " + (leftOf(leaf) > 0 ? clockText(leftOf(leaf)) : data.words["bench.dry-now"]);

  function start(leaf) {
    const own = of(leaf);
    if (!+leaf.dataset.dry) return;
    Object.assign(own, {dry: Date.now() + Number(leaf.dataset.dry), rang: false, heard: false, stopped: 0});
    delete rings[leaf.id];
    alarm.wake().then(tick);
    if (store.kept.asked || !alarm.mayAsk()) return;
    store.kept.asked = true;
    alarm.ask();
  }
  const hear = leaf => { remember(leaf); of(leaf).heard = true; settle(); show(leaf); };
  function bar(those) {
    const clocks = one(".clocks"), list = one("ul", clocks) || clocks.appendChild(document.createElement("ul")), heard = one(".heard"), [first, ...others] = those, ringing = first && leftOf(first) <= 0;
    clocks.hidden = !first;
    one(".bench-bar").classList.toggle("rings", !!ringing);
    heard.hidden = !ringing;
    document.title = ringing ? t("bench.rings", {step: first.dataset.title}) + " · " + pageTitle : pageTitle;
    if (!first) return;
    put(one(".first", clocks), short(first));
    put(one(".more", clocks), others.length ? t("bench.more", {n: others.length}) : "");
    if (ringing && heard.value !== first.id) {
      heard.value = first.id;
      name(heard, data.words["bench.heard"], first.dataset.title);
      heard.onclick = () => hear(first);
    }
    const shown = those.map(leaf => leaf.id).join();
    if (list.dataset.shown !== shown) {
      list.dataset.shown = shown;
      list.setAttribute("aria-label", clocks.dataset.label);
      list.replaceChildren(...those.map(leaf => {
        const row = document.createElement("li"), link = document.createElement("a");
        link.href = "#" + leaf.id;
        link.onclick = () => { clocks.open = false; };
        row.append(link);
        return row;
      }));
    }
    those.forEach((leaf, at) => put(list.children[at].firstChild, short(leaf)));
  }
  function tick() {
    const those = running(), now = Date.now();
    leaves.forEach(leaf => {
      const button = one(".timer", leaf), {dry, heard, stopped} = of(leaf);
      if (!button) return;
      const runs = dry && !heard && leftOf(leaf) > 0, {length} = button.dataset;
      const does = runs ? data.words["bench.stop"] : t(dry || stopped ? "bench.again" : "bench.start", {length});
      if (button.textContent !== does) name(button, does, leaf.dataset.title);
      put(one(".left", leaf), dry ? say(leaf) : "");
      one(".run-on", leaf).hidden = !stopped;
      leaf.classList.toggle("is-dry", !!dry && leftOf(leaf) <= 0);
    });
    bar(those);
    those.filter(leaf => leftOf(leaf) <= 0).forEach(leaf => {
      const own = of(leaf), rung = rings[leaf.id] = rings[leaf.id] || {times: 0, next: 0};
      if (now < rung.next) return;
      const text = t("bench.rings", {step: leaf.dataset.title});
      if (!rung.times) one(".alarm").textContent = text;
      if (!own.rang) {
        own.rang = true;
        save();
        alarm.note(text, leaf.id);
      }
      rung.times += 1;
      rung.loud = alarm.awake();
      rung.next = now + (rung.times < 5 ? 15000 : 60000);
      alarm.ring();
    });
  }

  function notes() {
    return leaves.map(leaf => {
      const {minutes, pot, note} = of(leaf);
      const said = [minutes && t("bench.took", {minutes}), pot && t("bench.used", {pot}), note].filter(Boolean);
      return said.length ? "## " + leaf.dataset.title + "\n" + said.join(" ") + "\n" : "";
    }).filter(Boolean).join("\n");
  }
  function retell() {
    const open = leaves.find(leaf => !of(leaf).done), link = one(".resume a"), begun = leaves.some(leaf => of(leaf).done || stand(leaf).rounds[0]);
    one(".all-notes").value = notes();
    one(".it-took").hidden = !log.any();
    one(".made").value = log.made(batch(), data.choice, mixed);
    Object.assign(one(".save-log"), {download: "log.csv"}).href = "data:text/csv;charset=utf-8," + encodeURIComponent(log.csv());
    put(one(".so-far"), t("bench.so-far", soFar()));
    if (!link) return;
    link.href = "#" + (open || ending).id;
    link.textContent = open ? t(begun ? "bench.resume" : "bench.begin", {n: open.dataset.n, step: open.dataset.title}) : data.words["bench.end"];
  }
  function sheet() {
    const n = batch(), times = window.guidegenClock.times(data.passes, n);
    all(".sheet [data-say]").forEach(place => { place.textContent = t(place.dataset.say, {n}); });
    all(".sheet [data-show]").forEach(place => { place.textContent = duration(times[place.dataset.show]); });
  }
  function showAll() {
    figures.value = batch();
    all("[data-keep]").forEach(field => { field.value = of(field.closest(".leaf"))[field.dataset.keep] || ""; });
    leaves.forEach(show);
    sheet();
    tick();
    retell();
  }

  leaves.forEach(leaf => {
    const strip = one(".strip", leaf), timer = one(".timer", leaf);
    let sliding = false;
    one(".do", leaf).onclick = () => { remember(leaf); paint(leaf, stand(leaf).painted + 1); };
    one(".every", leaf).onclick = () => { remember(leaf); paint(leaf, stand(leaf).count); };
    one(".take-back", leaf).onclick = () => takeBack(leaf);
    // While it slides only the strip moves; what it was let go at counts.
    strip.oninput = () => {
      if (!sliding) remember(leaf);
      sliding = true;
      strip.style.setProperty("--done", strip.value / strip.max);
    };
    strip.onchange = () => { sliding = false; paint(leaf, +strip.value); };
    all(".ask button", leaf).forEach(button => { button.onclick = () => answer(leaf, +button.dataset.less); });
    all("[data-keep]", leaf).forEach(field => {
      field.oninput = () => { of(leaf)[field.dataset.keep] = field.value; save(); retell(); };
    });
    if (!timer) return;
    timer.onclick = () => {
      const own = of(leaf), {length} = timer.dataset;
      remember(leaf);
      if (own.dry && !own.heard && leftOf(leaf) > 0) Object.assign(own, {stopped: own.dry, dry: 0});
      else start(leaf);
      settle();
      show(leaf);
      tell(t(own.dry ? "bench.started" : "bench.stopped", {step: leaf.dataset.title, length}));
    };
    one(".run-on", leaf).onclick = () => {
      const own = of(leaf);
      remember(leaf);
      Object.assign(own, {dry: own.stopped, stopped: 0});
      settle();
      show(leaf);
      timer.focus();
    };
  });
  figures.onchange = () => {
    if (!store.choose(+figures.value || planned)) one(".no-memory").hidden = false;
    showAll();
  };
  all(".copy, .copy-made").forEach(button => {
    const text = one("textarea", button.closest(".it-took, .noted"));
    button.onclick = () => {
      const copied = () => tell(button.nextElementSibling.textContent = data.words["bench.copied"]);
      const otherwise = () => { text.select(); if (document.execCommand("copy")) copied(); };
      if (navigator.clipboard) navigator.clipboard.writeText(text.value).then(copied, otherwise);
      else otherwise();
    };
  });

  // Whatever is cleared can be had back as long as the page is open.
  const undo = one(".undo");
  let cleared;
  const clear = keeps => () => {
    cleared = JSON.stringify(steps());
    leaves.forEach(leaf => {
      steps()[leaf.id] = Object.fromEntries(Object.entries(of(leaf)).filter(([name]) => keeps === ["minutes", "pot", "note"].includes(name)));
      delete rings[leaf.id];
      delete before[leaf.id];
    });
    done("bench.cleared", false);
  };
  function done(key, gone) {
    save();
    showAll();
    tell(one(".cleared").textContent = data.words[key]);
    undo.hidden = gone;
  }
  one(".begin-again").onclick = clear(true);
  one(".drop-notes").onclick = clear(false);
  undo.onclick = () => {
    store.kept.benches[benchName] = JSON.parse(cleared);
    one(".begin-again").focus();
    done("bench.undone", true);
  };

  const pages = leaves.concat(ending);
  addEventListener("keydown", event => {
    const {key, target} = event, back = getComputedStyle(target).direction === "rtl" ? "ArrowRight" : "ArrowLeft";
    const by = ["ArrowLeft", "ArrowRight"].includes(key) ? key === back ? -1 : 1 : {PageDown: 1, PageUp: -1}[key];
    if (!by || !onScreen() || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || target.closest("input, textarea")) return;
    const boxes = pages.map(page => page.getBoundingClientRect()), at = boxes.filter(box => box.top < innerHeight * .4).length - 1;
    // A page that is longer than the screen is first read to its end.
    if (key[0] === "P" && at >= 0 && boxes[at].height > innerHeight + 8 && (by > 0 ? boxes[at].bottom > innerHeight + 8 : boxes[at].top < -8)) return;
    const next = pages[at + by];
    if (!next) return;
    event.preventDefault();
    location.replace("#" + next.id);
  });
  addEventListener("hashchange", () => {
    if (!lock && onScreen()) stayAwake();
    log.turn();
    if (asked) {
      const leaf = leaves.find(each => each.id === asked);
      asked = "";
      show(leaf);
    }
    const heading = pages.filter(page => "#" + page.id === location.hash).map(page => one("h2", page))[0];
    if (heading) heading.focus({preventScroll: true});
  });
  store.follow(showAll);

  // Where the browser lets it, the screen stays on; where not, the page says so.
  let lock;
  const sleeps = key => { put(one(".awake"), data.words[key]); };
  const stayAwake = async () => {
    if (document.hidden || !onScreen()) return;
    try {
      lock = await navigator.wakeLock.request("screen");
      sleeps("bench.awake");
      if (lock) lock.onrelease = () => { lock = null; sleeps("bench.sleeps"); };
    } catch { sleeps("bench.sleeps"); }
  };
  // A touch wakes the sound, and what rang in silence, as after a reload, rings at once.
  ["pointerdown", "keydown"].forEach(type => addEventListener(type, () => {
    if (!lock) stayAwake();
    if (running().length && !alarm.awake()) alarm.wake().then(() => {
      Object.values(rings).forEach(rung => { if (!rung.loud) rung.next = 0; });
      tick();
    });
  }));
  document.addEventListener("visibilitychange", stayAwake);

  // A drawing shows what the step is about, with as much around it as tells where that is.
  const crop = marks => {
    const svg = marks.ownerSVGElement, whole = svg.viewBox.baseVal, {x, y, width, height} = marks.getBBox();
    const full = Math.max(whole.width, whole.height), view = Math.max(Math.max(width, height) * 1.25, full * .45);
    const left = x + width / 2 - view / 2, top = y + height / 2 - view / 2;
    if (!width || view >= full) return;
    svg.setAttribute("viewBox", [left, top, view, view].join(" "));
    all("[stroke-width]", marks).forEach(line => line.setAttribute("stroke-width", line.getAttribute("stroke-width") * view / full));
  };
  // Each before it comes to the screen, since finding where its areas are has the whole drawing laid out.
  const near = new IntersectionObserver(those => those.filter(each => each.isIntersecting).forEach(({target}) => {
    near.unobserve(target);
    all(".marks", target).forEach(crop);
  }), {rootMargin: "200% 0px"});
  all(".leaf > div > .drawn").forEach(drawn => near.observe(drawn));
  all(".bench-tools").forEach(tools => { tools.hidden = false; });
  if (matchMedia("(min-width: 44rem) and (min-height: 44rem)").matches) all(".take-care").forEach(each => { each.open = true; });
  showAll();
  save();
  // Once the page is laid out: to ask earlier whether it is seen would have the browser do both in one go.
  requestAnimationFrame(() => setTimeout(stayAwake));
  setInterval(tick, 1000);
})();
