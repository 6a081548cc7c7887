/* Cases are dragged into sessions, and moved within one by keys; what that means is decided by the server. Two fields do by
   keyboard what dragging does. */
(() => {
  if (window.limbqueueSessions) {
    return;
  }
  window.limbqueueSessions = true;
  let dragged = null;

  const target = (event) => {
    const session = event.target.closest?.(".lq-sessions [data-session]");
    return session && dragged && session.dataset.kind === dragged.into ? session : null;
  };
  const unmark = () =>
    document.querySelectorAll(".lq-session-target").forEach((one) => one.classList.remove("lq-session-target"));

  document.addEventListener("dragstart", (event) => {
    const what = event.target.closest?.(".lq-sessions [data-drag]");
    dragged = what ? { what: what.dataset.drag, into: what.dataset.into } : null;
    if (dragged) {
      event.dataTransfer.effectAllowed = "move";
      event.dataTransfer.setData("text/plain", dragged.what);
    }
  });
  document.addEventListener("dragover", (event) => {
    const session = target(event);
    if (session) {
      event.preventDefault();
      if (!session.classList.contains("lq-session-target")) {
        unmark();
        session.classList.add("lq-session-target");
      }
    }
  });
  document.addEventListener("drop", (event) => {
    const session = target(event);
    if (session) {
      event.preventDefault();
      session.closest(".lq-sessions").dispatchEvent(
        new CustomEvent("lq-place", { detail: { what: dragged.what, session: session.dataset.session } }),
      );
    }
    unmark();
    dragged = null;
  });
  document.addEventListener("keydown", (event) => {
    const block = event.target.closest?.(".lq-sessions [data-order]");
    const arrow = event.key === "ArrowUp" || event.key === "ArrowDown";
    if (block && arrow && event.altKey && !event.ctrlKey && !event.metaKey && !event.shiftKey) {
      event.preventDefault();
      block.closest(".lq-sessions").dispatchEvent(
        new CustomEvent("lq-order", { detail: { which: block.dataset.order, earlier: event.key === "ArrowUp" } }),
      );
    }
  });
  document.addEventListener("dragend", () => {
    unmark();
    dragged = null;
  });
})();
