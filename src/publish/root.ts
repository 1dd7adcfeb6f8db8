import { fileURLToPath } from 'node:url';

/** The folder of this package: where Astro finds pages, components and the libraries they use. */
export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
