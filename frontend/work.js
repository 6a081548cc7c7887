/* The worklists by keyboard: 1 to 8 choose a list, j, k and the arrows move through its lines, n and p turn the pages;
   Enter, as for every link, opens. A line that somebody looks at keeps the focus while others come and go around it. */
(() => {
  if (window.limbqueueWork) {
    return;
  }
  const steps = { j: 1, ArrowDown: 1, k: -1, ArrowUp: -1 };
  const pages = { n: ".lq-work-next", p: ".lq-work-before" };
  const lines = () => [...document.querySelectorAll(".lq-work a.lq-work-line")];
  let last = null;

  document.addEventListener("focusin", (event) => {
    const line = event.target.closest?.(".lq-work a.lq-work-line");
    last = line ? { referral: line.dataset.referral, at: lines().indexOf(line) } : null;
  });

  window.limbqueueWork = {
    keepFocus() {
      if (!last || (document.activeElement && document.activeElement !== document.body)) {
        return;
      }
      const now = lines();
      const line = now.find((one) => one.dataset.referral === last.referral) ?? now[Math.min(last.at, now.length - 1)];
      line?.focus({ preventScroll: true });
    },
  };

  document.addEventListener("keydown", (event) => {
    const work = document.querySelector(".lq-work");
    if (!work || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) {
      return;
    }
    const focused = document.activeElement;
    if (focused && focused !== document.body && !work.contains(focused)) {
      return; // somebody moves in the navigation
    }
    const button = pages[event.key]
      ? work.querySelector(pages[event.key])
      : /^[1-9]$/.test(event.key)
        ? work.querySelectorAll(".lq-chip")[Number(event.key) - 1]
        : null;
    if (button) {
      event.preventDefault();
      button.click();
      return;
    }
    const step = steps[event.key];
    if (!step) {
      return;
    }
    const all = lines();
    const at = all.indexOf(focused);
    const next = at < 0 ? all[step > 0 ? 0 : all.length - 1] : all[at + step];
    if (next) {
      event.preventDefault();
      next.focus();
      next.scrollIntoView({ block: "nearest" });
    }
  });
})();
