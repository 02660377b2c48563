// The recording and the page follow each other; a short tone stands for the lesson's voice.
import test from 'node:test';
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { browse, open, serve, lessonFile, folder, PLAIN, chip, card } from './bench.mjs';

const browser = await browse();
test.after(() => browser.close());

const tone = path.join(folder(), 'tone.wav');
// 100 seconds of 44,100 samples of 16 bits: more than the server sends in one part.
execFileSync('sox', ['-n', '-r', '44100', '-b', '16', '-c', '1', tone, 'synth', '100', 'sine', '440', 'vol', '0.1']);

async function bench(t) {
  const server = await serve(lessonFile(PLAIN), '--media', tone);
  const page = await open(browser, server.address);
  await page.waitForSelector('.recording.sound');
  t.after(async () => {
    assert.deepEqual(page.faults, []);
    await page.close();
    await server.stop();
  });
  return page;
}
const time = page => page.$eval('video', v => v.currentTime);
// Polls from here: the page forbids eval.
async function until(page, condition, what) {
  for (let i = 0; i < 2400; ++i) {  // a minute
    if (await condition()) return;
    await page.waitForTimeout(25);
  }
  assert.fail(what);
}

test('selecting words moves the recording', async t => {
  const page = await bench(t);
  assert.ok(await page.$eval('video', v => v.duration) > 99);
  await chip(page, 'Ng5').click();
  const said = await page.evaluate(() => {
    const data = JSON.parse(document.getElementById('data').textContent);
    return data.starts[data.words.indexOf('Ng5')];
  });
  await until(page, async () => Math.abs(await time(page) - said) < .1, `recording is not at ${said}`);
});

test('hearing plays the words and stops behind them', async t => {
  const page = await bench(t);
  await chip(page, 'Ng5').click();
  await page.keyboard.press('h');
  await until(page, () => page.$eval('video', v => !v.paused), 'does not play');
  await until(page, () => page.$eval('video', v => v.paused), 'does not stop');
  const [from, to] = await page.evaluate(() => {
    const data = JSON.parse(document.getElementById('data').textContent);
    const word = data.words.indexOf('Ng5');
    return [data.starts[word], data.ends[word]];
  });
  const at = await time(page);
  assert.ok(at > to && at < to + 2.5, `stopped at ${at}, words ${from} to ${to}`);
  assert.equal(await page.textContent('.chip.selected .heard'), 'Ng5');  // the selection stays
});

test('playing makes words and board follow', async t => {
  const page = await bench(t);
  const first = await page.$eval('#spine', s => s.getAttribute('aria-valuenow'));
  await page.locator('.clock').first().click();
  await page.$eval('video', v => { v.currentTime = 20; v.playbackRate = 4; });
  await page.keyboard.press('Space');
  await until(page, async () => /Ng5|exd5|Na5|d5/.test(await page.textContent('#under')), 'the board does not follow');
  await until(page, async () => /6\. Bb5\+|c6|bxc6/.test(await page.textContent('#under')), 'the board stays');
  assert.equal(await page.locator('.row.here').count(), 1);
  await page.keyboard.press('Space');
  await until(page, () => page.$eval('video', v => v.paused), 'Space does not pause');
  assert.notEqual(await page.$eval('#spine', s => s.getAttribute('aria-valuenow')), first);
});

test('moving in the player moves the page', async t => {
  const page = await bench(t);
  await page.$eval('video', v => { v.currentTime = 31; });
  await until(page, async () => Number(await page.getAttribute('#spine', 'aria-valuenow')) >= 30, 'the page stays');
});

test('a far place is reached by ranges', async t => {
  const page = await bench(t);
  await page.$eval('video', v => { v.currentTime = 95; });
  await until(page, () => page.$eval('video', v => !v.seeking && v.readyState >= 2), 'cannot seek');
  assert.ok(Math.abs(await time(page) - 95) < .2);
});

test('a recording elsewhere is a link to its second where it cannot be played', async t => {
  const server = await serve(lessonFile(PLAIN), '--media', 'https://lesson.invalid/talk.mp4');
  const page = await open(browser, server.address);
  await page.waitForSelector('#recording a');
  await chip(page, 'Ng5').click();
  assert.match(await page.getAttribute('#recording a', 'href'), /^https:\/\/lesson\.invalid\/talk\.mp4#t=\d+$/);
  assert.match(await page.textContent('#recording a'), /Open it at 0:\d\d/);
  assert.ok(await card(page));
  await page.close();
  await server.stop();
});
