// Captions against the transcripts they were made from, over every lesson and every form of it.
//
//   node captions_check.mjs PLYSCRIBE CORPUS [EVERY]     of every so many lessons, all by default
//
// The script is made into SubRip, WebVTT and TTML besides, a caption for each sentence.
// Works with the bytes of both files and the mentions of lesson.json alone: token by token, the
// captions are the transcript, except where the words of a mention stand, and there its moves do.
// Read again, the captions give a lesson.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'plyscribe-captions-'));
let passed = 0;
let failed = 0;

function check(what, problems) {
  if (problems.length === 0) {
    ++passed;
  } else {
    ++failed;
    console.log(`FAILED ${what}: ${problems.slice(0, 3).join('; ')}`);
  }
}

function run(program, ...args) {
  const r = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28 });
  if (r.error) throw r.error;
  return r;
}

// What is said again of one stretch of words: { first, last, heard, moves }, in order.
function namings(lesson) {
  const all = [];
  const add = (m, move) => all.push({ first: m.first_word, last: m.last_word, heard: m.heard, moves: [move] });
  for (const n of lesson.nodes) for (const m of n.mentions) add(m, m.said);
  for (const i of lesson.ideas) if (i.san) add(i, i.san);
  all.sort((a, b) => a.first - b.first);
  const apart = [];
  for (const n of all) {
    const before = apart.at(-1);
    if (before && n.first < before.last) {
      before.moves.push(...n.moves);
      before.last = Math.max(before.last, n.last);
      if (n.heard.length > before.heard.length) before.heard = n.heard;
    } else apart.push(n);
  }
  return apart;
}

