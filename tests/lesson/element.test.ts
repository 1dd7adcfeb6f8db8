import { describe, expect, test } from 'vitest';
import { ADDRESS_ATTRIBUTES } from '../../src/lesson/component.ts';
import { ELEMENTS } from '../../src/lesson/element.ts';
import { readLessonText } from '../../src/lesson/lesson-text.ts';
import { lesson } from '../course/some-course.ts';

const codes = (text: string): string[] => readLessonText(lesson(text)).diagnostics.map(({ code }) => code);
const refusals = ['script-in-lesson', 'element-unknown', 'element-attribute', 'component-key', 'component-unknown'];

describe('a lesson cannot run or fetch anything:', () => {
  test.each([
    '<script src="x.js"></script>',
    '<SCRIPT>alert(1)</SCRIPT>',
    '<p set:html="<script>alert(1)</script>" />',
    '<div set:html={"<iframe src=https://example.org></iframe>"} />',
    '<Clip name="x" set:html="<b>" />',
    '<p set:text="x" />',
    '<div client:load />',
    '<div is:raw>x</div>',
    '<iframe src="https://example.org"></iframe>',
    '<frame src="https://example.org" />',
    '<object data="x.swf"></object>',
    '<embed src="x.swf" />',
    '<portal src="https://example.org" />',
    '<form action="https://example.org"><button>Go</button></form>',
    '<button formaction="https://example.org">Go</button>',
    '<input type="image" src="https://example.org/x.png" />',
    '<base href="https://example.org" />',
    '<link rel="stylesheet" href="https://example.org/x.css" />',
    '<meta http-equiv="refresh" content="0;url=https://example.org" />',
    '<style>{"p{background:url(https://example.org)}"}</style>',
    '<svg><a xlink:href="https://example.org">x</a></svg>',
    '<svg><animate attributeName="href" values="https://example.org" /></svg>',
    '<svg><use href="media/x.svg#y" /></svg>',
    '<svg:script>alert(1)</svg:script>',
    '<math><mi href="https://example.org">x</mi></math>',
    '<template><b>x</b></template>',
    '<slot name="x" />',
    '<clip-player><b>x</b></clip-player>',
    '<a HREF="first">x</a>',
    '<a xlink:href="first">x</a>',
    '<a href="first" ping="https://example.org">x</a>',
    '<img alt="x" src="media/harp.svg" srcset="https://example.org/x.png 2x" />',
    '<img alt="x" src="media/harp.svg" onerror="alert(1)" />',
    '<img alt="x" src="media/harp.svg" onError={1} />',
    '<img alt="x" src="media/harp.svg" lowsrc="https://example.org/x.png" />',
    '<img alt="x" src="media/harp.svg" longdesc="https://example.org" />',
    '<img alt="x" src="media/harp.svg" usemap="#x" />',
    '<picture><source srcset="https://example.org/x.png" /></picture>',
    '<table background="https://example.org/x.png"></table>',
    '<video src="media/x.mp4" autoplay />',
    '<p style="background:url(https://example.org)">x</p>',
    '<p class="figure">x</p>',
    '<p className="figure">x</p>',
    '<p id="page">x</p>',
    '<a name="page" href="first">x</a>',
    '<p data-block="x">x</p>',
    '<p is="clip-player">x</p>',
    '<p contenteditable>x</p>',
    '<p __proto__="x">x</p>',
    '<constructor>x</constructor>',
  ])('%s', (text) => {
    expect(codes(text).filter((code) => refusals.includes(code))).not.toEqual([]);
    // The same inside a line of text.
    expect(codes(`Text ${text} text`).filter((code) => refusals.includes(code))).not.toEqual([]);
  });

  /** From memory of the index of attributes of the HTML standard: those whose value is an address, or holds one. */
  const HOLD_ADDRESSES = [
    ...[
      'action',
      'archive',
      'background',
      'cite',
      'classid',
      'code',
      'codebase',
      'content',
      'data',
      'dynsrc',
      'formaction',
    ],
    ...[
      'href',
      'icon',
      'imagesrcset',
      'itemid',
      'itemtype',
      'longdesc',
      'lowsrc',
      'manifest',
      'ping',
      'poster',
      'profile',
    ],
    ...['src', 'srcdoc', 'srcset', 'style', 'usemap', 'xlink:href', 'xml:base'],
  ];

  test.each([...ELEMENTS])('every address that <%s> can hold is checked', (_element, attributes) => {
    const unchecked = [...attributes].filter((key) => HOLD_ADDRESSES.includes(key) && !ADDRESS_ATTRIBUTES.has(key));
    expect(unchecked).toEqual([]);
    expect([...attributes].filter((key) => /^on|[^a-z-]/.test(key))).toEqual([]);
  });
});

describe('an address', () => {
  const uses = (text: string) => readLessonText(lesson(text)).references.map(({ url, use }) => [url, use]);

  test('is fetched by what shows it, and only followed from a link or a citation', () => {
    expect(uses('<video src="media/a.mp4" poster="media/b.png" />')).toEqual([
      ['media/a.mp4', 'embed'],
      ['media/b.png', 'embed'],
    ]);
    expect(uses('<q cite="https://example.org">x</q>')).toEqual([['https://example.org', 'link']]);
  });

  test('is read in braces as in quotation marks', () => {
    expect(uses('<a href={"first"}>x</a> <a href={`second`}>y</a>')).toEqual([
      ['first', 'link'],
      ['second', 'link'],
    ]);
  });
});

test('what explains, quotes, lists and shows is allowed', () => {
  const text = [
    '<details open>\n<summary>Why?</summary>\n\nBecause.\n</details>',
    'Press <kbd>Esc</kbd>, <mark>slowly</mark>, <span lang="de" title="sic">langsam</span>. <br /> H<sub>2</sub>O',
    '<table><caption>Holes</caption><tbody><tr><th scope="row" colspan={2}>1</th><td>C</td></tr></tbody></table>',
    '<figure><img src="media/harp.svg" alt="" width={300} /><figcaption>A harp</figcaption></figure>',
    '<audio src="media/x.mp3" controls preload="none"><track src="media/x.vtt" kind="captions" srclang="en" label="English" /></audio>',
    '<ol start={3} reversed><li value="3">x</li></ol>',
    '<blockquote cite="https://example.org/text">x</blockquote>',
    '<a href="https://example.org" target="_blank" rel="noopener">x</a>',
  ];
  expect(codes(text.join('\n\n'))).toEqual([]);
});
