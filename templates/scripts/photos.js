/* A photo opens large over the page; buttons and arrow keys turn to the others, and closing goes back to where one was. */
(() => {
  const box = one("dialog"), links = all(".photo a");
  if (!box || !box.showModal) return;
  const [frame, words] = box.children;
  let at;
  const show = to => {
    at = (to + links.length) % links.length;
    const picture = links[at].firstElementChild.cloneNode(true), caption = links[at].nextElementSibling;
    frame.replaceChildren(picture);
    // So wide that the browser takes the largest.
    all("*", frame).forEach(each => { each.sizes = "999em"; });
    words.textContent = `${caption ? caption.textContent : one("img", frame).alt} ${at + 1}/${links.length}`;
  };
  links.forEach((link, its) => {
    link.onclick = event => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      link.focus();
      show(its);
      box.showModal();
    };
  });
  box.onclick = ({target}) => {
    if (target.dataset.turn) show(at + +target.dataset.turn);
    else if (target !== words) box.close();
  };
})();
