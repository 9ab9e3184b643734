/* A guide sent as one file: a tick for each step, kept by the reader's browser under the guide's name. */
(() => {
  const find = (css, root = document) => [...root.querySelectorAll(css)];
  // A photo that is shown more than once is kept once in the file, as a drawing that needs no script. Here it becomes
  // a picture like the others, to be opened large and saved.
  find(".again").forEach(drawn => {
    const picture = new Image(), side = name => +drawn.getAttribute(name);
    picture.alt = drawn.getAttribute("aria-label") || "";
    picture.width = side("width");
    picture.height = side("height");
    picture.src = find(find("use", drawn)[0].getAttribute("href"))[0].getAttribute("href");
    drawn.replaceWith(picture);
  });
  const block = find("#sent-data")[0], steps = find(".step[id]");
  if (!block || !steps.length) return;
  const {key, done, clear} = JSON.parse(block.textContent), name = "guidegen sent " + key;
  let kept = [];
  try { kept = JSON.parse(localStorage.getItem(name)) || []; } catch { /* a private window: for this visit only */ }
  const forget = document.createElement("button");
  const save = () => {
    kept = steps.filter(step => step.classList.contains("is-done")).map(step => step.id);
    forget.hidden = !kept.length;
    try { localStorage.setItem(name, JSON.stringify(kept)); } catch { /* the same */ }
  };
  const boxes = steps.map(step => {
    const label = document.createElement("label"), box = document.createElement("input");
    label.className = "tick";
    box.type = "checkbox";
    box.setAttribute("aria-describedby", step.getAttribute("aria-labelledby"));
    box.onchange = () => { step.classList.toggle("is-done", box.checked); save(); };
    box.checked = kept.includes(step.id);
    step.classList.toggle("is-done", box.checked);
    label.append(box, " ", done);
    find("h3", step)[0].after(label);
    return box;
  });
  forget.type = "button";
  forget.className = "forget";
  forget.textContent = clear;
  forget.onclick = () => boxes.forEach(box => { if (box.checked) box.click(); });
  find("#ending .body")[0]?.append(forget);
  save();
})();
