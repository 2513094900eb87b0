// What does the page of a handover record do with what is written, and with what the server says of it?
// How entries are kept and sent is told in entries.js.
"use strict";
(() => {
  const root = document.getElementById("record");
  if (!root?.dataset.address) return;
  const entries = tundishEntries(root, { show, arranged });
  const { address, keeping, known, waiting, send, flush, linkTo, boxes, textOf, put } = entries;

  function show(news) {
    const unsent = new Set(waiting().map(([, entry]) => entry.field));
    for (const box of boxes()) {
      const field = box.dataset.field;
      if (!box.querySelector(".problem")) continue;
      const busy = unsent.has(field) || box.contains(document.activeElement) && textOf(box) !== known.get(field);
      if (!busy && field in news.worked) put(box, news.worked[field]);
      else if (!busy && !box.querySelector(".worked").hidden && !(field in news.worked) && !news.typed.includes(field)) put(box, "");
      box.querySelector(".worked").hidden = !(field in news.worked);
    }
    entries.problems(news.problems);
    for (const [section, html] of Object.entries(news.said)) {
      const place = document.getElementById(`said-${section}`);
      if (place && place.dataset.html !== html) place.innerHTML = place.dataset.html = html;
    }
    for (const [section, [filled, of]] of Object.entries(news.done)) {
      const count = root.querySelector(`[data-count="${section}"]`);
      if (count) count.textContent = `${filled} of ${of}`;
    }
    const title = document.getElementById("title");
    if (title) title.textContent = news.title;
  }
  function arranged() {
    for (const form of root.querySelectorAll("form.section")) {
      const shown = (place) => [...place.querySelectorAll(".entry")].some((box) => !box.hidden);
      form.querySelector(".empty").hidden = shown(form);
      for (const more of form.querySelectorAll(".more")) more.hidden = !shown(more);
    }
    const elsewhere = document.getElementById("elsewhere");
    if (!elsewhere) return;
    const links = [...root.querySelectorAll("form.section[hidden]")].flatMap((form) => {
      const level = ["danger", "question"].find((each) => form.querySelector(`.said.${each}:not(.answered)`));
      if (!level) return [];
      const item = document.createElement("li");
      item.className = level;
      item.append(linkTo(`${address}/${form.dataset.section}`, `${level === "danger" ? "Danger" : "A question"} in ${form.dataset.title}`));
      item.firstChild.dataset.section = form.dataset.section;
      return [item];
    });
    elsewhere.replaceChildren(...links);
  }
  function open(section, push) {
    const form = document.getElementById(`s-${section}`);
    if (!form) return false;
    for (const each of root.querySelectorAll("form.section")) each.hidden = each !== form;
    root.querySelector(".sections [aria-current]")?.removeAttribute("aria-current");
    root.querySelector(`.sections [data-section="${section}"]`).setAttribute("aria-current", "step");
    document.getElementById("where").textContent = form.dataset.place;
    root.querySelector(".sections").open = false;
    if (push) history.pushState(null, "", `${address}/${section}`);
    entries.arrange();
    form.querySelector("h2").focus({ preventScroll: true });
    scrollTo(0, 0);
    return true;
  }

  root.addEventListener("change", (event) => event.target.closest("[data-field]")?.querySelector(".known")?.remove());
  async function leave(where) {
    flush();
    await send();
    if (waiting().length) keeping.scrollIntoView();
    else location.assign(where);
  }

  root.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-section]");
    if (link && open(link.dataset.section, true)) event.preventDefault();
    const sign = event.target.closest("a[data-sign]");
    if (!sign) return;
    event.preventDefault();
    leave(sign.href);
  });
  root.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.target.matches("form.section input")) return;
    event.preventDefault();
    const all = [...event.target.form.querySelectorAll("input:not([type=hidden]), textarea, button")].filter((i) => i.offsetParent);
    const next = all[all.indexOf(event.target) + 1];
    if (next?.matches("button")) next.click();
    else next?.focus();
  });
  root.addEventListener("submit", async (event) => {
    const form = event.target;
    flush();
    if (form.matches(".section")) {
      event.preventDefault();
      if (!open(form.dataset.onward.split("/").pop(), true)) await leave(form.dataset.onward);
      return;
    }
    if (!waiting().length) return;
    event.preventDefault();
    await send();
    if (waiting().length) keeping.scrollIntoView();
    else form.requestSubmit(event.submitter);
  });
  addEventListener("popstate", () => open(location.pathname.split("/").pop(), false) || open(root.querySelector("form.section")?.dataset.section, false));
})();
