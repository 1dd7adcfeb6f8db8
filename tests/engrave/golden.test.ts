/**
 * A few blocks as pictures that were looked at. The files open in a browser as they are; `npx vitest run -u` draws them again,
 * and they have to be looked at again.
 */
import { describe, expect, it } from 'vitest';
import { engraveBlock, glyphSheet } from '../../src/engrave/block.ts';
import { scoreOf } from './pictures.ts';

const PICTURES = [
  {
    name: 'bends-and-ties',
    text: `harp: A
position: 2
feel: shuffle
form: twelve-bar bars 4-7

-2 -3' > -3 -4 = -5 = = | = = -3 = = > -3' = = | = = = = {-2 -3' -4}2 4[dip] -5[fall] | -3'' = = -4[shake 5] = -1[accent] 2[staccato] . |]
`,
  },
  {
    name: 'splits-and-mouths',
    text: `harp: C
position: 2
pickup: 1
mouth: lips

-1 |
part: Head
|: "I7" -2 . -3[hand] = "IV7" @tongue (1 4)[slap] = -(3 4 5) = |1 6o = 8' 9' 10'' > 10 = . :|2 @lips -4[vibrato] = = = "V7" = = = |]
words: go _ down to the riv-er and _ home
`,
  },
  {
    name: 'slow-and-low',
    text: `harp: low F
position: 3
meter: 12/8
chords: i7 | iv7

-4 = 4 -3' = -3 . . . -1 = 1 | -2'' = = = = = -3''' = -2 -1 = . ||
`,
  },
  {
    name: 'marks',
    text: `harp: C
position: 2

"I7" -2[tenuto] -3'[ghost] -3''[tenuto staccato] (4 5 6)[ghost accent] 1[breath] = . -4[breath] | = 6[wah] = = {7[tenuto] -8[ghost] 8[breath]}2 10[tremolo] = |]
`,
  },
  {
    name: 'verses',
    text: `harp: C
meter: 3/4
slot: 1/4
pickup: 1

3 |: 4 5 6 | -6 = 6 |1 5 = 4 :|2 4 = = | -4 = 5 | 4 = ||
syllables: ta doo dit ka hoo _ ta-ka * ta ka
words: The ri-ver runs on down to sea, la la la
words: And all the boats come home * *
`,
  },
  {
    name: 'segno-and-coda',
    text: `harp: C
slot: 1/4

"I" 4 5 6 5 |segno "IV" -5[accent] -6 6 = |to-coda "I" 4 5 6 = | % | "V7" -4 -5 -7 = |D.S.,coda
meter: 3/4
tempo: 66
"I" 6 5 -4 | 4[fermata] = = |]
`,
  },
  {
    name: 'rests-and-da-capo',
    text: `harp: A
position: 2

"I7" -2 = -3'[staccato] -3 = = -4 = |: .x4 | "IV7" -4 -5 6 = 5 = -4 = :|x3 "I7" -2 = = = = = = = |fine "V7" -4 = -5 = -4 = . . | % |D.C.
`,
  },
];

describe('golden pictures', () => {
  it.each(PICTURES)('$name', async ({ name, text }) => {
    const { html, glyphs } = engraveBlock(scoreOf(text), { id: name });
    const page = `<!doctype html>
<meta charset="utf-8" />
<meta name="viewport" content="width=device-width" />
<title>${name}</title>
${['block', 'grid', 'grid-sizes'].map((name) => `<link rel="stylesheet" href="../../../src/engrave/${name}.css" />`).join('\n')}
${glyphSheet(glyphs)}
${html.replaceAll(/<(svg class="p|div|\/div|g class="e"|details)/g, '\n<$1')}
`;
    await expect(page).toMatchFileSnapshot(`golden/${name}.html`);
  });
});
