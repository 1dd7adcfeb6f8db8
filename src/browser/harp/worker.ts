/** The engraver off the page's own thread: takes one job at a time and answers on the port that came with it. */
import type { FigureOnHarp } from '../../engrave/figure/figure.ts';
import { moveInline } from '../../engrave/inline/inline.ts';
import { drawInline } from '../../engrave/inline/words.ts';
import { escapeText } from '../../engrave/markup.ts';
import type { Harp } from '../../instrument/harp.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import type { Replaced } from '../../score/harp/relocate.ts';
import { type Chosen, studentsHarp } from './chosen.ts';
import { type LessonMusic, musicAt, siteScoreAt } from './music.ts';
import { onStudentsHarp } from './on-harp.ts';

/** What the worker is asked to draw, for the chosen harp. */
export type RedrawJob = Pick<Chosen, 'harp' | 'tuned'> &
  (
    | {
        readonly kind: 'block';
        /** The address of its lesson's music. */
        readonly music: string;
        readonly block: string;
        /** Begins the ids of its parts on a page that shows blocks of several lessons; else their usual beginning. */
        readonly parts?: string | undefined;
      }
    /** All that a lesson's page says of its music. */
    | { readonly kind: 'said'; readonly music: string }
    | { readonly kind: 'figure'; readonly figure: FigureOnHarp; readonly pitching: Pitching }
  );

/** What the worker answers: the markup to put in place. */
export interface Drawn {
  readonly html: string;
  /** The outlines the markup draws. */
  readonly sheet?: string;
  /** Whether it is for a harp of another tuning than it is written for. */
  readonly retuned?: boolean;
}

/** Calls `loaded` when all that comes over the network is there. */
async function draw(job: RedrawJob, loaded: () => void): Promise<Drawn> {
  if (job.kind === 'figure') {
    const { harpOfFigure, isRare } = await import('../../engrave/figure/figure.ts');
    const { figure, pitching } = job;
    const moved = await figureOn(studentsHarp(job, harpOfFigure(figure)), figure);
    if (isRare(moved)) {
      const { drawRare } = await import('../../engrave/figure/draw-rare.ts');
      return { html: drawRare(moved, pitching) };
    }
    const { drawCommon } = await import('../../engrave/figure/draw-common.ts');
    return { html: drawCommon(moved, pitching) };
  }
  if (job.kind === 'said') {
    const music = await musicAt(job.music);
    loaded();
    return { html: say(music, job) };
  }
  const [{ engraveBlock, glyphSheet }, { id, score }] = await Promise.all([
    import('../../engrave/block.ts'),
    siteScoreAt(job.music, job.block),
  ]);
  loaded();
  const { score: moved, replaced } = await onStudentsHarp(score, job);
  const { html, glyphs } = engraveBlock(moved, { id: job.parts ?? id });
  return {
    html: html + (await lackedBelow(replaced)),
    sheet: glyphSheet(glyphs),
    retuned: moved.harp.tuning.id !== score.harp.tuning.id,
  };
}

/** A figure for a harp of another tuning has other notes; for one of its own tuning, or one that lacks its holes, it is as it is. */
async function figureOn(harp: Harp, figure: FigureOnHarp): Promise<FigureOnHarp> {
  const { harpOfFigure, moveFigure } = await import('../../engrave/figure/figure.ts');
  const { tuning } = harpOfFigure(figure);
  if (harp.tuning.id === tuning.id) return moveFigure(figure, harp);
  const { hasHolesOf, withNotesOf } = await import('../../engrave/figure/other-tuning.ts');
  return hasHolesOf(figure, harp)
    ? moveFigure(withNotesOf(figure, harp), harp)
    : moveFigure(figure, { ...harp, tuning });
}

/** The paragraph below a block that the harp cannot play all of. */
async function lackedBelow(replaced: readonly Replaced[]): Promise<string> {
  if (replaced.length === 0) return '';
  const { missingNotes } = await import('./missing-notes.ts');
  return `<p class="not-on-harp">${escapeText(missingNotes(replaced))}</p>`;
}

/** An element for each place, with its name. */
function say({ head, said }: LessonMusic, chosen: Pick<Chosen, 'harp' | 'tuned'>): string {
  const inWords = (words: typeof said, tuned: Chosen['tuned']): string[] =>
    Object.entries(words).map(([place, inline]) => {
      const moved = moveInline(inline, studentsHarp({ harp: chosen.harp, tuned }, inline.harp));
      return `<span data-said="${place}">${drawInline(moved)}</span>`;
    });
  return [...inWords(head, chosen.tuned), ...inWords(said, undefined)].join('');
}

addEventListener('message', ({ data, ports }: MessageEvent<RedrawJob>) => {
  const [port] = ports;
  draw(data, () => port?.postMessage('loaded')).then(
    (drawn) => port?.postMessage(drawn),
    (error: unknown) => port?.postMessage({ failed: String(error) }),
  );
});
