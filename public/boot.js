// Starts the app, keeps it on the phone, and says so plainly when either fails.
//
// What the app and this file tell each other, all on `window`:
//   freshet-panic      app → here    detail: text. The app has stopped.
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
const app = document.getElementById("app");
const shell = document.getElementById("shell");
const trouble = document.getElementById("trouble");

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

/** The theme that this browser keeps among the app's habits, so that nothing flashes until the app runs. */
function kept() {
  try {
    return JSON.parse(localStorage.getItem("freshet/habits"))?.theme;
  } catch {
    return null;
  }
}

addEventListener("freshet-theme", (event) => wear(event.detail));
wear(kept());

// ---- Trouble

/** Shows the plain page instead of the app. The first cause stays; what follows adds nothing. */
function showTrouble(when, detail) {
  if (!trouble.hidden) return;
  for (const part of trouble.querySelectorAll("[data-when]")) part.hidden = part.dataset.when !== when;
  document.getElementById("trouble-detail").textContent = `${root.dataset.version}\n${detail}`;
  shell.remove();
  app.hidden = true;
  trouble.hidden = false;
  document.getElementById("trouble-title").focus();
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

document.getElementById("trouble-again").addEventListener("click", () => {
  // A newer version may be the cure.
  if (!takeOver()) location.reload();
});
document.getElementById("trouble-repair").addEventListener("click", repair);
addEventListener("freshet-panic", (event) => showTrouble("panic", event.detail));
// What stops the app without a word of its own, such as a full stack or no memory left.
addEventListener("error", ({ error }) => stopped(error));
addEventListener("unhandledrejection", ({ reason }) => stopped(reason));

function stopped(error) {
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
  if (!root.dataset.version || !("serviceWorker" in navigator)) return tell("offline", "none");

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

async function start() {
  const glue = await import(new URL(own.dataset.glue, document.baseURI));
  await glue.default({ module_or_path: new URL(own.dataset.wasm, document.baseURI) });
  shell.remove();
}

start()
  .catch((error) => showTrouble("start", String(error?.stack ?? error)))
  // Afterwards, so that it does not slow the start; in any case, since an update may be the cure.
  .finally(keep);
