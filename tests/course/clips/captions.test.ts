import { describe, expect, test } from 'vitest';
import { captionsFault } from '../../../src/course/clips/captions.ts';

const whatOf = (text: string): string | undefined => captionsFault(text)?.what;

describe('a file of captions', () => {
  test.each([
    'WEBVTT\n\n00:01.000 --> 00:03.000\nNow the call.\n',
    'WEBVTT the head\r\n\r\nfirst\r\n00:00:01.000 --> 100:00:03.000 align:start position:10%\r\nNow\r\n',
    'WEBVTT\r\rNOTE said slowly\r\r00:01.000 --> 00:03.000\rNow',
  ])('is shown: %j', (text) => {
    expect(captionsFault(text)).toBeUndefined();
  });

  test.each([
    ['', 'does not begin with the word WEBVTT'],
    ['webvtt\n\n00:01.000 --> 00:03.000\nNow', 'does not begin with the word WEBVTT'],
    ['WEBVTTS\n\n00:01.000 --> 00:03.000\nNow', 'does not begin with the word WEBVTT'],
    ['1\n00:00:01,000 --> 00:00:03,000\nNow', 'does not begin with the word WEBVTT'],
    ['WEBVTT\n', 'has no captions in it'],
    ['WEBVTT\n\n00:00:01,000 --> 00:00:03,000\nNow', 'has “00:00:01,000” for a time in its line 3'],
    ['WEBVTT\n\n0:01 --> 0:03\nNow', 'has “0:01” for a time in its line 3'],
    ['WEBVTT\n\n00:01.000 --> 00:75.000\nNow', 'has “00:75.000” for a time in its line 3'],
    ['WEBVTT\n\n00:01.000 -->\nNow', 'has “” for a time in its line 3'],
  ])('is shown by no browser: %j', (text, what) => {
    expect(whatOf(text)).toContain(what);
  });
});
