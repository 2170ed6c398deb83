// Starts the app, keeps it on the phone, and says so plainly when either fails.
//
// What the app and this file tell each other, all on `window`:
//   freshet-panic      app → here    detail: text. The app has stopped.
//   freshet-plain      app → here    detail: JSON, what the plain page tells of the cases in hand
//                                    (ui::plain). Sent now and then, and after freshet-panic.
//   freshet-update     here → app    detail: "waiting" (a new version can take over) or
//                                    "replaced" (another tab let it; a reload is due).
//   freshet-offline    here → app    detail: "ready", "failed" or "none".
//   freshet-take-over  app → here    use the new version now; sent only when no round runs.
//   freshet-check      app → here    look for a new version now.
//   freshet-checked    here → app    detail: "found", "current" or "unreachable".
//   freshet-theme      app → here    detail: "phone", "light", "dark" or "sunlight", as now chosen.
// The last state also stands on <html>, as data-update and so on, for who comes late.
// data-version is the version of the page, and empty in a build for development.

const root = document.documentElement;
const own = document.querySelector("script[data-glue]");

/** What this browser keeps among the app's habits; nothing where it keeps nothing that can be read. */
function habits() {
  try {
    return JSON.parse(localStorage.getItem("freshet/habits")) ?? {};
  } catch {
    return {};
  }
}

const kept = habits();
// The plain page stands in the page in each language, so that it needs neither the app nor a network.
if (kept.language === "german") {
  for (const part of [...document.getElementById("in-german").content.children]) {
    part.lang = "de";
    document.getElementById(part.id).replaceWith(part);
  }
}

const app = document.getElementById("app");
const shell = document.getElementById("shell");
const trouble = document.getElementById("trouble");
const sheet = document.getElementById("trouble-sheet");

let registration = null;

function tell(what, state) {
  root.dataset[what] = state;
  dispatchEvent(new CustomEvent(`freshet-${what}`, { detail: state }));
}

// ---- Theme

const bars = [...document.querySelectorAll("meta[name=theme-color]")].map((meta) => [meta, meta.media]);

/** Wears a theme, and colours the phone's bars alike; without one, as the phone prefers. */
function wear(theme) {
  if (!["light", "dark", "sunlight"].includes(theme)) theme = null;
  if (theme) root.dataset.theme = theme;
  else delete root.dataset.theme;
  for (const [meta, media] of bars) {
    if (!theme) meta.media = media;
    else meta.media = meta.dataset.of === theme ? "all" : "not all";
  }
}

addEventListener("freshet-theme", (event) => wear(event.detail));
// Before the app runs, so that nothing flashes.
wear(kept.theme);

// ---- The shell

// Whether this browser keeps the app and does not yet: the shell then says what is about to come.
const installs = Boolean(root.dataset.version) && "serviceWorker" in navigator;
shell.classList.toggle("first", installs && !navigator.serviceWorker.controller);

/** Who went to the sheet before the app ran stays with it: the app opens on its own sheet. */
addEventListener("hashchange", () => {
  if (shell.isConnected && location.hash === "#trouble-sheet") {
    history.replaceState(history.state, "", "?page=anaphylaxis#trouble-sheet");
  }
});

// ---- Trouble

const STOPS = "freshet/stops";
/** A stop within so many milliseconds of the start would come again at the next one. */
const EARLY = 20_000;
let told = null;
let stopped = false;
let closed = false;

/** How often the app stopped right after its start, one time after the other, in this tab. */
function stops() {
  try {
    return Number(sessionStorage.getItem(STOPS)) || 0;
  } catch {
    return 0;
  }
}

function setStops(count) {
  try {
    sessionStorage.setItem(STOPS, count);
  } catch {
    // Without it the page offers the same start each time.
  }
}

