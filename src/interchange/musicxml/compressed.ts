/** A compressed MusicXML file: a ZIP archive as “MusicXML 4.0, Compressed .MXL files” describes it. */
import { strToU8, zipSync } from 'fflate';
import type { Score } from '../../score/score.ts';
import type { Credits } from '../credits.ts';
import { musicXmlOf } from './document.ts';
import { xmlWriter } from './xml.ts';

const SCORE = 'score.musicxml';
const MEDIA_TYPE = 'application/vnd.recordare.musicxml';
/** The same bytes at any time. */
const MODIFIED = new Date(1980, 0, 1);

/** The score as an archive that holds its MusicXML document. */
export const compressedMusicXmlOf = (score: Score, credits: Credits): Uint8Array<ArrayBuffer> =>
  zipSync(
    {
      // First and as it is, so that programs know the file by its first bytes.
      mimetype: [strToU8(MEDIA_TYPE), { level: 0 }],
      'META-INF/container.xml': strToU8(container()),
      [SCORE]: strToU8(musicXmlOf(score, credits)),
    },
    { mtime: MODIFIED },
  );

function container(): string {
  const xml = xmlWriter();
  xml.open('container');
  xml.open('rootfiles');
  xml.leaf('rootfile', undefined, { 'full-path': SCORE, 'media-type': `${MEDIA_TYPE}+xml` });
  xml.close();
  xml.close();
  return xml.text();
}
