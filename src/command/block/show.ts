/** `reedway show`: blocks as Reedway has read them, note by note. */
import type { Command } from '../command.ts';
import { COURSE_OPTION } from '../course/check.ts';
import { AS_OPTION, orInput } from '../course/standard-input.ts';
import { askedBlocks, NAMED, reportBroken, textOfBlocks } from './named-blocks.ts';
import { blockAsData } from './show-data.ts';
import { blockAsText } from './show-text.ts';

export const command: Command = {
  arguments: [orInput(NAMED)],
  options: {
    course: COURSE_OPTION,
    as: AS_OPTION,
    json: { type: 'boolean', about: 'Print an array of blocks as data.' },
  },
  about:
    'Prints blocks note by note: for each bar and note its onset and duration (fractions of a whole note), the holes with breath and bend as tab, the pitch with its MIDI number, the chord it sounds over, its role there, the embouchure and the marks.',
  async run({ arguments: [name = ''], options }, terminal) {
    const { course, found } = await askedBlocks(name, options, terminal);
    const { lesson, blocks } = found;
    if (options['json'])
      terminal.out(
        `${JSON.stringify(
          blocks.map((block) => blockAsData(lesson, block)),
          null,
          2,
        )}\n`,
      );
    else terminal.out(textOfBlocks(found, (block) => blockAsText(lesson, block)));
    return reportBroken(course, found, terminal);
  },
};
