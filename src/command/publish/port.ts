import { UsageError } from '../command.ts';

/** Where a site is served if nobody says. */
export const PORT = 4040;

/** Reads `--port`. Throws a UsageError for anything but a port number. */
export function readPort(written: string | boolean | undefined): number {
  if (written === undefined) return PORT;
  const port = Number(written);
  if (typeof written === 'string' && /^\d{1,5}$/.test(written) && port >= 1 && port <= 65535) return port;
  throw new UsageError(`--port is a number from 1 to 65535, not ${written}.`);
}
