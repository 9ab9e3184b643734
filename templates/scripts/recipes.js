/* What stands in for a colour out of some pots: the twin of guidegen/computing/colour/recipes.py, stand_in.py, first_try.py
   and drops.py. It adds to what colour.js gives. Pots come back as the objects that were handed in.

     sortOf(kind), canBeMixed(pot)     what it can stand for, or null; whether it goes into a mixture
     standIns(pots, corrections)       keeps what it works out of some pots:
       .nearest(wanted)                [{pot, de00}] of all that may stand for it, nearest first
       .towards(wanted, {pots, tried}) {pots, recipes: [{parts: [[pot, n]], colour, de00}], least, advice: pot|mix|buy}
       .advised(wanted)                the same, without recipes where a pot will do
       wanted: {colour, kind, strength, comes_as, undercoat, pot}; a pot of the same name is the thing itself
     adviceFor(de00 or null of the nearest pot, of the best mixture)
     correction([[pot, parts], …], got)           what a measured mixture says about other parts of its pots
     addition([[pot, parts], …], got, wanted)     {parts to add, de00}, or null: start again
     drops(parts, sizes, ml)           whole drops of each */
Object.assign(window.guidegenColour, (colours => {
  "use strict";
  const T = window.guidegenColourTables, {min, max, abs, sqrt, hypot, floor, ceil, atan2, PI} = Math, BANDS = T.curves[0].length;
  const {isColour, inside, bent, rounded, labOf, labOfLinear, lightOfLab, hexOfLab, deltaE, difference, relief, film, constants, lightOfParts} = colours;
  const sum = list => list.reduce((all, one) => all + one, 0);

  // What may stand for what: common practice, no source.
  const kindOf = pot => pot.kind || "paint", sortOf = kind => Object.hasOwn(T.sorts, kind) ? T.sorts[kind] : null;
  const canBeMixed = pot => kindOf(pot) === "paint" && (pot.binder || "acrylic") === "acrylic" && pot.comes_as !== "can" && isColour(pot.colour);
  // As Python sorts text: by code points, where the browser's own order goes by halves of some signs.
  const byName = (one, two) => {
    if (one === two) return 0;
    const a = [...one], b = [...two], at = a.findIndex((sign, i) => sign !== b[i]);
    return at < 0 ? -1 : at >= b.length ? 1 : a[at].codePointAt(0) - b[at].codePointAt(0);
  };
  const byNames = (one, two) => {
    for (let i = 0; i < one.length && i < two.length; i++) if (one[i] !== two[i]) return byName(one[i], two[i]);
    return one.length - two.length;
  };
  function sameHue(one, two) {
    const [a, b] = [labOf(one), labOf(two)], grey = [a, b].map(lab => hypot(lab[1], lab[2]) < T.greyMetal);
    if (grey[0] || grey[1]) return grey[0] && grey[1];
    const turn = (atan2(a[2], a[1]) - atan2(b[2], b[1])) * 180 / PI;
    return abs((turn + 540) % 360 - 180) <= T.sameHue;
  }
  const filmDifference = (wanted, pot) => max(...[T.grounds[0], wanted.undercoat || T.grounds[1]].map(ground => {
    const [one, two] = [wanted, pot].map(each => film(relief(ground), each.colour, {strength: each.strength || 1, technique: kindOf(each)}).recesses);
    return difference(one, two);
  }));
  function adviceFor(pot, mixture) {
    const [near, mixed] = [pot, mixture].map(de00 => de00 === null ? Infinity : de00);
    return near <= T.good ? "pot" : mixed <= T.good ? "mix" : min(near, mixed) > T.hopeless ? "buy" : near <= mixed ? "pot" : "mix";
  }

  // What a measured mixture says about other parts of the same pots.
  const spread = shares => 1 - sum(shares.map(share => share * share));
  function correction(parts, got) {
    const amounts = new Map();
    for (const [pot, amount] of parts) amounts.set(pot.name, [pot, amount + (amounts.get(pot.name) || [0, 0])[1]]);
    const poured = [...amounts.values()], all = sum(poured.map(([, amount]) => amount)), lab = labOf(got), predicted = labOfLinear(lightOfParts(poured).map(inside));
    return {names: [...amounts.keys()].sort(byName), spread: spread(poured.map(([, amount]) => amount / all)), offset: lab.map((value, at) => value - predicted[at])};
  }
  const corrected = (lab, shares, one) => {
    if (one.spread <= 0) return lab;
    const scale = min(1, spread(shares) / one.spread);
    return lab.map((value, at) => value + scale * one.offset[at]);
  };

  // Recipes: every mixture of two or three pots that a brush can measure, and those that come nearest.
  const orders = parts => parts.length < 2 ? [parts] : parts.flatMap((part, at) => orders(parts.filter((_, i) => i !== at)).map(rest => [part, ...rest]));
  const RATIOS = [2, 3].map(count => [...new Map(T.ratios[count].flatMap(orders).map(order => [String(order), order])).values()]);

  // The light of every ratio of sets of pots, places in rising order one after the other, handed to `put`; of every three
  // bands the middle one counts for all where `every` is 3.
  function lights(all, sets, count, every, put) {
    const ratios = RATIOS[count - 2], bands = BANDS / every, summed = row => Float64Array.from({length: bands}, (_, k) => sum(row.slice(k * every, (k + 1) * every)));
    const [red, green, blue] = T.curves.map(summed);
    // One flat list of each, or most of the time would go into finding them. Often all bands of a pot scatter alike.
    const flat = key => Float64Array.from({length: all.length * bands}, (_, at) => all[floor(at / bands)][key][at % bands * every + (every >> 1)]);
    const absorbs = flat("absorbs"), scatters = flat("scatters"), even = all.map(one => one.scatters.every(value => value === one.scatters[0]));
    const part = Float64Array.from(ratios.flatMap(order => [order[0], order[1], order[2] || 0])), single = 1 - T.lift, lift = T.lift, size = part.length;
    for (let set = 0, at = 0; set < sets.length; set += count) {
      const i = sets[set], j = sets[set + 1], l = sets[set + count - 1], one = i * bands, two = j * bands, three = l * bands, alike = even[i] && even[j] && even[l];
      for (let p = 0; p < size; p += 3, at += 3) {
        const a = part[p], b = part[p + 1], c = part[p + 2];
        let r = 0, g = 0, v = 0, share = 1 / (a * scatters[one] + b * scatters[two] + c * scatters[three]);
        for (let k = 0; k < bands; k++) {
          if (!alike) share = 1 / (a * scatters[one + k] + b * scatters[two + k] + c * scatters[three + k]);
          const q = (a * absorbs[one + k] + b * absorbs[two + k] + c * absorbs[three + k]) * share, thick = 1 + q - sqrt(q * q + 2 * q);
          r += red[k] * thick;
          g += green[k] * thick;
          v += blue[k] * thick;
        }
        put(at, inside((r - lift) / single), inside((g - lift) / single), inside((v - lift) / single));
      }
    }
  }
  // The CIELAB colours that they make.
  function mixtures(all, sets, count) {
    const ratios = RATIOS[count - 2], lab = new Float64Array(sets.length / count * ratios.length * 3);
    const xyz = Float64Array.from(T.toXyz.flatMap((row, at) => row.map(value => value / T.white[at])));
    lights(all, sets, count, 1, (at, r, g, v) => {
      const fx = bent(xyz[0] * r + xyz[1] * g + xyz[2] * v), fy = bent(xyz[3] * r + xyz[4] * g + xyz[5] * v), fz = bent(xyz[6] * r + xyz[7] * g + xyz[8] * v);
      lab[at] = 116 * fy - 16;
      lab[at + 1] = 500 * (fx - fy);
      lab[at + 2] = 200 * (fy - fz);
    });
    return {count, sets, ratios, lab};
  }
  // The same roughly: see recipes.py.
  function roughly(all, sets, count) {
    const light = new Float32Array(sets.length / count * RATIOS[count - 2].length * 3);
    lights(all, sets, count, T.bandsAsOne, (at, r, g, v) => { light[at] = r; light[at + 1] = g; light[at + 2] = v; });
    return {count, sets, light};
  }
  // How CIELAB moves with linear light at a colour, and how long CIEDE2000 finds differences from one: both as (3, 3).
  function slopeAt(light) {
    const moves = [[0, 500, 0], [116, -500, 200], [0, 0, -200]];
    const slopes = T.toXyz.map((row, i) => { const ratio = sum(row.map((value, k) => value * light[k])) / T.white[i]; return 1 / (3 * T.white[i] * max(bent(ratio), 6 / 29) ** 2); });
    return [0, 1, 2].map(from => [0, 1, 2].map(to => sum(moves.map((row, i) => T.toXyz[i][from] * slopes[i] * row[to]))));
  }
  function local([l, a, b]) {
    const chroma = hypot(a, b), [cos, sin] = chroma ? [a / chroma, b / chroma] : [1, 0];
    const sl = 1 + .015 * (l - 50) ** 2 / sqrt(20 + (l - 50) ** 2), sc = 1 + .045 * chroma, sh = 1 + .015 * chroma;
    return [[1 / sl, 0, 0], [0, cos / sc, -sin / sh], [0, sin / sc, cos / sh]];
  }
  const turned = (vector, by) => [0, 1, 2].map(to => sum(vector.map((value, from) => value * by[from][to])));

  // The best so many sets by a rough look, for a colour near `at`.
  function bestSets(tables, lab, at, most) {
    const light = lightOfLab(at), longer = local(lab), turn = slopeAt(light).map(row => turned(row, longer)).flat();
    const [m, n, o] = turned(light, [turn.slice(0, 3), turn.slice(3, 6), turn.slice(6)]).map((value, i) => value - turned(at.map((one, k) => one - lab[k]), longer)[i]);
    const [a, b, c, d, e, f, g, h, i] = turn, [{count}] = tables, size = 3 * RATIOS[count - 2].length, away = new Float32Array(sum(tables.map(table => table.sets.length / count)));
    let set = 0;
    for (const {light: those} of tables)
      for (let row = 0; row < those.length; set++) {
        let nearest = Infinity;
        for (const end = row + size; row < end; row += 3) {
          const r = those[row], s = those[row + 1], t = those[row + 2];
          const x = a * r + d * s + g * t - m, y = b * r + e * s + h * t - n, z = c * r + f * s + i * t - o, off = x * x + y * y + z * z;
          if (off < nearest) nearest = off;
        }
        away[set] = nearest;
      }
    const limit = away.length > most ? away.slice().sort()[most - 1] : Infinity, best = [];
    set = 0;
    for (const {sets} of tables) for (let one = 0; one < sets.length; one += count) if (away[set++] <= limit && best.length < most) best.push(sets.subarray(one, one + count));
    return best;
  }
  const placesOf = (table, row) => { const set = floor(row / table.ratios.length) * table.count; return table.sets.subarray(set, set + table.count); };
  const partsOf = (table, row) => table.ratios[row % table.ratios.length];

  // The colours of a table, those of pots that something is known about corrected by it.
  function coloursOf(table, fixes) {
    let colours = table.lab;
    const size = table.ratios.length;
    for (const {places, one} of fixes) {
      if (places.length !== table.count) continue;
      for (let set = 0; set < table.sets.length / table.count; set++) {
        if (!places.every((place, i) => table.sets[set * table.count + i] === place)) continue;
        if (colours === table.lab) colours = table.lab.slice();
        for (let row = set * size; row < (set + 1) * size; row++) {
          const parts = partsOf(table, row), all = sum(parts), from = table.lab.subarray(3 * row, 3 * row + 3);
          colours.set(corrected([...from], parts.map(part => part / all), one), 3 * row);
        }
      }
    }
    return colours;
  }

  // The rows of a table that come within T.asGood of its best: [row, de00, lab].
  function nearRows(table, lab, fixes) {
    const colours = coloursOf(table, fixes);
    const [l, a, b] = lab, chroma = hypot(a, b), B = T.bound, rows = colours.length / 3;
    let nearest = 0, shortest = Infinity;
    for (let at = 0; at < colours.length; at += 3) {
      const off = (colours[at] - l) ** 2 + (colours[at + 1] - a) ** 2 + (colours[at + 2] - b) ** 2;
      if (off < shortest) { shortest = off; nearest = at; }
    }
    let reach = deltaE(lab, colours.subarray(nearest, nearest + 3)) + T.asGood + 1e-3;
    const found = [], pair = [0, 0, 0];
    for (let row = 0; row < rows; row++) {
      const dl = colours[3 * row] - l;
      if (abs(dl) > reach * B.greatestSl) continue;
      pair[0] = colours[3 * row];
      pair[1] = colours[3 * row + 1];
      pair[2] = colours[3 * row + 2];
      // No less than this: see difference_bound.py.
      const sl = 1 + B.slSlope * abs(l + .5 * dl - 50), sc = B.scLeast + B.scSlope * .5 * (chroma + sqrt(pair[1] * pair[1] + pair[2] * pair[2]));
      if ((dl / sl) ** 2 + B.rotated * ((pair[1] - a) ** 2 + (pair[2] - b) ** 2) / (sc * sc) > reach * reach) continue;
      const away = rounded(deltaE(lab, pair));
      if (away > reach) continue;
      found.push([row, away, pair.slice()]);
      reach = min(reach, away + T.asGood + 1e-3);
    }
    return found;
  }
  // The pairs of pots that come nearest, the best first.
  function bestPairs(table, lab, fixes, most) {
    const colours = coloursOf(table, fixes), longer = local(lab), step = 3 * table.ratios.length, best = [];
    for (let at = 0, set = 0; at < colours.length; at += step, set += 2) {
      let away = Infinity;
      for (let row = at; row < at + step; row += 3) away = min(away, sum(turned([colours[row] - lab[0], colours[row + 1] - lab[1], colours[row + 2] - lab[2]], longer).map(one => one * one)));
      best.push({away, places: [...table.sets.subarray(set, set + 2)]});
    }
    return best.sort((one, two) => one.away - two.away).slice(0, most).map(one => one.places);
  }
  const pairsOf = count => Uint16Array.from(function* () { for (let i = 0; i < count; i++) for (let j = i + 1; j < count; j++) { yield i; yield j; } }());
  const threesAmong = places => Uint16Array.from(function* () {
    for (let i = 0; i < places.length; i++) for (let j = i + 1; j < places.length; j++) for (let k = j + 1; k < places.length; k++) { yield places[i]; yield places[j]; yield places[k]; }
  }());

  function recipeBook(pots) {
    const all = pots.map(constants), count = pots.length, every = [...pots.keys()];
    let pairs, threes, rough, roughPairs;
    // Sets of three that are not in `seen` yet, one after the other.
    function unseen(list, seen) {
      const fresh = [];
      for (const places of list) {
        const [i, j, k] = [...places].sort((one, two) => one - two), code = (i * count + j) * count + k;
        if (i === j || j === k || seen.has(code)) continue;
        seen.add(code);
        fresh.push(code);
      }
      return Uint16Array.from(fresh.sort((one, two) => one - two).flatMap(code => [floor(code / count / count), floor(code / count) % count, code % count]));
    }
    // Of very many pots, the pairs that look best. How far they are is true near the best alone: that one is looked for first.
    function twosFor(lab, fixes) {
      if (count <= T.mostInPairs) return pairs = pairs || mixtures(all, pairsOf(count), 2);
      roughPairs = roughPairs || roughly(all, pairsOf(count), 2);
      const flat = sets => Uint16Array.from(sets.flatMap(places => [...places])), some = mixtures(all, flat(bestSets([roughPairs], lab, lab, T.fewestSeeds)), 2).lab;
      let at = lab, least = Infinity;
      for (let row = 0; row < some.length; row += 3) {
        const one = some.slice(row, row + 3), away = deltaE(lab, one);
        if (away < least) [at, least] = [one, away];
      }
      const measured = fixes.map(({places}) => places).filter(places => places.length === 2), best = [...bestSets([roughPairs], lab, at, T.bestPairs), ...measured];
      const codes = new Set(best.map(([i, j]) => i * count + j));
      return mixtures(all, flat([...codes].sort((one, two) => one - two).map(code => [floor(code / count), code % count])), 2);
    }
    // Of many pots, the threes that look best; of very many, only those are looked at that share two with the best found so far.
    function threesFor(lab, at, twos, fixes) {
      if (count <= T.mostInThrees) return threes = threes || mixtures(all, threesAmong(every), 3);
      const tables = count > T.mostInRough ? searched(lab, at, twos, fixes) : [rough = rough || roughly(all, threesAmong(every), 3)];
      const measured = fixes.map(({places}) => places).filter(places => places.length === 3);
      return mixtures(all, unseen([...bestSets(tables, lab, at, T.bestSets), ...measured], new Set()), 3);
    }
    function searched(lab, at, twos, fixes) {
      const seeds = max(T.fewestSeeds, floor(T.seeded / count)), seen = new Set(), tables = [], withAnother = two => every.map(other => [...two, other]);
      const best = bestPairs(twos, lab, fixes, seeds), among = threesAmong([...new Set(best.flat())].slice(0, T.firstPots).sort((one, two) => one - two));
      let more = [...best.flatMap(withAnother), ...Array.from({length: among.length / 3}, (_, at) => among.subarray(3 * at, 3 * at + 3))];
      for (let round = 0; round <= T.rounds; round++) {
        const fresh = unseen(more, seen);
        if (!fresh.length) break;
        tables.push(roughly(all, fresh, 3));
        more = bestSets(tables, lab, at, seeds).flatMap(([i, j, k]) => [[i, j], [i, k], [j, k]].flatMap(withAnother));
      }
      return tables;
    }
    function worthTrying(lab) {
      const colours = pots.map(pot => labOf(pot.colour)), apart = colours.map(() => Infinity);
      const kept = every.map(place => [deltaE(lab, colours[place]), place]).sort((one, two) => one[0] - two[0]).slice(0, T.nearest).map(([, place]) => place);
      const move = place => colours.forEach((colour, i) => { apart[i] = min(apart[i], sum(colour.map((value, at) => (value - colours[place][at]) ** 2))); });
      kept.forEach(move);
      for (let more = 0; more < T.apart; more++) {
        const place = apart.indexOf(max(...apart));
        kept.push(place);
        move(place);
      }
      return [...new Set(kept)].sort((one, two) => one - two).map(place => pots[place]);
    }
    return {towards(lab, most, atMost, corrections) {
      if (count > T.mostAtAll) return recipeBook(worthTrying(lab)).towards(lab, most, atMost, corrections);
      const places = new Map(pots.map((pot, place) => [pot.name, place])), fixed = new Map();
      for (const one of corrections) {
        const those = one.names.map(name => places.get(name)).sort((a, b) => a - b);
        if (!those.includes(undefined)) fixed.set(String(those), {places: those, one}); // a later one counts for more
      }
      const fixes = [...fixed.values()];
      const near = [], look = table => { for (const [row, away, colour] of nearRows(table, lab, fixes)) near.push({table, row, away, colour}); };
      const twos = atMost >= 2 && count >= 2 ? twosFor(lab, fixes) : null;
      if (twos) look(twos);
      if (atMost >= 3 && count >= 3) look(threesFor(lab, near.reduce((best, one) => one.away < best.away ? one : best).colour, twos, fixes));
      if (!near.length) return {recipes: [], least: null};
      const least = near.reduce((best, one) => min(best, one.away), Infinity), limit = rounded(least + T.asGood);
      const ranked = near.filter(one => one.away <= limit).map(one => ({...one, sum: sum(partsOf(one.table, one.row))}));
      const order = (one, two) => one.table.count - two.table.count || one.sum - two.sum || one.away - two.away;
      ranked.sort(order);
      const first = ranked.filter(one => !ranked[most - 1] || order(one, ranked[most - 1]) <= 0).map(one => {
        const those = placesOf(one.table, one.row), parts = partsOf(one.table, one.row).map((n, i) => [pots[those[i]], n]);
        return {...one, parts: parts.sort((a, b) => b[1] - a[1] || byName(a[0].name, b[0].name))};
      });
      first.sort((one, two) => order(one, two) || byNames(one.parts.map(([pot]) => pot.name), two.parts.map(([pot]) => pot.name)));
      return {recipes: first.slice(0, most).map(({parts, colour, away}) => ({parts, colour: hexOfLab(colour), de00: away})), least};
    }};
  }

  function standIns(given, corrections = []) {
    const pots = given.filter(pot => isColour(pot.colour) && sortOf(kindOf(pot)) && (!pot.discontinued || pot.owned > 0));
    const nothing = {pots: [], recipes: [], least: null, advice: "buy"};
    let book;
    function nearest(wanted) {
      const sort = isColour(wanted.colour) ? sortOf(kindOf(wanted)) : null, itself = wanted.pot ? wanted.pot.name : wanted.name;
      const mayStand = pot => sortOf(kindOf(pot)) === sort && (sort === "metal" ? sameHue(pot.colour, wanted.colour)
        : pot.comes_as !== "can" || wanted.comes_as === "can" || sort === "primer");
      const away = pot => pot.name === itself ? 0 : sort === "film" ? filmDifference(wanted, pot) : difference(wanted.colour, pot.colour);
      return pots.filter(pot => sort && (pot.name === itself || mayStand(pot))).map(pot => ({pot, de00: away(pot)}))
        .sort((one, two) => one.de00 - two.de00 || (two.pot.name === itself) - (one.pot.name === itself) || byName(one.pot.name, two.pot.name));
    }
    function towards(wanted, {pots: atMost = 3, tried = []} = {}) {
      const near = nearest(wanted);
      if (!isColour(wanted.colour) || !sortOf(kindOf(wanted))) return nothing;
      const mixed = sortOf(kindOf(wanted)) === "covering";
      if (mixed) book = book || recipeBook(pots.filter(canBeMixed));
      const {recipes, least} = mixed ? book.towards(labOf(wanted.colour), T.most, atMost, [...corrections, ...tried]) : nothing;
      return {pots: near.slice(0, T.most), recipes, least, advice: adviceFor(near.length ? near[0].de00 : null, least)};
    }
    function advised(wanted) {
      const near = nearest(wanted);
      return near.length && near[0].de00 <= T.good ? {...nothing, pots: near.slice(0, T.most), advice: "pot"} : towards(wanted);
    }
    return {nearest, towards, advised};
  }

  function addition(tried, got, wanted) {
    const seen = correction(tried, got), lab = labOf(wanted), unit = min(...tried.map(([, amount]) => amount)), rows = [];
    const choices = tried.reduce((lists, _) => lists.flatMap(list => T.times.map(time => [...list, time])), [[]]);
    for (const counts of choices) {
      const parts = tried.map(([pot, amount], i) => [pot, amount + counts[i] * unit]), all = sum(parts.map(([, amount]) => amount));
      const predicted = corrected(labOfLinear(lightOfParts(parts).map(inside)), parts.map(([, amount]) => amount / all), seen);
      rows.push({counts, away: rounded(deltaE(lab, predicted)), added: tried.filter((_, i) => counts[i]).map(([pot]) => pot.name)});
    }
    const now = rows[0].away, best = min(...rows.slice(1).map(row => row.away));
    if (best > T.good || best >= now) return null;
    const good = rows.slice(1).filter(row => row.away <= min(rounded(best + T.asGood), T.good) && row.away < now);
    good.sort((one, two) => one.added.length - two.added.length || sum(one.counts) - sum(two.counts) || one.away - two.away || byNames(one.added, two.added));
    const [{counts, away}] = good;
    return {parts: tried.map(([pot], i) => [pot, counts[i] * unit]).filter(([, amount]) => amount), de00: away};
  }

  // The fewest whole drops that make at least `ml` with every ratio within the tolerance, as drops.py says.
  function drops(parts, sizes, ml) {
    const DUST = 1e-9, wanted = parts.map((part, i) => part / sizes[i]), volume = sum(parts), all = sum(wanted), bound = max(T.mostDrops, ceil(1.5 * all * ml / volume));
    const low = ml / volume / (1 + T.tolerance) - DUST, high = bound / all, scales = new Set();
    for (const each of wanted) for (let n = max(1, ceil(low * each - DUST)); n <= floor(high * each + DUST); n++) scales.add(n / each);
    const counted = scale => {
      const counts = wanted.map(each => ceil(scale * each - DUST)), most = wanted.map(each => floor((1 + T.tolerance) * scale * each + DUST));
      if (counts.some((count, i) => count > most[i])) return null;
      for (let short = ml - sum(counts.map((count, i) => count * sizes[i])); short > DUST;) {
        const free = counts.map((_, i) => i).filter(i => counts[i] < most[i]);
        if (!free.length) return null;
        // The largest drop first, then the paint that is shortest for its parts.
        const pick = free.reduce((a, b) => (sizes[b] - sizes[a] || (counts[a] + 1) / wanted[a] - (counts[b] + 1) / wanted[b]) > 0 ? b : a);
        counts[pick]++;
        short -= sizes[pick];
      }
      return counts;
    };
    const errorOf = counts => { const those = counts.map((count, i) => count / wanted[i]); return max(...those) / min(...those) - 1; };
    let best = null;
    for (const scale of [...scales].sort((one, two) => one - two)) {
      const counts = counted(scale);
      if (!counts) continue;
      const one = {total: sum(counts), error: errorOf(counts), counts};
      if (one.total <= bound && (!best || (one.total - best.total || one.error - best.error || byCounts(counts, best.counts)) < 0)) best = one;
      if (best && scale * all > best.total) break;
    }
    return best ? best.counts : wanted.map(each => max(1, Math.round(each * ml / volume)));
  }
  const byCounts = (one, two) => { const at = one.findIndex((count, i) => count !== two[i]); return at < 0 ? 0 : one[at] - two[at]; };

  return {sortOf, canBeMixed, standIns, adviceFor, correction, addition, drops};
})(window.guidegenColour));
