/**
 * MusicXML files as a notation program reads and plays them: MuseScore 3 (Debian's package musescore3), without a window. It writes MIDI
 * of what it has read, with repeats played. It knows MusicXML 3.1, so the swing element of 4.0 is left out before. What must be
 * played comes from the oracle, which gives pitches and times alone.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseMidi } from 'midi-file';
import { expect, test } from 'vitest';
import { musicXmlOf } from '../../../src/interchange/musicxml/document.ts';
import { present } from '../../../src/values/checked.ts';
import { programAt } from '../../setup/debian.ts';
import { type Attacks, attacksAt, differencesOf, playedBy } from './attacks.ts';
import { demoBlocks, HARD_CREDITS, randomBlocks } from './samples.ts';

const BLOCKS = 400;

/** What the program plays of each document. */
function played(documents: readonly string[]): Attacks[] {
  const dir = mkdtempSync(join(tmpdir(), 'reedway-notation-'));
  const jobs = documents.map((document, index) => {
    const [file, midi] = [join(dir, `${index}.musicxml`), join(dir, `${index}.mid`)];
    writeFileSync(file, document);
    return { in: file, out: midi };
  });
  writeFileSync(join(dir, 'jobs.json'), JSON.stringify(jobs));
  const env = { ...process.env, QT_QPA_PLATFORM: 'offscreen', HOME: dir, XDG_RUNTIME_DIR: dir };
  const { stderr } = spawnSync(programAt('mscore3'), ['-j', join(dir, 'jobs.json')], { env, encoding: 'utf8' });
  expect(stderr).not.toMatch(/not a valid MusicXML/);
  return jobs.map(({ out }) => {
    const { header, tracks } = parseMidi(readFileSync(out));
    const whole = 4 * present(header.ticksPerBeat, 'ticks of a quarter note');
    return attacksAt(
      tracks.flatMap((track) => {
        let tick = 0;
        return track.flatMap((event) => {
          tick += event.deltaTime;
          return event.type === 'noteOn' && event.velocity > 0 ? [{ at: tick / whole, keys: [event.noteNumber] }] : [];
        });
      }),
    );
  });
}

test('plays what the oracle plays', () => {
  // It plays a wavy line as a trill, a glide of the pitch with a dip, and quarter steps as pitch bends of its own.
  const blocks = randomBlocks(BLOCKS).filter(
    ({ asked, score }) =>
      score.feel.name === 'straight' &&
      !asked.features.includes('quarter-step') &&
      !/\[[^\]]*(?:vibrato|dip|fall)/.test(asked.text),
  );
  expect(blocks.length).toBeGreaterThan(BLOCKS / 4);
  const found = played(blocks.map(({ score }) => musicXmlOf(score, HARD_CREDITS)));
  const wrong = blocks.flatMap(({ seed, asked }, index) => {
    const differences = differencesOf(playedBy(asked), found[index] ?? new Map(), 2);
    return differences.length > 0 ? [{ seed, block: asked.text, differences }] : [];
  });
  expect(wrong).toEqual([]);
});

test('reads the whole demo course', () => {
  const documents = demoBlocks().map(({ score, credits }) =>
    musicXmlOf(score, credits).replace(/<swing>[\s\S]*?<\/swing>/, ''),
  );
  for (const attacks of played(documents)) expect(attacks.size).toBeGreaterThan(0);
});
