// The board: shows a position with the move just made and the ideas told there; moves can be picked
// on it, by pointer or by keys.
//
// It is a grid of 64 squares, each with its name and its piece in words; arrow keys walk over it,
// Enter lifts a piece and puts it down. Above the squares lies a drawing that no pointer meets:
// frames around the squares of the last move (broken where it left, whole where it arrived) and a
// dotted line for each idea, with a ring where it would go.
import { make, fill } from './dom.js';
import { drawPiece } from './pieces.js';
import { PIECE_WORDS, squareName } from './notation.js';
import { legalMoves } from './rules.js';

export class Board {
  // onPick(move): a legal move was picked.
  constructor(element, onPick) {
    this.onPick = onPick;
    this.turned = false;
    this.picking = false;
    this.lifted = -1;
    this.focus = 4;  // the square that Tab reaches
    this.cells = Array.from({ length: 64 }, (_, s) => make(
      `button.square.${((s & 7) + (s >> 3)) % 2 ? 'light' : 'dark'}`,
      { type: 'button', role: 'gridcell', tabindex: -1, 'data-square': squareName(s),
        onclick: () => this.#touch(s), onkeydown: event => this.#walk(event, s) }));
    this.grid = make('div.squares', { role: 'grid', 'aria-label': 'Board' });
    this.drawing = make('svg.drawing', { viewBox: '0 0 80 80', 'aria-hidden': 'true' });
    element.append(this.grid, this.drawing);
    this.#lay();
  }

  turn(turned) {
    if (turned === this.turned) return;
    this.turned = turned;
    this.#lay();
  }

  #lay() {
    const order = [7, 6, 5, 4, 3, 2, 1, 0];
    const ranks = this.turned ? order.toReversed() : order;
    const files = this.turned ? order : order.toReversed();
    fill(this.grid, ...ranks.map(rank =>
      make('div.rank', { role: 'row' }, ...files.map(file => this.cells[rank * 8 + file]))));
    for (const [s, cell] of this.cells.entries()) {
      cell.dataset.file = (s >> 3) === ranks[7] ? squareName(s)[0] : '';
      cell.dataset.rank = (s & 7) === files[0] ? squareName(s)[1] : '';
    }
  }

  // mark: the move that led here. ideas: [{from, to}]. picking: may a move be picked?
  show(position, { mark = null, ideas = [], picking = false, label = 'Board' } = {}) {
    Object.assign(this, { position, mark, ideas, picking, lifted: -1 });
    this.grid.setAttribute('aria-label', label);
    this.grid.classList.toggle('picking', picking);
    this.#draw();
  }

  #draw() {
    const moves = this.picking ? legalMoves(this.position) : [];
    const targets = new Set(moves.filter(m => m.from === this.lifted).map(m => m.to));
    const movable = new Set(moves.map(m => m.from));
    this.cells.forEach((cell, s) => {
      const piece = this.position.squares[s];
      if (cell.dataset.piece !== piece) {
        cell.dataset.piece = piece;
        fill(cell, piece === '.' ? null : make('svg', { viewBox: '0 0 100 100', 'aria-hidden': 'true' },
                                               drawPiece(piece, 0, 0, 100)));
      }
      cell.classList.toggle('lifted', s === this.lifted);
      cell.classList.toggle('target', targets.has(s));
      cell.classList.toggle('movable', this.lifted < 0 && movable.has(s));
      cell.tabIndex = s === this.focus ? 0 : -1;
      const words = [squareName(s)];
      if (piece !== '.') words.push(`${piece < 'a' ? 'white' : 'black'} ${PIECE_WORDS[piece.toLowerCase()]}`);
      if (s === this.mark?.from) words.push('left by the last move');
      if (s === this.mark?.to) words.push('last move');
      if (s === this.lifted) words.push('lifted');
      if (targets.has(s)) words.push('can go here');
      cell.setAttribute('aria-label', words.join(', '));
    });
    this.#drawLines();
  }

  #centre(s) {
    const x = (s & 7) * 10 + 5, y = 75 - (s >> 3) * 10;
    return this.turned ? [80 - x, 80 - y] : [x, y];
  }

  #drawLines() {
    const parts = [];
    if (this.mark) {
      for (const s of [this.mark.from, this.mark.to]) {
        const [x, y] = this.#centre(s);
        parts.push(make(s === this.mark.to ? 'rect.arrived' : 'rect.left-from',
                        { x: x - 4.6, y: y - 4.6, width: 9.2, height: 9.2 }));
      }
    }
    for (const idea of this.ideas) {
      const [x1, y1] = this.#centre(idea.from), [x2, y2] = this.#centre(idea.to);
      const length = Math.hypot(x2 - x1, y2 - y1) || 1;
      const short = (length - 3) / length;  // up to the ring
      parts.push(make('line.idea-line', { x1, y1, x2: x1 + (x2 - x1) * short, y2: y1 + (y2 - y1) * short }),
                 make('circle.idea-ring', { cx: x2, cy: y2, r: 3 }));
    }
    fill(this.drawing, ...parts);
  }

  #touch(s) {
    this.focus = s;
    if (!this.picking) return this.#draw();
    const moves = legalMoves(this.position).filter(m => m.from === this.lifted && m.to === s);
    if (moves.length) {
      this.lifted = -1;
      this.#draw();
      return this.onPick(moves);
    }
    this.lifted = this.lifted !== s && legalMoves(this.position).some(m => m.from === s) ? s : -1;
    this.#draw();
  }

  #walk(event, s) {
    const steps = { ArrowUp: 8, ArrowDown: -8, ArrowRight: 1, ArrowLeft: -1 };
    if (!(event.key in steps) || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    const step = this.turned ? -steps[event.key] : steps[event.key];
    const to = s + step;
    if (to < 0 || to > 63 || (Math.abs(step) === 1 && to >> 3 !== s >> 3)) return;
    this.focus = to;
    this.cells[s].tabIndex = -1;
    this.cells[to].tabIndex = 0;
    this.cells[to].focus();
  }
}
