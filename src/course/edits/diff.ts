/** Changes of files as a unified diff, as `git apply` and `patch -p1` read it. */
import { type StructuredPatchHunk, structuredPatch } from 'diff';
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
  const options = { context: 3, maxEditLength: MOST_EDITS };
  const hunks = structuredPatch(file, to, ...texts, undefined, undefined, options)?.hunks ?? [wholeHunk(...texts)];
  if (hunks.length > 0) lines.push(`--- a/${file}`, `+++ b/${to}`);
  for (const { oldStart, oldLines, newStart, newLines, lines: body } of hunks) {
    const own = places.filter(({ line }) => line >= oldStart && line <= oldStart + oldLines);
    const named = own.map(({ line, column }) => ` ${file}:${line}:${column}`).join('');
    lines.push(`@@ -${oldStart},${oldLines} +${newStart},${newLines} @@${named}`, ...body);
  }
  return `${lines.join('\n')}\n`;
}

/** The shortest diff takes time by the square of its length: where this many lines differ, a longer one is found at once. */
const MOST_EDITS = 1000;

/** All from the first line that differs to the last one. */
function wholeHunk(before: string, after: string): StructuredPatchHunk {
  const linesIn = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
  const [old, made] = [linesIn(before), linesIn(after)];
  let from = 0;
  while (from < Math.min(old.length, made.length) && old[from] === made[from]) from++;
  let same = 0;
  while (same < Math.min(old.length, made.length) - from && old.at(-1 - same) === made.at(-1 - same)) same++;
  const start = Math.max(0, from - 3);
  const [oldEnd, newEnd] = [old.length - same, made.length - same];
  const behind = old.slice(oldEnd, oldEnd + 3);
  const signed = (sign: string, lines: readonly string[]): string[] =>
    lines.flatMap((line) =>
      line.endsWith('\n') ? [sign + line.slice(0, -1)] : [sign + line, '\\ No newline at end of file'],
    );
  return {
    oldStart: start + 1,
    oldLines: oldEnd - start + behind.length,
    newStart: start + 1,
    newLines: newEnd - start + behind.length,
    lines: [
      ...signed(' ', old.slice(start, from)),
      ...signed('-', old.slice(from, oldEnd)),
      ...signed('+', made.slice(from, newEnd)),
      ...signed(' ', behind),
    ],
  };
}
