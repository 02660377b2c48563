// Checking and correcting a lesson on the page, as a person does it.
//
//   PLYSCRIBE=build/pipeline/app/plyscribe node --test correcting.mjs
import test from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import { browse, open, serve, run, lessonFile, demo, PLAIN, chips, chip, tree, card, corrected,
         folder } from './bench.mjs';
import path from 'node:path';

const browser = await browse();
test.after(() => browser.close());

// A server of its own for each test, with the plain lesson or the demo.
async function bench(t, text = PLAIN) {
  const lesson = text === null ? path.join(folder(), 'demo.txt') : lessonFile(text);
  if (text === null) fs.copyFileSync(demo, lesson);
  const server = await serve(lesson);
  const page = await open(browser, server.address);
  t.after(async () => {
    assert.deepEqual(page.faults, []);
    await page.close();
    await server.stop();
  });
  return { lesson, server, page, pins: `${lesson}.pins.json` };
}
const savedPins = file => JSON.parse(fs.readFileSync(file)).pins ?? [];

test('opens with what needs a look first, and says why', async t => {
  const { page } = await bench(t, null);
  assert.match(await page.textContent('#check-head'), /^\d+ places to check$/);
  const items = await page.$$eval('.item', all => all.map(i => i.querySelector('.why').textContent));
  assert.ok(items.length > 3);
  for (const why of items) assert.ok(why.length > 10, why);
  // Ordered by what rests on an item times how unsure it is.
  const effects = await page.evaluate(() => JSON.parse(document.getElementById('data').textContent).state.queue.map(i => i.effect));
  assert.deepEqual(effects, [...effects].sort((a, b) => b - a));
  // The first is selected everywhere: list, words, tree, card.
  assert.equal(await page.locator('.item.selected').count(), 1);
  assert.equal(await page.locator('.chip.selected').count(), 1);
  const heard = await page.textContent('.chip.selected .heard');
  assert.ok((await page.textContent('.item.selected .quote')).includes(heard));
  assert.ok((await card(page)).includes(heard));
});

test('every move of the lesson stands in its words and in the tree', async t => {
  const { page } = await bench(t);
  const said = await chips(page);
  assert.deepEqual(said.slice(0, 3).map(c => c.became.trim()), ['1. e4', '1... e5', '2. Nf3']);
  const moves = await tree(page);
  for (const san of ['4. d3', '4. Ng5', 'O-O']) assert.ok(moves.some(m => m.includes(san)), san);
  assert.match(await page.textContent('.branch'), /After 3\.\.\. Nf6: 4\. Ng5/);
});

test('a word, a move of the tree and a time select each other', async t => {
  const { page } = await bench(t);
  await chip(page, 'Ng5').click();
  assert.equal(await page.textContent('.move.selected'), '4. Ng5');
  assert.match(await page.textContent('#under'), /After 4\. Ng5, Black to move/);
  assert.equal(await page.getAttribute('[data-square=g5]', 'data-piece'), 'N');
  await page.locator('.move', { hasText: '3. Bc4' }).click();
  assert.equal(await page.textContent('.chip.selected .heard'), 'Bc4');
  assert.equal(await page.getAttribute('[data-square=c4]', 'data-piece'), 'B');
  const clock = page.locator('.clock').last();
  const time = await clock.textContent();
  await clock.click();
  assert.ok((await card(page)).includes(time));
  const spine = await page.locator('#spine').boundingBox();
  await page.mouse.click(spine.x + 5, spine.y + 2);
  assert.match(await card(page), /0:00/);
  // A word that is talk: the board shows where the talk stands.
  const text = page.locator('.run', { hasText: 'Instead of' });
  const box = await text.boundingBox();
  await page.mouse.click(box.x + 8, box.y + 8);
  assert.match(await card(page), /Talk.*“Instead”/s);
});

test('correct by typing: saved at once, what follows is mended and marked', async t => {
  const { page, pins } = await bench(t);
  await chip(page, 'Bd3').click();
  await page.fill('#move-text', 'bishop e2');
  await corrected(page, () => page.press('#move-text', 'Enter'));
  assert.match(await page.textContent('#notice'), /^Saved\. \d+ moves new, \d+ moves gone/);
  const said = await chips(page);
  const at = said.findIndex(c => c.heard === 'Bd3');
  assert.match(said[at].became, /Be2 settled/);
  const marked = said.slice(at + 1).filter(c => c.became.includes('changed'));
  assert.ok(marked.length >= 3, JSON.stringify(said.slice(at)));
  assert.ok((await page.$$('#changes li')).length >= 3);
  assert.deepEqual(savedPins(pins).map(p => [p.heard, p.is, p.san]), [['Bd3', 'move', 'Be2']]);
});

