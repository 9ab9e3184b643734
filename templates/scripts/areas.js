/* Point at an area in the table, or focus it, and it is lit in the figure; and the other way round. */
one(".beside") && ["mouseover", "focusin", "mouseout", "focusout"].forEach((type, at) =>
  document.addEventListener(type, ({target}) => {
    const found = target.closest("[data-area]"), area = at < 2 && found ? found.dataset.area : "";
    one(".beside").classList.toggle("pointed", !!area);
    all("[data-area]").forEach(each => each.classList.toggle("lit", each.dataset.area === area));
  }));
