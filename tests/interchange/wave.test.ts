/** WAV files as SoX reads them (Debian's package sox). */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { waveFile } from '../../src/interchange/wave.ts';
import { run } from '../setup/debian.ts';

test('rate, channels, length and every sample are as they were', () => {
  const samples = Float32Array.from([0, 0.5, -0.5, 1, -1, 2, -2, 0.25]);
  const file = join(mkdtempSync(join(tmpdir(), 'reedway-wave-')), 'a.wav');
  writeFileSync(file, waveFile(samples, 48_000));
  const info = run('sox', ['--info', file]);
  expect(info).toMatch(/Channels\s*: 1\n/);
  expect(info).toMatch(/Sample Rate\s*: 48000\n/);
  expect(info).toMatch(/Precision\s*: 16-bit\n/);
  const lines = run('sox', [file, '-t', 'dat', '-']).trim().split('\n').slice(2);
  expect(lines.map((line) => Number(line.trim().split(/\s+/)[1]))).toEqual(
    [0, 0.5, -0.5, 1, -1, 1, -1, 0.25].map((level) => expect.closeTo(level, 4)),
  );
});
