/* The few colours that a picture is made of, as guidegen/computing/colour/clusters.py finds them: k-means in CIELAB over
   its cells. `data` are the pixels of an upright sRGB picture, four bytes each. */
window.guidegenClusters = (colours, data, width, height, count, {cells: CELLS, most, rounds}) => {
  const levels = Array.from({length: 256}, (_, level) => colours.linearOf("#" + level.toString(16).padStart(2, "0").repeat(3))[0]);
  const edges = pixels => { const n = Math.min(CELLS, pixels); return Array.from({length: n + 1}, (_, cell) => Math.floor(cell * pixels / n)); };
  const across = edges(width), down = edges(height), cells = [];
  for (let row = 0; row + 1 < down.length; row++) for (let column = 0; column + 1 < across.length; column++) {
    const sum = [0, 0, 0];
    for (let y = down[row]; y < down[row + 1]; y++) for (let at = 4 * (y * width + across[column]), end = 4 * (y * width + across[column + 1]); at < end; at += 4)
      for (let c = 0; c < 3; c++) sum[c] += levels[data[at + c]];
    const size = (down[row + 1] - down[row]) * (across[column + 1] - across[column]);
    cells.push(colours.labOfLinear(sum.map(value => value / size)));
  }
  const squared = (one, two) => { const a = one[0] - two[0], b = one[1] - two[1], c = one[2] - two[2]; return a * a + b * b + c * c; };
  const farthest = away => away.reduce((best, value, at) => value > away[best] ? at : best, 0);
  const mean = [0, 1, 2].map(axis => cells.reduce((sum, cell) => sum + cell[axis], 0) / cells.length);
  const centres = [[...cells[farthest(cells.map(cell => squared(cell, mean)))]]];
  for (let away = cells.map(cell => squared(cell, centres[0])); centres.length < Math.min(count, most);) {
    const at = farthest(away);
    if (!(away[at] > 0)) break;
    centres.push([...cells[at]]);
    away = away.map((value, n) => Math.min(value, squared(cells[n], cells[at])));
  }
  let before = null, counts = [];
  for (let round = 0; round < rounds; round++) {
    const nearest = cells.map(cell => centres.reduce((best, centre, n) => squared(cell, centre) < squared(cell, centres[best]) ? n : best, 0));
    if (before && nearest.every((place, n) => place === before[n])) break;
    before = nearest;
    counts = centres.map(() => 0);
    const sums = centres.map(() => [0, 0, 0]);
    nearest.forEach((place, n) => { counts[place]++; for (let c = 0; c < 3; c++) sums[place][c] += cells[n][c]; });
    centres.forEach((centre, n) => { if (counts[n]) for (let c = 0; c < 3; c++) centre[c] = sums[n][c] / counts[n]; });
  }
  return counts.map((size, n) => [size, n]).filter(([size]) => size).sort((one, two) => two[0] - one[0])
    .map(([size, n]) => ({colour: colours.hexOfLab(centres[n]), share: Math.round(size / cells.length * 1e4) / 1e4}));
};
