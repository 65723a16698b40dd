// Writes tonal-reference.tsv: what the library tonal says of chords, for ReferenceLibraryTests.
// Run in an empty folder:  npm install tonal@6.5.1 && node PATH/tonal.mjs > PATH/tonal-reference.tsv
// Rows: symbol TAB symbol TAB notes | detect TAB notes (the bass first) TAB names, the first choice first | key TAB tonic TAB triads TAB sevenths | numeral TAB key TAB chord TAB numeral
import { Chord, ChordType, Key, Note, Progression } from "tonal";

const SEED = 20261126;
let state = SEED;
const random = n => { // mulberry32
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) % n;
};
const names = ["Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#", "G#"];
const row = (...cells) => console.log(cells.join("\t"));

console.log(`# Made by tests/Music/Reference/tonal.mjs with tonal 6.5.1 (npm, MIT), seed ${SEED}. Don't edit; make it anew.`);
for (const type of ChordType.all())
  for (const alias of type.aliases.filter(a => a !== ""))
    for (let i = 0; i < 4; i++) {
      const symbol = names[random(names.length)] + alias;
      row("symbol", symbol, Chord.get(symbol).notes.join(" "));
    }
const seen = new Set();
const detect = notes => {
  const text = notes.join(" ");
  if (seen.has(text)) return;
  seen.add(text);
  row("detect", text, Chord.detect(notes).join(" "));
};
for (const type of ChordType.all())
  for (let i = 0; i < 16; i++) { // a known kind, in root position or with another of its notes in the bass
    const root = names[random(names.length)], notes = type.intervals.map(interval => Note.simplify(Note.transpose(root, interval)));
    const bass = notes.splice(random(notes.length), 1);
    detect([...bass, ...notes]);
  }
for (let i = 0; i < 2000; i++) {
  const size = 2 + random(5), first = random(9); // notes from a window of the line of fifths, so that they are spelled as players spell
  const pool = names.slice(first, first + 7 + random(6)), notes = [];
  while (notes.length < size && pool.length > 0) {
    const note = pool.splice(random(pool.length), 1)[0];
    if (!notes.some(n => Note.chroma(n) === Note.chroma(note))) notes.push(note);
  }
  detect(notes);
}
for (const tonic of names) {
  const key = Key.majorKey(tonic);
  row("key", tonic, key.triads.join(" "), key.chords.join(" "));
}
for (const tonic of names)
  for (const degree of ["1P", "2m", "2M", "3m", "3M", "4P", "4A", "5P", "6m", "6M", "7m", "7M"])
    for (const kind of ["", "m", "7", "m7"]) {
      const chord = Note.transpose(tonic, degree) + kind;
      row("numeral", tonic, chord, Progression.toRomanNumerals(tonic, [chord])[0]);
    }
