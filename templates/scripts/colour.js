/* Colours, their differences, mixtures and layers: the twin of guidegen/computing/colour, which names the sources. Numbers
   and tables come from there when the site is built (window.guidegenColourTables, put in front of this file). No page, no
   store, no clock. What stands in for a colour out of some pots follows in recipes.js.

   A colour is "#rrggbb", LAB [L*, a*, b*], light [r, g, b] linear, 0..1; a relief {edges, flats, recesses} of colours or
   null. A pot is any object with name (unique) and colour, and where they are known kind, binder, comes_as, strength, owned,
   discontinued, let_down {colour, paint_parts, white_parts, white: a colour, null for an ideal white, or "unknown"}.

     isColour(text), linearOf(colour), hexOfLinear(light), labOf(colour), labOfLinear(light), lightOfLab(lab), hexOfLab(lab)
     deltaE(lab, lab), difference(colour, colour) to four decimals, word(de00) as in phrases close.*
     directions(colour, wanted)        lighter|darker, warmer|cooler, brighter|duller: those that are worth a word
     seen(kind, colour)                to protan, deutan or tritan eyes; inGrey(colour) the grey as light
     curve(colour)                     36 bands of reflectance
     constants(pot)                    its K and S: {absorbs, scatters}
     lightOfParts([[pot, parts], …])   linear light, which may lie outside 0..1
     mix([[pot, parts], …])            {colour, lab, clipped} of coloured pots that are no metals
     relief(colour), film(relief, colour, {strength, technique, share, overGloss, coats}) */