const bare = (token) => token.toLowerCase().replace(/[^\p{L}\p{N}+#=]+/gu, '');
const isStamp = (token) => /^[[(]?\d+:\d\d(:\d\d)?[\])]?$/.test(token);

// Before a token that ends the line or the caption.
const sentenceEnds = (tokens, at) => /[.!?]$/.test(tokens[at - 1] ?? '') &&
  (tokens[at]?.includes('\n') || tokens[at + 1]?.startsWith('<'));

// What a stretch of the transcript becomes: the moves stand where its last line has its words; a word
// on a line of its own becomes the moves too, other words before a line end go.
function rewritten(stretch, moves) {
  const lines = stretch.split('\n');
  return lines.map((line, i) => {
    const [, head, words, tail] = line.match(/^((?:\[[\d:]+\] ?|[^\p{L}\p{N}])*)(.*?)([^\p{L}\p{N}+#]*)$/u);
    return head + (i === lines.length - 1 || words === '' ? (words === '' ? '' : moves) : '') + tail;
  }).join('\n');
}

// The differences between two texts, each of which must be one of the namings.
function differences(source, written, list) {
  const a = source.match(/\s+|\S+/g) ?? [];
  const b = written.match(/\s+|\S+/g) ?? [];
  const problems = [];
  let [i, j, next, changed] = [0, 0, 0, 0];
  // Where a naming that was written here ends, in both; null if it was not.
  const endsHere = (k) => {
    const heard = bare(list[k].heard);
    for (let back = 0; back <= Math.min(14, i, j); ++back) {
      let [text, to] = ['', i - back];
      while (to < a.length && text.length < heard.length) {
        if (text && heard.startsWith(text) && sentenceEnds(a, to)) break;
        if (!isStamp(a[to])) text += bare(a[to]);
        ++to;
      }
      // Or the sentence ends before the line does: what is heard of the move behind that stays.
      if (to <= i || (text !== heard && !(heard.startsWith(text) && sentenceEnds(a, to)))) continue;
      const expected = rewritten(a.slice(i - back, to).join(''), list[k].moves.join(' '));
      const rest = b.slice(j - back).join('').slice(0, expected.length + 1);
      if (!rest.startsWith(expected) || /[\p{L}\p{N}+#]/u.test(rest.slice(expected.length))) continue;
      let over = j - back;
      for (let length = 0; length < expected.length; ++over) length += b[over].length;
      return { to, over, next: k + 1 };
    }
    return null;
  };
  while (i < a.length && problems.length === 0) {
    if (a[i] === b[j]) {
      ++i;
      ++j;
      continue;
    }
    // "bishop takes" may have been left as it was before "bishop takes f4" was written: the longest counts.
    let found = null;
    for (let k = next; k < list.length; ++k) {
      const one = endsHere(k);
      if (one && one.to > (found?.to ?? -1)) found = one;
    }
    if (found) [i, j, next, changed] = [found.to, found.over, found.next, changed + 1];
    else problems.push(`'${a.slice(i, i + 6).join('')}' became '${b.slice(j, j + 6).join('')}'`);
  }
  if (problems.length === 0 && j !== b.length) problems.push(`'${b.slice(j, j + 6).join('')}' came behind`);
  return { problems, changed };
}

// Words in JSON: only texts may differ, and only where words were named.
function jsonDifferences(source, written, list) {
  const [a, b] = [JSON.parse(source), JSON.parse(written)];
  const texts = { a: [], b: [] };
  const strip = (value, side) => JSON.stringify(value, (key, v) => {
    if (typeof v !== 'string' || !/^(word|text)$/i.test(key)) return v;
    texts[side].push(v.trim());
    return '';
  });
  const problems = strip(a, 'a') === strip(b, 'b') ? [] : ['more than words differ'];
  const heard = bare(list.map((n) => n.heard).join(' '));
  let changed = 0;
  texts.a.forEach((text, i) => {
    if (text === texts.b[i]) return;
    ++changed;
    if (!heard.includes(bare(text))) problems.push(`'${text}' became '${texts.b[i]}'`);
    const move = bare(texts.b[i]);
    if (move && !list.some((n) => n.moves.some((m) => bare(m) === move || texts.b[i].includes(m)))) {
      problems.push(`'${texts.b[i]}' is no move of the lesson`);
    }
  });
  return { problems, changed };
}

// ---------------------------------------------------------------- captions from a script

function captionsOf(script) {
  const paragraphs = script.split('\n').map((line) => line.match(/^\[(\d+):(\d\d)\] (.+)$/)).filter(Boolean)
    .map(([, m, s, text]) => ({ t: Number(m) * 60 + Number(s), text }));
  const captions = [];
  paragraphs.forEach(({ t, text }, i) => {
    const end = paragraphs[i + 1]?.t ?? t + 30;
    const sentences = text.match(/.+?[.!?](?= |$)|.+$/g).map((one) => one.trim());
    const each = (end - t) / sentences.length;
    sentences.forEach((one, k) => captions.push({ t: t + k * each, end: t + (k + 1) * each, text: one }));
  });
  return captions;
}

const two = (n) => String(Math.floor(n)).padStart(2, '0');
const clock = (t, mark) => `${two(t / 3600)}:${two((t / 60) % 60)}:${two(t % 60)}${mark}${String(Math.floor((t % 1) * 1000)).padStart(3, '0')}`;
const escaped = (text) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
const FORMATS = {
  srt: (list) => list.map((c, i) => `${i + 1}\r\n${clock(c.t, ',')} --> ${clock(c.end, ',')}\r\n${c.text}\r\n`).join('\r\n'),
  vtt: (list) => `WEBVTT\n\n${list.map((c) => `${clock(c.t, '.')} --> ${clock(c.end, '.')} line:90%\n${escaped(c.text)}\n`).join('\n')}`,
  ttml: (list) => `<?xml version="1.0" encoding="UTF-8"?>\n<tt xmlns="http://www.w3.org/ns/ttml" xml:lang="en"><body><div>\n${
    list.map((c) => `<p begin="${clock(c.t, '.')}" end="${clock(c.end, '.')}"> ${escaped(c.text)} </p>`).join('\n')}\n</div></body></tt>\n`,
};

// ---------------------------------------------------------------- main

const [plyscribe, corpus, every = '1'] = process.argv.slice(2);
const folders = fs.readdirSync(corpus).sort().filter((_, i) => i % Number(every) === 0)
  .map((name) => path.join(corpus, name)).filter((f) => fs.existsSync(path.join(f, 'gold.json')));
let changes = 0;
for (const folder of folders) {
  const files = fs.readdirSync(folder).filter((f) => /^(script|heard.*)\.(txt|json)$/.test(f)).sort()
    .map((f) => path.join(folder, f));
  const script = captionsOf(fs.readFileSync(path.join(folder, 'script.txt'), 'utf8'));
  for (const [format, write] of Object.entries(FORMATS)) {
    files.push(path.join(scratch, `${path.basename(folder)}.${format}`));
    fs.writeFileSync(files.at(-1), write(script));
  }
  for (const file of files) {
    const form = path.basename(file);
    const what = `${path.basename(folder)}/${form}`;
    const out = path.join(scratch, what.replaceAll('/', '-'));
    const r = run(plyscribe, 'extract', file, '--out', out);
    if (r.status === 3 && form.startsWith('heard-words')) continue;  // no move could be placed
    check(`${what} extracted`, r.status === 0 ? [] : [r.stderr.trim()]);
    if (r.status !== 0) continue;
    const captions = fs.readdirSync(out).filter((f) => f.startsWith('captions.'));
    check(`${what} has captions`, captions.length === 1 ? [] : [captions.join(' ')]);
    const written = fs.readFileSync(path.join(out, captions[0]), 'utf8');
    const source = fs.readFileSync(file, 'utf8');
    const list = namings(JSON.parse(fs.readFileSync(path.join(out, 'lesson.json'), 'utf8')));
    const compare = form.endsWith('.json') ? jsonDifferences : differences;
    const { problems, changed } = compare(source, written, list);
    changes += changed;
    check(`${what} differs only in moves`, problems);
    const again = run(plyscribe, 'extract', path.join(out, captions[0]), '--json');
    check(`${what} reads again`, again.status === 0 ? [] : [again.stderr.trim()]);
  }
}
fs.rmSync(scratch, { recursive: true });
console.log(`${changes} stretches of words written anew`);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || changes === 0 ? 1 : 0);
