// The rules, as far as a page needs them: legal moves, the position after a move, SAN, and moves
// from what a person types. The program checks every move again.
//
// A position: { squares: 64 letters of FEN or '.', a1 first; side 'w'|'b'; castling 'KQkq'; passing:
// square behind a pawn that just made two steps, or -1; half, full: clocks }.
// A move: { from, to, promotion: '' | 'q' 'r' 'b' 'n' }. Positions are values: play returns a new one.

export function parseFen(fen) {
  const [rows, side, castling, passing, half, full] = fen.split(' ');
  const squares = Array(64).fill('.');
  rows.split('/').forEach((row, i) => {
    let file = 0;
    for (const c of row) {
      if (c >= '1' && c <= '8') file += Number(c);
      else squares[(7 - i) * 8 + file++] = c;
    }
  });
  return { squares, side, castling: castling === '-' ? '' : castling,
           passing: passing === '-' ? -1 : squareOf(passing),
           half: Number(half ?? 0), full: Number(full ?? 1) };
}

const squareOf = name => name.charCodeAt(0) - 97 + 8 * (Number(name[1]) - 1);
const nameOf = s => 'abcdefgh'[s & 7] + ((s >> 3) + 1);
const isWhite = piece => piece < 'a' && piece !== '.';
const ownPiece = (piece, side) => piece !== '.' && isWhite(piece) === (side === 'w');

const STRAIGHT = [[0, 1], [1, 0], [0, -1], [-1, 0]];
const SLANTED = [[1, 1], [1, -1], [-1, -1], [-1, 1]];
const LEAPS = [[1, 2], [2, 1], [2, -1], [1, -2], [-1, -2], [-2, -1], [-2, 1], [-1, 2]];
const WAYS = { n: LEAPS, b: SLANTED, r: STRAIGHT, q: [...STRAIGHT, ...SLANTED],
               k: [...STRAIGHT, ...SLANTED] };

// The square so many files and ranks on, or -1 beside the board.
function stepFrom(s, [files, ranks]) {
  const file = (s & 7) + files, rank = (s >> 3) + ranks;
  return file < 0 || file > 7 || rank < 0 || rank > 7 ? -1 : rank * 8 + file;
}

function attackedBy(squares, target, side) {
  const forward = side === 'w' ? 1 : -1;
  for (const files of [-1, 1]) {
    const s = stepFrom(target, [files, -forward]);
    if (s >= 0 && squares[s] === (side === 'w' ? 'P' : 'p')) return true;
  }
  for (const kind of 'nbrqk') {
    const piece = side === 'w' ? kind.toUpperCase() : kind;
    for (const way of WAYS[kind]) {
      let s = stepFrom(target, way);
      while (s >= 0) {
        if (squares[s] === piece) return true;
        if (squares[s] !== '.' || kind === 'n' || kind === 'k') break;
        s = stepFrom(s, way);
      }
    }
  }
  return false;
}

export function inCheck(p, side = p.side) {
  const king = p.squares.indexOf(side === 'w' ? 'K' : 'k');
  return king >= 0 && attackedBy(p.squares, king, side === 'w' ? 'b' : 'w');
}

export function play(p, { from, to, promotion }) {
  const squares = p.squares.slice();
  const piece = squares[from], kind = piece.toLowerCase();
  const taken = squares[to] !== '.';
  squares[to] = promotion ? (p.side === 'w' ? promotion.toUpperCase() : promotion) : piece;
  squares[from] = '.';
  if (kind === 'p' && to === p.passing) squares[to + (p.side === 'w' ? -8 : 8)] = '.';
  if (kind === 'k' && Math.abs(to - from) === 2) {
    const [corner, beside] = to > from ? [from + 3, from + 1] : [from - 4, from - 1];
    squares[beside] = squares[corner];
    squares[corner] = '.';
  }
  const lost = { 0: 'Q', 7: 'K', 4: 'KQ', 56: 'q', 63: 'k', 60: 'kq' };
  const gone = (lost[from] ?? '') + (lost[to] ?? '');
  return {
    squares, side: p.side === 'w' ? 'b' : 'w',
    castling: [...p.castling].filter(c => !gone.includes(c)).join(''),
    passing: kind === 'p' && Math.abs(to - from) === 16 ? (from + to) / 2 : -1,
    half: kind === 'p' || taken ? 0 : p.half + 1,
    full: p.full + (p.side === 'b' ? 1 : 0),
  };
}

function pawnMoves(p, from, add) {
  const up = p.side === 'w' ? 1 : -1;
  const last = p.side === 'w' ? 7 : 0, first = p.side === 'w' ? 1 : 6;
  const arrive = to => {
    for (const promotion of to >> 3 === last ? 'qrbn' : ['']) add({ from, to, promotion });
  };
  const one = stepFrom(from, [0, up]);
  if (one >= 0 && p.squares[one] === '.') {
    arrive(one);
    const two = stepFrom(one, [0, up]);
    if (from >> 3 === first && p.squares[two] === '.') arrive(two);
  }
  for (const files of [-1, 1]) {
    const to = stepFrom(from, [files, up]);
    if (to < 0) continue;
    if (to === p.passing || (p.squares[to] !== '.' && !ownPiece(p.squares[to], p.side))) arrive(to);
  }
}

