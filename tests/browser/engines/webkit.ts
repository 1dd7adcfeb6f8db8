/**
 * WebKitGTK, the engine nearest to that of an iPhone that runs on Debian. Its driver is asked over HTTP as the standard says
 * (https://www.w3.org/TR/webdriver2/); its window is on a screen that nobody sees.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import type { AddressInfo } from 'node:net';
import { createServer } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { programAt } from '../../setup/debian.ts';
import { type OpenAnEngine, WINDOW } from './engine.ts';

const MINI_BROWSER = '/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser';
/** Milliseconds that the driver may take to answer for the first time. */
const START = 15_000;

export const openWebKit: OpenAnEngine = async ({ dark = false, env = {} } = {}) => {
  const screen = await openScreen();
  const port = await freePort();
  const driver = spawn(programAt('WebKitWebDriver'), [`--port=${port}`], {
    env: { ...process.env, ...env, DISPLAY: screen.display, ...(dark ? { GTK_THEME: 'Adwaita:dark' } : {}) },
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const errors: string[] = [];
  driver.stdout.setEncoding('utf8').on('data', (text: string) => {
    for (const line of text.split('\n')) if (/^CONSOLE \S+ ERROR/.test(line)) errors.push(line);
  });
  const end = (): void => {
    driver.kill();
    screen.close();
  };

  async function ask<Answer>(method: 'GET' | 'POST' | 'DELETE', path: string, body?: unknown): Promise<Answer> {
    const response = await fetch(`http://127.0.0.1:${port}/session${path}`, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const { value } = (await response.json()) as { value: Answer & { readonly message?: string } };
    if (!response.ok) throw new Error(`WebKitWebDriver: ${value.message}`);
    return value;
  }

  try {
    await until(START, () => fetch(`http://127.0.0.1:${port}/status`));
    const alwaysMatch = {
      browserName: 'MiniBrowser',
      // A page has loaded when its scripts have; WebKit would wait three seconds longer for a recording.
      pageLoadStrategy: 'eager',
      'webkitgtk:browserOptions': {
        binary: MINI_BROWSER,
        args: ['--automation', '--enable-write-console-messages-to-stdout=true'],
      },
    };
    const { sessionId } = await ask<{ sessionId: string }>('POST', '', { capabilities: { alwaysMatch } });
    const session = <Answer>(path: string, body?: unknown): Promise<Answer> =>
      ask(body === undefined ? 'GET' : 'POST', `/${sessionId}${path}`, body);
    await session('/timeouts', { script: 60_000, pageLoad: 60_000 });

    async function run(script: unknown, argument?: unknown): Promise<never> {
      const answer = await session<{ readonly value: never; readonly thrown?: string }>('/execute/async', {
        script: `const [argument, done] = arguments; new Promise((resolve) => resolve((${script})(argument))).then(
          (value) => done({ value: value === undefined ? null : value }), (error) => done({ value: null, thrown: String(error) }));`,
        args: [argument ?? null],
      });
      if (answer.thrown) throw new Error(answer.thrown);
      return answer.value;
    }
    async function resize(width: number, height: number): Promise<void> {
      // The window has a frame of its own, which is measured with the size it has now.
      const rect = await session<{ width: number; height: number }>('/window/rect');
      const inner: { width: number; height: number } = await run('() => ({ width: innerWidth, height: innerHeight })');
      await session('/window/rect', {
        width: width + rect.width - inner.width,
        height: height + rect.height - inner.height,
      });
    }
    await resize(WINDOW.width, WINDOW.height);
    return {
      page: {
        goto: async (url) => void (await session('/url', { url })),
        run: run as never,
        pressAt: async (x, y) => {
          const at = { type: 'pointerMove', duration: 0, x: Math.round(x), y: Math.round(y) };
          const actions = [at, { type: 'pointerDown', button: 0 }, { type: 'pointerUp', button: 0 }];
          await session('/actions', { actions: [{ type: 'pointer', id: 'mouse', actions }] });
        },
        resize,
        picture: async () => Buffer.from(await session<string>('/screenshot'), 'base64'),
        errors,
      },
      close: async () => {
        await ask('DELETE', `/${sessionId}`).catch(() => {});
        end();
      },
    };
  } catch (error) {
    end();
    throw error;
  }
};

/** A screen of its own, with a number that the X server chooses. */
async function openScreen(): Promise<{ readonly display: string; readonly close: () => void }> {
  const server: ChildProcess = spawn(
    programAt('Xvfb'),
    ['-displayfd', '3', '-screen', '0', '1600x1200x24', '-nolisten', 'tcp'],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] },
  );
  const number = await new Promise<string>((resolve, reject) => {
    server.stdio[3]?.once('data', (data) => resolve(String(data).trim()));
    server.once('exit', () => reject(new Error('Xvfb has ended.')));
  });
  return { display: `:${number}`, close: () => server.kill() };
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}

/** Tries something again until it does not throw. */
async function until(milliseconds: number, attempt: () => Promise<unknown>): Promise<void> {
  const end = Date.now() + milliseconds;
  for (;;) {
    try {
      await attempt();
      return;
    } catch (error) {
      if (Date.now() > end) throw error;
      await sleep(50);
    }
  }
}
