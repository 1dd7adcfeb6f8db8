/** What can be wrong with a clip, a teacher's recording in a lesson, and with its cues. */
import { type Catalogue, didYouMean, error, hint, type Near, warning } from '../../diagnostics/catalogue.ts';

export const CLIP_PROBLEMS = {
  'clip-source': error<object>({
    about:
      'A clip plays a recording: a file of the media folder, an address, or a clip of the front matter by its name.',
    message: () => 'This <Clip> names no recording.',
    help: () => 'Give it src="media/…", or the name of a clip in the front matter, as in name="slowly".',
  }),
  'clip-unknown': error<Near & { name: string }>({
    about: 'A clip is named that the front matter of its lesson does not have.',
    message: ({ name }) => `The front matter has no clip “${name}”.`,
    help: (facts) => didYouMean(facts) ?? 'Write it there under clips, or give this one src="media/…".',
  }),
  'clip-twice': error<{ key: string }>({
    about: 'A clip is described either in the front matter or where it is used, so that it is clear which one counts.',
    message: ({ key }) => `This <Clip> is one of the front matter’s and has “${key}” of its own as well.`,
    help: ({ key }) => `Move “${key}” to the front matter.`,
  }),
  'clip-unused': warning<{ name: string }>({
    about: 'A clip of the front matter that is nowhere in its lesson is never played.',
    message: ({ name }) => `The clip “${name}” is nowhere in this lesson.`,
    help: ({ name }) => `Write <Clip name="${name}" /> where it belongs, or remove it.`,
  }),
  'clip-kind': error<{ path: string; kinds: readonly string[] }>({
    about: 'Browsers play a few kinds of recordings, recognized by the file’s extension.',
    message: ({ path }) => `“${path}” is no recording that browsers play.`,
    help: ({ kinds }) => `Its name ends in one of: ${kinds.join(', ')}.`,
  }),
  'clip-captions': error<{ path: string }>({
    about: 'Captions are a WebVTT file of the media folder: a browser shows none from elsewhere.',
    message: ({ path }) =>
      path === '' ? 'No file of captions is named here.' : `“${path}” is no WebVTT file of the media folder.`,
    help: () => 'Write captions="media/….vtt".',
  }),
  'clip-captions-text': error<{ path: string; what: string; fix: string }>({
    about: 'A file of captions that is no WebVTT is shown by no browser, and none of them says so.',
    message: ({ path, what }) => `“${path}” ${what}.`,
    help: ({ fix }) => fix,
  }),
  'clip-captions-page': error<object>({
    about: 'Captions are shown with a recording; a page on another site has its own.',
    message: () => 'This clip is a page of elsewhere, with which no captions can be shown.',
    help: () => 'Name the recording itself, an address that ends in .mp4 or .mp3, or remove the captions.',
  }),
  'clip-address': error<{ url: string; open: boolean }>({
    about: 'A recording on another site needs an https: address, or browsers refuse to load it.',
    message: ({ url, open }) =>
      open ? `The pages of the site cannot play what begins with http:, as “${url}” does.` : `“${url}” is no address.`,
    help: ({ open }) =>
      open
        ? 'Write https: if it is there under that as well, or put a copy into the media folder, if its licence allows it.'
        : 'Copy it from the browser in which it opens.',
  }),
  'clip-no-captions': hint<object>({
    about: 'Captions are for students who cannot hear the recording or cannot play it aloud.',
    message: () => 'This video has no captions.',
    help: () => 'Write what is said into a WebVTT file and name it: captions="media/….vtt".',
  }),
  'clip-cues': error<{ what: string; meant?: string | undefined }>({
    about: 'Cues are a list; each says at what time of the clip which bars of which block are played.',
    message: ({ what }) => what,
    help: ({ meant }) =>
      meant !== undefined ? `Did you mean “${meant}”?` : "Write cues={[{ at: '1:42', block: 'head', bars: '5-8' }]}.",
  }),
  'clip-time': error<{ text: string; meant?: string | undefined }>({
    about: 'A time of a clip is minutes and seconds, or seconds alone.',
    message: ({ text }) => `“${text}” is no time of a clip.`,
    help: ({ meant }) =>
      meant === undefined
        ? 'Write minutes and seconds, as in 1:42 or 0:07.5, or seconds alone.'
        : `Write minutes and seconds: ${meant}`,
  }),
  'clip-time-short': warning<{ text: string; read: string; other: string }>({
    about: 'Seconds have two digits behind the minutes; a single one may be the first of two.',
    message: ({ text, read }) => `“${text}” is read as ${read}.`,
    help: ({ read, other }) => `Write ${read}, or ${other} if that is meant.`,
  }),
  'clip-after-end': error<{ at: string; path: string; lasts: string }>({
    about: 'A cue is within its recording, where the file says how long that is.',
    message: ({ at, path, lasts }) => `“${at}” is after the end of “${path}”, which lasts ${lasts}.`,
    help: () => 'Write minutes and seconds, as in 1:42, counted from the start of the recording.',
  }),
  'clip-until': error<{ at: string; until: string }>({
    about: 'A passage of a clip ends after it has begun.',
    message: ({ at, until }) => `This passage begins at ${at} and is to end at ${until}.`,
    help: () => 'Write a later time, or leave “until” out: the passage then goes on to the next one.',
  }),
  'clip-which-block': error<{ blocks: readonly string[] }>({
    about: 'In a lesson of several blocks a cue says which of them its bars belong to.',
    message: ({ blocks }) =>
      blocks.length === 0
        ? 'A cue points at bars, and this lesson has no block.'
        : 'This cue does not say which block its bars are in.',
    help: ({ blocks }) => (blocks.length === 0 ? undefined : `Add block: one of ${blocks.join(', ')}.`),
  }),
  'clip-block': error<Near & { block: string }>({
    about: 'A cue points at a block of its own lesson, which the page shows.',
    message: ({ block }) => `This lesson has no block “${block}”.`,
    help: didYouMean,
  }),
  'clip-bars': error<{ text: string; meant?: string | undefined }>({
    about: 'The bars of a cue are one number, or the first and the last.',
    message: ({ text }) => `“${text}” is neither a bar nor a run of bars.`,
    help: ({ meant }) =>
      meant === undefined
        ? 'Write one number, or the first and the last, as in 5-8. The pickup is 0.'
        : `Write the first and the last: ${meant}`,
  }),
  'clip-bar': error<{ bar: number; block: string; first: number; last: number }>({
    about: 'A cue points at bars that its block has, as musicians number them.',
    message: ({ bar, block, first, last }) =>
      `The block “${block}” has no bar ${bar}: it goes from bar ${first} to bar ${last}.`,
    help: ({ first, last }) => `Name bars that it has, as in ${first === last ? first : `${first}-${last}`}.`,
  }),
} satisfies Catalogue;
