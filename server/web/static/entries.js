// How does an engineer's page lose nothing on a phone that loses its signal or its power?
// Each change is kept on the phone first, then sent in the order it was made, and let go only when the server has said
// that it is kept. Without this script the same pages work with their own buttons.
"use strict";
function tundishEntries(root, { show = () => {}, arranged = () => {} } = {}) {
  const { address, csrf, who } = root.dataset;
  const [one, many] = (root.dataset.counted ?? "field fields").split(" ");
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
  const waitingHere = () => waiting().map(([, entry]) => entry).filter((entry) => entry.record === address);

  function write(field, text) {
    if (known.get(field) === text) return;
    known.set(field, text);
    clock = Math.max(clock, ...waitingHere().map((entry) => entry.sequence)) + 1;
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
    let sent = 0;
    for (let next = waiting(); next.length; next = waiting()) {
      trouble = await sendOne(...next[0]);
      if (trouble) {
        pause = Math.min(pause * 2, 30000);
        return;
      }
      sent += 1;
    }
    pause = 1000;
    if (sent) dispatchEvent(new Event("tundish-sent"));
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
      if (entry.record !== address) return "";
      clock = Math.max(clock, news.clock);
      show(news);
      arrange();
      return "";
    } catch {
      return "signal";
    }
  }
  function tell(now = "") {
    const count = waiting().length;
    const others = keysFrom(ANY).length - keysFrom(MINE).length;
    const fields = `${count} ${count === 1 ? one : many}`;
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

  // The page: what stands in a field, and which fields are asked after what was chosen.
  const boxes = () => root.querySelectorAll("[data-field]");
  const boxOf = (field) => root.querySelector(`[data-field="${CSS.escape(field)}"]`);
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
  function said(field) {
    return boxOf(field) ? textOf(boxOf(field)) : (root.dataset[field.replace(/-(.)/g, (_, letter) => letter.toUpperCase())] ?? "");
  }
  const holds = (when) => Object.entries(when).every(([other, values]) => values.includes(said(other)));
  function arrange() {
    for (const box of root.querySelectorAll("[data-when]")) box.hidden = !holds(JSON.parse(box.dataset.when));
    arranged();
  }
  function problems(found) {
    for (const box of boxes()) {
      const problem = box.querySelector(".problem");
      if (!problem) continue;
      const words = found[box.dataset.field] ?? "";
      if (problem.textContent !== words) problem.textContent = words;
      for (const input of inputs(box)) input.toggleAttribute("aria-invalid", Boolean(words));
    }
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
  addEventListener("online", send);
  addEventListener("pageshow", send);
  addEventListener("pagehide", flush);
  document.addEventListener("visibilitychange", () => (document.hidden ? flush() : send()));

  for (const box of boxes()) known.set(box.dataset.field, textOf(box));
  for (const entry of waitingHere()) if (boxOf(entry.field)) put(boxOf(entry.field), entry.text);
  queueMicrotask(() => { arrange(); tell(); send(); });
  return { address, keeping, known, waiting, waitingHere, write, send, flush, linkTo, boxes, boxOf, textOf, put, holds, arrange, problems };
}

// A page that writes nothing itself still sends what waits.
for (const root of document.querySelectorAll('#record[data-address=""]')) tundishEntries(root);
