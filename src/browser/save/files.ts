/** Makes the file of a block for the harp the student chose. */
import { type FormatName, formatOf, type Players } from '../../interchange/formats.ts';
import { isWritten, writerOf } from '../../interchange/writers.ts';
import { playbackOf } from '../../score/playback-of.ts';
import { readChosen } from '../harp/chosen.ts';
import { musicAddress, siteScoreAt } from '../harp/music.ts';
import { onStudentsHarp } from '../harp/on-harp.ts';

/** A block of the page. */
export interface SavedBlock {
  readonly figure: HTMLElement;
  readonly lesson: string;
  readonly block: string;
}

/** The file. Rejects where something cannot be fetched, or the browser cannot make the picture or the sound. */
export async function fileOf(
  { figure, lesson, block }: SavedBlock,
  format: FormatName,
  players: Players,
): Promise<Blob> {
  const { mediaType } = formatOf(format);
  const found = await siteScoreAt(musicAddress(lesson), block);
  const { credits } = found;
  if (format === 'svg' || format === 'png') {
    const { pictureOfPage, pngOf } = await import('./picture.ts');
    const svg = pictureOfPage(figure, credits.title);
    return format === 'png' ? pngOf(svg) : new Blob([svg], { type: mediaType });
  }
  const chosen = readChosen();
  const { concertA, temperament } = chosen;
  const { score } = await onStudentsHarp(found.score, chosen);
  if (isWritten(format)) {
    const write = await writerOf(format);
    return new Blob([write(score, credits, players)], { type: mediaType });
  }
  const { recordingOf } = await import('./recording.ts');
  const sound = await recordingOf({ playback: playbackOf(score), players, pitching: { concertA, temperament } });
  return new Blob([sound], { type: mediaType });
}
