// The roll: the words running down in time, each move mention in its place with what it became, and
// left of the words the lines of the tree, so that one sees on which line the talk is.
//
// A row is a stretch of talk on one line. Its rails: one lane for each line that is open, the row's
// own drawn thick; a bend where a line leaves another, a ring where the talk comes back to one.
// Rows far from the window are not laid out (content-visibility), so that long lessons scroll well.
import { make, fill, heardText } from './dom.js';
import { clockText, STATUS_WORDS } from './notation.js';
import { rowsOf, mentionStatus } from './lesson.js';

const MOST_LANES = 9;

export class Roll {
  constructor(element, store) {
    Object.assign(this, { element, store });
    this.chips = new Map();  // mention id -> element
    this.marks = globalThis.Highlight ? { now: new Highlight(), picked: new Highlight() } : null;
    if (this.marks) {
      CSS.highlights.set('now', this.marks.now);
      CSS.highlights.set('picked', this.marks.picked);
    }
    element.addEventListener('click', event => this.#clicked(event));
    element.addEventListener('pointerup', () => this.#dragged());
  }

  draw() {
    const { words, tree } = this.store;
    this.chips.clear();
    this.runs = [];  // { first, element }: talk between mentions, by first word
    this.rows = rowsOf(words, tree);
    this.chapters = new Map(this.store.state.chapters.map(
      ([t, title]) => [this.rowOfWord(words.at(t)), title]));
    const lastUse = this.#lastUses();
    const changed = new Set();
    for (const c of this.store.state.changes?.mentions ?? []) changed.add(`${c.first}-${c.last}`);
    fill(this.element, make('h2.unseen', {}, 'Words'), ...this.rows.map((row, i) => this.#row(row, i, lastUse, changed)));
    this.current = null;
    this.select();
  }

  // For each line, the last row that is on it or on a line that leaves it.
  #lastUses() {
    const last = [];
    this.rows.forEach((row, i) => {
      for (let line = row.line; line >= 0; line = this.store.tree.lines[line].parent) last[line] = i;
    });
    return last;
  }

  #rails(row, index, lastUse) {
    const { lines } = this.store.tree;
    const open = [];
    for (let line = row.line; line >= 0; line = lines[line].parent) open.unshift(line);
    const hidden = Math.max(0, open.length - MOST_LANES);
    return make('div.rails', { 'aria-hidden': 'true' }, ...open.slice(hidden).map((line, i, shown) => {
      const own = i === shown.length - 1;
      const lane = make('span.lane');
      if (own) lane.classList.add('own');
      if (!own && lastUse[line] <= index) lane.classList.add('spent');
      if (own && row.opens && line > 0) lane.classList.add('opens');
      if (own && row.returns) lane.classList.add('returns');
      if (own && lastUse[line] === index) lane.classList.add('ends');
      return lane;
    }));
  }

  #row(row, index, lastUse, changed) {
    const { words, tree } = this.store;
    const time = words.starts[row.first];
    const line = tree.lines[row.line];
    const talk = make('div.talk');
    if (this.chapters.has(index)) talk.append(make('h3.chapter', {}, this.chapters.get(index)));
    if (row.opens && row.line > 0) {
      talk.append(make('h3.branch', {},
        `${line.at === 0 ? 'From the start' : `After ${tree.moveText(line.at)}`}: `,
        make('b', {}, tree.moveText(line.first))));
    } else if (row.returns) {
      const first = row.line === 0 ? 'the first line' : tree.moveText(line.first);
      talk.append(make('h3.branch', {}, 'Back to ', make('b', {}, first)));
    }
    talk.append(make('p', {}, ...this.#contents(row, changed)));
    return make('section.row', { 'data-row': index },
      this.#rails(row, index, lastUse),
      make('button.clock', { type: 'button', tabindex: -1, 'data-time': time,
                             'aria-label': `Go to ${clockText(time)}` }, clockText(time)),
      talk);
  }

  #contents(row, changed) {
    const { words, tree } = this.store;
    const out = [];
    let word = row.first;
    const talkUpTo = end => {
      if (end <= word) return;
      const run = make('bdi.run', { 'data-first': word }, words.between(word, end));
      this.runs.push({ first: word, last: end, element: run });
      out.push(run, ' ');
      word = end;
    };
    // Mentions are few in a row: walk on from the first that begins in it.
    let low = 0, high = tree.mentions.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (tree.mentions[middle].first < row.first) low = middle + 1; else high = middle;
    }
    for (let i = low; i < tree.mentions.length && tree.mentions[i].first < row.last; ++i) {
      const m = tree.mentions[i];
      if (m.first < word) continue;  // inside the mention before
      talkUpTo(m.first);
      out.push(this.#chip(m, changed.has(`${m.first}-${m.last}`)), ' ');
      word = m.last;
    }
    talkUpTo(row.last);
    return out;
  }

  #chip(m, changed) {
    const { words, tree } = this.store;
    const status = mentionStatus(m);
    let became = m.said;
    if (status === 'pending') became = waitingText(m.waits);
    else if (m.act === 'play' || m.act === 'revisit') became = tree.moveText(m.node);
    const again = m.act === 'revisit' && status !== 'pending' ? 'again' : '';
    const word = status === 'clear' ? again : [STATUS_WORDS[status], again].filter(Boolean).join(', ');
    const heard = words.between(m.first, m.last);
    const behind = words.marks.get(m.last - 1)?.[1] ?? '';
    const chip = make(`button.chip.is-${status}`, { type: 'button', tabindex: -1, 'data-mention': m.id },
      make('span.said', {}, make('bdi.heard', {}, heard.slice(0, heard.length - behind.length)), behind),
      ' ',
      make('span.became', {}, became, word ? make('i', {}, ` ${word}`) : '',
           changed ? make('i.new', {}, ' changed') : ''));
    this.chips.set(m.id, chip);
    return chip;
  }

  #clicked(event) {
    const target = event.target instanceof Element ? event.target : event.target.parentElement;
    const chip = target.closest('[data-mention]');
    if (chip) return this.store.selectMention(this.store.tree.mentions[Number(chip.dataset.mention)], 'roll');
    const clock = target.closest('[data-time]');
    if (clock) return this.store.selectTime(Number(clock.dataset.time), 'time');
    if (!getSelection().isCollapsed) return;  // words were marked: see #dragged
    const word = this.#wordAt(event.clientX, event.clientY);
    if (word >= 0) this.store.selectWord(word, 'roll');
  }

