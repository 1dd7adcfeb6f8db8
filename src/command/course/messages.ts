/** `reedway messages`: what each code stands for. The reference is the catalogues themselves. */
import { CATALOGUES } from '../../course/catalogue.ts';
import { nearest } from '../../diagnostics/nearest.ts';
import { type Command, orMeant, UsageError } from '../command.ts';
import { wrap } from '../terminal/wrap.ts';

interface Entry {
  readonly code: string;
  readonly subject: string;
  readonly severity: string;
  readonly about: string;
}

const ENTRIES: readonly Entry[] = CATALOGUES.flatMap(({ title, problems }) =>
  Object.entries(problems).map(([code, { severity, about }]): Entry => ({ code, subject: title, severity, about })),
);

export const command: Command = {
  arguments: [
    {
      name: 'CODE',
      completes: ENTRIES.map(({ code }) => code),
      many: true,
      about: 'Codes as printed after the place of a problem. Default: all codes.',
    },
  ],
  options: {
    json: { type: 'boolean', about: 'Print an array of codes with subject, severity and what they are about.' },
  },
  about: 'Explains the codes of problems, and why each is a problem.',
  run({ arguments: codes, options }, terminal) {
    const entries = codes.length === 0 ? ENTRIES : codes.map(entryOf);
    terminal.out(options['json'] ? `${JSON.stringify(entries, null, 2)}\n` : entriesAsText(entries));
    return 0;
  },
};

function entryOf(code: string): Entry {
  const entry = ENTRIES.find((one) => one.code === code);
  if (entry) return entry;
  const near = nearest(
    code,
    ENTRIES.map((one) => one.code),
  );
  throw new UsageError(`There is no code ${code}.${orMeant(near)}`);
}

/** Under the headings of their subjects. */
function entriesAsText(entries: readonly Entry[]): string {
  let subject: string | undefined;
  const lines: string[] = [];
  for (const entry of entries) {
    if (entry.subject !== subject) lines.push(...(subject === undefined ? [] : ['']), entry.subject, '');
    subject = entry.subject;
    lines.push(`  ${entry.code}${entry.severity === 'error' ? '' : ` (${entry.severity})`}`, ...wrap(entry.about, 4));
  }
  return `${lines.join('\n')}\n`;
}
