/** `reedway host`: serves a site that was built, as a server on the web would. */
import { resolve } from 'node:path';
import { errorCode } from '../../course/files.ts';
import { host } from '../../publish/host.ts';
import { readManifest } from '../../publish/output/manifest.ts';
import { recoverOutput } from '../../publish/output/swap.ts';
import type { Command } from '../command.ts';
import { shownPath } from '../terminal/shown-path.ts';
import { OUT } from './build.ts';
import { PORT, readPort } from './port.ts';
import { untilStopped } from './stop.ts';

export const command: Command = {
  arguments: [{ name: 'DIR', completes: 'folder', about: `The folder of the site. Default: ${OUT}.` }],
  options: {
    port: {
      type: 'string',
      value: 'NUMBER',
      about: `The port, or the next one that is free. Default: ${PORT}.`,
    },
  },
  about: 'Serves a site made by reedway build, on this machine only, and prints its address. Stop it with Ctrl-C.',
  async run({ arguments: [dir = OUT], options }, terminal) {
    const folder = resolve(terminal.cwd, dir);
    const port = readPort(options['port']);
    await recoverOutput(folder).catch(() => undefined);
    const manifest = await readManifest(folder);
    if (!manifest) {
      terminal.err(
        `${folder === resolve(terminal.cwd) ? folder : shownPath(folder, terminal.cwd)} is no site made by Reedway.\nreedway build makes one.\n`,
      );
      return 1;
    }
    try {
      const { server, address } = await host(folder, manifest.base, port);
      terminal.out(`${address}\n`);
      await untilStopped();
      server.close();
      server.closeAllConnections();
      return 0;
    } catch (error) {
      terminal.err(
        `No port from ${port} on can be served: ${errorCode(error) ?? String(error)}.\nName another with --port.\n`,
      );
      return 1;
    }
  },
};
