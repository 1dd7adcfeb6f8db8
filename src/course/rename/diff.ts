/** The changes of a rename as a unified diff, as `git apply` and `patch -p1` read it. */
import { structuredPatch } from 'diff';
import { placeOf, pointAt } from '../../diagnostics/place.ts';
import type { RenamedFile } from './plan.ts';
import { BYTE_ORDER_MARK } from './verify.ts';

/**
 * The diff of all changes. Behind each head of a hunk are the places of its edits, `lessons/first.mdx:3:12`. `isMarked` is whether
 * a file begins with a byte order mark.
 */
export const renameDiff = (changes: readonly RenamedFile[], isMarked: (file: string) => boolean): string =>
  changes.map((change) => diffOfFile(change, isMarked(change.file) ? BYTE_ORDER_MARK : '')).join('');

function diffOfFile({ file, to, before, edits, after }: RenamedFile, mark: string): string {
  const moved = file === to ? [] : [`rename from ${file}`, `rename to ${to}`];
  const lines = [`diff --git a/${file} b/${to}`, ...moved];
  const placed = placeOf(before);
  const points = edits.map(({ span }) => pointAt(placed, span.from));
  const { hunks } = structuredPatch(file, to, mark + before, mark + after, undefined, undefined, { context: 3 });
  if (hunks.length > 0) lines.push(`--- a/${file}`, `+++ b/${to}`);
  for (const { oldStart, oldLines, newStart, newLines, lines: body } of hunks) {
    const own = points.filter(({ line }) => line >= oldStart && line <= oldStart + oldLines);
    const places = own.map(({ line, column }) => `${file}:${line}:${column}`).join(' ');
    lines.push(`@@ -${oldStart},${oldLines} +${newStart},${newLines} @@ ${places}`, ...body);
  }
  return `${lines.join('\n')}\n`;
}
