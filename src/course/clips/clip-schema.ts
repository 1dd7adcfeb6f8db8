/** A clip of the front matter, as it is written. */
import type { z } from 'zod';
import { byShape, groups, keys, refuse, text } from '../../document/schema.ts';

/** One clip of the front matter. */
const clipGroup = keys({
  src: text,
  title: text.optional(),
  captions: text.optional(),
  cues: groups({ at: text, until: text.optional(), block: text.optional(), bars: text.optional() }),
});
export type FrontMatterClip = z.output<typeof clipGroup>;

/** The same; a file alone is reported with how it is written. */
export const clipSchema = byShape<typeof clipGroup>((value) =>
  typeof value === 'string'
    ? text.transform((file, context) => {
        const instead = `{ src: ${file} }`;
        return refuse(context, 'is a group with src, and here is a text', {
          help: `Write ${instead}`,
          instead,
          certain: true,
        });
      })
    : clipGroup,
);
