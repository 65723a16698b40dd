/* The row that is played and the next one, as large as the screen allows. They take turns in two places. */
const svgSpace = "http://www.w3.org/2000/svg";
const most = 2;                  // pixels a point: larger than this no row needs to be
const near = .85;                // more bars a row are worth this much of their size
let rows = [];                   // { first, last }, in order
let standing = [null, null];     // the row in each of the two places
let marker = null;               // the moving line, and the bar that it is in

const size = drawing => {
  const svg = $("d" + drawing).content.querySelector("svg");
  return { width: Number(svg.getAttribute("width")), height: Number(svg.getAttribute("height")) };
};
for (const bar of song.bars) bar.size = size(bar.drawing);
for (const section of song.sections) section.size = size(section.margin);
const tallest = Math.max(1, ...song.bars.map(b => b.size.height));

const rowsOf = count => song.sections.flatMap(section =>
  Array.from({ length: Math.ceil((section.last - section.first + 1) / count) }, (_, i) => {
    const first = section.first + i * count;
    return { first, last: Math.min(first + count - 1, section.last) };
  }));

const widthOf = row => song.bars.slice(row.first, row.last + 1).reduce((sum, bar) => sum + bar.size.width, song.bars[row.first].section.size.width);

/** Chooses how many bars a row holds and how large it is, from the room that the stage leaves when its diagrams are at their least. */
function fitRows() {
  if (lacksBars) return;
  const stage = $("stage"), line = $("line"), lane = parseFloat(getComputedStyle(line).getPropertyValue("--lane"));
  stage.classList.add("fitting");
  const { clientWidth: width, clientHeight: height } = line;
  stage.classList.remove("fitting");
  const choices = [1, 2, 4].map(count => {
    const all = rowsOf(count);
    return { all, scale: Math.min(most, (width - 1) / Math.max(...all.map(widthOf)), (height / 2 - lane) / tallest) };
  });
  const best = Math.max(...choices.map(c => c.scale));
  const chosen = choices.findLast(c => c.scale >= near * best);
  rows = chosen.all;
  line.style.setProperty("--scale", Math.max(.3, chosen.scale));
  line.style.setProperty("--tallest", tallest);
  standing = [null, null];
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
  const row = rowOf(bar), at = Math.max(0, standing.indexOf(row));
  const wanted = at === 0 ? [row, rowAfter(row, round)] : [rowAfter(row, round), row];
  wanted.forEach((want, i) => { if (standing[i] !== want) $("line").children[i].replaceChildren(...(want === null ? [] : drawn(rows[want]))); });
  if (standing.some((had, i) => had !== wanted[i])) marker = null;
  standing = wanted;
  [...$("line").children].forEach((place, i) => place.classList.toggle("here", i === at));
  if (marker?.bar !== bar) mark(bar, $("line").children[at].querySelectorAll(".bar")[bar - rows[row].first]);
}

function drawn(row) {
  const bars = song.bars.slice(row.first, row.last + 1);
  return [strip("names", bars[0].section.margin, bars[0].section.size), ...bars.map(bar => {
    const cell = strip("bar", bar.drawing, bar.size), about = element("small", { textContent: bar.number });
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
  line.setAttribute("y2", song.bars[bar].size.height);
  svg.querySelector("rect").after(line);
  marker = { bar, line };
}

function moveMarker(time, shown, calm) {
  const x = song.bars[marker.bar].size.width * place(song.bars[marker.bar], time, calm);
  marker.line.setAttribute("x1", x);
  marker.line.setAttribute("x2", x);
  marker.line.style.display = shown ? "" : "none";
}
