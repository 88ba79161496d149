// Starts the app: loads its WebAssembly module, shows help when that fails, registers the service worker.
// It keeps out of the app's business: cards, screens and the choice of a new build belong to the app.
//
// The app, once its first screen is drawn and its store is open, says so:
//   window.dispatchEvent(new Event("app-up"))
// which takes the start page (#start) away and tells the service worker that this build works.
// When a newer build waits, and when to take it, is between the app and the service worker: see sw.js.

const START_LIMIT_MS = 20_000;
const UPDATE_CHECK_MS = 3_600_000;

const named = (name) => new URL(document.querySelector(`meta[name="${name}"]`).content, document.baseURI).href;
const tellWorker = (say) => navigator.serviceWorker?.controller?.postMessage({ say });

let up = false;
let down = false;

function isUp() {
  if (up) return;
  up = true;
  clearTimeout(limit);
  document.getElementById("start")?.remove();
  tellWorker("up");
}

function isDown() {
  if (up || down) return;
  down = true;
  document.getElementById("start-help")?.classList.add("shown");
  tellWorker("down");
}

const limit = setTimeout(isDown, START_LIMIT_MS);
window.addEventListener("app-up", isUp);
// A panic after the first call returned arrives as one or the other.
const panicked = (fault) => fault instanceof WebAssembly.RuntimeError && isDown();
window.addEventListener("error", ({ error }) => panicked(error));
window.addEventListener("unhandledrejection", ({ reason }) => panicked(reason));

async function start() {
  const { default: init } = await import(named("app-js"));
  await init({ module_or_path: named("app-wasm") });
}

async function keepOffline() {
  if (!navigator.serviceWorker) return; // Plain http from another machine: the app says so itself.
  const registration = await navigator.serviceWorker.register("./sw.js", { updateViaCache: "none" });
  const check = () => registration.update().catch(() => {}); // No network is the normal case.
  setInterval(check, UPDATE_CHECK_MS);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && check());
}

start()
  .catch((error) => {
    console.error(error);
    isDown();
  })
  .then(keepOffline)
  .catch((error) => console.error(error));
