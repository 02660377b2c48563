// The page as one file from disk: no server, corrections saved as a pins file.
import test from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { browse, open, run, lessonFile, PLAIN, chips, chip, corrected } from './bench.mjs';

const browser = await browse();
test.after(() => browser.close());

async function pageFile(lesson = lessonFile(PLAIN), ...options) {
  const file = path.join(path.dirname(lesson), 'page.html');
  const { status, err } = await run('review', lesson, '--page', file, ...options);
  assert.equal(status, 0, err);
  return { lesson, file, address: pathToFileURL(file).href };
}

test('works from disk and asks the network for nothing', async t => {
  const { address } = await pageFile();
  const context = await browser.newContext();
  const asked = [];
  context.on('request', request => asked.push(request.url()));
  const page = await open(context, address);
  await chip(page, 'Ng5').click();
  assert.match(await page.textContent('#under'), /After 4\. Ng5/);
  assert.deepEqual(asked.filter(url => !url.startsWith('file:') && !url.startsWith('data:')), []);
  assert.deepEqual(page.faults, []);
  await context.close();
});

test('corrections wait, survive a reload, and are saved as a pins file that extract takes', async t => {
  const { lesson, address } = await pageFile();
  const context = await browser.newContext();
  const page = await open(context, address);
  await chip(page, 'Bd3').click();
  await page.fill('#move-text', 'Be2');
  await corrected(page, () => page.press('#move-text', 'Enter'));
  assert.match((await chips(page)).find(c => c.heard === 'Bd3').became, /Be2 settled, waiting/);
  assert.match(await page.textContent('#about'), /1 waiting to be decoded/);
  await chip(page, 'Na5').click();
  await corrected(page, () => page.keyboard.press('x'));
  await corrected(page, () => page.keyboard.press('u'));
  await page.reload();
  assert.match((await chips(page)).find(c => c.heard === 'Bd3').became, /Be2 settled, waiting/);
  assert.doesNotMatch((await chips(page)).find(c => c.heard === 'Na5').became, /waiting/);

  const waiting = page.waitForEvent('download');
  await page.click('#download');
  const download = await waiting;
  assert.equal(download.suggestedFilename(), 'lesson.txt.pins.json');
  const pins = `${lesson}.pins.json`;
  await download.saveAs(pins);
  const { status, out, err } = await run('extract', lesson, '--pins', pins, '--pgn');
  assert.equal(status, 0, err);
  assert.match(out, /Be2/);
  assert.deepEqual(page.faults, []);
  await context.close();

  // A page made with that file shows the correction as settled, nothing waiting.
  const again = await pageFile(lesson);
  const fresh = await browser.newContext();
  const settled = await open(fresh, again.address);
  assert.match((await chips(settled)).find(c => c.heard === 'Bd3').became, /Be2 settled$/);
  await fresh.close();
});

test('a recording beside the page is played from there', async t => {
  const lesson = lessonFile(PLAIN);
  const tone = path.join(path.dirname(lesson), 'ton e#1.wav');
  const { execFileSync } = await import('node:child_process');
  execFileSync('sox', ['-n', '-r', '8000', tone, 'synth', '5', 'sine', '440']);
  const { address } = await pageFile(lesson, '--media', tone);
  const page = await open(browser, address);
  await page.waitForSelector('.recording.sound');
  assert.ok(await page.$eval('video', v => v.duration) > 4.9);
  assert.deepEqual(page.faults, []);
  await page.close();
});

test('the same lesson gives the same page', async () => {
  const lesson = lessonFile(PLAIN);
  const { file } = await pageFile(lesson);
  const once = fs.readFileSync(file, 'utf8');
  await pageFile(lesson);
  assert.equal(fs.readFileSync(file, 'utf8'), once);
});
