/** A sound server with a device that nobody hears: what is played there can be recorded. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { programAt } from '../../setup/debian.ts';
import type { Sound } from '../sound/browser-sound.ts';

export interface SoundServer {
  /** What a program needs to play there. */
  readonly env: Readonly<Record<string, string>>;
  /** Records what is played until it is ended. */
  readonly record: () => Promise<{ readonly end: () => Promise<Recorded> }>;
  readonly close: () => Promise<void>;
}

/** `begun` is when its first sample was played, in seconds of the clock of `Date.now`, as late as it can have been. */
interface Recorded extends Sound {
  readonly begun: number;
}

const RECORDED_RATE = 48000;
/** Milliseconds. */
const START = 10_000;

export async function openSoundServer(): Promise<SoundServer> {
  // Short: the path of a socket has a limit.
  const folder = mkdtempSync(join(tmpdir(), 'reedway-sound-'));
  const socket = join(folder, 'native');
  const env = { XDG_RUNTIME_DIR: folder, PULSE_SERVER: `unix:${socket}`, HOME: folder };
  const server = spawn(
    programAt('pulseaudio'),
    [
      '-n',
      '--exit-idle-time=-1',
      `--load=module-null-sink sink_name=unheard rate=${RECORDED_RATE} channels=2`,
      `--load=module-native-protocol-unix auth-anonymous=1 socket=${socket}`,
    ],
    { env: { ...process.env, ...env }, stdio: 'ignore' },
  );
  const ended = new Promise<void>((resolve) => server.once('exit', () => resolve()));

  async function record(): ReturnType<SoundServer['record']> {
    const recorder = spawn(
      programAt('parec'),
      [
        '--device=unheard.monitor',
        '--format=float32le',
        `--rate=${RECORDED_RATE}`,
        '--channels=1',
        '--latency-msec=30',
      ],
      { env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'ignore'] },
    );
    const chunks: Buffer[] = [];
    let bytesRead = 0;
    let begun = Number.POSITIVE_INFINITY;
    recorder.stdout.on('data', (chunk: Buffer) => {
      chunks.push(chunk);
      bytesRead += chunk.length;
      // No chunk comes before it was played: the least delay of all is the nearest to none.
      begun = Math.min(begun, Date.now() / 1000 - bytesRead / 4 / RECORDED_RATE);
    });
    const until = Date.now() + START;
    while (chunks.length === 0) {
      if (Date.now() > until) throw new Error('Nothing is recorded from the sound server.');
      await sleep(20);
    }
    return {
      end: async () => {
        const closed = new Promise((resolve) => recorder.once('close', resolve));
        recorder.kill();
        await closed;
        const bytes = new Uint8Array(Buffer.concat(chunks));
        return { samples: new Float32Array(bytes.buffer, 0, bytes.length >> 2), rate: RECORDED_RATE, begun };
      },
    };
  }

  return {
    env,
    record,
    close: async () => {
      server.kill();
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
