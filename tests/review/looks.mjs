// The page at three widths, light and dark: pictures for a person to look at, and no violation of
// the accessibility rules that axe-core knows (WCAG 2.2 A and AA, and its best practices).
import test from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { createRequire } from 'node:module';
import { browse, open, serve, demo, output, folder } from './bench.mjs';

const axe = fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const browser = await browse();
const lesson = path.join(folder(), 'demo.txt');
fs.copyFileSync(demo, lesson);
const server = await serve(lesson);
test.after(async () => { await browser.close(); await server.stop(); });

async function violations(page) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
  return violations.map(v => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map(n => `${n.target.join(' ')} ${n.failureSummary}`).join(' | ')}`);
}

const STATES = {
  open: async () => {},
  typing: async page => {
    await page.keyboard.press('m');
    await page.keyboard.type('b');
  },
  picking: async page => {
    await page.keyboard.press('b');
    await page.keyboard.press('ArrowUp');
  },
  elsewhere: async page => page.keyboard.press('e'),
  tree: async page => { if (await page.locator('#switch').isVisible()) await page.click('#switch [data-view=tree]'); },
  check: async page => { if (await page.locator('#switch').isVisible()) await page.click('#switch [data-view=check]'); },
  keys: async page => page.keyboard.press('?'),
};

for (const [name, width, height] of [['phone', 390, 844], ['middle', 900, 900], ['wide', 1600, 1000]]) {
  for (const colorScheme of ['light', 'dark']) {
    test(`${name}, ${colorScheme}`, async () => {
      for (const [state, act] of Object.entries(STATES)) {
        const page = await open(browser, server.address, { viewport: { width, height }, colorScheme });
        await act(page);
        await page.screenshot({ path: path.join(output, `${name}-${colorScheme}-${state}.png`) });
        assert.deepEqual(await violations(page), [], `${name} ${colorScheme} ${state}`);
        const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(overflow <= 0, `${state} is ${overflow} pixels too wide`);
        assert.deepEqual(page.faults, []);
        await page.close();
      }
    });
  }
}

test('corrected: what changed is marked', async () => {
  const page = await open(browser, server.address, { viewport: { width: 1600, height: 1000 } });
  await page.keyboard.press('x');
  await page.waitForSelector('#changes:not(:empty)');
  await page.screenshot({ path: path.join(output, 'wide-light-corrected.png') });
  assert.deepEqual(await violations(page), []);
  await page.close();
});

test('narrow as a zoomed page is, 320 pixels, nothing is cut off', async () => {
  const page = await open(browser, server.address, { viewport: { width: 320, height: 640 } });
  await page.screenshot({ path: path.join(output, 'narrow-light-open.png') });
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  await page.close();
});

test('more contrast, and no motion where none is wished', async () => {
  const page = await open(browser, server.address, { forcedColors: 'active', reducedMotion: 'reduce' });
  await page.screenshot({ path: path.join(output, 'wide-forced-colors.png') });
  assert.deepEqual(page.faults, []);
  await page.close();
});
