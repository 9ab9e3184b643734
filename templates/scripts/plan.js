/* A plan's jobs ticked off, kept in this browser only, by figure: so they stay where sittings are cut otherwise later. */
(function () {
  "use strict";
  const bar = document.querySelector(".ticks");
  if (!bar) return;
  const key = bar.dataset.store, next = bar.querySelector("a");
  let done = {};
  try {
    const kept = JSON.parse(localStorage.getItem(key));
    if (kept && typeof kept === "object") for (const [work, figures] of Object.entries(kept)) if (Array.isArray(figures)) done[work] = figures;
  } catch { done = {}; }
  const jobs = [...document.querySelectorAll(".job")].map(row => {
    const box = document.createElement("input"), {work, first, last} = row.dataset, figures = [];
    for (let n = +first; n <= +last; n += 1) figures.push(n);
    box.type = "checkbox";
    box.setAttribute("aria-label", row.textContent.replace(/\s+/g, " ").trim());
    box.checked = figures.every(n => (done[work] || []).includes(n));
    row.firstElementChild.after(box);
    return {row, box, work, figures};
  });
  const show = () => {
    const ticked = jobs.filter(job => job.box.checked), open = jobs.find(job => !job.box.checked);
    jobs.forEach(job => job.row.classList.toggle("done", job.box.checked));
    bar.firstElementChild.textContent = bar.dataset.say.replace("{done}", ticked.length).replace("{all}", jobs.length);
    next.parentElement.hidden = !open;
    if (!open) return;
    const sitting = open.row.closest(".sitting");
    next.hash = sitting.id;
    next.textContent = sitting.querySelector("time").textContent + ", " + open.row.querySelector("time").textContent + ": " + open.row.querySelector(".what").textContent;
  };
  jobs.forEach(({row, box, work, figures}) => {
    box.addEventListener("change", () => {
      const others = (done[work] || []).filter(n => !figures.includes(n));
      done[work] = box.checked ? others.concat(figures) : others;
      // Where nothing may be kept, the ticks last as long as the page is open.
      try { localStorage.setItem(key, JSON.stringify(done)); } catch { /* nothing to do about it */ }
      show();
    });
    // Wet hands hit the line more surely than the box.
    row.addEventListener("click", event => { if (!event.target.closest("a, input")) box.click(); });
  });
  document.querySelectorAll(".sitting").forEach(sitting => {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "print-sitting";
    button.textContent = bar.dataset.print;
    button.setAttribute("aria-label", bar.dataset.print + ": " + sitting.querySelector("h3 time").textContent);
    sitting.append(button);
    // What is left open by a sheet that was never printed is closed by the next.
    button.addEventListener("click", () => {
      document.querySelectorAll(".alone").forEach(one => one.classList.remove("alone"));
      sitting.classList.add("alone");
      sitting.classList.toggle("many", sitting.querySelectorAll(".job").length > 12);
      document.documentElement.classList.add("one-sitting");
      print();
    });
  });
  addEventListener("afterprint", () => document.documentElement.classList.remove("one-sitting"));
  bar.parentElement.classList.add("ticking");
  bar.hidden = false;
  show();
})();