/** Shows the plain page instead of the app. The first cause stays; what follows adds nothing. */
function showTrouble(when, detail) {
  if (stopped) return;
  stopped = true;
  // What the app says from its hook comes before this; whatever it would say later, it is dead.
  queueMicrotask(() => (closed = true));
  const again = stops() + 1;
  setStops(again);
  silence();
  const what = when === "panic" && again > 1 ? "again" : when;
  for (const part of trouble.querySelectorAll("[data-when]")) part.hidden = part.dataset.when !== what;
  document.getElementById("trouble-detail").textContent = `${root.dataset.version}\n${detail}`;
  document.getElementById("trouble-go").href = what === "again" ? "./" : location.href.replace(/#.*/, "");
  shell.remove();
  app.hidden = true;
  trouble.hidden = false;
  sheet.classList.add("shown");
  tellCases();
  // Who reads the sheet already goes on reading it.
  if (location.hash === "#trouble-sheet") goToSheet();
  else document.getElementById("trouble-title").focus();
}

function goToSheet() {
  sheet.scrollIntoView();
  sheet.focus({ preventScroll: true });
}

/**
 * The app's memory may be in any state: nothing more is kept or drawn that it says. Its clocks end,
 * and what it would still write is refused.
 */
function silence() {
  const refuse = () => {
    throw new DOMException("The app has stopped", "InvalidStateError");
  };
  for (const name of ["setItem", "removeItem", "clear"]) Storage.prototype[name] = refuse;
  for (const name of ["add", "put", "delete", "clear"]) IDBObjectStore.prototype[name] = refuse;
  // One count for both kinds of clock.
  for (let clock = setTimeout(() => {}); clock > 0; clock -= 1) clearTimeout(clock);
}

// ---- What the plain page tells of the cases

function add(parent, name, text, kind) {
  const part = document.createElement(name);
  part.textContent = text;
  if (kind) part.className = kind;
  parent.append(part);
  return part;
}

/** Fills the part of the page that tells of the cases: as the app said it, else as it is stored. */
function tellCases() {
  const place = document.getElementById("trouble-told");
  for (const old of document.querySelectorAll(".trouble-case, .trouble-call")) old.remove();
  for (const name of ["trouble-raw", "trouble-sealed"]) document.getElementById(name).hidden = true;
  if (told?.ready) {
    for (const table of sheet.querySelectorAll("[data-region]")) table.hidden = table.dataset.region !== told.region;
    for (const one of told.cases) tellCase(place, one);
    for (const [text, address] of told.calls) add(place, "a", text, "trouble-call").href = address;
    for (const [text, address] of told.emergency) {
      const link = add(sheet, "a", text, "trouble-call");
      link.href = address;
      sheet.querySelector(".trouble-first").after(link);
    }
  } else {
    tellStored(place);
  }
  place.hidden = !place.querySelector(".trouble-case, .trouble-call, p[id]:not([hidden])");
}

function tellCase(place, { name, due, figures, heading, lines, earlier }) {
  const part = add(place, "section", "", "trouble-case");
  add(part, "h3", name);
  for (const one of due) {
    const line = add(part, "p", "", "trouble-due");
    const words = add(line, "span", "");
    const left = add(line, "strong", "");
    const show = () => {
      const seconds = Math.ceil((one.at - Date.now()) / 1000);
      words.textContent = seconds > 0 ? one.before : one.after;
      left.textContent = clock(Math.abs(seconds));
    };
    show();
    setInterval(show, 1000);
  }
  for (const [what, value] of figures) add(part, "p", `${what}: ${value}`);
  add(part, "p", told.hour, "trouble-small");
  add(part, "h4", heading);
  const list = add(part, "ul", "");
  for (const line of lines) add(list, "li", line);
  if (earlier) add(part, "p", earlier, "trouble-small");
}

function clock(seconds) {
  const two = (number) => String(number).padStart(2, "0");
  const hours = Math.floor(seconds / 3600);
  const rest = `${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
  return hours ? `${hours}:${rest}` : rest;
}

/** The lines of the journal in this browser, by name: case, then place. */
function stored() {
  try {
    const ours = Object.keys(localStorage).filter((name) => /^freshet\/(entry|aside)\//.test(name));
    return ours.sort().map((name) => [name, localStorage.getItem(name)]);
  } catch {
    return [];
  }
}

/** Where the app said nothing: entries of the last day as they are stored, if they lie open. */
function tellStored(place) {
  const DAY = 24 * 3600 * 1000;
  /** Characters of an entry; the whole of it is in the file. */
  const LONGEST = 160;
  const cases = new Map();
  let sealed = false;
  for (const [name, line] of stored()) {
    const id = name.match(/^freshet\/entry\/([0-9a-f]{32})\//)?.[1];
    // The journals of the clinic and of the kit are no cases.
    if (!id || /^0{31}[01]$/.test(id)) continue;
    const text = line.match(/^[0-9a-f]{64} (\{.*)/s)?.[1];
    if (!text) {
      sealed = true;
      continue;
    }
    try {
      const { at, event } = JSON.parse(text);
      if (!cases.has(id)) cases.set(id, []);
      cases.get(id).push([at, event]);
    } catch {
      // Damaged: it goes into the file as it is.
    }
  }
  const last = (entries) => entries.at(-1)[0];
  const fresh = [...cases].filter(([, entries]) => Date.now() - last(entries) < DAY);
  fresh.sort(([, one], [, other]) => last(other) - last(one));
  for (const [id, entries] of fresh) {
    const part = add(place, "section", "", "trouble-case");
    const named = entries.map(([, event]) => event.Renamed ?? event.Opened?.reference).filter(Boolean);
    add(part, "h3", named.at(-1) ?? id.slice(0, 8));
    const list = add(part, "ul", "");
    const hour = (at) => new Date(at).toTimeString().slice(0, 5);
    for (const [at, event] of entries.reverse()) {
      // What a case was opened under is long, and in the file.
      const plain = event.Opened ? { Opened: event.Opened.reference } : event;
      add(list, "li", `${hour(at)} ${flat(plain).slice(0, LONGEST)}`);
    }
  }
  document.getElementById("trouble-raw").hidden = fresh.length === 0;
  document.getElementById("trouble-sealed").hidden = !sealed;
}

/** A stored value as words, its signs left out. */
function flat(value) {
  if (Array.isArray(value)) return value.map(flat).join(", ");
  if (value && typeof value === "object") return Object.entries(value).map(([name, part]) => `${name} ${flat(part)}`).join("; ");
  return String(value ?? "–");
}

/** Hands over every line that this browser keeps, and those that it could not. */
function saveRecord() {
  const lines = [...stored().map(([, line]) => line), ...(told?.unsaved ?? [])];
  const file = new Blob(lines.map((line) => `${line}\n`), { type: "text/plain" });
  const refused = document.getElementById("trouble-unsaved");
  try {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = "freshet-record.txt";
    link.click();
    refused.hidden = true;
  } catch {
    refused.hidden = false;
  }
}

/** Fetches the app anew. Touches its worker and its cached files, never anything stored. */
async function repair() {
  const offline = document.getElementById("trouble-offline");
  offline.hidden = true;
  try {
    // Without its source the app would be gone for good; the worker's file is never cached.
    const answer = await fetch("./sw.js", { cache: "no-store" });
    if (!answer.ok || !/javascript/.test(answer.headers.get("content-type"))) throw answer;
  } catch {
    offline.hidden = false;
    return;
  }
  const scope = new URL("./", location.href).href;
  const kept = await navigator.serviceWorker?.getRegistration();
  await kept?.unregister();
  for (const name of (await globalThis.caches?.keys()) ?? []) {
    if (name.startsWith(`freshet ${scope} `)) await caches.delete(name);
  }
  location.reload();
}

document.getElementById("trouble-go").addEventListener("click", (event) => {
  // A newer version may be the cure.
  if (takeOver()) event.preventDefault();
});
// The app still listens to the window, and would take a link of this page for one of its own.
for (const place of [trouble, sheet]) place.addEventListener("click", (event) => event.stopPropagation());
document.querySelector(".trouble-danger").addEventListener("click", (event) => {
  // Not by the address: the app would take it for a way of its own, and scroll back.
  event.preventDefault();
  goToSheet();
});
document.getElementById("trouble-save").addEventListener("click", saveRecord);
document.getElementById("trouble-repair").addEventListener("click", repair);
addEventListener("freshet-plain", (event) => {
  if (closed) return;
  try {
    told = JSON.parse(event.detail);
  } catch {
    return;
  }
  if (stopped) tellCases();
});
addEventListener("freshet-panic", (event) => showTrouble("panic", event.detail));
// What stops the app without a word of its own, such as a full stack or no memory left.
addEventListener("error", ({ error }) => stoppedBy(error));
addEventListener("unhandledrejection", ({ reason }) => stoppedBy(reason));

function stoppedBy(error) {
  if (error instanceof WebAssembly.RuntimeError) showTrouble("panic", String(error.stack ?? error));
}

// ---- Keeping the app on the phone, and up to date

const CHECK_EVERY = 15 * 60 * 1000;
let checked = Date.now();
let asked = false;
let left = false;

/** Lets a waiting version take over; the page loads again once it has. */
function takeOver() {
  if (!registration?.waiting) return false;
  asked = true;
  registration.waiting.postMessage({ type: "take-over" });
  return true;
}

function reloadOnce() {
  if (left) return;
  left = true;
  location.reload();
}

function follow(worker) {
  worker.addEventListener("statechange", () => {
    if (worker.state === "installed" && registration.active) tell("update", "waiting");
    // Only the first install matters here: a failed update leaves the present version whole.
    if (worker.state === "redundant" && !registration.active) tell("offline", "failed");
  });
}

/** Asks the app's own origin for a new version; offline this fails, and nothing is lost. */
async function check() {
  checked = Date.now();
  try {
    await registration.update();
    tell("checked", registration.installing || registration.waiting ? "found" : "current");
  } catch {
    tell("checked", "unreachable");
  }
}

function checkSometimes() {
  if (document.visibilityState === "visible" && Date.now() - checked > CHECK_EVERY) check();
}

async function keep() {
  if (!installs) return tell("offline", "none");

  const container = navigator.serviceWorker;
  let controlled = Boolean(container.controller);
  container.addEventListener("controllerchange", () => {
    if (asked) reloadOnce();
    // The first install takes charge of this page; that is no new version.
    else if (controlled) tell("update", "replaced");
    controlled = true;
  });
  addEventListener("freshet-take-over", () => {
    if (!takeOver() && root.dataset.update === "replaced") reloadOnce();
  });
  addEventListener("freshet-check", check);
  // A phone brings a frozen page back without loading it again.
  for (const wake of ["pageshow", "focus"]) addEventListener(wake, checkSometimes);
  document.addEventListener("visibilitychange", checkSometimes);

  try {
    registration = await container.register("./sw.js", { scope: "./", updateViaCache: "none" });
  } catch {
    // Offline with an installed version the registration stands; otherwise there is none.
    registration = (await container.getRegistration()) ?? null;
    if (!registration) return tell("offline", "failed");
  }
  registration.addEventListener("updatefound", () => follow(registration.installing));
  if (registration.installing) follow(registration.installing);
  if (registration.waiting && registration.active) tell("update", "waiting");
  // The worker itself says whether everything is there: one that is running may have lost its files.
  container.addEventListener("message", (event) => {
    if (event.data?.type === "offline") tell("offline", event.data.state);
  });
  container.startMessages();
  (await container.ready).active.postMessage({ type: "check" });
}

// ---- Start

/** No page takes longer to be painted, unless it is out of view. */
const PAINTED_BY = 1_000;

/** Until the browser says that something has been seen, if it can be. */
function seen() {
  if (document.hidden) return null;
  return new Promise((done) => {
    new PerformanceObserver(done).observe({ type: "paint", buffered: true });
    setTimeout(done, PAINTED_BY);
  });
}

/** Until the app has a page: it may have to read its language first. Or until it has stopped. */
function drawn() {
  return new Promise((done) => {
    const look = () => {
      if (!stopped && !app.querySelector("main")) return;
      changes.disconnect();
      done();
    };
    const changes = new MutationObserver(look);
    // One that stops is hidden.
    changes.observe(app, { childList: true, subtree: true, attributeFilter: ["hidden"] });
    look();
  });
}

async function start() {
  // A first start lasts: its words come before the app takes the processor.
  if (shell.classList.contains("first")) await seen();
  const glue = await import(new URL(own.dataset.glue, document.baseURI));
  await glue.default({ module_or_path: new URL(own.dataset.wasm, document.baseURI) });
  await drawn();
  if (stopped) return;
  shell.remove();
  // The plain sheet, where somebody who waited may have gone, is no place within the app.
  if (location.hash) {
    history.replaceState(history.state, "", location.pathname + location.search);
    scrollTo(0, 0);
  }
  setTimeout(() => setStops(0), EARLY);
}

start()
  .catch((error) => showTrouble("start", String(error?.stack ?? error)))
  // Afterwards, so that it does not slow the start; in any case, since an update may be the cure.
  .finally(keep);