  // Words marked with the pointer become the selection.
  #dragged() {
    const marked = getSelection();
    if (marked.isCollapsed || !this.element.contains(marked.anchorNode)) return;
    const range = marked.getRangeAt(0);
    const first = this.#wordOf(range.startContainer, range.startOffset);
    const last = this.#wordOf(range.endContainer, Math.max(0, range.endOffset - 1));
    if (first < 0 || last < first || last - first > 30) return;
    this.store.selectWords(first, last + 1, 'roll');
    marked.removeAllRanges();
  }

  #wordAt(x, y) {
    if (document.caretPositionFromPoint) {
      const caret = document.caretPositionFromPoint(x, y);
      return caret ? this.#wordOf(caret.offsetNode, caret.offset) : -1;
    }
    const range = document.caretRangeFromPoint?.(x, y);
    return range ? this.#wordOf(range.startContainer, range.startOffset) : -1;
  }

  #wordOf(node, offset) {
    const element = node instanceof Element ? node : node.parentElement;
    const chip = element.closest('[data-mention]');
    if (chip) return this.store.tree.mentions[Number(chip.dataset.mention)].first;
    const run = element.closest('[data-first]');
    if (!run) return -1;
    const before = run.textContent.slice(0, node.nodeType === Node.TEXT_NODE ? offset : 0);
    let word = Number(run.dataset.first), length = 0;
    while (length + this.store.words.shown(word).length < before.length) {
      length += this.store.words.shown(word++).length + 1;
    }
    return word;
  }

  // The place on the page of words that are talk: a range in the run that holds them.
  #rangeOf(first, last) {
    const at = this.runs.findLastIndex(r => r.first <= first);
    const run = this.runs[at];
    if (!run || first >= run.last) return null;
    const { words } = this.store;
    let begin = 0;
    for (let i = run.first; i < first; ++i) begin += words.shown(i).length + 1;
    let end = begin;
    for (let i = first; i < Math.min(last, run.last); ++i) end += words.shown(i).length + 1;
    const text = run.element.firstChild;
    const range = document.createRange();
    range.setStart(text, Math.min(begin, text.length));
    range.setEnd(text, Math.min(end - 1, text.length));
    return range;
  }

  #mark(which, first, last) {
    if (!this.marks) return null;
    const range = this.#rangeOf(first, last);
    this.marks[which].clear();
    if (range) this.marks[which].add(range);
    return range;
  }

  #rowElement(word) { return this.element.children[this.rowOfWord(word) + 1]; }  // behind the heading
  rowOfWord(word) { return this.rows.findLastIndex(row => row.first <= word); }

  // Shows the selection; scrolls to it unless the person is pointing at it.
  select(by) {
    const { first, last, mention } = this.store.selection;
    this.current?.classList.remove('selected');
    this.current?.removeAttribute('aria-current');
    if (this.current) this.current.tabIndex = -1;
    this.currentRow?.classList.remove('here');
    this.current = mention ? this.chips.get(mention.id) ?? null : null;
    this.currentRow = this.#rowElement(first);
    this.currentRow?.classList.add('here');
    if (this.current) {
      this.current.classList.add('selected');
      this.current.setAttribute('aria-current', 'true');
      this.current.tabIndex = 0;
    }
    const range = this.#mark('picked', first, mention ? first : last);
    if (by && by !== 'roll') this.#reveal(this.current ?? range ?? this.currentRow);
  }

  playing(word, follow) {
    this.#mark('now', word, word + 1);
    if (!follow) return;
    const row = this.#rowElement(word);
    if (row && row !== this.playingRow) this.#reveal(row);
    this.playingRow = row;
  }

  #reveal(place) {
    if (!place) return;
    const row = place instanceof Element ? place.closest('.row') : place.startContainer.parentElement.closest('.row');
    const window = this.element.getBoundingClientRect();
    let box = place.getBoundingClientRect();
    if (box.height === 0 && row) {  // not laid out yet
      row.scrollIntoView({ block: 'center' });
      box = place.getBoundingClientRect();
    }
    if (box.top < window.top + 40 || box.bottom > window.bottom - 40) {
      this.element.scrollTop += box.top - window.top - window.height / 2 + box.height / 2;
    }
  }
}

// What a correction says that the tree does not show yet.
export function waitingText(pin) {
  if (pin.is === 'no move') return 'no move';
  return pin.is === 'move' ? pin.san : pin.line.at(-1);
}
