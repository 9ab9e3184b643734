/* What the reader's table has for paints: `guidegenTable` for any of them, `guidegenSwaps` for those of one guide, with what
   the figure then looks like. Areas are swapped as a set: what was lighter stays lighter, and no two tones of an area
   become one. A guide's data are those of guidegen/rendering/guide/paints_script.py. */
window.guidegenTable = (palette, pots) => {
  const engine = window.guidegenColour, paints = new Map(palette.paints.map(paint => [paint.name, paint])), mixes = new Map(palette.mixes.map(mix => [mix.name, mix]));
  const CLEAR = ["medium", "thinner", "varnish"], sum = list => list.reduce((all, each) => all + each, 0), advised = new Map();
  let hand, book;
  function refresh() {
    const atHand = pots.atHand();
    hand = new Map(atHand.map(pot => [pot.name, pot]));
    advised.clear();
    // A house mix whose colour was measured tells of other parts of the same pots, and so does a first try.
    const measured = [...palette.mixes.filter(mix => mix.colour && !mix.estimate && mix.parts.length > 1).map(mix => [mix.parts, mix.colour]), ...pots.tried.map(({parts, got}) => [parts, got])]
      .map(([parts, colour]) => [parts.map(([name, n]) => [hand.get(name) || paints.get(name), n]), colour]).filter(([parts]) => parts.every(([pot]) => pot && pot.colour && engine.canBeMixed(pot)));
    book = engine.standIns(atHand, measured.map(([parts, colour]) => engine.correction(parts, colour)));
  }
  const has = name => hand.has(name), potOf = name => hand.get(name) || paints.get(name) || mixes.get(name) || {name, colour: null};
  // What a blend comes to: pots and amounts, house mixes taken apart but for those that stand bottled on the table.
  const apart = parts => parts.flatMap(([name, amount]) => {
    const mix = mixes.get(name);
    return mix && !has(name) ? mix.parts.map(([pot, share]) => [pot, share * amount]) : [[name, amount]];
  });
  function colourOf(parts) {
    const those = parts.map(([name, n]) => [potOf(name), n]).filter(([pot]) => !CLEAR.includes(pot.kind));
    if (those.length === 1) return those[0][0].colour || null;
    return those.length && those.every(([pot]) => pot.colour && pot.kind !== "metallic") ? engine.mix(those).colour : null;
  }
  const strengthOf = parts => sum(parts.filter(([name]) => !CLEAR.includes(potOf(name).kind)).map(([name, n]) => n * (potOf(name).strength || 1))) / sum(parts.map(([, n]) => n));
  function advice(paint, undercoat) {
    const key = JSON.stringify([paint.name, undercoat]);
    if (!advised.has(key)) advised.set(key, book.advised({...paint, undercoat}));
    return advised.get(key);
  }
  refresh();
  return {refresh, has, potOf, apart, colourOf, strengthOf, advice, isMix: name => mixes.has(name), state: name => (pots.has(name) || {}).state};
};

