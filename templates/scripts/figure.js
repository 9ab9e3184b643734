/* A figure chart drawn in the browser, as guidegen/rendering/guide/chart_pictures.py draws it: flats, recesses and raised
   edges by the state of each area. `paint` may turn every colour into another before it is drawn. */
window.guidegenDrawing = (chart, id) => {
  const BAND = .012, [left, top, wide, high] = chart.box, escape = text => text.replace(/[&<>"]/g, sign => `&#${sign.charCodeAt(0)};`);
  const own = new Set(chart.pieces.filter(([, part]) => part !== "flats").map(([area]) => area)), banded = area => area && !own.has(area);
  const viewBox = chart.box.join(" "), defs = "<defs>" +
    `<linearGradient id="${id}-sheen" x1="0" y1="0" x2="1" y2="1"><stop offset=".3" stop-color="#fff" stop-opacity="0"/><stop offset=".45" stop-color="#fff" stop-opacity=".45"/><stop offset=".55" stop-color="#fff" stop-opacity="0"/><stop offset=".8" stop-color="#000" stop-opacity=".25"/></linearGradient>` +
    `<linearGradient id="${id}-shine" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#fff" stop-opacity=".35"/><stop offset=".3" stop-color="#fff" stop-opacity="0"/></linearGradient>` +
    chart.pieces.map(([area, , markup], n) => `<g id="${id}${n}">${markup}</g>` + (banded(area) ? `<clipPath id="${id}${n}c">${markup}</clipPath>` : "")).join("") + "</defs>";

  function piece([area, part], n, state, paint) {
    const link = `#${id}${n}`, use = fill => `<use href="${link}" fill="${fill}"/>`;
    if (!area) return `<use href="${link}"/>`;
    const relief = state && state.relief, flats = relief && relief.flats;
    if (!flats) return use(relief && part === "edge" && relief.edges ? paint(relief.edges) : paint(chart.ground));
    const fills = {flats: paint(flats), recess: paint(relief.recesses || flats), edge: paint(relief.edges || flats)};
    let drawn = use(fills[part]);
    if (banded(area) && new Set(Object.values(fills)).size > 1) {
      const move = high * BAND, clip = `url(${link}c)`, flat = `<use href="${link}" transform="translate(0 ${2 * move})" fill="${fills.flats}"/>`;
      drawn = use(fills.recess) + `<g clip-path="${clip}"><g transform="translate(0 -${move})">${use(fills.edge)}<g clip-path="${clip}">${flat}</g></g></g>`;
    }
    if (part === "edge" ? state.metalEdges : state.metal) drawn += use(`url(#${id}-sheen)`);
    else if (state.finish === "gloss" && part === "flats") drawn += use(`url(#${id}-shine)`);
    return drawn;
  }
  const body = (states, paint = colour => colour) => chart.pieces.map((one, n) => {
    const drawn = piece(one, n, states[one[0]], paint);
    return one[0] ? `<g data-area="${escape(one[0])}">${drawn}</g>` : drawn;
  }).join("");

  // How much of the drawing each area is, and which of them touch, with no more than a line of ink between.
  async function measured() {
    const colour = n => "#" + (n + 1).toString(16).padStart(6, "0"), height = 280, width = Math.max(1, Math.round(height * wide / high)), gap = Math.ceil(height * .022);
    const flat = chart.pieces.map(([area], n) => `<g fill="${area ? colour(chart.areas.indexOf(area)) : "#ffffff"}">${chart.pieces[n][2].replace(/\sfill="[^"]*"/g, area ? "" : ' fill="#ffffff"')}</g>`).join("");
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${viewBox}" width="${width}" height="${height}" shape-rendering="crispEdges">${flat}</svg>`;
    const image = new Image();
    image.src = "data:image/svg+xml," + encodeURIComponent(svg);
    await image.decode();
    const canvas = Object.assign(document.createElement("canvas"), {width, height}), context = canvas.getContext("2d", {willReadFrequently: true});
    context.drawImage(image, 0, 0, width, height);
    const {data} = context.getImageData(0, 0, width, height), areas = new Int16Array(width * height), pixels = chart.areas.map(() => 0), meets = new Map();
    for (let i = 0; i < areas.length; i++) {
      const value = data[4 * i + 3] < 255 ? 0 : data[4 * i] << 16 | data[4 * i + 1] << 8 | data[4 * i + 2];
      areas[i] = value && value <= pixels.length ? value : 0;
      if (areas[i]) pixels[areas[i] - 1]++;
    }
    const look = (from, step, room) => {
      for (let far = 1, at = from + step; far <= Math.min(gap, room); far++, at += step) {
        if (!areas[at]) continue;
        if (areas[at] !== areas[from]) {
          const key = [areas[from] - 1, areas[at] - 1].sort((a, b) => a - b).join();
          meets.set(key, (meets.get(key) || 0) + 1);
        }
        return;
      }
    };
    for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) {
      const at = y * width + x;
      if (!areas[at]) continue;
      look(at, 1, width - 1 - x);
      look(at, width, height - 1 - y);
    }
    const all = pixels.reduce((sum, n) => sum + n, 0) || 1;
    return {shares: Object.fromEntries(chart.areas.map((area, n) => [area, pixels[n] / all])),
      touching: [...meets].filter(([, n]) => n >= 4).map(([key]) => key.split(",").map(n => chart.areas[+n]))};
  }
  return {viewBox, defs, body, measured, left, top, wide, high};
};

/* The area at a place of the page. A finger is broad: what lies nearest is meant. */
window.guidegenAreaAt = (x, y) => {
  for (const far of [0, 8, 16]) for (let turn = 0; turn < (far ? 8 : 1); turn++) {
    const hit = document.elementFromPoint(x + far * Math.cos(turn * Math.PI / 4), y + far * Math.sin(turn * Math.PI / 4)), area = hit && hit.closest(".try-figure [data-area]");
    if (area) return area.dataset.area;
  }
  return "";
};
