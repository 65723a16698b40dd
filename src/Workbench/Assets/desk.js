/* The open sheet: the line of the moment, the keys, and the ear. */
import { Ear } from "./ear.js";

const $ = id => document.getElementById(id);
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const border = "text/x-section";
let net = null, ear = null, times = null, bar = 1, anchor = null, seen = null, marked = null, stop = null, frame = 0, touched = 0;

/** How many of the rising values are at or before one. */
const upTo = (list, value) => {
  let low = 0, high = list.length;
  while (low < high) { const middle = (low + high) >> 1; if (list[middle] <= value) low = middle + 1; else high = middle; }
  return low;
};
const rowOf = number => upTo(times.rows, number) - 1;
const last = () => times.bars.length - 1;
const elementOf = number => document.querySelector(`[data-bar="${number}"]`);

export function open(reference, song, hasRecord) {
  net = reference;
  stop = new AbortController();
  const on = (target, event, act, more = {}) => target.addEventListener(event, act, { signal: stop.signal, ...more });
  ear = new Ear(song, hasRecord, moved);
  seen = new IntersectionObserver(look, { rootMargin: "60% 0px" });
  marked = new MutationObserver(() => { watchRows(); mark(); });
  marked.observe($("sheet"), { childList: true, subtree: true });
  on(document, "keydown", key);
  on($("sheet"), "click", touch);
  on($("sheet"), "focusin", e => { if (e.target.dataset?.bar) stand(Number(e.target.dataset.bar), false); });
  for (const event of ["wheel", "touchmove"]) on(window, event, () => { touched = performance.now(); }, { passive: true });
  on($("sheet"), "dragstart", e => { if (e.target.classList?.contains("grip")) e.dataTransfer.setData(border, e.target.dataset.section); });
  on($("sheet"), "dragover", e => { if (e.target.matches?.("rect.bar") && e.dataTransfer.types.includes(border)) e.preventDefault(); });
  on($("sheet"), "drop", e => {
    if (!e.target.matches?.("rect.bar") || !e.dataTransfer.types.includes(border)) return;
    e.preventDefault();
    net.invokeMethodAsync("Border", Number(e.dataTransfer.getData(border)), Number(e.target.dataset.bar));
  });
  on($("sheet"), "pointerdown", e => { if (e.target.id === "tap") tap(); });
  on($("stepOn"), "click", nextStep);
  on($("stepsOff"), "click", () => { atStep = steps.length; showStep(); });
  showStep();
  on($("notes"), "click", () => net.invokeMethodAsync("Key", "n", bar));
  on($("play"), "click", toggle);
  on($("round"), "click", toggleRound);
  on($("pace"), "input", () => pace(Number($("pace").value)));
  on($("shift"), "input", () => shift(Number($("shift").value)));
  on($("unshift"), "click", () => shift(0));
  for (const id of ["side", "band"]) if ($(id)) on($(id), "change", () => ear.setPortion($("side").value, $("band").value));
  if ($("of")) on($("of"), "change", () => ear.setOf($("of").value));
  on($("inTurn"), "click", inTurn);
  on($("click"), "change", () => ear.setClick($("click").checked));
  on($("count"), "change", () => { ear.countIn = $("count").checked; });
  on($("hear"), "change", hearing);
  on($("balance"), "input", hearing);
  on($("loud"), "input", hearing);
  // A button that was clicked keeps no claim on the space bar; one that was reached by keys does.
  on(document, "click", e => { if (e.detail > 0) e.target.closest?.(".ear button, .top button")?.blur(); });
  watchRows();
  hearing();
  if (localStorage.getItem("hand") === "left") net.invokeMethodAsync("Hand", true);
}

export function keepHand(isLeft) { localStorage.setItem("hand", isLeft ? "left" : "right"); }

export function take(given) {
  times = given;
  bar = Math.min(bar, Math.max(1, last()));
  ear.take(times);
  watchRows();
  mark();
}

export function close() {
  stop?.abort();
  seen?.disconnect();
  marked?.disconnect();
  ear?.close();
  cancelAnimationFrame(frame);
  cancelAnimationFrame(told);
}

export function go(number) { stand(number, true); ear.seek(times.bars[number - 1]); show(number, true); }

