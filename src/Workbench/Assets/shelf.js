/* Recordings that are dropped on the shelf, or chosen, go to the workbench one after another. */
const waiting = [];
let net = null, sending = false;

export function open(reference) {
  net = reference;
  const shelf = document.getElementById("shelf"), input = document.getElementById("recordings");
  const chosen = () => { if (input.files.length) { take(input.files); input.value = ""; } };
  input.addEventListener("change", chosen);
  chosen(); // a file may be chosen before this script has come
  for (const event of ["dragenter", "dragover"])
    shelf.addEventListener(event, e => { e.preventDefault(); shelf.classList.add("over"); });
  for (const event of ["dragleave", "drop"])
    shelf.addEventListener(event, e => { e.preventDefault(); shelf.classList.remove("over"); });
  shelf.addEventListener("drop", e => take(e.dataTransfer.files));
}

/** The shelf is left: what waits is still sent. */
export function close() { net = null; }

function take(files) {
  waiting.push(...files);
  if (!sending) next();
}

function next() {
  const file = waiting.shift(), line = document.getElementById("sending");
  sending = Boolean(file);
  if (line) line.hidden = !sending;
  if (!file) return;
  if (line) line.firstElementChild.textContent = `Taking in ${file.name}`;
  const request = new XMLHttpRequest();
  request.open("POST", `/recordings?name=${encodeURIComponent(file.name)}`);
  request.upload.addEventListener("progress", e => { if (line) line.lastElementChild.value = e.loaded / Math.max(1, e.total); });
  request.addEventListener("loadend", () => {
    if (request.status !== 204) net?.invokeMethodAsync("Refused", `${file.name}: ${request.responseText || "it could not be sent."}`);
    next();
  });
  request.send(file);
}
