// How does a handover record lose nothing on a phone that loses its signal or its power?
// Each change is kept on the phone first, then sent in the order it was made, and let go only when the server has said
// that it is kept. Without this script the same page works with its own buttons.
"use strict";
(() => {
  const root = document.getElementById("record");
  if (!root) return;
  const { address, csrf, who } = root.dataset;
  const keeping = document.getElementById("keeping");
  const MINE = `tundish-entry/${encodeURIComponent(who)}/`;
  const ANY = "tundish-entry/";
  const REFUSED = "tundish-refused/";
  const PATIENCE = 15000;
  const memory = new Map();
  const known = new Map();
  let clock = Number(root.dataset.clock);
  let trouble = "";
  let sending = null;
  let pause = 1000;
  let timer = 0;
  // The queue: an entry a key, so that two pages of one phone never overwrite each other's.
  function store(key, value) {
    try {
      localStorage.setItem(key, value);
    } catch {
      memory.set(key, value);
    }
  }
  function drop(key) {
    memory.delete(key);
    try {
      localStorage.removeItem(key);
    } catch { /* then it was never kept there */ }
  }
  function keysFrom(start) {
    const all = new Set(memory.keys());
    try {
      Object.keys(localStorage).forEach((key) => all.add(key));
    } catch { /* a phone that keeps nothing */ }
    return [...all].filter((key) => key.startsWith(start)).sort();
  }
  function entryAt(key) {
    try {
      return JSON.parse(memory.get(key) ?? localStorage.getItem(key));
    } catch {
      return null;
    }
  }
  const waiting = () => keysFrom(MINE).map((key) => [key, entryAt(key)]).filter(([, entry]) => entry);

  function write(field, text) {
    if (known.get(field) === text) return;
    known.set(field, text);
    const here = waiting().filter(([, entry]) => entry.record === address).map(([, entry]) => entry.sequence);
    clock = Math.max(clock, ...here) + 1;
    const bytes = crypto.getRandomValues(new Uint8Array(12));
    const id = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
    const order = String(clock).padStart(16, "0");
    const entry = { id, sequence: clock, field, text, record: address };
    store(`${MINE}${address.split("/").pop()}/${order}/${id}`, JSON.stringify(entry));
    tell();
    send();
  }

  // Sending: one at a time, in order, again and again until the server has it.
  function send() {
    clearTimeout(timer);
    sending ??= (navigator.locks ? navigator.locks.request("tundish-send", sendAll) : sendAll())
      .finally(() => { sending = null; tell(); if (trouble === "signal") timer = setTimeout(send, pause); });
    return sending;
  }
  async function sendAll() {
    tell("Saving…");
    for (let next = waiting(); next.length; next = waiting()) {
      trouble = await sendOne(...next[0]);
      if (trouble) {
        pause = Math.min(pause * 2, 30000);
        return;
      }
    }
    pause = 1000;
  }
  async function sendOne(key, entry) {
    const body = new URLSearchParams({ csrf, id: entry.id, sequence: entry.sequence, field: entry.field, text: entry.text });
    let answer;
    try {
      const signal = AbortSignal.timeout(PATIENCE);
      answer = await fetch(`${entry.record}/entries`, { method: "POST", body, redirect: "manual", signal });
      if (answer.type === "opaqueredirect" || answer.status === 401) return "signed-out";
      if (answer.status === 403) return "stale";
      if (answer.status >= 400 && answer.status < 500 && ![408, 429].includes(answer.status)) {
        store(REFUSED + key, JSON.stringify(entry));
        drop(key);
        return "";
      }
      const news = answer.ok ? await answer.json() : null;
      if (news?.kept !== entry.id) return "signal";
      drop(key);
      if (entry.record === address) show(news);
      return "";
    } catch {
      return "signal";
    }
  }
  function tell(now = "") {
    const count = waiting().length;
    const others = keysFrom(ANY).length - keysFrom(MINE).length;
    const fields = `${count} ${count === 1 ? "field" : "fields"}`;
    const kept = memory.size ? "Not saved yet, and this phone keeps nothing: stay on this page" : "Kept on this phone";
    let words = address ? "Saved. Everything you wrote is kept." : "";
    if (count && trouble === "signed-out") words = `${kept}: ${fields}. Sign in again to send them. `;
    else if (count && trouble === "stale") words = `${kept}: ${fields}. Load this page again to send them.`;
    else if (count && trouble) words = `${kept}, waiting for a signal: ${fields}.`;
    else if (count) words = now || `${kept}: ${fields}. Saving…`;
    if (others > 0) words += ` ${others} more on this phone wait for another account to sign in.`;
    if (keysFrom(REFUSED).length) words += " Something could not be kept by the server: compare what you wrote.";
    if (keeping.textContent !== words) keeping.textContent = words;
    keeping.classList.toggle("waiting", count > 0 && Boolean(trouble));
    if (count && trouble === "signed-out") keeping.append(linkTo(`/staff/sign-in?to=${encodeURIComponent(location.pathname)}`, "Sign in"));
  }
  function linkTo(href, textContent) {
    return Object.assign(document.createElement("a"), { href, textContent });
  }

  // The page: what stands in a field, and what the server says of it.
  const boxes = () => root.querySelectorAll("[data-field]");
  const inputs = (box) => [...(box.matches("textarea") ? [box] : box.querySelectorAll("input, textarea"))].filter((i) => i.type !== "hidden");
  function textOf(box) {
    const all = inputs(box);
    if (!["radio", "checkbox"].includes(all[0].type)) return all[0].value;
    return all.filter((input) => input.checked).map((input) => input.value).join(" ");
  }
  function put(box, text) {
    for (const input of inputs(box)) {
      if (["radio", "checkbox"].includes(input.type)) input.checked = text.split(" ").includes(input.value);
      else if (input.value !== text) input.value = text;
    }
    known.set(box.dataset.field, text);
  }
  const boxOf = (field) => root.querySelector(`[data-field="${CSS.escape(field)}"]`);
  function show(news) {
    clock = Math.max(clock, news.clock);
    const unsent = new Set(waiting().map(([, entry]) => entry.field));
    for (const box of boxes()) {
      const field = box.dataset.field;
      const problem = box.querySelector(".problem");
      if (!problem) continue;
      const busy = unsent.has(field) || box.contains(document.activeElement) && textOf(box) !== known.get(field);
      if (!busy && field in news.worked) put(box, news.worked[field]);
      else if (!busy && !box.querySelector(".worked").hidden && !(field in news.worked) && !news.typed.includes(field)) put(box, "");
      box.querySelector(".worked").hidden = !(field in news.worked);
      if (problem.textContent !== (news.problems[field] ?? "")) problem.textContent = news.problems[field] ?? "";
      for (const input of inputs(box)) input.toggleAttribute("aria-invalid", field in news.problems);
    }
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
    arrange();
  }
  function arrange() {
    for (const box of root.querySelectorAll("[data-when]")) {
      const when = Object.entries(JSON.parse(box.dataset.when));
      box.hidden = when.some(([other, values]) => !values.includes(boxOf(other) ? textOf(boxOf(other)) : ""));
    }
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
    arrange();
    form.querySelector("h2").focus({ preventScroll: true });
    scrollTo(0, 0);
    return true;
  }
  function flush() {
    const box = document.activeElement?.closest?.("[data-field]");
    if (box && root.contains(box)) write(box.dataset.field, textOf(box));
  }

  root.addEventListener("change", (event) => {
    const box = event.target.closest("[data-field]");
    if (box) write(box.dataset.field, textOf(box));
    arrange();
  });
  root.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-section]");
    if (link && open(link.dataset.section, true)) event.preventDefault();
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
      if (open(form.dataset.onward.split("/").pop(), true)) return;
    } else if (waiting().length) event.preventDefault();
    else return;
    await send();
    if (waiting().length) keeping.scrollIntoView();
    else if (form.matches(".section")) location.assign(form.dataset.onward);
    else form.requestSubmit();
  });
  addEventListener("popstate", () => open(location.pathname.split("/").pop(), false) || open(root.querySelector("form.section")?.dataset.section, false));
  addEventListener("online", send);
  addEventListener("pageshow", send);
  addEventListener("pagehide", flush);
  document.addEventListener("visibilitychange", () => (document.hidden ? flush() : send()));

  for (const box of boxes()) known.set(box.dataset.field, textOf(box));
  for (const [, entry] of waiting()) if (entry.record === address && boxOf(entry.field)) put(boxOf(entry.field), entry.text);
  arrange();
  tell();
  send();
})();
