/**
 * Grace notes as other programs read them. Which there are, and when their notes begin, comes from the oracle: without its grace note a note
 * begins where it is written.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import abcjs from 'abcjs';
import { expect, test } from 'vitest';
import { abcOf } from '../../src/interchange/abc/document.ts';
import { musicXmlOf } from '../../src/interchange/musicxml/document.ts';
import { ALONE, readBlock } from '../../src/notation/read.ts';
import { roundOf } from '../../src/schedule/round.ts';
import { writtenSettings } from '../../src/schedule/settings.ts';
import { tuneOf } from '../../src/schedule/tune.ts';
import { playbackOf } from '../../src/score/playback-of.ts';
import { present } from '../../src/values/checked.ts';
import { parsed } from '../engrave/pictures.ts';
import { run } from '../setup/debian.ts';
import { cases } from '../setup/long.ts';
import { attacksInSeconds, lateOrWrong } from './exchange/seconds.ts';
import { changingSample } from './oracle/changing.ts';
import { memoryFreed, verovioReading } from './verovio.ts';

const CREDITS = { title: '' };
/** Blocks that are played in the order of the page. */
const BLOCKS = Array.from({ length: cases(40, 600) }, (_, index) => index + 1).flatMap((seed) => {
  const asked = changingSample(seed, true, true);
  if (asked.features.has('repeat')) return [];
  const graces = asked.played.flatMap(({ grace }) => grace ?? []);
  return [{ seed, asked, graces, score: present(readBlock(asked.text, ALONE).score, asked.text) }];
});

test('there are grace notes in the blocks', () => {
  expect(BLOCKS.flatMap(({ graces }) => graces).length).toBeGreaterThan(BLOCKS.length);
});

test('a grace note begins on the beat, and its note at once after it', () => {
  for (const { seed, asked, score } of BLOCKS) {
    const playback = playbackOf(score);
    const ours = tuneOf(playback, roundOf(playback, writtenSettings(playback), 0)).flatMap(({ at, parts }) =>
      parts.flatMap((part) => part.notes.map(({ midi }) => ({ seconds: at + part.at, midi }))),
    );
    const beats = asked.played.flatMap(({ seconds, midi, grace }) =>
      grace === undefined
        ? [{ seconds, midi }]
        : [
            { seconds, midi: grace },
            { seconds: seconds + 0.035, midi },
          ],
    );
    // A grace note lasts no longer than 70 milliseconds: our own convention.
    const found = lateOrWrong(ours, beats, 0.0351);
    if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
  }
});

// MusicXML 4.0, “grace”: slash="yes" is the small note with a stroke. MEI 5.1: its attributes grace and stem.mod.
test('Verovio reads the pitch and the stroke of each from the MusicXML file, and without them plays every note where it is', async () => {
  const engraver = await verovioReading('xml');
  for (const { seed, asked, graces, score } of BLOCKS) {
    const document = musicXmlOf(score, CREDITS);
    expect(engraver.loadData(document)).toBeTruthy();
    const mei = parsed(engraver.getMEI().replace(/<\?.*?\?>/g, ''));
    const small = [...mei.querySelectorAll('note[grace]')];
    expect({ seed, midi: small.map(midiOfMei) }).toEqual({ seed, midi: graces });
    expect(small.filter((note) => note.getAttribute('stem.mod') !== '1slash')).toEqual([]);
    const without = document.replace(/<note>\s*<grace[\s\S]*?<\/note>/g, '');
    expect(engraver.loadData(without)).toBeTruthy();
    const { attacks } = attacksInSeconds(Buffer.from(engraver.renderToMIDI(), 'base64'), 0);
    const found = lateOrWrong(attacks, asked.played, 5e-3);
    if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
    await memoryFreed();
  }
});

/** Half steps by MEI’s names: C4 is 60. */
function midiOfMei(note: Element): number {
  const step = 'c d ef g a b'.indexOf(note.getAttribute('pname') ?? '');
  const sign = note.querySelector('accid');
  const written = ['accid', 'accid.ges'].flatMap((name) => note.getAttribute(name) ?? sign?.getAttribute(name) ?? []);
  const alter = { s: 1, ss: 2, x: 2, f: -1, ff: -2, n: 0 }[written[0] ?? 'n'] ?? Number.NaN;
  return 12 * (Number(note.getAttribute('oct')) + 1) + step + alter;
}

// ABC 2.1, 4.20: `{/g}` is an acciaccatura.
test('abcjs reads each as an acciaccatura, and abc2midi plays the notes without them where they are', () => {
  const dir = mkdtempSync(join(tmpdir(), 'reedway-grace-'));
  const [text, midi] = [join(dir, 'tune.abc'), join(dir, 'tune.mid')];
  const play = (abc: string): ReturnType<typeof attacksInSeconds> => {
    writeFileSync(text, abc.replace(/^X:1$/m, 'X:1\n%%MIDI gchordoff'));
    run('abc2midi', [text, '-o', midi], { fails: true });
    return attacksInSeconds(readFileSync(midi), 2);
  };
  for (const { seed, asked, graces, score } of BLOCKS) {
    const abc = abcOf(score, CREDITS);
    const [tune] = abcjs.parseOnly(abc) as unknown as readonly Tune[];
    expect({ seed, warnings: tune?.warnings ?? [] }).toEqual({ seed, warnings: [] });
    const elements = tune?.lines.flatMap(({ staff = [] }) => staff.flatMap(({ voices }) => voices.flat())) ?? [];
    const small = elements.flatMap(({ gracenotes = [] }) => gracenotes);
    expect({ seed, strokes: small.map(({ acciaccatura }) => acciaccatura) }).toEqual({
      seed,
      strokes: graces.map(() => true),
    });
    const keys = play(abc).attacks.map((attack) => attack.midi);
    const all = asked.played.flatMap(({ grace, midi: main }) => (grace === undefined ? [main] : [grace, main]));
    expect({ seed, keys }).toEqual({ seed, keys: all });
    const found = lateOrWrong(play(abc.replace(/\{\/[^}]*\}/g, '')).attacks, asked.played, 5e-3);
    if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
  }
});

interface Tune {
  readonly warnings?: readonly string[];
  readonly lines: readonly {
    readonly staff?: readonly {
      readonly voices: readonly (readonly { readonly gracenotes?: readonly { readonly acciaccatura?: boolean }[] }[])[];
    }[];
  }[];
}
