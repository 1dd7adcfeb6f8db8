import path, { type PlatformPath } from 'node:path';

/**
 * A path as it is shown to a person who is in the folder `cwd`: from there, with forward slashes, which every machine reads.
 * What is on another drive is shown whole. The rules of paths are those of this machine, unless others are given.
 */
export const shownPath = (absolute: string, cwd: string, { relative, sep }: PlatformPath = path): string =>
  relative(cwd, absolute).replaceAll(sep, '/') || '.';
