// Small texts: clock times, move numbers, words for statuses and pieces.

export function clockText(seconds) {
  const s = Math.max(0, Math.floor(seconds));
  const two = n => String(n).padStart(2, '0');
  return s < 3600 ? `${Math.floor(s / 60)}:${two(s % 60)}`
                  : `${Math.floor(s / 3600)}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
}

// "4." for White to move, "4..." for Black.
export const numberText = position => `${position.full}${position.side === 'w' ? '.' : '...'}`;

export const STATUS_WORDS = {
  clear: 'as heard', mended: 'put right', unsure: 'unsure', loose: 'not placed', idea: 'idea',
  settled: 'settled', pending: 'settled, waiting',
};

export const PIECE_WORDS = { p: 'pawn', n: 'knight', b: 'bishop', r: 'rook', q: 'queen', k: 'king' };

export const squareName = s => 'abcdefgh'[s & 7] + ((s >> 3) + 1);

export const plural = (n, one, many = one + 's') => `${n} ${n === 1 ? one : many}`;

// "White: king g1, rooks a1 and f1. Black: ..." for whoever cannot see the board.
export function positionWords(position) {
  const side = (name, own) => {
    const parts = [];
    for (const kind of 'kqrbnp') {
      const at = [];
      position.squares.forEach((piece, s) => {
        if (piece.toLowerCase() === kind && own(piece)) at.push(squareName(s));
      });
      if (at.length) parts.push(`${PIECE_WORDS[kind]}${at.length > 1 ? 's' : ''} ${at.join(' ')}`);
    }
    return `${name}: ${parts.join(', ')}.`;
  };
  return side('White', p => p < 'a') + ' ' + side('Black', p => p > 'a') +
    (position.side === 'w' ? ' White to move.' : ' Black to move.');
}
