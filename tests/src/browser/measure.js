// Measures every control of the screen that is shown; returns what breaks a rule as [kind, what, detail].
// Arguments: key size and smallest gap in millimetres, dead edge in millimetres, tolerance of sizes and of gaps.
const [gapMm, deadMm, sizeSlack, gapSlack] = arguments;
const root = getComputedStyle(document.documentElement);
const mm = parseFloat(root.getPropertyValue("--mm"));
const key = (document.documentElement.dataset.glove === "heavy" ? 27 : 20) * mm;
const gap = gapMm * mm, dead = deadMm * mm;
const [wide, high] = [document.documentElement.clientWidth, window.innerHeight];
const found = [];
const say = (kind, what, detail) => found.push([kind, what, detail]);
const px = (n) => Math.round(n * 10) / 10;

const shown = (e) => {
  const style = getComputedStyle(e);
  const box = e.getBoundingClientRect();
  return e.checkVisibility({ visibilityProperty: true }) && style.opacity !== "0" && box.width > 1 && box.height > 1;
};
const clips = (e) => ["auto", "scroll", "hidden", "clip"].includes(getComputedStyle(e).overflowY)
  || ["auto", "scroll", "hidden", "clip"].includes(getComputedStyle(e).overflowX);
const scrolls = (e) => ["auto", "scroll"].includes(getComputedStyle(e).overflowY) && e.scrollHeight > e.clientHeight + 1;
/** What of an element can be seen, and the scrolling column that it lies in. */
const sight = (e) => {
  const box = e.getBoundingClientRect();
  let { left, top, right, bottom } = box;
  let scroller = null;
  // What is fixed to the screen is clipped by nothing that it stands in.
  const fixed = (of) => getComputedStyle(of).position === "fixed";
  for (let up = fixed(e) ? null : e.parentElement; up; up = fixed(up) ? null : up.parentElement) {
    if (scrolls(up)) scroller ??= up;
    if (clips(up)) {
      const edge = up.getBoundingClientRect();
      left = Math.max(left, edge.left); top = Math.max(top, edge.top);
      right = Math.min(right, edge.right); bottom = Math.min(bottom, edge.bottom);
    }
  }
  left = Math.max(left, 0); top = Math.max(top, 0); right = Math.min(right, wide); bottom = Math.min(bottom, high);
  return { e, box, scroller, seen: { left, top, right, bottom, width: right - left, height: bottom - top } };
};
const name = (e) => e.dataset.testid ?? `${e.tagName.toLowerCase()}.${e.className} ${e.innerText.slice(0, 20)}`;

const controls = [...document.querySelectorAll("button, input, select, a[href], textarea, [role=button]")]
  .filter(shown).map(sight);
if (controls.length === 0) say("no controls", "screen", "");
for (const { e, box, seen, scroller } of controls) {
  const what = name(e);
  if (box.width < key - sizeSlack || box.height < key - sizeSlack) {
    say("too small", what, `${px(box.width)} x ${px(box.height)}, key ${px(key)}`);
  }
  const gone = seen.width <= 1 || seen.height <= 1;
  if (!scroller && (seen.width < box.width - 1 || seen.height < box.height - 1)) {
    say("cut off", what, `${px(seen.width)} x ${px(seen.height)} of ${px(box.width)} x ${px(box.height)}`);
  }
  if (!gone) {
    if (seen.left < dead - sizeSlack) say("in the dead edge", what, `left ${px(seen.left)}, edge ${px(dead)}`);
    if (seen.right > wide - dead + sizeSlack) say("in the dead edge", what, `right ${px(wide - seen.right)}, edge ${px(dead)}`);
    if (seen.bottom > high - dead + sizeSlack) say("in the dead edge", what, `bottom ${px(high - seen.bottom)}, edge ${px(dead)}`);
  }
  if (e.tagName === "BUTTON" && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)) {
    say("words too large", what, `${e.scrollWidth} x ${e.scrollHeight} in ${e.clientWidth} x ${e.clientHeight}`);
  }
}
for (let i = 0; i < controls.length; i++) {
  for (let j = i + 1; j < controls.length; j++) {
    const [a, b] = [controls[i], controls[j]];
    if (a.e.contains(b.e) || b.e.contains(a.e)) continue;
    const both = a.scroller === b.scroller ? "box" : "seen";
    const [p, q] = [a[both], b[both]];
    if (p.width <= 0 || p.height <= 0 || q.width <= 0 || q.height <= 0) continue;
    const across = Math.max(p.left - q.right, q.left - p.right), down = Math.max(p.top - q.bottom, q.top - p.bottom);
    const apart = Math.hypot(Math.max(across, 0), Math.max(down, 0));
    const overlap = across < 0 && down < 0;
    if (overlap || apart < gap - gapSlack) say(overlap ? "overlap" : "too close", `${name(a.e)} | ${name(b.e)}`, `${px(apart)}, gap ${px(gap)}`);
  }
}
for (const id of ["done", "hold", "number"]) {
  for (const e of [...document.querySelectorAll(`[data-testid="${id}"]`)].filter(shown)) {
    const { box, seen } = sight(e);
    if (seen.width < box.width - 1 || seen.height < box.height - 1) say("out of sight", id, `${px(seen.height)} of ${px(box.height)}`);
    const size = parseFloat(getComputedStyle(e).fontSize);
    if (id === "number" && size < 64) say("number too small", id, `${size} px`);
  }
}
if (document.documentElement.scrollWidth > wide) say("wider than the screen", "page", `${document.documentElement.scrollWidth} in ${wide}`);
for (const e of document.body.querySelectorAll("*")) {
  if (!shown(e)) continue;
  if (scrolls(e) && !e.closest(".scroller")) say("only a drag scrolls it", name(e), `${e.scrollHeight} in ${e.clientHeight}`);
  if (scrolls(e) && e.closest(".scroller") && !e.closest(".scroller").querySelector("[data-testid=page-down]")?.checkVisibility()) {
    say("only a drag scrolls it", name(e), "no page keys");
  }
  const says = [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent.trim());
  if (!says || e.closest("svg")) continue;
  const size = parseFloat(getComputedStyle(e).fontSize);
  if (size < 24 && !e.closest(".fraction")) say("small words", `${name(e)}`, `${size} px: ${e.textContent.trim().slice(0, 30)}`);
  const { box, seen, scroller } = sight(e);
  if (!scroller && (seen.width < box.width - 2 || seen.height < box.height - 2)) {
    say("words cut off", name(e), `${px(seen.width)} x ${px(seen.height)} of ${px(box.width)} x ${px(box.height)}: ${e.textContent.trim().slice(0, 40)}`);
  }
}
return found;
