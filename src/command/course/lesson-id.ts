/** Lessons as they are named on the command line. */

/**
 * The name of a lesson from what a person types, or a shell completes: `walk`, `lessons/walk.mdx`, `.\\lessons\\walk.mdx`, or a
 * longer path to its file, with a block behind it or without. Backslashes are slashes: no lesson has one in its name.
 */
export function lessonIdFrom(typed: string): string {
  const path = typed.replaceAll('\\', '/').replace(/\/+/g, '/');
  const below = path.replace(/^(?:\.\/)+/, '').replace(/^lessons\//, '');
  // A path from elsewhere is one only with its file's ending.
  const id = /\.mdx(?:\/|$)/.test(path) ? below.replace(/^.*\/lessons\//, '') : below;
  return id.replace(/\.mdx(?=\/|$)/, '');
}
