import { describe, expect, it } from 'vitest';
import { escapeText, n } from '../../src/engrave/markup.ts';

describe('markup', () => {
  it('escapes what would end a text or an attribute', () => {
    expect(escapeText(`<&>"'`)).toBe('&lt;&amp;&gt;&quot;&#39;');
    expect(escapeText('plain – ♭7')).toBe('plain – ♭7');
  });
  it('leaves out what XML forbids', () => {
    expect(escapeText('a\u0000b\u001fc\uffffd')).toBe('a b c d');
    expect(escapeText('\ud800')).toBe('\ufffd');
  });
  it('writes coordinates short', () => {
    expect([1, 1.5, 1.234, -0.001, 0, 1e-9, -3.999].map(n)).toEqual(['1', '1.5', '1.23', '0', '0', '0', '-4']);
  });
});
