/* The row that is played and below it the next, on a desk also those that follow, as large as the screen allows. */
const svgSpace = "http://www.w3.org/2000/svg";
const most = 2.4;                // pixels a point: larger than this no row needs to be
const enough = 1.7;              // so large they can be read from a stand
const near = .85;                // more bars a row are worth this much of their size
const filling = .9;              // a filled width is worth this much of it
const counts = [1, 2, 4];        // bars a row
let rows = [];                   // { first, last }, in order
let fitted = {};                 // bars a row, and the screen that they were chosen for
let standing = [];               // the row that is played, and those below it
let marker = null;               // the moving line, and the bar that it is in

const size = drawing => {
  const svg = $("d" + drawing).content.querySelector("svg");
  return { width: Number(svg.getAttribute("width")), height: Number(svg.getAttribute("height")) };
};
for (const bar of song.bars) for (const width of bar.widths) width.size = size(width.drawing);
for (const section of song.sections) section.size = size(section.margin);
const tallest = Math.max(1, ...song.bars.map(b => b.widths[0].size.height));

const rowsOf = count => song.sections.flatMap(section =>
  Array.from({ length: Math.ceil((section.last - section.first + 1) / count) }, (_, i) => {
    const first = section.first + i * count;
    return { first, last: Math.min(first + count - 1, section.last) };
  }));

const widthOf = (row, width) => song.bars.slice(row.first, row.last + 1).reduce((sum, bar) => sum + bar.widths[width].size.width, song.bars[row.first].section.size.width);

/** The room for rows where the diagrams are at their least. */
function roomForRows() {
  const stage = $("stage"), line = $("line"), lane = parseFloat(getComputedStyle(line).getPropertyValue("--lane"));
  stage.classList.add("fitting");
  const room = { width: line.clientWidth - 1, whole: line.clientHeight, lane, height: line.clientHeight / 2 - lane };
  stage.classList.remove("fitting");
  return room;
}

/** The ways to lay rows of so many bars into a room, narrowest first. */
const layouts = (count, room) => {
  const all = rowsOf(count);
  return song.bars[0].widths.map((_, width) => {
    const widest = Math.max(...all.map(row => widthOf(row, width)));
    return { all, width, scale: Math.min(most, room.width / widest, room.height / tallest) };
  });
};

/** How many bars a row holds: the most that are large enough to read from a stand, or nearly as large as any. */
function barsARow(room) {
  const scale = count => Math.max(...layouts(count, room).map(l => l.scale)), best = Math.max(...counts.map(scale));
  return counts.findLast(count => scale(count) >= Math.min(enough, near * best));
}

/** Bars a row are chosen once for a screen, for what it holds while it plays, so that pausing moves no bar to another row. */
function fitRows() {
  if (lacksBars) return;
  const screen = `${innerWidth} ${innerHeight}`, { classList } = document.body, playing = classList.contains("playing");
  if (fitted.screen !== screen) {
    classList.add("playing");
    fitted = { screen, count: barsARow(roomForRows()) };
    classList.toggle("playing", playing);
  }
  const room = roomForRows(), ways = layouts(fitted.count, room), best = Math.max(...ways.map(w => w.scale));
  const way = ways.findLast(w => w.scale >= filling * best);
  [rows, widthIndex] = [way.all, way.width];
  $("line").style.setProperty("--scale", Math.max(.3, way.scale));
  $("line").style.setProperty("--tallest", tallest);
  const places = small.matches ? 2 : Math.max(2, Math.min(4, Math.floor(room.whole / (room.lane + tallest * way.scale))));
  $("line").replaceChildren(...Array.from({ length: places }, () => element("div", {})));
  standing = Array(places).fill(null);
}

const rowOf = bar => startedBy(rows, bar, row => row.first) - 1;

/** What is read after a row: the next one, or where a round begins again; nothing where the round is this row alone. */
function rowAfter(row, round) {
  const { first, last } = rows[row];
  const turns = round && round[1] >= first && round[1] <= last;
  const next = turns ? rowOf(round[0]) : row + 1;
  return next < rows.length && next !== row ? next : null;
}

function showRows(bar, round) {
  const row = rowOf(bar), wanted = standing.map(() => null);
  for (let i = 0, next = row; i < wanted.length && next !== null && !wanted.includes(next); i++, next = rowAfter(next, round)) wanted[i] = next;
  wanted.forEach((want, i) => { if (standing[i] !== want) $("line").children[i].replaceChildren(...(want === null ? [] : drawn(rows[want]))); });
  if (standing[0] !== row) marker = null;
  standing = wanted;
  if (marker?.bar !== bar) mark(bar, $("line").firstElementChild.querySelectorAll(".bar")[bar - rows[row].first]);
}

function drawn(row) {
  const bars = song.bars.slice(row.first, row.last + 1);
  return [strip("names", bars[0].section.margin, bars[0].section.size), ...bars.map(bar => {
    const cell = strip("bar", bar.widths[widthIndex].drawing, bar.widths[widthIndex].size), about = element("small", { textContent: bar.number });
    if (bar.meter) about.append(element("b", { textContent: bar.meter }));
    if (bar.section.first === row.first && bar === bars[0]) about.append(element("em", { textContent: bar.section.name }));
    cell.prepend(about);
    return cell;
  })];
}

function strip(name, drawing, { width }) {
  const cell = element("div", { className: name });
  cell.append(copy(drawing));
  cell.querySelector("svg").style.setProperty("--width", width);
  return cell;
}

/** The moving line lies behind the bar's ink, right over its ground, so that it covers nothing. */
function mark(bar, cell) {
  marker?.line.remove();
  const line = document.createElementNS(svgSpace, "line"), svg = cell.querySelector("svg");
  line.setAttribute("class", "moving");
  line.setAttribute("y2", song.bars[bar].widths[widthIndex].size.height);
  svg.querySelector("rect").after(line);
  marker = { bar, line };
}

function moveMarker(time, shown, calm) {
  const x = song.bars[marker.bar].widths[widthIndex].size.width * place(song.bars[marker.bar], time, calm);
  marker.line.setAttribute("x1", x);
  marker.line.setAttribute("x2", x);
  marker.line.style.display = shown ? "" : "none";
}
