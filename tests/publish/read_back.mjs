// Our game files, read by programs that we did not write: kokopu (npm) and pgn-extract (Debian).
//
//   node read_back.mjs gold GOLD_LESSON PLYSCRIBE CORPUS    gold trees, whole and perturbed
//   node read_back.mjs heard PLYSCRIBE CORPUS [EVERY]       what the decoder makes of heard.txt;
//                                                           of every so many lessons, all by default
//
// For each lesson: both readers take the file without a complaint and find the tree of lesson.json,
// every move has its time as a comment, no movetext line is longer than 79 columns; with gold
// trees, `plyscribe score` gives the numbers that are worked out here with kokopu and chess.js, and
// 100 for a tree that is whole. Needs `npm ci` in tests/reference.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { createRequire } from 'node:module';

const require = createRequire(new URL('../reference/package.json', import.meta.url));
const { pgnRead } = require('kokopu');
const { Chess } = require('chess.js');

const SEEDS = [0, 1, 2, 3, 4, 5, 6];
const COLUMNS = 79;
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'plyscribe-read-back-'));
const env = { ...process.env, PATH: `${process.env.PATH}:/usr/games` };
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
  const r = spawnSync(program, args, { env, encoding: 'utf8', maxBuffer: 1 << 28 });
  if (r.error) throw r.error;
  return r;
}

// ---------------------------------------------------------------- trees

// Every move of a game: the SAN path that leads to it, and its comment.
function movesByKokopu(pgn) {
  const database = pgnRead(pgn);
  if (database.gameCount() !== 1) throw new Error(`expected 1 game, found ${database.gameCount()}`);
  const game = database.game(0);
  const moves = [];
  const read = (variation, path) => {
    for (let node = variation.first(); node; node = node.next()) {
      const before = path;
      path = `${path} ${node.notation()}`;
      moves.push({ path, comment: node.comment() ?? '', node });
      for (const v of node.variations()) read(v, before);
    }
  };
  read(game.mainVariation(), '');
  return { start: game.initialPosition().fen(), moves };
}

function movesOfLesson(lesson) {
  const moves = [];
  let start = '';
  for (const san of lesson.start.moves) moves.push({ path: (start += ` ${san}`), t: null });
  const paths = [start];
  for (const n of lesson.nodes) {
    paths[n.id] = `${paths[n.parent]} ${n.san}`;
    moves.push({ path: paths[n.id], t: n.t });
  }
  return moves;
}

function clock(t) {
  const [h, m, s] = [Math.floor(t / 3600), Math.floor(t / 60) % 60, Math.floor(t) % 60];
  return (h ? `${h}:${String(m).padStart(2, '0')}` : `${m}`) + `:${String(s).padStart(2, '0')}`;
}

function difference(expected, found) {
  const problems = [];
  if (expected.length !== found.length) problems.push(`${expected.length} moves, read ${found.length}`);
  const seen = new Set(found);
  for (const path of expected) if (!seen.has(path)) problems.push(`lost ${path}`);
  return problems;
}

function checkTree(what, pgnFile, lesson) {
  const pgn = fs.readFileSync(pgnFile, 'utf8');
  const expected = movesOfLesson(lesson);
  const problems = [];
  let read;
  try {
    read = movesByKokopu(pgn);
    problems.push(...difference(expected.map((m) => m.path), read.moves.map((m) => m.path)));
    const place = (fen) => fen.split(' ').slice(0, 3).join(' ');
    if (lesson.start.moves.length === 0 && place(read.start) !== place(lesson.start.fen)) {
      problems.push(`starts at ${read.start}`);
    }
    const comments = new Map(read.moves.map((m) => [m.path, m.comment]));
    for (const { path, t } of expected) {
      if (t !== null && !comments.get(path)?.startsWith(clock(t))) {
        problems.push(`${path} {${comments.get(path)}} has no ${clock(t)}`);
      }
    }
  } catch (e) {
    problems.push(`kokopu: ${e.message}`);
  }
  check(`${what} read by kokopu`, problems);

  const copy = path.join(scratch, 'copy.pgn');
  fs.rmSync(copy, { force: true });
  const extract = run('pgn-extract', '-s', '-o', copy, pgnFile);
  const complaints = (extract.stderr + extract.stdout).trim();
  const copied = complaints ? [complaints] : [];
  if (extract.status !== 0) copied.push(`pgn-extract returned ${extract.status}`);
  try {
    const again = movesByKokopu(fs.readFileSync(copy, 'utf8'));
    copied.push(...difference(expected.map((m) => m.path), again.moves.map((m) => m.path)));
  } catch (e) {
    copied.push(e.message);
  }
  check(`${what} read by pgn-extract`, copied);

  const movetext = pgn.slice(pgn.indexOf('\n\n') + 2).split('\n');
  check(`${what} lines`, movetext.filter((line) => [...line].length > COLUMNS));
  return read;
}

