/* What is folded away is open on paper, and a table where there is room for it; the bar tells at which step one is. */
(() => {
  // The contact sheet's drawings have thousands of shapes: each is put in once it comes near. Without scripts all are there.
  const draw = place => all("noscript", place).forEach(each => { each.outerHTML = each.textContent; });
  const near = new IntersectionObserver(those => those.forEach(({target, isIntersecting}) => { if (isIntersecting) draw(target); }), {rootMargin: "100% 0px"});
  all(".thumb").forEach(thumb => near.observe(thumb));

  let closed = [];
  window.onbeforeprint = () => { for (const each of closed = all("details:not([open])")) each.open = true; };
  window.onafterprint = () => { for (const each of closed) each.open = false; };
  if (matchMedia("(min-width: 60rem)").matches) all(".where-table").forEach(each => { each.open = true; });

  const at = one(".bar .at"), steps = all(".step"), text = at && at.textContent;
  if (!steps.length || !at) return;
  const last = one(".flow");
  const tell = () => {
    const line = 140, n = last.getBoundingClientRect().bottom < line ? 0 : steps.filter(step => step.getBoundingClientRect().top < line).length;
    at.textContent = n ? at.dataset.at.replace("{n}", n) : text;
    at.setAttribute("href", "#" + (n ? steps[n - 1].id : "steps"));
  };
  addEventListener("scroll", () => requestAnimationFrame(tell), {passive: true});
  // Once the page is laid out, so that nothing has to be laid out for it alone.
  new IntersectionObserver(tell).observe(at);
})();