window.guidegenSwaps = (guide, table) => {
  const engine = window.guidegenColour, {has, potOf, apart, colourOf, strengthOf} = table;
  const {blends, colours, steps, areas, tones} = guide, FEW = 5;
  const TONES = 3, ALIKE = 2, LARGE = .25, BATCH = 5, EVENING = 3 * 36e5, LEAST = 5, HOPELESS = 12;
  const sum = list => list.reduce((all, each) => all + each, 0);

  // All that may stand for a paint, the best first; what the reader chose and what the author wrote come before.
  function waysFor(paint) {
    const found = [], seen = new Set(), put = (by, parts, colour, de00) => {
      const key = JSON.stringify(parts);
      if (!seen.has(key)) found.push({by, parts, colour, de00, mixed: parts.length > 1});
      seen.add(key);
    };
    (guide.instead[paint.name] || []).map(apart).filter(parts => parts.every(([name]) => has(name))).forEach(parts => {
      const colour = colourOf(parts);
      put("author", parts, colour, colour && paint.colour ? engine.difference(paint.colour, colour) : null);
    });
    if (paint.colour) {
      const {pots: near, recipes, advice} = table.advice(paint, guide.undercoat);
      const byPot = near.map(({pot, de00}) => [[[pot.name, 1]], pot.colour, de00]), byMix = recipes.map(({parts, colour, de00}) => [parts.map(([pot, n]) => [pot.name, n]), colour, de00]);
      [...advice === "mix" ? [...byMix.slice(0, 1), ...byPot] : byPot, ...byMix].forEach(([parts, colour, de00]) => put(advice === "buy" || de00 > HOPELESS ? "far" : "engine", parts, colour, de00));
    }
    return found;
  }

  const swapped = (blend, swaps) => {
    const whole = apart(blends[blend]), alone = whole.length === 1 && swaps.get(whole[0][0]);
    if (alone) return alone.parts;
    const amounts = new Map(), add = (name, n) => amounts.set(name, (amounts.get(name) || 0) + n);
    for (const [name, amount] of whole) {
      const {parts} = swaps.get(name) || {parts: [[name, 1]]}, all = sum(parts.map(part => part[1]));
      parts.forEach(([pot, n]) => add(pot, amount * n / all));
    }
    // In parts of the smallest, as one counts drops.
    const least = Math.min(...amounts.values());
    return [...amounts].map(([name, n]) => [name, +(n / least).toFixed(2)]);
  };
  const concerns = (blend, swaps) => apart(blends[blend]).some(([name]) => swaps.has(name));
  const looks = (blend, swaps) => {
    if (!concerns(blend, swaps)) return colours[blend];
    const whole = apart(blends[blend]);
    return whole.length === 1 ? swaps.get(whole[0][0]).colour : colourOf(swapped(blend, swaps));
  };
  // Why a set would no longer be one, null where it stays one.
  function spoils(name, swaps) {
    for (const [area, those] of tones.entries()) for (const one of those) for (const two of those) {
      if (one >= two || ![one, two].some(blend => apart(blends[blend]).some(part => part[0] === name))) continue;
      const [was, wasTwo, now, nowTwo] = [colours[one], colours[two], looks(one, swaps), looks(two, swaps)];
      if (!now || !nowTwo) continue;
      const before = engine.labOf(was)[0] - engine.labOf(wasTwo)[0], after = engine.labOf(now)[0] - engine.labOf(nowTwo)[0];
      if (engine.difference(was, wasTwo) >= ALIKE && engine.difference(now, nowTwo) < ALIKE) return {why: "alike", area: areas[area]};
      if (Math.abs(before) >= TONES && before * after <= 0) return {why: "turns", area: areas[area]};
    }
    return null;
  }

  function needed(stop, optional = false) {
    const names = new Set();
    steps.forEach((step, at) => {
      if ((optional || !step.optional) && at < stop) (step.brushed || []).forEach(blend => apart(blends[blend]).forEach(([name]) => names.add(name)));
    });
    return names;
  }

  // All there is to say for the pots at hand, what was chosen for this guide, and a batch of so many figures.
  function work({on, stop: stopped, swaps: chosen}, figures = guide.figures, handsOn = 0) {
    const stop = (guide.stops.find(([name]) => name === stopped) || [])[1] ?? steps.length, names = needed(stop), whole = needed(steps.length, true), swaps = new Map(), rows = [];
    const every = [...guide.needs, ...[...names].filter(table.isMix).map(name => [name, null])];
    for (const [name, each] of every) {
      const pot = potOf(name), ml = each === null ? null : figures === guide.figures ? each : each * figures / guide.figures;
      if (!names.has(name)) {
        if (!has(name) && whole.has(name)) rows.push({name, pot, ml, kind: "spared"});
        continue;
      }
      if (has(name)) { rows.push({name, pot, ml, kind: "have", low: table.state(name) === "low"}); continue; }
      const own = chosen[name], refused = [];
      let found = null;
      const list = [...waysFor(pot)], mine = own && own.parts.every(([each]) => has(each)) ? own.parts : null;
      const colour = mine && mine.length && colourOf(mine);
      if (mine && mine.length) list.unshift({by: "you", parts: mine, mixed: mine.length > 1, colour, de00: colour && pot.colour ? engine.difference(pot.colour, colour) : null});
      // Nothing at all was chosen.
      if (!mine || mine.length) for (const way of list) {
        if (way.by === "far") continue;
        const spoilt = spoils(name, new Map([...swaps, [name, way]]));
        if (spoilt) { if (refused.length < 2) refused.push({...spoilt, way}); continue; }
        found = way;
        break;
      }
      const row = {name, pot, ml, kind: found ? "instead" : "buy", way: found, refused, tried: own ? own.tried : "", chosen: !!own,
        others: list.filter(way => way !== found && JSON.stringify(way.parts) !== JSON.stringify(found && found.parts)).slice(0, FEW), buy: pot.size && ml ? Math.max(1, Math.ceil(+(ml / pot.size).toFixed(9))) : 1};
      if (found) {
        swaps.set(name, found);
        if (found.mixed && guide.parts && (figures > BATCH || handsOn > EVENING || covered(name) > LARGE)) row.bottle = bottled(found, ml || 0);
      }
      rows.push(row);
    }
    return {on: on && swaps.size > 0, swaps, rows, touching: touching(swaps), stop};
  }
  // How much of the figure is covered with it.
  const covered = name => sum(areas.map((_, area) => steps.some(step => step.role === "cover" && (step.on || []).some((each, at) => each === area && step.laid[at] >= 0 && apart(blends[step.laid[at]]).some(part => part[0] === name))) ? guide.parts[area] : 0));
  // Enough for all figures, and never less than can be worked with.
  function bottled(way, ml) {
    const sizes = way.parts.map(([name]) => potOf(name).drop || .05), least = LEAST * Math.max(...sizes), counts = engine.drops(way.parts.map(part => part[1]), sizes, Math.max(ml, least));
    return {ml: sum(counts.map((n, at) => n * sizes[at])), counts};
  }
  // One pot for two areas that had paints of their own: the page looks whether they touch.
  function touching(swaps) {
    const last = areas.map((_, area) => {
      const laid = steps.filter(step => step.role === "cover" && !/undercoat/.test(step.technique)).flatMap(step => (step.on || []).map((each, at) => each === area ? step.laid[at] : -1)).filter(blend => blend >= 0);
      return laid.length ? laid[laid.length - 1] : -1;
    });
    const found = [];
    last.forEach((one, a) => last.forEach((two, b) => {
      if (a >= b || one < 0 || two < 0 || one === two || !(concerns(one, swaps) || concerns(two, swaps))) return;
      const [pot, other] = [swapped(one, swaps), swapped(two, swaps)];
      if (pot.length === 1 && other.length === 1 && pot[0][0] === other[0][0]) found.push({take: pot[0][0], first: a, second: b});
    }));
    return found;
  }

  // Every state of every area with what stands in, as guidegen/computing/guide/area_states.py works it out.
  function states(swaps) {
    return guide.states.map((those, area) => {
      let changed = false, before = engine.relief(null), gloss = false;
      return those.map(([n, edges, flats, recesses, glossy]) => {
        const step = steps[n - 1], blend = step.laid[step.on.indexOf(area)], colour = blend >= 0 ? looks(blend, swaps) : null;
        changed = changed || blend >= 0 && concerns(blend, swaps);
        if (!changed) before = {edges, flats, recesses};
        else if (colour && step.role === "cover") before = engine.relief(colour);
        else if (colour && step.role === "edges") before = {...before, edges: colour};
        else if (colour && step.role === "film") before = engine.film(before, colour, {strength: strengthOf(swapped(blend, swaps)), technique: step.technique, share: step.share, overGloss: gloss, coats: step.coats || 1});
        gloss = !!glossy;
        return {n, was: {edges, flats, recesses}, ...before};
      });
    });
  }
  // What is on the brush in each step that a stand-in concerns, by its number.
  const painted = swaps => Object.fromEntries(steps.map(({brushed = []}, at) => [at + 1, brushed])
    .filter(([, those]) => those.some(blend => concerns(blend, swaps))).map(([n, those]) => [n, those.map(blend => looks(blend, swaps))]));
  return {work, states, looks, swapped, concerns, potOf, painted};
};