window.guidegenColour = (() => {
  "use strict";
  const T = window.guidegenColourTables, {min, max, abs, sqrt, hypot, floor, exp, log, sin, cos, tanh, atan2, PI} = Math;
  const rounded = value => Math.round(value * 1e4) / 1e4;
  const sum = list => list.reduce((all, one) => all + one, 0);
  const times = (matrix, [x, y, z]) => matrix.map(row => row[0] * x + row[1] * y + row[2] * z);

  // sRGB, linear light, CIELAB.
  const decoded = value => value <= .04045 ? value / 12.92 : ((value + .055) / 1.055) ** 2.4;
  const encoded = light => light <= .0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - .055;
  const inside = value => min(1, max(0, value));
  const isColour = text => typeof text === "string" && /^#[0-9a-f]{6}$/.test(text);
  const linearOf = colour => [1, 3, 5].map(at => decoded(parseInt(colour.slice(at, at + 2), 16) / 255));
  const hexOfLinear = light => "#" + light.map(value => floor(encoded(inside(value)) * 255 + .5).toString(16).padStart(2, "0")).join("");
  const BEND = 6 / 29, BENT = BEND ** 3, bent = ratio => ratio > BENT ? Math.cbrt(ratio) : ratio / (3 * BEND ** 2) + 4 / 29;
  function labOfLinear(light) {
    const [x, y, z] = times(T.toXyz, light), [wx, wy, wz] = T.white, fx = bent(x / wx), fy = bent(y / wy), fz = bent(z / wz);
    return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
  }
  const labOf = colour => labOfLinear(linearOf(colour));
  function lightOfLab([lightness, a, b]) {
    const middle = (lightness + 16) / 116;
    return times(T.toLinear, [middle + a / 500, middle, middle - b / 200].map((f, at) => T.white[at] * (f > BEND ? f ** 3 : 3 * BEND ** 2 * (f - 4 / 29))));
  }
  const hexOfLab = lab => hexOfLinear(lightOfLab(lab));

  // CIEDE2000; the numbers are the equations of Sharma, Wu, Dalal (2005).
  const SEVENTH = 25 ** 7, DEGREE = PI / 180;
  function deltaE(one, two) {
    const l1 = one[0], b1 = one[2], l2 = two[0], b2 = two[2];
    const c7 = (.5 * (hypot(one[1], b1) + hypot(two[1], b2))) ** 7, stretch = 1.5 - .5 * sqrt(c7 / (c7 + SEVENTH)); // (2)–(4)
    const a1 = stretch * one[1], a2 = stretch * two[1], c1 = hypot(a1, b1), c2 = hypot(a2, b2); // (5), (6)
    const h1 = (atan2(b1, a1) + 2 * PI) % (2 * PI), h2 = (atan2(b2, a2) + 2 * PI) % (2 * PI); // (7)
    const turn = h2 - h1, far = abs(turn) > PI + 1e-9, dh = far ? turn - (turn < 0 ? -2 : 2) * PI : turn; // (10)
    const total = h1 + h2, meanL = .5 * (l1 + l2), meanC = .5 * (c1 + c2); // (12), (13)
    const meanH = c1 * c2 === 0 ? total : .5 * (far ? total + (total < 2 * PI ? 2 : -2) * PI : total); // (14)
    const t = 1 - .17 * cos(meanH - PI / 6) + .24 * cos(2 * meanH) + .32 * cos(3 * meanH + PI / 30) - .2 * cos(4 * meanH - 63 * DEGREE); // (15)
    const tilt = 30 * DEGREE * exp(-(((meanH / DEGREE - 275) / 25) ** 2)), power = meanC ** 7; // (16)
    const off = (meanL - 50) ** 2;
    const x = (l2 - l1) / (1 + .015 * off / sqrt(20 + off)), y = (c2 - c1) / (1 + .045 * meanC); // (18), (19)
    const z = 2 * sqrt(c1 * c2) * sin(.5 * dh) / (1 + .015 * meanC * t); // (11), (20)
    return sqrt(max(0, x * x + y * y + z * z - sin(2 * tilt) * 2 * sqrt(power / (power + SEVENTH)) * y * z)); // (17), (21), (22)
  }
  const difference = (one, two) => rounded(deltaE(labOf(one), labOf(two)));
  const word = de00 => (T.words.find(([limit]) => de00 < limit) || [0, "unlike"])[1];

  function directions(colour, wanted) {
    const [l1, a1, b1] = labOf(wanted), [l2, a2, b2] = labOf(colour), c1 = hypot(a1, b1), c2 = hypot(a2, b2), D = T.directions;
    const warmest = D.warmest, grey = min(c1, c2) < D.grey;
    const warmth = grey ? (a2 - a1) * cos(warmest) + (b2 - b1) * sin(warmest)
      : .5 * (c1 + c2) * (cos(atan2(b2, a2) - warmest) - cos(atan2(b1, a1) - warmest));
    const told = [[l2 - l1, D.lightness, "lighter", "darker"], [warmth, D.warmth, "warmer", "cooler"], [c2 - c1, D.chroma, "brighter", "duller"]];
    // Between a grey and a tinge of colour the first two say it all.
    return told.slice(0, grey && abs(warmth) >= D.warmth ? 2 : 3).filter(([by, limit]) => abs(by) >= limit).map(([by, , more, less]) => by > 0 ? more : less);
  }

  const seen = (kind, colour) => hexOfLinear(times(T.vision[kind], linearOf(colour)));
  const inGrey = colour => hexOfLab([labOf(colour)[0], 0, 0]);

  // The smoothest curve of a colour: Newton's method on the Lagrangian, as reflectance.py says.
  const BANDS = T.curves[0].length, LEAST = 1e-4, SETTLED = 1e-9, SHIFT = 1e-6;
  const luminance = light => sum(light.map((value, at) => value * T.luminance[at]));
  function equations(z, pull, wanted) {
    const right = [0, 1, 2, 3].map(() => new Float64Array(BANDS)), [slope, ...jacobian] = right, pivots = new Float64Array(BANDS);
    const short = wanted.map(value => -value);
    for (let k = 0; k < BANDS; k++) {
      const t = tanh(z[k]), first = .5 * (1 - t * t);
      let along = 0;
      for (let c = 0; c < 3; c++) {
        along += T.curves[c][k] * pull[c];
        jacobian[c][k] = T.curves[c][k] * first;
        short[c] += T.curves[c][k] * .5 * (t + 1);
      }
      slope[k] = along * first + (k ? 2 * (z[k] - z[k - 1]) : 0) - (k < BANDS - 1 ? 2 * (z[k + 1] - z[k]) : 0);
      pivots[k] = (k && k < BANDS - 1 ? 4 : 2) + SHIFT - 2 * t * first * along;
    }
    const residual = max(...short.map(abs), ...slope.map(abs)), kept = jacobian.map(row => row.slice());
    // The second derivatives are tridiagonal, −2 beside the diagonal.
    for (let k = 1; k < BANDS; k++) {
      const half = 2 / pivots[k - 1];
      pivots[k] -= 2 * half;
      for (const column of right) column[k] += half * column[k - 1];
    }
    for (const column of right)
      for (let k = BANDS - 1; k >= 0; k--) column[k] = (column[k] + (k < BANDS - 1 ? 2 * column[k + 1] : 0)) / pivots[k];
    const dot = (one, two) => { let all = 0; for (let k = 0; k < BANDS; k++) all += one[k] * two[k]; return all; };
    const s = kept.map(row => jacobian.map(column => dot(row, column))), y = kept.map((row, c) => short[c] - dot(row, slope));
    // What is left for the multipliers, L·D·Lᵀ.
    const [low0, low1] = [s[0][1] / s[0][0], s[0][2] / s[0][0]], d1 = s[1][1] - low0 * s[0][1], rest = s[1][2] - low0 * s[0][2], low2 = rest / d1;
    const d2 = s[2][2] - low1 * s[0][2] - low2 * rest;
    y[1] -= low0 * y[0];
    y[2] -= low1 * y[0] + low2 * y[1];
    const third = y[2] / d2, second = y[1] / d1 - low2 * third, step = [y[0] / s[0][0] - low0 * second - low1 * third, second, third];
    const ways = slope.map((value, k) => -value - step[0] * jacobian[0][k] - step[1] * jacobian[1][k] - step[2] * jacobian[2][k]);
    // A minimum has as many negative pivots as constraints.
    const negative = pivots.filter(pivot => pivot < 0).length + [s[0][0], d1, d2].filter(pivot => pivot > 0).length;
    return {ways, step, atMinimum: residual <= SETTLED && negative === 3};
  }
  function newton(start, wanted) {
    const z = Float64Array.from(start.z), pull = [...start.pull];
    for (let round = 0; round < 16; round++) {
      const {ways, step} = equations(z, pull, wanted), longest = ways.reduce((most, way) => max(most, abs(way)), 0), damping = min(1, 2 / max(longest, SETTLED));
      for (let k = 0; k < BANDS; k++) z[k] += damping * ways[k];
      for (let c = 0; c < 3; c++) pull[c] += damping * step[c];
      if (!(longest > SETTLED)) return {z, pull, settled: equations(z, pull, wanted).atMinimum};
    }
    return {z, pull, settled: false};
  }
  function solved(light) {
    const wanted = light.map(value => min(1 - LEAST, max(LEAST, value))), grey = luminance(wanted);
    let at = {z: new Float64Array(BANDS).fill(Math.atanh(2 * grey - 1)), pull: [0, 0, 0]}, found = newton(at, wanted);
    // Some near-blacks run away: they are led there from their grey, in the logarithm of linear light.
    for (let reached = 0, stride = .25; !found.settled && reached < 1 && stride >= 2 ** -12;) {
      const goal = min(1, reached + stride), next = newton(at, wanted.map(value => exp(log(grey) + goal * log(value / grey))));
      if (next.settled) { at = next; reached = goal; } else stride /= 2;
      if (reached === 1 || stride < 2 ** -12) found = at;
    }
    return found.z.map(value => .5 * (tanh(value) + 1));
  }
  const curves = new Map();
  function curve(colour) {
    if (!curves.has(colour)) {
      if (curves.size >= 8192) curves.clear();
      curves.set(colour, solved(linearOf(colour)));
    }
    return curves.get(colour);
  }
  const lightOf = curve => T.curves.map(row => { let all = 0; for (let k = 0; k < BANDS; k++) all += row[k] * curve[k]; return all; });

  // Kubelka and Munk: K/S of a chip, mixtures, layers.
  const lifted = value => T.lift + (1 - T.lift) * value, unlifted = value => (value - T.lift) / (1 - T.lift);
  const ratioOf = colour => curve(colour).map(value => (1 - lifted(value)) ** 2 / (2 * lifted(value)));
  function scatterOf(ratio, {colour, paint_parts: paint = 1, white_parts: white = 9, white: named = null}) {
    if (named === "unknown") return ratio.map(() => 1);
    const share = paint / (paint + white), down = ratioOf(colour), pure = named ? ratioOf(named) : ratio.map(() => 0);
    return ratio.map((value, k) => {
      const gap = share * (value - down[k]);
      return gap > 0 ? min(100, max(.01, (1 - share) * (down[k] - pure[k]) / gap)) : 100;
    });
  }
  function constants(pot) {
    const ratio = ratioOf(pot.colour), scatters = pot.let_down ? scatterOf(ratio, pot.let_down) : ratio.map(() => pot.strength || 1);
    return {absorbs: ratio.map((value, k) => value * scatters[k]), scatters};
  }
  function lightOfParts(parts) {
    const all = parts.map(([pot, amount]) => [constants(pot), amount]), thick = new Float64Array(BANDS);
    for (let k = 0; k < BANDS; k++) {
      const q = sum(all.map(([one, amount]) => amount * one.absorbs[k])) / sum(all.map(([one, amount]) => amount * one.scatters[k]));
      thick[k] = 1 / (1 + q + sqrt(q * q + 2 * q));
    }
    return lightOf(thick).map(unlifted);
  }
  function mix(parts) {
    if (parts.every(([pot]) => pot === parts[0][0])) return {colour: parts[0][0].colour, lab: labOf(parts[0][0].colour), clipped: false};
    const light = lightOfParts(parts);
    return {colour: hexOfLinear(light), lab: labOfLinear(light.map(inside)), clipped: light.some(value => abs(value - inside(value)) > 1e-6)};
  }

  const relief = colour => ({edges: colour, flats: colour, recesses: colour});
  const layers = new Map();
  function covered(ground, colour, thickness) {
    if (ground === null || thickness <= 0) return ground;
    if (colour === null) return null;
    const key = ground + colour + thickness;
    if (!layers.has(key)) {
      if (layers.size >= 8192) layers.clear();
      const q = ratioOf(colour), below = curve(ground);
      layers.set(key, hexOfLinear(lightOf(q.map((ks, k) => {
        const b = sqrt(ks * ks + 2 * ks), t = b > 0 ? tanh(b * thickness) / b : thickness, under = lifted(below[k]);
        return unlifted((t * (1 - (1 + ks) * under) + under) / (t * (1 + ks - under) + 1));
      }))));
    }
    return layers.get(key);
  }
  function film(under, colour, {strength = 1, technique = "wash", share = 1, overGloss = false, coats = 1} = {}) {
    const factors = T.factors[technique] || T.factors.wash, [edges, flats, recesses] = overGloss && String(factors) === String(T.factors.wash) ? T.overGloss : factors;
    const laid = (ground, factor) => covered(ground, colour, T.flatThickness * strength * share * coats * factor);
    return {edges: laid(under.edges, edges), flats: laid(under.flats, flats), recesses: laid(under.recesses, recesses)};
  }

  return {isColour, inside, bent, rounded, linearOf, hexOfLinear, labOf, labOfLinear, lightOfLab, hexOfLab, deltaE, difference, word, directions, seen, inGrey,
    curve, constants, lightOfParts, mix, relief, film};
})();
