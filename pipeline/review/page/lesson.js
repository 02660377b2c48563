// The lesson as the page sees it: words in time, the tree, and which of both belong together.
//
// words never change while the page is open; the tree is made anew from each state that the program
// sends (see page_data.h). Node 0 is the start position.
import { parseFen, play, moveOfUci } from './rules.js';
import { numberText } from './notation.js';

export class Words {
  constructor(data) {
    this.text = data.words;
    this.starts = data.starts;
    this.ends = data.ends;
    this.paragraphs = new Set(data.paragraphs);
    this.marks = new Map(data.marks.map(([i, lead, trail]) => [i, [lead, trail]]));
  }
  get count() { return this.text.length; }

  // As written, with the marks around it.
  shown(i) {
    const marks = this.marks.get(i);
    return marks ? marks[0] + this.text[i] + marks[1] : this.text[i];
  }
  between(first, last) {
    return Array.from({ length: last - first }, (_, i) => this.shown(first + i)).join(' ');
  }
  heard(first, last) { return this.text.slice(first, last).join(' '); }

  // The word that is spoken at a time, or the last before it.
  at(time) {
    let low = 0, high = this.count;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.starts[middle] <= time) low = middle + 1; else high = middle;
    }
    return Math.max(0, low - 1);
  }
  endsClause(i) { return /[.,;:!?…—–]$/.test(this.marks.get(i)?.[1]?.trim() ?? ''); }
}

export class Tree {
  constructor(state) {
    this.nodes = [{ id: 0, parent: -1, san: '', children: [], mentions: [], status: 'clear',
                    confidence: 1, t: 0, sayings: [], position: parseFen(state.start.fen) }];
    for (const [parent, uci, san, status, confidence, unsaid, t, sayings] of state.nodes) {
      const id = this.nodes.length, before = this.nodes[parent].position, move = moveOfUci(uci);
      this.nodes.push({ id, parent, san, status, confidence, unsaid: Boolean(unsaid), t, sayings,
                        move, children: [], mentions: [], number: numberText(before),
                        position: play(before, move) });
      this.nodes[parent].children.push(id);
    }
    this.mentions = state.mentions.map((m, id) => ({ ...m, id }));
    for (const m of this.mentions) {
      if (m.act === 'play' || m.act === 'revisit') this.nodes[m.node].mentions.push(m.id);
    }
    // The first told goes on as the line; the other children branch off.
    for (const n of this.nodes) n.children.sort((a, b) => this.nodes[a].t - this.nodes[b].t || a - b);
    this.#numberLines();
  }

  // A line is a run of moves without a branch-off: lines[k] = { id, parent (line), at (node it
  // leaves), first (node), depth }.
  #numberLines() {
    this.lines = [{ id: 0, parent: -1, at: -1, first: 0, depth: 0 }];
    this.nodes[0].line = 0;
    for (const n of this.nodes) {
      n.children.forEach((child, i) => {
        if (i === 0) { this.nodes[child].line = n.line; return; }
        this.nodes[child].line = this.lines.length;
        this.lines.push({ id: this.lines.length, parent: n.line, at: n.id, first: child,
                          depth: this.lines[n.line].depth + 1 });
      });
    }
  }

  // "4... Nf6"; the start position has a name of its own.
  moveText(id) {
    const n = this.nodes[id];
    return id === 0 ? 'the start' : `${n.number} ${n.san}`;
  }
  // SAN from the start position to a node.
  path(id) {
    const out = [];
    for (let n = this.nodes[id]; n.parent >= 0; n = this.nodes[n.parent]) out.unshift(n.san);
    return out;
  }
  // The node at which the talk stands when a word has been said.
  standing(word) {
    const mentions = this.mentions;
    let low = 0, high = mentions.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (mentions[middle].first <= word) low = middle + 1; else high = middle;
    }
    for (let i = low - 1; i >= 0; --i) {
      if (mentions[i].act === 'play' || mentions[i].act === 'revisit') return mentions[i].node;
      if (mentions[i].node > 0) return mentions[i].node;
    }
    return 0;
  }
  mentionAt(word) {
    // Few mentions begin near a word: look back a little.
    let low = 0, high = this.mentions.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.mentions[middle].first <= word) low = middle + 1; else high = middle;
    }
    for (let i = low - 1; i >= 0 && i > low - 4; --i) {
      if (this.mentions[i].last > word) return this.mentions[i];
    }
    return null;
  }
  mentionOf(first, last) { return this.mentions.find(m => m.first === first && m.last === last); }
  // Position before the move that a mention names, or where the talk stands.
  before(mention) {
    const placed = mention.act === 'play' || mention.act === 'revisit';
    return placed && mention.node > 0 ? this.nodes[mention.node].parent : mention.node;
  }
  ideasAt(node) { return this.mentions.filter(m => m.act === 'idea' && m.node === node); }
}

// What a mention is called on the page: a key of STATUS_WORDS.
export function mentionStatus(m) {
  if (m.pending) return 'pending';
  if (m.settled) return 'settled';
  if (m.act === 'idea') return 'idea';
  return m.status;
}

// The talk in rows, each on one line of the tree, no longer than a paragraph:
// { first, last (words), line, node (where the talk stands when the row begins), opens, returns }
export function rowsOf(words, tree) {
  const rows = [];
  let row = { first: 0, line: 0, node: 0, opens: true, returns: false };
  const seen = new Set([0]);
  let node = 0, free = 0;  // free: first word that no earlier mention holds
  const cut = (at, line, opens, returns) => {
    if (at > row.first) { row.last = at; rows.push(row); }
    row = { first: at, line, node, opens: at > row.first ? opens : opens || row.opens, returns };
  };
  const mentions = tree.mentions;
  let next = 0;
  for (let word = 0; word < words.count; ++word) {
    if (word > 0 && words.paragraphs.has(word)) cut(word, row.line, false, false);
    for (; next < mentions.length && mentions[next].first === word; ++next) {
      const m = mentions[next];
      if ((m.act === 'play' || m.act === 'revisit') && m.node > 0) {
        const line = tree.nodes[m.node].line;
        node = tree.nodes[m.node].parent;
        if (line !== row.line) {
          let at = word;  // the clause in which the move is named goes with it
          while (at > Math.max(free, row.first, word - 7) && !words.endsClause(at - 1)) --at;
          if (at > row.first && !words.endsClause(at - 1)) at = word;
          cut(at, line, !seen.has(line), seen.has(line));
          seen.add(line);
        }
        node = m.node;
      }
      free = Math.max(free, m.last);
    }
  }
  cut(words.count, row.line, false, false);
  return rows;
}