// ---------------------------------------------------------------- score

const key = (fen) => fen.split(' ').slice(0, 3).join(' ');

function scoreLine(gold, read) {
  const edges = new Set();
  for (const { node } of read.moves) {
    const before = node.positionBefore();
    edges.add(`${key(before.fen())}|${before.uci(before.notation(node.notation()))}`);
  }
  const id = (e) => `${e.key}|${e.uci}`;
  const said = new Set(gold.edges.filter((e) => !e.unsaid).map(id));
  const free = new Set(gold.edges.filter((e) => e.unsaid).map(id));
  const board = new Chess();
  for (const san of gold.start_moves) {
    const before = key(board.fen());
    const move = board.move(san);
    free.add(`${before}|${move.from}${move.to}${move.promotion ?? ''}`);
  }
  const count = { hit: 0, free: 0, extra: 0 };
  for (const e of edges) ++count[said.has(e) ? 'hit' : free.has(e) ? 'free' : 'extra'];
  const p = count.hit / (count.hit + count.extra || 1);
  const r = count.hit / (said.size || 1);
  const percent = (x) => (100 * x).toFixed(1);
  return `P ${percent(p)}  R ${percent(r)}  F1 ${percent((2 * p * r) / (p + r || 1))}  ` +
    `(gold ${said.size}, hit ${count.hit}, extra ${count.extra}, free ${count.free})`;
}

function checkGold(goldLesson, plyscribe, folder) {
  const goldFile = path.join(folder, 'gold.json');
  const gold = JSON.parse(fs.readFileSync(goldFile, 'utf8'));
  for (const seed of SEEDS) {
    const what = `${path.basename(folder)}, seed ${seed},`;
    const [pgn, json] = [path.join(scratch, 'lesson.pgn'), path.join(scratch, 'lesson.json')];
    const made = run(goldLesson, goldFile, String(seed), pgn, json);
    check(`${what} made`, made.status === 0 ? [] : [made.stderr.trim()]);
    if (made.status !== 0) continue;
    const read = checkTree(what, pgn, JSON.parse(fs.readFileSync(json, 'utf8')));
    if (!read) continue;
    const expected = scoreLine(gold, read);
    const scored = run(plyscribe, 'score', goldFile, pgn);
    const line = scored.stdout.trim();
    const problems = line === expected ? [] : [`plyscribe: ${line}${scored.stderr}, here: ${expected}`];
    if (seed === 0 && !line.startsWith('P 100.0  R 100.0  F1 100.0 ')) problems.push(line);
    check(`${what} score`, problems);
  }
}

function checkHeard(plyscribe, folder) {
  const out = path.join(scratch, path.basename(folder));
  const what = `${path.basename(folder)}, heard,`;
  const r = run(plyscribe, 'extract', path.join(folder, 'heard.txt'), '--out', out);
  check(`${what} extracted`, r.status === 0 ? [] : [r.stderr.trim()]);
  if (r.status !== 0) return;
  const lesson = JSON.parse(fs.readFileSync(path.join(out, 'lesson.json'), 'utf8'));
  checkTree(what, path.join(out, 'lesson.pgn'), lesson);
}

// ---------------------------------------------------------------- main

const [mode, ...rest] = process.argv.slice(2);
const programs = rest.splice(0, mode === 'gold' ? 2 : 1);
const [corpus, every = '1'] = rest;
const folders = fs.readdirSync(corpus).map((name) => path.join(corpus, name))
  .filter((folder) => fs.existsSync(path.join(folder, 'gold.json'))).sort()
  .filter((_, i) => i % Number(every) === 0);
for (const folder of folders) {
  if (mode === 'gold') checkGold(programs[0], programs[1], folder);
  else if (mode === 'heard') checkHeard(programs[0], folder);
  else throw new Error('expected gold or heard');
}
fs.rmSync(scratch, { recursive: true });
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
