// Where corrections go: to the program that serves the page, or, on a page from disk, into a file
// that is saved by hand.
//
// A keeper has  put(pins), undo(), redo()  ->  { state } | { error, state? }  and never throws.

// The program saves each step at once and decodes anew.
export class ServedKeeper {
  constructor(state) { this.revision = state.revision; }

  async #post(what, body) {
    let answer;
    try {
      const response = await fetch(`${what}?revision=${this.revision}`, {
        method: 'POST', headers: { 'Content-Type': 'application/json' },
        body: body === undefined ? '{}' : JSON.stringify(body) });
      answer = await response.json();
      if (response.ok) answer = { state: answer };
      else if (!answer.error) answer.error = `The program answered ${response.status}.`;
    } catch {
      return { error: 'The program does not answer. This correction is not saved.', retry: true };
    }
    if (answer.state) this.revision = answer.state.revision;
    return answer;
  }

  put(pins) { return this.#post('pins', pins); }
  undo() { return this.#post('undo'); }
  redo() { return this.#post('redo'); }
}

// Nothing can be decoded here: the state stays, corrected words are marked as waiting. The browser
// keeps the corrections, so that a reload does not lose them; the pins file is what lasts.
export class DiskKeeper {
  constructor(state, name) {
    this.baked = state;
    this.name = name;
    this.steps = [state.pins];
    this.at = 0;
    try {
      const kept = JSON.parse(localStorage.getItem(name));
      if (kept?.schema === state.pins.schema) { this.steps.push(kept); this.at = 1; }
    } catch { /* no storage, or nothing of ours in it: begin with what the page holds */ }
  }

  get pins() { return this.steps[this.at]; }

  // The state with the corrections that it has not been decoded with marked as waiting.
  state() {
    const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);
    const waiting = (this.pins.pins ?? []).filter(
      pin => !(this.baked.pins.pins ?? []).some(old => same(old, pin)));
    const over = m => waiting.find(pin => pin.first_word < m.last && m.first < pin.last_word);
    const mentions = this.baked.mentions.map(m => {
      const pin = over(m);
      return pin ? { ...m, pending: true, waits: pin } : m;
    });
    for (const pin of waiting) {
      if (mentions.some(m => m.waits === pin)) continue;
      mentions.push({ first: pin.first_word, last: pin.last_word, act: 'loose', node: -1, said: '',
                      status: 'loose', confidence: 1, alternatives: [], why: '', pending: true,
                      waits: pin });
    }
    const queue = this.baked.queue.filter(
      item => item.kind !== 'mention' || !mentions[item.mention].pending);
    // Mentions go by their first word; the queue names them by index.
    const order = mentions.map((_, i) => i).sort((a, b) => mentions[a].first - mentions[b].first || a - b);
    const place = new Map(order.map((old, now) => [old, now]));
    return { ...this.baked, pins: this.pins, undo: this.at, redo: this.steps.length - 1 - this.at,
             waiting: waiting.length, mentions: order.map(i => mentions[i]),
             queue: queue.map(item => ({ ...item, mention: place.get(item.mention) ?? 0 })) };
  }

  #keep() {
    try { localStorage.setItem(this.name, JSON.stringify(this.pins)); } catch { /* as above */ }
    return { state: this.state() };
  }
  async put(pins) {
    this.steps.splice(this.at + 1, Infinity, pins);
    this.at = this.steps.length - 1;
    return this.#keep();
  }
  async undo() { this.at = Math.max(0, this.at - 1); return this.#keep(); }
  async redo() { this.at = Math.min(this.steps.length - 1, this.at + 1); return this.#keep(); }
}

export function downloadFile(name, text) {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}
