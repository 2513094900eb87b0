// One key, one answer: presses whatever on the page says that the key is its own, and keeps the clock going.
// Without this script the same buttons are pressed with Tab and Enter, and the page counts when it is loaded.
"use strict";
(() => {
  const root = document.documentElement;
  const typing = (at) => at && (at.matches("input:not([type=checkbox]), textarea, select") || at.isContentEditable);
  const shown = (key) => [...document.querySelectorAll("[data-key]")].find((each) => each.dataset.key === key);

  // Nobody has read a page that has just come: what is pressed or clicked then was meant for the one before.
  // The same goes for a key that is held, which some keyboards send as one press after another.
  const UNREAD = 300;
  let settled = 0;
  let waiting = 0;
  function settle() {
    root.dataset.settling = "";
    clearTimeout(waiting);
    settled = performance.now() + UNREAD;
    waiting = setTimeout(() => { delete root.dataset.settling; }, UNREAD);
  }
  const unread = (form) => form && performance.now() < settled && !form.hasAttribute("data-always");

  function press(target) {
    if (target.matches("input, textarea, select")) {
      target.focus();
      return;
    }
    if (unread(target.form)) {
      settle();
      return;
    }
    // What was pressed is on its way: a key that is held or pressed twice answers one question.
    if ("sent" in root.dataset) return;
    if (target.href || target.form?.checkValidity()) root.dataset.sent = "";
    target.click();
  }

  document.addEventListener("keydown", (event) => {
    if (event.key === "F8") {
      const danger = shown("d");
      event.preventDefault();
      if (danger && !event.repeat) press(danger);
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (typing(event.target)) {
      if (event.key === "Escape") event.target.blur();
      return;
    }
    const target = event.repeat ? null : shown(event.key.toLowerCase());
    if (target) {
      event.preventDefault();
      press(target);
    }
  });
  settle();
  requestAnimationFrame(settle);
  addEventListener("pageshow", () => {
    delete root.dataset.sent;
    settle();
  });
  document.addEventListener("submit", (event) => {
    // What was typed and sent with Enter was meant for this page.
    if (event.submitter?.dataset.key && unread(event.target)) event.preventDefault();
    else root.dataset.sent = "";
  });

  const clock = document.querySelector("[data-began]");
  const reminder = document.querySelector("[data-due]");
  const opened = performance.now();
  const began = clock ? Number(clock.dataset.seconds) : 0;
  function tick() {
    const seconds = Math.floor((performance.now() - opened) / 1000);
    if (clock) {
      const all = began + seconds;
      const two = (number) => String(number).padStart(2, "0");
      const hours = Math.floor(all / 3600);
      const minutes = Math.floor(all / 60) % 60;
      clock.textContent = hours ? `${hours}:${two(minutes)}:${two(all % 60)}` : `${minutes}:${two(all % 60)}`;
    }
    if (reminder && seconds >= Number(reminder.dataset.due)) reminder.hidden = false;
  }
  if (clock || reminder) setInterval(tick, 1000);
})();
