/** What there is to play along with: every form of a course in each meter, as the player of a block would have it, with rests for a tune. */
import type { Course } from '../../course/course.ts';
import type { FormChartFigure } from '../../engrave/figure/figure.ts';
import type { Form } from '../../harmony/form.ts';
import { readForm } from '../../harmony/form.ts';
import { ALONE } from '../../notation/context.ts';
import { readBlock } from '../../notation/read.ts';
import type { Playback } from '../../score/playback.ts';
import { playbackOf } from '../../score/playback-of.ts';
import type { Score } from '../../score/score.ts';

/** The meters that a form can be played in, the usual one first, and the note value that fills their bars. */
const METERS = [
  { meter: '4/4', slot: '1/4' },
  { meter: '3/4', slot: '1/4' },
  { meter: '2/4', slot: '1/4' },
  { meter: '6/8', slot: '1/8' },
  { meter: '12/8', slot: '1/8' },
] as const;
/** A meter as it is written. */
export type WrittenMeter = (typeof METERS)[number];
/** The names of the meters, the usual one first. */
export const METER_NAMES = METERS.map(({ meter }) => meter);

/** A form as it is played along with, written for a C harp in first position. */
export interface FormToPlay {
  readonly id: string;
  readonly title: string;
  readonly meters: readonly { readonly meter: string; readonly playback: Playback }[];
}

/** Bars of rests over a progression. */
function restsOver(
  course: Pick<Course, 'tunings' | 'forms'>,
  { meter, slot }: WrittenMeter,
  form: Form | undefined,
): Score {
  const read = form && readForm(form.bars);
  const bars = read && 'bars' in read ? read.bars.length : 1;
  const count = Number.parseInt(meter, 10);
  const music = Array.from({ length: bars }, () => Array(count).fill('.').join(' ')).join(' | ');
  const settings = [
    'harp: C',
    'position: 1',
    'feel: straight',
    `meter: ${meter}`,
    `slot: ${slot}`,
    ...(form ? [`form: ${form.id}`] : []),
  ];
  const { score, diagnostics } = readBlock(`${settings.join('\n')}\n${music}`, {
    ...ALONE,
    tunings: course.tunings,
    forms: course.forms,
  });
  if (!score) throw new Error(`${form?.id}: ${diagnostics.map(({ message }) => message).join(' ')}`);
  return score;
}

/** The forms of a course with what a metronome plays first. */
export function formsToPlay(course: Pick<Course, 'tunings' | 'forms'>): readonly FormToPlay[] {
  const playbacks = (form: Form | undefined): FormToPlay['meters'] =>
    METERS.map((written) => ({
      meter: written.meter,
      playback: playbackOf(restsOver(course, written, form), () => ''),
    }));
  return [
    // One bar of rests without a chord. No form of a course has an empty name.
    { id: '', title: '', meters: playbacks(undefined) },
    ...course.forms.map((form) => ({ id: form.id, title: form.title, meters: playbacks(form) })),
  ];
}

/** The chart of a form, in C. */
export function chartOf(course: Pick<Course, 'tunings' | 'forms'>, form: Form): FormChartFigure {
  const { harp, position, key, bars } = restsOver(course, METERS[0], form);
  return {
    kind: 'form-chart',
    harp,
    position,
    key,
    form: form.title,
    bars: bars.map(({ chords }) => ({ chords: chords.map(({ chord }) => chord) })),
  };
}
