/* A plan's jobs ticked off. Ticks are the bench's own counts of painted figures, kept by guide, unit and batch, so that both
   pages show the same, and they stay where sittings are cut otherwise later. */
(() => {
  const block = one("#plan-data"), bar = one(".ticks");
  if (!block || !bar) return;
  const {plan, units, words} = JSON.parse(block.textContent), next = one("a", bar), more = one(".move-on");
  const batches = units.flatMap(unit => unit.batches.map((batch, at) => ({...batch, unit, number: at + 1, store: window.guidegenStore(batch.key)})));
  const batchOf = (unit, number) => batches.find(batch => batch.unit.n === unit && batch.number === number);

  // What is kept of a step of a batch, and how many figures have had each coat. A mixed batch is painted at several benches,
  // which keep it together.
  function own(batch, step) {
    const {kept, record} = batch.store, benches = kept.benches = record(kept.benches), name = batch.mixed ? "mixed" : step.page;
    const page = benches[name] = record(benches[name]);
    return page[step.id] = record(page[step.id]);
  }
  function rounds(batch, step) {
    const {done, painted} = own(batch, step), count = batch.counts[batch.unit.steps.indexOf(step)];
    return Array.from({length: step.coats}, (_, at) => done || step.n <= batch.behind ? count : Math.min(count, Math.max(0, Math.floor((Array.isArray(painted) ? painted : [])[at]) || 0)));
  }
  const whole = (batch, step) => rounds(batch, step).every(n => n >= batch.counts[batch.unit.steps.indexOf(step)]);

  const jobs = all(".job").map(row => {
    const box = document.createElement("input"), {unit, batch, n, coat, from, to} = row.dataset, mine = batchOf(+unit, +batch);
    const step = mine.unit.steps.find(each => each.n === +n), job = {row, box, batch: mine, step, coat: coat - 1, from: +from, to: +to};
    box.type = "checkbox";
    box.setAttribute("aria-label", row.textContent.replace(/\s+/g, " ").trim());
    row.firstElementChild.after(box);
    if (mine.unit.bench) {
      const place = document.createElement("span");
      place.className = "to-bench";
      job.link = document.createElement("a");
      job.link.textContent = words["plan.bench"];
      job.link.setAttribute("aria-label", words["plan.bench"] + ": " + one(".what", row).textContent);
      place.append(" · ", job.link);
      one(".which", row).append(place);
    }
    return job;
  });
  const address = ({batch, step}) => {
    const {unit, number, figures, mixed, store} = batch, page = mixed && !step.own ? batch.page : step.page;
    const fewer = unit.steps.flatMap((each, at) => each.own && batch.counts[at] ? each.id + ":" + batch.counts[at] : []).join(",");
    const mixture = mixed ? "&own=" + fewer + "&mixed=" + encodeURIComponent(JSON.stringify(mixed)) : "";
    return unit.bench + (page === "index" ? "bench" : "bench-" + page) + ".html?unit=" + unit.place + "&batch=" + number + "&figures=" + figures + mixture + "#" + step.id + store.ticks();
  };
  const show = () => {
    jobs.forEach(job => { job.box.checked = rounds(job.batch, job.step)[job.coat] >= job.to; });
    const ticked = jobs.filter(job => job.box.checked), open = jobs.find(job => !job.box.checked);
    jobs.forEach(job => {
      job.row.classList.toggle("done", job.box.checked);
      if (job.link) job.link.href = address(job);
    });
    one("output", bar).textContent = words["plan.ticked"].replace("{done}", ticked.length).replace("{all}", jobs.length);
    next.parentElement.hidden = !open;
    one("textarea", more).value = lines();
    if (!open) return;
    const sitting = open.row.closest(".sitting");
    next.hash = sitting.id;
    next.textContent = one("time", sitting).textContent + ", " + one("time", open.row).textContent + ": " + one(".what", open.row).textContent;
  };
  function tick({box, batch, step, coat, from, to}) {
    const painted = rounds(batch, step), mine = own(batch, step);
    painted[coat] = box.checked ? Math.max(painted[coat], to) : Math.min(painted[coat], from);
    mine.painted = painted;
    mine.done = false;
    mine.done = whole(batch, step);
    // Where nothing may be kept, the ticks last as long as the page is open.
    batch.store.save();
    show();
  }

  // The lines that a plan goes on by: from now, and for each unit the last step that all of a batch has behind it.
  function reached(batch) {
    const {steps} = batch.unit, open = steps.findIndex((step, at) => batch.counts[at] && !whole(batch, step));
    const behind = steps.slice(0, open < 0 ? steps.length : open).filter(step => step.title && batch.counts[steps.indexOf(step)]);
    return behind.length ? behind[behind.length - 1].title : "";
  }
  function lines() {
    const now = new Date(Math.ceil(Date.now() / 300000) * 300000), pad = n => String(n).padStart(2, "0");
    const from = "from: " + now.getFullYear() + "-" + pad(now.getMonth() + 1) + "-" + pad(now.getDate()) + "T" + pad(now.getHours()) + ":" + pad(now.getMinutes());
    return [from].concat(units.flatMap(unit => {
      const titles = unit.batches.map((_, at) => reached(batchOf(unit.n, at + 1)));
      if (!titles.some(Boolean)) return [];
      const alike = titles.every(title => title === titles[0]);
      const each = titles.flatMap((title, at) => title ? at + 1 + ": " + JSON.stringify(title) : []);
      return ["# " + unit.name, "done: " + (alike ? JSON.stringify(titles[0]) : "{" + each.join(", ") + "}")];
    })).join("\n") + "\n";
  }

  const button = (text, className, does) => {
    const made = document.createElement("button");
    made.type = "button";
    made.className = className;
    made.textContent = text;
    made.addEventListener("click", does);
    return made;
  };
  jobs.forEach(job => {
    job.box.addEventListener("change", () => tick(job));
    // Wet hands hit the line more surely than the box.
    job.row.addEventListener("click", event => { if (!event.target.closest("a, input")) job.box.click(); });
  });
  all(".sitting").forEach(sitting => {
    const print = words["plan.print-sitting"], made = button(print, "print-sitting", () => {
      all(".alone").forEach(each => each.classList.remove("alone"));
      sitting.classList.add("alone");
      const count = all(".job", sitting).length;
      sitting.classList.toggle("many", count > 12);
      sitting.classList.toggle("crowded", count > 32);
      document.documentElement.classList.add("one-sitting");
      window.print();
    });
    made.setAttribute("aria-label", print + ": " + one("h3 time", sitting).textContent);
    sitting.append(made);
  });
  addEventListener("afterprint", () => document.documentElement.classList.remove("one-sitting"));
  const copied = document.createElement("span"), text = one("textarea", more);
  copied.setAttribute("role", "status");
  one("label", more).after(button(words["plan.copy"], "copy", () => {
    const say = () => { copied.textContent = words["plan.copied"]; };
    const otherwise = () => { text.select(); if (document.execCommand("copy")) say(); };
    text.value = lines();
    if (navigator.clipboard) navigator.clipboard.writeText(text.value).then(say, otherwise);
    else otherwise();
  }), " ", copied);

  // From the bench of a page on the disk, whose store may be another, ticks come with the link.
  const brought = /[#&]batch=([^&]+)/.exec(location.hash);
  const home = brought && batches.find(batch => batch.unit.place + ":" + batch.number === brought[1]);
  if (home) home.store.take();
  batches.forEach(batch => batch.store.follow(show));
  bar.parentElement.classList.add("ticking");
  bar.hidden = more.hidden = false;
  show();
})();
