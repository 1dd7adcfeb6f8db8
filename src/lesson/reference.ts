import type { TextSpan } from '../diagnostics/diagnostic.ts';

/** An address that a lesson names: the destination of a link, a picture, a recording. Where it leads is for the course to find out. */
export interface Reference {
  readonly url: string;
  readonly span: TextSpan;
  /** `embed`: the page would fetch it when it is opened; `play`: only when the student asks. */
  readonly use: 'link' | 'embed' | 'play';
}
