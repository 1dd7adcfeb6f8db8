/** The files of a course with some of them written otherwise: a course is loaded from it to find out what a change would do. */
import type { Files } from '../files.ts';

/** Contents by the paths of files, relative to the course folder with forward slashes; null for a file that is gone. */
export type Overlay = ReadonlyMap<string, Buffer | null>;

/** The files of a course with these in the place of what is there, or beside it. */
export function withOverlay(files: Files, overlay: Overlay): Files {
  const gone = (): never => {
    throw Object.assign(new Error('there is no such file'), { code: 'ENOENT' });
  };
  return {
    ...files,
    size(file) {
      const content = overlay.get(file);
      return content === undefined ? files.size(file) : (content ?? gone()).length;
    },
    read(file) {
      const content = overlay.get(file);
      return content === undefined ? files.read(file) : (content ?? gone());
    },
    list(folder, failed, hidden) {
      const added = [...overlay].flatMap(([file, content]) => (content && file.startsWith(`${folder}/`) ? file : []));
      const found = files.list(folder, failed, hidden).filter((file) => overlay.get(file) !== null);
      return [...new Set([...found, ...added])].sort();
    },
  };
}
