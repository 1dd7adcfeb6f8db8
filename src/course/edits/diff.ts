/** Changes of files as a unified diff, as `git apply` and `patch -p1` read it. */
import { structuredPatch } from 'diff';
import type { SourcePoint } from '../../diagnostics/place.ts';
import type { FileChange } from './change.ts';

/**
 * The diff of all changes, with three lines of context. `placesIn` are the places of the edits of a file as it was, which are
 * named behind the head of their hunk: `lessons/first.mdx:3:12`.
 */
export const diffOf = (
  changes: readonly FileChange[],
  placesIn: (change: FileChange) => readonly SourcePoint[] = () => [],
): string => changes.map((change) => diffOfFile(change, placesIn(change))).join('');

function diffOfFile({ file, to = file, before, after }: FileChange, places: readonly SourcePoint[]): string {
  const moved = file === to ? [] : [`rename from ${file}`, `rename to ${to}`];
  const lines = [`diff --git a/${file} b/${to}`, ...moved];
  const texts = [before.toString(), after.toString()] as const;
  const { hunks } = structuredPatch(file, to, ...texts, undefined, undefined, { context: 3 });
  if (hunks.length > 0) lines.push(`--- a/${file}`, `+++ b/${to}`);
  for (const { oldStart, oldLines, newStart, newLines, lines: body } of hunks) {
    const own = places.filter(({ line }) => line >= oldStart && line <= oldStart + oldLines);
    const named = own.map(({ line, column }) => ` ${file}:${line}:${column}`).join('');
    lines.push(`@@ -${oldStart},${oldLines} +${newStart},${newLines} @@${named}`, ...body);
  }
  return `${lines.join('\n')}\n`;
}
