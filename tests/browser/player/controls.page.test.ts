/** The controls of a player: tempo, parts, drone, metronome, swing. */
import { describe, expect } from 'vitest';
import { LONG } from '../../setup/long.ts';
import { violationsOn } from '../axe.ts';
import { LOOP, level, nowBars, test } from './visit.ts';

describe('the controls', () => {
  test('set the tempo in percent and in beats, from 30 to 150 percent', async ({ visit }) => {
    const { control, hear, page, more } = await visit();
    await hear();
    await more();
    const percent = control('slider', 'Tempo');
    const beats = control('spinbutton', 'quarters a minute');
    await percent.focus();
    await page.keyboard.press('ArrowRight');
    expect(await beats.inputValue()).toBe('121');
    expect(await percent.getAttribute('aria-valuetext')).toBe('101 percent, 121 a minute');
    await page.keyboard.press('Home');
    expect(await beats.inputValue()).toBe('36');
    await page.keyboard.press('End');
    expect(await beats.inputValue()).toBe('180');
    await beats.fill('60');
    await beats.press('Enter');
    expect(await percent.inputValue()).toBe('50');
    for (const [typed, taken] of [
      ['9999', '180'],
      ['0', '36'],
      ['99.6', '100'],
      ['', '100'],
    ] as const) {
      await beats.fill(typed);
      await beats.press('Enter');
      expect(await beats.inputValue()).toBe(taken);
    }
    expect(await percent.inputValue()).toBe('83');
  });

  test('at the foot of the window set the tempo with one press', async ({ visit }) => {
    const { block, control, hear } = await visit();
    await hear();
    const shown = () => block.locator('.player-now').textContent();
    const pressed = () => block.locator('.player-tempo [aria-pressed="true"]').allTextContents();
    expect([await shown(), await pressed()]).toEqual(['120 a minute', ['100 %']]);
    await control('button', '60 %').click();
    expect([await shown(), await pressed()]).toEqual(['72 a minute', ['60 %']]);
    await control('button', 'Slower').click();
    await control('button', 'Slower').click();
    expect([await shown(), await pressed()]).toEqual(['64 a minute', []]);
    for (let press = 0; press < 40; press++) await control('button', 'Slower').click();
    expect(await shown()).toBe('36 a minute');
    await control('button', 'Faster').click();
    expect(await shown()).toBe('40 a minute');
  });

  test.runIf(LONG)('speed up to a goal that is above the tempo, whatever it was before', async ({ visit }) => {
    const { control, hear, more } = await visit();
    await hear();
    await more();
    const goal = () => control('spinbutton', 'to').inputValue();
    const speedUp = control('button', 'Speed up');
    await control('button', '60 %').click();
    await speedUp.click();
    expect([await goal(), await control('checkbox', 'Speed up each round').isChecked()]).toEqual(['120', true]);
    expect(await control('button', LOOP).getAttribute('aria-pressed')).toBe('true');
    await control('spinbutton', 'to').fill('90');
    await control('spinbutton', 'to').press('Enter');
    await speedUp.click();
    await speedUp.click();
    expect(await goal()).toBe('90');
    await control('button', '100 %').click();
    expect(await speedUp.getAttribute('aria-pressed')).toBe('false');
    await speedUp.click();
    expect([await goal(), await speedUp.getAttribute('aria-pressed')]).toEqual(['144', 'true']);
  });

  test.runIf(LONG)('are in a sheet that Escape closes, and says where it cannot be loaded', async ({ visit }) => {
    const { page, block, control, hear, more } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    await page.route(/\.js$/, (route) => route.abort());
    await more();
    await expect.poll(() => block.locator('.player-sheet').textContent()).toContain('could not be loaded');
    await page.unroute(/\.js$/);
    await more();
    await more();
    await control('slider', 'Tempo').focus();
    await page.keyboard.press('Escape');
    expect(await control('slider', 'Tempo').count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('More');
    expect(await control('button', 'More').getAttribute('aria-expanded')).toBe('false');
  });

  test.runIf(LONG)('say once that bars can be pressed', async ({ visit }) => {
    const { page, block, control, hear } = await visit();
    await hear();
    const hint = block.getByText('Press a bar to loop it');
    await hint.waitFor();
    await control('button', /^Loop bar 2\b/).click();
    expect(await hint.count()).toBe(0);
    await page.reload();
    await hear();
    await control('button', 'Pause').waitFor();
    expect(await hint.count()).toBe(0);
  });

  test.runIf(LONG)('say that a goal below the tempo is no speed-up, until either is changed', async ({ visit }) => {
    const { block, control, hear, more } = await visit();
    await hear();
    await control('button', 'Stop').click();
    await more();
    const hint = block.getByText('It does not speed up');
    const goal = control('spinbutton', 'to');
    await goal.fill('100');
    await goal.press('Enter');
    expect(await hint.count()).toBe(0);
    await control('checkbox', 'Speed up each round').check();
    expect(await hint.textContent()).toContain('the tempo is 120 a minute already');
    const described = await goal.evaluate(
      (field) => document.getElementById(field.getAttribute('aria-describedby') ?? '')?.textContent,
    );
    expect(described).toBe(await hint.textContent());
    await control('slider', 'Tempo').fill('70');
    expect(await hint.count()).toBe(0);
    await control('slider', 'Tempo').fill('100');
    expect(await hint.count()).toBe(1);
    await goal.fill('140');
    await goal.press('Enter');
    expect(await hint.count()).toBe(0);
    await goal.fill('120');
    await goal.press('Enter');
    expect(await hint.count()).toBe(1);
    await control('checkbox', 'Speed up each round').uncheck();
    expect(await hint.count()).toBe(0);
  });

  test.runIf(LONG)('change the tempo once for each tap and each press of a key', async ({ visit }) => {
    const { page, control, hear, more } = await visit({ touch: true });
    await hear();
    await control('button', 'Stop').click();
    await page.evaluate(() => {
      const changes: number[] = [];
      document.addEventListener('change', ({ target }) => changes.push((target as HTMLInputElement).valueAsNumber));
      Object.assign(globalThis, { changes });
    });
    const changes = () => page.evaluate(() => (globalThis as unknown as { changes: number[] }).changes.length);
    await more();
    const slider = control('slider', 'Tempo');
    await slider.tap({ position: { x: 30, y: 15 } });
    expect(await changes()).toBe(1);
    await slider.focus();
    await page.keyboard.press('ArrowRight');
    expect(await changes()).toBe(2);
    const beats = control('spinbutton', 'quarters a minute');
    const before = Number(await beats.inputValue());
    await beats.focus();
    await page.keyboard.press('ArrowUp');
    expect([await changes(), Number(await beats.inputValue())]).toEqual([3, before + 1]);
    const { width = 0, height = 0 } = (await beats.boundingBox()) ?? {};
    await beats.click({ position: { x: width - 20, y: height / 2 - 5 } });
    expect([await changes(), Number(await beats.inputValue())]).toEqual([4, before + 2]);
    await slider.focus();
    expect(await changes()).toBe(4);
  });

  test.runIf(LONG)('mute each part, and the tune to play along', async ({ visit }) => {
    const { page, control, hearAtOnce, more } = await visit();
    await hearAtOnce();
    await more();
    await expect.poll(() => level(page)).toBeGreaterThan(0.1);
    const silent = () => expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    const parts = ['bass', 'drums', 'chords', 'tune'];
    for (const part of parts) await control('button', `Mute ${part}`).click();
    for (const part of parts) {
      await silent();
      await control('button', `Mute ${part}`).click();
      await expect.poll(() => level(page), { timeout: 4000 }).toBeGreaterThan(0.02);
      if (part !== 'tune') await control('button', `Mute ${part}`).click();
    }
    await control('slider', 'Tune').fill('0');
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
  });

  test('remember the mix for the next page', async ({ visit }) => {
    const { page, control, hear, more } = await visit();
    await hear();
    await more();
    await control('button', 'Mute drums').click();
    await control('slider', 'Bass').fill('35');
    await page.reload();
    await hear();
    await more();
    expect(await control('button', 'Mute drums').getAttribute('aria-pressed')).toBe('true');
    expect(await control('slider', 'Bass').inputValue()).toBe('35');
  });

  test('are the same for every block of the page, which has one band and one drone', async ({ visit }) => {
    const { page, block, control, hear, more } = await visit();
    await hear();
    await more();
    await control('combobox', 'Drone').selectOption('E, the key note');
    const second = page.locator('[data-block="1"]');
    await more();
    await second.getByRole('button', { name: 'Hear it' }).click();
    await second.getByRole('button', { name: 'More' }).click();
    await second.getByRole('button', { name: 'Mute drums' }).click();
    await second.getByRole('slider', { name: 'Bass' }).fill('20');
    await second.getByRole('checkbox', { name: 'Metronome' }).check();
    await second.getByRole('slider', { name: 'Metronome volume' }).fill('30');
    await block.getByRole('button', { name: 'Hear it' }).click();
    await more();
    expect(await control('slider', 'Metronome volume').inputValue()).toBe('30');
    expect(await control('button', 'Mute drums').getAttribute('aria-pressed')).toBe('true');
    expect(await control('slider', 'Bass').inputValue()).toBe('20');
    expect(await control('checkbox', 'Metronome').isChecked()).toBe(true);
    expect(await control('combobox', 'Drone').inputValue()).toBe('key');
    await more();
    await second.getByRole('button', { name: 'Hear it' }).click();
    await second.getByRole('combobox', { name: 'Drone' }).selectOption('C, the key note');
    expect(await block.locator('select').last().inputValue()).toBe('');
    await page.evaluate(() => dispatchEvent(new Event('pagehide')));
    expect(await second.getByRole('combobox', { name: 'Drone' }).inputValue()).toBe('');
  });

  test('are not read aloud twice: what a slider says is said by the slider', async ({ visit }) => {
    const { block, control, hear, more } = await visit();
    await hear();
    await more();
    expect(await control('slider', 'Swing').getAttribute('aria-valuetext')).toBe('67 to 33');
    expect(await control('slider', 'Bass').getAttribute('aria-valuetext')).toBe('80 percent');
    // That of the copied link is empty until it has something to say.
    expect(await block.getByRole('status').filter({ hasText: /./ }).count()).toBe(0);
  });

  test.runIf(LONG)('hold a drone without the tune, and let it go', async ({ visit }) => {
    const { page, control, hear, more } = await visit();
    await hear();
    await control('button', 'Stop').click();
    await more();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    const names = await control('combobox', 'Drone').locator('option').allTextContents();
    expect(names).toEqual(['none', 'E, the key note', 'E and its fifth', 'E7 (I7)', 'A7 (IV7)', 'B7 (V7)']);
    await control('combobox', 'Drone').selectOption('E7 (I7)');
    await expect.poll(() => level(page), { timeout: 4000 }).toBeGreaterThan(0.02);
    await control('combobox', 'Drone').selectOption('none');
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
  });

  test.runIf(LONG)('click a metronome, and straighten the swing', async ({ visit }) => {
    const { page, block, control, hearAtOnce, more } = await visit();
    await hearAtOnce();
    await more();
    for (const part of ['tune', 'bass', 'drums', 'chords']) await control('button', `Mute ${part}`).click();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    await control('checkbox', 'Metronome').check();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeGreaterThan(0.05);
    await control('slider', 'Swing').fill('50');
    expect(await block.getByText('straight').count()).toBe(1);
    await expect.poll(() => nowBars(page)).not.toEqual([]);
  });

  test('follow the harp in the hand', async ({ visit }) => {
    const { page, control, hear, more } = await visit();
    await hear();
    await more();
    await page.evaluate(() => {
      localStorage.setItem('reedway-harp', JSON.stringify({ harp: 'low F' }));
      document.dispatchEvent(new CustomEvent('reedway:harp'));
    });
    const names = await control('combobox', 'Drone').locator('option').allTextContents();
    expect(names).toContain('C7 (I7)');
    expect(await control('button', 'Pause').count()).toBe(1);
  });

  test.runIf(LONG)('have no fault that axe finds, closed, open and with large type', async ({ visit }) => {
    const { page, control, hear, more } = await visit();
    await hear();
    await page.locator('.player').waitFor();
    await more();
    await control('button', 'Large type').click();
    expect(await violationsOn(page)).toEqual([]);
  });
});
