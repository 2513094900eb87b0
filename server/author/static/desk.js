"use strict";
// Waits until the folder was read again, then puts the new page in the place of the old one and stays where it was.

const main = () => document.querySelector("main");
const regions = () => [...document.querySelectorAll(".picture")];
const pause = (ms) => new Promise((done) => setTimeout(done, ms));

function say(words) {
  const said = document.querySelector("#said");
  if (said.textContent !== words) said.textContent = words;
}

function toTheBeginning(region) {
  const begins = region.querySelector(".begins").getBoundingClientRect();
  const beyond = begins.right - region.getBoundingClientRect().right;
  if (beyond > 0) region.scrollLeft += beyond + 16;
}

async function refresh() {
  const answer = await fetch(location.href, { cache: "no-store" });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const where = regions().map((region) => [region.scrollLeft, region.scrollTop]);
  const unfolded = [...document.querySelectorAll("details[open]")].map((each) => each.id);
  const focused = document.activeElement?.id;
  document.title = page.title;
  main().replaceWith(page.querySelector("main"));
  regions().forEach((region, place) => region.scrollTo(...(where[place] ?? [0, 0])));
  unfolded.forEach((id) => document.getElementById(id)?.setAttribute("open", ""));
  if (focused) document.getElementById(focused)?.focus({ preventScroll: true });
  say(page.querySelector("#said").textContent);
}

async function watch() {
  for (;;) {
    try {
      const answer = await fetch(`/changes?since=${main().dataset.version}`, { cache: "no-store" });
      const { version } = await answer.json();
      if (String(version) !== main().dataset.version) await refresh();
    } catch {
      say("The desk has stopped. Start it again with: tundish write");
      await pause(1000);
    }
  }
}

regions().forEach(toTheBeginning);
watch();