test('correct by alternative', async t => {
  const { page, pins } = await bench(t, null);
  const count = await page.locator('.item').count();
  for (let i = 0; i < count; ++i) {
    await page.locator('.item-head').nth(i).click();
    if (await page.locator('.choice .small-board').count()) break;
  }
  const heard = await page.textContent('.chip.selected .heard');
  const san = await page.textContent('.choice >> nth=0 >> b');
  await corrected(page, () => page.click('.choice >> nth=0'));
  assert.match(await page.textContent('.chip.selected .became'), new RegExp(san.replace(/[+]/g, '\\+')));
  assert.match(await page.textContent('.chip.selected .became'), /settled/);
  assert.deepEqual(savedPins(pins).map(p => [p.heard, p.san]), [[heard, san]]);
  assert.equal(await page.locator('.item.selected').count(), 0);
});

test('correct on the board, by pointer and by keys', async t => {
  const { page, pins } = await bench(t);
  await chip(page, 'Bd3').click();
  await page.click('[data-deed=pick]');
  await page.click('[data-square=b5]');
  assert.ok(await page.locator('.square.target').count() > 0);
  await page.click('[data-square=e2]');
  await corrected(page, () => page.click('[data-suggestion=Be2]'));
  assert.match(await page.textContent('.chip.selected .became'), /Be2 settled/);

  await chip(page, 'Nd5').click();
  await page.keyboard.press('b');
  for (const square of ['f6', 'd7']) {
    const from = await page.evaluate(() => document.activeElement.dataset.square);
    const [file, rank] = [square.charCodeAt(0) - from.charCodeAt(0), square[1] - from[1]];
    for (let i = 0; i < Math.abs(file); ++i) await page.keyboard.press(file > 0 ? 'ArrowRight' : 'ArrowLeft');
    for (let i = 0; i < Math.abs(rank); ++i) await page.keyboard.press(rank > 0 ? 'ArrowUp' : 'ArrowDown');
    await page.keyboard.press('Enter');
  }
  await corrected(page, () => page.keyboard.press('Enter'));
  assert.deepEqual(savedPins(pins).map(p => p.san), ['Be2', 'Nd7']);
});

test('no move, elsewhere, undo, redo, let go', async t => {
  const { page, pins } = await bench(t);
  const before = await chips(page);
  await chip(page, 'Bd3').click();
  await corrected(page, () => page.keyboard.press('x'));
  assert.match((await chips(page)).map(c => `${c.heard}=${c.became}`).join('|') + (await card(page)), /no move/);
  assert.deepEqual(savedPins(pins).map(p => p.is), ['no move']);
  await corrected(page, () => page.keyboard.press('u'));
  assert.deepEqual((await chips(page)).map(c => c.became.replace(' changed', '')), before.map(c => c.became));
  assert.equal(savedPins(pins).length, 0);
  await corrected(page, () => page.click('#redo'));
  assert.deepEqual(savedPins(pins).map(p => p.is), ['no move']);
  await corrected(page, () => page.click('[data-deed=release]'));
  assert.equal(savedPins(pins).length, 0);

  // "d3" of the first line was really played behind 4... Bc5? Say so: pick the position.
  await chip(page, 'Bd3').click();
  await page.keyboard.press('e');
  await page.locator('.move', { hasText: '5. c3' }).or(page.locator('.move', { hasText: 'd6' }).first()).first().click();
  const place = (await page.textContent('#card b')).match(/after ([\d.]+) (\S+)\./);
  await page.keyboard.press('m');
  await page.keyboard.type('a6');
  if (!await page.locator('[data-suggestion=a6]').count()) await page.fill('#move-text', 'a3');
  await corrected(page, () => page.press('#move-text', 'Enter'));
  const [pin] = savedPins(pins);
  assert.equal(pin.is, 'line');
  assert.equal(pin.line.at(-2), place[2]);
  assert.match(await page.textContent('.chip.selected .became'), /settled/);
});

