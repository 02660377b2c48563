// The page's rules against chess.js, and against the common perft counts.
//
//   node --test rules_check.mjs
import test from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import { Chess } from 'chess.js';

const text = fs.readFileSync(new URL('../../pipeline/review/page/rules.js', import.meta.url), 'utf8');
const { parseFen, legalMoves, play, sanOf, movesTyped } =
  await import(`data:text/javascript,${encodeURIComponent(text)}`);

const START = 'rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1';

// Counts of the Chess Programming Wiki's page "Perft Results", as quoted in
// pipeline/board/perft_test.cc.
test('legal moves are as many as the common tables say', () => {
  const perft = (p, depth) => depth === 0 ? 1
    : legalMoves(p).reduce((sum, m) => sum + perft(play(p, m), depth - 1), 0);
  for (const [fen, depth, count] of [
    [START, 3, 8902],
    ['r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1', 3, 97862],
    ['8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1', 4, 43238],
    ['r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1', 3, 9467],
    ['rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8', 3, 62379],
  ]) assert.equal(perft(parseFen(fen), depth), count, fen);
});

test('random games: moves, SAN and clocks as chess.js has them', () => {
  let seed = 20;
  const random = n => (seed = (seed * 1103515245 + 12345) % 2147483648) % n;
  let positions = 0;
  for (let game = 0; game < 40; ++game) {
    const reference = new Chess();
    let p = parseFen(START);
    for (let ply = 0; ply < 120 && !reference.isGameOver(); ++ply) {
      const sans = reference.moves().sort();
      assert.deepEqual(legalMoves(p).map(m => sanOf(p, m)).sort(), sans, reference.fen());
      const san = sans[random(sans.length)];
      const move = movesTyped(p, san);
      assert.ok(move.exact && move.moves.some(m => sanOf(p, m) === san), `${san} in ${reference.fen()}`);
      p = play(p, legalMoves(p).find(m => sanOf(p, m) === san));
      reference.move(san);
      const fields = reference.fen().split(' ');
      assert.equal(p.side, fields[1]);
      assert.equal(p.castling || '-', fields[2]);
      assert.deepEqual([p.half, p.full], [Number(fields[4]), Number(fields[5])]);
      ++positions;
    }
  }
  assert.ok(positions > 2000);
});

test('moves are read as people type them', () => {
  const p = parseFen('r1bqkbnr/pppp1ppp/2n5/4p3/2B1P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 4 4');
  for (const [typed, sans] of [
    ['O-O', ['O-O']], ['0-0', ['O-O']], ['oo', ['O-O']], ['castles', ['O-O']], ['castles short', ['O-O']],
    ['Nxe5', ['Nxe5']], ['ne5', ['Nxe5']], ['NE5', ['Nxe5']], ['knight takes e5', ['Nxe5']],
    ['4. Ng5', ['Ng5']], ['f3g5', ['Ng5']], ['Bb5!?', ['Bb5']], ['bishop b5', ['Bb5']], ['night g5', ['Ng5']],
    ['d4', ['d4']], ['pawn to d4', ['d4']], ['Bxf7', ['Bxf7+']], ['bf7+', ['Bxf7+']],
  ]) {
    const { exact, moves } = movesTyped(p, typed);
    assert.deepEqual([exact, moves.map(m => sanOf(p, m))], [true, sans], typed);
  }
  // Where a small b may be a pawn or a bishop, both are offered; a capital B is the bishop.
  const both = parseFen('4k3/8/8/8/2n5/1P1B4/8/4K3 w - - 0 1');
  assert.deepEqual(movesTyped(both, 'bc4').moves.map(m => sanOf(both, m)).sort(), ['Bxc4', 'bxc4']);
  assert.deepEqual(movesTyped(both, 'Bc4').moves.map(m => sanOf(both, m)), ['Bxc4']);
  assert.equal(movesTyped(p, 'Qh7').moves.length, 0);
  assert.equal(movesTyped(p, 'zz').moves.length, 0);
  assert.equal(movesTyped(p, '<b>').exact, false);
  const half = movesTyped(p, 'N');
  assert.ok(!half.exact && half.moves.length > 3);
});
