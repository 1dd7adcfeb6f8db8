/** A course whose names are hard to rename: prefixes of each other, used for several kinds of things, and written in every way there is. */
import type { FileTable } from '../files-in-memory.ts';

const WINDOWS = (text: string): string => text.replaceAll('\n', '\r\n');
const MARK = '\ufeff';

export const AWKWARD: FileTable = {
  'course.yaml': `${MARK}${WINDOWS(`# stages: walk, walk-on
title: Awkward # walk
stages:
  - {id: walk, title: walk}   # the stage walk
  - title: "walk"
    id:   'walk-on'  # walk
  - id: "three"
    title: The third
severity:
  taught-unused: off
  used-before-taught: off
  lesson-unreached: off
  requirement-implied: off
  taught-too-early: off
`)}`,
  'techniques.yaml': `techniques:
  - id: walk # walk
    title: Walking
    about: The walk, as in walk.
    group: time
    find: not-in-score
  - id: 'walk-on'
    title: Walking on
    about: walk
    group: time
    requires: walk
    find: not-in-score
  - id: "walk-far"
    title: Walk
    about: walk
    group: time
    requires: [ walk , "walk-on", 'walk-and-run' ]
    kind-of:
      - walk # walk
      - 'walk-on'
    find: not-in-score
  - { id: walk-and-run, title: Walk and run, about: walk, group: time, find: not-in-score }
`,
  'glossary.yaml': `terms:
  - term: walk
    means: To walk is to walk.
    also: [walks]
`,
  'lessons/walk.mdx': `${MARK}${WINDOWS(`---
title: "walk" # walk
summary: walk
stage: walk   # walk
teaches: [walk, "walk-on" ,'walk-far']
clips:
  walk:
    src: media/walk.mp3
    cues:
      - at: 0
        block: walk # walk
        bars: 1
      - { at: 1, block: 'up', bars: "1" }
---

walk, \`walk\`, [walk](#walk) and [the other](#up "walk"); <Term>walk</Term>, [heading](#a-walk), [self](walk#block-walk).

## A walk

\`\`\`tab
id: walk
title: walk
slot: 1/4
# walk
phrase walk: 4 -4
phrase walk-on: <walk> 5 -5
phrase up: 4 4 <walk>

part: walk
<walk> <walk> | <walk-on> | <up> | <:up> |
text: walk
4 4 4 4 |]
\`\`\`

> - In a list
>
>   \`\`\`tab
>   id: up
>   slot: 1/4
>   phrase walk: 5 -5
>   <walk> <walk:walk> | <walk/walk:walk> <walk:walk> |]
>   \`\`\`

\`\`\`
id: walk
<walk>
\`\`\`

<HarpMap phrase="walk/walk:up" />

<HarpMap
  phrase={'walk:walk-on'}
  title="walk"
/>

<HarpMap block="walk" />

<SideBySide block={"walk/walk"} positions="1, 2" />

<Clip name="walk" />

<Clip src="media/walk.mp3" cues={[{ at: '0:00', block: "walk", bars: 1 }, { at: 1, bars: 1, block: 'up' }]} />
`)}`,
  'lessons/walk-on.mdx': `---
title: >-
  walk on
stage: "walk-on"
requires:
  - walk # walk
  -   'deep/walk'
teaches:
- walk-and-run
- "walk"
---

[a](walk) [b](walk.mdx) [c](./walk) [d](./walk.mdx#walk) [e](/lessons/walk/) [f](lessons/walk.mdx?harp=A#a-walk) [played](walk?bars=1&tempo=50%#walk)
[g](<walk#up>) [h](walk "walk") [i](deep/walk#walk) [j]( walk-on )
![walk](media/walk.svg) [the walk][walk] and [walk] <a href="walk">walk</a> <a href={'walk'}>walk</a>
[l](/techniques/walk) [m](/techniques/walk/#blocks) [n](/#stage-walk) [o](/#stage-walk-on) [p](/techniques/walk-far)
<Technique>walk</Technique> <Technique>Walk</Technique> <Technique of="walk-on">walk</Technique>

[walk]: walk#walk 'walk'
[unused]: <deep/walk.mdx>

{/* walk, walk/walk:up */}

\`\`\`tab
id: walk-on
slot: 1/4
phrase walk: <walk/walk:walk>
<walk> 4 4 | <walk/walk:walk-on> | < walk/walk : up > | <deep/walk/walk:walk>
| <walk/walk> | <walk/up> |]
\`\`\`
`,
  'lessons/deep/walk.mdx': `---
title: Deep
stage: 'walk-on'
requires: walk
---

[up](../walk) [up](../walk.mdx#up) [over](../walk-on#walk-on) [beside](run) [beside](./run.mdx) [named](deep/run#walk)
[top](../../lessons/walk) [self](walk)

\`\`\`tab
id: walk
slot: 1/4
phrase walk: 6 =1 -6 =1
<walk> |]
\`\`\`
`,
  'lessons/deep/run.mdx': `---
title: Run
stage: three
requires: [
  "deep/walk", # walk
  walk,
]
---

1. In a list: [walk](./walk#walk), [walk](walk#walk)

   <HarpMap
     phrase="deep/walk/walk:walk"
   />

   \`\`\`tab
   id: walk
   slot: 1/4
   <deep/walk/walk:walk> |]
   \`\`\`
`,
  'media/walk.svg': '<svg xmlns="http://www.w3.org/2000/svg"/>',
  'media/walk.mp3': '',
};
