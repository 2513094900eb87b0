// How does the page on site work without a signal: the checks, the readings, the closing?
// How entries are kept and sent is told in entries.js; where each answer leads stands in the page.
"use strict";
(() => {
  const root = document.getElementById("record");
  const answered = new Map(Object.entries(JSON.parse(root.dataset.answered)));
  const conflicts = JSON.parse(root.dataset.conflicts);
  const danger = document.getElementById("danger");
  const closing = document.getElementById("close");
  const missing = document.getElementById("lacking");
  const done = document.getElementById("closed");
  const entries = tundishEntries(root, { show, arranged });
  for (const entry of entries.waitingHere()) remember(entry.field, entry.text);
  for (const [field, text] of answered) entries.known.set(field, text);
  walkAll();
  if (entries.waitingHere().some((entry) => entry.field === "close")) markClosed();
  if (entries.waitingHere().some((entry) => entry.field === "gone")) markLeft();

  function remember(field, text) {
    if (field.startsWith("answer:") || field === "danger") answered.set(field, text);
    if (field.startsWith("reading:")) list(field, text);
  }
  function answer(field, text) {
    answered.set(field, text);
    entries.write(field, text);
    walkAll();
  }

  // The checks: the same answers lead the same way as on the server, along the ways that it handed over.
  function walkAll() {
    const yes = [...danger.querySelectorAll("[data-leads]")].find((button) => answered.get(button.name) === button.value);
    const clear = answered.get("danger") === "none";
    const at = yes ? yes.dataset.leads : clear ? "" : "danger";
    openOne(danger, at);
    danger.querySelector(".again").hidden = at === "danger";
    const ends = [];
    for (const walk of root.querySelectorAll("details.walk")) {
      walk.hidden = at !== "";
      const end = at ? at : walkOne(walk);
      if (end) ends.push(end.split("#")[1] ?? "");
    }
    root.dataset.walkEnd = ends.find((end) => end.startsWith("unsafe-")) ?? ends.at(-1) ?? "";
    entries.arrange();
  }
  function walkOne(walk) {
    const stops = JSON.parse(walk.dataset.ways);
    const taken = [];
    const been = new Set();
    let at = 0;
    for (;;) {
      const [place, , onward] = stops[at];
      const text = answered.get(`answer:${place}`);
      if (been.has(at) || !(text in onward)) break;
      been.add(at);
      taken.push([place, text]);
      at = onward[text];
    }
    openOne(walk, stops[at][0]);
    const items = taken.map(([place, text]) => {
      const title = walk.querySelector(`[data-place="${CSS.escape(place)}"] h3`).textContent;
      const item = document.createElement("li");
      const change = Object.assign(document.createElement("button"), { className: "plain", name: `answer:${place}`, value: "", textContent: "Change" });
      change.dataset.answer = "";
      change.setAttribute("aria-label", `Change: ${title}`);
      item.append(`${title} `, Object.assign(document.createElement("b"), { textContent: text }), " ", change);
      return item;
    });
    walk.querySelector(".taken").replaceChildren(...items);
    return stops[at][1] ? stops[at][0] : "";
  }
  function openOne(where, place) {
    for (const each of where.querySelectorAll(".stop")) each.hidden = each.dataset.place !== place;
  }

  // The readings.
  function list(field, text) {
    const lines = root.querySelector(".readings ul");
    lines.querySelector(`[name="${CSS.escape(field)}"]`)?.closest("li").remove();
    if (!text) return;
    const item = document.createElement("li");
    const back = Object.assign(document.createElement("button"), { className: "plain", name: field, value: "", textContent: "Take back" });
    back.dataset.reading = "";
    back.setAttribute("aria-label", `Take back: ${text}`);
    item.append(`${text} `, back);
    lines.append(item);
  }
  function addReading(form) {
    const figure = form.figure.value.trim();
    const where = form.where.value.trim().split(/\s+/).join(" ");
    const good = /^[+\-−]?(\d{1,7}([.,]\d{1,5})?|[.,]\d{1,5})$/.test(figure) && !/^[1-9]\d{0,2},\d{3}$/.test(figure);
    const problem = !good ? "Write a figure like 1.2." : where ? "" : "Say where, such as “gauge, cold”.";
    document.getElementById("reading-problem").textContent = problem;
    if (problem) return (good ? form.where : form.figure).focus();
    const field = `reading:${Array.from(crypto.getRandomValues(new Uint8Array(6)), (b) => b.toString(16).padStart(2, "0")).join("")}`;
    const text = `${figure.replace(",", ".")} ${form.unit.value} ${where}`;
    entries.write(field, text);
    list(field, text);
    form.figure.value = form.where.value = "";
    form.figure.focus();
  }

  // The closing: all that is missing at once, also without a signal.
  function arranged() {
    const found = document.querySelector("#f-unsafe-found")?.value;
    const due = found && entries.holds({ riddor: ["yes"], unsafe: ["yes"], "unsafe-fuel": ["natural-gas", "lpg"] });
    const report = document.getElementById("report");
    report.hidden = !due;
    if (!due) return;
    const day = new Date(`${found}T12:00:00Z`);
    day.setUTCDate(day.getUTCDate() + Number(root.dataset.reportDays));
    report.querySelector("b").textContent = day.toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
  }
  function lacking() {
    const asked = [...closing.querySelectorAll(".entry:not([hidden])")];
    const words = (box) => (box.querySelector("legend") ?? box.querySelector("label")).textContent;
    const empty = asked.filter((box) => "needed" in box.dataset && !entries.textOf(box).trim()).map((box) => [box.dataset.field, words(box), ""]);
    const clashing = conflicts.filter(([field, when]) => entries.holds(when) && !entries.boxOf(field)?.hidden)
      .map(([field, , why]) => [field, words(entries.boxOf(field)), why]);
    return [...empty, ...clashing];
  }
  function tellLacking(found, seek) {
    missing.hidden = !found.length;
    const items = found.map(([field, words, why]) => {
      const item = document.createElement("li");
      item.append(entries.linkTo(`#f-${field}`, words), why ? ` ${why}` : "");
      return item;
    });
    missing.querySelector("ul").replaceChildren(...items);
    if (found.length && seek) missing.focus();
  }
  function now() {
    return new Date().toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  }
  function fillNow(field) {
    const box = entries.boxOf(field);
    if (entries.textOf(box)) return;
    const time = now();
    entries.put(box, time);
    entries.known.delete(field);
    entries.write(field, time);
  }
  function markClosed() {
    closing.querySelector(".onward").disabled = true;
    done.hidden = false;
  }
  async function close() {
    entries.flush();
    fillNow("left");
    const found = lacking();
    tellLacking(found, true);
    if (found.length) return;
    entries.write("close", new Date().toISOString());
    markClosed();
    done.scrollIntoView();
    await entries.send();
  }
  // Nobody in, or not needed: one entry like any other, so it waits for a signal, too.
  function leave(form, what) {
    const reason = what === "again" ? "nobody" : form.reason.value;
    const words = (form.words?.value ?? "").trim().split(/\s+/).join(" ");
    entries.write("gone", `${what} ${reason} ${form.stood.value} ${words}`.trim());
    markLeft();
    document.getElementById("left").focus();
  }
  function markLeft() {
    const gone = document.getElementById("gone");
    if (!gone) return;
    gone.hidden = true;
    document.getElementById("left").hidden = false;
  }
  function show(news) {
    entries.problems(news.problems);
    const fieldset = entries.boxOf("cause").querySelector("fieldset");
    for (const [id, words] of news.causes) {
      const pick = fieldset.querySelector(`input[value="${CSS.escape(id)}"]`)?.closest(".pick");
      if (!pick) continue;
      pick.querySelector("span").textContent = words;
      if (!fieldset.contains(document.activeElement)) fieldset.append(pick);
    }
    if (news.closed) return location.assign(news.closed);
    if (news.lacking.length && !entries.waitingHere().length) {
      closing.querySelector(".onward").disabled = false;
      done.hidden = true;
      tellLacking(news.lacking, !done.hidden);
    }
  }

  root.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    if ("answer" in button.dataset) {
      event.preventDefault();
      const walk = button.closest(".walk");
      answer(button.name, button.value);
      (walk.querySelector(".stop:not([hidden]) h3") ?? root.querySelector("details.walk[open] .stop:not([hidden]) h3"))?.focus();
    } else if ("again" in button.dataset) {
      event.preventDefault();
      for (const yes of danger.querySelectorAll("[data-leads]")) if (answered.get(yes.name)) answer(yes.name, "");
      answer("danger", "");
    } else if ("reading" in button.dataset) {
      event.preventDefault();
      entries.write(button.name, "");
      list(button.name, "");
    } else if ("now" in button.dataset) {
      event.preventDefault();
      fillNow(button.dataset.now);
      button.closest("form").hidden = true;
    }
  });
  root.addEventListener("submit", (event) => {
    event.preventDefault();
    if (event.target === closing) close();
    else if (event.target.closest("#gone")) leave(event.target, event.submitter?.value ?? "off");
    else if (event.target.matches(".reading")) addReading(event.target);
  });
  closing.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.matches("input")) event.preventDefault();
  });
})();