function castlingMoves(p, add) {
  const home = p.side === 'w' ? 4 : 60, them = p.side === 'w' ? 'b' : 'w';
  const free = list => list.every(s => p.squares[home + s] === '.');
  const safe = list => list.every(s => !attackedBy(p.squares, home + s, them));
  if (p.castling.includes(p.side === 'w' ? 'K' : 'k') && free([1, 2]) && safe([0, 1, 2])) {
    add({ from: home, to: home + 2, promotion: '' });
  }
  if (p.castling.includes(p.side === 'w' ? 'Q' : 'q') && free([-1, -2, -3]) && safe([0, -1, -2])) {
    add({ from: home, to: home - 2, promotion: '' });
  }
}

const MOVES = new WeakMap();  // position -> its legal moves

export function legalMoves(p) {
  let moves = MOVES.get(p);
  if (moves) return moves;
  moves = [];
  const add = m => {
    if (!inCheck(play(p, m), p.side)) moves.push(m);
  };
  p.squares.forEach((piece, from) => {
    if (!ownPiece(piece, p.side)) return;
    const kind = piece.toLowerCase();
    if (kind === 'p') return pawnMoves(p, from, add);
    for (const way of WAYS[kind]) {
      let to = stepFrom(from, way);
      while (to >= 0 && !ownPiece(p.squares[to], p.side)) {
        add({ from, to, promotion: '' });
        if (p.squares[to] !== '.' || kind === 'n' || kind === 'k') break;
        to = stepFrom(to, way);
      }
    }
  });
  castlingMoves(p, add);
  MOVES.set(p, moves);
  return moves;
}

export const moveOfUci = text => ({ from: squareOf(text), to: squareOf(text.slice(2)),
                                    promotion: text[4] ?? '' });

// Export-format SAN (PGN standard, section 8.2.3).
export function sanOf(p, m) {
  const kind = p.squares[m.from].toLowerCase();
  const capture = p.squares[m.to] !== '.' || (kind === 'p' && m.to === p.passing);
  let text;
  if (kind === 'k' && Math.abs(m.to - m.from) === 2) {
    text = m.to > m.from ? 'O-O' : 'O-O-O';
  } else if (kind === 'p') {
    text = (capture ? nameOf(m.from)[0] + 'x' : '') + nameOf(m.to) +
      (m.promotion ? '=' + m.promotion.toUpperCase() : '');
  } else {
    const rivals = legalMoves(p).filter(o => o.to === m.to && o.from !== m.from &&
                                             p.squares[o.from] === p.squares[m.from]);
    const own = nameOf(m.from);
    let origin = '';
    if (rivals.length) {
      if (!rivals.some(o => (o.from & 7) === (m.from & 7))) origin = own[0];
      else origin = rivals.some(o => o.from >> 3 === m.from >> 3) ? own : own[1];
    }
    text = kind.toUpperCase() + origin + (capture ? 'x' : '') + nameOf(m.to);
  }
  const after = play(p, m);
  if (!inCheck(after)) return text;
  return text + (legalMoves(after).length ? '+' : '#');
}

export const moveOfSan = (p, san) => legalMoves(p).find(m => sanOf(p, m) === san);

const SPOKEN = { knight: 'n', night: 'n', bishop: 'b', rook: 'r', queen: 'q', king: 'k', pawn: '',
                 takes: '', captures: '', to: '', on: '', check: '', mate: '',
                 castles: 'oo', castle: 'oo', short: '', long: 'o', kingside: '', queenside: 'o' };

// "Knight takes on F3+" -> "nf3", "0-0" -> "oo": what is left of a typed move.
function plainMove(text) {
  return text.trim().replace(/^\d+\.+\s*/, '')
    .replace(/[a-z]{3,}|\bto\b|\bon\b/gi, word => SPOKEN[word.toLowerCase()] ?? word)
    .replace(/0/g, 'o').replace(/[^a-zA-Z1-8]|[xX]/g, '');
}

// Every way in which a move may be typed, small letters, marks left out.
function spellings(p, m) {
  const kind = p.squares[m.from].toLowerCase(), from = nameOf(m.from), to = nameOf(m.to);
  const out = [plainMove(sanOf(p, m)).toLowerCase(), from + to + m.promotion];
  if (kind === 'p') out.push(from[0] + to + m.promotion, to + m.promotion);
  else out.push(kind + to, kind + from[0] + to, kind + from[1] + to, kind + from + to);
  return out;
}

// Legal moves that the text may name: { exact: bool, moves }. Exact if something typed in full
// fits; else all moves that go on as the text begins. A capital B is a bishop, a small b either.
export function movesTyped(p, text) {
  const plain = plainMove(text), small = plain.toLowerCase();
  if (!small) return { exact: false, moves: [] };
  let candidates = legalMoves(p);
  if (plain[0] === 'B') candidates = candidates.filter(m => 'Bb'.includes(p.squares[m.from]));
  const full = candidates.filter(m => spellings(p, m).includes(small));
  if (full.length) return { exact: true, moves: full };
  return { exact: false,
           moves: candidates.filter(m => spellings(p, m).some(s => s.startsWith(small))) };
}