export function goRound(number) {
  stand(number, true);
  ear.setRound([number, number]);
  ear.seek(times.bars[number - 1]);
  if (!ear.playing) ear.play();
  mark();
  show(number, true);
}

export function showBench() { document.querySelector(".chord-bench")?.scrollIntoView({ block: "nearest", behavior: calm.matches ? "auto" : "smooth" }); }

export function standAt(number) { stand(number, true); }

export function focusNote() {
  const cell = document.querySelector('.note-cell[tabindex="0"]'), grid = cell?.closest(".note-grid");
  if (!grid) return;
  cell.focus({ preventScroll: true });
  cell.scrollIntoView({ block: "nearest", inline: "nearest" });
  // The whole grid stands between the page's head and its foot where there is room.
  const box = grid.getBoundingClientRect(), high = document.querySelector(".top").getBoundingClientRect().bottom + 8;
  const low = document.querySelector(".foot").getBoundingClientRect().top - 8;
  const by = box.bottom > low ? Math.min(box.bottom - low, box.top - high) : Math.min(0, box.top - high);
  if (Math.abs(by) > 1) scrollBy({ top: by, behavior: "instant" });
}

export function focusBar(number) { elementOf(number)?.focus({ preventScroll: true }); }

export function hear(address) { ear.sound(address); }

const rows = new Map();
function watchRows() {
  for (const row of document.querySelectorAll(".row"))
    if (!rows.has(row)) { rows.set(row, false); seen.observe(row); }
  for (const row of rows.keys()) if (!row.isConnected) { seen.unobserve(row); rows.delete(row); }
}

let told = 0;
function look(entries) {
  for (const entry of entries) rows.set(entry.target, entry.isIntersecting);
  cancelAnimationFrame(told);
  told = requestAnimationFrame(() => {
    const shown = [...rows].filter(([row, is]) => is && row.isConnected).map(([row]) => Number(row.dataset.row));
    if (shown.length) net.invokeMethodAsync("Seen", Math.min(...shown), Math.max(...shown), rowToKeep());
  });
}

/** The row where one stands stays drawn, so that Tab finds the bar there from wherever one is. */
let keptRow = 0;
const rowToKeep = () => { keptRow = times ? Math.max(0, rowOf(bar)) : 0; return keptRow; };

