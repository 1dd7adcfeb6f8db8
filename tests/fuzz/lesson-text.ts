/** Texts of lessons at random: Markdown, MDX, HTML, blocks, and what somebody would write who wants a script on the page. */
import fc from 'fast-check';
import { blockText } from '../notation/arbitrary.ts';

export const ATTACKS = [
  '<script>PLANTED()</script>', '<SCRIPT SRC="//evil.example/x.js" />', '<img src="x" onerror="PLANTED()" />', '<img src={"https://evil.example/a.png"} />',
  '<a href="javascript:PLANTED()">a</a>', '<a href={"java\\tscript:PLANTED()"}>a</a>', '[a](javascript:PLANTED())', '[a](java&#x09;script:PLANTED())',
  '![a](https://evil.example/a.png)', '[a]: javascript:PLANTED()\n\n[a]', '<svg><script>PLANTED()</script></svg>', '<svg onload="PLANTED()" />',
  '<iframe src="https://evil.example" />', '<form action="https://evil.example"><button>a</button></form>', '<Fragment set:html="<script>PLANTED()</script>" />',
  '<div set:html={"<img src=x onerror=PLANTED()>"} />', '<style>{`*{background:url(//evil.example)}`}</style>', '<link rel="stylesheet" href="//evil.example" />',
  '<meta http-equiv="refresh" content="0;url=//evil.example" />', '<base href="//evil.example" />', '<object data="//evil.example" />', '<embed src="//evil.example" />',
  '<a href="#" ping="//evil.example">a</a>', '<img srcset="//evil.example/a 2x" src="media/a.svg" />', '<p style="background:url(//evil.example)">a</p>',
  '<math><mtext><script>PLANTED()</script></mtext></math>', '<a xlink:href="javascript:PLANTED()">a</a>', '<animate attributeName="href" values="javascript:PLANTED()" />',
  '{PLANTED()}', '{globalThis.PLANTED}', '{"<script>PLANTED()</script>"}', '<div {...{onClick: "PLANTED()"}} />', '<div onclick="PLANTED()">a</div>',
  'import x from "node:fs"', 'export const x = PLANTED()', '<HarpMap onclick="PLANTED()" />', '<Clip src="https://evil.example/a.mp3" onerror="PLANTED()" />',
  '<Clip src="javascript:PLANTED()" />', '<!-- <script>PLANTED()</script> -->', '<details open ontoggle="PLANTED()">a</details>', '<video src="https://evil.example/a" autoplay />',
  '<a href="data:text/html,<script>PLANTED()</script>">a</a>', '<a href="//evil.example" target="_blank">a</a>', '<template><script>PLANTED()</script></template>',
  '{1 <!--globalThis[PLANTED()]}', '<audio src={["https://evil.example/a.mp3"]} />', '<a href={["javascript:PLANTED()"]}>a</a>', '<img src="/\\\\evil.example/a.png" alt="" />',
  '![a][r]\n\n[r]: https://evil.example/a.png', '![a](evil.mjs)', '---\t\n\n{PLANTED()}\n\n---\n', '+++\nlayout = "evil.mjs"\n+++\n',
]; // biome-ignore format: a list to read across

/** Components within a sentence, right and wrong. */
export const SAID = [
  "<Note>-3'</Note>", '<Note show="pitch">-2 -3</Note>', '<Note over="I7">-3</Note>', '<Note show="role">4</Note>', '<Note>-3 | 4</Note>', '<Note>.</Note>', '<Note>99</Note>',
  '<Note show="name pitch role tab" over="V7/ii">-3</Note>', '<Note>', '</Note>', '<Note />', '<Note>{"4"}</Note>', '<Note><b>4</b></Note>', '<Note>\n> 4\n> 5\n</Note>', '<Note><Note>4</Note></Note>',
  '<Chord>I7</Chord>', '<Chord show="numeral tones">bVI7</Chord>', '<Chord>X</Chord>', '<Chord>N.C.</Chord>', '<Chord>C/E</Chord>', '<Chord></Chord>', '<Key />', '<Key show="full" mode="dorian" />',
  '<Key position="13" />', '<Key position={3} follow="no" />', '<Key harp="H" mode="x" show="" />', '<Key>G</Key>', '<Key article="yes" />', '<Chord article>I7</Chord>', '<Key {...a} />', '<Harp />', '<Harp article="yes" />', '<Harp harp="low F" show="label" />',
  '<Harp tuning="natural-minor" article capital />', '<Harp key="constructor" />', '<Position />', '<Position show="both" />', '<Position show={["name"]} capital="no" />', '<Technique>vibrato</Technique>',
  '<Technique of="hand-wahs">wah</Technique>', '<Technique>nothing</Technique>', '<Technique of="">x</Technique>', '<Technique of={7}>x</Technique>', '<Technique>**bends**</Technique>',
  '<Term>riff</Term>', '<Term of="riff">this</Term>', '<Term>__proto__</Term>', '<Term of="constructor">x</Term>', '<Term>a\nb</Term>', '[a <Term>riff</Term>](first)', '[<Note>4</Note>](first)',
  '<a href="first"><Technique>vibrato</Technique></a>', '## <Key /> and <Term>riff</Term>\n\n', '# <Note>-3</Note>\n\n', '| <Harp /> | <Note>4</Note> |\n|---|---|\n| <Key /> | **<Chord>IV</Chord>** |\n\n',
  '<Term>{PLANTED()}</Term>', '<Term of="<script>PLANTED()</script>">x</Term>', '<Technique of="vibrato"><script>PLANTED()</script></Technique>', '<Note onclick="PLANTED()">4</Note>',
  '<Term of="riff">&lt;script&gt;PLANTED()&lt;/script&gt;</Term>', '<Term of="riff">[a](javascript:PLANTED())</Term>', '<Harp set:html="<script>PLANTED()</script>" />',
]; // biome-ignore format: a list to read across

