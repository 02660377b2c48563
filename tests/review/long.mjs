// Long lessons: how soon the page can be used, how fast it answers, how smoothly it scrolls.
//
// The wanted times are those of a machine that does nothing else. How busy it is tells an empty page
// that is scrolled beside; a check fails where three times as much is needed as wanted, times that.
// What was measured is printed.
import test from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { browse, open, serve, lessonFile, corrected, output, source } from './bench.mjs';

const browser = await browse();
test.after(() => browser.close());
const measured = {};
test.after(() => {
  fs.writeFileSync(path.join(output, 'times.json'), `${JSON.stringify(measured, null, 1)}\n`);
  console.log(JSON.stringify(measured));
});

// Lines of the openings table, one a paragraph, with as much talk between the moves as asked.
function longTalk({ paragraphs, moves, talk, seconds }) {
  const table = fs.readFileSync(path.join(source, 'lexicon/openings.tsv'), 'utf8').trim().split('\n').slice(1);
  const lines = table.map(row => row.split('\t')[2].split(' ')).filter(line => line.length >= moves);
  let text = '';
  for (let i = 0; i < paragraphs; ++i) {
    const line = lines[Math.floor(i * lines.length / paragraphs)].slice(0, moves), t = i * seconds;
    text += `[${Math.floor(t / 60)}:${String(Math.floor(t % 60)).padStart(2, '0')}] From the start again: `;
    text += line.map((san, k) => san + (talk && k % 4 === 3 ? `, and here we look at the board for a while, ${'because nobody minds, '.repeat(talk)}` : ', ')).join('');
    text += 'and that is all of that line.\n';
  }
  return text;
}

// Milliseconds of each frame while an element is scrolled for three seconds of sixty frames.
const scrolling = (page, selector) => page.evaluate(async selector => {
  const element = document.querySelector(selector);
  element.scrollTop = 0;
  await new Promise(requestAnimationFrame);
  const times = [];
  let last = performance.now();
  for (let i = 0; i < 180; ++i) {
    element.scrollTop += element.clientHeight / 4;
    await new Promise(requestAnimationFrame);
    const now = performance.now();
    times.push(now - last);
    last = now;
  }
  return times.sort((a, b) => a - b);
}, selector);

// How much longer than wanted things may take now.
async function slack() {
  const page = await browser.newPage();
  await page.setContent('<div style="height:99999px">nothing</div>');
  const frames = await scrolling(page, 'html');
  await page.close();
  return 3 * Math.max(1, frames[171] / (1000 / 60));
}

// Milliseconds from a click on each of some chips until the page has been laid out anew.
const selecting = page => page.evaluate(async () => {
  const chips = [...document.querySelectorAll('.chip')];
  const times = [];
  for (let i = 0; i < 40; ++i) {
    const chip = chips[Math.floor(i * chips.length / 40)];
    const began = performance.now();
    chip.click();
    document.getElementById('card').getBoundingClientRect();
    document.getElementById('roll').getBoundingClientRect();
    times.push(performance.now() - began);
    await new Promise(requestAnimationFrame);
  }
  return times.sort((a, b) => a - b);
});

test('half an hour: usable within a second of the start, selecting within 50 ms', async () => {
  const lesson = lessonFile(longTalk({ paragraphs: 60, moves: 11, talk: 8, seconds: 30 }));
  const server = await serve(lesson);
  // The best of three, since something else may run meanwhile.
  let page;
  const usable = [], select = [], decoded = [], shown = [];
  for (let i = 0; i < 3; ++i) {
    await page?.close();
    const began = performance.now();
    page = await open(browser, server.address);
    usable.push(performance.now() - began);
    select.push(await selecting(page));
    const asked = performance.now();
    const decode = page.waitForResponse(response => response.request().method() === 'POST');
    await corrected(page, () => page.keyboard.press('x'));
    shown.push(performance.now() - asked);
    decoded.push(Number((await (await decode).headerValue('server-timing')).match(/dur=([\d.]+)/)[1]));
    assert.deepEqual(page.faults, []);
  }
  const best = times => Math.round(Math.min(...times) * 10) / 10;
  measured.half_hour = {
    mentions: await page.locator('.chip').count(),
    words: await page.evaluate(() => JSON.parse(document.getElementById('data').textContent).words.length),
    program_ready_ms: best([server.started]), page_usable_ms: best(usable),
    select_median_ms: best(select.map(times => times[20])), select_worst_ms: best(select.map(times => times[39])),
    correction_decoded_ms: best(decoded), correction_shown_ms: best(shown) };
  const most = measured.half_hour.slack = await slack();
  assert.ok(measured.half_hour.page_usable_ms < 1000 * most, JSON.stringify(measured));
  assert.ok(measured.half_hour.select_median_ms < 50 * most, JSON.stringify(measured));
  assert.ok(measured.half_hour.correction_decoded_ms < 300 * most, JSON.stringify(measured));
  await page.close();
  await server.stop();
});

test('two thousand mentions scroll smoothly', async () => {
  const server = await serve(lessonFile(longTalk({ paragraphs: 150, moves: 14, talk: 0, seconds: 40 })));
  const page = await open(browser, server.address);
  const mentions = await page.locator('.chip').count();
  assert.ok(mentions >= 2000, `only ${mentions} mentions`);
  const frames = await scrolling(page, '#roll');
  const times = await selecting(page);
  measured.two_thousand = { mentions, frame_median_ms: Math.round(frames[90] * 10) / 10,
                            frame_95th_ms: Math.round(frames[171] * 10) / 10, frame_worst_ms: Math.round(frames[179] * 10) / 10,
                            select_median_ms: Math.round(times[20] * 10) / 10, select_worst_ms: Math.round(times[39] * 10) / 10 };
  assert.deepEqual(page.faults, []);
  const most = measured.two_thousand.slack = await slack();
  assert.ok(frames[171] < 34 * most, JSON.stringify(measured));  // two of sixty frames a second
  assert.ok(times[20] < 50 * most, JSON.stringify(measured));
  await page.close();
  await server.stop();
});
