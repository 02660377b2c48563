// The recording: plays, stops behind a stretch that was to be heard, tells the time while it runs.
import { make, fill } from './dom.js';
import { clockText } from './notation.js';

const BEFORE = 0.6, BEHIND = 0.8;  // seconds around words that are to be heard

export class Recording {
  // onTime(seconds, whole): while it plays; whole: the lesson runs, not a stretch of it
  constructor(element, media, onTime) {
    Object.assign(this, { element, media, onTime, until: Infinity, time: 0 });
    this.player = make('video', { preload: 'metadata', playsinline: true, controls: true,
                                  'aria-label': 'Recording' });
    this.player.addEventListener('play', () => this.#run());
    this.player.addEventListener('error', () => this.#failed());
    this.player.addEventListener('loadedmetadata', () => {
      element.classList.toggle('sound', this.player.videoHeight === 0);
      if (Math.abs(this.player.currentTime - this.time) > .05) this.player.currentTime = this.time;
    });
    this.player.addEventListener('seeked', () => {
      if (!this.own && this.player.paused) onTime(this.player.currentTime, true);
      this.own = false;
    });
    if (media) this.#open(media);
    else this.#offer('No recording was named.');
  }

  get ready() { return this.player.readyState > 0; }

  #open(address) {
    this.player.src = address;
    document.body.dataset.recording = 'player';
    fill(this.element, this.player);
  }

  #failed() {
    if (/^https?:/.test(this.media)) return this.#offer('This recording plays only where it is.', true);
    this.#offer('The recording cannot be played here.');
  }

  // Without a player: a link that opens the recording at the right second (W3C Media Fragments), or
  // a file of one's own.
  #offer(text, link) {
    const input = make('input', { type: 'file', accept: 'video/*,audio/*', onchange: () => {
      if (input.files[0]) this.#open(URL.createObjectURL(input.files[0]));
    } });
    this.link = link ? make('a', { target: '_blank', rel: 'noopener noreferrer' }) : null;
    document.body.dataset.recording = link ? 'link' : 'none';
    fill(this.element, make('p', {}, text, ' ', this.link),
         make('label', {}, 'Play a file of your own: ', input));
    this.seek(this.time);
  }

  seek(time) {
    this.time = time;
    this.until = Infinity;
    if (this.link) {
      this.link.href = `${this.media.split('#')[0]}#t=${Math.floor(time)}`;
      this.link.textContent = `Open it at ${clockText(time)}`;
    }
    if (!this.ready || Math.abs(this.player.currentTime - time) < .05) return;
    this.own = true;  // not the person who moves the player
    this.player.currentTime = time;
  }

  hear(from, to) {
    this.seek(Math.max(0, from - BEFORE));
    this.until = to + BEHIND;
    if (this.ready) this.player.play().catch(() => {});
    else this.link?.focus();
  }

  toggle() {
    this.until = Infinity;
    if (!this.ready) return;
    if (this.player.paused) this.player.play().catch(() => {}); else this.player.pause();
  }

  #run() {
    if (this.running) return;
    this.running = true;
    const tick = () => {
      const time = this.player.currentTime;
      if (time >= this.until) {
        this.player.pause();
        this.until = Infinity;
      } else if (!this.player.seeking) {
        this.onTime(time, this.until === Infinity);
      }
      this.running = !this.player.paused && !this.player.ended;
      if (this.running) requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  }
}