test('words that were passed over can be made a move', async t => {
  const { page, pins } = await bench(t, PLAIN.replace('c3, d6', 'the quiet one, d6'));
  const run = page.locator('.run', { hasText: 'quiet' });
  await run.evaluate(element => {
    const range = document.createRange();
    const text = element.firstChild.textContent;
    const from = text.indexOf('the quiet');
    range.setStart(element.firstChild, from);
    range.setEnd(element.firstChild, from + 'the quiet one'.length);
    getSelection().removeAllRanges();
    getSelection().addRange(range);
    element.dispatchEvent(new PointerEvent('pointerup', { bubbles: true }));
  });
  assert.match(await card(page), /“the quiet one”/);
  await page.fill('#move-text', 'c3');
  await corrected(page, () => page.press('#move-text', 'Enter'));
  assert.deepEqual(savedPins(pins).map(p => [p.heard, p.san]), [['the quiet one', 'c3']]);
  assert.ok((await chips(page)).some(c => c.heard === 'the quiet one' && /c3 settled/.test(c.became)));
});

test('the start can be given', async t => {
  const { page, pins } = await bench(t, '[0:00] Here c3, Nf6, d3, d6, and castles, castles.\n');
  await page.click('[data-deed=start]');
  await page.fill('#start-text', '1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5');
  await corrected(page, () => page.press('#start-text', 'Enter'));
  assert.equal(JSON.parse(fs.readFileSync(pins)).start, '1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5');
  assert.deepEqual((await chips(page)).map(c => c.became.replace(' changed', '').trim()).slice(0, 2), ['4. c3', '4... Nf6']);
  await page.click('[data-deed=start]');
  await page.fill('#start-text', 'xyzzy plugh');
  await page.press('#start-text', 'Enter');
  await page.waitForSelector('#notice strong');
  assert.match(await page.textContent('#notice'), /expected/);
  page.faults.length = 0;  // the refusal (422) is logged by the browser
});

test('a reload and a new run keep the corrections, and extract honours the file', async t => {
  const { page, lesson, server, pins } = await bench(t);
  await chip(page, 'Bd3').click();
  await page.fill('#move-text', 'Be2');
  await corrected(page, () => page.press('#move-text', 'Enter'));
  const before = await chips(page);
  await page.reload();
  assert.deepEqual(await chips(page), before);
  await server.kill();
  const again = await serve(lesson);
  const fresh = await open(browser, again.address);
  assert.deepEqual((await chips(fresh)).map(c => c.became.replace(' changed', '')),
                   before.map(c => c.became.replace(' changed', '')));
  await fresh.close();
  await again.stop();
  const extracted = await run('extract', lesson, '--pins', pins, '--pgn');
  assert.match(extracted.out, /Be2/);
});

test('a program that has ended is told, and nothing shown as saved that is not', async t => {
  const { page, server, pins } = await bench(t);
  await server.kill();
  await chip(page, 'Bd3').click();
  const before = await chips(page);
  await page.keyboard.press('x');
  await page.waitForSelector('#notice strong');
  assert.match(await page.textContent('#notice'), /not saved.*Try again/);
  assert.deepEqual(await chips(page), before);
  assert.equal(fs.existsSync(pins), false);
  page.faults.length = 0;  // the refused connection
});

test('a second window that is behind cannot undo unseen work', async t => {
  const { page, server, pins } = await bench(t);
  const other = await open(browser, server.address);
  await chip(page, 'Bd3').click();
  await corrected(page, () => page.keyboard.press('x'));
  await chip(other, 'Ng5').click();
  await corrected(other, () => other.keyboard.press('x'));
  assert.match(await other.textContent('#notice'), /another window/);
  assert.deepEqual(savedPins(pins).map(p => p.heard), ['Bd3']);
  await other.close();
});

test('keys do all of it, ? lists them, and letters can be turned off', async t => {
  const { page } = await bench(t, null);
  const first = await page.textContent('.item.selected .quote');
  await page.keyboard.press('n');
  assert.notEqual(await page.textContent('.item.selected .quote'), first);
  await page.keyboard.press('p');
  assert.equal(await page.textContent('.item.selected .quote'), first);
  const word = () => page.textContent('.chip.selected .heard');
  const here = await word();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowUp');
  assert.equal(await word(), here);
  const node = () => page.getAttribute('.move.selected', 'data-node');
  const at = await node();
  await page.keyboard.press('ArrowLeft');
  assert.notEqual(await node(), at);
  await page.keyboard.press('t');
  assert.equal(await page.getAttribute('[data-square=h8]', 'data-file'), 'h');
  await page.keyboard.press('?');
  const listed = await page.$$eval('#keys kbd', all => all.map(k => k.textContent));
  for (const key of ['n', 'p', 'h', 'm', 'b', 'x', 'e', 'u', 'r', '?', 'Space', 'Esc']) assert.ok(listed.includes(key), key);
  await page.uncheck('#letters');
  await page.keyboard.press('Escape');
  const still = await page.textContent('.chip.selected .heard');
  await page.keyboard.press('n');
  assert.equal(await word(), still);
});