/** Letters in plain text, some of which name something of the music. */
const LETTERS = [
  'Hole 3 has B. ',
  'In A minor, ',
  'a C\nharp ',
  'A flat ',
  'G, B and D ',
  'part A and B ',
  'F#m7',
  'B♭',
  'Am I ',
  'D.C. ',
  'A',
  'b ',
];

export const PIECES = [
  '# Heading\n\n', '## Über *ê*\n\n', 'Words. ', '\n\n', '\n', '- ', '  - ', '> ', '1. ', '| a | b |\n|---|---|\n| c | d |\n\n', '[^1]', '[^1]: A note.\n\n',
  '**', '*', '`', '```\n', '~~~', '[a](first)', '[b](media/a.svg)', '![c](media/a.svg)', '[d][e]', '[e]: first\n\n', '<HarpMap />', '<RoleTable chords="I7" />',
  '<FormChart form="twelve-bar" />', '<BendLadder hole="3" />', '<TargetNotes chords="I7" />', '<RhythmLine rhythm="x" slot="1/1" />', '<SideBySide block="a" positions="1, 2" />', '<NoteLengths />', '<Clip src="media/a.mp3" />', '<b>', '</b>', '<div>', '</div>', '<br/>', '{', '}', '{/* c */}', '&amp;', '&#x3c;',
  '&lt;script&gt;', '\\', '\\<', '\t', '$x$', ':::', '---\n', '\u0000', '\ud800', '\u202e', 'https://example.org/?a=b&c', '<https://example.org>', '<', '>', '"', "'", '=',
]; // biome-ignore format: a list to read across

const block = fc
  .oneof(blockText, fc.constantFrom('4 4 4 4', '99', '<first/0>', '<lesson/0> |]', 'id: x\n4 -4 5 -5'))
  .map((text) => `\n\n\`\`\`tab\n${text}\n\`\`\`\n\n`);
const frontMatterLine = fc.oneof(
  fc.constantFrom('title: A lesson', 'title: <script>PLANTED()</script>', 'title: "\u0000"', 'requires: first', 'requires: [first, none]', 'requires: lesson', 'teaches: bends',
    'harp: A', 'harp: X', 'stage: one', 'draft: true', 'minutes: 20', 'minutes: 1e99', 'summary: "&lt;b&gt; <i>"', 'keyy: 1', 'layout: ./evil.mjs', '__proto__: 1', 'constructor: {}', 'title: [a', '- a', '&a [*a]', ': :', 'a: b: c', '\t'),
  fc.string({ maxLength: 8 }),
); // biome-ignore format: a list to read across

/** The Markdown of a lesson. */
export const bodyText: fc.Arbitrary<string> = fc
  .array(
    fc.oneof(
      { weight: 8, arbitrary: fc.constantFrom(...PIECES) },
      { weight: 2, arbitrary: fc.constantFrom(...ATTACKS) },
      { weight: 4, arbitrary: fc.constantFrom(...SAID) },
      { weight: 1, arbitrary: fc.constantFrom(...LETTERS) },
      { weight: 1, arbitrary: block },
      { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 4 }) },
      // Cut somewhere, so that what is open stays open.
      {
        weight: 1,
        arbitrary: fc.tuple(fc.constantFrom(...ATTACKS, ...SAID), fc.nat(60)).map(([text, end]) => text.slice(0, end)),
      },
    ),
    { maxLength: 24 },
  )
  .map((pieces) => pieces.join(''));

/** A whole lesson. */
export const lessonFile: fc.Arbitrary<string> = fc
  .tuple(fc.array(frontMatterLine, { maxLength: 5 }), bodyText, fc.boolean())
  .map(([lines, body, whole]) =>
    whole ? `---\n${['title: A lesson', ...lines].join('\n')}\n---\n\n${body}` : `${lines.join('\n')}${body}`,
  );
