// Pieces and small boards in SVG, from the outlines that stand once in the page.
import { make } from './dom.js';
import { PIECE_WORDS, positionWords } from './notation.js';

export function drawPiece(piece, x, y, size) {
  const kind = PIECE_WORDS[piece.toLowerCase()];
  return make(`use.${piece < 'a' ? 'light' : 'dark'}-piece`,
              { href: `#piece-${kind}`, x, y, width: size, height: size });
}

// A board to look at; `turned` shows it from Black's side. mark: the move that led to it.
export function smallBoard(position, { turned = false, mark = null, label } = {}) {
  const board = make('svg.small-board', { viewBox: '0 0 80 80', role: 'img',
                                          'aria-label': label ?? positionWords(position) });
  const place = s => {
    const file = s & 7, rank = s >> 3;
    return turned ? [70 - file * 10, rank * 10] : [file * 10, 70 - rank * 10];
  };
  board.append(make('rect.light-square', { width: 80, height: 80 }));
  for (let s = 0; s < 64; ++s) {
    const [x, y] = place(s);
    if (((s & 7) + (s >> 3)) % 2 === 0) board.append(make('rect.dark-square', { x, y, width: 10, height: 10 }));
  }
  if (mark) {
    for (const s of [mark.from, mark.to]) {
      const [x, y] = place(s);
      board.append(make(s === mark.to ? 'rect.arrived' : 'rect.left-from',
                        { x: x + .6, y: y + .6, width: 8.8, height: 8.8 }));
    }
  }
  position.squares.forEach((piece, s) => {
    if (piece !== '.') board.append(drawPiece(piece, ...place(s), 10));
  });
  return board;
}
