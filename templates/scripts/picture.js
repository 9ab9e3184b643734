/* Colours from a picture of the reader's own machine: it is never sent anywhere. A touch takes the colour there, and so do
   keys with a sight; the few that most of it is made of stand beside. */
window.guidegenPicture = ({t, make, dab, button, colours, how, near}) => {
  const MOST_PIXELS = 60e6, AROUND = 2, FAR = 10, ARROWS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]}, place = one(".try-from-picture"), canvas = one("canvas", place), told = one(".try-picture-told", place), seen = one(".try-seen", place);
  const sight = one(".try-sight", place);
  let at = [50, 50]; // in hundredths of the picture
  const choice = (colour, text) => {
    const item = make("li"), pick = button("", "", "", () => near(colour));
    pick.append(dab(colour), " " + text);
    item.append(pick);
    return item;
  };
  async function show(file) {
    told.textContent = "";
    seen.replaceChildren();
    canvas.hidden = true;
    try {
      const bitmap = await createImageBitmap(file), {width, height} = bitmap;
      if (width * height > MOST_PIXELS) throw new Error("large");
      Object.assign(canvas, {width, height});
      const context = canvas.getContext("2d", {willReadFrequently: true});
      // What is see-through shows white.
      context.fillStyle = "#fff";
      context.fillRect(0, 0, width, height);
      context.drawImage(bitmap, 0, 0);
      const {data} = context.getImageData(0, 0, width, height);
      seen.append(...guidegenClusters(colours, data, width, height, how.most, how).map(({colour, share}) => choice(colour, `${Math.round(share * 100)} %`)));
      canvas.hidden = false;
    } catch { told.textContent = t("try.no-picture"); }
  }
  // At a part of its width and height.
  function colourAt(across, down) {
    const context = canvas.getContext("2d"), x = Math.floor(across * canvas.width), y = Math.floor(down * canvas.height);
    const {data} = context.getImageData(x - AROUND, y - AROUND, 2 * AROUND + 1, 2 * AROUND + 1), sum = [0, 0, 0];
    let count = 0;
    for (let at = 0; at < data.length; at += 4) {
      if (!data[at + 3]) continue; // beyond the edge
      count++;
      colours.linearOf("#" + [0, 1, 2].map(c => data[at + c].toString(16).padStart(2, "0")).join("")).forEach((light, c) => { sum[c] += light; });
    }
    return colours.hexOfLinear(sum.map(light => light / Math.max(1, count)));
  }
  function pick(colour) {
    told.textContent = t("try.picked", {colour});
    near(colour);
  }
  function aim([x, y]) {
    at = [x, y].map(part => Math.min(100, Math.max(0, part)));
    const [across, down] = at, colour = colourAt(across / 100, down / 100);
    Object.assign(sight.style, {left: across + "%", top: down + "%", background: colour});
    return colour;
  }
  canvas.addEventListener("focus", () => aim(at));
  canvas.addEventListener("keydown", event => {
    if (event.key === "Enter" || event.key === " ") pick(aim(at));
    else if (event.key in ARROWS) {
      const colour = aim(at.map((part, n) => part + ARROWS[event.key][n] * (event.shiftKey ? FAR : 1)));
      told.textContent = t("try.sight", {colour, across: at[0], down: at[1]});
    } else return;
    event.preventDefault();
  });
  one("input", place).addEventListener("change", event => { if (event.target.files[0]) show(event.target.files[0]); });
  canvas.addEventListener("click", event => {
    const box = canvas.getBoundingClientRect();
    pick(colourAt((event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height));
  });
};