/** Which bars are marked: where one stands, and those that are gone round. */
function mark() {
  if (!times) return;
  const [from, to] = ear.round ?? range();
  for (const rect of document.querySelectorAll("rect.bar")) {
    const number = Number(rect.dataset.bar);
    set(rect, "tabindex", number === bar ? "0" : "-1");
    set(rect, "data-stands", number === bar ? "here" : null);
    set(rect, "data-round", ear.round && number >= from && number <= to ? "on" : anchor && number >= from && number <= to ? "meant" : null);
  }
  // Tab goes from the bar where one stands to its own chords and on; the arrows go to other bars.
  for (const chord of document.querySelectorAll("g.chord")) set(chord, "tabindex", Number(chord.dataset.of) === bar ? "0" : "-1");
  const words = from === to ? "this bar" : `bars ${from} to ${to}`;
  $("round").firstChild.textContent = ear.round ? `Going round ${words} ` : `Go round ${words} `;
  $("round").setAttribute("aria-pressed", String(Boolean(ear.round)));
  $("where").textContent = `bar ${bar}`;
}
function set(element, name, value) {
  if (value === null) { if (element.hasAttribute(name)) element.removeAttribute(name); }
  else if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

const range = () => anchor ? [Math.min(anchor, bar), Math.max(anchor, bar)] : [bar, bar];

function stand(number, alone) {
  if (!times || last() < 1) return;
  bar = Math.max(1, Math.min(last(), number));
  if (alone) anchor = null;
  if (rowOf(bar) !== keptRow) look([]);
  mark();
}

function show(number, centre) {
  const row = $(`row-${rowOf(number)}`);
  row?.scrollIntoView({ block: centre ? "center" : "nearest", behavior: calm.matches ? "auto" : "smooth" });
}

function touch(event) {
  const rect = event.target.closest?.("rect.bar");
  if (!rect) return;
  const number = Number(rect.dataset.bar);
  if (event.shiftKey) { anchor ??= bar; stand(number, false); }
  else { stand(number, true); ear.seek(times.bars[number - 1]); }
}

function step(by, wider) {
  if (wider) anchor ??= bar; else anchor = null;
  stand(bar + by, false);
  if (!wider) ear.seek(times.bars[bar - 1]);
  show(bar, false);
  const there = elementOf(bar);
  if (document.activeElement?.dataset?.bar || document.activeElement === document.body) there?.focus({ preventScroll: true });
}

function stepRow(by) {
  const row = Math.max(0, Math.min(times.rows.length - 1, rowOf(bar) + by));
  step(times.rows[row] - bar, false);
}

/** Where one stops, one stands: a bar that had the focus gives it to the bar that was heard last. */
function toggle() {
  ear.toggle();
  if (!ear.playing && document.activeElement?.dataset?.bar) focusBar(bar);
  if (ear.playing && $("follow").checked) show(bar, false);
}

function toggleRound() {
  ear.setRound(ear.round ? null : range());
  if (ear.round) anchor = null; else ear.setOther(null);
  tellTurns();
  mark();
}

function pace(percent) {
  const now = Math.max(25, Math.min(100, percent));
  $("pace").value = now;
  $("paceSaid").textContent = `${now}%`;
  ear.setPace(now / 100);
}

/** By so many hundredths of a half step, the pace as it is. */
function shift(cents) {
  const now = Math.max(-600, Math.min(600, cents)), steps = Math.trunc(now / 100), rest = now % 100, sign = n => (n > 0 ? `+${n}` : `−${-n}`);
  $("shift").value = now;
  $("shiftSaid").textContent = now === 0 ? "as it is" : [steps ? `${sign(steps)} half step${Math.abs(steps) === 1 ? "" : "s"}` : "",
    rest ? `${sign(rest)} cents` : ""].filter(Boolean).join(" ");
  ear.setShift(now);
}

/** The bars gone round now are kept; once others are gone round, the two come in turn. */
let firstOfTwo = null;
function inTurn() {
  if (firstOfTwo || ear.other) { firstOfTwo = null; ear.setOther(null); }
  else firstOfTwo = ear.round ?? range();
  tellTurns();
}
function tellTurns() {
  if (firstOfTwo && ear.round && String(ear.round) !== String(firstOfTwo)) { ear.setOther(firstOfTwo); firstOfTwo = null; }
  const said = ([from, to]) => from === to ? `bar ${from}` : `bars ${from} to ${to}`;
  $("inTurn").textContent = ear.other ? `In turn: ${said(ear.other)} and ${said(ear.round)}`
    : firstOfTwo ? `${said(firstOfTwo)}: now go round the other bars` : "In turn with other bars";
  $("inTurn").setAttribute("aria-pressed", String(Boolean(ear.other || firstOfTwo)));
}

function hearing() {
  $("balanceLabel").hidden = $("hear").value !== "both" && $("hear").value !== "ears";
  ear.setHearing($("hear").value, Number($("balance").value) / 100, (Number($("loud").value) / 100) ** 2);
}

function nextHearing() { const list = $("hear"); list.selectedIndex = (list.selectedIndex + 1) % list.options.length; hearing(); }

const here = {
  " ": toggle, ArrowLeft: e => step(-1, e.shiftKey), ArrowRight: e => step(1, e.shiftKey), ArrowUp: () => stepRow(-1), ArrowDown: () => stepRow(1),
  g: toggleRound, "-": () => pace(Number($("pace").value) - 5), "+": () => pace(Number($("pace").value) + 5), "=": () => pace(Number($("pace").value) + 5),
  c: () => $("click").click(), h: nextHearing, ",": () => shift(Number($("shift").value) - 100), ".": () => shift(Number($("shift").value) + 100),
};
const there = new Set(["enter", "escape", "z", "x", "p", "w", "t", "n", "?", "d", "a", "f"]);
/** What stays the page's where the focus is in a grid of notes; all else is the grid's. */
const notTheGrids = new Set([" ", "Escape", "Tab", "z"]);

/** A tap is when the ear heard it: what the loudspeaker is behind the clock is taken off. */
function tap() { net.invokeMethodAsync("Tapped", ear.heard); }

/** Keys act wherever nobody types; on a button Space and Enter stay the button's. */
function key(event) {
  const target = event.target, name = event.key.length === 1 ? event.key.toLowerCase() : event.key, word = name.toLowerCase();
  if (event.ctrlKey || event.metaKey) {
    if (word === "z" && !target.matches?.("input, textarea")) { event.preventDefault(); net.invokeMethodAsync("Key", event.shiftKey ? "x" : "z", bar); }
    return;
  }
  const typing = target.matches?.("input:not([type=checkbox]):not([type=range]), textarea, select") && name !== "Escape";
  const letters = $("letters") ? $("letters").checked : lettersAct;
  if ($("letters")) lettersAct = letters;
  if (event.altKey || typing || (name.length === 1 && name !== " " && !letters)) return;
  if (target.closest?.(".note-grid") && !notTheGrids.has(name)) { if (name !== "Shift") event.preventDefault(); return; }
  const onBar = Boolean(target.dataset?.bar);
  if (onBar && name === "Enter") stand(Number(target.dataset.bar), true);
  const onButton = target.matches?.("button, summary, a, [role=button], input") && !onBar;
  if (onButton && (name === " " || name === "Enter")) {
    if (target.matches("g.chord")) { event.preventDefault(); target.dispatchEvent(new MouseEvent("click", { bubbles: true })); }
    return;
  }
  if (target.matches?.("input[type=range]") && name.startsWith("Arrow")) return;
  if ($("tapBench") && (name === "f" || name === "j")) { event.preventDefault(); if (!event.repeat) tap(); return; }
  if (here[name]) { event.preventDefault(); here[name](event); }
  else if (there.has(word)) { event.preventDefault(); net.invokeMethodAsync("Key", word, bar); }
}
let lettersAct = true;

/* First steps: one at a time, until the last was seen once. */
const steps = [
  "Press Space, or Play, to hear the record. The line moves over the bars that you hear; click a bar to begin there.",
  "Names under a veil of lines were only heard. Point at one: what was heard and the shapes that would sound it open below.",
  "Say at the top what you know: tuning, capo, key. What was only heard is read again by it; Z takes back.",
  "D goes from doubt to doubt and plays each. When you are done, P makes the lesson. The key ? shows all keys.",
];
let atStep = Number(localStorage.getItem("steps") ?? 0);
function nextStep() { atStep++; showStep(); }
function showStep() {
  localStorage.setItem("steps", String(atStep));
  $("steps").hidden = atStep >= steps.length;
  if (atStep >= steps.length) return;
  $("step").textContent = `${atStep + 1} of ${steps.length}: ${steps[atStep]}`;
  $("stepOn").textContent = atStep === steps.length - 1 ? "Off I go" : "Next";
}

/** The ear says where it is; the line of the moment follows on the row of that bar. */
let line = null;
function moved(time, playing) {
  if (!times || last() < 1) return;
  const number = Math.max(1, Math.min(last(), upTo(times.bars, time + 1e-3)));
  if (ear.other) mark();
  if (playing && number !== bar) {
    const before = rowOf(bar);
    bar = number;
    mark();
    if (rowOf(bar) !== before && $("follow").checked && performance.now() - touched > 3000) show(bar, true);
  }
  $("play").firstChild.textContent = playing ? "Stop " : "Play ";
  const svg = $(`row-${rowOf(number)}`)?.querySelector("svg[data-beats]"), now = svg?.querySelector("line.moment");
  if (line && line !== now) line.setAttribute("visibility", "hidden");
  line = now ?? null;
  if (!now) return;
  const x = String(place(svg.dataset.beats, time));
  now.setAttribute("x1", x);
  now.setAttribute("x2", x);
  now.setAttribute("visibility", playing || time > 0 ? "visible" : "hidden");
}

const kept = new Map();
function place(text, time) {
  if (kept.size > 200) kept.clear();
  if (!kept.has(text)) kept.set(text, text.split(" ").map(p => p.split(",").map(Number)));
  const points = kept.get(text);
  let i = 1;
  while (i < points.length - 1 && points[i][0] <= time) i++;
  const [a, b] = [points[i - 1], points[i]], within = Math.max(0, Math.min(1, (time - a[0]) / Math.max(1e-6, b[0] - a[0])));
  return (a[1] + (calm.matches ? Math.floor(within) : within) * (b[1] - a[1])).toFixed(2);
}
