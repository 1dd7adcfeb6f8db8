/** `reedway host`: serves a site that was built, as a server on the web would. */
import { relative, resolve } from 'node:path';
import { errorCode } from '../../course/files.ts';
import { host } from '../../publish/host.ts';
import { readManifest } from '../../publish/output-folder.ts';
import type { Command } from '../command.ts';
import { OUT } from './build.ts';
import { PORT, readPort } from './port.ts';
import { untilStopped } from './stop.ts';

export const command: Command = {
  arguments: [{ name: 'DIR', about: `The folder of the site; ${OUT} if none is named.` }],
  options: {
    port: {
      type: 'string',
      value: 'NUMBER',
      about: `The port to serve on, or the next that is free; ${PORT} if none is named.`,
    },
  },
  about:
    'Serves a site that reedway build made, to this machine alone, and prints its address. It continues until it is stopped with Ctrl-C.',
  async run({ arguments: [dir = OUT], options }, terminal) {
    const folder = resolve(terminal.cwd, dir);
    const port = readPort(options['port']);
    const manifest = await readManifest(folder);
    if (!manifest) {
      terminal.err(
        `${relative(terminal.cwd, folder) || folder} is no site made by Reedway.\nreedway build makes one.\n`,
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
