/* What a scheme takes along: the pots it needs, and a draft of a guide to copy or save. */
window.guidegenTaking = ({t, make, dab, model, words, wayNames, whose}) => {
  const fold = one(".try-take"), shown = one(".try-draft"), copy = one(".try-copy");
  let scheme = null, chart = null;
  const draft = () => model.draft(scheme, chart, words, wayNames);
  function show() {
    if (!fold.open || !chart) return;
    one(".try-needed").replaceChildren(...model.potsOf(scheme.steps).map(own => {
      const item = make("li");
      item.append(dab(own.colour), ` ${own.label || own.name}, ${t(whose(own))}`);
      return item;
    }));
    shown.textContent = draft();
  }
  fold.addEventListener("toggle", show);
  one(".try-save").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([draft()], {type: "text/markdown"}));
    link.download = (scheme.name.toLowerCase().normalize("NFKD").replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "scheme") + ".md";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  });
  copy.addEventListener("click", async () => {
    try { await navigator.clipboard.writeText(draft()); copy.textContent = t("try.draft-copied"); } catch { getSelection().selectAllChildren(shown); }
  });
  return (...now) => { [scheme, chart] = now; show(); };
};
