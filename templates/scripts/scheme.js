/* Schemes that are tried: what each area looks like after each step, as guidegen/computing/guide/area_states.py has it, and
   how a scheme is written into an address or a draft of a guide. A scheme is {name, figure, steps}, a step {pot, way, areas,
   share, coats}: the pot by its full name, or itself where the archive has none of that name; one mixed in the step has the
   full names and amounts of its `parts`. `unseen` are names of the archive's pots that leave no colour. */
window.guidegenSchemes = (colours, {pots, ways, weak, unseen = []}) => {
  const byName = new Map(pots.map(pot => [pot.name, pot])), known = new Set([...byName.keys(), ...unseen]), COLOURLESS = ["medium", "thinner", "varnish"];
  const MOST_STEPS = 80, LONGEST = 200, MOST_SCHEMES = 3, MOST_PARTS = 20, BARE = {relief: colours.relief(null), metal: false, metalEdges: false, finish: ""};
  const potOf = step => typeof step.pot === "string" ? byName.get(step.pot) : step.pot;
  const isMetal = pot => !!pot.metal || pot.kind === "metallic", isColoured = pot => !COLOURLESS.includes(pot.kind);

  function after(before, step) {
    const pot = potOf(step), role = ways[step.way][0];
    if (!pot) return before;
    const finish = pot.finish || "";
    // A varnish or a medium leaves the hue, whatever it is put on with.
    if (role === "finish" || role === "ground" || !isColoured(pot)) return {...before, finish: finish || before.finish};
    const colour = pot.colour || null;
    if (role === "edges") return {...before, relief: {...before.relief, edges: colour}, metalEdges: isMetal(pot)};
    if (role === "film") {
      const relief = colours.film(before.relief, colour, {strength: pot.strength || 1, technique: step.way, share: step.share || 1,
        overGloss: before.finish === "gloss", coats: step.coats || 1});
      return {...before, relief, finish: finish || before.finish};
    }
    return {relief: colours.relief(colour), metal: isMetal(pot), metalEdges: isMetal(pot), finish};
  }
  // What the areas that were touched look like after so many steps.
  function states(steps, count = steps.length) {
    const found = Object.create(null); // an area may be called as what every object has
    for (const step of steps.slice(0, count)) for (const area of step.areas) found[area] = after(found[area] || BARE, step);
    return found;
  }

  // Schemes in an address: what is the same stands in it once, and a sum at the end tells whether all of it is there.
  const check = text => [...text].reduce((sum, sign) => (sum * 31 + sign.codePointAt(0)) % 46656, 7).toString(36);
  function written(schemes) {
    const names = [], place = name => { const at = names.findIndex(other => JSON.stringify(other) === JSON.stringify(name)); return at < 0 ? names.push(name) - 1 : at; };
    const all = schemes.map(({name, figure, steps}) => [name, figure, steps.map(step => {
      const pot = typeof step.pot === "string" ? step.pot : ["name", "colour", "kind", "strength", "finish", "metal", "parts"].map(key => step.pot[key] || 0);
      return [place(pot), place(step.way), step.areas.map(place), ...(step.share && step.share !== 1 || step.coats > 1 ? [step.share || 1, step.coats || 1] : [])];
    })]);
    const bytes = new TextEncoder().encode(JSON.stringify([names, all])), text = btoa(String.fromCharCode(...bytes)).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
    return text + "." + check(text);
  }
  const isText = value => typeof value === "string" && value.length <= LONGEST, isNumber = (value, low, high) => typeof value === "number" && value >= low && value <= high;
  function potIn(value) {
    if (isText(value)) return value;
    if (!Array.isArray(value)) return null;
    const [name, colour, kind, strength, finish, metal, parts] = value, isPart = part => Array.isArray(part) && isText(part[0]) && isNumber(part[1], 1e-6, 1e6);
    if (!isText(name) || (colour && !colours.isColour(colour)) || !/^[a-z]{1,20}$/.test(kind) || (finish && !isText(finish))) return null;
    return {name, label: name, colour: colour || null, kind, strength: isNumber(strength, 0, 1000) ? strength : 1, finish: finish || "", metal: !!metal,
      ...Array.isArray(parts) && parts.length <= MOST_PARTS && parts.every(isPart) ? {parts: parts.map(([pot, n]) => [pot, n])} : {}};
  }
  // What is in an address, or null where it is broken; nothing in it is believed.
  function read(text) {
    try {
      const [body, sum] = text.split(".");
      if (check(body) !== sum) return null;
      const bytes = Uint8Array.from(atob(body.replace(/-/g, "+").replace(/_/g, "/")), sign => sign.charCodeAt(0));
      const [names, all] = JSON.parse(new TextDecoder("utf-8", {fatal: true}).decode(bytes));
      if (!Array.isArray(names) || !Array.isArray(all) || all.length < 1 || all.length > MOST_SCHEMES) return null;
      return all.map(([name, figure, steps]) => ({name, figure, steps: steps.map(([pot, way, areas, share = 1, coats = 1]) =>
        ({pot: potIn(names[pot]), way: names[way], areas: areas.map(area => names[area]), share, coats}))})).map(clean);
    } catch { return null; }
  }
  // A scheme from elsewhere, each part of it bounded. Throws where it is none.
  function clean({name, figure, steps, locked}) {
    if (!isText(name) || !isText(figure) || !Array.isArray(steps) || steps.length > MOST_STEPS) throw new Error("scheme");
    return {name, figure, locked: Array.isArray(locked) ? locked.filter(isText).slice(0, 100) : [], steps: steps.map(({pot, way, areas, share = 1, coats = 1, title = ""}) => {
      const own = typeof pot === "string" ? pot : pot && potIn([pot.name, pot.colour, pot.kind, pot.strength, pot.finish, pot.metal, pot.parts]);
      if (!own || !isText(own.name || own) || !isText(way) || !Object.hasOwn(ways, way) || !Array.isArray(areas) || areas.length > 200 || !areas.every(isText) ||
          !isNumber(share, .001, 1) || !isNumber(coats, 1, 20) || coats % 1) throw new Error("step");
      return {pot: own, way, areas, share, coats, title: isText(title) ? title : ""};
    })};
  }

  // Colours that cover badly, straight over a dark undercoat, as guidegen/computing/guide/dark_ground.py finds them.
  function darkGrounds(steps) {
    const found = new Map(), under = Object.create(null);
    for (const step of steps) {
      const pot = potOf(step);
      if (!pot || ways[step.way][0] !== "cover") continue;
      const undercoat = step.way.endsWith("undercoat") || pot.kind === "primer", shows = weak.families.includes(pot.family) && step.way !== "airbrush" && (step.coats || 1) < weak.coats;
      for (const area of step.areas) {
        if (!undercoat && shows && under[area] && colours.labOf(under[area])[0] < weak.dark) found.set(pot, [...(found.get(pot) || []), area]);
        under[area] = undercoat ? pot.colour : null;
      }
    }
    return [...found].map(([pot, areas]) => ({pot, areas: [...new Set(areas)]}));
  }

  // The order that is usual: undercoat, what covers, what runs, what is raised, metals late, gloss after matt; among these
  // inside out. A drawing knows only in what order its `areas` are drawn: what is drawn first lies beneath.
  function usualOrder(steps, areas) {
    const metals = new Set(steps.filter(step => ways[step.way][0] === "cover" && potOf(step) && isMetal(potOf(step))).flatMap(step => step.areas));
    const turn = step => {
      const role = ways[step.way][0], pot = potOf(step) || {}, late = step.areas.every(area => metals.has(area)) || isMetal(pot);
      if (step.way.endsWith("undercoat")) return 0;
      if (role === "finish" || !isColoured(pot)) return pot.finish === "gloss" ? 21 : 20;
      return {ground: 1, cover: 2, film: 3, edges: 4}[role] + (late ? 10 : 0);
    };
    const waiting = steps.map((step, at) => [turn(step), at, step]).sort((one, two) => one[0] - two[0] || one[1] - two[1]), sorted = [];
    const depth = ([, , {areas: own}]) => Math.min(...own.map(area => areas.indexOf(area))), share = (one, two) => one.areas.some(area => two.areas.includes(area));
    // The steps of one area stay as they were.
    while (waiting.length) {
      const same = waiting.filter(([now]) => now === waiting[0][0]), free = same.filter(([, at, step]) => !same.some(([, before, other]) => before < at && share(other, step)));
      const next = free.reduce((first, other) => depth(other) < depth(first) ? other : first);
      sorted.push(...waiting.splice(waiting.indexOf(next), 1).map(([, , step]) => step));
    }
    return sorted;
  }

  // The pots that steps take, each once; of what is mixed in a step those that go into it.
  const potsOf = steps => [...new Map(steps.map(potOf).filter(Boolean).flatMap(own => own.parts ? own.parts.map(([name]) => byName.get(name) || {name}) : [own])
    .map(own => [own.label || own.name, own])).values()];
  // What a step paints with as an author writes it, null where the palette lacks it.
  const painted = (own, quoted) => typeof own === "string" ? quoted(own) : !own.parts || !own.parts.every(([name]) => known.has(name)) ? null
    : own.parts.length > 1 ? `{${own.parts.map(([name, n]) => quoted(name) + ": " + n).join(", ")}}` : quoted(own.parts[0][0]);
  // Paint to thinner in small numbers.
  function thinned(share) {
    for (let thinner = 1; thinner <= 100; thinner++) {
      const paint = share * thinner / (1 - share);
      if (paint >= 1 - 1e-9 && Math.abs(paint - Math.round(paint)) < 1e-6) return `${Math.round(paint)}:${thinner}`;
    }
    return `${share}:${1 - share}`;
  }
  // A draft of a guide whose steps are the order of work. Text in JSON's quotes is text in YAML's.
  function draft(scheme, {areas, guide, figure}, words, wayNames) {
    // YAML has some signs in no text unless they are written out.
    const quoted = text => JSON.stringify(text).replace(/[\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]/g, sign => "\\u" + sign.charCodeAt(0).toString(16).padStart(4, "0"));
    const lines = ["---", `title: ${quoted(scheme.name)}`, "figures: 5"];
    lines.push(guide && !figure ? `# figure: ${words["try.draft.figure"]}` : `figure: ${figure || scheme.figure}`, "", "steps:", `  # ${words["try.draft.times"]}`);
    const named = areas.every(area => scheme.steps.some(step => step.areas.includes(area) && !areas.every(each => step.areas.includes(each))));
    for (const step of scheme.steps) {
      const pot = potOf(step), whole = areas.every(area => step.areas.includes(area)), dry = ways[step.way][1];
      if (!pot) continue;
      // A guide's “all” is every area that its steps name.
      const where = whole && named ? "all" : `[${step.areas.map(quoted).join(", ")}]`;
      const title = step.title || `${wayNames[step.way]}${whole ? "" : ": " + step.areas.join(", ")}`.replace(/^./, first => first.toUpperCase());
      const paint = painted(step.pot, quoted);
      lines.push(`  - step: ${quoted(title)}`, `    technique: ${step.way}`, `    area: ${where}`, `    paint: ${paint || "none"}`);
      if (!paint) lines.push(`    # ${words["try.draft.own"]} {name: ${quoted(pot.name)}, kind: ${pot.kind}${pot.colour ? `, colour: "${pot.colour.slice(1)}"` : ""}}`);
      if (step.share < 1) lines.push(`    thin: ${quoted(thinned(step.share))}`);
      if (step.coats > 1) lines.push(`    coats: ${step.coats}`);
      lines.push("    each: 3 min");
      if (dry) lines.push(`    dry: ${dry} min`);
    }
    return [...lines, "---", words["try.draft.words"], ""].join("\n");
  }

  return {states, potOf, potsOf, isMetal, isColoured, written, read, clean, usualOrder, darkGrounds, draft, byName};
};
