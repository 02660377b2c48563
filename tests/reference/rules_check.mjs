// Compares our rules of chess with two independent implementations.
//
//   node rules_check.mjs path/to/rules_dump [path/to/openings.tsv]
//
// Positions: every position of every line in lexicon/openings.tsv, then random walks with a fixed
// seed from the starts below until there are at least 22,000 different ones. For each, the FEN and
// the full set of legal moves, in UCI and in SAN, must be the same in rules_dump and in chess.js;
// on every third one, the moves must also be the same in kokopu. Exit status 1 on any difference.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const WANTED = 22000;
const WALK_PLIES = 100;
const KOKOPU_EVERY = 3;
const SEED = 20250101;

const INITIAL = 'rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1';
const STARTS = [
  INITIAL,
  // Castling and captures everywhere; promotions; pawns that pass each other; bare endings.
  'r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1',
  'r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1',
  'rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8',
  '4k3/pppppppp/8/8/8/8/PPPPPPPP/4K3 w - - 0 1',
  '8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1',
  'n1n5/PPPk4/8/8/8/8/4Kppp/5N1N b - - 0 1',
  'r3k2r/8/3Q4/8/8/5q2/8/R3K2R b KQkq - 0 1',
  'R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1',
];

const here = dirname(fileURLToPath(import.meta.url));

function stop(text) {
  console.error(`rules_check: ${text}`);
  process.exit(1);
}

const [dump, openings = join(here, '../../lexicon/openings.tsv')] = process.argv.slice(2);
if (!dump) stop('usage: node rules_check.mjs path/to/rules_dump [path/to/openings.tsv]');
if (!existsSync(dump)) stop(`${dump} is missing; build the target rules_dump first`);
if (!existsSync(openings)) stop(`${openings} is missing`);
if (!existsSync(join(here, 'node_modules'))) {
  stop(`the reference packages are missing; run "npm ci" in ${here} first`);
}
const { Chess } = await import('chess.js');
const { default: kokopu } = await import('kokopu');

// mulberry32: a small generator of 32-bit numbers, the same on every machine.
let state = SEED;
function random(below) {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) % below;
}

// chess.moves({ verbose: true }) works out all moves again for each move it describes, which takes
// twenty times as long. So this asks for the same things by the inner names that its Move class
// uses; package.json pins the version. Squares inside are 16 * (row from the top) + file.
function movesOf(chess) {
  const square = (s) => 'abcdefgh'[s & 15] + (8 - (s >> 4));
  const list = chess._moves({ legal: true });
  return list.map((m) => ({
    uci: square(m.from) + square(m.to) + (m.promotion ?? ''),
    san: chess._moveToSan(m, list),
    rare: m.piece === 'p' ? square(m.from)[0] !== square(m.to)[0] && !chess.get(square(m.to))
                          : m.piece === 'k' && Math.abs(m.from - m.to) === 2,
  }));
}
const byBytes = (list) => list.sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));

// FEN -> the line rules_dump should print for it.
const expected = new Map();
function note(chess) {
  const fen = chess.fen();
  const moves = movesOf(chess);
  if (!expected.has(fen)) {
    expected.set(fen, [fen, ...byBytes(moves.map((m) => `${m.uci} ${m.san}`))].join('\t'));
  }
  return moves;
}

// Each request is { text for rules_dump, fens: the positions it goes through }.
const requests = [];
function request(start) {
  const r = { start, moves: [], fens: [] };
  requests.push(r);
  return r;
}
const textOf = (r) =>
  r.start === INITIAL ? r.moves.join(' ') : r.start + (r.moves.length ? ` moves ${r.moves.join(' ')}` : '');

const seenPrefix = new Map(); // SAN prefix -> FEN, so that shared beginnings are worked out once
for (const row of readFileSync(openings, 'utf8').split('\n').slice(1)) {
  if (!row.trim()) continue;
  const words = row.split('\t')[2].trim().split(/\s+/);
  const chess = new Chess();
  const r = request(INITIAL);
  let prefix = '';
  for (let i = 0; i <= words.length; ++i) {
    if (!seenPrefix.has(prefix)) {
      note(chess);
      seenPrefix.set(prefix, chess.fen());
    }
    r.fens.push(seenPrefix.get(prefix));
    if (i === words.length) break;
    try {
      r.moves.push(chess.move(words[i]).lan);
    } catch (error) {
      stop(`${openings}: chess.js cannot play "${words[i]}" in: ${row}`);
    }
    prefix += ` ${words[i]}`;
  }
}
const fromOpenings = expected.size;

for (let walk = 0; expected.size < WANTED; ++walk) {
  const start = STARTS[walk % STARTS.length];
  const chess = new Chess(start);
  const r = request(start);
  for (let ply = 0; ply <= WALK_PLIES; ++ply) {
    const moves = note(chess);
    r.fens.push(chess.fen());
    if (moves.length === 0 || ply === WALK_PLIES) break;
    const rare = moves.filter((m) => m.rare); // en passant, castling
    const pool = rare.length > 0 && random(2) === 0 ? rare : moves;
    const m = pool[random(pool.length)];
    r.moves.push(m.uci);
    chess.move(m.san, { strict: true });
  }
}

const run = spawnSync(dump, { input: requests.map(textOf).join('\n') + '\n', maxBuffer: 1 << 30 });
if (run.error) stop(`${dump}: ${run.error.message}`);
if (run.status !== 0) stop(`${dump} gave up: ${run.stderr}`);
const ours = run.stdout.toString().trimEnd().split('\n');

let differences = 0;
function differ(who, request, theirs, our) {
  if (++differences > 10) return;
  const [a, b] = [theirs.split('\t'), our.split('\t')];
  const only = (x, y) => x.filter((s) => !y.includes(s)).join(', ') || '-';
  console.error(`after "${request}"\n  only ${who}: ${only(a, b)}\n  only ours: ${only(b, a)}`);
}

let at = 0;
let moves = 0;
let second = 0;
const compared = new Set();
for (const r of requests) {
  for (const fen of r.fens) {
    const our = ours[at++] ?? '';
    const theirs = expected.get(fen);
    if (our !== theirs) differ('chess.js', textOf(r), theirs, our);
    if (compared.has(fen)) continue;
    compared.add(fen);
    moves += theirs.split('\t').length - 1;
    if (compared.size % KOKOPU_EVERY === 0) {
      const p = new kokopu.Position('regular', fen);
      const list = p.moves().map((m) => `${p.uci(m)} ${p.notation(m)}`);
      const line = [fen, ...byBytes(list)].join('\t');
      if (our !== line) differ('kokopu', textOf(r), line, our);
      ++second;
    }
  }
}
if (at !== ours.length) stop(`rules_dump answered ${ours.length} positions, expected ${at}`);

console.log(
  `${compared.size} positions (${fromOpenings} from openings, the rest from random walks, seed ` +
    `${SEED}), ${moves} legal moves: ${differences} differences ` +
    `(chess.js on all, kokopu on ${second})`,
);
process.exit(differences ? 1 : 0);
