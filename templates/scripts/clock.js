/* How long a batch takes: the clock that the site was built with, in the same whole milliseconds.
   A pass is {n, coat, once, each, dry, on: [areas], area: whether only those areas wait while it dries}. */
window.guidegenClock = (() => {

  // Where each pass lies on the clock for n figures, painted in order; a wet one is waited for.
  function timeline(passes, n) {
    const whole = new Array(n).fill(0), areas = {}, bars = [];
    let t = 0;
    if (n < 1) return bars;
    for (const p of passes) {
      const bar = {n: p.n, coat: p.coat, start: t, end: 0, handsOn: p.once + n * p.each,
                   waited: 0, gaps: 0, longest: 0, longestAt: 0, dryUntil: 0};
      const clocks = p.on.map(a => areas[a] = areas[a] || new Array(n).fill(0));
      t += p.once;
      for (let i = 0; i < n; i++) {
        const gap = Math.max(whole[i], ...clocks.map(c => c[i])) - t;
        if (gap > 0) {
          bar.waited += gap;
          bar.gaps++;
          if (gap > bar.longest) { bar.longest = gap; bar.longestAt = t; }
          t += gap;
        }
        t += p.each;
        for (const c of p.area ? clocks : [whole]) c[i] = Math.max(c[i], t + p.dry);
      }
      bar.end = t;
      bar.dryUntil = t + p.dry;
      bars.push(bar);
    }
    return bars;
  }

  const sum = (rows, key) => rows.reduce((all, row) => all + row[key], 0);

  function times(passes, n) {
    const bars = timeline(passes, n);
    return {figures: n, handsOn: sum(bars, "handsOn"), waiting: sum(bars, "waited"),
            lastStroke: bars.length ? bars[bars.length - 1].end : 0,
            total: Math.max(0, ...bars.map(bar => bar.dryUntil))};
  }

  return {timeline, times};
})();
