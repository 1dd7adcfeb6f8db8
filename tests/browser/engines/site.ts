/** A small course for what is driven in every engine: a block of four quick bars, and a recording with cues. */
import { write } from '../../course/some-course.ts';
import { type SharedSite, sharedSite } from '../shared-site.ts';
import { wavOf } from '../sound/browser-sound.ts';

const LESSON = `---
title: The head
harp: C
clips:
  slowly:
    src: media/head.wav
    title: The head, slowly
    captions: media/head.vtt
    cues:
      - { at: 0:01, bars: 1-2 }
      - { at: 0:04, bars: 3-4 }
---

\`\`\`tab
id: head
tempo: 200
slot: 1/4

4 5 -5 6 | 5 -5 6 -6 | 4 4 5 5 | 4 = = = |]
\`\`\`

<Clip name="slowly" />
`;

/** Quarters alone, so that each note begins on a beat. */
const STEADY = `---
title: Steady
harp: C
---

\`\`\`tab
id: steady
tempo: 120
slot: 1/8
form: none

4 . 4 . 4 . 4 . | 4 . 4 . 4 . 4 . | 4 . 4 . 4 . 4 . | 4 . 4 . 4 . 4 . |]
\`\`\`
`;

const VTT = 'WEBVTT\n\n00:00:01.000 --> 00:00:03.000\nThe call.\n';
/** Eight seconds of a quiet tone. */
const TONE = Float32Array.from({ length: 8 * 8000 }, (_, i) => 0.1 * Math.sin((2 * Math.PI * 330 * i) / 8000));

export const enginesSite = (): Promise<SharedSite> =>
  sharedSite('engines', '/under/', (folder) => {
    write(folder, 'course.yaml', 'title: A course\n');
    write(folder, 'lessons/head.mdx', LESSON);
    write(folder, 'lessons/steady.mdx', STEADY);
    write(folder, 'media/head.wav', wavOf({ samples: TONE, rate: 8000 }));
    write(folder, 'media/head.vtt', VTT);
  });
