/* Colours from a picture of the reader's own machine: it is never sent anywhere. A touch takes the colour there; the few
   that most of it is made of stand beside. */
window.guidegenPicture = ({t, make, dab, button, colours, how, near}) => {
  const MOST_PIXELS = 60e6, AROUND = 2, place = one(".try-from-picture"), canvas = one("canvas", place), told = one(".try-picture-told", place), seen = one(".try-seen", place);
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
  function pick(event) {
    const box = canvas.getBoundingClientRect(), context = canvas.getContext("2d");
    const x = Math.floor((event.clientX - box.left) * canvas.width / box.width), y = Math.floor((event.clientY - box.top) * canvas.height / box.height);
    const {data} = context.getImageData(x - AROUND, y - AROUND, 2 * AROUND + 1, 2 * AROUND + 1), sum = [0, 0, 0];
    let count = 0;
    for (let at = 0; at < data.length; at += 4) {
      if (!data[at + 3]) continue; // beyond the edge
      count++;
      colours.linearOf("#" + [0, 1, 2].map(c => data[at + c].toString(16).padStart(2, "0")).join("")).forEach((light, c) => { sum[c] += light; });
    }
    near(colours.hexOfLinear(sum.map(light => light / Math.max(1, count))));
  }
  one("input", place).addEventListener("change", event => { if (event.target.files[0]) show(event.target.files[0]); });
  canvas.addEventListener("click", pick);
};
