// Chapters as a browser reads them, and games as kokopu does.
//
//   node chapters_check.mjs GOLD_LESSON PLYSCRIBE CORPUS     what is published from each gold tree
//
// Chromium's own text track parser loads chapters.vtt as a track of kind "chapters" and lists the
// cues: they are those of chapters.txt, in order, without gaps, ten seconds long or more. kokopu reads
// games.pgn without a complaint; its games hold each move of lesson.json. Needs `npm ci` in tests/review
// and tests/reference, and Debian's chromium.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import http from 'node:http';
import os from 'node:os';
import path from 'node:path';
import { createRequire } from 'node:module';

const fromReview = createRequire(new URL('../review/package.json', import.meta.url));
const fromReference = createRequire(new URL('../reference/package.json', import.meta.url));
const { chromium } = fromReview('playwright-core');
const { pgnRead } = fromReference('kokopu');

let passed = 0;
let failed = 0;
function check(what, problems) {
  if (problems.length === 0) {
    ++passed;
  } else {
    ++failed;
    console.log(`FAILED ${what}: ${problems.slice(0, 3).join('; ')}`);
  }
}

function seconds(clock) {
  return clock.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
}

function checkCues(what, cues, list, lesson) {
  const problems = [];
  const lines = list.trimEnd().split('\n').map((line) => {
    const [, clock, title] = line.match(/^(\d+:\d\d(?::\d\d)?) (.+)$/) ?? [];
    return { t: clock === undefined ? NaN : seconds(clock), title };
  });
  if (lines.length !== cues.length) problems.push(`${lines.length} lines, ${cues.length} cues`);
  lines.forEach(({ t, title }, i) => {
    const cue = cues[i];
    if (!cue) return;
    if (Math.floor(cue.start) !== t) problems.push(`cue at ${cue.start}, line at ${t}`);
    if (cue.text !== title) problems.push(`cue '${cue.text}', line '${title}'`);
    if ([...title].length > 100) problems.push(`long title '${title}'`);
    if (cue.end - cue.start < 10) problems.push(`${cue.start} lasts ${cue.end - cue.start}`);
    if (i > 0 && cue.start !== cues[i - 1].end) problems.push(`gap before ${cue.start}`);
  });
  if (cues[0]?.start !== 0) problems.push(`begins at ${cues[0]?.start}`);
  const end = cues.at(-1)?.end;
  if (end < lesson.duration) problems.push(`ends at ${end} of ${lesson.duration}`);
  check(`${what} chapters`, problems);
}

function checkGames(what, pgn, lesson) {
  const problems = [];
  const paths = new Set();
  try {
    const database = pgnRead(pgn);
    for (let i = 0; i < database.gameCount(); ++i) {
      const read = (variation, way) => {
        for (let node = variation.first(); node; node = node.next()) {
          const before = way;
          paths.add(way = `${way} ${node.notation()}`);
          for (const v of node.variations()) read(v, before);
        }
      };
      read(database.game(i).mainVariation(), '');
    }
  } catch (e) {
    problems.push(`kokopu: ${e.message}`);
  }
  const ways = [lesson.start.moves.map((m) => ` ${m}`).join('')];
  for (const n of lesson.nodes) {
    ways[n.id] = `${ways[n.parent]} ${n.san}`;
    if (!paths.has(ways[n.id])) problems.push(`lost ${ways[n.id]}`);
  }
  check(`${what} games`, problems);
}

function run(program, ...args) {
  const r = spawnSync(program, args, { encoding: 'utf8' });
  if (r.error) throw r.error;
  if (r.status !== 0) throw new Error(`${program} ${args.join(' ')}: ${r.stderr}`);
}

const [goldLesson, plyscribe, corpus] = process.argv.slice(2);
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'plyscribe-chapters-'));
const folders = [];
for (const name of fs.readdirSync(corpus).sort()) {
  const gold = path.join(corpus, name, 'gold.json');
  if (!fs.existsSync(gold)) continue;
  const out = path.join(scratch, name);
  fs.mkdirSync(out);
  const lesson = path.join(out, 'lesson.json');
  run(goldLesson, gold, '0', path.join(out, 'gold.pgn'), lesson);
  run(plyscribe, 'publish', lesson, '--as', 'games,chapters', '--out', out);
  folders.push(out);
}
const server = http.createServer((request, response) => {
  const file = folders[Number(request.url.slice(1))];
  response.setHeader('Content-Type', file ? 'text/vtt' : 'text/html');
  response.end(file ? fs.readFileSync(path.join(file, 'chapters.vtt')) : '<video></video>');
});
await new Promise((done) => server.listen(0, '127.0.0.1', done));
const root = process.getuid?.() === 0;  // chromium's sandbox does not start as root
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: root ? ['--no-sandbox'] : [],
});
const page = await browser.newPage();
await page.goto(`http://127.0.0.1:${server.address().port}/page`);
for (const [i, folder] of folders.entries()) {
  const cues = await page.evaluate((url) => new Promise((done, fail) => {
    const track = document.createElement('track');
    track.kind = 'chapters';
    track.src = url;
    track.onload = () => done([...track.track.cues].map((c) => ({ start: c.startTime, end: c.endTime, text: c.getCueAsHTML().textContent })));
    track.onerror = () => fail(new Error('the browser does not read it'));
    document.querySelector('video').append(track);
    track.track.mode = 'hidden';
  }), `/${i}`).catch((e) => e);
  const what = path.basename(folder);
  if (cues instanceof Error) {
    check(`${what} chapters`, [cues.message]);
    continue;
  }
  const lesson = JSON.parse(fs.readFileSync(path.join(folder, 'lesson.json'), 'utf8'));
  checkCues(what, cues, fs.readFileSync(path.join(folder, 'chapters.txt'), 'utf8'), lesson);
  checkGames(what, fs.readFileSync(path.join(folder, 'games.pgn'), 'utf8'), lesson);
}
await browser.close();
server.close();
fs.rmSync(scratch, { recursive: true });
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
